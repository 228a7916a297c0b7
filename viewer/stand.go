package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/solid"
)

// leastClearMM is how near to anything that is drawn a camera may stand.
const leastClearMM = 30

// room is how far a camera's eye is from the nearest thing that the frame draws, at most aboutMM, and
// which that is; 0 inside of it, nil for nothing within that. What the cuts take away is not there, nor
// a wall that is left out as it stands between the eye and the room.
func (f Frame) room(eye mgl64.Vec3, aboutMM float64) (mm float64, nearest *Body) {
	mm = aboutMM
	for i := range f.Scene.Bodies {
		b := &f.Scene.Bodies[i]
		whole := b.raw && b.Part.Stage <= f.Stage && !b.hiddenFrom(eye) // what a niche is let into counts as if it were not
		if !f.shows(*b, eye) && !whole {
			continue
		}
		at := eye.Sub(mgl64.Vec3{0, 0, f.lift(b.Part.Stage, b.Part.Wall)})
		if !within(at, b.box, mm) {
			continue
		}
		if !cutAway(f.cuts(), at) && b.holds(at) {
			return 0, b
		}
		if d := b.distance(at, f.cuts(), mm); d < mm {
			mm, nearest = d, b
		}
	}
	return mm, nearest
}

// within tells whether a place is in a box or so near to it.
func within(p mgl64.Vec3, b solid.Box, mm float64) bool {
	for k := range 3 {
		if p[k] < b.Low[k]-mm || p[k] > b.High[k]+mm {
			return false
		}
	}
	return true
}

// holds tells whether a place lies inside a body.
//
// Method: its surface is closed, so a ray from inside crosses it an odd number of times; the ray's
// direction is askew to all that is built.
func (b *Body) holds(p mgl64.Vec3) bool {
	if b.open || !within(p, b.box, 0) {
		return false
	}
	askew := mgl64.Vec3{0.5377, 0.2918, 0.7911}
	crossings := 0
	b.each(func(u, v, w, _ mgl64.Vec3) {
		if _, ok := meetsTriangle(p, askew, u, v, w); ok {
			crossings++
		}
	})
	return crossings%2 == 1
}

// distance is how far a place is from what the cuts leave of a body's surface and of its cut faces,
// at most mostMM.
func (b *Body) distance(p mgl64.Vec3, cuts []solid.Cut, mostMM float64) float64 {
	least := mostMM
	b.each(func(u, v, w, _ mgl64.Vec3) {
		for k := range 3 {
			if min(u[k], v[k], w[k]) > p[k]+least || max(u[k], v[k], w[k]) < p[k]-least {
				return
			}
		}
		for _, kept := range left([]mgl64.Vec3{u, v, w}, cuts) {
			for i := 1; i+1 < len(kept); i++ {
				least = math.Min(least, p.Sub(nearestOn(p, kept[0], kept[i], kept[i+1])).Len())
			}
		}
	})
	for i, c := range cuts {
		side := c.Side(p)
		if side <= 0 || side >= least {
			continue
		}
		foot := p.Sub(c.Normal.Mul(side))
		if (len(cuts) < 2 || cuts[1-i].Side(foot) > 0) && b.holds(foot) {
			least = side
		}
	}
	return least
}

// left are the parts of a flat convex shape that the cuts leave: all behind the first, and what lies
// before it and behind the second.
func left(shape []mgl64.Vec3, cuts []solid.Cut) [][]mgl64.Vec3 {
	switch len(cuts) {
	case 0:
		return [][]mgl64.Vec3{shape}
	case 1:
		return [][]mgl64.Vec3{behind(shape, cuts[0], 1)}
	}
	return [][]mgl64.Vec3{behind(shape, cuts[0], 1), behind(behind(shape, cuts[0], -1), cuts[1], 1)}
}

// behind is the part of a flat convex shape behind a cut, or with its sign turned, before it.
func behind(shape []mgl64.Vec3, c solid.Cut, sign float64) (out []mgl64.Vec3) {
	for i, p := range shape {
		q := shape[(i+1)%len(shape)]
		a, b := sign*c.Side(p), sign*c.Side(q)
		if a <= 0 {
			out = append(out, p)
		}
		if (a < 0 && b > 0) || (a > 0 && b < 0) {
			out = append(out, p.Add(q.Sub(p).Mul(a/(a-b))))
		}
	}
	return out
}

