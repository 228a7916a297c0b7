package search_test

import (
	"context"
	"fmt"
	"math"
	"sync"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// Where nothing fits, the smallest changes that would are named, and each does.
func TestRelaxations(t *testing.T) {
	j := job.New()
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
	if len(s.Found) != 0 || len(s.Relaxations) != 1 || s.Relaxations[0].What.String() != "relaxation.higher{by: 29 mm, raise: 72 mm}" {
		t.Errorf("found %d, relaxations %+v", len(s.Found), s.Relaxations)
	}
	for _, r := range s.Relaxations {
		if geometry.Evaluate(r.Best.Job, demotest.Packs(t)["UK"]).Stops() {
			t.Errorf("%q does not do it", r.What)
		}
	}
}

// A joist under the trap: shifting the trap along the drain is among the
// changes, by no more than needed. The channel is shallow enough to lie over the
// joists.
func TestTrapIsShiftedOffAJoist(t *testing.T) {
	j := demotest.Rooms(t)[2].Job
	j.Drain.ChannelDepthMM = 20
	j.Floor.Joists.DirectionDeg, j.Floor.Joists.SupportsMM = 90, nil
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	j.Floor.Joists.FirstOffsetMM = math.Mod(2600-r.Layout.TrapCentre.X(), j.Floor.Joists.SpacingMM)
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: r.Layout.TrapCentre.Add(plan.Point{120, -700})}
	j.Drain.OutletTurnDeg = 270
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
	shifted := 0.0
	for _, x := range s.Relaxations {
		if by := x.Best.Job.Drain.TrapOffsetMM - j.Drain.TrapOffsetMM; by != 0 {
			shifted = by
			if res := geometry.Evaluate(x.Best.Job, demotest.Packs(t)["UK"]); res.Stops() {
				t.Errorf("%s stops it", res.Findings[0].Rule.ID)
			}
		}
	}
	if len(s.Found) > 0 || shifted == 0 || math.Abs(shifted) > 150 {
		t.Errorf("%d found, trap shifted by %v: %d relaxations", len(s.Found), shifted, len(s.Relaxations))
	}
}

// The trap of 110 and a joist of 47 are clear of each other with 78.5 between their
// middles. A joist 30 to the one side asks for 50 to the other: 80; the same way 50 leads
// further into it.
func TestTrapIsShiftedTheShorterWay(t *testing.T) {
	for _, aside := range []float64{30, -30} {
		j := demotest.Rooms(t)[2].Job.Clone()
		j.Drain.ChannelDepthMM = 20
		j.Floor.Joists.DirectionDeg, j.Floor.Joists.SupportsMM = 90, nil
		away := math.Copysign(1, -aside)
		trap := geometry.Evaluate(j, demotest.Packs(t)["UK"]).Layout.TrapCentre
		j.Floor.Joists.FirstOffsetMM = math.Mod(2600-trap.X()-aside, j.Floor.Joists.SpacingMM)
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: trap.Add(plan.Point{120 * away, -700})}
		j.Drain.OutletTurnDeg = 270
		s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
		var shifts []float64
		for _, x := range s.Relaxations {
			if by := x.Best.Job.Drain.TrapOffsetMM - j.Drain.TrapOffsetMM; by != 0 {
				shifts = append(shifts, by)
				if want := fmt.Sprintf("relaxation.trap{by: %g mm}", by); x.What.String() != want {
					t.Errorf("“%s”, want “%s”", x.What, want)
				}
			}
		}
		if len(s.Found) > 0 || len(shifts) != 1 || shifts[0] != 50*away {
			t.Errorf("a joist %v aside: %d found, the trap shifted by %v", aside, len(s.Found), shifts)
		}
	}
}

// With the trap at one end of its drain the run to that side is shorter: the
// grid's other places for the trap are tried, and those that do not fit are not.
func TestOtherPlacesForTheTrap(t *testing.T) {
	j := demotest.Rooms(t)[0].Job
	grid := search.UsualGrid()
	alone := find(t, j, []job.Exit{j.Waste.Exit}, grid)
	grid.TrapsMM = append(search.TrapPlaces(j), 5000)
	s := find(t, j, []job.Exit{j.Waste.Exit}, grid)
	shortest := func(s search.Outcome) search.Alternative {
		best := s.Found[0]
		for _, f := range s.Found {
			if f.LengthMM < best.LengthMM {
				best = f
			}
		}
		return best
	}
	a, b := shortest(alone), shortest(s)
	if by := a.LengthMM - b.LengthMM; math.Abs(by-math.Abs(b.Job.Drain.TrapOffsetMM)) > 1 || by < 100 {
		t.Errorf("the run is %v shorter with the trap %v from the middle", by, b.Job.Drain.TrapOffsetMM)
	}
	for _, f := range s.Found {
		if r := geometry.Evaluate(f.Job, demotest.Packs(t)[j.Region]); r.Stops() {
			t.Errorf("%s stops a run with the trap at %v", r.Findings[0].Rule.ID, f.Job.Drain.TrapOffsetMM)
		}
	}
}

// The demo that cannot be built: what would make its run work is found, and
// what no run can mend is named.
func TestRelaxationsOfTheImpossibleDemo(t *testing.T) {
	j := demotest.Rooms(t)[5].Job
	s := find(t, j, search.UsualExits(j, 400), search.Grid{Steps: 4, MostBends: 3})
	if len(s.Found) > 0 || len(s.Relaxations) == 0 {
		t.Errorf("found %d, relaxations %+v", len(s.Found), s.Relaxations)
	}
	besides := map[string]bool{}
	for _, f := range s.Besides {
		besides[f.Rule.ID] = true
	}
	for _, x := range s.Relaxations {
		r := geometry.Evaluate(x.Best.Job, demotest.Packs(t)[j.Region])
		for _, f := range r.Findings {
			if f.Rule.Severity == rule.Stop && !besides[f.Rule.ID] {
				t.Errorf("%q leaves %s, which is not named besides", x.What, f.Rule.ID)
			}
		}
		if len(r.Problems) > 0 {
			t.Errorf("%q: %v", x.What, r.Problems)
		}
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

// A search of what cannot be built tells how far it is all along, and never
// goes back.
func TestProgressOfAnUnbuildableSearch(t *testing.T) {
	j := job.New()
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40
	var mu sync.Mutex
	var shares []float64
	if _, err := search.Runs(context.Background(), j, demotest.Packs(t)["UK"], []job.Exit{j.Waste.Exit}, search.Grid{Steps: 2, MostBends: 2}, func(share float64) {
		mu.Lock()
		defer mu.Unlock()
		shares = append(shares, share)
	}); err != nil {
		t.Fatal(err)
	}
	late, before := 0, 0.0
	for _, s := range shares {
		if s < 0 || s > 1 {
			t.Errorf("a share of %v", s)
		}
		if s < before {
			t.Errorf("a share of %v after one of %v", s, before)
		}
		before = s
		if s > 0.3 {
			late++
		}
	}
	if late < 3 {
		t.Errorf("after the first search progress is told %d times: %v", late, shares)
	}
}
