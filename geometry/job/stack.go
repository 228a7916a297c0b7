package job

import (
	"fmt"
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// mostStacks is how many stacks a job may have.
const mostStacks = 20

// Stack is an upright pipe that wastes join, in the room or outside it.
type Stack struct {
	At        plan.Point `json:"at"` // its middle
	NominalMM float64    `json:"nominalMM"`
	OutsideMM float64    `json:"outsideMM"` // diameter
	// FootInvertMM is the level of the invert of the tail of the bend at its foot; nil
	// when it is not known.
	FootInvertMM *float64 `json:"footInvertMM,omitempty"`
	// OpposedMM is the level of the middle of another branch that joins on the side
	// opposite to the shower's waste, OpposedNominalMM its size; nil for none.
	OpposedMM        *float64 `json:"opposedMM,omitempty"`
	OpposedNominalMM float64  `json:"opposedNominalMM,omitempty"`
}

// StacksKey is where stacks are in the job's file.
const StacksKey = "room.stacks"

// StackClearMM is how far a stack is set off from a wall, and kept from what it must not
// stand in: a casing goes round it. Common practice, no source.
const StackClearMM = 60

// A usual stack. Common practice, no source.
const (
	usualStackMM   = 110
	usualOpposedMM = 110
)

// UsualStack stands by the wall where the waste leaves, or by the first, at the first
// place from its start corner where no other stack is.
func UsualStack(j *Job) Stack {
	s := Stack{NominalMM: usualStackMM, OutsideMM: usualStackMM, OpposedNominalMM: usualOpposedMM}
	n := len(j.Room.Outline)
	wall := 0
	if e := j.Waste.Exit; e.Kind == ExitWall && e.Wall >= 0 && e.Wall < n {
		wall = e.Wall
	}
	const off = usualStackMM/2.0 + StackClearMM
	room, corner, length := plan.FromRing(j.Room.Outline), j.Room.Outline[wall], j.Room.WallLengthMM(wall)
	on := j.Room.Outline[(wall+1)%n].Sub(corner).Normalize()
	for along := off; along <= length-off; along += usualStackMM {
		for _, side := range []plan.Point{plan.Left(on), plan.Left(on).Mul(-1)} {
			s.At = corner.Add(on.Mul(along)).Add(side.Mul(off))
			s.At = plan.Point{math.Round(s.At.X()), math.Round(s.At.Y())}
			if room.Contains(s.At, 0) && !slices.ContainsFunc(j.Room.Stacks, s.Overlaps) {
				return s
			}
		}
	}
	return s
}

// Overlaps tells whether two stacks take the same room.
func (s Stack) Overlaps(o Stack) bool { return s.At.Sub(o.At).Len() < (s.OutsideMM+o.OutsideMM)/2 }

// withoutStack is what a stack that goes leaves of the waste's exit: one that joined it
// ends at a pipe in its place.
func withoutStack(j *Job, i int) {
	e := &j.Waste.Exit
	switch {
	case e.Kind == ExitStack && e.Stack == i:
		e.Kind, e.At, e.NominalMM, e.Stack = ExitPipe, j.Room.Stacks[i].At, 0, 0
	case e.Stack > i:
		e.Stack--
	}
}

// stacks checks that stacks stand apart, and that the waste's exit joins one that is there.
func (v *validator) stacks(j Job) {
	for i, s := range j.Room.Stacks {
		for k, o := range j.Room.Stacks[:i] {
			if s.Overlaps(o) {
				v.add(fmt.Sprintf("room.stacks[%d]", i), "problem.stacks-overlap", message.No("other", k+1))
			}
		}
	}
	if e := j.Waste.Exit; e.Kind == ExitStack && (e.Stack < 0 || e.Stack >= len(j.Room.Stacks)) {
		v.add("waste.exit.stack", "problem.no-stack", message.No("stack", e.Stack+1), message.No("stacks", len(j.Room.Stacks)))
	}
}

// Vent is a vent pipe that joins the run from above.
type Vent struct {
	AtMM      float64 `json:"atMM"` // along the run from the outlet
	NominalMM float64 `json:"nominalMM"`
}

// UsualVent joins the run at the trap. Common practice, no source.
func UsualVent() Vent { return Vent{NominalMM: 32} }
