package edit

import (
	"fmt"
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// FloorKind changes what the structural floor is. A base can only be let in
// between joists: on another floor it stands on that, which nobody has decided should joists come back.
func FloorKind(k job.FloorKind) Edit {
	return States(Of(message.Of("edit.floor-kind"), func(j *job.Job) {
		j.Floor.Kind = k
		if k != job.FloorTimber && j.Base.Support == job.BetweenJoists {
			j.Base.Support = job.OnFloor
			if j.StandingOf(supportKey) != job.Held {
				j.SetStanding(supportKey, job.Assumed)
			}
		}
	}), "floor.kind").About("floor.kind")
}

// Support changes what the base stands on.
func Support(k job.SupportKind) Edit {
	return States(Of(message.Of("edit.support"), func(j *job.Job) {
		j.Base.Support = k
		if k == job.BetweenJoists && j.Base.NogginSpacingMM == 0 {
			j.Base.NogginSpacingMM = usualNogginsMM
		}
	}), supportKey).About(supportKey)
}

// Height changes what sets the height of the base. A height that is to be
// chosen begins at the one worked out so far, in whole millimetres upward;
// pass the chosen one again to keep it.
func Height(m job.HeightMode, workedOutMM float64) Edit {
	return States(Of(message.Of("edit.base-height"), func(j *job.Job) {
		if m == job.HeightChosen && j.Base.Height != job.HeightChosen {
			j.Base.HeightMM = math.Ceil(workedOutMM)
		}
		j.Base.Height = m
	}), heightModeKey)
}

// Sizes of the drain that go with the kinds of fall. Common practice, no
// source.
const (
	pointDrainMM       = 120
	usualNogginsMM     = 600
	linearDrainWideMM  = 70
	drainToCornerMM    = 50
	shortestLinearMM   = 100
	usualStudSpacingMM = 400
	usualFirstStudMM   = 200
	usualStudWidthMM   = 47
)

// Fall changes how the floor falls, and gives the drain a size that goes with
// it where the old one does not; a drain that was chosen is then chosen no more.
func Fall(k job.FallKind) Edit {
	return States(Of(message.Of("edit.fall"), func(j *job.Job) {
		if j.Former.Fall == k {
			return
		}
		wasLinear := j.Former.Fall.Linear()
		j.Former.Fall = k
		j.Drain.OffsetMM, j.Drain.TrapOffsetMM, j.Drain.ForwardMM = 0, 0, nil
		switch {
		case wasLinear && !k.Linear():
			j.Drain.WidthMM, j.Drain.SoldLengthsMM = pointDrainMM, nil
		case !wasLinear && k.Linear():
			j.Drain.WidthMM, j.Drain.LengthMM = linearDrainWideMM, 0
		}
		if k.Linear() {
			shortenDrain(j)
		}
		if d := j.Parts.Drain; d != nil && d.Linear != k.Linear() {
			j.Parts.Drain = nil
		}
	}), "former.fall").About("former.fall")
}

// Ends changes how the floor lies beyond the ends of a linear drain.
func Ends(k job.EndsKind) Edit {
	return States(Of(message.Of("edit.drain-ends"), func(j *job.Job) { j.Former.Ends = k }), "former.ends")
}

// shortenDrain keeps a linear drain within the side it stands at. One as long as its side
// is so by itself.
func shortenDrain(j *job.Job) {
	side := j.DrainSideMM()
	j.Drain.LengthMM = math.Min(j.Drain.LengthMM, math.Max(shortestLinearMM, side-2*drainToCornerMM))
}

// Edge changes how the open edges meet the room. A ramp of no stated run is as long as its
// region asks.
func Edge(k job.EdgeKind) Edit {
	return States(Of(message.Of("edit.open-edge"), func(j *job.Job) { j.Room.Edge = k }), "room.edge")
}

// WidenShower makes the shower wider or narrower where it stands, within its
// wall, and its drain no longer than its side.
func WidenShower(byMM float64) Edit {
	return Of(message.Of("edit.shower-width"), func(j *job.Job) {
		before := j.Shower
		j.Shower.WidthMM += byMM
		keepCorner(j, before)
		outline := j.Room.Outline
		wall := outline[(j.Shower.Wall+1)%len(outline)].Sub(outline[j.Shower.Wall]).Len()
		j.Shower.OffsetMM = math.Max(0, math.Min(j.Shower.OffsetMM, wall-j.Shower.WidthMM))
		if j.Former.Fall.Linear() {
			shortenDrain(j)
		}
	}).About("shower.widthMM")
}

// Wall changes what a wall is made of. One that becomes a stud wall gets usual
// studs.
func Wall(i int, k job.WallKind) Edit {
	return States(Of(message.Of("place.walls"), func(j *job.Job) {
		if i < 0 || i >= len(j.Room.Walls) {
			return
		}
		w := &j.Room.Walls[i]
		w.Kind = k
		if k == job.WallStud && w.StudSpacingMM == 0 {
			w.StudSpacingMM, w.FirstStudMM, w.StudWidthMM = usualStudSpacingMM, usualFirstStudMM, usualStudWidthMM
		}
	}), fmt.Sprintf("room.walls[%d].kind", i)).called(func(j *job.Job) message.Message {
		return message.Of("edit.wall-kind", j.Room.Wall("wall", i))
	})
}
