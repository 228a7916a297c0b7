package joist_test

import (
	"fmt"

	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// What does the pipe cut out of the joists? In the room of TestNotchByHand the
// pipe's axis passes the joist at −37.6, and its hole of 56, with 3 mm round the
// pipe, reaches up over the joist's top at −20: a notch from the top down to
// −37.6 − 28 = −65.6. It lies 68 from the support: 68/2000 of the span.
func ExampleFind() {
	j := timberRoom()
	var shaper plan.Shaper
	l := layout.Of(j, &shaper)
	for _, c := range joist.Find(j, l, level.Solve(j, l, waste.Lay(j, l), 0)) {
		fmt.Printf("joist %d: a %s, %.0f mm long, %.0f mm deep, at %.1f %% of the span\n",
			c.Joist.Number, c.Kind, c.LengthMM(), c.TopMM-c.CutLowMM(), c.ZoneShare()*100)
	}
	// Output: joist 1: a notch, 56 mm long, 46 mm deep, at 3.4 % of the span
}
