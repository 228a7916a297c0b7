package geometry_test

import (
	"context"
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

func find(t testing.TB, j job.Job, exits []job.Exit, grid geometry.SearchGrid) geometry.Search {
	t.Helper()
	return geometry.FindRuns(context.Background(), j, packs(t)[j.Region], exits, grid, nil)
}

// The straight run of the slab demo is found, and nothing beats it.
func TestFindsTheStraightRun(t *testing.T) {
	j := demoJobs(t)[0].Job
	s := find(t, j, []job.Exit{j.Waste.Exit}, geometry.UsualGrid())
	if len(s.Found) == 0 {
		t.Fatal("nothing found")
	}
	if f := s.Found[0]; f.Bends != 0 || len(f.Job.Waste.Waypoints) != 0 || f.Job.Drain.OutletTurnDeg != 180 {
		t.Errorf("the lowest run has %d bends, outlet %v", f.Bends, f.Job.Drain.OutletTurnDeg)
	}
}

// Everything found is buildable by the full evaluation, with the same raise,
// and no member of the set is worse than another in every way.
func TestFoundRunsAreBuildable(t *testing.T) {
	for _, n := range []int{0, 1, 2, 4} {
		j := demoJobs(t)[n].Job
		s := find(t, j, geometry.UsualExits(j, 300), geometry.UsualGrid())
		if len(s.Found) == 0 {
			t.Errorf("%s: nothing found of %d tried", j.Name, s.Tried)
		}
		for i, f := range s.Found {
			r := geometry.Evaluate(f.Job, packs(t)[j.Region])
			if r.Stops() {
				t.Errorf("%s: run %d is stopped: %s, %v", j.Name, i, r.Findings[0].Rule.ID, r.Problems)
			}
			if raise := r.Heights.BaseTopMM - r.Heights.FloorHighMM; math.Abs(raise-f.RaiseMM) > 1e-6 {
				t.Errorf("%s: run %d needs %v, not %v", j.Name, i, raise, f.RaiseMM)
			}
			for k, o := range s.Found {
				if k != i && o.RaiseMM <= f.RaiseMM && o.JoistsCut <= f.JoistsCut && o.LengthMM <= f.LengthMM && o.Bends <= f.Bends {
					t.Errorf("%s: run %d is nowhere better than run %d", j.Name, i, k)
				}
			}
		}
	}
}

// Against a search of its own: every chain of one or two bends on the same
// grid, written out by hand as nested loops over axis-parallel runs, has
// nothing better than what was found.
func TestSearchIsCompleteOnItsGrid(t *testing.T) {
	j := demoJobs(t)[0].Job
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{200, 1300}}
	p := packs(t)[j.Region]
	grid := geometry.SearchGrid{Steps: 5, MostBends: 2}
	s := find(t, j, []job.Exit{j.Waste.Exit}, grid)
	best := math.Inf(1)
	for _, turn := range []float64{0, 90, 180, 270} {
		k := j.Clone()
		k.Drain.OutletTurnDeg = turn
		base := geometry.Evaluate(k, p)
		if len(base.Problems) > 0 {
			t.Fatal(base.Problems)
		}
		out, to := base.Layout.Outlet, base.Layout.OutletTo
		side := plan.Left(to)
		rel := k.Waste.Exit.At.Sub(out)
		try := func(turns ...plan.Point) {
			k.Waste.Waypoints = turns
			if r := geometry.Evaluate(k, p); !r.Stops() {
				best = math.Min(best, r.Heights.BaseTopMM-r.Heights.FloorHighMM)
			}
		}
		// One square turn; two square turns with the cross leg anywhere.
		try(out.Add(to.Mul(rel.Dot(to))))
		for step := 50.0; step < 1500; step += 25 {
			a := out.Add(to.Mul(step))
			try(a, a.Add(side.Mul(rel.Dot(side))))
		}
	}
	if len(s.Found) == 0 || s.Found[0].RaiseMM > best+0.5 {
		t.Errorf("found %+v; by hand %v", s.Found, best)
	}
}

// Where nothing fits, the smallest changes that would are named, and each does.
func TestRelaxations(t *testing.T) {
	j := job.New()
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40
	s := find(t, j, []job.Exit{j.Waste.Exit}, geometry.UsualGrid())
	if len(s.Found) != 0 || len(s.Relaxations) != 1 || s.Relaxations[0].What != "29 mm higher: base top 72 mm above the structural floor" {
		t.Errorf("found %d, relaxations %+v", len(s.Found), s.Relaxations)
	}
	for _, r := range s.Relaxations {
		if geometry.Evaluate(r.Best.Job, packs(t)["UK"]).Stops() {
			t.Errorf("%q does not do it", r.What)
		}
	}
}

// The demo that cannot be built: what would make its run work is found, and
// what no run can mend is named.
func TestRelaxationsOfTheImpossibleDemo(t *testing.T) {
	if testing.Short() {
		t.Skip("some seconds of searching")
	}
	j := demoJobs(t)[5].Job
	s := find(t, j, geometry.UsualExits(j, 150), geometry.UsualGrid())
	if len(s.Found) > 0 || len(s.Relaxations) == 0 {
		t.Errorf("found %d, relaxations %+v", len(s.Found), s.Relaxations)
	}
	for _, r := range s.Relaxations {
		t.Log(r.What)
	}
	for _, want := range []string{"uk-seal", "trap-flow", "base-cut"} {
		found := false
		for _, f := range s.Besides {
			found = found || f.Rule.ID == want
		}
		if !found {
			t.Errorf("%s is not named besides", want)
		}
	}
}

// A cancelled search ends at once.
func TestSearchCanBeCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	j := demoJobs(t)[5].Job
	if s := geometry.FindRuns(ctx, j, packs(t)["UK"], geometry.UsualExits(j, 50), geometry.UsualGrid(), nil); s.Tried > 0 {
		t.Errorf("%d runs tried after being cancelled", s.Tried)
	}
}

// A turned room gives the same runs.
func TestSearchTurnsWithTheRoom(t *testing.T) {
	j := demoJobs(t)[0].Job
	a := find(t, j, []job.Exit{j.Waste.Exit}, geometry.UsualGrid())
	k := moved(j, 30, plan.Point{700, -300})
	b := find(t, k, []job.Exit{k.Waste.Exit}, geometry.UsualGrid())
	if len(a.Found) != len(b.Found) {
		t.Fatalf("%d runs, turned %d", len(a.Found), len(b.Found))
	}
	for i := range a.Found {
		if math.Abs(a.Found[i].RaiseMM-b.Found[i].RaiseMM) > 1e-6 || math.Abs(a.Found[i].LengthMM-b.Found[i].LengthMM) > 1e-6 {
			t.Errorf("run %d: %+v, turned %+v", i, a.Found[i].RaiseMM, b.Found[i].RaiseMM)
		}
	}
}

// BenchmarkFindRuns is a typical room with joists and three exits, and a large
// search with 40 exits.
func BenchmarkFindRuns(b *testing.B) {
	j := demoJobs(b)[1].Job
	p := packs(b)[j.Region]
	typical := geometry.UsualExits(j, 700)[:3]
	many := geometry.UsualExits(j, 45)
	for len(many) < 40 {
		many = append(many, many...)
	}
	for name, exits := range map[string][]job.Exit{"3 exits": typical, "40 exits": many[:40]} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				s := geometry.FindRuns(context.Background(), j, p, exits, geometry.UsualGrid(), nil)
				b.ReportMetric(float64(s.Tried), "runs")
			}
		})
	}
}
