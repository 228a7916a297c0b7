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
		m.add("pipe.boxed", of(rule.WasteRun), boxedMM, m.onRun((longest.FromMM+longest.ToMM)/2))
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
