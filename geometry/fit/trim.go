package fit

import (
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// mostCutOutMM is how much of a joist is cut out as a remedy at most: a pipe along one is
// better laid elsewhere. Common practice, no source.
const mostCutOutMM = 1500

// inJoist tells whether a finding is of something in a joist that cannot stay there.
func inJoist(f rule.Finding) bool {
	switch f.Rule.Quantity {
	case "trap.in-joist", "clash.drain-gap", "clash.joist-gap", "exit.in-joist", "joist.severed":
		return stops(f)
	}
	return false
}

// Trim is cutting the joists that a finding says are in the way out between trimmers; ok is
// false where that cannot be done, does not end the finding, or breaks a rule that stops the
// job and was kept. Why says what hinders it, where that can be said.
func Trim(before geometry.Result, f rule.Finding) (r Remedy, why message.Message, ok bool) {
	return (&tryout{before: before, f: f}).trim()
}

func (x *tryout) trim() (r Remedy, why message.Message, ok bool) {
	before, f := x.before, x.f
	if len(before.Problems) > 0 || !inJoist(f) || len(before.Layout.Joists) == 0 {
		return r, why, false
	}
	if before.Stated.Floor.Joists.Engineered {
		return r, message.Of("remedy.engineered"), false
	}
	// The trap alone is less to cut; where channel and trap are both in joists, one alone
	// would leave the other in a trimmer.
	for _, both := range [2]bool{false, true} {
		r, ok := x.with(edit.TrimJoists(f.Measurement.Subject, both), message.Of("remedy.trim-more"))
		if len(r.After.Problems) > 0 {
			if why.IsZero() {
				why = r.After.Problems[0].Message()
			}
			continue
		}
		if r.Joists = cutJoists(r.After) - cutJoists(before); r.Joists != 0 {
			r.Does = message.Of("remedy.trim", message.N("joists", r.Joists))
		}
		if ok && longestCut(r.After) <= max(mostCutOutMM, longestCut(before)) {
			return r, message.Message{}, true
		}
	}
	return Remedy{}, why, false
}

// cutJoists is how many joists are cut out somewhere.
func cutJoists(r geometry.Result) int {
	cut := map[int]bool{}
	for i := range r.Layout.CutOuts {
		cut[r.Layout.CutOuts[i].Joist] = true
	}
	return len(cut)
}

// longestCut is the most that is cut out of a joist in one place.
func longestCut(r geometry.Result) float64 {
	most := 0.0
	for i := range r.Layout.CutOuts {
		most = max(most, r.Layout.CutOuts[i].LengthMM)
	}
	return most
}
