package measure

import (
	"math"

	"underfall/geometry/rule"
)

// stated takes what cannot be as it is stated, or counts for nothing.
func (m *Measurer) stated() {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	for i, w := range j.Room.Windows {
		wall := l.Walls[w.Wall]
		// The ceiling along a wall is the lowest of straight lines: lowest at an end.
		top := w.SillMM + w.HeightMM
		over, at := math.Inf(-1), wall.At(w.OffsetMM)
		for _, mm := range [2]float64{w.OffsetMM, w.OffsetMM + w.WidthMM} {
			if p := wall.At(mm); top-l.CeilingAt(p) > over {
				over, at = top-l.CeilingAt(p), p
			}
		}
		m.add("window.over-ceiling", rule.Subject{Of: rule.Window, Number: i + 1}, over, at.Vec3(top-over))
	}
	nothing := 0
	for _, list := range j.Courses() {
		for _, c := range *list {
			if c.ThicknessMM == 0 {
				nothing++
			}
		}
	}
	middle := l.Shower.Centroid()
	if nothing > 0 {
		m.add("course.nothing", of(rule.ExtraLayers), float64(nothing), middle.Vec3(h.ShowerAt(l, middle)))
	}
	if j.Former.Fall.Linear() && j.Drain.LengthMM == 0 {
		m.add("drain.room-short-by", of(rule.Drain), math.Max(0, j.DrainLengthMM()-j.DrainRoomMM()), l.DrainCentre.Vec3(h.TileMM))
	}
}
