package question

import (
	"math"

	"underfall/geometry/plan"
)

// letters name the walls of a room, of which a sheet makes six at most.
const letters = "ABCDEF"

// Letter names a wall by its place.
func Letter(wall int) string { return letters[wall : wall+1] }

// CornerName names the corner at the end of a wall by its two walls.
func CornerName(wall, walls int) string { return Letter(wall) + Letter((wall+1)%walls) }

// Outline is the room of the answers: corners clockwise from above, x along wall A to the right
// and y away from it, from where wall A begins. Corner AB of the rectangle round it lies at the origin.
func (p Practice) Outline(s Sheet) []plan.Point {
	long, wide := s.Room.Long.or(p.longMM), s.Room.Wide.or(p.wideMM)
	cl, cw := p.cutMM(s)
	if !s.Room.Cut.Is {
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

// standsOut tells whether the corner at the end of a wall stands into the room, so that nothing
// can stand in it.
func standsOut(outline []plan.Point, wall int) bool {
	n := len(outline)
	a, b, c := outline[wall], outline[(wall+1)%n], outline[(wall+2)%n]
	return plan.Cross(b.Sub(a), c.Sub(b)) > 0 // a turn to the left, walking clockwise
}

// Stand is where the shower of a sheet stands, as a job has it: its wall, the distance from where
// the wall begins, and its size along the wall and away from it. Corner is the wall at whose end
// its corner is; -1 for one that stands in none.
type Stand struct {
	Wall                     int
	OffsetMM, LongMM, DeepMM float64
	Corner                   int
	MostLongMM, MostDeepMM   float64
	beside                   int // the wall beside it, where the water goes usually
}

// Stand is where the shower stands. Sizes that were not answered fit the room.
func (p Practice) Stand(s Sheet) Stand {
	outline := p.Outline(s)
	n := len(outline)
	switch {
	case s.Shower.Stands == AtWall && s.Shower.Wall < n:
		return p.atWall(s, outline)
	case s.Shower.Stands == InCorner && s.Shower.Wall < n:
		return p.inCorner(s, outline, s.Shower.Wall)
	}
	// The first corner away from wall A with room for the usual one, else the one with most.
	best, most := p.inCorner(s, outline, 1), 0.0
	for corner := 1; corner < n-1; corner++ {
		st := p.inCorner(s, outline, corner)
		room := math.Min(st.MostLongMM, p.showerLongMM) * math.Min(st.MostDeepMM, p.showerDeepMM)
		if !standsOut(outline, corner) && room > most+plan.HairMM {
			best, most = st, room
		}
	}
	return best
}

// inCorner is where a shower in the corner at the end of a wall stands.
func (p Practice) inCorner(s Sheet, outline []plan.Point, corner int) Stand {
	n := len(outline)
	st := Stand{Wall: (corner + 1) % n, Corner: corner, beside: corner}
	if p.backIsFirst(outline, corner) != s.Shower.Turned {
		st.Wall, st.beside = corner, (corner+1)%n
	}
	st.MostLongMM, st.MostDeepMM = wallMM(outline, st.Wall), p.deepestMM(outline, st.Wall)
	st.LongMM, st.DeepMM = s.Shower.Long.or(math.Min(p.showerLongMM, st.MostLongMM)), s.Shower.Deep.or(math.Min(p.showerDeepMM, st.MostDeepMM))
	if st.Wall == corner { // it stands at the wall's end
		st.OffsetMM = math.Max(0, st.MostLongMM-st.LongMM)
	}
	return st
}

// backIsFirst tells whether the shower's long side lies along the first wall of its corner, by
// their letters: along the longer one that is not A.
func (p Practice) backIsFirst(outline []plan.Point, corner int) bool {
	next := (corner + 1) % len(outline)
	switch {
	case next == 0:
		return true
	case corner == 0:
		return false
	}
	return wallMM(outline, corner) > wallMM(outline, next)+plan.HairMM
}

// fillsMM is up to which length of its wall a shower fills it from end to end. Common practice, no
// source.
const fillsMM = 1900

// atWall is where a shower along a wall stands: over the whole of a short one, else in its middle.
func (p Practice) atWall(s Sheet, outline []plan.Point) Stand {
	n := len(outline)
	st := Stand{Wall: s.Shower.Wall, Corner: -1, MostLongMM: wallMM(outline, s.Shower.Wall), MostDeepMM: p.deepestMM(outline, s.Shower.Wall)}
	usual := math.Min(p.showerLongMM, st.MostLongMM)
	if st.MostLongMM <= fillsMM {
		usual = st.MostLongMM
	}
	st.LongMM, st.DeepMM = s.Shower.Long.or(usual), s.Shower.Deep.or(math.Min(p.showerDeepMM, st.MostDeepMM))
	spare := math.Max(0, st.MostLongMM-st.LongMM)
	st.OffsetMM = s.Shower.From.or(p.round(spare / 2))
	st.beside = st.Wall
	if st.OffsetMM < plan.HairMM {
		st.beside = (st.Wall + n - 1) % n
	} else if st.OffsetMM > spare-plan.HairMM {
		st.beside = (st.Wall + 1) % n
	}
	return st
}

// deepestMM is how far the room reaches from a wall along the shorter of the walls beside it that
// go into the room.
func (p Practice) deepestMM(outline []plan.Point, wall int) float64 {
	n := len(outline)
	most := math.Inf(1)
	if before := (wall + n - 1) % n; !standsOut(outline, before) {
		most = math.Min(most, wallMM(outline, before))
	}
	if !standsOut(outline, wall) {
		most = math.Min(most, wallMM(outline, (wall+1)%n))
	}
	if math.IsInf(most, 1) {
		return p.showerDeepMM
	}
	return most
}

// TakesShower tells whether a shower can stand in the corner at the end of a wall: whether it does not
// stand out into the room.
func (p Practice) TakesShower(s Sheet, wall int) bool { return !standsOut(p.Outline(s), wall) }
