package buildup_test

import (
	"fmt"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// What lies in the floor half a metre in front of the drain? The former is 20 at
// the drain and rises at 1:50: 20 + 500/50 = 30.
func ExampleFloor_At() {
	j := job.New()
	var shaper plan.Shaper
	l := layout.Of(j, &shaper)
	floor := buildup.Of(j, l, level.Solve(j, l, waste.Lay(j, l), 0))
	for _, course := range floor.At(l.DrainEdge.Add(l.Into.Mul(500))) {
		fmt.Printf("%-20s %4.0f mm, top at %3.0f\n", course.Kind.Facts().Name, course.ThicknessMM(), course.TopMM)
	}
	// Output:
	// layer.structure         0 mm, top at   0
	// layer.base-bed          3 mm, top at   3
	// layer.base             69 mm, top at  72
	// layer.former-bed        3 mm, top at  75
	// layer.former           30 mm, top at 105
	// layer.shower-tanking    1 mm, top at 106
	// layer.shower-bed        3 mm, top at 109
	// layer.shower-tile       9 mm, top at 118
}
