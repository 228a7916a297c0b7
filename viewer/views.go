package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// View is a place to look from.
type View string

// The ready-made views.
const (
	ViewCorner   View = "corner"
	ViewPlan     View = "plan"
	ViewFront    View = "front"
	ViewCut      View = "cut"
	ViewStanding View = "standing" // in the room, as one stands before the shower
	ViewDoorway  View = "doorway"  // from the first doorway
	ViewPhoto    View = "photo"    // the whole shower in its room, as it is photographed
	ViewDrain    View = "drain"    // near the drain: its joint, and how the floor falls to it
)

// Views are all of them.
func Views() []View {
	return []View{ViewCorner, ViewPlan, ViewFront, ViewCut, ViewStanding, ViewDoorway, ViewPhoto, ViewDrain}
}

// focusOf is the shower with a little air over it.
func focusOf(r geometry.Result) solid.Box {
	b := solid.EmptyBox()
	for _, c := range r.Layout.Corners {
		b = b.Include(mgl64.Vec3{c.X(), c.Y(), math.Min(r.Heights.TrapMM, 0)}).Include(mgl64.Vec3{c.X(), c.Y(), r.Heights.TileMM + 200})
	}
	return b
}

// CameraFor is the camera of a ready-made view; it stands on the room's side
// of the shower.
func CameraFor(v View, r geometry.Result, aspect float64, cuts ...solid.Cut) Camera {
	into := r.Layout.Into
	yaw := math.Atan2(into.Y(), into.X())
	// Look from the side where an edge is open.
	side := 0.6
	open := lateral(r.Layout)
	if open.Dot(r.Layout.ToRight) < -0.5 {
		side = -0.6
	}
	if plan.Cross(r.Layout.ToRight, into) < 0 {
		side = -side
	}
	c := Camera{Yaw: yaw - side, Pitch: 0.52}
	box := r.Assembly.Bounds()
	box.High[2] = math.Min(box.High[2], r.Heights.TileMM+900)
	switch v {
	case ViewPlan:
		c.Yaw, c.Pitch = yaw, greatestPitch
	case ViewFront:
		c.Yaw, c.Pitch = yaw, 0.3
	case ViewStanding:
		return newPhotographer(&r, aspect).standing()
	case ViewDoorway:
		p := newPhotographer(&r, aspect)
		for _, d := range r.Layout.Doors {
			if c, ok := p.fromDoor(d); ok {
				return c
			}
		}
		return p.standing()
	case ViewPhoto:
		return newPhotographer(&r, aspect).photograph()
	case ViewDrain:
		return newPhotographer(&r, aspect).atDrain()
	case ViewCut:
		switch len(cuts) {
		case 0:
		case 1:
			n := cuts[0].Normal
			// From the room's side of the cut, not through the wall behind.
			turn := 0.45
			if plan.Cross(plan.Point{n.X(), n.Y()}, into) < -0.01 {
				turn = -turn
			}
			c.Yaw, c.Pitch = math.Atan2(n.Y(), n.X())+turn, 0.34
		default:
			// Into the corner that is cut out.
			n := cuts[0].Normal.Add(cuts[1].Normal)
			c.Yaw, c.Pitch = math.Atan2(n.Y(), n.X()), 0.5
		}
		box = focusOf(r)
		c = c.Fit(box, aspect)
		c.DistanceMM *= 0.73
		return c
	}
	if v == ViewCorner {
		// The shower with some of the room round it, not the room with a shower.
		const roundMM, upMM = 420, 1250
		near := solid.EmptyBox()
		for _, p := range r.Layout.Corners {
			for _, d := range []float64{-roundMM, roundMM} {
				near = near.Include(mgl64.Vec3{p.X() + d, p.Y() + d, 0})
			}
		}
		near.Low[2], near.High[2] = 0, r.Heights.TileMM+upMM
		if r.Settled.Former.Fall != job.FallRoom {
			box = near
		}
		return newPhotographer(&r, aspect).unmarked(c.Fit(box, aspect))
	}
	return c.Fit(box, aspect)
}

// lookingFrom is the camera at a place that looks at another.
func lookingFrom(eye, target mgl64.Vec3, fieldDeg float64) Camera {
	d := eye.Sub(target)
	return Camera{Target: target, Yaw: math.Atan2(d.Y(), d.X()), Pitch: math.Atan2(d.Z(), math.Hypot(d.X(), d.Y())), DistanceMM: d.Len(), FieldDeg: fieldDeg}
}

// FreeView is a ready-made view that nothing stands before: the shower's corners
// are all to be seen from it. What the eye stands close to in a room is not cut open.
func FreeView(s *Scene, v View, r geometry.Result, aspect float64, cuts ...solid.Cut) Camera {
	c := CameraFor(v, r, aspect, cuts...)
	switch v {
	case ViewCorner, ViewFront:
	case ViewPhoto, ViewStanding, ViewDoorway, ViewDrain:
		const high = 1000
		near, _, _ := Frame{Scene: s, Stage: buildup.StageTile, Width: int(high * aspect), Height: high}.inOpen(c)
		return near
	default:
		return c
	}
	var also []mgl64.Vec3
	for _, p := range r.Layout.Corners {
		inner := p.Add(r.Layout.Shower.Centroid().Sub(p).Mul(0.15))
		also = append(also, mgl64.Vec3{inner.X(), inner.Y(), r.Heights.ShowerAt(&r.Layout, inner) + 20})
	}
	return freed(s, r, c, also...)
}

// freed is the camera moved so that it does not stand inside a wall, nor has one between itself and
// what it looks at or the other places given.
func freed(s *Scene, r geometry.Result, c Camera, also ...mgl64.Vec3) Camera {
	return c.nearest(func(c Camera) (Camera, bool) { return c, free(s, r, c, also) })
}

// nearest is the camera moved until it is as it should be: nearer or further first, then round, then
// higher; from above, where nothing is in the way, if it nowhere is.
func (c Camera) nearest(ok func(Camera) (Camera, bool)) Camera {
	for _, higher := range []float64{0, 0.35, 0.7} {
		for _, turn := range []float64{0, 0.4, -0.4, 0.8, -0.8, 1.3, -1.3, 1.9, -1.9, 2.6, -2.6, 3.1} {
			for _, far := range []float64{1, 1.25, 0.8, 1.6, 0.6, 2.1} {
				k := c.Orbit(turn, higher)
				k.DistanceMM *= far
				if k, is := ok(k); is {
					return k
				}
			}
		}
	}
	c.Pitch = greatestPitch
	return c
}

func free(s *Scene, r geometry.Result, c Camera, also []mgl64.Vec3) bool {
	eye := c.Eye()
	for _, w := range r.Layout.Walls {
		if eye.Z() < r.Settled.Room.HeightMM && w.Footprint().Contains(plan.Point{eye.X(), eye.Y()}, c.near()) {
			return false
		}
	}
	f := Frame{Scene: s, Stage: buildup.StageTile}
	const slackMM = 60
	for _, p := range append([]mgl64.Vec3{c.Target}, also...) {
		to := p.Sub(eye)
		if hit, ok := f.Pick(eye, to.Normalize()); ok && hit.Part.Wall > 0 && hit.At.Sub(eye).Len() < to.Len()-slackMM {
			return false
		}
	}
	return true
}
