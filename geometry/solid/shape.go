package solid

import (
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/plan"
)

// Shape is a closed body with planar faces.
type Shape interface {
	// Mesh is a closed outward mesh of the body.
	Mesh() *Mesh
	// Volume in mm³ from the shape's own definition, not from its mesh.
	Volume() float64
	// Bounds is a box around the body.
	Bounds() Box
}

// Prism is the body over a sheet in its frame's x-y plane between two surfaces
// along z. Top must not lie below Bottom anywhere over the sheet.
type Prism struct {
	Frame  Frame
	Sheet  Sheet
	Bottom Surface
	Top    Surface
}

// Upright is a prism in the model's own coordinates.
func Upright(sheet Sheet, bottom, top Surface) Prism {
	return Prism{WorldFrame(), sheet, bottom, top}
}

// Block is an upright prism between two levels.
func Block(sheet Sheet, bottomMM, topMM float64) Prism {
	return Upright(sheet, Level(bottomMM), Level(topMM))
}

// Volume is what lies below the top less what lies below the bottom.
func (p Prism) Volume() float64 {
	return p.Top.Integral(p.Sheet.region) - p.Bottom.Integral(p.Sheet.region)
}

// Bounds of the prism. A surface is the highest of its planes, so over the
// region it is highest at a corner, and nowhere lower than any one plane at that
// plane's lowest corner.
func (p Prism) Bounds() Box {
	b := EmptyBox()
	low, high, ok := p.Sheet.region.Bounds()
	if !ok {
		return b
	}
	z0, z1 := math.Inf(-1), math.Inf(-1)
	for _, plane := range p.Bottom {
		least := math.Inf(1)
		for _, poly := range p.Sheet.region {
			for _, q := range poly.Outer {
				least = math.Min(least, plane.At(q))
			}
		}
		z0 = math.Max(z0, least)
	}
	for _, poly := range p.Sheet.region {
		for _, q := range poly.Outer {
			z1 = math.Max(z1, p.Top.At(q))
		}
	}
	for _, x := range []float64{low.X(), high.X()} {
		for _, y := range []float64{low.Y(), high.Y()} {
			for _, z := range []float64{z0, z1} {
				b = b.Include(p.Frame.Point(mgl64.Vec3{x, y, z}))
			}
		}
	}
	return b
}

// Mesh lifts the sheet's triangles to both surfaces and closes them with
// upright sides.
func (p Prism) Mesh() *Mesh {
	out := &Mesh{}
	for _, m := range p.Sheet.covers {
		// Splitting adds points to a list of its own: the sheet is shared.
		m.points = slices.Clip(m.points)
		for _, s := range []Surface{p.Bottom, p.Top} {
			for i := range s {
				for j := i + 1; j < len(s); j++ {
					m.splitAlong(s[i].less(s[j]))
				}
			}
		}
		out.append(p.lift(m))
	}
	return out
}

func (p Prism) lift(m planMesh) *Mesh {
	n := int32(len(m.points))
	out := &Mesh{Vertices: make([]mgl64.Vec3, 0, 2*n), Triangles: make([][3]int32, 0, 4*len(m.triangles))}
	for _, q := range m.points {
		out.Vertices = append(out.Vertices, p.Frame.Point(mgl64.Vec3{q.X(), q.Y(), p.Bottom.At(q)}))
	}
	for _, q := range m.points {
		out.Vertices = append(out.Vertices, p.Frame.Point(mgl64.Vec3{q.X(), q.Y(), p.Top.At(q)}))
	}
	for _, t := range m.triangles {
		a, b, c := int32(t[0]), int32(t[1]), int32(t[2])
		out.Triangles = append(out.Triangles, [3]int32{a, c, b}, [3]int32{a + n, b + n, c + n})
	}
	edges := m.edges()
	for _, t := range m.triangles {
		for e := range 3 {
			if edges.count(t[(e+1)%3], t[e]) == 0 {
				a, b := int32(t[e]), int32(t[(e+1)%3])
				out.Triangles = append(out.Triangles, [3]int32{a, b, b + n}, [3]int32{a, b + n, a + n})
			}
		}
	}
	return out
}

