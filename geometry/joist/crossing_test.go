package joist_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// timberRoom has joists along y, 47 × 200, at x = 300, 700, 1100 …, spanning
// 2000 mm, under a 20 mm deck; the base is let in so that the pipe runs among
// them to the left wall.
func timberRoom() job.Job {
	j := job.New()
	j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 2000}, {0, 2000}}
	j.Floor = job.Floor{Kind: job.FloorTimber, Deck: job.Deck{ThicknessMM: 20},
		Joists: job.Joists{DepthMM: 200, WidthMM: 47, SpacingMM: 400, DirectionDeg: 270, FirstOffsetMM: 300, SupportsMM: []float64{0, 2000}}}
	j.Base.Support, j.Base.Height, j.Base.HeightMM = job.BetweenJoists, job.HeightChosen, 0
	j.Waste.Exit.OffsetMM = 68
	return j
}

func find(j job.Job) []joist.Crossing {
	l := layout.Of(j, &plan.Shaper{})
	return joist.Find(j, l, level.Solve(j, l, waste.Lay(j, l), 0))
}

// By hand: the flange is at 0 + 3 + 20 = 23, the outlet's invert at −52, its
// centre at −29. At joist 1 (x 300, measured from the wall at 0) the pipe has
// run 345 mm at 1:40 and lies 8.625 lower. Its hole of 50 + 2·3 mm, level
// −37.6, reaches from −65.6 to −9.6: over the joist's top at −20, a notch
// 45.6 deep. y = 1932 is 68 from the support at 2000: 0.034 of the span.
func TestNotchByHand(t *testing.T) {
	cuts := find(timberRoom())
	if len(cuts) != 1 {
		t.Fatalf("%d crossings, want 1: %+v", len(cuts), cuts)
	}
	c := cuts[0]
	if c.Kind != joist.Notch {
		t.Errorf("a %s, want a notch", c.Kind)
	}
	if got := c.TopMM - c.CutLowMM(); math.Abs(got-(65.625-20)) > 0.7 {
		t.Errorf("notch %v deep, want about 45.6", got)
	}
	if math.Abs(c.ZoneShare()-0.034) > 1e-6 {
		t.Errorf("zone %v, want 0.034", c.ZoneShare())
	}
	if math.Abs(c.LengthMM()-56) > 1e-6 {
		t.Errorf("notch %v long, want 56", c.LengthMM())
	}
}

// Lower the outlet and the notch becomes a hole; lower still, the joist is
// severed; raise it and nothing is cut.
func TestKinds(t *testing.T) {
	for _, c := range []struct {
		outlet float64
		want   joist.Kind
	}{{75, joist.Notch}, {150, joist.Hole}, {230, joist.Severed}, {20, ""}} {
		j := timberRoom()
		j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = c.outlet, c.outlet+20
		cuts := find(j)
		switch {
		case c.want == "" && len(cuts) > 0:
			t.Errorf("outlet %v: %d cuts, want none", c.outlet, len(cuts))
		case c.want != "" && (len(cuts) != 1 || cuts[0].Kind != c.want):
			t.Errorf("outlet %v: %+v, want one %s", c.outlet, cuts, c.want)
		}
	}
}

// A joist exactly along the run is met over its whole length and reported
// once, as severed or cut along, not missed.
func TestJoistAlongTheRun(t *testing.T) {
	j := timberRoom()
	j.Floor.Joists.DirectionDeg = 0
	j.Floor.Joists.FirstOffsetMM = 1932 - 400*4 // a joist right under the run
	if cuts := find(j); len(cuts) != 1 || cuts[0].Kind != joist.Severed {
		t.Errorf("%+v, want the joist under the run once, severed", cuts)
	}
}
