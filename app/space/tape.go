package space

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// tape measures between two places of the 3D picture.
type tape struct {
	on     bool
	points []mgl64.Vec3
	to     mgl64.Vec3 // under the pointer
	line   *canvas.Line
	ends   [2]*canvas.Circle
	box    *canvas.Rectangle
	label  *canvas.Text
}

func newTape() *tape {
	t := &tape{line: canvas.NewLine(nil), box: canvas.NewRectangle(nil), label: canvas.NewText("", nil)}
	t.line.StrokeWidth = 2
	t.label.TextSize = 13
	t.label.TextStyle.Bold = true
	for i := range t.ends {
		t.ends[i] = canvas.NewCircle(nil)
	}
	t.hide()
	return t
}

func (t *tape) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{t.line, t.ends[0], t.ends[1], t.box, t.label}
}

func (t *tape) hide() {
	for _, o := range t.objects() {
		o.Hide()
	}
}

// measure starts or ends measuring.
func (v *View) measure(on bool) {
	if on == v.tape.on {
		return
	}
	v.tape.on, v.tape.points = on, nil
	v.placeTape()
}

// placeAt is the place in the model under a place of the picture: a corner
// near by, else the face there.
func (v *View) placeAt(p fyne.Position) (mgl64.Vec3, bool) {
	s := v.Size()
	if len(v.result.Layout.Walls) == 0 || s.Height < 1 {
		return mgl64.Vec3{}, false
	}
	const reachPoints = 12
	if at, ok := v.ofScene().Corner(float64(p.X/s.Width), float64(p.Y/s.Height), v.aspect(), float64(reachPoints/s.Height)); ok {
		return at, true
	}
	hit, ok := v.pick(p)
	return hit.At, ok
}

func (v *View) measureAt(p fyne.Position) {
	at, ok := v.placeAt(p)
	if !ok {
		return
	}
	t := v.tape
	if len(t.points) >= 2 {
		t.points = nil
	}
	t.points = append(t.points, at)
	t.to = at
	v.placeTape()
	if len(t.points) == 2 {
		v.tellReadout(theme.Say(message.Of("measured", message.In("distance", v.distance(t.points[0], t.points[1]))), v.result.Settled.Units))
	}
}

func (v *View) measureTo(p fyne.Position) {
	if at, ok := v.placeAt(p); ok && len(v.tape.points) == 1 {
		v.tape.to = at
		v.placeTape()
	}
}

// distance is what lies between two places: straight, level, upright, and the
// fall between them.
func (v *View) distance(a, b mgl64.Vec3) message.Message {
	d := b.Sub(a)
	return sight.Distance(math.Hypot(d.X(), d.Y()), math.Abs(d.Z()))
}

// placeTape draws the measure over the picture.
func (v *View) placeTape() {
	t := v.tape
	t.hide()
	if !t.on || len(t.points) == 0 {
		return
	}
	a, b := t.points[0], t.to
	if len(t.points) == 2 {
		b = t.points[1]
	}
	s := v.Size()
	place := func(p mgl64.Vec3) (fyne.Position, bool) {
		x, y, ok := v.sight.Camera.Project(p, v.aspect())
		return fyne.NewPos(float32(x)*s.Width, float32(y)*s.Height), ok
	}
	pa, okA := place(a)
	pb, okB := place(b)
	if !okA || !okB {
		return
	}
	accent, paper := v.theme.Color("primary", 0), v.theme.Color("background", 0)
	t.line.StrokeColor, t.line.Position1, t.line.Position2 = accent, pa, pb
	for i, p := range []fyne.Position{pa, pb} {
		t.ends[i].FillColor = accent
		t.ends[i].Resize(fyne.NewSize(8, 8))
		t.ends[i].Move(p.SubtractXY(4, 4))
		t.ends[i].Show()
		t.ends[i].Refresh()
	}
	t.line.Show()
	t.line.Refresh()
	if a == b {
		return
	}
	t.label.Text, t.label.Color = theme.Say(v.distance(a, b), v.result.Settled.Units), v.theme.Color("foreground", 0)
	t.box.FillColor = paper
	sight.PlaceMeasure(t.box, t.label, fyne.NewPos((pa.X+pb.X)/2, (pa.Y+pb.Y)/2), s)
	for _, o := range []fyne.CanvasObject{t.box, t.label} {
		o.Show()
		o.Refresh()
	}
}
