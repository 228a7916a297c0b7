// Package tag is the room of the window with the tag of a thing of a drawing: a small card with the few
// fields of what is chosen, beside it and tied to it by a line. It lies over the drawing, covers the thing
// as little as it can, and takes nothing from what is round it.
package tag

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
)

// Thing is what a tag is of, where it lies in the layer.
type Thing struct {
	// Low and High are the corners of the box round it, At is where the line ties the tag to it.
	Low, High, At fyne.Position
	// Lines are straights of the drawing, which the tag rather does not cover.
	Lines [][2]fyne.Position
	// On has the tag stand on the thing and not beside it: a field in the place of a figure.
	On bool
}

// Content is what stands on a tag.
type Content struct {
	Title  string // empty for none
	Fields []fyne.CanvasObject
	// Says stands under the fields, as where there are none; empty for nothing.
	Says string
	// Ways are what else can be done, under the fields.
	Ways []Way
}

// Way is something that can be done with what the tag is of.
type Way struct {
	Text string
	Do   func()
}

// Layer is where a tag lies over a drawing; there is one at most.
type Layer struct {
	widget.BaseWidget
	keys   *control.Keys
	thing  Thing
	card   *fyne.Container // nil while no tag is open
	scroll *control.Scroller
	body   *fyne.Container
	// fields are those on the tag.
	fields []fyne.CanvasObject
	at     fyne.Position
	size   fyne.Size
	// Closed is told when the tag is closed by whoever looks at it; nil for nobody.
	Closed func()
}

// NewLayer makes a layer without a tag; keys are those of the tag's buttons.
func NewLayer(keys *control.Keys) *Layer {
	l := &Layer{keys: keys}
	l.ExtendBaseWidget(l)
	return l
}

// Open shows a tag of a thing in the place of any before.
func (l *Layer) Open(c Content, of Thing) {
	on := &sheet{fields: c.Fields, within: func() float32 { return l.body.Size().Width }}
	if c.Title != "" {
		on.title = control.NewWrapped(c.Title).Styled(theme.TextBody, true, theme.Ink)
		on.closing = control.NewPress(l.keys, "", l.dismiss).WithIcon(theme.IconClose)
		on.closing.Bare, on.closing.Small = true, true
		on.closing.Hint = func() string { return theme.Word("tag.close") }
	}
	if c.Says != "" {
		on.says = control.NewWrapped(c.Says).Styled(theme.TextCaption, false, theme.Caption)
	}
	for _, w := range c.Ways {
		p := control.NewPress(l.keys, w.Text, w.Do)
		p.Small = true
		on.ways = append(on.ways, p)
	}
	l.thing, l.fields = of, c.Fields
	l.body = container.NewWithoutLayout(on.objects()...)
	l.body.Layout = on
	l.scroll = control.NewScroller(l.body)
	card := control.NewCard(l.scroll)
	card.Edge, card.EdgeWidth, card.Pad = theme.Press, theme.FocusWidth, theme.Space2
	l.card = container.NewStack(newGround(), card)
	l.place()
	l.Refresh()
}

// dismiss closes the tag and says so.
func (l *Layer) dismiss() {
	l.Close()
	if l.Closed != nil {
		l.Closed()
	}
}

// Close takes the tag away.
func (l *Layer) Close() {
	if l.card == nil {
		return
	}
	l.card, l.scroll, l.body, l.fields = nil, nil, nil, nil
	l.Refresh()
}

// IsOpen tells whether there is a tag.
func (l *Layer) IsOpen() bool { return l.card != nil }

// Fields are those on the tag.
func (l *Layer) Fields() []fyne.CanvasObject { return l.fields }

// Inside is the tag.
func (l *Layer) Inside() []fyne.CanvasObject {
	if l.card == nil {
		return nil
	}
	return []fyne.CanvasObject{l.card}
}

// Follow has the tag's line end where its thing is now. The tag itself moves where it is to keep to its
// thing, or would cover it; not while something is typed on it.
func (l *Layer) Follow(of Thing, typing bool) {
	if l.card == nil {
		return
	}
	moved := of.At != l.thing.At
	l.thing = of
	if !typing && (of.On && moved || l.covers()) {
		l.place()
	}
	l.arrange()
	canvas.Refresh(l)
}

// Refresh has a tag as high as what is on it.
func (l *Layer) Refresh() {
	if l.card != nil {
		if l.size = l.wanted(l.size.Width); l.covers() {
			l.place()
		}
	}
	l.arrange()
	l.BaseWidget.Refresh()
}

// Resize places the tag anew.
func (l *Layer) Resize(s fyne.Size) {
	if s != l.Size() {
		l.BaseWidget.Resize(s)
		l.place()
		l.arrange()
	}
}

// MinSize is nothing: the layer takes what there is.
func (l *Layer) MinSize() fyne.Size { return fyne.Size{} }

// CreateRenderer shows the tag, with its line under it.
func (l *Layer) CreateRenderer() fyne.WidgetRenderer {
	r := &layerRenderer{l: l, line: canvas.NewLine(nil)}
	r.line.StrokeWidth = theme.FocusWidth
	r.Refresh()
	return r
}

type layerRenderer struct {
	l    *Layer
	line *canvas.Line
}

func (r *layerRenderer) Destroy() {}

func (r *layerRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *layerRenderer) Layout(fyne.Size) {}

func (r *layerRenderer) Objects() []fyne.CanvasObject {
	switch {
	case r.l.card == nil:
		return nil
	case r.l.thing.On:
		return []fyne.CanvasObject{r.l.card}
	}
	r.line.StrokeColor = theme.Of(r.l).Role(theme.Press)
	r.line.Position1, r.line.Position2 = r.l.tie()
	return []fyne.CanvasObject{r.line, r.l.card}
}

func (r *layerRenderer) Refresh() {
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.l)
}
