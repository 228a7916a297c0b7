package edit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// Side is how long one of the room's walls is inside, by its index.
type Side struct{ Wall int }

// sideKey is the path of a wall in a job's file.
const sideKey = "room.walls["

// Key is the path of the wall in the job's file; SideAt is the side of such a path, ok is false
// for any other.
func (s Side) Key() string { return fmt.Sprintf("%s%d]", sideKey, s.Wall) }

// SideAt is the side of a path in a job's file that leads to a wall; ok is false for any other.
func SideAt(key string) (s Side, ok bool) {
	inside, is := strings.CutPrefix(key, sideKey)
	index, ends := strings.CutSuffix(inside, "]")
	wall, err := strconv.Atoi(index)
	return Side{wall}, is && ends && err == nil && wall >= 0
}

// MM is the length in a job; false where the room has no such wall.
func (s Side) MM(j job.Job) (mm float64, ok bool) {
	mm = j.Room.WallLengthMM(s.Wall)
	return mm, mm > 0
}

// Set gives the wall another length: the next wall is moved square to itself, or the one before
// where the shower is at the next and not at that. In a room that was measured it is what the wall was measured.
// Nothing where the room has no such wall.
func (s Side) Set(mm float64) Edit {
	of := func(j job.Job) (float64, bool) { return tapedMM(&j, s.Wall) }
	return s.set(mm).stated(Figure{job.OutlineKey, mm, unit.Along, of, s.Set}).About(s.Key(), job.OutlineKey, job.TapeLengthsKey)
}

func (s Side) set(mm float64) Edit {
	return Of(message.Of("place.walls"), func(j *job.Job) {
		long, ok := s.MM(*j)
		if !ok {
			return
		}
		if j.Room.Measured() {
			setTaped(j, s.Wall, mm)
			return
		}
		n := len(j.Room.Outline)
		moved, along := (s.Wall+1)%n, j.Room.Outline[(s.Wall+1)%n].Sub(j.Room.Outline[s.Wall]).Normalize()
		if before := (s.Wall + n - 1) % n; showerAt(j, moved) && !showerAt(j, before) {
			moved, along = before, along.Mul(-1)
		}
		moveSide(j, moved, along.Mul(mm-long).Dot(outward(j, moved)))
	}).called(func(j *job.Job) message.Message {
		return message.Of("edit.wall-length", j.Room.Wall("wall", s.Wall))
	})
}

// outward is the way out of the room, square to a wall.
func outward(j *job.Job, wall int) plan.Point {
	outline := plan.Ring(j.Room.Outline)
	out := plan.Left(outline[(wall+1)%len(outline)].Sub(outline[wall]).Normalize())
	if outline.SignedArea() > 0 {
		out = out.Mul(-1)
	}
	return out
}

// showerAt tells whether the shower stands at a wall.
func showerAt(j *job.Job, wall int) bool {
	n := len(j.Room.Outline)
	a, b := j.Room.Outline[wall], j.Room.Outline[(wall+1)%n]
	at := 0
	for _, c := range j.ShowerCorners() {
		if plan.DistanceToSegment(c, a, b) <= job.AtWallMM {
			at++
		}
	}
	return at > 1
}

// moveSide moves a wall of the room out by so much, square to itself; the walls beside it go on in
// their own directions up to it. What is stated from corners stays so far from them. The shower
// goes along as far as it must: one that fills its wall still does, one in the far corner stays
// there, and one that would be past the wall's end is moved back; a waste that goes straight out
// still does.
func moveSide(j *job.Job, wall int, outMM float64) {
	n := len(j.Room.Outline)
	if math.Abs(outMM) < plan.HairMM || wall < 0 || wall >= n {
		return
	}
	keepingStraight(j, func() {
		before := j.Clone()
		at := func(i int) plan.Point { return before.Room.Outline[(i+2*n)%n] }
		out := outward(j, wall).Mul(outMM)
		along := at(wall + 1).Sub(at(wall))
		meets := func(corner, other plan.Point) plan.Point {
			p := corner.Add(out)
			if s, _, ok := plan.MeetLines(corner, corner.Sub(other), p, along); ok {
				p = corner.Add(corner.Sub(other).Mul(s))
			}
			return rounded(p)
		}
		j.Room.Outline[wall] = meets(at(wall), at(wall-1))
		j.Room.Outline[(wall+1)%n] = meets(at(wall+1), at(wall+2))
		showerAlong(j, &before)
	})
}

