package waste_test

import (
	"math"
	"testing"

	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// pieces are 200 of pipe, a falling piece of 120 that falls 1:20, a reducer of 60
// the wrong way round from a bore of 46 to one of 36, and 620 of pipe, in line.
func pieces() waste.Run {
	large, small := part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46}, part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36}
	r := waste.Run{ExitAtMM: 1000, LengthMM: 1000, Exit: plan.Point{1000, 0}}
	at := 0.0
	for _, p := range []waste.Piece{{Kind: waste.Straight, ToMM: 200, Pipe: large, After: large}, {Kind: waste.FallingPiece, ToMM: 320, Pipe: large, After: large, OwnSlope: 0.05},
		{Kind: waste.Reducer, ToMM: 380, Pipe: large, After: small, Reversed: true}, {Kind: waste.Straight, ToMM: 1000, Pipe: small, After: small}} {
		p.FromMM = at
		p.Path = []plan.Point{{p.FromMM, 0}, {p.ToMM, 0}}
		at = p.ToMM
		r.Pieces = append(r.Pieces, p)
	}
	return r
}

// Pipes fall 1:50 here: 4 on the first 200. The falling piece falls 0.05·120 = 6 of
// its own. The reducer falls 1.2 over its 60 but rises 10 with its invert, the
// difference in bores, evenly. The last 620 fall 12.4.
func TestDropByHand(t *testing.T) {
	r := pieces()
	for at, want := range map[float64]float64{-10: 0, 0: 0, 100: 2, 200: 4, 260: 7, 320: 10, 350: 10.6 - 5, 380: 11.2 - 10, 500: 1.2 + 2.4, 1000: 13.6, 1200: 13.6, math.Inf(1): 13.6} {
		near(t, "drop", r.DropMM(at, 0.02), want)
	}
	r.Pieces[2].Reversed = false
	near(t, "drop with the reducer the right way round", r.DropMM(1000, 0.02), 23.6)
	near(t, "drop half through it", r.DropMM(350, 0.02), 10.6)
	// The drop at the end is no part of the fall, nor is what would follow.
	r.Pieces[3].Kind = waste.Drop
	near(t, "drop before the bend down", r.DropMM(1000, 0.02), 11.2)
	// A short reducer makes its whole step: of half a millimetre 0.01 − 10.
	r = pieces()
	r.Pieces = r.Pieces[2:3]
	r.Pieces[0].FromMM, r.Pieces[0].ToMM = 0, 0.5
	near(t, "drop over a short reducer", r.DropMM(1000, 0.02), -9.99)
	// A reducer without length makes no step that could be told from a division
	// by nothing.
	r.Pieces[0].ToMM = 0
	near(t, "drop over no length", r.DropMM(1000, 0.02), 0)
}

// From 100 to 60 the run must fall 40. Falling piece and reducer make 6 − 10 = −4 of
// it whatever the pipes do; 880 mm of pipe and reducer must do 44: 1:20. With
// less than a millimetre of free pipe nothing can be done.
func TestGradientToByHand(t *testing.T) {
	r := pieces()
	g, ok := r.GradientTo(100, 60)
	if !ok {
		t.Error("there is no pipe to fall")
	}
	near(t, "gradient", g, 0.05)
	r.ExitAtMM = 200 // the exit before all fittings: 40 on 200
	g, _ = r.GradientTo(100, 60)
	near(t, "gradient to a near exit", g, 0.2)
	for free, want := range map[float64]bool{0: false, 0.9: false, 1: true, 1.1: true} {
		r := waste.Run{ExitAtMM: 512 + free, Pieces: []waste.Piece{{Kind: waste.FallingPiece, ToMM: 512, OwnSlope: 0.125}, {Kind: waste.Straight, FromMM: 512, ToMM: 512 + free}}}
		g, ok := r.GradientTo(100, 60)
		if ok != want {
			t.Errorf("with %v of free pipe: %v", free, ok)
		}
		if !ok {
			near(t, "gradient without free pipe", g, 0)
		}
	}
}

// From an outlet at 100 the inverts are 100 less the drops worked out above, at
// the borders of pieces and between; before the run and after it, its ends.
func TestInvertsByHand(t *testing.T) {
	bare := pieces()
	r := bare.WithLevels(100, 0.02)
	for i, want := range [][2]float64{{100, 96}, {96, 90}, {90, 98.8}, {98.8, 86.4}} {
		near(t, "invert at a piece's start", r.Pieces[i].FromInvertMM, want[0])
		near(t, "invert at a piece's end", r.Pieces[i].ToInvertMM, want[1])
		if bare.Pieces[i].FromInvertMM != 0 || bare.Pieces[i].ToInvertMM != 0 {
			t.Error("the run that had no levels has them now")
		}
	}
	for at, want := range map[float64]float64{-50: 100, 0: 100, 100: 98, 200: 96, 260: 93, 320: 90, 350: 94.4, 380: 98.8, 690: 92.6, 1000: 86.4, 1500: 86.4, math.Inf(1): 86.4} {
		near(t, "invert", r.InvertAt(at), want)
	}
	near(t, "gradient of the reducer", r.Pieces[2].Gradient(), -8.8/60)
	near(t, "invert of no run", (&waste.Run{}).InvertAt(5), 0)
	// A piece without length has no invert between its ends.
	r.Pieces[0].ToMM = 0
	near(t, "invert past a piece without length", r.InvertAt(0), 96)
	one := waste.Run{Pieces: []waste.Piece{{FromMM: 0, ToMM: 0.5, FromInvertMM: 100, ToInvertMM: 90}}}
	near(t, "invert in a piece of half a millimetre", one.InvertAt(0.25), 95)
	drop := waste.Run{Pieces: []waste.Piece{{Kind: waste.Drop, FromInvertMM: 7, ToInvertMM: 7}}}
	near(t, "invert of a drop alone", drop.InvertAt(0), 7)
}

