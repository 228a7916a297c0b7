package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
)

func near(a, b Point) bool { return a.Sub(b).Len() < 1e-9 }

// The frame of a region runs along most of its edges by length; those square to
// them count as well, and among those that agree the longest is taken.
func TestMainFrameByHand(t *testing.T) {
	turned := func(r Ring) Ring {
		out := make(Ring, len(r))
		for i, p := range r {
			out[i] = turnedFrame{Point{10, 20}, Point{0.8, 0.6}, Point{-0.6, 0.8}}.out(p)
		}
		return out
	}
	for name, c := range map[string]struct {
		region      Region
		from, along Point
	}{
		"none":      {nil, Point{}, Point{1, 0}},
		"a point":   {Region{{Outer: Ring{{5, 5}, {5, 5}}}}, Point{}, Point{1, 0}},
		"rectangle": {Region{{Outer: Ring{{5, 5}, {105, 5}, {105, 45}, {5, 45}}}}, Point{5, 5}, Point{1, 0}},
		"upright":   {Region{{Outer: Ring{{5, 5}, {45, 5}, {45, 105}, {5, 105}}}}, Point{45, 5}, Point{0, 1}},
		// Two sides of 100, square, and a slanted one of 141.4 alone.
		"half a square": {Region{{Outer: Ring{{0, 0}, {100, 0}, {0, 100}}}}, Point{0, 0}, Point{1, 0}},
		// Of 30, 40 and 50 the first two make 70.
		"3, 4, 5": {Region{{Outer: Ring{{40, 30}, {0, 0}, {40, 0}}}}, Point{0, 0}, Point{1, 0}},
		"askew":   {Region{{Outer: turned(Ring{{0, 0}, {100, 0}, {100, 40}, {0, 40}})}}, Point{10, 20}, Point{0.8, 0.6}},
		"two":     {Region{{Outer: Ring{{0, 0}, {10, 0}, {0, 10}}}, {Outer: turned(Ring{{0, 0}, {100, 0}, {100, 40}, {0, 40}})}}, Point{10, 20}, Point{0.8, 0.6}},
	} {
		f := mainFrame(c.region)
		if !near(f.from, c.from) || !near(f.u, c.along) || !near(f.v, Left(c.along)) {
			t.Errorf("%s: %+v, want from %v along %v", name, f, c.from, c.along)
		}
		p := Point{7, -3}
		if !near(f.out(f.in(p)), p) {
			t.Errorf("%s: %v comes back as %v", name, p, f.out(f.in(p)))
		}
	}
	f := turnedFrame{Point{10, 20}, Point{0.8, 0.6}, Point{-0.6, 0.8}}
	if got := f.in(Point{18, 26}); !near(got, Point{10, 0}) {
		t.Errorf("10 along it: %v", got)
	}
	if got := f.out(Point{0, 10}); !near(got, Point{4, 28}) {
		t.Errorf("10 to its left: %v", got)
	}
}

