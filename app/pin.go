package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/theme"
)

// pin is a ring round a place with a label led off to its side.
type pin struct {
	ring   *canvas.Circle
	leader *canvas.Line
	box    *canvas.Rectangle
	text   *canvas.Text
}

func newPin() *pin {
	p := &pin{canvas.NewCircle(nil), canvas.NewLine(nil), canvas.NewRectangle(nil), canvas.NewText("", nil)}
	p.ring.StrokeWidth, p.leader.StrokeWidth, p.box.StrokeWidth = 3, 2, 1
	p.text.TextSize = 12
	p.text.TextStyle.Bold = true
	p.hide()
	return p
}

func (p *pin) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{p.leader, p.ring, p.box, p.text}
}

func (p *pin) hide() {
	for _, o := range p.objects() {
		o.Hide()
	}
}

const pinRadius = 9

// place shows the pin at a place of a view of the given size.
func (p *pin) place(at fyne.Position, view fyne.Size, label string, t *theme.Theme) {
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
	for _, o := range p.objects() {
		o.Show()
		o.Refresh()
	}
}
