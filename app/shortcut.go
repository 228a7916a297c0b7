package app

import "fyne.io/fyne/v2"

// windowKeys are the keys that work wherever the focus is: a field that has it
// hands them on.
type windowKeys struct {
	shortcuts map[string]func() // by the shortcut's name
	// plain are keys by themselves that no field has a use for.
	plain func(*fyne.KeyEvent)
}

func newWindowKeys() *windowKeys { return &windowKeys{shortcuts: map[string]func(){}} }

// knows tells whether a shortcut is one of the window's.
func (k *windowKeys) knows(s fyne.Shortcut) bool {
	_, ok := k.shortcuts[s.ShortcutName()]
	return ok
}

// typed does what a shortcut stands for; nothing for one that is not the
// window's.
func (k *windowKeys) typed(s fyne.Shortcut) {
	if f, ok := k.shortcuts[s.ShortcutName()]; ok {
		f()
	}
}

// everywhere tells whether a key means the same in a field as outside.
func everywhere(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyF3, fyne.KeyF4, fyne.KeyF5, fyne.KeyF6,
		fyne.KeyF7, fyne.KeyF8, fyne.KeyF9, fyne.KeyF10, fyne.KeyF11, fyne.KeyF12:
		return true
	}
	return false
}
