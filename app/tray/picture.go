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

// newPicture is the small drawing of a measure; nil where there is none.
func newPicture(measure string, th *theme.Theme) *canvas.Raster {
	s, ok := sketch.Of(measure)
	if !ok {
		return nil
	}
	r := canvas.NewRaster(func(w, h int) image.Image { return drawn(s, th, w, h) })
	r.SetMinSize(fyne.NewSize(leastPicture*sketch.WideMM, leastPicture*sketch.HighMM))
	return r
}

// leastPicture is how small a sketch is drawn, of its own size: so that it goes into the narrowest tray
// beside the scroll bar.
const leastPicture = 0.92

// drawn is a sketch in so many pixels, with its measure lit.
func drawn(s sketch.Sketch, th *theme.Theme, w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	const least = 16 // pixels; less is no room for a drawing
	if w < least || h < least {
		return img
	}
	p, err := paint.NewPainter(fynetheme.DefaultTextBoldFont().Content())
	if err != nil {
		return img
	}
	pixels := min(float64(w)/sketch.WideMM, float64(h)/sketch.HighMM)
	style := th.PaintStyle(pixels, unit.Metric, "")
	style.Unit = message.Message{} // no number stands in it
	v := paint.View{Centre: plan.Point{sketch.WideMM / 2, sketch.HighMM / 2}, PixelsPerMM: pixels, Width: w, Height: h}
	p.Draw(img, s.Drawing, v, style)
	p.Lit(img, v, style, s.From, s.To, theme.Word("tray.this"))
	edge := image.NewUniform(style.Soft)
	for _, side := range []image.Rectangle{
		image.Rect(0, 0, w, 1), image.Rect(0, 0, 1, h), image.Rect(0, h-1, w, h), image.Rect(w-1, 0, w, h),
	} {
		draw.Draw(img, side, edge, image.Point{}, draw.Src)
	}
	return img
}
