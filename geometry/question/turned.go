package question

import (
	"math"
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// TakesDoor tells whether the door can be in a wall: one with room for the narrowest, of a room whose walls close.
func (p Practice) TakesDoor(s Sheet, wall int) bool {
	least, _ := DoorWide.Bounds()
	return len(p.Closes(s)) == 0 && (s.Room.Shape != WallByWall || s.Room.Drawn.Close().MissesMM == 0) && p.WallMM(s, wall) >= least
}

// DoorIn is the sheet with the door in another wall, which is A then: all that was said of the room, its shower and its water
// stays where it is, under the letters that walls and corners have then. Where along that wall the door is nobody has said.
func (p Practice) DoorIn(s Sheet, wall int) Sheet {
	if wall == 0 {
		return s
	}
	was, n := p.Outline(s), len(p.Outline(s))
	to := func(i int) int { return (i - wall + n) % n }
	next := p.turned(s, wall)
	next.Door.From = Length{}
	if s.Shower.Stands != StandsUsually {
		next.Shower.Wall = to(s.Shower.Wall)
	}
	if s.Shower.Stands == InCorner && p.Stand(next).Wall != to(p.Stand(s).Wall) {
		next.Shower.Turned = !next.Shower.Turned
	}
	if s.Water.To == GoesOutThroughWall {
		next.Water.Wall = to(s.Water.Wall)
	}
	next.Outside = 0
	for i := range n {
		next.Outside = next.Outside.With(to(i), s.Outside.Has(i))
	}
	along := was[(wall+1)%n].Sub(was[wall])
	p.turnWater(&next, s, along, was[wall])
	next.Floor.Runs = s.Floor.Runs.turned(along)
	next.Said = s.Said.turned(p, s, next)
	return next
}

// sideways tells whether a direction runs away from wall A, and askew whether it does neither that nor run along it.
func sideways(along plan.Point) (is, askew bool) {
	const nearly = 1e-6
	x, y := math.Abs(along.X()), math.Abs(along.Y())
	return y > x, math.Min(x, y) > nearly*math.Max(x, y)
}

// turned is which way joists run as seen from a wall that runs along; not known of one that is askew to them.
func (r Runs) turned(along plan.Point) Runs {
	is, askew := sideways(along)
	switch {
	case r == RunsNotKnown || askew:
		return RunsNotKnown
	case is && r == AlongA:
		return FromA
	case is:
		return AlongA
	}
	return r
}

// turned is the sheet with its room told from another wall on, and nothing else of it: of the same shape where that
// is told so, else wall by wall.
func (p Practice) turned(s Sheet, wall int) Sheet {
	was := p.Outline(s)
	for _, next := range turns(s, wall) {
		if sameRoom(was, p.Outline(next), wall) {
			return next
		}
	}
	s = p.Draw(s)
	d := s.Room.Drawn
	for i := range d.N {
		from := (i + wall) % d.N
		w := d.Walls[from]
		s.Room.Drawn.Walls[i] = DrawnWall{Long: w.Long, UsualMM: wallMM(was, from), InsideDeg: insideDeg(was, from)}
	}
	return s
}

// turns are the ways in which a sheet's room may be told from another wall on without its walls being told one by one.
func turns(s Sheet, wall int) (out []Sheet) {
	if s.Room.Shape == Rectangle {
		s.Room.Turned = s.Room.Turned != (wall%2 == 1)
		return []Sheet{s}
	}
	if s.Room.Shape != LShaped {
		return nil
	}
	for _, at := range []Quarter{FarLeft, FarRight, NearRight, NearLeft} {
		for _, turned := range []bool{s.Room.Turned, !s.Room.Turned} {
			next := s
			next.Room.Cut.At, next.Room.Turned = at, turned
			out = append(out, next)
		}
	}
	return out
}

// sameRoom tells whether a room is another one told from a wall of that on.
func sameRoom(was, is []plan.Point, wall int) bool {
	n := len(was)
	if len(is) != n {
		return false
	}
	for i := range n {
		from := (i + wall) % n
		if math.Abs(wallMM(is, i)-wallMM(was, from)) > plan.HairMM || math.Abs(insideDeg(is, i)-insideDeg(was, from)) > plan.HairMM {
			return false
		}
	}
	return true
}

// turnWater tells the place of the pipe or the stack of a sheet from the wall that is A now, which ran along from a corner.
func (p Practice) turnWater(next *Sheet, s Sheet, along, from plan.Point) {
	if w := s.Water; !w.Along.Given && !w.Away.Given {
		return
	}
	unit := along.Mul(1 / along.Len())
	off := plan.Point{p.mmOf(s, WaterAlong), p.mmOf(s, WaterAway)}.Sub(from)
	// Wall A runs from where it begins against the way in which places along it are told; right of it is the room.
	at := p.Outline(*next)[0].Add(plan.Point{-off.Dot(unit), -off.Dot(plan.Left(unit))})
	alongGiven, awayGiven := s.Water.Along.Given, s.Water.Away.Given
	switch is, askew := sideways(along); {
	case askew:
		alongGiven, awayGiven = true, true
	case is:
		alongGiven, awayGiven = awayGiven, alongGiven
	}
	next.Water.Along, next.Water.Away = Length{}, Length{}
	if alongGiven {
		next.Water.Along = Given(at.X())
	}
	if awayGiven {
		next.Water.Away = Given(at.Y())
	}
}

// mmOf is an answer, or what stands in for it.
func (p Practice) mmOf(s Sheet, e Entry) float64 {
	if l := s.At(e); l.Given {
		return l.MM
	}
	return p.UsualMM(s, e)
}

// turned is what was said of a sheet beside the questions, said of the one that it became when another wall was called A: what
// was said of single walls and of places is left out.
func (d *Said) turned(p Practice, was, next Sheet) *Said {
	if d == nil {
		return nil
	}
	before := d.before.turned(p, was, next)
	for _, prefix := range []string{job.WallsKey, job.PipeEndsKey, job.StacksKey, "waste.exit.", "floor.joists.directionDeg", "floor.joists.firstOffsetMM"} {
		if strings.HasPrefix(d.key, prefix) {
			return before
		}
	}
	if !d.of.same(d.key, p.about(was)) {
		return before
	}
	return &Said{d.key, d.edit, p.about(next), before}
}
