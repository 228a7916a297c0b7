package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/build"
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
	ViewStanding View = "standing" // in the room, at the height of a person's eyes
	ViewDoorway  View = "doorway"  // from the first doorway
)

// Views are all of them.
func Views() []View {
	return []View{ViewCorner, ViewPlan, ViewFront, ViewCut, ViewStanding, ViewDoorway}
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
	open := openSide(r.Layout)
	if open.Dot(r.Layout.ToRight) < -0.5 {
		side = -0.6
	}
	if plan.Cross(r.Layout.ToRight, into) < 0 {
		side = -side
	}
	c := Camera{Yaw: yaw - side, Pitch: 0.62}
	box := r.Assembly.Bounds()
	box.High[2] = math.Min(box.High[2], r.Heights.TileMM+900)
	switch v {
	case ViewPlan:
		c.Yaw, c.Pitch = yaw, greatestPitch
	case ViewFront:
		c.Yaw, c.Pitch = yaw, 0.3
	case ViewStanding:
		return standing(r, r.Layout.Shower.Centroid().Add(into.Mul(2200)).Add(open.Mul(700)))
	case ViewDoorway:
		if doors := r.Layout.Doors; len(doors) > 0 {
			d := doors[0]
			return standing(r, d.Middle().Sub(d.Wall.Outward.Mul(120)))
		}
		return standing(r, r.Layout.Shower.Centroid().Add(into.Mul(2200)))
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
	if r.Job.Former.Fall == job.FallRoom && v == ViewCorner {
		c.Pitch = 0.75
	}
	return c.Fit(box, aspect)
}

// Eyes of a person standing, over the floor. Common practice, no source.
const eyesMM = 1550

// standing looks at the shower from a place in the room, moved inside it when
// it lies out of it or near to a wall.
func standing(r geometry.Result, at plan.Point) Camera {
	l := r.Layout
	middle := l.Shower.Centroid()
	const clearMM = 90
	for range 60 {
		if mm, _ := l.Clear(at); l.Room.Contains(at, 0) && mm > clearMM {
			break
		}
		at = at.Add(middle.Sub(at).Mul(0.04))
	}
	eye := mgl64.Vec3{at.X(), at.Y(), r.Heights.FinishedAt(r.Job, l, at) + eyesMM}
	target := mgl64.Vec3{middle.X(), middle.Y(), r.Heights.TileMM + 620}
	return lookingFrom(eye, target, 62)
}

// lookingFrom is the camera at a place that looks at another.
func lookingFrom(eye, target mgl64.Vec3, fieldDeg float64) Camera {
	d := eye.Sub(target)
	return Camera{Target: target, Yaw: math.Atan2(d.Y(), d.X()), Pitch: math.Atan2(d.Z(), math.Hypot(d.X(), d.Y())), DistanceMM: d.Len(), FieldDeg: fieldDeg}
}

// Free is the camera moved so that it does not stand inside a wall, nor has one
// between itself and what it looks at: nearer or further first, then round.
func Free(s *Scene, r geometry.Result, c Camera) Camera {
	for _, turn := range []float64{0, 0.4, -0.4, 0.8, -0.8, 1.3, -1.3, 1.9, -1.9, 2.6, -2.6, 3.1} {
		for _, far := range []float64{1, 1.25, 0.8, 1.6, 0.6, 2.1} {
			k := c
			k.Yaw += turn
			k.DistanceMM *= far
			if free(s, r, k) {
				return k
			}
		}
	}
	// From above nothing is in the way.
	c.Pitch = greatestPitch
	return c
}

func free(s *Scene, r geometry.Result, c Camera) bool {
	eye := c.Eye()
	for _, w := range r.Layout.Walls {
		if eye.Z() < r.Job.Room.HeightMM && w.Footprint().Contains(plan.Point{eye.X(), eye.Y()}, c.near()) {
			return false
		}
	}
	f := Frame{Scene: s, Stage: build.StageTile}
	to := c.Target.Sub(eye)
	hit, ok := f.Pick(eye, to.Normalize())
	const slackMM = 60
	return !ok || hit.Part.Wall == 0 || hit.At.Sub(eye).Len() > to.Len()-slackMM
}
