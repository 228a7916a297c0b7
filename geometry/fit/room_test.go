package fit_test

import (
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
)

// Raising the room is told with what it is raised on, and over how much floor; a room
// that stays is not.
func TestARaisedRoomIsToldWithItsBoards(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	pack := demotest.Packs(t)[j.Region]
	before := geometry.Evaluate(j, pack)
	after := geometry.Evaluate(edit.Edge(job.EdgeRaiseRoom).Apply(j), pack)
	if len(before.Findings) == 0 {
		t.Fatal("nothing to settle")
	}
	said := func(r fit.Remedy) (out string) {
		for _, m := range r.Price(before, before.Findings[0]) {
			out += m.String() + "\n"
		}
		return out
	}
	told := said(fit.Remedy{After: after})
	for _, want := range []string{"remedy.room-takes", "layer.room-base", "layer.room-base-bed"} {
		if !strings.Contains(told, want) {
			t.Errorf("%q is not told:\n%s", want, told)
		}
	}
	if plain := said(fit.Remedy{After: before}); strings.Contains(plain, "remedy.room-takes") {
		t.Errorf("a room that stays is told to be raised:\n%s", plain)
	}
}
