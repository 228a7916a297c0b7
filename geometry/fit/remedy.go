package fit

import (
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// Remedy is a change that a finding goes away by.
type Remedy struct {
	Edit edit.Edit
	// Does is what the change does; Steps what each of several does that it is made of.
	Does  message.Message
	Steps []message.Message
	// Joists are how many are cut for it that are whole now.
	Joists int
	// LetsGo are the inputs that are held and that it moves, and so lets go of, by their paths
	// in the job's file.
	LetsGo []string
	// New are the findings that it brings, none of which stops the job; Gone those that go
	// with it. Gravest first.
	New, Gone []rule.Finding
	// Chance is the share of builds that come right with the change made, from 0 to 1, as far as
	// straight lines tell: trap and pipe fit, and a fall that is set stays within its limit. Nought
	// where something still stops the floor.
	Chance float64
	// After is the floor with the change made.
	After geometry.Result
}

// Asks are the findings that it brings and that must be known before it is made, one of each
// rule: what a licensed trade sees to, and what a box asks for.
func (r Remedy) Asks() (out []rule.Finding) {
	for _, n := range r.New {
		told := slices.ContainsFunc(out, func(o rule.Finding) bool { return o.Rule.ID == n.Rule.ID })
		if asks := n.Rule.Severity == rule.Licensed || n.Rule.Quantity == "pipe.boxed"; asks && !told {
			out = append(out, n)
		}
	}
	return out
}

// RemedyOf is the change of a floor that a finding goes away by; ok is false where there is
// none that breaks no other rule that stops the job. Why says what hinders it, where that can
// be said. What is held stays, unless nothing else ends the finding: who holds a number wants
// it kept, and wants to hear that it alone is in the way.
func RemedyOf(before geometry.Result, f rule.Finding) (r Remedy, why message.Message, ok bool) {
	x := tryout{before: before, f: f}
	r, why, ok = x.remedy()
	if ok || len(before.Stated.Standing(job.Held)) == 0 {
		return r, why, ok
	}
	x.lettingGo = true
	if r, _, ok := x.remedy(); ok {
		return r, message.Message{}, true
	}
	return r, why, false
}

func (x *tryout) remedy() (r Remedy, why message.Message, ok bool) {
	switch x.f.Rule.Quantity {
	case "pipe.exposed":
		return x.box()
	case "beyond.unknown":
		r, ok = x.reckonOutside()
		return r, why, ok
	case "beyond.assumed":
		r, ok = x.confirmOutside()
		return r, why, ok
	}
	if ofRun(x.f) {
		if r, ok = x.turnOutlet(); ok {
			return r, why, true
		}
	}
	if r, why, ok = x.trim(); !why.IsZero() {
		why = message.Of("remedy.not", message.In("why", why))
	}
	if !ok && why.IsZero() {
		r, ok = x.adjust()
	}
	return r, why, ok
}

// mostTold is how many findings that come or go with a remedy are told by name.
const mostTold = 3

// Changes say what a remedy changes besides, a line each: what it lets go of, how high the floor
// comes, in how many builds that comes right, what goes and at how many places the same cause
// stays, and what it brings; the finding that it is for left out.
func (r Remedy) Changes(before geometry.Result, f rule.Finding) []message.Message {
	var out []message.Message
	for _, key := range r.LetsGo {
		out = append(out, message.Of("remedy.lets-go", message.In("what", before.Stated.PlaceOf(key))))
	}
	if by := whole(raiseMM(r.After) - raiseMM(before)); by != 0 {
		out = append(out, message.Of("fit.raise", message.At("by", by), message.MM("is", raiseMM(r.After))))
	}
	if n := stage.InHundred(r.Chance); n > 0 {
		out = append(out, message.Of("remedy.chance", message.No("n", n)))
	}
	tell := func(id message.ID, of []rule.Finding, but func(rule.Finding) bool) {
		n := 0
		said := map[string]bool{f.Rule.ID: true}
		for _, o := range of {
			if said[o.Rule.ID] || but(o) || n == mostTold {
				continue
			}
			said[o.Rule.ID] = true
			n++
			out = append(out, told(id, o))
		}
	}
	tell("fit.gone", r.Gone, func(rule.Finding) bool { return false })
	if left := r.left(rule.CauseOf(f.Rule.Quantity)); left > 0 {
		out = append(out, message.Of("remedy.left", message.N("n", left)))
	}
	asks := r.Asks()
	tell("fit.new", r.New, func(o rule.Finding) bool {
		return slices.ContainsFunc(asks, func(a rule.Finding) bool { return a.Rule.ID == o.Rule.ID })
	})
	return out
}

// left is at how many places what comes of a cause is still there with the change made.
func (r Remedy) left(cause string) int {
	for _, c := range r.After.Answer(nil).Cards {
		if c.Cause() == cause {
			return len(c.Places)
		}
	}
	return 0
}

// box is boxing the pipe in that a finding says lies bare along the room. Why tells what the
// box would be in the way of.
func (x *tryout) box() (r Remedy, why message.Message, ok bool) {
	before, f := x.before, x.f
	if len(before.Problems) > 0 || f.Rule.Quantity != "pipe.exposed" {
		return r, why, false
	}
	boxed, gone := x.with(edit.BoxIn(), message.Of("remedy.box-in"))
	if p := boxed.After.Problems; len(p) > 0 {
		return r, p[0].Message(), false
	}
	if !gone {
		if i := slices.IndexFunc(boxed.New, stops); i >= 0 {
			why = message.Of("remedy.not-boxed", message.In("why", boxed.New[i].Rule.Heading()))
		}
		return r, why, false
	}
	return boxed, why, true
}

// ends tells whether a finding is gone and none is new that stops the job: a second joist
// with the hole that the joist beside it has is no worse.
func (r Remedy) ends(before geometry.Result, f rule.Finding) bool {
	had := func(id string) bool {
		return slices.ContainsFunc(before.Findings, func(o rule.Finding) bool { return o.Rule.ID == id && o.Measurement.Subject.Of == rule.JoistCut })
	}
	for _, n := range r.New {
		s := n.Measurement.Subject
		if again := s.Of == rule.JoistCut && s.Which == rule.SecondJoist && had(n.Rule.ID); stops(n) && !again {
			return false
		}
	}
	return !slices.ContainsFunc(r.After.Findings, func(o rule.Finding) bool { return o.Key() == f.Key() })
}

func stops(f rule.Finding) bool { return f.Rule.Severity == rule.Stop }
