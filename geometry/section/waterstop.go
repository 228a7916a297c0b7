package section

import (
	"strings"

	"underfall/geometry"
	"underfall/geometry/plan"
)

// waterStops names the water stops that the cut goes through, along panes and at doorways, and tells how far each stands over the
// floor beside it: drawn they are hardly more than a line.
func (d *Drawing) waterStops(r *geometry.Result) {
	for i := range d.Areas {
		a := &d.Areas[i]
		overMM := 0.0
		switch {
		case strings.HasPrefix(a.PartID, "screen-stop-"):
			overMM = r.Settled.ScreenStopMM()
		case strings.HasPrefix(a.PartID, "door-stop-"):
			overMM = r.Settled.DoorStopMM()
		}
		if low, high, ok := a.Region.Bounds(); ok && a.Cut && overMM > 0 {
			d.Marks = append(d.Marks, Mark{At: plan.Point{(low.X() + high.X()) / 2, high.Y()}, Of: MarkWaterStop, ThicknessMM: overMM})
		}
	}
}
