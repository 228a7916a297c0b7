package section_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// Behind a reducer from a bore of 46 to one of 70 the water stands at its share of
// 70; in the reducer it goes over from the one depth to the other, over inverts at 12.5 and
// at 10.
func TestWaterBehindAReducer(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 300, LengthMM: 100, Pipe: part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 70, SocketOutsideMM: 75 + 7, InsertionMM: 20}}}
	})
	d := section.LongOf(r)
	var depths [2]float64
	for i, w := range r.Water.Pieces {
		depths[i] = w.DepthShare * []float64{46, 70}[i]
	}
	for _, want := range []plan.Point{{300, (12.5 + depths[0]) * d.Rise}, {400, (10 + depths[1]) * d.Rise}, {300, 12.5 * d.Rise}, {400, 10 * d.Rise}} {
		if water := named(d, "pipe-2-water"); len(water) != 1 || !slices.ContainsFunc(water[0].Region[0].Outer, func(p plan.Point) bool { return near(p, want) }) {
			t.Errorf("in the reducer the water has no corner at %v: %+v", want, water)
		}
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
	// The reducer's body tapers between its sockets, which are 20 deep: their tops from 51.5
	// over the invert at 12.5 to 76 over it at 10. At their ends it steps by 3.5.
	var body plan.Ring
	for _, poly := range named(d, "pipe-2")[0].Region {
		body = append(body, poly.Outer...)
	}
	for _, want := range []plan.Point{{300, (12.5 + 51.5) * d.Rise}, {400, (10 + 76) * d.Rise}, {300, (12.5 - 5.5) * d.Rise}, {400, (10 - 6) * d.Rise},
		{320, (12 + 51.5) * d.Rise}, {320, (12 + 48) * d.Rise}, {380, (10.5 + 72.5) * d.Rise}, {380, (10.5 + 76) * d.Rise}} {
		there := false
		for _, p := range body {
			there = there || near(p, want)
		}
		if !there {
			t.Errorf("the reducer has no corner at %v: %v", want, body)
		}
	}
}

// The trap's water in the long section by hand, from the trap's left end at −110: in all
// of the body, 2.5 in, up to the chamber's floor, then before the weir's plate at −25.
// Under the chamber there is none where its floor lies on the body's.
func TestWaterInTheTrap(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		area   float64 // without the rise
	}{
		"a weir":             {func(*job.Job) {}, 105*15 + 82.5*45.5},
		"on the floor":       {func(j *job.Job) { j.Drain.OutletInvertDepthMM = 90 }, 82.5 * 60.5},
		"outlet at the weir": {func(j *job.Job) { j.Drain.OutletInvertDepthMM = 32 }, 105 * 60.5},
		"outlet over it":     {func(j *job.Job) { j.Drain.OutletInvertDepthMM = 30 }, 105 * 62.5},
	} {
		r := starting(t, func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69 }, c.change)
		d := section.LongOf(r)
		if got := named(d, "trap-water")[0].Region.Area() / d.Rise; math.Abs(got-c.area) > 1e-3 {
			t.Errorf("%s: water of %v mm², by hand %v", name, got, c.area)
		}
	}
	dry := starting(t, func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Drain.OutletInvertDepthMM, j.Drain.WeirDepthMM = 95, 95
	})
	if got := named(section.LongOf(dry), "trap-water"); len(got) > 0 {
		t.Errorf("a weir under the floor holds %+v", got)
	}
}

// The seal's dimension stands beside the trap: off the outlet's pipe, or else towards the
// middle of the floor, from 1 mm on, once the trap is there. It can be typed on where the
// body holds what is stated: a weir at 54, with 50 + 10 + 2.5, lacks 21.5 of 95.
func TestSealIsDimensioned(t *testing.T) {
	seals := func(d section.Drawing) (out []section.Dimension) {
		for _, m := range d.Dimensions {
			if m.Text.ID == "dimension.seal" {
				out = append(out, m)
			}
		}
		return out
	}
	along := func(r geometry.Result) solid.Cut { return solid.VerticalCut(r.Layout.TrapCentre, r.Layout.DrainAlong) }
	for name, c := range map[string]struct {
		change func(*job.Job)
		cut    func(geometry.Result) solid.Cut
		want   []section.Dimension
	}{
		"with the pipe":    {func(*job.Job) {}, along, []section.Dimension{{From: plan.Point{55, 13}, To: plan.Point{55, 63}, Text: sealed(50), Row: 1, Side: right, Key: "drain.sealMM"}}},
		"the other way":    {func(j *job.Job) { j.Drain.OutletTurnDeg = 0; j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 1, 1832 }, along, []section.Dimension{{From: plan.Point{-55, 13}, To: plan.Point{-55, 63}, Text: sealed(50), Row: 1, Side: left, Key: "drain.sealMM"}}},
		"a drain in front": {falls(job.FallFront), section.ThroughDrain, []section.Dimension{{From: plan.Point{55, 13}, To: plan.Point{55, 63}, Text: sealed(50), Row: 1, Side: right, Key: "drain.sealMM"}}},
		"less than stated": {func(j *job.Job) { j.Drain.WeirDepthMM = 54 }, section.ThroughDrain, []section.Dimension{{From: plan.Point{-55, 12.5}, To: plan.Point{-55, 41}, Text: sealed(28.5), Row: 1, Side: left}}},
		"hardly a seal":    {func(j *job.Job) { j.Drain.SealMM = 0.9 }, section.ThroughDrain, nil},
		"beside the trap":  {func(*job.Job) {}, func(r geometry.Result) solid.Cut { return solid.VerticalCut(plan.Point{400, 1832}, plan.Point{0, 1}) }, nil},
	} {
		r := starting(t, func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69 }, c.change)
		expectDimensions(t, name, seals(section.Of(r, c.cut(r), buildup.StageTile)), c.want)
	}
	r := starting(t)
	for stage, want := range map[buildup.Stage]int{buildup.StageBase: 0, buildup.StageWaste: 1} {
		if got := seals(through(r, stage)); len(got) != want {
			t.Errorf("stage %v: %+v", stage, got)
		}
	}
}
