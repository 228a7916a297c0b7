package tray

import (
	"image"
	"image/draw"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/sketch"
	"underfall/geometry/unit"
)

// picture is the small drawing of a measure.
type picture struct {
	raster  *canvas.Raster
	measure string
	sketch  *sketch.Sketch // nil where the measure has none
	theme   *theme.Theme
}

// newPicture makes it, of nothing yet.
func newPicture(th *theme.Theme) *picture {
	p := &picture{theme: th}
	p.raster = canvas.NewRaster(p.drawn)
	return p
}

// there tells whether there is anything to draw.
func (p *picture) there() bool { return p.sketch != nil }

// show draws a measure, or nothing of one that has no drawing.
func (p *picture) show(measure string) {
	if measure == p.measure {
		return
	}
	p.measure, p.sketch = measure, nil
	if s, ok := sketch.Of(measure); ok {
		p.sketch = &s
	}
	p.raster.Refresh()
}

// within is how large it is drawn in some room.
func (p *picture) within(room fyne.Size) fyne.Size {
	wide := min(room.Width, room.Height*sketch.WideMM/sketch.HighMM)
	return fyne.NewSize(wide, wide*sketch.HighMM/sketch.WideMM)
}

// leastLetters is how small the word at the measure is, of its own size, however small the drawing is.
const leastLetters = 0.8

// drawn is the sketch in so many pixels, with its measure lit.
func (p *picture) drawn(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	const least = 16 // pixels; less is no room for a drawing
	if p.sketch == nil || w < least || h < least {
		return img
	}
	painter, err := paint.NewPainter(fynetheme.DefaultTextBoldFont().Content())
	if err != nil {
		return img
	}
	pixels := min(float64(w)/sketch.WideMM, float64(h)/sketch.HighMM)
	style := p.theme.PaintStyle(pixels, unit.Metric, "")
	style.Unit = message.Message{} // no number stands in it
	v := paint.View{Centre: plan.Point{sketch.WideMM / 2, sketch.HighMM / 2}, PixelsPerMM: pixels, Width: w, Height: h}
	painter.Draw(img, p.sketch.Drawing, v, style)
	if wide := p.raster.Size().Width; wide > 0 {
		style.Scale = max(style.Scale, leastLetters*float64(w)/float64(wide))
	}
	painter.Lit(img, v, style, p.sketch.From, p.sketch.To, theme.Word("tray.this"))
	edge := image.NewUniform(style.Soft)
	for _, side := range []image.Rectangle{
		image.Rect(0, 0, w, 1), image.Rect(0, 0, 1, h), image.Rect(0, h-1, w, h), image.Rect(w-1, 0, w, h),
	} {
		draw.Draw(img, side, edge, image.Point{}, draw.Src)
	}
	return img
}
