package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
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

// wear shows the object in another look.
func (s inLook) wear(look fyne.Theme) {
	s.worn.Theme = look
	s.Refresh()
}

// release lets go of object and look; what shows them is not drawn any more.
func (s inLook) release() {
	s.box.Objects = nil
	s.worn.Theme = fynetheme.DefaultTheme()
}
