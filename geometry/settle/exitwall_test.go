package settle_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// The way out of the starting job is 68 along wall B from corner BC, straight out of the trap at (700, 1832). Put into wall C, whose corner CD is
// at (2400, 1900), it lies behind the trap, 2400 − 700 along, though how far it was along wall B is held; and that is told.
func TestTheWayOutIsPutIntoAnotherWall(t *testing.T) {
	say := in(t, unit.Metric)
	wall, ok := job.FindInput("waste.exit.wall")
	if !ok {
		t.Fatal("the wall is no input")
	}
	for name, before := range map[string]job.Job{"free": with(none), "held": with(held("waste.exit.offsetMM"))} {
		s := settle.Do(before, edit.AtWall(wall, 2))
		if s.Refused != nil {
			t.Fatalf("%s: %s", name, say(s.Refused.What))
		}
		if e := s.Job.Waste.Exit; e.Wall != 2 || math.Abs(e.OffsetMM-1700) > 1e-6 || s.Job.Drain.OutletTurnDeg != 90 {
			t.Errorf("%s: %+v, outlet %v", name, e, s.Job.Drain.OutletTurnDeg)
		}
		if !slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return slices.Contains(m.Keys, "waste.exit.offsetMM") }) {
			t.Errorf("%s: not told: %v", name, s.Moved)
		}
	}
}
