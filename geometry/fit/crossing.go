package fit

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/joist"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// crossingStepMM is what the place of a crossing along a joist is rounded to, into what is allowed. Common practice, no source.
const crossingStepMM = 5.0

// cross is laying the run aside so that it crosses a joist as far from a support as a rule wants: no further than need be, with the
// trap, where that can go along its drain, or from an outlet turned that way. Ok is false where that is not what is found, or does
// not end it.
func (x *tryout) cross() (best Remedy, ok bool) {
	of, found := crossingOf(&x.before, x.f)
	if !found {
		return best, false
	}
	steps := x.f.Nearest() * of.SpanMM / crossingStepMM
	wantMM := math.Ceil(steps-1e-9) * crossingStepMM
	if x.f.Rule.Compare == rule.AtMost {
		wantMM = math.Floor(steps+1e-9) * crossingStepMM
	}
	does := message.Of("remedy.cross-at", message.Along("from", wantMM))
	// From the support that it is nearest to, or as far from the next; one cannot tell here which way along the joist that is.
	away, over := wantMM-of.SupportMM, of.SpanMM-wantMM-of.SupportMM
	for _, byMM := range [...]float64{away, -away, over, -over} {
		for _, withTrap := range [...]bool{true, false} {
			r, gone := x.with(edit.ShiftLeg(of.At, of.Joist.Along.Mul(byMM), withTrap), does)
			switch {
			case gone && !r.Worse:
				return r, true
			case gone && !ok:
				best, ok = r, true
			}
		}
	}
	return best, ok
}

// crossingOf is the crossing of a joist that a finding says lies too near its support or too far from it.
func crossingOf(r *geometry.Result, f rule.Finding) (of *joist.Crossing, found bool) {
	if q := f.Rule.Quantity; q != "joist.hole-zone" && q != "joist.notch-zone" {
		return nil, false
	}
	for i := range r.Joists {
		if c := &r.Joists[i]; measure.CutOf(c) == f.Measurement.Subject {
			return c, true
		}
	}
	return nil, false
}
