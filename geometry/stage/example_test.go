package stage_test

import (
	"fmt"

	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/stage"
)

// Where is everything in plan, and then: how high? The base's top comes out at 72
// (see level); over it 3 of bed, 20 of former, then 1 of tanking, 3 of bed and
// 9 of tile.
func ExamplePlaced_Level() {
	packs, err := assets.Rules()
	if err != nil {
		fmt.Println(err)
		return
	}
	var shaper plan.Shaper
	placed := stage.Place(job.New(), packs["UK"], &shaper)
	if shaper.Err() != nil {
		fmt.Println(shaper.Err())
		return
	}
	fmt.Printf("outlet at %.0f, run of %.0f mm to the wall\n", placed.Layout.Outlet, placed.Run.ExitAtMM)
	h := placed.Level().Heights
	fmt.Println("base", h.BaseTopMM, "flange", h.FlangeMM, "tile", h.TileMM)
	// Output:
	// outlet at [645 1832], run of 645 mm to the wall
	// base 72 flange 95 tile 108
}
