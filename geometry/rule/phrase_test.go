package rule_test

import (
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// belowNought tells of a message whether a person would read a number below nought in it.
func belowNought(m message.Message) bool {
	for _, a := range m.Args {
		v := a.Value
		if apart, ok := v.(message.Apart); ok {
			v = apart.Value
		}
		switch v := v.(type) {
		case message.Length:
			if v.MM < 0 {
				return true
			}
		case message.Fall:
			if v.Slope < 0 {
				return true
			}
		case message.Said:
			if belowNought(message.Message(v)) {
				return true
			}
		}
	}
	return false
}

// What is measured below nought is told with the way it lies, whatever it is and whatever it must be at
// least: −18 over the slab as 18 in it.
func TestNothingIsToldBelowNought(t *testing.T) {
	for quantity := range rule.Quantities() {
		for _, limit := range []float64{0, 60} {
			f := rule.Finding{Rule: rule.Rule{Quantity: quantity, Compare: rule.AtLeast, Limit: limit},
				Measurement: rule.Measurement{Quantity: quantity, Value: -18}}
			if m := f.Message(); belowNought(m) {
				t.Errorf("%s: %s", quantity, m)
			}
		}
	}
	f := rule.Finding{Rule: rule.Rule{Quantity: "core.over-slab", Compare: rule.AtLeast},
		Measurement: rule.Measurement{Quantity: "core.over-slab", Value: -18}}
	if m := f.Message(); m.ID != "found.into-slab" || m.Args[1].Value.String() != "18 mm" {
		t.Errorf("it says %s", m)
	}
	f = rule.Finding{Rule: rule.Rule{Quantity: "pipe.gradient", Compare: rule.AtLeast, Limit: 0.018},
		Measurement: rule.Measurement{Quantity: "pipe.gradient", Value: -0.01}}
	if m := f.Message(); m.ID != "found.uphill" {
		t.Errorf("it says %s", m)
	}
	// What holds its limit is told by its number.
	f = rule.Finding{Rule: rule.Rule{Quantity: "core.axis-height", Compare: rule.AtLeast, Limit: 60},
		Measurement: rule.Measurement{Quantity: "core.axis-height", Value: 75}}
	if m := f.Message(); m.ID != "finding.at-least" {
		t.Errorf("it says %s", m)
	}
}

// What lies open with its top under the finished floor beside it is told as so far under that, never as over it by less than nothing.
func TestWhatLiesUnderTheFloorIsToldSo(t *testing.T) {
	for high, want := range map[float64]struct{ in, along string }{
		6:  {"found.bare-so", "found.bare-along"},
		-6: {"found.bare-under", "found.bare-along-under"},
	} {
		f := rule.Finding{Rule: rule.Rule{Quantity: "pipe.exposed", Compare: rule.AtMost},
			Measurement: rule.Measurement{Quantity: "pipe.exposed", Value: 300, Lies: rule.Lies{WideMM: 50, HighMM: high}}}
		if got := f.Message(); string(got.ID) != want.in {
			t.Errorf("%v over the floor is %s, want %s", high, got.ID, want.in)
		}
		f.Measurement.Lies.Wall = 'A'
		if got := f.Message().ID; string(got) != want.along {
			t.Errorf("%v over the floor along a wall is %s, want %s", high, got, want.along)
		}
	}
}
