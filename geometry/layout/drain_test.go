package layout_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// boxIs fails unless a region is the rectangle between two corners of the room
// as drawn: it has its area, its middle and all its corners.
func boxIs(t *testing.T, what string, got plan.Region, f frame, low, high plan.Point) {
	t.Helper()
	size := high.Sub(low)
	nearArea(t, what, got, size.X()*size.Y())
	nearPoint(t, what+", middle", got.Centroid(), f.point(low.Add(high).Mul(0.5)))
	for _, c := range []plan.Point{low, high, {low.X(), high.Y()}, {high.X(), low.Y()}} {
		if !got.Contains(f.point(c), 1e-5) {
			t.Errorf("%s lacks its corner %v", what, c)
		}
	}
}

// A drain of 800 by 70 with a trap of 110, 13 clear of the wall, in the
// starting shower: x from 0 to 1400, y from 1000 at its front to 1900 at its
// back. It is shifted by 50 and the trap by 30 more, to the right or the front.
// From the wall to the drain's middle it is 13 + 35 = 48; to the trap's, which
// is wider and cannot go into the wall, 13 + 55 = 68. The outlet points to the
// left, 55 from the trap's middle. A point drain is as long as it is wide.
func TestDrainByHand(t *testing.T) {
	forward := 200.0
	for name, c := range map[string]struct {
		fall               job.FallKind
		forward            *float64
		centre, edge, trap plan.Point
		half               plan.Point // half sizes of the drain
		along              plan.Point
	}{
		"back":              {job.FallBack, nil, plan.Point{750, 1852}, plan.Point{750, 1817}, plan.Point{780, 1832}, plan.Point{400, 35}, plan.Point{1, 0}},
		"left":              {job.FallLeft, nil, plan.Point{48, 1400}, plan.Point{83, 1400}, plan.Point{68, 1370}, plan.Point{35, 400}, plan.Point{0, -1}},
		"right":             {job.FallRight, nil, plan.Point{1352, 1400}, plan.Point{1317, 1400}, plan.Point{1332, 1370}, plan.Point{35, 400}, plan.Point{0, -1}},
		"front":             {job.FallFront, nil, plan.Point{750, 1048}, plan.Point{750, 1083}, plan.Point{780, 1068}, plan.Point{400, 35}, plan.Point{1, 0}},
		"mid":               {job.FallMid, nil, plan.Point{750, 1450}, plan.Point{750, 1415}, plan.Point{780, 1450}, plan.Point{400, 35}, plan.Point{1, 0}},
		"point":             {job.FallPoint, nil, plan.Point{750, 1450}, plan.Point{750, 1415}, plan.Point{750, 1450}, plan.Point{35, 35}, plan.Point{1, 0}},
		"room":              {job.FallRoom, nil, plan.Point{750, 1450}, plan.Point{750, 1415}, plan.Point{750, 1450}, plan.Point{35, 35}, plan.Point{1, 0}},
		"mid, 200 forward":  {job.FallMid, &forward, plan.Point{750, 1700}, plan.Point{750, 1665}, plan.Point{780, 1700}, plan.Point{400, 35}, plan.Point{1, 0}},
		"point, forward":    {job.FallPoint, &forward, plan.Point{750, 1700}, plan.Point{750, 1665}, plan.Point{750, 1700}, plan.Point{35, 35}, plan.Point{1, 0}},
		"room, 200 forward": {job.FallRoom, &forward, plan.Point{750, 1700}, plan.Point{750, 1665}, plan.Point{750, 1700}, plan.Point{35, 35}, plan.Point{1, 0}},
		"back, no forward":  {job.FallBack, &forward, plan.Point{750, 1852}, plan.Point{750, 1817}, plan.Point{780, 1832}, plan.Point{400, 35}, plan.Point{1, 0}},
	} {
		t.Run(name, func(t *testing.T) {
			inEveryFrame(t, func(t *testing.T, f frame) {
				j := job.New()
				j.Former.Fall, j.Drain.ForwardMM = c.fall, c.forward
				j.Drain.OffsetMM, j.Drain.TrapOffsetMM = 50, 30
				l := place(t, f.job(j))
				nearPoint(t, "middle of the drain", l.DrainCentre, f.point(c.centre))
				nearPoint(t, "edge of the drain", l.DrainEdge, f.point(c.edge))
				nearPoint(t, "direction along it", l.DrainAlong, f.vector(c.along))
				boxIs(t, "drain", l.Drain, f, c.centre.Sub(c.half), c.centre.Add(c.half))
				nearPoint(t, "middle of the trap", l.TrapCentre, f.point(c.trap))
				boxIs(t, "trap", l.Trap, f, c.trap.Sub(plan.Point{55, 55}), c.trap.Add(plan.Point{55, 55}))
				nearPoint(t, "outlet", l.Outlet, f.point(c.trap.Sub(plan.Point{55, 0})))
				nearPoint(t, "way out of the trap", l.OutletTo, f.vector(plan.Point{-1, 0}))
			})
		})
	}
}

// A trap of 40 is narrower than the channel of 70: it hangs in its middle.
func TestNarrowTrapHangsInTheMiddle(t *testing.T) {
	for fall, want := range map[job.FallKind]plan.Point{job.FallBack: {700, 1852}, job.FallFront: {700, 1048}, job.FallLeft: {48, 1450}, job.FallRight: {1352, 1450}} {
		j := job.New()
		j.Former.Fall, j.Drain.TrapSizeMM = fall, 40
		l := place(t, j)
		nearPoint(t, string(fall)+", trap", l.TrapCentre, want)
		boxIs(t, string(fall)+", trap", l.Trap, frame{}, want.Sub(plan.Point{20, 20}), want.Add(plan.Point{20, 20}))
		nearPoint(t, string(fall)+", outlet", l.Outlet, want.Sub(plan.Point{20, 0}))
	}
}

// Facing the back wall: 0 to the right, 90 to the back wall, 180 to the left,
// 270 into the room. In a room that stands square quarter turns are exact.
func TestDirection(t *testing.T) {
	root := math.Sqrt(3) / 2
	for deg, want := range map[float64]plan.Point{0: {1, 0}, 90: {0, 1}, 180: {-1, 0}, 270: {0, -1}, 360: {1, 0}, -90: {0, -1}, -180: {-1, 0}} {
		l := layout.Layout{ToRight: plan.Point{1, 0}, Into: plan.Point{0, -1}}
		if got := l.Direction(deg); got != want {
			t.Errorf("at %v° it points %v, want exactly %v", deg, got, want)
		}
	}
	inEveryFrame(t, func(t *testing.T, f frame) {
		l := place(t, f.job(job.New()))
		for deg, want := range map[float64]plan.Point{0: {1, 0}, 90: {0, 1}, 30: {root, 0.5}, 120: {-0.5, root}, 210: {-root, -0.5}, 330: {root, -0.5}} {
			got := l.Direction(deg)
			if got.Sub(f.vector(want)).Len() > 1e-11 {
				t.Errorf("at %v° it points %v, want %v", deg, got, f.vector(want))
			}
			j := job.New()
			j.Drain.OutletTurnDeg = deg
			l := place(t, f.job(j))
			nearPoint(t, fmt.Sprintf("outlet at %v°", deg), l.Outlet, f.point(plan.Point{700, 1832}.Add(want.Mul(55))))
		}
	})
}
