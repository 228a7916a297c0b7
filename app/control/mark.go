package control

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/theme"
)

// picture is a mark on screen: drawn for the pixels there are.
func picture(of fyne.CanvasObject, mark func() theme.Mark, width float64) *canvas.Raster {
	r := canvas.NewRaster(nil)
	r.Generator = func(w, _ int) image.Image {
		t := theme.Of(of)
		wide := float64(t.Unit(float32(width)))
		return t.Picture(mark(), wide, float64(w)/wide)
	}
	r.SetMinSize(markSize(theme.Of(of), mark(), width))
	return r
}

// markSize is how large a mark of a width is on screen.
func markSize(t *theme.Theme, m theme.Mark, width float64) fyne.Size {
	_, high := m.Natural()
	return fyne.NewSize(t.Unit(float32(width)), t.Unit(float32(width*high)))
}

// plate is the shape of sheets, fields and buttons: filled, edged, with round corners, and a left
// edge that may be thick.
type plate struct {
	left, body *canvas.Rectangle
}

func newPlate() plate {
	return plate{canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)}
}

func (p plate) objects() []fyne.CanvasObject { return []fyne.CanvasObject{p.left, p.body} }

// show gives the plate its colours; thick is how wide its left edge is.
func (p plate) show(fill, edge color.Color, edgeWidth, radius float32, left color.Color, thick float32) {
	p.body.FillColor, p.body.StrokeColor, p.body.StrokeWidth = fill, edge, edgeWidth
	p.left.FillColor = left
	p.left.Hidden = thick == 0
	p.left.CornerRadius, p.body.CornerRadius = radius, radius
	if thick > 0 {
		// The body's own corners lie beside the thick edge: they are square there.
		p.body.CornerRadius = 0
		p.body.TopRightCornerRadius, p.body.BottomRightCornerRadius = radius, radius
		p.body.TopLeftCornerRadius, p.body.BottomLeftCornerRadius = 0, 0
	} else {
		p.body.TopRightCornerRadius, p.body.BottomRightCornerRadius = 0, 0
	}
}

// place lays the plate out.
func (p plate) place(at fyne.Position, size fyne.Size, thick float32) {
	p.left.Move(at)
	p.left.Resize(size)
	p.body.Move(at.AddXY(thick, 0))
	p.body.Resize(size.SubtractWidthHeight(thick, 0))
}

// over is a colour laid over another, so much of 255.
func over(ground, ink color.NRGBA, much int) color.NRGBA {
	mix := func(a, b uint8) uint8 { return uint8((int(a)*(255-much) + int(b)*much) / 255) }
	return color.NRGBA{mix(ground.R, ink.R), mix(ground.G, ink.G), mix(ground.B, ink.B), 255}
}
