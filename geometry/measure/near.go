package measure

import (
	"math"

	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// nearby is what lies near each piece of the run in plan, and may so be in its
// way at some height. It holds for all jobs that are the same in plan.
type nearby struct {
	pieces        []nearPiece
	trap, channel nearPart
	// walls are the bodies of all walls.
	walls []*clash.Prism
	// fixtures are the pieces near each fixture, by their index.
	fixtures [][]int
	// intoFloor is how far each stack reaches into the falling floor.
	intoFloor []float64
}

// nearPart is what lies near the trap or the drain's channel, each by its index.
type nearPart struct{ walls, deck []int }

// nearPiece is what lies near a piece, each by its index.
type nearPiece struct {
	joists, walls, doors, deck, pieces, stacks []int
	trap, channel                              bool
	// amidDeck tells that the edge of what is cut out of the deck is out of reach of
	// the piece: only the deck's top and underside are near.
	amidDeck bool
}

// wallUpAndDownMM is how far the body of a wall reaches over and under the datum:
// farther than anything is laid.
const wallUpAndDownMM = 20000

// findNear looks for what is near in plan, unless the plan is the one it looked at.
func (m *Measurer) findNear() {
	if m.plan.nearKnown {
		return
	}
	m.plan.nearKnown = true
	l, run := &m.Layout, &m.Heights.Run
	m.plan.near.walls = m.plan.near.walls[:0]
	for _, w := range l.Walls {
		m.plan.near.walls = append(m.plan.near.walls, clash.NewPrism(w.Footprint()[0].Outer, solid.Plane{Level: -wallUpAndDownMM}, solid.Plane{Level: wallUpAndDownMM}))
	}
	m.plan.near.trap, m.plan.near.channel = partsNear(l, l.Trap), partsNear(l, l.Drain)
	m.plan.near.pieces, m.plan.near.fixtures = make([]nearPiece, len(run.Pieces)), make([][]int, len(l.Fixtures))
	m.plan.near.intoFloor = m.plan.near.intoFloor[:0]
	for _, s := range l.Stacks {
		m.plan.near.intoFloor = append(m.plan.near.intoFloor, m.intoFloor(s.At, s.RadiusMM))
	}
	for i := range run.Pieces {
		m.findNearPiece(i)
	}
}

// findNearPiece finds what is near a piece of the run, by its index.
func (m *Measurer) findNearPiece(i int) {
	l, run := &m.Layout, &m.Heights.Run
	p, near := &run.Pieces[i], &m.plan.near.pieces[i]
	reach := p.RadiusMM() + clash.ClearanceMM + besideMM
	path := m.planPath(p)
	if p.Kind != waste.Drop {
		through := m.pair(kindOf(p), clash.Joist).Through
		for k := range l.Joists {
			if beside(&l.Joists[k], path, reach) && !(through && passes(l.Joists[k], p)) {
				near.joists = append(near.joists, k)
			}
		}
		for k, part := range l.Deck {
			if meets(path, part, reach) {
				near.deck = append(near.deck, k)
			}
		}
		near.amidDeck = len(near.deck) > 0 && l.Rest.Contains(path[0], 0) && clearOf(l.FallArea, path, reach)
	}
	for k, w := range l.Walls {
		if within(path, []plan.Point{w.A, w.B}, reach) && !m.leavesThrough(p, k) {
			near.walls = append(near.walls, k)
		}
	}
	for k, d := range l.Doors {
		if within(p.BodyPath(), []plan.Point{d.A, d.B}, reach) {
			near.doors = append(near.doors, k)
		}
	}
	for k := range l.Stacks {
		s := &l.Stacks[k]
		if within(path, []plan.Point{s.At, s.At}, reach+s.RadiusMM) && !m.endsIn(i, k) {
			near.stacks = append(near.stacks, k)
		}
	}
	for k, ring := range l.Fixtures {
		if inRoom := run.Wall == 0 || p.FromMM < run.InRoomMM(); inRoom && meets(path, ring, reach) {
			m.plan.near.fixtures[k] = append(m.plan.near.fixtures[k], i)
		}
	}
	for k := range i {
		o := &run.Pieces[k]
		// Those that so little of the run lies between are near each other as
		// parts of one turn: it takes more to come back.
		if turn := 2 * (p.RadiusMM() + o.RadiusMM()); p.FromMM-o.ToMM > turn && within(path, m.planPath(o), reach+o.RadiusMM()) {
			near.pieces = append(near.pieces, k)
		}
	}
	near.trap = i > 0 && len(l.Trap) > 0 && meets(path, l.Trap[0].Outer, reach)
	near.channel = len(l.Drain) > 0 && meets(path, l.Drain[0].Outer, reach)
}

// partsNear are the walls and the deck near a part of the drain.
func partsNear(l *layout.Layout, over plan.Region) (near nearPart) {
	if len(over) == 0 {
		return near
	}
	for k, w := range l.Walls {
		if meets([]plan.Point{w.A, w.B}, over[0].Outer, besideMM) {
			near.walls = append(near.walls, k)
		}
	}
	around := closed(over[0].Outer)
	for k, part := range l.Deck {
		if meets(around, part, besideMM) {
			near.deck = append(near.deck, k)
		}
	}
	return near
}

// closed is a ring as a path that ends where it began.
func closed(r plan.Ring) []plan.Point { return append(append([]plan.Point(nil), r...), r[0]) }

// planPath is the middle of a piece's body in plan; a drop takes the room its bend needs.
func (m *Measurer) planPath(p *waste.Piece) []plan.Point {
	if p.Kind != waste.Drop {
		return p.BodyPath()
	}
	r := &m.Heights.Run
	return []plan.Point{r.Exit.Sub(r.ExitTo.Mul(p.Pipe.Bend90FaceMM)), r.Exit}
}

// leavesThrough tells whether a piece goes out through a wall, given by its index, in the hole that is made there: the pipe,
// or the trap's joint on it, where that is no larger than the pipe with the room left round it.
func (m *Measurer) leavesThrough(p *waste.Piece, wall int) bool {
	r := &m.Heights.Run
	if r.Wall != wall+1 || p.ToMM <= r.InRoomMM()-joinMM {
		return false
	}
	if p.Kind == waste.Joint {
		return p.OutsideMM <= r.Outgoing().OutsideDiameterMM+2*m.Settled.Waste.HoleRoomMM
	}
	return m.pair(kindOf(p), clash.Wall).Through
}

// endsIn tells whether a piece, by its index, is the last of a run that joins a stack.
func (m *Measurer) endsIn(piece, stack int) bool {
	e := m.Settled.Waste.Exit
	return piece == len(m.Heights.Run.Pieces)-1 && e.Kind == job.ExitStack && e.Stack == stack
}

// joinMM is within what length along the run places count as one.
const joinMM = 1e-6

// beside tells whether a path comes within a distance of a joist's sides, however
// long the joist is.
func beside(js *layout.Joist, path []plan.Point, reachMM float64) bool {
	from, to := math.Inf(1), math.Inf(-1)
	across := plan.Left(js.Along)
	for _, q := range path {
		v := q.Sub(js.Origin).Dot(across)
		from, to = min(from, v), max(to, v)
	}
	return from <= js.WidthMM/2+reachMM && to >= -js.WidthMM/2-reachMM
}

// passes tells whether the middle of a piece goes into a joist in plan: it is
// then a cut, or over or under it.
func passes(js layout.Joist, p *waste.Piece) bool {
	for i := 1; i < len(p.Path); i++ {
		if _, _, ok := js.Crosses(p.Path[i-1], p.Path[i]); ok {
			return true
		}
	}
	return false
}

// clearOf tells whether a path stays farther than a distance from a region's edges.
func clearOf(r plan.Region, path []plan.Point, reachMM float64) bool {
	for _, p := range r {
		for _, ring := range p.Rings() {
			if within(path, closed(ring), reachMM) {
				return false
			}
		}
	}
	return true
}

// within tells whether two paths come nearer to each other in plan than a reach.
func within(a, b []plan.Point, reachMM float64) bool {
	if !boxesWithin(a, b, reachMM) {
		return false
	}
	for i := 1; i < len(a); i++ {
		for k := 1; k < len(b); k++ {
			if boxesWithin(a[i-1:i+1], b[k-1:k+1], reachMM) && plan.Apart(a[i-1], a[i], b[k-1], b[k]) < reachMM {
				return true
			}
		}
	}
	return false
}

// boxesWithin tells whether the boxes round two paths come that near: a quick look
// that spares most of the others.
func boxesWithin(a, b []plan.Point, reachMM float64) bool {
	for axis := range 2 {
		lowA, highA := math.Inf(1), math.Inf(-1)
		for _, p := range a {
			lowA, highA = min(lowA, p[axis]), max(highA, p[axis])
		}
		lowB, highB := math.Inf(1), math.Inf(-1)
		for _, p := range b {
			lowB, highB = min(lowB, p[axis]), max(highB, p[axis])
		}
		if lowA > highB+reachMM || lowB > highA+reachMM {
			return false
		}
	}
	return true
}

// meets tells whether a path comes nearer to a convex ring than a distance.
func meets(path []plan.Point, ring plan.Ring, reachMM float64) bool {
	if len(path) == 0 || !boxesWithin(path, ring, reachMM) {
		return false
	}
	return (plan.Region{{Outer: ring}}).Contains(path[0], 0) || within(path, closed(ring), reachMM)
}
