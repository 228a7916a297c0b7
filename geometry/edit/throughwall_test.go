package edit_test

import (
	"math"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The trap of the starting job has its middle at (700, 1832) in a room of 2400 by 1900: its shower is
// 1400 wide from the left wall, its drain 800 long in the middle of that, and the trap as far from
// the back wall as its exit through the left one is from the corner, 68. Straight out it leaves each
// wall opposite its middle, with the outlet turned that way.
func TestThroughEachWall(t *testing.T) {
	for wall, want := range []struct{ turnDeg, offsetMM float64 }{
		{270, 700}, // wall 0 from (0, 0): x = 700
		{0, 1832},  // wall 1 from (2400, 0): y = 1832
		{90, 1700}, // wall 2 from (2400, 1900): 2400 - 700
		{180, 68},  // wall 3 from (0, 1900): 1900 - 1832
	} {
		before := job.New()
		before.Waste.Waypoints = []plan.Point{{300, 300}}
		j := edit.ThroughWall(wall).Apply(before)
		e := j.Waste.Exit
		if e.Kind != job.ExitWall || e.Wall != wall || math.Abs(e.OffsetMM-want.offsetMM) > 1e-6 || j.Drain.OutletTurnDeg != want.turnDeg || len(j.Waste.Waypoints) > 0 {
			t.Errorf("through wall %d: %+v, outlet %v", wall, e, j.Drain.OutletTurnDeg)
		}
		if p := j.Validate(); len(p) > 0 {
			t.Errorf("through wall %d: %v", wall, p)
		}
	}
	if j := edit.ThroughWall(4).Apply(job.New()); j.Waste.Exit != job.New().Waste.Exit {
		t.Errorf("through a wall that is not there: %+v", j.Waste.Exit)
	}
}
