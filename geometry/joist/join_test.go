package joist_test

import (
	"math"
	"testing"

	"underfall/geometry/joist"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// A run that turns within a joist makes one cut: in at its first face, out at the
// other. It comes in square at 275, turns at 300 by 45° and leaves at (325, 25).
// On the first face the hole is 28 half long, on the other 28·√2.
func TestTurnWithinAJoist(t *testing.T) {
	b := joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{300, 0}, plan.Point{600, 300}).centre(-100, 0.02)
	c := only(t, "turn", b.cuts())
	equal(t, "entry", c.EntryMM, 0)
	equal(t, "exit", c.ExitMM, 25)
	equal(t, "entry level", c.EntryLevelMM, -100-0.02*275)
	equal(t, "exit level", c.ExitLevelMM, -100-0.02*(300+25*math.Sqrt2))
	equal(t, "entry's slant", c.EntrySlant.Along, 0)
	equal(t, "exit's slant", c.ExitSlant.Along, -1)
	equal(t, "length", c.LengthMM(), 28+25+28*math.Sqrt2)
	if c.Kind != joist.Hole {
		t.Errorf("a %s", c.Kind)
	}
	// Turned along the joist instead it never leaves it: 344 on, and 28 beyond either
	// end, are twice the joist's depth of 200, which is still a hole.
	for along, want := range map[float64]joist.Kind{344: joist.Hole, 344.01: joist.Severed} {
		c = only(t, "along", joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{300, 0}, plan.Point{300, along}).centre(-100, 0).cuts())
		if c.Kind != want {
			t.Errorf("a cut %v along a joist of 200 is a %s, want a %s", c.LengthMM(), c.Kind, want)
		}
	}
}

// What comes in and what goes on has to continue: one joist, one place, one level
// to a millimetre; the larger of two pipes counts.
func TestWhatIsOneCut(t *testing.T) {
	wide := func(bore float64) part.Pipe { return part.Pipe{NominalMM: 63, OutsideDiameterMM: 60, BoreMM: bore} }
	middle, end := plan.Point{300, 0}, plan.Point{600, 0}
	for name, c := range map[string]struct {
		b      bench
		want   int
		radius float64
	}{
		"in one piece": {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, end), 1, 28},
		"in two":       {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, middle, end), 1, 28},
		"to a wider":   {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, middle).pipe(wide(46), middle, end), 1, 33},
		"to a smaller": {joistsAt(90, 300).pipe(wide(46), plan.Point{0, 0}, middle).pipe(pipe50, middle, end), 1, 33},
		// Half the difference of the bores is that of the levels: 0.99 and 1.
		"a little higher":        {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, middle).pipe(wide(46+1.98), middle, end), 1, 33},
		"a millimetre higher":    {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, middle).pipe(wide(48), middle, end), 2, 28},
		"a little lower":         {joistsAt(90, 300).pipe(wide(46+1.98), plan.Point{0, 0}, middle).pipe(pipe50, middle, end), 1, 33},
		"a millimetre lower":     {joistsAt(90, 300).pipe(wide(48), plan.Point{0, 0}, middle).pipe(pipe50, middle, end), 2, 33},
		"a hair beside":          {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, middle).pipe(pipe50, plan.Point{300, 0.95e-6}, plan.Point{600, 0.95e-6}), 1, 28},
		"more than a hair":       {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, middle).pipe(pipe50, plan.Point{300, 1.05e-6}, plan.Point{600, 1.05e-6}), 2, 28},
		"two joists at a level":  {joistsAt(90, 300, 500).pipe(pipe50, plan.Point{0, 0}, end), 2, 28},
		"there and back":         {joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, end, plan.Point{600, 200}, plan.Point{0, 200}), 2, 28},
		"another joist in place": {joistsAt(90, 300, 350).pipe(pipe50, plan.Point{0, 0}, end), 2, 28},
	} {
		cuts := c.b.centre(-100, 0).cuts()
		if len(cuts) != c.want || cuts[0].RadiusMM != c.radius {
			t.Errorf("%s: %+v, want %d, the first of a radius of %v", name, cuts, c.want, c.radius)
		}
	}
	// Merged with a wider pipe a hole may reach the joist's top: −48.5 + 33 over
	// −20, where 28 stayed under.
	grown := joistsAt(90, 300).pipe(pipe50, plan.Point{0, 0}, middle).pipe(wide(46), middle, end).centre(-50, 0)
	if c := only(t, "grown", grown.cuts()); c.Kind != joist.Notch {
		t.Errorf("a %s, want a notch", c.Kind)
	}
}

