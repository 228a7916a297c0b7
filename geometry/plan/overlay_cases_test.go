package plan

import (
	"math"
	"slices"
	"testing"
)

// frame is a square with a square hole, both with the same middle.
func frame(middle, outer, hole float64) Region {
	out := Rectangle(Point{middle - outer, middle - outer}, Point{middle + outer, middle + outer})
	out[0].Holes = []Ring{Rectangle(Point{middle - hole, middle - hole}, Point{middle + hole, middle + hole})[0].Outer.Reversed()}
	return out
}

// unsure stands for an outcome that the overlay must leave to the library.
const unsure = -1

// overlayCase is two regions, what they have together, what the first has
// alone and what they share, in mm² worked by hand.
type overlayCase struct {
	a, b                         Region
	union, difference, intersect float64
}

func overlayCases() map[string]overlayCase {
	square := func(x0, y0, x1, y1 float64) Region { return Rectangle(Point{x0, y0}, Point{x1, y1}) }
	whole := square(0, 0, 100, 100)
	both := func(a, b Region) Region { return append(slices.Clone(a), b...) }
	triangle := func(a, b, c Point) Region { return Region{{Outer: Ring{a, b, c}}} }
	u := Region{{Outer: Ring{{0, 0}, {100, 0}, {100, 100}, {60, 100}, {60, 40}, {40, 40}, {40, 100}, {0, 100}}}}
	// A notch with a slanted side over it, turned by 45° so that the bounds of its
	// edges meet; by its corners 36 250 mm² and twice that as turned here.
	notched := Region{{Outer: Ring{{0, 0}, {200, 200}, {100, 300}, {0, 200}, {-20, 220}, {10, 270}, {-70, 370}, {-220, 220}}}}
	return map[string]overlayCase{
		"corners in line":      {Region{{Outer: Ring{{0, 0}, {50, 0}, {100, 0}, {100, 30}, {100, 100}, {0, 100}}}}, square(50, 50, 150, 150), 17500, 7500, 2500},
		"in line askew":        {Region{{Outer: Ring{{0, 0}, {30, 30}, {100, 100}, {50, 150}, {0, 200}, {-100, 100}}}}, square(-300, 0, -200, 10), 21000, 20000, 0},
		"back askew":           {Region{{Outer: Ring{{0, 0}, {100, 100}, {30, 30}, {-50, 100}}}}, whole, unsure, unsure, unsure},
		"back askew, falling":  {Region{{Outer: Ring{{0, 0}, {100, -100}, {30, -30}, {50, 100}}}}, whole, unsure, unsure, unsure},
		"a notch askew":        {notched, square(300, 0, 310, 10), 72600, 72500, 0},
		"into a notch askew":   {notched, Region{{Outer: Ring{{0, 200}, {20, 220}, {0, 240}, {-20, 220}}}}, 72500 + 800, 72500, 0},
		"overlap":              {whole, square(70, 60, 170, 160), 18800, 8800, 1200},
		"the same":             {whole, whole, 10000, 0, 10000},
		"side by side":         {whole, square(100, 0, 200, 100), 20000, 10000, 0},
		"half a side":          {whole, square(100, 50, 200, 150), 20000, 10000, 0},
		"part of a side":       {whole, square(100, 20, 200, 60), 14000, 10000, 0},
		"apart":                {whole, square(300, 0, 400, 100), 20000, 10000, 0},
		"above":                {whole, square(0, 300, 100, 400), 20000, 10000, 0},
		"in it":                {whole, square(20, 30, 50, 40), 10000, 9700, 300},
		"little, in it":        {whole, square(20, 30, 20.5, 31), 10000, 9999.5, 0.5},
		"round it":             {square(20, 30, 50, 40), whole, 10000, 0, 300},
		"in it, at its side":   {whole, square(0, 30, 50, 40), 10000, 9500, 500},
		"in it, in its corner": {whole, square(0, 0, 50, 40), 10000, 8000, 2000},
		"half of it":           {whole, square(0, 0, 50, 100), 10000, 5000, 5000},
		"across":               {whole, square(40, -50, 60, 150), 12000, 8000, 2000},
		"across, from below":   {whole, square(40, -50, 60, 50), 11000, 9000, 1000},
		// |x − 50| + |y − 50| < 70: 9800 less four corners outside of 20 · 20.
		"diamond": {whole, Region{{Outer: Ring{{50, -20}, {120, 50}, {50, 120}, {-20, 50}}}}, 11600, 1800, 8200},
		// A triangle half in it, from the diagonal on; one with a corner on a side;
		// one with a corner in a corner.
		"half a triangle":     {whole, triangle(Point{0, 0}, Point{200, 0}, Point{0, 200}), 20000, 0, 10000},
		"along the diagonal":  {whole, triangle(Point{0, 0}, Point{100, 0}, Point{100, 100}), 10000, 5000, 5000},
		"corner on a side":    {whole, triangle(Point{50, 100}, Point{100, 200}, Point{0, 200}), unsure, 10000, 0},
		"corner from within":  {whole, triangle(Point{50, 100}, Point{20, 40}, Point{80, 40}), 10000, unsure, 1800},
		"corner in a corner":  {whole, square(100, 100, 200, 200), unsure, 10000, 0},
		"in the hole":         {frame(50, 50, 30), square(30, 30, 70, 70), 8000, 6400, 0},
		"the hole":            {frame(50, 50, 30), square(20, 20, 80, 80), 10000, 6400, 0},
		"over the hole":       {frame(50, 50, 30), square(10, 10, 90, 90), 10000, 3600, 2800},
		"across a frame":      {frame(50, 50, 30), square(-50, 40, 150, 60), 9600, 5600, 800},
		"a frame over it":     {whole, frame(100, 50, 30), 14800, 8400, 1600},
		"two frames":          {frame(50, 50, 30), frame(50, 40, 20), 8400, 3600, 2800},
		"a frame in a frame":  {frame(50, 50, 30), frame(50, 20, 10), unsure, 6400, 0},
		"a U and its lid":     {u, square(0, 100, 100, 120), 10800, 8800, 0},
		"a U and its filling": {u, square(40, 40, 60, 100), 10000, 8800, 0},
		"two and a bridge":    {both(whole, square(200, 0, 300, 100)), square(50, 40, 250, 60), 22000, 18000, 2000},
		"two and one of them": {both(whole, square(200, 0, 300, 100)), square(200, 0, 300, 100), 20000, 10000, 10000},
		// Where an edge meets the other region in two places more than ten steps apart
		// it is sure which comes first, and not nearer.
		"eleven steps": {whole, square(50, 50, 150, 50.0011), 10000.055, 9999.945, 0.055},
		"ten beside":   {whole, square(100, 20, 200, 20.001), 10000.1, 10000, 0},
		"nine beside":  {whole, square(100, 20, 200, 20.0009), unsure, unsure, unsure},
		"nine steps":   {whole, square(50, 50, 150, 50.0009), unsure, unsure, unsure},
		// What is smaller than 10⁻⁴ mm² is rounding: 0.0011 · 0.08 and · 0.1.
		"hardly anything": {whole, square(99.92, 50, 150, 50.0011), 10000 + 50*0.0011, 10000 - 8.8e-5, 0},
		"next to nothing": {whole, square(99.9, 50, 150, 50.0011), 10000 + 50*0.0011, 10000 - 1.1e-4, 1.1e-4},
		// Rings that mean nothing, or touch.
		"clockwise":               {whole, Region{{Outer: whole[0].Outer.Reversed()}}, unsure, unsure, unsure},
		"a hole walked like it":   {Region{{Outer: whole[0].Outer, Holes: []Ring{square(20, 20, 40, 40)[0].Outer}}}, whole, unsure, unsure, unsure},
		"a little one like it":    {Region{{Outer: whole[0].Outer, Holes: []Ring{square(20, 20, 20.5, 21)[0].Outer}}}, whole, unsure, unsure, unsure},
		"two corners":             {whole, Region{{Outer: Ring{{0, 0}, {50, 50}}}}, unsure, unsure, unsure},
		"a corner twice":          {Region{{Outer: Ring{{0, 0}, {100, 0}, {100, 0}, {100, 100}, {0, 100}}}}, square(300, 0, 400, 50), unsure, unsure, unsure},
		"bow tie":                 {Region{{Outer: Ring{{0, 0}, {100, 100}, {100, 0}, {0, 110}}}}, whole, unsure, unsure, unsure},
		"folded back":             {Region{{Outer: Ring{{0, 0}, {100, 0}, {50, 0}, {50, 50}}}}, whole, unsure, unsure, unsure},
		"corner on its own side":  {Region{{Outer: Ring{{0, 0}, {100, 0}, {100, 100}, {50, 0}, {0, 100}}}}, whole, unsure, unsure, unsure},
		"two that touch":          {both(whole, square(100, 0, 200, 100)), square(300, 0, 400, 50), unsure, unsure, unsure},
		"two corner to corner":    {both(whole, square(100, 100, 200, 200)), square(300, 0, 400, 50), unsure, unsure, unsure},
		"two in each other":       {both(whole, square(20, 20, 50, 50)), square(300, 0, 400, 50), unsure, unsure, unsure},
		"an island in a hole":     {both(frame(50, 50, 30), square(30, 30, 70, 70)), square(300, 0, 400, 50), unsure, unsure, unsure},
		"a hole in another's":     {Region{{Outer: whole[0].Outer, Holes: []Ring{square(320, 20, 340, 40)[0].Outer.Reversed()}}, square(300, 0, 400, 100)[0]}, whole, unsure, unsure, unsure},
		"a hole outside":          {Region{{Outer: whole[0].Outer, Holes: []Ring{square(320, 20, 340, 40)[0].Outer.Reversed()}}}, whole, unsure, unsure, unsure},
		"a hole in a hole":        {Region{{Outer: whole[0].Outer, Holes: []Ring{square(20, 20, 80, 80)[0].Outer.Reversed(), square(30, 30, 40, 40)[0].Outer.Reversed()}}}, whole, unsure, unsure, unsure},
		"a hole at the edge":      {Region{{Outer: whole[0].Outer, Holes: []Ring{square(0, 20, 80, 80)[0].Outer.Reversed()}}}, whole, unsure, unsure, unsure},
		"as far as can be":        {square(53687, 0, 53687.0911, 1), square(-53687.0911, 0, -53687, 1), 2 * 0.0911, 0.0911, 0},
		"farther right":           {square(53687, 0, 53687.0912, 1), whole, unsure, unsure, unsure},
		"farther left":            {square(-53687.0912, 0, -53687, 1), whole, unsure, unsure, unsure},
		"farther up":              {square(0, 53687, 1, 53687.0912), whole, unsure, unsure, unsure},
		"corner at a crossing":    {square(0, 0, 100, 100), triangle(Point{100, 50}, Point{150, 0}, Point{150, 100}), unsure, 10000, 0},
		"two corners on one side": {whole, Region{{Outer: Ring{{100, 20}, {130, 10}, {130, 90}, {100, 80}, {110, 50}}}}, unsure, 10000, 0},
	}
}

