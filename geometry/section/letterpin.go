package section

import (
	"math"

	"underfall/geometry/placing"
)

// Pin marks a place of the sheet with a disc, and with a label beside it.
type Pin struct {
	At     placing.Point // where the disc's middle is
	Radius float64       // of all that is drawn about the place
	// Wide and High are what its label takes with the paper under it; nothing for a pin without one.
	Wide, High float64
	// Must has its label stand wherever there is room on the sheet.
	Must bool
}

// Pinned is the label of a pin, by its index, with what leads to it.
type Pinned struct {
	Pin    int
	Box    placing.Box
	Leader placing.Straight
}

// What labels of pins cost, and how they may stand about their discs, in points.
const (
	pinCost     = 400  // to leave one out
	pinLead     = 0.6  // a point of what leads to it
	pinTurn     = 0.25 // a degree off to the right and up
	pinMostTurn = 45.0 // as if it were turned no further
	pinAcross   = 300  // to have what leads to one that must stand run across discs and other labels
	pinGrid     = 24   // from place to place of one that must stand
)

// pinOffs are how far labels may stand off their discs, in points.
func pinOffs() []float64 { return []float64{7, 20, 36, 56, 82, 115, 155} }

// disc is what a pin's disc takes.
func (p Pin) disc() placing.Box { return placing.Around(p.At, 2*p.Radius, 2*p.Radius) }

// taken keeps everything that is written off the discs of pins and off what lies over the sheet.
func (l *letterer) taken() {
	l.scene.Taken = append(l.scene.Taken, l.Taken...)
	for _, p := range l.Pins {
		l.scene.Taken = append(l.scene.Taken, p.disc())
	}
}

// pin asks for room for a pin's label: beside it, or one that must stand anywhere.
func (l *letterer) pin(i int) {
	p := l.Pins[i]
	if p.Wide <= 0 {
		return
	}
	var candidates []placing.Candidate
	var leaders []placing.Straight
	try := func(middle placing.Point, cost float64, free bool) {
		box := placing.Around(middle, p.Wide, p.High)
		near := placing.Point{math.Max(box.Low[0], math.Min(box.High[0], p.At[0])), math.Max(box.Low[1], math.Min(box.High[1], p.At[1]))}
		way := placing.Point{near[0] - p.At[0], near[1] - p.At[1]}
		off := math.Hypot(way[0], way[1])
		from := math.Sqrt2*p.Radius + 1 // outside the square about the disc
		if off <= from {
			return
		}
		start := placing.Point{p.At[0] + way[0]/off*from, p.At[1] + way[1]/off*from}
		leader := placing.Straight{start, near}
		leaders = append(leaders, leader)
		c := placing.Candidate{Boxes: []placing.Box{box}, Cost: cost + pinLead*off/l.Scale}
		if !free {
			c.Leader = []placing.Straight{leader}
		}
		candidates = append(candidates, c)
	}
	const turns = 16
	for _, off := range pinOffs() {
		for k := range turns {
			deg := float64(k) * 360 / turns
			turned := math.Abs(math.Mod(deg+360+180-45, 360) - 180)
			sin, cos := math.Sincos(deg * math.Pi / 180)
			reach := math.Sqrt2*p.Radius + off*l.Scale
			try(placing.Point{p.At[0] + cos*(reach+p.Wide/2), p.At[1] - sin*(reach+p.High/2)}, pinTurn*math.Min(pinMostTurn, turned), false)
		}
	}
	leaveOut := float64(pinCost)
	if p.Must {
		leaveOut = 2 * stepCost
		step := pinGrid * l.Scale
		for y := p.High / 2; y < l.Height; y += step {
			for x := p.Wide / 2; x < l.Width; x += step {
				middle := placing.Point{x, y}
				try(middle, pinTurn*pinMostTurn, false)
				try(middle, pinAcross, true)
			}
		}
	}
	l.add(placing.Label{Candidates: candidates, LeaveOut: leaveOut}, func(k int, out *Lettering) {
		out.Pinned = append(out.Pinned, Pinned{i, candidates[k].Boxes[0], leaders[k]})
	})
}
