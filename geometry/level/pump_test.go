package level_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// A pump's inlet 60 over its foot holds the base up: on the structural floor, at the datum,
// the run comes in at 60; on 1 of tanking, 3 of bed and 9 of tile at 73.
func TestPumpInletSetsTheHeight(t *testing.T) {
	for onStructure, want := range map[bool]float64{true: 60, false: 73} {
		j := job.New()
		pump := job.UsualPump()
		pump.InletMM, pump.OnStructure = 60, onStructure
		j.Waste.Pump, j.Waste.Exit = &pump, job.Exit{Kind: job.ExitPump, At: plan.Point{300, 900}}
		var sh plan.Shaper
		l := layout.Of(j, &sh)
		h := level.Solve(j, l, waste.Lay(j, l), 0)
		if by := h.Governing(); by.By != level.PumpInlet || by.Reason().Message().ID != "bound.pump-inlet" {
			t.Errorf("governed by %v", by.Reason())
		}
		if got := h.Run.InvertAt(h.Run.ExitAtMM); math.Abs(got-want) > 1e-9 {
			t.Errorf("the run comes in at %v, want %v", got, want)
		}
	}
}
