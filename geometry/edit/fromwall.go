package edit

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// FromWall is the distance of something that stands by itself in the room from one of its
// walls, by the wall's index. The zero value is of nothing.
type FromWall struct {
	Of   Handle
	Wall int
}

// MM is the distance in a job; false where there is no such thing there.
func (f FromWall) MM(j job.Job) (mm float64, ok bool) {
	_, p, w, ok := f.in(&j)
	if !ok {
		return 0, false
	}
	return w.A.Sub(p).Dot(w.Outward), true
}

// Set moves the thing square to the wall until it is so far from it; nothing where there is no
// such thing.
func (f FromWall) Set(mm float64) Edit {
	e := statesMoved(Of(f.Of.Message(), func(j *job.Job) {
		if l, p, w, ok := f.in(j); ok {
			put(j, &l, f.Of, p.Add(w.Outward.Mul(w.A.Sub(p).Dot(w.Outward)-mm)))
		}
	}))
	keys := f.Of.keys()
	if len(keys) == 0 {
		return e
	}
	return e.stated(Figure{keys[0], mm, unit.Along, f.MM, f.Set}).About(keys...)
}

// in is where the thing and the wall are in a job.
func (f FromWall) in(j *job.Job) (l layout.Layout, at plan.Point, w layout.Wall, ok bool) {
	if l, ok = laidOut(*j); !ok || f.Wall < 0 || f.Wall >= len(l.Walls) {
		return l, at, w, false
	}
	at, ok = standsAt(j, &l, f.Of)
	return l, at, l.Walls[f.Wall], ok
}

// standsAt is where something stands that can be set out from walls; false for anything else.
func standsAt(j *job.Job, l *layout.Layout, h Handle) (at plan.Point, ok bool) {
	switch e := &j.Waste.Exit; h.Kind {
	case HandleStack:
		if h.Index >= 0 && h.Index < len(j.Room.Stacks) {
			return j.Room.Stacks[h.Index].At, true
		}
	case HandlePipeEnd:
		if h.Index >= 0 && h.Index < len(j.Room.PipeEnds) {
			return j.Room.PipeEnds[h.Index].At, true
		}
	case HandleExit:
		return e.At, e.Kind != job.ExitWall && e.Kind != job.ExitStack
	case HandleDrain:
		return l.DrainCentre, !j.Former.Fall.Linear()
	}
	return at, false
}

// put has something stand at a point, which standsAt then gives.
func put(j *job.Job, l *layout.Layout, h Handle, at plan.Point) {
	at = rounded(at)
	switch h.Kind {
	case HandleStack:
		j.Room.Stacks[h.Index].At = at
	case HandlePipeEnd:
		keepingLed(j, h.Index, func() { j.Room.PipeEnds[h.Index].At = at })
	case HandleExit:
		j.Waste.Exit.At = at
	case HandleDrain:
		by := at.Sub(l.DrainCentre)
		keepingStraight(j, func() {
			forward := l.DrainCentre.Sub(l.Corners[0]).Add(by).Dot(l.Into)
			j.Drain.OffsetMM, j.Drain.ForwardMM = j.Drain.OffsetMM+by.Dot(l.DrainAlong), &forward
		})
	}
}

// whole is a point in whole millimetres.
func whole(p plan.Point) plan.Point { return plan.Point{math.Round(p.X()), math.Round(p.Y())} }

// rounded is a point without what sums of lengths lose.
func rounded(p plan.Point) plan.Point {
	const perMM = 1e6
	return plan.Point{math.Round(p.X()*perMM) / perMM, math.Round(p.Y()*perMM) / perMM}
}

// keepingLed makes a change of the pipe end of an index: a waste that leads to it still does, at the level that is measured of it,
// as one pipe has one. A level of the waste that is held stays.
func keepingLed(j *job.Job, i int, change func()) {
	led, ok := j.Room.PipeEndAt(j.Waste.Exit)
	if !ok || led != i {
		change()
		return
	}
	before := j.Room.PipeEnds[i].Exit().Level
	change()
	end := j.Room.PipeEnds[i].Exit()
	j.Waste.Exit.At = end.At
	if _, known := end.Level.ExactlyMM(); known && !end.Level.Equal(before) && j.StandingOf(exitLevelKey) != job.Held {
		j.Waste.Exit.Level = end.Level
		j.SetStanding(exitLevelKey, job.Stated)
	}
}
