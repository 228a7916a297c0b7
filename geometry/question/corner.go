package question

import (
	"math"

	"underfall/geometry/plan"
)

// Draw is the sheet with its room drawn wall by wall, beginning as it is.
func (p Practice) Draw(s Sheet) Sheet {
	outline := p.Outline(s)
	var given Walls
	switch {
	case s.Room.Shape == WallByWall:
		return s
	case s.Room.Shape == Rectangle:
		along, away := s.Room.Long, s.Room.Wide
		if s.Room.Turned {
			along, away = away, along
		}
		given = given.With(0, along.Given).With(1, away.Given)
	case p.RoomKnown(s):
		const workedOut = 2
		for i := range len(outline) - workedOut {
			given = given.With(i, true)
		}
	}
	ab := outline[1]
	s.Room.Shape, s.Room.Turned, s.Room.Drawn = WallByWall, false, drawnOf(outline, given)
	s.Water = s.Water.moved(ab.X())
	return s
}

// moved is where the water goes once corner AB, from which that is told, is so much farther along wall A.
func (w Water) moved(mm float64) Water {
	if w.Along.Given {
		w.Along.MM -= mm
	}
	return w
}

// RoomKnown tells whether all of the room's lengths were given or follow from those that were.
func (p Practice) RoomKnown(s Sheet) bool {
	r := s.Room
	if r.Shape == WallByWall {
		c := r.Drawn.Close()
		for i, w := range r.Drawn.Walls[:r.Drawn.N] {
			if !w.Long.Given && !c.WorkedOut.Has(i) {
				return false
			}
		}
		return c.MissesMM == 0
	}
	return r.Long.Given && r.Wide.Given && (r.Shape != LShaped || r.Cut.Long.Given && r.Cut.Wide.Given)
}

// WithWall is the sheet of a drawn room with a wall of another length, or of one that is worked out.
func (s Sheet) WithWall(wall int, l Length) Sheet {
	w := &s.Room.Drawn.Walls[wall]
	if w.UsualMM = l.MM; !l.Given {
		w.UsualMM = wallMM(s.Room.Drawn.Close().Outline, wall)
	}
	w.Long = l
	return s
}

// WithAngle is the sheet of a drawn room with another angle in the corner at the end of a wall.
func (s Sheet) WithAngle(wall int, insideDeg float64) Sheet {
	s.Room.Drawn.Walls[wall].InsideDeg = insideDeg
	return s
}

// PutsIn tells whether another corner goes into a wall of a drawn room.
func (s Sheet) PutsIn(wall int) bool {
	d := s.Room.Drawn
	return s.Room.Shape == WallByWall && d.N < MostWalls && wallMM(d.Close().Outline, wall) >= 2*LeastWallMM
}

// PutIn is the sheet of a drawn room with a corner in the middle of a wall. What goes on from it has the
// next letter, but for wall A, where the new wall is the last: the door stays in A.
func (s Sheet) PutIn(wall int) Sheet {
	d := &s.Room.Drawn
	outline := d.Close().Outline
	half := wallMM(outline, wall) / 2
	was := *d
	d.N++
	d.Walls[wall].Long, d.Walls[wall].UsualMM = Length{}, half
	if wall == 0 {
		d.Walls[was.N-1].InsideDeg = insideDeg(outline, was.N-1)
		d.Walls[was.N] = DrawnWall{UsualMM: half, InsideDeg: StraightDeg}
		return s
	}
	d.Walls[wall].InsideDeg = StraightDeg
	copy(d.Walls[wall+1:], was.Walls[wall:was.N])
	d.Walls[wall+1].Long, d.Walls[wall+1].UsualMM = Length{}, half
	if s.Shower.Stands == AtWall && s.Shower.Wall == wall && s.Shower.From.MM >= half {
		s.Shower.Wall, s.Shower.From.MM = wall+1, s.Shower.From.MM-half
		return s.renumbered(wall+1, 1, wall+1)
	}
	from := wall
	if s.Shower.Stands == AtWall {
		from++
	}
	return s.renumbered(wall+1, 1, from)
}

