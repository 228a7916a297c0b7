package app

import (
	"underfall/app/desk"
	"underfall/geometry"
	"underfall/geometry/fit"
	"underfall/geometry/message"
)

// beforeStep is what was worked out before the step of the history that was made last, to tell what that did.
type beforeStep struct {
	opened, kept int
	was, now     geometry.Result
}

// follow takes what has become of a change; what is only shown while it is typed is none.
func (b *beforeStep) follow(c desk.Change) {
	switch {
	case c.Preview || c.Stale || c.Awaited:
		return
	case c.Opened != b.opened:
		b.was = c.Result
	case c.Kept != b.kept:
		b.was = b.now
	}
	b.opened, b.kept, b.now = c.Opened, c.Kept, c.Result
}

// told says how the steps at the way in and at doorways have become others by the last step of the history; nothing of those that
// have not.
func (b *beforeStep) told() (all []message.Message) {
	for _, d := range fit.StepDifferences(b.was, b.now) {
		all = append(all, message.Of("desk.step-moved", message.In("of", d.Of), message.In("before", d.Before), message.In("after", d.After)))
	}
	return all
}
