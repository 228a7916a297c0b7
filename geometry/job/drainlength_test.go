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
		if least, most := j.DrainMovesMM(); c.fall.Linear() && (math.Abs(most-c.moves) > 1e-9 || math.Abs(least+c.moves) > 1e-9) {
			t.Errorf("%+v: moves %v to %v", c, least, most)
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

// A shower of 1400 by 900 whose right and front are open. A kerb of 100 takes 100 off the
// right end of a drain along the back or across the middle, and of one along the front,
// and off the front end of one at the left or right; a wall's finish takes 13. In the
// middle both ends keep the greater: 1400 − 200 and 900 − 200. 43.5 to the left the drain
// has all of 1400 − 13 − 100. It goes back to 13 + 600 − 700 and no farther than the
// middle, or of 800 sold to 13 + 400 − 700 and to 700 − 100 − 400. A narrower kerb than
// the finish changes nothing, nor does one where its end is at a wall.
func TestDrainLeavesRoomForAKerb(t *testing.T) {
	for _, c := range []struct {
		fall            job.FallKind
		kerb, offset    float64
		sold            []float64
		want            float64
		least, greatest float64
	}{
		{job.FallBack, 100, 0, nil, 1200, -87, 0}, {job.FallMid, 100, 0, nil, 1200, -87, 0}, {job.FallFront, 100, 0, nil, 1200, -87, 0},
		{job.FallLeft, 100, 0, nil, 700, -87, 0}, {job.FallRight, 100, 0, nil, 700, -87, 0}, {job.FallBack, 100, -43.5, nil, 1287, -87, 0},
		{job.FallBack, 100, 20, nil, 1160, -87, 0}, {job.FallBack, 100, 0, []float64{600, 800, 1300}, 800, -287, 200}, {job.FallBack, 10, 0, nil, 1374, 0, 0},
	} {
		j := job.New()
		j.Former.Fall, j.Drain.LengthMM, j.Drain.OffsetMM, j.Drain.SoldLengthsMM = c.fall, 0, c.offset, c.sold
		j.Shower.Kerb = &job.Kerb{HeightMM: 50, WidthMM: c.kerb}
		if got := j.DrainLengthMM(); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%+v: %v long", c, got)
		}
		if least, most := j.DrainMovesMM(); math.Abs(least-c.least) > 1e-9 || math.Abs(most-c.greatest) > 1e-9 {
			t.Errorf("%+v: moves %v to %v", c, least, most)
		}
	}
	walled := job.New()
	walled.Shower.WidthMM, walled.Shower.OffsetMM, walled.Drain.LengthMM = 2400, 0, 0
	walled.Shower.Kerb = &job.Kerb{HeightMM: 50, WidthMM: 100}
	if got := walled.DrainLengthMM(); got != 2374 {
		t.Errorf("from wall to wall %v", got)
	}
}