// In a frame with a grid corners lie on the grid, rings that have become less
// than a triangle go, and an outer one takes its holes along.
func TestIntoAFrame(t *testing.T) {
	f := turnedFrame{Point{10, 20}, Point{0, 1}, Point{-1, 0}}
	r := Region{
		{Outer: Ring{{10, 20}, {10, 30.04}, {0, 30}, {0, 20}}, Holes: []Ring{{{9, 21}, {8, 21}, {8, 22}}, {{5, 25}, {5.01, 25}, {5, 25.01}}}},
		{Outer: Ring{{50, 50}, {50.01, 50}, {50, 50.02}}, Holes: []Ring{{{9, 21}, {8, 21}, {8, 22}}}},
	}
	got := r.into(f, 0.1)
	if len(got) != 1 || len(got[0].Holes) != 1 || len(got[0].Outer) != 4 {
		t.Fatalf("%v", got)
	}
	for i, want := range (Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}}) {
		if !near(got[0].Outer[i], want) {
			t.Errorf("corner %d is %v, want %v", i, got[0].Outer[i], want)
		}
	}
	free := r.into(f, 0)
	if len(free) != 2 || len(free[0].Holes) != 2 || !near(free[0].Outer[1], Point{10.04, 0}) {
		t.Errorf("without a grid: %v", free)
	}
	free.outOf(f)
	for n := range r {
		for k := range r[n].rings() {
			for i, p := range r[n].ring(k) {
				if !near(free[n].ring(k)[i], p) {
					t.Errorf("corner %d of ring %d of %d comes back as %v, was %v", i, k, n, free[n].ring(k)[i], p)
				}
			}
		}
	}
	// Corners in line stay where there is no grid.
	if in := (Region{{Outer: Ring{{0, 0}, {50, 0}, {100, 0}, {100, 100}}}}).into(f, 0); len(in[0].Outer) != 4 {
		t.Errorf("a corner in line without a grid: %v", in)
	}
	if math.Signbit(onGrid(-0.00001, 0.1)) || math.Abs(onGrid(0.26, 0.1)-0.3) > 1e-12 || math.Abs(onGrid(-0.26, 0.1)+0.3) > 1e-12 {
		t.Errorf("on a grid of 0.1: %v, %v, %v", onGrid(-0.00001, 0.1), onGrid(0.26, 0.1), onGrid(-0.26, 0.1))
	}
}

// From the library come outer rings counter-clockwise and holes clockwise,
// whichever way they were walked; polygons and holes under 10⁻⁴ mm² are none.
func TestFromTheLibrary(t *testing.T) {
	square := func(side float64) Ring { return Ring{{0, 0}, {side, 0}, {side, side}, {0, side}} }
	polygon := func(rings ...Ring) geom.Polygon {
		lines := make([]geom.LineString, 0, len(rings))
		for _, r := range rings {
			lines = append(lines, lineString(append(slices.Clone(r), r[0])))
		}
		return geom.NewPolygon(lines)
	}
	moved := func(r Ring, by float64) Ring {
		out := slices.Clone(r)
		for i := range out {
			out[i] = out[i].Add(Point{by, by})
		}
		return out
	}
	// 0.00995² is 9.9·10⁻⁵ and 0.01005² 1.01·10⁻⁴.
	for name, c := range map[string]struct {
		g               geom.Geometry
		polygons, holes int
		area            float64
	}{
		"counter-clockwise":   {polygon(square(10)).AsGeometry(), 1, 0, 100},
		"clockwise":           {polygon(square(10).Reversed()).AsGeometry(), 1, 0, 100},
		"with a hole":         {polygon(square(10), moved(square(5), 1).Reversed()).AsGeometry(), 1, 1, 75},
		"with a hole, turned": {polygon(square(10).Reversed(), moved(square(5), 1)).AsGeometry(), 1, 1, 75},
		"a sliver of a hole":  {polygon(square(10), moved(square(0.00995), 1)).AsGeometry(), 1, 0, 100},
		"a little hole":       {polygon(square(10), moved(square(0.01005), 1)).AsGeometry(), 1, 1, 100 - 0.01005*0.01005},
		"just no sliver":      {polygon(square(0.01).Reversed()).AsGeometry(), 1, 0, 1e-4},
		"just a hole":         {polygon(moved(square(10), -5), square(0.01)).AsGeometry(), 1, 1, 100 - 1e-4},
		"a sliver":            {polygon(square(0.00995).Reversed()).AsGeometry(), 0, 0, 0},
		"a little one":        {polygon(square(0.01005).Reversed()).AsGeometry(), 1, 0, 0.01005 * 0.01005},
		"a line":              {lineString(Ring{{0, 0}, {10, 0}}).AsGeometry(), 0, 0, 0},
		"no polygon":          {geom.Polygon{}.AsGeometry(), 0, 0, 0},
		"two":                 {geom.NewMultiPolygon([]geom.Polygon{polygon(square(10)), polygon(moved(square(10), 20))}).AsGeometry(), 2, 0, 200},
		"some of a collection": {geom.NewGeometryCollection([]geom.Geometry{lineString(Ring{{0, 0}, {10, 0}}).AsGeometry(), polygon(square(10)).AsGeometry(),
			polygon(moved(square(10), 20)).AsGeometry()}).AsGeometry(), 2, 0, 200},
	} {
		got := fromGeometry(c.g)
		holes := 0
		for _, p := range got {
			holes += len(p.Holes)
			if p.Outer.SignedArea() <= 0 || slices.ContainsFunc(p.Holes, func(h Ring) bool { return h.SignedArea() >= 0 }) {
				t.Errorf("%s: the wrong way round: %v", name, p)
			}
		}
		if len(got) != c.polygons || holes != c.holes || math.Abs(got.Area()-c.area) > 1e-9 {
			t.Errorf("%s: %d polygons with %d holes and %v mm², want %d, %d, %v", name, len(got), holes, got.Area(), c.polygons, c.holes, c.area)
		}
	}
}

