package job

import (
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Problem is one reason why a job cannot be built at all, or its file not be
// opened: not a value outside a code's limits, but a value that means nothing.
type Problem struct {
	// Key is the field concerned, as its path in a file, for the window to find it;
	// empty where it is the whole job. It is never shown.
	Key string
	// What is wrong and what to do.
	What message.Message
	// In is the job that it is of; nil where a file gives none.
	In *Job
	// Usual is the value taken where none is stated, of one that is not of its list; empty of all else.
	Usual string
}

// Message says where it is and what is wrong. Of a thing of a list the thing is the place, and
// what is wrong names the entry, as far as it does not by itself.
func (p Problem) Message() message.Message {
	place, what := placeOf(p.Key, p.In), p.What
	if item, entry, ok := entryInList(p.Key, p.In); ok {
		place = item
		if what.ID == "problem.between" {
			what = message.Of("problem.of-entry", message.In("entry", entry), message.In("what", what))
		}
	}
	return message.Of("problem", message.In("place", place), message.In("what", what))
}

// Error shows the field and the message to whoever mends the program.
func (p Problem) Error() string { return p.Key + ": " + p.What.String() }

// Problems are everything wrong with a job.
type Problems []Problem

// Message says all of them, one a line.
func (p Problems) Message() message.Message {
	all := make([]message.Message, len(p))
	for i, x := range p {
		all[i] = x.Message()
	}
	return message.Lines(all...)
}

// Error shows all of them to whoever mends the program, one a line.
func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, x := range p {
		lines[i] = x.Error()
	}
	return strings.Join(lines, "\n")
}

// between says which values of a kind there may be.
func between(least, greatest float64, kind unit.Kind) message.Message {
	return message.Of("problem.between", message.Arg{Name: "least", Value: unit.Value(least, kind)}, message.Arg{Name: "greatest", Value: unit.Value(greatest, kind)})
}
