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
	if r.Compare == NotBetween {
		m = m.With(message.Arg{Name: "to", Value: unit.Value(r.To, kind)})
	}
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

// Origin says where the rule is from.
func (r Rule) Origin() message.Message {
	return message.Of("finding.source", message.In("source", r.Source.Message()))
}

// Value is what was measured; where it breaks the rule, with as many digits as tell it
// from the limit. A step is told so that it and the levels that it lies between add up.
func (f Finding) Value() message.Value { return f.beside(f.measured(), f.rounded(f.Nearest())) }

// Limit is what the rule allows, likewise.
func (f Finding) Limit() message.Value { return f.beside(f.allowed(), f.measured()) }

// allowed is the limit; of a length one that is told on its own side: a quarter of 170 as 42, as a hole of 43 would be too
// large, and in inches as the last sixteenth that keeps it.
func (f Finding) allowed() message.Value {
	v := f.rounded(f.Rule.Limit)
	if mm, ok := v.(message.Length); ok && f.Measurement.OfMM > 0 && mm.Round == message.Whole {
		mm.Bound = message.AtMost
		if f.Rule.Compare == AtLeast {
			mm.Bound = message.AtLeast
		}
		return mm
	}
	return v
}

func (f Finding) measured() message.Value {
	if f.Measurement.Rise != (message.Rise{}) {
		return f.Measurement.Rise
	}
	return f.rounded(f.Measurement.Value)
}

// Nearest is the limit; of two the one that what lies between them is nearer to.
func (f Finding) Nearest() float64 {
	if v := f.Measurement.Value; f.Rule.Compare == NotBetween && v-f.Rule.Limit > f.Rule.To-v {
		return f.Rule.To
	}
	return f.Rule.Limit
}

func (f Finding) beside(v, other message.Value) message.Value {
	if f.Rule.Compare == Present || !f.Rule.BrokenBy(f.Measurement.Value) {
		return v
	}
	return message.Apart{Value: v, From: other}
}

// rounded is one of the finding's numbers, both as finely as each other: a length that
// is held against whole millimetres in such, but for small ones.
func (f Finding) rounded(v float64) message.Value {
	const smallMM = 10
	if of := f.Measurement.OfMM; of > 0 {
		mm := message.Length{MM: v * of, Round: message.Tenth}
		if math.Abs(f.Measurement.Value)*of >= smallMM {
			mm.Round = message.Whole
		}
		return mm
	}
	value := unit.Value(v, Quantities()[f.Rule.Quantity])
	if mm, ok := value.(message.Length); ok && math.Abs(f.Measurement.Value) >= smallMM && f.Rule.Limit == math.Trunc(f.Rule.Limit) {
		mm.Round = message.Whole
		return mm
	}
	return value
}

// Figure is what was measured, under a name; a number that means nothing by itself, a
// share, a count or a length in a joist, by what it is of.
// What falls short is told by what it needs and what is there.
func (f Finding) Figure(name string) message.Arg {
	if f.fallsShort() {
		needs, has := f.needsAndHas()
		return message.In(name, message.Of("figure.short", needs, has))
	}
	if id := figureOf(f.Rule.Quantity); id != "" {
		return message.In(name, message.Of(id, message.Arg{Name: "value", Value: f.Value()}))
	}
	return message.Arg{Name: name, Value: f.Value()}
}

// fallsShort tells that what was measured is by how much one length is less than another
// that it should be.
func (f Finding) fallsShort() bool {
	return f.Rule.Compare == AtMost && f.Measurement.NeedsMM > 0 && f.Rule.BrokenBy(f.Measurement.Value)
}

// needsAndHas are the two lengths, with as many digits as tell one from the other.
func (f Finding) needsAndHas() (needs, has message.Arg) {
	feet := Quantities()[f.Rule.Quantity] == unit.Along
	n, h := message.Length{MM: f.Measurement.NeedsMM, Feet: feet}, message.Length{MM: f.Measurement.HasMM, Feet: feet}
	return message.Arg{Name: "needs", Value: message.Apart{Value: n, From: h}}, message.Arg{Name: "has", Value: message.Apart{Value: h, From: n}}
}

