package tolerance_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// BenchmarkEstimate tells the shortage of the starting job, by which Evaluate finds the
// safe height.
func BenchmarkEstimate(b *testing.B) {
	j := job.New()
	j.SpotLevels = []job.SpotLevel{{At: plan.Point{100, 1800}, ToleranceMM: 1}, {At: plan.Point{1300, 1800}, ToleranceMM: 1}, {At: plan.Point{700, 1050}, ToleranceMM: 1}}
	l := stage.Place(j, rule.Pack{}, &plan.Shaper{}).Level()
	for range b.N {
		if len(l.Shortage()) == 0 {
			b.Fatal("nothing counts")
		}
	}
}
