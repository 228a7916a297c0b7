package viewer

import (
	"math"
	"reflect"

	"github.com/go-gl/mathgl/mgl32"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Body is one part ready to draw.
type Body struct {
	Part    assembly.Part
	surface surface
	// Hidden from behind: bodies of a wall are left out when the camera stands
	// outside it. Zero for other bodies.
	outward, face mgl64.Vec3
	tile          tiling
	// dressing is what only makes the finished picture: it is no part of the
	// build and cannot be chosen.
	dressing bool
	// stuff is how its faces take the light, beside its surface; made is what they were made of, nothing for a part's shape, and
	// standsAt the place that pieces stand at now.
	stuff    stuff
	made     made
	standsAt mgl64.Vec3
	// open tells that its faces do not close round anything.
	open bool
	// raw is what a wall is built of, or lies under the tile: in the closed room a face stands for it.
	raw     bool
	ceiling bool
	thin    bool // bars
	trim    bool // of an open edge
	// Vertices are position and normal, three a triangle.
	vertices []float32
	edges    []float32 // pairs of points
	box      solid.Box
}

// tiling lays the joints of a tiled face over a body.
type tiling struct {
	bond          float32 // as the shader counts them; 0 for no tiles
	origin, u, v  mgl64.Vec3
	length, width float64
	joint         float64
	grout         [3]float32
	surface       float32
}

// Scene is an assembly ready to draw. It is never changed once made.
type Scene struct {
	Bodies []Body
	Bounds solid.Box
	// floor holds the floors alone, without walls.
	floor solid.Box
	// The shower's directions and middle, and the side that is open.
	into, toRight, openSide mgl64.Vec3
	centre                  mgl64.Vec3
	shower                  plan.Region
	room                    roomBox
	outline                 []mgl32.Vec2 // of the room in plan
	ceilingMM               func(x, y float32) float32
	// furnished is what stands in the room, and where its windows and lamps are.
	furnished furnish.Room
	// daylight are the openings that the sky is seen through; none in a room without a window.
	daylight []opening
	lies     orientation
	levels   reliefLevels
	flow     []float32 // pairs of points of the water's ways
	// fault says what is left out; zero when nothing is.
	fault  message.Message
	refuse func(what message.Message, gridMM float64) error // for tests
}

// roomBox is the room as a plain box in the shower's own frame, for
// reflections.
type roomBox struct {
	low, high mgl64.Vec3
	cos, sin  float64
	floor     [3]float32
}

// creaseCosine tells a rounded face from an edge.
const creaseCosine = 0.85

func flat(p plan.Point) mgl64.Vec3 { return mgl64.Vec3{p.X(), p.Y(), 0} }

// NewScene prepares a result for drawing. Of the scene before it, nil for none,
// it takes over the bodies whose shapes have not changed.
func NewScene(r geometry.Result, before *Scene) *Scene { return new(Scene).of(r, before) }

func (s *Scene) of(r geometry.Result, before *Scene) *Scene {
	l := r.Layout
	s.Bounds, s.floor, s.into, s.toRight, s.openSide = r.Assembly.Bounds(), solid.EmptyBox(), flat(l.Into), flat(l.ToRight), flat(lateral(l))
	s.shower, s.centre = l.Shower, flat(l.Shower.Centroid())
	s.centre[2] = r.Heights.TileMM
	old := before.byID()
	tiled := r.Settled.Layers.Room.Tile.ThicknessMM > 0
	for _, p := range r.Assembly.Parts {
		b := Body{Part: p, surface: surfaceOf(p, r.Settled.Style), box: p.Bounds()}
		if p.Wall > 0 {
			w := l.Walls[p.Wall-1]
			b.outward, b.face, b.raw = flat(w.Outward), flat(w.A), p.Stage == buildup.StageBare
		} else {
			s.floor = s.floor.Join(b.box)
			b.raw = tiled && underTile(&r, p)
		}
		if p.Finish != nil {
			b.tile = tilingOf(r, p)
		}
		if !b.take(old[p.ID]) {
			b.prepare(p.Mesh())
		}
		s.Bodies = append(s.Bodies, b)
	}
	s.dress(r, old)
	s.orient(&r)
	s.measureRoom(r)
	s.layWater(r)
	return s
}

// underTile tells whether a part is hidden when the floor is tiled: a layer under the tile, or a pipe that lies under
// it or out of the room. What is seen by the drain is not.
func underTile(r *geometry.Result, p assembly.Part) bool {
	if p.Stage >= buildup.StageWallTile {
		return false
	}
	box := p.Bounds()
	middle := box.Centre()
	at := plan.Point{middle[0], middle[1]}
	switch p.Material {
	case material.Metal, material.Water:
		return false
	case material.Plastic:
		if r.Layout.Trap.Contains(at, 0) {
			return false
		}
		return !r.Layout.Room.Contains(at, 0) || box.High[2] <= r.Floor.FinishedMM(at)
	}
	return true
}

// byID are a scene's bodies by their parts' names.
func (s *Scene) byID() map[string]*Body {
	if s == nil {
		return nil
	}
	m := make(map[string]*Body, len(s.Bodies))
	for i := range s.Bodies {
		m[s.Bodies[i].Part.ID] = &s.Bodies[i]
	}
	return m
}

// take takes over the triangles and edges of an older body of the same shape;
// false when there is none.
func (b *Body) take(old *Body) bool {
	if old == nil || !reflect.DeepEqual(old.Part.Shape, b.Part.Shape) {
		return false
	}
	b.vertices, b.edges, b.box = old.vertices, old.edges, old.box
	return true
}

// bondNumber is how the shader knows a bond.
func bondNumber(b job.Bond) float32 {
	switch b {
	case job.BondHalf:
		return 2
	case job.BondThird:
		return 3
	case job.BondHerringbone:
		return 4
	case job.BondHexagon:
		return 5
	}
	return 1
}

func surfaceNumber(s job.Surface) float32 {
	switch s {
	case job.SurfaceStone:
		return 1
	case job.SurfaceTerrazzo:
		return 2
	}
	return 0
}

// tilingOf sets a part's tiles out: floors from the middle of the drain, walls
// from there too and from the finished floor.
func tilingOf(r geometry.Result, p assembly.Part) tiling {
	f := *p.Finish
	t := tiling{bond: bondNumber(f.Bond), surface: surfaceNumber(f.Surface), length: f.TileLengthMM + f.JointMM, width: f.TileWidthMM + f.JointMM, joint: f.JointMM,
		grout: [3]float32{0.34, 0.33, 0.315}}
	if f.Bond == job.BondHexagon {
		t.width = t.length
	}
	if f.GroutColour != "" {
		t.grout = parseColour(f.GroutColour)
	}
	if p.Wall > 0 {
		// From where the floor's tiles start, so that equal tiles meet.
		w := r.Layout.Walls[p.Wall-1]
		t.origin, t.u, t.v = flat(w.At(r.Layout.DrainEdge.Sub(w.A).Dot(w.Along))), flat(w.Along), mgl64.Vec3{0, 0, 1}
		t.origin[2] = r.Heights.TileMM
		return t
	}
	l := r.Layout
	t.origin, t.u, t.v = flat(l.DrainEdge), flat(l.DrainAlong), flat(plan.Left(l.DrainAlong))
	return t
}

// measureRoom fits a box round the room in the shower's own frame.
func (s *Scene) measureRoom(r geometry.Result) {
	cos, sin := s.toRight.X(), s.toRight.Y()
	b := solid.EmptyBox()
	for _, p := range r.Settled.Room.Outline {
		b = b.Include(mgl64.Vec3{p.X()*cos + p.Y()*sin, -p.X()*sin + p.Y()*cos, 0})
		s.outline = append(s.outline, mgl32.Vec2{float32(p.X()), float32(p.Y())})
	}
	s.ceilingMM = func(x, y float32) float32 { return float32(r.Layout.CeilingAt(plan.Point{float64(x), float64(y)})) }
	b.Low[2], b.High[2] = r.Heights.Survey.Floor.Level, r.Settled.Room.HeightMM
	s.room = roomBox{low: b.Low, high: b.High, cos: cos, sin: sin, floor: parseColour(r.Settled.Layers.Room.Colour)}
	highest := r.Heights.TileMM
	for _, poly := range r.Layout.FallArea {
		for _, p := range poly.Outer {
			highest = math.Max(highest, r.Heights.ShowerAt(&r.Layout, p))
		}
	}
	s.levels = reliefLevels{r.Heights.TileMM, math.Max(1, highest-r.Heights.TileMM)}
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

// floorTile tells whether a body is tile that one walks on.
func (b Body) floorTile() bool { return b.Part.Material == material.Tile && b.Part.Wall == 0 }

// hiddenFrom tells whether the body stands between the eye and the room.
func (b Body) hiddenFrom(eye mgl64.Vec3) bool {
	if b.ceiling {
		return eye.Z() > b.face.Z()
	}
	return b.outward != mgl64.Vec3{} && eye.Sub(b.face).Dot(b.outward) > 0
}
