package level_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/plan"
)

// near fails unless a number is as worked out by hand.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-6) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// Residuals by hand. A saddle of ±1 on the corners of a square is what no plane
// can follow: the plane is level at 0. The standard deviation about a plane is
// √(Σr²/(n − 3)) (JCGM 100:2008, H.3; from memory), and twice that holds 95 of
// 100: with the corners alone 2·√(4/1) = 4, with a reading of 0 in the middle
// 2·√(4/2). Readings in line give their mean: 0, 0, 0 and 4 give 1, residuals
// 1, 1, 1 and 3: 2·√(12/1). Three leave nothing over to tell by.
func TestResidualsByHand(t *testing.T) {
	saddle := [][3]float64{{0, 0, 1}, {2000, 0, -1}, {2000, 2000, 1}, {0, 2000, -1}}
	for name, c := range map[string]struct {
		readings      [][3]float64
		worst, uneven float64
		index         int
	}{
		"none":             {nil, 0, 0, -1},
		"one":              {[][3]float64{{5, 5, 7}}, 0, 0, 0},
		"saddle":           {saddle, 1, 4, 0},
		"saddle, middle":   {append(saddle[:4:4], [3]float64{1000, 1000, 0}), 1, 2 * math.Sqrt2, 0},
		"three":            {[][3]float64{{0, 0, 0}, {2000, 0, 5}, {0, 2000, 9}}, 0, 0, 0},
		"three in line":    {[][3]float64{{0, 0, 0}, {1000, 1000, 5}, {2000, 2000, 13}}, 7, 0, 2},
		"four in line":     {[][3]float64{{0, 0, 0}, {500, 500, 0}, {1000, 1000, 0}, {2000, 2000, 4}}, 3, 2 * math.Sqrt(12), 3},
		"worst below":      {[][3]float64{{0, 0, 4}, {500, 500, 0}, {1000, 1000, 4}, {2000, 2000, 4}}, 3, 2 * math.Sqrt(12), 1},
		"worst of two":     {[][3]float64{{0, 0, -3}, {500, 500, 1}, {1000, 1000, 3}, {2000, 2000, -1}}, 3, 2 * math.Sqrt(20), 0},
		"a hair off":       {[][3]float64{{0, 0, 0}, {500, 500, 0}, {1000, 1000, 0}, {2000, 2000, 4e-8}}, 3e-8, 0, 0},
		"a hundredth more": {[][3]float64{{0, 0, 0}, {500, 500, 0}, {1000, 1000, 0}, {2000, 2000, 4e-5}}, 3e-5, 2e-5 * math.Sqrt(12), 3},
	} {
		s := level.Measure(spots(c.readings...), nil, 0)
		near(t, name+", worst residual", s.WorstResidualMM, c.worst)
		near(t, name+", unevenness", s.UnevenMM, c.uneven)
		if s.WorstIndex != c.index || (c.uneven == 0) != (s.UnevenMM == 0) {
			t.Errorf("%s: worst is reading %d, want %d; uneven by %v", name, s.WorstIndex, c.index, s.UnevenMM)
		}
	}
}

// Readings count as a plane when they reach more than a millimetre to the sides
// of the line they best lie on, as the root of their mean square. Two 2000 apart
// and one between them d aside lie d/3, d/3 and 2d/3 off: √(6d²/9/3) = 0.4714·d,
// so the border is d = 2.1213, whichever way the line runs.
func TestReadingsNearlyInLine(t *testing.T) {
	for _, deg := range []float64{0, 30, 45, 90, 120, 200} {
		s, c := math.Sincos(deg * math.Pi / 180)
		at := func(along, aside float64) plan.Point {
			return plan.Point{300 + along*c - aside*s, -900 + along*s + aside*c}
		}
		for aside, isPlane := range map[float64]bool{2.10: false, -2.10: false, 2.14: true, -2.14: true} {
			got := level.Measure([]job.SpotLevel{{At: at(0, 0), LevelMM: 0}, {At: at(2000, 0), LevelMM: 20}, {At: at(1000, aside), LevelMM: 10}}, nil, 0)
			if isPlane {
				near(t, fmt.Sprintf("fall along a line at %v°, %v aside", deg, aside), got.Floor.Gradient(), 0.01)
			} else if got.Floor.Gradient() != 0 {
				t.Errorf("line at %v°, %v aside: falls by %v", deg, aside, got.Floor.Gradient())
			}
		}
	}
}

// The starting shower lies at x from 0 to 1400, y from 1000 to 1900. A reading
// of 6 there and one of 0 far off give a level floor at 3; the board lies on the
// reading, which stands 3 proud. It counts up to 150 mm round the shower (common
// practice, no source). A reading below the floor makes nothing lower, and a
// floor that rises 10 mm/m to the right is highest at x = 1400.
func TestHighSpotsByHand(t *testing.T) {
	far := [3]float64{2300, 100, 0}
	middle := plan.Point{700, 1450} // of the shower, 1400 by 900 in the upper left corner
	for name, c := range map[string]struct {
		readings    [][3]float64
		high, proud float64
		at          plan.Point
	}{
		"none":          {nil, 0, 0, middle},
		"in the shower": {[][3]float64{{700, 1400, 6}, far}, 6, 3, plan.Point{700, 1400}},
		"149 aside":     {[][3]float64{{1549, 1450, 6}, far}, 6, 3, plan.Point{1549, 1450}},
		"151 aside":     {[][3]float64{{1551, 1450, 6}, far}, 3, 0, middle},
		"149 in front":  {[][3]float64{{700, 851, 6}, far}, 6, 3, plan.Point{700, 851}},
		"151 in front":  {[][3]float64{{700, 849, 6}, far}, 3, 0, middle},
		"a low one":     {[][3]float64{{700, 1450, -6}, far}, -3, 0, middle},
		"a lower one":   {[][3]float64{{700, 1450, 6}, {1000, 1450, 0}}, 6, 3, plan.Point{700, 1450}},
		"the other way": {[][3]float64{{1000, 1450, 0}, {700, 1450, 6}}, 6, 3, plan.Point{700, 1450}},
		"rising floor":  {[][3]float64{{0, 0, 0}, {2400, 0, 24}, {0, 1900, 0}}, 14, 0, plan.Point{1400, 1450}},
		"falling floor": {[][3]float64{{0, 0, 0}, {2400, 0, -24}, {0, 1900, 0}}, 0, 0, plan.Point{0, 1450}},
		"to one corner": {[][3]float64{{0, 0, 0}, {2400, 0, -24}, {0, 1900, 19}}, 19, 0, plan.Point{0, 1900}},
	} {
		j := job.New()
		j.SpotLevels = spots(c.readings...)
		l, h := solve(j)
		near(t, name+", highest floor", h.FloorHighMM, c.high)
		near(t, name+", proud", h.ProudMM, c.proud)
		near(t, name+", from where that is", h.FloorHighAt.Sub(c.at).Len(), 0)
		near(t, name+", over the plane at a place", h.HighAt(&l, plan.Point{500, 1500})-h.Survey.Floor.At(plan.Point{500, 1500}), c.proud)
		near(t, name+", under the base", h.BaseUnderMM, c.high+3) // the adhesive
	}
}
