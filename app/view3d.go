package app

import (
	"image"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// view3D shows the 3D picture and turns it.
type view3D struct {
	widget.BaseWidget
	scope   *scope
	look    *look
	picture *canvas.Image
	grip    *canvas.Circle
	pin     *pin
	notice  *widget.Label
	engine  *engine

	result     geometry.Result
	generation int
	scene      *viewer.Scene
	camera     viewer.Camera
	placed     bool
	touched    bool // by hand since it was placed
	button     desktop.MouseButton
	onGrip     bool
	still      *time.Timer
	flight     int // counts flights, so that a new one ends the last
	// readout is told what is under the pointer.
	readout func(string)
	choose  func(part string)
	started func(device error)
	// gripMoved is told where in the window the cut's grip is.
	gripMoved func(fyne.Position)
}

func newView3D(s *scope, l *look) *view3D {
	v := &view3D{scope: s, look: l, picture: &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest},
		grip: canvas.NewCircle(nil), pin: newPin(), notice: widget.NewLabel("")}
	v.notice.Wrapping = fyne.TextWrapWord
	v.notice.Hide()
	v.grip.StrokeWidth = 3
	v.ExtendBaseWidget(v)
	v.engine = startEngine(func(img *image.RGBA, scene *viewer.Scene) {
		v.scope.do(func() {
			v.scene = scene
			v.picture.Image = img
			v.picture.Refresh()
			v.placeGrip()
			v.placePin()
			if v.started != nil {
				v.started(nil)
				v.started = nil
			}
		})
	}, func(err error) {
		v.scope.do(func() {
			v.notice.SetText(textf("The 3D picture is off: %s. Everything else works; use the section and the plan below.", err.Error()))
			v.notice.Show()
			if v.started != nil {
				v.started(err)
				v.started = nil
			}
		})
	})
	s.listener = append(s.listener, func() { v.ask(true) })
	return v
}

// CreateRenderer lays picture and grip over each other.
func (v *view3D) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(v.picture, container.NewPadded(v.notice), container.NewWithoutLayout(append([]fyne.CanvasObject{v.grip}, v.pin.objects()...)...)))
}

// MinSize lets the picture be small.
func (v *view3D) MinSize() fyne.Size { return fyne.NewSize(200, 140) }

// Resize asks for a picture of the new size.
func (v *view3D) Resize(s fyne.Size) {
	v.BaseWidget.Resize(s)
	if !v.touched {
		v.placed = false
	}
	v.ask(true)
}

func (v *view3D) aspect() float64 {
	s := v.Size()
	if s.Height < 1 {
		return 1
	}
	return float64(s.Width / s.Height)
}

// setResult shows another result; the first one, and one that is asked to,
// places the camera.
func (v *view3D) setResult(r geometry.Result, place bool) {
	v.result = r
	v.generation++
	if place {
		v.placed, v.touched = false, false
	}
	v.ask(true)
}

// view flies to a ready-made view.
func (v *view3D) view(name viewer.View) {
	if len(v.result.Layout.Walls) == 0 {
		return
	}
	cut := v.scope.cut(v.result)
	v.fly(viewer.CameraFor(name, v.result, &cut, v.aspect()))
}

// flyTo brings a place into view, seen from the side its cut is seen from.
func (v *view3D) flyTo(at mgl64.Vec3, box solid.Box) {
	cut := v.scope.cut(v.result)
	c := viewer.CameraFor(viewer.ViewCut, v.result, &cut, v.aspect())
	c.Target = at
	c.DistanceMM = math.Max(1300, box.High.Sub(box.Low).Len()*5)
	v.fly(c)
}

