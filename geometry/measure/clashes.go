package measure

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
	"underfall/geometry/waste"
)

// besideMM is how much farther off than it must be a body is for the gap not to
// be worth a number.
const besideMM = 20

// pair is how two kinds are meant to lie to each other.
func (m *Measurer) pair(a, b clash.Kind) clash.Pair {
	if m.pairs == nil {
		m.pairs = clash.TableOf(clash.Pairs())
	}
	return m.pairs[a][b]
}

// hold measures how a body lies to what is in its way, unless they are far apart.
// A pair that is not meant to be apart gives no number, which no rule passes.
func (m *Measurer) hold(quantity string, pair clash.Pair, of rule.Subject, is clash.Meeting) {
	if pair.Meant != clash.Apart {
		is.GapMM = math.NaN()
	}
	if !(is.GapMM >= pair.ClearMM+besideMM) {
		m.add(quantity, of, is.GapMM, is.At)
	}
}

// clashes holds the run, the trap and the drain's channel against each other and
// against what is in their way. A pipe through a joist is measured as a cut; what
// leaves through wall or floor, with the exit; what stands on the floor, with the
// heights; the trap by a joist, with the trap.
func (m *Measurer) clashes() {
	m.findNear()
	trap, channel := m.trapBody(), m.channelBody()
	for i := range m.plan.near.pieces {
		p, near := &m.Heights.Run.Pieces[i], &m.plan.near.pieces[i]
		m.byJoists(p, near, i)
		kind := kindOf(p)
		if len(near.walls)+len(near.doors)+len(near.deck) > 0 {
			m.byRoom(p, near, i)
		}
		m.byStacks(p, near, i)
		for _, k := range near.pieces {
			o := &m.Heights.Run.Pieces[k]
			if is := nearestTo(m.bodies(i), m.bodies(k)); is.GapMM < besideMM {
				other := o.Name()
				m.hold("clash.run-gap", m.pair(kind, kindOf(o)), rule.Subject{Of: rule.PieceByPiece, Piece: p.Name(), Number: other.Number, Which: other.ID}, is)
			}
		}
		if near.trap && trap != nil {
			m.hold("clash.run-gap", m.pair(kind, clash.Trap), pieceBy(rule.PieceByTrap, p, 0), nearest(m.bodies(i), trap, besideMM))
		}
		if near.channel && channel != nil {
			m.hold("clash.run-gap", m.pair(kind, clash.Channel), pieceBy(rule.PieceByChannel, p, 0), nearest(m.bodies(i), channel, besideMM))
		}
	}
	m.drainByStructure(trap, channel)
	m.stacks(trap, channel)
	m.byFixtures()
}

// kindOf is what a piece of the run is to what is in its way.
func kindOf(p *waste.Piece) clash.Kind {
	if p.Kind == waste.Straight {
		return clash.Pipe
	}
	return clash.Fitting
}

// trapBody and channelBody are the trap and the drain's channel; nil where there
// is none.
func (m *Measurer) trapBody() *clash.Prism {
	m.makeDrain()
	if len(m.Layout.Trap) == 0 || m.Heights.TrapMM >= m.Heights.FlangeMM {
		return nil
	}
	return &m.room.trap
}

func (m *Measurer) channelBody() *clash.Prism {
	m.makeDrain()
	if len(m.Layout.Drain) == 0 || m.Heights.ChannelMM >= m.Heights.FlangeMM {
		return nil
	}
	return &m.room.channel
}

// makeDrain makes both bodies, once for a job.
func (m *Measurer) makeDrain() {
	if m.drainMade {
		return
	}
	m.drainMade = true
	h, l := &m.Heights, &m.Layout
	flange := solid.Plane{Level: h.FlangeMM}
	if len(l.Trap) > 0 {
		m.room.trap.Set(l.Trap[0].Outer, solid.Plane{Level: h.TrapMM}, flange)
	}
	if len(l.Drain) > 0 {
		m.room.channel.Set(l.Drain[0].Outer, solid.Plane{Level: h.ChannelMM}, flange)
	}
}

