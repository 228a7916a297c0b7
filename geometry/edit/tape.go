package edit

import (
	"math"
	"reflect"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/survey"
	"underfall/geometry/unit"
)

// workOut has what is worked out from what was measured be what that gives, where an edit has changed it: levels read down
// from a laser, and the corners of a room that was taped. What is measured from an end of its wall stays so far from there; the shower follows its wall.
func workOut(before, j *job.Job) {
	if !reflect.DeepEqual(before.Laser, j.Laser) || !reflect.DeepEqual(before.SpotLevels, j.SpotLevels) {
		j.WorkOutLevels()
	}
	if !j.Room.Measured() || reflect.DeepEqual(before.Room.Tape, j.Room.Tape) {
		return
	}
	keepingStraight(j, func() {
		was := j.Clone()
		if j.Room.WorkOut(); len(was.Room.Outline) != len(j.Room.Outline) {
			return
		}
		fromEnd(&was, j)
		if w := j.Shower.Wall; w >= 0 && w < len(j.Room.Outline) {
			showerAlong(j, &was)
		}
	})
}

// fromEnd keeps what is in a wall that was measured from its end corner as far from there as it was.
func fromEnd(was, j *job.Job) {
	longer := func(wall int) float64 {
		if !j.Room.ZeroAtEnd(wall) {
			return 0
		}
		return j.Room.WallLengthMM(wall) - was.Room.WallLengthMM(wall)
	}
	along := func(wall int, offsetMM *float64) { *offsetMM = rounded(plan.Point{*offsetMM + longer(wall)}).X() }
	for i := range j.Room.Doorways {
		along(j.Room.Doorways[i].Wall, &j.Room.Doorways[i].OffsetMM)
	}
	for i := range j.Room.Windows {
		along(j.Room.Windows[i].Wall, &j.Room.Windows[i].OffsetMM)
	}
	for i := range j.Room.Fixtures {
		along(j.Room.Fixtures[i].Wall, &j.Room.Fixtures[i].OffsetMM)
	}
	if e := &j.Waste.Exit; e.Kind == job.ExitWall {
		along(e.Wall, &e.OffsetMM)
	}
}

// withWorkedOut is an edit of what was measured, about what is worked out from it as well.
func withWorkedOut(l job.List, e Edit) Edit {
	switch l.Key {
	case job.TapeLengthsKey, job.TapeAnglesKey:
		return e.About(append(e.about, job.OutlineKey)...)
	case job.SetUpsKey, job.ReadingsKey:
		return e.About(append(e.about, "laser", job.SpotLevelsKey)...)
	}
	return e
}

// ItemCorner has a thing be of another corner.
func ItemCorner(l job.List, i int, e job.Entry, corner int) Edit {
	return withWorkedOut(l, itemEdit(l, i, e, func(j *job.Job) { *e.Corner(j, i) = corner }))
}

// PutTapeAside leaves the corners of a room where they are, as stated, and forgets what was measured of it.
func PutTapeAside() Edit {
	return Of(message.Of("edit.tape-aside"), func(j *job.Job) { j.Room.Tape = job.Tape{} }).About(job.TapeKey)
}

// TakeTape has a room be measured with a tape: every wall as long as it is, the zero at its start corner, to be corrected;
// nothing where it is measured already.
func TakeTape() Edit {
	return Of(message.Of("edit.take-tape"), takeTape).About(job.TapeKey)
}

func takeTape(j *job.Job) {
	r := &j.Room
	if r.Measured() {
		return
	}
	r.Tape.Drawn = slices.Clone(r.Outline)
	for wall := range r.Outline {
		r.Tape.Lengths = append(r.Tape.Lengths, job.Taped{From: wall, To: (wall + 1) % len(r.Outline), LengthMM: exact(r.WallLengthMM(wall))})
	}
}

// Measuring is an edit of a room that is measured with a tape from then on, with what was read of some of its walls, by
// their indices: those stay so long whatever the edit does, all else is as it was drawn until it is measured too. Of a room
// that is measured already it is the edit alone.
func Measuring(readMM map[int]float64, e Edit) Edit {
	apply := e.apply
	e.apply = func(j *job.Job) {
		if r := &j.Room; !r.Measured() && len(readMM) > 0 {
			r.Tape.Drawn = slices.Clone(r.Outline)
			for wall := range r.Outline {
				if mm, read := readMM[wall]; read {
					setTaped(j, wall, mm)
				}
			}
		}
		apply(j)
	}
	if f := e.figure; f != nil {
		other := *f
		other.With = func(v float64) Edit { return Measuring(readMM, f.With(v)) }
		e.figure = &other
	}
	return e.About(append(slices.Clone(e.about), job.TapeKey, job.OutlineKey)...)
}

// NotAlong forgets what was measured of a wall.
func NotAlong(wall int) Edit {
	return Of(message.Of("edit.not-along"), func(j *job.Job) {
		if i, ok := j.Room.TapedAlong(wall); ok {
			j.Room.Tape.Lengths = without(j.Room.Tape.Lengths, i)
		}
	}).called(func(j *job.Job) message.Message {
		return message.Of("edit.not-along-wall", j.Room.Wall("wall", wall))
	}).About(job.TapeKey, job.OutlineKey)
}

