package section_test

import (
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
)

// In a section across the door the floor beyond says that it is assumed where nobody has given it.
func TestFloorBeyondIsMarkedAsAssumed(t *testing.T) {
	for standing, want := range map[job.Standing]message.ID{job.Assumed: "mark.beyond-assumed", job.Stated: "mark.beyond"} {
		r := starting(t, func(j *job.Job) { j.SetStanding("room.doorways[0].neighbourFFLMM", standing) })
		d, err := section.Through(r, section.Cutting{Of: section.CutDoor}, buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, m := range d.Marks {
			found = found || m.Of == want
		}
		if !found {
			t.Errorf("%q: no %s", standing, want)
		}
	}
}

// Over a water stop of 5 on a floor at 13 one steps from a floor at 4 beyond it 14 up to 18; beside one at 20 it is the stop's own
// 5, from the floor inside.
func TestTheStepAtADoorwayGoesOverItsWaterStop(t *testing.T) {
	for beyondMM, want := range map[float64][2]float64{4: {4, 18}, 20: {13, 18}} {
		r := starting(t, func(j *job.Job) {
			j.Layers.Tanking, j.Room.Doorways[0].NeighbourFFLMM = &job.Tanking{DoorStopMM: 5}, beyondMM
		})
		d, err := section.Through(r, section.Cutting{Of: section.CutDoor}, buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, m := range d.Dimensions {
			found = found || m.Step && m.From.Y() == want[0] && m.To.Y() == want[1]
		}
		if !found {
			t.Errorf("beside a floor at %v no step goes from %v to %v: %+v", beyondMM, want[0], want[1], d.Dimensions)
		}
	}
}
