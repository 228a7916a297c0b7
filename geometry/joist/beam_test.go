package joist_test

import (
	"math"
	"testing"

	"underfall/assets"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/part"
)

// grades are the classes typed out a second time: EN 338:2016, and the reference
// design values of the NDS Supplement, 875, 135 and 1 400 000 lb/in² and 975, 150
// and 1 500 000 (from memory), at 0.00689476 N/mm² for each lb/in² (NIST SP 811).
// Densities of American lumber: common practice, no source.
func TestEveryGrade(t *testing.T) {
	for name, want := range map[string]part.Timber{
		"C16":          {BendingNMM2: 16, ShearNMM2: 3.2, ModulusNMM2: 8000, DensityKGM3: 370},
		"C24":          {BendingNMM2: 24, ShearNMM2: 4.0, ModulusNMM2: 11000, DensityKGM3: 420},
		"SPF No.2":     {BendingNMM2: 6.03291, ShearNMM2: 0.930792, ModulusNMM2: 9652.66, DensityKGM3: 420, Allowable: true},
		"Hem-Fir No.1": {BendingNMM2: 6.72239, ShearNMM2: 1.03421, ModulusNMM2: 10342.1, DensityKGM3: 430, Allowable: true},
	} {
		got, ok := gradeOf(name)
		near(t, name+" bending", got.BendingNMM2, want.BendingNMM2, 1e-5)
		near(t, name+" shear", got.ShearNMM2, want.ShearNMM2, 1e-5)
		near(t, name+" modulus", got.ModulusNMM2, want.ModulusNMM2, 1e-5)
		near(t, name+" density", got.DensityKGM3, want.DensityKGM3, 0)
		if got.Allowable != want.Allowable || !ok {
			t.Errorf("%s: %+v %v", name, got, ok)
		}
	}
}

// beam is a joist whose share under a moment of 1 kNm is easily told: 2 m long, so
// that 2 kN/m give 2·2²/8 = 1 kNm in the middle and 2 kN at its ends.
func beam(grade string, widthMM, depthMM float64) joist.Beam {
	g, _ := gradeOf(grade)
	return joist.Beam{WidthMM: widthMM, DepthMM: depthMM, SpanMM: 2000, Timber: g}
}

// Size factors of the NDS in bending, from memory: 2×4 (89 deep) 1.5, 2×6 (140)
// 1.3, 2×8 (184) 1.2, 2×10 (235) 1.1, 2×12 (286) 1.0; between the sizes the limits
// lie at 100, 150, 200 and 250. Repetitive members count 1.15 times. By hand: 1 kNm
// over a section of 40 × h is 6·10⁶/(40·h²) N/mm², against 1.15·CF·6.03291.
func TestAmericanSizeFactors(t *testing.T) {
	for _, c := range []struct{ depth, factor float64 }{
		{89, 1.5}, {99.9, 1.5}, {100, 1.3}, {140, 1.3}, {149.9, 1.3}, {150, 1.2}, {184, 1.2}, {199.9, 1.2},
		{200, 1.1}, {235, 1.1}, {249.9, 1.1}, {250, 1}, {286, 1},
	} {
		b := beam("SPF No.2", 40, c.depth)
		// Dead and imposed loads count as they are.
		b.DeadKNM, b.LiveKNM = 0.5, 1.5
		near(t, "bending", b.BendingShare(b.Whole(1000)), 6e6/40/c.depth/c.depth/(1.15*c.factor*6.03291), 1e-5)
	}
	// Shear at the support by hand: 1.5·2000/(40·200) = 0.375 of 0.930792, with
	// neither kcr nor factors.
	b := beam("SPF No.2", 40, 200)
	b.DeadKNM, b.LiveKNM = 0.5, 1.5
	near(t, "shear", b.ShearShare(b.Whole(0)), 0.375/0.930792, 1e-5)
}