// Across states what was measured across a room, from corner to corner; one that was not measured yet is so from then on.
func Across(from, to int, mm float64) Edit {
	of := func(j job.Job) (float64, bool) {
		i, ok := j.Room.TapedBetween(from, to)
		if !ok {
			return 0, false
		}
		return j.Room.Tape.Lengths[i].LengthMM, true
	}
	return Of(message.Of("edit.across"), func(j *job.Job) {
		if n := len(j.Room.Outline); from < 0 || to < 0 || from >= n || to >= n || from == to {
			return
		}
		takeTape(j)
		if i, ok := j.Room.TapedBetween(from, to); ok {
			j.Room.Tape.Lengths[i].LengthMM = mm
			return
		}
		j.Room.Tape.Lengths = append(j.Room.Tape.Lengths, job.Taped{From: from, To: to, LengthMM: mm})
	}).stated(Figure{job.TapeLengthsKey, mm, unit.Along, of, func(v float64) Edit { return Across(from, to, v) }}).About(job.TapeKey, job.OutlineKey)
}

// without is a list without one of it; nil of the last, as a job that never had one says it.
func without[T any](all []T, i int) []T {
	if len(all) == 1 {
		return nil
	}
	return slices.Delete(all, i, i+1)
}

// NotAcross forgets what was measured across a room between two corners.
func NotAcross(from, to int) Edit {
	return Of(message.Of("edit.not-across"), func(j *job.Job) {
		if i, ok := j.Room.TapedBetween(from, to); ok {
			j.Room.Tape.Lengths = without(j.Room.Tape.Lengths, i)
		}
	}).About(job.TapeKey, job.OutlineKey)
}

// BlunderCures are what can be done about the one measure that contradicts all others: to take what those give for it, to the
// nearest that is read, or to leave it out.
func BlunderCures(j job.Job, b survey.Blunder) []Edit {
	n := len(j.Room.Tape.Lengths)
	if b.Measure >= n {
		i := b.Measure - n
		a := &j.Room.Tape.Angles[i]
		deg := math.Round((a.Deg-b.By)*10) / 10
		to := message.Of("edit.tape-make", message.Arg{Name: "value", Value: unit.Value(deg, unit.Angle)})
		return []Edit{Of(to, func(j *job.Job) { j.Room.Tape.Angles[i].Deg = deg }).About(job.TapeAnglesKey, job.OutlineKey),
			Of(message.Of("edit.tape-leave-out"), func(j *job.Job) {
				j.Room.Tape.Angles = without(j.Room.Tape.Angles, i)
			}).About(job.TapeAnglesKey, job.OutlineKey)}
	}
	i := b.Measure
	mm := unit.AsRead(j.Room.Tape.Lengths[i].LengthMM-b.By, j.Units)
	return []Edit{Of(message.Of("edit.tape-make", message.Along("value", mm)), func(j *job.Job) { j.Room.Tape.Lengths[i].LengthMM = mm }).About(job.TapeLengthsKey, job.OutlineKey),
		Of(message.Of("edit.tape-leave-out"), func(j *job.Job) {
			j.Room.Tape.Lengths = without(j.Room.Tape.Lengths, i)
		}).About(job.TapeLengthsKey, job.OutlineKey)}
}

// DrawSquare makes the corners of a room that were drawn square be so, with its walls as near to what was measured as
// they can be, and forgets what was measured across the room.
func DrawSquare() Edit {
	return Of(message.Of("edit.draw-square"), func(j *job.Job) {
		if corners, ok := j.Room.Square(); ok {
			j.Room.Tape, j.Room.Outline = job.Tape{}, corners
		}
	}).About(job.TapeKey, job.OutlineKey)
}

// setTaped has a wall be measured so long: what was measured of it before is forgotten.
func setTaped(j *job.Job, wall int, mm float64) {
	r := &j.Room
	if i, ok := r.TapedAlong(wall); ok {
		r.Tape.Lengths[i].LengthMM = mm
		return
	}
	r.Tape.Lengths = append(r.Tape.Lengths, job.Taped{From: wall, To: (wall + 1) % len(r.Outline), LengthMM: mm})
}

// zeroAt has a wall that was measured have been so from one of its corners.
func zeroAt(j *job.Job, wall int, fromEnd bool) {
	i, ok := j.Room.TapedAlong(wall)
	if !ok {
		return
	}
	t := &j.Room.Tape.Lengths[i]
	if t.From, t.To = wall, (wall+1)%len(j.Room.Outline); fromEnd {
		t.From, t.To = t.To, t.From
	}
}

// tapedMM is how long a wall was measured; as it is where it was not.
func tapedMM(j *job.Job, wall int) (mm float64, ok bool) {
	if i, ok := j.Room.TapedAlong(wall); ok {
		return j.Room.Tape.Lengths[i].LengthMM, true
	}
	mm = j.Room.WallLengthMM(wall)
	return mm, mm > 0
}
