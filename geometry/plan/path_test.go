package plan_test

import (
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry/plan"
)

func near(a, b plan.Point) bool { return a.Sub(b).Len() < 1e-9 }

// u is a square of 100 with a slot 20 wide and 60 deep from above.
func u() plan.Region {
	return plan.FromRing(plan.Ring{{0, 0}, {100, 0}, {100, 100}, {60, 100}, {60, 40}, {40, 40}, {40, 100}, {0, 100}})
}

// holed is a square of 100 with a hole from 20 to 80.
func holed() plan.Region {
	r := square(0, 0, 100, 100)
	r[0].Holes = []plan.Ring{square(20, 20, 80, 80)[0].Outer.Reversed()}
	return r
}

// A line's stretches inside a region by hand, by distance along it. A corner on
// the line counts as above it: along the foot of a region, all of it
// above, the line is out, along the top it is in.
func TestClipByHand(t *testing.T) {
	skew := plan.Point{0.6, 0.8}
	for name, c := range map[string]struct {
		region            plan.Region
		origin, direction plan.Point
		want              []plan.Interval
	}{
		"across the slot":     {u(), plan.Point{0, 70}, plan.Point{1, 0}, []plan.Interval{{From: 0, To: 40}, {From: 60, To: 100}}},
		"from within":         {u(), plan.Point{30, 70}, plan.Point{1, 0}, []plan.Interval{{From: -30, To: 10}, {From: 30, To: 70}}},
		"the other way":       {u(), plan.Point{30, 70}, plan.Point{-1, 0}, []plan.Interval{{From: -70, To: -30}, {From: -10, To: 30}}},
		"upward in the slot":  {u(), plan.Point{50, -10}, plan.Point{0, 1}, []plan.Interval{{From: 10, To: 50}}},
		"along the foot":      {u(), plan.Point{0, 0}, plan.Point{1, 0}, nil},
		"foot, backward":      {u(), plan.Point{0, 0}, plan.Point{-1, 0}, []plan.Interval{{From: -100, To: 0}}},
		"along the top":       {u(), plan.Point{0, 100}, plan.Point{1, 0}, []plan.Interval{{From: 0, To: 40}, {From: 60, To: 100}}},
		"under it":            {u(), plan.Point{0, -1}, plan.Point{1, 0}, nil},
		"over it":             {u(), plan.Point{0, 101}, plan.Point{1, 0}, nil},
		"along the slot's":    {u(), plan.Point{0, 40}, plan.Point{1, 0}, []plan.Interval{{From: 0, To: 100}}},
		"through a hole":      {holed(), plan.Point{0, 50}, plan.Point{1, 0}, []plan.Interval{{From: 0, To: 20}, {From: 80, To: 100}}},
		"beside the hole":     {holed(), plan.Point{0, 10}, plan.Point{1, 0}, []plan.Interval{{From: 0, To: 100}}},
		"on the skew":         {square(0, 0, 60, 80), plan.Point{0, 0}, skew, []plan.Interval{{From: 0, To: 100}}},
		"on the skew, beside": {square(0, 0, 60, 80), plan.Point{-30, 0}, skew, []plan.Interval{{From: 50, To: 100}}},
		"two regions":         {append(square(200, 0, 300, 100), square(0, 0, 100, 100)...), plan.Point{0, 50}, plan.Point{1, 0}, []plan.Interval{{From: 0, To: 100}, {From: 200, To: 300}}},
		"hardly any":          {plan.FromRing(plan.Ring{{0, 0}, {0.98e-7, 0}, {0.98e-7, 100}, {0, 100}}), plan.Point{0, 50}, plan.Point{1, 0}, nil},
		"just the grid's":     {square(0, 0, 1e-7, 100), plan.Point{0, 50}, plan.Point{1, 0}, nil},
		"a hair's breadth":    {square(0, 0, 1.02e-7, 100), plan.Point{0, 50}, plan.Point{1, 0}, []plan.Interval{{From: 0, To: 1.02e-7}}},
		"nothing":             {nil, plan.Point{}, plan.Point{1, 0}, nil},
		"no corners":          {plan.Region{{}}, plan.Point{}, plan.Point{1, 0}, nil},
	} {
		got := c.region.Clip(c.origin, c.direction)
		same := func(a, b plan.Interval) bool { return math.Abs(a.From-b.From) < 1e-9 && math.Abs(a.To-b.To) < 1e-9 }
		if !slices.EqualFunc(got, c.want, same) || (got == nil) != (c.want == nil) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

func TestMeetLinesByHand(t *testing.T) {
	for name, c := range map[string]struct {
		a, u, b, v plan.Point
		s, t       float64
		ok         bool
	}{
		"square":          {plan.Point{0, 0}, plan.Point{10, 0}, plan.Point{4, -3}, plan.Point{0, 2}, 0.4, 1.5, true},
		"on the skew":     {plan.Point{1, 1}, plan.Point{2, 1}, plan.Point{1, 6}, plan.Point{1, -2}, 1, 2, true},
		"parallel":        {plan.Point{0, 0}, plan.Point{10, 0}, plan.Point{0, 1}, plan.Point{-3, 0}, 0, 0, false},
		"on each other":   {plan.Point{0, 0}, plan.Point{10, 0}, plan.Point{5, 0}, plan.Point{3, 0}, 0, 0, false},
		"no direction":    {plan.Point{0, 0}, plan.Point{}, plan.Point{5, 0}, plan.Point{3, 1}, 0, 0, false},
		"hardly parallel": {plan.Point{0, 0}, plan.Point{10, 0}, plan.Point{0, -2.1e-12}, plan.Point{2, 2.1e-12}, 0.2, 1, true},
		"all but":         {plan.Point{0, 0}, plan.Point{10, 0}, plan.Point{0, -1.9e-12}, plan.Point{2, 1.9e-12}, 0, 0, false},
	} {
		s, at, ok := plan.MeetLines(c.a, c.u, c.b, c.v)
		if ok != c.ok || math.Abs(s-c.s) > 1e-9 || math.Abs(at-c.t) > 1e-9 {
			t.Errorf("%s: %v, %v, %v; want %v, %v, %v", name, s, at, ok, c.s, c.t, c.ok)
		}
	}
}

// The first two edges that cross, touch or fold back, counted from nought; edges
// that come within a millionth of a millimetre touch.
func TestCrossingEdgesByHand(t *testing.T) {
	square := plan.Ring{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1000}}
	notch := func(mm float64) plan.Ring { return plan.Ring{{0, 0}, {1000, 0}, {1000, 1000}, {500, mm}, {0, 1000}} }
	// It runs 1000 on and 2000 back: a fold where it is out of line by no more than
	// 10⁻⁹ · 2000.
	fold := func(mm float64) plan.Ring { return plan.Ring{{0, 0}, {1000, 0}, {-1000, mm}, {-1000, -500}, {0, -500}} }
	for name, c := range map[string]struct {
		ring plan.Ring
		i, j int
		bad  bool
	}{
		"square":             {square, 0, 0, false},
		"walked backward":    {square.Reversed(), 0, 0, false},
		"bow tie":            {plan.Ring{{0, 0}, {1000, 1000}, {1000, 0}, {0, 1000}}, 0, 2, true},
		"later on":           {plan.Ring{{0, 0}, {500, -500}, {1000, 1000}, {1000, 0}, {0, 1000}}, 1, 3, true},
		"by the last":        {plan.Ring{{0, 0}, {1000, 0}, {1000, 1000}, {500, 1000}, {-100, 500}, {500, 500}, {-50, 1000}}, 3, 5, true},
		"corner on an edge":  {notch(0), 0, 2, true},
		"corner twice":       {plan.Ring{{0, 0}, {1000, 0}, {1000, 0}, {1000, 1000}}, 0, 2, true},
		"just a hair off it": {notch(1e-6), 0, 0, false},
		"a hair off it":      {notch(0.98e-6), 0, 2, true},
		"more off it":        {notch(1.02e-6), 0, 0, false},
		"spike":              {plan.Ring{{0, 0}, {1000, 0}, {500, 0}, {500, 500}}, 0, 1, true},
		"nearly a spike":     {fold(1.95e-6), 0, 1, true},
		"hardly a spike":     {fold(2.05e-6), 0, 0, false},
		"spike at the start": {plan.Ring{{500, 0}, {1000, 0}, {0, 0}, {0, 500}}, 0, 1, true},
		"spike at the end":   {plan.Ring{{0, 0}, {0, 500}, {500, 500}, {500, 0}, {-300, 0}}, 0, 3, true},
		"fold at the end":    {plan.Ring{{0, 0}, {500, 0}, {500, 500}, {300, 0}}, 0, 2, true},
		"last back on first": {plan.Ring{{0, 0}, {1000, 0}, {1000, 500}, {400, 300}, {400, 0}}, 0, 3, true},
		"fold at corner 1":   {plan.Ring{{0, 0}, {600, 0}, {600, 500}, {300, 300}, {1000, 0}}, 4, 0, true},
		"straight on":        {plan.Ring{{0, 0}, {500, 0}, {1000, 0}, {1000, 500}}, 0, 0, false},
		"straight to the 1.": {plan.Ring{{500, 0}, {1000, 0}, {1000, 500}, {0, 0}}, 0, 0, false},
		"triangle":           {plan.Ring{{0, 0}, {1000, 0}, {0, 1000}}, 0, 0, false},
	} {
		i, j, bad := c.ring.CrossingEdges()
		if bad != c.bad || i != c.i || j != c.j {
			t.Errorf("%s: edges %d and %d, %v; want %d and %d, %v", name, i, j, bad, c.i, c.j, c.bad)
		}
	}
}

// The distance of two segments by hand, whichever way they are given.
func TestApartByHand(t *testing.T) {
	for name, c := range map[string]struct {
		a, b, c, d plan.Point
		want       float64
	}{
		"side by side":     {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{20, 7}, plan.Point{80, 7}, 7},
		"end before":       {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{50, 5}, plan.Point{70, 90}, 5},
		"corner to corner": {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{103, 4}, plan.Point{200, 90}, 5},
		"behind":           {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{-3, -4}, plan.Point{-200, -90}, 5},
		"in line":          {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{130, 0}, plan.Point{200, 0}, 30},
		"crossing":         {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{50, -5}, plan.Point{70, 90}, 0},
		"touching":         {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{50, 0}, plan.Point{70, 90}, 0},
		"end on end":       {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{100, 0}, plan.Point{170, 90}, 0},
		"a hair off":       {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{50, 0.98e-6}, plan.Point{70, 90}, 0},
		"just a hair":      {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{50, 1e-6}, plan.Point{70, 90}, 1e-6},
		"more off":         {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{50, 1.02e-6}, plan.Point{70, 90}, 1.02e-6},
		"lines that would": {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{120, -30}, plan.Point{120, 30}, 20},
		"or before":        {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{-20, -30}, plan.Point{-20, 30}, 20},
		"a point":          {plan.Point{0, 0}, plan.Point{100, 0}, plan.Point{50, 9}, plan.Point{50, 9}, 9},
	} {
		for _, got := range []float64{plan.Apart(c.a, c.b, c.c, c.d), plan.Apart(c.b, c.a, c.c, c.d), plan.Apart(c.c, c.d, c.a, c.b), plan.Apart(c.d, c.c, c.b, c.a)} {
			if math.Abs(got-c.want) > 1e-12 {
				t.Errorf("%s: %v, want %v", name, got, c.want)
			}
		}
	}
}

func TestNearestOnSegmentByHand(t *testing.T) {
	a, b := plan.Point{10, 10}, plan.Point{40, 50}
	for p, want := range map[plan.Point]plan.Point{{10, 10}: {10, 10}, {-5, -9}: {10, 10}, {45, 60}: {40, 50}, {17, 36}: {25, 30}, {33, 24}: {25, 30}} {
		if got := plan.NearestOnSegment(p, a, b); !near(got, want) || math.Abs(plan.DistanceToSegment(p, a, b)-p.Sub(want).Len()) > 1e-9 {
			t.Errorf("%v: %v, %v off; want %v", p, got, plan.DistanceToSegment(p, a, b), want)
		}
	}
	if got := plan.NearestOnSegment(plan.Point{0.25, 4}, plan.Point{}, plan.Point{1, 0}); got != (plan.Point{0.25, 0}) {
		t.Errorf("of a segment of 1: %v", got)
	}
	if got := plan.NearestOnSegment(plan.Point{3, 4}, a, a); got != a {
		t.Errorf("of a point: %v", got)
	}
}

// A hull by hand, and what every hull must be: convex, of given points, round
// all of them.
func TestHull(t *testing.T) {
	points := []plan.Point{{50, 50}, {0, 0}, {100, 0}, {50, 0}, {100, 100}, {0, 100}, {0, 50}, {30, 70}, {0, 0}}
	if got := plan.Hull(points); !slices.Equal(got, plan.Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}}) {
		t.Errorf("%v", got)
	}
	if points[0] != (plan.Point{50, 50}) || points[8] != (plan.Point{}) {
		t.Errorf("the points given have changed: %v", points)
	}
	if got := plan.Hull([]plan.Point{{5, 1}}); !slices.Equal(got, plan.Ring{{5, 1}}) || len(plan.Hull(nil)) != 0 {
		t.Errorf("of one point: %v, of none: %v", got, plan.Hull(nil))
	}
	if got := plan.Hull([]plan.Point{{5, 1}, {2, 3}}); !slices.Equal(got, plan.Ring{{2, 3}, {5, 1}}) {
		t.Errorf("of two points: %v", got)
	}
	if got := plan.Hull([]plan.Point{{5, 1}, {2, 3}, {2, 1}}); !slices.Equal(got, plan.Ring{{2, 1}, {5, 1}, {2, 3}}) {
		t.Errorf("of three points: %v", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.IntRange(-20, 20)
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) plan.Point {
			return plan.Point{float64(coordinate.Draw(t, "x")), float64(coordinate.Draw(t, "y"))}
		}), 3, 30).Draw(t, "points")
		hull := plan.Hull(points)
		if hull.SignedArea() == 0 {
			return // all in line
		}
		for i, a := range hull {
			b, c := hull[(i+1)%len(hull)], hull[(i+2)%len(hull)]
			if plan.Cross(b.Sub(a), c.Sub(b)) <= 0 || !slices.Contains(points, a) {
				t.Fatalf("%v is not convex at %v, or that is none of %v", hull, b, points)
			}
			for _, p := range points {
				if plan.Cross(b.Sub(a), p.Sub(a)) < 0 {
					t.Fatalf("%v lies outside %v", p, hull)
				}
			}
		}
	})
}

