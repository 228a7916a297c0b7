package plan_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// A point within the tolerance of an edge is in the region, on either side of
// it; by hand, also of a slanted edge and of a hole's.
func TestContainsByHand(t *testing.T) {
	triangle := plan.FromRing(plan.Ring{{0, 0}, {40, 0}, {0, 30}})
	diamond := plan.FromRing(plan.Ring{{0, 0}, {50, -50}, {100, 0}, {50, 50}})
	for _, c := range []struct {
		region      plan.Region
		p           plan.Point
		toleranceMM float64
		want        bool
	}{
		{holed(), plan.Point{10, 50}, 0, true}, {holed(), plan.Point{50, 50}, 0, false}, {holed(), plan.Point{-10, 50}, 0, false},
		{holed(), plan.Point{110, 50}, 0, false}, {holed(), plan.Point{50, -10}, 0, false}, {holed(), plan.Point{50, 110}, 0, false},
		{holed(), plan.Point{0, 50}, 0, true}, {holed(), plan.Point{100, 100}, 0, true}, {holed(), plan.Point{20, 50}, 0, true},
		{holed(), plan.Point{-5, 50}, 5, true}, {holed(), plan.Point{-5.001, 50}, 5, false}, {holed(), plan.Point{105, 50}, 5, true}, {holed(), plan.Point{105.001, 50}, 5, false},
		{holed(), plan.Point{50, -5}, 5, true}, {holed(), plan.Point{50, 105.001}, 5, false}, {holed(), plan.Point{50, 105}, 5, true}, {holed(), plan.Point{50, -5.001}, 5, false},
		{holed(), plan.Point{25, 50}, 5, true}, {holed(), plan.Point{25.001, 50}, 5, false},
		// 3 and 4 past a corner is 5 off it.
		{holed(), plan.Point{103, 104}, 5, true}, {holed(), plan.Point{103, 104}, 4.99, false}, {holed(), plan.Point{-3, -4}, 5, true}, {holed(), plan.Point{-3, -4}, 4.99, false},
		// Off the slanted side's middle by (3, 4).
		{triangle, plan.Point{23, 19}, 5, true}, {triangle, plan.Point{23, 19}, 4.99, false}, {triangle, plan.Point{19, 14}, 0, true}, {triangle, plan.Point{21, 16}, 0, false},
		{append(square(200, 0, 300, 100), holed()...), plan.Point{250, 50}, 0, true}, {append(square(200, 0, 300, 100), holed()...), plan.Point{10, 50}, 0, true},
		// Level with corners of it.
		{diamond, plan.Point{50, 0}, 0, true}, {diamond, plan.Point{-10, 0}, 0, false}, {diamond, plan.Point{110, 0}, 0, false}, {diamond, plan.Point{10, 50}, 0, false}, {diamond, plan.Point{10, -50}, 0, false},
		{u(), plan.Point{50, 70}, 0, false}, {u(), plan.Point{50, 30}, 0, true}, {u(), plan.Point{30, 70}, 0, true}, {nil, plan.Point{}, 5, false},
	} {
		if got := c.region.Contains(c.p, c.toleranceMM); got != c.want {
			t.Errorf("%v within %v of %v: %v", c.p, c.toleranceMM, c.region, got)
		}
	}
}

