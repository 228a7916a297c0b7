package edit

import (
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Inputs that edits state, by their paths in a job's file.
const (
	heightModeKey = "base.height"
	supportKey    = "base.support"
	exitKindKey   = "waste.exit.kind"
	exitLevelKey  = "waste.exit.level"
)

// foundLists are those of things that are found in the house.
func foundLists() []job.List {
	return slices.DeleteFunc(slices.Clone(job.Lists()), func(l job.List) bool { return !l.Found() })
}

// stand gives an input another standing where it may have it.
func stand(what message.ID, key string, to job.Standing, may func(job.Standing) bool) Edit {
	return ofPlace(what, key, func(j *job.Job) {
		if may(j.StandingOf(key)) {
			j.SetStanding(key, to)
		}
	})
}

func anyStanding(job.Standing) bool { return true }

// Hold fixes an input as it is: no search and no remedy moves it by itself.
func Hold(key string) Edit { return stand("edit.hold", key, job.Held, anyStanding) }

// LetGo takes an input that is held out of the hand again: it is stated.
func LetGo(key string) Edit {
	return stand("edit.let-go", key, job.Stated, func(s job.Standing) bool { return s == job.Held })
}

// Confirm states an input as it stands there, assumed or not known so far.
func Confirm(key string) Edit { return stand("edit.confirm", key, job.Stated, job.Standing.Open) }

// Assume says that an input stands in by usual practice.
func Assume(key string) Edit { return stand("edit.assume", key, job.Assumed, anyStanding) }

// Unknown says that an input is not known; what stands there serves to draw with.
func Unknown(key string) Edit { return stand("edit.unknown", key, job.NotKnown, anyStanding) }

// States is an edit that says what inputs are: not known or assumed so far, they are stated.
// What is held stays held, as it is now.
func States(e Edit, keys ...string) Edit {
	return after(e, func(_, j *job.Job) {
		for _, key := range keys {
			if j.StandingOf(key).Open() {
				j.SetStanding(key, job.Stated)
			}
		}
	})
}

// Typed is an edit by which a person has typed inputs: they are held.
func Typed(e Edit, keys ...string) Edit {
	return after(e, func(_, j *job.Job) {
		for _, key := range keys {
			j.SetStanding(key, job.Held)
		}
	})
}

// LettingGo is an edit that moves what is held and lets go of it.
func LettingGo(e Edit, keys ...string) Edit {
	return after(e, func(_, j *job.Job) {
		for _, key := range keys {
			j.SetStanding(key, job.Stated)
		}
	})
}

// statesMoved is an edit that states whatever it gives another value.
func statesMoved(e Edit) Edit {
	return after(e, func(before, j *job.Job) {
		for _, s := range [...]job.Standing{job.NotKnown, job.Assumed} {
			for _, key := range before.Moved(j, s) {
				j.SetStanding(key, job.Stated)
			}
		}
	})
}

// assumesAdded is an edit that says of whatever it adds to lists that its usual values are assumed.
func assumesAdded(e Edit, lists ...job.List) Edit {
	return after(e, func(before, j *job.Job) {
		for _, l := range lists {
			for i := l.Count(before); i < l.Count(j); i++ {
				for _, key := range l.Inputs(j, i) {
					j.SetStanding(key, job.Assumed)
				}
			}
		}
	})
}

// ConfirmUnder states all that is assumed or not known in a part of the job, by its path.
func ConfirmUnder(key string) Edit {
	return ofPlace("edit.confirm", key, func(j *job.Job) {
		for _, k := range j.OpenUnder(key) {
			j.SetStanding(k, job.Stated)
		}
	})
}

// after is an edit that ends with something more, which also gets the job of before it; so does the same
// edit with another number, or part of the way.
func after(e Edit, more func(before, j *job.Job)) Edit {
	apply := e.apply
	e.apply = func(j *job.Job) {
		before := j.Clone()
		apply(j)
		more(&before, j)
	}
	if f := e.figure; f != nil {
		other := *f
		other.With = func(v float64) Edit { return after(f.With(v), more) }
		e.figure = &other
	}
	if far := e.partWay; far != nil {
		e.partWay = func(j job.Job) (func(float64) Edit, bool) {
			to, ok := far(j)
			return func(share float64) Edit { return after(to(share), more) }, ok
		}
	}
	return e
}
