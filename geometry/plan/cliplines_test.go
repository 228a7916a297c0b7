package plan_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/plan"
)

// Three lines across a square of 10 with a hole of 4 in its middle, 2 apart and the
// first at 2: below the hole (it begins at 3), through it, and through it again.
func TestClipLinesByHand(t *testing.T) {
	square := plan.Rectangle(plan.Point{0, 0}, plan.Point{10, 10})
	square[0].Holes = append(square[0].Holes, plan.Rectangle(plan.Point{3, 3}, plan.Point{7, 7})[0].Outer.Reversed())
	got := ""
	square.ClipLines(plan.Point{1, 0}, 2, 2, 4, func(line int, in plan.Interval) { got += fmt.Sprintf("%d: %g to %g; ", line, in.From, in.To) })
	if want := "0: 0 to 10; 1: 0 to 3; 1: 7 to 10; 2: 0 to 3; 2: 7 to 10; 3: 0 to 10; "; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	// What is no wider than the grid is nothing.
	for widthMM, want := range map[float64]int{0.98e-7: 0, 1e-7: 0, 1.02e-7: 1} {
		n := 0
		plan.Rectangle(plan.Point{0, 0}, plan.Point{widthMM, 10}).ClipLines(plan.Point{1, 0}, 5, 10, 1, func(int, plan.Interval) { n++ })
		if n != want {
			t.Errorf("%v wide: %d stretches, want %d", widthMM, n, want)
		}
	}
	// A line on an edge counts it as left of it: the lower edge is outside, the upper
	// inside.
	got = ""
	square.ClipLines(plan.Point{1, 0}, 0, 10, 2, func(line int, in plan.Interval) { got += fmt.Sprintf("%d: %g to %g; ", line, in.From, in.To) })
	if want := "1: 0 to 10; "; got != want {
		t.Errorf("on the edges %q, want %q", got, want)
	}
}

// Many lines at once give what each gives by itself.
func TestClipLinesIsClip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.IntRange(-500, 500)
		var ring plan.Ring
		for range rapid.IntRange(3, 9).Draw(t, "corners") {
			ring = append(ring, plan.Point{float64(number.Draw(t, "x")), float64(number.Draw(t, "y"))})
		}
		region := plan.Region{{Outer: ring}}
		s, c := math.Sincos(float64(rapid.IntRange(0, 359).Draw(t, "angle")) * math.Pi / 180)
		along := plan.Point{c, s}
		first, step, n := float64(number.Draw(t, "first")), float64(rapid.IntRange(1, 90).Draw(t, "step")), rapid.IntRange(0, 40).Draw(t, "lines")
		got := make([][]plan.Interval, n)
		region.ClipLines(along, first, step, n, func(line int, in plan.Interval) { got[line] = append(got[line], in) })
		for line := range n {
			origin := plan.Left(along).Mul(first + float64(line)*step)
			want := region.Clip(origin, along)
			if len(want) != len(got[line]) {
				t.Fatalf("line %d: %v, by itself %v", line, got[line], want)
			}
			for i, in := range want {
				if math.Abs(in.From-got[line][i].From) > 1e-6 || math.Abs(in.To-got[line][i].To) > 1e-6 {
					t.Fatalf("line %d: %v, by itself %v", line, got[line], want)
				}
			}
		}
	})
}
