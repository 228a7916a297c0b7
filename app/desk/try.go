package desk

import (
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/settle"
)

// Tried is a job as an edit would leave it: nothing is made of it.
type Tried struct {
	// Before is the job that it was tried on, Job the one that making the edit would give.
	Before, Job job.Job
	// Moved is what would move along.
	Moved []settle.Moved
	// Opened and Edits are the change of the desk that it was tried at: as long as the desk has the same
	// ones, making the edit gives Job.
	Opened, Edits int
}

// Try works out what an edit would make of the job as it stands. The job, its history and what is shown of
// it stay; what is being typed ends, as with any other edit. An edit that is refused is so as if it had been
// made: the refusal stands with its cures, and the problems say why.
func (d *Desk) Try(e edit.Edit) (Tried, job.Problems) {
	d.mu.Lock()
	defer d.mu.Unlock()
	typing := d.preview != nil
	d.preview, d.moved, d.problems = nil, nil, nil
	before := d.history[d.at].job
	if d.looking != nil {
		d.problems = d.looking.refused()
		d.evaluate()
		return Tried{}, d.problems
	}
	s := d.settle(before, e)
	if s.Refused != nil {
		d.problems, d.refused = toldOf(s.Refused), s.Refused
		d.evaluate() // which tells of it
		return Tried{}, d.problems
	}
	if typing {
		d.evaluate()
	}
	return Tried{Before: before.Clone(), Job: s.Job, Moved: s.Moved, Opened: d.opened, Edits: d.edits}, nil
}

// Since tells whether the job is another than it was tried on, or about to be: it was edited, one is typing,
// another was opened, or it is only looked at now.
func (c Change) Since(t Tried) (why message.ID, since bool) {
	switch {
	case c.Opened != t.Opened:
		return "trial.ended-other", true
	case c.Looking != nil:
		return "trial.ended-looking", true
	case c.Edits != t.Edits:
		return "trial.ended-changed", true
	case c.Preview:
		return "trial.ended-typing", true
	case len(c.Problems) > 0:
		return "trial.ended-refused", true
	}
	return "", false
}
