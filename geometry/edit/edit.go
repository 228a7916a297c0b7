// Package edit holds every change that can be made to a job, as named pure
// functions of one job: what is dragged, chosen from a menu, typed, found by a
// search. Whatever an edit needs to know of the job's geometry it works out
// from the job it is given, so that it fits whichever job it is applied to.
package edit

import (
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Edit is one change of a job.
type Edit struct {
	// What is changed; undo names it.
	What  message.Message
	apply func(*job.Job)
	// made says more of what was changed, which only the job can tell; nil for What
	// alone.
	made func(before, after job.Job) message.Message
	// about are the paths in a job's file of what the edit is about; nil for all that it
	// changes.
	about  []string
	figure *Figure
	// partWay gives a drag that goes a share of the way, from where its handle stands in a job; nil for
	// any other edit.
	partWay func(job.Job) (to func(share float64) Edit, ok bool)
}

// Figure is the one number that an edit states: its path in a job's file, its value, and the
// same edit with another.
type Figure struct {
	Key   string
	Value float64
	Kind  unit.Kind
	// Of is what it is in a job; ok is false where the job has none.
	Of   func(job.Job) (v float64, ok bool)
	With func(v float64) Edit
}

// Of is an edit by a function; the job it gets is its own.
func Of(what message.Message, apply func(*job.Job)) Edit { return Edit{What: what, apply: apply} }

// About is the edit with what it is about, by paths in a job's file: these, and all within
// them. What it changes beside them goes along with it.
func (e Edit) About(keys ...string) Edit {
	e.about = slices.Clip(keys)
	return e
}

// Subject is what the edit is about, by paths in a job's file; ok is false where that is all it changes.
func (e Edit) Subject() (keys []string, ok bool) { return e.about, e.about != nil }

// PartWay is a drag that goes a share of the way only, from where its handle stands in a job; ok is false
// for any other edit.
func (e Edit) PartWay(j job.Job) (to func(share float64) Edit, ok bool) {
	if e.partWay == nil {
		return nil, false
	}
	return e.partWay(j)
}

// Figure is the one number that the edit states; ok is false for any other edit.
func (e Edit) Figure() (f Figure, ok bool) {
	if e.figure == nil {
		return f, false
	}
	return *e.figure, true
}

// stated is the edit that states a number, with the same for any other number.
func (e Edit) stated(f Figure) Edit {
	e.figure = &f
	return e.About(f.Key)
}

// called is the edit with a name that only the job it is made of can tell.
func (e Edit) called(name func(*job.Job) message.Message) Edit {
	e.made = func(before, _ job.Job) message.Message { return name(&before) }
	return e
}

// ofPlace is an edit of what a path in a job's file leads to, which its text calls what.
func ofPlace(text message.ID, key string, apply func(*job.Job)) Edit {
	named := func(what message.Message) message.Message { return message.Of(text, message.In("what", what)) }
	return Of(named(job.PlaceInFile(key)), apply).called(func(j *job.Job) message.Message { return named(j.PlaceOf(key)) })
}

// Called is the edit by another name, whichever job it is made of.
func (e Edit) Called(what message.Message) Edit {
	e.What, e.made = what, nil
	return e
}

// Made says what was changed once the edit is made of a job.
func (e Edit) Made(before, after job.Job) message.Message {
	if e.made == nil {
		return e.What
	}
	return e.made(before, after)
}

// Apply is the job with the change made. The job given stays as it is. The corners of a room are where what is measured
// of it then puts them; what belongs to the shower goes along where the edit moves that; standings of inputs that it takes away go with them. A job
// that comes out meaningless is left to its own check.
func (e Edit) Apply(j job.Job) job.Job {
	before := j
	j = j.Clone()
	e.apply(&j)
	workOut(&before, &j)
	keepHead(&before, &j)
	j.KeepStandings()
	return j
}

// All is several edits made one after the other, as one.
func All(what message.Message, edits ...Edit) Edit {
	all := Of(what, func(j *job.Job) {
		for _, e := range edits {
			e.apply(j)
		}
	})
	var about []string
	for _, e := range edits {
		if e.about == nil {
			return all
		}
		about = append(about, e.about...)
	}
	return all.About(about...)
}
