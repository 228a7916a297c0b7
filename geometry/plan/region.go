// Package plan holds exact two-dimensional regions (polygons with holes, in
// millimetres) and the operations on them: union, difference, intersection and
// corridors along a path, by a Shaper; areas, containment and clipping of
// lines, which cannot fail, by the region itself.
package plan

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/peterstace/simplefeatures/geom"
)

// Point is a position in millimetres.
type Point = mgl64.Vec2

// Ring is a closed line of distinct corners; the last joins the first.
type Ring []Point

// Polygon is an outer ring, counter-clockwise, with holes, clockwise.
type Polygon struct {
	Outer Ring
	Holes []Ring
}

// Region is any number of polygons whose interiors do not meet.
type Region []Polygon

// HairMM is a length that makes no difference. It is far under what anybody
// measures and what corners are put on (gridMM), and far over what sums of float64
// lose in the coordinates of a building: 50 m in millimetres come in steps of 7e-12.
const HairMM = 1e-6

// snapMM is the grid results of boolean operations are put on. It is far below
// anything a trade can measure and far above rounding in coordinates of a
// building, so that the same corner from two operations is the same number.
const snapMM = 1e-7

// sliverMM2 is the area below which a polygon left by a boolean operation is
// rounding, not material.
const sliverMM2 = 1e-4

// Rectangle is the region between two opposite corners.
func Rectangle(a, b Point) Region {
	x0, x1 := math.Min(a.X(), b.X()), math.Max(a.X(), b.X())
	y0, y1 := math.Min(a.Y(), b.Y()), math.Max(a.Y(), b.Y())
	return Region{{Outer: Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}}}
}

// Strip is the region along a straight to one side of it, as wide as the way there.
func Strip(from, to, aside Point) Region {
	return FromRing(Ring{from, to, to.Add(aside), from.Add(aside)})
}

// FromRing is the region inside a simple ring of either direction.
func FromRing(ring Ring) Region {
	ring = ring.WithoutCollinear()
	if len(ring) < 3 {
		return nil
	}
	if ring.SignedArea() < 0 {
		ring = ring.Reversed()
	}
	return Region{{Outer: ring}}
}

// Circle is a regular polygon inscribed in a circle; its sides lie within
// chordErrorMM of the true circle.
func Circle(centre Point, radiusMM, chordErrorMM float64) Ring {
	n := CircleSides(radiusMM, chordErrorMM)
	ring := make(Ring, n)
	for i := range ring {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
		ring[i] = Point{centre.X() + radiusMM*c, centre.Y() + radiusMM*s}
	}
	return ring
}

// CircleSides is the number of equal chords, a multiple of four, that keeps
// the sagitta of a circle of the given radius within chordErrorMM.
func CircleSides(radiusMM, chordErrorMM float64) int {
	if radiusMM <= chordErrorMM {
		return 8
	}
	n := int(math.Ceil(math.Pi / math.Acos(1-chordErrorMM/radiusMM)))
	return max(8, (n+3)/4*4)
}

// SignedArea is positive for a counter-clockwise ring, in mm².
func (r Ring) SignedArea() float64 {
	if len(r) == 0 {
		return 0
	}
	// Measured from the first corner: far from the origin the products of
	// whole coordinates would lose the digits that matter.
	sum, o := 0.0, r[0]
	for i := range r {
		a, b := r[i].Sub(o), r[(i+1)%len(r)].Sub(o)
		sum += a.X()*b.Y() - b.X()*a.Y()
	}
	return sum / 2
}

// Reversed is the ring walked the other way.
func (r Ring) Reversed() Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[len(r)-1-i] = p
	}
	return out
}

// WithoutCollinear drops repeated corners and corners on a straight line
// between their neighbours.
func (r Ring) WithoutCollinear() Ring {
	return append(Ring(nil), r...).straightened()
}

