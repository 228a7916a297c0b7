package unit

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry/message"
)

// The greatest size of each kind that makes sense, and a little more.
func TestGreatest(t *testing.T) {
	for _, c := range []struct {
		kind       Kind
		most, over string
		want       float64
	}{
		{Length, "50000 mm", "50001 mm", 50000}, {Along, "50000 mm", "50001 mm", 50000}, {Slope, "1000 %", "1000.1 %", 10}, {Flow, "100 l/s", "100.1 l/s", 100}, {Ratio, "10000 %", "10001 %", 100},
		{Speed, "100 m/s", "100.1 m/s", 100}, {Angle, "720°", "720.1°", 720}, {Time, "1000000 min", "1000001 min", 1e6}, {Count, "1000000000000", "1000000000001", 1e12},
	} {
		for _, sign := range []string{"", "-"} {
			want := c.want
			if sign == "-" {
				want = -want
			}
			readsAs(t, sign+c.most, c.kind, Metric, want)
			if v, err := Parse(sign+c.over, c.kind, Metric); err == nil || !strings.Contains(err.Error(), "reading.outside{") {
				t.Errorf("%s%s is %v, %v", sign, c.over, v, err)
			}
		}
	}
	// Up to 1e15 a number is told as what it is.
	for text, says := range map[string]string{"1000000000000000": `reading.outside{is: [own{text: "1000000000000000 mm"}], least`, "1000000000000001": "reading.far-too-much{examples"} {
		if _, err := Parse(text, Length, Metric); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want it to say %q", text, err, says)
		}
	}
}

// Every unit beside lengths, by its definition; a gallon is 231 in³ =
// 3.785411784 l, a foot 0.3048 m.
func TestEveryUnit(t *testing.T) {
	for _, c := range []struct {
		text string
		kind Kind
		want float64
	}{
		{"2 l/s", Flow, 2}, {"2 lps", Flow, 2}, {"90 l/min", Flow, 1.5}, {"90 lpm", Flow, 1.5}, {"60 gpm", Flow, 3.785411784}, {"60 gal/min", Flow, 3.785411784},
		{"3 %", Slope, 0.03}, {"3 ‰", Slope, 0.003}, {"30°", Angle, 30}, {"30 deg", Angle, 30}, {"2 rad", Angle, 360 / math.Pi}, {"30 %", Ratio, 0.3},
		{"20 min", Time, 20}, {"90 s", Time, 1.5}, {"2 h", Time, 120}, {"3 m/s", Speed, 3}, {"10 ft/s", Speed, 3.048},
		{"2 seconds", Time, 1.0 / 30}, {"2 hours", Time, 120}, {"2 gallons per minute", Flow, 3.785411784 / 30}, {"2 litres/second", Flow, 2},
	} {
		for _, s := range systems() {
			readsAs(t, c.text, c.kind, s, c.want)
		}
	}
	for _, c := range []struct {
		kind             Kind
		metric, imperial string
	}{{Length, "mm", "in"}, {Flow, "l/min", "gpm"}, {Angle, "°", "°"}, {Time, "min", "min"}, {Speed, "m/s", "ft/s"}, {Slope, "", ""}, {Ratio, "", ""}, {Count, "", ""}} {
		if m, i := Symbol(c.kind, Metric), Symbol(c.kind, Imperial); m != c.metric || i != c.imperial {
			t.Errorf("%s: %q and %q, want %q and %q", c.kind, m, i, c.metric, c.imperial)
		}
		for s, unit := range map[System]string{Metric: c.metric, Imperial: c.imperial} {
			// A bare number is in that unit.
			if unit != "" {
				bare, err := Parse("7", c.kind, s)
				with, err2 := Parse("7 "+unit, c.kind, s)
				if err != nil || err2 != nil || math.Abs(bare-with) > 1e-12 {
					t.Errorf("%s, %s: 7 is %v, 7 %s is %v; %v, %v", c.kind, s, bare, unit, with, err, err2)
				}
			}
		}
	}
}

