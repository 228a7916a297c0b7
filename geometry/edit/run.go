package edit

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Run is a way for the waste: all that a search may choose of it.
type Run struct {
	OutletTurnDeg, TrapOffsetMM float64
	Exit                        job.Exit
	Gradient                    float64
	Waypoints                   []plan.Point
	Fittings                    []job.Fitting
}

// RunOf is the way the waste of a job takes.
func RunOf(j job.Job) Run {
	j = j.Clone()
	return Run{j.Drain.OutletTurnDeg, j.Drain.TrapOffsetMM, j.Waste.Exit, j.Waste.Gradient, j.Waste.Waypoints, j.Waste.Fittings}
}

// UseRun lays the waste another way. Levels measured as built stay with what
// they were measured on: a trap that moves or turns loses its outlet's, an
// exit that moves its own.
func UseRun(r Run) Edit {
	r.Waypoints, r.Fittings = slices.Clone(r.Waypoints), slices.Clone(r.Fittings)
	return Of(message.Of("edit.run"), r.use)
}

// use lays the waste of a job that way.
func (r Run) use(j *job.Job) {
	if j.Drain.OutletTurnDeg != r.OutletTurnDeg || j.Drain.TrapOffsetMM != r.TrapOffsetMM {
		j.AsBuilt.OutletInvertMM = nil
	}
	if !SamePlace(j.Waste.Exit, r.Exit) {
		j.AsBuilt.ExitInvertMM = nil
	}
	// What is known of the way outside holds for its wall.
	if j.Waste.Exit.Kind == job.ExitWall && r.Exit.Kind == job.ExitWall && j.Waste.Exit.Wall != r.Exit.Wall {
		j.Waste.Beyond = nil
	}
	j.Drain.OutletTurnDeg, j.Drain.TrapOffsetMM = r.OutletTurnDeg, r.TrapOffsetMM
	j.Waste.Exit, j.Waste.Gradient = r.Exit, r.Gradient
	j.Waste.Waypoints, j.Waste.Fittings = slices.Clone(r.Waypoints), slices.Clone(r.Fittings)
}

// SamePlace tells whether two exits lie at one place, whatever their levels.
func SamePlace(a, b job.Exit) bool {
	if a.Kind != b.Kind {
		return false
	}
	switch a.Kind {
	case job.ExitWall:
		return a.Wall == b.Wall && a.OffsetMM == b.OffsetMM
	case job.ExitStack:
		return a.Stack == b.Stack
	}
	return a.At == b.At
}

// LargerPipe changes the pipe to the next larger one, and the trap's outlet to one that it
// goes onto; the job stays as it is where there is none.
func LargerPipe() Edit {
	return Of(message.Of("edit.pipe"), func(j *job.Job) {
		if larger, ok := j.LargerPipe(); ok {
			j.Waste.Pipe = larger
			if j.Parts.Drain != nil {
				j.UseOutlet(*j.Parts.Drain)
			} else {
				j.Drain.OutletNominalMM, j.Drain.OutletJointOutsideMM = larger.NominalMM, larger.SocketOutsideMM
			}
		}
	})
}

// Gradient changes the fall the pipe is laid to.
func Gradient(slope float64) Edit {
	return States(Of(message.Of("edit.pipe-fall"), func(j *job.Job) { j.Waste.Gradient = slope }), "waste.gradient")
}

// VentAtTrap has the run's vent join it at the trap: a usual one where it has none.
func VentAtTrap() Edit {
	return Of(message.Of("edit.vent"), func(j *job.Job) {
		vent := job.UsualVent()
		if j.Waste.Vent != nil {
			vent.NominalMM = j.Waste.Vent.NominalMM
		}
		j.Waste.Vent = &vent
	})
}

// ShiftTrap moves the trap along its drain.
func ShiftTrap(byMM float64) Edit {
	return Of(message.Of("edit.trap-place"), func(j *job.Job) { j.Drain.TrapOffsetMM += byMM })
}

// MoveDrain moves a drain along its side, and its trap with it. A level measured at its outlet is lost with its place.
func MoveDrain(byMM float64) Edit {
	return Of(message.Of("edit.drain-place"), func(j *job.Job) {
		if byMM != 0 {
			j.Drain.OffsetMM, j.AsBuilt.OutletInvertMM = j.Drain.OffsetMM+byMM, nil
		}
	}).About("drain.offsetMM")
}

