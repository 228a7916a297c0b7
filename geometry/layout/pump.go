package layout

import (
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// PumpBox is the box of a pump in plan, on from its inlet in a direction.
func PumpBox(p job.Pump, inlet, to plan.Point) plan.Ring {
	side, on := plan.Left(to).Mul(p.WidthMM/2), to.Mul(p.LengthMM)
	return plan.Ring{inlet.Sub(side), inlet.Sub(side).Add(on), inlet.Add(side).Add(on), inlet.Add(side)}
}
