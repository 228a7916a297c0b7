package hydraulic

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Hydraulic elements of a circular pipe relative to full, n constant: the
// handbook table (three figures), reproduced by geometry.
func TestHandbookElements(t *testing.T) {
	for _, c := range []struct{ h, a, r, v, q float64 }{
		{0.10, 0.052, 0.254, 0.401, 0.021}, {0.25, 0.196, 0.587, 0.701, 0.137},
		{0.40, 0.374, 0.857, 0.902, 0.337}, {0.50, 0.500, 1.000, 1.000, 0.500},
		{0.60, 0.627, 1.111, 1.072, 0.672}, {0.75, 0.805, 1.207, 1.133, 0.912}, {0.90, 0.948, 1.192, 1.124, 1.066},
	} {
		part, full := PartFull(100, c.h), PartFull(100, 1)
		q, v := Manning(100, c.h, 0.01, 0.01)
		q0, v0 := Manning(100, 1, 0.01, 0.01)
		for name, got := range map[string][2]float64{"area": {part.AreaM2 / full.AreaM2, c.a}, "radius": {part.HydraulicM / full.HydraulicM, c.r},
			"velocity": {v / v0, c.v}, "flow": {q / q0, c.q}} {
			if math.Abs(got[0]-got[1]) > 0.001 {
				t.Errorf("h/d %.2f %s: %.4f, table %.3f", c.h, name, got[0], got[1])
			}
		}
	}
}

// engdatabase.com, circular channel: y/D, A/D², P/D, R/D, T/D to 1e-6.
func TestPartFullPublished(t *testing.T) {
	for _, c := range [][5]float64{{0.05, 0.014681, 0.451027, 0.032551, 0.435890}, {0.10, 0.040875, 0.643501, 0.063520, 0.600000}, {0.60, 0.492028, 1.772154, 0.277644, 0.979796}} {
		f := PartFull(1000, c[0])
		for i, got := range []float64{f.AreaM2, f.PerimeterM, f.HydraulicM, f.SurfaceM} {
			if math.Abs(got-c[i+1]) > 1e-6 {
				t.Errorf("y/D %.2f element %d: %.6f, published %.6f", c[0], i, got, c[i+1])
			}
		}
	}
}

// EN 12056-2:2000 Annex B Tables B.1 (DN 100, 96 mm, half full) and DN 150
// (146 mm, 70 % full), from memory, to the printed rounding.
func TestAnnexB(t *testing.T) {
	for _, c := range []struct{ bore, fill, slope, q, v float64 }{
		{96, 0.5, 0.005, 1.8, 0.5}, {96, 0.5, 0.01, 2.5, 0.7}, {96, 0.5, 0.02, 3.5, 1.0}, {96, 0.5, 0.03, 4.4, 1.2},
		{146, 0.7, 0.01, 12.8, 1.0}, {146, 0.7, 0.02, 18.2, 1.5}, {146, 0.7, 0.05, 28.8, 2.3},
	} {
		q, v := ColebrookWhite(c.bore, c.fill, c.slope)
		if math.Abs(q-c.q) > 0.051 || math.Abs(v-c.v) > 0.051 {
			t.Errorf("bore %.0f fill %.1f slope %.3f: Q %.3f v %.3f, printed %.1f and %.1f", c.bore, c.fill, c.slope, q, v, c.q, c.v)
		}
	}
}

// More slope or a larger pipe never carries less.
func TestMonotonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bore, fill, slope := rapid.Float64Range(20, 200).Draw(t, "bore"), rapid.Float64Range(0.05, 1).Draw(t, "fill"), rapid.Float64Range(0.001, 0.2).Draw(t, "slope")
		q, _ := ColebrookWhite(bore, fill, slope)
		steeper, _ := ColebrookWhite(bore, fill, slope*1.1)
		larger, _ := ColebrookWhite(bore*1.1, fill, slope)
		if steeper < q || larger < q {
			t.Fatalf("Q %f, steeper %f, larger %f", q, steeper, larger)
		}
	})
}