// mirrored walks a region in a mirror, its rings still the right way round.
func mirrored(r Region, at func(Point) Point) Region {
	return r.eachRing(func(in Ring) Ring {
		out := make(Ring, len(in))
		for i, p := range in {
			out[len(in)-1-i] = at(p)
		}
		return out
	})
}

// begun begins every ring of a region at another corner.
func begun(r Region, by int) Region {
	return r.eachRing(func(in Ring) Ring {
		k := by % len(in)
		return append(slices.Clone(in[k:]), in[:k]...)
	})
}

// Areas by hand of every operation; and the same for the regions mirrored, turned
// and with their rings begun elsewhere. What is not sure is left to the library
// each time.
func TestOverlayByHand(t *testing.T) {
	var o overlay
	ways := map[string]func(Region) Region{
		"as it is":   func(r Region) Region { return r },
		"from right": func(r Region) Region { return mirrored(r, func(p Point) Point { return Point{-p.X(), p.Y()} }) },
		"from above": func(r Region) Region { return mirrored(r, func(p Point) Point { return Point{p.X(), -p.Y()} }) },
		"diagonal":   func(r Region) Region { return mirrored(r, func(p Point) Point { return Point{p.Y(), p.X()} }) },
		"begun at 1": func(r Region) Region { return begun(r, 1) },
		"begun at 2": func(r Region) Region { return begun(r, 2) },
	}
	for name, c := range overlayCases() {
		for how, way := range ways {
			for op, want := range map[operation]float64{union: c.union, difference: c.difference, intersection: c.intersect} {
				a, b := way(c.a), way(c.b)
				if len(b) != len(c.b) {
					continue // rings too short to be begun elsewhere
				}
				out, ok := o.combine(a, b, gridMM, op)
				// What two have together and what they share is so either way round.
				if back, sure := o.combine(b, a, gridMM, op); op != difference && (sure != ok || math.Abs(back.Area()-out.Area()) > 2e-6) {
					t.Errorf("%s, %s, operation %d: sure %v, %v; the other way round %v, %v", name, how, op, ok, out.Area(), sure, back.Area())
				}
				switch {
				case ok != (want != unsure):
					t.Errorf("%s, %s, operation %d: sure %v, want %v", name, how, op, ok, want)
				case ok && math.Abs(out.Area()-want) > 2e-6:
					t.Errorf("%s, %s, operation %d: %v, want %v", name, how, op, out.Area(), want)
				}
				for _, p := range out {
					for _, h := range p.Holes {
						if len(h) < 3 || !p.Outer.encloses(h[0]) || h.SignedArea() >= 0 {
							t.Errorf("%s, %s, operation %d: the hole %v is none of %v", name, how, op, h, p.Outer)
						}
					}
					if p.Outer.SignedArea() <= 0 || slices.ContainsFunc(p.Outer, func(q Point) bool { return q != Point{onGrid(q.X(), snapMM), onGrid(q.Y(), snapMM)} }) {
						t.Errorf("%s, %s, operation %d: outer ring %v", name, how, op, p.Outer)
					}
				}
			}
		}
	}
}

