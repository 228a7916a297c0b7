package level

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// offEndMM is how far off the end of an edge its step is looked at: past the finish of a wall.
const offEndMM = 25

// StepNear is where along the edge its step is looked at, and between which levels it lies there: nearest to
// another place, off the edge's ends, where it is told as high there as where it is greatest; else where it is
// greatest.
func (e EdgeLevels) StepNear(near plan.Point, s unit.System) (at plan.Point, rise message.Rise) {
	var worst message.Rise
	worst.FromMM, worst.ToMM = e.WorstStep()
	at = e.OffEnds(near)
	if rise = e.riseAt(at); unit.RiseRead(rise, s) == unit.RiseRead(worst, s) {
		return at, rise
	}
	return e.worstPlace(), worst
}

// OffEnds is the place on the edge nearest to another, off its ends; the middle of a short one.
func (e EdgeLevels) OffEnds(near plan.Point) plan.Point {
	long := e.Edge.LengthMM()
	if long <= 2*offEndMM {
		return e.Edge.Middle()
	}
	along := e.Edge.B.Sub(e.Edge.A).Mul(1 / long)
	t := near.Sub(e.Edge.A).Dot(along)
	return e.Edge.A.Add(along.Mul(math.Max(offEndMM, math.Min(long-offEndMM, t))))
}

// riseAt is between which levels the step lies at a place along the edge.
func (e EdgeLevels) riseAt(at plan.Point) message.Rise {
	for _, s := range e.Straights() {
		along, long := s.Edge.B.Sub(s.Edge.A).Normalize(), s.Edge.LengthMM()
		if t := at.Sub(s.Edge.A).Dot(along); t >= -plan.HairMM && t <= long+plan.HairMM && long > 0 {
			share := t / long
			room, shower := (1-share)*s.RoomA+share*s.RoomB, (1-share)*s.ShowerA+share*s.ShowerB
			if e.HasKerb {
				return message.Rise{FromMM: math.Min(room, shower), ToMM: e.Kerb}
			}
			return message.Rise{FromMM: room, ToMM: shower}
		}
	}
	from, to := e.WorstStep() // not on the edge
	return message.Rise{FromMM: from, ToMM: to}
}

// worstPlace is where along the edge the step between the floors is greatest.
func (e EdgeLevels) worstPlace() plan.Point {
	worst, at := e.ShowerA-e.RoomA, e.Edge.A
	for _, p := range append([]EdgePlace{{At: e.Edge.B, Shower: e.ShowerB, Room: e.RoomB}}, e.Between...) {
		if step := p.Shower - p.Room; math.Abs(step) > math.Abs(worst)+plan.HairMM {
			worst, at = step, p.At
		}
	}
	return at
}
