package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
)

// zoneOneReachMM is how far the special location of a shower without a tray reaches from
// the middle of its fixed head. Building Regulations 2010 (England), regulation 12, as
// Approved Document P prints it.
const zoneOneReachMM = 1200

// screens takes the way into the shower past its screens, and how they stand.
func (m *Measurer) screens() {
	l := &m.Layout
	floor := func(p plan.Point) float64 { return m.buildUp().FinishedMM(p) }
	if len(l.OpenEdges()) > 0 || m.Settled.Former.Fall != job.FallRoom {
		widest := layout.Way{A: l.DrainEdge, B: l.DrainEdge}
		for _, w := range l.Ways() {
			if w.WidthMM > widest.WidthMM+sameMM {
				widest = w
			}
		}
		// At the drain, as ways of one width are alike.
		m.add("shower.way-in", of(rule.TheShower), widest.WidthMM, l.DrainCentre.Vec3(m.Heights.TileMM))
	}
	for _, s := range l.Screens {
		at := s.A.Add(s.B).Mul(0.5)
		which := rule.Subject{Of: rule.Screen, Number: s.Index + 1}
		m.add("screen.off-edge", which, math.Max(0, math.Max(s.OffMM, s.OverMM)), at.Vec3(floor(at)))
		if len(s.Sweep) == 0 {
			continue
		}
		blocked := s.Sweep.Area() - plan.SharedArea(s.Sweep, l.Room)
		for _, d := range l.Doors {
			if len(d.Sweep) > 0 {
				blocked = math.Max(blocked, plan.SharedArea(s.Sweep, d.Sweep))
			}
		}
		blocked = math.Max(blocked, m.standsBefore(s))
		m.add("screen.sweep-blocked", which, math.Max(0, blocked), at.Vec3(floor(at)))
		gap, place := m.screenLeafGap(s)
		m.add("screen.leaf-gap", which, gap, place.Vec3(floor(place)))
	}
}

// screenLeafGap is the least height between the lower edge of the leaf of a screen's door and
// the floor that it passes over, and where.
//
// Method: the edge is straight between its corners and floors are highest over corners of what
// carries them or straight, so that under a leaf at some angle the least is at a corner of its
// edge; angles are looked at by steps of 2°.
func (m *Measurer) screenLeafGap(s layout.Screen) (gap float64, at plan.Point) {
	const steps = 45
	of := &m.Settled.Shower.Screens[s.Index]
	foot := m.Heights.GlassOf(&m.Settled, &m.Layout, &s).Foot
	hinge, free := foot[0].At, foot[len(foot)-1].At
	if of.HingeAtEnd {
		hinge, free = free, hinge
	}
	u, v := free.Sub(hinge).Normalize(), s.Out
	if of.OpensIn {
		v = s.Out.Mul(-1)
	}
	gap, at = math.Inf(1), hinge
	for k := range steps + 1 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(k) / steps)
		for _, f := range foot {
			r := f.At.Sub(hinge).Len()
			p := hinge.Add(u.Mul(r * cos)).Add(v.Mul(r * sin))
			if !m.Layout.Room.Contains(p, 0) {
				continue
			}
			if g := f.LevelMM - m.buildUp().FinishedMM(p); g < gap-plan.HairMM {
				gap, at = g, p
			}
		}
	}
	return gap, at
}

// standsBefore is the most that one stack, or one fixture or box as high as the leaf, takes of the
// floor that the leaf of a screen's door passes over.
func (m *Measurer) standsBefore(s layout.Screen) (mm2 float64) {
	l, h, j := &m.Layout, &m.Heights, &m.Settled
	of := j.Shower.Screens[s.Index]
	on := math.Max(h.ShowerAt(l, s.A), h.ShowerAt(l, s.B))
	top := on + of.HeightMM
	if kerb, ok := h.KerbTop(j, l); ok {
		on = kerb
	}
	for _, o := range m.obstacles() {
		box := plan.FromRing(o.ring)
		floor := h.RoomAt(j, box.Centroid())
		if floor+o.underMM < top && floor+o.topMM > on+of.GapMM {
			mm2 = math.Max(mm2, plan.SharedArea(box, s.Sweep))
		}
	}
	for _, x := range l.Stacks {
		mm2 = math.Max(mm2, plan.SharedArea(plan.FromRing(plan.Circle(x.At, x.RadiusMM, solid.ChordErrorMM)), s.Sweep))
	}
	return mm2
}

