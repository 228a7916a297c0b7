package unknown

import (
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/message"
)

// Outcome is what several possibilities come to that are the same to whoever builds there: all of them
// can be built or none, and one steps as high.
type Outcome struct {
	// Cases are the possibilities, by their index; at least one.
	Cases []int
	// Standing is that of the worst of them.
	Standing geometry.Standing
	// Step is from where to where the step at the way in comes, without its sign; HasStep is false where
	// one steps over nothing.
	Step    Range
	HasStep bool
	kind    geometry.StepKind
	what    []message.Message
	// rest tells that it is what all comes to that is not told by name, every that it is what all comes to.
	rest, every bool
}

// manyAlike is from how many possibilities on they are no longer told one by one.
const manyAlike = 3

// Outcomes are the possibilities put together that come to the same, in their order; what most of them
// come to is last, where they are many. Steps that differ by no more than counts as flush are the same.
func (x *Exploration) Outcomes() (out []Outcome) {
	for i := range x.Cases {
		c := &x.Cases[i]
		step, has := c.Answer.WayIn()
		mm := math.Abs(step.MM)
		joined := false
		for k := range out {
			if joined = out[k].takes(c.Answer.Standing, step.Kind, mm, has); joined {
				out[k].Cases, out[k].what = append(out[k].Cases, i), append(out[k].what, c.What())
				out[k].Step.take(mm)
				if c.Answer.Standing == geometry.Tight {
					out[k].Standing = geometry.Tight
				}
				break
			}
		}
		if !joined {
			o := Outcome{Cases: []int{i}, Standing: c.Answer.Standing, Step: nowhere(), HasStep: has, kind: step.Kind, what: []message.Message{c.What()}}
			o.Step.take(mm)
			out = append(out, o)
		}
	}
	return restLast(out)
}

// restLast puts what most possibilities come to last.
func restLast(all []Outcome) []Outcome {
	most := 0
	for i := range all {
		if len(all[i].Cases) > len(all[most].Cases) {
			most = i
		}
	}
	if len(all) == 1 {
		all[0].every = true
	}
	if len(all) < 2 || len(all[most].Cases) < manyAlike {
		return all
	}
	rest := all[most]
	rest.rest = true
	return append(slices.Delete(all, most, most+1), rest)
}

// takes tells whether a possibility comes to the same.
func (o *Outcome) takes(s geometry.Standing, kind geometry.StepKind, mm float64, has bool) bool {
	if builds(s).ID != builds(o.Standing).ID || has != o.HasStep || kind != o.kind {
		return false
	}
	all := o.Step
	all.take(mm)
	return all.SpreadMM() <= geometry.SameStepMM
}

// What says which possibilities they are.
func (o Outcome) What() message.Message {
	switch {
	case o.every && len(o.what) > 1:
		return message.Of("unknown.whatever")
	case o.rest:
		return message.Of("unknown.else")
	case len(o.what) == 1:
		return o.what[0]
	}
	return message.Of("unknown.either", message.Arg{Name: "all", Value: message.List{Items: o.what, Or: true}})
}

// Message says which possibilities they are, how high one steps in and whether it can be built.
func (o Outcome) Message() message.Message {
	what, stands := message.In("what", o.What()), message.In("stands", builds(o.Standing))
	least, greatest := message.MM("least", o.Step.LeastMM), message.MM("greatest", o.Step.GreatestMM)
	switch {
	case !o.HasStep:
		return message.Of("unknown.outcome", what, stands)
	case o.kind == geometry.Flush:
		return message.Of("unknown.outcome-flush", what, stands)
	case math.Round(o.Step.LeastMM) == math.Round(o.Step.GreatestMM):
		return message.Of("unknown.outcome-step", what, stands, least)
	}
	return message.Of("unknown.outcome-steps", what, stands, least, greatest)
}

// builds says whether what stands so can be built.
func builds(s geometry.Standing) message.Message {
	switch s {
	case geometry.Stops:
		return message.Of("unknown.stops")
	case geometry.NotKnown:
		return message.Of("unknown.cannot-tell")
	}
	return message.Of("unknown.builds")
}
