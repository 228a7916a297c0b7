package unit

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// readsAs fails unless text is read as the value, to rounding.
func readsAs(t *testing.T, text string, kind Kind, s System, want float64) {
	t.Helper()
	got, err := Parse(text, kind, s)
	if err != nil || math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
		t.Errorf("Parse(%q, %s, %s) = %v, %v; want %v", text, kind, s, got, err, want)
	}
}

// asks fails unless text is asked about with just these readings.
func asks(t *testing.T, text string, kind Kind, s System, want ...string) {
	t.Helper()
	v, err := Parse(text, kind, s)
	var a *Ambiguous
	if !errors.As(err, &a) {
		t.Errorf("Parse(%q, %s, %s) = %v, %v; want to be asked", text, kind, s, v, err)
		return
	}
	var got []string
	for _, r := range a.Readings {
		got = append(got, r.Text)
		readsAs(t, r.Text, kind, s, r.Value)
	}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("Parse(%q, %s, %s) asks %q, want %q", text, kind, s, got, want)
	}
}

const inch = 25.4

func TestLengthsInBothSystems(t *testing.T) {
	for text, want := range map[string]float64{
		// Fractions of an inch: the whole before the stroke is never split.
		`11/16"`: 11 * inch / 16, `15/16"`: 15 * inch / 16, `21/32"`: 21 * inch / 32, `11 / 16"`: 11 * inch / 16, `11/2"`: 5.5 * inch,
		`⅞"`: 7 * inch / 8, `4½"`: 4.5 * inch, `4 ½ in`: 4.5 * inch, `4-1/2"`: 4.5 * inch, `1⁄3 in`: inch / 3, `-¼″`: -inch / 4,
		`7' 10 1/2`: 94.5 * inch, `7'10-1/2"`: 94.5 * inch, `7′ 10½″`: 94.5 * inch, `7’10½”`: 94.5 * inch, `5 ft 3`: 63 * inch, `5ft3`: 63 * inch,
		`5' - 3"`: 63 * inch, `5'-3 1/2''`: 63.5 * inch, `5 feet 3 inches`: 63 * inch, `4 in.`: 4 * inch, `5 ft. 3 in.`: 63 * inch,
		`4 11"`: 59 * inch, `1.5'`: 18 * inch, `1 1/2'`: 18 * inch, `3'`: 36 * inch, `3' 1/2"`: 36.5 * inch, `-3' 2"`: -38 * inch, `1'0"`: 12 * inch,
		"2 m 30 cm": 2300, "2 m 30": 2300, "2m30": 2300, "2 m 300": 2300, "2 m 5 cm": 2050, "2 m 05": 2050, "2 m 5 mm": 2005, "2 m 30,5": 2305,
		"1 m 2 cm 5 mm": 1025, "1 m 2 cm 5": 1025, "3 cm 5": 35, "1/2 m": 500, "2 metres 30 centimetres": 2300, "4 dm": 400, "-2 m 30": -2300,
		"1.200 m": 1200, "1,200 m": 1200, "12 345,6 mm": 12345.6, "12.345,6 mm": 12345.6, "12,345.6 mm": 12345.6, "1 200 mm": 1200, "1\u202f200\u00a0mm": 1200,
		"12,5 cm": 125, "0,125 m": 125, "1,2345 m": 1234.5, ".5 mm": 0.5, ",5 mm": 0.5, "12. mm": 12, "12, mm": 12, "+5 mm": 5, "− 5 mm": -5, "–5 mm": -5,
		"1234,567 mm": 1234.567, "1 234,567 mm": 1234.567, "01,200 mm": 1.2,
		// Sums.
		"=1200 mm-2*13 mm+5 mm": 1179, `=3' 2" + 4 1/2"`: 42.5 * inch, "= (900 mm-30 mm)/2": 435, "=2x13 mm": 26, "=13 mm×2": 26, "=1 m 20 - 2 cm": 1180,
		"=-5 mm--8 mm": 3, "=+(2*(3+4))*1 mm": 14, `=900 mm - 2"`: 900 - 2*inch, "=1000 mm / 4 / 5": 50, "=3*1200 mm/400 mm * 10 mm": 90, "=10 mm * 3/4": 7.5,
		"=12,5 mm + 2.5 mm": 15, "=1,200 mm + 12.5 mm": 1212.5,
	} {
		readsAs(t, text, Length, Metric, want)
		readsAs(t, text, Length, Imperial, want)
	}
	readsAs(t, "=1.200,5 mm+1", Length, Metric, 1201.5)
	readsAs(t, "=1.200,5 mm+1", Length, Imperial, 1200.5+inch)
	readsAs(t, `=4 - 1/2"`, Length, Imperial, 3.5*inch)
}

