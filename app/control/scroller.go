package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// Scroller shows a part of what is higher than the room there is. The wheel moves it wherever
// the pointer is, over fields as well; at its end the wheel moves what it stands in. It can be
// dragged by anything in it that is not dragged itself.
type Scroller struct {
	widget.BaseWidget
	Content fyne.CanvasObject
	offset  float32
	// dragged is how far a drag has gone that has not begun to move it; moving tells that it has.
	dragged float32
	moving  bool
	inner   []*Scroller
	// kept is what was brought into sight last and is until something else is shown; laid is how high it and its content were
	// laid out last.
	kept   fyne.CanvasObject
	laid   [2]float32
	view   *container.Clip
	holder *fyne.Container
	bar    *scrollBar
	catch  *wheelCatch
}

// dragFrom is how far a drag must go before it moves anything, in units: a press may tremble.
const dragFrom = 6

// NewScroller makes one.
func NewScroller(content fyne.CanvasObject) *Scroller {
	s := &Scroller{Content: content}
	s.ExtendBaseWidget(s)
	s.holder = container.New(scrolled{s}, content)
	s.view = container.NewClip(s.holder)
	s.view.ExtendBaseWidget(s.view) // without, it lays nothing out before it is painted
	s.bar, s.catch = newScrollBar(s), newWheelCatch(s)
	return s
}

// In has the wheel reach this one where it stands in another.
func (s *Scroller) In(outer *Scroller) *Scroller {
	outer.inner = append(outer.inner, s)
	return s
}

// Inside is the content.
func (s *Scroller) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{s.Content} }

// Offset is how far down it shows its content from.
func (s *Scroller) Offset() float32 { return s.offset }

// furthest is the greatest offset.
func (s *Scroller) furthest() float32 { return max(0, s.Content.MinSize().Height-s.Size().Height) }

// ScrollTo shows the content from an offset on, or from the nearest there is; it tells whether
// that moved it.
func (s *Scroller) ScrollTo(offset float32) (moved bool) {
	s.kept = nil
	return s.scrollTo(offset)
}

func (s *Scroller) scrollTo(offset float32) (moved bool) {
	offset = min(max(0, offset), s.furthest())
	if offset == s.offset {
		return false
	}
	s.offset = offset
	s.Refresh()
	return true
}

// Reveal brings an object in the content into sight, as little as need be. It stays there when what is over it becomes higher, or
// this lower, until something else is shown.
func (s *Scroller) Reveal(o fyne.CanvasObject) {
	s.kept = o
	if to, is := s.showing(o); is {
		s.scrollTo(to)
	}
}

// showing is the offset at which an object in the content is in sight, the nearest there is; false where it is not drawn.
func (s *Scroller) showing(o fyne.CanvasObject) (offset float32, is bool) {
	d := fyne.CurrentApp().Driver()
	at := d.AbsolutePositionForObject(o)
	if at.IsZero() || !o.Visible() {
		return 0, false
	}
	top := at.Y - d.AbsolutePositionForObject(s.Content).Y
	margin := theme.Of(s).Unit(theme.Space2)
	switch bottom := top + o.Size().Height; {
	case top-margin < s.offset:
		return top - margin, true
	case bottom+margin > s.offset+s.Size().Height:
		return bottom + margin - s.Size().Height, true
	}
	return s.offset, true
}

// keep has what was brought into sight last in sight where it, or this, has become of another height.
func (s *Scroller) keep() {
	now := [2]float32{s.Size().Height, s.Content.MinSize().Height}
	if s.kept == nil || now == s.laid {
		s.laid = now
		return
	}
	s.laid = now
	if to, is := s.showing(s.kept); is {
		s.offset = min(max(0, to), s.furthest())
		s.holder.Layout.Layout(s.holder.Objects, s.Size())
	}
}

// Keeping makes a change of the content that leaves an object of it where it is seen, whatever comes or goes over it; of none it
// stays scrolled as far as it is.
func (s *Scroller) Keeping(o fyne.CanvasObject, change func()) {
	if o == nil {
		change()
		return
	}
	top := func() float32 {
		d := fyne.CurrentApp().Driver()
		return d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s.Content).Y
	}
	was := top()
	change()
	s.scrollTo(s.offset + top() - was)
}

// wheel moves it by a turn of the wheel, or one that stands in it under the pointer; it tells
// whether anything moved.
func (s *Scroller) wheel(e *fyne.ScrollEvent) bool {
	d := fyne.CurrentApp().Driver()
	for _, in := range s.inner {
		at, size := d.AbsolutePositionForObject(in), in.Size()
		p := e.AbsolutePosition.Subtract(at)
		within := p.X >= 0 && p.Y >= 0 && p.X < size.Width && p.Y < size.Height
		if in.Visible() && within && in.wheel(e) {
			return true
		}
	}
	return s.ScrollTo(s.offset - e.Scrolled.DY)
}

