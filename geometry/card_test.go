package geometry

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underfall/geometry/chance"
	"underfall/geometry/rule"
)

// found is a finding on a quantity at a joist, over an upper limit of 10.
func found(quantity string, s rule.Severity, joist int, value float64) rule.Finding {
	return rule.Finding{
		Rule:        rule.Rule{ID: quantity + string(s), Quantity: quantity, Compare: rule.AtMost, Limit: 10, Severity: s},
		Measurement: rule.Measurement{Quantity: quantity, Subject: rule.Subject{Of: rule.JoistCut, Number: joist}, Value: value},
	}
}

// told is cards as text: cause, and the joists and severities of its places.
func told(cards []Card) string {
	var out []string
	for _, c := range cards {
		line := c.Cause() + ":"
		for _, p := range c.Places {
			line += fmt.Sprintf(" %d %s", p.Measurement.Subject.Number, p.Rule.Severity)
		}
		out = append(out, line)
	}
	return strings.Join(out, "; ")
}

// What comes from one cause is one card; the graver limit tells of two that one
// measurement breaks; cards and places stand by gravity, then by how far they are out:
// (40 − 10)/10 before (30 − 10)/10.
func TestCards(t *testing.T) {
	of := func(findings ...rule.Finding) []Card {
		var r Result
		r.Findings = findings
		return r.Cards()
	}
	got := told(of(
		found("trap.seal", rule.Advice, 9, 40),
		found("joist.notch-depth", rule.Stop, 1, 20),
		found("joist.notch-depth", rule.Advice, 1, 20),
		found("joist.hole-size", rule.Stop, 2, 40),
		found("joist.notch-depth", rule.Advice, 3, 30),
		found("pipe.cover", rule.Stop, 4, 30),
		found("step.edge", rule.Note, 5, 1000),
	))
	if want := "joist.severed: 2 stop 1 stop 3 advice; base.pipe-covering: 4 stop; trap.seal: 9 advice; step.edge: 5 note"; got != want {
		t.Errorf("cards\n%s\nwant\n%s", got, want)
	}
	if of() != nil {
		t.Error("nothing found, and cards")
	}
}

// What may come to be stands by its chance; what is so as planned is not among it.
func TestLaterCards(t *testing.T) {
	risk := func(f rule.Finding, p float64, planned bool) chance.Risk {
		return chance.Risk{Rule: f.Rule, Measurement: f.Measurement, Probability: p, Planned: planned}
	}
	got := laterCards([]chance.Risk{
		risk(found("trap.seal", rule.Stop, 1, 5), 0.1, false),
		risk(found("joist.severed", rule.Stop, 2, 5), 0.2, false),
		risk(found("joist.severed", rule.Stop, 3, 50), 0.9, true),
		risk(found("step.edge", rule.Advice, 4, 5), 0.8, false),
	})
	if said, want := told(got), "joist.severed: 2 stop; trap.seal: 1 stop; step.edge: 4 advice"; said != want {
		t.Errorf("cards\n%s\nwant\n%s", said, want)
	}
	if p := got[0].Worst(); p.Probability() != 0.2 {
		t.Errorf("%v", p.Probability())
	}
}

// How far beyond its limit a value is: in limits, or in tens of millimetres where that is
// more; of two limits the nearer one.
func TestBeyond(t *testing.T) {
	f := func(quantity string, c rule.Compare, limit, to, value float64) float64 {
		return rule.Finding{Rule: rule.Rule{Quantity: quantity, Compare: c, Limit: limit, To: to}, Measurement: rule.Measurement{Value: value}}.Beyond()
	}
	for name, c := range map[string][2]float64{
		"100 for 50":               {f("trap.seal", rule.AtMost, 50, 0, 100), 1},
		"25 for 50":                {f("trap.seal", rule.AtLeast, 50, 0, 25), 0.5},
		"5 for none":               {f("trap.seal", rule.AtMost, 0, 0, 5), 0.5},
		"1:80 for 1:40":            {f("pipe.gradient", rule.AtLeast, 0.025, 0, 0.0125), 0.5},
		"4 between 3 and 40":       {f("step.edge", rule.NotBetween, 3, 40, 4), 0.1},
		"36 between 3 and 40":      {f("step.edge", rule.NotBetween, 3, 40, 36), 0.1},
		"a fact":                   {f("kerb.idle", rule.Present, 0, 0, 7), 0},
		"what cannot be worked on": {f("trap.seal", rule.AtLeast, 50, 0, math.NaN()), math.Inf(1)},
	} {
		if math.Abs(c[0]-c[1]) > 1e-12 && c[0] != c[1] {
			t.Errorf("%s is %v beyond, want %v", name, c[0], c[1])
		}
	}
}
