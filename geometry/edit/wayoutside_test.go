package edit_test

import (
	"reflect"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// The way outside is only for a waste that leaves through a wall, and leaves one that is stated as it is.
func TestWayOutside(t *testing.T) {
	j := job.New()
	if got := edit.WayOutside().Apply(j); got.Waste.Beyond == nil || len(got.OpenUnder(job.BeyondKey)) != 2 {
		t.Errorf("through a wall: %+v, %v", got.Waste.Beyond, got.Standings)
	}
	stated := j.Clone()
	stated.Waste.Beyond = &job.Beyond{LengthMM: 900, Joins: job.JoinStack}
	through := edit.ExitKind(job.ExitFloor).Apply(j)
	for name, of := range map[string]job.Job{"stated": stated, "through the floor": through} {
		if got := edit.WayOutside().Apply(of); !reflect.DeepEqual(got, of) {
			t.Errorf("%s: it becomes %+v, %v", name, got.Waste.Beyond, got.Standings)
		}
	}
}