// straightened is WithoutCollinear in the ring's own place.
func (r Ring) straightened() Ring {
	out := r
	for changed := true; changed && len(out) >= 3; {
		changed = false
		for i := 0; i < len(out) && len(out) >= 3; i++ {
			a, b, c := out[(i+len(out)-1)%len(out)], out[i], out[(i+1)%len(out)]
			if b.Sub(a).Len() < snapMM || math.Abs(Cross(b.Sub(a), c.Sub(b))) < snapMM*c.Sub(a).Len() {
				out = append(out[:i], out[i+1:]...)
				changed = true
				i--
			}
		}
	}
	return out
}

// Cross is the z component of the cross product of two plan vectors.
func Cross(a, b Point) float64 { return a.X()*b.Y() - a.Y()*b.X() }

// DirectionDeg is the unit vector at an angle from the first axis. Quarter turns
// are exact: sine and cosine are rounded to twelve digits, where float64 leaves
// 1e-16 of a nought.
func DirectionDeg(angleDeg float64) Point {
	const steps = 1e12
	s, c := math.Sincos(angleDeg * math.Pi / 180)
	return Point{math.Round(c*steps) / steps, math.Round(s*steps) / steps}
}

// Left is the vector turned a quarter turn counter-clockwise.
func Left(v Point) Point { return Point{-v.Y(), v.X()} }

// Area of the region in mm².
func (r Region) Area() float64 {
	sum := 0.0
	for _, p := range r {
		sum += p.Outer.SignedArea()
		for _, h := range p.Holes {
			sum += h.SignedArea()
		}
	}
	return sum
}

// Centroid of the region; the zero point when it is empty.
func (r Region) Centroid() Point {
	var moment Point
	area := 0.0
	add := func(ring Ring) {
		for i := range ring {
			a, b := ring[i], ring[(i+1)%len(ring)]
			w := Cross(a, b)
			moment = moment.Add(a.Add(b).Mul(w / 6))
			area += w / 2
		}
	}
	for _, p := range r {
		add(p.Outer)
		for _, h := range p.Holes {
			add(h)
		}
	}
	if area == 0 {
		return Point{}
	}
	return moment.Mul(1 / area)
}

// Bounds are the least and greatest coordinates; ok is false when empty.
func (r Region) Bounds() (low, high Point, ok bool) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range r {
		for _, q := range p.Outer {
			low = Point{min(low.X(), q.X()), min(low.Y(), q.Y())}
			high = Point{max(high.X(), q.X()), max(high.Y(), q.Y())}
			ok = true
		}
	}
	return low, high, ok
}

// Contains tells whether the point lies inside the region or on its edge
// within toleranceMM.
func (r Region) Contains(p Point, toleranceMM float64) bool {
	inside := false
	for _, poly := range r {
		for k := range poly.rings() {
			ring := poly.ring(k)
			for i := range ring {
				a, b := ring[i], ring[(i+1)%len(ring)]
				if WithinOfSegment(p, a, b, toleranceMM) {
					return true
				}
				if (a.Y() > p.Y()) != (b.Y() > p.Y()) &&
					p.X() < a.X()+(p.Y()-a.Y())/(b.Y()-a.Y())*(b.X()-a.X()) {
					inside = !inside
				}
			}
		}
	}
	return inside
}

// WithinOfSegment tells whether a point lies within reach of the segment a-b.
func WithinOfSegment(p, a, b Point, reachMM float64) bool {
	return nearBox(p, a, b, reachMM) && DistanceToSegment(p, a, b) <= reachMM
}

// nearBox tells whether a point lies within reach of the box round a segment;
// only then can it lie within reach of the segment.
func nearBox(p, a, b Point, reachMM float64) bool {
	reachMM += snapMM // more than rounding takes
	return p.X() >= min(a.X(), b.X())-reachMM && p.X() <= max(a.X(), b.X())+reachMM &&
		p.Y() >= min(a.Y(), b.Y())-reachMM && p.Y() <= max(a.Y(), b.Y())+reachMM
}

// Rings are the outer ring and the holes in order.
func (p Polygon) Rings() []Ring {
	return append([]Ring{p.Outer}, p.Holes...)
}

