package search_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/search"
)

// No run found moves what is held. One that another change lets through says what it moves of that and leaves it free, and only where
// none was found that moves nothing held.
func TestSearchKeepsOffWhatIsHeld(t *testing.T) {
	rooms := demotest.Rooms(t)
	keys := []string{"waste.exit.kind", "waste.exit.wall", "waste.exit.offsetMM", "waste.exit.level", "waste.gradient", "waste.waypoints", "waste.fittings",
		"drain.outletTurnDeg", "drain.trapOffsetMM", "base.height", "base.support", "waste.vent", "waste.boxing", "waste.nominalMM"}
	rapid.Check(t, func(rt *rapid.T) {
		j := rooms[rapid.SampledFrom([]int{0, 1, 5}).Draw(rt, "room")].Job.Clone()
		for _, key := range rapid.SliceOfNDistinct(rapid.SampledFrom(keys), 1, 5, rapid.ID).Draw(rt, "held") {
			j.SetStanding(key, job.Held)
		}
		grid := search.Grid{Steps: 1, MostBends: 1, TrapsMM: search.TrapPlaces(j)}
		s := find(t, j, search.UsualExits(j, 2000), grid)
		for _, a := range s.Found {
			if moved := j.Moved(&a.Job, job.Held); len(moved) > 0 {
				rt.Fatalf("a run moves %v", moved)
			}
		}
		for _, r := range s.Relaxations {
			after := r.Best.Change.Apply(j)
			if moved := j.Moved(&after, job.Held); !slices.Equal(moved, r.LetsGo) {
				rt.Fatalf("%v moves %v, and says %v", r.What, moved, r.LetsGo)
			}
			if len(r.LetsGo) > 0 != (len(s.Relaxations[0].LetsGo) > 0) || len(r.LetsGo) > 0 && len(s.Cheap) > 0 {
				rt.Fatalf("%v lets go of %v beside one that need not", r.What, r.LetsGo)
			}
			for _, key := range r.LetsGo {
				if after.StandingOf(key) == job.Held {
					rt.Fatalf("%v moves %s and holds it still", r.What, key)
				}
			}
		}
	})
}

// Each thing that is held leaves fewer ways: what is found with it is among what there is without it
// where that alone decides.
func TestHeldThingsNarrowTheSearch(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Exit.OffsetMM = 200 // the straight run no longer hits it
	exits, grid := []job.Exit{j.Waste.Exit}, search.Grid{Steps: 4, MostBends: 3}
	turnsOf := func(key string, waypoints ...plan.Point) (out []float64, runs [][]plan.Point) {
		k := j.Clone()
		k.Waste.Waypoints = waypoints
		k.SetStanding(key, job.Held)
		for _, a := range find(t, k, exits, grid).Found {
			out = append(out, a.Job.Drain.OutletTurnDeg)
			runs = append(runs, a.Job.Waste.Waypoints)
		}
		return out, runs
	}
	free, _ := turnsOf("")
	if len(free) == 0 {
		t.Fatal("nothing found")
	}
	held, _ := turnsOf("drain.outletTurnDeg")
	for _, deg := range held {
		if deg != j.Drain.OutletTurnDeg {
			t.Errorf("the held outlet looks %v", deg)
		}
	}
	own := []plan.Point{{400, 1832}, {268, 1700}}
	_, runs := turnsOf("waste.waypoints", own...)
	if len(runs) == 0 {
		t.Error("no run with the held turns")
	}
	for _, run := range runs {
		if !slices.Equal(run, own) {
			t.Errorf("held turns, and one through %v", run)
		}
	}
}

// A level at the exit that no run reaches is let go of where that alone lets one through, and that is said; held or not, it is the same
// run.
func TestWhatIsHeldIsLetGoOfWhereNothingElseHelps(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Exit.Level = job.Exactly(-400) // far under the slab
	exits, grid := []job.Exit{j.Waste.Exit}, search.Grid{Steps: 2, MostBends: 2}
	free := find(t, j, exits, grid)
	const key = "waste.exit.level"
	j.SetStanding(key, job.Held)
	held := find(t, j, exits, grid)
	if len(free.Relaxations) == 0 || len(held.Relaxations) != len(free.Relaxations) {
		t.Fatalf("%d changes let a run through, held %d", len(free.Relaxations), len(held.Relaxations))
	}
	for i, r := range held.Relaxations {
		if !slices.Equal(r.LetsGo, []string{key}) || r.Best.RaiseMM != free.Relaxations[i].Best.RaiseMM {
			t.Errorf("%v lets go of %v and comes %v up, not held %v", r.What, r.LetsGo, r.Best.RaiseMM, free.Relaxations[i].Best.RaiseMM)
		}
	}
}