func TestLengthsInOneSystem(t *testing.T) {
	for text, want := range map[string]float64{
		"11 / 16": 11 * inch / 16, "4 11": 59 * inch, "4-11": 59 * inch, "7-10 1/2": 94.5 * inch, "7-10.5": 94.5 * inch, "7-0": 84 * inch, "7-10-1/2": 94.5 * inch, "4 1/2": 4.5 * inch, "4 11 1/2": 59.5 * inch, "4 11.5": 59.5 * inch, "4 11/16": 75 * inch / 16,
		"11/2": 5.5 * inch, "12,5": 12.5 * inch, "1 200": 1200 * inch, "=36-13 1/4": 22.75 * inch, "½": inch / 2, "5'3": 63 * inch, "=4 11 + 1": 60 * inch,
	} {
		readsAs(t, text, Length, Imperial, want)
	}
	for text, want := range map[string]float64{
		"1 200": 1200, "12,5": 12.5, "12.5": 12.5, "1,234.5": 1234.5, "1.234,5": 1234.5, "11/2": 5.5, "=1200-2*13+5": 1179,
		"= (900-30)/2": 435, "=1 200/2": 600, "=900-30/2": 885, "1,2": 1.2, "1.25": 1.25, "0,125": 0.125, "1,2345": 1.2345, "12 345": 12345,
	} {
		readsAs(t, text, Length, Metric, want)
	}
}

