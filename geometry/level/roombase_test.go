package level

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry/job"
)

// The highest stack within a height by hand, of boards of 6, 10, 12, 20, 30, 40, 50, 60, 80
// and 100 with 2 to 4 between: a further board must bring 3 more.
func TestStackWithin(t *testing.T) {
	base := &job.Base{BoardsMM: []float64{6, 10, 12, 20, 30, 40, 50, 60, 80, 100}, BetweenLeastMM: 2, BetweenGreatestMM: 4}
	for _, c := range []struct {
		withinMM float64
		boards   []float64
		between  float64
	}{
		{5.9, nil, 0},
		{6, []float64{6}, 0},
		{100, []float64{100}, 0},
		// 80 + 20 with 3 between are 3 more, which is not worth a board.
		{103, []float64{100}, 0},
		// 8 more than 100; 100 + 6 with 3.9 rounds down to 3.5.
		{109.9, []float64{100, 6}, 3.5},
		{115.5, []float64{100, 12}, 3.5},
		// With 4 they are 4 more; 60 + 40 are as high, with a thinner one below.
		{104.2, []float64{80, 20}, 4},
	} {
		got, ok := stackWithin(base, c.withinMM)
		if ok != (len(c.boards) > 0) || !slices.Equal(got.BoardsMM(), c.boards) || math.Abs(got.BetweenMM-c.between) > 1e-9 {
			t.Errorf("within %v: %v with %v between", c.withinMM, got.BoardsMM(), got.BetweenMM)
		}
	}
}
