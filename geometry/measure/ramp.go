package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
)

// ramps measures the ramp at each open edge: its slope and length, the room there is for
// it, and the doors that sweep over it.
func (m *Measurer) ramps() {
	h, l := &m.Heights, &m.Layout
	if h.RampSlope <= 0 {
		return
	}
	for i, e := range l.OpenEdges() {
		r := m.rampAt(i)
		if r.riseMM <= 0 {
			continue
		}
		edge := rule.Subject{Of: rule.OpenEdge, Number: i + 1, Which: e.Side.Edge().ID}
		at := e.Middle().Vec3(h.ShowerAt(l, e.Middle()))
		m.add("step.ramp", edge, r.slope, at)
		if m.Pack.Ramps.Any() {
			needs := h.RampRunAt(&m.Settled, l, i, r.riseMM/m.Pack.Ramps.RunMM(r.riseMM))
			has := h.RampRunAt(&m.Settled, l, i, r.slope)
			short := m.add("ramp.short-by", edge, max(0, needs-has), at)
			short.NeedsMM, short.HasMM = needs, has
		}
		byWall := rule.Subject{Of: rule.RampByWall, Number: int(l.Walls[r.wall].Letter), Which: e.Side.At()}
		room := m.add("ramp.room-short-by", byWall, max(0, r.shortMM), at)
		room.NeedsMM, room.HasMM = r.shortMM+r.roomMM, r.roomMM
		if lip := level.RampLipMM(&m.Settled); lip > 0 {
			m.add("ramp.foot-lip", edge, lip, at)
		}
	}
	m.rampsUnderLeaves()
	m.rampsUnderFixtures()
	m.rampSides()
}

// edgeRamp is the ramp at one open edge: its steepest slope, the highest it climbs, by
// how much it is longer than the room there is where that is least, and to which wall, by
// its index.
type edgeRamp struct {
	slope, riseMM, shortMM, roomMM float64
	wall                           int
}

// rampAt is the ramp at an open edge, by its index, as long as it is laid; without rise
// where there is none.
func (m *Measurer) rampAt(edge int) edgeRamp {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	r := edgeRamp{shortMM: math.Inf(-1)}
	for i := range l.Ramps {
		s := l.Ramps[i].Slopes[0]
		if s.Edge != edge || len(l.Ramps[i].Slopes) > 1 {
			continue
		}
		r.slope = max(r.slope, h.RampPlane(l, s).Gradient())
		before := m.rampRooms()[i]
		for k, p := range before.from {
			over := h.ShowerAt(l, p) - h.RampFootAt(j, p)
			if over <= 0 {
				continue
			}
			r.riseMM = max(r.riseMM, over)
			room := before.roomMM[k]
			if short := h.RampRunMM(j, l, s, p) - room; short > r.shortMM {
				r.shortMM, r.roomMM, r.wall = short, room, before.wall[k]
			}
		}
	}
	return r
}

// rampRoom is how far it is from the ends and the middle of a slope's tile line to the
// room's wall, and which wall that is, by its index.
type rampRoom struct {
	from   [3]plan.Point
	roomMM [3]float64
	wall   [3]int
}

// rampRooms are those before the first slope of each ramp.
func (m *Measurer) rampRooms() []rampRoom {
	p := &m.plan
	if len(p.rampRooms) != len(m.Layout.Ramps) {
		p.rampRooms = p.rampRooms[:0]
		for i := range m.Layout.Ramps {
			s := m.Layout.Ramps[i].Slopes[0]
			before := rampRoom{from: [3]plan.Point{s.From, s.From.Add(s.To).Mul(0.5), s.To}}
			for k, from := range before.from {
				before.roomMM[k], before.wall[k] = m.rampRoomMM(s, from)
			}
			p.rampRooms = append(p.rampRooms, before)
		}
	}
	return p.rampRooms
}

// rampRoomMM is how far it is from a point of a slope's tile line, straight away from the
// edge, to the room's wall, and which wall that is.
func (m *Measurer) rampRoomMM(s layout.RampSlope, from plan.Point) (mm float64, wall int) {
	// Off the wall that an end of the edge stands at.
	const leastMM = 1
	middle := s.From.Add(s.To).Mul(0.5)
	if off := middle.Sub(from); off.Len() > leastMM {
		from = from.Add(off.Normalize().Mul(min(level.OffEndMM, off.Len())))
	}
	for _, iv := range m.Layout.Room.Clip(from, s.Down) {
		if iv.To > leastMM {
			mm = max(0, iv.To)
			break
		}
	}
	end, nearest := from.Add(s.Down.Mul(mm)), math.Inf(1)
	for _, w := range m.Layout.Walls {
		if off := plan.DistanceToSegment(end, w.A, w.B); off < nearest-sameMM {
			nearest, wall = off, w.Index
		}
	}
	return mm, wall
}

// headClearMM is what is to be clear over a ramp for whoever walks it. Approved Document K
// (England), 1.11 and 1.12, asks it over stairs and ramps.
const headClearMM = 2000

