package measure_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The exit's level. With the base at 72 the outlet is at 20 and the run arrives 645
// on, 16.125 lower: at 3.875, its axis 23 over that.
func TestExitLevelsByHand(t *testing.T) {
	wall := mgl64.Vec3{0, 1832, 3.875 + 23}
	pipe := mgl64.Vec3{245, 1832, 10 + 23} // 400 on
	level := func(l job.ExitLevel) func(*job.Job) { return func(j *job.Job) { j.Waste.Exit.Level = l } }
	ends := func(l job.ExitLevel, nominal float64) func(*job.Job) {
		return func(j *job.Job) {
			toPipe(j, plan.Point{245, 1832})
			j.Waste.Exit.Level, j.Waste.Exit.NominalMM = l, nominal
		}
	}
	holdChanges(t, outletAt20(), []change{
		{"free", func(*job.Job) {}, []want{
			{"exit.too-low", "exit", not, nowhere},
			{"exit.too-high", "exit", not, nowhere},
			{"exit.above-outlet", "exit", not, nowhere},
			{"exit.narrower", "existing-pipe-end", not, nowhere},
		}},
		{"not below 10", level(job.NotBelow(10)), []want{
			{"exit.too-low", "exit", 6.125, wall},
			{"exit.above-outlet", "exit", 0, wall},
			{"exit.too-high", "exit", not, nowhere},
			{"exit.over-stated", "exit", 0, wall},
		}},
		// The level is no more than the lowest there may be: the run comes out over it.
		{"not below 0", level(job.NotBelow(0)), []want{
			{"exit.over-stated", "exit", 3.875, wall},
			{"exit.too-low", "exit", 0, wall},
			{"exit.above-outlet", "exit", 0, wall},
		}},
		// Asked for over the outlet.
		{"not below 32", level(job.NotBelow(32)), []want{{"exit.too-low", "exit", 28.125, wall}, {"exit.above-outlet", "exit", 12, wall}}},
		// Given exactly, the fall follows from it and it is met.
		{"exactly 32", level(job.Exactly(32)), []want{
			{"exit.too-low", "exit", 0, mgl64.Vec3{0, 1832, 55}},
			{"exit.above-outlet", "exit", 12, mgl64.Vec3{0, 1832, 55}},
			{"exit.too-high", "exit", 0, mgl64.Vec3{0, 1832, 55}},
			{"exit.over-stated", "exit", not, nowhere},
		}},
		// An existing pipe's end is met from over it and from under it.
		{"a pipe's end lower", ends(job.NotBelow(4), 0), []want{
			{"exit.too-high", "existing-pipe-end", 6, pipe},
			{"exit.too-low", "exit", 0, pipe},
			{"exit.narrower", "existing-pipe-end", not, nowhere},
		}},
		{"a pipe's end higher", ends(job.NotBelow(14), 0), []want{
			{"exit.too-high", "existing-pipe-end", 0, pipe},
			{"exit.too-low", "exit", 4, pipe},
		}},
		{"a pipe's end somewhere", ends(job.ExitLevel{}, 0), []want{
			{"exit.too-high", "existing-pipe-end", not, nowhere},
			{"exit.above-ground", "exit", not, nowhere},
			{"exit.off-corner", "exit", not, nowhere},
			{"caution.services", "exit", not, nowhere},
		}},
		{"a narrower pipe", ends(job.ExitLevel{}, 40), []want{{"exit.narrower", "existing-pipe-end", 10, pipe}}},
		{"a wider pipe", ends(job.ExitLevel{}, 110), []want{{"exit.narrower", "existing-pipe-end", 0, pipe}}},
	})
	// With no free pipe left nothing brings the run to a level given exactly: what is
	// left of the way is one falling piece as long as it, which falls by 20.
	meets(t, "nothing free", all(t, on(outletAt20(), func(j *job.Job) {
		ends(job.Exactly(-10), 0)(j)
		j.Waste.Fittings = fallingPiece(false)
		j.Waste.Fittings[0].AtMM, j.Waste.Fittings[0].LengthMM = 0, 400
	})), want{"exit.too-high", "existing-pipe-end", 10, mgl64.Vec3{245, 1832, 23}})
}

