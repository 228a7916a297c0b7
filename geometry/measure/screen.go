package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
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
	if top, ok := m.Heights.KerbTop(&m.Settled, l); ok {
		m.add("kerb.over-drain", of(rule.ShowerKerb), top-m.Heights.TileMM, l.DrainCentre.Vec3(top))
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
		m.add("screen.sweep-blocked", which, math.Max(0, blocked), at.Vec3(floor(at)))
	}
}

// head takes how near the rose is to where water and people go.
func (m *Measurer) head() {
	h, l := m.Settled.Shower.Head, &m.Layout
	if h == nil {
		return
	}
	at := h.At.Vec3(m.buildUp().FinishedMM(h.At) + h.HeightMM)
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
