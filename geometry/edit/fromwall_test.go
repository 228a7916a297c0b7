package edit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// The room is 2400 by 1900; its walls are the front one, y = 0, the right one, x = 2400, the
// back one and the left one, x = 0. Its drain, made a point drain, lies in the shower's middle
// but for its place: 700 from the left and 450 from the back.
func TestThingsAreSetFromWallsByHand(t *testing.T) {
	const front, right, back, left = 0, 1, 2, 3
	stack := edit.Handle{Kind: edit.HandleStack, Index: 1}
	end := edit.Handle{Kind: edit.HandlePipeEnd}
	exit, drain := edit.Handle{Kind: edit.HandleExit}, edit.Handle{Kind: edit.HandleDrain}
	with := func(change func(*job.Job)) job.Job {
		j := job.New()
		j.Room.Stacks = []job.Stack{
			{At: plan.Point{1800, 200}, NominalMM: 110, OutsideMM: 110}, {At: plan.Point{300, 700}, NominalMM: 110, OutsideMM: 110}}
		j.Room.PipeEnds = []job.PipeEnd{{At: plan.Point{500, 600}}}
		change(&j)
		return j
	}
	plain := with(func(*job.Job) {})
	led := with(func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{500, 600}} })
	piped := with(func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{900, 400}} })
	point := with(func(j *job.Job) { j.Former.Fall = job.FallPoint })
	stackAt := func(j job.Job) plan.Point { return j.Room.Stacks[1].At }
	endAt := func(j job.Job) plan.Point { return j.Room.PipeEnds[0].At }
	exitAt := func(j job.Job) plan.Point { return j.Waste.Exit.At }
	for name, c := range map[string]struct {
		j        job.Job
		of       edit.Handle
		wall     int
		was, set float64
		at       func(job.Job) plan.Point
		want     plan.Point
	}{
		"a stack from the left":   {plain, stack, left, 300, 250.5, stackAt, plan.Point{250.5, 700}},
		"a stack from the right":  {plain, stack, right, 2100, 115, stackAt, plan.Point{2285, 700}},
		"a stack from the back":   {plain, stack, back, 1200, 1100, stackAt, plan.Point{300, 800}},
		"a pipe end":              {plain, end, front, 600, 150, endAt, plan.Point{500, 150}},
		"the waste goes with it":  {led, end, front, 600, 150, exitAt, plan.Point{500, 150}},
		"the exit":                {piped, exit, left, 900, 1000, exitAt, plan.Point{1000, 400}},
		"a point drain":           {point, drain, left, 700, 600, drainAt, plan.Point{600, 1450}},
		"a point drain from back": {point, drain, back, 450, 500, drainAt, plan.Point{700, 1400}},
	} {
		f := edit.FromWall{Of: c.of, Wall: c.wall}
		if mm, ok := f.MM(c.j); !ok || math.Abs(mm-c.was) > 1e-6 {
			t.Errorf("%s: %v from the wall, %v; want %v", name, mm, ok, c.was)
		}
		if got := c.at(f.Set(c.set).Apply(c.j)); got.Sub(c.want).Len() > 1e-6 {
			t.Errorf("%s: at %v, want %v", name, got, c.want)
		}
	}
	for name, f := range map[string]edit.FromWall{
		"no such stack":               {Of: edit.Handle{Kind: edit.HandleStack, Index: 2}},
		"no such wall":                {Of: stack, Wall: 4},
		"an exit in a wall":           {Of: exit},
		"a drain as long as its side": {Of: drain},
		"nothing":                     {},
	} {
		if mm, ok := f.MM(plain); ok {
			t.Errorf("%s: %v from the wall", name, mm)
		}
	}
}

// drainAt is where a job's drain is.
func drainAt(j job.Job) plan.Point { return layout.Of(j, &plan.Shaper{}).DrainCentre }

// In any room, however its walls stand, what is set from a wall then is so far from it.
func TestWhatIsSetFromAWallIsSoFarFromIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		mm := float64(rapid.IntRange(0, 3000).Draw(t, "distance"))
		for _, kind := range []edit.HandleKind{edit.HandleStack, edit.HandlePipeEnd, edit.HandleExit, edit.HandleDrain} {
			for wall := range j.Room.Outline {
				f := edit.FromWall{Of: edit.Handle{Kind: kind}, Wall: wall}
				if _, ok := f.MM(j); !ok {
					continue
				}
				if got, ok := f.MM(f.Set(mm).Apply(j)); !ok || math.Abs(got-mm) > 1e-5 {
					t.Errorf("%v set to %v from wall %d: %v, %v", kind, mm, wall, got, ok)
				}
			}
		}
	})
}
