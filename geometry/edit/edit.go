// Package edit holds every change that can be made to a job, as named pure
// functions of one job: what is dragged, chosen from a menu, typed, found by a
// search. Whatever an edit needs to know of the job's geometry it works out
// from the job it is given, so that it fits whichever job it is applied to.
package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Edit is one change of a job.
type Edit struct {
	// What is changed; undo names it.
	What  message.Message
	apply func(*job.Job)
	// made says more of what was changed, which only the job can tell; nil for What
	// alone.
	made func(before, after job.Job) message.Message
}

// Of is an edit by a function; the job it gets is its own.
func Of(what message.Message, apply func(*job.Job)) Edit { return Edit{What: what, apply: apply} }

// Made says what was changed once the edit is made of a job.
func (e Edit) Made(before, after job.Job) message.Message {
	if e.made == nil {
		return e.What
	}
	return e.made(before, after)
}

// Apply is the job with the change made. The job given stays as it is. What belongs to the shower
// goes along where the edit moves that; standings of inputs that it takes away go with them. A job
// that comes out meaningless is left to its own check.
func (e Edit) Apply(j job.Job) job.Job {
	before := j
	j = j.Clone()
	e.apply(&j)
	keepHead(&before, &j)
	j.KeepStandings()
	return j
}

// All is several edits made one after the other, as one.
func All(what message.Message, edits ...Edit) Edit {
	return Of(what, func(j *job.Job) {
		for _, e := range edits {
			e.apply(j)
		}
	})
}