func TestBoundsAndCentroidByHand(t *testing.T) {
	two := append(square(200, -50, 300, 50), square(-20, 0, 80, 10)...)
	low, high, ok := two.Bounds()
	if low != (plan.Point{-20, -50}) || high != (plan.Point{300, 50}) || !ok {
		t.Errorf("%v, %v, %v", low, high, ok)
	}
	for name, r := range map[string]plan.Region{"nothing": nil, "no corners": {{}}} {
		if _, _, ok := r.Bounds(); ok || r.Area() != 0 || r.Centroid() != (plan.Point{}) {
			t.Errorf("%s has bounds or a middle: %v", name, r.Centroid())
		}
	}
	if got := square(70, 90, 10, 20); fmt.Sprint(got) != fmt.Sprint(square(10, 20, 70, 90)) || got.Area() != 4200 || got[0].Outer.SignedArea() != 4200 {
		t.Errorf("between the other corners: %v", got)
	}
	// Areas 10 000 and 1000 about (250, 0) and (30, 5).
	if got := two.Centroid(); !near(got, plan.Point{(250*10000 + 30*1000) / 11000.0, 5 * 1000 / 11000.0}) {
		t.Errorf("the middle of two: %v", got)
	}
	// A square of 100 less one of 40 about (30, 50): (50·10000 − 30·1600)/8400.
	holed := square(0, 0, 100, 100)
	holed[0].Holes = []plan.Ring{square(10, 30, 50, 70)[0].Outer.Reversed()}
	if got := holed.Centroid(); holed.Area() != 8400 || !near(got, plan.Point{(50*10000 - 30*1600) / 8400.0, 50}) {
		t.Errorf("with a hole: %v mm² about %v", holed.Area(), got)
	}
	if one := plan.FromRing(plan.Ring{{0, 0}, {1, 0}, {1, 1}, {0, 1}}); one.Area() != 1 || !near(one.Centroid(), plan.Point{0.5, 0.5}) {
		t.Errorf("of a square of 1: %v mm² about %v", one.Area(), one.Centroid())
	}
	if small := plan.FromRing(plan.Ring{{0, 0}, {0.5, 0}, {0, 0.5}}); small.Area() != 0.125 {
		t.Errorf("of a small triangle: %v mm²", small.Area())
	}
	// Far off, a thousandth of a square millimetre still counts.
	far := square(4e7, 4e7, 4e7+0.03125, 4e7+0.03125)
	if got := far.Area(); got != 0.03125*0.03125 {
		t.Errorf("far off: %v", got)
	}
	if got := (plan.Ring{}).SignedArea(); got != 0 {
		t.Errorf("of no corners: %v", got)
	}
	if got := (plan.Ring{{1, 2}, {3, 4}, {5, 7}}).Reversed(); !slices.Equal(got, plan.Ring{{5, 7}, {3, 4}, {1, 2}}) {
		t.Errorf("reversed: %v", got)
	}
	if got := plan.Cross(plan.Point{2, 3}, plan.Point{5, 11}); got != 7 {
		t.Errorf("the cross product is %v", got)
	}
	if got := (plan.Polygon{Outer: plan.Ring{{1, 2}}, Holes: []plan.Ring{{{3, 4}}, {{5, 6}}}}).Rings(); fmt.Sprint(got) != "[[[1 2]] [[3 4]] [[5 6]]]" {
		t.Errorf("rings %v", got)
	}
}

// How many sides a circle needs, a multiple of four, by hand: π/arccos(1 −
// 0.05/r) is 44.4 for 20, 49.7 for 25, 70.2 for 50, 19.85 for 4 and 9.85 for 1; eight at
// least.
func TestCircleSidesByHand(t *testing.T) {
	for radius, want := range map[float64]int{0.01: 8, 0.05: 8, 0.5: 8, 1: 12, 4: 20, 20: 48, 25: 52, 50: 72} {
		if got := plan.CircleSides(radius, 0.05); got != want {
			t.Errorf("radius %v: %d sides, want %d", radius, got, want)
		}
	}
	ring := plan.Circle(plan.Point{30, -40}, 25, 0.05)
	if len(ring) != 52 {
		t.Fatalf("%d corners", len(ring))
	}
	// It begins half a side past the x axis and goes round to the left, so that a
	// side stands square to each axis.
	s, c := math.Sincos(math.Pi / 52)
	if !near(ring[0], plan.Point{30 + 25*c, -40 + 25*s}) || !near(ring[51], plan.Point{30 + 25*c, -40 - 25*s}) || ring.SignedArea() < 1900 {
		t.Errorf("it runs from %v to %v", ring[0], ring[51])
	}
	for _, p := range ring {
		if math.Abs(p.Sub(plan.Point{30, -40}).Len()-25) > 1e-9 {
			t.Errorf("%v is not on the circle", p)
		}
	}
}

