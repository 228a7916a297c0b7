package plan_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

func square(x0, y0, x1, y1 float64) plan.Region {
	return plan.Rectangle(plan.Point{x0, y0}, plan.Point{x1, y1})
}

// bowTie crosses itself: its lobes lie left and right of (50, 50), one walked
// each way round.
func bowTie() plan.Region {
	return plan.Region{{Outer: plan.Ring{{0, 0}, {100, 100}, {100, 0}, {0, 100}}}}
}

// By hand: squares of 100 that overlap by 30 × 40 share 1200; one with a hole of
// 20 × 20 that lies in the overlap shares 800; a triangle of 10 000 of which a
// quarter lies past the square shares 7500.
func TestSharedAreaByHand(t *testing.T) {
	holed := square(70, 60, 170, 160)
	holed[0].Holes = []plan.Ring{square(75, 65, 95, 85)[0].Outer.Reversed()}
	for name, c := range map[string]struct {
		a, b plan.Region
		want float64
	}{
		"overlap":   {square(0, 0, 100, 100), square(70, 60, 170, 160), 1200},
		"hole":      {square(0, 0, 100, 100), holed, 800},
		"half":      {square(0, 0, 100, 100), plan.FromRing(plan.Ring{{0, 0}, {200, 0}, {0, 100}, {0, 0}}), 7500},
		"the same":  {square(0, 0, 100, 100), square(0, 0, 100, 100), 10000},
		"one edge":  {square(0, 0, 100, 100), square(100, 0, 200, 100), 0},
		"apart":     {square(0, 0, 100, 100), square(300, 0, 400, 100), 0},
		"one in it": {square(0, 0, 100, 100), square(20, 30, 50, 40), 300},
		"nothing":   {square(0, 0, 100, 100), nil, 0},
	} {
		if got, back := plan.SharedArea(c.a, c.b), plan.SharedArea(c.b, c.a); math.Abs(got-c.want) > 1e-9 || math.Abs(back-c.want) > 1e-9 {
			t.Errorf("%s: %v, the other way %v, want %v", name, got, back, c.want)
		}
	}
}

// By hand: a U of 100 × 100 with a slot 20 wide and 60 deep, cut off above
// y = 50, keeps 100 × 50 − 20 × 10; its two arms above keep 2 × 40 × 50.
func TestWhereByHand(t *testing.T) {
	u := plan.FromRing(plan.Ring{{0, 0}, {100, 0}, {100, 100}, {60, 100}, {60, 40}, {40, 40}, {40, 100}, {0, 100}})
	below := u.Where(func(p plan.Point) float64 { return 50 - p.Y() })
	above := u.Where(func(p plan.Point) float64 { return p.Y() - 50 })
	if math.Abs(below.Area()-4800) > 1e-9 || math.Abs(above.Area()-4000) > 1e-9 {
		t.Errorf("below %v, above %v, want 4800 and 4000", below.Area(), above.Area())
	}
	if c := above.Centroid(); math.Abs(c.X()-50) > 1e-9 || math.Abs(c.Y()-75) > 1e-9 {
		t.Errorf("the arms' middle lies at %v, want 50, 75", c)
	}
}

