package level_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/plan"
)

// trapOf is the trap of the starting job with a change, its flange kept at 95: the body,
// 95 deep, stands at 0 and its floor ends at 2.5.
func trapOf(change func(*job.Job)) level.Trap {
	j := job.New()
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	change(&j)
	l, h := solve(j)
	return h.Trap(&j, &l)
}

// The water by hand. Weir 32, seal 50, passage 10 and floor 2.5 come to 94.5 of 95.
func TestTrapByHand(t *testing.T) {
	stated := func(weir, seal, passage, outlet, depth float64) func(*job.Job) {
		return func(j *job.Job) {
			d := &j.Drain
			d.WeirDepthMM, d.SealMM, d.PassageMM, d.OutletInvertDepthMM, d.TrapDepthMM = weir, seal, passage, outlet, depth
		}
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		// Levels of floor, dip, weir and water; seal and passage there are; what is short,
		// and how far the weir lies over the outlet and the outlet over the weir.
		want [9]float64
	}{
		"as it starts":      {func(*job.Job) {}, [9]float64{2.5, 13, 63, 63, 50, 10.5, 0, 43, 0}},
		"just room":         {stated(32.5, 50, 10, 75, 95), [9]float64{2.5, 12.5, 62.5, 62.5, 50, 10, 0, 42.5, 0}},
		"10 short":          {stated(42.5, 50, 10, 75, 95), [9]float64{2.5, 12.5, 52.5, 52.5, 40, 10, 10, 32.5, 0}},
		"all the seal lost": {stated(82.5, 50, 10, 95, 95), [9]float64{2.5, 12.5, 12.5, 12.5, 0, 10, 50, 12.5, 0}},
		"and passage":       {stated(87.5, 50, 10, 95, 95), [9]float64{2.5, 7.5, 7.5, 7.5, 0, 5, 55, 7.5, 0}},
		// A weir under the floor is at the floor, and holds nothing.
		"under the floor": {stated(100, 50, 10, 95, 95), [9]float64{2.5, 2.5, 2.5, 2.5, 0, 0, 67.5, 2.5, 0}},
		// A deeper body gives the dip more room than is asked for.
		"deep": {stated(32, 50, 10, 75, 145), [9]float64{-47.5, 13, 63, 63, 50, 60.5, 0, 43, 0}},
		// Where the outlet is the weir, and where it lies 8 over it.
		"at the weir":   {stated(32, 50, 10, 32, 95), [9]float64{2.5, 13, 63, 63, 50, 10.5, 0, 0, 0}},
		"over the weir": {stated(32, 50, 10, 24, 95), [9]float64{2.5, 13, 63, 71, 58, 10.5, 0, 0, 8}},
	} {
		x := trapOf(c.change)
		got := [9]float64{x.FloorMM, x.DipMM, x.WeirMM, x.WaterMM, x.SealMM, x.PassageMM, x.ShortByMM, x.InnerWeirMM, x.OverWeirMM}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("%s: %v, by hand %v", name, got, c.want)
				break
			}
		}
		if x.UnderMM != x.FloorMM-2.5 {
			t.Errorf("%s: the floor is %v thick", name, x.FloorMM-x.UnderMM)
		}
	}
}

// In plan, from the middle of a body 110 square towards its outlet. Where channel and
// body overlap the dip's outside is 5 in; of the way from its far side to 2.5 before the
// outlet's wall, which is 52.5 off, it has 0.6. Riser and chamber share the rest with a
// plate of 2.5.
func TestTrapInPlanByHand(t *testing.T) {
	for name, c := range map[string]struct {
		change        func(*job.Job)
		along, across plan.Interval
		plate         float64
	}{
		// The channel reaches 55 to the back from the trap's middle, on the right of who
		// looks left along it, and 15 to the room.
		"to the left":     {func(*job.Job) {}, plan.Interval{From: -50, To: 10}, plan.Interval{From: -50, To: 10}, 30},
		"to the right":    {func(j *job.Job) { j.Drain.OutletTurnDeg = 0 }, plan.Interval{From: -50, To: 10}, plan.Interval{From: -10, To: 50}, 30},
		"into the room":   {func(j *job.Job) { j.Drain.OutletTurnDeg = 270 }, plan.Interval{From: -50, To: 10}, plan.Interval{From: -50, To: 50}, 30},
		"to the back":     {func(j *job.Job) { j.Drain.OutletTurnDeg = 90 }, plan.Interval{From: -10, To: 26}, plan.Interval{From: -50, To: 50}, 38},
		"a short channel": {func(j *job.Job) { j.Drain.LengthMM = 50 }, plan.Interval{From: -20, To: 20}, plan.Interval{From: -50, To: 10}, 35},
	} {
		x := trapOf(c.change)
		same := func(a, b plan.Interval) bool {
			return math.Abs(a.From-b.From) < 1e-9 && math.Abs(a.To-b.To) < 1e-9
		}
		if !same(x.DipAlong, c.along) || !same(x.DipAcross, c.across) || math.Abs(x.PlateMM-c.plate) > 1e-9 || x.HalfMM != 52.5 {
			t.Errorf("%s: dip %v by %v, plate at %v of %v; by hand %v by %v, %v of 52.5", name, x.DipAlong, x.DipAcross, x.PlateMM, x.HalfMM, c.along, c.across, c.plate)
		}
	}
	// Inside its plates the dip is 55 square, and 10.5 over the floor.
	if x := trapOf(func(*job.Job) {}); math.Abs(x.PassageMM2()-4*55*10.5) > 1e-9 {
		t.Errorf("a passage of %v mm²", x.PassageMM2())
	}
}

// Whatever is stated, the water lies in the body, under it no dip goes through the floor,
// and dip, riser, plate and chamber have room beside each other.
func TestAnyTrapIsInItsBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		l, h := solve(j)
		x := h.Trap(&j, &l)
		if !(x.UnderMM < x.FloorMM && x.FloorMM <= x.DipMM && x.DipMM <= x.WeirMM && x.WeirMM <= x.WaterMM) {
			t.Fatalf("levels %+v", x)
		}
		if !(x.SealMM >= 0 && x.PassageMM >= 0 && x.ShortByMM >= 0 && x.InnerWeirMM >= 0 && x.OverWeirMM >= 0) || x.InnerWeirMM > 0 && x.OverWeirMM > 0 {
			t.Fatalf("heights %+v", x)
		}
		if x.ShortByMM == 0 && (x.SealMM < j.Drain.SealMM-1e-6 || x.PassageMM < j.Drain.PassageMM-1e-6) {
			t.Fatalf("of %v and %v there is %+v, with nothing short", j.Drain.SealMM, j.Drain.PassageMM, x)
		}
		// A dip has more than its two plates.
		if !(x.DipAlong.To-x.DipAlong.From > 5 && x.DipAcross.To-x.DipAcross.From > 5) {
			t.Fatalf("the dip %+v", x)
		}
		if !(x.DipAlong.From > -x.HalfMM && x.DipAlong.To < x.PlateMM && x.PlateMM+2.5 < x.HalfMM && x.DipAcross.From > -x.HalfMM && x.DipAcross.To < x.HalfMM) {
			t.Fatalf("in plan %+v", x)
		}
	})
}
