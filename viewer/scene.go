package viewer

import (
	"fmt"
	"image/color"
	"math"
	"strconv"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// Body is one part ready to draw.
type Body struct {
	Part   build.Part
	Colour [3]float32
	// Hidden from behind: bodies of a wall are left out when the camera stands
	// outside it. Zero for other bodies.
	outward, face mgl64.Vec3
	tile          tiling
	// Vertices are position and normal, three a triangle.
	vertices []float32
	edges    []float32 // pairs of points
	box      solid.Box
}

// tiling lays the joints of a tiled face over a body.
type tiling struct {
	on            bool
	origin, u, v  mgl64.Vec3
	length, width float64
	joint         float64
	grout         [3]float32
}

// Scene is an assembly ready to draw. It is never changed once made.
type Scene struct {
	Bodies []Body
	Bounds solid.Box
}

// creaseCosine tells a rounded face from an edge.
const creaseCosine = 0.85

// NewScene prepares a result for drawing.
func NewScene(r geometry.Result) *Scene {
	s := &Scene{Bounds: r.Assembly.Bounds()}
	for _, p := range r.Assembly.Parts {
		b := Body{Part: p, Colour: colourOf(p), box: p.Bounds()}
		if p.Wall > 0 {
			w := r.Layout.Walls[p.Wall-1]
			b.outward = mgl64.Vec3{w.Outward.X(), w.Outward.Y(), 0}
			b.face = mgl64.Vec3{w.A.X(), w.A.Y(), 0}
		}
		if p.Finish != nil {
			b.tile = tilingOf(r, p)
		}
		b.prepare(p.Mesh())
		s.Bodies = append(s.Bodies, b)
	}
	return s
}

func tilingOf(r geometry.Result, p build.Part) tiling {
	f := *p.Finish
	t := tiling{on: true, length: f.TileLengthMM + f.JointMM, width: f.TileWidthMM + f.JointMM, joint: f.JointMM, grout: [3]float32{0.62, 0.61, 0.58}}
	plain := func(q plan.Point) mgl64.Vec3 { return mgl64.Vec3{q.X(), q.Y(), 0} }
	if p.Wall > 0 {
		w := r.Layout.Walls[p.Wall-1]
		t.origin, t.u, t.v = plain(w.A), plain(w.Along), mgl64.Vec3{0, 0, 1}
		t.origin[2] = r.Heights.TileMM
		return t
	}
	// Floors are set out from the middle of the drain.
	l := r.Layout
	t.origin, t.u, t.v = plain(l.DrainEdge), plain(l.DrainAlong), plain(plan.Left(l.DrainAlong))
	return t
}

// prepare makes triangles with normals, smooth over rounded faces, and the
// edges worth a line.
func (b *Body) prepare(m *solid.Mesh) {
	normals := make([]mgl64.Vec3, len(m.Triangles))
	around := make([][]int32, len(m.Vertices))
	for i, t := range m.Triangles {
		a, c, d := m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]
		normals[i] = c.Sub(a).Cross(d.Sub(a)) // length is twice the area
		for _, v := range t {
			around[v] = append(around[v], int32(i))
		}
	}
	unit := make([]mgl64.Vec3, len(normals))
	for i, n := range normals {
		if l := n.Len(); l > 1e-12 {
			unit[i] = n.Mul(1 / l)
		}
	}
	b.vertices = make([]float32, 0, 18*len(m.Triangles))
	for i, t := range m.Triangles {
		for _, v := range t {
			n := mgl64.Vec3{}
			for _, k := range around[v] {
				if unit[k].Dot(unit[i]) > creaseCosine {
					n = n.Add(normals[k])
				}
			}
			n = n.Normalize()
			p := m.Vertices[v]
			b.vertices = append(b.vertices, float32(p[0]), float32(p[1]), float32(p[2]), float32(n[0]), float32(n[1]), float32(n[2]))
		}
	}
	type edge [2]int32
	first := map[edge]int32{}
	for i, t := range m.Triangles {
		for e := range 3 {
			a, c := t[e], t[(e+1)%3]
			if other, ok := first[edge{c, a}]; ok {
				if unit[i].Dot(unit[other]) < creaseCosine {
					p, q := m.Vertices[a], m.Vertices[c]
					b.edges = append(b.edges, float32(p[0]), float32(p[1]), float32(p[2]), float32(q[0]), float32(q[1]), float32(q[2]))
				}
				continue
			}
			first[edge{a, c}] = int32(i)
		}
	}
}

// hiddenFrom tells whether the body stands between the eye and the room.
func (b Body) hiddenFrom(eye mgl64.Vec3) bool {
	return b.Part.Wall > 0 && eye.Sub(b.face).Dot(b.outward) > 0
}

// colourOf is the colour of a part in linear light.
func colourOf(p build.Part) [3]float32 {
	if p.Finish != nil {
		return parseColour(p.Finish.Colour)
	}
	if p.Wall > 0 && p.Stage == build.StageBare {
		return parseColour("#ded8ce") // plaster; what it is made of shows where it is cut
	}
	return MaterialColour(p.Material)
}

