// Package clash holds bodies against each other: how far apart they are, how
// deep one is in the other, and what each pair of parts must keep.
package clash

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Meeting is how two bodies lie to each other.
type Meeting struct {
	// GapMM is the least distance between them; negative where they overlap, for
	// the least way one must be moved until they only touch.
	GapMM float64
	// At is where they are nearest, or a place in both.
	At mgl64.Vec3
}

// Prism is an upright body over a convex polygon between two planes.
type Prism struct {
	// corners are those of the underside, counter-clockwise from above, then
	// those over them.
	corners []mgl64.Vec3
	faces   []face
	edges   [][2]mgl64.Vec3
	ways    []mgl64.Vec3 // the directions its edges run in, each once
	// around has the corners of the faces, one face after another.
	around []mgl64.Vec3
	// What it was made of.
	ring        plan.Ring
	bottom, top solid.Plane
}

// face is a flat side with its corners counter-clockwise seen from outside.
type face struct {
	corners []mgl64.Vec3
	out     mgl64.Vec3
	offset  float64 // of the plane along out
}

// NewPrism stands on a convex ring, either way round, and reaches from one plane
// up to another, which must lie over it at every corner.
func NewPrism(ring plan.Ring, bottom, top solid.Plane) *Prism {
	var p Prism
	p.Set(ring, bottom, top)
	return &p
}

// Set makes a prism another one, as NewPrism would, in the room it has.
func (p *Prism) Set(ring plan.Ring, bottom, top solid.Plane) {
	n := len(ring)
	parallel := func(a, b solid.Plane) bool { return a.SlopeX == b.SlopeX && a.SlopeY == b.SlopeY }
	raised := slices.Equal(p.ring, ring) && parallel(p.bottom, bottom) && parallel(p.top, top)
	p.ring, p.bottom, p.top = append(p.ring[:0], ring...), bottom, top
	at := func(i int) plan.Point { return ring[i] }
	if ring.SignedArea() < 0 {
		at = func(i int) plan.Point { return ring[n-1-i] }
	}
	p.corners = slices.Grow(p.corners[:0], 2*n)[:2*n]
	c := p.corners
	for i := range n {
		c[i], c[n+i] = at(i).Vec3(bottom.At(at(i))), at(i).Vec3(top.At(at(i)))
	}
	// Faces keep parts of the list of their corners: it must not move while it grows.
	p.around, p.edges = slices.Grow(p.around[:0], 5*n), p.edges[:0]
	for i := range n {
		k := (i + 1) % n
		p.around = append(p.around, c[i], c[k], c[n+k], c[n+i])
		p.edges = append(p.edges, [2]mgl64.Vec3{c[i], c[k]}, [2]mgl64.Vec3{c[n+i], c[n+k]}, [2]mgl64.Vec3{c[i], c[n+i]})
	}
	for i := range n {
		p.around = append(p.around, c[n-1-i])
	}
	if raised {
		// Only the underside and the top have another place along their directions.
		for i := n; i < len(p.faces); i++ {
			f := &p.faces[i]
			f.offset = f.out.Dot(f.corners[0])
		}
		return
	}
	p.faces, p.ways = p.faces[:0], p.ways[:0]
	for i := range n {
		along := at((i + 1) % n).Sub(at(i)).Normalize()
		p.face(mgl64.Vec3{along.Y(), -along.X(), 0}, p.around[4*i:4*i+4])
	}
	p.face(mgl64.Vec3{bottom.SlopeX, bottom.SlopeY, -1}.Normalize(), p.around[4*n:])
	p.face(mgl64.Vec3{-top.SlopeX, -top.SlopeY, 1}.Normalize(), c[n:])
	for _, e := range p.edges {
		p.addWay(e[1].Sub(e[0]))
	}
}

func (p *Prism) face(out mgl64.Vec3, corners []mgl64.Vec3) {
	p.faces = append(p.faces, face{corners, out, out.Dot(corners[0])})
}

