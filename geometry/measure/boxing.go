package measure

import (
	"math"

	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// boxed measures what of the run is boxed in, given how much of it lies bare, and what the
// box stands in the way of: doorways, leaves of doors and fixtures. It gives what is left
// bare.
func (m *Measurer) boxed(bareMM float64) (leftMM float64) {
	if bareMM <= joinMM {
		m.add("pipe.boxed", of(rule.WasteRun), 0, m.onRun(0))
		return bareMM
	}
	boxes := m.Heights.Boxes(&m.Settled, &m.Layout)
	boxedMM, longest := 0.0, level.Box{}
	for _, b := range boxes {
		boxedMM += b.ToMM - b.FromMM
		if b.ToMM-b.FromMM > longest.ToMM-longest.FromMM {
			longest = b
		}
	}
	if len(boxes) > 0 {
		out := m.add("pipe.boxed", of(rule.WasteRun), boxedMM, m.onRun((longest.FromMM+longest.ToMM)/2))
		out.Lies = m.lies(longest.FromMM, longest.ToMM, 2*longest.HalfMM(), longest.TopMM())
	}
	m.boxesByDoors(boxes)
	m.boxesByFixtures(boxes)
	return max(0, bareMM-boxedMM)
}

// boxesByDoors measures how much of each doorway's width boxes stand before, and how much of
// the sweep of its leaf they take that are higher than its underside.
func (m *Measurer) boxesByDoors(boxes []level.Box) {
	for k := range m.Layout.Doors {
		d := &m.Layout.Doors[k]
		doorway := &m.Settled.Room.Doorways[d.Index]
		leaf := doorway.NeighbourFFLMM + doorway.LeafGapMM
		taken, swept := plan.Interval{From: math.Inf(1), To: math.Inf(-1)}, 0.0
		for i := range boxes {
			for _, leg := range boxes[i].Legs() {
				if by, ok := beforeDoor(d, leg); ok {
					taken.From, taken.To = min(taken.From, by.From), max(taken.To, by.To)
				}
				if boxes[i].TopMM() > leaf {
					swept = max(swept, plan.SharedArea(plan.FromRing(leg), d.SweepRoom))
				}
			}
		}
		doorOf, at := rule.Subject{Of: rule.Doorway, Number: d.Index + 1}, d.Middle().Vec3(doorway.NeighbourFFLMM)
		m.add("boxing.before-doorway", doorOf, max(0, taken.To-taken.From), at)
		m.add("boxing.in-sweep", doorOf, swept, at)
	}
}

// boxesByFixtures measures how much of the place of each fixture boxes take that reach up
// to it.
func (m *Measurer) boxesByFixtures(boxes []level.Box) {
	for k, ring := range m.Layout.Fixtures {
		place, taken := plan.FromRing(ring), 0.0
		under := m.Heights.RoomAt(&m.Settled, place.Centroid()) + m.Settled.Room.Fixtures[k].UnderMM
		for i := range boxes {
			for _, leg := range boxes[i].Legs() {
				if boxes[i].TopMM() > under {
					taken = max(taken, plan.SharedArea(plan.FromRing(leg), place))
				}
			}
		}
		m.add("boxing.in-fixture", rule.Subject{Of: rule.Fixture, Number: k + 1}, taken, place.Centroid().Vec3(under))
	}
}

// lies is how a stretch of the run, or its box, lies in the room: so wide, its top at a level.
func (m *Measurer) lies(fromMM, toMM, wideMM, topMM float64) rule.Lies {
	r := &m.Heights.Run
	a, b := r.PointAt(fromMM), r.PointAt(toMM)
	middle, along := r.PointAt((fromMM+toMM)/2), b.Sub(a)
	out := rule.Lies{WideMM: wideMM, HighMM: topMM - m.Heights.RoomAt(&m.Settled, middle)}
	if along.Len() < joinMM {
		return out
	}
	along = along.Normalize()
	const aslant, nearMM = 0.02, 1000 // a wall farther off tells nobody where it is
	best := float64(nearMM)
	for i := range m.Layout.Walls {
		w := &m.Layout.Walls[i]
		at := middle.Sub(w.A).Dot(w.Along)
		if math.Abs(plan.Cross(w.Along, along)) > aslant || at < 0 || at > w.LengthMM {
			continue
		}
		if far := math.Abs(middle.Sub(w.A).Dot(w.Outward)); far < best {
			best, out.Wall, out.Called, out.FromWallMM = far, w.Letter, w.Called, far
		}
	}
	return out
}
