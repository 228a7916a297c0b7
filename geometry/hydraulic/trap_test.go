package hydraulic

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand. Points of 0.4 l/s at 10 mm and 0.6 at 20: halfway 0.5. One point of
// 0.6 l/s at 20 mm, outlet 50 mm below the cover: at 110 mm the height driving
// the flow is 160 instead of 70 mm, so 0.6·√(160/70) = 0.907 l/s. No point:
// 46 mm outlet, 20 + 50 mm: 0.6·0.00166190·√(2·9.81·0.07) = 1.1686 l/s.
func TestTrapByHand(t *testing.T) {
	curve, one := []HeadFlow{{10, 0.4}, {20, 0.6}}, []HeadFlow{{20, 0.6}}
	for name, c := range map[string]struct {
		points []HeadFlow
		head   float64
		want   float64
		basis  Basis
	}{
		"curve": {curve, 15, 0.5, FromCurve}, "curve at a point": {curve, 20, 0.6, FromCurve},
		"point at its head": {one, 20, 0.6, FromPoint}, "point carried on": {one, 110, 0.6 * math.Sqrt(160.0/70), FromPoint},
		"orifice": {nil, 20, 1.1686, FromOrifice},
	} {
		if q, basis := TrapLPS(c.points, 46, 50, c.head); math.Abs(q-c.want) > 5e-5 || basis != c.basis {
			t.Errorf("%s: %.4f l/s by %s, want %.4f by %s", name, q, basis, c.want, c.basis)
		}
	}
	if h, ok := TrapHeadMM(curve, 46, 50, 0.5, 100); !ok || math.Abs(h-15) > 2e-3 {
		t.Errorf("0.5 l/s stands %.3f mm, want 15", h)
	}
	if _, ok := TrapHeadMM(curve, 46, 50, 5, 100); ok {
		t.Error("5 l/s goes down a trap of 0.6")
	}
}

// More head never carries less, and the head found carries the flow.
func TestTrapIsMonotonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []HeadFlow
		head, flow := 0.0, 0.0
		for range rapid.IntRange(0, 5).Draw(t, "points") {
			head += rapid.Float64Range(1, 40).Draw(t, "head")
			flow += rapid.Float64Range(0, 0.5).Draw(t, "flow")
			points = append(points, HeadFlow{head, flow})
		}
		drop := rapid.Float64Range(0, 150).Draw(t, "drop")
		last := 0.0
		for h := 0.0; h < 250; h += 3.7 {
			q, _ := TrapLPS(points, 46, drop, h)
			if q < last-1e-9 {
				t.Fatalf("at %v mm it carries %v, less than %v below", h, q, last)
			}
			last = q
		}
		want := rapid.Float64Range(0.01, 2).Draw(t, "flow wanted")
		if h, ok := TrapHeadMM(points, 46, drop, want, 250); ok {
			if q, _ := TrapLPS(points, 46, drop, h); q < want-1e-9 {
				t.Fatalf("%v mm carries %v, not %v", h, q, want)
			}
		}
	})
}
