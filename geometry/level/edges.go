package level

import (
	"iter"
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
)

// EdgeLevels are the finished levels along one open edge.
type EdgeLevels struct {
	Edge layout.Edge
	// ShowerA, ShowerB are the tile inside at the two ends; RoomA and RoomB the
	// floor just outside.
	ShowerA, ShowerB, RoomA, RoomB float64
}

// Tapered tells whether the edge makes a cheek: higher at one end.
func (e EdgeLevels) Tapered() bool { return math.Abs(e.ShowerA-e.ShowerB) > 0.05 }

// WorstStepMM is the step with the greatest size along the edge, signed: the
// rise from the room into the shower.
func (e EdgeLevels) WorstStepMM() float64 {
	a, b := e.ShowerA-e.RoomA, e.ShowerB-e.RoomB
	if math.Abs(b) > math.Abs(a) {
		return b
	}
	return a
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

// EdgeLevels are the levels along one open edge. A ramp's top is level with the
// lower end of its edge.
func (h *Heights) EdgeLevels(j *job.Job, l *layout.Layout, e layout.Edge) EdgeLevels {
	x := EdgeLevels{Edge: e, ShowerA: h.ShowerAt(l, e.A), ShowerB: h.ShowerAt(l, e.B), RoomA: h.RoomAt(j, e.A), RoomB: h.RoomAt(j, e.B)}
	if len(e.Ramp) > 0 {
		s := h.RampSurface(j, l, e)
		x.RoomA, x.RoomB = s.At(e.A), s.At(e.B)
	}
	return x
}
