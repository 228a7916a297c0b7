// Package start is the room of the window where a job begins: the start page with the jobs there are,
// and the sheet of six questions that a new one is made of. It gets values and returns what is wanted
// by functions; of the job on the desk it knows nothing.
package start

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
)

// dark tells whether the window is dark.
func dark() bool {
	t, ok := fyne.CurrentApp().Settings().Theme().(*theme.Theme)
	return ok && t.Dark()
}

// of is the colour of a role as the window is now.
func of(r theme.Role) color.NRGBA { return r.In(dark()) }

// line is a line of text that does not wrap.
func line(s string, size float32, r theme.Role) *control.Text {
	return control.NewText(s).Styled(size, false, r)
}

// bold is a bold line of text.
func bold(s string, size float32, r theme.Role) *control.Text {
	return control.NewText(s).Styled(size, true, r)
}

// paragraph is text that wraps.
func paragraph(s string, size float32, r theme.Role) *control.Text {
	return control.NewWrapped(s).Styled(size, false, r)
}

// boldly is bold text that wraps.
func boldly(s string, size float32, r theme.Role) *control.Text {
	return control.NewWrapped(s).Styled(size, true, r)
}

// sheetOf is something on a sheet of its own.
func sheetOf(ground, edge theme.Role, inside float32, o fyne.CanvasObject) fyne.CanvasObject {
	c := control.NewCard(o)
	c.Fill, c.Edge, c.Pad = ground, edge, inside
	return c
}

// inset is a layout that leaves room round what it holds.
type inset struct{ across, upright float32 }

// Layout places it.
func (l inset) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewPos(l.across, l.upright))
		o.Resize(fyne.NewSize(s.Width-2*l.across, s.Height-2*l.upright))
	}
}

// MinSize is that of what it holds with the room round it.
func (l inset) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var most fyne.Size
	for _, o := range objects {
		most = most.Max(o.MinSize())
	}
	return most.Add(fyne.NewSize(2*l.across, 2*l.upright))
}

// upright has something as high as it is in the middle of the height there is.
type upright struct{}

// Layout places it.
func (upright) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	for _, o := range objects {
		o.Resize(fyne.NewSize(s.Width, o.MinSize().Height))
		high := o.MinSize().Height // of text at its width
		o.Move(fyne.NewPos(0, (s.Height-high)/2))
		o.Resize(fyne.NewSize(s.Width, high))
	}
}

// MinSize is that of what it holds.
func (upright) MinSize(objects []fyne.CanvasObject) fyne.Size { return inset{}.MinSize(objects) }

// brokenEdge is text within the edge of what nobody has stated.
func brokenEdge(text fyne.CanvasObject) fyne.CanvasObject {
	edge := control.Broken(text, func() (edge, ground theme.Role, fine bool) { return theme.Unknown, theme.UnknownGround, false })
	return container.NewStack(edge, container.New(inset{6, 3}, text))
}

// sized has something at least so large.
func sized(w, h float32, o fyne.CanvasObject) fyne.CanvasObject {
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(w, h))
	return container.NewStack(room, o)
}

// gap is nothing, so wide and high.
func gap(w, h float32) fyne.CanvasObject {
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(w, h))
	return room
}

// thin is a thin line between things.
func thin() fyne.CanvasObject {
	r := canvas.NewRectangle(of(theme.Line))
	r.SetMinSize(fyne.NewSize(1, 1))
	return r
}