// drainByStructure holds the trap and the drain's channel against joists, floor,
// deck and walls.
func (m *Measurer) drainByStructure(trap, channel *clash.Prism) {
	h, l := &m.Heights, &m.Layout
	letIn := m.Settled.Base.Support == job.BetweenJoists
	if channel != nil {
		ring := l.Drain[0].Outer
		for _, js := range m.nearJoists(ring, h.ChannelMM, h.FlangeMM, besideMM) {
			m.hold("clash.drain-gap", m.pair(clash.Channel, clash.Joist), timberBy(rule.DrainChannelByJoist, js), channel.GapWithin(m.joistBody(js), besideMM))
		}
		if !letIn {
			m.hold("clash.drain-gap", m.pair(clash.Channel, m.floorKind()), of(rule.DrainChannelByFloor), channel.GapWithin(m.floorBody(ring), besideMM))
		}
	}
	m.partByRoom(clash.Trap, trap, &m.plan.near.trap, rule.TrapByWall, rule.TrapByDeck)
	m.partByRoom(clash.Channel, channel, &m.plan.near.channel, rule.DrainChannelByWall, rule.DrainChannelByDeck)
}

// partByRoom holds the trap or the drain's channel against walls and deck.
func (m *Measurer) partByRoom(kind clash.Kind, body *clash.Prism, near *nearPart, byWall, byDeck rule.Thing) {
	if body == nil {
		return
	}
	for _, k := range near.walls {
		m.hold("clash.wall-gap", m.pair(kind, clash.Wall), rule.Subject{Of: byWall, Number: int(m.Layout.Walls[k].Letter)}, body.GapWithin(m.plan.near.walls[k], besideMM))
	}
	worst := clash.Meeting{GapMM: math.Inf(1)}
	for _, k := range near.deck {
		if is := body.GapWithin(m.deckBody(k), min(besideMM, worst.GapMM)); is.GapMM < worst.GapMM {
			worst = is
		}
	}
	m.hold("clash.deck-gap", m.pair(kind, clash.Deck), of(byDeck), worst)
}

// floorKind is what the structural floor is.
func (m *Measurer) floorKind() clash.Kind {
	if m.Settled.Floor.Kind == job.FloorSlab {
		return clash.Slab
	}
	return clash.Deck
}

// byJoists holds a piece of the run against the joists near it that it does not
// pass through.
func (m *Measurer) byJoists(p *waste.Piece, near *nearPiece, i int) {
	if len(near.joists) == 0 {
		return
	}
	pair := m.pair(kindOf(p), clash.Joist)
	reach := pair.ClearMM + besideMM
	low, high := levels(p)
	for _, k := range near.joists {
		js := &m.Layout.Joists[k]
		if m.byHeight(js, p.BodyPath(), low, high, p.RadiusMM()+reach) {
			m.hold("clash.joist-gap", pair, pieceByTimber(rule.PieceByJoist, p, js), nearest(m.bodies(i), m.joistBody(js), reach))
		}
	}
}

// levels are the lowest and the highest level of a piece's body.
func levels(p *waste.Piece) (lowMM, highMM float64) {
	lowMM = min(p.FromInvertMM-p.BelowInvertMM(p.FromMM), p.ToInvertMM-p.BelowInvertMM(p.ToMM))
	highMM = max(p.FromInvertMM+p.AboveInvertMM(p.FromMM), p.ToInvertMM+p.AboveInvertMM(p.ToMM))
	return lowMM, highMM
}

