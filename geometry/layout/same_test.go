package layout_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// What the layout does not read leaves it the same, and all else does not. Where jobs
// are said to be the same, their layouts have the same area to fall and the same drain.
func TestSame(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		same   bool
	}{
		"nothing":             {func(*job.Job) {}, true},
		"the name":            {func(j *job.Job) { j.Name, j.Notes = "another", "more" }, true},
		"layers":              {func(j *job.Job) { j.Layers.Wall.Tile.ThicknessMM++ }, true},
		"levels of the floor": {func(j *job.Job) { j.SpotLevels = nil }, true},
		"the waste":           {func(j *job.Job) { j.Waste.Gradient, j.Waste.Exit.OffsetMM = 0.03, 100 }, true},
		"the base":            {func(j *job.Job) { j.Base.MinThicknessMM++ }, true},
		"the former's height": {func(j *job.Job) { j.Former.ThicknessAtDrainMM, j.Former.BedMM = 40, 4 }, true},
		"the drain's levels": {func(j *job.Job) {
			j.Drain.ChannelDepthMM, j.Drain.TrapDepthMM, j.Drain.OutletInvertDepthMM, j.Drain.SealMM = 30, 99, 80, 60
		}, true},
		"what it carries":    {func(j *job.Job) { j.Drain.CapacityLPS, j.Drain.CapacityHeadMM = 1, 10 }, true},
		"its cover":          {func(j *job.Job) { j.Drain.CoverLeastMM, j.Drain.CoverGreatestMM, j.Drain.LeastFormerMM = 3, 90, 15 }, true},
		"what it stands on":  {func(j *job.Job) { j.Base.Support = job.BetweenJoists }, false},
		"the slope":          {func(j *job.Job) { j.Former.Slope = 0.03 }, false},
		"the shower":         {func(j *job.Job) { j.Shower.WidthMM++ }, false},
		"the drain's length": {func(j *job.Job) { j.Drain.LengthMM++ }, false},
		"the outlet":         {func(j *job.Job) { j.Drain.OutletTurnDeg = 90 }, false},
		"the trap's size":    {func(j *job.Job) { j.Drain.TrapSizeMM++ }, false},
		"the room":           {func(j *job.Job) { j.Room.Outline[1][0]++ }, false},
		"the joists":         {func(j *job.Job) { j.Floor.Joists.SpacingMM++ }, false},
	} {
		a, b := job.New(), job.New()
		c.change(&b)
		if layout.Same(a, b) != c.same || layout.Same(b, a) != c.same {
			t.Errorf("%s: the same %v, the other way round %v, want %v", name, layout.Same(a, b), layout.Same(b, a), c.same)
		}
		if !c.same {
			continue
		}
		var sh plan.Shaper
		k, l := layout.Of(a, &sh), layout.Of(b, &sh)
		if k.FallArea.Area() != l.FallArea.Area() || k.TrapCentre != l.TrapCentre || k.Outlet != l.Outlet || sh.Err() != nil {
			t.Errorf("%s: another layout, %v", name, sh.Err())
		}
	}
}
