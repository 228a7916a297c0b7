package search_test

import (
	"context"
	"fmt"

	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/search"
)

// Which ways with one bend can the waste take to an exit half a metre beside the
// outlet, and how high does the floor come up for each? At 1:40, with the outlet
// turned into the room, the run goes 445 that way and 700 to the wall, less 19 that
// the bend cuts off: 1126. It falls 1126/40 = 28.1; the outlet lies 52 under the
// base's top and the pipe's wall is 2: 82.1. As flat as the rules allow, 18 mm on a
// metre, it falls 20.3. The straight run, to an exit moved opposite the outlet, does
// with the 72 that the trap needs anyway.
func ExampleRuns() {
	packs, err := assets.Rules()
	if err != nil {
		fmt.Println(err)
		return
	}
	j := job.New()
	straight := j.Waste.Exit
	j.Waste.Exit.OffsetMM += 500
	found, err := search.Runs(context.Background(), j, packs["UK"], []job.Exit{j.Waste.Exit, straight}, search.Grid{Steps: 6, MostBends: 1}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range found.Found {
		fmt.Printf("raise %.1f, run of %.0f mm, %d bends, exit moved: %v, fall 1:%.0f – %s\n", a.RaiseMM, a.LengthMM, a.Bends, a.MovesExit, 1/a.Gradient, a.Governing.Message())
	}
	// Output:
	// raise 74.3, run of 1401 mm, 1 bends, exit moved: false, fall 1:56 – bound.piece-on-floor{piece: piece.pipe{number: 3}}
	// raise 82.1, run of 1401 mm, 1 bends, exit moved: false, fall 1:40 – bound.piece-on-floor{piece: piece.pipe{number: 3}}
	// raise 72.0, run of 920 mm, 0 bends, exit moved: true, fall 1:40 – bound.trap-on-floor
}
