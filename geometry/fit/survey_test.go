package fit_test

import (
	"math"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// What does not come out of what was measured is mended by what it says: the one wrong length, 60 too long over a room of
// 2400 by 1900 whose lengths across are 3061 by Pythagoras, is made what the others give or left out; a room out of square
// is drawn square; of two readings of one point one is taken away.
func TestWhatWasMeasuredIsMended(t *testing.T) {
	across := math.Hypot(2400, 1900)
	slab := demotest.Shown(t)[0].Stated
	for _, c := range []struct {
		rule  string
		edits []edit.Edit
		does  []message.ID
	}{
		{"tape-open", []edit.Edit{edit.Across(0, 2, across+60), edit.Across(1, 3, across)}, []message.ID{"edit.tape-make", "edit.tape-leave-out"}},
		{"out-of-square", []edit.Edit{edit.Across(0, 2, across+8), edit.Across(1, 3, across-8)}, []message.ID{"remedy.draw-square"}},
		{"readings-apart", []edit.Edit{edit.Read(plan.Point{600, 700}, 1000), edit.Read(plan.Point{600, 700}, 1004)}, []message.ID{"laser.remove-of", "laser.remove-of"}},
	} {
		j := slab
		j.Shower.WidthMM, j.Shower.DepthMM = 1200, 800 // with room for it where walls lean
		var problems job.Problems
		for _, e := range c.edits {
			j = e.Apply(j)
			problems = j.Validate()
		}
		if len(problems) > 0 {
			t.Fatalf("%s: %v", c.rule, problems)
		}
		r := evaluated(t, j)
		f, found := broken(r, c.rule)
		if !found {
			t.Fatalf("%s is not broken", c.rule)
		}
		all, why := fit.RemediesOf(r, f, 3)
		var does []message.ID
		for _, remedy := range all {
			does = append(does, remedy.Does.ID)
		}
		if len(does) != len(c.does) {
			t.Fatalf("%s: %v, %v", c.rule, does, why)
		}
		for i := range does {
			if does[i] != c.does[i] {
				t.Errorf("%s: remedy %d is %s, want %s", c.rule, i, does[i], c.does[i])
			}
		}
	}
}