// nearestOn is the place of a triangle that is nearest to another place.
//
// Method: which corner, side or the face it is nearest to follows from the signs of a few dot products
// (Ericson, Real-Time Collision Detection, 2005, 5.1.5).
func nearestOn(p, a, b, c mgl64.Vec3) mgl64.Vec3 {
	ab, ac, ap := b.Sub(a), c.Sub(a), p.Sub(a)
	d1, d2 := ab.Dot(ap), ac.Dot(ap)
	if d1 <= 0 && d2 <= 0 {
		return a
	}
	bp := p.Sub(b)
	d3, d4 := ab.Dot(bp), ac.Dot(bp)
	if d3 >= 0 && d4 <= d3 {
		return b
	}
	vc := d1*d4 - d3*d2
	if vc <= 0 && d1 >= 0 && d3 <= 0 {
		return a.Add(ab.Mul(d1 / (d1 - d3)))
	}
	cp := p.Sub(c)
	d5, d6 := ab.Dot(cp), ac.Dot(cp)
	if d6 >= 0 && d5 <= d6 {
		return c
	}
	vb := d5*d2 - d1*d6
	if vb <= 0 && d2 >= 0 && d6 <= 0 {
		return a.Add(ac.Mul(d2 / (d2 - d6)))
	}
	va := d3*d6 - d5*d4
	if va <= 0 && d4-d3 >= 0 && d5-d6 >= 0 {
		return b.Add(c.Sub(b).Mul((d4 - d3) / (d4 - d3 + d5 - d6)))
	}
	all := va + vb + vc
	if all == 0 {
		return a // no triangle at all
	}
	return a.Add(ab.Mul(vb / all)).Add(ac.Mul(vc / all))
}

// inOpen is the camera with its nearest distance drawn as short as what it stands beside asks for; ok is
// false where it stands in something, or as near as that would be cut open.
func (f Frame) inOpen(c Camera) (out Camera, blocked *Body, ok bool) {
	c.NearMM = 0
	aspect := float64(f.Width) / math.Max(1, float64(f.Height))
	t := math.Tan(c.field() / 2)
	high := 1 + math.Abs(c.Rise)
	corner := math.Sqrt(1 + t*t*(high*high+aspect*aspect)) // how much further away the picture's corners are
	mm, body := f.room(c.Eye(), math.Max(leastClearMM, c.near()*corner))
	if body == nil {
		return c, nil, true
	}
	c.NearMM = mm / corner
	return c, body, mm >= leastClearMM
}

// Stands tells whether a camera stands in the open: in nothing that the frame draws, and so far from
// all that nothing is cut open by standing near.
func (f Frame) Stands(c Camera) bool {
	_, _, ok := f.inOpen(c)
	return ok
}

// Kept is a camera that somebody moves, kept in the open: as it is wanted, or else nearer to or further
// from what it looks at, or where it was. A wall lets it through: it is left out as soon as it stands
// between the eye and the room. Nothing else does when it comes nearer.
func (f Frame) Kept(was, wanted Camera) Camera {
	if f.Scene == nil {
		return wanted
	}
	wanted.Target = f.Scene.inReach(wanted.Target)
	nearer := wanted.DistanceMM < was.DistanceMM
	if nearer {
		wanted = f.stopped(was, wanted)
	}
	if c, _, ok := f.inOpen(wanted); ok {
		return c
	}
	const step, most = 0.03, 0.6
	for by := step; by <= most; by += step {
		for _, factor := range []float64{1 - by, 1 + by} {
			if nearer && factor < 1 {
				continue
			}
			c := wanted
			c.DistanceMM *= factor
			if c, _, ok := f.inOpen(c); ok {
				return c
			}
		}
	}
	if c, _, ok := f.inOpen(was); ok {
		return c
	}
	return wanted
}

