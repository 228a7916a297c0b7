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

// Broken is a sheet in a broken edge on screen, of what nobody has stated: of which roles its edge and its
// ground are, and whether the edge is fine.
func Broken(of fyne.CanvasObject, look func() (edge, ground theme.Role, fine bool)) *canvas.Raster {
	r := canvas.NewRaster(nil)
	r.Generator = func(w, _ int) image.Image {
		size := r.Size()
		if size.Width <= 0 {
			return image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
		edge, ground, fine := look()
		return theme.Of(of).Broken(float64(size.Width), float64(size.Height), float64(w)/float64(size.Width), edge, ground, fine)
	}
	return r
}

// over is a colour laid over another, so much of 255.
func over(ground, ink color.NRGBA, much int) color.NRGBA {
	mix := func(a, b uint8) uint8 { return uint8((int(a)*(255-much) + int(b)*much) / 255) }
	return color.NRGBA{mix(ground.R, ink.R), mix(ground.G, ink.G), mix(ground.B, ink.B), 255}
}
