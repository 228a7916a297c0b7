package viewer

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/plan"
)

// underCeilingMM is how far the eye stays from floor and ceiling of a room that it is kept in.
const underCeilingMM = 100

// Indoors is a camera that somebody moves in a finished room, kept where its picture looks into the room alone: in the room, or before a
// wall that is left out. It is as it is wanted, or nearer to what it looks at; where it was, if that nowhere does.
func (f Frame) Indoors(r *geometry.Result, was, wanted Camera) Camera {
	p := photographer{r: r, aspect: float64(f.Width) / math.Max(1, float64(f.Height))}
	if !r.Layout.Room.Contains(plan.Point{wanted.Target.X(), wanted.Target.Y()}, 0) {
		wanted.Target = was.Target
	}
	const step, nearestMM = 0.96, 250
	for c := wanted; c.DistanceMM >= nearestMM; c.DistanceMM *= step {
		if in, ok := f.within(&p, c); ok {
			return in
		}
	}
	return was
}

// within tells whether a camera's picture looks into the room alone, the eye clear of everything.
func (f Frame) within(p *photographer, c Camera) (Camera, bool) {
	eye, l := c.Eye(), &p.r.Layout
	at := plan.Point{eye.X(), eye.Y()}
	if l.Room.Contains(at, 0) {
		if eye.Z() < p.r.Floor.FinishedMM(at)+underCeilingMM || eye.Z() > l.CeilingAt(at)-underCeilingMM {
			return c, false
		}
	} else if mm, _ := l.Clear(at); mm < behindWallMM {
		return c, false
	}
	if p.void(c) > 0 {
		return c, false
	}
	c, _, ok := f.inOpen(c)
	return c, ok
}

// Frames tells whether a picture of that shape, from a camera of a ready-made view of the room, still shows what it must: another room
// may have come of the one that it was made for.
func Frames(r *geometry.Result, c Camera, aspect float64) bool {
	return newPhotographer(r, aspect).holds(c)
}
