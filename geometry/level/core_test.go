package level_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The hole of the starting job: the pipe of 50 with 8 round it leaves square, 68 before
// the end of a wall of 215, its axis 26.875 over the floor inside and 5.375 lower outside.
// At 45° it goes 215 along the wall as well: an ellipse of 33·√2 on each face, and the
// circle that holds both reaches half of 215 farther.
func TestCoreByHand(t *testing.T) {
	j := job.New()
	j.Base.Height, j.Base.HeightMM, j.Base.AdhesiveMM = job.HeightChosen, 72, 0
	l, h := solve(j)
	c, ok := h.Core(&j, &l)
	if !ok || c.Wall != 4 {
		t.Fatalf("%+v, %v", c, ok)
	}
	near(t, "along", c.AlongMM, 68)
	near(t, "middle", c.CentreMM, 26.875-5.375/2)
	near(t, "diameter", c.LeastMM, 66*math.Sqrt(1+0.025*0.025)+5.375)
	j.Waste.Exit.OffsetMM, j.Waste.Waypoints, j.Waste.Gradient = 1500, []plan.Point{{345, 1832}, {345, 745}}, 0
	l, h = solve(j)
	c, _ = h.Core(&j, &l)
	near(t, "askew, along", c.AlongMM, 1500+107.5)
	near(t, "askew, diameter", c.LeastMM, 66*math.Sqrt2+215)
	j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{345, 1400}}
	l, h = solve(j)
	if c, ok := h.Core(&j, &l); ok {
		t.Errorf("a drop makes a hole in a wall: %+v", c)
	}
}