// stopped is a camera that comes nearer, before it comes to anything but a wall that lets it through.
func (f Frame) stopped(was, wanted Camera) Camera {
	eye, to := was.Eye(), wanted.Eye()
	way := to.Sub(eye)
	if way.Len() < 1e-6 {
		return wanted
	}
	hit, ok := f.solidHit(eye, way.Normalize(), math.Inf(1), func(b *Body) bool { return b.outward != mgl64.Vec3{} || b.ceiling })
	if long := hit - leastClearMM; ok && long < way.Len() {
		wanted.DistanceMM = was.DistanceMM - math.Max(0, long)
	}
	return wanted
}

// solidHit is how far away the first solid thing along a ray is, but for what is to be passed over; ok is false where
// there is none nearer than within.
func (f Frame) solidHit(from, direction mgl64.Vec3, within float64, pass func(*Body) bool) (mm float64, ok bool) {
	mm = within
	cuts := f.cuts()
	for i := range f.Scene.Bodies {
		b := &f.Scene.Bodies[i]
		if !f.shows(*b, from) || !f.solidIn(*b) || pass(b) {
			continue
		}
		start := from.Sub(mgl64.Vec3{0, 0, f.lift(b.Part.Stage, b.Part.Wall)})
		if !meetsBox(start, direction, mm, b.box) {
			continue
		}
		b.each(func(p, q, r, _ mgl64.Vec3) {
			if t, hit := meetsTriangle(start, direction, p, q, r); hit && t < mm && !cutAway(cuts, start.Add(direction.Mul(t))) {
				mm = t
			}
		})
		// A cut face hides as well.
		for k, c := range cuts {
			along := c.Normal.Dot(direction)
			if along >= 0 {
				continue
			}
			t := -c.Side(start) / along
			foot := start.Add(direction.Mul(t))
			if t > 0 && t < mm && (len(cuts) < 2 || cuts[1-k].Side(foot) > 0) && b.holds(foot) {
				mm = t
			}
		}
	}
	return mm, mm < within
}

// hidesMM is how deep in something a place may lie and is still seen: that of a pipe's middle line.
const hidesMM = 60

// Sees tells whether a place is to be seen from a camera: in the picture, and with nothing solid before it.
func (f Frame) Sees(c Camera, at mgl64.Vec3) bool {
	x, y, ok := c.Project(at, float64(f.Width)/math.Max(1, float64(f.Height)))
	if !ok || x < 0 || x > 1 || y < 0 || y > 1 {
		return false
	}
	way := at.Sub(c.Eye())
	_, hidden := f.solidHit(c.Eye(), way.Normalize(), way.Len()-hidesMM, func(*Body) bool { return false })
	return !hidden
}

// reachMM is how far out of what is drawn the place that a camera looks at may lie.
const reachMM = 600

// inReach is a place brought back to what is drawn.
func (s *Scene) inReach(p mgl64.Vec3) mgl64.Vec3 {
	for k := range 3 {
		p[k] = math.Max(s.Bounds.Low[k]-reachMM, math.Min(s.Bounds.High[k]+reachMM, p[k]))
	}
	return p
}

// Showing is the camera moved, as little as that takes, so that it stands in the open and sees the place
// that it looks at.
func (f Frame) Showing(c Camera) Camera {
	return c.nearest(func(c Camera) (Camera, bool) {
		c, _, ok := f.inOpen(c)
		return c, ok && f.Sees(c, c.Target)
	})
}

// At is the part that lies at a place, or the nearest to it: of several that do, the smallest.
func (f Frame) At(p mgl64.Vec3) (part string, ok bool) {
	const aboutMM = 120
	least, size := float64(aboutMM), math.Inf(1)
	for i := range f.Scene.Bodies {
		b := &f.Scene.Bodies[i]
		if b.dressing || b.Part.Stage > f.Stage {
			continue
		}
		mm, large := 0.0, b.box.High.Sub(b.box.Low).Len()
		if !b.holds(p) {
			mm = b.distance(p, nil, least+1)
		}
		const alike = 0.5
		if mm < least-alike || mm < least+alike && large < size {
			part, ok, least, size = b.Part.ID, true, mm, large
		}
	}
	return part, ok
}