// byRoom holds a piece of the run against walls, doorways and the deck near it, as
// far as it lies in the room or goes through the wall of its exit.
func (m *Measurer) byRoom(p *waste.Piece, near *nearPiece, i int) {
	bodies, kind := m.bodies(i), kindOf(p)
	run := &m.Heights.Run
	if p.ToMM > run.InRoomMM()+joinMM {
		for _, k := range near.doors {
			d := m.Layout.Doors[k]
			is := nearest(bodies, m.doorBody(d), besideMM)
			m.hold("clash.door-gap", m.pair(kind, clash.Doorway), pieceBy(rule.PieceByDoorway, p, d.Index+1), is)
		}
		if p.Kind == waste.Straight {
			// What is past the exit lies in the wall.
			inRoom := *p
			if inRoom.ToMM = run.InRoomMM(); inRoom.ToMM <= inRoom.FromMM+joinMM {
				return
			}
			inRoom.ToInvertMM = run.InvertAt(run.InRoomMM())
			inRoom.Path = []plan.Point{p.Path[0], run.PointAt(run.InRoomMM())}
			bodies = appendBodies(m.room.clipped[:0], &inRoom)
			m.room.clipped = bodies
		}
	}
	for _, k := range near.walls {
		m.hold("clash.wall-gap", m.pair(kind, clash.Wall), pieceBy(rule.PieceByWall, p, int(m.Layout.Walls[k].Letter)), nearest(bodies, m.plan.near.walls[k], besideMM))
	}
	if near.amidDeck {
		m.hold("clash.deck-gap", m.pair(kind, clash.Deck), pieceBy(rule.PieceByDeck, p, 0), m.byDeckAround(bodies))
		return
	}
	worst := clash.Meeting{GapMM: math.Inf(1)}
	for _, k := range near.deck {
		if is := nearest(bodies, m.deckBody(k), min(besideMM, worst.GapMM)); is.GapMM < worst.GapMM {
			worst = is
		}
	}
	m.hold("clash.deck-gap", m.pair(kind, clash.Deck), pieceBy(rule.PieceByDeck, p, 0), worst)
}

// byDeckAround holds bodies against a deck that reaches farther than they do on all
// sides: only its top and its underside are near.
func (m *Measurer) byDeckAround(bodies []clash.Cylinder) clash.Meeting {
	top := m.Heights.Survey.Floor
	under := top.Raised(-m.Settled.Floor.Deck.ThicknessMM)
	return clash.GapToLayer(bodies, under, top)
}

// doorBody is the opening of a doorway, through its wall.
func (m *Measurer) doorBody(d layout.Doorway) *clash.Prism {
	doorway := &m.Settled.Room.Doorways[d.Index]
	ffl := doorway.NeighbourFFLMM
	out := d.Wall.Outward.Mul(d.Wall.ThicknessMM)
	m.room.door.Set(plan.Ring{d.A, d.B, d.B.Add(out), d.A.Add(out)}, solid.Plane{Level: min(ffl, 0)}, solid.Plane{Level: ffl + doorway.HeightMM})
	return &m.room.door
}

// deckBody is a part of the deck that is left, by its index. It is good until the
// next job is begun.
func (m *Measurer) deckBody(k int) *clash.Prism {
	body, made := m.deckBodies.at(k, len(m.Layout.Deck))
	if !made {
		floor := m.Heights.Survey.Floor
		body.Set(m.Layout.Deck[k], floor.Raised(-m.Settled.Floor.Deck.ThicknessMM), floor)
	}
	return body
}

// nearJoists are the joists within reach of a path between two levels. They are
// good until the next are looked for.
func (m *Measurer) nearJoists(path []plan.Point, lowMM, highMM, reachMM float64) []*layout.Joist {
	out := m.room.nearJoists[:0]
	for i := range m.Layout.Joists {
		if js := &m.Layout.Joists[i]; beside(js, path, reachMM) && m.byHeight(js, path, lowMM, highMM, reachMM) {
			out = append(out, js)
		}
	}
	m.room.nearJoists = out
	return out
}

// byHeight tells whether what lies between two levels along a path is within
// reach of a joist's top and underside.
func (m *Measurer) byHeight(js *layout.Joist, path []plan.Point, lowMM, highMM, reachMM float64) bool {
	top, bottom := math.Inf(-1), math.Inf(1)
	for _, q := range path {
		z := joist.TopMM(&m.Settled, &m.Heights, js, q)
		top, bottom = max(top, z), min(bottom, z)
	}
	slack := m.Heights.Survey.Floor.Gradient() * reachMM
	return lowMM <= top+slack+reachMM && highMM >= bottom-slack-reachMM-m.Settled.Floor.Joists.DepthMM
}

// joistBody is a joist without its cuts. It is good until the next job is begun.
func (m *Measurer) joistBody(js *layout.Joist) *clash.Prism {
	body, made := m.joistBodies.at(js.Index, len(m.Layout.Joists))
	if made {
		return body
	}
	half := plan.Left(js.Along).Mul(js.WidthMM / 2)
	a, b := js.Origin.Add(js.Along.Mul(js.FromMM)), js.Origin.Add(js.Along.Mul(js.ToMM))
	from, to := joist.TopMM(&m.Settled, &m.Heights, js, a), joist.TopMM(&m.Settled, &m.Heights, js, b)
	top := solid.Through(a, from, js.Along, (to-from)/(js.ToMM-js.FromMM))
	body.Set(plan.Ring{a.Sub(half), b.Sub(half), b.Add(half), a.Add(half)}, top.Raised(-m.Settled.Floor.Joists.DepthMM), top)
	return body
}

