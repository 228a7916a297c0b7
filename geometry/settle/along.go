package settle

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// spanKind is what takes a stretch of a wall.
type spanKind int

const (
	doorSpan spanKind = iota
	windowSpan
	fixtureSpan
	showerSpan
)

// span is a stretch of a wall that something takes, from the wall's start corner, and a level at which
// it begins and ends. One that does not move has no place to be changed.
type span struct {
	kind        spanKind
	index       int // of its kind
	key         string
	wall        int
	fromMM      float64
	longMM      float64
	lowMM       float64
	highMM      float64
	moves       bool
	changesWall bool
}

func (p span) toMM() float64 { return p.fromMM + p.longMM }

// meets tells whether two stretches share more than an end.
func (p span) meets(o span) bool {
	return p.wall == o.wall && p.fromMM < o.toMM()-plan.HairMM && o.fromMM < p.toMM()-plan.HairMM
}

// mayNot tells whether two stretches must never meet: openings in one wall.
func (p span) mayNot(o span) bool {
	switch {
	case p.kind > windowSpan || o.kind > windowSpan:
		return false
	case p.kind == windowSpan && o.kind == windowSpan:
		return p.lowMM < o.highMM && o.lowMM < p.highMM
	}
	return true
}

// shouldNot tells whether two things are in each other's way that take one stretch.
func (p span) shouldNot(o span) bool {
	return p.kind != windowSpan && o.kind != windowSpan && (p.kind >= fixtureSpan || o.kind >= fixtureSpan)
}

// spans are the stretches of walls that things of a job take, of those in a sound place.
func spans(j *job.Job, free func(...string) bool) (out []span) {
	add := func(kind spanKind, list string, i, wall int, from, long, low, high float64) {
		key := job.Nth(list, i)
		moves := free != nil && free(key+".offsetMM")
		out = append(out, span{kind, i, key, wall, from, long, low, high, moves, moves && free(key+".wall")})
	}
	for i, d := range j.Room.Doorways {
		add(doorSpan, job.DoorwaysKey, i, d.Wall, d.OffsetMM, d.WidthMM, 0, 0)
	}
	for i, w := range j.Room.Windows {
		add(windowSpan, windowsKey, i, w.Wall, w.OffsetMM, w.WidthMM, w.SillMM, w.SillMM+w.HeightMM)
	}
	for i, f := range j.Room.Fixtures {
		add(fixtureSpan, fixturesKey, i, f.Wall, f.OffsetMM, f.WidthMM, 0, 0)
	}
	if j.Former.Fall != job.FallRoom {
		out = append(out, showerSpans(j)...)
	}
	return out
}

// Keys of lists.
const (
	windowsKey  = job.WindowsKey
	fixturesKey = job.FixturesKey
	showerKey   = "shower"
)

// showerSpans are the stretches of walls that the shower stands at.
func showerSpans(j *job.Job) (out []span) {
	if w := j.Shower.Wall; w < 0 || w >= len(j.Room.Outline) || j.Room.WallLengthMM(w) == 0 {
		return nil
	}
	corners := j.ShowerCorners()
	for i, side := range j.ShowerSides() {
		a, u := corners[i], corners[(i+1)%4].Sub(corners[i]).Normalize()
		for _, s := range side {
			if s.Wall < 0 {
				continue
			}
			from, to := alongWall(&j.Room, s.Wall, a.Add(u.Mul(s.FromMM))), alongWall(&j.Room, s.Wall, a.Add(u.Mul(s.ToMM)))
			from, to = math.Min(from, to), math.Max(from, to)
			out = append(out, span{kind: showerSpan, index: i, key: showerKey, wall: s.Wall, fromMM: from, longMM: to - from})
		}
	}
	return out
}

// alongWall is how far along a wall a place is, from the wall's start corner.
func alongWall(r *job.Room, wall int, p plan.Point) float64 {
	a, b := r.Outline[wall], r.Outline[(wall+1)%len(r.Outline)]
	return p.Sub(a).Dot(b.Sub(a).Normalize())
}

