package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// Option is one of a few things to choose from.
type Option struct {
	ID   string
	Text string
	// Note stands small under the text; empty for none.
	Note string
	// Picture stands over the text, of a choice by pictures; nil for none. It is told whether it
	// is chosen, to be drawn so.
	Picture fyne.CanvasObject
	// Off is one that cannot be chosen now.
	Off bool
	// Hint is said of one among several things to press that stands beside the others; empty for nothing.
	Hint string
}

// Choice is a row of a few options, one of which is chosen: words beside each other in one frame,
// or, with pictures, sheets of their own. The arrows go from one to the next.
type Choice struct {
	focus
	About   string // what is chosen, for who cannot see
	options []Option
	chosen  string
	// marked is the one the arrows are at.
	marked   int
	OnChosen func(id string)
	// Columns has the options stand in so many columns; 0 for all beside each other.
	Columns int
	cells   []*cell
}

// NewChoice makes a row of options; chosen is one's ID, or none of them.
func NewChoice(keys *Keys, about string, options []Option, chosen string, f func(id string)) *Choice {
	c := &Choice{About: about, OnChosen: f}
	c.begin(c, keys)
	c.Set(options, chosen)
	return c
}

// Set changes the options and which one is chosen.
func (c *Choice) Set(options []Option, chosen string) {
	c.options, c.chosen = options, chosen
	for i, o := range options {
		if i == len(c.cells) {
			c.cells = append(c.cells, newCell(c, i))
		}
		c.cells[i].option = o
		if o.ID == chosen {
			c.marked = i
		}
	}
	c.cells = c.cells[:len(options)]
	c.marked = min(c.marked, max(0, len(options)-1))
	c.Refresh()
}

// Chosen is the ID of what is chosen.
func (c *Choice) Chosen() string { return c.chosen }

// AccessibilityLabel says what is chosen of what.
func (c *Choice) AccessibilityLabel() string {
	for _, o := range c.options {
		if o.ID == c.chosen {
			return c.About + ": " + o.Text
		}
	}
	return c.About
}

// AccessibilityRole is the nearest there is.
func (c *Choice) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }

// pictured tells whether it is a choice by pictures.
func (c *Choice) pictured() bool {
	for _, o := range c.options {
		if o.Picture != nil || o.Note != "" {
			return true
		}
	}
	return false
}

// columns is how many options stand beside each other.
func (c *Choice) columns() int {
	if c.Columns > 0 {
		return min(c.Columns, max(1, len(c.options)))
	}
	return max(1, len(c.options))
}

// TypedKey goes from option to option and chooses; other keys are handed on.
func (c *Choice) TypedKey(k *fyne.KeyEvent) {
	by := map[fyne.KeyName]int{fyne.KeyLeft: -1, fyne.KeyRight: 1, fyne.KeyUp: -c.columns(), fyne.KeyDown: c.columns()}
	rows := (len(c.options) + c.columns() - 1) / c.columns()
	switch step, ok := by[k.Name]; {
	case ok && (rows > 1 || step == 1 || step == -1):
		c.move(step)
	case pressed(k.Name):
		c.choose(c.marked)
	default:
		c.pass(k)
	}
}

// move goes to the next option that can be chosen, and chooses it.
func (c *Choice) move(step int) {
	for i := c.marked + step; i >= 0 && i < len(c.options); i += step {
		if !c.options[i].Off {
			c.choose(i)
			return
		}
	}
}

func (c *Choice) choose(i int) {
	if i >= len(c.options) || c.options[i].Off {
		return
	}
	c.marked = i
	if c.options[i].ID == c.chosen {
		c.Refresh()
		return
	}
	c.chosen = c.options[i].ID
	c.Refresh()
	if c.OnChosen != nil {
		c.OnChosen(c.chosen)
	}
}

// CreateRenderer draws the options.
func (c *Choice) CreateRenderer() fyne.WidgetRenderer {
	r := &choiceRenderer{c: c, frame: newPlate(), ring: newPlate()}
	r.Refresh()
	return r
}

type choiceRenderer struct {
	c           *Choice
	frame, ring plate
}

func (r *choiceRenderer) Destroy() {}

// gap between two options.
func (r *choiceRenderer) gap() float32 {
	if r.c.pictured() {
		return r.c.theme().Unit(theme.Space2)
	}
	return 0
}

// cell is how large an option is at least.
func (r *choiceRenderer) cell() (size fyne.Size) {
	for _, o := range r.c.cells {
		size = size.Max(o.MinSize())
	}
	return size
}

func (r *choiceRenderer) MinSize() fyne.Size {
	n, cell, gap := float32(r.c.columns()), r.cell(), r.gap()
	rows := float32((len(r.c.cells) + r.c.columns() - 1) / r.c.columns())
	return fyne.NewSize(n*cell.Width+(n-1)*gap, rows*cell.Height+max(0, rows-1)*gap)
}

func (r *choiceRenderer) Layout(size fyne.Size) {
	n, gap := r.c.columns(), r.gap()
	rows := max(1, (len(r.c.cells)+n-1)/n)
	cell := fyne.NewSize((size.Width-float32(n-1)*gap)/float32(n), (size.Height-float32(rows-1)*gap)/float32(rows))
	for i, o := range r.c.cells {
		o.Move(fyne.NewPos(float32(i%n)*(cell.Width+gap), float32(i/n)*(cell.Height+gap)))
		o.Resize(cell)
	}
	r.frame.place(fyne.Position{}, size, 0)
	const around = 3
	r.ring.place(fyne.NewPos(-around, -around), size.AddWidthHeight(2*around, 2*around), 0)
}

