package joist_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// bench is a run of pipe over joists, put together by hand: joists 50 × 200 under
// a deck of 20 whose top is level at 0, so between −220 and −20; pipe of 50 outside
// and 46 inside, cut with 3 round it: holes of a radius of 28.
type bench struct {
	job   job.Job
	plan  layout.Layout
	level level.Heights
}

// joistsAt are joists that run at an angle from the x axis and cross it there.
func joistsAt(angleDeg float64, x ...float64) bench {
	b := bench{job: job.New()}
	b.job.Floor.Deck.ThicknessMM = 20
	b.job.Floor.Joists.DepthMM, b.job.Floor.Joists.WidthMM = 200, 50
	s, c := math.Sincos(angleDeg * math.Pi / 180)
	if angleDeg == 90 {
		c = 0
	}
	b.plan.JoistAlong, b.plan.SupportsMM = plan.Point{c, s}, []float64{-1000, 1000}
	for i, at := range x {
		b.plan.Joists = append(b.plan.Joists, layout.Joist{Number: i + 1, Origin: plan.Point{at, 0}, Along: b.plan.JoistAlong, FromMM: -5000, ToMM: 5000, WidthMM: 50})
	}
	return b
}

var pipe50 = part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46}

// pipe adds straights of one size through the points, from where the run is.
func (b bench) pipe(size part.Pipe, through ...plan.Point) bench {
	run := b.level.Run
	for i := 1; i < len(through); i++ {
		from, to := through[i-1], through[i]
		p := waste.Piece{Kind: waste.Straight, Number: len(run.Pieces) + 1, Path: []plan.Point{from, to}, FromMM: run.LengthMM, Pipe: size, After: size}
		run.LengthMM += to.Sub(from).Len()
		p.ToMM = run.LengthMM
		run.Pieces = append(run.Pieces[:len(run.Pieces):len(run.Pieces)], p)
	}
	b.level.Run = run
	return b
}

// centre lays the run with the pipe's centre at a level at its beginning, and a
// fall.
func (b bench) centre(mm, fall float64) bench {
	b.level.Run = b.level.Run.WithLevels(mm-23, fall)
	return b
}

func (b bench) cuts() []joist.Crossing { return joist.Find(b.job, b.plan, b.level) }

func only(t *testing.T, name string, cuts []joist.Crossing) joist.Crossing {
	t.Helper()
	if len(cuts) != 1 {
		t.Fatalf("%s: %d cuts, want 1: %+v", name, len(cuts), cuts)
	}
	return cuts[0]
}

func equal(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want))) {
		t.Errorf("%s %v, want %v", what, got, want)
	}
}

// A run of 1000 to the right, falling 1:50 from a centre of −100, through a joist
// whose middle it meets at 300. Square: faces at 275 and 325, centre at −105.5
// and −106.5, ellipses 28 half long and 28·√(1 + 0.02²) half high. At angle a
// along the face the ellipse is 28/sin a, the faces' middles lie 50/tan a apart,
// and the fall for each millimetre across is 0.02/sin a.
func TestCrossingByHand(t *testing.T) {
	for _, angle := range []float64{90, 45, 30, 135, 150} {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		if angle == 90 {
			cos = 0
		}
		for name, back := range map[string]bool{"right": false, "left": true} {
			what := func(s string) string { return fmt.Sprintf("%v°, run to the %s: %s", angle, name, s) }
			b := joistsAt(angle, 300)
			if back {
				b = b.pipe(pipe50, plan.Point{1000, 0}, plan.Point{0, 0}).centre(-100, 0.02)
			} else {
				b = b.pipe(pipe50, plan.Point{0, 0}, plan.Point{1000, 0}).centre(-100, 0.02)
			}
			c := only(t, what("cuts"), b.cuts())
			// Along the run, the faces lie 25/sin a before and after the middle.
			entry, exit, dir := 300-25/sin, 300+25/sin, 1.0
			if back {
				entry, exit, dir = 700-25/sin, 700+25/sin, -1
			}
			equal(t, what("entry level"), c.EntryLevelMM, -100-0.02*entry)
			equal(t, what("exit level"), c.ExitLevelMM, -100-0.02*exit)
			equal(t, what("radius"), c.RadiusMM, 28)
			equal(t, what("x"), c.At.X(), 300)
			equal(t, what("y"), c.At.Y(), 0)
			// From the layout's corner at 0, x·cos a along the joists.
			equal(t, what("middle"), c.MiddleMM(), 300*cos)
			equal(t, what("way along from face to face"), c.ExitMM-c.EntryMM, dir*50*cos/sin)
			equal(t, what("length"), c.LengthMM(), math.Abs(50*cos/sin)+56/sin)
			equal(t, what("entry's slant"), c.EntrySlant.Along, -cos/sin)
			equal(t, what("exit's slant"), c.ExitSlant.Along, -cos/sin)
			// Going on to the left of the joist's direction the pipe to the right
			// comes from where it ran: it rises.
			equal(t, what("rise"), c.EntrySlant.Rise, dir*0.02/sin)
			half := 28 * math.Sqrt(1+0.02/sin*0.02/sin)
			equal(t, what("top"), c.CutHighMM(), -100-0.02*entry+half)
			equal(t, what("bottom"), c.CutLowMM(), -100-0.02*exit-half)
			equal(t, what("size"), c.SizeMM(), math.Max(math.Abs(50*cos/sin)+56/sin, 0.02*50/sin+2*half))
			equal(t, what("joist's top"), c.TopMM, -20)
			equal(t, what("joist's bottom"), c.BottomMM, -220)
			equal(t, what("joist's depth"), c.DepthMM(), 200)
			equal(t, what("support"), c.SupportMM, 1000-math.Abs(300*cos))
			equal(t, what("span"), c.SpanMM, 2000)
			equal(t, what("zone"), c.ZoneShare(), (1000-math.Abs(300*cos))/2000)
			if c.Joist.Number != 1 || c.Piece.Number != 1 || c.Kind != joist.Hole {
				t.Errorf("%s: %+v", what("joist"), c)
			}
		}
	}
}

