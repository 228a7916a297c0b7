package section_test

import (
	"slices"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// A pipe that goes 1000 along the wall beside the shower, from 645 to 1645 along the run, in a
// box of 12 of board that is 90 wide inside: its lid from 95 to 107, its sides from 45 to 57
// off the pipe's middle at y = 1832. It is drawn and named in plan, along the run and across.
func TestBoxIsDrawnAndNamed(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.SpotLevels, j.Drain.OutletTurnDeg = nil, 0
		j.Waste.Exit, j.Waste.Boxing = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}, &job.Boxing{BoardMM: 12, GapMM: 16.5}
	})
	long, inPlan := section.LongOf(r), section.PlanOf(r)
	across := section.Of(r, solid.VerticalCut(plan.Point{1900, 0}, plan.Point{0, 1}), buildup.StageTile)
	for _, c := range []struct {
		what  string
		in    section.Drawing
		at    plan.Point
		boxed bool
	}{
		{"lid", long, plan.Point{700, 101}, true}, {"under the lid", long, plan.Point{700, 90}, false},
		{"before it", long, plan.Point{640, 101}, false}, {"at the wall", long, plan.Point{1640, 101}, true},
		{"from above", inPlan, plan.Point{1900, 1832 - 51}, true}, {"beside it", inPlan, plan.Point{1900, 1832 - 60}, false},
		{"lid across", across, plan.Point{1832, 101}, true}, {"side", across, plan.Point{1832 - 51, 5}, true},
		{"other side", across, plan.Point{1832 + 51, 90}, true}, {"within", across, plan.Point{1832 - 40, 5}, false},
	} {
		at := c.at
		if c.in.Rise > 0 {
			at = plan.Point{at.X(), at.Y() * c.in.Rise}
		}
		a, _ := c.in.At(at)
		if got := a.PartID == "boxing" || a.PartID == "boxing-1"; got != c.boxed {
			t.Errorf("%s: %q", c.what, a.PartID)
		}
	}
	for what, d := range map[string]section.Drawing{"along the run": long, "in plan": inPlan, "across": across} {
		if !slices.ContainsFunc(d.Marks, func(m section.Mark) bool { return m.Of == section.MarkBoxing }) {
			t.Errorf("%s it is not named", what)
		}
	}
	// The room's floor is named beside the box, not where that stands.
	for _, m := range across.Marks {
		if m.Of == section.MarkRoomFloor && m.At.X() > 1832-57 && m.At.X() < 1832+57 {
			t.Errorf("the room's floor is named in the box, at %v", m.At)
		}
	}
}
