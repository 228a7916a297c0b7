package ways

import (
	"context"
	"math"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/part"
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