// A corridor along a path with turns that fit its legs, by hand: a mitre adds at
// its outside what the legs share inside, so it is as wide as it is long in all.
func TestCorridorsAreAsLongAsTheirPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		path := []plan.Point{{rapid.Float64Range(-5000, 5000).Draw(t, "x"), 3}}
		direction := rapid.Float64Range(0, 2*math.Pi).Draw(t, "direction")
		length := 0.0
		for k := range rapid.IntRange(1, 3).Draw(t, "legs") {
			// Turns to the left and to the right in turn, so that it cannot cross
			// itself; a mitre of up to twice the width is kept.
			turn := rapid.Float64Range(0.1, 1.9).Draw(t, "turn")
			if k%2 == 1 {
				turn = -turn
			}
			direction += turn
			l := rapid.Float64Range(200, 900).Draw(t, "leg")
			s, c := math.Sincos(direction)
			path = append(path, path[len(path)-1].Add(plan.Point{l * c, l * s}))
			length += l
		}
		half, extra := rapid.Float64Range(5, 60).Draw(t, "half width"), rapid.Float64Range(-20, 50).Draw(t, "extra")
		var sh plan.Shaper
		got := sh.Corridor(path, half, extra, message.Of("shape.channel"))
		if want := 2 * half * (length + 2*extra); sh.Err() != nil || math.Abs(got.Area()-want) > 1e-3 {
			t.Fatalf("%v mm², want %v; %v", got.Area(), want, sh.Err())
		}
	})
}

func TestCorridorEndsByHand(t *testing.T) {
	corridor := func(path []plan.Point, half, extra float64) plan.Region {
		var sh plan.Shaper
		r := sh.Corridor(path, half, extra, message.Of("shape.channel"))
		if sh.Err() != nil {
			t.Error(sh.Err())
		}
		return r
	}
	straight := []plan.Point{{0, 0}, {300, 400}}
	// From (0, 0) back by 10 and on by 10 past (300, 400), 30 to either side:
	// along (0.6, 0.8), left (−0.8, 0.6).
	got := corridor(straight, 30, 10)
	for _, want := range []plan.Point{{-6 - 24, -8 + 18}, {-6 + 24, -8 - 18}, {306 - 24, 408 + 18}, {306 + 24, 408 - 18}} {
		if len(got) != 1 || len(got[0].Outer) != 4 || !slices.ContainsFunc(got[0].Outer, func(p plan.Point) bool { return p.Sub(want).Len() < 1e-6 }) {
			t.Errorf("%v has no corner at %v", got, want)
		}
	}
	for name, c := range map[string]struct {
		path        []plan.Point
		half, extra float64
		want        float64
	}{
		"no width":           {straight, 0, 10, 0},
		"less than none":     {straight, -3, 10, 0},
		"one point":          {straight[:1], 30, 10, 0},
		"no points":          {nil, 30, 10, 0},
		"all in one place":   {[]plan.Point{{5, 5}, {5, 5}, {5, 5 + 0.9e-6}}, 30, 10, 0},
		"just a hair":        {[]plan.Point{{0, 0}, {1e-6, 0}}, 30, 10, 0},
		"hardly any length":  {[]plan.Point{{5, 5}, {5, 5 + 1.1e-6}}, 30, 10, 60 * 20},
		"a point twice":      {[]plan.Point{{0, 0}, {300, 400}, {300, 400}, {600, 800}}, 30, 10, 60 * 1020},
		"the first one, too": {[]plan.Point{{0, 0}, {0, 0}, {300, 400}}, 30, 10, 60 * 520},
		"shortened":          {straight, 30, -100, 60 * 300},
	} {
		if got := corridor(c.path, c.half, c.extra).Area(); math.Abs(got-c.want) > 1e-3 {
			t.Errorf("%s: %v mm², want %v", name, got, c.want)
		}
	}
	given := slices.Clone(straight)
	corridor(straight, 30, 10)
	if !slices.Equal(given, straight) {
		t.Errorf("the path has changed to %v", straight)
	}
}