// rings is how many there are, and ring one of them, the outer one first: for
// loops that need no list.
func (p Polygon) rings() int { return 1 + len(p.Holes) }

func (p Polygon) ring(k int) Ring {
	if k == 0 {
		return p.Outer
	}
	return p.Holes[k-1]
}

// EdgeMM is how far a point is from the nearest edge of the region, in it or outside;
// endless where the region is empty.
func (r Region) EdgeMM(p Point) float64 {
	least := math.Inf(1)
	for i := range r {
		for k := range r[i].rings() {
			least = min(least, r[i].ring(k).EdgeMM(p))
		}
	}
	return least
}

// EdgeMM is how far a point is from the nearest side of the ring, in it or outside.
func (r Ring) EdgeMM(p Point) float64 {
	least := math.Inf(1)
	for i, a := range r {
		least = min(least, DistanceToSegment(p, a, r[(i+1)%len(r)]))
	}
	return least
}

// DistanceToSegment is the shortest distance from p to the segment a-b.
func DistanceToSegment(p, a, b Point) float64 {
	return p.Sub(NearestOnSegment(p, a, b)).Len()
}

// NearestOnSegment is the point of the segment a-b nearest to p.
func NearestOnSegment(p, a, b Point) Point {
	d := b.Sub(a)
	l2 := d.Dot(d)
	if l2 == 0 {
		return a
	}
	t := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/l2))
	return a.Add(d.Mul(t))
}

func boundsMeet(a, b Region) bool {
	al, ah, aok := a.Bounds()
	bl, bh, bok := b.Bounds()
	return aok && bok && al.X() <= bh.X() && bl.X() <= ah.X() && al.Y() <= bh.Y() && bl.Y() <= ah.Y()
}

// onGrid rounds to the grid. Adding zero makes a negative zero an ordinary
// one: the boolean operations tell points apart by their bits.
func onGrid(v, gridMM float64) float64 { return math.Round(v/gridMM)*gridMM + 0 }

// turnedFrame has its origin at a point and its axes along unit vectors.
type turnedFrame struct{ from, u, v Point }

// in turns a point into the frame, and out back.
func (f turnedFrame) in(p Point) Point { d := p.Sub(f.from); return Point{d.Dot(f.u), d.Dot(f.v)} }

func (f turnedFrame) out(p Point) Point {
	return f.from.Add(f.u.Mul(p.X())).Add(f.v.Mul(p.Y()))
}

// sameWaySine is the sine of the angle within which two edges run the same way, or
// square to each other: over 10 m it is a thousandth of a millimetre.
const sameWaySine = 1e-7

// mainFrame is the frame whose axes most of the region's edges run along, by
// length.
func mainFrame(r Region) turnedFrame {
	type edge struct {
		from, along Point
		length      float64
	}
	var few [24]edge
	edges := few[:0]
	for _, p := range r {
		for i := range p.Outer {
			d := p.Outer[(i+1)%len(p.Outer)].Sub(p.Outer[i])
			if l := d.Len(); l > 0 {
				edges = append(edges, edge{p.Outer[i], d.Mul(1 / l), l})
			}
		}
	}
	best, main := -1.0, edge{along: Point{1, 0}}
	for _, e := range edges {
		sum := 0.0
		for _, o := range edges {
			if math.Abs(Cross(e.along, o.along)) < sameWaySine || math.Abs(e.along.Dot(o.along)) < sameWaySine {
				sum += o.length
			}
		}
		// Among edges that agree the longest gives the truest direction.
		if sum > best+HairMM || sum > best-HairMM && e.length > main.length {
			best, main = sum, e
		}
	}
	return turnedFrame{main.from, main.along, Left(main.along)}
}

