package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// focus is what widgets that take the focus have in common: they know whether they have it and
// whether the pointer is over them, hand on the keys they have no use for, and show their hint.
type focus struct {
	widget.BaseWidget
	keys    *Keys
	group   *Group // that it stands in; nil for none
	self    fyne.CanvasObject
	focused bool
	hovered bool
	// Hint is what it is for, with its key; nil or empty for nothing to say.
	Hint func() string
}

// begin makes a widget one that takes the focus.
func (f *focus) begin(self fyne.Widget, keys *Keys) {
	if keys == nil {
		keys = NewKeys()
	}
	f.keys, f.self = keys, self
	f.ExtendBaseWidget(self)
}

// FocusGained shows that keys go here.
func (f *focus) FocusGained() {
	f.focused = true
	f.Refresh()
	if f.keys.Focused != nil {
		f.keys.Focused(f.self)
	}
}

// FocusLost shows that they no longer do.
func (f *focus) FocusLost() {
	f.focused = false
	f.keys.Hints.hide(f.self)
	f.Refresh()
}

// TypedRune has no meaning here: keys have.
func (f *focus) TypedRune(rune) {}

// TypedShortcut hands the window's shortcuts on.
func (f *focus) TypedShortcut(s fyne.Shortcut) {
	f.keys.Typed(s)
}

// Join takes it into a group.
func (f *focus) Join(g *Group) { f.group = g }

// AcceptsTab has a group's Tab go past the rest of it.
func (f *focus) AcceptsTab() bool { return f.group != nil }

// pass hands a key on that has no use here; Shift-F1 says what the widget is for.
func (f *focus) pass(k *fyne.KeyEvent) {
	if self, ok := f.self.(fyne.Focusable); ok && f.group.Key(k, self, f.keys) {
		return
	}
	if f.keys.asksHint(k) {
		f.keys.Hints.now(f.self, f.hint())
		return
	}
	if f.keys.Plain != nil {
		f.keys.Plain(k)
	}
}

func (f *focus) hint() string {
	if f.Hint == nil {
		return ""
	}
	return f.Hint()
}

// MouseIn shows that it can be pressed, and soon what it is for.
func (f *focus) MouseIn(*desktop.MouseEvent) {
	f.hovered = true
	f.Refresh()
	f.keys.Hints.soon(f.self, f.hint)
}

// MouseMoved does nothing.
func (f *focus) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends it.
func (f *focus) MouseOut() {
	f.hovered = false
	f.keys.Hints.hide(f.self)
	f.Refresh()
}

func (f *focus) theme() *theme.Theme { return theme.Of(f.self) }

// FocusOn has the keys go to a widget that is shown.
func FocusOn(o fyne.Focusable) {
	object, ok := o.(fyne.CanvasObject)
	if !ok {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(object); c != nil {
		c.Focus(o)
	}
}

// pressed tells whether a key presses what has the focus.
func pressed(k fyne.KeyName) bool {
	return k == fyne.KeySpace || k == fyne.KeyReturn || k == fyne.KeyEnter
}