// A point is sure to be in a ring, or out of it, when it is more than a
// hundredth of a step off its edges; outside its box it is sure to be out.
func TestWithinIsSure(t *testing.T) {
	var o overlay
	if !o.take(Region{{Outer: Ring{{0, 0}, {100, 0}, {50, 100}, {0, 100}}}}, 0, 1) {
		t.Fatal("not taken")
	}
	for _, c := range []struct {
		p        Point
		in, sure bool
	}{
		{Point{0, 50}, false, false}, {Point{20, 50}, true, true}, {Point{0.0101, 50}, true, true}, {Point{0.01, 50}, false, false}, {Point{0.0099, 50}, false, false},
		{Point{-0.001, 50}, false, true}, {Point{120, 50}, false, true}, {Point{20, -1}, false, true}, {Point{20, 101}, false, true},
		// Past the sloping side, x = 75 at y = 50: 2x + y = 200; within 0.015 of x.
		{Point{75, 50}, false, false}, {Point{75.0145, 50}, false, false}, {Point{75.0155, 50}, false, true}, {Point{74.9845, 50}, true, true}, {Point{74.9855, 50}, false, false},
		{Point{90, 90}, false, true}, {Point{60, 30}, true, true},
	} {
		if in, sure := o.within(c.p, o.rings[0][0]); sure != c.sure || sure && in != c.in {
			t.Errorf("%v: in %v, sure %v; want %v, %v", c.p, in, sure, c.in, c.sure)
		}
	}
}

