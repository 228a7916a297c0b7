package edit

import (
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// AddItem puts a usual thing at the end of a list; nothing when it is full. The usual joist
// to be trimmed is the one that the trap stands on; a doorway needs a wall with room for it; a
// stack comes where a fitter would look for it; a way outside joins what it usually does in the
// job's country. What is usual of a thing that is found in the
// house is assumed.
func AddItem(l job.List) Edit {
	e := addItem(l)
	if l.Found() {
		e = assumesAdded(e, l)
	}
	return withWorkedOut(l, e.About(l.Key))
}

func addItem(l job.List) Edit {
	switch l.Key {
	case job.BeyondKey:
		return addWayOutside(l)
	case job.TrimsKey:
		return Of(message.Of(l.AddLabel()), func(j *job.Job) {
			before := l.Count(j)
			l.Add(j)
			with := *j
			with.Floor.Joists.Trims = j.Floor.Joists.Trims[:before:before]
			trims, ok := trimsRound(&with, rule.Subject{Of: rule.TrapInJoist}, false)
			if with.Floor.Joists.Trims = trims; ok && len(trims) == l.Count(j) && len(with.Validate()) == 0 {
				j.Floor.Joists.Trims = trims
			}
		})
	case job.StacksKey:
		return addStack(l)
	case job.PipeEndsKey:
		return addPipeEnd(l)
	case job.DoorwaysKey:
		return Of(message.Of(l.AddLabel()), func(j *job.Job) {
			if _, free := job.FreeDoorway(j); free {
				l.Add(j)
			}
		})
	}
	return Of(message.Of(l.AddLabel()), l.Add)
}

// RemoveItem takes a thing of a list away; nothing when there is no such thing.
func RemoveItem(l job.List, i int) Edit {
	return withWorkedOut(l, Of(message.Of(l.RemoveLabel()), func(j *job.Job) { l.Remove(j, i) }).About(l.Key))
}

// ItemNumber changes a number of a thing; nil takes one away that may be absent. A waste that
// leads to a pipe end goes with it. The length of a wall moves the next one.
func ItemNumber(l job.List, i int, e job.Entry, value *float64) Edit {
	if e.Number.Follows() && value != nil {
		return Side{Wall: i}.Set(*value)
	}
	made := itemEdit(l, i, e, func(j *job.Job) {
		set := func() { e.Number.Set(j, i, value) }
		if l.Key == job.PipeEndsKey {
			keepingLed(j, i, set)
			return
		}
		set()
	})
	if value == nil {
		return made
	}
	of := func(j job.Job) (float64, bool) {
		if i < 0 || i >= l.Count(&j) {
			return 0, false
		}
		at := e.Number.At(&j, i)
		if at == nil {
			return 0, false
		}
		return *at, true
	}
	return withWorkedOut(l, made.stated(Figure{l.Path(i, e), *value, e.Number.Kind, of, func(v float64) Edit { return ItemNumber(l, i, e, &v) }}))
}

// ItemChoice changes which of a few values a thing has. What a wall is made of brings usual studs, a kind of
// fitting usual sizes.
func ItemChoice(l job.List, i int, e job.Entry, value string) Edit {
	switch l.Key {
	case job.WallsKey:
		return Wall(i, job.WallKind(value))
	case job.FittingsKey:
		return itemEdit(l, i, e, func(j *job.Job) {
			j.Waste.Fittings[i] = j.AsFitting(j.Waste.Fittings[i], job.FittingKind(value))
		})
	}
	return itemEdit(l, i, e, func(j *job.Job) { e.Choice.Set(j, i, value) })
}

// ItemFlag changes whether something is so of a thing.
func ItemFlag(l job.List, i int, e job.Entry, on bool) Edit {
	return itemEdit(l, i, e, func(j *job.Job) { *e.Flag(j, i) = on })
}

// ItemText gives a thing a name; what may not stand in one is left out.
func ItemText(l job.List, i int, e job.Entry, text string) Edit {
	return itemEdit(l, i, e, func(j *job.Job) { *e.Text.At(j, i) = strings.TrimSpace(job.Visible(text, false)) })
}

// ItemWall puts a thing at another wall.
func ItemWall(l job.List, i int, e job.Entry, wall int) Edit {
	return itemEdit(l, i, e, func(j *job.Job) { *e.Wall(j, i) = wall })
}

// itemEdit changes an entry of a thing; nothing when there is no such thing.
func itemEdit(l job.List, i int, e job.Entry, change func(*job.Job)) Edit {
	return States(Of(message.Of(l.Label(e)), func(j *job.Job) {
		if i >= 0 && i < l.Count(j) {
			change(j)
		}
	}), l.Path(i, e)).About(l.Path(i, e)).called(func(j *job.Job) message.Message { return l.Message(j, i, e) })
}
