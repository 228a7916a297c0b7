package fit_test

import (
	"math"
	"testing"

	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// A run of less than a metre is laid to 3 mm on one, of which two standard deviations are 1.5 mm each.
// From 18 mm on a metre at least the fall is set 1.645 of them further, 20.5, and on to the next that pipes
// are laid at, 1:40 or 25 mm: 7 mm are 4.667 of them, all builds but three in two million, and what is left is
// the chance of the height, 0.979. A fall that is steep enough as it
// is has the chance of the height alone, none where something else stops the floor.
func TestARemedyTellsItsChance(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		least  float64
		most   float64
		says   bool
	}{
		"a safe height":       {func(*job.Job) {}, 0.979, 0.9795, true},
		"a bare one":          {func(j *job.Job) { j.Base.Height = job.HeightBare }, 0.01, 0.94, true},
		"stopped by its trap": {func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{0.9} }, 0, 0, false},
	} {
		j := job.New()
		j.Base.Height, j.Waste.Gradient = job.HeightSafe, 0.015
		c.change(&j)
		r := evaluated(t, j)
		f, found := broken(r, "uk-gradient-min-50")
		if !found {
			t.Fatalf("%s: nothing to mend", name)
		}
		got, _, ok := fit.RemedyOf(r, f)
		if !ok || got.Chance < c.least-1e-4 || got.Chance > c.most+1e-4 {
			t.Errorf("%s: %v, comes right in %v", name, ok, got.Chance)
		}
		said := false
		for _, m := range got.Changes(r, f) {
			said = said || m.ID == "remedy.chance" && m.String() == message.Of("remedy.chance", message.No("n", int(math.Floor(got.Chance*100)))).String()
		}
		if said != c.says {
			t.Errorf("%s: says so %v: %v", name, said, got.Changes(r, f))
		}
	}
}
