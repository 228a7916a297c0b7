package layout_test

import (
	"fmt"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// The fall of the starting shower at 1:50, x from 0 to 1400, y from 1000 at its
// front to 1900 at its back, drain 70 wide. A drain at a side ends 13 + 70 = 83
// from it, and so much of the floor lies level; from there it rises 20 mm/m:
// 817 mm rise 16.34, 1317 mm 26.34. Across the middle it ends 35 each side of
// y = 1450: 415 mm rise 8.3. 200 from the back it ends at 1735 and 1665:
// 165 mm rise 3.3, 665 mm 13.3.
func TestSingleFallsByHand(t *testing.T) {
	type level struct{ x, y, z float64 }
	forward := 200.0
	for name, c := range map[string]struct {
		fall    job.FallKind
		forward *float64
		levels  []level
		mm2     []float64 // areas of the falling planes
	}{
		"back":         {job.FallBack, nil, []level{{700, 1000, 16.34}, {0, 1000, 16.34}, {1400, 1317, 10}, {700, 1817, 0}, {100, 1900, 0}, {700, 1852, 0}}, []float64{1400 * 817}},
		"front":        {job.FallFront, nil, []level{{700, 1900, 16.34}, {1400, 1900, 16.34}, {0, 1583, 10}, {700, 1083, 0}, {100, 1000, 0}}, []float64{1400 * 817}},
		"left":         {job.FallLeft, nil, []level{{1400, 1450, 26.34}, {1400, 1000, 26.34}, {583, 1900, 10}, {83, 1450, 0}, {0, 1000, 0}}, []float64{1317 * 900}},
		"right":        {job.FallRight, nil, []level{{0, 1450, 26.34}, {0, 1900, 26.34}, {817, 1000, 10}, {1317, 1450, 0}, {1400, 1900, 0}}, []float64{1317 * 900}},
		"mid":          {job.FallMid, nil, []level{{0, 1900, 8.3}, {1400, 1000, 8.3}, {100, 1585, 2}, {100, 1450, 0}, {700, 1485, 0}, {700, 1415, 0}}, []float64{1400 * 415, 1400 * 415}},
		"mid, forward": {job.FallMid, &forward, []level{{0, 1900, 3.3}, {1400, 1000, 13.3}, {1000, 1700, 0}}, []float64{1400 * 665, 1400 * 165}},
	} {
		t.Run(name, func(t *testing.T) {
			inEveryFrame(t, func(t *testing.T, f frame) {
				j := job.New()
				j.Former.Fall, j.Drain.ForwardMM = c.fall, c.forward
				l := place(t, f.job(j))
				for _, at := range c.levels {
					near(t, fmt.Sprintf("level at (%v, %v)", at.x, at.y), l.Fall.At(f.point(plan.Point{at.x, at.y})), at.z)
				}
				if len(l.Planes) != len(c.mm2) {
					t.Fatalf("%d falling planes, want %d", len(l.Planes), len(c.mm2))
				}
				for i, p := range l.Planes {
					near(t, fmt.Sprintf("slope of plane %d", i), p.Gradient(), 0.02)
					nearArea(t, fmt.Sprintf("plane %d", i), p.Region, c.mm2[i])
				}
				nearArea(t, "floor round the drain", l.OpenFloor, 1400*900-800*70)
				nearArea(t, "fall", l.FallArea, 1400*900)
			})
		})
	}
}

// A point drain of 70 in the middle of the shower, shifted 50 to the right, so
// at (750, 1450). To the left edge it is 750 − 35 = 715, to the right 615, to
// back and front 415. The longest falls 1:50: 14.3 mm, and the others as much,
// so they are steeper: 14.3/615 and 14.3/415. Planes are counted from the back
// left corner on: left, front, right, back. Each is a trapezium between the
// drain's side and the shower's.
func TestPointFallByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := job.New()
		j.Former.Fall, j.Drain.OffsetMM = job.FallPoint, 50
		l := place(t, f.job(j))
		for _, p := range []plan.Point{{0, 1900}, {1400, 1900}, {1400, 1000}, {0, 1000}, {0, 1300}, {700, 1900}, {1400, 1500}, {300, 1000}} {
			near(t, fmt.Sprintf("level at the edge %v", p), l.Fall.At(f.point(p)), 14.3)
		}
		for _, p := range []plan.Point{{750, 1450}, {715, 1415}, {785, 1485}, {715, 1450}, {750, 1485}} {
			near(t, fmt.Sprintf("level at the drain %v", p), l.Fall.At(f.point(p)), 0)
		}
		if len(l.Planes) != 4 || len(l.Fall) != 5 {
			t.Fatalf("%d falling planes of %d", len(l.Planes), len(l.Fall))
		}
		for i, want := range []struct{ slope, mm2 float64 }{
			{0.02, (900 + 70) / 2.0 * 715}, {14.3 / 415, (1400 + 70) / 2.0 * 415}, {14.3 / 615, (900 + 70) / 2.0 * 615}, {14.3 / 415, (1400 + 70) / 2.0 * 415},
		} {
			near(t, fmt.Sprintf("slope of plane %d", i), l.Planes[i].Gradient(), want.slope)
			nearArea(t, fmt.Sprintf("plane %d", i), l.Planes[i].Region, want.mm2)
		}
		for i, middle := range []plan.Point{{1, 1450}, {700, 1001}, {1399, 1450}, {700, 1899}} {
			if !l.Planes[i].Region.Contains(f.point(middle), 0) {
				t.Errorf("plane %d does not reach %v", i, middle)
			}
		}
	})
}

