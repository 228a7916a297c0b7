package geometry

import (
	"math"

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
				return plan.NearestOnSegment(r.Floor.DoorWorst(*d), d.A, d.B), d.Wall.Outward.Mul(-1), true
			}
		}
	case rule.OpenEdge:
		for i, e := range r.Heights.Edges(&r.Settled, &r.Layout) {
			if i == of.Number-1 {
				at, _ := e.StepNear(r.Layout.TrapCentre, r.Settled.Units)
				return e.OffEnds(at), r.Layout.Outward(e.Edge).Mul(-1), true
			}
		}
	}
	return at, over, false
}