// mark is a mark of the theme at a width.
func mark(m theme.Mark, width float32) fyne.CanvasObject {
	_, high := m.Natural()
	pic := canvas.NewRaster(func(w, _ int) image.Image {
		t, ok := fyne.CurrentApp().Settings().Theme().(*theme.Theme)
		if !ok || w < 1 {
			return image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
		return t.Picture(m, float64(width), float64(w)/float64(width))
	})
	size := fyne.NewSize(width, width*float32(high))
	pic.SetMinSize(size)
	return container.NewGridWrap(size, pic)
}

// choice is something to be pressed that can be chosen: a picture, a word, or both.
type choice struct {
	widget.BaseWidget
	keys        *control.Keys
	says        string // what it is called, for who cannot see it
	inside      fyne.CanvasObject
	chosen      bool
	assumed     bool // it stands in for what is not answered; of one that is chosen as well that it is not
	flat        bool // it stands on a sheet of others, and has an edge only while it is pointed at
	press       func()
	focused, on bool
	// word is what it shows where that is a word alone; nil for others.
	word *control.Text
	// narrow has less room beside what it shows.
	narrow bool
	// group is what it is chosen among, which Tab takes as one; nil where it stands alone.
	group *control.Group
}

// newChoice makes one.
func newChoice(keys *control.Keys, says string, inside fyne.CanvasObject, press func()) *choice {
	c := &choice{keys: keys, says: says, inside: inside, press: press}
	c.ExtendBaseWidget(c)
	return c
}

// among has Tab take some choices as one, and arrow keys go from one to the next.
func among(all []*choice) {
	g := &control.Group{}
	for _, c := range all {
		g.Add(c)
	}
}

// Join takes it into a group.
func (c *choice) Join(g *control.Group) { c.group = g }

// AcceptsTab has a group say where Tab goes on to.
func (c *choice) AcceptsTab() bool { return c.group != nil }

// Tapped chooses it.
func (c *choice) Tapped(*fyne.PointEvent) { c.press() }

// FocusGained shows that keys go to it.
func (c *choice) FocusGained() {
	c.focused = true
	c.Refresh()
	if c.keys.Focused != nil {
		c.keys.Focused(c)
	}
}

// FocusLost shows that they do not.
func (c *choice) FocusLost() { c.focused = false; c.Refresh() }

// TypedRune is not for it.
func (c *choice) TypedRune(rune) {}

// TypedKey chooses it on Enter and Space, and goes among the others on the arrows.
func (c *choice) TypedKey(e *fyne.KeyEvent) {
	key := *e
	switch e.Name {
	case fyne.KeyUp:
		key.Name = fyne.KeyLeft
	case fyne.KeyDown:
		key.Name = fyne.KeyRight
	}
	if c.group.Key(&key, c, c.keys) {
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		c.press()
	default:
		if c.keys.Plain != nil {
			c.keys.Plain(e)
		}
	}
}

// TypedShortcut hands the window's shortcuts on.
func (c *choice) TypedShortcut(s fyne.Shortcut) { c.keys.Typed(s) }

// MouseIn shows that it can be pressed.
func (c *choice) MouseIn(*desktop.MouseEvent) { c.on = true; c.Refresh() }

// MouseMoved has nothing to do.
func (c *choice) MouseMoved(*desktop.MouseEvent) {}

// MouseOut shows it as it was.
func (c *choice) MouseOut() { c.on = false; c.Refresh() }

// AccessibilityLabel says what it is to who cannot see it.
func (c *choice) AccessibilityLabel() string { return c.says }

// CreateRenderer draws it.
func (c *choice) CreateRenderer() fyne.WidgetRenderer {
	r := &choiceRenderer{of: c, back: canvas.NewRectangle(nil), ring: canvas.NewRectangle(color.Transparent)}
	r.broken = control.Broken(c, func() (edge, ground theme.Role, fine bool) { return theme.Unknown, theme.UnknownGround, false })
	r.back.CornerRadius, r.ring.CornerRadius = theme.Radius, theme.Radius+2
	r.ring.StrokeWidth = theme.FocusWidth
	r.Refresh()
	return r
}

type choiceRenderer struct {
	of *choice
	// ring is round the one that has the keys.
	back, ring *canvas.Rectangle
	broken     *canvas.Raster // the edge of one that is assumed
}

// ringWidth is how far a choice's ring reaches beyond it.
const ringWidth = 3

// Inside a choice the least room round what it shows.
const (
	choiceAcross  = 12
	choiceUpright = 6
)

// across is the least room beside what it shows.
func (r *choiceRenderer) across() float32 {
	if r.of.narrow {
		return theme.Space1
	}
	return choiceAcross
}

func (r *choiceRenderer) Destroy() {}

func (r *choiceRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.broken, r.of.inside, r.ring}
}

func (r *choiceRenderer) MinSize() fyne.Size {
	s := r.of.inside.MinSize().Add(fyne.NewSize(2*r.across(), 2*choiceUpright))
	high := theme.Of(r.of).High(theme.PressHeight)
	return s.Max(fyne.NewSize(high, high))
}

func (r *choiceRenderer) Layout(s fyne.Size) {
	r.back.Resize(s)
	r.broken.Resize(s)
	r.ring.Move(fyne.NewPos(-ringWidth, -ringWidth))
	r.ring.Resize(s.AddWidthHeight(2*ringWidth, 2*ringWidth))
	in := r.of.inside.MinSize()
	in.Width = max(in.Width, s.Width-2*r.across())
	in.Height = max(in.Height, s.Height-2*choiceUpright)
	r.of.inside.Resize(in)
	r.of.inside.Move(fyne.NewPos((s.Width-in.Width)/2, (s.Height-in.Height)/2))
}

