package geometry

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// SameStepMM is by how much steps may differ and still be the same to whoever walks over them:
// what counts as flush. Common practice, no source.
const SameStepMM = 3

// otherStepMM is by how much the step at the way in must differ between possibilities for the answer
// to be not known: a board more or less. Common practice, no source.
const otherStepMM = 10

// among is what a job comes to that is not all known.
type among struct {
	own             Standing
	what            message.Message
	stops           int // possibilities that stop
	all             int
	built           bool // some does not
	kinds           bool // what one steps over is of several kinds
	tights          int
	least, greatest float64 // step at the way in
}

// WayIn is the step at the way in: the worst of the open edges that one can walk over, or of the
// doorways where there are none; ok is false where one steps over nothing.
func (a Answer) WayIn() (s Step, ok bool) {
	for _, of := range [...]rule.Thing{rule.OpenEdge, rule.Doorway} {
		for _, other := range a.Steps {
			if other.Where.Of == of && (!ok || math.Abs(other.MM) > math.Abs(s.MM)) {
				s, ok = other, true
			}
		}
		if ok {
			return s, true
		}
	}
	return s, false
}

// Among is the answer to a job that is not all known, out of the answers to all that it may come to,
// this one first; what they depend on says what is not known. It stops where every possibility
// stops. It is not known where some stop and others do not, where the step at the way in is of
// several kinds or differs by more than a board, or where a possibility is itself not known; else it
// stands as the worst of them.
func (a Answer) Among(all []Answer, what message.Message) Answer {
	if len(all) < 2 {
		return a
	}
	m := among{own: a.Standing, what: what, all: len(all), least: math.Inf(1), greatest: math.Inf(-1)}
	var kinds []StepKind
	notKnown := false
	for _, c := range all {
		if c.Standing == Stops {
			m.stops++
			continue
		}
		m.built = true
		notKnown = notKnown || c.Standing == NotKnown
		if c.Standing == Tight {
			m.tights++
		}
		if s, ok := c.WayIn(); ok {
			m.least, m.greatest = math.Min(m.least, s.MM), math.Max(m.greatest, s.MM)
			kinds = append(kinds, s.Kind)
		}
	}
	slices.Sort(kinds)
	m.kinds = len(slices.Compact(kinds)) > 1
	switch {
	case !m.built:
		a.Standing = Stops
	case m.stops > 0 || m.otherStep() || notKnown:
		a.Standing = NotKnown
	case m.tights > 0:
		a.Standing = Tight
	default:
		a.Standing = Sound
	}
	a.among = &m
	return a
}

// otherStep tells whether what one steps over is another thing by possibility.
func (m *among) otherStep() bool { return m.kinds || m.greatest-m.least > otherStepMM }

// headline says why the answer is not that of the job as drawn; nothing where that says it.
func (m *among) headline(s Standing) message.Message {
	what := message.In("what", m.what)
	switch {
	case s == NotKnown && m.stops > 0:
		return message.Of("answer.depends-built", what)
	case s == NotKnown && m.otherStep():
		return message.Of("answer.depends-step", what, message.MM("least", m.least), message.MM("greatest", m.greatest))
	case s == NotKnown && m.own != NotKnown:
		return message.Of("answer.depends", what)
	case s == Tight && m.own != Tight:
		return message.Of("answer.tight-case", message.N("n", m.tights))
	}
	return message.Message{}
}

// line says what the step comes to where that is not known; nothing where it is.
func (m *among) line() message.Message {
	if m == nil || !(m.greatest-m.least > SameStepMM) {
		return message.Message{}
	}
	return message.Of("answer.step-between", message.MM("least", m.least), message.MM("greatest", m.greatest), message.In("what", m.what))
}
