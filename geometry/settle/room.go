package settle

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

func fittingKey(i int) string { return fmt.Sprintf("waste.fittings[%d]", i) }

// atKey is the path of the place of a thing of a list.
func atKey(list string, i int) string { return job.Nth(list, i) + ".at" }

// points keeps what stands free in the room in it, as clear of its walls as it was, and stacks apart.
func (s *settler) points() {
	if !s.sound() {
		return
	}
	if s.changed("room.outline") {
		s.inRoom()
	}
	if s.changed(job.StacksKey, "room.outline") {
		s.stacksApart()
	}
}

// inRoom moves what has come to lie outside the room, or in a wall, to the nearest place inside.
func (s *settler) inRoom() {
	old := room(s.before.Room.Outline)
	now := room(s.job.Room.Outline)
	j := &s.job
	stands := func(p *plan.Point, radiusMM float64, key string) {
		was, in := old.clear(*p)
		if at, ok := now.withWalls(old, *p); ok && in && key != job.TurnsKey && s.free(key+"[0]", key+"[1]", key) {
			*p = at
			return
		}
		if is, still := now.clear(*p); !in || still && is >= math.Min(was, radiusMM)-plan.HairMM || !s.free(key+"[0]", key+"[1]", key) {
			return
		}
		if to, ok := now.nearest(*p, math.Min(was, radiusMM)); ok {
			*p = to
		}
	}
	for i := range j.Room.Stacks {
		stack := &j.Room.Stacks[i]
		stands(&stack.At, stack.OutsideMM/2+job.StackClearMM, atKey(job.StacksKey, i))
	}
	pipe := j.Waste.OutsideDiameterMM / 2
	end, led := j.Room.PipeEndAt(j.Waste.Exit)
	for i := range j.Room.PipeEnds {
		stands(&j.Room.PipeEnds[i].At, pipe, atKey(job.PipeEndsKey, i))
	}
	switch e := &j.Waste.Exit; {
	case led:
		if s.free(job.ExitAtKey) {
			e.At = j.Room.PipeEnds[end].At
		}
	case e.Kind != job.ExitWall && e.Kind != job.ExitStack:
		stands(&e.At, pipe, job.ExitAtKey)
	}
	for i := range j.Waste.Waypoints {
		stands(&j.Waste.Waypoints[i], pipe, job.TurnsKey)
	}
	if h := j.Shower.Head; h != nil {
		stands(&h.At, 0, "shower.head.at")
	}
}

// stacksApart moves stacks off one another, none that the edit is about.
func (s *settler) stacksApart() {
	stacks := s.job.Room.Stacks
	now := room(s.job.Room.Outline)
	free := func(i int) bool {
		key := atKey(job.StacksKey, i)
		return s.free(key, key+"[0]", key+"[1]")
	}
	clear := func(i int, at plan.Point) bool {
		p := stacks[i]
		p.At = at
		for k, o := range stacks {
			if k != i && p.Overlaps(o) {
				return false
			}
		}
		return true
	}
	for i := range stacks {
		if clear(i, stacks[i].At) || !free(i) {
			continue
		}
		inside := now.has(stacks[i].At)
		if at, ok := aside(stacks[i].At, func(p plan.Point) bool {
			mm, in := now.clear(p)
			return clear(i, p) && (!inside || in && mm >= stacks[i].OutsideMM/2)
		}); ok {
			stacks[i].At = at
		}
	}
}

// aside is the nearest place to one, in whole millimetres away in one of many directions, that does.
func aside(from plan.Point, does func(plan.Point) bool) (at plan.Point, ok bool) {
	const directions, farthestMM = 36, 2000
	for mm := 1.0; mm <= farthestMM; mm++ {
		for k := range directions {
			p := rounded(from.Add(plan.DirectionDeg(float64(k) * 360 / directions).Mul(mm)))
			if does(p) {
				return p, true
			}
		}
	}
	return at, false
}

// room is the outline of a room.
type room plan.Ring

func (r room) side(i int) (a, b plan.Point) { return r[i], r[(i+1)%len(r)] }

