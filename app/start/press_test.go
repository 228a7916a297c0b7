package start_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/words"
	"underfall/geometry/question"
)

// opened is a page in a window of a size.
func opened(t *testing.T, o fyne.CanvasObject, w, h float32) fyne.Window {
	t.Helper()
	win := test.NewTempWindow(t, o)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

// What is pressed on the plan is an answer: a corner takes the shower, a wall the water; both at the
// places of the picture.
func TestPressingThePlan(t *testing.T) {
	inApp(t, false, words.British)
	s := aSheet(t, "UK", func(*question.Sheet) {})
	w := opened(t, s.Object(), 1280, 800)
	for _, c := range []struct {
		name   string
		corner int
	}{{"BC", 1}, {"CD", 2}} {
		test.TapCanvas(w.Canvas(), s.CornerAt(c.corner))
		if got := s.Sheet().Shower; got.Stands != question.InCorner || got.Wall != c.corner {
			t.Errorf("pressing %s: %+v", c.name, got)
		}
	}
}
