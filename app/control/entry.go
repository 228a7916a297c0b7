package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Entry is a text field of the window: it takes what is typed when it is left,
// gives it up on Escape, and hands the window's keys on.
type Entry struct {
	widget.Entry
	keys *Keys
	// OnLeave takes what was typed; OnEscape gives it up.
	OnLeave, OnEscape func()
	// Changed tells whether something was typed that has not been taken.
	Changed func() bool
	// OnFocus is told when the keys go to it; nil for nobody.
	OnFocus func()
	// OnStep changes a number by steps; nil for what is no number.
	OnStep func(steps float64)
	self   fyne.Focusable // what is shown, of which it may be a part
	// pressed tells that a press on it goes on.
	pressed bool
}

// NewEntry makes a field of one line.
func NewEntry(keys *Keys) *Entry {
	e := &Entry{keys: keys, OnLeave: func() {}, OnEscape: func() {}, Changed: func() bool { return false }}
	e.self = e
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.OnLeave() }
	return e
}

// NewLinesEntry makes a field of several lines.
func NewLinesEntry(keys *Keys, lines int) *Entry {
	e := NewEntry(keys)
	e.MultiLine = true
	e.Wrapping = fyne.TextWrapOff
	e.SetMinRowsVisible(lines)
	return e
}

// TypedShortcut hands the window's shortcuts on, once what was typed is taken.
// Undo first gives up what was typed.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	_, undo := s.(*fyne.ShortcutUndo)
	switch {
	case undo && e.Changed() && e.MultiLine:
		e.Entry.TypedShortcut(s)
	case undo && e.Changed():
		e.OnEscape()
	case e.keys.Knows(s):
		e.OnLeave()
		e.keys.Typed(s)
	default:
		e.Entry.TypedShortcut(s)
	}
}

// TypedKey steps a number with the arrow keys, gives up on Escape and hands on
// keys that mean the same everywhere.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	steps, step := map[fyne.KeyName]float64{fyne.KeyUp: 1, fyne.KeyDown: -1, fyne.KeyPageUp: 10, fyne.KeyPageDown: -10}[k.Name]
	switch {
	case step && e.OnStep != nil:
		e.OnStep(steps)
	case k.Name == fyne.KeyEscape:
		e.OnEscape()
	case Everywhere(k.Name) && e.keys.Plain != nil:
		e.OnLeave()
		e.keys.Plain(k)
	default:
		e.Entry.TypedKey(k)
	}
}

// FocusGained tells that the keys go to it.
func (e *Entry) FocusGained() {
	e.Entry.FocusGained()
	if e.OnFocus != nil {
		e.OnFocus()
	}
}

// FocusLost takes what was typed. Where a press on it goes on, the keys come back once that has ended.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	e.OnLeave()
	if e.pressed {
		e.pressed = false
		e.keys.soon(e.regain)
	}
}

// MouseDown has the keys go to it.
func (e *Entry) MouseDown(m *desktop.MouseEvent) {
	e.Entry.MouseDown(m)
	e.pressed = true
}

// MouseUp ends a press.
func (e *Entry) MouseUp(m *desktop.MouseEvent) {
	e.pressed = false
	e.Entry.MouseUp(m)
}

// regain has the keys go to it again where they went to nothing: a press that moves what is pressed, as by a help that
// opens, ends on something else, from which the driver takes the keys away.
func (e *Entry) regain() {
	object := e.self.(fyne.CanvasObject)
	if c := fyne.CurrentApp().Driver().CanvasForObject(object); c != nil && c.Focused() == nil && object.Visible() {
		c.Focus(e.self)
	}
}

// Focused tells whether the keys go to an object.
func Focused(o fyne.Focusable) bool {
	object, ok := o.(fyne.CanvasObject)
	if !ok {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(object)
	return c != nil && c.Focused() == o
}
