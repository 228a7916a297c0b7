package section_test

import (
	"fmt"
	"slices"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// The middle of the starting job's drain, half of 70 off the 13 that the wall's finish takes, is 48
// from the back wall and in the middle of the shower of 1400. The run lies along y = 1832, 68 from
// the back wall, and leaves 68 from the start of the left one, which is the number that is stated.
func TestRunIsSetOut(t *testing.T) {
	d := section.PlanOf(starting(t))
	var got []string
	for _, o := range d.SetOuts {
		a, b := o.Spans[0][0], o.Spans[0][1]
		got = append(got, fmt.Sprintf("%v %s %g,%g to %g,%g", o.Text, o.Key, a.X(), a.Y(), b.X(), b.Y()))
	}
	want := []string{
		"dimension.length{length: 48 mm}  700,1900 to 700,1852",
		"dimension.length{length: 700 mm}  0,1852 to 700,1852",
		"dimension.length{length: 68 mm} waste.exit.offsetMM -161.25,1900 to -161.25,1832",
		"dimension.length{length: 68 mm}  322.5,1900 to 322.5,1832", // half the 645 from the wall to the trap
	}
	if !slices.Equal(got, want) {
		t.Errorf("set out:\n%q\nwant\n%q", got, want)
	}
}

// A stack is set out from the wall nearest to it and from the nearer of the two across: at 300,
// 700 from the left one, x = 0, and from the front one, y = 0. One outside is not.
func TestStackIsSetOut(t *testing.T) {
	spans := func(at plan.Point) (out [][2]plan.Point) {
		d := section.PlanOf(starting(t, func(j *job.Job) {
			j.Room.Stacks = []job.Stack{{At: at, NominalMM: 110, OutsideMM: 110}}
		}))
		for _, o := range d.SetOuts {
			if near(o.Of, at) {
				out = append(out, o.Spans[0])
			}
		}
		return out
	}
	got := spans(plan.Point{300, 700})
	if len(got) != 2 {
		t.Fatalf("%v", got)
	}
	for i, want := range []plan.Point{{0, 700}, {300, 0}} {
		expectPoint(t, "from", got[i][0], want)
		expectPoint(t, "to", got[i][1], plan.Point{300, 700})
	}
	if got := spans(plan.Point{-400, 700}); len(got) > 0 {
		t.Errorf("a stack outside is set out by %v", got)
	}
}

// What stands by itself in the room can be typed on in the plan, from both walls that it is set
// out by: a stack at (300, 700) from the left one, the fourth, and the front one, the first.
// The end of a pipe that the waste leads to is set with it.
func TestSetOutsCanBeTypedOn(t *testing.T) {
	sets := func(change func(*job.Job)) (out []edit.FromWall) {
		for _, o := range section.PlanOf(starting(t, change)).SetOuts {
			if o.Sets != (edit.FromWall{}) {
				out = append(out, o.Sets)
			}
		}
		return out
	}
	both := func(kind edit.HandleKind, walls ...int) (out []edit.FromWall) {
		for _, w := range walls {
			out = append(out, edit.FromWall{Of: edit.Handle{Kind: kind}, Wall: w})
		}
		return out
	}
	const front, back, left = 0, 2, 3
	leads := func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 700}} }
	end := func(j *job.Job) { j.Room.PipeEnds = []job.PipeEnd{{At: plan.Point{300, 700}}} }
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   []edit.FromWall
	}{
		"a stack": {func(j *job.Job) {
			j.Room.Stacks = []job.Stack{{At: plan.Point{300, 700}, NominalMM: 110, OutsideMM: 110}}
		}, both(edit.HandleStack, left, front)},
		"two stacks by one wall": {func(j *job.Job) {
			j.Room.Stacks = []job.Stack{
				{At: plan.Point{300, 700}, NominalMM: 110, OutsideMM: 110}, {At: plan.Point{300, 200}, NominalMM: 110, OutsideMM: 110}}
		}, append(both(edit.HandleStack, left, front), // the second is 200 from the front, 300 from the left
			edit.FromWall{Of: edit.Handle{Kind: edit.HandleStack, Index: 1}, Wall: front}, edit.FromWall{Of: edit.Handle{Kind: edit.HandleStack, Index: 1}, Wall: left})},
		"an exit":               {leads, both(edit.HandleExit, left, front)},
		"a pipe end":            {end, both(edit.HandlePipeEnd, left, front)},
		"one the waste goes to": {func(j *job.Job) { leads(j); end(j) }, both(edit.HandlePipeEnd, left, front)},
		"a point drain": {func(j *job.Job) {
			j.Former.Fall = job.FallPoint
		}, both(edit.HandleDrain, back, left)}, // 450 from the back, 700 from the left
		"an exit in a wall": {func(*job.Job) {}, nil},
	} {
		if got := sets(c.change); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// A stack that the waste goes into, or the end of a pipe, is taken hold of at its own place, the
// exit 200 before it along the run, where it has another to go to.
func TestExitIsTakenHoldOfBesideItsStack(t *testing.T) {
	stacks := func(n int) func(*job.Job) {
		return func(j *job.Job) {
			j.Drain.OutletTurnDeg = 180
			for i := range n {
				at := plan.Point{100, 1832 - 1500*float64(i)}
				j.Room.Stacks = append(j.Room.Stacks, job.Stack{At: at, NominalMM: 110, OutsideMM: 110})
			}
			j.Waste.Exit = job.Exit{Kind: job.ExitStack}
		}
	}
	count := func(d section.Drawing, kind edit.HandleKind) (n int) {
		for _, h := range d.Handles {
			if h.Moves.Kind == kind {
				n++
			}
		}
		return n
	}
	one := section.PlanOf(starting(t, stacks(1)))
	expectHandle(t, one, edit.Handle{Kind: edit.HandleStack}, plan.Point{100, 1832}, 1)
	if n := count(one, edit.HandleExit); n > 0 {
		t.Errorf("an exit that can go nowhere else is taken hold of at %d places", n)
	}
	// The run goes along y = 1832 from x = 645 to the stack's face at 155.
	two := section.PlanOf(starting(t, stacks(2)))
	expectHandle(t, two, edit.Handle{Kind: edit.HandleExit}, plan.Point{355, 1832}, 1)
	led := section.PlanOf(starting(t, func(j *job.Job) {
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{100, 1832}}
		j.Room.PipeEnds = []job.PipeEnd{{At: plan.Point{100, 1832}}}
	}))
	expectHandle(t, led, edit.Handle{Kind: edit.HandlePipeEnd}, plan.Point{100, 1832}, 1)
	expectHandle(t, led, edit.Handle{Kind: edit.HandleExit}, plan.Point{300, 1832}, 1)
}