// ExitLevel states what is known of the exit's level.
func ExitLevel(l job.ExitLevel) Edit {
	return States(Of(message.Of("edit.exit-level"), func(j *job.Job) { j.Waste.Exit.Level = l }), exitLevelKey)
}

// ExitLevelKind changes what is known of the exit's level. A level begins where
// one was stated before, else at the one worked out so far.
func ExitLevelKind(k job.ExitLevelKind, workedOutMM float64) Edit {
	return States(Of(message.Of("edit.exit-level"), func(j *job.Job) {
		mm, stated := j.Waste.Exit.Level.InvertMM()
		if !stated {
			mm = math.Round(workedOutMM)
		}
		switch k {
		case job.ExitNotBelow:
			j.Waste.Exit.Level = job.NotBelow(mm)
		case job.ExitExactly:
			j.Waste.Exit.Level = job.Exactly(mm)
		default:
			j.Waste.Exit.Level = job.ExitLevel{}
		}
	}), exitLevelKey)
}

// insideWallMM is how far inside its wall an exit begins that no longer goes
// through it.
const insideWallMM = 150

// ExitKind changes where the waste leaves. What went through a wall goes on
// from a place a little inside it, what went into a stack from its place. One that is to
// go into a stack goes into the nearest; if there is none, one comes to stand at the place
// where the waste ended, if it can stand there, else where a fitter would look for it; and so
// does a pump. Where nobody has said where it ends, and what is usual of a stack or a pump that is put
// up for it, is assumed.
func ExitKind(k job.ExitKind) Edit {
	return after(assumesAdded(exitKind(k), foundLists()...), func(before, j *job.Job) {
		if e := j.Waste.Exit; e.Kind != before.Waste.Exit.Kind && e.At != before.Waste.Exit.At {
			j.SetStanding(job.ExitAtKey, job.Assumed)
		}
	})
}

func exitKind(k job.ExitKind) Edit {
	return States(Of(message.Of("edit.exit-kind"), func(j *job.Job) {
		e := &j.Waste.Exit
		if e.Kind == k {
			return
		}
		at := e.At
		switch e.Kind {
		case job.ExitWall:
			l, ok := laidOut(*j)
			if !ok {
				return
			}
			w := l.Walls[e.Wall]
			at = whole(w.At(e.OffsetMM).Sub(w.Outward.Mul(insideWallMM)))
		case job.ExitStack:
			if e.Stack >= 0 && e.Stack < len(j.Room.Stacks) {
				at = j.Room.Stacks[e.Stack].At
			}
		}
		switch k {
		case job.ExitFloor, job.ExitPipe, job.ExitPump:
			e.At = at
			if k == job.ExitPump && j.Waste.Pump == nil {
				pump := job.UsualPump()
				j.Waste.Pump = &pump
			}
		case job.ExitStack:
			if len(j.Room.Stacks) == 0 {
				firstStack(j, at, e.Kind != job.ExitWall)
			}
			e.Stack = nearestStack(j, at)
		}
		if e.Kind = k; k == job.ExitPump {
			placePump(j)
			return
		}
		turnOutlet(j)
	}), exitKindKey).About("waste.exit", "waste.pump", job.StacksKey)
}

// turnOutlet has the trap's outlet look the way from which the waste can be laid to a new
// exit, where it is laid by itself: with as little trouble, and then as few bends, as there
// may be; as it does where no other way is better. Through a wall it cannot be laid.
func turnOutlet(j *job.Job) {
	if len(j.Waste.Waypoints) > 0 {
		return
	}
	was, best := j.Drain.OutletTurnDeg, j.Drain.OutletTurnDeg
	leastTrouble, leastBends := math.MaxInt, math.MaxInt
	for _, turnDeg := range outletTurns(j) {
		j.Drain.OutletTurnDeg = turnDeg
		l, ok := laidOut(*j)
		if !ok {
			break
		}
		run := waste.Lay(*j, l)
		n := troubles(&run, &l)
		if n < leastTrouble || n == leastTrouble && run.Bends < leastBends {
			best, leastTrouble, leastBends = turnDeg, n, run.Bends
		}
	}
	if j.Drain.OutletTurnDeg = best; best != was {
		j.AsBuilt.OutletInvertMM = nil
	}
}

