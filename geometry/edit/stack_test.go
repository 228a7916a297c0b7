package edit_test

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The waste stays where it leads when stacks come, move and go: the exit tells which stack
// by its place in the list.
func TestStacksOfTheExit(t *testing.T) {
	stacks, _ := job.FindList("room.stacks")
	two := func(exit int) job.Job {
		j := job.New()
		j.Room.Stacks = []job.Stack{{At: plan.Point{200, 300}, NominalMM: 110, OutsideMM: 110}, {At: plan.Point{2200, 300}, NominalMM: 110, OutsideMM: 110}}
		j.Waste.Exit = job.Exit{Kind: job.ExitStack, Stack: exit}
		return j
	}
	for name, c := range map[string]struct {
		from job.Job
		edit edit.Edit
		want job.Exit
	}{
		"its stack goes":      {two(0), edit.RemoveItem(stacks, 0), job.Exit{Kind: job.ExitPipe, At: plan.Point{200, 300}}},
		"one before it goes":  {two(1), edit.RemoveItem(stacks, 0), job.Exit{Kind: job.ExitStack, Stack: 0}},
		"one after it goes":   {two(0), edit.RemoveItem(stacks, 1), job.Exit{Kind: job.ExitStack, Stack: 0}},
		"into another":        {two(0), edit.ExitStack(1), job.Exit{Kind: job.ExitStack, Stack: 1}},
		"into none there is":  {two(0), edit.ExitStack(2), job.Exit{Kind: job.ExitStack, Stack: 0}},
		"dragged to another":  {two(0), edit.Drag(edit.Handle{Kind: edit.HandleExit}, plan.Point{1900, 500}), job.Exit{Kind: job.ExitStack, Stack: 1}},
		"to a pipe's end now": {two(1), edit.ExitKind(job.ExitPipe), job.Exit{Kind: job.ExitPipe, Stack: 1, At: plan.Point{2200, 300}}},
	} {
		got := c.edit.Apply(c.from)
		if got.Waste.Exit != c.want {
			t.Errorf("%s: %+v, want %+v", name, got.Waste.Exit, c.want)
		}
		if p := got.Validate(); len(p) > 0 {
			t.Errorf("%s: %v", name, p)
		}
	}
	// One that is to go into a stack where there is none has one set up there: the exit
	// through the left wall is 68 from its corner at y = 1900, and 150 inside it.
	j := edit.ExitKind(job.ExitStack).Apply(job.New())
	if len(j.Room.Stacks) != 1 || j.Room.Stacks[0].At != (plan.Point{150, 1832}) || j.Waste.Exit.Kind != job.ExitStack {
		t.Errorf("stacks %+v, exit %+v", j.Room.Stacks, j.Waste.Exit)
	}
	j = edit.Drag(edit.Handle{Kind: edit.HandleStack}, plan.Point{402, 1398}).Apply(j)
	if j.Room.Stacks[0].At != (plan.Point{400, 1400}) {
		t.Errorf("dragged to %v", j.Room.Stacks[0].At)
	}
	j.Waste.Exit.Stack = 1
	if p := j.Validate(); len(p) != 1 || p[0].What.ID != "problem.no-stack" {
		t.Errorf("into a stack that is not there: %v", p)
	}
}

// A vent is put at the trap with the size it has, and slides along the run.
func TestVentAtTheTrap(t *testing.T) {
	j := job.New()
	j.Waste.Vent = &job.Vent{AtMM: 900, NominalMM: 40}
	if got := edit.VentAtTrap().Apply(j).Waste.Vent; *got != (job.Vent{NominalMM: 40}) {
		t.Errorf("%+v", *got)
	}
	if got := edit.Drag(edit.Handle{Kind: edit.HandleVent}, plan.Point{345, 1700}).Apply(j).Waste.Vent; *got != (job.Vent{AtMM: 300, NominalMM: 40}) {
		t.Errorf("dragged: %+v", *got)
	}
	if j.Waste.Vent.AtMM != 900 {
		t.Error("the job that was edited has changed")
	}
}
