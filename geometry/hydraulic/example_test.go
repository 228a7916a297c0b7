package hydraulic_test

import (
	"fmt"

	"underfall/geometry/hydraulic"
)

// What does a 100 mm pipe, 96 mm inside, carry half full at 1:100? EN 12056-2
// table B.1 prints 2.5 l/s at 0.7 m/s.
func ExampleColebrookWhite() {
	flowLPS, velocityMPS := hydraulic.ColebrookWhite(96, 0.5, 1.0/100)
	fmt.Printf("%.1f l/s at %.1f m/s\n", flowLPS, velocityMPS)
	// Output: 2.5 l/s at 0.7 m/s
}

// How full does that flow leave the pipe? Half, as it was put in; twice as much
// is over what it carries full, and fills it.
func ExampleInPipe() {
	halfFullLPS, _ := hydraulic.ColebrookWhite(96, 0.5, 1.0/100)
	for _, flowLPS := range []float64{halfFullLPS, 2.5 * halfFullLPS} {
		f := hydraulic.InPipe(96, 1.0/100, flowLPS)
		fmt.Printf("%.0f %% of the bore, full: %v\n", f.DepthShare*100, f.Full)
	}
	// Output:
	// 50 % of the bore, full: false
	// 100 % of the bore, full: true
}
