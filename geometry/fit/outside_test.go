package fit_test

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
)

// A hole that cuts the damp-proof course, or comes near it, is put over it, wherever in the hole the course is, and the base comes
// up for that.
func TestTheHoleIsPutOverTheDampCourse(t *testing.T) {
	plain := func(*job.Job) {}
	// Close to the wall, on boards, the base comes up by more than the way out, and the pipe falls more through the wall.
	close := func(j *job.Job) {
		*j = edit.Height(job.HeightBuildable, 0).Apply(*j)
		j.Drain.TrapOffsetMM, j.Base.BoardsMM, j.Base.BetweenLeastMM, j.Base.BetweenGreatestMM = -300, []float64{10, 60}, 2, 4
	}
	for _, c := range []struct {
		name  string
		under float64 // the hole's middle over the course
		rule  string
		least float64 // from the course to the hole
		make  func(*job.Job)
	}{
		{"under its middle", 20, "core-damp", 0, plain}, {"over its middle", -20, "core-damp", 0, plain},
		{"close under it", 45, "core-damp-near", 25, plain}, {"close to the wall", 19, "core-damp", 0, close},
	} {
		j := job.New()
		c.make(&j)
		planned := evaluated(t, j)
		core, ok := planned.Heights.Core(&planned.Settled, &planned.Layout)
		if !ok {
			t.Fatal("no hole")
		}
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
		if over.CentreMM-over.LeastMM/2 < course+c.least-1e-6 {
			t.Errorf("%s: the hole begins at %v, the course lies at %v", c.name, over.CentreMM-over.LeastMM/2, course)
		}
	}
}
