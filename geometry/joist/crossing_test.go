package joist_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// timberRoom has joists along y, 47 × 200, at x = 300, 700, 1100 …, spanning
// 2000 mm, under a 20 mm deck; the base is let in so that the pipe runs among
// them to the left wall.
func timberRoom() job.Job {
	j := job.New()
	j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 2000}, {0, 2000}}
	j.Floor = job.Floor{Kind: job.FloorTimber, Deck: job.Deck{ThicknessMM: 20},
		Joists: job.Joists{DepthMM: 200, WidthMM: 47, SpacingMM: 400, DirectionDeg: 270, FirstOffsetMM: 300, SupportsMM: []float64{0, 2000}}}
	j.Base.Support, j.Base.Height, j.Base.HeightMM = job.BetweenJoists, job.HeightChosen, 0
	j.Waste.Exit.OffsetMM = 68
	return j
}

func find(j job.Job) []joist.Crossing {
	l := layout.Of(j, &plan.Shaper{})
	return joist.Find(j, l, level.Solve(j, l, waste.Lay(j, l), 0))
}

// By hand: the flange is at 0 + 3 + 20 = 23, the outlet's invert at −52, its
// middle at −29. The faces of joist 1 lie at x 323.5 and 276.5, 321.5 and 368.5 from
// the outlet at 645: at 1:40 the pipe's middle is at −37.0375 and −38.2125 there.
// Its hole of 50 + 2·3 mm is 28·√(1 + 1/40²) = 28.00875 high to either side on a
// face, as it comes through askew: from −9.0288 to −66.2213. The joist's top lies
// at −20: a notch 46.2213 deep. y = 1932 is 68 from the support at 2000: 0.034 of
// the span.
func TestNotchByHand(t *testing.T) {
	cuts := find(timberRoom())
	if len(cuts) != 1 {
		t.Fatalf("%d crossings, want 1: %+v", len(cuts), cuts)
	}
	c := cuts[0]
	if c.Kind != joist.Notch {
		t.Errorf("a %s, want a notch", c.Kind)
	}
	for what, v := range map[string][2]float64{
		"middle at the first face": {c.EntryLevelMM, -37.0375}, "middle at the other face": {c.ExitLevelMM, -38.2125},
		"top of the cut": {c.CutHighMM(), -9.02875}, "foot of the cut": {c.CutLowMM(), -66.22125}, "joist's top": {c.TopMM, -20},
		"joist's underside": {c.BottomMM, -220}, "zone": {c.ZoneShare(), 0.034}, "length": {c.LengthMM(), 56}, "span": {c.SpanMM, 2000},
		"place along the joist": {c.MiddleMM(), 68}, "size": {c.SizeMM(), 57.1925},
	} {
		if math.Abs(v[0]-v[1]) > 1e-5 {
			t.Errorf("%s %v, want %v", what, v[0], v[1])
		}
	}
}

// Lower the outlet and the notch becomes a hole; lower still, the joist is
// severed; raise it and nothing is cut. With the outlet's invert o under the flange
// at 23 the cut reaches from 46 − o − 37.22125 to 46 − o + 19.97125; the joist from
// −220 to −20: a hole from o = 85.971, severed from 228.779, free up to 28.779.
func TestKinds(t *testing.T) {
	for _, c := range []struct {
		outlet float64
		want   joist.Kind
	}{
		{20, ""}, {28.77, ""}, {28.79, joist.Notch}, {75, joist.Notch}, {85.96, joist.Notch}, {85.98, joist.Hole},
		{150, joist.Hole}, {228.77, joist.Hole}, {228.79, joist.Severed}, {230, joist.Severed},
	} {
		j := timberRoom()
		j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = c.outlet, c.outlet+20
		cuts := find(j)
		switch {
		case c.want == "" && len(cuts) > 0:
			t.Errorf("outlet %v: %d cuts, want none", c.outlet, len(cuts))
		case c.want != "" && (len(cuts) != 1 || cuts[0].Kind != c.want):
			t.Errorf("outlet %v: %+v, want one %s", c.outlet, cuts, c.want)
		}
	}
}

// A joist exactly along the run is met over its whole length and reported
// once, as severed or cut along, not missed.
func TestJoistAlongTheRun(t *testing.T) {
	j := timberRoom()
	j.Floor.Joists.DirectionDeg = 0
	j.Floor.Joists.FirstOffsetMM = 1932 - 400*4 // a joist right under the run
	if cuts := find(j); len(cuts) != 1 || cuts[0].Kind != joist.Severed {
		t.Errorf("%+v, want the joist under the run once, severed", cuts)
	}
}