// Dragged moves it with the pointer, once that has gone far enough to be meant.
func (s *Scroller) Dragged(e *fyne.DragEvent) {
	s.dragged += e.Dragged.DY
	if !s.moving && max(s.dragged, -s.dragged) < theme.Of(s).Unit(dragFrom) {
		return
	}
	s.moving = true
	s.ScrollTo(s.offset - s.dragged)
	s.dragged = 0
}

// DragEnd ends it.
func (s *Scroller) DragEnd() { s.dragged, s.moving = 0, false }

// CreateRenderer draws the part that is shown, and the bar.
func (s *Scroller) CreateRenderer() fyne.WidgetRenderer { return &scrollRenderer{s} }

type scrollRenderer struct{ s *Scroller }

func (r *scrollRenderer) Destroy() {}

func (r *scrollRenderer) MinSize() fyne.Size {
	t := theme.Of(r.s)
	return fyne.NewSize(r.s.Content.MinSize().Width+t.Unit(theme.Space2), t.Unit(theme.Space8))
}

func (r *scrollRenderer) Layout(size fyne.Size) {
	s := r.s
	s.offset = min(s.offset, s.furthest())
	s.view.Resize(size)
	s.holder.Layout.Layout(s.holder.Objects, size)
	s.keep()
	s.catch.Resize(size)
	wide := theme.Of(s).Unit(theme.Space3)
	s.bar.Move(fyne.NewPos(size.Width-wide, 0))
	s.bar.Resize(fyne.NewSize(wide, size.Height))
}

func (r *scrollRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.s.view, r.s.bar, r.s.catch}
}

func (r *scrollRenderer) Refresh() {
	r.Layout(r.s.Size())
	r.s.bar.Refresh()
	canvas.Refresh(r.s.view)
}

// scrolled lays the content out at its offset, beside the bar.
type scrolled struct{ s *Scroller }

func (l scrolled) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

func (l scrolled) Layout(o []fyne.CanvasObject, _ fyne.Size) {
	size := l.s.Size()
	width := size.Width
	if l.s.furthest() > 0 {
		width -= theme.Of(l.s).Unit(theme.Space2)
	}
	o[0].Resize(fyne.NewSize(width, max(size.Height, o[0].MinSize().Height)))
	// What wraps is higher or lower once it knows its width.
	o[0].Resize(fyne.NewSize(width, max(size.Height, o[0].MinSize().Height)))
	o[0].Move(fyne.NewPos(0, -l.s.offset))
}

// wheelCatch lies over the content and takes the wheel alone, which Fyne's entries would keep.
type wheelCatch struct {
	widget.BaseWidget
	s *Scroller
}

func newWheelCatch(s *Scroller) *wheelCatch {
	w := &wheelCatch{s: s}
	w.ExtendBaseWidget(w)
	return w
}

// Scrolled moves the scroller.
func (w *wheelCatch) Scrolled(e *fyne.ScrollEvent) { w.s.wheel(e) }

// CreateRenderer draws nothing.
func (w *wheelCatch) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// scrollBar shows how much there is and where one is.
type scrollBar struct {
	widget.BaseWidget
	s *Scroller
}

func newScrollBar(s *Scroller) *scrollBar {
	b := &scrollBar{s: s}
	b.ExtendBaseWidget(b)
	return b
}

// Dragged moves the content so that the bar follows the pointer.
func (b *scrollBar) Dragged(e *fyne.DragEvent) {
	if long := b.s.Size().Height - b.length(); long > 0 {
		b.s.ScrollTo(b.s.offset + e.Dragged.DY*b.s.furthest()/long)
	}
}

// DragEnd does nothing.
func (b *scrollBar) DragEnd() {}

// length of the bar.
func (b *scrollBar) length() float32 {
	all := b.s.Content.MinSize().Height
	if all <= 0 {
		return 0
	}
	const least = 24
	seen := b.s.Size().Height
	return min(seen, max(least, seen*seen/all))
}

// CreateRenderer draws the bar.
func (b *scrollBar) CreateRenderer() fyne.WidgetRenderer {
	r := &barRenderer{b, canvas.NewRectangle(nil)}
	r.Refresh()
	return r
}

type barRenderer struct {
	b    *scrollBar
	body *canvas.Rectangle
}

func (r *barRenderer) Destroy() {}

func (r *barRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *barRenderer) Layout(size fyne.Size) {
	far, long := r.b.s.furthest(), r.b.length()
	r.body.Hidden = far == 0
	y := float32(0)
	if far > 0 {
		y = (size.Height - long) * r.b.s.offset / far
	}
	wide := theme.Of(r.b).Unit(theme.Space1)
	r.body.Move(fyne.NewPos(size.Width-wide, y))
	r.body.Resize(fyne.NewSize(wide, long))
}

func (r *barRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.body} }

func (r *barRenderer) Refresh() {
	t := theme.Of(r.b)
	r.body.FillColor, r.body.CornerRadius = t.Role(theme.Edge), t.Unit(2)
	r.Layout(r.b.Size())
	canvas.Refresh(r.b)
}
