package measure

import (
	"math"

	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// StandingInMM is how far from the shower's sides people stand. Common practice, no
// source.
const StandingInMM = 300

// headroom measures from finished floor to ceiling: where people stand in the shower, in
// doorways, and the least there is anywhere in the shower.
//
// Method: the ceiling is the lowest of planes, the falling floor the highest, so the
// height between them is least at a corner of any convex part of the plan. Exact.
func (m *Measurer) headroom() {
	h, l := &m.Heights, &m.Layout
	shower := func(p plan.Point) float64 { return l.CeilingAt(p) - h.ShowerAt(l, p) }
	// At several corners that are as low, the place is in their middle.
	least := func(corners []plan.Point) (mm float64, at plan.Point) {
		mm = math.Inf(1)
		n := 0.0
		for _, p := range corners {
			switch z := shower(p); {
			case z < mm-sameMM:
				mm, at, n = z, p, 1
			case z < mm+sameMM:
				at, n = at.Mul(n/(n+1)).Add(p.Mul(1/(n+1))), n+1
			}
		}
		return mm, at
	}
	mm, at := least(standing(l.Corners))
	m.add("room.headroom", of(rule.TheShower), mm, at.Vec3(h.ShowerAt(l, at)))
	var corners []plan.Point
	for _, p := range l.FallArea {
		corners = append(corners, p.Outer...)
	}
	if mm, at = least(corners); len(corners) > 0 {
		m.add("shower.ceiling", of(rule.TheShower), mm, at.Vec3(h.ShowerAt(l, at)))
	}
	if head := m.Settled.Shower.Head; head != nil {
		floor := m.buildUp().FinishedMM(head.At)
		m.add("head.under-ceiling", of(rule.ShowerHead), l.CeilingAt(head.At)-floor-head.HeightMM, head.At.Vec3(floor+head.HeightMM))
	}
	for _, d := range l.Doors {
		in := d.Wall.Outward.Mul(-0.5)
		doorway, subject := m.Settled.Room.Doorways[d.Index], rule.Subject{Of: rule.Doorway, Number: d.Index + 1}
		at, mm, floor := d.Middle().Vec3(doorway.NeighbourFFLMM), math.Inf(1), doorway.NeighbourFFLMM
		for _, p := range []plan.Point{d.A.Add(in), d.B.Add(in)} {
			finished := m.buildUp().FinishedMM(p)
			mm, floor = min(mm, l.CeilingAt(p)-finished), max(floor, finished)
		}
		m.add("room.headroom", subject, mm, at)
		// The opening is as high over the floor beyond as it was made.
		m.add("doorway.height", subject, doorway.NeighbourFFLMM+doorway.HeightMM-floor, at)
	}
}

// standing is where people stand in a shower of some corners.
func standing(c [4]plan.Point) []plan.Point {
	across, deep := c[1].Sub(c[0]), c[3].Sub(c[0])
	in := func(side plan.Point) plan.Point {
		return side.Normalize().Mul(math.Min(StandingInMM, side.Len()/2))
	}
	u, v := in(across), in(deep)
	return []plan.Point{c[0].Add(u).Add(v), c[1].Sub(u).Add(v), c[2].Sub(u).Sub(v), c[3].Add(u).Sub(v)}
}
