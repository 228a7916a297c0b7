package measure

import (
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// pumpPlace is where the box of the pump stands in plan.
type pumpPlace struct {
	middle plan.Point
	// offMM2 is how much of it lies off the floor beside the shower, onFixtureMM2 how
	// much of it each fixture stands on.
	offMM2       float64
	onFixtureMM2 []float64
}

// pumpPlace is that of the pump that the run leads into.
func (m *Measurer) pumpPlace(pump *job.Pump) *pumpPlace {
	p := &m.plan.pump
	if m.plan.pumpMade {
		return p
	}
	m.plan.pumpMade = true
	run := &m.Heights.Run
	box := plan.FromRing(layout.PumpBox(*pump, run.Exit, run.ExitTo))
	p.middle, p.offMM2 = box.Centroid(), max(0, box.Area()-plan.SharedArea(box, m.Layout.Rest))
	p.onFixtureMM2 = p.onFixtureMM2[:0]
	for _, ring := range m.Layout.Fixtures {
		p.onFixtureMM2 = append(p.onFixtureMM2, plan.SharedArea(box, plan.FromRing(ring)))
	}
	return p
}

// intoPump measures the pump that the run leads into.
func (m *Measurer) intoPump(at mgl64.Vec3) {
	m.add("caution.pump", of(rule.Pump), 1, at)
	p := m.Settled.Waste.IntoPump()
	if p == nil {
		m.add("pump.unknown", of(rule.Pump), 1, at)
		return
	}
	m.add("pump.flow-share", of(rule.Pump), m.Settled.Water.RunLPS()/p.FlowLPS, at)
	if p.DischargeMM == nil || m.Settled.StandingOf("waste.pump.flowLPS").Open() || m.Settled.StandingOf("waste.pump.dischargeMM").Open() {
		m.add("pump.unknown", of(rule.Pump), 1, at)
	}
	inlet, _ := m.Heights.PumpInletMM(&m.Settled, &m.Layout, &m.Heights.Run)
	m.add("pump.under-inlet", of(rule.Pump), max(0, inlet-m.Heights.Run.InvertAt(m.Heights.Run.ExitAtMM)), at)
	// What lies off the floor beside the shower lies in it, or in a wall.
	m.add("pump.misplaced", of(rule.Pump), m.pumpPlace(p).offMM2, at)
}
