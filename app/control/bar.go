package control

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// member is what widgets of the toolkit get so that they hand on the keys they have no use for,
// and can stand in a group.
type member struct {
	keys  *Keys
	group *Group
}

// Join takes it into a group.
func (m *member) Join(g *Group) { m.group = g }

// AcceptsTab has a group's Tab go past the rest of it.
func (m *member) AcceptsTab() bool { return m.group != nil }

// used does what a key stands for in the group or in the window, unless the widget itself has a
// use for it; it tells whether it did.
func (m *member) used(k *fyne.KeyEvent, self fyne.Focusable, own ...fyne.KeyName) bool {
	if slices.Contains(own, k.Name) {
		return false
	}
	if !m.group.Key(k, self, m.keys) && m.keys.Plain != nil {
		m.keys.Plain(k)
	}
	return true
}

// TypedShortcut hands the window's shortcuts on.
func (m *member) TypedShortcut(s fyne.Shortcut) { m.keys.Typed(s) }

// ToolButton is a button of a bar: under the pointer it says what it does, and the key for it.
type ToolButton struct {
	widget.Button
	member
	Hint func() string // nil for nothing to say
	say  func(string)
}

// NewToolButton makes one; say shows what Hint says.
func NewToolButton(keys *Keys, label string, icon fyne.Resource, hint func() string, say func(string), tapped func()) *ToolButton {
	b := NewButton(keys, label, tapped)
	b.Hint, b.say, b.Icon, b.Importance = hint, say, icon, widget.LowImportance
	return b
}

// NewButton makes a button with nothing to say of itself.
func NewButton(keys *Keys, label string, tapped func()) *ToolButton {
	b := &ToolButton{member: member{keys: keys}, say: func(string) {}}
	b.Text, b.OnTapped = label, tapped
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey presses it, or hands the key on.
func (b *ToolButton) TypedKey(k *fyne.KeyEvent) {
	if !b.used(k, b, fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter) && !b.Disabled() && b.OnTapped != nil {
		b.OnTapped()
	}
}

// MouseIn says what the button does.
func (b *ToolButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	if b.Hint != nil {
		b.say(b.Hint())
	}
}

// MouseOut takes that back.
func (b *ToolButton) MouseOut() {
	b.Button.MouseOut()
	if b.Hint != nil {
		b.say("")
	}
}

// Enable lets a button be used, or not.
func Enable(b fyne.Disableable, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}

// Select is a list to choose from.
type Select struct {
	widget.Select
	member
}

// NewSelect makes one, with a word of the catalogue while nothing is chosen.
func NewSelect(keys *Keys, options []string, changed func(string)) *Select {
	s := &Select{member: member{keys: keys}}
	s.Options, s.OnChanged, s.PlaceHolder = options, changed, theme.Word("app.choose-one")
	s.ExtendBaseWidget(s)
	return s
}

// MinSize is as high as what is pressed and wide enough for a short word; Whole is for the whole of what is chosen.
func (s *Select) MinSize() fyne.Size {
	const word = 48 // units
	t := theme.Of(s)
	return fyne.NewSize(t.Unit(word)+s.beside(), t.High(theme.PressHeight))
}

// Whole is how wide it is with the whole of what is chosen.
func (s *Select) Whole() float32 {
	return max(wide(s.Selected, theme.Of(s).Size(fynetheme.SizeNameText), false)+s.beside(), s.MinSize().Width)
}

// beside is what its mark and what it leaves free take beside the text.
func (s *Select) beside() float32 {
	t := theme.Of(s)
	return t.Size(fynetheme.SizeNameInlineIcon) + 3*t.Size(fynetheme.SizeNameInnerPadding)
}

// Chosen sets a choice at the left of a line, what can be done with it behind that, and further things at the right, Gap
// units apart. Where there is not room for all the choice is told in part.
type Chosen struct{ Gap float32 }

// MinSize is with the least of each.
func (c Chosen) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := o[0].MinSize()
	for _, o := range o[1:] {
		m := o.MinSize()
		s.Width, s.Height = s.Width+c.Gap+m.Width, max(s.Height, m.Height)
	}
	return s
}

// Layout places them: the first is a choice.
func (c Chosen) Layout(o []fyne.CanvasObject, s fyne.Size) {
	spare := s.Width - c.MinSize(o).Width
	first := min(o[0].(*Select).Whole(), o[0].MinSize().Width+max(spare, 0))
	end := o[2].MinSize().Width
	x := float32(0)
	for i, width := range []float32{first, max(s.Width-first-end-2*c.Gap, 0), end} {
		o[i].Move(fyne.NewPos(x, 0))
		o[i].Resize(fyne.NewSize(width, s.Height))
		x += width + c.Gap
	}
}

// TypedKey opens the list, or hands the key on.
func (s *Select) TypedKey(k *fyne.KeyEvent) {
	if s.used(k, s, fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyUp, fyne.KeyDown) {
		return
	}
	s.Select.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
}

// Check is something that is so or not.
type Check struct {
	widget.Check
	member
}

// NewCheck makes one.
func NewCheck(keys *Keys, label string, changed func(bool)) *Check {
	c := &Check{member: member{keys: keys}}
	c.Text, c.OnChanged = label, changed
	c.ExtendBaseWidget(c)
	return c
}

// TypedKey changes it, or hands the key on.
func (c *Check) TypedKey(k *fyne.KeyEvent) {
	if !c.used(k, c, fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter) && !c.Disabled() {
		c.SetChecked(!c.Checked)
	}
}

// TypedRune has no meaning here: keys have.
func (c *Check) TypedRune(rune) {}

// Slider is a value between two ends.
type Slider struct {
	widget.Slider
	member
}

// NewSlider makes one that goes in steps.
func NewSlider(keys *Keys, least, most, step float64) *Slider {
	s := &Slider{member: member{keys: keys}}
	s.Min, s.Max, s.Step = least, most, step
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey moves it, or hands the key on.
func (s *Slider) TypedKey(k *fyne.KeyEvent) {
	if !s.used(k, s, fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown) {
		s.Slider.TypedKey(k)
	}
}

// List is a list of rows of which one can be chosen.
type List struct {
	widget.List
	member
}

// NewList makes one of so many rows; row makes one to be filled.
func NewList(keys *Keys, length func() int, row func() fyne.CanvasObject, fill func(int, fyne.CanvasObject)) *List {
	l := &List{member: member{keys: keys}}
	l.Length, l.CreateItem, l.UpdateItem = length, row, fill
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey goes along the list and chooses, or hands the key on.
func (l *List) TypedKey(k *fyne.KeyEvent) {
	if !l.used(k, l, fyne.KeySpace, fyne.KeyUp, fyne.KeyDown) {
		l.List.TypedKey(k)
	}
}