// clear is how far a place is from the nearest wall, and whether it lies in the room.
func (r room) clear(p plan.Point) (mm float64, in bool) {
	mm = math.Inf(1)
	for i := range r {
		a, b := r.side(i)
		mm = math.Min(mm, plan.DistanceToSegment(p, a, b))
	}
	return mm, r.has(p)
}

// has tells whether a place lies in the room.
func (r room) has(p plan.Point) bool { return plan.FromRing(plan.Ring(r)).Contains(p, 0) }

// byWallMM is how near to a wall something that stands free stands by it. Common practice, no source.
const byWallMM = 300

// withWalls is where something comes that stood by a wall of a room before, or by two in a corner, as those walls have
// moved: as far from them as it was. False where it stood by none, none of them has moved, or its place would not be in the
// room.
func (r room) withWalls(old room, p plan.Point) (at plan.Point, ok bool) {
	if len(r) != len(old) {
		return p, false
	}
	var by []int
	for i := range old {
		if a, b := old.side(i); plan.DistanceToSegment(p, a, b) <= byWallMM {
			by = append(by, i)
		}
	}
	slices.SortStableFunc(by, func(i, k int) int { return cmp.Compare(old.offMM(i, p), old.offMM(k, p)) })
	by = by[:min(len(by), 2)]
	off := func(i int) float64 { return old.offMM(i, p) - r.offMM(i, p) }
	if !slices.ContainsFunc(by, func(i int) bool { return math.Abs(off(i)) >= job.AtWallMM }) {
		return p, false
	}
	if len(by) == 1 {
		at = p.Add(r.inward(by[0]).Mul(off(by[0])))
	} else {
		line := func(i int) (plan.Point, plan.Point) {
			a, b := r.side(i)
			return a.Add(r.inward(i).Mul(old.offMM(i, p))), b.Sub(a)
		}
		a, u := line(by[0])
		b, v := line(by[1])
		along, _, meet := plan.MeetLines(a, u, b, v)
		if !meet {
			return p, false
		}
		at = a.Add(u.Mul(along))
	}
	at = rounded(at)
	was, _ := old.clear(p)
	mm, in := r.clear(at)
	return at, in && mm >= was-job.AtWallMM
}

// inward is the way into the room, square to a wall.
func (r room) inward(wall int) plan.Point {
	a, b := r.side(wall)
	return plan.Left(b.Sub(a).Normalize()).Mul(math.Copysign(1, plan.Ring(r).SignedArea()))
}

// offMM is how far a place is from a wall's line, into the room.
func (r room) offMM(wall int, p plan.Point) float64 {
	a, _ := r.side(wall)
	return p.Sub(a).Dot(r.inward(wall))
}

// nearest is the place nearest to one that lies in the room and so far clear of its walls; ok is false
// where there is none. It lies square to a wall, or where the lines meet that keep off two walls.
func (r room) nearest(p plan.Point, clearMM float64) (best plan.Point, ok bool) {
	leastMM := math.Inf(1)
	consider := func(at plan.Point) {
		const slackMM = 1e-3
		at = rounded(at)
		mm, in := r.clear(at)
		if far := at.Sub(p).Len(); in && mm >= clearMM-slackMM && far < leastMM {
			best, ok, leastMM = at, true, far
		}
	}
	// A hair inside, so that it does lie in the room.
	off := math.Max(clearMM, 1e-3)
	for i := range r {
		a, b := r.side(i)
		u := b.Sub(a).Normalize()
		in := r.inward(i).Mul(off)
		consider(a.Add(in).Add(u.Mul(clamp(p.Sub(a).Dot(u), 0, b.Sub(a).Len()))))
		for k := range i {
			c, d := r.side(k)
			v := d.Sub(c).Normalize()
			if along, _, meet := plan.MeetLines(a.Add(in), u, c.Add(r.inward(k).Mul(off)), v); meet {
				consider(a.Add(in).Add(u.Mul(along)))
			}
		}
		// Round a corner that the room goes about.
		if away := p.Sub(a); away.Len() > plan.HairMM {
			consider(a.Add(away.Normalize().Mul(off)))
		}
	}
	return best, ok
}
