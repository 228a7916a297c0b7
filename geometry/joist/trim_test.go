package joist_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// The room of TestOpeningByHand, the joist at x = 1100 cut from y = 1700 to 1400. Second
// joists lie at x from 723.5 to 770.5 and from 1429.5 to 1476.5, trimmers at y from 1747 to
// 1700 and from 1400 to 1353. Beside the pieces the bays are 1076.5 − 770.5 wide and
// 1400 − 1123.5 to the deck's edge, 2000 − 1747 and 1353 − 1100 long; the opening is
// 1400 − 770.5 wide and 300 long. Trimmers carry the boards that end at them. Noggins: as
// before in the first two bays; beside the pieces one at the wall, and one for deck and
// boards each at the front. Past the second joist the deck reaches 1429.5 − 1400.
func TestBaysOfATrimmedOpening(t *testing.T) {
	j := timberRoom()
	j.Floor.Joists.Trims = []job.Trim{{Joist: 3, FromMM: 300, ToMM: 600}}
	bare, _ := opening(j)
	j.Base.NogginSpacingMM = 500
	o, ok := opening(j)
	if !ok || len(o.Bays) != 7 || len(bare.Bays) != 7 {
		t.Fatalf("%+v", o)
	}
	if len(o.Noggins) != 3+3+2*1+0+2*2 || len(bare.Noggins) != 0 {
		t.Errorf("%d noggins, want 12", len(o.Noggins))
	}
	for i, want := range []struct {
		wide, clear, along, edge float64
		middle                   plan.Point
	}{
		2: {306, 306 - 76, 253, 0, plan.Point{(770.5 + 1076.5) / 2, (2000 + 1747) / 2.0}},
		3: {276.5, 2 * (276.5 - 38), 253, 0, plan.Point{(1123.5 + 1400) / 2, (2000 + 1747) / 2.0}},
		4: {629.5, 2 * (629.5 - 38), 300, 0, plan.Point{(770.5 + 1400) / 2, 1550}},
		5: {306, 306 - 76, 253, 306, plan.Point{(770.5 + 1076.5) / 2, (1353 + 1100) / 2.0}},
		6: {276.5, 2 * (276.5 - 38), 253, 276.5, plan.Point{(1123.5 + 1400) / 2, (1353 + 1100) / 2.0}},
	} {
		if i < 2 {
			continue
		}
		b, without := o.Bays[i], bare.Bays[i]
		if math.Abs(b.WideMM-want.wide) > 1e-9 || math.Abs(b.ClearMM-want.clear) > 1e-9 || math.Abs(b.AlongMM-want.along) > 1e-9 || b.EdgeMM != 0 ||
			b.Middle.Sub(want.middle).Len() > 1e-9 {
			t.Errorf("bay %d: %+v, want %+v", i+1, b, want)
		}
		if !math.IsInf(without.AlongMM, 1) || math.Abs(without.EdgeMM-want.edge) > 1e-9 {
			t.Errorf("bay %d without noggins: %+v, want an edge of %v", i+1, without, want.edge)
		}
	}
	if math.Abs(o.OverhangMM-29.5) > 1e-9 {
		t.Errorf("the deck reaches %v past its joist, want 29.5", o.OverhangMM)
	}
}

// As before, with the joist at x = 700 cut as well: the second joist before lies at x from
// 323.5 to 370.5. Three bays beside the pieces, 676.5 − 370.5, 353 and 276.5 to the deck's
// edge, and an opening 1400 − 370.5 wide. On ledgers at one side alone what reaches past
// them counts twice; so do the boards of the first bay on the trimmer alone, as the pipe
// passes where a noggin would lie at the wall.
func TestBaysOfTwoTrimmedJoists(t *testing.T) {
	j := timberRoom()
	j.Floor.Joists.Trims = []job.Trim{{Joist: 2, Further: 1, FromMM: 300, ToMM: 600}}
	o, ok := opening(j)
	if !ok || len(o.Bays) != 8 {
		t.Fatalf("%+v", o)
	}
	j.Base.NogginSpacingMM = 500
	held, _ := opening(j)
	for i, want := range []struct {
		wide, clear, along, edge float64
		middle                   plan.Point
	}{
		1: {306, 306 - 76, 2 * 253, 0, plan.Point{(370.5 + 676.5) / 2, (2000 + 1747) / 2.0}},
		2: {353, 353 - 76, 253, 0, plan.Point{900, (2000 + 1747) / 2.0}},
		3: {276.5, 2 * (276.5 - 38), 253, 0, plan.Point{(1123.5 + 1400) / 2, (2000 + 1747) / 2.0}},
		4: {1029.5, 2 * (1029.5 - 38), 300, 0, plan.Point{(370.5 + 1400) / 2, 1550}},
		5: {306, 306 - 76, 253, 306, plan.Point{(370.5 + 676.5) / 2, (1353 + 1100) / 2.0}},
		6: {353, 353 - 76, 253, 353, plan.Point{900, (1353 + 1100) / 2.0}},
		7: {276.5, 2 * (276.5 - 38), 253, 276.5, plan.Point{(1123.5 + 1400) / 2, (1353 + 1100) / 2.0}},
	} {
		if i == 0 {
			continue
		}
		b, with := o.Bays[i], held.Bays[i]
		if math.Abs(b.WideMM-want.wide) > 1e-9 || math.Abs(b.ClearMM-want.clear) > 1e-9 || b.Middle.Sub(want.middle).Len() > 1e-9 || math.Abs(b.EdgeMM-want.edge) > 1e-9 {
			t.Errorf("bay %d: %+v, want %+v", i+1, b, want)
		}
		if math.Abs(with.AlongMM-want.along) > 1e-9 {
			t.Errorf("bay %d with noggins: boards reach %v, want %v", i+1, with.AlongMM, want.along)
		}
	}
}

