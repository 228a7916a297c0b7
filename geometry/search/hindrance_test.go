package search_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/search"
)

// toStack is the starting job with a stack in the room, into which its waste is to go.
func toStack(x, y float64) job.Job {
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{x, y}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	return j
}

// To a stack beside the shower the pipe lies bare from the shower's edge, y = 1000, on: 82 to the
// stack's face at 863 + 55. Nothing else stops a plain run there, of one bend; runs go out
// through the wall instead, and with the pipe boxed in one goes to the stack.
func TestWhatStopsRunsToTheStack(t *testing.T) {
	j := toStack(115, 863)
	s := find(t, j, search.UsualExits(j, 300), search.UsualGrid())
	if len(s.Found) == 0 {
		t.Fatal("nothing goes through the wall")
	}
	for i, a := range s.Found {
		if !a.MovesExit {
			t.Errorf("run %d goes to the stack", i)
		}
	}
	h := s.Hindrance
	if h == nil || h.Tried == 0 || h.Nearest == nil {
		t.Fatalf("what stops them is not told: %+v", h)
	}
	if len(h.By) == 0 || h.By[0].Rule.ID != "pipe-exposed" || h.By[0].Runs > h.Tried {
		t.Errorf("of %d runs most are stopped by %+v", h.Tried, h.By)
	}
	if len(h.Stops) != 1 || h.Stops[0].Rule.ID != "pipe-exposed" || h.Nearest.Bends > 1 || h.Nearest.MovesExit {
		t.Errorf("the nearest, of %d bends, is stopped by %v", h.Nearest.Bends, h.Stops)
	}
	// The nearest, laid, is stopped by just what was told of it.
	r := geometry.Evaluate(h.Nearest.Change.Apply(j), demotest.Packs(t)[j.Region])
	var stops []string
	for _, f := range r.Findings {
		if f.Rule.Severity == "stop" {
			stops = append(stops, f.Rule.ID)
		}
	}
	if len(stops) != 1 || stops[0] != "pipe-exposed" {
		t.Errorf("laid it is stopped by %v", stops)
	}
	if len(s.Relaxations) != 1 || s.Relaxations[0].What.ID != "relaxation.boxed-in" {
		t.Fatalf("what would let one through: %+v", s.Relaxations)
	}
	best := s.Relaxations[0].Best
	if boxed := geometry.Evaluate(best.Change.Apply(j), demotest.Packs(t)[j.Region]); best.MovesExit || boxed.Stops() || best.Bends > 1 {
		t.Errorf("boxed in, of %d bends, elsewhere %v, it is stopped: %v", best.Bends, best.MovesExit, boxed.Findings)
	}
}

// Where runs go to the stated exit, or it is not among those asked for, nothing is told of what
// stops them.
func TestNothingStopsRunsThatGo(t *testing.T) {
	j := job.New()
	if s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid()); s.Hindrance != nil || len(s.Relaxations) > 0 {
		t.Errorf("a run goes there, and it is told that %+v stops it", s.Hindrance)
	}
	j = toStack(115, 863)
	if s := find(t, j, []job.Exit{{Kind: job.ExitWall, Wall: 3, OffsetMM: 68}}, search.UsualGrid()); s.Hindrance != nil || len(s.Relaxations) > 0 {
		t.Errorf("nobody asked for runs to the stack, and it is told that %+v stops them", s.Hindrance)
	}
}

// Of what comes nearest it is told which limits on cuts in joists it does not keep, besides what stops it: to a pipe end behind a
// joist, out of the middle of which the hole lies, where the limit on that only advises and that on its size stops.
func TestTheNearestTellsLimitsThatItDoesNotKeep(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	j.Base.Height, j.Waste.Exit = job.HeightBuildable, job.Exit{Kind: job.ExitPipe, At: plan.Point{260, 1560}}
	j.Floor.Joists.SupportsMM = []float64{-1000, 2550}
	h := find(t, j, []job.Exit{j.Waste.Exit}, search.Grid{Steps: 3, MostBends: 1}).Hindrance
	if h == nil || h.Nearest == nil || len(h.Stops) == 0 {
		t.Fatalf("nothing hinders: %+v", h)
	}
	if u := h.Nearest.Unkept; len(u) != 1 || u[0].Rule.ID != "uk-hole-axis" || u[0].Cuts != 1 {
		t.Errorf("unkept are %+v, want the one on holes off the middle", u)
	}
	for _, f := range h.Stops {
		if f.Rule.ID == "uk-hole-axis" {
			t.Error("what advises stops it")
		}
	}
}