// rampsUnderFixtures measures how much of a ramp lies where each fixture stands, or hangs
// too low to be walked under.
func (m *Measurer) rampsUnderFixtures() {
	for i, ring := range m.Layout.Fixtures {
		f, box := m.Settled.Room.Fixtures[i], plan.FromRing(ring)
		if f.UnderMM >= headClearMM {
			continue
		}
		area := 0.0
		for _, facet := range m.rampFacets() {
			area += plan.SharedArea(facet.Region, box)
		}
		at := box.Centroid()
		fixture := rule.Subject{Of: rule.Fixture, Number: i + 1}
		for _, kind := range job.FixtureKinds().Choices {
			if kind.Value == f.Kind {
				fixture.Which = kind.Word()
			}
		}
		m.add("ramp.under-fixture", fixture, area, at.Vec3(m.buildUp().FinishedMM(at)))
	}
}

// rampSides measures how high a ramp stands over the room's floor where it ends square
// beside a pane, at the edge, where that is most.
func (m *Measurer) rampSides() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	for _, x := range l.Screens {
		side, at := 0.0, x.A
		for _, end := range l.RampsBeside(x) {
			if over := h.ShowerAt(l, end) - h.RampFootAt(j, end); over > side {
				side, at = over, end
			}
		}
		if side > 0 {
			m.add("ramp.open-side", rule.Subject{Of: rule.Screen, Number: x.Index + 1}, side, at.Vec3(h.ShowerAt(l, at)))
		}
	}
}

// rampsUnderLeaves measures how much of a ramp each door's leaf sweeps over.
func (m *Measurer) rampsUnderLeaves() {
	for k := range m.Layout.Doors {
		d := &m.Layout.Doors[k]
		if len(d.SweepRoom) == 0 {
			continue
		}
		area := 0.0
		for _, z := range m.buildUp().Zones {
			if z.Edge >= 0 {
				area += plan.SharedArea(z.Region, d.SweepRoom)
			}
		}
		p := d.Middle()
		m.add("ramp.under-leaf", rule.Subject{Of: rule.Doorway, Number: d.Index + 1}, area, p.Vec3(m.Settled.Room.Doorways[d.Index].NeighbourFFLMM))
	}
}

// highestUnder is the highest a ramp stands within a doorway's sweep and where; nothing
// where no ramp does. Planes are highest over a corner: of the sweep, of the ramp, or
// where their outlines cross.
func (m *Measurer) highestUnder(d *layout.Doorway, seen func(at plan.Point, levelMM float64)) {
	for _, z := range m.buildUp().Zones {
		if z.Edge < 0 || plan.SharedArea(z.Region, d.SweepRoom) <= 0 {
			continue
		}
		top := z.Top()
		for _, ramp := range z.Region {
			for _, sweep := range d.SweepRoom {
				for _, p := range cornersOfBoth(ramp.Outer, sweep.Outer) {
					seen(p, top.At(p))
				}
			}
		}
	}
}

// cornersOfBoth are the corners of what two outlines share.
func cornersOfBoth(a, b plan.Ring) []plan.Point {
	var out []plan.Point
	within := func(of, in plan.Ring) {
		region := plan.Region{{Outer: in}}
		for _, p := range of {
			if region.Contains(p, joinMM) {
				out = append(out, p)
			}
		}
	}
	within(a, b)
	within(b, a)
	for i, p := range a {
		u := a[(i+1)%len(a)].Sub(p)
		for k, q := range b {
			v := b[(k+1)%len(b)].Sub(q)
			if s, t, ok := plan.MeetLines(p, u, q, v); ok && s > 0 && s < 1 && t > 0 && t < 1 {
				out = append(out, p.Add(u.Mul(s)))
			}
		}
	}
	return out
}

// rampFacets are the parts of the ramps.
func (m *Measurer) rampFacets() []level.RampFacet {
	if !m.faceted {
		m.facets, m.faceted = m.Heights.RampFacets(&m.Settled, &m.Layout), true
	}
	return m.facets
}

// underRamps is how much of what of a stretch stands bare over the room's floor lies
// within ramps, which are sawn for it: its crown, straight between two levels, over the
// floor and no higher than the ramps' mortar.
func (m *Measurer) underRamps(t *stretch, fromMM, toMM, bareMM float64) (covered float64) {
	length := t.toMM - t.fromMM
	if bareMM <= 0 || len(m.Layout.Ramps) == 0 {
		return 0
	}
	h, along := &m.Heights, t.to.Sub(t.from).Mul(1/length)
	finish := m.Settled.Layers.Room.ThicknessMM()
	for _, facet := range m.rampFacets() {
		for _, iv := range facet.Region.Clip(t.from, along) {
			a, b := max(0, iv.From), min(length, iv.To)
			if b-a <= joinMM {
				continue
			}
			over := func(s, finish float64, floor solid.Plane) float64 {
				return fromMM + (toMM-fromMM)*s/length - floor.At(t.from.Add(along.Mul(s))) + finish
			}
			covered += above(over(a, 0, h.Beside), over(b, 0, h.Beside), b-a) - above(over(a, finish, facet.Plane), over(b, finish, facet.Plane), b-a)
		}
	}
	return covered
}
