package asbuilt

import (
	"math"

	"underfall/geometry/layout"
	"underfall/geometry/level"
)

// Aimed are the levels to build to, in the order of job.AsBuilt's Levels, as heights were worked out from whatever has been measured
// so far: mm above the datum, NaN of what there is not, the exit of no run or the high end of a former that falls nowhere.
func Aimed(l *layout.Layout, h *level.Heights) []float64 {
	outlet, exit, edge := math.NaN(), math.NaN(), math.NaN()
	if run := &h.Run; len(run.Pieces) > 0 {
		outlet, exit = run.InvertAt(0), run.InvertAt(run.ExitAtMM)
	}
	if _, rise := l.HighEnd(); rise > 0 {
		edge = h.FlangeMM + rise
	}
	return []float64{h.BaseTopMM, outlet, exit, h.FlangeMM, edge, h.TileMM}
}
