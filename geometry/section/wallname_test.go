package section_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/section"
)

// What a wall is called stands in the plan beside its letter, which stays in its disc; one without a name
// has the letter alone.
func TestNamesOfWallsInPlan(t *testing.T) {
	for _, name := range []string{"", "window wall"} {
		d := section.PlanOf(starting(t, func(j *job.Job) { j.Room.Walls[2].Name = name }))
		discs, named := 0, 0
		for _, n := range d.Names {
			if n.Disc != 0 {
				discs++
			}
			if len(n.Texts) == 1 && n.Texts[0].String() == `own{text: "window wall"}` && len(n.Places) > 0 {
				named++
			}
		}
		if want := map[bool]int{true: 1}[name != ""]; discs != 4 || named != want {
			t.Errorf("%q: %d letters, named %d times", name, discs, named)
		}
	}
}
