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
