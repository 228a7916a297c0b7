package fit_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// A waste of 40 with a bore of 36 at 1:200 is flatter than the 18 mm in a metre at least of
// Approved Document H, Table 2, and 0.7 l/s is more than it carries: to make it steeper leaves it too
// small, to make it larger leaves it too flat, and both together end it. Under 0.5 l/s a steeper
// fall than the least does by itself, under 0.2 l/s the least. A trap for 0.6 l/s under 0.7 is
// ended by nothing.
func TestAllPlacesOfACardAreEndedAsOne(t *testing.T) {
	for _, c := range []struct {
		flowLPS float64
		cause   string
		steps   int // none where all places are not put right together
	}{{0.7, "pipe.gradient", 2}, {0.5, "pipe.gradient", 1}, {0.2, "pipe.gradient", 0}, {0.7, "inlet.flow-share", 0}} {
		j := job.New()
		j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.Gradient = 40, 40, 36, 0.005
		j.Water.ShowerFlowsLPS = []float64{c.flowLPS}
		r := evaluated(t, j)
		card, found := cardOf(r, c.cause)
		if !found || len(card.Places) < 2 {
			t.Fatalf("%v l/s: %d places of %s", c.flowLPS, len(card.Places), c.cause)
		}
		all, ok := fit.RemedyOfCard(r, card)
		if ok != (c.steps > 0) || len(all.Steps) != c.steps {
			t.Errorf("%v l/s: %v, %v", c.flowLPS, ok, all.Steps)
		}
		if !ok {
			continue
		}
		after := evaluated(t, all.Edit.Apply(j))
		if left, still := cardOf(after, c.cause); still {
			t.Errorf("%v l/s: still at %d places", c.flowLPS, len(left.Places))
		}
		for _, n := range all.New {
			if n.Rule.Severity == rule.Stop {
				t.Errorf("%v l/s: brings %s", c.flowLPS, n.Key())
			}
		}
		if n := len(card.Places); all.Does.ID != "remedy.all" || len(all.Gone) < n {
			t.Errorf("%v l/s: %v, %d gone of %d", c.flowLPS, all.Does, len(all.Gone), n)
		}
	}
}

// cardOf is the card of a cause.
func cardOf(r geometry.Result, cause string) (geometry.Card, bool) {
	for _, c := range r.Answer(nil).Cards {
		if c.Cause() == cause {
			return c, true
		}
	}
	return geometry.Card{}, false
}
