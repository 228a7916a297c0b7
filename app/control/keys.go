// Package control has the widgets of our own that the window is made of: they hand on the keys
// they have no use for.
package control

import (
	"fyne.io/fyne/v2"
)

// Keys are the keys that work wherever the focus is: a field that has it
// hands them on.
type Keys struct {
	Shortcuts map[string]func() // by the shortcut's name
	// Plain are keys by themselves that no field has a use for.
	Plain func(*fyne.KeyEvent)
	// Focused is told which object has the focus now, so that it can be brought into sight;
	// nil where nobody wants to know.
	Focused func(fyne.CanvasObject)
	// Hints shows what a thing under the pointer is for; nil where there are none.
	Hints *Hints
	// GaveUp is told that Escape gave up what was typed in a field; nil where the field stays.
	GaveUp func()
	// Shift tells whether Shift is down; nil asks the driver.
	Shift func() bool
	// told is the field that said last how it understood what was typed; nil before any has.
	told *Field
	// Soon does something once what goes on now is done with; nil has the driver do it.
	Soon func(func())
}

func (k *Keys) soon(f func()) {
	if k.Soon == nil {
		fyne.Do(f)
		return
	}
	k.Soon(f)
}

// takes has the field that said last how it understood what was typed say no more of it, as another is typed on: whoever goes on has
// seen it.
func (k *Keys) takes(by *Field) {
	if was := k.told; was != nil && was != by {
		k.told = nil
		was.say("", nil)
		was.Refresh()
	}
}

// asksHint tells whether a key asks for the hint of what has the focus: Shift-F1.
func (k *Keys) asksHint(e *fyne.KeyEvent) bool {
	return e.Name == fyne.KeyF1 && k.Shifted()
}

func NewKeys() *Keys { return &Keys{Shortcuts: map[string]func(){}} }

// Knows tells whether a shortcut is one of the window's.
func (k *Keys) Knows(s fyne.Shortcut) bool {
	_, ok := k.Shortcuts[s.ShortcutName()]
	return ok
}

// Typed does what a shortcut stands for; nothing for one that is not the
// window's.
func (k *Keys) Typed(s fyne.Shortcut) {
	if f, ok := k.Shortcuts[s.ShortcutName()]; ok {
		f()
	}
}

// Everywhere tells whether a key means the same in a field as outside.
func Everywhere(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyF3, fyne.KeyF4, fyne.KeyF5, fyne.KeyF6,
		fyne.KeyF7, fyne.KeyF8, fyne.KeyF9, fyne.KeyF10, fyne.KeyF11, fyne.KeyF12:
		return true
	}
	return false
}