// What is offered to type, of each kind, can be typed.
func TestExamples(t *testing.T) {
	for _, c := range []struct {
		kind             Kind
		metric, imperial string
	}{
		{Length, "120, 12.5 cm, 1 m 20", `4 3/4, 3' 2 1/2"`}, {Along, "120, 12.5 cm, 1 m 20", `4 3/4, 3' 2 1/2"`}, {Slope, "1:40, 2.5 %, 25 mm/m", "1/4 in/ft, 1:48, 2 %"},
		{Flow, "12, 12 l/min, 0.2 l/s", "2.5, 2.5 gpm"}, {Angle, "45, 22.5°", "45, 22.5°"}, {Ratio, "0.5, 50 %", "0.5, 50 %"},
		{Time, "15, 15 min", "15, 15 min"}, {Speed, "0.7, 0.7 m/s", "2, 2 ft/s"}, {Count, "3", "3"},
	} {
		for s, want := range map[System]string{Metric: c.metric, Imperial: c.imperial} {
			offered := message.List{Or: true}
			for _, text := range strings.Split(want, ", ") {
				offered.Items = append(offered.Items, message.Text(text))
			}
			if _, err := Parse("", c.kind, s); !cmp.Equal(message.OfError(err), message.Of("reading.empty", message.Arg{Name: "examples", Value: offered})) {
				t.Errorf("%s, %s: %v, want %q", c.kind, s, err, want)
			}
			for _, text := range strings.Split(want, ", ") {
				if v, err := Parse(text, c.kind, s); err != nil {
					t.Errorf("%s, %s: the example %q is %v, %v", c.kind, s, text, v, err)
				}
			}
		}
	}
}

// Smaller units behind larger ones stay below them.
func TestSmallerUnits(t *testing.T) {
	for text, want := range map[string]float64{"3 cm 9": 39, "3 cm 9.9 mm": 39.9, "2 m 999 mm": 2999, "2 m 500 mm": 2500, "2 m 99 cm": 2990, "2 m 99.5 cm": 2995, "2 m 99 cm 9": 2999, "1 m 0 cm 9.5 mm": 1009.5} {
		readsAs(t, text, Length, Metric, want)
	}
	for text, says := range map[string]string{"3 cm 10": `reading.too-many-mm{unit: "cm"}`, "3 cm 10 mm": `reading.too-many-mm{unit: "cm"}`, "2 m 1000 mm": `reading.too-many-mm{unit: "m"}`, "2 m 100 cm": "reading.too-many-cm{most: 100}",
		"2 m 5 cm 10 mm": `reading.too-many-mm{unit: "cm"}`, "3 cm 999": "reading.too-many-mm"} {
		if v, err := Parse(text, Length, Metric); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, %v, want it to say %q", text, v, err, says)
		}
	}
}

// A bare fall: one in so many from 10 on, rise over run below 0.5; between them
// it is asked about, as percent too.
func TestBareFalls(t *testing.T) {
	readsAs(t, "0.49", Slope, Metric, 0.49)
	readsAs(t, "10", Slope, Metric, 0.1)
	readsAs(t, "10.5", Slope, Metric, 1/10.5)
	readsAs(t, "12.5", Slope, Metric, 0.08)
	asks(t, "0.5", Slope, Metric, "50 %", "0.5 %")
	asks(t, "1.9", Slope, Metric, "190 %", "1.9 %")
	asks(t, "2.5", Slope, Metric, "1:2.5", "2.5 %")
	asks(t, "9.9", Slope, Metric, "1:9.9", "9.9 %")
}

// A fall said twice, each rounded: 1:12 is anything from 1:12.05 to 1:11.95,
// 0.082988 to 0.083682; 83.4 mm/m anything from 0.08335 to 0.08345. The first is
// taken where the second allows it, else the second, else the middle of what
// both allow: of 1:3, up to 1/2.95 = 0.3389831, and 339 mm/m, from 0.33895, it
// is 0.3389665; of 1:3, from 1/3.05 = 0.3278689, and 327.85 mm/m, up to 0.3279,
// 0.3278844. So the other way round: 188 mm/m lies between 1:5.35 and 1:5.25,
// 186.9 to 190.5 mm/m; 8 mm/m does not between 1:125.15 and 1:125.05, 7.990 to
// 7.997 mm/m, but 1:125.1, 7.994 mm/m, is 8 mm/m to a tenth.
func TestFallSaidTwice(t *testing.T) {
	for text, want := range map[string]float64{
		"1:12 (83.3 mm/m)": 1.0 / 12, "1:12 (83.4 mm/m)": 0.0834, "1:33.3 (30 mm/m)": 1 / 33.3, "1:3 (339 mm/m)": (0.33895 + 1/2.95) / 2,
		"1:3 (327.85 mm/m)": (0.3279 + 1/3.05) / 2, "1:40 (2.5 %)": 0.025, "25 mm/m (1:40)": 0.025,
		"188 mm/m (1:5.3)": 0.188, "8 mm/m (1:125.1)": 1 / 125.1,
	} {
		readsAs(t, text, Slope, Metric, want)
	}
	for text, says := range map[string]string{"1:3 (339.1 mm/m)": "reading.falls-disagree", "1:3 (327.8 mm/m)": "reading.falls-disagree", "1:40 (25)": "reading.falls-disagree", "40 (25 mm/m)": "reading.falls-disagree", "1/4 in/ft (2.7 %)": "reading.falls-disagree", "1:40 (25 mm/m": "reading.no-closing"} {
		if v, err := Parse(text, Slope, Metric); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, %v, want it to say %q", text, v, err, says)
		}
	}
}

