package layout_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// A mat in the starting job by hand, 100 off walls and drain. The room beside the shower
// leaves 2200 × 1700 within its margin, less 1300 × 800 of the shower; in the shower, the
// drain 300 to 1100 and 1817 to 1887, it leaves 1300 × 800 less 1000 × 83 by the drain.
func TestHeatedByHand(t *testing.T) {
	mat := []job.Course{{Kind: job.CourseHeating}}
	const roomMM2, showerMM2 = 2200*1700 - 1300*800, 1300*800 - 1000*83
	off := &job.Heating{MarginMM: 100, FromDrainMM: 100}
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   float64
	}{
		"none":   {func(j *job.Job) { j.Layers.Heating = off }, 0},
		"room":   {func(j *job.Job) { j.Layers.Room.Under, j.Layers.Heating = mat, off }, roomMM2},
		"shower": {func(j *job.Job) { j.Layers.Shower.Under, j.Layers.Heating = mat, off }, showerMM2},
		"both":   {func(j *job.Job) { j.Layers.Room.Under, j.Layers.Shower.Under, j.Layers.Heating = mat, mat, off }, roomMM2 + showerMM2},
		// A toilet 360 by 600 out from the front wall, 260 by 500 of it within the margin; a
		// basin that hangs high takes nothing.
		"under fixtures": {func(j *job.Job) {
			j.Layers.Room.Under, j.Layers.Heating = mat, off
			j.Room.Fixtures = []job.Fixture{{Kind: job.FixtureToilet, Wall: 0, WidthMM: 360, DepthMM: 600, HeightMM: 400},
				{Kind: job.FixtureBasin, Wall: 0, OffsetMM: 600, WidthMM: 500, DepthMM: 400, HeightMM: 150, UnderMM: 700}}
		}, roomMM2 - 260*500},
		"all over": {func(j *job.Job) { j.Layers.Room.Under, j.Layers.Shower.Under = mat, mat }, 2400*1900 - 800*70},
		"kept finish": {func(j *job.Job) {
			j.Layers.Room.Under = mat
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish}}
		}, 0},
		"no room left": {func(j *job.Job) { j.Layers.Room.Under, j.Layers.Heating = mat, &job.Heating{MarginMM: 1000} }, 0},
	} {
		j := job.New()
		j.Drain.LengthMM = 800
		c.change(&j)
		sh := &plan.Shaper{}
		if got := layout.Of(j, sh).Heated.Area(); math.Abs(got-c.want) > 1e-3 || sh.Err() != nil {
			t.Errorf("%s: %v mm² heated, want %v (%v)", name, got, c.want, sh.Err())
		}
	}
}

// A mat in a room of many corners, counted point by point of a grid of 10: off a wall by
// its plain distance, which at corners that point inwards is a rounding less.
func TestHeatedPointByPoint(t *testing.T) {
	j := job.New()
	j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 2600}, {1700, 2600}, {1700, 1900}, {0, 1900}}
	j.Room.Walls = append(j.Room.Walls, j.Room.Walls[2], j.Room.Walls[2])
	j.Shower.Wall, j.Waste.Exit.Wall = 4, 5
	j.Layers.Room.Under = []job.Course{{Kind: job.CourseHeating}}
	j.Layers.Heating = &job.Heating{MarginMM: 150}
	l := layout.Of(j, &plan.Shaper{})
	counted := 0.0
	for x := 5.0; x < 2400; x += 10 {
		for y := 5.0; y < 2600; y += 10 {
			p := plan.Point{x, y}
			near := !l.Rest.Contains(p, 0)
			for _, w := range l.Walls {
				near = near || plan.DistanceToSegment(p, w.A, w.B) < 150
			}
			if !near {
				counted += 100
			}
		}
	}
	// Between the quarter of a circle and the square at the one such corner.
	const cornerMM2 = 150 * 150 * (1 - math.Pi/4)
	if got := l.Heated.Area(); counted < 1e6 || math.Abs(counted-got-cornerMM2) > 0.01*counted {
		t.Errorf("%v mm² heated, counted %v", got, counted)
	}
}
