package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/furnish"
	"underfall/geometry/solid"
)

// Hit is what a line of sight meets.
type Hit struct {
	Part assembly.Part
	At   mgl64.Vec3
}

// Pick finds what a line of sight meets first in a frame; parts taken away by
// the cuts and what only dresses the picture do not count.
func (f Frame) Pick(from, direction mgl64.Vec3) (Hit, bool) {
	best, hit, found := math.Inf(1), Hit{}, false
	for _, b := range f.Scene.Bodies {
		if b.dressing || b.Part.Stage > f.Stage || b.hiddenFrom(from) {
			continue
		}
		lift := mgl64.Vec3{0, 0, f.lift(b.Part.Stage, b.Part.Wall)}
		start := from.Sub(lift)
		if !meetsBox(start, direction, best, b.box) {
			continue
		}
		b.each(func(p, q, r, _ mgl64.Vec3) {
			if t, ok := meetsTriangle(start, direction, p, q, r); ok && t < best {
				if at := start.Add(direction.Mul(t)); !cutAway(f.cuts(), at) {
					best, hit, found = t, Hit{b.Part, at.Add(lift)}, true
				}
			}
		})
	}
	return hit, found
}

// Thing finds which thing of the finished room a line of sight meets, past panes: one that rules put there and the user may
// have otherwise. ok is false where something else comes first.
func (f Frame) Thing(from, direction mgl64.Vec3) (o furnish.Object, ok bool) {
	best := math.Inf(1)
	for i := range f.Scene.Bodies {
		b := &f.Scene.Bodies[i]
		if !f.shows(*b, from) || b.surface.alpha < 1 || !meetsBox(from, direction, best, b.box) {
			continue
		}
		b.each(func(p, q, r, _ mgl64.Vec3) {
			t, meets := meetsTriangle(from, direction, p, q, r)
			if !meets || t >= best {
				return
			}
			best, ok = t, false
			if of, is := b.object(); is {
				o = of
				_, ok = o.Thing()
			}
		})
	}
	return o, ok
}

// Corner is the corner of a part nearest to a place of the picture, given as
// shares of its width and height, within reach (a share of the height).
func (f Frame) Corner(x, y, aspect, reach float64) (mgl64.Vec3, bool) {
	eye := f.Camera.Eye()
	best, at := reach, mgl64.Vec3{}
	for _, b := range f.Scene.Bodies {
		if b.dressing || b.Part.Stage > f.Stage || b.hiddenFrom(eye) {
			continue
		}
		lift := mgl64.Vec3{0, 0, f.lift(b.Part.Stage, b.Part.Wall)}
		for i := 0; i+5 < len(b.edges); i += 3 {
			p := mgl64.Vec3{float64(b.edges[i]), float64(b.edges[i+1]), float64(b.edges[i+2])}
			if cutAway(f.cuts(), p) {
				continue
			}
			if px, py, ok := f.Camera.Project(p.Add(lift), aspect); ok {
				if d := math.Hypot((px-x)*aspect, py-y); d < best {
					best, at = d, p.Add(lift)
				}
			}
		}
	}
	return at, best < reach
}

// each gives a body's triangles with their first corner's normal.
func (b Body) each(visit func(p, q, r, n mgl64.Vec3)) {
	at := func(i int) mgl64.Vec3 {
		return mgl64.Vec3{float64(b.vertices[i]), float64(b.vertices[i+1]), float64(b.vertices[i+2])}
	}
	for i := 0; i+17 < len(b.vertices); i += 18 {
		visit(at(i), at(i+6), at(i+12), at(i+3))
	}
}

// meetsBox tells whether a ray meets a box no further than within.
func meetsBox(from, d mgl64.Vec3, within float64, b solid.Box) bool {
	t0, t1 := 0.0, within
	for i := range 3 {
		if math.Abs(d[i]) < 1e-12 {
			if from[i] < b.Low[i] || from[i] > b.High[i] {
				return false
			}
			continue
		}
		a, c := (b.Low[i]-from[i])/d[i], (b.High[i]-from[i])/d[i]
		t0, t1 = math.Max(t0, math.Min(a, c)), math.Min(t1, math.Max(a, c))
	}
	return t0 <= t1
}

// meetsTriangle is the distance to a triangle along a ray, by Möller and
// Trumbore's method (1997).
func meetsTriangle(from, d, a, b, c mgl64.Vec3) (float64, bool) {
	e1, e2 := b.Sub(a), c.Sub(a)
	p := d.Cross(e2)
	det := e1.Dot(p)
	if math.Abs(det) < 1e-12 {
		return 0, false
	}
	s := from.Sub(a)
	u := s.Dot(p) / det
	q := s.Cross(e1)
	v := d.Dot(q) / det
	t := e2.Dot(q) / det
	return t, u >= 0 && v >= 0 && u+v <= 1 && t > 0
}