// floorBody is what the base stands on about a part of the plan, so thick that what
// is in it comes out at its top.
func (m *Measurer) floorBody(about plan.Ring) *clash.Prism {
	const asideMM, thickMM = 1000, 10000
	low, high, _ := plan.Region{{Outer: about}}.Bounds()
	aside := plan.Point{asideMM, asideMM}
	low, high = low.Sub(aside), high.Add(aside)
	floor := m.Heights.Ground
	m.room.under.Set(plan.Ring{low, {high.X(), low.Y()}, high, {low.X(), high.Y()}}, floor.Raised(-thickMM), floor)
	return &m.room.under
}

// bodies are the cylinders that make up a piece of the run, by its index. They
// are good until the next job is begun.
func (m *Measurer) bodies(i int) []clash.Cylinder {
	bodies, made := m.pieceBodies.at(i, len(m.Heights.Run.Pieces))
	if !made {
		p := &m.Heights.Run.Pieces[i]
		if p.Kind == waste.Drop {
			*bodies = m.appendDrop((*bodies)[:0], p)
		} else {
			*bodies = appendBodies((*bodies)[:0], p)
		}
	}
	return *bodies
}

// appendBodies adds the cylinders that make up a piece of the run but a drop, as thick
// all along as its sockets; a bend has one for each side of its polygon, drawn on to meet
// its neighbours on the outside.
func appendBodies(out []clash.Cylinder, p *waste.Piece) []clash.Cylinder {
	path, radius := p.BodyPath(), p.RadiusMM()
	whole, at := 0.0, 0.0
	for i := 1; i < len(path); i++ {
		whole += path[i].Sub(path[i-1]).Len()
	}
	var last mgl64.Vec3
	for i, q := range path {
		if i > 0 {
			at += q.Sub(path[i-1]).Len()
		}
		share := 0.0
		if whole > 0 {
			share = at / whole
		}
		invert := p.FromInvertMM + (p.ToInvertMM-p.FromInvertMM)*share
		axis := q.Vec3(invert + (p.Pipe.BoreMM+(p.After.BoreMM-p.Pipe.BoreMM)*share)/2)
		if i > 0 {
			out = appendCylinder(out, last, axis, radius)
		}
		last = axis
	}
	return mitred(out)
}

// appendCylinder adds a cylinder unless it has no length.
func appendCylinder(out []clash.Cylinder, from, to mgl64.Vec3, radiusMM float64) []clash.Cylinder {
	if to.Sub(from).Len() <= joinMM {
		return out
	}
	return append(out, clash.Cylinder{From: from, To: to, RadiusMM: radiusMM})
}

// mitred draws cylinders that follow each other on until they meet on the outside.
func mitred(out []clash.Cylinder) []clash.Cylinder {
	var u mgl64.Vec3
	for i := range out {
		v := out[i].To.Sub(out[i].From).Normalize()
		if i > 0 {
			// The tangent of half the turn.
			on := out[i].RadiusMM * u.Cross(v).Len() / (1 + u.Dot(v))
			out[i-1].To = out[i-1].To.Add(u.Mul(on))
			out[i].From = out[i].From.Sub(v.Mul(on))
		}
		u = v
	}
	return out
}

// appendDrop adds the bend that turns the run down at an exit through the floor,
// and the pipe down from it.
func (m *Measurer) appendDrop(out []clash.Cylinder, p *waste.Piece) []clash.Cylinder {
	r := &m.Heights.Run
	deep, _ := p.Sockets()
	radius := p.Pipe.Bend90FaceMM - deep
	axis := p.FromInvertMM + p.Pipe.BoreMM/2
	start := r.Exit.Sub(r.ExitTo.Mul(radius))
	const steps, downMM = 12, 3000
	last := start.Vec3(axis)
	out = appendCylinder(out, start.Sub(r.ExitTo.Mul(deep)).Vec3(axis), last, p.RadiusMM())
	for k := 1; k <= steps; k++ {
		s, c := math.Sincos(math.Pi / 2 * float64(k) / steps)
		next := start.Add(r.ExitTo.Mul(radius * s)).Vec3(axis - radius*(1-c))
		out = appendCylinder(out, last, next, p.RadiusMM())
		last = next
	}
	return mitred(appendCylinder(out, last, r.Exit.Vec3(axis-radius-downMM), p.RadiusMM()))
}

