package unit

import (
	"math"
	"testing"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		kind Kind
		s    System
		want float64
	}{
		{"120", Length, Metric, 120},
		{" 12,5 ", Length, Metric, 12.5},
		{"-3.5", Length, Metric, -3.5},
		{"12 cm", Length, Metric, 120},
		{"2.4 m", Length, Metric, 2400},
		{`1"`, Length, Metric, 25.4}, // exact: international yard and pound agreement, 1959
		{"4 3/4", Length, Imperial, 120.65},
		{`4 3/4"`, Length, Metric, 120.65},
		{`3' 2 1/2"`, Length, Metric, 977.9},
		{`3' 2-1/2"`, Length, Metric, 977.9},
		{"½", Length, Imperial, 12.7},
		{"-1/2", Length, Imperial, -12.7},
		{"5ft", Length, Imperial, 1524},
		{"1:40", Slope, Metric, 0.025},
		{"40", Slope, Metric, 0.025},
		{"2.5 %", Slope, Metric, 0.025},
		{"25 mm/m", Slope, Metric, 0.025},
		{"1/4 in/ft", Slope, Imperial, 1.0 / 48},
		{"1/4 in per ft", Slope, Metric, 1.0 / 48},
		{"3°", Slope, Metric, math.Tan(3 * math.Pi / 180)},
		{"12", Flow, Metric, 0.2},
		{"0.2 l/s", Flow, Metric, 0.2},
		{"2.5 gpm", Flow, Metric, 0.15772549},
		{"45°", Angle, Metric, 45},
	} {
		got, err := Parse(c.text, c.kind, c.s)
		if err != nil || math.Abs(got-c.want) > 1e-6 {
			t.Errorf("Parse(%q, %s, %s) = %v, %v; want %v", c.text, c.kind, c.s, got, err, c.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		text string
		kind Kind
	}{
		{"", Length}, {"-", Length}, {"12 furlongs", Length}, {"1/0", Length}, {"NaN", Length}, {"1e999", Length},
		{"1:", Slope}, {"1:0", Slope}, {"90°", Slope}, {"steep", Slope}, {"5 mm", Flow}, {"12..5", Length}, {"3 m 2 x", Length},
	} {
		if v, err := Parse(c.text, c.kind, Metric); err == nil {
			t.Errorf("Parse(%q, %s) = %v, want an error", c.text, c.kind, v)
		}
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		v    float64
		kind Kind
		s    System
		want string
	}{
		{120, Length, Metric, "120 mm"}, {12.34, Length, Metric, "12.3 mm"}, {-0.01, Length, Metric, "0 mm"},
		{120.65, Length, Imperial, `4 3/4"`}, {-12.7, Length, Imperial, `-1/2"`}, {25.3, Length, Imperial, `1"`},
		{0.025, Slope, Metric, "1:40 (25 mm/m)"}, {1.0 / 48, Slope, Imperial, "1/4 in/ft"}, {0.018, Slope, Metric, "1:55.6 (18 mm/m)"}, {-0.09, Slope, Metric, "-1:11.1 (90 mm/m)"}, {0.010416667, Slope, Imperial, "1/8 in/ft"}, {0.3, Slope, Imperial, "3 5/8 in/ft (30 %)"}, {0, Slope, Metric, "level"},
		{0.2, Flow, Metric, "12 l/min"}, {math.NaN(), Length, Metric, "–"}, {0.125, Ratio, Metric, "12.5 %"}, {0.94, Time, Metric, "0.9 min"}, {0.3048, Speed, Imperial, "1 ft/s"}, {1.915, Load, Imperial, "40 lb/ft²"}, {1.915, Load, Metric, "1.92 kN/m²"}, {0.45, Speed, Metric, "0.45 m/s"},
	} {
		if got := Format(c.v, c.kind, c.s); got != c.want {
			t.Errorf("Format(%v, %s, %s) = %q, want %q", c.v, c.kind, c.s, got, c.want)
		}
	}
}
