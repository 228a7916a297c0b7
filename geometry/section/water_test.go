package section_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Behind a reducer from a bore of 46 to one of 70 the water stands at its share of
// 70; in the reducer none is drawn.
func TestWaterBehindAReducer(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 300, LengthMM: 100, Pipe: part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 70, SocketOutsideMM: 75 + 7}}}
	})
	d := section.LongOf(r)
	if got := named(d, "pipe-2-water"); len(got) > 0 {
		t.Errorf("in the reducer: %+v", got)
	}
	for _, w := range r.Water.Pieces {
		id, from, to, bore := "pipe-1-water", 0.0, 300.0, 46.0
		if w.Piece.Number == 3 {
			id, from, to, bore = "pipe-3-water", 400, 920, 70
		}
		low, high, _ := named(d, id)[0].Region.Bounds()
		if !near(low, plan.Point{from, (20 - 0.025*to) * d.Rise}) || !near(high, plan.Point{to, (20 - 0.025*from + w.DepthShare*bore) * d.Rise}) {
			t.Errorf("%s from %v to %v, %v of %v deep", id, low, high, w.DepthShare, bore)
		}
	}
	// The reducer's body tapers: its sockets' tops from 51.5 over the invert at 12.5 to 76
	// over it at 10.
	body := named(d, "pipe-2")[0].Region[0].Outer
	for _, want := range []plan.Point{{300, (12.5 + 51.5) * d.Rise}, {400, (10 + 76) * d.Rise}, {300, (12.5 - 5.5) * d.Rise}, {400, (10 - 6) * d.Rise}} {
		there := false
		for _, p := range body {
			there = there || near(p, want)
		}
		if !there {
			t.Errorf("the reducer has no corner at %v: %v", want, body)
		}
	}
}

// The trap's water stands up to its outlet, and at least 1 deep over its bottom of 2.
func TestWaterInTheTrap(t *testing.T) {
	for trap, want := range map[float64][2]float64{-10: {-8, 20}, 16.9: {18.9, 20}, 17: {19, 20}, 17.5: {19.5, 20.5}} {
		r := starting(t)
		r.Heights.TrapMM = trap
		d := section.LongOf(r)
		low, high, _ := named(d, "trap-water")[0].Region.Bounds()
		if !near(low, plan.Point{-110, want[0] * d.Rise}) || !near(high, plan.Point{0, want[1] * d.Rise}) {
			t.Errorf("a trap from %v: water from %v to %v, want levels %v", trap, low, high, want)
		}
	}
}
