package layout_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// tester is what the checks need of a test, random or not.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// place is the layout of a job, which must come about without a failure.
func place(t tester, j job.Job) layout.Layout {
	t.Helper()
	sh := &plan.Shaper{}
	l := layout.Of(j, sh)
	if err := sh.Err(); err != nil {
		t.Fatalf("the layout fails: %v", err)
	}
	return l
}

// near fails unless a number is as worked out by hand, to a hundred thousandth.
func near(t tester, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-5) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// nearPoint is near for a place or a direction.
func nearPoint(t tester, what string, got, want plan.Point) {
	t.Helper()
	if !(got.Sub(want).Len() <= 1e-5) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// nearArea is near for areas, to two square millimetres: corners are put on a
// grid of a ten-thousandth of a millimetre, and edges are metres long.
func nearArea(t tester, what string, got plan.Region, want float64) {
	t.Helper()
	if !(math.Abs(got.Area()-want) <= 2) {
		t.Errorf("%s covers %v mm², want %v", what, got.Area(), want)
	}
}

// frame is a way to put the same room down: turned about the origin, then
// moved, and walked either way round.
type frame struct {
	name     string
	turnDeg  float64
	by       plan.Point
	backward bool
}

func frames() []frame {
	return []frame{
		{name: "as drawn"}, {name: "walked backward", backward: true},
		{name: "turned", turnDeg: 30, by: plan.Point{1000, -2000}},
		{name: "turned and walked backward", turnDeg: 30, by: plan.Point{1000, -2000}, backward: true},
	}
}

// inEveryFrame runs a test with the room put down in each way.
func inEveryFrame(t *testing.T, test func(*testing.T, frame)) {
	t.Helper()
	for _, f := range frames() {
		t.Run(f.name, func(t *testing.T) { test(t, f) })
	}
}

// vector is a direction as it lies in the frame.
func (f frame) vector(v plan.Point) plan.Point {
	s, c := math.Sincos(f.turnDeg * math.Pi / 180)
	return plan.Point{c*v.X() - s*v.Y(), s*v.X() + c*v.Y()}
}

// point is a place as it lies in the frame.
func (f frame) point(p plan.Point) plan.Point { return f.vector(p).Add(f.by) }

// wall is the index of a wall as it is counted in the frame: walked backward
// from the same corner, the last wall comes first.
func (f frame) wall(index, walls int) int {
	if f.backward && index >= 0 {
		return walls - 1 - index
	}
	return index
}

// job is a job as it lies in the frame: the same room with the same things in it.
func (f frame) job(j job.Job) job.Job {
	j = j.Clone()
	n := len(j.Room.Outline)
	length := func(wall int) float64 {
		return j.Room.Outline[(wall+1)%n].Sub(j.Room.Outline[wall]).Len()
	}
	if f.backward {
		j.Shower.OffsetMM = length(j.Shower.Wall) - j.Shower.OffsetMM - j.Shower.WidthMM
		for i := range j.Room.Doorways {
			d := &j.Room.Doorways[i]
			d.OffsetMM = length(d.Wall) - d.OffsetMM - d.WidthMM
			d.HingeAtStart = !d.HingeAtStart
		}
		outline, walls := make([]plan.Point, n), make([]job.Wall, n)
		for i := range n {
			outline[i] = j.Room.Outline[(n-i)%n]
			walls[i] = j.Room.Walls[n-1-i]
		}
		j.Room.Outline, j.Room.Walls = outline, walls
	}
	j.Shower.Wall = f.wall(j.Shower.Wall, n)
	for i := range j.Room.Doorways {
		j.Room.Doorways[i].Wall = f.wall(j.Room.Doorways[i].Wall, n)
	}
	for i, p := range j.Room.Outline {
		j.Room.Outline[i] = f.point(p)
	}
	j.Floor.Joists.DirectionDeg += f.turnDeg
	return j
}

// withOutline is a job in another room, all its walls as thick as each other.
func withOutline(j job.Job, thicknessMM float64, outline ...plan.Point) job.Job {
	j.Room.Outline = outline
	j.Room.Walls = make([]job.Wall, len(outline))
	for i := range j.Room.Walls {
		j.Room.Walls[i] = job.Wall{Kind: job.WallMasonry, ThicknessMM: thicknessMM}
	}
	j.Room.Doorways = nil
	return j
}
