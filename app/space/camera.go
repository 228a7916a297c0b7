package space

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/app/theme"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// Resize asks for a picture of the new size, with as much of the room in it as before.
func (v *View) Resize(s fyne.Size) {
	defer v.sight.Guard.Catch(viewer.PartLive)
	v.BaseWidget.Resize(s)
	v.keepFraming()
	v.ask(true)
}

func (v *View) aspect() float64 {
	s := v.Size()
	if s.Height < 1 {
		return 1
	}
	return float64(s.Width / s.Height)
}

// keepFraming brings the camera further from what it looks at where the picture has become narrower
// than it is high, and back where it has become wider.
func (v *View) keepFraming() {
	s := v.Size()
	if !v.sight.Placed || s.Width < 2 || s.Height < 2 {
		return
	}
	narrow := math.Min(1, v.aspect())
	if v.framed > 0 && v.framed != narrow {
		v.sight.Camera.DistanceMM *= v.framed / narrow
	}
	v.framed = narrow
}

// place puts the camera where a job is looked at from first.
func (v *View) place() {
	if v.sight.Placed {
		return
	}
	v.sight.Placed = true
	v.framed = math.Min(1, v.aspect())
	v.sight.Camera = v.cameraFor(v.firstView())
	v.lookedFrom(v.firstView())
}

// lookedFrom notes the ready-made view that it is looked from; none for a place of one's own.
func (v *View) lookedFrom(name viewer.View) {
	if v.sight.View != name {
		v.sight.View = name
		if v.Looked != nil {
			v.Looked()
		}
	}
}

// firstView is the ready-made view that a job is looked at from first.
func (v *View) firstView() viewer.View {
	if v.sight.CutOn {
		return viewer.ViewCut
	}
	if v.Plain {
		return viewer.ViewPhoto
	}
	return viewer.ViewCorner
}

// rest comes to rest: the camera looks for the shower where an edit has taken it out of the picture or has put something before it,
// and leaves what an edit has put round it; it comes before the cut where an edit has turned that along the way that one looks. What
// is looked at from a ready-made place of the room is looked at from there anew where the picture does not show what it must any more.
func (v *View) rest() {
	if !v.canDraw() {
		return
	}
	name := v.sight.View
	framed := v.framedOf == v.generation || !slices.Contains(roomViews(), name) || !v.now().Closed()
	v.framedOf = v.generation
	switch {
	case !framed && !viewer.Frames(&v.result, v.sight.Camera, v.aspect()):
		v.LookFrom(v.cameraFor(name), name)
	case v.lost() || v.edgeOn():
		v.Look(v.firstView())
		v.sight.Touched = false
	case v.indoors() || !v.now().Stands(v.sight.Camera):
		v.sight.Camera = v.keep(v.sight.Camera, v.sight.Camera)
	}
	v.saw, v.faced, v.sawFrom = v.sees(), v.faces(), v.sight.Camera
	v.draw(false, false)
}

// roomViews are the ready-made views that stand in the room and show all of the shower.
func roomViews() []viewer.View {
	return []viewer.View{viewer.ViewPhoto, viewer.ViewStanding, viewer.ViewDoorway}
}

// lost tells whether nothing of the shower is to be seen, though nobody has turned away from it.
func (v *View) lost() bool {
	if v.sight.Touched && (!v.saw || v.sawFrom != v.sight.Camera) {
		return false
	}
	return !v.sees()
}

// edgeOn tells whether the cut's face, which was to be seen, has turned away though nobody has moved the camera: as where the
// drain, through which it goes, has come to lie along another wall.
func (v *View) edgeOn() bool {
	return v.sight.CutOn && v.faced && v.sawFrom == v.sight.Camera && !v.faces()
}

// faces tells whether the face of a cut is to be seen: from enough to its side for what is written on it to be read.
func (v *View) faces() bool {
	const least = 0.2 // of the distance; about 12 degrees
	eye := v.sight.Camera.Eye()
	return v.sight.CutOn && v.sight.Cut(v.result).Side(eye) > least*eye.Sub(v.sight.Camera.Target).Len()
}

// sees tells whether any of the shower is in the picture, with nothing before it.
func (v *View) sees() bool {
	const overMM = 5
	l, f := &v.result.Layout, v.now()
	for _, p := range append(l.Corners[:len(l.Corners):len(l.Corners)], l.Shower.Centroid()) {
		at := p.Add(l.Shower.Centroid().Sub(p).Mul(0.1))
		on := at.Vec3(v.result.Heights.ShowerAt(l, at) + overMM)
		x, y, ok := v.sight.Camera.Project(on, v.aspect())
		if !ok || x <= 0 || x >= 1 || y <= 0 || y >= 1 {
			continue
		}
		if _, hidden := f.Place(on, ""); !hidden {
			return true
		}
	}
	return false
}

// indoors tells whether the camera is kept in the room: where customers look at the finished one.
func (v *View) indoors() bool { return v.Plain && v.now().Closed() }

