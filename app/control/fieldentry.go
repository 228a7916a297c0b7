package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/theme"
)

// fieldEntry is what is typed on in a field.
type fieldEntry struct {
	Entry
	field *Field
	has   bool // the focus
	fresh bool // got it, or what stands there, since it was pressed or typed on last
}

func newFieldEntry(f *Field) *fieldEntry {
	e := &fieldEntry{field: f}
	e.keys, e.OnLeave, e.Changed = f.keys, f.leave, e.changed
	e.OnEscape = func() {
		switch {
		case f.giveUp():
			if f.keys.GaveUp != nil {
				f.keys.GaveUp()
			}
		case f.keys.Plain != nil:
			f.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}
	}
	e.OnStep = f.stepBy
	e.OnChanged = f.typed
	e.OnSubmitted = func(string) { f.enter() }
	// The unit stands where Fyne has a button.
	e.ActionItem = container.New(layout.NewCustomPaddedLayout(0, 0, 0, theme.Space2), f.unit)
	e.self = e
	e.ExtendBaseWidget(e)
	return e
}

// changed tells whether something was typed that has not been taken.
func (e *fieldEntry) changed() bool { return e.Text != e.field.text }

// FocusGained selects all, so that typing replaces it.
func (e *fieldEntry) FocusGained() {
	e.has, e.fresh = true, true
	e.Entry.FocusGained()
	e.selectAll()
	e.field.Refresh()
	if e.keys.Focused != nil {
		e.keys.Focused(e.field)
	}
}

func (e *fieldEntry) selectAll() {
	if e.Text != "" {
		e.Entry.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// replaces has what is typed next replace all that stands there, once that was put there or taken while it has the keys; a press
// first does not change that, as of a field that has just got them.
func (e *fieldEntry) replaces() {
	if e.has {
		e.fresh = true
		e.selectAll()
	}
}

// FocusLost takes what was typed.
func (e *fieldEntry) FocusLost() {
	e.has = false
	e.Entry.FocusLost()
	e.field.Refresh()
	e.keys.Hints.hide(e.field)
}

// DoubleTapped selects all, where Fyne selects a word: a number has blanks in it that part none.
func (e *fieldEntry) DoubleTapped(p *fyne.PointEvent) {
	e.Entry.DoubleTapped(p)
	e.selectAll()
}

// MouseUp selects all where this press is the first since the field got the focus, or what stands there.
func (e *fieldEntry) MouseUp(m *desktop.MouseEvent) {
	e.Entry.MouseUp(m)
	if e.fresh && e.SelectedText() == "" {
		e.selectAll()
	}
	e.fresh = false
}

// TypedRune types.
func (e *fieldEntry) TypedRune(r rune) {
	e.fresh = false
	e.Entry.TypedRune(r)
}

// TypedKey says what the field is for on Shift-F1.
func (e *fieldEntry) TypedKey(k *fyne.KeyEvent) {
	if e.keys.asksHint(k) {
		e.keys.Hints.now(e.field, e.field.AccessibilityLabel())
		return
	}
	e.Entry.TypedKey(k)
}

// TypedShortcut lets go of what is held on Ctrl-L, and hands on what is pasted and is no single number.
func (e *fieldEntry) TypedShortcut(s fyne.Shortcut) {
	if p, ok := s.(*fyne.ShortcutPaste); ok && e.field.Paste != nil && e.field.Paste(p.Clipboard.Content()) {
		return
	}
	k, ok := s.(*desktop.CustomShortcut)
	if ok && k.KeyName == fyne.KeyL && k.Modifier == fyne.KeyModifierShortcutDefault && e.field.shown.Known == Held {
		e.field.letGo()
		return
	}
	e.Entry.TypedShortcut(s)
}

// fieldTheme has Fyne's entry draw no more than what is typed: its ground and its edge are the
// field's.
type fieldTheme struct {
	*theme.Theme
	field *Field
}

// Color of a part of the entry.
func (t *fieldTheme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	switch n {
	case fynetheme.ColorNameInputBackground, fynetheme.ColorNameInputBorder:
		return color.Transparent
	case fynetheme.ColorNamePrimary:
		return t.Role(t.field.edge())
	}
	return t.Theme.Color(n, v)
}

// Size of a part of the entry.
func (t *fieldTheme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case fynetheme.SizeNameText:
		return t.Text(theme.TextField)
	case fynetheme.SizeNameInnerPadding: // so that the line stands in the middle of the field
		higher, larger := t.High(theme.PressHeight)-t.Unit(theme.PressHeight), t.Text(theme.TextField)-t.Unit(theme.TextField)
		return t.Unit(theme.InnerSpace) + higher/2 - larger
	case fynetheme.SizeNameInputBorder:
		return theme.FocusWidth
	}
	return t.Theme.Size(n)
}