// into is the region in a frame, with its corners on a grid where that is above
// zero.
func (r Region) into(f turnedFrame, gridMM float64) Region {
	ring := func(in Ring) Ring {
		out := make(Ring, len(in))
		for i, p := range in {
			out[i] = f.in(p)
			if gridMM > 0 {
				out[i] = Point{onGrid(out[i].X(), gridMM), onGrid(out[i].Y(), gridMM)}
			}
		}
		if gridMM > 0 {
			return out.straightened()
		}
		return out
	}
	return r.eachRing(ring)
}

// eachRing is the region with another ring in place of each of its own; a ring
// that is left with fewer than three corners goes, an outer one with its holes.
func (r Region) eachRing(other func(Ring) Ring) Region {
	out := make(Region, 0, len(r))
	for _, p := range r {
		q := Polygon{Outer: other(p.Outer)}
		if len(q.Outer) < 3 {
			continue
		}
		for _, h := range p.Holes {
			if hole := other(h); len(hole) >= 3 {
				q.Holes = append(q.Holes, hole)
			}
		}
		out = append(out, q)
	}
	return out
}

// EachCorner is the region with each of its corners taken to another place, which leaves it the
// same way round.
func (r Region) EachCorner(to func(Point) Point) Region {
	return r.eachRing(func(in Ring) Ring {
		out := make(Ring, len(in))
		for i, p := range in {
			out[i] = to(p)
		}
		return out
	})
}

// outOf turns the region's own corners out of a frame.
func (r Region) outOf(f turnedFrame) {
	for _, p := range r {
		for k := range p.rings() {
			ring := p.ring(k)
			for i, q := range ring {
				ring[i] = f.out(q)
			}
		}
	}
}

func (r Region) geometry() geom.Geometry {
	polys := make([]geom.Polygon, 0, len(r))
	for _, p := range r {
		rings := make([]geom.LineString, 0, 1+len(p.Holes))
		for _, ring := range p.Rings() {
			rings = append(rings, lineString(append(append(Ring(nil), ring...), ring[0])))
		}
		polys = append(polys, geom.NewPolygon(rings))
	}
	return geom.NewMultiPolygon(polys).AsGeometry()
}

func lineString(points []Point) geom.LineString {
	xy := make([]float64, 0, 2*len(points))
	for _, p := range points {
		xy = append(xy, p.X(), p.Y())
	}
	return geom.NewLineString(geom.NewSequence(xy, geom.DimXY))
}

func fromGeometry(g geom.Geometry) Region {
	var out Region
	switch g.Type() {
	case geom.TypePolygon:
		out = appendPolygon(out, g.MustAsPolygon())
	case geom.TypeMultiPolygon:
		mp := g.MustAsMultiPolygon()
		for i := range mp.NumPolygons() {
			out = appendPolygon(out, mp.PolygonN(i))
		}
	case geom.TypeGeometryCollection:
		gc := g.MustAsGeometryCollection()
		for i := range gc.NumGeometries() {
			out = append(out, fromGeometry(gc.GeometryN(i))...)
		}
	}
	return out
}

func appendPolygon(out Region, p geom.Polygon) Region {
	if p.IsEmpty() {
		return out
	}
	outer := ringOf(p.ExteriorRing())
	if len(outer) < 3 || math.Abs(outer.SignedArea()) < sliverMM2 {
		return out
	}
	if outer.SignedArea() < 0 {
		outer = outer.Reversed()
	}
	poly := Polygon{Outer: outer}
	for i := range p.NumInteriorRings() {
		hole := ringOf(p.InteriorRingN(i))
		if len(hole) < 3 || math.Abs(hole.SignedArea()) < sliverMM2 {
			continue
		}
		if hole.SignedArea() > 0 {
			hole = hole.Reversed()
		}
		poly.Holes = append(poly.Holes, hole)
	}
	return append(out, poly)
}

func ringOf(l geom.LineString) Ring {
	seq := l.Coordinates()
	ring := make(Ring, 0, seq.Length())
	for i := range seq.Length() - 1 {
		xy := seq.GetXY(i)
		ring = append(ring, Point{onGrid(xy.X, snapMM), onGrid(xy.Y, snapMM)})
	}
	return ring.WithoutCollinear()
}