// Fractions are taken as inches in halves to sixty-fourths, below 1.
func TestFractionsOfAnInch(t *testing.T) {
	asks(t, "63/64", Length, Metric, `0.984375"`, "0.984375 mm")
	readsAs(t, "1/128", Length, Metric, 0.0078125)
	readsAs(t, "1/3", Length, Metric, 1.0/3)
	readsAs(t, "2/2", Length, Metric, 1)
	readsAs(t, "64/64", Length, Metric, 1)
	for _, text := range []string{`1 2/2"`, `1 3/2"`} {
		if v, err := Parse(text, Length, Metric); err == nil || !strings.Contains(err.Error(), "reading.fraction-too-large") {
			t.Errorf("%s: %v, %v", text, v, err)
		}
	}
}

// A hyphen between a whole number and a fraction joins them in inches only;
// elsewhere it takes away.
func TestHyphenBeforeAFraction(t *testing.T) {
	for _, text := range []string{`=4-1/2"`, "=4-1/2 in", "=4-1/2 inches"} {
		asks(t, text, Length, Metric, "114.3 mm", "-8.7 mm")
	}
	readsAs(t, "=4-1/2 mm", Length, Metric, 3.5)
	readsAs(t, "=4-1/2 mm", Length, Imperial, 4*inch-0.5)
	readsAs(t, "=4-1/2 cm", Length, Imperial, 4*inch-5)
	readsAs(t, "=4-1/2", Length, Metric, 3.5)
}

// What does not belong is told by what it is.
func TestWhatDoesNotBelong(t *testing.T) {
	for text, says := range map[string]string{
		"12 mm ½": "reading.fraction-not-here", "2 x 3": "reading.begin-with-equals", "12 +": `reading.must-follow{typed: "+"}`, "12 x": `reading.must-follow{typed: "x"}`,
		"12 mm : 3 mm": "reading.is-fall", "12 mm ) 3": `reading.no-opening`, "12 mm 5": `reading.not-here{typed: "5"}`, "12 mm y": `reading.unknown-unit{typed: "y"}`, "1.5/2": "reading.begin-with-equals", "1/2.5": "reading.begin-with-equals",
		"": "reading.empty", "+": `reading.number-must-follow{typed: "+"}`, "=": "reading.sum-missing", "/2": `reading.number-before{typed: "/"}`, "=2+/3": `reading.number-before{typed: "/"}`,
	} {
		if v, err := Parse(text, Length, Metric); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, %v, want it to say %q", text, v, err, says)
		}
	}
}

// How long a text and how deep its parentheses may be.
func TestLongestAndDeepest(t *testing.T) {
	readsAs(t, strings.Repeat("0", 199)+"5", Length, Metric, 5)
	if _, err := Parse(strings.Repeat("0", 200)+"5", Length, Metric); err == nil || !strings.Contains(err.Error(), "reading.too-long") {
		t.Errorf("201 characters: %v", err)
	}
	readsAs(t, "="+strings.Repeat("(", 20)+"5"+strings.Repeat(")", 20), Length, Metric, 5)
	if _, err := Parse("="+strings.Repeat("(", 21)+"5"+strings.Repeat(")", 21), Length, Metric); err == nil || !strings.Contains(err.Error(), "reading.many-parentheses") {
		t.Errorf("21 parentheses: %v", err)
	}
	// Side by side they may be many.
	readsAs(t, "="+strings.Repeat("(1)+", 30)+"1", Length, Metric, 31)
	if got := shorten(strings.Repeat("ü", 40)); got != strings.Repeat("ü", 40) {
		t.Errorf("40 characters are shortened to %s", got)
	}
	if got := shorten(strings.Repeat("ü", 41)); got != strings.Repeat("ü", 39)+"…" {
		t.Errorf("41 characters are shortened to %s", got)
	}
}

// Spaces and marks stand between thousands, after one to three digits.
func TestThousands(t *testing.T) {
	for text, want := range map[string]float64{"123 456": 123456, "12 345 678": 12345678, "123.456,5": 123456.5, "123,456.5": 123456.5, "1 234,5": 1234.5, "1.234.567": 1234567} {
		readsAs(t, text, Count, Metric, want)
	}
	for _, text := range []string{"1234 567", "0 200", "1 2000", "1 20", "1234.567,5", "1234,567.5", "0.200,5", "12.34,5", "1 234.567,5"} {
		if v, err := Parse(text, Count, Metric); err == nil {
			t.Errorf("%s is %v", text, v)
		}
	}
}

