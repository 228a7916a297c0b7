package level_test

import (
	"fmt"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// How low can the base be, and what keeps it up? On a level slab at 0 the trap
// reaches 95 below the flange, which lies 3 of bed and 20 of former over the
// base: 95 − 23 = 72. The pipe would do with less: its outlet 75 below the flange,
// 2 of wall, and 645 mm of run at 1:40: 75 − 23 + 2 + 16.1 = 70.1.
func ExampleHeights_Governing() {
	j := job.New()
	var shaper plan.Shaper
	l := layout.Of(j, &shaper)
	h := level.Solve(j, l, waste.Lay(j, l), 0)
	fmt.Println("base at", h.BaseTopMM, "–", h.Governing().Reason().Message())
	next := h.Constraints[len(h.Constraints)-2]
	fmt.Printf("next %.1f – %s\n", next.BaseTopMM, next.Reason().Message())
	// Output:
	// base at 72 – bound.trap-on-floor
	// next 70.1 – bound.piece-on-floor{piece: piece.pipe{number: 1}}
}
