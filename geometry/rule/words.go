package rule

import (
	"maps"
	"math"
	"slices"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// The ids of the texts that go with a pack and its rules follow from its region and
// theirs.

// Name is what people call the pack's region.
func (p Pack) Name() message.ID { return p.id("name") }

// Grounds explains which codes the pack follows and where they disagree.
func (p Pack) Grounds() message.ID { return p.id("grounds") }

func (p Pack) id(part string) message.ID {
	return message.ID("pack." + strings.ToLower(p.Region) + "." + part)
}

// IDs are the ids of the texts of the pack and of all its rules.
func (p Pack) IDs() []message.ID {
	out := []message.ID{p.Name(), p.Grounds()}
	for _, r := range p.Rules {
		out = append(out, r.id("heading"), r.id("text"), r.id("remedy"))
	}
	return out
}

func (r *Rule) id(part string) message.ID { return message.ID("rule." + r.ID + "." + part) }

// say is one of the rule's texts with the figures it may name.
func (r *Rule) say(part string) message.Message {
	kind := Quantities()[r.Quantity]
	m := message.Of(r.id(part), message.Arg{Name: "limit", Value: unit.Value(r.Limit, kind)})
	for _, name := range slices.Sorted(maps.Keys(r.Figures)) {
		m = m.With(message.Arg{Name: name, Value: unit.Value(r.Figures[name].Value, r.Figures[name].Unit)})
	}
	return m
}

// Heading says in a few words what is wrong when the rule is broken.
func (r Rule) Heading() message.Message { return r.say("heading") }

// Text says what the rule asks for, and why.
func (r Rule) Text() message.Message { return r.say("text") }

// Remedy says what to do.
func (r Rule) Remedy() message.Message { return r.say("remedy") }

// Value is what was measured; where it breaks the rule, with as many digits as tell it
// from the limit.
func (f Finding) Value() message.Value { return f.beside(f.Measurement.Value, f.Rule.Limit) }

// Limit is what the rule allows, likewise.
func (f Finding) Limit() message.Value { return f.beside(f.Rule.Limit, f.Measurement.Value) }

func (f Finding) beside(v, other float64) message.Value {
	kind := Quantities()[f.Rule.Quantity]
	if f.Rule.Compare == Present || !f.Rule.BrokenBy(f.Measurement.Value) {
		return unit.Value(v, kind)
	}
	return message.Apart{Value: unit.Value(v, kind), From: unit.Value(other, kind)}
}

// nothing is what a limit may be and still mean none at all: as much as any pack lets
// pass for rounding.
const nothing = 0.01

// Message says what was measured of what, and what is allowed. Of what should not be
// there at all, how much there is says it.
func (f Finding) Message() message.Message {
	subject := message.In("subject", f.Measurement.Subject.Message())
	value, limit := message.Arg{Name: "value", Value: f.Value()}, message.Arg{Name: "limit", Value: f.Limit()}
	none := f.Rule.Compare == AtMost && f.Rule.Limit <= nothing
	switch {
	case f.Rule.Compare == Present:
		return f.Measurement.Subject.Message()
	case none && f.Rule.BrokenBy(f.Measurement.Value):
		return message.Of("finding.too-much", subject, value)
	case none && math.Abs(f.Measurement.Value) <= nothing:
		return message.Of("finding.none", subject)
	case f.Rule.Compare == AtLeast:
		return message.Of("finding.at-least", subject, value, limit)
	}
	return message.Of("finding.at-most", subject, value, limit)
}
