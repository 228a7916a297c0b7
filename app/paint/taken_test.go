package paint_test

import (
	"testing"

	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/demotest"
	"underfall/geometry/placing"
	"underfall/geometry/section"
)

// Nothing is written where something will be laid over a drawing: with all of a plan's left half taken, no text
// stands there, and without that some do.
func TestNothingIsWrittenWhereSomethingLies(t *testing.T) {
	painter, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		t.Fatal(err)
	}
	const width, height = 600, 400
	half := placing.Box{High: placing.Point{width / 2, height}}
	for _, r := range demotest.Shown(t) {
		d := section.PlanOf(r)
		v := paint.FitTo(&d, width, height, 1)
		style := theme.New(false, words.Book{}).PaintStyle(1, r.Settled.Units, "")
		there := func() (n int) {
			l := section.Letter(paint.SheetOf(painter, v, style), paint.SeenIn(&d, v))
			for i := range l.Texts {
				if l.Texts[i].Box.Overlaps(half) {
					n++
				}
			}
			return n
		}
		if there() == 0 {
			t.Errorf("%s: nothing is written at the left", r.Settled.Name)
		}
		if style.Taken = []placing.Box{half}; there() > 0 {
			t.Errorf("%s: %d texts lie where something will", r.Settled.Name, there())
		}
	}
}
