package fit_test

import (
	"testing"

	"underfall/geometry/fit"
	"underfall/geometry/job"
)

// A hole that cuts the damp-proof course, or comes near it, is put over it, wherever in the hole the course is, and the base comes
// up for that.
func TestTheHoleIsPutOverTheDampCourse(t *testing.T) {
	planned := evaluated(t, job.New())
	core, ok := planned.Heights.Core(&planned.Settled, &planned.Layout)
	if !ok {
		t.Fatal("no hole")
	}
	for _, c := range []struct {
		name   string
		under  float64 // the hole's middle over the course
		rule   string
		leasts float64 // from the course to the hole
	}{
		{"under its middle", 20, "core-damp", 0}, {"over its middle", -20, "core-damp", 0}, {"close under it", 45, "core-damp-near", 25},
	} {
		j := job.New()
		course := core.CentreMM - c.under
		j.Room.Walls[j.Waste.Exit.Wall].DampCourseMM = &course
		r := evaluated(t, j)
		f, found := broken(r, c.rule)
		if !found {
			t.Fatalf("%s: nothing to mend", c.name)
		}
		got, why, ok := fit.RemedyOf(r, f)
		if !ok || got.Does.ID != "remedy.way-out-up" {
			t.Errorf("%s: offered %v, “%v”, %v", c.name, ok, got.Does, why)
			continue
		}
		after := evaluated(t, got.Edit.Apply(j))
		if f, still := broken(after, c.rule); still {
			t.Errorf("%s: still %v", c.name, f.Measurement.Value)
		}
		over, _ := after.Heights.Core(&after.Settled, &after.Layout)
		if over.CentreMM-over.LeastMM/2 < course+c.leasts-1e-6 {
			t.Errorf("%s: the hole begins at %v, the course lies at %v", c.name, over.CentreMM-over.LeastMM/2, course)
		}
	}
}
