package waste_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Through a wall 100 thick the pipe goes on 60 past its outer face (drawn so;
// common practice, no source): 160 along a leg that is square to it, and
// 160/cos of the angle along one that is not. A leg nearly along the wall,
// beyond 78.46°, whose cosine is 0.2, turns and goes through square.
func TestExitThroughAWall(t *testing.T) {
	out := plan.Point{1, 0}
	for _, c := range []struct {
		deg  float64 // between the last leg and the way out
		past float64 // of the pipe's end past the exit
		turn bool
	}{
		{0, 160, false}, {30, 160 / math.Cos(math.Pi/6), false}, {45, 160 * math.Sqrt2, false}, {-60, 320, false},
		{78.3, 160 / math.Cos(78.3*math.Pi/180), false}, {78.6, 160, true}, {-78.6, 160, true}, {90, 160, true}, {-90, 160, true}, {120, 160, true},
	} {
		s, k := math.Sincos(c.deg * math.Pi / 180)
		name := fmt.Sprintf("at %v°", c.deg)
		way := plan.Point{k, s}
		exit := plan.Point{800, 0}.Add(way.Mul(600))
		for _, f := range frames() {
			r := run{turns: []plan.Point{{800, 0}}, exit: exit, out: out}.lay(f)
			end, leaves := exit.Add(way.Mul(c.past)), way
			if c.turn {
				end, leaves = exit.Add(out.Mul(c.past)), out
			}
			last := r.Pieces[len(r.Pieces)-1]
			nearPoint(t, name+", exit", r.Exit, f.point(exit))
			nearPoint(t, name+", way out", r.ExitTo, f.vector(leaves))
			nearPoint(t, name+", end of the pipe", last.Path[len(last.Path)-1], f.point(end))
			nearPoint(t, name+", last corner", r.Corners[len(r.Corners)-1], f.point(exit))
			near(t, name+", length", last.ToMM, r.LengthMM)
			if !c.turn {
				near(t, name+", exit along the run", r.ExitAtMM, r.LengthMM-c.past)
			}
		}
	}
	// Straight out: 500 to the wall and 160 on.
	r := run{exit: plan.Point{500, 0}, out: out}.lay(frame{})
	near(t, "length", r.LengthMM, 660)
	near(t, "exit along the run", r.ExitAtMM, 500)
}

// At the end of a pipe the run ends in it. Through the floor the bend down takes
// its 45 off the last leg, and counts; that needs 45 of it.
func TestExitWithoutAWall(t *testing.T) {
	for _, f := range frames() {
		r := run{exit: plan.Point{500, 0}}.lay(f)
		near(t, "length to a pipe", r.LengthMM, 500)
		near(t, "exit along the run", r.ExitAtMM, 500)
		nearPoint(t, "way into the pipe", r.ExitTo, f.vector(plan.Point{1, 0}))
		if len(r.Pieces) != 1 || r.Bends != 0 {
			t.Errorf("pieces %v, %d bends", kinds(r), r.Bends)
		}
		r = run{turns: []plan.Point{{300, 0}}, exit: plan.Point{300, 400}, floor: true}.lay(f)
		if fmt.Sprint(kinds(r)) != "[straight bend straight drop]" || r.Bends != 2 {
			t.Fatalf("pieces %v, %d bends", kinds(r), r.Bends)
		}
		down := r.Pieces[3]
		near(t, "last straight", r.Pieces[2].LengthMM(), 400-45-45)
		near(t, "drop in plan", down.LengthMM(), 0)
		near(t, "place of the drop", down.FromMM, r.LengthMM)
		near(t, "turn of the drop", down.TurnDeg, 90)
		near(t, "bend of the drop", down.NearestDeg, 90)
		nearPoint(t, "drop", down.Path[0], f.point(plan.Point{300, 400}))
		nearPoint(t, "exit", r.Exit, f.point(plan.Point{300, 400}))
	}
	for length, want := range map[float64]int{45: 0, 44.9: 1} {
		if r := (run{exit: plan.Point{length, 0}, floor: true}).lay(frame{}); len(r.Trouble) != want {
			t.Errorf("drop after %v: trouble %v", length, r.Trouble)
		}
	}
}

// An exit less than a millimetre from the outlet leaves no run, with turns or
// without; a millimetre does.
func TestNoRunAtAll(t *testing.T) {
	for _, c := range []struct {
		exit  plan.Point
		turns []plan.Point
		none  bool
	}{
		{plan.Point{0.9, 0}, nil, true}, {plan.Point{1, 0}, nil, false}, {plan.Point{1.1, 0}, nil, false}, {plan.Point{0, 0}, nil, true},
		{plan.Point{0.7, 0.6}, []plan.Point{{300, 0}, {300, 300}}, true}, {plan.Point{0.8, 0.8}, []plan.Point{{300, 0}, {300, 300}}, false},
	} {
		for _, f := range frames() {
			r := run{exit: c.exit, turns: c.turns}.lay(f)
			found := troubles(r, waste.NothingLeft)
			if c.exit == (plan.Point{1, 0}) && f != (frame{}) {
				continue // a millimetre to the bit is one in exact numbers only
			}
			if c.none != (len(found) == 1) || c.none != (len(r.Pieces) == 0) {
				t.Errorf("exit at %v: trouble %v, pieces %v", c.exit, r.Trouble, kinds(r))
			}
			if c.none {
				nearPoint(t, "where", found[0].At, f.point(c.exit))
				nearPoint(t, "way", r.ExitTo, f.vector(plan.Point{1, 0}))
			}
		}
	}
}

// A turn no more than half a millimetre from the one before is the same.
func TestTurnsInOnePlace(t *testing.T) {
	for gap, want := range map[float64]int{0: 3, 0.49: 3, 0.5: 3, 0.51: 4} {
		r := run{turns: []plan.Point{{512, 0}, {512, gap}}, exit: plan.Point{512, 400}}.lay(frame{})
		if len(r.Corners) != want {
			t.Errorf("%v apart: corners %v, want %d", gap, r.Corners, want)
		}
	}
}
