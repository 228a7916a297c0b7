package unit_test

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// From a foot up lengths along the floor are told in feet and inches with what is left of sixteenths, worked by
// hand: 96 in are 8 ft, 94.5 in 7 ft and 10 1/2; what rounds up to 12 in is a foot; less stays inches, and
// millimetres stay what they are. What is written reads back.
func TestLengthsInFeet(t *testing.T) {
	const inch = 25.4
	for _, c := range []struct {
		mm               float64
		metric, imperial string
	}{
		{96 * inch, "2438.5 mm", `8' 0"`}, {94.5 * inch, "2400.5 mm", `7' 10 1/2"`}, {12 * inch, "305 mm", `1' 0"`},
		{11.97 * inch, "304 mm", `1' 0"`}, {11.5 * inch, "292 mm", `11 1/2"`}, {12.0625 * inch, "306.5 mm", `1' 1/16"`},
		{-36 * inch, "-914.5 mm", `-3' 0"`}, {0, "0 mm", `0"`},
	} {
		if got := unit.InFeet(c.mm, message.Half, unit.Metric); got != c.metric {
			t.Errorf("%v: %s, want %s", c.mm, got, c.metric)
		}
		got := unit.InFeet(c.mm, message.Half, unit.Imperial)
		if got != c.imperial {
			t.Errorf("%v: %s, want %s", c.mm, got, c.imperial)
		}
	}
	// A chain of a shower between two rests of its wall: 30 and 36 in with 1 1/2 between.
	chain := message.Chain{PartsMM: []float64{30 * inch, 1.5 * inch, 36 * inch}, Round: message.Half, Whole: message.Half}
	for want, arg := range map[string]message.Arg{
		`2' 6"`: message.InFeet(chain.Part("a", 0)), `1 1/2"`: message.InFeet(chain.Part("a", 1)), `5' 7 1/2"`: message.InFeet(chain.All("a")),
		`67 1/2"`: chain.All("a"),
	} {
		if got := unit.Chained(arg.Value.(message.InChain), unit.Imperial); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// A length along the floor in a field, by hand: 28 in are 2 ft 4, 11 15/16 are under a foot and 11 31/32, which is
// nearer 12 than that, are one. In millimetres nothing is another. A height of 28 in stays that.
func TestAlongTheFloor(t *testing.T) {
	const inch = 25.4
	for _, c := range []struct {
		mm               float64
		metric, imperial string
	}{
		{28 * inch, "711.2", `2' 4"`}, {28.5 * inch, "723.9", `2' 4 1/2"`}, {11.9375 * inch, "303.21", `11 15/16"`}, {11.96875 * inch, "304.01", `1' 0"`},
		{12 * inch, "304.8", `1' 0"`}, {-28 * inch, "-711.2", `-2' 4"`}, {0, "0", `0"`}, {4.75 * inch, "120.65", `4 3/4"`},
	} {
		if got := unit.Editable(c.mm, unit.Along, unit.Metric); got != c.metric {
			t.Errorf("%v: %s, want %s", c.mm, got, c.metric)
		}
		if got := unit.Editable(c.mm, unit.Along, unit.Imperial); got != c.imperial {
			t.Errorf("%v: %s, want %s", c.mm, got, c.imperial)
		}
		if got := unit.Format(c.mm, unit.Along, unit.Imperial); got != c.imperial {
			t.Errorf("%v: %s, want %s", c.mm, got, c.imperial)
		}
		if got, want := unit.Format(c.mm, unit.Along, unit.Metric), unit.Format(c.mm, unit.Length, unit.Metric); got != want {
			t.Errorf("%v: %s, want %s", c.mm, got, want)
		}
	}
	if got := unit.Format(28*inch, unit.Length, unit.Imperial); got != `28"` {
		t.Errorf("a height is %s", got)
	}
	if got, want := unit.Value(28*inch, unit.Along), (message.Length{MM: 28 * inch, Round: message.Tenth, Feet: true}); got != want {
		t.Errorf("%#v, want %#v", got, want)
	}
}

// However one types 2 ft 4 1/2, it is 28.5 in of 25.4 mm: 723.9.
func TestFeetAsTheyAreTyped(t *testing.T) {
	for _, text := range []string{`28.5`, `28 1/2`, `28 1/2"`, `28-1/2"`, `2' 4 1/2"`, `2'4-1/2"`, `2'-4 1/2"`, `2-4 1/2`, `2 4 1/2`, `2 ft 4 1/2 in`, `2 feet 4.5 inches`,
		`2 ft. 4 1/2 in.`, `2' 4½`, `723.9 mm`, `72.39 cm`, `= 2' + 4 1/2"`, `2’ 4 1/2”`, `2.375'`} {
		for _, kind := range []unit.Kind{unit.Along, unit.Length} {
			if mm, err := unit.Parse(text, kind, unit.Imperial); err != nil || mm < 723.9-1e-9 || mm > 723.9+1e-9 {
				t.Errorf("%s as %s is %v, %v", text, kind, mm, err)
			}
		}
	}
	for _, text := range []string{`2' 12"`, `2.5' 4"`, `2-`} {
		if mm, err := unit.Parse(text, unit.Along, unit.Imperial); err == nil {
			t.Errorf("%s is %v", text, mm)
		}
	}
}

// inSixteenths reads what is shown of a length along the floor by itself.
func inSixteenths(t *rapid.T, text string) *big.Rat {
	text, minus := strings.CutPrefix(text, "-")
	sum, inches := new(big.Rat), text
	if feet, rest, from := strings.Cut(text, "' "); from {
		n, ok := new(big.Rat).SetString(feet)
		if !ok {
			t.Fatalf("%q is no length", text)
		}
		sum.Mul(n, big.NewRat(192, 1)) // sixteenths in a foot
		inches = rest
	}
	for _, part := range strings.Fields(strings.TrimSuffix(inches, `"`)) {
		n, ok := new(big.Rat).SetString(part)
		if !ok {
			t.Fatalf("%q is no length", text)
		}
		sum.Add(sum, n.Mul(n, big.NewRat(16, 1)))
	}
	if minus {
		sum.Neg(sum)
	}
	return sum
}

// What is shown is the nearest whole sixteenth, with feet from twelve inches up and less than that beside
// them, and reads back as what is shown.
func TestFeetRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-49000, 49000).Draw(t, "mm")
		if rapid.Bool().Draw(t, "near feet") {
			mm = float64(rapid.IntRange(-150, 150).Draw(t, "feet"))*304.8 + rapid.Float64Range(-2, 2).Draw(t, "off")
		}
		text := unit.Editable(mm, unit.Along, unit.Imperial)
		shown := inSixteenths(t, text)
		if !shown.IsInt() {
			t.Fatalf("%v is shown as %s", mm, text)
		}
		off, _ := new(big.Rat).Sub(shown, new(big.Rat).Mul(new(big.Rat).SetFloat64(mm), big.NewRat(160, 254))).Float64()
		if off < -0.5001 || off > 0.5001 {
			t.Fatalf("%v is shown as %s, off by %v sixteenths", mm, text, off)
		}
		whole := new(big.Rat).Abs(shown).Cmp(big.NewRat(192, 1)) >= 0
		if strings.Contains(text, "'") != whole {
			t.Fatalf("%v is shown as %s", mm, text)
		}
		back, err := unit.Parse(text, unit.Along, unit.Imperial)
		if err != nil {
			t.Fatalf("%s reads as %v", text, err)
		}
		if again := unit.Editable(back, unit.Along, unit.Imperial); again != text {
			t.Fatalf("%s reads back as %s", text, again)
		}
	})
}