// Regions overlap when they share more than edges, by hand; the other way round
// as well, and turned.
func TestOverlapByHand(t *testing.T) {
	whole := square(0, 0, 100, 100)
	island := append(holed(), square(30, 30, 70, 70)...)
	for name, c := range map[string]struct {
		a, b plan.Region
		want bool
	}{
		"overlap":             {whole, square(50, 50, 150, 150), true},
		"the same":            {whole, whole, true},
		"the same, narrow":    {square(0, 0, 1, 100), square(0, 0, 1, 100), true},
		"in it":               {whole, square(20, 30, 50, 40), true},
		"in it, all round":    {whole, square(0, 0, 100, 50), true},
		"side by side":        {whole, square(100, 0, 200, 100), false},
		"corner to corner":    {whole, square(100, 100, 200, 200), false},
		"apart":               {whole, square(150, 0, 250, 100), false},
		"across":              {whole, square(40, -50, 60, 150), true},
		"across, end to end":  {whole, square(40, 0, 60, 100), true},
		"in the hole":         {holed(), square(30, 30, 70, 70), false},
		"the hole itself":     {holed(), square(20, 20, 80, 80), false},
		"over the hole":       {holed(), square(10, 10, 90, 90), true},
		"on the island":       {island, square(40, 40, 60, 60), true},
		"hardly in":           {whole, square(100-0.95e-7, 20, 200, 80), false},
		"a little in":         {whole, square(100-1.1e-7, 20, 200, 80), true},
		"diamond in a square": {whole, plan.Region{{Outer: plan.Ring{{50, 0}, {100, 50}, {50, 100}, {0, 50}}}}, true},
		"half of it":          {whole, plan.Region{{Outer: plan.Ring{{0, 0}, {100, 0}, {100, 100}}}}, true},
		"the other half":      {plan.Region{{Outer: plan.Ring{{0, 0}, {100, 100}, {0, 100}}}}, plan.Region{{Outer: plan.Ring{{0, 0}, {100, 0}, {100, 100}}}}, false},
		"in the slot":         {u(), square(45, 50, 55, 90), false},
		"filling the slot":    {u(), square(40, 40, 60, 100), false},
		"two in one":          {append(square(-50, 0, 0, 100), square(100, 0, 150, 100)...), whole, false},
		"nothing":             {whole, nil, false},
	} {
		for _, angle := range []float64{0, 0.3} {
			turn := mgl64.Rotate2D(angle)
			to := func(p plan.Point) plan.Point { return turn.Mul2x1(p) }
			a, b := c.a.EachCorner(to), c.b.EachCorner(to)
			if got, back := a.Overlap(b), b.Overlap(a); got != c.want || back != c.want {
				t.Errorf("%s, turned by %v: %v, the other way round %v", name, angle, got, back)
			}
		}
	}
}