// Compound is a body of shells that touch but do not overlap.
type Compound []Shape

// Mesh of all shells.
func (c Compound) Mesh() *Mesh {
	out := &Mesh{}
	for _, s := range c {
		out.append(s.Mesh())
	}
	return out
}

// Volume of all shells.
func (c Compound) Volume() float64 {
	sum := 0.0
	for _, s := range c {
		sum += s.Volume()
	}
	return sum
}

// Bounds of all shells.
func (c Compound) Bounds() Box {
	b := EmptyBox()
	for _, s := range c {
		b = b.Join(s.Bounds())
	}
	return b
}

// Tube is a pipe along a path, mitred where the path turns. InsideRadiusMM
// zero makes a rod.
type Tube struct {
	Path            []mgl64.Vec3
	OutsideRadiusMM float64
	InsideRadiusMM  float64
}

// Volume is the ring's area times the length of the centre line: exact,
// because a mitre through the centre line adds on one side what it takes on
// the other.
func (t Tube) Volume() float64 {
	length := 0.0
	for i := 1; i < len(t.Path); i++ {
		length += t.Path[i].Sub(t.Path[i-1]).Len()
	}
	n := float64(plan.CircleSides(t.OutsideRadiusMM, ChordErrorMM))
	return n / 2 * math.Sin(2*math.Pi/n) * (t.OutsideRadiusMM*t.OutsideRadiusMM - t.InsideRadiusMM*t.InsideRadiusMM) * length
}

// Bounds is a box around the tube.
func (t Tube) Bounds() Box {
	b := EmptyBox()
	for _, p := range t.Path {
		b = b.Join(Around(p, t.OutsideRadiusMM*math.Sqrt2))
	}
	return b
}

// Mesh carries the polygon of the first end along each straight to the plane
// that halves the next turn: every face is planar.
func (t Tube) Mesh() *Mesh {
	if len(t.Path) < 2 {
		return &Mesh{}
	}
	sides := plan.CircleSides(t.OutsideRadiusMM, ChordErrorMM)
	direction := func(i int) mgl64.Vec3 { return t.Path[i+1].Sub(t.Path[i]).Normalize() }
	rings := func(radius float64) [][]mgl64.Vec3 {
		u, v := across(direction(0))
		ring := make([]mgl64.Vec3, sides)
		for k := range ring {
			s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / float64(sides))
			ring[k] = t.Path[0].Add(u.Mul(radius * c)).Add(v.Mul(radius * s))
		}
		out := [][]mgl64.Vec3{ring}
		for i := 1; i < len(t.Path); i++ {
			d := direction(i - 1)
			normal := d
			if i+1 < len(t.Path) {
				normal = d.Add(direction(i)).Normalize()
			}
			moved := make([]mgl64.Vec3, sides)
			for k, p := range out[i-1] {
				moved[k] = p.Add(d.Mul(t.Path[i].Sub(p).Dot(normal) / d.Dot(normal)))
			}
			out = append(out, moved)
		}
		return out
	}
	outer := rings(t.OutsideRadiusMM)
	var inner [][]mgl64.Vec3
	if t.InsideRadiusMM > 0 {
		inner = rings(t.InsideRadiusMM)
	}
	return skin(outer, inner)
}

// across gives two unit vectors square to d and to each other, d = u × v,
// with v as near to upright as can be.
func across(d mgl64.Vec3) (u, v mgl64.Vec3) {
	up := mgl64.Vec3{0, 0, 1}
	if math.Abs(d.Z()) > 0.99 {
		up = mgl64.Vec3{0, 1, 0}
	}
	u = up.Cross(d).Normalize()
	return u, d.Cross(u)
}

