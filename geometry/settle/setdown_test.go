package settle_test

import (
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// The readings on a slab were taken before it is set down: those in the shower, from y = 1000 to 1900 in the starting room, go
// down with it, which is told; those beside it, and one that is held, stay. Down 120 and up again by 20 they lie 100 lower.
func TestReadingsGoDownWithTheSlab(t *testing.T) {
	say := in(t, unit.Metric)
	levels := func(j job.Job) (mm [4]float64) {
		for i, s := range j.SpotLevels {
			mm[i] = s.LevelMM
		}
		return mm
	}
	before := with(func(j *job.Job) {
		j.Floor.Kind, j.Floor.SlabThicknessMM = job.FloorSlab, 300
		j.SpotLevels = nil
		for _, p := range []plan.Point{{700, 1500}, {300, 1200}, {2000, 300}, {1000, 1300}} {
			j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: p, LevelMM: 2, ToleranceMM: 1})
		}
		j.SetStanding(job.SpotLevelsKey+"[3].levelMM", job.Held)
	})
	if p := before.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	told := func(s settle.Settled, want string) {
		t.Helper()
		if s.Refused != nil {
			t.Fatal(say(s.Refused.What))
		}
		if !slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return say(m.What) == want }) {
			t.Errorf("%q is not told, but %v", want, s.Moved)
		}
	}
	s := settle.Do(before, number("floor.setDownMM", 120))
	told(s, "2 readings in the shower went 120 mm down with the slab.")
	if got, want := levels(s.Job), [4]float64{-118, -118, 2, 2}; got != want {
		t.Errorf("set down 120 the readings are %v, want %v", got, want)
	}
	s = settle.Do(s.Job, number("floor.setDownMM", 100))
	told(s, "2 readings in the shower went 20 mm up with the slab.")
	if got, want := levels(s.Job), [4]float64{-98, -98, 2, 2}; got != want {
		t.Errorf("and up to 100 the readings are %v, want %v", got, want)
	}
}