// kh of EN 1995-1-1, 3.2(3), is (150/h)^0.2 up to 1.3 for joists shallower than 150:
// at 100 it is 1.5^0.2 = 1.08447, at 40.41 1.3. The rest by hand: kmod 0.8, ksys 1.1,
// γM 1.3, loads 1.35·G + 1.5·Q, here 1.35·0.5 + 1.5·1.5 = 2.925 kN/m, 1.4625 kNm.
func TestEuropeanFactors(t *testing.T) {
	for _, c := range []struct{ depth, factor float64 }{
		{30, 1.3}, {40, 1.3}, {41, 1.296169}, {100, 1.084472}, {149, 1.001338}, {149.9, 1.000133}, {150, 1}, {150.1, 1}, {195, 1}, {300, 1},
	} {
		b := beam("C24", 40, c.depth)
		b.DeadKNM, b.LiveKNM = 0.5, 1.5
		near(t, "bending", b.BendingShare(b.Whole(1000)), 1.4625*6e6/40/c.depth/c.depth/(0.8*1.1*c.factor*24/1.3), 2e-6)
	}
	// Shear at the support: 2.925 kN, 1.5·2925/(0.67·40·200) N/mm² of
	// 0.8·1.1·4/1.3 = 2.70769.
	b := beam("C24", 40, 200)
	b.DeadKNM, b.LiveKNM = 0.5, 1.5
	near(t, "shear", b.ShearShare(b.Whole(0)), 0.818563/2.707692, 2e-6)
	// Half way out the shear is half, and none in the middle.
	near(t, "shear at a quarter", b.ShearShare(b.Whole(500)), 0.818563/2.707692/2, 2e-6)
	near(t, "shear at three quarters", b.ShearShare(b.Whole(1500)), 0.818563/2.707692/2, 2e-6)
	if v := b.ShearShare(b.Whole(1000)); v != 0 {
		t.Errorf("shear in the middle %v", v)
	}
	// Bending at a quarter: ¾ of that in the middle.
	near(t, "bending at a quarter", b.BendingShare(b.Whole(500)), 0.75*b.BendingShare(b.Whole(1000)), 1e-12)
}

// Creep by hand, EN 1995-1-1, 2.2.3: 40 × 100 of C16 over 2 m, I = 40·100³/12 =
// 3.33333·10⁶, 5·2000⁴/(384·8000·I) = 7.8125 mm for each kN/m from bending, and
// 1.2·2000²/(8·500·4000) = 0.3 from shear. Of 0.4 dead and 0.8 imposed 8.1125·(0.4·1.6 +
// 0.8·(1 + 0.3·0.6)) = 12.8502 in the end.
func TestFinalDeflection(t *testing.T) {
	b := beam("C16", 40, 100)
	b.DeadKNM, b.LiveKNM = 0.4, 0.8
	near(t, "deflection", b.DeflectionMM(1), 8.1125, 1e-12)
	near(t, "final deflection", b.FinalDeflectionMM(), 12.8502, 1e-12)
	// Over an unheated space, service class 2: 8.1125·(0.4·1.8 + 0.8·(1 + 0.3·0.8)).
	b.Damp = true
	near(t, "final deflection, damp", b.FinalDeflectionMM(), 13.8886, 1e-12)
}

// Sections by hand: 40 × 200 whole W = 40·200²/6, A = 8000. A notch of 50 leaves
// 150 of the depth; a hole of 100 in the middle leaves 40·(200³ − 100³)/(6·200)
// and 40·100.
func TestNetSections(t *testing.T) {
	b := beam("C24", 40, 200)
	for name, c := range map[string]struct {
		got           joist.Net
		modulus, area float64
	}{
		"whole":            {b.Whole(300), 800000.0 / 3, 8000},
		"notch of 50":      {b.WithNotch(300, 50), 150000, 6000},
		"notch of 199":     {b.WithNotch(300, 199), 40.0 / 6, 40},
		"notch right down": {b.WithNotch(300, 200), 0, 0},
		"notch and deeper": {b.WithNotch(300, 230), 0, 0},
		"hole of 100":      {b.WithHole(300, 50, 100), 700000.0 / 3, 4000},
		"hole of all":      {b.WithHole(300, 0, 200), 0, 0},
		"hole of more":     {b.WithHole(300, -15, 230), 0, 0},
		"hole of hardly":   {b.WithHole(300, 99.9995, 1e-3), 800000.0 / 3, 7999.96},
		"hole of nothing":  {b.WithHole(300, 50, 0), 800000.0 / 3, 8000},
		// Of 20 below and 80 above the middle lies at (20·10 + 80·160)/100 = 130; I is
		// 40·(20·(20²/12 + 120²) + 80·(80²/12 + 30²)) = 16 133 333.
		"hole of 100, low":  {b.WithHole(300, 20, 100), 16133333.3333 / 130, 4000},
		"hole of 100, high": {b.WithHole(300, 80, 100), 16133333.3333 / 130, 4000},
		"out below":         {b.WithHole(300, -20, 70), 150000, 6000},
		"out above":         {b.WithHole(300, 150, 70), 150000, 6000},
		"notch of nothing":  {b.WithNotch(300, 0), 800000.0 / 3, 8000},
		"severed":           {b.NetAt(joist.Crossing{Kind: joist.Severed, SupportMM: 300, SpanMM: 2000, TopMM: -20}), 0, 0},
		"notch, cut to −70": {b.NetAt(cut(joist.Notch, -42, -98+56)), 150000, 6000},
		"hole of 56":        {b.NetAt(cut(joist.Hole, -120, -120)), 40 * (8e6 - 175616) / 1200, 40 * 144},
		// 28 below and 72 above: the middle at 122, I 19 461 333.
		"hole, slanting": {b.NetAt(cut(joist.Hole, -120, -164)), 19461333.3333 / 122, 4000},
	} {
		if c.got.AtMM != 300 || !(math.Abs(c.got.ModulusMM3-c.modulus) <= 1e-6*800000) || !(math.Abs(c.got.AreaMM2-c.area) <= 1e-6) {
			t.Errorf("%s: %+v, want W %v and A %v at 300", name, c.got, c.modulus, c.area)
		}
	}
	// With nothing left any load is too much, where there is no moment or shear as
	// well; with a little left it is not.
	b.LiveKNM = 1
	for _, at := range []float64{0, 500, 1000} {
		none, little := joist.Net{AtMM: at}, joist.Net{AtMM: at, ModulusMM3: 0.5, AreaMM2: 0.5}
		if !math.IsInf(b.BendingShare(none), 1) || !math.IsInf(b.ShearShare(none), 1) || math.IsInf(b.BendingShare(little), 1) || math.IsInf(b.ShearShare(little), 1) {
			t.Errorf("at %v: shares %v, %v of nothing, %v, %v of little", at, b.BendingShare(none), b.ShearShare(none), b.BendingShare(little), b.ShearShare(little))
		}
	}
}

