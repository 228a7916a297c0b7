package hydraulic

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const (
	footMM    = 304.8
	cubicFoot = 28.316846592 // litres
)

// FHWA HEC-22, 4th edition, example 7.5: 6.71 ft³/s over a grate 8.0 ft round
// stands 0.43 ft deep as a weir; through 3.0 ft² of opening 0.17 ft deep as an
// orifice; the greater depth governs. Example 7.7: a slot 1.75 in wide takes
// 4.9 ft³/s under 0.3 ft with 12.0 ft of weir, or 9.6 ft of orifice.
func TestHEC22(t *testing.T) {
	flow := 6.71 * cubicFoot
	if q := WeirLPS(GrateWeir, 8*footMM, 0.43*footMM); math.Abs(q-flow) > 0.01*flow {
		t.Errorf("weir at 0.43 ft: %.2f l/s, published %.2f", q, flow)
	}
	if q := OrificeLPS(GrateOrifice, 3*footMM*footMM, 0.1733*footMM); math.Abs(q-flow) > 0.005*flow {
		t.Errorf("orifice at 0.1733 ft: %.2f l/s, published %.2f", q, flow)
	}
	if _, weir := (Cover{8 * footMM, 3 * footMM * footMM}).LPS(0.43 * footMM); !weir {
		t.Error("the weir does not govern")
	}
	slot := 4.9 * cubicFoot
	if q := WeirLPS(SlotWeir, 12*footMM, 0.3*footMM); math.Abs(q-slot) > 0.01*slot {
		t.Errorf("slot as weir: %.2f l/s, published %.2f", q, slot)
	}
	if q := OrificeLPS(SlotOrifice, 9.6*footMM*1.75*25.4, 0.3*footMM); math.Abs(q-slot) > 0.01*slot {
		t.Errorf("slot as orifice: %.2f l/s, published %.2f", q, slot)
	}
}

// Orifice of 20 mm under 1 m: 0.85 l/s at Cd 0.61 (FOSSEE Scilab textbook
// companions, 2132, example 6.7).
func TestOrifice(t *testing.T) {
	if q := OrificeLPS(0.6108, math.Pi*100, 1000); math.Abs(q-0.85) > 0.005*0.85 {
		t.Errorf("%.4f l/s, published 0.85", q)
	}
}

// Manning, part full: d 0.6 m, n 0.013, S 1/400, depth 0.24 m carries 0.10346
// and full 0.30701 m³/s (EdM44/hydraulics vignette; printed 0.10 and 0.31).
func TestManningPublished(t *testing.T) {
	q, _ := Manning(600, 0.4, 1.0/400, 0.013)
	full, _ := Manning(600, 1, 1.0/400, 0.013)
	if math.Abs(q-103.46) > 0.1 || math.Abs(full-307.01) > 0.3 {
		t.Errorf("%.2f and %.2f l/s", q, full)
	}
}

// FHWA HEC-22, 4th edition, example 9.1: 1.75 ft of pipe at 0.015 with n 0.013
// carries 19.3 ft³/s at 8.0 ft/s, full. Its table of changes: double the
// diameter 6.35, double the slope 1.4, double the roughness 0.5 of the flow.
func TestHEC22Pipe(t *testing.T) {
	q, v := Manning(1.75*footMM, 1, 0.015, 0.013)
	if math.Abs(q/cubicFoot-19.31) > 0.012*19.31 || math.Abs(v*1000/footMM-8.09) > 0.012*8.09 {
		t.Errorf("%.2f ft³/s at %.2f ft/s, published 19.3 and 8.0", q/cubicFoot, v*1000/footMM)
	}
	for name, c := range map[string]struct{ bore, slope, n, want float64 }{"diameter": {200, 0.01, 0.01, 6.35}, "slope": {100, 0.02, 0.01, 1.4}, "roughness": {100, 0.01, 0.02, 0.5}} {
		one, _ := Manning(100, 1, 0.01, 0.01)
		other, _ := Manning(c.bore, 1, c.slope, c.n)
		if math.Abs(other/one-c.want) > 0.011*c.want {
			t.Errorf("double the %s: %.3f of the flow, published %.2f", name, other/one, c.want)
		}
	}
}

// Wide sheet by Manning, n 0.012: 0.2 l/s over 0.9 m at 1:50 would be 1.463 mm
// deep and 1.685 mm at 1:80 (derived, a regression value); q/ν is 327, so it
// is laminar and Nusselt's film, by hand (3·0.68e-6·2.222e-4/(9.81·0.02))^(1/3)
// = 1.322 mm.
func TestFilm(t *testing.T) {
	f := OnTile(0.2, 900, 1.0/50)
	if !f.Laminar || math.Abs(f.DepthMM-1.322) > 0.002 {
		t.Errorf("%+v, want laminar, 1.322 mm", f)
	}
	g := OnTile(2, 900, 1.0/50)
	if want := 1000 * math.Pow(2e-3/0.9*0.012/math.Sqrt(0.02), 0.6); g.Laminar || math.Abs(g.DepthMM-want) > 1e-9 {
		t.Errorf("%+v, want Manning's %.3f mm", g, want)
	}
	if OnTile(0.2, 900, 0) != (Film{}) || OnTile(0, 900, 0.02) != (Film{}) {
		t.Error("a film without fall or flow")
	}
}

// Depth and velocity carry the flow they were found for; more flow is never
// shallower; more head never takes in less.
func TestInPipeCarriesTheFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bore, slope := rapid.Float64Range(25, 150).Draw(t, "bore"), rapid.Float64Range(0.005, 0.1).Draw(t, "slope")
		flow := rapid.Float64Range(0.01, 5).Draw(t, "flow")
		f, more := InPipe(bore, slope, flow), InPipe(bore, slope, flow*1.1)
		if more.DepthShare < f.DepthShare {
			t.Fatalf("more flow is shallower: %+v, %+v", f, more)
		}
		if !f.Full {
			if q, v := ColebrookWhite(bore, f.DepthShare, slope); math.Abs(q-flow) > 1e-4*flow || v != f.VelocityMPS {
				t.Fatalf("carries %v, not %v", q, flow)
			}
		}
		head := rapid.Float64Range(0, 100).Draw(t, "head")
		a, _ := Cover{500, 4000}.LPS(head)
		if b, _ := (Cover{500, 4000}).LPS(head + 1); b < a {
			t.Fatalf("more head takes in less: %v, %v", a, b)
		}
		if h := (Cover{500, 4000}).HeadMM(a); math.Abs(h-head) > 1e-9*(1+head) {
			t.Fatalf("%v l/s need %v mm, not %v", a, h, head)
		}
	})
}