func (r *choiceRenderer) Objects() []fyne.CanvasObject {
	out := r.frame.objects()
	for _, o := range r.c.cells {
		out = append(out, o)
	}
	return append(out, r.ring.objects()...)
}

func (r *choiceRenderer) Refresh() {
	t, none := r.c.theme(), theme.Paper.In(false)
	none.A = 0
	r.frame.hide(r.c.pictured())
	r.frame.show(t.Role(theme.Sheet), t.Role(theme.Edge), theme.EdgeWidth, t.Unit(theme.Radius), none, 0)
	ring := none
	if r.c.focused {
		ring = t.Role(theme.Press)
	}
	r.ring.show(none, ring, theme.FocusWidth, t.Unit(theme.Radius+2), none, 0)
	for _, o := range r.c.cells {
		o.Refresh()
	}
	r.Layout(r.c.BaseWidget.Size())
	canvas.Refresh(r.c)
}

// cell is one option of a choice.
type cell struct {
	widget.BaseWidget
	of     *Choice
	index  int
	option Option
}

func newCell(of *Choice, index int) *cell {
	c := &cell{of: of, index: index}
	c.ExtendBaseWidget(c)
	return c
}

// Tapped chooses it, and has the arrows go on from it.
func (c *cell) Tapped(*fyne.PointEvent) {
	FocusOn(c.of)
	c.of.choose(c.index)
}

// CreateRenderer draws the option.
func (c *cell) CreateRenderer() fyne.WidgetRenderer {
	r := &cellRenderer{c: c, plate: newPlate(), text: NewText(""), note: NewWrapped("")}
	r.text.Align, r.note.Align = fyne.TextAlignCenter, fyne.TextAlignCenter
	r.text.Wrap = true
	r.Refresh()
	return r
}

type cellRenderer struct {
	c          *cell
	plate      plate
	text, note *Text
}

func (r *cellRenderer) Destroy() {}

func (r *cellRenderer) Refresh() {
	c, t := r.c, theme.Of(r.c.of)
	chosen := c.option.ID == c.of.chosen
	none := theme.Paper.In(false)
	none.A = 0
	fill, edge, ink, width := none, none, theme.Ink, float32(theme.EdgeWidth)
	if c.of.pictured() {
		fill, edge = t.Role(theme.Sheet), t.Role(theme.Edge)
		if chosen {
			fill, edge, width = t.Role(theme.PressGround), t.Role(theme.Press), theme.FocusWidth
		}
	} else if chosen {
		fill, ink = t.Role(theme.Ink), theme.Paper
	}
	if c.option.Off {
		ink = theme.Caption
	}
	r.plate.show(fill, edge, width, t.Unit(theme.Radius), none, 0)
	r.text.Styled(theme.TextSecond, true, ink).SetText(c.option.Text)
	noteInk := theme.Caption
	r.note.Styled(theme.TextLayer, false, noteInk).SetText(c.option.Note)
	if c.option.Picture != nil {
		c.option.Picture.Refresh()
	}
	r.Layout(c.Size())
	canvas.Refresh(c)
}

// side is what is left free at the sides of an option.
func (r *cellRenderer) side() float32 {
	if r.c.of.pictured() {
		return theme.Of(r.c.of).Unit(theme.Space2)
	}
	return theme.Of(r.c.of).Unit(theme.Space3)
}

func (r *cellRenderer) MinSize() fyne.Size {
	t := theme.Of(r.c.of)
	size := fyne.NewSize(r.text.WidestLine(), r.textHeight())
	if r.c.of.pictured() {
		size.Width = r.text.MinSize().Width
		if r.c.option.Note != "" {
			size = fyne.NewSize(max(size.Width, r.note.MinSize().Width), size.Height+r.note.MinSize().Height)
		}
	}
	if p := r.c.option.Picture; p != nil {
		size = fyne.NewSize(max(size.Width, p.MinSize().Width), size.Height+p.MinSize().Height+t.Unit(theme.Space1))
	}
	pad := t.Unit(theme.Space1)
	return fyne.NewSize(size.Width+2*r.side(), max(t.High(theme.PressHeight), size.Height+2*pad))
}

// textHeight is how high the text is where it stands now.
func (r *cellRenderer) textHeight() float32 {
	if width := r.c.Size().Width - 2*r.side(); width > 0 {
		r.text.Resize(fyne.NewSize(width, 1))
		r.note.Resize(fyne.NewSize(width, 1))
	}
	return r.text.MinSize().Height
}

func (r *cellRenderer) Layout(size fyne.Size) {
	t := theme.Of(r.c.of)
	r.plate.place(fyne.Position{}, size, 0)
	width := size.Width - 2*r.side()
	high := r.textHeight()
	note := float32(0)
	if r.c.option.Note != "" {
		note = r.note.MinSize().Height
	}
	y := (size.Height - high - note) / 2
	if p := r.c.option.Picture; p != nil {
		pad := t.Unit(theme.Space1)
		p.Move(fyne.NewPos(r.side(), pad))
		p.Resize(fyne.NewSize(width, size.Height-high-note-3*pad))
		y = size.Height - high - note - pad
	}
	r.text.Move(fyne.NewPos(r.side(), y))
	r.text.Resize(fyne.NewSize(width, high))
	r.note.Move(fyne.NewPos(r.side(), y+high))
	r.note.Resize(fyne.NewSize(width, note))
}

func (r *cellRenderer) Objects() []fyne.CanvasObject {
	out := append(r.plate.objects(), r.text)
	if r.c.option.Note != "" {
		out = append(out, r.note)
	}
	if r.c.option.Picture != nil {
		out = append(out, r.c.option.Picture)
	}
	return out
}
