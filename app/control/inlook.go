package control

import (
	"image/color"
	_ "unsafe" // for linkname

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/theme"
)

// inLook shows an object in a look of its own. Fyne remembers each rectangle and text that it has ever shown so, with the
// look and what holds the object, for as long as the program runs: once released, nothing of that leads to the object.
type inLook struct {
	*container.ThemeOverride
	worn *worn
	box  *fyne.Container
}

// worn is a look that can be taken off.
type worn struct{ fyne.Theme }

func newInLook(look fyne.Theme, o fyne.CanvasObject) inLook {
	s := inLook{worn: &worn{look}, box: container.NewStack(o)}
	s.ThemeOverride = container.NewThemeOverride(s.box, s.worn)
	return s
}

// release lets go of object and look; what shows them is not drawn any more.
func (s inLook) release() {
	if s.box == nil { // it has no look of its own
		return
	}
	s.box.Objects = nil
	s.worn.Theme = fynetheme.DefaultTheme()
}

// matchLook has an object shown in the look that another is shown in, as Fyne does for the rows of its lists; it tells whether
// that has one of its own. With a look that each field had to itself, Fyne would read all fonts anew for each of them.
//
//go:linkname matchLook fyne.io/fyne/v2/internal/cache.OverrideThemeMatchingScope
func matchLook(o, of fyne.CanvasObject) bool

// wearers are what is shown in the look of fields, by how many times as large, for others to match.
type wearers map[float32]*canvas.Rectangle

// dress shows what is typed on in the look of fields.
func (w wearers) dress(e *fieldEntry, t *theme.Theme) {
	times := t.Unit(1)
	if w[times] == nil {
		w[times] = canvas.NewRectangle(color.Transparent)
		container.NewThemeOverride(w[times], &fieldTheme{t})
	}
	matchLook(e, w[times])
	e.Refresh()
}
