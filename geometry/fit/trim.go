package fit

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// Remedy is a change that a finding goes away by.
type Remedy struct {
	Edit edit.Edit
	// Joists are how many are cut for it that are whole now.
	Joists int
	// New are the findings that it brings, none of which stops the job; gravest first.
	New []rule.Finding
	// After is the floor with the change made.
	After geometry.Result
}

// Message is what the change does.
func (r Remedy) Message() message.Message {
	if r.Joists == 0 {
		return message.Of("remedy.trim-more")
	}
	return message.Of("remedy.trim", message.N("joists", r.Joists))
}

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
	if len(before.Problems) > 0 || !inJoist(f) || len(before.Layout.Joists) == 0 {
		return r, why, false
	}
	if before.Stated.Floor.Joists.Engineered {
		return r, message.Of("remedy.engineered"), false
	}
	// The trap alone is less to cut; where channel and trap are both in joists, one alone
	// would leave the other in a trimmer.
	for _, both := range [2]bool{false, true} {
		e := edit.TrimJoists(f.Measurement.Subject, both)
		after := geometry.EvaluateAfter(before, e.Apply(before.Stated), before.Pack)
		if len(after.Problems) > 0 {
			if why.IsZero() {
				why = after.Problems[0].Message()
			}
			continue
		}
		r = Remedy{Edit: e, New: less(after.Findings, before.Findings), After: after, Joists: cutJoists(after) - cutJoists(before)}
		if ends(before, after, f) && longestCut(after) <= max(mostCutOutMM, longestCut(before)) {
			return r, message.Message{}, true
		}
	}
	return Remedy{}, why, false
}

// ends tells whether a finding is gone and none is new that stops the job: a second joist
// with the hole that the joist beside it has is no worse.
func ends(before, after geometry.Result, f rule.Finding) bool {
	had := func(id string) bool {
		return slices.ContainsFunc(before.Findings, func(o rule.Finding) bool { return o.Rule.ID == id && o.Measurement.Subject.Of == rule.JoistCut })
	}
	for _, n := range less(after.Findings, before.Findings) {
		s := n.Measurement.Subject
		if again := s.Of == rule.JoistCut && s.Which == rule.SecondJoist && had(n.Rule.ID); stops(n) && !again {
			return false
		}
	}
	return !slices.ContainsFunc(after.Findings, func(o rule.Finding) bool { return o.Key() == f.Key() })
}

func stops(f rule.Finding) bool { return f.Rule.Severity == rule.Stop }

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
