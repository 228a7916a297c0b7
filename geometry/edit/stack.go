package edit

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// What is kept in mind where a stack is put. Common practice, no source.
const (
	stackStepMM    = 25  // between the places that are looked at along a wall
	stackCornerMM  = 600 // a corner is as good as a place by a wall so much nearer to the drain
	doorPassageMM  = 700 // kept free before a doorway
	windowBeforeMM = 300 // kept free before a window
)

// stackIn is what a stack would stand in; of several the graver counts first.
type stackIn int

// What it may stand in, the least trouble first.
const (
	closeToShower stackIn = 1 << iota // nearer to it than a casing round the stack needs
	beforeWindow
	inScreen
	inFixture
	inDoorway
	inDrain
	inShower
)

// addStack puts a stack up where a fitter would look for it.
func addStack(l job.List) Edit {
	return Of(message.Of(l.AddLabel()), func(j *job.Job) {
		if before := l.Count(j); !l.Full(j) {
			l.Add(j)
			if at, ok := stackPlace(*j, before); ok {
				j.Room.Stacks[before].At = at
			}
		}
	})
}

// addPipeEnd puts the end of a pipe where a stack would stand, unless it is the one that the
// waste leads to.
func addPipeEnd(l job.List) Edit {
	return Of(message.Of(l.AddLabel()), func(j *job.Job) {
		before := l.Count(j)
		if l.Add(j); l.Count(j) == before || j.Waste.Exit.Kind == job.ExitPipe {
			return
		}
		with := j.Clone()
		with.Room.Stacks = append(with.Room.Stacks, job.UsualStack(j))
		if at, ok := stackPlace(with, len(j.Room.Stacks)); ok {
			j.Room.PipeEnds[before].At = at
		}
	})
}

// firstStack puts a stack up for the waste to go into: at a place that is stated, where a
// stack can stand there or outside the room.
func firstStack(j *job.Job, at plan.Point, stated bool) {
	s := job.UsualStack(j)
	usual := s.At
	s.At = at
	j.Room.Stacks = []job.Stack{s}
	l, ok := laidOut(*j)
	if stated && ok && (!l.Room.Contains(at, 0) || standsIn(j, &l, s) == 0) {
		return
	}
	if at, ok = stackPlace(*j, 0); !ok {
		at = usual
	}
	j.Room.Stacks[0].At = at
}

// stackPlace is where the stack of an index is put: where the waste can be laid to it if it
// is the one to go into, in as little as may be, in a corner or by a wall, near to the drain.
// False where the room has no place for it.
func stackPlace(j job.Job, index int) (at plan.Point, ok bool) {
	l, ok := laidOut(j)
	if !ok {
		return at, false
	}
	s := j.Room.Stacks[index]
	j.Room.Stacks = slices.Delete(slices.Clone(j.Room.Stacks), index, index+1)
	places := stackPlaces(&j, &l, s)
	if len(places) == 0 {
		return at, false
	}
	reached := reaching(j, s)
	for _, p := range places {
		if p.in == places[0].in && reached(p.at) {
			return p.at, true
		}
	}
	return places[0].at, true
}

// placeForStack is a place by a wall for a stack, what it would stand in there, and how far
// it is from the drain, less for a corner.
type placeForStack struct {
	at    plan.Point
	in    stackIn
	farMM float64
}

// stackPlaces are the places by the walls for a stack that does not stand there yet, the best
// first.
func stackPlaces(j *job.Job, l *layout.Layout, s job.Stack) (out []placeForStack) {
	off := s.OutsideMM/2 + job.StackClearMM
	for i := range l.Walls {
		w := &l.Walls[i]
		steps := math.Max(1, math.Ceil((w.LengthMM-2*off)/stackStepMM))
		for k := 0.0; k <= steps && w.LengthMM >= 2*off; k++ {
			s.At = whole(w.At(off + (w.LengthMM-2*off)*k/steps).Sub(w.Outward.Mul(off)))
			by, free := wallsBy(l, s)
			if !free || slices.ContainsFunc(j.Room.Stacks, s.Overlaps) {
				continue
			}
			far := s.At.Sub(l.Outlet).Len()
			if by > 1 {
				far -= stackCornerMM
			}
			out = append(out, placeForStack{s.At, standsIn(j, l, s), far})
		}
	}
	slices.SortStableFunc(out, func(a, b placeForStack) int {
		return cmp.Or(cmp.Compare(a.in, b.in), cmp.Compare(a.farMM, b.farMM))
	})
	return out
}

