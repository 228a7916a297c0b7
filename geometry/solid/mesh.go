package solid

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/plan"
)

// Mesh is a closed body of triangles, counter-clockwise seen from outside.
// Corners are shared by index, so that closedness is a matter of counting.
type Mesh struct {
	Vertices  []mgl64.Vec3
	Triangles [][3]int32
}

// Box is an axis-parallel box between two corners, mm.
type Box struct{ Low, High mgl64.Vec3 }

// Around is the box of the given half size about a point.
func Around(p mgl64.Vec3, halfMM float64) Box {
	h := mgl64.Vec3{halfMM, halfMM, halfMM}
	return Box{p.Sub(h), p.Add(h)}
}

// EmptyBox holds nothing; including points makes it grow.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{mgl64.Vec3{inf, inf, inf}, mgl64.Vec3{-inf, -inf, -inf}}
}

// Include is the least box around the box and the point.
func (b Box) Include(p mgl64.Vec3) Box {
	for i := range 3 {
		b.Low[i], b.High[i] = math.Min(b.Low[i], p[i]), math.Max(b.High[i], p[i])
	}
	return b
}

// Join is the least box around both.
func (b Box) Join(o Box) Box {
	if o.Low[0] > o.High[0] {
		return b
	}
	return b.Include(o.Low).Include(o.High)
}

// Centre is the middle of the box.
func (b Box) Centre() mgl64.Vec3 { return b.Low.Add(b.High).Mul(0.5) }

// Meets tells whether the boxes share a point.
func (b Box) Meets(o Box) bool {
	for i := range 3 {
		if b.Low[i] > o.High[i] || o.Low[i] > b.High[i] {
			return false
		}
	}
	return true
}

// Bounds is the least box around the mesh.
func (m *Mesh) Bounds() Box {
	b := EmptyBox()
	for _, v := range m.Vertices {
		b = b.Include(v)
	}
	return b
}

// Volume enclosed, mm³, by the divergence theorem: exact for planar faces.
func (m *Mesh) Volume() float64 {
	if len(m.Vertices) == 0 {
		return 0
	}
	sum, o := 0.0, m.Vertices[0]
	for _, t := range m.Triangles {
		a, b, c := m.Vertices[t[0]].Sub(o), m.Vertices[t[1]].Sub(o), m.Vertices[t[2]].Sub(o)
		sum += a.Dot(b.Cross(c))
	}
	return sum / 6
}

// CheckClosed tells why the mesh is not closed and consistently turned: each
// edge must be walked once each way.
func (m *Mesh) CheckClosed() error {
	edges := make(map[[2]int32]int, 3*len(m.Triangles))
	for _, t := range m.Triangles {
		for e := range 3 {
			edges[[2]int32{t[e], t[(e+1)%3]}]++
		}
	}
	for e, n := range edges {
		if back := edges[[2]int32{e[1], e[0]}]; n != 1 || back != 1 {
			return fmt.Errorf("edge %v to %v is walked %d times and back %d times", m.Vertices[e[0]], m.Vertices[e[1]], n, back)
		}
	}
	return nil
}

// EulerNumber is corners − edges + faces: 2 for a ball, 0 for a ring, and so
// on down by 2 for each hole through; shells add up.
func (m *Mesh) EulerNumber() int {
	used := map[int32]bool{}
	for _, t := range m.Triangles {
		for _, v := range t {
			used[v] = true
		}
	}
	return len(used) - len(m.Triangles)*3/2 + len(m.Triangles)
}

// append adds the other mesh as shells of its own.
func (m *Mesh) append(o *Mesh) {
	base := int32(len(m.Vertices))
	m.Vertices = append(m.Vertices, o.Vertices...)
	for _, t := range o.Triangles {
		m.Triangles = append(m.Triangles, [3]int32{t[0] + base, t[1] + base, t[2] + base})
	}
}

// Cut is a plane with coordinates on it: x along Along, y along Up, seen from
// the side Normal points to (Normal = Along × Up).
type Cut struct{ Origin, Along, Up, Normal mgl64.Vec3 }

// VerticalCut stands upright through a plan point, running along the unit
// direction; it is looked at from the right-hand side of that direction.
func VerticalCut(through, along plan.Point) Cut {
	f := UprightFrame(mgl64.Vec3{through.X(), through.Y(), 0}, along)
	return Cut{f.Origin, f.U, f.V, f.W}
}

// HorizontalCut lies at level z and is looked at from above.
func HorizontalCut(z float64) Cut {
	f := WorldFrame()
	return Cut{mgl64.Vec3{0, 0, z}, f.U, f.V, f.W}
}

// Side is the distance of a point in front of the plane.
func (c Cut) Side(p mgl64.Vec3) float64 { return p.Sub(c.Origin).Dot(c.Normal) }