// Joists along X at y = 220, 670 … 2020, the fourth, at 1570, cut from x = 200 on. The
// trimmer takes x from 153 to 200 and runs from 1120 + 70.5 to 2020 − 70.5: the pipe at
// y = 1932 comes through it 17.5 from its end. Cut in the joist before, it ends at 1499.5.
func TestPipeThroughATrimmer(t *testing.T) {
	j := timberRoom()
	j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.SpacingMM, j.Floor.Joists.SupportsMM = 0, 220, 450, nil
	j.Floor.Joists.Trims = []job.Trim{{Joist: 4, FromMM: 200, ToMM: 900}}
	cuts := find(j)
	if len(cuts) != 1 || cuts[0].Joist.Member != layout.Trimmer || cuts[0].Joist.Number != 1 {
		t.Fatalf("%+v", cuts)
	}
	c := cuts[0]
	if math.Abs(c.SupportMM-17.5) > 1e-9 || math.Abs(c.SpanMM-759) > 1e-9 || c.At.Sub(plan.Point{176.5, 1932}).Len() > 1e-9 || c.Kind == joist.Severed {
		t.Errorf("%+v", c)
	}
	j.Floor.Joists.Trims[0].Joist = 3
	if cuts := find(j); len(cuts) != 0 {
		t.Errorf("past the trimmer's end: %+v", cuts)
	}
}

// A joist at x = 300 is cut through by a pipe at y = 1932, 68 from its start; what is cut
// out of it from the start to 300 is not. Cut from 400 on, the piece before the trimmer
// bears on the floor's support at 0 and hangs at 353.
func TestPipeThroughWhatIsCutOut(t *testing.T) {
	j := timberRoom()
	j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.SpacingMM = 150, 300 // x = 150, 450, 750
	number := func(trims ...job.Trim) (pierced []int) {
		j.Floor.Joists.Trims = trims
		for _, c := range find(j) {
			if c.Joist.Member != layout.SecondJoist {
				pierced = append(pierced, c.Joist.Number)
			}
		}
		return pierced
	}
	if got := number(); len(got) != 2 || got[0] != 1 || got[1] != 2 {
		t.Errorf("whole: joists %v", got)
	}
	if got := number(job.Trim{Joist: 2, FromMM: 0, ToMM: 300}); len(got) != 1 || got[0] != 1 {
		t.Errorf("cut out: joists %v", got)
	}
	if got := number(job.Trim{Joist: 2, FromMM: 400, ToMM: 900}); len(got) != 2 || got[1] != 2 {
		t.Fatalf("in a piece: joists %v", got)
	}
	for _, c := range find(j) {
		if c.Joist.Number == 2 && c.Joist.Member == layout.CutJoist && (math.Abs(c.SupportMM-68) > 1e-9 || math.Abs(c.SpanMM-353) > 1e-9) {
			t.Errorf("%v from a support of a span of %v, want 68 of 353", c.SupportMM, c.SpanMM)
		}
	}
}

// The joists at x = 700 and 1100, 2000 long, are cut out from 300 to 600 along them, and
// with them what trimmers 47 thick take. Those run from second joists at 370.5 to 1429.5.
// Four ends hang on trimmers, and two trimmers on second joists.
func TestCuttingByHand(t *testing.T) {
	of := func(trims ...job.Trim) joist.Cutting {
		j := timberRoom()
		j.Floor.Joists.Trims = trims
		l := layout.Of(j, &plan.Shaper{})
		return joist.CuttingOf(&j, &l)
	}
	got := of(job.Trim{Joist: 2, Further: 1, FromMM: 300, ToMM: 600})
	want := joist.Cutting{WidthMM: 47, DepthMM: 200, From: 2, Start: 3, // walls B at the left and C at the back: the joists run to the front
		Out:      []joist.SawnOut{{Joist: 2, FromMM: 253, ToMM: 647}, {Joist: 3, FromMM: 253, ToMM: 647}},
		Trimmers: []joist.Length{{Number: 1, LengthMM: 1059}, {Number: 2, LengthMM: 1059}},
		Seconds:  []joist.Length{{Number: 1, LengthMM: 2000}, {Number: 4, LengthMM: 2000}},
		Hangers:  8,
	}
	if !cmp.Equal(got, want, cmpopts.EquateApprox(0, 1e-9)) {
		t.Errorf("%+v, want %+v", got, want)
	}
	if lines := got.Lines(); len(lines) != 2+2+2+1+1 {
		t.Errorf("%d lines: %v", len(lines), lines)
	}
	// Cut back to their starts: one trimmer, two ends on it.
	if got := of(job.Trim{Joist: 2, Further: 1, ToMM: 600}); got.Hangers != 4 || len(got.Trimmers) != 1 || got.Out[1] != (joist.SawnOut{Joist: 3, ToMM: 647}) {
		t.Errorf("from the start: %+v", got)
	}
	if got := of(); len(got.Lines()) != 0 {
		t.Errorf("whole: %v", got.Lines())
	}
}
