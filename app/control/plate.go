package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// plate is the shape of sheets, fields and buttons: filled, edged, with round corners, and a left
// edge that may be thick. Round corners cost a painter without a graphics card so much a pixel
// that a large plate, all of it one rounded shape, takes as long as the rest of the window: there
// only two bands along its top and foot are rounded, and what lies between is plain.
type plate struct {
	left, body         *canvas.Rectangle
	foot               *canvas.Rectangle // the band along the foot; the body is the one along the top then
	west, east, middle *canvas.Rectangle
	look               *plateLook
}

// plateLook is how a plate was last shown.
type plateLook struct {
	fill      color.Color
	edgeWidth float32
	radius    float32
	hidden    bool
	banded    bool // put together of bands
}

func newPlate() plate {
	blank := func() *canvas.Rectangle { return canvas.NewRectangle(color.Transparent) }
	return plate{left: blank(), body: blank(), foot: blank(), west: blank(), east: blank(), middle: blank(), look: &plateLook{}}
}

// objects are the plate's parts, from the lowest up.
func (p plate) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{p.left, p.body, p.foot, p.west, p.east, p.middle}
}

// hide takes the plate out of sight, all but its thick left edge, or brings it back.
func (p plate) hide(hidden bool) {
	p.look.hidden = hidden
	p.reveal()
}

// reveal shows the parts that the plate is put together of now.
func (p plate) reveal() {
	p.body.Hidden = p.look.hidden
	for _, r := range []*canvas.Rectangle{p.foot, p.west, p.east, p.middle} {
		r.Hidden = p.look.hidden || !p.look.banded
	}
}

// show gives the plate its colours; thick is how wide its left edge is.
func (p plate) show(fill, edge color.Color, edgeWidth, radius float32, left color.Color, thick float32) {
	p.look.fill, p.look.edgeWidth, p.look.radius = fill, edgeWidth, radius
	p.left.FillColor = left
	p.left.Hidden = thick == 0
	p.left.CornerRadius = radius
	for _, r := range []*canvas.Rectangle{p.body, p.foot} {
		r.FillColor, r.StrokeColor, r.StrokeWidth = fill, edge, edgeWidth
		r.CornerRadius = radius
		r.TopRightCornerRadius, r.BottomRightCornerRadius = 0, 0
		r.TopLeftCornerRadius, r.BottomLeftCornerRadius = 0, 0
		if thick > 0 {
			// The body's own corners lie beside the thick edge: they are square there.
			r.CornerRadius = 0
			r.TopRightCornerRadius, r.BottomRightCornerRadius = radius, radius
		}
	}
	p.west.FillColor, p.east.FillColor, p.middle.FillColor = edge, edge, fill
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
	_, _, _, opaque := l.fill.RGBA()
	l.banded = opaque == 0xffff && size.Height >= largePlate*l.radius
	p.reveal()
	if !l.banded {
		return
	}
	// The edge as many whole pixels wide as that of the bands.
	edge := p.wholePixels(l.edgeWidth)
	put := func(r *canvas.Rectangle, x, y, w, h float32) {
		r.Move(at.AddXY(x, y))
		r.Resize(fyne.NewSize(w, h))
	}
	band, from := 2*l.radius, l.radius
	put(p.body, 0, 0, size.Width, band)
	put(p.foot, 0, size.Height-band, size.Width, band)
	put(p.west, 0, from, edge, size.Height-2*from)
	put(p.east, size.Width-edge, from, edge, size.Height-2*from)
	put(p.middle, edge, from, size.Width-2*edge, size.Height-2*from)
}

// wholePixels is a width rounded to the pixels of the screen.
func (p plate) wholePixels(width float32) float32 {
	c := fyne.CurrentApp().Driver().CanvasForObject(p.body)
	if c == nil || width == 0 {
		return width
	}
	pixels := float32(int(width*c.Scale() + 0.5))
	return max(pixels, 1) / c.Scale()
}
