package measure

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// core measures the hole that the waste goes out through: against the damp-proof course,
// the slab's edge, openings, and what the drill needs.
func (m *Measurer) core(at mgl64.Vec3) {
	h, j, l := &m.Heights, &m.Settled, &m.Layout
	c, ok := h.Core(j, l)
	if !ok {
		return
	}
	wall := &j.Room.Walls[c.Wall-1]
	subject := rule.Subject{Of: rule.ExitInWall, Number: int(m.Layout.Walls[c.Wall-1].Letter)}
	radius := c.LeastMM / 2
	if wall.Kind != job.WallStud {
		mm, there := m.Pack.CoreDrills.Next(c.LeastMM)
		if !there && len(m.Pack.CoreDrills.SizesMM) > 0 {
			sizes := m.Pack.CoreDrills.SizesMM
			m.add("core.no-drill-by", subject, c.LeastMM-sizes[len(sizes)-1], at)
		} else if there {
			radius = mm / 2
		}
	}
	if course := wall.DampCourseMM; course != nil {
		m.add("core.damp-gap", subject, math.Abs(c.CentreMM-*course)-radius, at)
		if wall.OutsideGroundMM != nil {
			m.add("damp.over-ground", rule.Subject{Of: rule.DampCourse, Number: int(m.Layout.Walls[c.Wall-1].Letter)}, *course-*wall.OutsideGroundMM, c.At.Vec3(*course))
		}
	}
	if h.ThroughLeaves(j, l) {
		leaves := wall.Leaves()
		m.add("caution.cavity", subject, leaves[1].FromMM-leaves[0].ToMM, at)
	}
	if j.Floor.Kind == job.FloorSlab {
		m.add("core.over-slab", subject, c.CentreMM-radius-h.Survey.Floor.At(c.At), at)
	}
	m.coreByOpenings(c, radius, at)
	if wall.Kind != job.WallStud {
		m.drill(c, wall, subject, at)
	}
}

// solePlate measures how much of the plate under a stud wall the hole takes.
func (m *Measurer) solePlate(wall *job.Wall, at mgl64.Vec3) {
	c, ok := m.Heights.Core(&m.Settled, &m.Layout)
	if !ok {
		return
	}
	floor, radius := m.Heights.Beside.At(c.At), c.LeastMM/2
	cut := min(c.CentreMM+radius, floor+wall.SolePlate()) - max(c.CentreMM-radius, floor)
	m.add("exit.in-sole-plate", rule.Subject{Of: rule.ExitInWall, Number: int(m.Layout.Walls[c.Wall-1].Letter)}, max(0, cut), at)
}

// drill measures whether the rig gets down to the hole's middle.
func (m *Measurer) drill(c level.Core, wall *job.Wall, subject rule.Subject, at mgl64.Vec3) {
	over := c.CentreMM - m.Heights.Beside.At(c.At)
	d := m.Settled.Waste.Drill
	if d == nil {
		// Let in the hole lies in the open floor between the joists, not over a floor that
		// a rig stands on.
		if m.Settled.Base.Support != job.BetweenJoists {
			m.add("core.axis-height", subject, over, at)
		}
		return
	}
	if d.From == job.DrillOutside {
		if wall.OutsideGroundMM == nil {
			return
		}
		over = c.CentreMM - *wall.OutsideGroundMM
	}
	low := m.add("core.axis-low-by", subject, max(0, d.LeastAxisMM-over), at)
	low.NeedsMM, low.HasMM = d.LeastAxisMM, over
}

// coreByOpenings measures how near the hole comes to each doorway and window of its wall.
func (m *Measurer) coreByOpenings(c level.Core, radiusMM float64, at mgl64.Vec3) {
	by := func(of rule.Thing, number int, fromMM, toMM, lowMM, highMM float64, tags ...string) {
		dx := max(fromMM-c.AlongMM, c.AlongMM-toMM)
		dz := max(lowMM-c.CentreMM, c.CentreMM-highMM)
		gap := max(dx, dz)
		if dx > 0 && dz > 0 {
			gap = math.Hypot(dx, dz)
		}
		m.add("core.opening-gap", rule.Subject{Of: of, Number: number}, gap-radiusMM, at, tags...)
	}
	for i, d := range m.Settled.Room.Doorways {
		if d.Wall == c.Wall-1 {
			from, to, tags := d.OffsetMM, d.OffsetMM+d.WidthMM, []string{"doorway"}
			if d.Leaf == job.LeafPocket {
				// The wall is hollow where the leaf goes.
				pocket := layout.Parked(d)
				from, to = min(from, pocket.From), max(to, pocket.To)
				if c.AlongMM+radiusMM > pocket.From && c.AlongMM-radiusMM < pocket.To {
					tags = nil
				}
			}
			by(rule.CoreByDoorway, i+1, from, to, min(d.NeighbourFFLMM, 0), d.NeighbourFFLMM+d.HeightMM, tags...)
		}
	}
	for i, w := range m.Settled.Room.Windows {
		if w.Wall == c.Wall-1 {
			by(rule.CoreByWindow, i+1, w.OffsetMM, w.OffsetMM+w.WidthMM, w.SillMM, w.SillMM+w.HeightMM)
		}
	}
}

// slabDrop cautions where the waste drops through a concrete slab.
func (m *Measurer) slabDrop(at plan.Point) {
	if m.Settled.Floor.Kind == job.FloorSlab && m.Settled.Waste.Exit.Kind == job.ExitFloor {
		m.add("caution.slab-drop", of(rule.DropThroughFloor), 1, at.Vec3(m.Heights.Survey.Floor.At(at)))
	}
}
