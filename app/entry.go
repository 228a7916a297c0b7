package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// entry is a text field of the window: it takes what is typed when it is left,
// gives it up on Escape, and hands the window's keys on.
type entry struct {
	widget.Entry
	keys *windowKeys
	// onLeave takes what was typed; onEscape gives it up.
	onLeave, onEscape func()
	// changed tells whether something was typed that has not been taken.
	changed func() bool
	// onStep changes a number by steps; nil for what is no number.
	onStep func(steps float64)
}

// newEntry makes a field of one line.
func newEntry(keys *windowKeys) *entry {
	e := &entry{keys: keys, onLeave: func() {}, onEscape: func() {}, changed: func() bool { return false }}
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.onLeave() }
	return e
}

// newLinesEntry makes a field of several lines.
func newLinesEntry(keys *windowKeys, lines int) *entry {
	e := newEntry(keys)
	e.MultiLine = true
	e.Wrapping = fyne.TextWrapOff
	e.SetMinRowsVisible(lines)
	return e
}

// TypedShortcut hands the window's shortcuts on, once what was typed is taken.
// Undo first gives up what was typed.
func (e *entry) TypedShortcut(s fyne.Shortcut) {
	_, undo := s.(*fyne.ShortcutUndo)
	switch {
	case undo && e.changed() && e.MultiLine:
		e.Entry.TypedShortcut(s)
	case undo && e.changed():
		e.onEscape()
	case e.keys.knows(s):
		e.onLeave()
		e.keys.typed(s)
	default:
		e.Entry.TypedShortcut(s)
	}
}

// TypedKey steps a number with the arrow keys, gives up on Escape and hands on
// keys that mean the same everywhere.
func (e *entry) TypedKey(k *fyne.KeyEvent) {
	steps, step := map[fyne.KeyName]float64{fyne.KeyUp: 1, fyne.KeyDown: -1, fyne.KeyPageUp: 10, fyne.KeyPageDown: -10}[k.Name]
	switch {
	case step && e.onStep != nil:
		e.onStep(steps)
	case k.Name == fyne.KeyEscape:
		e.onEscape()
	case everywhere(k.Name) && e.keys.plain != nil:
		e.onLeave()
		e.keys.plain(k)
	default:
		e.Entry.TypedKey(k)
	}
}

// FocusLost takes what was typed.
func (e *entry) FocusLost() {
	e.Entry.FocusLost()
	e.onLeave()
}

// focused tells whether the keys go to an object.
func focused(o fyne.Focusable) bool {
	object, ok := o.(fyne.CanvasObject)
	if !ok {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(object)
	return c != nil && c.Focused() == o
}