// A step that cannot come out right fails by name, with nothing in its place,
// and so does everything after it.
func TestShaperFails(t *testing.T) {
	nowhere := square(10, 10, 60, 60)
	nowhere[0].Outer[2][1] = math.NaN()
	endless := square(10, 10, 60, 60)
	endless[0].Outer[2][1] = math.Inf(1)
	for name, c := range map[string]func(*plan.Shaper) plan.Region{
		"bow tie less a square": func(s *plan.Shaper) plan.Region {
			return s.Subtract(bowTie(), square(10, 10, 60, 60), message.Of("shape.base"))
		},
		"square less a bow tie": func(s *plan.Shaper) plan.Region {
			return s.Subtract(square(10, 10, 60, 60), bowTie(), message.Of("shape.base"))
		},
		"bow tie and square": func(s *plan.Shaper) plan.Region {
			return s.Intersect(bowTie(), square(60, 10, 90, 90), message.Of("shape.base"))
		},
		"bow tie or square": func(s *plan.Shaper) plan.Region {
			return s.Union(bowTie(), square(10, 10, 60, 60), message.Of("shape.base"))
		},
		"less a corner nowhere": func(s *plan.Shaper) plan.Region {
			return s.Subtract(square(0, 0, 100, 100), nowhere, message.Of("shape.base"))
		},
		"with a corner nowhere": func(s *plan.Shaper) plan.Region {
			return s.Intersect(nowhere, square(0, 0, 100, 100), message.Of("shape.base"))
		},
		"joined to one without end": func(s *plan.Shaper) plan.Region {
			return s.Union(square(0, 0, 100, 100), endless, message.Of("shape.base"))
		},
		"counted twice": func(s *plan.Shaper) plan.Region {
			return s.Intersect(square(0, 0, 100, 100), append(square(10, 10, 60, 60), square(10, 10, 60, 60)...), message.Of("shape.base"))
		},
		"a channel along a path nowhere": func(s *plan.Shaper) plan.Region {
			return s.Corridor([]plan.Point{{0, 0}, {math.NaN(), 10}}, 30, 0, message.Of("shape.base"))
		},
	} {
		var sh plan.Shaper
		if got := c(&sh); got != nil {
			t.Errorf("%s: came out as %v", name, got)
		}
		var f *plan.Failure
		if !errors.As(sh.Err(), &f) || f.What.ID != "shape.base" || f.Err == nil {
			t.Errorf("%s: failure %v", name, sh.Err())
			continue
		}
		if after := sh.Union(square(0, 0, 1, 1), square(2, 0, 3, 1), message.Of("shape.former")); after != nil || sh.Err() != error(f) {
			t.Errorf("%s: after it, %v came out and the failure is %v", name, after, sh.Err())
		}
		if sh.Attempt(message.Of("shape.former"), func() error { t.Errorf("%s: something was tried after it", name); return nil }) {
			t.Errorf("%s: something was made after it", name)
		}
	}
}

// A failed attempt is tried on the next grid, and the one that served is told.
func TestGridIsTold(t *testing.T) {
	a, b := square(0, 0, 100, 100), square(50, 50, 150, 150)
	for _, c := range []struct {
		refuse func(gridMM float64) bool
		want   []plan.Regrid
		coarse bool
	}{
		{func(float64) bool { return false }, nil, false},
		{func(g float64) bool { return g == 1e-4 }, []plan.Regrid{{What: message.Of("shape.base"), GridMM: 1e-6}}, false},
		{func(g float64) bool { return g > 0 && g < 1e-3 }, []plan.Regrid{{What: message.Of("shape.base"), GridMM: 0}}, false},
		{func(g float64) bool { return g < 1e-2 }, []plan.Regrid{{What: message.Of("shape.base"), GridMM: 1e-2}}, true},
	} {
		sh := plan.Shaper{Refuse: func(_ message.Message, gridMM float64) error {
			if c.refuse(gridMM) {
				return errors.New("refused")
			}
			return nil
		}}
		if got := sh.Subtract(a, b, message.Of("shape.base")).Area(); sh.Err() != nil || math.Abs(got-7500) > 1e-3 {
			t.Errorf("area %v, %v", got, sh.Err())
		}
		got := sh.Regrids()
		if fmt.Sprint(got) != fmt.Sprint(c.want) || len(got) > 0 && got[0].Coarse() != c.coarse {
			t.Errorf("told %v, want %v", got, c.want)
		}
	}
	none := plan.Shaper{Refuse: func(message.Message, float64) error { return errors.New("refused everywhere") }}
	if got := none.Subtract(a, b, message.Of("shape.base")); got != nil || none.Err() == nil || !strings.Contains(none.Err().Error(), "shape.base could not be worked out: refused everywhere") {
		t.Errorf("%v, %v", got, none.Err())
	}
	if got := none.Corridor([]plan.Point{{0, 0}, {100, 0}}, 10, 0, message.Of("shape.channel")); got != nil {
		t.Errorf("a channel after a failure: %v", got)
	}
	refused := plan.Shaper{Refuse: none.Refuse}
	if got := refused.Corridor([]plan.Point{{0, 0}, {100, 0}}, 10, 0, message.Of("shape.channel")); got != nil || refused.Err() == nil {
		t.Errorf("a refused channel: %v, %v", got, refused.Err())
	}
}

