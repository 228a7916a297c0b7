package layout_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// The starting room is 1900 deep and 2400 high; from its wall at y = 1900, where it is 1000
// high, the ceiling rises at 45°: it is level from y = 500 on.
func TestCeilingByHand(t *testing.T) {
	j := job.New()
	j.Room.Slopes = []job.Slope{{Wall: 2, KneeMM: 1000, PitchDeg: 45}}
	l := layout.Of(j, &plan.Shaper{})
	for _, c := range []struct{ y, want float64 }{{1900, 1000}, {1000, 1900}, {500, 2400}, {0, 2400}} {
		if got := l.CeilingAt(plan.Point{700, c.y}); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("at y = %v the ceiling is at %v, want %v", c.y, got, c.want)
		}
	}
	want := []plan.Point{{0, 2400}, {500, 2400}, {1900, 1000}}
	got := l.CeilingBetween(plan.Point{0, 0}, plan.Point{0, 1900})
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range want {
		if got[i].Sub(want[i]).Len() > 1e-9 {
			t.Errorf("%v, want %v", got, want)
		}
	}
	l = layout.Of(job.New(), &plan.Shaper{})
	if level := l.CeilingBetween(plan.Point{0, 0}, plan.Point{0, 1900}); len(level) != 2 || level[0].Y() != 2400 || level[1].Y() != 2400 {
		t.Errorf("a level ceiling: %v", level)
	}
}
