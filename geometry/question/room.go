package question

import (
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Letter names a wall by its place.
func Letter(wall int) string { return message.Letter(wall + 1).String() }

// Corner is the corner at the end of a wall.
func Corner(wall, walls int) message.Corner {
	return message.Letter(wall + 1).Corner(walls)
}

// Outline is the room of the answers: corners clockwise from above, x along wall A to the right
// and y away from it. Corner AB lies at the origin, that of the rectangle round it where it is cut off.
func (p Practice) Outline(s Sheet) []plan.Point {
	long, wide := s.Room.Long.or(p.longMM), s.Room.Wide.or(p.wideMM)
	cl, cw := p.cutMM(s)
	if s.Room.Turned {
		long, wide, cl, cw = wide, long, cw, cl
	}
	switch s.Room.Shape {
	case WallByWall:
		return s.Room.Drawn.Close().Outline
	case Rectangle:
		return []plan.Point{{long, 0}, {0, 0}, {0, wide}, {long, wide}}
	}
	switch s.Room.Cut.At {
	case FarLeft:
		return []plan.Point{{long, 0}, {0, 0}, {0, wide - cw}, {cl, wide - cw}, {cl, wide}, {long, wide}}
	case FarRight:
		return []plan.Point{{long, 0}, {0, 0}, {0, wide}, {long - cl, wide}, {long - cl, wide - cw}, {long, wide - cw}}
	case NearRight:
		return []plan.Point{{long - cl, 0}, {0, 0}, {0, wide}, {long, wide}, {long, cw}, {long - cl, cw}}
	}
	return []plan.Point{{long, 0}, {cl, 0}, {cl, cw}, {0, cw}, {0, wide}, {long, wide}}
}

// cutMM is the size of what an L-shaped room lacks: a third of the room each way where it is
// not answered. Common practice, no source.
func (p Practice) cutMM(s Sheet) (longMM, wideMM float64) {
	const share = 3
	return s.Room.Cut.Long.or(p.round(s.Room.Long.or(p.longMM) / share)),
		s.Room.Cut.Wide.or(p.round(s.Room.Wide.or(p.wideMM) / share))
}

// wallMM is how long a wall is inside.
func wallMM(outline []plan.Point, wall int) float64 {
	return outline[(wall+1)%len(outline)].Sub(outline[wall]).Len()
}

// WallMM is how long a wall of a sheet's room is inside.
func (p Practice) WallMM(s Sheet, wall int) float64 { return wallMM(p.Outline(s), wall) }

// standsOut tells whether the corner at the end of a wall stands into the room, so that nothing
// can stand in it.
func standsOut(outline []plan.Point, wall int) bool {
	n := len(outline)
	a, b, c := outline[wall], outline[(wall+1)%n], outline[(wall+2)%n]
	return plan.Cross(b.Sub(a), c.Sub(b)) > 0 // a turn to the left, walking clockwise
}
