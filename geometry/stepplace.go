package geometry

import (
	"math"

	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// WayIn is the step at the way in: the greatest of the open edges; of several that are told as great
// the one with the trap before it. Nil where no edge is stepped over.
func (r *Result) WayIn() (best *Step) {
	steps := r.Steps()
	worst := WorstStep(steps, rule.OpenEdge)
	off := math.Inf(1)
	for i := range steps {
		s := &steps[i]
		if s.Where.Of != rule.OpenEdge || math.Abs(s.MM) < math.Abs(worst.MM)-sameFloorMM {
			continue
		}
		at, over, ok := r.StepPlace(s.Where)
		if aside := math.Abs(plan.Cross(r.Layout.TrapCentre.Sub(at), over)); ok && aside < off-plan.HairMM {
			best, off = s, aside
		}
	}
	return best
}

// StepPlace is where, on plan, the step of an open edge or at a doorway is greatest, and the way
// over it, of length one: from the room into the shower, or from beyond a doorway into the room.
// Where a step is as great all along an edge it is there where it is nearest to the trap. ok is
// false of anything that the job has no step of.
func (r *Result) StepPlace(of rule.Subject) (at, over plan.Point, ok bool) {
	switch of.Of {
	case rule.Doorway:
		for i := range r.Layout.Doors {
			if d := &r.Layout.Doors[i]; d.Index == of.Number-1 {
				return d.Middle(), d.Wall.Outward.Mul(-1), true
			}
		}
	case rule.OpenEdge:
		for i, e := range r.Heights.Edges(&r.Settled, &r.Layout) {
			if i == of.Number-1 {
				return worstNear(e, r.Layout.TrapCentre), r.Layout.Outward(e.Edge).Mul(-1), true
			}
		}
	}
	return at, over, false
}

// offEndMM is how far off the end of an edge its step is looked at: past the finish of a wall.
const offEndMM = 25

// worstNear is the place along an edge nearest to another, where its step is told in as many whole
// millimetres there as where it is greatest; else that place. Both are off the edge's ends.
func worstNear(e level.EdgeLevels, near plan.Point) plan.Point {
	along, long := e.Edge.B.Sub(e.Edge.A).Normalize(), e.Edge.LengthMM()
	if long <= 2*offEndMM {
		return e.Edge.Middle()
	}
	off := func(p plan.Point) plan.Point {
		t := p.Sub(e.Edge.A).Dot(along)
		return e.Edge.A.Add(along.Mul(math.Max(offEndMM, math.Min(long-offEndMM, t))))
	}
	worst := off(worstPlace(e))
	if best := off(near); math.Round(math.Abs(stepAt(e, best))) == math.Round(math.Abs(e.WorstStepMM())) {
		return best
	}
	return worst
}

// stepAt is how far the shower's tile lies over the floor outside at a place along an edge.
func stepAt(e level.EdgeLevels, at plan.Point) float64 {
	for _, s := range e.Straights() {
		along, long := s.Edge.B.Sub(s.Edge.A).Normalize(), s.Edge.LengthMM()
		if t := at.Sub(s.Edge.A).Dot(along); t >= -plan.HairMM && t <= long+plan.HairMM && long > 0 {
			share := t / long
			return (1-share)*(s.ShowerA-s.RoomA) + share*(s.ShowerB-s.RoomB)
		}
	}
	return math.NaN() // not on the edge
}
