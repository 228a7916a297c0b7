package unknown

import (
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// letIn is the lowest that can be built with the base let in between the joists, of what assumed inputs may come to; its case is
// nil where none can be.
type letIn struct {
	in *Case
	// where says how the joists lie for that; empty where it goes with them as they are drawn.
	where message.Message
}

// lower is the lower of it and the cases of an assumed input: what the base stands on, or how the joists lie.
func (l letIn) lower(u Unknown, cases []Case) letIn {
	if u.Key != supportKey && u.Key != runKey && u.Key != firstKey {
		return l
	}
	for k := range cases {
		c := &cases[k]
		if !c.canBe() || c.Job.Base.Support != job.BetweenJoists || l.in != nil && c.stepMM() >= l.in.stepMM()-geometry.SameStepMM {
			continue
		}
		if l.in = c; u.Key == supportKey {
			l.where = message.Message{}
		} else {
			l.where = u.Values[k].What
		}
	}
	return l
}

// message says what that comes to, against the job as it is drawn; nothing where it comes no lower.
func (l letIn) message(drawn *Case) message.Message {
	if l.in == nil {
		return message.Message{}
	}
	where := message.In("where", l.where)
	if !drawn.canBe() {
		if l.where.IsZero() {
			return message.Of("unknown.let-in-built")
		}
		return message.Of("unknown.let-in-built-where", where)
	}
	now, _ := drawn.Answer.WayIn()
	then, ok := l.in.Answer.WayIn()
	switch {
	case !ok || drawn.stepMM()-l.in.stepMM() <= geometry.SameStepMM:
		return message.Message{}
	case l.where.IsZero():
		return message.Of("unknown.let-in", now.High("now"), then.High("then"))
	}
	return message.Of("unknown.let-in-where", now.High("now"), then.High("then"), where)
}