// figureOf says what a number of a quantity is of; empty for what is clear from the rule's heading.
func figureOf(quantity string) message.ID {
	switch quantity {
	case "pipe.flow-share", "pipe.smooth-share":
		return "figure.of-pipe"
	case "pump.flow-share":
		return "figure.of-pump"
	case "inlet.flow-share":
		return "figure.of-cover"
	case "channel.fill-share":
		return "figure.of-channel"
	case "trap.passage-share":
		return "figure.of-passage"
	case "trap.flow-share":
		return "figure.of-trap"
	case "run.bends":
		return "figure.bends"
	case "run.fall-in-bores":
		return "figure.bores"
	case "joist.hole-size":
		return "figure.hole"
	case "joist.hole-off-axis":
		return "figure.off-middle"
	case "joist.hole-edge":
		return "figure.to-edge"
	case "joist.hole-spacing":
		return "figure.holes-apart"
	case "joist.notch-depth":
		return "figure.notch-deep"
	case "joist.notch-length":
		return "figure.notch-long"
	case "joist.notch-to-hole", "joist.notch-to-hole-depths":
		return "figure.notch-to-hole"
	case "joist.hole-zone", "joist.notch-zone":
		return "figure.from-support"
	case "joist.free-end-share":
		return "figure.of-span-behind"
	case "joist.bending-share", "joist.shear-share", "joist.bearing-share":
		return "figure.of-strength"
	case "joist.frequency":
		return "figure.hertz"
	case "joist.stiffness", "joist.final-stiffness":
		return "figure.span-over"
	}
	return ""
}

// nothing is what a limit may be and still mean none at all: as much as any pack lets
// pass for rounding; of lengths slackMM, which no tape tells.
const (
	nothing = 0.01
	slackMM = 1
)

// noneAllowed tells whether there should be none at all of what was measured.
func (f Finding) noneAllowed() bool {
	if f.Rule.Compare != AtMost {
		return false
	}
	return f.Rule.Limit <= nothing || f.Rule.Limit <= slackMM && Quantities()[f.Rule.Quantity].IsLength()
}

// Message says what was measured of what, and what is allowed. Of what should not be
// there at all, how much there is says it; of a gap that there is none, how far one is
// in the other.
func (f Finding) Message() message.Message {
	subject := message.In("subject", f.Measurement.Message())
	measured, limit := f.Measurement.Value, message.Arg{Name: "limit", Value: f.Limit()}
	value := f.Figure("value")
	none, phrase := f.noneAllowed(), f.phrase()
	switch {
	case f.Rule.Compare == Present:
		return f.Measurement.Message()
	case math.IsNaN(measured):
		return message.Of("finding.unknown", subject)
	case math.IsInf(measured, 0):
		return message.Of("finding.endless", subject, limit)
	case f.fallsShort():
		needs, has := f.needsAndHas()
		return message.Of("finding.short", subject, needs, has)
	case none && f.Rule.BrokenBy(measured) && phrase.IsZero():
		return message.Of("finding.too-much", subject, value)
	case none && math.Abs(measured) <= nothing:
		return message.Of("finding.none", subject)
	case strings.HasPrefix(f.Rule.Quantity, "clash.") && measured < -nothing:
		// In whole millimetres, unless that would be none.
		into := message.Arg{Name: "into", Value: message.Apart{Value: message.Length{MM: -measured}, From: message.Length{}}}
		if f.Rule.Limit <= 0 {
			return message.Of("finding.into", subject, into)
		}
		return message.Of("finding.into-not-clear", subject, into, limit)
	case !phrase.IsZero():
		return phrase
	case f.Rule.Compare == AtLeast:
		return message.Of("finding.at-least", subject, value, limit)
	case f.Rule.Compare == NotBetween:
		to := message.Arg{Name: "to", Value: f.beside(f.rounded(f.Rule.To), f.measured())}
		return message.Of("finding.not-between", subject, value, limit, to)
	}
	return message.Of("finding.at-most", subject, value, limit)
}