// outletTurns are the ways that the trap's outlet may look, in degrees as job.Drain has them: as it
// does, and a quarter on each time; only as it does where the run's turns are stated.
func outletTurns(j *job.Job) []float64 {
	out := []float64{math.Mod(j.Drain.OutletTurnDeg, 360)}
	for quarter := 1; quarter < 4 && len(j.Waste.Waypoints) == 0; quarter++ {
		out = append(out, math.Mod(j.Drain.OutletTurnDeg+90*float64(quarter), 360))
	}
	return out
}

// troubles are how many troubles a run has, with every leg of it that is not in the room
// though it should be.
func troubles(run *waste.Run, l *layout.Layout) int {
	n := len(run.Trouble)
	for i := 1; i < len(run.Corners); i++ {
		a, b := run.Corners[i-1], run.Corners[i]
		if i == len(run.Corners)-1 && !l.Room.Contains(b, plan.HairMM) {
			continue // it leads out
		}
		if !inOnePiece(l.Room, a, b) {
			n++
		}
	}
	return n
}

// inOnePiece tells whether all of the straight between two points lies in a region.
func inOnePiece(r plan.Region, a, b plan.Point) bool {
	long := b.Sub(a).Len()
	if long < plan.HairMM {
		return true
	}
	return slices.ContainsFunc(r.Clip(a, b.Sub(a).Mul(1/long)), func(iv plan.Interval) bool {
		return iv.From <= plan.HairMM && iv.To >= long-plan.HairMM
	})
}

// nearestStack is the index of the stack that is nearest to a place.
func nearestStack(j *job.Job, at plan.Point) int {
	best, which := math.Inf(1), 0
	for i, s := range j.Room.Stacks {
		if d := s.At.Sub(at).Len(); d < best {
			best, which = d, i
		}
	}
	return which
}

// ExitStack has the waste go into a stack, by its index; nothing when there is no such
// one.
func ExitStack(i int) Edit {
	return States(Of(message.Of("edit.exit-stack"), func(j *job.Job) {
		if i >= 0 && i < len(j.Room.Stacks) {
			j.Waste.Exit.Kind, j.Waste.Exit.Stack = job.ExitStack, i
			turnOutlet(j)
		}
	}), exitKindKey, "waste.exit.stack").About("waste.exit")
}

// LeadTo has the waste end at a pipe end that was found, by its index, at its level where
// that is known; nothing when there is no such one.
func LeadTo(i int) Edit {
	return States(Of(message.Of("edit.lead-to"), func(j *job.Job) {
		if i < 0 || i >= len(j.Room.PipeEnds) {
			return
		}
		exit := j.Room.PipeEnds[i].Exit()
		if !SamePlace(j.Waste.Exit, exit) {
			j.AsBuilt.ExitInvertMM = nil
		}
		j.Waste.Exit = exit
		turnOutlet(j)
	}), exitKindKey, job.ExitAtKey, exitLevelKey).About("waste.exit")
}

// keepingStraight makes a change of a job whose trap may move or turn its outlet a little:
// a waste that goes straight out through a wall still does, its exit going along the wall.
func keepingStraight(j *job.Job, change func()) {
	way, straight := straightOut(*j)
	change()
	e := &j.Waste.Exit
	if _, still := straightOut(*j); !straight || still {
		return
	}
	l, ok := laidOut(*j)
	if !ok {
		return
	}
	w := l.Walls[e.Wall]
	if _, at, meet := plan.MeetLines(l.Outlet, way, w.A, w.Along); meet && at >= 0 && at <= w.LengthMM {
		e.OffsetMM = at
	}
}

// straightOut tells whether the waste goes out through a wall without a turn, and which
// way.
func straightOut(j job.Job) (way plan.Point, ok bool) {
	if j.Waste.Exit.Kind != job.ExitWall || len(j.Waste.Waypoints) > 0 {
		return way, false
	}
	l, ok := laidOut(j)
	if !ok {
		return way, false
	}
	corners := waste.Lay(j, l).Corners
	if len(corners) != 2 {
		return way, false
	}
	return corners[1].Sub(corners[0]), true
}

// laidOut is a job in plan; ok is false where its shapes cannot be worked out,
// which its evaluation says, or a wall has no length, which its check says. An edit then leaves the job as it is.
func laidOut(j job.Job) (l layout.Layout, ok bool) {
	for i := range j.Room.Outline {
		if !(j.Room.WallLengthMM(i) >= plan.HairMM) {
			return l, false
		}
	}
	var sh plan.Shaper
	l = layout.Of(j, &sh)
	return l, sh.Err() == nil
}

