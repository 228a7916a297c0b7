package settle

import (
	"fmt"
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

func fittingKey(i int) string { return fmt.Sprintf("waste.fittings[%d]", i) }

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
		if is, still := now.clear(*p); !in || still && is >= math.Min(was, radiusMM)-plan.HairMM || !s.free(key+"[0]", key+"[1]", key) {
			return
		}
		if to, ok := now.nearest(*p, math.Min(was, radiusMM)); ok {
			*p = to
		}
	}
	for i := range j.Room.Stacks {
		stack := &j.Room.Stacks[i]
		stands(&stack.At, stack.OutsideMM/2+job.StackClearMM, fmt.Sprintf("%s[%d].at", job.StacksKey, i))
	}
	pipe := j.Waste.OutsideDiameterMM / 2
	end, led := j.Room.PipeEndAt(j.Waste.Exit)
	for i := range j.Room.PipeEnds {
		stands(&j.Room.PipeEnds[i].At, pipe, fmt.Sprintf("%s[%d].at", job.PipeEndsKey, i))
	}
	switch e := &j.Waste.Exit; {
	case led:
		if s.free("waste.exit.at") {
			e.At = j.Room.PipeEnds[end].At
		}
	case e.Kind != job.ExitWall && e.Kind != job.ExitStack:
		stands(&e.At, pipe, "waste.exit.at")
	}
	for i := range j.Waste.Waypoints {
		stands(&j.Waste.Waypoints[i], pipe, "waste.waypoints")
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
		key := fmt.Sprintf("%s[%d].at", job.StacksKey, i)
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
		_, inside := now.clear(stacks[i].At)
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
	return mm, plan.FromRing(plan.Ring(r)).Contains(p, 0)
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
	inward := 1.0
	if plan.Ring(r).SignedArea() < 0 {
		inward = -1
	}
	// A hair inside, so that it does lie in the room.
	off := math.Max(clearMM, 1e-3)
	for i := range r {
		a, b := r.side(i)
		u := b.Sub(a).Normalize()
		in := plan.Left(u).Mul(inward * off)
		consider(a.Add(in).Add(u.Mul(clamp(p.Sub(a).Dot(u), 0, b.Sub(a).Len()))))
		for k := range i {
			c, d := r.side(k)
			v := d.Sub(c).Normalize()
			if along, _, meet := plan.MeetLines(a.Add(in), u, c.Add(plan.Left(v).Mul(inward*off)), v); meet {
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
