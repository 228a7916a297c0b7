package unit_test

import (
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// shownExactly reads what is shown of a length without rounding anything: “12.5 mm”, “3 1/16"”.
func shownExactly(t interface{ Fatalf(string, ...any) }, text string) *big.Rat {
	sum, sign := new(big.Rat), int64(1)
	if rest, minus := strings.CutPrefix(text, "-"); minus {
		text, sign = rest, -1
	}
	number, inches := strings.CutSuffix(text, `"`)
	number = strings.TrimSuffix(number, " mm")
	for _, part := range strings.Fields(number) {
		one, ok := new(big.Rat).SetString(part)
		if !ok {
			t.Fatalf("%q is no length", text)
		}
		sum.Add(sum, one)
	}
	if inches {
		sum.Mul(sum, big.NewRat(254, 10))
	}
	return sum.Mul(sum, big.NewRat(sign, 1))
}

func chainTexts(c message.Chain, s unit.System) (parts []string, whole string) {
	for i := range c.PartsMM {
		parts = append(parts, unit.Chained(message.InChain{Chain: c, From: i, To: i + 1}, s))
	}
	return parts, unit.Chained(message.InChain{Chain: c, To: len(c.PartsMM)}, s)
}

// By hand. Three times 33.4 is 100.2: 100 is three times 33 and one more, which goes to the first of
// equals. 816.6 and 69.7 and 13.4 are 899.7: 900 is 816, 69 and 13 with two more, for .7 and .6.
// Layers of 3, 69, 3, 36.34, 1, 3 and 9 are 124.34, told as 124: the 36.34 takes the rounding.
// Layers that need none are told as they are, and so is what they make, 125.5.
// 10 mm are 6.3 sixteenths, three of them 18.9: 19 is three times six and one.
func TestChainsByHand(t *testing.T) {
	for _, c := range []struct {
		parts  []float64
		round  message.Round
		system unit.System
		want   string
	}{
		{[]float64{33.4, 33.4, 33.4}, message.Whole, unit.Metric, "[34 mm 33 mm 33 mm] 100 mm"},
		{[]float64{816.6, 69.7, 13.4}, message.Whole, unit.Metric, "[817 mm 70 mm 13 mm] 900 mm"},
		{[]float64{3, 69, 3, 36.34, 1, 3, 9}, message.Half, unit.Metric, "[3 mm 69 mm 3 mm 36 mm 1 mm 3 mm 9 mm] 124 mm"},
		{[]float64{3, 60, 62.5}, message.Half, unit.Metric, "[3 mm 60 mm 62.5 mm] 125.5 mm"},
		{[]float64{10, 10, 10}, message.Whole, unit.Imperial, `[7/16" 3/8" 3/8"] 1 3/16"`},
		{[]float64{25.4, 50.8}, message.Half, unit.Imperial, `[1" 2"] 3"`},
		{[]float64{0.2, -0.2}, message.Whole, unit.Metric, "[0 mm 0 mm] 0 mm"},
		{nil, message.Whole, unit.Metric, "[] 0 mm"},
		{[]float64{math.NaN(), 4}, message.Whole, unit.Metric, "[– 4 mm] –"},
	} {
		parts, whole := chainTexts(message.Chain{PartsMM: c.parts, Round: c.round}, c.system)
		if got := fmt.Sprint(parts) + " " + whole; got != c.want {
			t.Errorf("%v: %s, want %s", c.parts, got, c.want)
		}
	}
}

// What is shown of the parts adds up, exactly, to what is shown of the whole, in both systems and
// however finely; the whole is off by half a step at most and a part by less than one.
func TestChainsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.OneOf(rapid.Float64Range(0, 3000), rapid.Map(rapid.IntRange(0, 400), func(n int) float64 { return float64(n) / 2 }),
			rapid.Map(rapid.IntRange(0, 400), func(n int) float64 { return float64(n) * 25.4 / 16 }))
		c := message.Chain{PartsMM: rapid.SliceOfN(length, 1, 12).Draw(t, "parts"),
			Round: rapid.SampledFrom([]message.Round{message.Whole, message.Half, message.Tenth}).Draw(t, "round")}
		c.Whole = rapid.SampledFrom([]message.Round{message.Whole, c.Round}).Draw(t, "whole")
		system := rapid.SampledFrom([]unit.System{unit.Metric, unit.Imperial}).Draw(t, "system")
		parts, whole := chainTexts(c, system)
		step := map[message.Round]float64{message.Whole: 1, message.Half: 0.5, message.Tenth: 0.1}
		fine, coarse := step[c.Round], step[c.Whole]
		if system == unit.Imperial {
			fine, coarse = 25.4/16, 25.4/16
		}
		const hair = 1e-6
		shown, exact := new(big.Rat), new(big.Rat)
		for i, text := range parts {
			one := shownExactly(t, text)
			shown.Add(shown, one)
			exact.Add(exact, new(big.Rat).SetFloat64(c.PartsMM[i]))
			if mm, _ := one.Float64(); math.Abs(mm-c.PartsMM[i]) >= fine {
				t.Errorf("%v is shown as %s", c.PartsMM[i], text)
			}
		}
		if total := shownExactly(t, whole); total.Cmp(shown) != 0 {
			t.Errorf("%v: %v shown of the whole, %v of the parts", c.PartsMM, total, shown)
		}
		if off, _ := new(big.Rat).Sub(shown, exact).Float64(); math.Abs(off) > math.Max(fine, coarse)/2+hair {
			t.Errorf("%v: off by %v", c.PartsMM, off)
		}
	})
}

// A step is told as what lies between its two levels as those are told: between 13.35, told 13, and 131.5, told
// 132, it is 119 though it is 118.15 by itself. In inches 13.35 is 8.4 sixteenths and 131.5 is 82.8: 8, 83 and 75,
// which is 4 11/16. Worked by hand.
func TestARiseAddsUpWithItsLevels(t *testing.T) {
	up := message.Rise{FromMM: 13.35, ToMM: 131.5}
	for _, c := range []struct {
		rise message.Rise
		s    unit.System
		want string
	}{
		{up, unit.Metric, "119 mm"},
		{up, unit.Imperial, `4 11/16"`},
		{message.Rise{FromMM: 131.5, ToMM: 13.35}, unit.Metric, "119 mm"},
		{message.Rise{FromMM: 131.5, ToMM: 13.35, Signed: true}, unit.Metric, "-119 mm"},
		{message.Rise{FromMM: 13.35, ToMM: 131.5, Signed: true}, unit.Metric, "+119 mm"},
		{message.Rise{FromMM: 13.1, ToMM: 13.4, Signed: true}, unit.Metric, "0 mm"},
	} {
		if got := unit.Rise(c.rise, c.s); got != c.want {
			t.Errorf("%+v: %s, want %s", c.rise, got, c.want)
		}
	}
}
