package ways

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// Whatever place in its wall the exit has, the pipe that goes straight out is among the runs: the outlet of the starting job lies
// 68 from the corner, and the stated exit 8 beside that leaves no room for two bends.
func TestTheStraightWayOutIsLookedAt(t *testing.T) {
	j := job.New()
	straight := j.Waste.Exit.OffsetMM
	j.Waste.Exit.OffsetMM += 8
	s, err := Look(context.Background(), j, demotest.Packs(t)[j.Region], part.Shelf{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range s.Found {
		if e := a.Job.Waste.Exit; a.Bends == 0 && e.Wall == j.Waste.Exit.Wall && math.Abs(e.OffsetMM-straight) < 0.05 {
			return
		}
	}
	t.Errorf("none of %d runs goes straight out", len(s.Found))
}

// What stops a job whichever way its run goes stops no way out: a shower head of 2300 under a ceiling of 2200 is told once, and the way
// out through the back wall, to which nothing else is in the way, is not called closed for it.
func TestWhatNoRunChangesClosesNoWay(t *testing.T) {
	j := job.New()
	ground := -300.0
	j.Room.HeightMM, j.Room.Walls[2].OutsideGroundMM = 2200, &ground
	j.Shower.Head = &job.Head{At: plan.Point{700, 1500}, HeightMM: 2300}
	pack := demotest.Packs(t)[j.Region]
	s, err := Look(context.Background(), j, pack, part.Shelf{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(s.Besides, func(f rule.Finding) bool { return f.Rule.Quantity == "head.under-ceiling" }) {
		t.Errorf("besides there is %v", s.Besides)
	}
	for _, c := range ClosedOf(s, j, pack) {
		if !c.Cured || strings.Contains(c.Said.String(), "head") {
			t.Errorf("closed: %v", c.Said)
		}
	}
}
