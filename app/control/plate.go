package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// plate is the shape of sheets, fields and buttons: filled, edged, with round corners, and a left
// edge that may be thick. Round corners cost a painter without a graphics card so much a pixel
// that a large plate, all of it one rounded shape, takes as long as the rest of the window: such a
// one is put together of two slabs, the edge's and over it the fill's.
type plate struct {
	left, body *canvas.Rectangle
	head, sole *canvas.Rectangle // what is not covered above and under what covers the rest, but for strips at its sides
	edge, fill slab
	look       *plateLook
}

// plateLook is how a plate was last shown.
type plateLook struct {
	edge, fill        color.Color
	edgeWidth, radius float32
	hidden            bool
	large             bool // put together of slabs
	// coverFrom is from how far down on something else covers the plate, but for strips at its sides that are so wide, down to so
	// far above its foot; nought for nothing.
	coverFrom, strip, coverTo float32
}

func newPlate() plate {
	blank := func() *canvas.Rectangle { return canvas.NewRectangle(color.Transparent) }
	return plate{left: blank(), body: blank(), head: blank(), sole: blank(), edge: newSlab(), fill: newSlab(), look: &plateLook{}}
}

// objects are the plate's parts, from the lowest up.
func (p plate) objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{p.left, p.body}
	for _, r := range append(p.edge.parts(), p.fill.parts()...) {
		out = append(out, r)
	}
	return append(out, p.head, p.sole)
}

// hide takes the plate out of sight, all but its thick left edge, or brings it back.
func (p plate) hide(hidden bool) {
	p.look.hidden = hidden
	p.reveal()
}

// reveal shows the parts that the plate is put together of now.
func (p plate) reveal() {
	l := p.look
	p.body.Hidden = l.hidden || l.large
	p.head.Hidden = l.hidden || !l.covered()
	p.sole.Hidden = p.head.Hidden || l.coverTo <= l.strip
	p.edge.hide(l.hidden || !l.large || l.edgeWidth == 0)
	p.fill.hide(l.hidden || !l.large)
}

// covered tells whether most of the plate needs no painting, as something else covers it.
func (l *plateLook) covered() bool { return l.large && l.coverFrom > 0 }

// show gives the plate its colours; thick is how wide its left edge is.
func (p plate) show(fill, edge color.Color, edgeWidth, radius float32, left color.Color, thick float32) {
	l := p.look
	l.fill, l.edge, l.edgeWidth, l.radius = fill, edge, edgeWidth, radius
	p.left.FillColor = left
	p.left.Hidden = thick == 0
	p.left.CornerRadius = radius
	p.body.FillColor, p.body.StrokeColor, p.body.StrokeWidth = fill, edge, edgeWidth
	p.body.CornerRadius = radius
	p.body.TopRightCornerRadius, p.body.BottomRightCornerRadius = 0, 0
	if thick > 0 {
		// The body's own corners lie beside the thick edge: they are square there.
		p.body.CornerRadius = 0
		p.body.TopRightCornerRadius, p.body.BottomRightCornerRadius = radius, radius
	}
}

// largePlate is how high a plate is, in radii of its corners, from where on it is put together.
const largePlate = 8

// place lays the plate out.
func (p plate) place(at fyne.Position, size fyne.Size, thick float32) {
	l := p.look
	p.left.Move(at)
	p.left.Resize(fyne.NewSize(min(size.Width, thick+2*l.radius), size.Height))
	at, size = at.AddXY(thick, 0), size.SubtractWidthHeight(thick, 0)
	p.body.Move(at)
	p.body.Resize(size)
	l.large = opaque(l.fill) && (l.edgeWidth == 0 || opaque(l.edge)) && l.radius > 0 && size.Height >= largePlate*l.radius
	p.reveal()
	if !l.large {
		return
	}
	edge := wholePixels(p.body, l.edgeWidth)
	p.edge.place(at, size, l.radius, 2*l.radius, thick == 0, l.edge)
	strip := float32(0)
	if l.covered() {
		strip = l.strip - edge
		p.head.FillColor = l.fill
		p.head.Move(at.AddXY(edge, l.radius))
		p.head.Resize(fyne.NewSize(size.Width-2*edge, l.coverFrom-l.radius))
		p.sole.FillColor = l.fill
		p.sole.Move(at.AddXY(edge, size.Height-l.coverTo))
		p.sole.Resize(fyne.NewSize(size.Width-2*edge, max(0, l.coverTo-l.radius)))
	}
	p.fill.place(at.AddXY(edge, edge), size.SubtractWidthHeight(2*edge, 2*edge), l.radius-edge, strip, thick == 0, l.fill)
}

// opaque tells whether nothing shows through a colour.
func opaque(c color.Color) bool {
	_, _, _, a := c.RGBA()
	return a == 0xffff
}

// wholePixels is a width rounded to the pixels of the screen that an object is on.
func wholePixels(of fyne.CanvasObject, width float32) float32 {
	c := fyne.CurrentApp().Driver().CanvasForObject(of)
	if c == nil || width == 0 {
		return width
	}
	return max(float32(int(width*c.Scale()+0.5)), 1) / c.Scale()
}

// slab is a filled rectangle with round corners of which only a band along its top and one along
// its foot are rounded: what lies between is plain, or only a strip at each side where something else
// covers the rest.
type slab struct{ top, foot, middle, right *canvas.Rectangle }

func newSlab() slab {
	blank := func() *canvas.Rectangle { return canvas.NewRectangle(color.Transparent) }
	return slab{blank(), blank(), blank(), blank()}
}

func (s slab) parts() []*canvas.Rectangle {
	return []*canvas.Rectangle{s.top, s.foot, s.middle, s.right}
}

func (s slab) hide(hidden bool) {
	for _, r := range s.parts() {
		r.Hidden = hidden
	}
}

// place lays the slab out in a colour; its corners at the left are round where left says so. Between
// the bands it is there for strip at each side, nought for all of it.
func (s slab) place(at fyne.Position, size fyne.Size, radius, strip float32, left bool, c color.Color) {
	// The bands reach under what lies between, so that no line of pixels is left out.
	band, high := 2*radius, size.Height-2*radius
	put := func(r *canvas.Rectangle, x, y, w, h float32) {
		r.FillColor = c
		r.Move(at.AddXY(x, y))
		r.Resize(fyne.NewSize(w, h))
	}
	put(s.top, 0, 0, size.Width, band)
	put(s.foot, 0, size.Height-band, size.Width, band)
	if strip == 0 {
		put(s.middle, 0, radius, size.Width, high)
		put(s.right, 0, 0, 0, 0)
	} else {
		put(s.middle, 0, radius, strip, high)
		put(s.right, size.Width-strip, radius, strip, high)
	}
	s.top.TopRightCornerRadius, s.foot.BottomRightCornerRadius = radius, radius
	s.top.TopLeftCornerRadius, s.foot.BottomLeftCornerRadius = 0, 0
	if left {
		s.top.TopLeftCornerRadius, s.foot.BottomLeftCornerRadius = radius, radius
	}
}
