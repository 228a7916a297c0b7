package paint_test

import (
	"testing"

	"underfall/app/paint"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
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

// What stands in the room is told by its name on the plan alone: in the pane of a small window as well, beside the picture.
func TestFixturesAreNamed(t *testing.T) {
	named := 0
	for _, r := range demotest.Shown(t) {
		d := allDrawings(t, r)["plan"]
		for _, size := range [][2]int{{430, 314}, {600, 314}, {735, 470}} {
			for _, u := range []unit.System{unit.Metric, unit.Imperial} {
				v := paint.FitTo(&d, size[0], size[1], 1)
				l := section.Letter(paint.SheetOf(painter(t), v, style(u)), paint.SeenIn(&d, v))
				told := map[message.ID]int{}
				for i := range l.Texts {
					told[l.Texts[i].Message.ID]++
				}
				marks := map[job.FixtureKind]message.ID{job.FixtureBasin: "mark.basin", job.FixtureToilet: "mark.toilet", job.FixtureRadiator: "mark.radiator"}
				for _, f := range r.Settled.Room.Fixtures {
					named++
					if told[marks[f.Kind]]--; told[marks[f.Kind]] < 0 {
						t.Errorf("%s, %d by %d, %s: %v has no name", r.Settled.Name, size[0], size[1], u, marks[f.Kind])
					}
				}
			}
		}
	}
	if named < 60 {
		t.Errorf("only %d things", named)
	}
}
