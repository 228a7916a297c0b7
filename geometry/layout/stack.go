package layout

import "underfall/geometry/plan"

// Stack is an upright pipe that wastes join, in plan.
type Stack struct {
	At       plan.Point
	RadiusMM float64
}

// StandingOn are the stacks that stand wholly on a region of the floor. One across its
// edge, in a wall or under a ramp's foot, is none: the floor is cut to it by eye.
func (l *Layout) StandingOn(region plan.Region) (out []Stack) {
	const besideMM = 0.1
	for _, s := range l.Stacks {
		if region.Contains(s.At, 0) && region.EdgeMM(s.At) > s.RadiusMM+besideMM {
			out = append(out, s)
		}
	}
	return out
}
