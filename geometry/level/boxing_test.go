package level_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/level"
	"underfall/geometry/plan"
)

// The straights of a box 40 to either side, by hand: round a corner of 45° drawn on by 40 times
// the tangent of half of that, 16.57; round a square one, a sharper one of 135° and one right
// back by 40.
func TestLegsOfABox(t *testing.T) {
	for name, c := range map[string]struct {
		to plan.Point
		on float64
	}{
		"45°": {plan.Point{600, 100}, 16.5685424949}, "square": {plan.Point{500, 100}, 40},
		"135°": {plan.Point{400, 100}, 40}, "right back": {plan.Point{400, 0}, 40},
	} {
		b := level.Box{Path: []plan.Point{{0, 0}, {500, 0}, c.to}, InsideMM: 28, BoardMM: 12}
		legs := b.Legs()
		want := plan.Ring{{0, -40}, {500 + c.on, -40}, {500 + c.on, 40}, {0, 40}}
		if len(legs) != 2 || !slices.EqualFunc(legs[0], want, func(a, b plan.Point) bool { return a.Sub(b).Len() < 1e-9 }) {
			t.Errorf("%s: %v, the first by hand %v", name, legs, want)
			continue
		}
		// The second begins as far before the corner.
		back := plan.Point{500, 0}.Sub(c.to).Normalize().Mul(c.on).Add(plan.Point{500, 0})
		if begin := legs[1][0].Add(legs[1][3]).Mul(0.5); begin.Sub(back).Len() > 1e-9 {
			t.Errorf("%s: the second begins at %v, by hand %v", name, begin, back)
		}
	}
}

// The parts of a box 40 to either side are cut off in the middle of its corners, so that they
// take each place once: two straights of 500 and 300 about a square corner take 80 of each, and
// those about one of 45° as much, its two halves of 16.57 by 80 more or less being even. A board
// of 12 closes it at its end.
func TestPartsOfABox(t *testing.T) {
	for name, c := range map[string]struct {
		to     plan.Point
		closed bool
		want   float64
	}{"square": {plan.Point{500, 300}, false, 80 * 800}, "closed": {plan.Point{500, 300}, true, 80 * 812},
		"45°": {plan.Point{800, 300}, false, 80 * (500 + 300*math.Sqrt2)}} {
		b := level.Box{Path: []plan.Point{{0, 0}, {500, 0}, c.to}, InsideMM: 28, BoardMM: 12, Closed: c.closed}
		got, shared := 0.0, 0.0
		parts := b.Parts()
		for i, p := range parts {
			got += plan.FromRing(p).Area()
			for _, o := range parts[:i] {
				shared += plan.SharedArea(plan.FromRing(p), plan.FromRing(o))
			}
		}
		if math.Abs(got-c.want) > 1e-6 || shared > 1e-6 {
			t.Errorf("%s: the parts take %v, by hand %v, and %v of it twice", name, got, c.want, shared)
		}
	}
}

// A lid 80 wide and 500 long, of which a room that ends at 300 has 300; one whose straights are a sixteenth of its width, so that they
// cross, takes nothing away from what is tiled.
func TestLidsAreNoLessThanNothing(t *testing.T) {
	room := plan.FromRing(plan.Ring{{0, -1000}, {300, -1000}, {300, 1000}, {0, 1000}})
	straight := level.Box{Path: []plan.Point{{0, 0}, {500, 0}}, InsideMM: 28, BoardMM: 12}
	if got := straight.LidMM2(room); math.Abs(got-300*80) > 1e-6 {
		t.Errorf("the lid is %v, want %v", got, 300*80)
	}
	crossed := level.Box{Path: []plan.Point{{7.172, 12}, {-0.691, 11.691}, {-1, 3.828}}, InsideMM: 51.15, BoardMM: 12}
	if got := crossed.LidMM2(room); got < 0 {
		t.Errorf("the lid of a box that crosses itself is %v", got)
	}
}