func (r *choiceRenderer) Refresh() {
	c := r.of
	ground, edge, wide := theme.Sheet, theme.Edge, float32(theme.EdgeWidth)
	switch {
	case c.chosen && c.word != nil: // as it is of choices in a row elsewhere
		ground, edge = theme.Ink, theme.Ink
	case c.chosen:
		ground, edge, wide = theme.PressGround, theme.Press, theme.FocusWidth
	case c.on && !c.flat:
		ground = theme.Paper
	case c.flat && !c.on:
		wide = 0
	}
	if r.broken.Hidden = c.chosen || !c.assumed; !r.broken.Hidden {
		r.broken.Refresh()
	}
	if c.word != nil {
		ink := theme.Ink
		if c.chosen {
			ink = theme.Sheet
		}
		if c.word.Role != ink {
			c.word.Role = ink
			c.word.Refresh()
		}
	}
	r.ring.Hidden = !c.focused
	r.ring.StrokeColor = of(theme.Press)
	r.ring.Refresh()
	r.back.FillColor, r.back.StrokeColor, r.back.StrokeWidth = of(ground), of(edge), wide
	r.back.Refresh()
}

// wordChoice is a choice of a word alone.
func wordChoice(keys *control.Keys, s string, do func()) *choice {
	word := bold(s, theme.TextSecond, theme.Ink)
	c := newChoice(keys, s, container.NewCenter(word), do)
	c.word = word
	return c
}

// column sets things under each other, each as high as it is at the width there is: text that wraps
// tells that only once it has its width.
type column struct {
	gap float32
	// middle sets them in the middle of the height there is.
	middle bool
}

// Layout places them.
func (c *column) Layout(o []fyne.CanvasObject, s fyne.Size) {
	high := c.place(o, s.Width)
	if down := (s.Height - high) / 2; c.middle && down > 0 {
		for _, o := range o {
			o.Move(o.Position().AddXY(0, down))
		}
	}
}

// place places them at a width, and tells how high they are together.
func (c *column) place(objects []fyne.CanvasObject, width float32) (high float32) {
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		if high > 0 {
			high += c.gap
		}
		o.Move(fyne.NewPos(0, high))
		o.Resize(fyne.NewSize(width, o.MinSize().Height))
		size := fyne.NewSize(width, o.MinSize().Height)
		o.Resize(size)
		high += size.Height
	}
	return high
}

// MinSize is that at the widths they have.
func (c *column) MinSize(objects []fyne.CanvasObject) (least fyne.Size) {
	for _, o := range objects {
		if o.Visible() {
			if least.Height > 0 {
				least.Height += c.gap
			}
			m := o.MinSize()
			least.Width, least.Height = max(least.Width, m.Width), least.Height+m.Height
		}
	}
	return least
}

// stacked are things under each other.
func stacked(gap float32, o ...fyne.CanvasObject) *fyne.Container {
	return container.New(&column{gap: gap}, o...)
}

// middleOf is stacked in the middle of the height there is.
func middleOf(gap float32, o ...fyne.CanvasObject) *fyne.Container {
	return container.New(&column{gap: gap, middle: true}, o...)
}

// over sets something over a foot that is as high as it must be.
type over struct{ gap float32 }

// Layout places them.
func (l *over) Layout(o []fyne.CanvasObject, s fyne.Size) {
	foot := (&column{}).place(o[1:2], s.Width)
	o[1].Move(fyne.NewPos(0, s.Height-foot))
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(s.Width, max(s.Height-foot-l.gap, 0)))
}

// MinSize is that of both.
func (l *over) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height+l.gap)
}

// flowing sets things beside each other, and goes on in the next row where there is no more room.
type flowing struct {
	gap   float32
	width float32
}

// Layout places them.
func (f *flowing) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	f.width = s.Width
	f.each(objects, s.Width, func(o fyne.CanvasObject, at fyne.Position) {
		o.Move(at)
		o.Resize(o.MinSize())
	})
}

// each gives the place of each, and how high all are together.
func (f *flowing) each(objects []fyne.CanvasObject, width float32, do func(fyne.CanvasObject, fyne.Position)) float32 {
	var x, y, row float32
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		if x > 0 && x+m.Width > width {
			x, y, row = 0, y+row+f.gap, 0
		}
		do(o, fyne.NewPos(x, y))
		x, row = x+m.Width+f.gap, max(row, m.Height)
	}
	return y + row
}

// MinSize is as high as they are at the width there is.
func (f *flowing) MinSize(objects []fyne.CanvasObject) fyne.Size {
	width := f.width
	if width == 0 {
		width = questionsLess - 2*theme.Space4 - 24
	}
	return fyne.NewSize(100, f.each(objects, width, func(fyne.CanvasObject, fyne.Position) {}))
}
