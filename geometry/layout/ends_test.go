package layout_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Planes to the ends of the starting shower's drain, which lies from x = 300 to 1100 and
// ends at y = 1817, 83 from the back. They rise from the ends on as the main plane does
// from its edge, 20 mm/m: a floor is the higher of the two. At the left side, 300 from
// the end, that is 6 mm, which the main plane reaches 300 from its edge, at y = 1517; the
// crease between them runs at 45° from the drain's corner (300, 1817) to (0, 1517), and
// falls 1:50/√2. The plane to an end has the trapezium of (83 + 383)/2 · 300; the main one
// the rest of 1400 · 900.
func TestEndFallsByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := job.New()
		j.Former.Ends = job.EndsFalling
		l := place(t, f.job(j))
		for _, at := range []struct{ x, y, z float64 }{
			{0, 1900, 6}, {1400, 1900, 6}, {0, 1600, 6}, {0, 1517, 6}, {0, 1417, 8}, {150, 1880, 3}, {300, 1880, 0}, {700, 1900, 0},
			{700, 1817, 0}, {0, 1000, 16.34}, {1400, 1000, 16.34}, {700, 1000, 16.34}, {200, 1717, 2}, {200, 1767, 2},
		} {
			near(t, "level", l.Fall.At(f.point(plan.Point{at.x, at.y})), at.z)
		}
		if len(l.Planes) != 3 || l.Planes[0].End || !l.Planes[1].End || !l.Planes[2].End {
			t.Fatalf("planes %+v", l.Planes)
		}
		end := (83.0 + 383) / 2 * 300
		nearArea(t, "main plane", l.Planes[0].Region, 1400*817-2*300*300/2)
		nearArea(t, "plane to an end", l.Planes[1].Region, end)
		nearArea(t, "plane to the other", l.Planes[2].Region, end)
		nearArea(t, "level behind the drain", l.Level, 800*13)
		creases := l.Creases()
		if len(creases) != 2 {
			t.Fatalf("creases %+v", creases)
		}
		for _, c := range creases {
			near(t, "fall of a crease", c.Slope, 0.02/math.Sqrt2)
			near(t, "length of a crease", c.LengthMM(), 300*math.Sqrt2)
		}
		// The main fall's high end is at the front; sides begin to carry the main plane at
		// y = 1517.
		if _, rise := l.HighEnd(); math.Abs(rise-16.34) > 1e-5 {
			t.Errorf("high end %v", rise)
		}
		for _, e := range l.OpenEdges() {
			if want := f.point(plan.Point{1400, 1517}); e.Side == "right" && (len(e.Creases) != 1 || e.Creases[0].Sub(want).Len() > 1e-5) {
				t.Errorf("creases along the right edge %v, want %v", e.Creases, want)
			} else if e.Side == "front" && len(e.Creases) > 0 {
				t.Errorf("creases along the front %v", e.Creases)
			}
		}
	})
}

// Ends of 1:25 beside a main plane of 1:50: the crease runs where 2·x = y, so over the 300
// beside the drain 600 away from it, and falls along (1, 2)/√5 by 0.04/√5: in vectors, the
// part of either plane's fall along it, (0.04, 0)·(1, 2)/√5 and (0, 0.02)·(1, 2)/√5.
func TestEndFallsOfTheirOwnByHand(t *testing.T) {
	j := job.New()
	j.Former.Ends, j.Former.EndSlope = job.EndsFalling, 0.04
	l := place(t, j)
	near(t, "at the left", l.Fall.At(plan.Point{0, 1880}), 12)
	near(t, "where the main plane takes over", l.Fall.At(plan.Point{0, 1217}), 12)
	for _, c := range l.Creases() {
		near(t, "fall of a crease", c.Slope, 0.04/math.Sqrt(5))
		near(t, "length of a crease", c.LengthMM(), 300*math.Sqrt(5))
	}
	j.Former.Turn(0.01)
	k := l.WithSlope(0.02, 0.01)
	for i, p := range place(t, j).Fall {
		near(t, "turned", k.Fall[i].At(plan.Point{100, 1200}), p.At(plan.Point{100, 1200}))
	}
}

// A drain that reaches its side, but for a joint and a cut tile, has no end there.
func TestEndsThatAreReached(t *testing.T) {
	for _, c := range []struct {
		length, offset float64
		planes         int
	}{{800, 0, 3}, {1320, 0, 1}, {1319, 0, 3}, {1319, -0.6, 2}, {1000, 200, 2}} {
		j := job.New()
		j.Former.Ends, j.Drain.LengthMM, j.Drain.OffsetMM = job.EndsFalling, c.length, c.offset
		if n := len(place(t, j).Planes); n != c.planes {
			t.Errorf("a drain of %v, %v off: %d planes, want %d", c.length, c.offset, n, c.planes)
		}
	}
}

// What end falls leave level, and the volume under all planes, counted on a grid that asks
// for nothing but where the drain is: a point off its ends rises with how far it is past
// them, one before it with how far it is before it, whichever is more.
func TestEndFallsAgainstCounting(t *testing.T) {
	for _, k := range []job.FallKind{job.FallBack, job.FallFront, job.FallLeft, job.FallRight, job.FallMid} {
		j := job.New()
		j.Former.Fall, j.Former.Ends, j.Drain.LengthMM = k, job.EndsFalling, 500
		l := place(t, j)
		const step = 4.0
		want, level := 0.0, 0.0
		away := plan.Left(l.DrainAlong)
		if k != job.FallMid && l.Shower.Centroid().Sub(l.DrainCentre).Dot(away) < 0 {
			away = away.Mul(-1)
		}
		for x := step / 2; x < 1400; x += step {
			for y := 1000 + step/2; y < 1900; y += step {
				d := plan.Point{x, y}.Sub(l.DrainCentre)
				past, before := math.Abs(d.Dot(l.DrainAlong))-250, d.Dot(away)-35
				if k == job.FallMid {
					before = math.Abs(d.Dot(away)) - 35
				}
				z := 0.02 * math.Max(0, math.Max(past, before))
				if want += z * step * step; z == 0 {
					level += step * step
				}
			}
		}
		if got := l.Fall.Integral(l.FallArea); math.Abs(got-want) > 1e-3*want {
			t.Errorf("%s: %v mm³ under the fall, counted %v", k, got, want)
		}
		if got := l.Level.Area() + 500*70; math.Abs(got-level) > 2000 {
			t.Errorf("%s: %v mm² level, counted %v", k, got, level)
		}
	}
}
