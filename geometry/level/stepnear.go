package level

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// OffEndMM is how far off the end of an edge its step is looked at, and the room for a ramp: past the finish of a wall,
// and past one a little out of square. Common practice, no source.
const OffEndMM = 25

// StepNear is where along the edge its step is looked at, and between which levels it lies there: nearest to
// another place, off the edge's ends, where it is told as high there as where it is greatest; else where it is
// greatest.
func (e EdgeLevels) StepNear(near plan.Point, s unit.System) (at plan.Point, rise message.Rise) {
	greatest, worst := e.worst()
	at = e.OffEnds(near)
	if rise = e.riseAt(at); unit.RiseRead(rise, s) == unit.RiseRead(worst, s) {
		return at, rise
	}
	return greatest, worst
}

// OffEnds is the place on the edge nearest to another, off its ends; the middle of a short one.
func (e EdgeLevels) OffEnds(near plan.Point) plan.Point {
	long := e.Edge.LengthMM()
	if long <= 2*OffEndMM {
		return e.Edge.Middle()
	}
	along := e.Edge.B.Sub(e.Edge.A).Mul(1 / long)
	t := near.Sub(e.Edge.A).Dot(along)
	return e.Edge.A.Add(along.Mul(math.Max(OffEndMM, math.Min(long-OffEndMM, t))))
}

// riseAt is between which levels the step lies at a place along the edge.
func (e EdgeLevels) riseAt(at plan.Point) message.Rise {
	for _, s := range e.Straights() {
		along, long := s.Edge.B.Sub(s.Edge.A).Normalize(), s.Edge.LengthMM()
		if t := at.Sub(s.Edge.A).Dot(along); t >= -plan.HairMM && t <= long+plan.HairMM && long > 0 {
			share := t / long
			return e.rise((1-share)*s.RoomA+share*s.RoomB, (1-share)*s.ShowerA+share*s.ShowerB)
		}
	}
	_, worst := e.worst() // not on the edge
	return worst
}