// The pipe at a border is the one before it; a reducer counts as the pipe
// before it over all its length; past the end it is what leaves the run.
func TestPipeAt(t *testing.T) {
	r := pieces()
	for at, want := range map[float64]float64{-1: 50, 0: 50, 200: 50, 320: 50, 350: 50, 380: 50, 380.1: 40, 1000: 40, 2000: 40} {
		if got := r.PipeAt(at).NominalMM; got != want {
			t.Errorf("at %v the pipe is %v, want %v", at, got, want)
		}
	}
	if got := r.Outgoing().NominalMM; got != 40 {
		t.Errorf("it leaves with %v", got)
	}
	r.Pieces = r.Pieces[:3]
	if got := r.Outgoing().NominalMM; got != 40 {
		t.Errorf("ending with a reducer it leaves with %v", got)
	}
	r.Pieces = r.Pieces[2:]
	if got := r.Outgoing().NominalMM; got != 40 {
		t.Errorf("of a reducer alone it leaves with %v", got)
	}
	if got := (&waste.Run{}).PipeAt(5); got != (part.Pipe{}) {
		t.Errorf("no run has a pipe %v", got)
	}
}

// Along 300, square to the left along 400, by a piece each, with points in
// between and some of them twice; then the drop in its place.
func TestPointsAlong(t *testing.T) {
	r := waste.Run{Exit: plan.Point{9, 9}, Pieces: []waste.Piece{
		{Kind: waste.Straight, ToMM: 300, Path: []plan.Point{{0, 0}, {0, 0}, {0.5, 0}, {300, 0}}},
		{Kind: waste.Straight, FromMM: 300, ToMM: 700, Path: []plan.Point{{300, 0}, {300, 0}, {300, 100}, {300, 400}}},
		{Kind: waste.Drop, FromMM: 700, ToMM: 700, Path: []plan.Point{{300, 400}}},
	}}
	for at, want := range map[float64]plan.Point{-20: {0, 0}, 0: {0, 0}, 0.25: {0.25, 0}, 100: {100, 0}, 299: {299, 0}, 300: {300, 0}, 301: {300, 1}, 350: {300, 50}, 400: {300, 100}, 500: {300, 200}, 700: {300, 400}} {
		nearPoint(t, "point", r.PointAt(at), want)
	}
	nearPoint(t, "point past the end", r.PointAt(800), plan.Point{9, 9}) // the exit
	r.Pieces = r.Pieces[:2]
	nearPoint(t, "end without a drop", r.PointAt(700), plan.Point{300, 400})
	nearPoint(t, "point past that end", r.PointAt(700.1), plan.Point{9, 9})
	path := r.BodyPath()
	want := []plan.Point{{0, 0}, {0.5, 0}, {300, 0}, {300, 100}, {300, 400}}
	if len(path) != len(want) {
		t.Fatalf("path %v, want %v", path, want)
	}
	for i := range want {
		nearPoint(t, "corner of the path", path[i], want[i])
	}
	// As near to two places it is the first of them.
	for p, want := range map[plan.Point]float64{{-50, 10}: 0, {120, 40}: 120, {290, 5}: 290, {310, 50}: 350, {200, 150}: 450, {290, 10}: 290, {305, 390}: 690, {300, 900}: 700, {310, -10}: 300} {
		near(t, "nearest place along the run", r.Nearest(p), want)
	}
	near(t, "nearest place of no run", (&waste.Run{}).Nearest(plan.Point{5, 5}), 0)
}

// Points less than a millionth of a millimetre apart are one on the path, more
// are two.
func TestPathWithoutRepeats(t *testing.T) {
	for gap, want := range map[float64]int{0: 3, 5e-7: 3, 2e-6: 4} {
		r := waste.Run{Pieces: []waste.Piece{{Path: []plan.Point{{0, 0}, {100, 0}}}, {Path: []plan.Point{{100 + gap, 0}, {100, 100}}}}}
		if got := len(r.BodyPath()); got != want {
			t.Errorf("%v apart: %d points, want %d", gap, got, want)
		}
	}
}
