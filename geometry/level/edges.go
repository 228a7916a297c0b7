package level

import (
	"iter"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// EdgeLevels are the finished levels along one open edge.
type EdgeLevels struct {
	Edge layout.Edge
	// ShowerA, ShowerB are the tile inside at the two ends; RoomA and RoomB the
	// floor just outside.
	ShowerA, ShowerB, RoomA, RoomB float64
	// Between are the levels where planes of the falling floor meet along the edge; from
	// one place to the next it is straight.
	Between []EdgePlace
	// Kerb is the level of the top of a kerb along the edge, where HasKerb says so.
	Kerb    float64
	HasKerb bool
}

// EdgePlace is a place along an open edge: the tile inside and the floor just outside.
type EdgePlace struct {
	At           plan.Point
	Shower, Room float64
}

// Ends are the edge's lowest and highest places.
func (e EdgeLevels) Ends() (low, high EdgePlace) {
	low, high = EdgePlace{e.Edge.A, e.ShowerA, e.RoomA}, EdgePlace{e.Edge.B, e.ShowerB, e.RoomB}
	if low.Shower > high.Shower+plan.HairMM {
		low, high = high, low
	}
	for _, p := range e.Between {
		if p.Shower < low.Shower-plan.HairMM {
			low = p
		}
	}
	return low, high
}

// Tapered tells whether the edge makes a cheek: higher at one place than at another.
func (e EdgeLevels) Tapered() bool {
	low, high := e.Ends()
	return high.Shower-low.Shower > 0.05
}

// leastCheekMM is how high a cheek is at least where it is highest: less, as where a ramp comes up to the edge, is the joint's.
// Common practice, no source.
const leastCheekMM = 2

// Cheek is the outline of the piece that closes the shower's side along an edge that is higher at one end than at the other: how far
// along the edge, and how high over the floor just outside, the foot first and then the top from the far end back; nil where no piece
// rakes: at a level edge, at a kerb, where the shower lies lower, and where it comes to less than a joint.
func (e EdgeLevels) Cheek() plan.Ring {
	low, high := e.Ends()
	if !e.Tapered() || e.HasKerb || low.Shower < low.Room || high.Shower-high.Room < leastCheekMM {
		return nil
	}
	long := e.Edge.LengthMM()
	out := plan.Ring{{0, 0}, {long, 0}, {long, e.ShowerB - e.RoomB}}
	for _, p := range slices.Backward(e.Between) {
		out = append(out, plan.Point{p.At.Sub(e.Edge.A).Len(), p.Shower - p.Room})
	}
	return append(out, plan.Point{0, e.ShowerA - e.RoomA})
}

// WorstStepMM is the step with the greatest size along the edge, signed: the
// rise from the room into the shower; over a kerb from the lower floor beside it.
func (e EdgeLevels) WorstStepMM() float64 {
	fromMM, toMM := e.WorstStep()
	return toMM - fromMM
}

// WorstStep is from which level to which the step with the greatest size leads.
func (e EdgeLevels) WorstStep() (fromMM, toMM float64) {
	_, rise := e.worst()
	return rise.FromMM, rise.ToMM
}

// worst is where along the edge the step with the greatest size is, the first of several as great, and between which
// levels it lies there.
func (e EdgeLevels) worst() (at plan.Point, rise message.Rise) {
	at, rise = e.Edge.A, e.rise(e.RoomA, e.ShowerA)
	for _, p := range append([]EdgePlace{{At: e.Edge.B, Shower: e.ShowerB, Room: e.RoomB}}, e.Between...) {
		if r := e.rise(p.Room, p.Shower); math.Abs(r.ToMM-r.FromMM) > math.Abs(rise.ToMM-rise.FromMM)+plan.HairMM {
			at, rise = p.At, r
		}
	}
	return at, rise
}

// rise is the step between the floors at one place: from the room into the shower, over a kerb from the lower of them.
func (e EdgeLevels) rise(room, shower float64) message.Rise {
	if e.HasKerb {
		return message.Rise{FromMM: math.Min(room, shower), ToMM: e.Kerb}
	}
	return message.Rise{FromMM: room, ToMM: shower}
}

// Straights divides the edge where planes meet along it, so that each part is straight.
func (e EdgeLevels) Straights() []EdgeLevels {
	out := make([]EdgeLevels, 0, 1+len(e.Between))
	rest := e
	rest.Between = nil
	for _, p := range e.Between {
		first := rest
		first.Edge.B, first.ShowerB, first.RoomB = p.At, p.Shower, p.Room
		rest.Edge.A, rest.ShowerA, rest.RoomA = p.At, p.Shower, p.Room
		out = append(out, first)
	}
	return append(out, rest)
}

// Edges gives the levels along every open edge, with its number from nought; none
// where the floor falls as a whole.
func (h *Heights) Edges(j *job.Job, l *layout.Layout) iter.Seq2[int, EdgeLevels] {
	return func(yield func(int, EdgeLevels) bool) {
		if j.Former.Fall == job.FallRoom {
			return
		}
		for i, e := range l.OpenEdges() {
			if !yield(i, h.EdgeLevels(j, l, e)) {
				return
			}
		}
	}
}

// EdgeLevels are the levels along one open edge. A ramp meets the tile all along it.
func (h *Heights) EdgeLevels(j *job.Job, l *layout.Layout, e layout.Edge) EdgeLevels {
	outside := func(p plan.Point) float64 { return h.RoomAt(j, p) }
	if h.RampSlope > 0 && ramped(l, e) {
		outside = func(p plan.Point) float64 { return math.Max(h.RoomAt(j, p), h.ShowerAt(l, p)) }
	}
	x := EdgeLevels{Edge: e, ShowerA: h.ShowerAt(l, e.A), ShowerB: h.ShowerAt(l, e.B), RoomA: outside(e.A), RoomB: outside(e.B)}
	for _, p := range e.Creases {
		x.Between = append(x.Between, EdgePlace{p, h.ShowerAt(l, p), outside(p)})
	}
	x.Kerb, x.HasKerb = h.KerbTop(j, l)
	return x
}

// ramped tells whether there is floor for a ramp beside an open edge.
func ramped(l *layout.Layout, e layout.Edge) bool {
	for i := range l.Ramps {
		// At the ends of edges they have two slopes.
		if s := l.Ramps[i].Slopes; len(s) == 1 && l.OpenEdges()[s[0].Edge].A == e.A {
			return true
		}
	}
	return false
}

// KerbTop is the level of the kerb's top; ok is false without a kerb.
func (h *Heights) KerbTop(j *job.Job, l *layout.Layout) (topMM float64, ok bool) {
	if j.Shower.Kerb == nil || len(l.Kerb) == 0 {
		return 0, false
	}
	topMM = math.Inf(-1)
	for _, poly := range l.Kerb {
		for _, p := range poly.Outer {
			topMM = math.Max(topMM, h.ShowerAt(l, p))
		}
	}
	for _, e := range l.OpenEdges() {
		topMM = math.Max(topMM, math.Max(h.RoomAt(j, e.A), h.RoomAt(j, e.B)))
	}
	return topMM + j.Shower.Kerb.HeightMM, true
}