func TestOtherQuantities(t *testing.T) {
	const gallon = 3.785411784 / 60
	for _, c := range []struct {
		text string
		kind Kind
		s    System
		want float64
	}{
		{"1:40", Slope, Imperial, 0.025}, {"1 : 40", Slope, Metric, 0.025}, {"1 in 40", Slope, Metric, 0.025}, {"1 in 40", Slope, Imperial, 0.025}, {"2 in 100", Slope, Metric, 0.02},
		{"1:12,5", Slope, Metric, 0.08}, {"2,5 %", Slope, Metric, 0.025}, {"2.5%", Slope, Imperial, 0.025}, {"25 ‰", Slope, Metric, 0.025}, {"25 mm/m", Slope, Metric, 0.025},
		{"25 mm per m", Slope, Metric, 0.025}, {"2,5 cm/m", Slope, Metric, 0.025}, {"25 mm/1 m", Slope, Metric, 0.025}, {"25 mm : 1 m", Slope, Metric, 0.025},
		{"1/4 in/ft", Slope, Metric, 1.0 / 48}, {`1/4" per foot`, Slope, Imperial, 1.0 / 48}, {`¼"/ft`, Slope, Imperial, 1.0 / 48}, {`1/4" per 12"`, Slope, Imperial, 1.0 / 48},
		{`1/4"/'`, Slope, Imperial, 1.0 / 48}, {"1/4 per ft", Slope, Metric, 1.0 / 48}, {"25 per m", Slope, Imperial, 0.025}, {"1.125 in/ft", Slope, Imperial, 1.125 / 12}, {"5/16 in/ft (2.71 %)", Slope, Imperial, 0.0271},
		{"level", Slope, Metric, 0}, {"0", Slope, Metric, 0}, {"-1:40", Slope, Metric, -0.025}, {"-40", Slope, Metric, -0.025}, {"0,02", Slope, Metric, 0.02}, {"1/40", Slope, Metric, 0.025},
		{"1:40 (25 mm/m)", Slope, Metric, 0.025}, {"-1:40 (25 mm/m)", Slope, Metric, -0.025}, {"=1:40 + 0,5 %", Slope, Metric, 0.03}, {"=25 mm/1 m", Slope, Metric, 0.025},
		{`=3/8" / 1'`, Slope, Imperial, 1.0 / 32}, {"=2*(1:100)", Slope, Metric, 0.02}, {"3 deg", Slope, Metric, math.Tan(3 * math.Pi / 180)},
		{"12,5", Flow, Metric, 12.5 / 60}, {"12 l / min", Flow, Metric, 0.2}, {"12 litres per minute", Flow, Imperial, 0.2}, {"2 1/2 gal/min", Flow, Metric, 2.5 * gallon}, {"2.5", Flow, Imperial, 2.5 * gallon},
		{"=12+9", Flow, Metric, 0.35}, {"=2*9 l/min", Flow, Metric, 0.3}, {"1 200 l/min", Flow, Metric, 20},
		{"22,5°", Angle, Metric, 22.5}, {"=90/4", Angle, Metric, 22.5}, {"45 degrees", Angle, Imperial, 45}, {"1 rad", Angle, Metric, 180 / math.Pi},
		{"12,5 %", Ratio, Metric, 0.125}, {"1/8", Ratio, Metric, 0.125}, {"=50 %*2", Ratio, Metric, 1}, {"0.5", Ratio, Metric, 0.5},
		{"3", Count, Metric, 3}, {"1 200", Count, Metric, 1200}, {"=2*3", Count, Imperial, 6}, {"1,234,567", Count, Metric, 1234567},
		{"15 min", Time, Metric, 15}, {"90 s", Time, Metric, 1.5}, {"0,7 m/s", Speed, Metric, 0.7}, {"2 ft/s", Speed, Metric, 0.6096}, {"2", Speed, Imperial, 0.6096},
	} {
		readsAs(t, c.text, c.kind, c.s, c.want)
	}
}

// Where two meanings make sense the user is asked.
func TestAsks(t *testing.T) {
	asks(t, "1,200", Length, Metric, "1200 mm", "1.2 mm")
	asks(t, "1.200", Length, Metric, "1200 mm", "1.2 mm")
	asks(t, "12,345", Length, Metric, "12345 mm", "12.3450 mm")
	asks(t, "-1,200", Length, Metric, "-1.2 mm", "-1200 mm")
	asks(t, "1,200", Length, Imperial, `1200"`, `1.2"`)
	asks(t, "1.250 cm", Length, Metric, "12500 mm", "12.5 mm")
	asks(t, "11/16", Length, Metric, `11/16"`, "0.6875 mm")
	asks(t, "4 3/4", Length, Metric, `4 3/4"`, "4.75 mm")
	asks(t, "½", Length, Metric, `1/2"`, "0.5 mm")
	asks(t, "2 m 5", Length, Metric, "2500 mm", "2050 mm")
	asks(t, "2m5", Length, Imperial, "2500 mm", "2050 mm")
	asks(t, `=4-1/2"`, Length, Metric, "114.3 mm", "-8.7 mm")
	asks(t, "=4-1/2", Length, Imperial, `4 1/2"`, `3 1/2"`)
	asks(t, `=5'-3"`, Length, Imperial, `63"`, `57"`)
	asks(t, "=1,200+1", Length, Metric, "1201 mm", "2.2 mm")
	asks(t, "2", Slope, Metric, "1:2", "2 %")
	asks(t, "1", Slope, Metric, "100 %", "1 %")
	asks(t, "1:1,200", Slope, Metric, "1:1.2", "1:1200")
	asks(t, "1,200", Flow, Metric, "1200 l/min", "1.2 l/min")
	asks(t, "1,200", Count, Metric, "1200", "1.2")
	if _, err := Parse("1,200", Length, Metric); err == nil || err.Error() != `reading.ambiguous{typed: "1,200", readings: [own{text: "1200 mm"}, own{text: "1.2 mm"}]}` {
		t.Errorf("asks: %v", err)
	}
}

