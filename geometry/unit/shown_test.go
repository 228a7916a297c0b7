package unit

import (
	"math"
	"testing"

	"underfall/geometry/message"
)

// How each kind of number is written, to its last decimal. 0.21 l/s are 0.21·60 /
// 3.785411784 = 3.3286 gpm; 0.5 m/s 1.6404 ft/s; a fall of 0.03 is 1:33.333, and
// 0.36 in in a foot, to which six sixteenths, 0.375 in, are the nearest; 0.325 in are 5.2 sixteenths and 2.708 %.
func TestShown(t *testing.T) {
	for _, c := range []struct {
		v                float64
		kind             Kind
		metric, imperial string
	}{
		{12.345, Length, "12.3 mm", `1/2"`}, {0.21, Flow, "12.6 l/min", "3.33 gpm"}, {0.123, Flow, "7.4 l/min", "1.95 gpm"}, {22.56, Angle, "22.6°", "22.6°"},
		{0.12345, Ratio, "12.3 %", "12.3 %"}, {1.26, Time, "1.3 min", "1.3 min"}, {0.5, Speed, "0.5 m/s", "1.6 ft/s"}, {0.456, Speed, "0.46 m/s", "1.5 ft/s"}, {1.2345, Count, "1.23", "1.23"},
		{0.03, Slope, "1:33.3 (30 mm/m)", "3/8 in/ft (3 %)"}, {0.01234, Slope, "1:81 (12.3 mm/m)", "1/8 in/ft (1.23 %)"}, {-0.025, Slope, "-1:40 (25 mm/m)", "-5/16 in/ft (2.5 %)"},
		{4.9e-5, Slope, "level", "level"}, {-4.9e-5, Slope, "level", "level"}, {5.1e-5, Slope, "0.1 mm/m", "0.01 %"}, {0.00101, Slope, "1:990.1 (1 mm/m)", "0.1 %"},
		{0.001, Slope, "1 mm/m", "0.1 %"}, {0.00099, Slope, "1 mm/m", "0.1 %"}, {0.00056, Slope, "0.6 mm/m", "0.06 %"}, {-0.0005, Slope, "-0.5 mm/m", "-0.05 %"},
		{0.325 / 12, Slope, "1:36.9 (27.1 mm/m)", "5/16 in/ft (2.71 %)"}, {1.0 / 12, Slope, "1:12 (83.3 mm/m)", "1 in/ft"},
		{-0.7, Length, "-0.7 mm", `0"`}, {-0.9, Length, "-0.9 mm", `-1/16"`}, {0, Length, "0 mm", `0"`}, {-25.4, Length, "-25.4 mm", `-1"`}, {-31.75, Length, "-31.8 mm", `-1 1/4"`},
		{math.Inf(1), Length, "–", "–"}, {math.Inf(-1), Slope, "–", "–"}, {math.NaN(), Count, "–", "–"},
	} {
		if m, i := Format(c.v, c.kind, Metric), Format(c.v, c.kind, Imperial); m != c.metric || i != c.imperial {
			t.Errorf("%v as %s is %q and %q, want %q and %q", c.v, c.kind, m, i, c.metric, c.imperial)
		}
	}
	if got := Format(5e-5, Slope, Metric); got == "level" {
		t.Error("a twentieth of a millimetre in a metre is level")
	}
}

// How numbers are written into fields: lengths without their unit, falls as
// one in so many up to a thousand, two decimals at most.
func TestEditable(t *testing.T) {
	for _, c := range []struct {
		v                float64
		kind             Kind
		metric, imperial string
	}{
		{12.346, Length, "12.35", `1/2"`}, {120, Length, "120", `4 3/4"`}, {0.025, Slope, "1:40", "0.3 in/ft"}, {0.03, Slope, "1:33.33", "0.36 in/ft"}, {1 / 999.99, Slope, "1:999.99", "0.012 in/ft"},
		{1 / 999.996, Slope, "1 mm/m", "0.012 in/ft"}, {0.001, Slope, "1 mm/m", "0.012 in/ft"}, {-0.025, Slope, "-25 mm/m", "-0.3 in/ft"}, {0, Slope, "0 mm/m", "level"}, {0.0009876, Slope, "0.99 mm/m", "0.012 in/ft"},
		{5, Slope, "1:0.2", "60 in/ft"}, {0.2, Flow, "12 l/min", "3.17 gpm"}, {45, Angle, "45°", "45°"}, {math.NaN(), Length, "–", "–"}, {math.Inf(1), Length, "–", "–"}, {math.Inf(-1), Slope, "–", "–"},
	} {
		if m, i := Editable(c.v, c.kind, Metric), Editable(c.v, c.kind, Imperial); m != c.metric || i != c.imperial {
			t.Errorf("%v as %s is %q and %q, want %q and %q", c.v, c.kind, m, i, c.metric, c.imperial)
		}
	}
}

