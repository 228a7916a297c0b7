package layout_test

import (
	"fmt"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// Where is the drain? The shower is 1400 wide, against the back wall of a room 1900
// deep. The drain, 70 across, keeps 13 off that wall: its middle lies at
// 1900 − 13 − 35. The floor rises at 1:50 over the 900 − 83 in front of it.
func ExampleOf() {
	var shaper plan.Shaper
	l := layout.Of(job.New(), &shaper)
	if shaper.Err() != nil {
		fmt.Println(shaper.Err())
		return
	}
	fmt.Printf("%.0f\n", l.DrainCentre)
	_, riseMM := l.HighEnd()
	fmt.Printf("%.1f mm up to the high end\n", riseMM)
	// Output:
	// [700 1852]
	// 16.3 mm up to the high end
}
