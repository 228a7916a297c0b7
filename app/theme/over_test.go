package theme_test

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/app/words"
)

// A menu and a question over the window stand out from what they lie on: at their edge, in a shadow
// or in themselves, something differs. By how much is by eye, no source.
func TestWhatLiesOverTheWindowStandsOut(t *testing.T) {
	const seen = 1.1 // contrast
	for _, dark := range []bool{false, true} {
		for _, ground := range []theme.Role{theme.Paper, theme.Sheet} {
			a := test.NewTempApp(t)
			a.Settings().SetTheme(theme.New(dark, words.Book{}))
			w := test.NewTempWindow(t, canvas.NewRectangle(ground.In(dark)))
			w.SetPadded(false)
			w.Resize(fyne.NewSize(300, 200))
			plain := canvas.NewRectangle(color.Transparent)
			plain.SetMinSize(fyne.NewSize(100, 100))
			for name, show := range map[string]func(){
				"a menu": func() {
					widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", fyne.NewMenuItem("Copy", nil), fyne.NewMenuItem("Take away", nil)), w.Canvas(), fyne.NewPos(100, 60))
				},
				"a list":     func() { widget.NewPopUp(plain, w.Canvas()).ShowAtPosition(fyne.NewPos(100, 50)) },
				"a question": func() { widget.NewModalPopUp(plain, w.Canvas()).Show() },
			} {
				show()
				most, img := 0.0, w.Canvas().Capture()
				for x := range img.Bounds().Dx() / 2 {
					most = max(most, contrast(color.NRGBAModel.Convert(img.At(x, 90)).(color.NRGBA), ground.In(dark)))
				}
				if most < seen {
					t.Errorf("dark %v, on %d: %s stands out by %.2f, want %v", dark, ground, name, most, seen)
				}
				w.Canvas().Overlays().Remove(w.Canvas().Overlays().Top())
			}
		}
	}
}