// How a reading is told, in full and so that it can be read in one way only: one
// in a whole or short number, else percent; never three decimals; lengths in
// whichever of inches and millimetres is short.
func TestExactText(t *testing.T) {
	for _, c := range []struct {
		v                float64
		kind             Kind
		metric, imperial string
	}{
		{0.025, Slope, "1:40", "1:40"}, {-0.025, Slope, "-1:40", "-1:40"}, {1, Slope, "1:1", "1:1"}, {2, Slope, "200 %", "200 %"}, {1 / 99999.0, Slope, "1:99999", "1:99999"},
		{1e-5, Slope, "0.0010 %", "0.0010 %"}, {0.0333, Slope, "3.33 %", "3.33 %"}, {1 / 33.3, Slope, "1:33.3", "1:33.3"}, {0.125, Ratio, "12.5 %", "12.5 %"},
		{120, Length, "120 mm", "120 mm"}, {38.1, Length, "38.1 mm", `1 1/2"`}, {12.345, Length, "12.3450 mm", "12.3450 mm"}, {25.4 / 3, Length, "8.466666667 mm", `0.333333333"`},
		{0.2, Flow, "12 l/min", "3.170064628 gpm"}, {22.5, Angle, "22.5°", "22.5°"}, {3, Count, "3", "3"}, {0.3048, Speed, "0.3048 m/s", "1 ft/s"}, {15, Time, "15 min", "15 min"},
	} {
		if m, i := exact(c.v, c.kind, Metric), exact(c.v, c.kind, Imperial); m != c.metric || i != c.imperial {
			t.Errorf("%v as %s is %q and %q, want %q and %q", c.v, c.kind, m, i, c.metric, c.imperial)
		}
	}
	for v, want := range map[float64]string{0.001: "0.0010", 1.23: "1.23", 1.2345: "1.2345", 1.0 / 3: "0.333333333", -12.345: "-12.3450", 7: "7"} {
		if got := decimals(v); got != want {
			t.Errorf("%v is written %q, want %q", v, got, want)
		}
	}
}

// Every character that stands for a plain one, and every fraction of one
// character, by its name in Unicode.
func TestCharacters(t *testing.T) {
	for want, like := range map[rune]string{'"': "″”“„ʺ＂", '\'': "′’‘´`ʹ＇", '-': "−–‐‑﹣－", '*': "×·✕", '/': "÷⁄∕", ':': "∶", '°': "º", ' ': " \t\u00a0\u2009\u202f", 'a': "a", '½': "½"} {
		for _, r := range like {
			if got := plain(r); got != want {
				t.Errorf("%c counts as %c, want %c", r, got, want)
			}
		}
	}
	for r, want := range map[rune]float64{'½': 1.0 / 2, '⅓': 1.0 / 3, '⅔': 2.0 / 3, '¼': 1.0 / 4, '¾': 3.0 / 4, '⅕': 1.0 / 5, '⅖': 2.0 / 5, '⅗': 3.0 / 5, '⅘': 4.0 / 5, '⅙': 1.0 / 6,
		'⅚': 5.0 / 6, '⅐': 1.0 / 7, '⅛': 1.0 / 8, '⅜': 3.0 / 8, '⅝': 5.0 / 8, '⅞': 7.0 / 8, '⅑': 1.0 / 9, '⅒': 1.0 / 10} {
		if over, under, ok := glyphs(r); !ok || over/under != want {
			t.Errorf("%c is %v/%v (%v), want %v", r, over, under, ok, want)
		}
	}
	for _, r := range "1/ a€²" {
		if over, under, ok := glyphs(r); ok || over != 0 || under != 0 {
			t.Errorf("%c is %v/%v", r, over, under)
		}
	}
}

// Lengths to whole, half or tenth millimetres; in inches to the nearest sixteenth of
// what they are: 15.2 mm are 9.57 of them, rounded to 15 they would be 9.45.
func TestRounded(t *testing.T) {
	for _, c := range []struct {
		mm                             float64
		whole, half, tenth, inImperial string
	}{
		{12.74, "13 mm", "12.5 mm", "12.7 mm", `1/2"`}, {12.76, "13 mm", "13 mm", "12.8 mm", `1/2"`}, {12.24, "12 mm", "12 mm", "12.2 mm", `1/2"`},
		{15.2, "15 mm", "15 mm", "15.2 mm", `5/8"`}, {-3.3, "-3 mm", "-3.5 mm", "-3.3 mm", `-1/8"`},
		// A hair under a half is one: 117.5 worked out in another way.
		{117.5 - 1e-9, "118 mm", "117.5 mm", "117.5 mm", `4 5/8"`}, {12.25 - 1e-9, "12 mm", "12.5 mm", "12.3 mm", `1/2"`},
	} {
		for round, want := range map[message.Round]string{message.Whole: c.whole, message.Half: c.half, message.Tenth: c.tenth} {
			if got := Rounded(c.mm, round, Metric); got != want {
				t.Errorf("%v to step %d is %q, want %q", c.mm, round, got, want)
			}
			if got := Rounded(c.mm, round, Imperial); got != c.inImperial {
				t.Errorf("%v to step %d is %q, want %q", c.mm, round, got, c.inImperial)
			}
		}
	}
}

func TestSignedLevels(t *testing.T) {
	for mm, want := range map[float64]string{0: "0 mm", 0.49: "0 mm", 0.51: "+1 mm", 12.4: "+12 mm", -0.49: "0 mm", -0.51: "-1 mm", -12.6: "-13 mm", math.Inf(1): "–"} {
		if got := SignedLevel(mm, Metric); got != want {
			t.Errorf("%v is %q, want %q", mm, got, want)
		}
	}
	for mm, want := range map[float64]string{25.4: `+1"`, -25.4: `-1"`, 0.7: `0"`, 0.9: `+1/16"`, -0.7: `0"`} {
		if got := SignedLevel(mm, Imperial); got != want {
			t.Errorf("%v in inches is %q, want %q", mm, got, want)
		}
	}
}

// A length is told in the step that it is written in: halves of a millimetre up from the half between two, sixteenths of an inch.
func TestTold(t *testing.T) {
	for _, c := range []struct {
		mm, want float64
		round    message.Round
		s        System
	}{{72.24, 72, message.Half, Metric}, {72.25, 72.5, message.Half, Metric}, {-0.7, -1, message.Whole, Metric}, {25.4/32 + 0.01, 25.4 / 16, message.Half, Imperial}} {
		if got := Told(c.mm, c.round, c.s); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v is told as %v, want %v", c.mm, got, c.want)
		}
	}
}