// skin closes rows of rings, counter-clockwise seen against the direction of
// travel, into a pipe wall or, without inner rings, a rod.
func skin(outer, inner [][]mgl64.Vec3) *Mesh {
	m := &Mesh{}
	sides := int32(len(outer[0]))
	rows := int32(len(outer))
	add := func(rings [][]mgl64.Vec3, flip bool) int32 {
		base := int32(len(m.Vertices))
		for _, r := range rings {
			m.Vertices = append(m.Vertices, r...)
		}
		for i := range rows - 1 {
			for k := range sides {
				a, b := base+i*sides+k, base+i*sides+(k+1)%sides
				c, d := b+sides, a+sides
				if flip {
					b, d = d, b
				}
				m.Triangles = append(m.Triangles, [3]int32{a, b, c}, [3]int32{a, c, d})
			}
		}
		return base
	}
	o := add(outer, false)
	last := (rows - 1) * sides
	if inner == nil {
		for k := int32(1); k+1 < sides; k++ {
			m.Triangles = append(m.Triangles, [3]int32{o, o + k + 1, o + k}, [3]int32{o + last, o + last + k, o + last + k + 1})
		}
		return m
	}
	i := add(inner, true)
	for k := range sides {
		n := (k + 1) % sides
		m.Triangles = append(m.Triangles,
			[3]int32{o + k, i + k, i + n}, [3]int32{o + k, i + n, o + n},
			[3]int32{o + last + k, o + last + n, i + last + n}, [3]int32{o + last + k, i + last + n, i + last + k})
	}
	return m
}

// Taper is a straight piece whose bore changes along it, with its centre line
// free to shift so that inverts or crowns stay level: a reducer.
type Taper struct {
	From, To            mgl64.Vec3
	FromOutsideRadiusMM float64
	ToOutsideRadiusMM   float64
	FromInsideRadiusMM  float64
	ToInsideRadiusMM    float64
	direction           mgl64.Vec3
}

// NewTaper makes a taper whose end faces are square to the horizontal
// direction from one centre to the other.
func NewTaper(from, to mgl64.Vec3, fromOutsideMM, toOutsideMM, fromInsideMM, toInsideMM float64) Taper {
	d := to.Sub(from)
	return Taper{from, to, fromOutsideMM, toOutsideMM, fromInsideMM, toInsideMM, mgl64.Vec3{d.X(), d.Y(), 0}.Normalize()}
}

// Volume of the frustum of parallel similar polygons: h/3·(A + √(A·B) + B).
func (t Taper) Volume() float64 {
	h := t.To.Sub(t.From).Dot(t.direction)
	n := float64(t.sides())
	k := n / 2 * math.Sin(2*math.Pi/n)
	frustum := func(a, b float64) float64 { return k * h / 3 * (a*a + a*b + b*b) }
	return frustum(t.FromOutsideRadiusMM, t.ToOutsideRadiusMM) - frustum(t.FromInsideRadiusMM, t.ToInsideRadiusMM)
}

func (t Taper) sides() int {
	return plan.CircleSides(math.Max(t.FromOutsideRadiusMM, t.ToOutsideRadiusMM), ChordErrorMM)
}

// Bounds is a box around the taper.
func (t Taper) Bounds() Box {
	return Around(t.From, t.FromOutsideRadiusMM).Join(Around(t.To, t.ToOutsideRadiusMM))
}

// Mesh of the taper.
func (t Taper) Mesh() *Mesh {
	u, v := across(t.direction)
	rings := func(a, b float64) [][]mgl64.Vec3 {
		out := make([][]mgl64.Vec3, 2)
		for e, end := range []struct {
			centre mgl64.Vec3
			radius float64
		}{{t.From, a}, {t.To, b}} {
			for k := range t.sides() {
				s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / float64(t.sides()))
				out[e] = append(out[e], end.centre.Add(u.Mul(end.radius*c)).Add(v.Mul(end.radius*s)))
			}
		}
		return out
	}
	return skin(rings(t.FromOutsideRadiusMM, t.ToOutsideRadiusMM), rings(t.FromInsideRadiusMM, t.ToInsideRadiusMM))
}