// cut is a cut of 28 round a pipe's centre, at 300 of a span of 2000, in a joist
// from −20 down.
func cut(kind joist.Kind, entry, exit float64) joist.Crossing {
	return joist.Crossing{Kind: kind, EntryLevelMM: entry, ExitLevelMM: exit, RadiusMM: 28, TopMM: -20, BottomMM: -220, SupportMM: 300, SpanMM: 2000}
}

// A cut beyond the supports counts as at the nearest place of the span.
func TestNetAtSupports(t *testing.T) {
	b := beam("C24", 40, 200)
	for support, want := range map[float64]float64{-40: 0, 0: 0, 40: 40, 2000: 2000, 2040: 2000} {
		c := cut(joist.Hole, -120, -120)
		c.SupportMM = support
		if got := b.NetAt(c).AtMM; got != want {
			t.Errorf("%v from the support: at %v, want %v", support, got, want)
		}
	}
}

// Loads by hand for joists 47 × 195 of C24 at 400 under a deck of 22 and a new floor
// of 0.6 kN/m². The joist: 0.047·0.195·420·9.81 = 37.76 N/m; the deck: 0.022·650·9.81
// = 140.28 N/m²; (0.25 + 0.14028 + 0.6)·0.4 + 0.03776 = 0.43387 kN/m. Imposed: 1.5·0.4,
// and 1.92·0.4.
func TestLoadsOfAFloor(t *testing.T) {
	j := job.New()
	j.Floor.Kind = job.FloorTimber
	for imposed, live := range map[float64]float64{1.5: 0.6, 1.92: 0.768} {
		b := joist.BeamOf(j, layout.Layout{SupportsMM: []float64{0, 1500, 3900, 5000}}, 0.6, joist.Imposed{KNM2: imposed, PointKN: 2})
		near(t, "dead", b.DeadKNM, 0.4338745, 1e-6)
		near(t, "live", b.LiveKNM, live, 1e-12)
		near(t, "span", b.SpanMM, 2400, 0)
		near(t, "spacing", b.SpacingMM, 400, 0)
		near(t, "at one place", b.PointKN, 2, 0)
		if b.WidthMM != 47 || b.DepthMM != 195 || b.Timber.BendingNMM2 != 24 {
			t.Errorf("beam %+v", b)
		}
	}
}

// gradeOf is a strength class of those that come with the program.
func gradeOf(name string) (part.Timber, bool) {
	shelf, err := assets.Parts()
	if err != nil {
		return part.Timber{}, false
	}
	ids := map[string]string{"C16": "c16", "C24": "c24", "SPF No.2": "spf-2", "Hem-Fir No.1": "hem-fir-1"}
	timber, ok := shelf.Find(part.KindTimber, ids[name]).(part.Timber)
	return timber, ok
}
