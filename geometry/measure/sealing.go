package measure

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// sealing measures how far the tanking reaches.
func (m *Measurer) sealing() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	if to, at, ok := m.tankedWalls(); ok {
		m.add("tanking.wall-to", of(rule.WallTanking), to, at.Vec3(h.ShowerAt(l, at)))
	}
	if beyond, all := j.TankedBeyondMM(); !all && len(l.OpenEdges()) > 0 && len(l.Untanked) > 0 {
		at := l.OpenEdges()[0].Middle()
		m.add("tanking.beyond", of(rule.FloorTanking), beyond, at.Vec3(h.ShowerAt(l, at)))
	}
}

// tankedWalls is the least height to which the shower's walls are tanked, above the
// finished floor at their feet, and where; ok is false for a shower without walls.
func (m *Measurer) tankedWalls() (leastMM float64, at plan.Point, ok bool) {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	head := math.Min(j.Room.HeightMM, h.TileMM+j.Layers.TankedToMM())
	if j.Layers.Wall.Tanking.ThicknessMM == 0 {
		head = math.Inf(-1)
	}
	leastMM = math.Inf(1)
	put := func(a, b plan.Point) {
		for _, p := range [2]plan.Point{a, b} {
			if to := math.Max(0, head-h.ShowerAt(l, p)); to < leastMM {
				leastMM, at, ok = to, p, true
			}
		}
	}
	if j.Former.Fall == job.FallRoom {
		for _, w := range l.Walls {
			put(w.A, w.B)
		}
		return leastMM, at, ok
	}
	for _, e := range l.Edges {
		if e.Wall >= 0 {
			put(e.A, e.B)
		}
	}
	return leastMM, at, ok
}

// layerCautions are those of what is found, cut and heated.
func (m *Measurer) layerCautions() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	middle := l.Shower.Centroid()
	at := middle.Vec3(h.StructureAt(j, l, middle))
	cut := 0
	for i, e := range j.Floor.Existing {
		shower, room := j.Floor.Where(i)
		if e.Kind == job.ExistingMembrane && (!shower || !room || j.Base.Support != job.OnFloor || j.Waste.Exit.Kind == job.ExitFloor) {
			cut++
		}
	}
	if cut > 0 {
		m.add("caution.membrane", of(rule.ExistingMembrane), float64(cut), at)
	}
	if down := j.SetDown(); down > 0 {
		m.add("caution.set-down", of(rule.SetDownSlab), down, at)
	}
}