// Values are the same when they differ by rounding alone, a million millionth of
// their size.
func TestSame(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want bool
	}{
		{1, 1, true}, {1, 1 + 0.9e-12, true}, {1e12, 1e12 - 1, true}, {1e12, 1e12 - 1.01, false}, {1, 1 + 1.05e-12, false}, {1e6, 1e6 + 0.9e-6, true}, {1e6, 1e6 + 1.05e-6, false},
		{1e-6, 1e-6 + 0.9e-18, true}, {1e-6, 1e-6 + 1.05e-18, false}, {-2, 2, false}, {0, 0, true}, {0, 1e-15, false},
	} {
		if same(c.a, c.b) != c.want || same(c.b, c.a) != c.want {
			t.Errorf("%v and %v: same %v, want %v", c.a, c.b, same(c.a, c.b), c.want)
		}
	}
}

// A list has up to a hundred numbers. Up to six commas between digits are tried
// each for itself: 1,5,2,5,3,5,4 are four numbers where four are wanted; with
// seven commas they separate all or none. No more than eight meanings are told.
func TestLongestLists(t *testing.T) {
	for n, ok := range map[int]bool{100: true, 101: false} {
		got, err := ParseList(strings.TrimSuffix(strings.Repeat("7; ", n), "; "), Length, Metric)
		if (err == nil) != ok || ok && len(got) != n {
			t.Errorf("%d numbers: %d read, %v", n, len(got), err)
		}
	}
	columns := []Column{{Length, 1.4, 1.6}, {Length, 2.4, 2.6}, {Length, 3.4, 3.6}, {Length, 3.9, 4.6}}
	if got, err := ParseColumns("1,5,2,5,3,5,4", columns, 4, Metric); fmt.Sprint(got) != "[1.5 2.5 3.5 4]" {
		t.Errorf("six commas: %v, %v", got, err)
	}
	if got, err := ParseColumns("1,5,2,5,3,5,4,5", columns, 4, Metric); err == nil {
		t.Errorf("seven commas: %v", got)
	}
	for text, want := range map[string]int{"1/2; 1/2": 4, "1/2; 1/2; 1/2": 8, "1/2; 1/2; 1/2; 1/2": 8} {
		_, err := ParseList(text, Length, Metric)
		var a *Ambiguous
		if !errors.As(err, &a) || len(a.Readings) != want {
			t.Errorf("%s: %v, want %d readings", text, err, want)
		}
	}
	if _, err := ParseList("x", Length, Metric); err == nil || !strings.HasPrefix(err.Error(), `reading.example{wrong: reading.no-number{typed: "x"}, examples`) {
		t.Errorf("one that is none: %v", err)
	}
}

// A number that is none is told as that wherever it stands, and not passed over.
func TestNoNumberIsToldWhereItStands(t *testing.T) {
	for kind, texts := range map[Kind][]string{
		Length: {"1.2.3", "1.2.3 mm", "-1.2.3", "2 m 1.2.3", "2 m 5 cm 1.2.3", `3' 1.2.3"`, `3'-1.2.3"`, "=1.2.3", "=1+1.2.3", "=1.2.3+1", "=1-1.2.3", "=2*1.2.3", "=1.2.3*2", "=8/1.2.3", "=(1.2.3)", "=-(1.2.3)", "=(1+1.2.3)", "=2*(1.2.3)"},
		Slope:  {"1.2.3", "1:1.2.3", "1.2.3:40", "1 in 1.2.3", "1:40 (1.2.3)", "1:40 (1:1.2.3)", "1.2.3 %", "1.2.3 mm/m", "25 mm/1.2.3 m", "=2*(1:1.2.3)", "1.2.3°"},
		Flow:   {"1.2.3", "1.2.3 l/min", "=2*1.2.3", "=1+1.2.3 l/s"},
		Ratio:  {"1.2.3", "1.2.3 %", "=1.2.3 %*2"},
	} {
		for _, text := range texts {
			if v, err := Parse(text, kind, Metric); err == nil || !strings.Contains(err.Error(), `reading.marks{typed: "1.2.3"}`) {
				t.Errorf("%s as %s: %v, %v", text, kind, v, err)
			}
		}
	}
}

// Behind decimals there is no fraction.
func TestNoFractionBehindDecimals(t *testing.T) {
	for _, text := range []string{`1.5 1/2"`, `1,5 ½ in`, "1.5 ½ mm", "1.5-1/2\""} {
		for _, s := range systems() {
			if v, err := Parse(text, Length, s); err == nil {
				t.Errorf("%s in %s is %v", text, s, v)
			}
		}
	}
}
