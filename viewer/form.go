package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/solid"
)

// form is a surface of triangles with normals, built in a frame of its own: x to the right of who looks at a thing,
// y from its back to its front, z up.
type form struct {
	origin, x, y, z mgl64.Vec3
	vertices        []float32
	box             solid.Box
}

func newForm(origin, x, y, z mgl64.Vec3) *form {
	return &form{origin: origin, x: x, y: y, z: z, box: solid.EmptyBox()}
}

// triangle adds one, by its corners and their normals; one of no area is left out.
func (f *form) triangle(corners, normals [3]mgl64.Vec3) {
	if corners[1].Sub(corners[0]).Cross(corners[2].Sub(corners[0])).Len() < 1e-7 {
		return
	}
	for k := range 3 {
		p := f.origin.Add(f.x.Mul(corners[k][0])).Add(f.y.Mul(corners[k][1])).Add(f.z.Mul(corners[k][2]))
		n := f.x.Mul(normals[k][0]).Add(f.y.Mul(normals[k][1])).Add(f.z.Mul(normals[k][2])).Normalize()
		f.vertices = append(f.vertices, float32(p[0]), float32(p[1]), float32(p[2]), float32(n[0]), float32(n[1]), float32(n[2]))
		f.box = f.box.Include(p)
	}
}

// quad adds a flat face with its corners in order, counter-clockwise as seen from before it.
func (f *form) quad(a, b, c, d mgl64.Vec3) {
	n := b.Sub(a).Cross(d.Sub(a))
	if n.Len() < 1e-9 {
		n = c.Sub(b).Cross(a.Sub(b))
	}
	if n.Len() < 1e-9 {
		return
	}
	n = n.Normalize()
	f.triangle([3]mgl64.Vec3{a, b, c}, [3]mgl64.Vec3{n, n, n})
	f.triangle([3]mgl64.Vec3{a, c, d}, [3]mgl64.Vec3{n, n, n})
}

// block adds a box with its edges rounded by a radius, as far as it is large enough.
func (f *form) block(low, high mgl64.Vec3, radius float64) { f.bentBlock(low, high, radius, 1, nil) }

// bentBlock adds a box with rounded edges, its faces cut into so many parts each way and every place moved; bend is nil
// for none.
func (f *form) bentBlock(low, high mgl64.Vec3, radius float64, parts int, bend func(mgl64.Vec3) mgl64.Vec3) {
	middle, half := low.Add(high).Mul(0.5), high.Sub(low).Mul(0.5)
	for k := range 3 {
		radius = math.Min(radius, half[k]*0.98)
	}
	round := 1
	if radius > 6 {
		round = 2
	}
	grid := func(half float64) (out []float64) {
		in := half - radius
		for k := round; k >= 1; k-- {
			out = append(out, -in-radius*math.Tan(float64(k)/float64(round)*math.Pi/4))
		}
		for k := range parts + 1 {
			out = append(out, -in+2*in*float64(k)/float64(parts))
		}
		for k := 1; k <= round; k++ {
			out = append(out, in+radius*math.Tan(float64(k)/float64(round)*math.Pi/4))
		}
		return out
	}
	for axis := range 3 {
		b, c := (axis+1)%3, (axis+2)%3
		along, across := grid(half[b]), grid(half[c])
		for _, side := range []float64{-1, 1} {
			at := func(i, k int) (mgl64.Vec3, mgl64.Vec3) {
				var p, core mgl64.Vec3
				p[axis], p[b], p[c] = side*half[axis], along[i], across[k]
				for j := range 3 {
					core[j] = math.Max(radius-half[j], math.Min(half[j]-radius, p[j]))
				}
				n := p.Sub(core).Normalize()
				q := middle.Add(core).Add(n.Mul(radius))
				if bend != nil {
					q = bend(q)
				}
				return q, n
			}
			for i := range len(along) - 1 {
				for k := range len(across) - 1 {
					p0, n0 := at(i, k)
					p1, n1 := at(i+1, k)
					p2, n2 := at(i+1, k+1)
					p3, n3 := at(i, k+1)
					f.triangle([3]mgl64.Vec3{p0, p1, p2}, [3]mgl64.Vec3{n0, n1, n2})
					f.triangle([3]mgl64.Vec3{p0, p2, p3}, [3]mgl64.Vec3{n0, n2, n3})
				}
			}
		}
	}
}

