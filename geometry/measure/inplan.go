package measure

import (
	"underfall/geometry/joist"
	"underfall/geometry/plan"
)

// inPlan is what is known of a job's plan, once it has been asked for. Levels do
// not come into it, so it serves every sample of one job; but for ramps into the zones of the floor.
type inPlan struct {
	near      nearby
	nearKnown bool
	// stretches of the run under each raised floor.
	stretches []stretch
	divided   bool
	// passages of the run through joists.
	passages []joist.Passage
	passed   bool
	// leafCorners of the floor that door leaves sweep over.
	leafCorners []leafCorner
	swept       bool
	// doors are the places just inside the doorways where the floor may lie highest or lowest, those of each together.
	doors [][]floorPlace
	// middles of the falling floor, then of its planes.
	middles []plan.Point
	// pump is the place of the pump's box.
	pump     pumpPlace
	pumpMade bool
	// underShower are the distances along the run between which it lies under the shower.
	underShower []float64
	// rampRooms are what there is before each ramp's first slope.
	rampRooms []rampRoom
}

// forget makes room for another plan.
func (p *inPlan) forget() {
	p.nearKnown, p.divided, p.passed, p.pumpMade = false, false, false, false
	p.middles, p.rampRooms, p.underShower = p.middles[:0], p.rampRooms[:0], p.underShower[:0]
	p.forgetZones()
}

// forgetZones makes room for other zones of the floor: ramps begin and end elsewhere at other levels.
func (p *inPlan) forgetZones() { p.swept, p.doors = false, p.doors[:0] }

// floorPlace is a place and the zone of the floor it lies in.
type floorPlace struct {
	at   plan.Point
	zone int
}

// leafCorner is a corner of the floor that the leaf of a door sweeps over, just
// inside of it.
type leafCorner struct {
	door int
	floorPlace
}

// doorPlaces are the places just inside a doorway, given by its place in the layout, where its floor may lie
// highest or lowest.
func (m *Measurer) doorPlaces(door int) []floorPlace {
	p, f := &m.plan, m.buildUp()
	if len(p.doors) != len(m.Layout.Doors) {
		p.doors = p.doors[:0]
		for _, d := range m.Layout.Doors {
			var places []floorPlace
			for _, at := range f.DoorPlaces(d) {
				places = append(places, floorPlace{at, f.ZoneAt(at)})
			}
			p.doors = append(p.doors, places)
		}
	}
	return p.doors[door]
}

// leafCorners are those of all doors.
func (m *Measurer) leafCorners() []leafCorner {
	p := &m.plan
	if p.swept {
		return p.leafCorners
	}
	p.swept, p.leafCorners = true, p.leafCorners[:0]
	for _, d := range m.Layout.Doors {
		for _, region := range []plan.Region{d.SweepRoom, d.SweepFall} {
			for _, poly := range region {
				middle := (plan.Region{poly}).Centroid()
				for _, corner := range poly.Outer {
					// Just inside, so that a corner on the shower's edge is judged
					// by the floor the part lies on.
					const insideShare = 1e-6
					at := corner.Add(middle.Sub(corner).Mul(insideShare))
					p.leafCorners = append(p.leafCorners, leafCorner{d.Index, floorPlace{at, m.buildUp().ZoneAt(at)}})
				}
			}
		}
	}
	return p.leafCorners
}

// fallMiddle is the middle of the falling floor, planeMiddle of one of its planes.
func (m *Measurer) fallMiddle() plan.Point { return m.middles()[0] }

func (m *Measurer) planeMiddle(i int) plan.Point { return m.middles()[1+i] }

func (m *Measurer) middles() []plan.Point {
	p := &m.plan
	if len(p.middles) == 0 {
		p.middles = append(p.middles, m.Layout.FallArea.Centroid())
		for _, plane := range m.Layout.Planes {
			p.middles = append(p.middles, plane.Region.Centroid())
		}
	}
	return p.middles
}
