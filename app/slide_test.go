package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// The tray comes from the window's edge and leaves over it, while the drawings have their places at once; where
// nothing is to move it is there or not.
func TestTheTraySlides(t *testing.T) {
	test.NewTempApp(t)
	f := newFrame(usualArrangement())
	f.all.Resize(fyne.NewSize(1280, 752))
	tray := f.clips[regionTray]
	f.openTray(true, true)
	place := tray.Position()
	drawings := f.clips[regionPlan].Position()
	if !tray.Visible() || place.X != frameEdge || f.slide.run != nil {
		t.Fatalf("where nothing moves it stands at %v, moving %v", place, f.slide.run != nil)
	}
	for _, in := range []bool{true, false} {
		f.arrangement.trayOpen = in
		way := f.sliding(in)
		f.slide.run = way // as begun
		last := tray.Position().X
		for i, done := range []float32{0, 0.5, 1} {
			way.Tick(done)
			x := tray.Position().X
			switch out := x + tray.Size().Width; {
			case done == 0 && in && out > 0.01, done == 0 && !in && x != place.X:
				t.Errorf("in %v: it begins at %v", in, x)
			case i == 1 && (x <= -tray.Size().Width || x >= place.X || x == last):
				t.Errorf("in %v: half way it is at %v", in, x)
			case done == 1 && (tray.Visible() != in || in && x != place.X || f.slide.run != nil):
				t.Errorf("in %v: it ends at %v, seen %v", in, x, tray.Visible())
			}
			if f.clips[regionPlan].Position() != drawings {
				t.Error("the drawings move along")
			}
			last = x
		}
	}
}
