package part

import (
	"strings"

	"underfall/geometry/message"
)

// Problem is a number of a part that cannot be: Field is its place in the part's
// file, empty for the part as a whole.
type Problem struct {
	Field string
	What  message.Message
}

// Problems are all there are of a part; none when it is sound.
type Problems []Problem

// Error is for logs; people are told What.
func (p Problems) Error() string {
	var out []string
	for _, x := range p {
		out = append(out, strings.TrimSpace(x.Field+" "+x.What.String()))
	}
	return strings.Join(out, "; ")
}