// pieces is a region made the hard way: rectangles, slivers, triangles and
// circles whose edges lie on each other or up to a hair apart, all turned.
func pieces(t *rapid.T, name string) []plan.Region {
	hair := rapid.SampledFrom([]float64{0, 0, 0, 1e-3, 1e-4, 5e-5, 1e-5, 1e-6, 1e-7})
	coordinate := func() float64 {
		return float64(rapid.IntRange(0, 8).Draw(t, "coordinate"))*50 + hair.Draw(t, "off")
	}
	var out []plan.Region
	for range rapid.IntRange(1, 4).Draw(t, name) {
		a, b := plan.Point{coordinate(), coordinate()}, plan.Point{coordinate(), coordinate()}
		var r plan.Region
		switch rapid.IntRange(0, 4).Draw(t, "kind") {
		case 0, 1:
			r = plan.Rectangle(a, b)
		case 2:
			// A sliver as long as the room.
			w := rapid.SampledFrom([]float64{1e-3, 3e-4, 1e-4, 1e-5, 1e-6}).Draw(t, "width")
			u := b.Sub(a)
			if u.Len() < 1 {
				continue
			}
			n := plan.Left(u.Normalize()).Mul(w)
			r = plan.FromRing(plan.Ring{a, b, b.Add(n), a.Add(n)})
		case 3:
			r = plan.FromRing(plan.Ring{a, b, {coordinate(), coordinate()}})
		case 4:
			r = plan.FromRing(plan.Circle(a, 30, 0.05))
		}
		if r.Area() > 0 {
			out = append(out, r)
		}
	}
	return out
}

// Whatever is joined, cut and shared comes out with the areas that add up, or
// fails and says so.
func TestHardShapesAddUpOrFail(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.SampledFrom([]float64{0, 0, 30, 45, 17.3, 0.001, 89.9999}).Draw(t, "angle")
		turn := mgl64.Rotate2D(angle * math.Pi / 180)
		shift := plan.Point{float64(rapid.IntRange(-20000, 20000).Draw(t, "dx")), 0.3}
		var sh plan.Shaper
		var sides [2]plan.Region
		for k, name := range []string{"a", "b"} {
			for _, p := range pieces(t, name) {
				turned := p.EachCorner(func(c plan.Point) plan.Point { return turn.Mul2x1(c).Add(shift) })
				sides[k] = sh.Union(sides[k], turned, message.Of(message.ID(name)))
			}
		}
		a, b := sides[0], sides[1]
		both, left, right, all := sh.Intersect(a, b, message.Of("shape.both")).Area(), sh.Subtract(a, b, message.Of("shape.left")).Area(), sh.Subtract(b, a, message.Of("shape.right")).Area(), sh.Union(a, b, message.Of("shape.all")).Area()
		if sh.Err() != nil {
			t.Logf("failed: %v", sh.Err())
			return
		}
		slack := 0.02 // mm²: slivers left out
		for _, r := range []plan.Region{a, b} {
			for _, p := range r {
				for _, ring := range p.Rings() {
					for i := range ring {
						slack += 1.5e-4 * ring[(i+1)%len(ring)].Sub(ring[i]).Len()
					}
				}
			}
		}
		if math.Abs(left+both-a.Area()) > slack || math.Abs(right+both-b.Area()) > slack || math.Abs(left+right+both-all) > slack {
			t.Fatalf("a %v b %v: both %v, left %v, right %v, all %v", a.Area(), b.Area(), both, left, right, all)
		}
		if shared := plan.SharedArea(a, b); math.Abs(shared-both) > slack {
			t.Fatalf("they share %v, the shape of it has %v", shared, both)
		}
	})
}

// Rings whose corners lie anywhere mostly cross themselves: they come out with
// areas that add up or fail, and never end the program.
func TestAnyRingsAddUpOrFail(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		corner := rapid.Custom(func(t *rapid.T) plan.Point {
			return plan.Point{float64(rapid.IntRange(0, 12).Draw(t, "x")) * 10, float64(rapid.IntRange(0, 12).Draw(t, "y")) * 10}
		})
		ring := func(name string) plan.Region {
			return plan.Region{{Outer: rapid.SliceOfN(corner, 0, 8).Draw(t, name)}}
		}
		a, b := ring("a"), ring("b")
		var sh plan.Shaper
		both, left, all := sh.Intersect(a, b, message.Of("shape.both")).Area(), sh.Subtract(a, b, message.Of("shape.left")).Area(), sh.Union(a, b, message.Of("shape.all")).Area()
		if sh.Err() != nil {
			return
		}
		if math.Abs(left+both-a.Area()) > 1 || math.Abs(left+b.Area()-all) > 1 {
			t.Fatalf("a %v b %v: both %v, left %v, all %v", a.Area(), b.Area(), both, left, all)
		}
	})
}
