package layout_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The drain of 70 stands 50 right of the middle of 1400 by 900; planes rise 14.3 to every
// edge: over 715 to the left, 615 to the right, 415 to back and front. A crease runs from
// each corner to the drain's: at the left 715 and 415 apart both ways, so 14.3 over
// √(715² + 415²); at the right 14.3 over √(615² + 415²).
func TestCreasesToAPointByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := job.New()
		j.Former.Fall, j.Drain.OffsetMM = job.FallPoint, 50
		l := place(t, f.job(j))
		left, right := 14.3/math.Hypot(715, 415), 14.3/math.Hypot(615, 415)
		found := map[plan.Point]bool{}
		for _, c := range l.Creases() {
			for _, want := range []struct {
				corner, drain plan.Point
				slope         float64
			}{
				{plan.Point{0, 1900}, plan.Point{715, 1485}, left}, {plan.Point{0, 1000}, plan.Point{715, 1415}, left},
				{plan.Point{1400, 1900}, plan.Point{785, 1485}, right}, {plan.Point{1400, 1000}, plan.Point{785, 1415}, right},
			} {
				if c.A.Sub(f.point(want.corner)).Len() < 1e-3 && c.B.Sub(f.point(want.drain)).Len() < 1e-3 {
					near(t, "fall of a crease", c.Slope, want.slope)
					found[want.corner] = true
				}
			}
		}
		if len(found) != 4 || len(l.Creases()) != 4 {
			t.Errorf("%d of %d creases are where they should be: %v", len(found), len(l.Creases()), l.Creases())
		}
	})
}

// A single plane and two that fall away from each other's side of a drain meet nowhere.
func TestNoCreases(t *testing.T) {
	for _, k := range []job.FallKind{job.FallBack, job.FallLeft, job.FallMid} {
		j := job.New()
		j.Former.Fall = k
		if c := place(t, j).Creases(); len(c) > 0 {
			t.Errorf("%s: %+v", k, c)
		}
	}
	j := job.New()
	j.Former.Fall, j.Former.Slope = job.FallPoint, 0
	if c := place(t, j).Creases(); len(c) > 0 {
		t.Errorf("a level floor has creases: %+v", c)
	}
}