// The whole room falls to the point: to the right wall it is 2400 − 785 = 1615,
// the longest, so every wall's foot lies 32.3 over the drain.
func TestRoomFallByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := job.New()
		j.Former.Fall, j.Drain.OffsetMM = job.FallRoom, 50
		l := place(t, f.job(j))
		for _, p := range []plan.Point{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}, {1000, 0}, {0, 600}} {
			near(t, fmt.Sprintf("level at the wall %v", p), l.Fall.At(f.point(p)), 32.3)
		}
		nearArea(t, "fall", l.FallArea, 2400*1900)
		nearArea(t, "rest", l.Rest, 0)
		nearArea(t, "shower", l.Shower, 1400*900)
		nearArea(t, "floor round the drain", l.OpenFloor, 2400*1900-70*70)
	})
}

// A corner cut off across c mm both ways has a side of c·√2 of its own in the
// hull: 0.70 makes 0.990, which is passed over; 0.72 makes 1.018, which counts.
func TestShortSidesAreNoPlanes(t *testing.T) {
	for cut, planes := range map[float64]int{0.70: 4, 0.72: 5} {
		inEveryFrame(t, func(t *testing.T, f frame) {
			j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{2400 - cut, 0}, plan.Point{2400, cut}, plan.Point{2400, 1900}, plan.Point{0, 1900})
			j.Former.Fall, j.Shower.Wall = job.FallRoom, 3
			if l := place(t, f.job(j)); len(l.Fall) != planes+1 {
				t.Errorf("cut by %v: %d planes with the level one, want %d", cut, len(l.Fall), planes+1)
			}
		})
	}
}

// A side of a millimetre to the bit still counts: 0.6 and 0.8 off a corner at
// the origin.
func TestSideOfOneMillimetre(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0.6, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900}, plan.Point{0, 1900}, plan.Point{0, 0.8})
	j.Former.Fall = job.FallRoom
	if l := place(t, j); len(l.Fall) != 6 {
		t.Errorf("%d planes with the level one, want 6", len(l.Fall))
	}
}

// Planes are counted alike however the room lies, also where two corners of the
// room are as near to the shower's back left: its back runs from x = 1200, the
// middle of the back wall, to the right. The one nearer to its back right comes
// first, so the back wall's plane, then left, front and right. Each plane
// rises the way its wall lies.
func TestPlanesAreCountedAlike(t *testing.T) {
	for _, deg := range []float64{0, 30, 90, 135, 180, 225, 270, 300} {
		for _, backward := range []bool{false, true} {
			f := frame{turnDeg: deg, by: plan.Point{1000, -2000}, backward: backward}
			j := job.New()
			j.Former.Fall = job.FallRoom
			j.Shower = job.Shower{Wall: 2, OffsetMM: 0, WidthMM: 1200, DepthMM: 900}
			l := place(t, f.job(j))
			if len(l.Planes) != 4 {
				t.Fatalf("%d falling planes", len(l.Planes))
			}
			for i, want := range []plan.Point{{0, 1}, {-1, 0}, {0, -1}, {1, 0}} {
				p := l.Planes[i]
				nearPoint(t, fmt.Sprintf("turned by %v°, walked backward %v: the way plane %d rises", deg, backward, i),
					plan.Point{p.SlopeX, p.SlopeY}.Normalize(), f.vector(want))
			}
		}
	}
}

