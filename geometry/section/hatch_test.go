package section_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// The patterns by their tiles, typed out a second time: the tile's size and its strokes
// from a point to a point, in points of paper, y up. A hatch drawn at the basic spacing
// of 7 points has them all, repeated, and no others.
func TestTilesByHand(t *testing.T) {
	spot := func(x, y, r float64) [4]float64 { return [4]float64{x - r, y, x + r, y} }
	for m, tile := range map[material.Material]struct {
		wide, high float64
		strokes    [][4]float64
	}{
		material.BaseBoard:  {7, 12, [][4]float64{{0, 3, 3.5, 9}, {3.5, 9, 7, 3}}},
		material.FormerBody: {16, 6, [][4]float64{{0, 3, 10, 3}}},
		material.TileBed:    {5, 5, [][4]float64{spot(1.5, 3.5, 0.7), spot(4, 1.2, 0.5)}},
		material.Timber:     {12, 4.5, [][4]float64{{0, 2.5, 3, 1.375}, {3, 1.375, 6, 1}, {6, 1, 9, 1.375}, {9, 1.375, 12, 2.5}}},
	} {
		const repeats = 8
		want := map[string]bool{}
		key := func(s [4]float64) string {
			return fmt.Sprintf("%.3f,%.3f %.3f,%.3f", s[0]+0, s[1]+0, s[2]+0, s[3]+0)
		}
		for i := range repeats {
			for j := range repeats {
				for _, s := range tile.strokes {
					x, y := float64(i)*tile.wide, float64(j)*tile.high
					want[key([4]float64{s[0] + x, s[1] + y, s[2] + x, s[3] + y})] = true
				}
			}
		}
		got := map[string]bool{}
		for _, s := range section.Hatch(plan.Rectangle(plan.Point{0, 0}, plan.Point{repeats * tile.wide, repeats * tile.high}), section.PatternOf(m), 7) {
			if s[1].Sub(s[0]).Len() > 1e-6 { // else one that begins where the region ends
				got[key([4]float64{s[0].X(), s[0].Y(), s[1].X(), s[1].Y()})] = true
			}
		}
		for k := range want {
			if !got[k] {
				t.Errorf("%s lacks a stroke %s", m, k)
			}
		}
		for k := range got {
			if !want[k] {
				t.Errorf("%s has a stroke too many: %s", m, k)
			}
		}
	}
}

// Bricks: courses 6 points high run through, joints stand every 18 points in each, half a
// brick on from course to course. Concrete: a rising line through every corner of a tile
// of 26, and three spots.
func TestCoursesAndConcrete(t *testing.T) {
	total := func(m material.Material, wide, high float64) (n int, sum float64) {
		for _, s := range section.Hatch(plan.Rectangle(plan.Point{0.01, 0.01}, plan.Point{wide + 0.01, high + 0.01}), section.PatternOf(m), 7) {
			if long := s[1].Sub(s[0]).Len(); long > 0.1 {
				n, sum = n+1, sum+long
			}
		}
		return n, sum
	}
	// 36 × 24: four courses of 36, two joints of 6 in each.
	if n, sum := total(material.Masonry, 36, 24); n != 4+8 || math.Abs(sum-(4*36+8*6)) > 0.1 {
		t.Errorf("bricks: %d strokes of %.2f", n, sum)
	}
	// 52 × 52: the line through the corners is 52·√2 long, one on each side of it half that;
	// four tiles have three spots each, 2, 2.8 and 1.4 long.
	if n, sum := total(material.Concrete, 52, 52); n != 3+12 || math.Abs(sum-(104*math.Sqrt2+4*6.2)) > 0.1 {
		t.Errorf("concrete: %d strokes of %.2f", n, sum)
	}
}

// A layer that falls is hatched along its fall: 16 down in 817 turns the strokes by
// atan(16/817) = 1.122°.
func TestHatchLiesAlongTheFall(t *testing.T) {
	a := section.Area{Material: material.FormerBody, FallDeg: -1.122}
	if got := a.Pattern().Families[0].AngleDeg; got != -1.122 {
		t.Errorf("turned by %v", got)
	}
	a.Material = material.BaseBoard
	if a.Pattern() != section.PatternOf(material.BaseBoard) {
		t.Error("a level board is turned as well")
	}
	a = section.Area{Material: material.Tile, Hatched: true}
	if a.Pattern().Solid {
		t.Error("what is to be told from its neighbours is filled alone")
	}
}

func hatched(r plan.Region, spacing float64, f ...material.Family) [][2]plan.Point {
	var p material.Pattern
	copy(p.Families[:], f)
	return section.Hatch(r, p, spacing)
}

func expectStrokes(t *testing.T, what string, got [][2]plan.Point, want [][4]float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d strokes, want %d: %v", what, len(got), len(want), got)
	}
	for i := range min(len(got), len(want)) {
		w := want[i]
		if !near(got[i][0], plan.Point{w[0], w[1]}) || !near(got[i][1], plan.Point{w[2], w[3]}) {
			t.Errorf("%s: stroke %d from %v to %v, want %v", what, i, got[i][0], got[i][1], w)
		}
	}
}

