package waste_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

func fallingPiece(at, length float64) job.Fitting {
	return job.Fitting{Kind: job.FittingFallingPiece, AtMM: at, LengthMM: length, Slope: 0.05}
}

func reducer(at, length float64) job.Fitting {
	return job.Fitting{Kind: job.FittingReducer, AtMM: at, LengthMM: length, Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 40 + 7}}
}

// Fittings on a straight of 1000, wherever it lies: kind of piece and where it
// ends. They may stand at either end of it and one against the next, in any
// order of the list; one that reaches past the end has no place.
func TestFittingsOnAStraight(t *testing.T) {
	type part struct {
		kind waste.Kind
		to   float64
	}
	const s, e, r = waste.Straight, waste.FallingPiece, waste.Reducer
	for name, c := range map[string]struct {
		fittings []job.Fitting
		parts    []part
		which    []int // the fittings in the order of the run
		missing  []float64
	}{
		"none":               {nil, []part{{s, 1000}}, nil, nil},
		"one":                {[]job.Fitting{fallingPiece(200, 120)}, []part{{s, 200}, {e, 320}, {s, 1000}}, []int{0}, nil},
		"at the outlet":      {[]job.Fitting{fallingPiece(0, 120)}, []part{{e, 120}, {s, 1000}}, []int{0}, nil},
		"at the end":         {[]job.Fitting{fallingPiece(880, 120)}, []part{{s, 880}, {e, 1000}}, []int{0}, nil},
		"over the end":       {[]job.Fitting{fallingPiece(880.1, 120)}, []part{{s, 1000}}, nil, []float64{880.1}},
		"before the outlet":  {[]job.Fitting{fallingPiece(-0.1, 120)}, []part{{s, 1000}}, nil, []float64{-0.1}},
		"one against other":  {[]job.Fitting{fallingPiece(200, 120), reducer(320, 60)}, []part{{s, 200}, {e, 320}, {r, 380}, {s, 1000}}, []int{0, 1}, nil},
		"listed backward":    {[]job.Fitting{reducer(600, 60), fallingPiece(200, 120)}, []part{{s, 200}, {e, 320}, {s, 600}, {r, 660}, {s, 1000}}, []int{1, 0}, nil},
		"one over the other": {[]job.Fitting{fallingPiece(200, 120), reducer(319, 60)}, []part{{s, 200}, {e, 320}, {s, 1000}}, []int{0}, []float64{319}},
		"in one place":       {[]job.Fitting{fallingPiece(200, 120), fallingPiece(200, 60)}, []part{{s, 200}, {e, 320}, {s, 1000}}, []int{0}, []float64{200}},
		"second over end":    {[]job.Fitting{fallingPiece(200, 120), fallingPiece(900, 120)}, []part{{s, 200}, {e, 320}, {s, 1000}}, []int{0}, []float64{900}},
		"all of it":          {[]job.Fitting{fallingPiece(0, 1000)}, []part{{e, 1000}}, []int{0}, nil},
		"three":              {[]job.Fitting{fallingPiece(500, 100), fallingPiece(100, 100), fallingPiece(300, 100)}, []part{{s, 100}, {e, 200}, {s, 300}, {e, 400}, {s, 500}, {e, 600}, {s, 1000}}, []int{1, 2, 0}, nil},
	} {
		for _, f := range frames() {
			got := run{exit: plan.Point{1000, 0}, fittings: c.fittings}.lay(f)
			if len(got.Pieces) != len(c.parts) {
				t.Fatalf("%s: pieces %v", name, kinds(got))
			}
			from, fitting := 0.0, 0
			for i, want := range c.parts {
				p, name := got.Pieces[i], fmt.Sprintf("%s, piece %d", name, i+1)
				if p.Kind != want.kind || p.Number != i+1 {
					t.Errorf("%s: %s %d, want %s", name, p.Kind, p.Number, want.kind)
				}
				near(t, name+", start", p.FromMM, from)
				near(t, name+", end", p.ToMM, want.to)
				nearPoint(t, name+", start in plan", p.Path[0], f.point(plan.Point{from, 0}))
				nearPoint(t, name+", end in plan", p.Path[1], f.point(plan.Point{want.to, 0}))
				if want.kind != s {
					if p.Fitting != c.which[fitting] {
						t.Errorf("%s is fitting %d, want %d", name, p.Fitting, c.which[fitting])
					}
					fitting++
				}
				from = want.to
			}
			near(t, name+", length", got.LengthMM, 1000)
			found := troubles(got, waste.NoPlace)
			if len(found) != len(c.missing) || len(got.Trouble) != len(found) {
				t.Fatalf("%s: trouble %v", name, got.Trouble)
			}
			for i, at := range c.missing {
				near(t, name+", asked for at", found[i].Value, at)
				near(t, name+", run's length", found[i].Limit, 1000)
				nearPoint(t, name+", where", found[i].At, f.point(plan.Point{}))
				if found[i].Number != len(c.fittings) {
					t.Errorf("%s: trouble with fitting %d, want %d", name, found[i].Number, len(c.fittings))
				}
			}
		}
	}
}