// What needs no cutting is given as it is, whatever the shaper would do.
func TestShaperTakesWhatIsThere(t *testing.T) {
	a, b, apart := square(0, 0, 100, 100), square(50, 50, 150, 150), square(300, 0, 400, 100)
	refused := func(step func(*plan.Shaper) plan.Region) (plan.Region, error) {
		sh := plan.Shaper{Refuse: func(message.Message, float64) error { return errors.New("refused") }}
		return step(&sh), sh.Err()
	}
	for name, c := range map[string]struct {
		step func(*plan.Shaper) plan.Region
		want float64 // −1 where it must be worked out
	}{
		"nothing and a":        {func(s *plan.Shaper) plan.Region { return s.Union(nil, a, message.Of("shape.it")) }, 10000},
		"a and nothing":        {func(s *plan.Shaper) plan.Region { return s.Union(a, nil, message.Of("shape.it")) }, 10000},
		"a and b":              {func(s *plan.Shaper) plan.Region { return s.Union(a, b, message.Of("shape.it")) }, -1},
		"a less nothing":       {func(s *plan.Shaper) plan.Region { return s.Subtract(a, nil, message.Of("shape.it")) }, 10000},
		"nothing less a":       {func(s *plan.Shaper) plan.Region { return s.Subtract(nil, a, message.Of("shape.it")) }, 0},
		"a less what is apart": {func(s *plan.Shaper) plan.Region { return s.Subtract(a, apart, message.Of("shape.it")) }, 10000},
		"a less b":             {func(s *plan.Shaper) plan.Region { return s.Subtract(a, b, message.Of("shape.it")) }, -1},
		"a by nothing":         {func(s *plan.Shaper) plan.Region { return s.Intersect(a, nil, message.Of("shape.it")) }, 0},
		"nothing by a":         {func(s *plan.Shaper) plan.Region { return s.Intersect(nil, a, message.Of("shape.it")) }, 0},
		"a by what is apart":   {func(s *plan.Shaper) plan.Region { return s.Intersect(a, apart, message.Of("shape.it")) }, 0},
		"a by b":               {func(s *plan.Shaper) plan.Region { return s.Intersect(a, b, message.Of("shape.it")) }, -1},
		"a path of no width": {func(s *plan.Shaper) plan.Region {
			return s.Corridor([]plan.Point{{0, 0}, {300, 0}}, 0, 10, message.Of("shape.it"))
		}, 0},
		"a path of no length": {func(s *plan.Shaper) plan.Region {
			return s.Corridor([]plan.Point{{0, 0}, {0, 0}}, 30, 10, message.Of("shape.it"))
		}, 0},
		"a path": {func(s *plan.Shaper) plan.Region {
			return s.Corridor([]plan.Point{{0, 0}, {300, 0}}, 30, 10, message.Of("shape.it"))
		}, -1},
		// Bounds that touch may share something.
		"a by its neighbour": {func(s *plan.Shaper) plan.Region {
			return s.Intersect(a, square(100, 0, 200, 100), message.Of("shape.it"))
		}, -1},
		"a less its neighbour": {func(s *plan.Shaper) plan.Region {
			return s.Subtract(a, square(0, -100, 100, 0), message.Of("shape.it"))
		}, -1},
		"a less one on its top": {func(s *plan.Shaper) plan.Region {
			return s.Subtract(a, square(0, 100, 100, 200), message.Of("shape.it"))
		}, -1},
		"a less one before it": {func(s *plan.Shaper) plan.Region {
			return s.Subtract(a, square(-100, 0, 0, 100), message.Of("shape.it"))
		}, -1},
		"a less one below": {func(s *plan.Shaper) plan.Region {
			return s.Subtract(a, square(0, -100, 100, -1), message.Of("shape.it"))
		}, 10000},
		"a less one left": {func(s *plan.Shaper) plan.Region {
			return s.Subtract(a, square(-100, 0, -1, 100), message.Of("shape.it"))
		}, 10000},
		"a less one over it": {func(s *plan.Shaper) plan.Region {
			return s.Subtract(a, square(0, 101, 100, 200), message.Of("shape.it"))
		}, 10000},
	} {
		got, err := refused(c.step)
		if (err != nil) != (c.want < 0) || err == nil && got.Area() != c.want {
			t.Errorf("%s: %v, %v; want %v", name, got, err, c.want)
		}
	}
}

