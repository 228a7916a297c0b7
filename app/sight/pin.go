package sight

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/theme"
)

// Pin is a ring round a place with a label led off to its side.
type Pin struct {
	ring   *canvas.Circle
	leader *canvas.Line
	box    *canvas.Rectangle
	text   *canvas.Text
}

// NewPin makes one that does not show.
func NewPin() *Pin {
	p := &Pin{canvas.NewCircle(nil), canvas.NewLine(nil), canvas.NewRectangle(nil), canvas.NewText("", nil)}
	p.ring.StrokeWidth, p.leader.StrokeWidth, p.box.StrokeWidth = 3, 2, 1
	p.text.TextSize = 12
	p.text.TextStyle.Bold = true
	p.Hide()
	return p
}

// Objects are what it is drawn of.
func (p *Pin) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{p.leader, p.ring, p.box, p.text}
}

// Hide takes it away.
func (p *Pin) Hide() {
	for _, o := range p.Objects() {
		o.Hide()
	}
}

const pinRadius = 9

// Place shows the pin at a place of a view of the given size.
func (p *Pin) Place(at fyne.Position, view fyne.Size, label string, t *theme.Theme) {
	red := t.Role(theme.Stops)
	p.ring.StrokeColor, p.leader.StrokeColor, p.box.StrokeColor = red, red, red
	p.box.FillColor = t.Color("background", 0)
	p.text.Color = t.Color("foreground", 0)
	p.text.Text = label
	size := p.text.MinSize()
	// The label keeps within the view.
	to := at.AddXY(26, -40)
	if to.X+size.Width+10 > view.Width {
		to.X = at.X - 26 - size.Width
	}
	to.X = max(4, min(to.X, view.Width-size.Width-10))
	if to.Y < 4 {
		to.Y = at.Y + 22
	}
	p.leader.Position1, p.leader.Position2 = at, to.AddXY(size.Width/2, size.Height/2)
	p.ring.Move(at.SubtractXY(pinRadius, pinRadius))
	p.ring.Resize(fyne.NewSize(2*pinRadius, 2*pinRadius))
	p.box.Move(to.SubtractXY(5, 2))
	p.box.Resize(size.AddWidthHeight(10, 4))
	p.text.Move(to)
	p.text.Resize(size)
	for _, o := range p.Objects() {
		o.Show()
		o.Refresh()
	}
}
