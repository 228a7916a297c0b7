package level

import (
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// PumpInletMM is the level of the inlet's invert of the pump that a run leads into, by the
// floor that it stands on; ok is false without one.
func (h *Heights) PumpInletMM(j *job.Job, l *layout.Layout, run *waste.Run) (invertMM float64, ok bool) {
	p := j.Waste.IntoPump()
	if p == nil || len(run.Pieces) == 0 {
		return 0, false
	}
	at := plan.FromRing(layout.PumpBox(*p, run.Exit, run.ExitTo)).Centroid()
	return p.FootMM(h.RoomAt(j, at), h.StructureAt(j, l, at)) + p.InletMM, true
}
