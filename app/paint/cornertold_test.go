package paint_test

import (
	"testing"

	"underfall/app/paint"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// Fields tell distances from corners by their letters, so the plan of a pane of a usual window has those of all corners.
func TestCornersAreTold(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		d := allDrawings(t, r)["plan"]
		for _, size := range append(sizes()[1:], [2]int{600, 314}, [2]int{900, 520}) {
			for _, u := range []unit.System{unit.Metric, unit.Imperial} {
				v := paint.FitTo(&d, size[0], size[1], 1)
				l := section.Letter(paint.SheetOf(painter(t), v, style(u)), paint.SeenIn(&d, v))
				told := map[string]bool{}
				for _, disc := range l.Discs {
					told[disc.Letters] = disc.Ring || told[disc.Letters]
				}
				for i := range d.Names {
					if c := d.Names[i].Ring; c != (message.Corner{}) && !told[c.String()] {
						t.Errorf("%s, %d by %d, %s: corner %v has no letters", r.Settled.Name, size[0], size[1], u, c)
					}
				}
			}
		}
	}
}