// The grids are tried in this order, and no other; not a number stands for an
// attempt that has none.
func TestGridsInOrder(t *testing.T) {
	var tried []float64
	sh := plan.Shaper{Refuse: func(_ message.Message, gridMM float64) error {
		tried = append(tried, gridMM)
		return errors.New("refused")
	}}
	sh.Subtract(square(0, 0, 100, 100), square(50, 50, 150, 150), message.Of("shape.base"))
	want := []float64{1e-4, 1e-6, 0, 1e-3, 1e-2}
	if !slices.EqualFunc(tried, want, func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*b }) {
		t.Errorf("grids %v, want %v", tried, want)
	}
	for grid, coarse := range map[float64]bool{0: false, 1e-6: false, 1e-4: false, 1e-3: true, 1e-2: true} {
		if got := (plan.Regrid{GridMM: grid}).Coarse(); got != coarse {
			t.Errorf("a grid of %v is coarse: %v", grid, got)
		}
	}
	attempt := plan.Shaper{Refuse: func(_ message.Message, gridMM float64) error {
		if !math.IsNaN(gridMM) {
			t.Errorf("an attempt on a grid of %v", gridMM)
		}
		return nil
	}}
	if !attempt.Attempt(message.Of("shape.shape"), func() error { return nil }) || attempt.Err() != nil {
		t.Error("an attempt that did not fail failed")
	}
	reason := errors.New("a reason")
	if attempt.Attempt(message.Of("shape.shape"), func() error { return reason }) || !errors.Is(attempt.Err(), reason) {
		t.Errorf("an attempt that failed: %v", attempt.Err())
	}
}

// The part of a region on one side of a line, by hand: corners on the line stay.
func TestWhereOnALine(t *testing.T) {
	for name, c := range map[string]struct {
		region plan.Region
		side   func(plan.Point) float64
		want   float64
	}{
		"all":              {square(0, 0, 100, 100), func(plan.Point) float64 { return 1 }, 10000},
		"none":             {square(0, 0, 100, 100), func(plan.Point) float64 { return -1 }, 0},
		"on its side":      {square(0, 0, 100, 100), func(p plan.Point) float64 { return p.X() }, 10000},
		"beyond its side":  {square(0, 0, 100, 100), func(p plan.Point) float64 { return -p.X() }, 0},
		"by its diagonal":  {square(0, 0, 100, 100), func(p plan.Point) float64 { return p.X() - p.Y() }, 5000},
		"the other half":   {square(0, 0, 100, 100), func(p plan.Point) float64 { return p.Y() - p.X() }, 5000},
		"a third":          {square(0, 0, 100, 100), func(p plan.Point) float64 { return 3*p.X() - 200 }, 10000 / 3.0},
		"on the skew":      {square(0, 0, 100, 100), func(p plan.Point) float64 { return 50 - p.X() - p.Y() }, 1250},
		"of a frame":       {holed(), func(p plan.Point) float64 { return 50 - p.X() }, 3200},
		"beside its hole":  {holed(), func(p plan.Point) float64 { return 10 - p.X() }, 1000},
		"one of two":       {append(square(0, 0, 10, 10), square(90, 0, 100, 10)...), func(p plan.Point) float64 { return p.X() - 50 }, 100},
		"a part of either": {append(square(0, 0, 10, 10), square(90, 0, 100, 10)...), func(p plan.Point) float64 { return 4 - p.Y() }, 80},
	} {
		got := c.region.Where(c.side)
		if math.Abs(got.Area()-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", name, got.Area(), c.want)
		}
		for _, p := range got {
			for _, ring := range p.Rings() {
				if len(slices.Compact(slices.Clone(ring))) != len(ring) || ring[0] == ring[len(ring)-1] {
					t.Errorf("%s: a corner is there twice: %v", name, ring)
				}
			}
		}
	}
}

// How far a point is from the nearest edge, by hand: of a frame, within its hole, past a
// corner by 3 and 4, off the middle of a slanted side by as much, of the nearer of two.
func TestEdgeByHand(t *testing.T) {
	triangle := plan.FromRing(plan.Ring{{0, 0}, {40, 0}, {0, 30}})
	for _, c := range []struct {
		region plan.Region
		p      plan.Point
		want   float64
	}{
		{holed(), plan.Point{9, 50}, 9}, {holed(), plan.Point{50, 50}, 30}, {holed(), plan.Point{25, 50}, 5}, {holed(), plan.Point{103, 104}, 5},
		{holed(), plan.Point{50, 0}, 0}, {triangle, plan.Point{23, 19}, 5}, {triangle, plan.Point{17, 11}, 5}, {nil, plan.Point{}, math.Inf(1)},
		{append(square(200, 0, 300, 100), holed()...), plan.Point{250, 93}, 7}, {append(square(200, 0, 300, 100), holed()...), plan.Point{160, 50}, 40},
	} {
		if got := c.region.EdgeMM(c.p); got != c.want && !(math.Abs(got-c.want) <= 1e-9) {
			t.Errorf("%v: %v from the edge of %v, want %v", c.p, got, c.region, c.want)
		}
	}
}
