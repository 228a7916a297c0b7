package measure

import (
	"underfall/geometry/joist"
	"underfall/geometry/plan"
)

// inPlan is what is known of a job's plan, once it has been asked for. Levels do
// not come into it, so it serves every sample of one job.
type inPlan struct {
	near      nearby
	nearKnown bool
	// stretches of the run under each raised floor.
	stretches []stretch
	divided   bool
	// passages of the run through joists.
	passages []joist.Passage
	passed   bool
	// boundNames are what bounds of the least raise are called.
	boundNames map[boundKey]string
	// leafCorners of the floor that door leaves sweep over.
	leafCorners []leafCorner
	swept       bool
	// middles of the falling floor, then of its planes.
	middles []plan.Point
}

// forget makes room for another plan.
func (p *inPlan) forget() {
	p.nearKnown, p.divided, p.passed, p.swept = false, false, false, false
	p.middles = p.middles[:0]
	clear(p.boundNames)
}

// leafCorner is a corner of the floor a door's leaf sweeps over: the door's index,
// the place, just inside, and the zone of the floor it lies in.
type leafCorner struct {
	door int
	at   plan.Point
	zone int
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
					p.leafCorners = append(p.leafCorners, leafCorner{d.Index, at, m.buildUp().ZoneAt(at)})
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
