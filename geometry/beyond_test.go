package geometry_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// The floor beyond a doorway that nobody has given is told as assumed where its level is: at its rod, and in the levels as
// what the step leads from. Once it is stated it is not.
func TestFloorBeyondIsToldAsAssumed(t *testing.T) {
	for standing, want := range map[job.Standing][2]message.ID{
		job.Assumed: {"rod.beyond-assumed", "row.door-step-assumed"}, job.NotKnown: {"rod.beyond-assumed", "row.door-step-assumed"},
		job.Stated: {"rod.beyond", "row.door-step"}, job.Held: {"rod.beyond", "row.door-step"},
	} {
		j := job.New()
		j.SetStanding("room.doorways[0].neighbourFFLMM", standing)
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		rods, _ := r.Rods()
		var rod, row message.ID
		for _, x := range rods {
			if x.Of == geometry.RodBeyond {
				rod = x.Name()
			}
		}
		for _, x := range r.Schedule {
			if x.ID.Of == buildup.DoorStep {
				row = x.Message().ID
			}
		}
		if rod != want[0] || row != want[1] {
			t.Errorf("%q: %s and %s, want %s", standing, rod, row, want)
		}
	}
}
