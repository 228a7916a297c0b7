package control

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// pickList is the list of a pick, over the whole window: a press beside it closes it.
type pickList struct {
	widget.BaseWidget
	pick   *Pick
	canvas fyne.Canvas
	rows   []*pickRow
	marked int
	sheet  *Card
	scroll *Scroller
	inLook inLook
	typed  string
}

func newPickList(p *Pick, c fyne.Canvas) *pickList {
	l := &pickList{pick: p, canvas: c, marked: max(0, p.at())}
	l.ExtendBaseWidget(l)
	var rows []fyne.CanvasObject
	for i := range p.options {
		r := newPickRow(l, i)
		l.rows = append(l.rows, r)
		rows = append(rows, r)
	}
	l.scroll = NewScroller(container.New(layout.NewCustomPaddedVBoxLayout(0), rows...))
	l.sheet = NewCard(l.scroll)
	l.sheet.Edge, l.sheet.Pad = theme.Edge, theme.Space1
	// The list is shown at the size its pick is shown at.
	times := p.theme().Unit(1) / theme.Of(l).Unit(1)
	l.inLook = newInLook(theme.Of(l).Times(times), l.scroll)
	l.sheet.Content = l.inLook.ThemeOverride
	return l
}

// FocusGained does nothing: the row that is marked shows it.
func (l *pickList) FocusGained() {}

// FocusLost closes the list: keys go elsewhere.
func (l *pickList) FocusLost() { l.pick.close() }

// TypedRune goes to the next option that begins with what is typed.
func (l *pickList) TypedRune(r rune) {
	l.typed += strings.ToLower(string(r))
	if l.find(l.typed) {
		return
	}
	l.typed = strings.ToLower(string(r))
	l.find(l.typed)
}

// find marks the next option that begins with a text.
func (l *pickList) find(text string) bool {
	n := len(l.rows)
	for k := range n {
		i := (l.marked + k) % n
		if len([]rune(text)) == 1 {
			i = (l.marked + 1 + k) % n
		}
		if strings.HasPrefix(strings.ToLower(l.pick.options[i].Text), text) {
			l.mark(i)
			return true
		}
	}
	return false
}

// TypedKey goes up and down, takes and closes.
func (l *pickList) TypedKey(k *fyne.KeyEvent) {
	const page = 8
	last := len(l.rows) - 1
	to := map[fyne.KeyName]int{fyne.KeyUp: l.marked - 1, fyne.KeyDown: l.marked + 1, fyne.KeyHome: 0, fyne.KeyEnd: last,
		fyne.KeyPageUp: l.marked - page, fyne.KeyPageDown: l.marked + page}
	if i, ok := to[k.Name]; ok {
		l.typed = ""
		l.mark(min(max(0, i), last))
		return
	}
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		l.pick.choose(l.marked)
	case fyne.KeyEscape:
		l.pick.close()
	}
}

// TypedShortcut closes the list and hands it on.
func (l *pickList) TypedShortcut(s fyne.Shortcut) {
	if l.pick.keys.Knows(s) {
		l.pick.close()
		l.pick.keys.Typed(s)
	}
}

// AcceptsTab has Tab close the list.
func (l *pickList) AcceptsTab() bool { return false }

func (l *pickList) mark(i int) {
	before := l.marked
	l.marked = i
	l.rows[before].Refresh()
	l.rows[i].Refresh()
	l.scroll.Reveal(l.rows[i])
}

// Tapped closes the list: the press was beside it.
func (l *pickList) Tapped(*fyne.PointEvent) { l.pick.close() }

// TappedSecondary does so as well.
func (l *pickList) TappedSecondary(*fyne.PointEvent) { l.pick.close() }

// CreateRenderer draws the list.
func (l *pickList) CreateRenderer() fyne.WidgetRenderer { return &listRenderer{l} }

type listRenderer struct{ l *pickList }

func (r *listRenderer) Destroy() { r.l.inLook.release() }

func (r *listRenderer) MinSize() fyne.Size { return fyne.Size{} }

