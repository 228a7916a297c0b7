package space

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/furnish"
	"underfall/geometry/message"
	"underfall/viewer"
)

// MouseDown notes what is grasped.
func (v *View) MouseDown(e *desktop.MouseEvent) {
	defer v.sight.Guard.Catch(viewer.PartLive)
	v.button = e.Button
	if e.Modifier&fyne.KeyModifierShift != 0 {
		v.button = desktop.MouseButtonSecondary
	}
	v.grasped = -1
	v.strips.dividing = v.divideAt(e.Position)
	for i, grip := range v.grips {
		c := grip.Position().Add(fyne.NewPos(gripRadius, gripRadius))
		if grip.Visible() && math.Hypot(float64(e.Position.X-c.X), float64(e.Position.Y-c.Y)) < gripRadius+7 {
			v.grasped = i
		}
	}
	v.holdThing(e.Position)
}

// MouseUp lets go.
func (v *View) MouseUp(*desktop.MouseEvent) { v.grasped, v.strips.dividing = -1, -1 }

// Dragged turns, shifts, or moves the cut.
func (v *View) Dragged(e *fyne.DragEvent) {
	defer v.sight.Guard.Catch(viewer.PartLive)
	s := v.Size()
	if s.Height < 1 || len(v.result.Layout.Walls) == 0 {
		return
	}
	v.flight++
	switch {
	case v.held != nil:
		v.dragThing(e.Position)
		return
	case v.strips.dividing >= 0:
		v.divide(float64(e.Position.X / s.Width))
		return
	case v.grasped >= 0:
		v.sight.Hold(sight.HeldCut)
		at, cut := v.gripAt(v.grasped)
		if byMM, ok := v.along(at, cut.Normal, e.Dragged); ok {
			v.sight.Drag(v.result, v.grasped, byMM)
		}
		return
	case v.button == desktop.MouseButtonSecondary || v.button == desktop.MouseButtonTertiary:
		v.pan(-float64(e.Dragged.DX/s.Height), float64(e.Dragged.DY/s.Height))
	default:
		const turnPerPixel, indoors = 0.008, 0.5 // in a room a small turn shows another wall
		by := turnPerPixel
		if v.indoors() {
			by *= indoors
		}
		v.Turn(-float64(e.Dragged.DX)*by, float64(e.Dragged.DY)*by)
	}
}

// DragEnd lets the picture come to rest.
func (v *View) DragEnd() {
	defer v.sight.Guard.Catch(viewer.PartLive)
	v.grasped = -1
	v.letThing()
	v.sight.Hold(sight.HeldNothing)
	v.letGo()
	v.ask(true)
}

// Scrolled comes nearer or goes further.
func (v *View) Scrolled(e *fyne.ScrollEvent) {
	defer v.sight.Guard.Catch(viewer.PartLive)
	v.Nearer(math.Exp(-float64(e.Scrolled.DY) * 0.006))
}

func (v *View) pick(p fyne.Position) (viewer.Hit, bool) {
	s := v.Size()
	if len(v.result.Layout.Walls) == 0 || s.Width < 1 || s.Height < 1 {
		return viewer.Hit{}, false
	}
	f := v.ofScene()
	from, d := v.sight.Camera.Ray(float64(p.X/s.Width), float64(p.Y/s.Height), v.aspect())
	return f.Pick(from, d)
}

// thingUnder is the thing of the finished room that is seen at a place.
func (v *View) thingUnder(p fyne.Position) (furnish.Object, bool) {
	s := v.Size()
	f := v.ofScene()
	if f.Scene == nil || !f.Closed() || s.Width < 1 || s.Height < 1 {
		return furnish.Object{}, false
	}
	return f.Thing(v.sight.Camera.Ray(float64(p.X/s.Width), float64(p.Y/s.Height), v.aspect()))
}

// doubleWithin is how soon a second tap on the same part means to edit it.
const doubleWithin = 450 * time.Millisecond

// Tapped chooses the part under the pointer, or measures; a second tap edits it.
func (v *View) Tapped(e *fyne.PointEvent) {
	defer v.sight.Guard.Catch(viewer.PartLive)
	if v.tape.on {
		v.measureAt(e.Position)
		return
	}
	if pin := v.pinUnder(e.Position); pin != nil && !v.Plain {
		v.press(pin)
		return
	}
	if o, ok := v.thingUnder(e.Position); ok && v.Thing != nil {
		v.Thing(o, e.AbsolutePosition)
		return
	}
	if v.Plain {
		return
	}
	hit, ok := v.pick(e.Position)
	if v.Choose == nil {
		return
	}
	if !ok {
		v.Choose("")
		return
	}
	again := hit.Part.ID == v.tappedPart && time.Since(v.tapped) < doubleWithin
	v.tapped, v.tappedPart = time.Now(), hit.Part.ID
	v.Choose(hit.Part.ID)
	if again && v.Edit != nil {
		v.Edit(hit.Part.ID)
	}
}

// MouseIn is needed to hear of moves.
func (v *View) MouseIn(*desktop.MouseEvent) {}

// MouseOut clears the readout.
func (v *View) MouseOut() { v.tellReadout("") }

// MouseMoved reads out what is under the pointer.
func (v *View) MouseMoved(e *desktop.MouseEvent) {
	defer v.sight.Guard.Catch(viewer.PartLive)
	if v.Plain {
		return
	}
	if v.tape.on {
		v.measureTo(e.Position)
	} else if pin := v.pinUnder(e.Position); pin != nil {
		v.tellReadout(pin.says())
		return
	}
	hit, ok := v.pick(e.Position)
	if !ok {
		v.tellReadout("")
		return
	}
	place := message.Of("readout.level", message.At("level", hit.At.Z()))
	book := v.sight.Levels(theme.Book().In(v.result.Settled.Units), v.result)
	v.tellReadout(book.Say(message.Of("readout.part", message.In("part", hit.Part.Name), message.In("place", place))))
}

func (v *View) tellReadout(s string) {
	if v.Readout != nil {
		v.Readout(s)
	}
}
