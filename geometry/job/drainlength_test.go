package job_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
)

// A side of 1400, or 900 at the left and right, less 13 at both ends: 1374 and 874. 50 off
// the middle it is 100 shorter. Of 600, 800 and 1200 the longest within that; of 1500
// alone that one, though it does not fit.
func TestDrainAsLongAsItsSide(t *testing.T) {
	sold := []float64{600, 800, 1200}
	for _, c := range []struct {
		fall   job.FallKind
		stated float64
		offset float64
		sold   []float64
		want   float64
		moves  float64
	}{
		{job.FallBack, 0, 0, nil, 1374, 0}, {job.FallFront, 0, 0, nil, 1374, 0}, {job.FallMid, 0, 50, nil, 1274, 0}, {job.FallLeft, 0, 0, nil, 874, 0},
		{job.FallRight, 0, -50, nil, 774, 0}, {job.FallBack, 0, 0, sold, 1200, 87}, {job.FallBack, 0, 87, sold, 1200, 87}, {job.FallBack, 0, -87.1, sold, 800, 87},
		{job.FallLeft, 0, 0, sold, 800, 37}, {job.FallBack, 0, 0, []float64{1500}, 1500, 0}, {job.FallBack, 700, 0, sold, 700, 87}, {job.FallPoint, 0, 0, sold, 70, 0},
	} {
		j := job.New()
		j.Former.Fall, j.Drain.LengthMM, j.Drain.OffsetMM, j.Drain.SoldLengthsMM = c.fall, c.stated, c.offset, c.sold
		if got := j.DrainLengthMM(); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%+v: %v long", c, got)
		}
		if got := j.DrainMovesMM(); c.fall.Linear() && math.Abs(got-c.moves) > 1e-9 {
			t.Errorf("%+v: moves %v", c, got)
		}
	}
}

// A length is nought or that of a drain; lengths that it is sold in go up.
func TestDrainLengthsThatCannotBe(t *testing.T) {
	lengths := func(stated float64, sold ...float64) func(*job.Job) {
		return func(j *job.Job) { j.Drain.LengthMM, j.Drain.SoldLengthsMM = stated, sold }
	}
	eachOf(t, map[string]problemCase{
		"as long as its side":    {lengths(0), ""},
		"the shortest":           {lengths(50), ""},
		"too short":              {lengths(49), "drain.lengthMM"},
		"sold, going up":         {lengths(0, 600, 700), ""},
		"sold, twice the same":   {lengths(0, 600, 600), "drain.soldLengthsMM[1]"},
		"sold, too short":        {lengths(0, 40, 600), "drain.soldLengthsMM[0]"},
		"sold only too long":     {lengths(0, 1500), "drain.offsetMM"},
		"too wide for any as it": {func(j *job.Job) { j.Drain.LengthMM, j.Drain.OffsetMM = 0, 676 }, "drain.offsetMM"},
	})
}
