package solid

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Convex rings are covered by a fan from their first corner: where every corner
// stands out, and every triangle is high, by more than a thousandth of a
// millimetre, and the ring goes round once.
func TestFans(t *testing.T) {
	pentagram := make(plan.Ring, 5)
	for k := range pentagram {
		s, c := math.Sincos(2 * math.Pi * float64(2*k) / 5)
		pentagram[k] = plan.Point{100 * c, 100 * s}
	}
	standing := func(mm float64) plan.Ring { return plan.Ring{{0, 0}, {50, -mm}, {100, 0}, {100, 100}, {0, 100}} }
	low := func(mm float64) plan.Ring { return plan.Ring{{0, 0}, {100, 0}, {30, mm}} }
	lowThere := func(mm float64) plan.Ring { return plan.Ring{{0, 0}, {100, 0}, {200, mm}, {100, 100}} }
	for name, c := range map[string]struct {
		ring plan.Ring
		want bool
	}{
		"triangle":           {plan.Ring{{0, 0}, {100, 0}, {0, 100}}, true},
		"clockwise":          {plan.Ring{{0, 0}, {0, 100}, {100, 0}}, false},
		"circle":             {plan.Circle(plan.Point{3, 4}, 50, ChordErrorMM), true},
		"pentagram":          {pentagram, false},
		"L":                  {plan.Ring{{0, 0}, {200, 0}, {200, 100}, {100, 100}, {100, 200}, {0, 200}}, false},
		"corner in line":     {standing(0), false},
		"hardly standing":    {standing(0.99e-3 / 2), false},
		"standing out":       {standing(1.01e-3), true},
		"hardly high":        {low(0.99e-3), false},
		"high":               {low(1.01e-3), true},
		"hardly high beyond": {lowThere(0.99e-3), false},
		"high beyond":        {lowThere(2.01e-3), true},
		"reflex at the end":  {plan.Ring{{50, 50}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}, false},
	} {
		m := planMesh{points: c.ring}
		if got := m.fan(); got != c.want {
			t.Errorf("%s: a fan: %v", name, got)
		}
		if c.want && (len(m.triangles) != len(c.ring)-2 || m.covers(outline{len(c.ring)}, c.ring.SignedArea()) != nil) {
			t.Errorf("%s: %v is no cover", name, m.triangles)
		}
	}
}

func TestOutlineHasItsEdges(t *testing.T) {
	o := outline{4, 7} // corners 0 to 3 and 4 to 6
	want := [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {4, 5}, {5, 6}, {6, 4}}
	for a := range 7 {
		for b := range 7 {
			if got := o.has(a, b); got != slices.Contains(want, [2]int{a, b}) {
				t.Errorf("an edge from %d to %d: %v", a, b, got)
			}
		}
	}
}

