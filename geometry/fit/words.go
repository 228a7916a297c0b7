package fit

import (
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// Message says whether the part goes with the floor.
func (a Answer) Message() message.Message {
	name := message.In("part", part.Name(a.Part))
	switch a.Verdict() {
	case Not:
		return message.Of("fit.not", name)
	case Changes:
		return message.Of("fit.changes", name)
	}
	return message.Of("fit.goes", name)
}

// Details say why the part does not go, that it is not sold where the job is, and what
// changes, one a line: what stops the job first, then the raise, the rows, and the other findings that come and go. None where
// nothing changes.
func (a Answer) Details() []message.Message {
	out := append([]message.Message(nil), a.Why...)
	if a.NotSold {
		out = append(out, message.Of("fit.not-sold"))
	}
	for _, f := range a.Stops() {
		out = append(out, told("fit.stop", f))
	}
	if a.RaiseByMM != 0 {
		out = append(out, message.Of("fit.raise", message.At("by", a.RaiseByMM), message.MM("is", a.RaiseMM)))
	}
	if a.StackDiffers {
		out = append(out, message.Of("fit.made", message.In("made", a.After.Made(a.After.Raises.Now))))
	}
	if a.ChanceDiffers() {
		out = append(out, message.Of("fit.chance", message.No("n", stage.InHundred(a.Fits)), message.No("was", stage.InHundred(a.FitsWas))))
	}
	for _, c := range a.Rows {
		out = append(out, c.Message())
	}
	for _, f := range a.New {
		if f.Rule.Severity != rule.Stop {
			out = append(out, told("fit.new", f))
		}
	}
	for _, f := range a.Gone {
		out = append(out, told("fit.gone", f))
	}
	return out
}

// told is what is said of a finding that comes or goes.
func told(id message.ID, f rule.Finding) message.Message {
	return message.Of(id).With(message.In("severity", message.Of(f.Rule.Severity.Name())), message.In("heading", f.Rule.Heading()), message.In("what", f.Message()))
}

// Message says how the row comes out.
func (c Change) Message() message.Message {
	row := message.In("row", c.Row.Message())
	is := c.Row.Said()
	switch {
	case c.Gone:
		return message.Of("fit.row-gone", row)
	case c.New:
		return message.Of("fit.row-new", row, message.Arg{Name: "is", Value: is})
	case c.Row.Kind() == buildup.IsFall:
		was := c.Row.Kind().Value(c.Was)
		return message.Of("fit.row-fall", row, message.Arg{Name: "is", Value: message.Apart{Value: is, From: was}}, message.Arg{Name: "was", Value: message.Apart{Value: was, From: is}})
	}
	return message.Of("fit.row", row, message.At("by", c.ByMM()), message.Arg{Name: "is", Value: is})
}
