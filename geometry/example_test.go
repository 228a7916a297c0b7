package geometry_test

import (
	"fmt"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/job"
)

// How high does the floor come out, and does anything stop it being built? The base
// is at 72 (level works it out by hand), the tile 3 + 20 + 1 + 3 + 9 = 36 over it
// at the drain. At the open edge it has risen by 817/50 = 16.3 and stands
// 108 + 16.3 − 13 over the room's tile: a step that is advised against.
func ExampleEvaluate() {
	packs, err := assets.Rules()
	if err != nil {
		fmt.Println(err)
		return
	}
	r := geometry.Evaluate(job.New(), packs["UK"])
	fmt.Println("base", r.Heights.BaseTopMM, "tile at the drain", r.Heights.TileMM, "stops:", r.Stops())
	for _, f := range r.Findings {
		if f.Rule.Quantity == "step.edge" {
			fmt.Println(f.Measurement.Subject, "–", f.Rule.ID, "–", fmt.Sprintf("%.1f mm", f.Measurement.Value))
		}
	}
	// Output:
	// base 72 tile at the drain 108 stops: false
	// open-edge 1, right – edge-step – 111.3 mm
	// open-edge 2, front – edge-step – 111.3 mm
}