// A leg of 500, a 90° bend of 45, a leg of 1000: the first straight ends at 455,
// the bend at 455 + 45·π/2 = 525.69, within a hundredth of a millimetre as it is
// drawn in chords. A fitting lies on one straight or has no place.
func TestFittingsRoundABend(t *testing.T) {
	for name, c := range map[string]struct {
		fitting job.Fitting
		piece   int // which piece it becomes; 0 for none
	}{
		"up to the bend": {fallingPiece(335, 120), 2}, "into the bend": {fallingPiece(335.1, 120), 0}, "in the bend": {fallingPiece(460, 60), 0},
		"out of the bend": {fallingPiece(525.5, 120), 0}, "past the bend": {fallingPiece(526, 120), 4}, "on the second leg": {fallingPiece(800, 120), 4},
		"over the end": {fallingPiece(1370, 120), 0},
	} {
		r := run{turns: []plan.Point{{500, 0}}, exit: plan.Point{500, 1000}, fittings: []job.Fitting{c.fitting}}.lay(frame{})
		found := 0
		for _, p := range r.Pieces {
			if p.Kind == waste.FallingPiece {
				found = p.Number
				near(t, name+", start", p.FromMM, c.fitting.AtMM)
				near(t, name+", length", p.LengthMM(), 120)
				nearPoint(t, name+", way", p.Path[1].Sub(p.Path[0]).Mul(1.0/120), map[bool]plan.Point{true: {1, 0}, false: {0, 1}}[c.piece == 2])
			}
		}
		if found != c.piece || (c.piece == 0) != (len(r.Trouble) == 1) {
			t.Errorf("%s: piece %d, trouble %v", name, found, r.Trouble)
		}
	}
}

// Behind a reducer the pipe is the smaller one, in bends too; a falling piece the
// wrong way round rises; a reducer has no fall of its own.
func TestPipesBehindFittings(t *testing.T) {
	large, small := part.Pipe{NominalMM: 50, OutsideDiameterMM: 50, BoreMM: 46, SocketOutsideMM: 57, Bend45FaceMM: 25, Bend90FaceMM: 45}, reducer(0, 1).Pipe
	rising := fallingPiece(300, 100)
	rising.Reversed = true
	small.Bend45FaceMM, small.Bend90FaceMM = 20, 35
	turned := reducer(500, 60)
	turned.Pipe, turned.Reversed, turned.Slope = small, true, 0.05
	r := run{turns: []plan.Point{{800, 0}}, exit: plan.Point{800, 500}, floor: true, fittings: []job.Fitting{fallingPiece(100, 100), rising, turned}}.lay(frame{})
	for i, want := range []struct {
		kind          waste.Kind
		before, after part.Pipe
		slope         float64
		reversed      bool
	}{
		{waste.Straight, large, large, 0, false}, {waste.FallingPiece, large, large, 0.05, false}, {waste.Straight, large, large, 0, false},
		{waste.FallingPiece, large, large, -0.05, true}, {waste.Straight, large, large, 0, false}, {waste.Reducer, large, small, 0.05, true},
		{waste.Straight, small, small, 0, false}, {waste.Bend, small, small, 0, false}, {waste.Straight, small, small, 0, false}, {waste.Drop, small, small, 0, false},
	} {
		p := r.Pieces[i]
		if p.Kind != want.kind || p.Pipe != want.before || p.After != want.after || p.OwnSlope != want.slope || p.Reversed != want.reversed {
			t.Errorf("piece %d is %+v, want %+v", i+1, p, want)
		}
	}
	if r.Outgoing() != small || math.Abs(r.Pieces[9].FromMM-r.LengthMM) > 1e-9 {
		t.Errorf("it ends with %+v", r.Pieces[9])
	}
}