// Oblique cuts by hand: a hole of 56 mm for a 50 mm pipe, through a joist 47
// wide. On each face it is 56/sin a long, and the faces' holes lie 47/tan a apart.
// At 90°: 56. At 45°: 79.196 + 47 = 126.196. At 30°: 112 + 81.406 = 193.406. At
// 20°: 163.733 + 129.131 = 292.864. The radius instead of R/sin a gave 103.0,
// 137.4 and 185.1.
func TestObliqueCutsByHand(t *testing.T) {
	for _, c := range []struct{ angle, want float64 }{{90, 56}, {45, 126.196}, {30, 193.406}, {20, 292.864}, {135, 126.196}, {160, 292.864}} {
		whole := 0
		for first := 0.0; first < 400; first += 10 {
			j := timberRoom()
			j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM = 180+c.angle, first
			j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 150, 170
			for _, cut := range find(j) {
				across := math.Abs(cut.ExitMM-cut.EntryMM) * math.Abs(math.Tan(c.angle*math.Pi/180))
				if c.angle == 90 {
					across = 47
				}
				if !(math.Abs(across-47) <= 1e-6) {
					continue // the run begins or ends in the joist
				}
				if cut.EntryMM-cut.ExitMM == 0 && c.angle != 90 {
					t.Fatalf("%v°: a cut of no length: %+v", c.angle, cut)
				}
				if cut.SizeMM() < cut.LengthMM() || cut.SizeMM() < cut.CutHighMM()-cut.CutLowMM() {
					t.Errorf("%v°: a size of %v is less than its length or height", c.angle, cut.SizeMM())
				}
				// The pipe falls 1:40 along itself: on the face its ring rises by
				// 1/(40·sin a) for each millimetre across.
				rise := 1 / (40 * math.Sin(c.angle*math.Pi/180))
				long, high, most := cut.LengthMM(), cut.CutHighMM()-cut.CutLowMM(), 47*rise+56*math.Hypot(1, rise)
				// Near the ends of the run, at x = 645 and −275, a cut reaches no
				// farther than the run; elsewhere it is whole.
				if math.Min(645-cut.At.X(), cut.At.X()+275) < c.want/2+1 {
					if long > c.want+0.001 || high > most+0.001 {
						t.Errorf("%v° near the end of the run: %v long and %v high, want no more than %v and %v", c.angle, long, high, c.want, most)
					}
					continue
				}
				whole++
				if math.Abs(long-c.want) > 0.001 || math.Abs(high-most) > 0.001 {
					t.Errorf("%v°: %v long and %v high, want %v and %v", c.angle, long, high, c.want, most)
				}
			}
		}
		if whole < 10 {
			t.Errorf("%v°: only %d whole cuts", c.angle, whole)
		}
	}
}

// The outline of a cut holds the pipe with its clearance on both faces and no more:
// points on the pipe's skin lie on it or within, and the farthest on it.
func TestOutlineHoldsThePipe(t *testing.T) {
	for _, angle := range []float64{90, 60, 45, 20} {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		const fall, radius = 0.05, 28.0
		slant := joist.Slant{Along: cos / sin, Rise: -fall / sin}
		c := joist.Crossing{EntryMM: 500, ExitMM: 500 + 47*cos/sin, EntryLevelMM: -100, ExitLevelMM: -100 - 47*fall/sin, EntrySlant: slant, ExitSlant: slant, RadiusMM: radius}
		ring := c.Outline(0.05)
		region := plan.FromRing(ring)
		low, high, _ := region.Bounds()
		if got := high.X() - low.X(); !(math.Abs(got-c.LengthMM()) <= 0.3/sin) {
			t.Errorf("%v°: the outline is %v long, the cut %v", angle, got, c.LengthMM())
		}
		if !(math.Abs(low.Y()-c.CutLowMM()) <= 0.1) || !(math.Abs(high.Y()-c.CutHighMM()) <= 0.1) {
			t.Errorf("%v°: the outline reaches from %v to %v, the cut from %v to %v", angle, low.Y(), high.Y(), c.CutLowMM(), c.CutHighMM())
		}
		// The axis runs along (cos, sin, −fall); n points square to it in plan.
		axis := mgl64.Vec3{cos, sin, -fall}.Normalize()
		n := mgl64.Vec3{-sin, cos, 0}
		up := axis.Cross(n)
		for k := range 72 {
			s, co := math.Sincos(float64(k) * math.Pi / 36)
			skin := mgl64.Vec3{500, 0, -100}.Add(n.Mul(radius * co)).Add(up.Mul(radius * s))
			for _, face := range []float64{0, 47} {
				q := skin.Add(axis.Mul((face - skin.Y()) / axis.Y()))
				if !region.Contains(plan.Point{q.X(), q.Z()}, 0.1/sin) {
					t.Errorf("%v°: the pipe's skin at %v lies outside the hole", angle, q)
				}
			}
		}
	}
}

// A pipe along a joist makes a cut that is finite, and reaches no farther than the
// run.
func TestCutAlongIsFinite(t *testing.T) {
	for _, off := range []float64{0, 1e-9, 1e-4, 0.5} {
		j := timberRoom()
		j.Floor.Joists.DirectionDeg = 0 + off
		j.Floor.Joists.FirstOffsetMM = 1932 - 400*4
		cuts := find(j)
		if len(cuts) == 0 {
			t.Errorf("joists at %v°: no cut", off)
		}
		for _, c := range cuts {
			if l := c.LengthMM(); !(l > 200 && l < 2500) || c.Kind != joist.Severed {
				t.Errorf("joists at %v°: a %s %v long", off, c.Kind, l)
			}
			if h := c.CutHighMM() - c.CutLowMM(); !(h > 56 && h < 250) {
				t.Errorf("joists at %v°: a cut %v high", off, h)
			}
		}
	}
}