// onWall is a place along a wall.
func onWall(r *job.Room, wall int, alongMM float64) plan.Point {
	a, b := r.Outline[wall], r.Outline[(wall+1)%len(r.Outline)]
	return a.Add(b.Sub(a).Normalize().Mul(alongMM))
}

// apart tells of two stretches whether they are to be kept off each other.
type apart func(a, b span) bool

// keptApart are openings of one wall, and what was not in each other's way before.
func (s *settler) keptApart() apart {
	before := spans(s.before, nil)
	same := len(s.before.Room.Doorways) <= len(s.job.Room.Doorways) && len(s.before.Room.Fixtures) <= len(s.job.Room.Fixtures)
	metBefore := func(a, b span) bool {
		var mine, others []span
		for _, p := range before {
			if p.kind == a.kind && (p.kind == showerSpan || p.index == a.index) {
				mine = append(mine, p)
			}
			if p.kind == b.kind && (p.kind == showerSpan || p.index == b.index) {
				others = append(others, p)
			}
		}
		if len(mine) == 0 || len(others) == 0 {
			return true
		}
		for _, p := range mine {
			if slices.ContainsFunc(others, p.meets) {
				return true
			}
		}
		return false
	}
	return func(a, b span) bool {
		if a.kind == showerSpan && b.kind == showerSpan {
			return false
		}
		return a.mayNot(b) || same && a.shouldNot(b) && !metBefore(a, b)
	}
}

// walls has what is in walls and at them lie within its wall, and apart.
func (s *settler) walls() {
	if !s.changed("room.outline", "room.doorways", windowsKey, fixturesKey, showerKey, "former.fall") {
		return
	}
	if slices.ContainsFunc(spans(&s.job, nil), func(p span) bool { return p.wall < 0 || p.wall >= len(s.job.Room.Outline) }) {
		return // which is said
	}
	keep := s.keptApart()
	if s.addedLies(keep) || s.lieAlong(keep) || s.showerAside(keep) {
		return
	}
	// What is only in each other's way is for findings to say, unless it is held there. Openings that
	// have no room in their wall go to another.
	only := func(a, b span) bool { return a.mayNot(b) }
	all := spans(&s.job, s.free)
	for wall := range s.job.Room.Outline {
		for !s.lieAt(all, wall, only) {
			if !s.elsewhere(all, wall, keep) {
				return
			}
		}
	}
	s.put(all)
	if !s.lieAlong(keep) {
		s.inTheWay = s.heldAgainst(all, keep)
	}
}

// addedLies has what was added lie at its wall, or another, with nothing else moved; false where nothing was
// added or there is no room for it.
func (s *settler) addedLies(keep apart) bool {
	all := spans(&s.job, func(keys ...string) bool { return s.added != "" && within(keys[0], s.added) && s.free(keys...) })
	at := slices.IndexFunc(all, func(p span) bool { return p.moves })
	if at < 0 {
		return false
	}
	only := func(a, b span) bool { return (s.isAdded(a.key) || s.isAdded(b.key)) && keep(a, b) }
	if wall := all[at].wall; !s.lieAt(all, wall, only) && !s.elsewhere(all, wall, only) {
		return false
	}
	s.put(all)
	return true
}

// heldAgainst tells whether something held is in the way of something else.
func (s *settler) heldAgainst(all []span, keep apart) bool {
	for i, a := range all {
		for _, b := range all[:i] {
			if a.meets(b) && keep(a, b) && (s.held(a.offsetKey()) || s.held(b.offsetKey())) {
				return true
			}
		}
	}
	return false
}

func (p span) offsetKey() string { return p.key + ".offsetMM" }

// showerAside slides the shower along its wall, as little as it must, until what is at walls lies
// apart; false where that is no help.
func (s *settler) showerAside(keep apart) bool {
	if !s.free("shower.offsetMM") {
		return false
	}
	sh := &s.job.Shower
	was := sh.OffsetMM
	var places []float64
	for _, p := range spans(&s.job, nil) {
		if p.kind != showerSpan && p.wall == sh.Wall {
			places = append(places, p.toMM(), p.fromMM-sh.WidthMM)
		}
	}
	slices.SortFunc(places, func(a, b float64) int { return cmp.Compare(math.Abs(a-was), math.Abs(b-was)) })
	for _, at := range places {
		if sh.OffsetMM = at; at < 0 || !s.job.ShowerInRoom() {
			continue
		}
		if s.lieAlong(keep) {
			return true
		}
	}
	sh.OffsetMM = was
	return false
}

