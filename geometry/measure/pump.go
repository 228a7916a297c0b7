package measure

import (
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// pumpBox is the box of the pump in plan; there is one.
func (m *Measurer) pumpBox() plan.Ring {
	run := &m.Heights.Run
	return layout.PumpBox(*m.Settled.Waste.Pump, run.Exit, run.ExitTo)
}

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
	box := plan.FromRing(m.pumpBox())
	// What lies off the floor beside the shower lies in it, or in a wall.
	m.add("pump.misplaced", of(rule.Pump), max(0, box.Area()-plan.SharedArea(box, m.Layout.Rest)), at)
}
