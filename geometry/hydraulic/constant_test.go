package hydraulic

import (
	"fmt"
	"math"
	"testing"
)

// within fails unless a value is as worked out, to a share of it.
func within(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// What the formulas stand on: EN 12056-2:2000 Annex B, k 1.0 mm and ν of water
// at about 10 °C (from memory); FHWA HEC-22, 4th edition, equations 7.14, 7.15,
// 7.20 and 7.21 for the coefficients, table 5.3 for Manning's n (whose worked
// examples are reproduced in TestHEC22); 500 for a laminar film and 0.6 for a
// sharp outlet from memory, as is ν of water at 38 °C, 0.68 mPa·s over 993 kg/m³.
func TestConstants(t *testing.T) {
	for name, c := range map[string][2]float64{
		"roughness": {RoughnessMM, 1}, "viscosity": {ViscosityM2PS, 1.31e-6}, "gravity": {gravity, 9.81}, "viscosity in the shower": {ShowerViscosityM2PS, 0.68e-6}, "weir of a grate": {GrateWeir, 0.37}, "orifice of a grate": {GrateOrifice, 0.67},
		"weir of a slot": {SlotWeir, 0.31}, "orifice of a slot": {SlotOrifice, 0.8}, "tile": {TileRoughness, 0.012}, "outlet": {outletOrifice, 0.6}, "laminar film": {laminarLimit, 500},
	} {
		if c[0] != c[1] {
			t.Errorf("%s is %v, want %v", name, c[0], c[1])
		}
	}
}

// Colebrook-White worked to six figures, apart from the program. Half full the
// hydraulic diameter is the bore, as it is full. 96 mm at 1 %:
// √(2·9.81·0.096·0.01) = 0.137241; k/(3.71·0.096) = 0.00280773;
// 2.51·1.31e-6/(0.096·0.137241) = 0.000249569; v = −2·0.137241·log10(0.0030573) =
// 0.690232 m/s over π·0.096²/8 m². 46 mm at 1:40 likewise.
func TestColebrookWhiteByHand(t *testing.T) {
	for _, c := range []struct{ bore, fill, slope, v, q float64 }{{96, 0.5, 0.01, 0.6902316, 2.498027}, {46, 0.5, 0.025, 0.6603889, 0.5487510}, {46, 1, 0.025, 0.6603889, 1.0975019}} {
		q, v := ColebrookWhite(c.bore, c.fill, c.slope)
		within(t, fmt.Sprintf("velocity in %v", c.bore), v, c.v, 1e-6)
		within(t, fmt.Sprintf("flow in %v", c.bore), q, c.q, 1e-6)
	}
}

// The same without roughness and at 38 °C: 46 mm at 1:40, √(2·9.81·0.046·0.025) =
// 0.150211; 2.51·0.68e-6/(0.046·0.150211) = 0.000247018; v = −2·0.150211·log10 of that =
// 1.083694 m/s over π·0.046²/4 m².
func TestSmoothPipeByHand(t *testing.T) {
	within(t, "flow in a smooth pipe of 46", SmoothFullLPS(46, 0.025), 1.800994, 1e-5)
	if q := SmoothFullLPS(46, 0); q != 0 {
		t.Errorf("a level pipe carries %v", q)
	}
}

// No water, no fall, or a rise: nothing flows, by either formula, and nothing is
// divided by it. A pipe is never fuller than full.
func TestNothingFlows(t *testing.T) {
	for _, c := range [][2]float64{{0.5, 0}, {0.5, -0.01}, {0, 0.01}, {-0.2, 0.01}, {0, 0}} {
		q, v := ColebrookWhite(100, c[0], c[1])
		qm, vm := Manning(100, c[0], c[1], 0.01)
		if q != 0 || v != 0 || qm != 0 || vm != 0 {
			t.Errorf("filled to %v at %v: %v l/s at %v, by Manning %v at %v", c[0], c[1], q, v, qm, vm)
		}
	}
	for _, n := range []float64{0, -0.01} {
		if q, v := Manning(100, 0.5, 0.01, n); q != 0 || v != 0 {
			t.Errorf("n of %v: %v l/s at %v", n, q, v)
		}
	}
	if PartFull(100, 0) != (Fill{}) || PartFull(100, -0.5) != (Fill{}) {
		t.Errorf("an empty pipe is %+v", PartFull(100, 0))
	}
	if PartFull(100, 1.5) != PartFull(100, 1) {
		t.Errorf("more than full is %+v", PartFull(100, 1.5))
	}
	within(t, "a full pipe", PartFull(100, 1).AreaM2, math.Pi*0.01/4, 1e-12)
	for _, head := range []float64{0, -5} {
		if WeirLPS(GrateWeir, 500, head) != 0 || OrificeLPS(GrateOrifice, 4000, head) != 0 {
			t.Errorf("%v of head makes a flow", head)
		}
	}
}

// A cover 500 round with 4000 mm² open under 20 mm: as a weir
// 0.37·√19.62·0.5·0.02^1.5 = 2.31775 l/s, as an orifice 0.67·0.004·√(19.62·0.02)
// = 1.67880 l/s. The lesser governs: with twice the opening it is the weir.
func TestGrateByHand(t *testing.T) {
	q, weir := Cover{500, 4000}.LPS(20)
	within(t, "flow through the opening", q, 1.6788013, 1e-6)
	if weir {
		t.Error("the opening does not govern")
	}
	q, weir = Cover{500, 8000}.LPS(20)
	within(t, "flow over the edge", q, 2.3177480, 1e-6)
	if !weir {
		t.Error("the edge does not govern")
	}
	// Where they are equal it is the edge: neither takes in anything.
	if q, weir = (Cover{500, 4000}).LPS(0); q != 0 || !weir {
		t.Errorf("without water %v l/s, weir %v", q, weir)
	}
}

// A free surface is counted up to 0.93 of the bore, short of the peak of the
// flow: what is carried there just does not have one; a thousandth less does,
// just under it. The pipe is then full and runs at that velocity.
func TestFullPipe(t *testing.T) {
	for _, bore := range []float64{36, 46, 100} {
		most, v := ColebrookWhite(bore, 0.93, 0.02)
		if f := InPipe(bore, 0.02, most); f != (Flow{DepthShare: 1, VelocityMPS: v, Full: true}) {
			t.Errorf("bore %v: the most it carries is %+v", bore, f)
		}
		f := InPipe(bore, 0.02, most*0.999)
		if f.Full || f.DepthShare < 0.92 || f.DepthShare > 0.93 {
			t.Errorf("bore %v: a thousandth less is %+v", bore, f)
		}
		q, _ := ColebrookWhite(bore, f.DepthShare, 0.02)
		within(t, "flow at the depth found", q, most*0.999, 1e-9)
	}
	for _, flow := range []float64{0, -1} {
		if f := InPipe(46, 0.02, flow); f != (Flow{}) {
			t.Errorf("a flow of %v is %+v", flow, f)
		}
	}
	// Half full carries half of what it carries full: 0.548751 l/s (above).
	f := InPipe(46, 0.025, 0.5487510)
	within(t, "depth", f.DepthShare, 0.5, 1e-6)
	within(t, "velocity", f.VelocityMPS, 0.6603889, 1e-6)
}

// A film is taken as laminar up to q/ν = 500, with ν of water at 38 °C: over a metre
// 0.34 l/s. Its water runs at flow over width and depth: 0.2 l/s over 0.9 m, 1.3221 mm
// deep, at 0.16808 m/s. Without a width there is none.
func TestFilmLimits(t *testing.T) {
	for flow, laminar := range map[float64]bool{0.339: true, 0.341: false} {
		if f := OnTile(flow, 1000, 0.02); f.Laminar != laminar {
			t.Errorf("%v l/s: %+v", flow, f)
		}
	}
	h := math.Cbrt(3 * 0.68e-6 * (0.0002 / 0.9) / (9.81 * 0.02))
	within(t, "depth", OnTile(0.2, 900, 0.02).DepthMM, h*1000, 1e-12)
	within(t, "velocity", OnTile(0.2, 900, 0.02).VelocityMPS, 0.0002/0.9/h, 1e-12)
	within(t, "depth by hand", OnTile(0.2, 900, 0.02).DepthMM, 1.3221, 1e-4)
	within(t, "velocity by hand", OnTile(0.2, 900, 0.02).VelocityMPS, 0.16808, 1e-4)
	for _, c := range [][3]float64{{0.2, 0, 0.02}, {0.2, -5, 0.02}, {-0.2, 900, 0.02}, {0.2, 900, -0.02}} {
		if f := OnTile(c[0], c[1], c[2]); f != (Film{}) {
			t.Errorf("%v l/s over %v at %v: %+v", c[0], c[1], c[2], f)
		}
	}
	if OnTile(0.001, 0.5, 0.02).DepthMM <= 0 {
		t.Error("no film over half a millimetre")
	}
}

// Heads under the cover and outlets over it count as none.
func TestTrapLimits(t *testing.T) {
	curve, one := []HeadFlow{{10, 0.4}, {20, 0.6}}, []HeadFlow{{20, 0.6}}
	for name, c := range map[string]struct {
		points     []HeadFlow
		drop, head float64
		want       float64
	}{
		"negative head":        {one, 50, -10, 0},
		"no head":              {one, 50, 0, 0},
		"short of it":          {one, 50, 5, 0.6 * math.Sqrt(55.0/70)},
		"negative drop":        {one, -30, 5, 0.3},
		"no drop":              {one, 0, 5, 0.3},
		"neither":              {one, 0, 0, 0},
		"orifice, neither":     {nil, 0, 0, 0},
		"orifice, under":       {nil, -5, -5, 0},
		"point without height": {[]HeadFlow{{0, 0.4}}, 0, 30, 0.4},
		"point of half a mm":   {[]HeadFlow{{0.25, 0.4}}, 0.25, 0.75, 0.4 * math.Sqrt2},
		"under the curve":      {curve, 50, 5, 0.4 * math.Sqrt(55.0/60)},
		"at its first":         {curve, 50, 10, 0.4},
		"a quarter along":      {curve, 50, 12.5, 0.45},
		"past the curve":       {curve, 50, 40, 0.6 * math.Sqrt(90.0/70)},
		"its third stretch":    {[]HeadFlow{{5, 0.1}, {10, 0.4}, {20, 0.6}, {40, 0.7}}, 50, 30, 0.65},
	} {
		if q := (Outlet{c.points, 46, c.drop, endless}).LPS(c.head); math.Abs(q-c.want) > 1e-7 {
			t.Errorf("%s: %v l/s, want %v", name, q, c.want)
		}
	}
}

// endless is a cover that takes nothing of the depth.
var endless = Cover{1e15, 1e15}

// The depth a trap needs besides what its drop gives: of less than it carries at its point,
// by the square of the flow; and how deep the water then stands.
func TestDepthByHand(t *testing.T) {
	one, line := []HeadFlow{{20, 0.6}}, []HeadFlow{{0, 0}, {10, 1}}
	for name, c := range map[string]struct {
		points     []HeadFlow
		drop, flow float64
		want       float64
	}{
		"none needed":         {one, 50, 0.5, 0}, // 0.6·√(50/70) = 0.507
		"hardly any":          {one, 50, 0.51, 70*0.51*0.51/0.36 - 50},
		"at its point":        {one, 50, 0.6, 20},
		"past its point":      {one, 50, 0.66, 70*0.66*0.66/0.36 - 50},
		"half a millimetre":   {line, 0, 0.05, 0.5},
		"a tenth of one":      {line, 0, 0.01, 0.1},
		"nothing to carry":    {line, 0, 0, 0},
		"less than nothing":   {one, 50, -1, 0},
		"less than the curve": {[]HeadFlow{{10, 0.4}, {20, 0.6}}, 50, 0.55, 17.5},
		"as much as before":   {[]HeadFlow{{10, 0.4}, {20, 0.4}, {30, 0.6}}, 50, 0.5, 25},
	} {
		o := Outlet{c.points, 46, c.drop, endless}
		if h := o.DepthMM(c.flow); math.Abs(h-c.want) > 1e-6 {
			t.Errorf("%s: %v, want %v", name, h, c.want)
		}
		if h := o.StandsMM(c.flow); math.Abs(h-c.want) > 1e-6 {
			t.Errorf("%s: stands %v, want %v", name, h, c.want)
		}
	}
	// Over an edge of 500, 0.3 l/s come under (0.0003/(0.37·√19.62·0.5))^(2/3) m, and run in;
	// through an opening of 500 mm², under (0.0003/(0.67·0.0005))²/19.62, and stand.
	edge, opening := 1000*math.Pow(0.0003/(0.37*math.Sqrt(19.62)*0.5), 2.0/3), 1000*math.Pow(0.0003/(0.67*0.0005), 2)/19.62
	for _, c := range []struct {
		openingMM2, depth, stands float64
	}{{1e9, edge, 0}, {500, opening, opening}} {
		o := Outlet{one, 46, 50, Cover{500, c.openingMM2}}
		if math.Abs(o.DepthMM(0.3)-c.depth) > 1e-9 || math.Abs(o.StandsMM(0.3)-c.stands) > 1e-9 {
			t.Errorf("open %v: %v deep, stands %v; by hand %v, %v", c.openingMM2, o.DepthMM(0.3), o.StandsMM(0.3), c.depth, c.stands)
		}
	}
}
