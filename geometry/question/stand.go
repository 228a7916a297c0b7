package question

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/plan"
)

// Stand is where the shower of a sheet stands, as a job has it: its wall, the distance from where
// the wall begins, and its size along the wall and away from it. Corner is the wall at whose end
// its corner is; -1 for one that stands in none.
type Stand struct {
	Wall                     int
	OffsetMM, LongMM, DeepMM float64
	Corner                   int
	// FreeFromMM and MostLongMM are from where along the wall, and how far, there is room so deep;
	// MostDeepMM is how deep there is room where the shower stands.
	FreeFromMM, MostLongMM, MostDeepMM float64
	beside                             int // the wall beside it, where the water goes usually
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
		if isSquare(outline, corner) && room > most+plan.HairMM {
			best, most = st, room
		}
	}
	if most > 0 {
		return best
	}
	// In no corner then: along the wall with most room, not the one with the door.
	for s.Shower.Wall = 1; s.Shower.Wall < n; s.Shower.Wall++ {
		st := p.atWall(s, outline)
		if room := math.Min(st.MostLongMM, p.showerLongMM) * math.Min(st.MostDeepMM, p.showerDeepMM); room > most+plan.HairMM {
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
	long, atEnd := wallMM(outline, st.Wall), st.Wall == corner
	p.size(&st, s, outline, p.showerLongMM, func(free []plan.Interval, deepMM float64) (plan.Interval, bool) {
		leansMM := plan.HairMM
		if deg := insideDeg(outline, corner); deg < SquareDeg { // the corner leans over it
			leansMM += deepMM / math.Tan(deg*math.Pi/StraightDeg)
		}
		if atEnd {
			last := free[len(free)-1]
			return last, long-last.To <= leansMM
		}
		return free[0], free[0].From <= leansMM
	})
	st.OffsetMM = st.FreeFromMM
	if atEnd {
		st.OffsetMM = math.Max(0, st.FreeFromMM+st.MostLongMM-st.LongMM)
	}
	st.reach(outline)
	return st
}

// atWall is where a shower along a wall stands: over the whole of a short one, else in its middle.
func (p Practice) atWall(s Sheet, outline []plan.Point) Stand {
	n := len(outline)
	st := Stand{Wall: s.Shower.Wall, Corner: -1}
	long := wallMM(outline, st.Wall)
	usual := p.showerLongMM
	if long <= fillsMM {
		usual = long
	}
	p.size(&st, s, outline, usual, func(free []plan.Interval, _ float64) (plan.Interval, bool) {
		if from := s.Shower.From; from.Given {
			i := slices.IndexFunc(free, func(f plan.Interval) bool { return f.From <= from.MM && from.MM < f.To })
			if i >= 0 {
				return free[i], true
			}
		}
		return slices.MaxFunc(free, func(a, b plan.Interval) int { return cmp.Compare(a.To-a.From, b.To-b.From) }), true
	})
	spare := math.Max(0, st.MostLongMM-st.LongMM)
	st.OffsetMM = s.Shower.From.or(st.FreeFromMM + p.round(spare/2))
	st.beside = st.Wall
	if st.OffsetMM < plan.HairMM {
		st.beside = (st.Wall + n - 1) % n
	} else if st.OffsetMM+st.LongMM > long-plan.HairMM {
		st.beside = (st.Wall + 1) % n
	}
	st.reach(outline)
	return st
}

// size gives a shower at its wall its size, as it was answered or as it has most room of what is usual,
// and tells where along the wall there is room for it: of the stretches that are free so deep the one
// that is chosen, if any will do.
func (p Practice) size(st *Stand, s Sheet, outline []plan.Point, longMM float64, choose func(free []plan.Interval, deepMM float64) (plan.Interval, bool)) {
	least, _ := ShowerLong.Bounds()
	st.LongMM, st.DeepMM = s.Shower.Long.or(longMM), s.Shower.Deep.or(p.showerDeepMM)
	most := 0.0
	take := func(deep float64) {
		free := freeAlong(outline, st.Wall, deep, least)
		if len(free) == 0 {
			return
		}
		f, ok := choose(free, deep)
		if area := math.Min(f.To-f.From, st.LongMM) * deep; ok && area > most+plan.HairMM {
			most, st.FreeFromMM, st.MostLongMM, st.MostDeepMM = area, f.From, f.To-f.From, deep
		}
	}
	take(st.DeepMM)
	if !s.Shower.Deep.Given || most == 0 {
		for _, deep := range depths(outline, st.Wall) {
			if deep >= least && deep < st.DeepMM {
				take(deep)
			}
		}
	}
	if !s.Shower.Deep.Given && most > 0 {
		st.DeepMM = st.MostDeepMM
	}
	if !s.Shower.Long.Given {
		st.LongMM = math.Min(longMM, st.MostLongMM)
	}
}

// reach tells how deep the shower could be where it stands.
func (st *Stand) reach(outline []plan.Point) {
	if st.MostLongMM > 0 {
		st.MostDeepMM = math.Max(st.MostDeepMM, clearMM(outline, st.Wall, st.OffsetMM, st.OffsetMM+math.Min(st.LongMM, st.MostLongMM)))
	}
}

// fillsMM is up to which length of its wall a shower fills it from end to end. Common practice, no
// source.
const fillsMM = 1900

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

// TakesShower tells whether a shower can stand in the corner at the end of a wall: whether it is square,
// or so nearly that a fitter would call it so.
func (p Practice) TakesShower(s Sheet, wall int) bool { return isSquare(p.Outline(s), wall) }

// askewDeg is how far a corner may be off a right angle and still be called square. Common practice, no
// source.
const askewDeg = 10

func isSquare(outline []plan.Point, wall int) bool {
	return math.Abs(insideDeg(outline, wall)-SquareDeg) <= askewDeg
}

// before are the parts of the other walls that lie before a wall, each from where to where along it and
// how far into the room from it.
func before(outline []plan.Point, wall int) (out [][2]plan.Point) {
	n := len(outline)
	a, b := outline[wall], outline[(wall+1)%n]
	along := plan.DirectionDeg(0)
	if mm := b.Sub(a).Len(); mm > 0 {
		along = b.Sub(a).Mul(1 / mm)
	}
	into := plan.Left(along).Mul(-1)
	for i := range n {
		if i == wall {
			continue
		}
		p, q := outline[i].Sub(a), outline[(i+1)%n].Sub(a)
		p, q = plan.Point{p.Dot(along), p.Dot(into)}, plan.Point{q.Dot(along), q.Dot(into)}
		if p.Y() < plan.HairMM && q.Y() < plan.HairMM {
			continue // behind it
		}
		if p.Y() > q.Y() {
			p, q = q, p
		}
		if p.Y() < 0 {
			p = cross(p, q, 0)
		}
		out = append(out, [2]plan.Point{p, q})
	}
	return out
}

// cross is where a line from p to q, which lies deeper, is so deep.
func cross(p, q plan.Point, deep float64) plan.Point {
	return p.Add(q.Sub(p).Mul((deep - p.Y()) / (q.Y() - p.Y())))
}

// freeAlong are the stretches of a wall before which nothing stands so deep, at least so long.
func freeAlong(outline []plan.Point, wall int, deepMM, leastMM float64) (out []plan.Interval) {
	type end struct{ from, to float64 }
	var taken []end
	for _, e := range before(outline, wall) {
		p, q := e[0], e[1]
		if p.Y() >= deepMM-plan.HairMM {
			continue
		}
		if q.Y() > deepMM {
			q = cross(p, q, deepMM)
		}
		taken = append(taken, end{math.Min(p.X(), q.X()), math.Max(p.X(), q.X())})
	}
	slices.SortFunc(taken, func(a, b end) int { return cmp.Compare(a.from, b.from) })
	at, long := 0.0, wallMM(outline, wall)
	for _, t := range append(taken, end{long, long}) {
		if to := math.Min(t.from, long); to-at >= leastMM-plan.HairMM {
			out = append(out, plan.Interval{From: at, To: to})
		}
		at = math.Max(at, t.to)
	}
	return out
}

// clearMM is how deep nothing stands before a stretch of a wall.
func clearMM(outline []plan.Point, wall int, fromMM, toMM float64) float64 {
	clear := float64(GreatestWallMM)
	for _, e := range before(outline, wall) {
		p, q := e[0], e[1]
		if p.X() > q.X() {
			p, q = q, p
		}
		if q.X() <= fromMM+plan.HairMM || p.X() >= toMM-plan.HairMM {
			continue
		}
		at := func(x float64) float64 { return p.Y() + (q.Y()-p.Y())*(x-p.X())/(q.X()-p.X()) }
		clear = math.Min(clear, math.Min(at(math.Max(p.X(), fromMM)), at(math.Min(q.X(), toMM))))
	}
	return clear
}

// depths are how far before a wall the corners of the room lie, from the deepest on.
func depths(outline []plan.Point, wall int) (out []float64) {
	for _, e := range before(outline, wall) {
		out = append(out, e[0].Y(), e[1].Y())
	}
	slices.SortFunc(out, func(a, b float64) int { return cmp.Compare(b, a) })
	return slices.Compact(out)
}