// The hole through the wall: from its corners, its studs and the ground outside. It is
// 8 wider than the pipe's 25 on each side.
func TestExitThroughAWallByHand(t *testing.T) {
	studs := func(first, spacing float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Room.Walls[3] = job.Wall{Kind: job.WallStud, ThicknessMM: 100, StudSpacingMM: spacing, FirstStudMM: first, StudWidthMM: 47}
		}
	}
	at := mgl64.Vec3{0, 1832, 26.875}
	stud := func(value float64) []want { return []want{{"exit.in-stud", "exit-in-wall B", value, at}} }
	holdChanges(t, outletAt20(), []change{
		{"masonry", func(*job.Job) {}, []want{
			{"exit.in-stud", "exit-in-wall B", not, nowhere},
			{"exit.in-sole-plate", "exit-in-wall B", not, nowhere},
		}},
		// The wall runs from (0, 1900) to (0, 0): 1832 along it is 68 before its end.
		{"near the other corner", func(j *job.Job) {
			j.Waste.Exit.OffsetMM, j.Waste.Waypoints = 1832, []plan.Point{{345, 1832}, {345, 68}}
		}, []want{{"exit.off-corner", "exit", 35, nowhere}}},
		{"with more room round it", func(j *job.Job) { j.Waste.HoleRoomMM = 20 }, []want{{"exit.off-corner", "exit", 68 - 25 - 20, nowhere}}},
		{"over the corner", func(j *job.Job) { j.Waste.Exit.OffsetMM, j.Drain.TrapOffsetMM = 30, 0 }, []want{
			{"exit.off-corner", "exit", -3, nowhere},
		}},
		// At 45° it goes in 1500 along the wall and comes out 215 on, 185 before its
		// end; on a face the hole of 33 reaches 33·√2 = 46.67 to each side.
		{"askew towards the corner", func(j *job.Job) {
			j.Waste.Exit.OffsetMM, j.Waste.Waypoints = 1500, []plan.Point{{345, 1832}, {345, 745}}
		}, []want{{"exit.off-corner", "exit", 185 - 33*math.Sqrt2, nowhere}}},
		{"no ground outside", func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = nil }, []want{{"exit.above-ground", "exit", not, nowhere}}},
		{"ground over it", func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = of(0) }, []want{
			{"exit.above-ground", "exit", -5, mgl64.Vec3{-275, 1832, 20}},
		}},
		// Studs of 47: one reaches 23.5 to each side of its middle, the pipe 25 to each side
		// of 68. One at 130 is 62 off, 13.5 clear; at 110 it is 6.5 in; at 68 square in
		// the pipe's way, the way out of it is as far as both: 48.5.
		{"a stud clear of it", studs(130, 400), stud(0)},
		// The hole of 66 and what 2.5 of fall through 100 make it larger reaches below the
		// floor and over the plate.
		{"a sole plate of the usual size", studs(130, 400), []want{{"exit.in-sole-plate", "exit-in-wall B", 38, at}}},
		{"a thin sole plate", func(j *job.Job) { studs(130, 400)(j); j.Room.Walls[3].SolePlateMM = 20 }, []want{
			{"exit.in-sole-plate", "exit-in-wall B", 20, at},
		}},
		{"a high sole plate", func(j *job.Job) { studs(130, 400)(j); j.Room.Walls[3].SolePlateMM = 100 }, []want{
			{"exit.in-sole-plate", "exit-in-wall B", 26.875 - 1.25 + 33*math.Sqrt(1+1.0/1600) + 1.25, at}}},
		{"over the sole plate", func(j *job.Job) { studs(130, 400)(j); j.Base.HeightMM += 60 }, []want{
			{"exit.in-sole-plate", "exit-in-wall B", 0, nowhere},
		}},
		{"a stud just clear of it", studs(68+48.6, 400), stud(0)},
		{"a stud that just meets it", studs(68+48.4, 400), stud(0.1)},
		{"a stud in it", studs(110, 400), stud(6.5)},
		{"a stud in its middle", studs(68, 400), stud(48.5)},
		{"a stud before it", studs(25, 400), stud(5.5)},
		{"a stud at the corner, the next in it", studs(0, 100), stud(48.5 - 32)},
		{"no stud before the first", studs(200, 100), stud(0)},
		{"the second stud in it", studs(10, 70), stud(48.5 - 12)},
	})
	// Far along, the studs that count are far from the first: 1400 along the third at
	// 1380 is 20 off.
	meets(t, "a stud far along", all(t, on(outletAt20(), func(j *job.Job) {
		studs(180, 600)(j)
		j.Waste.Waypoints = []plan.Point{{345, 1832}, {345, 500}}
		j.Waste.Exit.OffsetMM = 1400
	})), want{"exit.in-stud", "exit-in-wall B", 28.5, nowhere})
}