// wallsBy is how many walls a stack stands by; free is false where it is too near to one or
// not in the room.
func wallsBy(l *layout.Layout, s job.Stack) (by int, free bool) {
	const roundedMM = 1
	off := s.OutsideMM/2 + job.StackClearMM
	for i := range l.Walls {
		w := &l.Walls[i]
		if plan.DistanceToSegment(s.At, w.A, w.B) < off-roundedMM {
			return by, false
		}
		along, away := s.At.Sub(w.A).Dot(w.Along), -s.At.Sub(w.A).Dot(w.Outward)
		if along > 0 && along < w.LengthMM && away > 0 && away < off+stackStepMM {
			by++
		}
	}
	return by, l.Room.Contains(s.At, 0)
}

// standsIn is what a stack would stand in.
func standsIn(j *job.Job, l *layout.Layout, s job.Stack) (in stackIn) {
	half := s.OutsideMM / 2
	within := func(r plan.Region, clearMM float64) bool {
		return r.Contains(s.At, 0) || r.EdgeMM(s.At) < clearMM
	}
	note := func(is bool, what stackIn) {
		if is {
			in |= what
		}
	}
	note(within(l.Shower, half) || j.Former.Fall != job.FallRoom && within(l.FallArea, half), inShower)
	note(within(l.Shower, half+job.StackClearMM-plan.HairMM) || within(l.Kerb, half), closeToShower)
	note(within(l.Drain, half+job.StackClearMM) || within(l.Trap, half+job.StackClearMM), inDrain)
	for i := range l.Doors {
		d := &l.Doors[i]
		note(within(doorPassage(d), half) || within(d.Sweep, half), inDoorway)
	}
	for _, ring := range l.Fixtures {
		note(within(plan.FromRing(ring), half), inFixture)
	}
	for i := range l.Screens {
		note(within(l.Screens[i].Glass, half) || within(l.Screens[i].Sweep, half), inScreen)
	}
	for _, o := range j.Room.Windows {
		w := &l.Walls[o.Wall]
		before := plan.Strip(w.At(o.OffsetMM), w.At(o.OffsetMM+o.WidthMM), w.Outward.Mul(-windowBeforeMM))
		note(within(before, half), beforeWindow)
	}
	return in
}

// reaching tells of places whether the waste can be laid to a stack there: from any way that
// the outlet may look, or from the one that it does where the run's turns are stated.
func reaching(j job.Job, s job.Stack) func(plan.Point) bool {
	var jobs []job.Job
	var layouts []layout.Layout
	for _, turnDeg := range outletTurns(&j) {
		k := j.Clone()
		k.Drain.OutletTurnDeg = turnDeg
		k.Room.Stacks = []job.Stack{s}
		k.Waste.Exit.Kind, k.Waste.Exit.Stack = job.ExitStack, 0
		if l, ok := laidOut(k); ok {
			jobs, layouts = append(jobs, k), append(layouts, l)
		}
	}
	// The last bend stands clear of the stack and its branch, sockets and all.
	leastMM := s.OutsideMM/2 + j.Waste.Bend90FaceMM + j.Waste.OutsideDiameterMM
	return func(at plan.Point) bool {
		for i := range jobs {
			jobs[i].Room.Stacks[0].At, layouts[i].Stacks[0].At = at, at
			run := waste.Lay(jobs[i], layouts[i])
			if n := len(run.Corners); troubles(&run, &layouts[i]) == 0 && (n < 3 || run.Corners[n-2].Sub(at).Len() >= leastMM) {
				return true
			}
		}
		return false
	}
}