// Turns are the turns of a job's run as laid: those stated, also where two lie
// on one another, or those the run found by itself.
func Turns(j job.Job, run waste.Run) []plan.Point {
	if len(j.Waste.Waypoints) > 0 || len(run.Corners) < 3 {
		return slices.Clone(j.Waste.Waypoints)
	}
	return slices.Clone(run.Corners[1 : len(run.Corners)-1])
}

// AddTurn makes one more turn at a distance along the run.
func AddTurn(atMM float64) Edit {
	return Of(message.Of("edit.add-turn"), func(j *job.Job) {
		l, ok := laidOut(*j)
		run := waste.Lay(*j, l)
		if !ok || len(run.Corners) < 2 {
			return
		}
		turns := Turns(*j, run)
		p := run.PointAt(atMM)
		p = rounding(Coarse.StepMM(j.Units)).at(p)
		// The leg the place lies on decides between which turns it goes.
		j.Waste.Waypoints = slices.Insert(turns, nearestLeg(withEnds(turns, run), p), p)
	})
}

// nearestLeg is the leg nearest to a place, from the corner of that index to the next.
func nearestLeg(corners []plan.Point, at plan.Point) (leg int) {
	best := math.Inf(1)
	for i := 1; i < len(corners); i++ {
		if d := plan.DistanceToSegment(at, corners[i-1], corners[i]); d < best {
			best, leg = d, i-1
		}
	}
	return leg
}

// withEnds are the turns of a run with its outlet before and its exit after.
func withEnds(turns []plan.Point, run waste.Run) []plan.Point {
	return append(append([]plan.Point{run.Corners[0]}, turns...), run.Corners[len(run.Corners)-1])
}

// turnWithinMM is how near to a turn a place counts as it.
const turnWithinMM = 60

// TurnNear is the turn at a distance along the run, counted from zero.
func TurnNear(j job.Job, run waste.Run, atMM float64) (turn int, ok bool) {
	p := run.PointAt(atMM)
	best := float64(turnWithinMM)
	for i, at := range Turns(j, run) {
		if d := at.Sub(p).Len(); d < best {
			best, turn, ok = d, i, true
		}
	}
	return turn, ok
}

// RemoveTurn takes one of the run's turns away; nothing when there is no such
// turn.
func RemoveTurn(turn int) Edit {
	return Of(message.Of("edit.remove-turn"), func(j *job.Job) {
		l, ok := laidOut(*j)
		if turns := Turns(*j, waste.Lay(*j, l)); ok && turn >= 0 && turn < len(turns) {
			j.Waste.Waypoints = slices.Delete(turns, turn, turn+1)
		}
	})
}

// SimplestRun lets the run find its own turns.
func SimplestRun() Edit {
	return Of(message.Of("edit.simplest-run"), func(j *job.Job) { j.Waste.Waypoints = nil })
}

// AddFitting puts an in-line fitting on the run.
func AddFitting(f job.Fitting) Edit {
	return Of(message.Of("edit.add-fitting"), func(j *job.Job) { j.Waste.Fittings = append(j.Waste.Fittings, f) })
}

// fittingAt is the index of the fitting that begins at a distance along the run as it
// is laid; -1 when there is none.
func fittingAt(j job.Job, atMM float64) int {
	l, ok := laidOut(j)
	if !ok {
		return -1
	}
	for _, p := range waste.Lay(j, l).Pieces {
		if p.InLine() && math.Abs(p.FromMM-atMM) < 1 {
			return p.Fitting
		}
	}
	return -1
}

// TurnFitting turns the fitting that begins at a distance along the run the
// other way round.
func TurnFitting(atMM float64) Edit {
	return Of(message.Of("edit.turn-fitting"), func(j *job.Job) {
		if i := fittingAt(*j, atMM); i >= 0 {
			j.Waste.Fittings[i].Reversed = !j.Waste.Fittings[i].Reversed
		}
	})
}

// RemoveFitting takes away the fitting that begins at a distance along the run.
func RemoveFitting(atMM float64) Edit {
	return Of(message.Of("edit.remove-fitting"), func(j *job.Job) {
		if i := fittingAt(*j, atMM); i >= 0 {
			j.Waste.Fittings = slices.Delete(j.Waste.Fittings, i, i+1)
			j.WithoutItem(job.FittingsKey, i)
		}
	})
}