// The end of an existing pipe among joists: they are 47 wide and 220 deep under a
// deck of 22, the first at y = 40, then every 450. The pipe's 25 and 3 of room reach
// 51.5 from a joist's middle.
func TestPipesEndAmongJoistsByHand(t *testing.T) {
	// With the base let in at −22 the outlet is at −74; the run goes 145 to (500, y), its
	// invert about −78, between −22 and −242.
	ends := func(off float64) func(*job.Job) {
		return func(j *job.Job) { toPipe(j, plan.Point{545, 1932}, plan.Point{545, 1840 + off}) }
	}
	gap := func(value float64) []want { return []want{{"exit.in-joist", "existing-pipe-end", value, nowhere}} }
	letIn := demotest.Rooms(t)[2].Job
	holdChanges(t, letIn, []change{
		{"between joists", ends(-200), gap(0)},
		{"just clear", ends(51.6), gap(0)},
		{"just too near", ends(51.4), gap(0.1)},
		{"before a joist's middle", ends(20), gap(31.5)},
		{"past a joist's middle", ends(-20), gap(31.5)},
	})
	// The joist counts from where its top, −22, is over the pipe's underside, 2 under its
	// invert, to where its underside, −242, is under the pipe's crown, 48 over the invert.
	run := levelled(t, on(letIn, ends(20))).Heights.Run
	fall := run.InvertAt(0) - run.InvertAt(run.ExitAtMM)
	outletAt := func(mm float64) func(*job.Job) {
		// The outlet is 52 under the base's top.
		return func(j *job.Job) { ends(20)(j); chosen(j, mm+52) }
	}
	holdChanges(t, letIn, []change{
		{"on the joists", outletAt(fall - 22 + 2.1), gap(0)},
		{"a little in them", outletAt(fall - 22 + 1.9), gap(31.5)},
		{"resting on them", func(j *job.Job) { outletAt(-20)(j); j.Waste.Gradient = 0 }, gap(0)},
		{"hanging under them", func(j *job.Job) { outletAt(-290)(j); j.Waste.Gradient = 0 }, gap(0)},
		{"at their undersides", outletAt(fall - 242 - 47.9), gap(31.5)},
		{"under them", outletAt(fall - 242 - 50.1), gap(0)},
	})
	meets(t, "on a slab", all(t, on(job.New(), func(j *job.Job) { toPipe(j, plan.Point{245, 1832}) })), gap(0)...)
	meets(t, "through a wall", all(t, letIn),
		want{"exit.in-joist", "existing-pipe-end", not, nowhere},
		want{"exit.in-joist", "drop-through-floor", not, nowhere})
}

// A drop through the floor is measured by its name, at the exit.
func TestDropThroughTheFloorByHand(t *testing.T) {
	got := all(t, on(outletAt20(), func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{245, 1832}} }))
	// It goes 400 to the left, the last 45 of which the bend down takes.
	at := mgl64.Vec3{245, 1832, math.NaN()}
	for _, m := range got {
		if m.Quantity == "exit.in-joist" {
			at = m.At
			if m.Subject.String() != "drop-through-floor" || m.Value != 0 {
				t.Errorf("%s is %v in a joist of a slab", m.Subject, m.Value)
			}
		}
		if m.Quantity == "pipe.gradient" && m.Subject.String() != "pipe 1" || m.Quantity == "pipe.cover" && m.Subject.String() != "pipe 1" {
			t.Errorf("%s of %s is measured", m.Quantity, m.Subject)
		}
	}
	// Measured where the bend begins, its axis at 20 − 355/40 + 23.
	if !(at.Sub(mgl64.Vec3{290, 1832, 43 - 355.0/40}).Len() < closeMM) {
		t.Errorf("the drop is measured at %v", at)
	}
	meets(t, "a drop", got,
		want{"run.bends", "waste-run", 1, nowhere}, want{"caution.services", "exit", 1, nowhere},
		want{"run.length", "waste-run", 355, nowhere})
}