// Beside a square's sides it is sure outside its box, however near.
func TestWithinASquare(t *testing.T) {
	var o overlay
	if !o.take(Rectangle(Point{0, 0}, Point{100, 100}), 0, 1) {
		t.Fatal("not taken")
	}
	for d, want := range map[float64][2]bool{-0.0101: {true, true}, -0.0099: {false, false}, 0: {false, false}, 0.001: {false, true}, 0.02: {false, true}} {
		for _, p := range []Point{{100 + d, 50}, {-d, 50}} {
			if in, sure := o.within(p, o.rings[0][0]); in && sure != want[0] || sure != want[1] {
				t.Errorf("%v: in %v, sure %v; want %v", p, in, sure, want)
			}
		}
	}
}

func TestEnclosesByHand(t *testing.T) {
	l := Ring{{0, 0}, {200, 0}, {200, 100}, {100, 100}, {100, 200}, {0, 200}}
	slanted := Ring{{0, 0}, {100, 20}, {60, 120}}
	diamond := Ring{{0, 0}, {50, -50}, {100, 0}, {50, 50}}
	for _, c := range []struct {
		ring Ring
		p    Point
		want bool
	}{
		{l, Point{50, 50}, true}, {l, Point{150, 50}, true}, {l, Point{50, 150}, true}, {l, Point{150, 150}, false},
		{l, Point{-1, 50}, false}, {l, Point{201, 50}, false}, {l, Point{50, 201}, false}, {l, Point{50, -1}, false}, {l, Point{50, 100}, true},
		// Level with corners of it.
		{l, Point{-1, 100}, false}, {l, Point{201, 100}, false}, {diamond, Point{50, 0}, true}, {diamond, Point{-10, 0}, false}, {diamond, Point{10, 50}, false}, {diamond, Point{10, -50}, false},
		// Its sides pass (30, 60), (50, 10) and (80, 70).
		{slanted, Point{31, 60}, true}, {slanted, Point{29, 60}, false}, {slanted, Point{50, 11}, true}, {slanted, Point{50, 9}, false},
		{slanted, Point{79, 70}, true}, {slanted, Point{81, 70}, false},
	} {
		if got, back := c.ring.encloses(c.p), c.ring.Reversed().encloses(c.p); got != c.want || back != c.want {
			t.Errorf("%v in %v: %v, walked the other way %v", c.p, c.ring, got, back)
		}
	}
}