// A steep run is cut higher than long, and the pipe's rise is told by its ends,
// the same upwards.
func TestSteepRun(t *testing.T) {
	b := joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{1000, 0})
	for _, fall := range []float64{0.2, -0.2} {
		c := only(t, "steep", b.centre(-100-fall*-300, fall).cuts())
		equal(t, "height", c.CutHighMM()-c.CutLowMM(), 10+56*math.Sqrt(1.04))
		equal(t, "size", c.SizeMM(), 10+56*math.Sqrt(1.04))
	}
}

// What a level pipe does to a joist between −220 and −20 follows from its centre:
// 28 over the top and higher it clears it; its hole touches the edge at 28 under;
// likewise below. Standing level with the joist's edge is no cut, reaching it from
// within is a notch.
func TestKindsFromBothSides(t *testing.T) {
	for _, c := range []struct {
		centre float64
		want   joist.Kind
	}{
		{8.01, ""}, {8, ""}, {7.99, joist.Notch}, {-47.99, joist.Notch}, {-48, joist.Notch}, {-48.01, joist.Hole},
		{-191.99, joist.Hole}, {-192, joist.Severed}, {-192.01, joist.Severed}, {-247.99, joist.Severed}, {-248, ""}, {-248.01, ""},
	} {
		// A floor that falls along the joist alone, so slightly that the levels stay,
		// is no longer told clear by its greatest height.
		for _, tilt := range []float64{0, 1.0 / 64} {
			b := joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{1000, 0}).centre(c.centre, 0)
			b.level.Survey.Floor = solid.Plane{SlopeY: tilt}
			cuts := b.cuts()
			if c.want == "" && len(cuts) > 0 || c.want != "" && (len(cuts) != 1 || cuts[0].Kind != c.want) {
				t.Errorf("centre at %v, tilt %v: %+v, want %q", c.centre, tilt, cuts, c.want)
			}
		}
	}
}

// Cut along for more than twice its depth a joist is severed. At 30° through 50
// the cut is 56/0.5 + 50·√3 = 198.603 long: twice 99.301.
func TestLongCutSevers(t *testing.T) {
	for depth, want := range map[float64]joist.Kind{99.31: joist.Hole, 99.29: joist.Severed} {
		b := joistsAt(30, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{1000, 0}).centre(-70, 0)
		b.job.Floor.Joists.DepthMM = depth
		if c := only(t, "oblique", b.cuts()); c.Kind != want {
			t.Errorf("%v deep: a %s, want a %s", depth, c.Kind, want)
		}
	}
}

// The joist's top follows the floor over its centre line, under the deck. A floor
// that rises 1:100 to the right and 1:50 into the room lies at (300, 0) 3 higher.
func TestTopFollowsTheFloor(t *testing.T) {
	for _, angle := range []float64{90, 45} {
		b := joistsAt(angle, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{1000, 0}).centre(-100, 0)
		b.level.Survey.Floor = solid.Plane{Level: 5, SlopeX: 0.01, SlopeY: 0.02}
		c := only(t, "sloping floor", b.cuts())
		equal(t, "top", c.TopMM, 5+3-20)
		equal(t, "bottom", c.BottomMM, 5+3-220)
		// Beside the centre line it is the same: 10 to the side of a joist along y.
		if angle == 90 {
			equal(t, "top beside", joist.TopMM(&b.job, &b.level, &b.plan.Joists[0], plan.Point{310, 100}), 5+3+2-20)
		}
	}
}

