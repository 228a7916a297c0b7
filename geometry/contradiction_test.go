package geometry_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/rule"
)

// The answer contradicts nothing, whatever the job: it stops where a finding does, is
// sound only where nothing is to settle and enough builds come right, every measurement
// that breaks a limit is on one card with its gravest, and no caution is.
func TestTheAnswerContradictsNothing(t *testing.T) {
	t.Parallel()
	p := packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		region := rapid.SampledFrom([]string{"UK", "UK-EN", "UK-NI", "UK-SC", "UK-WA", "IE", "US", "US-UPC", "AU", "AU-SA", "NZ", "DE"}).Draw(t, "region")
		r := geometry.Evaluate(j, p[region])
		a := r.Answer(nil)
		if (a.Standing == geometry.Stops) != r.Stops() {
			t.Fatalf("it %s, but the job stops: %v", a.Standing, r.Stops())
		}
		if len(r.Problems) > 0 {
			return
		}
		gravest := map[[2]string]rule.Severity{}
		for _, f := range r.Findings {
			key := [2]string{f.Rule.Quantity, f.Measurement.Subject.ID()}
			if s, ok := gravest[key]; !ok || f.Rule.Severity.Rank() < s.Rank() {
				gravest[key] = f.Rule.Severity
			}
			if f.Rule.Stage != "" {
				t.Fatalf("%s is a caution and found", f.Rule.ID)
			}
		}
		read := []rule.Severity{rule.Stop, rule.NotKnown, rule.Licensed, rule.Advice, rule.Note}
		last, causes := -1, map[string]bool{}
		for _, c := range a.Cards {
			at := slices.Index(read, c.Severity())
			if causes[c.Cause()] || at < last {
				t.Fatalf("%s is on two cards, or out of order", c.Cause())
			}
			causes[c.Cause()], last = true, at
			for _, x := range c.Places {
				key := [2]string{x.Rule.Quantity, x.Measurement.Subject.ID()}
				if gravest[key] != x.Rule.Severity || rule.CauseOf(x.Rule.Quantity) != c.Cause() {
					t.Fatalf("%v is told as %s, is %s", key, x.Rule.Severity, gravest[key])
				}
				delete(gravest, key)
			}
		}
		if len(gravest) > 0 {
			t.Fatalf("on no card: %v", gravest)
		}
		settled := len(a.Cards) == len(a.Of(rule.Note))
		if (a.Standing == geometry.Sound) != (settled && r.Raises.Now.Fits >= 0.95) {
			t.Fatalf("%s with %d cards, %v fit", a.Standing, len(a.Cards), r.Raises.Now.Fits)
		}
	})
}
