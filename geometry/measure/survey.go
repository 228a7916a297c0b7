package measure

import (
	"math"

	"underfall/geometry/rule"
)

// surveyed measures what does not come out of what was measured of the room and read of its floor: how many corners and
// walls are taken as they were drawn, by how much measures do
// not close where that is more than measuring explains, how far the room is out of square at its worst corner, and by how
// much two readings of one point differ where that is more than reading explains.
func (m *Measurer) surveyed() {
	const floor = 0 // about, of the structural floor
	j := &m.Settled
	if taken, ok := j.Room.Taken(); ok {
		a := taken.Fit.Assumed
		m.add("survey.assumed", of(rule.MeasuredRoom), float64(len(a.Square)+len(a.Drawn)+len(a.Walls)), m.Layout.Room.Centroid().Vec3(floor))
		if !taken.Fit.Closes {
			m.add("survey.open", of(rule.MeasuredRoom), taken.Fit.OpenMM, m.Layout.Room.Centroid().Vec3(floor))
		}
		if len(taken.Leans) > 0 {
			lean := taken.Leans[0]
			m.add("survey.out-of-square", of(rule.MeasuredRoom), math.Abs(lean.MM), j.Room.Outline[lean.Corner].Vec3(floor))
		}
	}
	for _, d := range j.Laser.Doubts() {
		m.add("survey.readings-apart", rule.Subject{Of: rule.LaserReading, Number: d.Second + 1}, d.ByMM, j.Laser.Readings[d.Second].At.Vec3(floor))
	}
}