// Layout stands the list under its pick, or over it where there is more room.
func (r *listRenderer) Layout(size fyne.Size) {
	l := r.l
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(l.pick)
	own := l.pick.BaseWidget.Size()
	const gap, edge = 2, 4
	pad := 2 * theme.Of(l).Unit(theme.Space1)
	width := min(size.Width-2*edge, max(own.Width, l.scroll.MinSize().Width+pad))
	wanted := l.scroll.Content.MinSize().Height + pad
	below, above := size.Height-at.Y-own.Height-gap-edge, at.Y-gap-edge
	high, y := min(wanted, below), at.Y+own.Height+gap
	if wanted > below && above > below {
		high = min(wanted, above)
		y = at.Y - gap - high
	}
	l.sheet.Move(fyne.NewPos(max(edge, min(at.X, size.Width-width-edge)), y))
	l.sheet.Resize(fyne.NewSize(width, high))
}

func (r *listRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.l.sheet} }

func (r *listRenderer) Refresh() {
	r.Layout(r.l.Size())
	r.l.sheet.Refresh()
}

// pickRow is an option of a list.
type pickRow struct {
	widget.BaseWidget
	list  *pickList
	index int
}

func newPickRow(l *pickList, i int) *pickRow {
	r := &pickRow{list: l, index: i}
	r.ExtendBaseWidget(r)
	return r
}

// Tapped takes it.
func (r *pickRow) Tapped(*fyne.PointEvent) { r.list.pick.choose(r.index) }

// MouseIn marks it.
func (r *pickRow) MouseIn(*desktop.MouseEvent) {
	if r.list.marked != r.index {
		before := r.list.marked
		r.list.marked = r.index
		r.list.rows[before].Refresh()
		r.Refresh()
	}
}

// MouseMoved does nothing.
func (r *pickRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut does nothing: it stays marked.
func (r *pickRow) MouseOut() {}

// CreateRenderer draws the option.
func (r *pickRow) CreateRenderer() fyne.WidgetRenderer {
	w := &rowRenderer{row: r, ground: canvas.NewRectangle(nil), text: NewText(""), note: NewText("")}
	w.tick = picture(r, func() theme.Mark { return theme.Mark{Kind: theme.IconTick, Ink: theme.Press} }, pickIcon)
	w.Refresh()
	return w
}

type rowRenderer struct {
	row        *pickRow
	ground     *canvas.Rectangle
	text, note *Text
	tick       *canvas.Raster
}

// Destroy lets go of the row: Fyne remembers the tick, which is in a look of its own, for good.
func (r *rowRenderer) Destroy() { r.tick.Generator = nil }

func (r *rowRenderer) option() Option { return r.row.list.pick.options[r.row.index] }

func (r *rowRenderer) MinSize() fyne.Size {
	t := theme.Of(r.row)
	text, note := r.text.MinSize(), fyne.Size{}
	if r.option().Note != "" {
		note = r.note.MinSize()
	}
	pad := t.Unit(theme.Space2)
	return fyne.NewSize(max(text.Width, note.Width)+t.Unit(pickIcon)+3*pad, max(t.High(theme.SmallHeight), text.Height+note.Height+pad))
}

func (r *rowRenderer) Layout(size fyne.Size) {
	t := theme.Of(r.row)
	r.ground.Resize(size)
	side, icon := t.Unit(theme.Space2), t.Unit(pickIcon)
	text, note := r.text.MinSize(), fyne.Size{}
	if r.option().Note != "" {
		note = r.note.MinSize()
	}
	y := (size.Height - text.Height - note.Height) / 2
	r.text.Move(fyne.NewPos(side, y))
	r.text.Resize(text)
	r.note.Move(fyne.NewPos(side, y+text.Height))
	r.note.Resize(note)
	r.tick.Move(fyne.NewPos(size.Width-side-icon, (size.Height-icon)/2))
	r.tick.Resize(fyne.NewSize(icon, icon))
}

func (r *rowRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.ground, r.text, r.tick}
	if r.option().Note != "" {
		out = append(out, r.note)
	}
	return out
}

func (r *rowRenderer) Refresh() {
	t, l := theme.Of(r.row), r.row.list
	ground := t.Role(theme.Sheet)
	if l.marked == r.row.index {
		ground = t.Role(theme.PressGround)
	}
	r.ground.FillColor, r.ground.CornerRadius = ground, t.Unit(theme.PlateRadius)
	ink := theme.Ink
	if r.option().Off {
		ink = theme.Caption
	}
	r.text.Styled(theme.TextBody, r.option().ID == l.pick.chosen, ink).SetText(r.option().Text)
	r.note.Styled(theme.TextCaption, false, theme.Caption).SetText(r.option().Note)
	r.tick.Hidden = r.option().ID != l.pick.chosen
	r.tick.Refresh()
	r.Layout(r.row.Size())
	canvas.Refresh(r.row)
}
