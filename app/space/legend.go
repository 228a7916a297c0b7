package space

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/viewer"
)

// legend says what the colours of the finished floor's heights stand for.
type legend struct {
	plate           *canvas.Rectangle
	bar             *canvas.Image
	high, low       *canvas.Text // the figures at the ends of the bar, the low one on the left
	datum, contours *canvas.Text // what they are counted from, how far the lines lie apart
}

func newLegend() *legend {
	l := &legend{plate: canvas.NewRectangle(nil), bar: &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest},
		high: canvas.NewText("", nil), low: canvas.NewText("", nil), datum: canvas.NewText("", nil), contours: canvas.NewText("", nil)}
	l.plate.StrokeWidth = theme.EdgeWidth
	const steps = 64
	ramp := image.NewNRGBA(image.Rect(0, 0, steps, 1))
	for x := range steps {
		ramp.SetNRGBA(x, 0, viewer.HeightColour(float64(x)/(steps-1)))
	}
	l.bar.Image = ramp
	l.hide()
	return l
}

func (l *legend) texts() []*canvas.Text { return []*canvas.Text{l.high, l.low, l.datum, l.contours} }

func (l *legend) objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{l.plate, l.bar}
	for _, t := range l.texts() {
		out = append(out, t)
	}
	return out
}

func (l *legend) hide() {
	for _, o := range l.objects() {
		o.Hide()
	}
}

// fill writes a scene's heights, of a result as they are counted.
func (l *legend) fill(s *viewer.Scene, r geometry.Result, by *sight.State) {
	low, high, every := s.Relief()
	book := by.Levels(theme.Book().In(r.Settled.Units).Bare(), r)
	level := func(mm float64) string { return book.Say(message.Of("figure.level", message.At("level", mm))) }
	l.high.Text, l.low.Text = level(high), level(low)
	l.datum.Text = theme.Word(r.NameOf(r.Counted(by.Datum).Of))
	l.contours.Text = theme.Say(message.Of("legend.contours", message.Layer("every", every)), r.Settled.Units)
}

// place puts the legend into the lower left corner of a picture of a size.
func (l *legend) place(picture fyne.Size, t *theme.Theme) {
	pad := t.Unit(theme.Space2)
	line := float32(0)
	for i, o := range l.texts() {
		o.Color, o.TextSize, o.TextStyle.Bold = t.Role(theme.Ink), t.Text(theme.TextCaption), i < 2
		line = max(line, o.MinSize().Height)
	}
	low, high := l.low.MinSize().Width, l.high.MinSize().Width
	wide := max(low+high+2*pad+t.Unit(80), l.datum.MinSize().Width+2*pad+l.contours.MinSize().Width)
	size := fyne.NewSize(wide+2*pad, 2*line+2*pad)
	at := fyne.NewPos(pad, picture.Height-size.Height-pad)
	l.plate.FillColor, l.plate.StrokeColor, l.plate.CornerRadius = t.Role(theme.Sheet), t.Role(theme.Edge), t.Unit(theme.PlateRadius)
	l.plate.Move(at)
	l.plate.Resize(size)
	left, right, y := at.X+pad, at.X+size.Width-pad, at.Y+pad
	put := func(o *canvas.Text, x, y float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(o.MinSize())
	}
	put(l.low, left, y)
	put(l.high, right-high, y)
	l.bar.Move(fyne.NewPos(left+low+pad, y+line*0.15))
	l.bar.Resize(fyne.NewSize(wide-low-high-2*pad, line*0.7))
	put(l.datum, left, y+line)
	put(l.contours, right-l.contours.MinSize().Width, y+line)
	for _, o := range l.objects() {
		o.Show()
		o.Refresh()
	}
}

// placeLegend says what the heights' colours stand for, while they show: on the finished floor.
func (v *View) placeLegend() {
	if v.sight.Look != viewer.LookHeights || v.sight.Stage < buildup.StageTile || v.Plain || v.frame.Scene == nil {
		v.legend.hide()
		return
	}
	v.legend.fill(v.frame.Scene, v.result, &v.sight.State)
	v.legend.place(v.Size(), v.theme)
}
