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

// In a room that is tanked all over, with 1 mm, the uppermost millimetre of the lid, 106 to 107, is
// tanking from end to end. Tanked to 300 past the shower's right side, x = 1400, it is to 945 along the
// run, which begins at x = 755; untanked it is none.
func TestTankingOverABoxAlongTheRun(t *testing.T) {
	beyond := 300.0
	for what, c := range map[string]struct {
		tanking *job.Tanking
		mm      float64
		at      map[float64]bool
	}{
		"all over":    {nil, 1, map[float64]bool{700: true, 1600: true}},
		"to 300":      {&job.Tanking{BeyondMM: &beyond}, 1, map[float64]bool{700: true, 940: true, 960: false, 1600: false}},
		"none at all": {nil, 0, map[float64]bool{700: false}},
	} {
		r := starting(t, func(j *job.Job) {
			j.SpotLevels, j.Drain.OutletTurnDeg = nil, 0
			j.Waste.Exit, j.Waste.Boxing = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}, &job.Boxing{BoardMM: 12, GapMM: 16.5}
			j.Layers.Tanking, j.Layers.Room.Tanking.ThicknessMM = c.tanking, c.mm
		})
		d := section.LongOf(r)
		for s, want := range c.at {
			if a, _ := d.At(plan.Point{s, 106.5 * d.Rise}); (a.PartID == "boxing-tanking") != want {
				t.Errorf("%s, %v along the run: %q", what, s, a.PartID)
			}
			if a, _ := d.At(plan.Point{s, 105 * d.Rise}); a.PartID != "boxing" {
				t.Errorf("%s, under it %v along the run: %q", what, s, a.PartID)
			}
		}
	}
}
