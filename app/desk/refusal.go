package desk

import (
	"slices"
	"strings"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/settle"
)

// settle makes an edit of a job; one to a job of a region without rules is refused as well.
func (d *Desk) settle(before job.Job, e edit.Edit) settle.Settled {
	s := settle.Do(before, e)
	if s.Refused != nil {
		return s
	}
	if p := d.check(s.Job); len(p) > 0 {
		return settle.Settled{Job: before, Refused: &settle.Refusal{What: p[0].Message(), Edit: e, Problems: p}}
	}
	if d.named != nil && s.Job.Name == before.Name {
		s.Job.Name = d.named(before, s.Job)
	}
	return s
}

// Named has a job whose name nobody has typed called anew as it changes: named is what it is called after a change, the same for
// any other job.
func (d *Desk) Named(named func(before, after job.Job) string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.named = named
}

// toldOf are the reasons of a refusal, in the words of the trade where it has such: what has no place in
// the job's file is a whole sentence.
func toldOf(r *settle.Refusal) job.Problems {
	if len(r.Problems) > 0 && r.What.String() == r.Problems[0].Message().String() {
		return r.Problems
	}
	return append(job.Problems{{What: r.What}}, r.Problems...)
}

// Told are the sentences about what moved along, one a thing.
func (c Change) Told() []message.Message {
	out := make([]message.Message, len(c.Moved))
	for i, m := range c.Moved {
		out[i] = m.What
	}
	return out
}

// reconsider drops the refusal that stands when an edit has been made of what it is about, and else tries
// it again; the lock must be held.
func (d *Desk) reconsider(made edit.Edit) {
	if d.refused != nil && sameSubject(made, d.refused.Edit) {
		d.refused = nil
	}
	d.retry()
}

// retry drops the refusal that stands when the edit could be made of the job as it is now; the lock must
// be held.
func (d *Desk) retry() {
	if d.refused != nil {
		d.refused = d.settle(d.history[d.at].job, d.refused.Edit).Refused
	}
}

// sameSubject tells whether an edit is about all that another is about.
func sameSubject(e, other edit.Edit) bool {
	mine, ok := e.Subject()
	theirs, also := other.Subject()
	if !ok || !also {
		return e.What.String() == other.What.String()
	}
	return !slices.ContainsFunc(theirs, func(key string) bool {
		return !slices.ContainsFunc(mine, func(outer string) bool {
			rest, in := strings.CutPrefix(key, outer)
			return in && (rest == "" || rest[0] == '.' || rest[0] == '[')
		})
	})
}

// Dismiss takes the refusal that stands away.
func (d *Desk) Dismiss() {
	d.mu.Lock()
	if d.refused == nil {
		d.mu.Unlock()
		return
	}
	d.refused = nil
	d.unlockAndTell()
}