// put writes the places of stretches into the job.
func (s *settler) put(all []span) {
	for _, p := range all {
		var wall *int
		var offset *float64
		switch p.kind {
		case doorSpan:
			wall, offset = &s.job.Room.Doorways[p.index].Wall, &s.job.Room.Doorways[p.index].OffsetMM
		case windowSpan:
			wall, offset = &s.job.Room.Windows[p.index].Wall, &s.job.Room.Windows[p.index].OffsetMM
		case fixtureSpan:
			wall, offset = &s.job.Room.Fixtures[p.index].Wall, &s.job.Room.Fixtures[p.index].OffsetMM
		default:
			continue
		}
		*wall, *offset = p.wall, p.fromMM
	}
}

// lieAlong has what is at walls lie within its wall and apart, each along its own; false where that
// cannot be, and nothing has moved.
func (s *settler) lieAlong(keep apart) bool {
	all := spans(&s.job, s.free)
	for wall := range s.job.Room.Outline {
		if !s.lieAt(all, wall, keep) {
			return false
		}
	}
	s.put(all)
	return true
}

// lieAt has the stretches of a wall lie within it and apart, with as little movement as may be.
func (s *settler) lieAt(all []span, wall int, keep apart) bool {
	var at []int
	for i, p := range all {
		if p.wall == wall {
			at = append(at, i)
		}
	}
	row := make([]span, len(at))
	for k, i := range at {
		row[k] = all[i]
	}
	if !rowOf(row, s.job.Room.WallLengthMM(wall), keep).lie() {
		return false
	}
	for k, i := range at {
		all[i] = row[k]
	}
	return true
}

// mostElsewhere is of how many things at walls one is moved to another wall. Common practice, no source.
const mostElsewhere = 30

// elsewhere moves one of the things of a wall that has no room for all to the nearest place at
// another; false where none can be.
func (s *settler) elsewhere(all []span, wall int, keep apart) bool {
	if len(all) > mostElsewhere {
		return false
	}
	best, bestMM, to := -1, math.Inf(1), span{}
	for i, p := range all {
		if p.wall != wall || !p.changesWall {
			continue
		}
		middle := onWall(&s.job.Room, wall, p.fromMM+p.longMM/2)
		for other := range s.job.Room.Outline {
			if other == wall {
				continue
			}
			q, ok := s.nearestAt(all, i, other, middle, keep)
			if !ok {
				continue
			}
			mm := onWall(&s.job.Room, other, q.fromMM+q.longMM/2).Sub(middle).Len()
			if mm < bestMM-plan.HairMM {
				best, bestMM, to = i, mm, q
			}
		}
	}
	if best < 0 {
		return false
	}
	all[best] = to
	return true
}

// nearestAt is the place at another wall for a thing that is nearest to a place in the room, with
// nothing at that wall moved.
func (s *settler) nearestAt(all []span, i, wall int, near plan.Point, keep apart) (span, bool) {
	p := all[i]
	length := s.job.Room.WallLengthMM(wall)
	if p.longMM > length+plan.HairMM {
		return p, false
	}
	within := func(mm float64) float64 { return math.Max(0, math.Min(mm, length-p.longMM)) }
	p.wall = wall
	wanted := alongWall(&s.job.Room, wall, near) - p.longMM/2
	places := []float64{math.Round(within(wanted))}
	for _, o := range all {
		if o.wall == wall {
			places = append(places, o.toMM(), o.fromMM-p.longMM)
		}
	}
	slices.SortFunc(places, func(a, b float64) int { return cmp.Compare(math.Abs(a-wanted), math.Abs(b-wanted)) })
	for _, at := range places {
		p.fromMM = within(at)
		clear := func(k int, o span) bool { return k == i || !p.meets(o) || !keep(p, o) }
		free := true
		for k, o := range all {
			free = free && clear(k, o)
		}
		if free {
			return p, true
		}
	}
	return p, false
}