// A drain that touches the back edge leaves no fall there; it counts as one
// millimetre. 36.5 from the edge leaves one and a half. The longest fall, to the
// left and the right, is 700 − 35 = 665: 13.3 mm.
func TestDrainAgainstTheEdge(t *testing.T) {
	for forward, slope := range map[float64]float64{20: 13.3, 35: 13.3, 35.9: 13.3, 36.5: 13.3 / 1.5, 37: 13.3 / 2} {
		j := job.New()
		j.Former.Fall, j.Drain.ForwardMM, j.Shower.DepthMM = job.FallPoint, &forward, 600
		l := place(t, j)
		near(t, fmt.Sprintf("slope towards the back, drain %v from it", forward), l.Fall[4].Gradient(), slope)
	}
	// Two falls at the very edge: where no run is left on any side but one.
	j := job.New()
	j.Former.Fall, j.Drain.OffsetMM = job.FallPoint, 665
	near(t, "slope to the right", place(t, j).Fall[3].Gradient(), 0.02*1330)
}

// With another slope the planes turn about the drain: just what the layout of
// such a job has. There and back is where it was; without a slope to begin with
// nothing can be made of it, and the layout it came from stays as it is.
func TestWithSlope(t *testing.T) {
	for _, fall := range []job.FallKind{job.FallBack, job.FallLeft, job.FallRight, job.FallFront, job.FallMid, job.FallPoint, job.FallRoom} {
		inEveryFrame(t, func(t *testing.T, f frame) {
			j := job.New()
			j.Former.Fall = fall
			l := place(t, f.job(j))
			j.Former.Slope = 0.03
			steep := l.WithSlope(0.02, 0.03)
			samePlanes(t, string(fall)+", steeper", steep, place(t, f.job(j)))
			samePlanes(t, string(fall)+", there and back", steep.WithSlope(0.03, 0.02), l)
			samePlanes(t, string(fall)+", from level", l.WithSlope(0, 0.03), l)
			samePlanes(t, string(fall)+", from a negative slope", l.WithSlope(-0.02, 0.03), l)
			samePlanes(t, string(fall)+", the same slope", l.WithSlope(0.02, 0.02), l)
			near(t, string(fall)+", the slope it came from", l.Planes[0].Gradient()*0.03, steep.Planes[0].Gradient()*0.02)
			if level := l.WithSlope(0.02, 0); level.Planes[0].Gradient() != 0 {
				t.Errorf("%s: made level it falls by %v", fall, level.Planes[0].Gradient())
			}
		})
	}
}

// samePlanes fails unless two layouts fall alike, everywhere.
func samePlanes(t tester, what string, got, want layout.Layout) {
	t.Helper()
	if len(got.Fall) != len(want.Fall) || len(got.Planes) != len(want.Planes) {
		t.Fatalf("%s: %d and %d planes, want %d and %d", what, len(got.Fall), len(got.Planes), len(want.Fall), len(want.Planes))
	}
	for i, p := range want.Fall {
		for _, c := range want.Corners {
			near(t, fmt.Sprintf("%s: plane %d at %v", what, i, c), got.Fall[i].At(c), p.At(c))
		}
	}
	for i, p := range want.Planes {
		near(t, fmt.Sprintf("%s: falling plane %d", what, i), got.Planes[i].At(want.Corners[0]), p.At(want.Corners[0]))
		near(t, fmt.Sprintf("%s: slope of falling plane %d", what, i), got.Planes[i].Gradient(), p.Gradient())
		nearArea(t, fmt.Sprintf("%s: falling plane %d", what, i), got.Planes[i].Region, p.Region.Area())
	}
}
