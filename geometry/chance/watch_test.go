package chance

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/tolerance"
)

// inputs are so many by their tolerances, called a, b, c.
func inputs(tolerancesMM ...float64) (out []tolerance.Input) {
	for i, t := range tolerancesMM {
		out = append(out, tolerance.Input{Name: message.Numbered{ID: message.ID(rune('a' + i))}, ToleranceMM: t})
	}
	return out
}

// follow watches a value planned at 10 that depends on its inputs by the factors given,
// with every input once a standard deviation, half its tolerance, over and once under
// its plan, in all combinations: means are nothing and variances the squares, exactly.
func follow(in []tolerance.Input, factors []float64, rules ...rule.Rule) *watch {
	w := &watch{measurement: rule.Measurement{Value: 10}, rules: rules, broken: make([]int, len(rules)), with: make([]float64, len(in))}
	for signs := range 1 << len(in) {
		v, off := 10.0, make([]float64, len(in))
		for i := range in {
			if off[i] = in[i].ToleranceMM / 2; signs&(1<<i) != 0 {
				off[i] = -off[i]
			}
			v += factors[i] * off[i]
		}
		w.add(v, off)
	}
	return w
}

// The share of an input in the variance of a sum is (factor·σ)² over the sum of those.
func TestShareOfTheMainInput(t *testing.T) {
	for _, c := range []struct {
		tolerances, factors []float64
		name                string
		share               float64
	}{
		{[]float64{2}, []float64{1}, "a", 1},
		{[]float64{2}, []float64{-3}, "a", 1},
		{[]float64{4, 2}, []float64{1, 1}, "a", 0.8},
		{[]float64{2, 4}, []float64{1, 1}, "b", 0.8},
		{[]float64{2, 2, 2}, []float64{1, -2, 1}, "b", 4.0 / 6},
		{[]float64{1, 6}, []float64{4, 0.5}, "a", 16.0 / 25},
		// The first of two that are as large.
		{[]float64{2, 2}, []float64{1, 1}, "a", 0.5},
		{[]float64{2, 2}, []float64{0, 0}, "", 0},
	} {
		in := inputs(c.tolerances...)
		if name, share := follow(in, c.factors).main(in); string(name.ID) != c.name || math.Abs(share-c.share) > 1e-12 {
			t.Errorf("tolerances %v by %v: %s has %v, want %s with %v", c.tolerances, c.factors, name.ID, share, c.name, c.share)
		}
	}
}

// One sample tells nothing of a variance, and a share is never more than all: where the
// offsets drawn are larger than their tolerance says, as in few samples they may be.
func TestShareOfFewSamples(t *testing.T) {
	in := inputs(2)
	w := &watch{with: make([]float64, 1)}
	w.add(1, []float64{1})
	if name, share := w.main(in); name.ID != "" || share != 0 {
		t.Errorf("of one sample %s has %v", name.ID, share)
	}
	w.add(-1, []float64{-1})
	if name, share := w.main(in); name.ID != "a" || share != 1 {
		t.Errorf("of two samples %s has %v", name.ID, share)
	}
	large := &watch{with: make([]float64, 1)}
	large.add(3, []float64{3})
	large.add(-3, []float64{-3})
	if name, share := large.main(in); name.ID != "a" || share != 1 {
		t.Errorf("of large offsets %s has %v", name.ID, share)
	}
}

// What is endless or no number breaks rules and moves no sums. A value no different
// from its plan by more than rounding has no main input.
func TestWatchedValues(t *testing.T) {
	most := rule.Rule{Compare: rule.AtMost, Limit: 11}
	least := rule.Rule{Compare: rule.AtLeast, Limit: 9.5}
	w := follow(inputs(2), []float64{1}, most, least) // 11 and 9
	if w.broken[0] != 0 || w.broken[1] != 1 || w.n != 2 {
		t.Errorf("of 11 and 9 the rules are broken %v times in %v", w.broken, w.n)
	}
	n, sum, square, with := w.n, w.sum, w.square, w.with[0]
	w.add(math.Inf(1), []float64{1})
	w.add(math.Inf(-1), []float64{1})
	w.add(math.NaN(), []float64{1})
	if w.broken[0] != 2 || w.broken[1] != 3 {
		t.Errorf("with endless values and none the rules are broken %v times, want 2 and 3", w.broken)
	}
	if w.n != n || w.sum != sum || w.square != square || w.with[0] != with {
		t.Errorf("endless values come into the sums: %+v", w)
	}
	in := inputs(2)
	for factor, want := range map[float64]string{1e-10: "", 1e-8: "a"} {
		if name, _ := follow(in, []float64{factor}).main(in); string(name.ID) != want {
			t.Errorf("a value moved by %v has the main input %q, want %q", factor, name.ID, want)
		}
	}
}

// Samples counted in two parts come to what they come to in one.
func TestPartsAreJoined(t *testing.T) {
	in, rules := inputs(4, 2), []rule.Rule{{Compare: rule.AtMost, Limit: 11.5}, {Compare: rule.AtLeast, Limit: 9}}
	a, b := follow(in, []float64{1, 1}, rules...), follow(in, []float64{-2, 3}, rules...)
	whole := follow(in, []float64{1, 1}, rules...)
	for signs := range 4 {
		off := []float64{2 - 4*float64(signs&1), 1 - 2*float64(signs>>1)}
		whole.add(10-2*off[0]+3*off[1], off)
	}
	a.join(b)
	if a.n != 8 || fmt.Sprint(a.broken, a.n, a.sum, a.square, a.with) != fmt.Sprint(whole.broken, whole.n, whole.sum, whole.square, whole.with) {
		t.Errorf("joined %+v, in one %+v", a, whole)
	}
}

// Risks of one in two hundred or more are listed, and what is broken as planned
// whatever its chance: gravest first, then likeliest, then by their key.
func TestRisksAreListed(t *testing.T) {
	const samples = 1000
	all := map[watchKey]*watch{}
	planned := map[string]bool{}
	add := func(id string, s rule.Severity, broken int, isPlanned bool) {
		w := &watch{measurement: rule.Measurement{Quantity: id}, rules: []rule.Rule{{ID: id, Severity: s}}, broken: []int{broken}}
		all[watchKey{quantity: id}] = w
		if isPlanned {
			planned[Risk{Rule: w.rules[0], Measurement: w.measurement}.Key()] = true
		}
	}
	add("advice, likely", rule.Advice, 900, false)
	add("advice, certain", rule.Advice, 1000, true)
	add("advice, b", rule.Advice, 100, false)
	add("advice, a", rule.Advice, 100, false)
	add("just worth it", rule.Advice, 5, false)
	add("not worth it", rule.Advice, 4, false)
	add("planned, never", rule.Licensed, 0, true)
	add("stops, seldom", rule.Stop, 6, false)
	add("stops, often", rule.Stop, 600, false)
	want := []string{"stops, often 0.6 false", "stops, seldom 0.006 false", "planned, never 0 true", "advice, certain 1 true",
		"advice, likely 0.9 false", "advice, a 0.1 false", "advice, b 0.1 false", "just worth it 0.005 false"}
	for range 5 { // in any order of the map
		var got []string
		for _, r := range listRisks(all, nil, planned, samples) {
			got = append(got, fmt.Sprint(r.Rule.ID, " ", r.Probability, " ", r.Planned))
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("listed\n%v, want\n%v", got, want)
		}
	}
}
