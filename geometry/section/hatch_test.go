package section_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// The patterns typed out a second time: angle, spacing, offset, dash, gap.
func TestPatterns(t *testing.T) {
	for m, want := range map[material.Material][][5]float64{
		material.Concrete:   {{45, 3, 0, 0, 0}, {45, 3, 0.5, 0, 0}, {-20, 2.2, 0, 0.25, 2.4}},
		material.Masonry:    {{45, 2, 0, 0, 0}, {45, 2, 0.4, 0, 0}},
		material.StudWall:   {{45, 2.4, 0, 0, 0}, {-45, 2.4, 0, 0, 0}},
		material.Timber:     {{30, 1.1, 0, 0, 0}, {-60, 3.3, 0, 0, 0}},
		material.Deck:       {{0, 0.6, 0.3, 5, 0.8}},
		material.BaseBoard:  {{60, 1.8, 0, 0, 0}, {-60, 1.8, 0, 0, 0}},
		material.FormerBody: {{-45, 1.2, 0, 3, 0.6}},
		material.Tile:       {{45, 0.55, 0, 0, 0}},
		material.TileBed:    {{-45, 0.5, 0, 0.2, 0.5}},
		material.Adhesive:   {{-45, 0.5, 0, 0.2, 0.5}},
		material.Screed:     {{-45, 1, 0, 0.25, 0.9}},
		material.Water:      {{0, 0.8, 0.4, 1.4, 0.7}},
		material.Membrane:   nil, material.Plastic: nil, material.Metal: nil,
		"something else": {{45, 1, 0, 0, 0}},
	} {
		p := section.PatternOf(m)
		var got [][5]float64
		for _, f := range p.Families {
			if f.Spacing > 0 {
				got = append(got, [5]float64{f.AngleDeg, f.Spacing, f.Offset, f.Dash, f.Gap})
			}
		}
		if p.Solid != (want == nil) || !slices.Equal(got, want) {
			t.Errorf("%s: %+v, want %v", m, p, want)
		}
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
	f := material.Family{Spacing: 2, Offset: 0.1, Dash: 1, Gap: 0.5}
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
