package papers

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"underfall/app/pen"
	"underfall/app/sheet"
)

// drawn is a page of a sheet in pixels, so wide; the last one where there are fewer.
func drawn(a Asks, q sheet.Asked, page, wide int) (img *image.RGBA, shown, pages int, err error) {
	d, err := sheet.Lay(a.Result, a.Answer, q, a.Words)
	if err != nil {
		return nil, 0, 0, err
	}
	shown = min(page, d.Pages()-1)
	times := float64(wide) / (q.Paper.WideMM * sheet.PointsPerMM)
	high := int(times*q.Paper.HighMM*sheet.PointsPerMM + 0.5)
	img = image.NewRGBA(image.Rect(0, 0, wide, high))
	for i := range img.Pix {
		img.Pix[i] = 0xff // paper is white in the dark as well
	}
	d.Draw(pen.Scaled(a.Fonts.On(img), times), shown)
	return img, shown, d.Pages(), nil
}

// pageView shows a page, as wide as there is room.
type pageView struct {
	object *fyne.Container
	image  *canvas.Image
	shape  float32 // how many times as high as wide
}

func newPageView() *pageView {
	const upright = 1.414
	p := &pageView{image: canvas.NewImageFromImage(nil), shape: upright}
	p.image.FillMode, p.image.ScaleMode = canvas.ImageFillStretch, canvas.ImageScaleSmooth
	p.object = container.New(asHigh{p}, p.image)
	return p
}

// show shows pixels.
func (p *pageView) show(img *image.RGBA) {
	p.image.Image = img
	p.shape = float32(img.Rect.Dy()) / float32(img.Rect.Dx())
	p.image.Refresh()
	p.object.Refresh()
}

// pixels is how many a page is wide.
func (p *pageView) pixels() int {
	const least, usual, most = 500, 1100, 2400
	wide := p.object.Size().Width
	c := fyne.CurrentApp().Driver().CanvasForObject(p.object)
	if c == nil || wide < 1 {
		return usual
	}
	return min(max(least, int(wide*c.Scale())), most)
}

// asHigh is the layout of a page: as high as it comes in the width there is.
type asHigh struct{ p *pageView }

// MinSize is that height.
func (a asHigh) MinSize([]fyne.CanvasObject) fyne.Size {
	const least = 200
	return fyne.NewSize(least, max(least, a.p.object.Size().Width*a.p.shape))
}

// Layout fills the width.
func (a asHigh) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Resize(fyne.NewSize(s.Width, s.Width*a.p.shape))
}
