package message

import "errors"

// Error is an error with words for the person at the screen.
type Error struct {
	What Message
	// Cause is what lies behind it, for whoever mends the program; nil for nothing.
	Cause error
}

// Fail is an error with words for people and nothing behind it.
func Fail(id ID, args ...Arg) *Error { return &Error{What: Of(id, args...)} }

// Wrap is an error with words for people over another: their text tells the reason
// under that name.
func Wrap(why error, id ID, args ...Arg) *Error {
	return &Error{Of(id, append(args[:len(args):len(args)], In("why", OfError(why)))...), why}
}

// Error shows ids and values, and what lies behind.
func (e *Error) Error() string {
	if e.Cause == nil {
		return e.What.String()
	}
	return e.What.String() + " (" + e.Cause.Error() + ")"
}

// Unwrap is what lies behind the error.
func (e *Error) Unwrap() error { return e.Cause }

// Message is what the error says to people.
func (e *Error) Message() Message { return e.What }

// OfError is what an error says to people: its own message or that of the error
// within it. One that has none says its text as it is.
func OfError(err error) Message {
	if err == nil {
		return Message{}
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []Message
		for _, one := range joined.Unwrap() {
			all = append(all, OfError(one))
		}
		return Lines(all...)
	}
	if own, ok := err.(interface{ Message() Message }); ok {
		return own.Message()
	}
	if within := errors.Unwrap(err); within != nil {
		if m := OfError(within); m.ID != "own" {
			return m
		}
	}
	return Text(err.Error())
}
