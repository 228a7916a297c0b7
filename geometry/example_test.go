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
// 108 + 16.3 − 13 over the room's tile: a step; no edge counts that a pane closes. Where the pipe goes outside is not said,
// so whether it is short enough cannot be told.
func ExampleEvaluate() {
	packs, err := assets.Rules()
	if err != nil {
		fmt.Println(err)
		return
	}
	r := geometry.Evaluate(job.New(), packs["UK"])
	fmt.Println("base", r.Heights.BaseTopMM, "tile at the drain", r.Heights.TileMM, "stops:", r.Stops())
	answer := r.Answer(nil)
	for _, step := range answer.Steps[:2] {
		fmt.Printf("%s: %s of %.1f mm\n", step.Where, step.Kind, step.MM)
	}
	fmt.Println(answer.Standing)
	for _, card := range answer.Cards[:1] {
		fmt.Println(card.Severity(), "–", card.Worst().Rule.ID, "at the", card.Worst().Measurement.Subject)
	}
	// Output:
	// base 72 tile at the drain 108 stops: false
	// open-edge 2, front: step of 111.3 mm
	// doorway 1: lip of -7.0 mm
	// not-known
	// not-known – beyond-unknown at the exit
}