// The range of a field leaves the meaning that makes sense.
func TestWithin(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		text           string
		kind           Kind
		s              System
		least, most    float64
		want           float64
		asked, refused bool
	}{
		{"1,200", Length, Metric, 0, 50, 1.2, false, false},
		{"1,200", Length, Metric, 100, 3000, 1200, false, false},
		{"1.200", Length, Metric, 100, 3000, 1200, false, false},
		{"1,200", Length, Metric, 0, 3000, 0, true, false},
		{"1,200", Length, Metric, 2, 1000, 0, false, true},
		{"1.200 m", Length, Metric, 0, inf, 1200, false, false},
		{"3/4", Length, Metric, 10, 250, 19.05, false, false},
		{"2", Slope, Metric, 0, 0.25, 0.02, false, false},
		{"5", Slope, Metric, 0, 0.25, 0, true, false},
		{"40", Slope, Metric, 0, 0.25, 0.025, false, false},
		{"12", Length, Metric, 0, 10, 0, false, true},
		{"12", Length, Metric, math.NaN(), math.NaN(), 12, false, false},
		{"60 m", Length, Metric, 0, inf, 0, false, true},
		// A limit can be typed as it is shown, though that is rounded beyond it.
		{`11 13/16"`, Length, Imperial, 0, 300, 300, false, false},
		{`0"`, Length, Imperial, 0.5, 300, 0.5, false, false},
		{"1200 l/min", Flow, Metric, 0, 20, 20, false, false},
		{"-0.5 mm", Length, Imperial, 0, 300, 0, false, true},
		// A quarter is 1:4, or a quarter of an inch to the foot where inches are.
		{"1/4", Slope, Imperial, -0.5, 1, 0, true, false},
		{"0.25", Slope, Imperial, -0.5, 1, 0, true, false},
		{"¼", Slope, Imperial, 0, 0.1, 1.0 / 48, false, false},
		{"1/2", Slope, Imperial, 0, 0.1, 1.0 / 24, false, false},
		{"1/4", Slope, Metric, -0.5, 1, 0.25, false, false},
		{"1/48", Slope, Imperial, -0.5, 1, 1.0 / 48, false, false},
		{"0.0625", Slope, Imperial, -0.5, 1, 0, true, false},
		{"0.0624", Slope, Imperial, -0.5, 1, 0.0624, false, false},
	} {
		v, err := ParseWithin(c.text, c.kind, c.s, c.least, c.most)
		var a *Ambiguous
		asked := errors.As(err, &a)
		if asked != c.asked || (err != nil && !asked) != c.refused || math.Abs(v-c.want) > 1e-9 {
			t.Errorf("ParseWithin(%q, %s, %s, %v, %v) = %v, %v", c.text, c.kind, c.s, c.least, c.most, v, err)
		}
	}
	if _, err := ParseWithin("12", Length, Metric, 0, 10); err == nil || err.Error() != `reading.outside{is: [own{text: "12 mm"}], least: 0 mm, greatest: 10 mm}` {
		t.Errorf("beyond the range: %v", err)
	}
}

