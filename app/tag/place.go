package tag

import (
	"math"

	"fyne.io/fyne/v2"
	"underfall/app/theme"
	"underfall/geometry/placing"
)

// How wide a tag is and how far it stays from its thing and from the rim, in units.
const (
	tagWide = 268
	asideOf = 14
	rimOf   = 4
	// leastHigh is how high a tag is at least, so that a field is seen in it.
	leastHigh = 100
)

// inner is how wide what stands on a tag is at least; in the place of a figure as wide as it needs to be.
func (l *Layer) inner() float32 {
	if l.thing.On {
		return 0
	}
	return theme.Of(l).Unit(tagWide) - 2*theme.Of(l).Unit(theme.Space2)
}

// wanted is how large the tag would be that is open: no larger than the layer.
func (l *Layer) wanted() fyne.Size {
	t := theme.Of(l)
	rim, pad := 2*t.Unit(rimOf), 2*t.Unit(theme.Space2)
	wide := min(max(l.inner(), l.body.MinSize().Width)+pad, max(l.Size().Width-rim, 0))
	// Text says how high it is once it knows how wide.
	l.body.Resize(fyne.NewSize(wide-pad, l.body.MinSize().Height))
	return fyne.NewSize(wide, min(l.body.MinSize().Height+pad, max(l.Size().Height-rim, 0)))
}

// place finds a place for the tag: beside its thing, within the layer, over as little of the drawing as may be.
// A thing that leaves no room is covered as far from its middle as can be.
func (l *Layer) place() {
	if l.card == nil || l.Size().Width <= 0 {
		return
	}
	l.size = l.wanted()
	if l.thing.On {
		l.at = l.within(l.thing.At.SubtractXY(l.size.Width/2, l.size.Height/2))
		return
	}
	box := l.box()
	scene := &placing.Scene{Picture: placing.Box{High: placing.Point{float64(l.Size().Width), float64(l.Size().Height)}}.Grown(-rimOf),
		Handles: []placing.Box{box}, Ink: l.ink(), Cut: placing.NewCover(1, 1, 1)}
	candidates, chosen := l.choose(scene, box)
	if above, below := float32(box.Low[1]), l.Size().Height-float32(box.High[1]); chosen < 0 && max(above, below) > theme.Of(l).Unit(leastHigh)+asideOf+rimOf {
		l.size.Height = min(l.size.Height, max(above, below)-asideOf-rimOf) // the rest is scrolled to
		candidates, chosen = l.choose(scene, box)
	}
	if chosen < 0 { // the thing is nearly all there is to see
		l.size = l.wanted()
		scene.Handles = nil
		scene.Ink.Fill([][]placing.Point{{box.Low, {box.High[0], box.Low[1]}, box.High, {box.Low[0], box.High[1]}}}, thingWeight)
		candidates, chosen = l.choose(scene, box)
	}
	if chosen < 0 {
		l.at = l.within(l.thing.High)
		return
	}
	b := candidates[chosen].Boxes[0]
	l.at = fyne.NewPos(float32(b.Low[0]), float32(b.Low[1]))
}

// choose are the places for the tag as large as it is now, and the best of them; -1 for none.
func (l *Layer) choose(s *placing.Scene, thing placing.Box) (candidates []placing.Candidate, chosen int) {
	candidates = l.candidates(thing)
	return candidates, placing.Place(s, []placing.Label{{Candidates: candidates, LeaveOut: math.Inf(1)}})[0]
}

// within is the nearest place to one at which all of the tag is in the layer.
func (l *Layer) within(at fyne.Position) fyne.Position {
	return fyne.NewPos(max(0, min(at.X, l.Size().Width-l.size.Width)), max(0, min(at.Y, l.Size().Height-l.size.Height)))
}

// box is what is seen of the thing, in the layer.
func (l *Layer) box() placing.Box {
	in := func(p fyne.Position) placing.Point {
		return placing.Point{float64(max(0, min(p.X, l.Size().Width))), float64(max(0, min(p.Y, l.Size().Height)))}
	}
	return placing.Box{Low: in(l.thing.Low), High: in(l.thing.High)}
}

// What it costs to stand on the drawing, for a straight of it in a cell, and how large a cell is in units.
// thingWeight is that of a cell of the thing itself.
const (
	inkWeight   = 3
	inkCell     = 8
	thingWeight = 20
)

func (l *Layer) ink() *placing.Cover {
	c := placing.NewCover(float64(l.Size().Width), float64(l.Size().Height), inkCell)
	for _, s := range l.thing.Lines {
		c.Line(placing.Straight{{float64(s[0].X), float64(s[0].Y)}, {float64(s[1].X), float64(s[1].Y)}}, inkWeight)
	}
	return c
}

// candidates are the places for the tag: all over the layer, the cheaper the nearer to the thing.
func (l *Layer) candidates(thing placing.Box) (out []placing.Candidate) {
	wide, high := float64(l.size.Width), float64(l.size.Height)
	at := placing.Point{float64(l.thing.At.X), float64(l.thing.At.Y)}
	add := func(x, y float64) {
		b := placing.Box{Low: placing.Point{x, y}, High: placing.Point{x + wide, y + high}}
		off := func(k int) float64 { return math.Max(0, math.Max(b.Low[k]-at[k], at[k]-b.High[k])) }
		out = append(out, placing.Candidate{Boxes: []placing.Box{b}, Cost: math.Hypot(off(0), off(1))})
	}
	const step = 12
	most := func(k int, size float64) float64 {
		return float64([2]float32{l.Size().Width, l.Size().Height}[k]) - size - rimOf
	}
	xs := []float64{rimOf, most(0, wide), thing.Low[0] - wide - asideOf, thing.High[0] + asideOf}
	ys := []float64{rimOf, most(1, high), thing.Low[1] - high - asideOf, thing.High[1] + asideOf}
	for x := rimOf + 0.0; x < most(0, wide); x += step {
		xs = append(xs, x)
	}
	for y := rimOf + 0.0; y < most(1, high); y += step {
		ys = append(ys, y)
	}
	for _, y := range ys {
		for _, x := range xs {
			add(x, y)
		}
	}
	return out
}

// covers tells whether the tag lies on its thing where it could lie beside it, or out of the layer.
func (l *Layer) covers() bool {
	box := placing.Box{Low: placing.Point{float64(l.at.X), float64(l.at.Y)},
		High: placing.Point{float64(l.at.X + l.size.Width), float64(l.at.Y + l.size.Height)}}
	return !l.thing.On && box.Overlaps(l.box()) || l.within(l.at) != l.at
}

// tie is from where on the tag's edge to where on the thing the line goes.
func (l *Layer) tie() (from, to fyne.Position) {
	to = l.thing.At
	from = fyne.NewPos(max(l.at.X, min(to.X, l.at.X+l.size.Width)), max(l.at.Y, min(to.Y, l.at.Y+l.size.Height)))
	return from, to
}

// arrange puts the tag where it has been placed.
func (l *Layer) arrange() {
	if l.card == nil {
		return
	}
	l.card.Move(l.at)
	l.card.Resize(l.size)
}