// fly moves the camera smoothly, a third of a second long.
func (v *view3D) fly(to viewer.Camera) {
	v.flight++
	v.touched = true
	flight, from, start := v.flight, v.camera, time.Now()
	const flightTime = 350 * time.Millisecond
	if from.DistanceMM <= 0 {
		v.camera = to
		v.ask(false)
		return
	}
	go func() {
		for {
			t := min(1, float64(time.Since(start))/float64(flightTime))
			ease := t * t * (3 - 2*t)
			done := make(chan bool)
			v.scope.do(func() {
				if v.flight == flight {
					v.camera = from.Between(to, ease)
					v.ask(t < 1)
				}
				done <- v.flight != flight || t >= 1
			})
			if <-done {
				return
			}
			time.Sleep(30 * time.Millisecond)
		}
	}()
}

// restAfter is how long nothing must move before the picture is refined.
const restAfter = 180 * time.Millisecond

// ask wants a picture: a quick one while moving, a good one at rest.
func (v *view3D) ask(moving bool) {
	s := v.Size()
	if s.Width < 2 || s.Height < 2 || len(v.result.Layout.Walls) == 0 {
		return
	}
	if !v.placed {
		v.placed = true
		name, cut := viewer.ViewCorner, v.scope.cut(v.result)
		if v.scope.cutOn {
			name = viewer.ViewCut
		}
		v.camera = viewer.CameraFor(name, v.result, &cut, v.aspect())
	}
	scale := float32(1)
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		scale = c.Scale()
	}
	w := wish{result: v.result, generation: v.generation, stage: v.scope.stage, camera: v.camera, look: viewer.Look(v.scope.look),
		dark: v.look.dark, chosen: v.scope.chosen, width: int(s.Width * scale), height: int(s.Height * scale), moving: moving}
	if v.scope.cutOn {
		cut := v.scope.cut(v.result)
		w.cut = &cut
	}
	v.engine.ask(w)
	if v.still != nil {
		v.still.Stop()
	}
	if moving {
		v.still = time.AfterFunc(restAfter, func() { v.scope.do(func() { v.ask(false) }) })
	}
}

// gripAt is where the cut's grip stands in the model.
func (v *view3D) gripAt() (mgl64.Vec3, solid.Cut) {
	cut := v.scope.cut(v.result)
	c := v.result.Layout.Shower.Centroid()
	p := mgl64.Vec3{c.X(), c.Y(), v.result.Heights.TileMM + 350}
	return p.Sub(cut.Normal.Mul(cut.Side(p))), cut
}

const gripRadius = 11

func (v *view3D) placeGrip() {
	v.grip.Hide()
	if !v.scope.cutOn || len(v.result.Layout.Walls) == 0 || v.scene == nil {
		return
	}
	at, _ := v.gripAt()
	x, y, ok := v.camera.Project(at, v.aspect())
	if !ok || x < 0 || x > 1 || y < 0 || y > 1 {
		return
	}
	s := v.Size()
	v.grip.FillColor = v.look.Color("background", 0)
	v.grip.StrokeColor = v.look.Color("primary", 0)
	v.grip.Resize(fyne.NewSize(2*gripRadius, 2*gripRadius))
	v.grip.Move(fyne.NewPos(float32(x)*s.Width-gripRadius, float32(y)*s.Height-gripRadius))
	v.grip.Show()
	v.grip.Refresh()
	if v.gripMoved != nil {
		v.gripMoved(fyne.CurrentApp().Driver().AbsolutePositionForObject(v).Add(v.grip.Position()).AddXY(gripRadius, gripRadius))
	}
}

// placePin marks the chosen finding's place.
func (v *view3D) placePin() {
	m := v.scope.mark
	if m == nil {
		v.pin.hide()
		return
	}
	x, y, ok := v.camera.Project(m.at, v.aspect())
	s := v.Size()
	if !ok {
		v.pin.hide()
		return
	}
	// Out of the picture, the mark stays at its rim.
	x, y = math.Max(0.03, math.Min(0.97, x)), math.Max(0.05, math.Min(0.95, y))
	v.pin.place(fyne.NewPos(float32(x)*s.Width, float32(y)*s.Height), s, m.label, v.look)
}