// Flat are the coordinates on the plane of the point's foot.
func (c Cut) Flat(p mgl64.Vec3) plan.Point {
	d := p.Sub(c.Origin)
	return plan.Point{d.Dot(c.Along), d.Dot(c.Up)}
}

// Space is the point of the model with the given coordinates on the plane.
func (c Cut) Space(q plan.Point) mgl64.Vec3 {
	return c.Origin.Add(c.Along.Mul(q.X())).Add(c.Up.Mul(q.Y()))
}

// Crosses tells whether the plane passes through the box.
func (c Cut) Crosses(b Box) bool {
	centre, half := b.Centre(), b.High.Sub(b.Low).Mul(0.5)
	reach := math.Abs(c.Normal[0])*half[0] + math.Abs(c.Normal[1])*half[1] + math.Abs(c.Normal[2])*half[2]
	return math.Abs(c.Side(centre)) <= reach
}

// Slice is the exact section of the mesh on the plane, in plane coordinates.
//
// Method: each triangle with corners on both sides gives one segment whose
// ends lie on mesh edges; segments are chained by edge, not by position, so
// loops of a closed mesh always close. A corner on the plane counts as in front
// of it. Shells that touch give polygons that touch; they are not merged here.
// A mesh that is not closed fails.
func (m *Mesh) Slice(c Cut) (plan.Region, error) {
	side := make([]float64, len(m.Vertices))
	for i, v := range m.Vertices {
		side[i] = c.Side(v)
	}
	var segments []segment
	for _, t := range m.Triangles {
		up := [3]bool{side[t[0]] >= 0, side[t[1]] >= 0, side[t[2]] >= 0}
		if up[0] == up[1] && up[1] == up[2] {
			continue
		}
		k := 0
		for up[k] == up[(k+1)%3] || up[k] == up[(k+2)%3] {
			k++
		}
		in, out := edgeBetween(t[k], t[(k+1)%3]), edgeBetween(t[k], t[(k+2)%3])
		// The lone corner in front: the material edge runs from in to out.
		if !up[k] {
			in, out = out, in
		}
		segments = append(segments, segment{in, out})
	}
	slices.SortFunc(segments, func(a, b segment) int { return cmp.Compare(a.from, b.from) })
	point := func(e edge) plan.Point {
		a, b := e.ends()
		t := side[a] / (side[a] - side[b])
		return c.Flat(m.Vertices[a].Add(m.Vertices[b].Sub(m.Vertices[a]).Mul(t)))
	}
	var rings []plan.Ring
	taken := make([]bool, len(segments))
	for start := range segments {
		if taken[start] {
			continue
		}
		var ring plan.Ring
		for at := start; ; {
			taken[at] = true
			ring = append(ring, point(segments[at].from))
			if segments[at].to == segments[start].from {
				break
			}
			next, found := slices.BinarySearchFunc(segments, segments[at].to, func(s segment, e edge) int { return cmp.Compare(s.from, e) })
			if !found || taken[next] {
				return nil, errors.New("the body is not closed where it is cut")
			}
			at = next
		}
		ring = ring.WithoutCollinear()
		if len(ring) >= 3 && math.Abs(ring.SignedArea()) > nothingMM2 {
			rings = append(rings, ring)
		}
	}
	return nest(rings), nil
}

// edge is an edge of a mesh by its two vertices, the lesser one first.
type edge uint64

func edgeBetween(a, b int32) edge { return edge(min(a, b))<<32 | edge(max(a, b)) }

func (e edge) ends() (a, b int32) { return int32(e >> 32), int32(e & math.MaxUint32) }

// segment is where a plane cuts a triangle: from one of its edges to another.
type segment struct{ from, to edge }

// nothingMM2 is an area under which what is cut is a corner or an edge that the
// plane touches: a hair wide and a millimetre long.
const nothingMM2 = 1e-6

// onRingMM is how near to a ring a corner of another counts as on it. Rings of one
// cut share corners to the last digit or lie apart.
const onRingMM = 1e-9

// nest gives each clockwise ring as a hole to the smallest ring around it. A
// clockwise ring within none is the fold on the inner side of a bend that is
// tighter than its pipe is thick: no material, and left out.
func nest(rings []plan.Ring) plan.Region {
	slices.SortStableFunc(rings, func(a, b plan.Ring) int {
		return cmp.Compare(math.Abs(a.SignedArea()), math.Abs(b.SignedArea()))
	})
	var out plan.Region
	for _, r := range rings {
		if r.SignedArea() > 0 {
			out = append(out, plan.Polygon{Outer: r})
		}
	}
	for _, r := range rings {
		if r.SignedArea() >= 0 {
			continue
		}
		for i := range out {
			if (plan.Region{{Outer: out[i].Outer}}).Contains(r[0], onRingMM) && out[i].Outer.SignedArea() > -r.SignedArea() {
				out[i].Holes = append(out[i].Holes, r)
				break
			}
		}
	}
	return out
}