// A square of 100 moved: straight to the right it passes over 150 × 100, along its
// diagonal over 100² and twice 100 × 30; against that, the same. Corners by hand,
// the bottom edge and what it is moved on by being one side.
func TestDrawnByHand(t *testing.T) {
	square := plan.Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	for _, c := range []struct {
		by   plan.Point
		want plan.Ring
	}{
		{plan.Point{}, square},
		{plan.Point{50, 0}, plan.Ring{{0, 0}, {150, 0}, {150, 100}, {0, 100}}},
		{plan.Point{-50, 0}, plan.Ring{{-50, 0}, {100, 0}, {100, 100}, {-50, 100}}},
		{plan.Point{0, 50}, plan.Ring{{0, 0}, {100, 0}, {100, 150}, {0, 150}}},
		{plan.Point{0, -50}, plan.Ring{{0, -50}, {100, -50}, {100, 100}, {0, 100}}},
		{plan.Point{30, 30}, plan.Ring{{0, 0}, {100, 0}, {130, 30}, {130, 130}, {30, 130}, {0, 100}}},
		{plan.Point{-30, -30}, plan.Ring{{-30, -30}, {70, -30}, {100, 0}, {100, 100}, {0, 100}, {-30, 70}}},
	} {
		// The same however small.
		for _, share := range []float64{1, 1.0 / 1024} {
			smaller := func(r plan.Ring) (out plan.Ring) {
				for _, p := range r {
					out = append(out, p.Mul(share))
				}
				return out
			}
			if got := plan.Drawn(smaller(square), c.by.Mul(share)); !slices.Equal(got, smaller(c.want)) {
				t.Errorf("%v of it by %v: %v, want %v", share, c.by, got, c.want)
			}
		}
	}
}

// Whatever convex ring is moved whatever way, it passes over the hull of all corners
// before and after.
func TestDrawnIsTheHull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) plan.Point {
			return plan.Point{float64(rapid.IntRange(-30, 30).Draw(t, "x")), float64(rapid.IntRange(-30, 30).Draw(t, "y"))}
		}), 3, 12).Draw(t, "points")
		ring := plan.Hull(points)
		if len(ring) < 3 {
			t.Skip("no area")
		}
		by := plan.Point{float64(rapid.IntRange(-40, 40).Draw(t, "by x")), float64(rapid.IntRange(-40, 40).Draw(t, "by y"))}
		both := slices.Clone([]plan.Point(ring))
		for _, p := range ring {
			both = append(both, p.Add(by))
		}
		want, got := plan.Hull(both), plan.Drawn(ring, by)
		from := slices.Index(got, want[0])
		if from < 0 || !slices.Equal(append(slices.Clone(got[from:]), got[:from]...), want) {
			t.Fatalf("%v by %v: %v, want %v", ring, by, got, want)
		}
	})
}
