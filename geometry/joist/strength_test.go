package joist_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s %v, want %v", what, got, want)
	}
}

// Textbook, simply supported (δ = 5wL⁴/384EI, M = wL²/8, V = wL/2): 47 × 195
// over 3.6 m with 0.8 kN/m in C16: I 29.04e6 mm⁴, M 1.296 kNm, V 1.44 kN,
// 4.35 N/mm², 7.53 mm; and from shear 1.2·0.8·3600²/(8·500·47·195) = 0.339 mm.
func TestTextbookJoist(t *testing.T) {
	c16, _ := gradeOf("C16")
	b := joist.Beam{WidthMM: 47, DepthMM: 195, SpanMM: 3600, Timber: c16}
	near(t, "I", b.SecondMomentMM4(), 29.04e6, 1e-3)
	near(t, "M", b.MomentKNM(0.8, 1800), 1.296, 1e-9)
	near(t, "V", b.ShearKN(0.8, 0), 1.44, 1e-9)
	near(t, "stress", b.MomentKNM(0.8, 1800)*1e6/b.Whole(1800).ModulusMM3, 4.35, 1e-3)
	near(t, "deflection", b.DeflectionMM(0.8), 7.53+0.339, 1e-3)
}

// EC5 worked example (80 × 240, C24, span 6300, design load 1.55 kN/m as
// given): W 768 000 mm³, M 7.690 kNm, V 4.8825 kN, σ 10.01 N/mm², τ with kcr
// 0.67 is 0.569 N/mm² (printed 0.56).
func TestEurocodeExample(t *testing.T) {
	c24, _ := gradeOf("C24")
	b := joist.Beam{WidthMM: 80, DepthMM: 240, SpanMM: 6300, Timber: c24}
	whole := b.Whole(3150)
	near(t, "W", whole.ModulusMM3, 768000, 1e-9)
	near(t, "M", b.MomentKNM(1.55, 3150), 7.690, 1e-3)
	near(t, "V", b.ShearKN(1.55, 0), 4.8825, 1e-9)
	near(t, "σ", b.MomentKNM(1.55, 3150)*1e6/whole.ModulusMM3, 10.01, 1e-3)
	near(t, "τ", 1.5*b.ShearKN(1.55, 0)*1000/(0.67*whole.AreaMM2), 0.569, 2e-3)
	// With that as the whole design load, shares by hand: σ against
	// 0.8·1.1·24/1.3 = 16.246; τ against 0.8·1.1·4.0/1.3 = 2.708 (printed 2.7).
	b.LiveKNM = 1.55 / 1.5
	near(t, "bending share", b.BendingShare(whole), 10.01/16.246, 2e-3)
	near(t, "shear share", b.ShearShare(b.Whole(0)), 0.569/2.708, 3e-3)
}

// Simply supported 120 × 180 over 3.0 m at 10 N/mm² carries 5.76 kN/m (FOSSEE
// Scilab textbook companions, 3862, example 10.1).
func TestSafeLoad(t *testing.T) {
	b := joist.Beam{WidthMM: 120, DepthMM: 180, SpanMM: 3000}
	near(t, "stress at 5.76 kN/m", b.MomentKNM(5.76, 1500)*1e6/b.Whole(1500).ModulusMM3, 10, 1e-9)
}

// Span tables of American practice. HUD Residential Structural Design Guide,
// 2nd edition, example 5.1: 2×8 at 16 in, 30 and 10 lb/ft², Fb 975, E 1.5e6:
// 14.866 ft by bending, L/360 under the imposed load at 13.832 ft. A published
// 2×10 of SPF No. 2 at 16 in under 40 and 10 lb/ft²: 15.387 ft by bending.
func TestAmericanSpans(t *testing.T) {
	const foot, pound = 304.8, 0.04788026 // mm, kN/m² in lb/ft²
	spacing := 16 * 0.0254
	for _, c := range []struct {
		grade             string
		width, depth      float64
		live, dead        float64
		bending, stiff360 float64
	}{{"Hem-Fir No.1", 1.5, 7.25, 30, 10, 14.866, 13.832}, {"SPF No.2", 1.5, 9.25, 40, 10, 15.387, 15.669}} {
		grade, ok := gradeOf(c.grade)
		b := joist.Beam{WidthMM: c.width * 25.4, DepthMM: c.depth * 25.4, Timber: grade, LiveKNM: c.live * pound * spacing, DeadKNM: c.dead * pound * spacing}
		b.SpanMM = c.bending * foot
		near(t, c.grade+" bending share at its span", b.BendingShare(b.Whole(b.SpanMM/2)), 1, 1e-3)
		b.SpanMM = c.stiff360 * foot
		near(t, c.grade+" stiffness at its span", b.SpanMM/b.DeflectionMM(b.LiveKNM), 360, 2e-3)
		if !ok || b.ShearShare(b.Whole(0)) > 1 {
			t.Errorf("%s: shear share %v", c.grade, b.ShearShare(b.Whole(0)))
		}
	}
}