// The library's operations are those meant.
func TestOperationsOfTheLibrary(t *testing.T) {
	a, b := Rectangle(Point{0, 0}, Point{100, 100}), Rectangle(Point{70, 60}, Point{170, 160})
	for op, want := range map[operation]float64{union: 18800, difference: 8800, intersection: 1200} {
		g, err := op.inLibrary()(a.geometry(), b.geometry())
		if err != nil || math.Abs(g.Area()-want) > 1e-9 {
			t.Errorf("operation %d: %v, %v; want %v", op, g.Area(), err, want)
		}
	}
}

func TestStraightened(t *testing.T) {
	square := Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	for name, c := range map[string]struct {
		in   Ring
		want int
	}{
		"square":                {square, 4},
		"corner in line":        {Ring{{0, 0}, {50, 0}, {100, 0}, {100, 100}, {0, 100}}, 4},
		"first in line":         {Ring{{50, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}, 4},
		"last in line":          {Ring{{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 50}}, 4},
		"two in line":           {Ring{{0, 0}, {30, 0}, {60, 0}, {100, 0}, {100, 100}, {0, 100}}, 4},
		"corner twice":          {Ring{{0, 0}, {100, 0}, {100, 0}, {100, 100}, {0, 100}}, 4},
		"closed":                {append(slices.Clone(square), square[0]), 4},
		"a hair twice":          {Ring{{0, 0}, {100, 0}, {100, 0.98e-7}, {100, 100}, {0, 100}}, 4},
		"hardly off the line":   {Ring{{0, 0}, {50, -0.98e-7}, {100, 0}, {100, 100}, {0, 100}}, 4},
		"off the line":          {Ring{{0, 0}, {50, -1.02e-7}, {100, 0}, {100, 100}, {0, 100}}, 5},
		"a step of the grid's":  {Ring{{1e-7, 0}, {100, 0}, {100, 100}, {0, 100}, {0, 50}, {1e-7, 50}}, 6},
		"spike":                 {Ring{{0, 0}, {100, 0}, {200, 0}, {100, 0}, {100, 100}, {0, 100}}, 4},
		"all in line":           {Ring{{0, 0}, {50, 0}, {100, 0}}, 2},
		"all in line, and more": {Ring{{0, 0}, {50, 0}, {100, 0}, {20, 0}}, 2},
		"two corners":           {Ring{{0, 0}, {50, 0}}, 2},
	} {
		in := slices.Clone(c.in)
		got := in.WithoutCollinear()
		if len(got) > c.want || c.want >= 3 && len(got) < c.want {
			t.Errorf("%s: %v, want %d corners", name, got, c.want)
		}
		if !slices.Equal(in, c.in) {
			t.Errorf("%s: the ring itself has changed to %v", name, in)
		}
		if r := FromRing(c.in); len(r) != min(1, max(0, c.want-2)) || len(r) == 1 && math.Abs(r.Area()-10000) > 1e-4 {
			t.Errorf("%s: the region inside is %v", name, r)
		}
	}
}
