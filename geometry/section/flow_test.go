package section_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

func expectLines(t *testing.T, what string, got, want [][]plan.Point) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d lines, want %d", what, len(got), len(want))
	}
	for _, w := range want {
		found := false
		for _, g := range got {
			if !near(g[0], w[0]) {
				continue
			}
			// Shapes are cut on a grid of a ten-thousandth.
			found = len(g) == len(w)
			for i := 0; found && i < len(w); i++ {
				found = g[i].Sub(w[i]).Len() < 1e-3
			}
			if !found {
				t.Errorf("%s: %v, want %v", what, g, w)
				found = true
			}
		}
		if !found {
			t.Errorf("%s: no line begins at %v", what, w[0])
		}
	}
}

// On one plane water runs straight back to the drain's edge at y = 1817; what lies
// behind it is level. The grid begins half a spacing from the shower's back left
// corner: by 150, nine columns from x = 75, five rows from 1675 down to 1075.
func TestFlowOverOnePlane(t *testing.T) {
	var want [][]plan.Point
	for x := 75.0; x < 1400; x += 150 {
		for y := 1675.0; y > 1000; y -= 150 {
			want = append(want, []plan.Point{{x, y}, {x, 1817}})
		}
	}
	r := starting(t)
	expectLines(t, "one plane", section.FlowLines(r, 150), want)
	// In a strip 2 wide along the left
	// wall, from y = 1700 up, they begin at 1700.5, and at 1815.5 for the last time: a
	// way of less than a millimetre is none.
	thin := r
	thin.Layout.OpenFloor = plan.Rectangle(plan.Point{0, 1700}, plan.Point{2, 1900})
	if got := section.FlowLines(thin, 1); len(got) != 2*116 {
		t.Errorf("a millimetre apart: %d lines, want 232", len(got))
	}
	// In one along the whole width every column has its line, up to the far end.
	thin.Layout.OpenFloor = plan.Rectangle(plan.Point{0, 1440}, plan.Point{1400, 1460})
	if got := section.FlowLines(thin, 100); len(got) != 14 {
		t.Errorf("a strip across: %d lines, want 14", len(got))
	}
	thin.Layout.OpenFloor = nil
	if got := section.FlowLines(thin, 150); got != nil {
		t.Errorf("without a floor: %v", got)
	}
}

// To a drain in the middle, 70 wide along x at y = 1450, water runs to its nearer
// edge: at 1485 or 1415.
func TestFlowToAMiddleDrain(t *testing.T) {
	var want [][]plan.Point
	for x := 95.0; x < 1400; x += 190 {
		want = append(want, []plan.Point{{x, 1805}, {x, 1485}}, []plan.Point{{x, 1615}, {x, 1485}}, []plan.Point{{x, 1235}, {x, 1415}}, []plan.Point{{x, 1045}, {x, 1415}})
	}
	expectLines(t, "middle drain", section.FlowLines(starting(t, falls(job.FallMid)), 190), want)
}

// To a point drain of 70 in the middle of 1400 × 900 four planes fall, meeting on
// lines from its corners to the shower's. From (±a, ±b) off the middle the plane to
// the left or right carries where a − 35 is more than 665/415 of b − 35: water runs
// level with y to the line, at 35 + (b − 35)·665/415 off, and down it to the drain's
// corner. On the middle line it runs straight to the drain's edge; from in front or
// behind it likewise, the other way round.
func TestFlowToAPointDrain(t *testing.T) {
	var want [][]plan.Point
	for _, a := range []float64{-610, -430, -250, -70, 110, 290, 470, 650} {
		for _, b := range []float64{360, 180, 0, -180, -360} {
			begin := plan.Point{700 + a, 1450 + b}
			far, deep := math.Abs(a)-35, math.Abs(b)-35
			corner := plan.Point{700 + math.Copysign(35, a), 1450 + math.Copysign(35, b)}
			switch {
			case b == 0:
				want = append(want, []plan.Point{begin, {corner.X(), 1450}})
			case far/665 > deep/415:
				want = append(want, []plan.Point{begin, {700 + math.Copysign(35+deep*665/415, a), 1450 + b}, corner})
			default:
				want = append(want, []plan.Point{begin, {700 + a, 1450 + math.Copysign(35+far*415/665, b)}, corner})
			}
		}
	}
	r := starting(t, falls(job.FallPoint))
	expectLines(t, "point drain", section.FlowLines(r, 180), want)
	// Every line ends level with the drain.
	for _, line := range section.FlowLines(r, 130) {
		if z := r.Layout.Fall.At(line[len(line)-1]); !(math.Abs(z) <= 1e-9) {
			t.Errorf("%v ends %v over the drain", line, z)
		}
	}
}

