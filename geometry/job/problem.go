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
}

// Place is where in the job the problem lies.
func (p Problem) Place() message.Message { return PlaceOf(p.Key) }

// Message says where it is and what is wrong.
func (p Problem) Message() message.Message {
	return message.Of("problem", message.In("place", p.Place()), message.In("what", p.What))
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
