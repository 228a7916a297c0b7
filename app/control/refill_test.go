package control_test

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
)

// What has become shorter than a scroller was down is seen from where its end is; what has not stays where it was.
func TestRefilledItShowsSomething(t *testing.T) {
	test.NewTempApp(t)
	all := container.NewVBox()
	for range 10 {
		r := canvas.NewRectangle(color.Black)
		r.SetMinSize(fyne.NewSize(50, 100))
		all.Add(r)
	}
	s := container.NewVScroll(all)
	w := test.NewTempWindow(t, s)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(60, 150))
	s.ScrollToOffset(fyne.NewPos(0, 300))
	for _, left := range []int{9, 4, 1} {
		all.Objects = all.Objects[:left]
		control.Refill(s)
		if want := min(300, max(0, all.MinSize().Height-s.Size().Height)); s.Offset.Y != want || all.Position().Y != -want {
			t.Errorf("with %d left it is %v down and its content at %v, not %v", left, s.Offset.Y, all.Position().Y, want)
		}
	}
}
