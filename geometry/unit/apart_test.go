package unit_test

import (
	"testing"

	"underfall/geometry/unit"
)

// Two numbers that are not the same never look the same, with no more digits than
// that takes; nearer than anybody measures they may.
func TestApart(t *testing.T) {
	for _, c := range []struct {
		a, b           float64
		kind           unit.Kind
		metric, other  string
		inches, beside string
	}{
		{49.96, 50, unit.Length, "49.96 mm", "50 mm", `1.967"`, `1.969"`},
		{48, 50, unit.Length, "48 mm", "50 mm", `1 7/8"`, `1 15/16"`},
		// A thirty-second of an inch is 0.79 mm, a sixty-fourth 0.4.
		{50.8, 50, unit.Length, "50.8 mm", "50 mm", `2"`, `1 15/16"`},
		{50.8, 50.5, unit.Length, "50.8 mm", "50.5 mm", `2"`, `1 63/64"`},
		// 609.6 mm are 24 in, 610 768.504 thirty-seconds; 304.6 mm are 767.496 sixty-fourths, 767 of them 11 63/64 in;
		// 304.75 mm are 767.87 of those and 11.998 in.
		{610, 609.6, unit.Along, "610 mm", "609.6 mm", `2' 1/32"`, `2' 0"`},
		{304.8, 304.6, unit.Along, "304.8 mm", "304.6 mm", `1' 0"`, `11 63/64"`},
		{304.8, 304.75, unit.Along, "304.8 mm", "304.75 mm", `1' 0"`, `11.998"`},
		{0.0404, 0, unit.Length, "0.04 mm", "0 mm", `0.002"`, `0"`},
		{-0.02, 0, unit.Length, "-0.02 mm", "0 mm", `-0.001"`, `0"`},
		{0.01799, 0.018, unit.Slope, "1:55.59 (17.99 mm/m)", "1:55.56 (18 mm/m)", "3/16 in/ft (1.799 %)", "3/16 in/ft (1.8 %)"},
		{0.00004, 0, unit.Slope, "0.04 mm/m", "0 mm/m", "0.004 %", "0 %"},
		{1.0000001, 1, unit.Ratio, "100.00001 %", "100 %", "100.00001 %", "100 %"},
		{580643, 580644, unit.Area, "0.580643 m²", "0.580644 m²", "6.24999 ft²", "6.25 ft²"},
		{3, 3, unit.Count, "3", "3", "3", "3"},
		{2.4999, 2.5, unit.Angle, "2.4999°", "2.5°", "2.4999°", "2.5°"},
	} {
		if a, b := unit.Apart(c.a, c.b, c.kind, unit.Metric); a != c.metric || b != c.other {
			t.Errorf("%v and %v: “%s” and “%s”, want “%s” and “%s”", c.a, c.b, a, b, c.metric, c.other)
		}
		if a, b := unit.Apart(c.a, c.b, c.kind, unit.Imperial); a != c.inches || b != c.beside {
			t.Errorf("%v and %v: “%s” and “%s”, want “%s” and “%s”", c.a, c.b, a, b, c.inches, c.beside)
		}
	}
	if a, b := unit.Apart(1, 1+1e-15, unit.Length, unit.Metric); a != "1 mm" || b != "1 mm" {
		t.Errorf("“%s” and “%s”", a, b)
	}
}
