package chance_test

import (
	"context"
	"fmt"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/job"
)

// How sure is it that the trap clears the floor? At the lowest base that works it
// stands on it, and what it stands on may turn out a little low as well as a
// little high: one time in two it does not fit. Base, bed, former and trap are
// each within 1 mm 95 times of 100, half of that is a standard deviation:
// √4 · 0.5 = 1, and 1.6 of those make 95 of 100 trap bodies fit.
func ExampleCount() {
	packs, err := assets.Rules()
	if err != nil {
		fmt.Println(err)
		return
	}
	r := geometry.Evaluate(job.New(), packs["UK"])
	c, err := chance.Count(context.Background(), r.Levelled, r.Findings, 3000, chance.Seed)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, k := range c.Risks {
		if k.Rule.Quantity == "trap.into-floor" {
			fmt.Printf("%s: %.1f\n", k.Rule.ID, k.Probability)
		}
	}
	fmt.Printf("set the base about %.0f mm higher\n", c.MarginMM)
	// Output:
	// trap-floor: 0.5
	// set the base about 2 mm higher
}