// turned adds what a profile of radius and height makes when it is turned about an axis, smooth where it bends little.
func (f *form) turned(origin, axis mgl64.Vec3, profile [][2]float64, sides int) {
	u, v := basis(axis)
	normal := func(i int) (x, y float64, ok bool) {
		if i < 0 || i+1 >= len(profile) {
			return 0, 0, false
		}
		dx, dy := profile[i+1][0]-profile[i][0], profile[i+1][1]-profile[i][1]
		long := math.Hypot(dx, dy)
		return dy / long, -dx / long, long > 0
	}
	for i := range len(profile) - 1 {
		nx, ny, ok := normal(i)
		if !ok {
			continue
		}
		smooth := func(k int) (float64, float64) {
			const bends = 0.6 // cosine of the most that is smoothed over
			x, y, ok := normal(k)
			if !ok || x*nx+y*ny < bends {
				return nx, ny
			}
			long := math.Hypot(x+nx, y+ny)
			return (x + nx) / long, (y + ny) / long
		}
		lowX, lowY := smooth(i - 1)
		highX, highY := smooth(i + 1)
		at := func(k int, p [2]float64, x, y float64) (mgl64.Vec3, mgl64.Vec3) {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(sides))
			out := u.Mul(c).Add(v.Mul(s))
			return origin.Add(out.Mul(p[0])).Add(axis.Mul(p[1])), out.Mul(x).Add(axis.Mul(y)).Normalize()
		}
		for k := range sides {
			p0, n0 := at(k, profile[i], lowX, lowY)
			p1, n1 := at(k+1, profile[i], lowX, lowY)
			p2, n2 := at(k+1, profile[i+1], highX, highY)
			p3, n3 := at(k, profile[i+1], highX, highY)
			f.triangle([3]mgl64.Vec3{p0, p1, p2}, [3]mgl64.Vec3{n0, n1, n2})
			f.triangle([3]mgl64.Vec3{p0, p2, p3}, [3]mgl64.Vec3{n0, n2, n3})
		}
	}
}

// bar adds a round bar along a path, as finely as its thickness asks for.
func (f *form) bar(radius float64, path ...mgl64.Vec3) {
	sides := 10
	switch {
	case radius > 60:
		sides = 48
	case radius > 12:
		sides = 16
	}
	f.swept(radius, sides, path...)
}

// swept adds a round bar along a path, closed at its ends.
func (f *form) swept(radius float64, sides int, path ...mgl64.Vec3) {
	direction := func(i int) mgl64.Vec3 {
		return path[min(i+1, len(path)-1)].Sub(path[max(i-1, 0)]).Normalize()
	}
	u, _ := basis(direction(0))
	var rings, normals [][]mgl64.Vec3
	for i, p := range path {
		d := direction(i)
		u = u.Sub(d.Mul(u.Dot(d))).Normalize()
		v := d.Cross(u)
		ring, around := make([]mgl64.Vec3, sides), make([]mgl64.Vec3, sides)
		for k := range sides {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(sides))
			around[k] = u.Mul(c).Add(v.Mul(s))
			ring[k] = p.Add(around[k].Mul(radius))
		}
		rings, normals = append(rings, ring), append(normals, around)
	}
	for i := range len(rings) - 1 {
		for k := range sides {
			l := (k + 1) % sides
			f.triangle([3]mgl64.Vec3{rings[i][k], rings[i][l], rings[i+1][l]}, [3]mgl64.Vec3{normals[i][k], normals[i][l], normals[i+1][l]})
			f.triangle([3]mgl64.Vec3{rings[i][k], rings[i+1][l], rings[i+1][k]}, [3]mgl64.Vec3{normals[i][k], normals[i+1][l], normals[i+1][k]})
		}
	}
	for _, end := range []int{0, len(rings) - 1} {
		n := direction(end)
		if end == 0 {
			n = n.Mul(-1)
		}
		for k := 1; k+1 < sides; k++ {
			f.triangle([3]mgl64.Vec3{rings[end][0], rings[end][k], rings[end][k+1]}, [3]mgl64.Vec3{n, n, n})
		}
	}
}

// sheet adds a surface over the unit square, smooth all over.
func (f *form) sheet(along, across int, at func(u, v float64) mgl64.Vec3) {
	normal := func(u, v float64) mgl64.Vec3 {
		const d = 1e-3
		a := at(math.Min(1, u+d), v).Sub(at(math.Max(0, u-d), v))
		b := at(u, math.Min(1, v+d)).Sub(at(u, math.Max(0, v-d)))
		if n := a.Cross(b); n.Len() > 1e-12 {
			return n.Normalize()
		}
		return mgl64.Vec3{0, 0, 1}
	}
	places, normals := make([][]mgl64.Vec3, along+1), make([][]mgl64.Vec3, along+1)
	for i := range along + 1 {
		for k := range across + 1 {
			u, v := float64(i)/float64(along), float64(k)/float64(across)
			places[i], normals[i] = append(places[i], at(u, v)), append(normals[i], normal(u, v))
		}
	}
	for i := range along {
		for k := range across {
			f.triangle([3]mgl64.Vec3{places[i][k], places[i+1][k], places[i+1][k+1]}, [3]mgl64.Vec3{normals[i][k], normals[i+1][k], normals[i+1][k+1]})
			f.triangle([3]mgl64.Vec3{places[i][k], places[i+1][k+1], places[i][k+1]}, [3]mgl64.Vec3{normals[i][k], normals[i+1][k+1], normals[i][k+1]})
		}
	}
}