// materialHex is the colour a material is drawn in. The set is Underfall's own.
func materialHex(m build.Material) string {
	switch m {
	case build.Concrete:
		return "#b4b2ad"
	case build.Timber:
		return "#c99a5b"
	case build.Deck:
		return "#b98a52"
	case build.Masonry:
		return "#c9b3a3"
	case build.StudWall:
		return "#dcd6cb"
	case build.Adhesive:
		return "#8f8d88"
	case build.BaseBoard:
		return "#a9b6d6"
	case build.FormerBody:
		return "#c9b4d4"
	case build.Membrane:
		return "#1f7a6c"
	case build.TileBed:
		return "#a7a29a"
	case build.Tile:
		return "#6f8583"
	case build.Screed:
		return "#cfc6b8"
	case build.Plastic:
		return "#5b5f66"
	case build.Metal:
		return "#aab2b8"
	case build.Water:
		return "#5aa9dd"
	}
	return "#999999"
}

// MaterialColour is the colour of a material in linear light.
func MaterialColour(m build.Material) [3]float32 { return parseColour(materialHex(m)) }

// DisplayColour is the colour of a material on screen and paper.
func DisplayColour(m build.Material) color.RGBA {
	var out color.RGBA
	if _, err := fmt.Sscanf(materialHex(m), "#%02x%02x%02x", &out.R, &out.G, &out.B); err != nil {
		return color.RGBA{0x99, 0x99, 0x99, 255}
	}
	out.A = 255
	return out
}

// parseColour turns #rrggbb into linear light; grey when it is no colour.
func parseColour(hex string) [3]float32 {
	out := [3]float32{0.3, 0.3, 0.3}
	if len(hex) != 7 {
		return out
	}
	for i := range 3 {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			return [3]float32{0.3, 0.3, 0.3}
		}
		out[i] = float32(math.Pow(float64(v)/255, 2.2))
	}
	return out
}

// capFace is one cut face ready to draw.
type capFace struct {
	colour    [3]float32
	triangles []float32 // positions
	outline   []float32 // pairs
	hatch     []float32 // pairs
}

// Caps are the cut faces of a scene on one plane.
type Caps struct {
	Cut   solid.Cut
	faces []capFace
}

// NewCaps makes the cut faces on a plane from the exact section.
func NewCaps(r geometry.Result, cut solid.Cut, stage build.Stage, hatchMM float64) *Caps {
	c := &Caps{Cut: cut}
	for _, a := range section.Areas(r.Assembly, cut, stage) {
		f := capFace{colour: MaterialColour(a.Material)}
		put := func(to *[]float32, p plan.Point) {
			q := cut.Space(p)
			*to = append(*to, float32(q[0]), float32(q[1]), float32(q[2]))
		}
		points, triangles := solid.Triangles(a.Region)
		for _, t := range triangles {
			for _, k := range t {
				put(&f.triangles, points[k])
			}
		}
		for _, poly := range a.Region {
			for _, ring := range poly.Rings() {
				for i := range ring {
					put(&f.outline, ring[i])
					put(&f.outline, ring[(i+1)%len(ring)])
				}
			}
		}
		if pattern := section.PatternOf(a.Material); !pattern.Solid {
			for _, l := range section.Hatch(a.Region, pattern, hatchMM) {
				put(&f.hatch, l[0])
				put(&f.hatch, l[1])
			}
		}
		c.faces = append(c.faces, f)
	}
	return c
}

// Hit is what a line of sight meets.
type Hit struct {
	Part build.Part
	At   mgl64.Vec3
}

// Pick finds what a line of sight meets first among the bodies shown up to a
// stage; parts in front of the cut do not count.
func (s *Scene) Pick(from, direction mgl64.Vec3, cut *solid.Cut, stage build.Stage) (Hit, bool) {
	best, hit, found := math.Inf(1), Hit{}, false
	for _, b := range s.Bodies {
		if b.Part.Stage > stage || b.hiddenFrom(from) || !meetsBox(from, direction, b.box) {
			continue
		}
		for i := 0; i+17 < len(b.vertices); i += 18 {
			v := func(k int) mgl64.Vec3 {
				return mgl64.Vec3{float64(b.vertices[i+6*k]), float64(b.vertices[i+6*k+1]), float64(b.vertices[i+6*k+2])}
			}
			t, ok := meetsTriangle(from, direction, v(0), v(1), v(2))
			if !ok || t >= best {
				continue
			}
			at := from.Add(direction.Mul(t))
			if cut != nil && cut.Side(at) > 0 {
				continue
			}
			best, hit, found = t, Hit{b.Part, at}, true
		}
	}
	return hit, found
}

func meetsBox(from, d mgl64.Vec3, b solid.Box) bool {
	t0, t1 := 0.0, math.Inf(1)
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

// Views to look from.
type View string

// The ready-made views.
const (
	ViewCorner View = "corner"
	ViewPlan   View = "plan"
	ViewFront  View = "front"
	ViewCut    View = "cut"
)

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
func CameraFor(v View, r geometry.Result, cut *solid.Cut, aspect float64) Camera {
	into := r.Layout.Into
	yaw := math.Atan2(into.Y(), into.X())
	// Look from the side where an edge is open.
	side := 0.6
	for _, e := range r.Layout.Edges {
		if e.Wall < 0 && math.Abs(e.Middle().Sub(r.Layout.Shower.Centroid()).Dot(r.Layout.ToRight)) > 1 {
			if e.Middle().Sub(r.Layout.Shower.Centroid()).Dot(r.Layout.ToRight) < 0 {
				side = -0.6
			}
		}
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
	case ViewCut:
		if cut != nil {
			n := cut.Normal
			// From the room's side of the cut, not through the wall behind.
			turn := 0.45
			if plan.Cross(plan.Point{n.X(), n.Y()}, into) < -0.01 {
				turn = -turn
			}
			c.Yaw, c.Pitch = math.Atan2(n.Y(), n.X())+turn, 0.34
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