// What cannot be read is refused with what is wrong.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		text string
		kind Kind
		s    System
		says string
	}{
		{"", Length, Metric, `reading.empty{examples: [own{text: "120"}, own{text: "12.5 cm"}`},
		{" \u00a0 ", Slope, Imperial, `reading.empty{examples: [own{text: "1/4 in/ft"}`},
		{"4 11", Length, Metric, "reading.two-numbers"},
		{"4 11 20", Length, Metric, "reading.several-numbers"},
		{"1500\t900\t20", Length, Metric, "reading.several-numbers"},
		{"4-11", Length, Metric, "reading.begin-with-equals"},
		{"7-12", Length, Imperial, "reading.inches-below-foot"},
		{"7.5-3", Length, Imperial, "reading.feet-whole"},
		{"7 - 3", Length, Imperial, "reading.begin-with-equals"},
		{"4 12", Length, Imperial, "reading.inches-below-foot{foot: 12}"},
		{"1'200", Length, Metric, "reading.inches-below-foot"},
		{"1’200.50", Length, Metric, "reading.inches-below-foot"},
		{`3' 14"`, Length, Imperial, "reading.inches-below-foot"},
		{`2.5' 3"`, Length, Imperial, "reading.feet-whole"},
		{"3' 20 mm", Length, Imperial, "reading.inches-after-feet"},
		{"2 m 120 cm", Length, Metric, "reading.too-many-cm"},
		{"2 m 3 m", Length, Metric, `reading.smaller-unit{unit: "m"}`},
		{"2,5 m 30", Length, Metric, `reading.whole-before-number{unit: "m"}`},
		{"2 m 3000", Length, Metric, "reading.cm-or-mm"},
		{"1 17/16\"", Length, Imperial, "reading.fraction-too-large"},
		{"1/", Length, Metric, `must-follow{typed: "/"}`},
		{"1/0", Length, Metric, "reading.divided-by-nought"},
		{"=12+", Length, Metric, `reading.number-must-follow{typed: "+"}`},
		{"=", Length, Imperial, "reading.sum-missing"},
		{"=5/0", Length, Metric, "reading.divided-by-nought"},
		{"=5/(3-3)", Length, Metric, "reading.divided-by-nought"},
		{"=2 mm*3 mm", Length, Metric, "reading.product-of-units"},
		{"=5/(2 mm)", Length, Metric, "reading.divided-by-unit"},
		{"=6 mm/2 mm", Length, Metric, "reading.no-unit-left"},
		{"=6 mm/2 mm + 3 mm", Length, Metric, `reading.sum-of-units{typed: "+"}`},
		{"=(1+2", Length, Metric, "reading.no-closing"},
		{"=1+2)", Length, Metric, "reading.no-opening"},
		{"=()", Length, Metric, `reading.number-before{typed: ")"}`},
		{"=2(3)", Length, Metric, `reading.not-here{typed: "("}`},
		{"=" + strings.Repeat("(", 30) + "1" + strings.Repeat(")", 30), Length, Metric, "reading.many-parentheses"},
		{strings.Repeat("1", 300), Length, Metric, "reading.too-long"},
		{strings.Repeat("9", 200), Length, Metric, "reading.far-too-much"},
		{"1200-26", Length, Metric, "reading.begin-with-equals"},
		{"2*3", Length, Metric, "reading.begin-with-equals"},
		{"12 furlongs", Length, Metric, `reading.unknown-unit{typed: "furlongs"}`},
		{"furlongs", Length, Metric, `reading.no-number{typed: "furlongs"}`},
		{"12..5", Length, Metric, `reading.means-nothing{typed: "."}`},
		{"1,2,3", Length, Metric, `reading.marks{typed: "1,2,3"}`},
		{"1.2.3", Length, Metric, `reading.marks{typed: "1.2.3"}`},
		{"12,34.5", Length, Metric, `reading.marks{typed: "12,34.5"}`},
		{"1e3", Length, Metric, `reading.unknown-unit{typed: "e"}`},
		{"#", Length, Metric, `reading.means-nothing{typed: "#"}`},
		{"-", Length, Metric, `reading.number-must-follow{typed: "-"}`},
		{"60 m", Length, Metric, "least: -50000 mm, greatest: 50000 mm}"},
		{"1:", Slope, Metric, `must-follow{typed: ":"}`},
		{"1:0", Slope, Metric, "reading.one-in-nought"},
		{"90°", Slope, Metric, "reading.steep-fall{steepest: 90°}"},
		{"25 mm", Slope, Metric, "reading.length-no-fall"},
		{"25 mm : 40", Slope, Metric, "reading.units-both"},
		{"=1° + 1 %", Slope, Metric, "reading.degrees-in-sum"},
		{"=1 % + 2", Slope, Metric, "reading.sum-of-units"},
		{"1:40 (30 mm/m)", Slope, Metric, "reading.falls-disagree"},
		{"5 mm", Flow, Metric, `examples: [own{text: "12"}, own{text: "12 l/min"}`},
		{"5 mm", Angle, Metric, `own{text: "22.5°"}`},
		{"l/min", Flow, Metric, `reading.no-number{typed: "l"}`},
		{"m/s", Speed, Metric, `reading.no-number{typed: "m"}`},
	} {
		v, err := Parse(c.text, c.kind, c.s)
		var a *Ambiguous
		if err == nil || errors.As(err, &a) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("Parse(%q, %s, %s) = %v, %v; want it to say %q", c.text, c.kind, c.s, v, err, c.says)
		}
	}
}