// runsDown holds a line against what water does: at every place it goes straight down
// the plane there, or along a crease that the planes on both sides lead to.
func runsDown(l layout.Layout, line []plan.Point) error {
	down := func(p plan.Point) plan.Point {
		plane := l.Fall.PlaneAt(p)
		return plan.Point{-plane.SlopeX, -plane.SlopeY}
	}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		step := b.Sub(a)
		if !(step.Len() < 1e5) {
			return fmt.Errorf("from %v to %v", a, b)
		}
		if step.Len() < 2 {
			continue
		}
		along, middle := step.Normalize(), a.Add(b).Mul(0.5)
		// The way down is looked for half a millimetre past a crease.
		if d := down(middle).Normalize(); math.Abs(plan.Cross(d, step)) <= 0.51 && d.Dot(step) > 0 {
			continue
		}
		side := plan.Left(along)
		if over := down(middle.Add(side)).Dot(side); over > 1e-9 {
			return fmt.Errorf("from %v to %v, where the floor on the left leads away", a, b)
		}
		if over := down(middle.Sub(side)).Dot(side); over < -1e-9 {
			return fmt.Errorf("from %v to %v, where the floor on the right leads away", a, b)
		}
		if l.Fall.At(b) > l.Fall.At(a) {
			return fmt.Errorf("up from %v to %v", a, b)
		}
	}
	return nil
}

// A room whose corner is cut off falls to a point by five planes. Over the crease to
// that of the cut corner water from the steep back plane goes on, as it leads on down,
// and does not follow the crease.
func TestFlowOverACrease(t *testing.T) {
	r := starting(t, falls(job.FallRoom), func(j *job.Job) {
		j.Room.Doorways = nil
		j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 1500}, {2000, 1900}, {0, 1900}}
		j.Room.Walls = append(j.Room.Walls, j.Room.Walls[3])
		j.Shower.Wall, j.Shower.OffsetMM, j.Waste.Exit.Wall = 3, 600, 4
	})
	turns := 0
	for _, line := range section.FlowLines(r, 40) {
		if err := runsDown(r.Layout, line); err != nil {
			t.Error(err)
		}
		// From the back plane over the crease onto that of the cut corner, whose fall is
		// to the left and forward.
		if len(line) > 2 && line[1].X() == line[0].X() {
			if step := line[2].Sub(line[1]); math.Abs(step.X()-step.Y()) < 1 {
				turns++
			}
		}
	}
	if turns < 5 {
		t.Errorf("%d lines go on over the crease", turns)
	}
}

// Whatever the job, water runs down on the floor and along valleys only.
func TestFlowOfAnyJob(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sh plan.Shaper
		l := layout.Of(demotest.AnyJob(t), &sh)
		if sh.Err() != nil {
			t.Skip(sh.Err())
		}
		var r geometry.Result
		r.Layout = l
		for _, line := range section.FlowLines(r, 250) {
			if err := runsDown(l, line); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// In an L-shaped room that falls everywhere to one point every line comes down to the
// drain, though a wall's corner is in the way of some: those end at the wall.
func TestFlowRoundACorner(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Former.Fall = job.FallRoom
		j.Room.Doorways = nil
		j.Room.Outline = []plan.Point{{0, 0}, {1400, 0}, {1400, 1000}, {2400, 1000}, {2400, 1900}, {0, 1900}}
		j.Room.Walls = append(j.Room.Walls[:2:2], j.Room.Walls[1], j.Room.Walls[1], j.Room.Walls[2], j.Room.Walls[3])
		j.Shower.Wall, j.Waste.Exit.Wall = 4, 5
	})
	down := 0
	for _, line := range section.FlowLines(r, 100) {
		end := line[len(line)-1]
		inside := r.Layout.FallArea.Contains(end, 1e-6)
		if !inside {
			t.Errorf("%v leaves the room", line)
		}
		if z := r.Layout.Fall.At(end); z < 0.5 {
			down++
		}
	}
	if down < 200 {
		t.Errorf("only %d lines come down", down)
	}
}
