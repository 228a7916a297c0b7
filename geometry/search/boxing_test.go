package search_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/search"
)

// To the wall beside the shower the pipe lies bare in the room, which stops every way there;
// boxed in, the ways go, with the box told.
func TestWaysAlongTheRoomWhereTheyAreBoxedIn(t *testing.T) {
	exits := []job.Exit{{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}}
	grid := search.Grid{Steps: 4, MostBends: 2}
	j := job.New()
	j.Room.Walls[1] = j.Room.Walls[3] // no stud in the way
	if s := find(t, j, exits, grid); len(s.Found) > 0 {
		t.Fatalf("%d ways with a bare pipe", len(s.Found))
	}
	boxing := job.UsualBoxing()
	j.Waste.Boxing = &boxing
	s := find(t, j, exits, grid)
	if len(s.Found) == 0 {
		t.Fatalf("no way of %d tried", s.Tried)
	}
	for i, f := range s.Found {
		r := geometry.Evaluate(f.Job, demotest.Packs(t)[j.Region])
		told := false
		for _, n := range r.Findings {
			told = told || n.Rule.ID == "pipe-boxed"
		}
		if f.Job.Waste.Boxing == nil || r.Stops() || !told {
			t.Errorf("way %d: boxing %v, stopped %v, told %v", i, f.Job.Waste.Boxing, r.Stops(), told)
		}
	}
}
