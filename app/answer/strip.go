package answer

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// stripCells are the cells of a chance, for five builds in a hundred each.
const stripCells = 20

// strip shows a chance as so many of twenty cells.
type strip struct {
	widget.BaseWidget
	cells  int // how many are filled; -1 for none to be shown
	colour color.Color
}

func newStrip() *strip {
	s := &strip{cells: -1}
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer shows the cells.
func (s *strip) CreateRenderer() fyne.WidgetRenderer {
	r := &stripRenderer{of: s}
	for range stripCells {
		c := canvas.NewRectangle(nil)
		c.StrokeWidth, c.CornerRadius = 1, 1.5
		r.cells = append(r.cells, c)
	}
	r.Refresh()
	return r
}

type stripRenderer struct {
	of    *strip
	cells []fyne.CanvasObject
}

func (r *stripRenderer) Destroy()                     {}
func (r *stripRenderer) Objects() []fyne.CanvasObject { return r.cells }
func (r *stripRenderer) MinSize() fyne.Size           { return fyne.NewSize(100, 12) }

func (r *stripRenderer) Layout(s fyne.Size) {
	w := s.Width / stripCells
	for i, c := range r.cells {
		c.Move(fyne.NewPos(float32(i)*w, 0))
		c.Resize(fyne.NewSize(w-2, s.Height))
	}
}

func (r *stripRenderer) Refresh() {
	for i, o := range r.cells {
		c := o.(*canvas.Rectangle)
		c.StrokeColor = fynetheme.Color(fynetheme.ColorNameInputBorder)
		c.FillColor = nil
		if i < r.of.cells {
			c.FillColor, c.StrokeColor = r.of.colour, r.of.colour
		}
		if r.of.cells < 0 {
			c.StrokeColor = nil
		}
		c.Refresh()
	}
}

// snug stacks labels closer than boxes do, as the padding of each would set them far apart.
type snug struct{}

// snugBy is how much of the padding below a label is taken back, apart how far anything else
// keeps off.
const snugBy, apart = 8, 5

// below is how far the next thing stands below the top of an object.
func below(o fyne.CanvasObject) float32 {
	if _, text := o.(*widget.Label); text {
		return o.MinSize().Height - snugBy
	}
	return o.MinSize().Height + apart
}

// MinSize holds all that shows.
func (snug) MinSize(objects []fyne.CanvasObject) (s fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		if o.Visible() {
			m := o.MinSize()
			s.Width, s.Height = max(s.Width, m.Width), y+m.Height
			y += below(o)
		}
	}
	return s
}

// Layout puts each under the one before.
func (snug) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		if o.Visible() {
			o.Move(fyne.NewPos(0, y))
			o.Resize(fyne.NewSize(s.Width, o.MinSize().Height))
			y += below(o)
		}
	}
}