// kerb takes how high it comes, and what it leaves of the drain.
func (m *Measurer) kerb() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	kerb := of(rule.ShowerKerb)
	top, ok := h.KerbTop(j, l)
	if !ok {
		if j.Shower.Kerb != nil {
			m.add("kerb.idle", kerb, 1, l.DrainCentre.Vec3(h.TileMM))
		}
		return
	}
	at := l.DrainCentre.Vec3(top)
	m.add("kerb.over-drain", kerb, top-h.TileMM, at)
	m.add("caution.kerb", kerb, 1, at)
	if sides, foot, ok := m.tankedOver(top); ok {
		m.add("kerb.under-tanking", kerb, sides, foot.Vec3(top))
	}
	gap, place := math.Inf(1), at
	for _, e := range l.OpenEdges() {
		along, in := e.B.Sub(e.A).Normalize(), l.Outward(e).Mul(-1)
		from, to := l.Drain.Reach(along)
		if from -= e.A.Dot(along); from > e.LengthMM()-sameMM || to-e.A.Dot(along) < sameMM {
			continue
		}
		near, _ := l.Drain.Reach(in)
		near -= e.A.Dot(in)
		if g := near - j.Shower.Kerb.WidthMM; g < gap {
			middle := (math.Max(0, from) + math.Min(e.LengthMM(), to-e.A.Dot(along))) / 2
			gap, place = g, e.A.Add(along.Mul(middle)).Add(in.Mul(near)).Vec3(h.TileMM)
		}
	}
	if !math.IsInf(gap, 1) {
		m.add("kerb.drain-gap", kerb, gap, place)
	}
}

// tankedOver is how far over a level the walls of the shower are tanked, and a foot of
// theirs; ok is false for a shower without walls.
func (m *Measurer) tankedOver(levelMM float64) (mm float64, foot plan.Point, ok bool) {
	_, foot, ok = m.tankedWalls()
	to := m.Heights.TileMM
	if m.Settled.Layers.Wall.Tanking.ThicknessMM > 0 {
		to = math.Min(m.Settled.Room.HeightMM, to+m.Settled.Layers.TankedToMM())
	}
	return to - levelMM, foot, ok
}

// head takes how near the rose is to where water and people go.
func (m *Measurer) head() {
	h, l := m.Settled.Shower.Head, &m.Layout
	if h == nil {
		return
	}
	at := h.At.Vec3(m.buildUp().FinishedMM(h.At) + h.HeightMM)
	m.add("head.off-shower", of(rule.ShowerHead), offRegion(l.FallArea, h.At), at)
	open, edge := math.Inf(1), math.Inf(1)
	if m.Settled.Former.Fall == job.FallRoom {
		for _, d := range l.Doors {
			open = math.Min(open, plan.DistanceToSegment(h.At, d.A, d.B))
		}
		edge = open
	} else {
		for _, w := range l.Unscreened() {
			open = math.Min(open, plan.DistanceToSegment(h.At, w.A, w.B))
		}
		for _, e := range l.OpenEdges() {
			edge = math.Min(edge, plan.DistanceToSegment(h.At, e.A, e.B))
		}
	}
	if !math.IsInf(open, 1) {
		m.add("head.to-open", of(rule.ShowerHead), open, at)
	}
	if !math.IsInf(edge, 1) {
		m.add("head.zone-past", of(rule.ShowerHead), math.Max(0, zoneOneReachMM-edge), at)
	}
}

// offRegion is how far a place lies outside a region; nought within.
func offRegion(r plan.Region, p plan.Point) float64 {
	if r.Contains(p, 0) {
		return 0
	}
	return r.EdgeMM(p)
}
