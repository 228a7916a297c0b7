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

func opening(j job.Job) (joist.Opening, bool) {
	l := layout.Of(j, &plan.Shaper{})
	h := level.Solve(j, l, waste.Lay(j, l), 0)
	return joist.OpeningOf(&j, &l, &h)
}

// The shower takes x from 0 to 1400 and y from 1100 to 2000, the wall at its back; flanks
// of joists lie at x = 276.5 and 323.5, 676.5 and 723.5, 1076.5 and 1123.5, 1476.5. Beside
// the shower the deck reaches from 1476.5 back to 1400: 76.5. Two bays have ledgers of 38
// on both sides and 353 − 76 clear between them; the outer two, 276.5 wide, on one, and
// what reaches past it counts twice. Noggins 500 apart: at both ends and at y = 1550. The
// pipe, along y = 1932 to the left wall, takes the place of those at the wall in the first
// two bays; boards there reach 450 past the next.
func TestOpeningByHand(t *testing.T) {
	j := timberRoom()
	bare, ok := opening(j)
	if !ok || len(bare.Bays) != 4 || len(bare.Noggins) != 0 {
		t.Fatalf("%+v, %v", bare, ok)
	}
	j.Base.NogginSpacingMM = 500
	o, _ := opening(j)
	if len(o.Noggins) != 3+3+4+4 {
		t.Errorf("%d noggins, want 14", len(o.Noggins))
	}
	const outer, inner = 276.5, 353.0
	for i, want := range []struct{ wide, clear, along float64 }{
		{outer, 2 * (outer - 38), 900}, {inner, inner - 76, 900}, {inner, inner - 76, 450}, {outer, 2 * (outer - 38), 450},
	} {
		b, without := o.Bays[i], bare.Bays[i]
		if math.Abs(b.WideMM-want.wide) > 1e-9 || math.Abs(b.ClearMM-want.clear) > 1e-9 || math.Abs(b.AlongMM-want.along) > 1e-9 || b.EdgeMM != 0 || b.BearingMM != 38 {
			t.Errorf("bay %d: %+v, want %+v", i+1, b, want)
		}
		if !math.IsInf(without.AlongMM, 1) || math.Abs(without.EdgeMM-want.wide) > 1e-9 {
			t.Errorf("bay %d without noggins: %+v", i+1, without)
		}
	}
	if math.Abs(o.OverhangMM-76.5) > 1e-9 {
		t.Errorf("the deck reaches %v past its joist, want 76.5", o.OverhangMM)
	}
	// The one under the deck's edge in the first bay: from the wall to the joist, as wide
	// as a joist, from their tops down 20 of board and 38.
	n := o.Noggins[0]
	low, high, _ := plan.Region{{Outer: n.Ring}}.Bounds()
	if !n.UnderDeck || n.TopMM != 0 || n.DepthMM != 58 || low.Sub(plan.Point{0, 1053}).Len() > 1e-9 || high.Sub(plan.Point{276.5, 1100}).Len() > 1e-9 {
		t.Errorf("under the deck's edge %+v", n)
	}
	j.Floor.Joists.DirectionDeg = 250
	if o, ok := opening(j); ok {
		t.Errorf("askew to the joists: %+v", o)
	}
	j.Base.Support = job.OnFloor
	if _, ok := opening(j); ok {
		t.Error("a base on the floor has an opening")
	}
}

// Joists 120 apart leave bays of 73: ledgers of 35.5 with 2 between them.
func TestLedgersLeaveEachOtherRoom(t *testing.T) {
	j := timberRoom()
	j.Floor.Joists.SpacingMM = 120
	o, _ := opening(j)
	if b := o.Bays[3]; b.WideMM != 73 || b.BearingMM != 35.5 || b.ClearMM != 2 {
		t.Errorf("%+v", b)
	}
}
