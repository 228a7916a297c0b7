package measure

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/buildup"
	"underfall/geometry/clash"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
)

// fixtures measures what fixtures stand in the way of: shower, doorways, door leaves, each
// other and the room itself, and the room that they leave to turn in.
func (m *Measurer) fixtures() {
	l, r := &m.Layout, &m.Settled.Room
	for i, ring := range l.Fixtures {
		f, box := r.Fixtures[i], plan.FromRing(ring)
		at := box.Centroid().Vec3(m.buildUp().FinishedMM(box.Centroid()) + f.UnderMM)
		fixture := rule.Subject{Of: rule.Fixture, Number: i + 1}
		m.add("fixture.in-shower", fixture, plan.SharedArea(box, l.Shower), at)
		m.add("fixture.off-floor", fixture, max(0, box.Area()-plan.SharedArea(box, l.Room)), at)
		others := 0.0
		for k, o := range l.Fixtures[:i] {
			if g := r.Fixtures[k]; f.UnderMM < g.UnderMM+g.HeightMM && g.UnderMM < f.UnderMM+f.HeightMM {
				others = max(others, plan.SharedArea(box, plan.FromRing(o)))
			}
		}
		m.add("fixture.overlap", fixture, others, at)
		before, swept := 0.0, 0.0
		for _, d := range l.Doors {
			if door := r.Doorways[d.Index]; door.Wall == f.Wall && f.UnderMM < door.HeightMM {
				before = max(before, min(f.OffsetMM+f.WidthMM, door.OffsetMM+door.WidthMM)-max(f.OffsetMM, door.OffsetMM))
			}
			if f.UnderMM < r.Doorways[d.Index].HeightMM && len(d.Sweep) > 0 {
				swept = max(swept, plan.SharedArea(box, d.Sweep))
			}
		}
		m.add("fixture.in-doorway", fixture, before, at)
		m.add("fixture.in-sweep", fixture, swept, at)
	}
	m.passages()
	if m.Settled.Accessible {
		// There may be many places for it: the middle of the room stands for them.
		at := l.Room.Centroid()
		m.add("room.turning-circle", of(rule.RoomFloor), m.turningCircleMM(), at.Vec3(m.buildUp().FinishedMM(at)))
	}
}

// passageDeepMM is how far into the room one must come through a doorway before one can
// turn aside. Common practice, no source.
const passageDeepMM = 600

// passages measures the widest way straight in that what stands in the room leaves at each
// doorway; fixtures at its own wall stand in it or beside it.
func (m *Measurer) passages() {
	l, r := &m.Layout, &m.Settled.Room
	standing := m.obstacles()
	for k := range l.Doors {
		d := &l.Doors[k]
		door := r.Doorways[d.Index]
		taken := leafTakes(d, &door)
		for _, s := range standing {
			if s.wall == door.Wall || s.underMM >= door.HeightMM {
				continue
			}
			if by, ok := beforeDoor(d, s.ring); ok {
				taken = append(taken, by)
			}
		}
		slices.SortFunc(taken, func(a, b plan.Interval) int { return cmp.Compare(a.From, b.From) })
		widest, passed := 0.0, 0.0
		for _, by := range taken {
			widest, passed = max(widest, by.From-passed), max(passed, by.To)
		}
		widest = max(widest, door.WidthMM-passed)
		doorOf, middle := rule.Subject{Of: rule.Doorway, Number: d.Index + 1}, d.Middle()
		if door.Leaf.Slides() {
			m.add("doorway.slide-short", doorOf, d.SlideShortMM(&door), middle.Vec3(door.NeighbourFFLMM))
		}
		m.add("doorway.passage", doorOf, widest, middle.Vec3(m.buildUp().FinishedMM(buildup.DoorPoint(*d))))
	}
}

// leafTakes is what of a doorway's width, from its start, a leaf keeps that slides aside: its
// edge, or as much as it finds no room for beside the opening.
func leafTakes(d *layout.Doorway, door *job.Doorway) []plan.Interval {
	keeps := min(door.WidthMM, max(door.LeafKeepsMM, d.SlideShortMM(door)))
	switch {
	case !door.Leaf.Slides() || keeps == 0:
		return nil
	case door.HingeAtStart:
		return []plan.Interval{{From: 0, To: keeps}}
	}
	return []plan.Interval{{From: door.WidthMM - keeps, To: door.WidthMM}}
}

// beforeDoor is how much of a doorway's width, from its start, a convex shape takes of the way
// straight in; ok is false where it takes nothing.
func beforeDoor(d *layout.Doorway, ring plan.Ring) (by plan.Interval, ok bool) {
	in := d.Wall.Outward.Mul(-passageDeepMM)
	corners := cornersOfBoth(plan.Ring{d.A, d.B, d.B.Add(in), d.A.Add(in)}, ring)
	by = plan.Interval{From: math.Inf(1), To: math.Inf(-1)}
	along := d.B.Sub(d.A).Normalize()
	for _, c := range corners {
		at := c.Sub(d.A).Dot(along)
		by.From, by.To = min(by.From, at), max(by.To, at)
	}
	return by, len(corners) > 2
}

// fixtureBody is the body of a fixture, by its index.
func (m *Measurer) fixtureBody(i int) *clash.Prism {
	ring, f := m.Layout.Fixtures[i], m.Settled.Room.Fixtures[i]
	under := m.Heights.RoomAt(&m.Settled, plan.FromRing(ring).Centroid()) + f.UnderMM
	return clash.NewPrism(ring, solid.Plane{Level: under}, solid.Plane{Level: under + f.HeightMM})
}

// byFixtures holds the run, as far as it lies in the room, and its pump against fixtures.
func (m *Measurer) byFixtures() {
	run, pump := &m.Heights.Run, m.Settled.Waste.IntoPump()
	for k := range m.Layout.Fixtures {
		if near := m.plan.near.fixtures[k]; len(near) > 0 {
			body := m.fixtureBody(k)
			for _, i := range near {
				if is := nearest(m.bodies(i), body, besideMM); is.GapMM < besideMM {
					m.add("clash.fixture-gap", pieceBy(rule.PieceByFixture, &run.Pieces[i], k+1), is.GapMM, is.At)
				}
			}
		}
		if pump != nil && len(run.Pieces) > 0 && m.Settled.Room.Fixtures[k].UnderMM < pump.HeightMM {
			place := m.pumpPlace(pump)
			m.add("fixture.on-pump", rule.Subject{Of: rule.Fixture, Number: k + 1}, place.onFixtureMM2[k], place.middle.Vec3(m.Heights.FloorHighMM))
		}
	}
}
