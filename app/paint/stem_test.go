package paint_test

import (
	"math"
	"slices"
	"testing"

	"underfall/app/paint"
	"underfall/geometry/demotest"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// In a plan that is small no level is led far across the floor, where its line would look like a pipe: one that finds no
// room beside the room is left out.
func TestStemsKeepOffTheFloor(t *testing.T) {
	const mostPoints, sampleMM = 100, 5
	stems := 0
	for _, r := range demotest.Shown(t) {
		d := section.PlanOf(r)
		for _, size := range [][2]int{{300, 220}, {384, 250}} {
			for _, u := range []unit.System{unit.Metric, unit.Imperial} {
				v := paint.FitTo(&d, size[0], size[1], 1)
				l := section.Letter(paint.SheetOf(painter(t), v, style(u)), paint.SeenIn(&d, v))
				for _, s := range l.Stems {
					stems++
					over := 0.0
					for i := 1; i < len(s.Points); i++ {
						from, to := v.ToDrawing(s.Points[i-1][0], s.Points[i-1][1]), v.ToDrawing(s.Points[i][0], s.Points[i][1])
						n := math.Ceil(to.Sub(from).Len() / sampleMM)
						for k := 0.5; k < n; k++ {
							if r.Layout.Room.Contains(from.Add(to.Sub(from).Mul(k/n)), 0) {
								over += to.Sub(from).Len() / n * v.PixelsPerMM
							}
						}
					}
					if over > mostPoints {
						t.Errorf("%s, %v, %s: a level is led %.0f across the floor", r.Settled.Name, size, u, over)
					}
				}
			}
		}
	}
	if stems < 50 {
		t.Errorf("only %d levels are led to", stems)
	}
}

// In the plan of a usual window it is said what the waste ends in, where that stands in the plan.
func TestWhatTheWasteEndsInIsNamed(t *testing.T) {
	named := 0
	for _, r := range demotest.Shown(t) {
		d := allDrawings(t, r)["plan"] // with the line of the cut over it
		for i := range d.Marks {
			m := &d.Marks[i]
			if m.Of != section.MarkPump && m.Of != section.MarkGully && m.Of != section.MarkStackOutside {
				continue
			}
			named++
			for _, size := range [...][2]int{{430, 310}, {600, 310}, {730, 460}} {
				v := paint.FitTo(&d, size[0], size[1], 1)
				l := section.Letter(paint.SheetOf(painter(t), v, style(unit.Metric)), paint.SeenIn(&d, v))
				if !slices.ContainsFunc(l.Texts, func(text section.Text) bool { return text.Message.ID == m.Of }) {
					t.Errorf("%s, %v: %s is not named", r.Settled.Name, size, m.Of)
				}
			}
		}
	}
	if named < 3 {
		t.Errorf("only %d are there", named)
	}
}
