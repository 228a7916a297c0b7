package edit

import (
	"cmp"
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// exitCornerMM is how far an exit keeps from the corners of its wall where nothing else says where
// it is. Common practice, no source.
const exitCornerMM = 60

// ThroughWall has the waste leave through a wall, by its index: straight out where the trap's outlet
// can look that way, else beside the trap, with as little trouble and as few bends as there may be.
// Nothing where there is no such wall.
func ThroughWall(wall int) Edit {
	return Of(message.Of("edit.exit-wall"), func(j *job.Job) {
		if wall < 0 || wall >= len(j.Room.Outline) {
			return
		}
		j.Waste.Waypoints, j.AsBuilt.ExitInvertMM = nil, nil
		if e := j.Waste.Exit; e.Kind != job.ExitWall || e.Wall != wall {
			j.Waste.Beyond, j.Waste.Exit = nil, job.Exit{Kind: job.ExitWall, Wall: wall}
		}
		throughUsually(j)
	})
}

// exitWall has the waste leave through another wall, where it is usual there: how far it was along the wall before says nothing of
// this one, and is not kept though it is held; nor does the level of a hole in that wall, unless it is held. How low it may come and
// what is known of the way outside stay.
func exitWall(in job.Input, wall int) Edit {
	return after(States(Of(in.Message(), func(j *job.Job) {
		if wall == j.Waste.Exit.Wall {
			return
		}
		j.Waste.Exit.Wall = wall
		if wall < 0 || wall >= len(j.Room.Outline) {
			return
		}
		j.Waste.Waypoints, j.AsBuilt.ExitInvertMM = nil, nil
		if j.Waste.Exit.Level.Kind() == job.ExitExactly && j.StandingOf(exitLevelKey) != job.Held {
			j.Waste.Exit.Level = job.ExitLevel{}
		}
		throughUsually(j)
	}), exitWallKey), func(before, j *job.Job) {
		if before.Waste.Exit.Wall != wall && j.StandingOf(exitOffsetKey) == job.Held {
			j.SetStanding(exitOffsetKey, job.Stated)
		}
	}).About(exitWallKey)
}

// throughUsually puts the exit of a job where it is usual in its wall, with the outlet turned the best way for that, unless it is
// held; nothing where the job cannot be laid out.
func throughUsually(j *job.Job) {
	was := j.Drain.OutletTurnDeg
	turns := outletTurns(j)
	if j.StandingOf(job.OutletKey) == job.Held {
		turns = []float64{was}
	}
	var best outThrough
	for _, turnDeg := range turns {
		if o := outTurned(*j, turnDeg); o.ok && (!best.ok || o.before(best)) {
			best = o
		}
	}
	if !best.ok {
		return
	}
	j.Waste.Exit.OffsetMM = best.offsetMM
	if j.Drain.OutletTurnDeg = best.turnDeg; best.turnDeg != was {
		j.AsBuilt.OutletInvertMM = nil
	}
}

// The paths of the wall that the waste leaves through, and of how far along it.
const (
	exitWallKey   = "waste.exit.wall"
	exitOffsetKey = "waste.exit.offsetMM"
)

// outThrough is a way out through a wall, with the trap's outlet turned so.
type outThrough struct {
	ok                bool
	turnDeg, offsetMM float64
	troubles, bends   int
	longMM            float64
}

// before tells whether a way out is better than another.
func (o outThrough) before(p outThrough) bool {
	return cmp.Or(cmp.Compare(o.troubles, p.troubles), cmp.Compare(o.bends, p.bends), cmp.Compare(o.longMM, p.longMM)) < 0
}

// outTurned is the way out through a job's exit wall with the outlet turned so: where the outlet
// looks at the wall, or beside the trap.
func outTurned(j job.Job, turnDeg float64) outThrough {
	j.Drain.OutletTurnDeg = turnDeg
	l, ok := laidOut(j)
	if !ok {
		return outThrough{}
	}
	w := l.Walls[j.Waste.Exit.Wall]
	least := math.Min(exitCornerMM, w.LengthMM/2)
	offset := math.Max(least, math.Min(math.Round(l.TrapCentre.Sub(w.A).Dot(w.Along)), w.LengthMM-least))
	if way := l.OutletTo; way.Dot(w.Outward) > 0 {
		if _, at, meet := plan.MeetLines(l.Outlet, way, w.A, w.Along); meet && at >= 0 && at <= w.LengthMM {
			offset = at
		}
	}
	j.Waste.Exit.OffsetMM = offset
	run := waste.Lay(j, l)
	return outThrough{true, turnDeg, offset, troubles(&run, &l), run.Bends, run.LengthMM}
}