// dropInJoist is how much closer to a joist than it may the drop at the run's end
// comes; not a number where they are not meant to be apart.
func (m *Measurer) dropInJoist() float64 {
	due := m.pair(clash.Fitting, clash.Joist)
	if due.Meant != clash.Apart {
		return math.NaN()
	}
	i := len(m.Heights.Run.Pieces) - 1
	drop, overlap := &m.Heights.Run.Pieces[i], 0.0
	_, top := levels(drop)
	for _, js := range m.nearJoists(m.planPath(drop), math.Inf(-1), top, drop.RadiusMM()+besideMM) {
		overlap = max(overlap, due.ClearMM-nearest(m.bodies(i), m.joistBody(js), due.ClearMM).GapMM)
	}
	return overlap
}

// nearest holds bodies against a prism and gives the worst that is less than a
// gap; an endless one where there is none.
func nearest(bodies []clash.Cylinder, p *clash.Prism, lessThanMM float64) clash.Meeting {
	worst := clash.Meeting{GapMM: math.Inf(1)}
	var room [32]float64
	bounds, first := room[:0], 0
	for i := range bodies {
		bounds = append(bounds, bodies[i].AtLeast(p))
		if bounds[i] < bounds[first] {
			first = i
		}
	}
	// The one with the least bound comes first: it mostly spares the others.
	for k := range bodies {
		i := (first + k) % len(bodies)
		if bounds[i] < min(worst.GapMM, lessThanMM) {
			if g := bodies[i].Gap(p); g.GapMM < worst.GapMM {
				worst = g
			}
		}
	}
	return worst
}

// nearestTo holds bodies against other bodies.
func nearestTo(bodies, others []clash.Cylinder) clash.Meeting {
	worst := clash.Meeting{GapMM: math.Inf(1)}
	for i := range bodies {
		for k := range others {
			if is := bodies[i].GapTo(&others[k]); is.GapMM < worst.GapMM {
				worst = is
			}
		}
	}
	return worst
}

// studOverlap is how far the run reaches into a stud of the wall it leaves
// through; 0 when it is clear.
func (m *Measurer) studOverlap(w layout.Wall, wall job.Wall) float64 {
	r := &m.Heights.Run
	overlap := 0.0
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if p.ToMM <= r.InRoomMM()+joinMM && r.LengthMM > r.InRoomMM()+joinMM {
			continue
		}
		if m.pair(kindOf(p), clash.Stud).Meant != clash.Apart {
			return math.NaN()
		}
		from, to := math.Inf(1), math.Inf(-1)
		for _, at := range []float64{max(p.FromMM, r.InRoomMM()), p.ToMM} {
			s := r.PointAt(at).Sub(w.A).Dot(w.Along)
			from, to = min(from, s), max(to, s)
		}
		reach := p.RadiusMM() + wall.StudWidthMM/2
		first := max(0, math.Ceil((from-reach-wall.FirstStudMM)/wall.StudSpacingMM))
		for k := first; wall.FirstStudMM+k*wall.StudSpacingMM <= to+reach; k++ {
			a, b := w.At(wall.FirstStudMM+k*wall.StudSpacingMM-wall.StudWidthMM/2), w.At(wall.FirstStudMM+k*wall.StudSpacingMM+wall.StudWidthMM/2)
			out := w.Outward.Mul(w.ThicknessMM)
			m.room.stud.Set(plan.Ring{a, b, b.Add(out), a.Add(out)}, solid.Plane{Level: -wallUpAndDownMM}, solid.Plane{Level: wallUpAndDownMM})
			overlap = max(overlap, -nearest(m.bodies(i), &m.room.stud, 0).GapMM)
		}
	}
	return overlap
}
