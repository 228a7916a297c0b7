package plan_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// By hand: a 300 × 200 rectangle less a 100 × 50 corner has 55 000 mm², and
// its centroid, from the moments, is at x = (60000·150 −
// 5000·250)/55000 = 140.909, y = (60000·100 − 5000·175)/55000 = 93.182.
func TestAreaAndCentroidByHand(t *testing.T) {
	var sh plan.Shaper
	r := sh.Subtract(plan.Rectangle(plan.Point{0, 0}, plan.Point{300, 200}), plan.Rectangle(plan.Point{200, 150}, plan.Point{300, 200}), message.Of("shape.corner"))
	c := r.Centroid()
	if math.Abs(r.Area()-55000) > 1e-6 || math.Abs(c.X()-140.909) > 1e-3 || math.Abs(c.Y()-93.182) > 1e-3 {
		t.Errorf("area %v, centroid %v", r.Area(), c)
	}
}

// A circle's polygon lies within its chord error.
func TestCircleChordError(t *testing.T) {
	for _, radius := range []float64{5, 21.5, 25, 57, 110} {
		ring := plan.Circle(plan.Point{}, radius, 0.05)
		for i := range ring {
			middle := ring[i].Add(ring[(i+1)%len(ring)]).Mul(0.5).Len()
			if radius-middle > 0.05+1e-12 || radius-middle < 0.01 {
				t.Errorf("radius %v: a side lies %v inside, want up to 0.05 and not much less", radius, radius-middle)
			}
			if corner := ring[i].Len(); math.Abs(corner-radius) > 1e-9 {
				t.Errorf("radius %v: a corner lies %v out", radius, corner)
			}
		}
	}
}

// rectangles on a coarse grid meet along edges and in corners often.
func rectangles(t *rapid.T, name string) plan.Region {
	var out plan.Region
	for range rapid.IntRange(1, 4).Draw(t, name) {
		p := func() plan.Point {
			return plan.Point{float64(rapid.IntRange(0, 12).Draw(t, "x")) * 25, float64(rapid.IntRange(0, 12).Draw(t, "y")) * 25}
		}
		a, b := p(), p()
		if a.X() == b.X() || a.Y() == b.Y() {
			continue
		}
		if r := plan.Rectangle(a, b); len(out) == 0 {
			out = r
		} else {
			var sh plan.Shaper
			if out = sh.Union(out, r, message.Of("shape.rectangles")); sh.Err() != nil {
				t.Fatal(sh.Err())
			}
		}
	}
	return out
}

// Areas keep their identities whichever way the regions lie, also askew.
func TestBooleanIdentities(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rectangles(t, "a"), rectangles(t, "b")
		if len(a) == 0 || len(b) == 0 {
			t.Skip("nothing drawn")
		}
		turn := mgl64.Rotate2D(float64(rapid.IntRange(0, 359).Draw(t, "angle")) * math.Pi / 180)
		shift := plan.Point{float64(rapid.IntRange(-5000, 5000).Draw(t, "dx")), 17}
		move := func(r plan.Region) plan.Region {
			return r.EachCorner(func(c plan.Point) plan.Point { return turn.Mul2x1(c).Add(shift) })
		}
		a, b = move(a), move(b)
		var sh plan.Shaper
		both, left, right, all := sh.Intersect(a, b, message.Of("shape.both")).Area(), sh.Subtract(a, b, message.Of("shape.left")).Area(), sh.Subtract(b, a, message.Of("shape.right")).Area(), sh.Union(a, b, message.Of("shape.all")).Area()
		if sh.Err() != nil {
			t.Fatal(sh.Err())
		}
		const slack = 2 // mm²: the grid, over edges of some metres
		if math.Abs(left+both-a.Area()) > slack || math.Abs(right+both-b.Area()) > slack || math.Abs(left+right+both-all) > slack {
			t.Fatalf("a %v b %v: both %v, left %v, right %v, all %v", a.Area(), b.Area(), both, left, right, all)
		}
		if a.Overlap(b) != (both > slack) {
			t.Fatalf("overlap %v, shared area %v", a.Overlap(b), both)
		}
	})
}

// A line's stretches inside a region are as long as the region is wide there.
func TestClip(t *testing.T) {
	ring := plan.FromRing(plan.Ring{{0, 0}, {100, 0}, {100, 100}, {60, 100}, {60, 40}, {40, 40}, {40, 100}, {0, 100}})
	got := ring.Clip(plan.Point{0, 70}, plan.Point{1, 0})
	if len(got) != 2 || got[0] != (plan.Interval{From: 0, To: 40}) || got[1] != (plan.Interval{From: 60, To: 100}) {
		t.Errorf("%v, want 0 to 40 and 60 to 100", got)
	}
}

func TestCrossingEdges(t *testing.T) {
	for name, c := range map[string]struct {
		ring plan.Ring
		bad  bool
	}{
		"square":   {plan.Ring{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1000}}, false},
		"bow tie":  {plan.Ring{{0, 0}, {1000, 1000}, {1000, 0}, {0, 1000}}, true},
		"spike":    {plan.Ring{{0, 0}, {1000, 0}, {500, 0}, {500, 500}}, true},
		"touching": {plan.Ring{{0, 0}, {1000, 0}, {1000, 1000}, {500, 0}, {0, 1000}}, true},
		"L":        {plan.Ring{{0, 0}, {2000, 0}, {2000, 1000}, {1000, 1000}, {1000, 2000}, {0, 2000}}, false},
		"triangle": {plan.Ring{{0, 0}, {1000, 0}, {0, 1000}}, false},
		"flat":     {plan.Ring{{0, 0}, {1000, 0}, {2000, 0}}, true},
	} {
		if _, _, bad := c.ring.CrossingEdges(); bad != c.bad {
			t.Errorf("%s: crossing %v, want %v", name, bad, c.bad)
		}
	}
}

// A corridor of half width 30 along 1000 with a right-angled turn, 10 past
// both ends, by hand: legs 500 + 500, each 60 wide, the corner square shared:
// (530 + 10)·60 + (530 + 10)·60 − 60·60 = 61 200.
func TestCorridorByHand(t *testing.T) {
	var sh plan.Shaper
	got := sh.Corridor([]plan.Point{{0, 0}, {500, 0}, {500, 500}}, 30, 10, message.Of("shape.channel")).Area()
	if math.Abs(got-61200) > 1e-3 {
		t.Errorf("area %v, want 61200", got)
	}
	if sh.Corridor([]plan.Point{{0, 0}, {0, 0}}, 30, 10, message.Of("shape.nothing")) != nil || sh.Err() != nil {
		t.Errorf("a corridor along nothing is something, or fails: %v", sh.Err())
	}
}

// Regions that touch in a corner share nothing, also where rounding puts that
// corner a hair before zero in the region's own directions.
func TestTouchingCorner(t *testing.T) {
	a := plan.Rectangle(plan.Point{989, 112.95}, plan.Point{990, 531.75})
	b := plan.FromRing(plan.Ring{{989.9999999999964, 112.94999999999995}, {0, 99.75}, {0, 98.75}, {989.9999999999964, 111.94999999999995}})
	var sh plan.Shaper
	if s := sh.Intersect(a, b, message.Of("shape.both")).Area() + sh.Intersect(b, a, message.Of("shape.both")).Area(); s != 0 || sh.Err() != nil {
		t.Errorf("they share %v mm²; %v", s, sh.Err())
	}
}