// A run that is clear of the floor where it begins and among the joists farther on
// cuts them there: as it falls, or as the floor rises.
func TestRunComesDownAmongJoists(t *testing.T) {
	b := joistsAt(90, 100, 900).pipe(pipe50, plan.Point{0, 0}, plan.Point{1000, 0})
	// Its centre stands at 30 − 12.5 at the far face of the first, 28.14 under which is
	// over −20, and at 30 − 90 = −60 at the second: a hole.
	falling := only(t, "falling run", b.centre(30, 0.1).cuts())
	rising := b.centre(14, 0)
	rising.level.Survey.Floor = solid.Plane{SlopeX: 0.05}
	up := only(t, "rising floor", rising.cuts())
	if falling.Joist.Number != 2 || up.Joist.Number != 2 {
		t.Errorf("joists %d and %d are cut, want 2", falling.Joist.Number, up.Joist.Number)
	}
	// The other way round the first is cut by a floor that falls.
	rising.level.Survey.Floor = solid.Plane{Level: 50, SlopeX: -0.05}
	if c := only(t, "falling floor", rising.cuts()); c.Joist.Number != 1 {
		t.Errorf("joist %d is cut, want 1", c.Joist.Number)
	}
	// A run that ends in a joist, 20 before its centre line, on a floor that rises
	// 1:10 to it: the joist's top lies at 30 − 20 = 10, the pipe is cut from 9 up.
	short := joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{280, 0}).centre(9+28, 0)
	short.level.Survey.Floor = solid.Plane{SlopeX: 0.1}
	if c := only(t, "end in a joist", short.cuts()); c.Kind != joist.Notch {
		t.Errorf("a %s, want a notch", c.Kind)
	}
}

// Joists wholly beside a piece are not cut, those it begins or ends in are.
func TestWhichJoists(t *testing.T) {
	b := joistsAt(90, 0, 400, 800, 1200).pipe(pipe50, plan.Point{390, 0}, plan.Point{1190, 0}).centre(-100, 0)
	var got []int
	for _, c := range b.cuts() {
		got = append(got, c.Joist.Number)
	}
	if fmt.Sprint(got) != "[2 3 4]" {
		t.Errorf("joists %v cut, want 2, 3 and 4", got)
	}
	// The same back again: by the joists' numbers all the same.
	back := joistsAt(90, 0, 400, 800, 1200).pipe(pipe50, plan.Point{1190, 0}, plan.Point{390, 0}).centre(-100, 0.002)
	got = nil
	for _, c := range back.cuts() {
		got = append(got, c.Joist.Number)
	}
	if fmt.Sprint(got) != "[2 3 4]" {
		t.Errorf("joists %v cut on the way back, want 2, 3 and 4", got)
	}
	if cuts := (bench{job: job.New()}).pipe(pipe50, plan.Point{0, 0}, plan.Point{1000, 0}).centre(-100, 0).cuts(); len(cuts) > 0 {
		t.Errorf("no joists, but %+v", cuts)
	}
	// Along its face outside, a run cuts nothing; a hair inside it does.
	for y, want := range map[float64]int{125: 0, 124.9: 1, 75: 0, 75.1: 1} {
		along := joistsAt(0, 0)
		along.plan.Joists[0].Origin = plan.Point{0, 100}
		if n := len(along.pipe(pipe50, plan.Point{0, y}, plan.Point{300, y}).centre(-100, 0).cuts()); n != want {
			t.Errorf("a run at %v along a joist from 75 to 125: %d cuts, want %d", y, n, want)
		}
	}
}

// Distances are to the nearer support of the span the cut is in.
func TestSupports(t *testing.T) {
	for _, c := range []struct {
		supports      []float64
		at            float64
		support, span float64
	}{
		{[]float64{0, 1000, 3000}, 400, 400, 1000}, {[]float64{0, 1000, 3000}, 700, 300, 1000},
		{[]float64{0, 1000, 3000}, 1000, 0, 1000}, {[]float64{0, 1000, 3000}, 1400, 400, 2000},
		{[]float64{0, 1000, 3000}, 2900, 100, 2000}, {[]float64{0, 1000, 3000}, 3200, -200, 2000},
		{[]float64{0, 1000, 3000}, -100, -100, 1000}, {nil, 400, 0, 1},
	} {
		b := joistsAt(90, 300).pipe(pipe50, plan.Point{0, c.at}, plan.Point{1000, c.at}).centre(-100, 0)
		b.plan.SupportsMM = c.supports
		cut := only(t, "at a support", b.cuts())
		if cut.SupportMM != c.support || cut.SpanMM != c.span {
			t.Errorf("at %v of %v: %v from a support, span %v; want %v, %v", c.at, c.supports, cut.SupportMM, cut.SpanMM, c.support, c.span)
		}
	}
}
