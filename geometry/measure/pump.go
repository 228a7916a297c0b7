package measure

import (
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// intoPump measures the pump that the run leads into.
func (m *Measurer) intoPump(at mgl64.Vec3) {
	m.add("caution.pump", of(rule.Pump), 1, at)
	p := m.Settled.Waste.Pump
	if p == nil {
		m.add("pump.unknown", of(rule.Pump), 1, at)
		return
	}
	m.add("pump.flow-share", of(rule.Pump), m.Settled.Water.TotalLPS()/p.FlowLPS, at)
	if p.DischargeMM == nil {
		m.add("pump.unknown", of(rule.Pump), 1, at)
	}
	run := &m.Heights.Run
	box := plan.FromRing(layout.PumpBox(*p, run.Exit, run.ExitTo))
	// What lies off the floor beside the shower lies in it, or in a wall.
	m.add("pump.misplaced", of(rule.Pump), max(0, box.Area()-plan.SharedArea(box, m.Layout.Rest)), at)
}