// How 1200.5, 1200 and 12.5 are written in different countries.
func TestCountries(t *testing.T) {
	for country, c := range map[string]struct{ many, thousands, few []string }{
		"en-GB": {[]string{"1,200.5", "1200.5", "1\u2009200.5"}, []string{"1200"}, []string{"12.5"}},
		"en-US": {[]string{"1,200.5", "1200.5"}, []string{"1200"}, []string{"12.5"}},
		"de-DE": {[]string{"1.200,5", "1200,5", "1\u202f200,5"}, []string{"1200", "1 200"}, []string{"12,5"}},
		"fr-FR": {[]string{"1\u202f200,5", "1\u00a0200,5", "1 200,5"}, []string{"1\u202f200", "1 200"}, []string{"12,5"}},
		"de-CH": {[]string{"1200.5", "1\u2009200.5"}, []string{"1200", "1\u2009200"}, []string{"12.5", "12,5"}},
		"sv-SE": {[]string{"1\u00a0200,5", "1 200,5", "1200,5"}, []string{"1\u00a0200", "1 200"}, []string{"12,5"}},
	} {
		for want, texts := range map[float64][]string{1200.5: c.many, 1200: c.thousands, 12.5: c.few} {
			for _, text := range texts {
				if v, err := Parse(text, Length, Metric); err != nil || v != want {
					t.Errorf("%s: %q reads as %v, %v", country, text, v, err)
				}
			}
		}
		// The mark between thousands alone needs the range or an answer.
		for _, text := range []string{"1,200", "1.200"} {
			if v, err := ParseWithin(text, Length, Metric, 300, 10000); err != nil || v != 1200 {
				t.Errorf("%s: %q reads as %v, %v", country, text, v, err)
			}
		}
	}
}

// Every thirty-second of an inch up to 3 feet, written every usual way,
// against the inch of 254/10 mm.
func TestEveryThirtySecond(t *testing.T) {
	for n := 1; n <= 36*32; n++ {
		want := float64(n*254) / 320 // exact to the last bit: one division of whole numbers
		for den := 32; den >= 2 && n*den%32 == 0; den /= 2 {
			whole, part := n/32, n%32*den/32
			if part == 0 {
				continue
			}
			fraction := fmt.Sprintf("%d/%d", part, den) // reduced and not: 8/16, 1/2
			var texts []string
			if whole == 0 {
				texts = []string{fraction}
			} else {
				texts = []string{fmt.Sprintf("%d %s", whole, fraction), fmt.Sprintf("%d-%s", whole, fraction), fmt.Sprintf("%d/%d", n*den/32, den)}
			}
			feet, inches := whole/12, whole%12
			for _, text := range append(texts, fmt.Sprintf("%d' %d %s", feet, inches, fraction), fmt.Sprintf("%d'%d-%s", feet, inches, fraction), fmt.Sprintf("%d ft %d %s", feet, inches, fraction)) {
				for _, s := range []System{Metric, Imperial} {
					if got, err := Parse(text+`"`, Length, s); err != nil || got != want {
						t.Fatalf("%s\" in %s is %v, %v; want %v", text, s, got, err, want)
					}
				}
				if got, err := Parse(text, Length, Imperial); err != nil || got != want {
					t.Fatalf("%s is %v, %v; want %v", text, got, err, want)
				}
			}
		}
	}
}