func TestLongestEdgeByHand(t *testing.T) {
	for name, c := range map[string]struct {
		ring plan.Ring
		want plan.Point
	}{
		"3, 4, 5":       {plan.Ring{{0, 0}, {4, 0}, {4, 3}}, plan.Point{-0.8, -0.6}},
		"the last one":  {plan.Ring{{0, 0}, {0, 1}, {1, 10}}, plan.Point{-1, -10}.Normalize()},
		"two as long":   {plan.Ring{{0, 0}, {4, 0}, {4, 4}}, plan.Point{-1, -1}.Normalize()},
		"first of two":  {plan.Ring{{0, 0}, {5, 0}, {5, 2}, {0, 2}}, plan.Point{1, 0}},
		"of no length":  {plan.Ring{{3, 3}, {3, 3}, {3, 3}}, plan.Point{1, 0}},
		"of no corners": {nil, plan.Point{1, 0}},
	} {
		if got := longestEdge(c.ring); got.Sub(c.want).Len() > 1e-12 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	if got := turned(plan.Point{0.6, 0.8}, math.Pi/2); got.Sub(plan.Point{-0.8, 0.6}).Len() > 1e-12 {
		t.Errorf("a quarter turn: %v", got)
	}
	if got := turned(plan.Point{1, 0}, math.Pi/6); got.Sub(plan.Point{math.Sqrt(3) / 2, 0.5}).Len() > 1e-12 {
		t.Errorf("30°: %v", got)
	}
}

// A square of 100 with its middle as a fifth corner: what is no cover of it.
func TestWhatIsNoCover(t *testing.T) {
	points := []plan.Point{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	both := [][3]int{{0, 1, 2}, {0, 2, 3}}
	for name, c := range map[string]struct {
		triangles [][3]int
		area      float64
		sound     bool
	}{
		"both halves":      {both, 10000, true},
		"one half":         {both[:1], 5000, false},
		"one half twice":   {[][3]int{{0, 1, 2}, {0, 1, 2}}, 10000, false},
		"halves that lap":  {[][3]int{{0, 1, 2}, {1, 2, 3}}, 10000, false},
		"one turned":       {[][3]int{{0, 1, 2}, {0, 3, 2}}, 0, false},
		"nothing":          {nil, 0, false},
		"area just within": {both, 10000 + 0.0109, true},
		"area too large":   {both, 10000 + 0.0112, false},
		"area too small":   {both, 10000 - 0.0112, false},
		"area no number":   {both, math.NaN(), false},
	} {
		m := planMesh{points, c.triangles}
		if err := m.covers(outline{4}, c.area); (err == nil) != c.sound {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A triangle's long edge from (0, 0) to (100, 0) with corners on it: by hand,
// those up to a millionth of a millimetre beside it count, ends do not.
func TestPointsOnAnEdge(t *testing.T) {
	m := planMesh{points: []plan.Point{{0, 0}, {100, 0}, {70, 0.98e-6}, {30, -0.98e-6}, {50, 1.02e-6}, {40, -1.02e-6}, {0, 0}, {100, 0}, {-5, 0}, {105, 0}, {0.5e-7, 0}, {1.05e-7, 0}, {100 - 1.05e-7, 0}}}
	if got := m.pointsOn(0, 1); !slices.Equal(got, []int{11, 3, 2, 12}) {
		t.Errorf("from left to right %v", got)
	}
	if got := m.pointsOn(1, 0); !slices.Equal(got, []int{12, 2, 3, 11}) {
		t.Errorf("from right to left %v", got)
	}
}

// A triangle over a square of one corner more, on its lower edge, is split
// there; a second pass has nothing left to do.
func TestMendByHand(t *testing.T) {
	m := planMesh{points: []plan.Point{{0, 0}, {30, 0}, {60, 0}, {100, 0}, {100, 100}, {0, 100}}, triangles: [][3]int{{0, 3, 4}, {0, 4, 5}}}
	o := outline{6}
	if m.covers(o, 10000) == nil {
		t.Error("with corners left out it is a cover")
	}
	m.mend(o)
	if err := m.covers(o, 10000); err != nil || len(m.triangles) != 4 {
		t.Errorf("mended: %v, %v", m.triangles, err)
	}
	mended := slices.Clone(m.triangles)
	if m.mend(o); !slices.Equal(mended, m.triangles) {
		t.Errorf("mended again: %v", m.triangles)
	}
}

// A triangle with a corner left out on two of its sides, and two on the third.
func TestMendOnAllSides(t *testing.T) {
	m := planMesh{points: []plan.Point{{0, 0}, {50, 0}, {100, 0}, {100, 50}, {100, 100}, {75, 75}, {25, 25}}, triangles: [][3]int{{0, 2, 4}}}
	o := outline{7}
	m.mend(o)
	if err := m.covers(o, 5000); err != nil || len(m.triangles) != 5 {
		t.Errorf("mended: %v, %v", m.triangles, err)
	}
}

func TestEdgeTable(t *testing.T) {
	m := planMesh{points: make([]plan.Point, 4), triangles: [][3]int{{0, 1, 2}, {2, 3, 0}, {0, 1, 3}}}
	e := m.edges()
	for edge, want := range map[[2]int]int{{0, 1}: 2, {1, 0}: 0, {1, 2}: 1, {2, 0}: 1, {2, 3}: 1, {3, 0}: 2, {0, 3}: 0, {1, 3}: 1, {3, 1}: 0} {
		if got := e.count(edge[0], edge[1]); got != want {
			t.Errorf("from %d to %d %d times, want %d", edge[0], edge[1], got, want)
		}
	}
}

// Splitting a cover along a line leaves a cover, no triangle of which crosses
// the line; corners up to a millionth of a millimetre off it are on it.
func TestSplitByHand(t *testing.T) {
	square := func() planMesh {
		return planMesh{[]plan.Point{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, [][3]int{{0, 1, 2}, {0, 2, 3}}}
	}
	for name, c := range map[string]struct {
		line   Plane
		count  int
		points int
		above  float64
	}{
		"none":                 {Plane{Level: 5}, 2, 4, 10000},
		"beside":               {Plane{-200, 1, 0}, 2, 4, 0},
		"along a side":         {Plane{0, 1, 0}, 2, 4, 10000},
		"along the diagonal":   {Plane{0, 1, -1}, 2, 4, 5000},
		"the other diagonal":   {Plane{-100, 1, 1}, 4, 5, 5000},
		"across":               {Plane{-30, 1, 0}, 6, 7, 7000},
		"across, the other":    {Plane{30, -1, 0}, 6, 7, 3000},
		"upward":               {Plane{-60, 0, 2}, 6, 7, 7000},
		"through one corner":   {Plane{0, 1, -0.5}, 3, 5, 7500},
		"hardly off a corner":  {Plane{0.98e-6, 1, -1}, 2, 4, 5000},
		"off a corner":         {Plane{1.6e-6, 1, -1}, 4, 6, 5000},
		"of hardly any fall":   {Plane{-30e-13, 1e-13, 0}, 2, 4, 10000},
		"of little fall":       {Plane{-30e-11, 1e-11, 0}, 6, 7, 7000},
		"a corner cut off":     {Plane{-190, 1, 1}, 6, 7, 50},
		"the other cut off":    {Plane{10, -1, -1}, 6, 7, 50},
		"the corner beside it": {Plane{-90, 1, -1}, 4, 6, 50},
	} {
		m := square()
		m.splitAlong(c.line)
		above, all := 0.0, 0.0
		for _, tri := range m.triangles {
			area := plan.Cross(m.points[tri[1]].Sub(m.points[tri[0]]), m.points[tri[2]].Sub(m.points[tri[0]])) / 2
			all += area
			if area < 0 {
				t.Errorf("%s: a triangle walked clockwise", name)
			}
			most, least := math.Inf(-1), math.Inf(1)
			for _, v := range tri {
				d := c.line.At(m.points[v])
				most, least = math.Max(most, d), math.Min(least, d)
			}
			if g := c.line.Gradient(); g > 1e-12 && most > 1.01e-6*g && least < -1.01e-6*g {
				t.Errorf("%s: a triangle from %v to %v", name, least, most)
			}
			if most+least > 0 {
				above += area
			}
		}
		if len(m.triangles) != c.count || len(m.points) != c.points || math.Abs(above-c.above) > 1e-3 {
			t.Errorf("%s: %d triangles, %d corners, %v above; want %d, %d, %v", name, len(m.triangles), len(m.points), above, c.count, c.points, c.above)
		}
		// Every edge within is walked once each way.
		edges, borders := m.edges(), 0
		for _, tri := range m.triangles {
			for e := range 3 {
				a, b := tri[e], tri[(e+1)%3]
				if edges.count(a, b) != 1 || edges.count(b, a) > 1 {
					t.Errorf("%s: the edge from %d to %d is walked twice", name, a, b)
				}
				if edges.count(b, a) == 0 {
					borders++
				}
			}
		}
		if math.Abs(all-10000) > 1e-6 || 3*len(m.triangles) != 2*(len(m.points)+len(m.triangles)-1)-borders {
			t.Errorf("%s: %v mm² in all, %d edges round it", name, all, borders)
		}
	}
}

// The ear clipper's triangles are turned counter-clockwise; those of nothing
// are left out.
func TestEarsAreClipped(t *testing.T) {
	m := planMesh{points: []plan.Point{{1000, 500}, {1100, 500}, {1100, 600}, {1050, 600}, {1000, 600}}}
	for _, along := range []plan.Point{{1, 0}, {0.6, 0.8}, {-1, 0}} {
		if err := m.clipEars(nil, along); err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, tri := range m.triangles {
			area := plan.Cross(m.points[tri[1]].Sub(m.points[tri[0]]), m.points[tri[2]].Sub(m.points[tri[0]])) / 2
			if !(area > 0) {
				t.Errorf("a triangle of %v", area)
			}
			sum += area
		}
		if math.Abs(sum-10000) > 1e-6 {
			t.Errorf("seen along %v: triangles of %v", along, sum)
		}
	}
	holed := planMesh{points: []plan.Point{{0, 0}, {100, 0}, {100, 100}, {0, 100}, {10, 10}, {10, 60}, {60, 10}}}
	if err := holed.clipEars([]int{4}, plan.Point{1, 0}); err != nil || holed.covers(outline{4, 7}, 10000-1250) != nil {
		t.Errorf("with a hole: %v, %v", err, holed.covers(outline{4, 7}, 10000-1250))
	}
}

// A triangle is covered by itself, by hand and where its corners hardly stand out, which
// the ear clipper has to see to.
func TestTrianglesAreCovered(t *testing.T) {
	for _, highMM := range []float64{100, 0.5e-3} {
		m, err := triangulate(plan.Polygon{Outer: plan.Ring{{0, 0}, {100, 0}, {30, highMM}}})
		if err != nil || len(m.triangles) != 1 {
			t.Fatalf("%v high: %v, %v", highMM, m.triangles, err)
		}
		got := m.triangles[0]
		if first := slices.Index(got[:], 0); first < 0 || got[(first+1)%3] != 1 || got[(first+2)%3] != 2 {
			t.Errorf("%v high: %v", highMM, got)
		}
	}
}

// A hole that touches the outer ring or another hole in one place is covered, and the body
// over it closed: a plate of 100 by 100 by hand, less the triangles cut into it.
func TestHolesThatTouch(t *testing.T) {
	square := plan.Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	// Of 20 wide and 20 high, 200 mm², clockwise, with its tip at a place.
	tip := func(x, y float64) plan.Ring { return plan.Ring{{x, y}, {x + 20, y + 10}, {x + 20, y - 10}} }
	for name, c := range map[string]struct {
		outer plan.Ring
		holes []plan.Ring
		want  float64
	}{
		"clear of it":                  {square, []plan.Ring{tip(10, 50)}, 9800},
		"its edge":                     {square, []plan.Ring{tip(0, 50)}, 9800},
		"its edge, near enough":        {square, []plan.Ring{tip(1e-8, 50)}, 9800},
		"a corner there":               {plan.Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 50}}, []plan.Ring{tip(0, 50)}, 9800},
		"a corner on the hole's edge":  {plan.Ring{{0, 0}, {100, 0}, {100, 100}, {50, 40}, {0, 100}}, []plan.Ring{{{40, 40}, {60, 40}, {50, 20}}}, 6800},
		"each other":                   {square, []plan.Ring{tip(20, 50), tip(40, 50)}, 9600},
		"each other and the edge":      {square, []plan.Ring{tip(20, 50), tip(0, 50), tip(40, 50)}, 9400},
		"the edge and clear ones more": {square, []plan.Ring{tip(60, 30), tip(0, 50), tip(60, 80)}, 9400},
	} {
		region := plan.Region{{Outer: c.outer, Holes: c.holes}}
		var sh plan.Shaper
		s := Cover(&sh, region, message.Of("shape.shower"))
		if sh.Err() != nil {
			t.Errorf("%s: %v", name, sh.Err())
			continue
		}
		m := Block(s, 0, 5).Mesh()
		if err := m.CheckClosed(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if got := m.Volume(); math.Abs(got-5*c.want) > 1e-3 {
			t.Errorf("%s: %v mm³, want %v", name, got, 5*c.want)
		}
	}
}

// Corners a hair apart count as one: a strip 5 thousandths wide whose end was cut twice in one
// place is covered all the same.
func TestCornersAHairApart(t *testing.T) {
	region := plan.FromRing(plan.Ring{
		{1300, 1099.995}, {1300, 1100}, {893.184, 1100}, {893.184, 1099.9951450121146}, {1299.9999998389187, 1099.995}})
	var sh plan.Shaper
	s := Cover(&sh, region, message.Of("shape.shower"))
	if sh.Err() != nil {
		t.Fatal(sh.Err())
	}
	m := Block(s, 0, 5).Mesh()
	// A strip 406.816 long, 0.005 wide at one end and 0.004855 at the other.
	if err := m.CheckClosed(); err != nil || math.Abs(m.Volume()-(0.005+0.0048549878854)/2*406.816*5) > 1e-5 {
		t.Errorf("%v, %v mm³", err, m.Volume())
	}
}