// Lines by hand: level ones 2 basic spacings of 10 apart, 0.4 of one up, over 50
// high: at 4, 24 and 44. Upright ones lie as far to the left, of −x: at 46, 26, 6.
// Under 45° a line through the origin crosses the square from corner to corner, the
// next lies 20·√2 higher.
func TestHatchLinesByHand(t *testing.T) {
	square := plan.Rectangle(plan.Point{0, 0}, plan.Point{50, 50})
	expectStrokes(t, "level", hatched(square, 10, material.Family{Spacing: 2, Offset: 0.4}), [][4]float64{{0, 4, 50, 4}, {0, 24, 50, 24}, {0, 44, 50, 44}})
	expectStrokes(t, "upright", hatched(square, 10, material.Family{AngleDeg: 90, Spacing: 2, Offset: 0.4}), [][4]float64{{36, 0, 36, 50}, {16, 0, 16, 50}})
	up := 20 * math.Sqrt2
	expectStrokes(t, "under 45°", hatched(square, 10, material.Family{AngleDeg: 45, Spacing: 2}), [][4]float64{{up, 0, 50, 50 - up}, {0, 0, 50, 50}, {0, up, 50 - up, 50}})
	expectStrokes(t, "under −45°", hatched(square, 10, material.Family{AngleDeg: -45, Spacing: 2}), [][4]float64{{0, up, up, 0}, {2*up - 50, 50, 50, 2*up - 50}, {3*up - 50, 50, 50, 3*up - 50}})
	expectStrokes(t, "two families", hatched(square, 10, material.Family{Spacing: 3, Offset: 1}, material.Family{Spacing: 3, Offset: 2}), [][4]float64{{0, 10, 50, 10}, {0, 40, 50, 40}, {0, 20, 50, 20}})
	// A hole is left out.
	holed := plan.Region{{Outer: square[0].Outer, Holes: []plan.Ring{{{20, 20}, {20, 30}, {30, 30}, {30, 20}}}}}
	expectStrokes(t, "holed", hatched(holed, 10, material.Family{Spacing: 5, Offset: 2.5}), [][4]float64{{0, 25, 20, 25}, {30, 25, 50, 25}})
	// Lines keep their place on another region.
	expectStrokes(t, "moved", hatched(plan.Rectangle(plan.Point{30, 10}, plan.Point{80, 60}), 10, material.Family{Spacing: 2, Offset: 0.4}), [][4]float64{{30, 24, 80, 24}, {30, 44, 80, 44}})
	for _, spacing := range []float64{0, -1} {
		for _, f := range []material.Family{{Spacing: 2}, {Spacing: 2, Dash: 1, Gap: 0.5}} {
			if got := hatched(square, spacing, f); got != nil {
				t.Errorf("spacing %v: %v", spacing, got)
			}
		}
		if got := hatched(square, 10, material.Family{Spacing: spacing, Dash: 1, Gap: 0.5}); got != nil {
			t.Errorf("a family %v apart: %v", spacing, got)
		}
	}
	if got := hatched(nil, 10, material.Family{Spacing: 2}); got != nil {
		t.Errorf("nothing to hatch: %v", got)
	}
	if got := hatched(square, 0.5, material.Family{Spacing: 20, Offset: 1}); len(got) != 5 {
		t.Errorf("half a millimetre: %d lines, want 5, 10 apart", len(got))
	}
}

// Dashes by hand: of 1 and a gap of 0.5 by 10 they come every 15 mm, the line at 0
// from 0 on; each line's begin 0.382 of a period further, so 5.73 on the next, and
// from where its last would have begun before.
func TestDashesByHand(t *testing.T) {
	f := material.Family{Spacing: 2, Offset: 0.1, Dash: 1, Gap: 0.5, Shift: 0.382 * 1.5}
	expectStrokes(t, "dashes", hatched(plan.Rectangle(plan.Point{0, 0}, plan.Point{35, 30}), 10, f), [][4]float64{
		{0, 1, 10, 1}, {15, 1, 25, 1}, {30, 1, 35, 1},
		{0, 21, 0.73, 21}, {5.73, 21, 15.73, 21}, {20.73, 21, 30.73, 21}})
	// The first dash may end where the region begins: none is drawn then.
	expectStrokes(t, "from a gap", hatched(plan.Rectangle(plan.Point{10, 0}, plan.Point{30, 2}), 10, f), [][4]float64{{15, 1, 25, 1}})
	expectStrokes(t, "within a dash", hatched(plan.Rectangle(plan.Point{2, 0}, plan.Point{9, 2}), 10, f), [][4]float64{{2, 1, 9, 1}})
	expectStrokes(t, "left of it", hatched(plan.Rectangle(plan.Point{-12, 0}, plan.Point{-1, 2}), 10, f), [][4]float64{{-12, 1, -5, 1}})
}

// More than 1500 lines of a family are too many: every second is left out until they
// are fewer.
func TestHatchOfAHugeArea(t *testing.T) {
	for high, want := range map[float64]int{1499: 1499, 1500: 1500, 1501: 751, 3000: 1500, 3001: 751, 6100: 763} {
		if got := len(hatched(plan.Rectangle(plan.Point{0, 0}, plan.Point{10, high}), 1, material.Family{Spacing: 1, Offset: 0.5})); got != want {
			t.Errorf("%v lines wanted, %d drawn, want %d", high, got, want)
		}
	}
}
