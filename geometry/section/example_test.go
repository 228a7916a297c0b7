package section_test

import (
	"fmt"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/section"
)

// Which levels does the section through the drain show? The tile lies at 108 at
// the drain; it rises at 1:50 over the 900 − 13 − 70 = 817 mm in front of it:
// 108 + 16.3.
func ExampleOf() {
	packs, err := assets.Rules()
	if err != nil {
		fmt.Println(err)
		return
	}
	r := geometry.Evaluate(job.New(), packs["UK"])
	d := section.Of(r, section.ThroughDrain(r), buildup.StageTile)
	for _, m := range d.Marks {
		fmt.Printf("%s %.1f\n", m.Of, m.LevelMM)
	}
	// Output:
	// mark.tile 124.3
	// mark.tile 108.0
	// mark.room-floor 13.0
	// mark.structure 0.0
}