// showerAlong has the shower follow its wall, which was of another length before.
func showerAlong(j, before *job.Job) {
	s, longMM := &j.Shower, j.Room.WallLengthMM(j.Shower.Wall)
	toEndMM := before.Room.WallLengthMM(s.Wall) - s.OffsetMM - s.WidthMM
	switch start, end := before.ShowerInCorner(); {
	case start && end:
		s.WidthMM = longMM - s.OffsetMM - toEndMM
		headWithin(j, before)
	case end || s.OffsetMM+s.WidthMM > longMM:
		s.OffsetMM = math.Max(0, longMM-s.WidthMM-math.Max(0, toEndMM))
	}
}

// headWithin has the shower's head where it was, in shares of the shower.
func headWithin(j, before *job.Job) {
	if j.Shower.Head == nil {
		return
	}
	was, is := frameOf(before), frameOf(j)
	across, into := was.to(before.Shower.Head.At)
	j.Shower.Head.At = is.from(across/before.Shower.WidthMM*j.Shower.WidthMM, into/before.Shower.DepthMM*j.Shower.DepthMM)
}

// showerFrame is where the shower stands and which way round.
type showerFrame struct{ origin, across, into plan.Point }

func frameOf(j *job.Job) showerFrame {
	c := j.ShowerCorners()
	return showerFrame{c[0], c[1].Sub(c[0]).Normalize(), c[3].Sub(c[0]).Normalize()}
}

// to gives the place of a point in the frame, from the point in the room.
func (f showerFrame) to(p plan.Point) (acrossMM, intoMM float64) {
	off := p.Sub(f.origin)
	return off.Dot(f.across), off.Dot(f.into)
}

func (f showerFrame) from(acrossMM, intoMM float64) plan.Point {
	return rounded(f.origin.Add(f.across.Mul(acrossMM)).Add(f.into.Mul(intoMM)))
}

// keepHead has a head that is in the shower go along with a shower that an edit has moved as it is;
// not where the edit has placed the head itself, nor in a room that has no such wall.
func keepHead(before, j *job.Job) {
	was, is := &before.Shower, &j.Shower
	walls := func(j *job.Job) bool { return j.Shower.Wall >= 0 && j.Shower.Wall < len(j.Room.Outline) }
	if was.Head == nil || is.Head == nil || *was.Head != *is.Head || !walls(before) || !walls(j) ||
		was.WidthMM != is.WidthMM || was.DepthMM != is.DepthMM {
		return
	}
	from, to := frameOf(before), frameOf(j)
	across, into := from.to(was.Head.At)
	in := across >= -job.AtWallMM && across <= was.WidthMM+job.AtWallMM && into >= -job.AtWallMM && into <= was.DepthMM+job.AtWallMM
	if !in || from == to || !(to.across.Len() > 0) {
		return
	}
	j.Shower.Head.At = to.from(across, into)
}

// dragSide moves a wall of the room, held by its outer face, to a point: so that the wall before it,
// or else the next, has a length in steps that handles are rounded to.
func dragSide(j *job.Job, l *layout.Layout, wall int, to plan.Point, r rounding) {
	if wall < 0 || wall >= len(l.Walls) {
		return
	}
	n := len(l.Walls)
	w, before, next := &l.Walls[wall], &l.Walls[(wall+n-1)%n], &l.Walls[(wall+1)%n]
	out := to.Sub(w.A).Dot(w.Outward) - w.ThicknessMM
	const leastCos = 1e-3
	if c := before.Along.Dot(w.Outward); math.Abs(c) > leastCos {
		out = (r.mm(before.LengthMM+out/c) - before.LengthMM) * c
	} else if c := -next.Along.Dot(w.Outward); math.Abs(c) > leastCos {
		out = (r.mm(next.LengthMM+out/c) - next.LengthMM) * c
	}
	moveSide(j, wall, out)
}
