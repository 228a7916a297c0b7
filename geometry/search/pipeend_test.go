package search_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/search"
)

// The end of a pipe that is there lies where it lies: whatever is changed to let a run through to it, in any of the demos, its
// level stays as it is stated, and the run meets it there.
func TestNoChangeMovesThePipeThatIsThere(t *testing.T) {
	let := 0
	for _, r := range demotest.Shown(t) {
		for _, levelMM := range []float64{-165, 40} {
			j := r.Stated.Clone()
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: r.Layout.TrapCentre.Add(plan.Point{120, -700}), Level: job.Exactly(levelMM)}
			j.Waste.Waypoints, j.Waste.Fittings = nil, nil
			if len(j.Validate()) > 0 {
				continue
			}
			s := find(t, j, []job.Exit{j.Waste.Exit}, search.Grid{Steps: 2, MostBends: 1})
			for _, found := range append(s.Found, bests(s.Relaxations)...) {
				if found.Job.Waste.Exit.Kind != job.ExitPipe {
					continue // a pump is another way out
				}
				let++
				if !found.Job.Waste.Exit.Level.Equal(job.Exactly(levelMM)) {
					t.Errorf("%s: a pipe's end stated at %v is at %+v", j.Name, levelMM, found.Job.Waste.Exit.Level)
				}
				res := geometry.Evaluate(found.Job, demotest.Packs(t)[j.Region])
				if at := res.Heights.Run.InvertAt(res.Heights.Run.ExitAtMM); at-levelMM > 0.5 || levelMM-at > 0.5 {
					t.Errorf("%s: the run comes to a pipe's end stated at %v at %v", j.Name, levelMM, at)
				}
			}
		}
	}
	if let < 5 {
		t.Errorf("only %d ways were looked at", let)
	}
}

func bests(of []search.Relaxation) (out []search.Alternative) {
	for _, r := range of {
		out = append(out, r.Best)
	}
	return out
}