// addWay adds the direction of an edge unless one runs so already.
func (p *Prism) addWay(way mgl64.Vec3) {
	for _, w := range p.ways {
		if _, ok := square(w, way); !ok {
			return
		}
	}
	p.ways = append(p.ways, way)
}

// under tells whether a point lies over or under a face square to it, and not
// beside it.
func (f *face) under(q mgl64.Vec3) bool {
	for i, a := range f.corners {
		b := f.corners[(i+1)%len(f.corners)]
		if f.out.Cross(b.Sub(a)).Dot(q.Sub(a)) < 0 {
			return false
		}
	}
	return true
}

// span is what the body covers of a direction.
func (p *Prism) span(n mgl64.Vec3) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range p.corners {
		v := n.Dot(c)
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// clip is the part of the segment a-b in the body, as shares of it.
func (p *Prism) clip(a, b mgl64.Vec3) (from, to float64, ok bool) {
	from, to = 0, 1
	for i := range p.faces {
		f := &p.faces[i]
		da, db := f.out.Dot(a)-f.offset, f.out.Dot(b)-f.offset
		switch {
		case da > 0 && db > 0:
			return from, to, false
		case da > 0:
			from = max(from, da/(da-db))
		case db > 0:
			to = min(to, da/(da-db))
		}
	}
	return from, to, from <= to
}

// GapWithin is Gap where that is less than a reach, else an endless one.
func (p *Prism) GapWithin(o *Prism, reachMM float64) Meeting {
	if off := max(p.atLeast(o), o.atLeast(p)); off < reachMM {
		if is := p.gap(o, off); is.GapMM < reachMM {
			return is
		}
	}
	return Meeting{GapMM: math.Inf(1)}
}

// atLeast is the farthest another prism stays off the plane of a face.
func (p *Prism) atLeast(o *Prism) float64 {
	gap := math.Inf(-1)
	for i := range p.faces {
		f := &p.faces[i]
		nearest := math.Inf(1)
		for k := range o.corners {
			nearest = min(nearest, f.out.Dot(o.corners[k]))
		}
		gap = max(gap, nearest-f.offset)
	}
	return gap
}

// Gap holds two prisms against each other.
//
// Method: bodies with flat faces that do not overlap are nearest at a corner and
// a face or at two edges; those that do come apart soonest square to a face or to
// two edges. All of these are tried. Exact.
func (p *Prism) Gap(o *Prism) Meeting { return p.gap(o, max(p.atLeast(o), o.atLeast(p))) }

// gap is Gap for prisms of which one stays so far off a face of the other.
func (p *Prism) gap(o *Prism, off float64) Meeting {
	for _, v := range p.ways {
		for _, w := range o.ways {
			if off > 0 {
				break
			}
			if plumb(v) || plumb(w) || level(v) && level(w) && (p.isLevel() || o.isLevel()) {
				continue // square to both is a face
			}
			if n, ok := square(v, w); ok {
				low, high := p.span(n)
				from, to := o.span(n)
				off = max(off, from-high, low-to)
			}
		}
	}
	if off <= 0 {
		return Meeting{off, inBoth(p, o)}
	}
	nearest := Meeting{GapMM: math.Inf(1)}
	keep := func(a, b mgl64.Vec3) {
		if d := b.Sub(a).Len(); d < nearest.GapMM {
			nearest = Meeting{d, a.Add(b).Mul(0.5)}
		}
	}
	corners := func(p, o *Prism) {
		for i := range o.faces {
			f := &o.faces[i]
			for _, c := range p.corners {
				if h := f.out.Dot(c) - f.offset; h >= 0 && f.under(c) {
					keep(c, c.Sub(f.out.Mul(h)))
				}
			}
		}
	}
	corners(p, o)
	corners(o, p)
	for _, e := range p.edges {
		for _, g := range o.edges {
			a, b, _ := nearestOfSegments(e[0], e[1], g[0], g[1])
			keep(a, b)
		}
	}
	return nearest
}

// plumb tells whether an edge stands upright.
func plumb(way mgl64.Vec3) bool { return way.X() == 0 && way.Y() == 0 }

// level tells whether an edge runs level.
func level(way mgl64.Vec3) bool { return way.Z() == 0 }

// isLevel tells whether underside and top are level.
func (p *Prism) isLevel() bool {
	return p.bottom.SlopeX == 0 && p.bottom.SlopeY == 0 && p.top.SlopeX == 0 && p.top.SlopeY == 0
}

// inBoth is a place in two bodies that overlap: the middle of what their bounds
// share, or where that is none, as they stand askew, the mean of where the edges of
// each enter and leave the other.
func inBoth(p, o *Prism) mgl64.Vec3 {
	middle := middleOfBoth(p, o)
	if p.holds(middle) && o.holds(middle) {
		return middle
	}
	var sum mgl64.Vec3
	n := 0.0
	for _, pair := range [...][2]*Prism{{p, o}, {o, p}} {
		for _, e := range pair[0].edges {
			if from, to, ok := pair[1].clip(e[0], e[1]); ok {
				along := e[1].Sub(e[0])
				sum = sum.Add(e[0].Add(along.Mul(from))).Add(e[0].Add(along.Mul(to)))
				n += 2
			}
		}
	}
	if n == 0 {
		return middle // they only touch
	}
	return sum.Mul(1 / n)
}

// holds tells whether a point lies in the body.
func (p *Prism) holds(q mgl64.Vec3) bool {
	for i := range p.faces {
		if f := &p.faces[i]; f.out.Dot(q) > f.offset {
			return false
		}
	}
	return true
}

// middleOfBoth is the middle of what the bounds of two bodies share.
func middleOfBoth(p, o *Prism) mgl64.Vec3 {
	var middle mgl64.Vec3
	for i := range 3 {
		var n mgl64.Vec3
		n[i] = 1
		low, high := p.span(n)
		from, to := o.span(n)
		middle[i] = (max(low, from) + min(high, to)) / 2
	}
	return middle
}

// parallel is the sine of an angle under which edges count as parallel, and
// nearlyParallel the square of one under which no single place of two segments is the
// nearest.
const (
	parallel       = 1e-9
	nearlyParallel = 1e-14
)

// square is the unit vector square to two others; ok is false where they are
// parallel.
func square(u, v mgl64.Vec3) (n mgl64.Vec3, ok bool) {
	n = u.Cross(v)
	l := n.Len()
	if l < parallel*u.Len()*v.Len() || l == 0 {
		return n, false
	}
	return n.Mul(1 / l), true
}

// nearestOfSegments gives the points of two segments that are nearest to each
// other, and where on the second as a share of it.
func nearestOfSegments(a, b, c, d mgl64.Vec3) (p, q mgl64.Vec3, share float64) {
	u, v, w := b.Sub(a), d.Sub(c), a.Sub(c)
	uu, vv, uv, vw, uw := u.Dot(u), v.Dot(v), u.Dot(v), v.Dot(w), u.Dot(w)
	within := func(t float64) float64 { return max(0, min(1, t)) }
	s, t := 0.0, 0.0
	switch {
	case uu == 0 && vv == 0:
	case uu == 0:
		t = within(vw / vv)
	case vv == 0:
		s = within(-uw / uu)
	default:
		if det := uu*vv - uv*uv; det > nearlyParallel*uu*vv {
			s = within((uv*vw - uw*vv) / det)
		}
		if t = (uv*s + vw) / vv; t < 0 || t > 1 {
			t = within(t)
			s = within((uv*t - uw) / uu)
		}
	}
	return a.Add(u.Mul(s)), c.Add(v.Mul(t)), t
}