// keep is a camera that is moved, kept in the open, for customers in the room.
func (v *View) keep(was, wanted viewer.Camera) viewer.Camera {
	if v.indoors() {
		return v.now().Indoors(&v.result, was, wanted)
	}
	return v.now().Kept(was, wanted)
}

// now is what is looked at as it is now: the latest result's scene from the camera's latest place.
func (v *View) now() viewer.Frame {
	if v.sceneOf != v.generation {
		v.scene, v.sceneOf = viewer.NewScene(v.result, v.scene), v.generation
	}
	return v.ofScene()
}

// ofScene is what is looked at from the camera's latest place, as far as it is drawn: of a result that
// has only just come, still the one before.
func (v *View) ofScene() viewer.Frame {
	if v.scene == nil {
		return v.now()
	}
	f := v.frame
	f.Scene, f.Camera, f.Stage, f.Apart, f.Look = v.scene, v.sight.Camera, v.sight.Stage, v.sight.Apart, v.sight.Look
	s := v.Size()
	f.Width, f.Height = max(1, int(s.Width)), max(1, int(s.Height))
	f.Caps = nil
	if cuts := v.sight.Cuts(v.result); len(cuts) > 0 {
		f.Caps = &viewer.Caps{Cuts: cuts}
	}
	return f
}

// Look flies to a ready-made view.
func (v *View) Look(name viewer.View) {
	if len(v.result.Layout.Walls) == 0 {
		return
	}
	v.fly(v.cameraFor(name))
	v.lookedFrom(name)
}

// cameraFor is the camera of a ready-made view.
func (v *View) cameraFor(name viewer.View) viewer.Camera { return v.cameraIn(name, v.aspect()) }

// cameraIn is that in a picture so many times as wide as it is high.
func (v *View) cameraIn(name viewer.View, aspect float64) viewer.Camera {
	cuts := v.sight.Cuts(v.result)
	if len(cuts) == 0 {
		cuts = []solid.Cut{v.sight.Cut(v.result)}
	}
	return viewer.FreeView(v.now().Scene, name, v.result, aspect, cuts...)
}

// LookAt flies to a place, to be seen from the side its cut is seen from.
func (v *View) LookAt(at mgl64.Vec3) {
	if len(v.result.Layout.Walls) == 0 {
		return
	}
	const awayMM = 1300
	c := v.cameraFor(viewer.ViewCut)
	c.Target, c.DistanceMM = at, awayMM
	v.fly(v.now().Showing(c))
}

// LookFrom flies to a camera, or as near to it as stands in the open; name is the ready-made view that is,
// empty for none.
func (v *View) LookFrom(to viewer.Camera, name viewer.View) {
	if len(v.result.Layout.Walls) == 0 {
		return
	}
	if f := v.now(); !f.Stands(to) {
		to = f.Kept(to, to)
	}
	v.fly(to)
	v.lookedFrom(name)
}

// PartAt is the part that lies at a place; empty for none.
func (v *View) PartAt(at mgl64.Vec3) string {
	part, _ := v.now().At(at)
	return part
}

// Turn turns the camera about what it looks at, by angles in radians.
func (v *View) Turn(yaw, pitch float64) {
	v.move(func(c viewer.Camera) viewer.Camera { return c.Orbit(yaw, pitch) })
}

// Nearer brings the camera to so much of its distance, more than 1 for further away.
func (v *View) Nearer(factor float64) {
	v.letGo() // each turn of a wheel is a movement of its own
	v.move(func(c viewer.Camera) viewer.Camera { return c.Zoom(factor) })
}

// pan moves the camera across the picture, by shares of its height.
func (v *View) pan(right, up float64) {
	v.move(func(c viewer.Camera) viewer.Camera { return c.Pan(right, up) })
}

// move moves the camera by hand, kept in the open. While one movement goes on, what it was moved into
// is gone through or come back from as the hand does.
func (v *View) move(by func(viewer.Camera) viewer.Camera) {
	if len(v.result.Layout.Walls) == 0 {
		return
	}
	v.flight++
	v.sight.Touched = true
	v.lookedFrom("")
	was := v.sight.Camera
	if was != v.kept {
		v.moved = was
	}
	v.moved = by(v.moved)
	v.kept = v.keep(was, v.moved)
	v.sight.Camera = v.kept
	v.ask(true)
}

// letGo ends a movement: the next one begins where the camera is.
func (v *View) letGo() { v.moved = v.sight.Camera }

// fly moves the camera smoothly. On its way nothing is shown from inside of anything.
func (v *View) fly(to viewer.Camera) {
	v.flight++
	v.sight.Touched = true
	v.lookedFrom("")
	from := v.sight.Camera
	if from.DistanceMM <= 0 || !v.theme.Moves() || v.picture.Image == nil { // of what is not seen there is no way to see
		v.sight.Camera = to
		v.ask(false)
		return
	}
	v.animate(theme.FlightTime, func(t float64) {
		c := from.Between(to, t*t*(3-2*t))
		if t >= 1 {
			c = to
		} else if !v.now().Stands(c) {
			return
		}
		v.sight.Camera = c
	}, func() {})
}
