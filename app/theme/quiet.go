package theme

import (
	"runtime"

	"fyne.io/fyne/v2"
)

// Quiet is the program with nothing that moves by itself: a blinking cursor alone has the whole
// window drawn anew some twenty times a second, which without a graphics card is an eighth of a
// core. What Underfall moves still asks the system (Moves).
//
// On macOS Fyne takes its settings for its own kind when the system turns dark, so they stay.
func Quiet(a fyne.App) fyne.App {
	if runtime.GOOS == "darwin" {
		return a
	}
	q := quietApp{a, quietSettings{a.Settings()}}
	fyne.SetCurrentApp(q)
	return q
}

type quietApp struct {
	fyne.App
	settings quietSettings
}

// Settings are the system's but for animations.
func (a quietApp) Settings() fyne.Settings { return a.settings }

type quietSettings struct{ fyne.Settings }

// ShowAnimations tells widgets that nothing moves by itself.
func (quietSettings) ShowAnimations() bool { return false }

// systemMoves tells whether the system lets things move.
func systemMoves() bool {
	s := fyne.CurrentApp().Settings()
	if q, quiet := s.(quietSettings); quiet {
		s = q.Settings
	}
	return s.ShowAnimations()
}
