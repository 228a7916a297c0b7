package settle_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// The way out of the starting job is 68 along wall B from corner BC, straight out of the trap at (700, 1832). Put into wall C, whose corner CD is
// at (2400, 1900), it lies behind the trap, 2400 − 700 along, though how far it was along wall B is held; and that is told.
func TestTheWayOutIsPutIntoAnotherWall(t *testing.T) {
	say := in(t, unit.Metric)
	wall, ok := job.FindInput("waste.exit.wall")
	if !ok {
		t.Fatal("the wall is no input")
	}
	for name, before := range map[string]job.Job{"free": with(none), "held": with(held("waste.exit.offsetMM"))} {
		s := settle.Do(before, edit.AtWall(wall, 2))
		if s.Refused != nil {
			t.Fatalf("%s: %s", name, say(s.Refused.What))
		}
		if e := s.Job.Waste.Exit; e.Wall != 2 || math.Abs(e.OffsetMM-1700) > 1e-6 || s.Job.Drain.OutletTurnDeg != 90 {
			t.Errorf("%s: %+v, outlet %v", name, e, s.Job.Drain.OutletTurnDeg)
		}
		if !slices.ContainsFunc(s.Moved, func(m settle.Moved) bool { return slices.Contains(m.Keys, "waste.exit.offsetMM") }) {
			t.Errorf("%s: not told: %v", name, s.Moved)
		}
	}
}

// The level of a hole in one wall says nothing of another, and is let go with that told; held it stays, and so does how low the way out
// may come.
func TestTheLevelOfAHoleStaysWithItsWall(t *testing.T) {
	wall, ok := job.FindInput("waste.exit.wall")
	if !ok {
		t.Fatal("the wall is no input")
	}
	for name, c := range map[string]struct {
		before job.Job
		want   job.ExitLevelKind
	}{
		"a hole": {with(func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(17) }), job.ExitFree},
		"a hole, held": {with(func(j *job.Job) {
			j.Waste.Exit.Level = job.Exactly(17)
			j.SetStanding("waste.exit.level", job.Held)
		}), job.ExitExactly},
		"not lower": {with(func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(17) }), job.ExitNotBelow},
	} {
		s := settle.Do(c.before, edit.AtWall(wall, 2))
		if s.Refused != nil || s.Job.Waste.Exit.Level.Kind() != c.want {
			t.Errorf("%s: %v, %+v", name, s.Refused, s.Job.Waste.Exit.Level)
		}
		told := slices.ContainsFunc(s.Moved, func(m settle.Moved) bool {
			return slices.ContainsFunc(m.Keys, func(key string) bool { return strings.HasPrefix(key, "waste.exit.level") })
		})
		if told != (c.want == job.ExitFree) {
			t.Errorf("%s: told: %v: %v", name, told, s.Moved)
		}
	}
}