// TakesOut tells whether the corner at the end of a wall of a drawn room can be taken out: those of
// wall A cannot, which the door is in.
func (s Sheet) TakesOut(wall int) bool {
	const least = 3
	d := s.Room.Drawn
	return s.Room.Shape == WallByWall && d.N > least && wall > 0 && wall < d.N-1
}

// TakeOut is the sheet of a drawn room without the corner at the end of a wall: the two walls become
// one. A shower that stood there goes where one usually does.
func (s Sheet) TakeOut(wall int) Sheet {
	d := &s.Room.Drawn
	outline := d.Close().Outline
	n := d.N
	straight := append(append([]plan.Point{}, outline[:wall+1]...), outline[wall+2:]...)
	d.Walls[wall] = DrawnWall{UsualMM: wallMM(straight, wall)}
	copy(d.Walls[wall+1:], d.Walls[wall+2:n])
	d.N = n - 1
	d.Walls[d.N] = DrawnWall{}
	for _, at := range []int{wall - 1, wall} {
		d.Walls[at].InsideDeg = insideDeg(straight, at)
	}
	if at := s.Shower.Wall; s.Shower.Stands != StandsUsually && (at == wall || at == wall+1 && s.Shower.Stands == AtWall) {
		s.Shower.Stands, s.Shower.Wall, s.Shower.From = StandsUsually, 0, Length{}
	}
	return s.renumbered(wall+1, -1, wall+1)
}

// renumbered is the sheet with what is said of walls from one on said of the walls so much farther on;
// the shower, where it is told by a corner or a wall, from another one on.
func (s Sheet) renumbered(from, by, shower int) Sheet {
	if s.Shower.Stands != StandsUsually && s.Shower.Wall >= shower {
		s.Shower.Wall += by
	}
	if s.Water.To == GoesOutThroughWall && s.Water.Wall >= from {
		s.Water.Wall += by
	}
	var outside Walls
	for i := range MostWalls {
		if !s.Outside.Has(i) {
			continue
		}
		if i >= from {
			i += by
		}
		outside = outside.With(i, true)
	}
	s.Outside = outside
	return s
}

// MoveCorner is the sheet of a drawn room with the corner at the end of a wall at another place, those of
// wall A as far along it. The two walls are no longer as they were typed. The sheet as it is where a wall
// would be too short or too long.
func (s Sheet) MoveCorner(wall int, to plan.Point) Sheet {
	d := &s.Room.Drawn
	n := d.N
	if wall == 0 || wall == n-1 {
		to = plan.Point{to.X(), 0}
	}
	next := (wall + 1) % n
	outline := d.Close().Outline
	outline[next] = to
	for _, i := range []int{wall, next} {
		if mm := wallMM(outline, i); mm < LeastWallMM || mm > GreatestWallMM || i == 0 && outline[0].X() < outline[1].X() {
			return s
		}
	}
	for _, i := range []int{wall, next} {
		d.Walls[i].Long, d.Walls[i].UsualMM = Length{}, wallMM(outline, i)
	}
	for _, i := range []int{(wall + n - 1) % n, wall, next} {
		d.Walls[i].InsideDeg = insideDeg(outline, i)
	}
	if wall == 0 {
		s.Water = s.Water.moved(to.X())
	}
	return s
}

// Crossing is where two walls of a sheet's room cross or touch; ok is false where none do.
func (p Practice) Crossing(s Sheet) (wall, other int, at plan.Point, ok bool) {
	outline := plan.Ring(p.Outline(s))
	wall, other, ok = outline.CrossingEdges()
	if !ok {
		return
	}
	n := len(outline)
	a, b := outline[wall], outline[(wall+1)%n]
	c, d := outline[other], outline[(other+1)%n]
	if t, _, meet := plan.MeetLines(a, b.Sub(a), c, d.Sub(c)); meet {
		return wall, other, a.Add(b.Sub(a).Mul(math.Max(0, math.Min(1, t)))), true
	}
	// They lie on each other: where one of them ends.
	at = b
	for _, end := range []plan.Point{c, d} {
		if plan.DistanceToSegment(end, a, b) < plan.HairMM {
			at = end
		}
	}
	return wall, other, at, true
}
