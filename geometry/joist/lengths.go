package joist

import (
	"math"
	"slices"

	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// easeMM is what a length of pipe is at least shorter than the gap between timbers that it is laid into. Common practice, no source.
const easeMM = 10

// CouplingsMM are where along the run a straight of it is coupled that goes through holes in joists, as no length goes in that is longer
// than the longest gap between timbers, or a timber and a wall, on its line: there it is laid in and pushed on, the farthest first. Each
// coupling lies between joists, none within one, the pipes meeting in its middle. beforeMM and afterMM are how far the straight goes into
// what it joins at its ends. One that goes out through a wall is pushed in from outside, and none is needed in one that passes no hole.
//
// Method: each length as long as it may be whose end can be coupled, which takes the fewest. Where no gap has room for a coupling its
// place is the one that the length ends at.
func CouplingsMM(l *layout.Layout, run *waste.Run, cuts []Crossing, p *waste.Piece, beforeMM, afterMM float64) (out []float64) {
	if !Holed(cuts, p) || FromOutside(run, p) {
		return nil
	}
	free := gaps(l, cuts, p)
	most := 0.0
	for _, f := range free {
		most = math.Max(most, f.To-f.From-easeMM)
	}
	half := p.Pipe.InsertionMM
	least := 2 * half // goes into the sockets at both ends
	from, to := p.FromMM-beforeMM, p.ToMM+afterMM
	if most < least {
		return nil // no pipe goes in at all
	}
	for to-from > most+plan.HairMM {
		at := -math.Inf(1)
		for _, f := range free {
			if end := min(f.To-half, from+most, to-least); end >= math.Max(f.From+half, from+least) {
				at = math.Max(at, end)
			}
		}
		if math.IsInf(at, -1) {
			at = from + most
		}
		out, from = append(out, at), at
	}
	return out
}

// Holed tells whether a straight goes through a hole in a joist.
func Holed(cuts []Crossing, p *waste.Piece) bool {
	return slices.ContainsFunc(cuts, func(c Crossing) bool { return c.Kind == Hole && sameStretch(c.Piece, p) })
}

// FromOutside tells whether a straight goes out through a wall, through whose hole it can be pushed in from outside.
func FromOutside(run *waste.Run, p *waste.Piece) bool {
	return p.Kind == waste.Straight && run.Wall > 0 && p.FromMM <= run.WallAtMM && run.WallAtMM <= p.ToMM
}

// sameStretch tells whether two pieces are the same one of a run.
func sameStretch(a, b *waste.Piece) bool {
	return a.Kind == b.Kind && a.FromMM == b.FromMM && a.ToMM == b.ToMM
}

// gaps are the stretches of a straight's line, by distances along the run, that lie in the room and in no timber, of those that the
// straight reaches into. Timber that it is laid into from above stops nothing.
func gaps(l *layout.Layout, cuts []Crossing, p *waste.Piece) []plan.Interval {
	a, along := p.Path[0], p.Path[len(p.Path)-1].Sub(p.Path[0]).Mul(1/p.LengthMM())
	const farMM = 1e5
	whole := l.Room.Clip(a, along)
	low, high := a.Sub(along.Mul(farMM)), a.Add(along.Mul(farMM))
	var timbers []plan.Interval
	for i := range l.Joists {
		t := &l.Joists[i]
		open := func(c Crossing) bool { return c.Kind == Notch && c.Joist.Index == t.Index && sameStretch(c.Piece, p) }
		if from, to, ok := t.Crosses(low, high); ok && !slices.ContainsFunc(cuts, open) {
			timbers = append(timbers, plan.Interval{From: (2*from - 1) * farMM, To: (2*to - 1) * farMM})
		}
	}
	var out []plan.Interval
	for _, f := range plan.Without(whole, timbers) {
		if f.To > 0 && f.From < p.LengthMM() {
			out = append(out, plan.Interval{From: p.FromMM + f.From, To: p.FromMM + f.To})
		}
	}
	return out
}