// MouseDown notes what is grasped.
func (v *view3D) MouseDown(e *desktop.MouseEvent) {
	v.button = e.Button
	if e.Modifier&fyne.KeyModifierShift != 0 {
		v.button = desktop.MouseButtonSecondary
	}
	v.onGrip = false
	if v.grip.Visible() {
		c := v.grip.Position().Add(fyne.NewPos(gripRadius, gripRadius))
		v.onGrip = math.Hypot(float64(e.Position.X-c.X), float64(e.Position.Y-c.Y)) < gripRadius+7
	}
}

// MouseUp lets go.
func (v *view3D) MouseUp(*desktop.MouseEvent) { v.onGrip = false }

// Dragged turns, shifts, or moves the cut.
func (v *view3D) Dragged(e *fyne.DragEvent) {
	s := v.Size()
	if s.Height < 1 || len(v.result.Layout.Walls) == 0 {
		return
	}
	v.flight++
	v.touched = true
	switch {
	case v.onGrip:
		at, cut := v.gripAt()
		const probe = 50.0
		x0, y0, _ := v.camera.Project(at, v.aspect())
		x1, y1, _ := v.camera.Project(at.Add(cut.Normal.Mul(probe)), v.aspect())
		dx, dy := (x1-x0)*float64(s.Width), (y1-y0)*float64(s.Height)
		if l2 := dx*dx + dy*dy; l2 > 1 {
			move := (float64(e.Dragged.DX)*dx + float64(e.Dragged.DY)*dy) / l2 * probe
			v.scope.change(func(s *scope) { s.offsetMM += move })
		}
		return
	case v.button == desktop.MouseButtonSecondary || v.button == desktop.MouseButtonTertiary:
		v.camera = v.camera.Pan(-float64(e.Dragged.DX/s.Height), float64(e.Dragged.DY/s.Height))
	default:
		v.camera = v.camera.Orbit(-float64(e.Dragged.DX)*0.008, float64(e.Dragged.DY)*0.008)
	}
	v.ask(true)
}

// DragEnd lets the picture come to rest.
func (v *view3D) DragEnd() { v.onGrip = false; v.ask(true) }

// Scrolled comes nearer or goes further.
func (v *view3D) Scrolled(e *fyne.ScrollEvent) {
	v.flight++
	v.touched = true
	v.camera = v.camera.Zoom(math.Exp(-float64(e.Scrolled.DY) * 0.006))
	v.ask(true)
}

func (v *view3D) pick(p fyne.Position) (viewer.Hit, bool) {
	s := v.Size()
	if v.scene == nil || s.Width < 1 || s.Height < 1 {
		return viewer.Hit{}, false
	}
	from, d := v.camera.Ray(float64(p.X/s.Width), float64(p.Y/s.Height), v.aspect())
	var cut *solid.Cut
	if v.scope.cutOn {
		c := v.scope.cut(v.result)
		cut = &c
	}
	return v.scene.Pick(from, d, cut, v.scope.stage)
}

// Tapped chooses the part under the pointer.
func (v *view3D) Tapped(e *fyne.PointEvent) {
	hit, ok := v.pick(e.Position)
	if v.choose == nil {
		return
	}
	if ok {
		v.choose(hit.Part.ID)
	} else {
		v.choose("")
	}
}

// MouseIn is needed to hear of moves.
func (v *view3D) MouseIn(*desktop.MouseEvent) {}

// MouseOut clears the readout.
func (v *view3D) MouseOut() { v.tellReadout("") }

// MouseMoved reads out what is under the pointer.
func (v *view3D) MouseMoved(e *desktop.MouseEvent) {
	hit, ok := v.pick(e.Position)
	if !ok {
		v.tellReadout("")
		return
	}
	v.tellReadout(textf("%s, level %s", text(hit.Part.Name), signedLevel(hit.At.Z(), v.result)))
}

func (v *view3D) tellReadout(s string) {
	if v.readout != nil {
		v.readout(s)
	}
}
