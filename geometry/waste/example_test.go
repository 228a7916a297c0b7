package waste_test

import (
	"fmt"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// How much does the pipe fall to the wall? Straight on it runs 645 mm, at 1:40:
// 16.1. From an invert at 20 it comes out at 3.9; to come out at 0 it needs a fall
// of 20 over 645.
func ExampleLay() {
	j := job.New()
	var shaper plan.Shaper
	run := waste.Lay(j, layout.Of(j, &shaper))
	fmt.Printf("%.0f mm, %d bends\n", run.ExitAtMM, run.Bends)
	levelled := run.WithLevels(20, 1.0/40)
	fmt.Printf("invert at the exit %.1f\n", levelled.InvertAt(run.ExitAtMM))
	fall, ok := run.GradientTo(20, 0)
	fmt.Printf("1:%.1f %v\n", 1/fall, ok)
	// Output:
	// 645 mm, 0 bends
	// invert at the exit 3.9
	// 1:32.2 true
}
