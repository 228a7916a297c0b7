package theme

import (
	"os"
	"runtime"

	"fyne.io/fyne/v2"
)

// Quiet is the program with nothing that moves by itself: a blinking cursor alone has the whole
// window drawn anew some twenty times a second, which without a graphics card is an eighth of a
// core. What Underfall moves still asks the system (Moves).
//
// On macOS Fyne takes its settings for its own kind when the system turns dark, so they stay.
//
// Everything in its windows is scale times as large as the system has it; see SetScale.
func Quiet(a fyne.App, scale float32) fyne.App {
	if runtime.GOOS == "darwin" {
		return a
	}
	q := quietApp{a, quietSettings{a.Settings(), &scale}}
	fyne.SetCurrentApp(q)
	return q
}

type quietApp struct {
	fyne.App
	settings quietSettings
}

// Settings are the system's but for animations.
func (a quietApp) Settings() fyne.Settings { return a.settings }

type quietSettings struct {
	fyne.Settings
	scale *float32
}

// Scale is the system's, so many times.
func (s quietSettings) Scale() float32 {
	system := s.Settings.Scale()
	if system <= 0 { // not stated
		system = 1
	}
	return system * *s.scale
}

// SetScale has everything so many times as large as the system has it; the app's settings tell the
// windows.
func SetScale(a fyne.App, scale float32) {
	if q, ok := a.Settings().(quietSettings); ok {
		*q.scale = scale
	}
}

// CanScale tells whether SetScale has any effect: not where the environment states the scale.
func CanScale(a fyne.App) bool {
	_, ok := a.Settings().(quietSettings)
	return ok && os.Getenv("FYNE_SCALE") == ""
}

// Scale is how many times as large as the system has it everything is.
func Scale(a fyne.App) float32 {
	if q, ok := a.Settings().(quietSettings); ok {
		return *q.scale
	}
	return 1
}

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
