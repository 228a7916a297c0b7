package space

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/app/sight"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
)

// heldThing is a thing of the finished room that is held, or dragged.
type heldThing struct {
	kind  job.ThingKind
	thing furnish.Object
	from  fyne.Position
	// alongMM is how far it is to be, counted from where it is placed by rule.
	alongMM float64
	moved   bool
}

// holdThing takes hold of the thing that is seen at a place, where it can be moved.
func (v *View) holdThing(at fyne.Position) {
	v.held = nil
	if v.ThingMoved == nil || v.button != desktop.MouseButtonPrimary || v.grasped >= 0 || v.strips.dividing >= 0 || v.tape.on {
		return
	}
	o, ok := v.thingUnder(at)
	if !ok {
		return
	}
	if k, ok := o.Thing(); ok && k.Movable() {
		v.held = &heldThing{kind: k, thing: o, from: at}
	}
}

// dragThing moves what is held to where the pointer is, along its width, in steps of half a centimetre.
func (v *View) dragThing(to fyne.Position) {
	const stepMM = 5
	h := v.held
	at := h.thing.Middle().Vec3((h.thing.FromMM + h.thing.ToMM) / 2)
	if byMM, ok := v.along(at, h.thing.Along().Vec3(0), fyne.Delta{DX: to.X - h.from.X, DY: to.Y - h.from.Y}); ok {
		v.sight.Hold(sight.HeldThing)
		h.alongMM, h.moved = h.thing.MovedMM+math.Round(byMM/stepMM)*stepMM, true
		v.ThingMoved(h.kind, h.alongMM)
	}
}

// along is how far what stands at a place has to be moved in a direction to follow the pointer over the picture; ok is false where
// one looks along the direction.
func (v *View) along(at, direction mgl64.Vec3, pointer fyne.Delta) (mm float64, ok bool) {
	const probeMM, leastPixels = 50, 1
	s := v.Size()
	x0, y0, ok0 := v.sight.Camera.Project(at, v.aspect())
	x1, y1, ok1 := v.sight.Camera.Project(at.Add(direction.Mul(probeMM)), v.aspect())
	dx, dy := (x1-x0)*float64(s.Width), (y1-y0)*float64(s.Height)
	l2 := dx*dx + dy*dy
	return (float64(pointer.DX)*dx + float64(pointer.DY)*dy) / l2 * probeMM, ok0 && ok1 && l2 > leastPixels
}

// BoxOf is from where to where a thing reaches over the picture, no further than that does; ok is false where none of it is there.
func (v *View) BoxOf(o furnish.Object) (low, high fyne.Position, ok bool) {
	s := v.Size()
	low, high = fyne.NewPos(s.Width, s.Height), fyne.NewPos(0, 0)
	for _, foot := range o.Footprint() {
		for _, levelMM := range []float64{o.FromMM, o.ToMM} {
			x, y, before := v.sight.Camera.Project(foot.Vec3(levelMM), v.aspect())
			if !before {
				return low, high, false
			}
			at := fyne.NewPos(float32(x)*s.Width, float32(y)*s.Height)
			low, high = fyne.NewPos(min(low.X, at.X), min(low.Y, at.Y)), fyne.NewPos(max(high.X, at.X), max(high.Y, at.Y))
		}
	}
	low, high = fyne.NewPos(max(0, low.X), max(0, low.Y)), fyne.NewPos(min(s.Width, high.X), min(s.Height, high.Y))
	return low, high, low.X < high.X && low.Y < high.Y
}

// letThing lets go of what is held.
func (v *View) letThing() {
	h := v.held
	v.held = nil
	if h != nil && h.moved && v.ThingLet != nil {
		v.ThingLet(h.kind, h.alongMM)
	}
}

// Holds tells whether something of the job is being dragged.
func (v *View) Holds() bool { return v.held != nil && v.held.moved }