// EN 1995-1-1, 7.3.3: joists 45 × 220 at 400 with E 9000 over 3.7 m, and 35 kg/m²: EI of
// 898 425 N·m²/m, 18.383 Hz (inputs of pcachim/eurocodesnb, ec5-vibrations; outputs worked
// out from its formulas).
func TestEurocodeVibration(t *testing.T) {
	b := joist.Beam{WidthMM: 45, DepthMM: 220, SpanMM: 3700, SpacingMM: 400, Timber: part.Timber{ModulusNMM2: 9000}, DeadKNM: 35 * 9.81 * 0.4 / 1000}
	near(t, "EI", 9000*b.SecondMomentMM4()/1e6/0.4, 898425, 1e-6)
	near(t, "f1", b.FrequencyHz(), 18.383, 1e-4)
}

// A load at one place by statics: of 2 kN at x of a span L the moment there is 2·x·(L − x)/L,
// and beside it 2·(L − x)/L of shear; it counts with the dead load where it does more than
// what is spread. 40 × 200 of C24 over 2 m under 0.5 and 0.6 kN/m.
func TestLoadAtOnePlace(t *testing.T) {
	b := beam("C24", 40, 200)
	b.DeadKNM, b.LiveKNM, b.PointKN = 0.5, 0.6, 2
	bending, shear := 0.8*1.1*24/1.3, 0.8*1.1*4/1.3
	for _, x := range []float64{100, 500, 1000, 1700} {
		m := 1.35*0.5*x*(2000-x)/2e6 + 1.5*2*x/1000*(2000-x)/2000
		near(t, "bending", b.BendingShare(b.Whole(x)), m*1e6/(40*200*200/6.0)/bending, 1e-9)
		v := 1.35*0.5*math.Abs(1000-x)/1000 + 1.5*2*math.Max(x, 2000-x)/2000
		near(t, "shear", b.ShearShare(b.Whole(x)), 1.5*v*1000/(0.67*8000)/shear, 1e-9)
	}
	// Half a kN does less than 0.6 kN/m in the middle, 0.3 against 0.25 kNm.
	b.PointKN = 0.5
	near(t, "bending under little", b.BendingShare(b.Whole(1000)), (1.35*0.5+1.5*0.6)*0.5*1e6/(40*200*200/6.0)/bending, 1e-9)
}

// A cut never makes a joist stronger, a deeper one weaker still, and a hole in
// the middle costs less than a notch as deep.
func TestCutsWeaken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c24, _ := gradeOf("C24")
		b := joist.Beam{WidthMM: 47, DepthMM: rapid.Float64Range(100, 300).Draw(t, "depth"), SpanMM: 3600, Timber: c24, DeadKNM: 0.3, LiveKNM: 0.6}
		at, cut := rapid.Float64Range(1, 1800).Draw(t, "at"), rapid.Float64Range(1, 80).Draw(t, "cut")
		whole, notch, hole := b.BendingShare(b.Whole(at)), b.BendingShare(b.WithNotch(at, cut)), b.BendingShare(b.WithHole(at, (b.DepthMM-cut)/2, cut))
		if notch <= whole || hole <= whole || hole > notch || b.BendingShare(b.WithNotch(at, cut+1)) <= notch {
			t.Fatalf("whole %v, hole %v, notch %v", whole, hole, notch)
		}
		off := rapid.Float64Range(-50, 50).Draw(t, "off the middle")
		if b.BendingShare(b.WithHole(at, (b.DepthMM-cut)/2+off, cut)) < hole-1e-9 {
			t.Fatalf("a hole %v off the middle is stronger", off)
		}
		if b.ShearShare(b.WithHole(at, (b.DepthMM-cut)/2, cut)) < b.ShearShare(b.Whole(at)) {
			t.Fatal("a hole makes it stronger in shear")
		}
	})
}

// Joists of unknown strength count as C16. EN 338:2016 (pcachim/eurocodepy, data file).
func TestUnknownTimber(t *testing.T) {
	j := job.New()
	j.Floor.Kind, j.Floor.Joists.Timber = job.FloorTimber, nil
	got := joist.BeamOf(j, layout.Of(j, &plan.Shaper{}), 0, joist.Imposed{KNM2: 1.5}).Timber
	if c16, _ := gradeOf("C16"); got.BendingNMM2 != c16.BendingNMM2 || got.ShearNMM2 != c16.ShearNMM2 || got.ModulusNMM2 != c16.ModulusNMM2 || got.DensityKGM3 != c16.DensityKGM3 {
		t.Errorf("counts as %+v", got)
	}
}