// Corners in line: twice a triangle's area, by hand, also of the largest there
// may be, which is exact.
func TestTurnByHand(t *testing.T) {
	const far = mostSteps - 1
	for _, c := range []struct{ ax, ay, bx, by, cx, cy, want int64 }{
		{0, 0, 4, 0, 0, 3, 12}, {0, 0, 0, 3, 4, 0, -12}, {1, 1, 5, 1, 1, 4, 12}, {0, 0, 2, 3, 4, 6, 0}, {7, 5, 3, 2, 1, 9, -34},
		{-far, -far, far, -far, far, far, 4 * far * far}, {-far, -far, far, far, far, far - 1, -2 * far},
	} {
		if got := turn(c.ax, c.ay, c.bx, c.by, c.cx, c.cy); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// Edges a step off each other, the one in line with a place within the other, are
// apart: the other's line passes (½, 0) and (0, 1), and twice the triangle over it
// is 1. Whichever comes first, walked either way, and in a mirror.
func TestEdgesAStepApart(t *testing.T) {
	for _, ex := range []int64{1, -1} {
		for _, ey := range []int64{1, -1} {
			for way := range 8 {
				f := [4]int64{0, 0, ex, 0}
				e := [4]int64{0, ey, -ex, 3 * ey}
				if way&1 != 0 {
					e[0], e[1], e[2], e[3] = e[2], e[3], e[0], e[1]
				}
				if way&2 != 0 {
					f[0], f[1], f[2], f[3] = f[2], f[3], f[0], f[1]
				}
				if way&4 != 0 {
					e, f = f, e
				}
				edge := func(at [4]int64) overlayEdge {
					return overlayEdge{x0: at[0], y0: at[1], x1: at[2], y1: at[3], previous: -1, next: -1}
				}
				o := overlay{edges: []overlayEdge{edge(e), edge(f)}}
				if !apart(&o.edges[0], &o.edges[1], 0, 1) {
					t.Errorf("%v and %v of one region meet", e, f)
				}
				if o.meeting(0, 1); len(o.cuts) > 0 {
					t.Errorf("%v and %v of two regions meet at %v", e, f, o.cuts)
				}
			}
		}
	}
}

// Strictly inside is by more than a hair, from the outside and from a hole.
func TestStrictlyContainsByHand(t *testing.T) {
	r := frame(0, 50, 0.5)
	for off, want := range map[float64]bool{-1e-6: false, 0: false, 0.9e-6: false, 1e-6: false, 1.1e-6: true, 1: true} {
		if got := Rectangle(Point{0, 0}, Point{100, 100}).strictlyContains(Point{off, 50}); got != want {
			t.Errorf("%v inside: %v", off, got)
		}
	}
	if r.strictlyContains(Point{0, 0}) || r.strictlyContains(Point{0.5, 0}) || !r.strictlyContains(Point{0.51, 0}) {
		t.Error("a hole counts as inside, or what is round it does not")
	}
}
