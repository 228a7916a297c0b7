package tag

import (
	"math"

	"fyne.io/fyne/v2"
	"underfall/app/theme"
	"underfall/geometry/placing"
)

// How wide a tag is, usually, where its fields stand in one row and where they stand one under the other, and how far
// it stays from its thing and from the rim, in units.
const (
	tagWide    = 268
	rowWide    = 400
	columnWide = 132
	asideOf    = 14
	rimOf      = 4
	// leastHigh is how high a tag is at least, so that a field is seen in it; scrolledTo how much of a column, whose
	// end can be done without, may not show.
	leastHigh  = 100
	scrolledTo = 36
)

// pad is what a tag has round what stands on it, at both sides.
func (l *Layer) pad() float32 { return 2 * theme.Of(l).Unit(theme.Space2) }

// wanted is how large the tag would be that is open, if it were so wide: as wide as what is on it at least, and no
// larger than the layer.
func (l *Layer) wanted(wide float32) fyne.Size {
	rim := 2 * theme.Of(l).Unit(rimOf)
	wide = min(max(wide, l.body.MinSize().Width+l.pad()), max(l.Size().Width-rim, 0))
	// It says how high it is once it knows how wide.
	l.body.Resize(fyne.NewSize(wide-l.pad(), l.body.MinSize().Height))
	return l.noHigher(fyne.NewSize(wide, l.body.MinSize().Height+l.pad()), max(l.Size().Height-rim, 0))
}

// noHigher is a size cut to a height: with room for the bar where that leaves something to be scrolled to.
func (l *Layer) noHigher(s fyne.Size, high float32) fyne.Size {
	if s.Height <= high {
		return s
	}
	t := theme.Of(l)
	return fyne.NewSize(min(s.Width+t.Unit(theme.Space2), max(l.Size().Width-2*t.Unit(rimOf), 0)), high)
}

// sizes are those that the tag may have, the usual one first: wider and less high with its fields in one row, or as a
// column where that is not too high.
func (l *Layer) sizes() []fyne.Size {
	t := theme.Of(l)
	out := []fyne.Size{l.wanted(t.Unit(tagWide))}
	if row := l.wanted(t.Unit(rowWide)); row.Height < out[0].Height {
		out = append(out, row)
	}
	if column := l.wanted(t.Unit(columnWide)); column.Width < out[0].Width && l.body.MinSize().Height+l.pad()-column.Height <= t.Unit(scrolledTo) {
		out = append(out, column)
	}
	return out
}

// place finds a size and a place for the tag: beside its thing, within the layer, over as little of the drawing as may
// be. A thing that leaves no room is covered as far from its middle as can be.
func (l *Layer) place() {
	if l.card == nil || l.Size().Width <= 0 {
		return
	}
	if l.thing.On {
		l.size = l.wanted(0)
		l.at = l.within(l.thing.At.SubtractXY(l.size.Width/2, l.size.Height/2))
		return
	}
	box, sizes := l.box(), l.sizes()
	scene := &placing.Scene{Picture: placing.Box{High: placing.Point{float64(l.Size().Width), float64(l.Size().Height)}}.Grown(-rimOf),
		Handles: []placing.Box{box}, Ink: l.ink(), Cut: placing.NewCover(1, 1, 1)}
	placed := l.choose(scene, box, sizes)
	if above, below := float32(box.Low[1]), l.Size().Height-float32(box.High[1]); !placed && max(above, below) > theme.Of(l).Unit(leastHigh)+asideOf+rimOf {
		var low []fyne.Size
		for _, s := range sizes { // the rest is scrolled to
			low = append(low, l.noHigher(s, max(above, below)-asideOf-rimOf))
		}
		placed = l.choose(scene, box, low)
	}
	if !placed { // the thing is nearly all there is to see
		scene.Handles = nil
		scene.Ink.Fill([][]placing.Point{box.Corners()}, thingWeight)
		placed = l.choose(scene, box, sizes)
	}
	if !placed {
		l.size = sizes[0]
		l.at = l.within(l.thing.High)
	}
	l.body.Resize(fyne.NewSize(l.size.Width-l.pad(), l.body.MinSize().Height))
	if l.body.MinSize().Height > l.size.Height-l.pad() { // beside the bar
		l.body.Resize(fyne.NewSize(l.size.Width-l.pad()-theme.Of(l).Unit(theme.Space2), l.body.MinSize().Height))
	}
}

// choose takes the best of the places for the tag in any of some sizes; it tells whether there is one.
func (l *Layer) choose(s *placing.Scene, thing placing.Box, sizes []fyne.Size) bool {
	var candidates []placing.Candidate
	for i, size := range sizes {
		candidates = append(candidates, l.candidates(thing, size, float64(i)*otherCost)...)
	}
	chosen := placing.Place(s, []placing.Label{{Candidates: candidates, LeaveOut: math.Inf(1)}})[0]
	if chosen < 0 {
		return false
	}
	b := candidates[chosen].Boxes[0]
	l.at = fyne.NewPos(float32(b.Low[0]), float32(b.Low[1]))
	l.size = fyne.NewSize(float32(b.High[0]-b.Low[0]), float32(b.High[1]-b.Low[1]))
	return true
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
// thingWeight is that of a cell of the thing itself, otherCost what a size costs more than the one before.
const (
	otherCost   = 8
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

// candidates are the places for the tag in a size that costs so much: all over the layer, the cheaper the nearer to the
// thing.
func (l *Layer) candidates(thing placing.Box, size fyne.Size, cost float64) (out []placing.Candidate) {
	wide, high := float64(size.Width), float64(size.Height)
	at := placing.Point{float64(l.thing.At.X), float64(l.thing.At.Y)}
	add := func(x, y float64) {
		b := placing.Box{Low: placing.Point{x, y}, High: placing.Point{x + wide, y + high}}
		off := func(k int) float64 { return math.Max(0, math.Max(b.Low[k]-at[k], at[k]-b.High[k])) }
		out = append(out, placing.Candidate{Boxes: []placing.Box{b}, Cost: cost + math.Hypot(off(0), off(1))})
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
