package job

import (
	"slices"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Found tells that what things of the list are is a fact of the house, or of a machine's data sheet,
// on which the waste or what the floor stands on hangs: what is usual of one that is added is
// assumed, not chosen.
func (l List) Found() bool {
	switch l.Key {
	case "floor.existing", BeyondKey, "waste.pump", StacksKey, PipeEndsKey:
		return true
	}
	return false
}

// Inputs are the paths of what is stated of a thing of the list; what is absent is not.
func (l List) Inputs(j *Job, i int) (keys []string) {
	if i < 0 || i >= l.Count(j) {
		return nil
	}
	for _, e := range l.entries {
		if absent := e.Number != nil && e.Number.At(j, i) == nil; !absent && e.Uses(j, i) {
			keys = append(keys, l.Path(i, e))
		}
	}
	return keys
}

// OpenUnder are the inputs in a part of the job, by its path, that nobody has stated.
func (j *Job) OpenUnder(key string) []string {
	open := append(j.Standing(Assumed), j.Standing(NotKnown)...)
	return slices.DeleteFunc(open, func(k string) bool { return k != key && !strings.HasPrefix(k, key+".") })
}

// Told is an input with its value, where it is a number or a word; else its name alone.
func (j *Job) Told(key string) message.Message {
	what := message.In("what", j.PlaceOf(key))
	with := func(v message.Value) message.Message {
		return message.Of("input.told", what, message.Arg{Name: "value", Value: v})
	}
	if p, ok := Find(key); ok {
		if nought := p.Nought(*j); !nought.IsZero() {
			return with(message.Said(nought))
		}
		return with(unit.Value(p.Get(*j), p.Kind))
	}
	for _, l := range Lists() {
		for i := range l.Count(j) {
			for _, e := range l.entries {
				if l.Path(i, e) != key {
					continue
				}
				switch {
				case e.Number != nil && e.Number.At(j, i) != nil:
					return with(unit.Value(*e.Number.At(j, i), e.Number.Kind))
				case e.Choice != nil:
					word := e.Choice.Words[max(0, slices.Index(e.Choice.Values, e.Choice.At(j, i)))]
					return with(message.Said(message.Of(word)))
				}
			}
		}
	}
	return j.PlaceOf(key)
}