// An oblique cut is no longer than the run reaches: where the run begins a
// distance before the face, or ends after the other, its ellipse is cut off a
// radius beyond. At 20° the whole ellipse is 28/sin 20° = 81.87 half long, 53.87
// over the radius.
func TestCutEndsWithTheRun(t *testing.T) {
	sin, cos := math.Sincos(20 * math.Pi / 180)
	whole, rise := 28/sin, 0.02/sin
	for _, before := range []float64{0, 10, 50, 60} {
		for _, pieces := range []int{1, 2} {
			// The faces lie 25/sin 20° along the run from the middle of the joist.
			near, far := 300-25/sin-before, 300+25/sin+before
			begin, end := plan.Point{near, 0}, plan.Point{far, 0}
			through := []plan.Point{begin, end}
			if pieces == 2 {
				// The run may go on over a joint beside the joist or begin with one.
				through = []plan.Point{begin, {near + before/2, 0}, {far - before/2, 0}, end}
			}
			c := only(t, "oblique", joistsAt(20, 300).pipe(pipe50, through...).centre(-100, 0.02).cuts())
			half := math.Min(whole, 28+before)
			equal(t, "length", c.LengthMM(), 50*cos/sin+2*half)
			// Its height is cut off in the same share.
			up := 28 * math.Hypot(1, rise*half/whole)
			equal(t, "top", c.CutHighMM(), c.EntryLevelMM+up)
			equal(t, "bottom", c.CutLowMM(), c.ExitLevelMM-up)
			if before < 50 && c.EntrySlant.Along > 0 {
				t.Errorf("the ellipse leans %v, the other way than the pipe", c.EntrySlant.Along)
			}
		}
	}
}

// The run may reach far before a face and end just after the other: each ellipse
// is cut off by its own end.
func TestCutEndsWithEitherEnd(t *testing.T) {
	sin, cos := math.Sincos(20 * math.Pi / 180)
	early := only(t, "begins late", joistsAt(20, 300).pipe(pipe50, plan.Point{300 - 25/sin - 5, 0}, plan.Point{1000, 0}).centre(-100, 0).cuts())
	late := only(t, "ends early", joistsAt(20, 300).pipe(pipe50, plan.Point{0, 0}, plan.Point{300 + 25/sin + 5, 0}).centre(-100, 0).cuts())
	for _, c := range []joist.Crossing{early, late} {
		equal(t, "length", c.LengthMM(), 50*cos/sin+28/sin+33)
	}
	equal(t, "entry's half", 28*math.Hypot(1, early.EntrySlant.Along), 33)
	equal(t, "exit's half", 28*math.Hypot(1, late.ExitSlant.Along), 33)
}

// Corners of the outline lie on the pipe's cut: as far from its axis as the radius,
// measured square to it, on either face. Sides between are within the error.
func TestOutlineLiesOnThePipe(t *testing.T) {
	for _, s := range []joist.Slant{{}, {Along: 1}, {Rise: 0.5}, {Along: -1, Rise: 0.5}, {Along: 2, Rise: -0.7}} {
		c := joist.Crossing{EntryMM: 500, ExitMM: 700, EntryLevelMM: -100, ExitLevelMM: -130, EntrySlant: s, ExitSlant: s, RadiusMM: 28}
		ring := c.Outline(0.05)
		if len(ring) < 24 {
			t.Errorf("%+v: %d corners", s, len(ring))
		}
		faces := map[float64]int{}
		for _, q := range ring {
			on := false
			for _, f := range []plan.Point{{500, -100}, {700, -130}} {
				// The distance of (x, 0, z) from the line along (Along, 1, Rise)
				// through the face's middle, by its cross product.
				x, z := q.X()-f.X(), q.Y()-f.Y()
				far := math.Sqrt(z*z+math.Pow(z*s.Along-x*s.Rise, 2)+x*x) / math.Sqrt(s.Along*s.Along+1+s.Rise*s.Rise)
				if math.Abs(far-28) < 1e-9 {
					on = true
					faces[f.X()]++
				}
			}
			if !on {
				t.Errorf("%+v: corner %v lies on neither face's cut", s, q)
			}
		}
		if faces[500] < 8 || faces[700] < 8 {
			t.Errorf("%+v: corners on the faces %v", s, faces)
		}
	}
	// A square hole through is a circle: π·28² less at most 0.05 all round.
	hole := joist.Crossing{RadiusMM: 28}
	round := hole.Outline(0.05)
	if area := round.SignedArea(); area > math.Pi*28*28 || area < math.Pi*27.95*27.95 {
		t.Errorf("a round hole of %v mm²", area)
	}
}

// Where a pipe lies otherwise on one face than on the other, as behind a bend, what is
// taken out holds the cuts of both: all that lies between either's outline by itself.
func TestOutlineOfTwoSlants(t *testing.T) {
	for _, s := range [][2]joist.Slant{{{}, {Along: 1}}, {{Along: 2}, {Rise: 0.5}}, {{Along: -1, Rise: 0.5}, {Along: 1}}} {
		by := func(at, level float64, s joist.Slant) joist.Crossing {
			return joist.Crossing{EntryMM: at, ExitMM: at, EntryLevelMM: level, ExitLevelMM: level, EntrySlant: s, ExitSlant: s, RadiusMM: 28}
		}
		c := joist.Crossing{EntryMM: 500, ExitMM: 560, EntryLevelMM: -100, ExitLevelMM: -110, EntrySlant: s[0], ExitSlant: s[1], RadiusMM: 28}
		in, out := by(500, -100, s[0]), by(560, -110, s[1])
		both := append(in.Outline(0.05), out.Outline(0.05)...)
		got := plan.Region{{Outer: c.Outline(0.05)}}
		for _, q := range both {
			if !got.Contains(q, 1e-6) {
				t.Errorf("%+v: %v of a face's cut is left in", s, q)
			}
		}
		if want := plan.Hull(both).SignedArea(); math.Abs(got.Area()-want) > 1e-6 {
			t.Errorf("%+v: %v mm², want %v", s, got.Area(), want)
		}
	}
}
