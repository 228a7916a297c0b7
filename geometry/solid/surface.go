// Package solid holds closed three-dimensional bodies with planar faces, in
// millimetres, z up: prisms between sloping surfaces, pipes, and compounds of
// them. Each body knows its exact volume, gives a closed outward triangle mesh,
// and the mesh gives exact sections on any plane. Circles are the only thing
// approximated, to ChordErrorMM.
package solid

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// ChordErrorMM is the most by which a side of a polygon standing for a circle
// lies inside the true circle.
const ChordErrorMM = 0.05

// Plane is a non-vertical plane z = Level + SlopeX·x + SlopeY·y.
type Plane struct{ Level, SlopeX, SlopeY float64 }

// At is the level of the plane over a plan point, mm.
func (p Plane) At(q plan.Point) float64 { return p.Level + p.SlopeX*q.X() + p.SlopeY*q.Y() }

// Gradient is the steepest slope of the plane, rise over run, not negative.
func (p Plane) Gradient() float64 { return math.Hypot(p.SlopeX, p.SlopeY) }

// Raised is the plane moved up by the given amount.
func (p Plane) Raised(byMM float64) Plane {
	p.Level += byMM
	return p
}

// Through is the plane of the given level at a plan point, rising by slope
// (rise over run) along the unit direction.
func Through(at plan.Point, levelMM float64, up plan.Point, slope float64) Plane {
	p := Plane{SlopeX: up.X() * slope, SlopeY: up.Y() * slope}
	p.Level = levelMM - p.SlopeX*at.X() - p.SlopeY*at.Y()
	return p
}

// Surface is the upper envelope of planes: one plane is a single fall, two a
// valley to a mid drain, four a fall to a point drain meeting on hips.
type Surface []Plane

// Level is the level surface at z.
func Level(z float64) Surface { return Surface{{Level: z}} }

// At is the level of the surface over a plan point, mm.
func (s Surface) At(q plan.Point) float64 {
	z := math.Inf(-1)
	for _, p := range s {
		z = math.Max(z, p.At(q))
	}
	return z
}

// PlaneAt is the plane that carries the surface over a plan point.
func (s Surface) PlaneAt(q plan.Point) Plane {
	best := s[0]
	for _, p := range s[1:] {
		if p.At(q) > best.At(q) {
			best = p
		}
	}
	return best
}

// Raised is the surface moved up by the given amount.
func (s Surface) Raised(byMM float64) Surface {
	out := make(Surface, len(s))
	for i, p := range s {
		out[i] = p.Raised(byMM)
	}
	return out
}

// Between is the least and the greatest height between two surfaces at a region's corners; of
// an empty region nothing is as low or as high.
func Between(region plan.Region, bottom, top Surface) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, p := range region {
		for _, ring := range p.Rings() {
			for _, q := range ring {
				mm := top.At(q) - bottom.At(q)
				least, most = math.Min(least, mm), math.Max(most, mm)
			}
		}
	}
	return least, most
}

// Integral is the volume between level zero and the surface over a region,
// mm³, negative below: for each plane the area it carries times its level at
// the middle of that area, exact for planes.
func (s Surface) Integral(region plan.Region) float64 {
	sum := 0.0
	for i, p := range s {
		cell := region
		for j, q := range s {
			if i == j {
				continue
			}
			if d := p.less(q); d != (Plane{}) {
				cell = cell.Where(d.At)
			} else if i > j {
				cell = nil // the first of equal planes carries it
			}
		}
		if a := cell.Area(); a != 0 {
			sum += a * p.At(cell.Centroid())
		}
	}
	return sum
}

// less is how far p lies over q.
func (p Plane) less(q Plane) Plane {
	return Plane{p.Level - q.Level, p.SlopeX - q.SlopeX, p.SlopeY - q.SlopeY}
}

// Cells divides a region into the parts each plane carries, in the order of
// the planes; a part may be empty. What names the region.
func (s Surface) Cells(sh *plan.Shaper, region plan.Region, what message.Message) []plan.Region {
	out := make([]plan.Region, len(s))
	for i, p := range s {
		cell := region
		for j, q := range s {
			if i == j || len(cell) == 0 {
				continue
			}
			half, all := whereAbove(p, q, i < j, cell)
			if !all {
				cell = sh.Intersect(cell, half, what)
			}
		}
		out[i] = cell
	}
	return out
}

// parallelSlope is a difference of slopes under which two planes are parallel: over
// a building of 50 m they part by 5e-8 mm.
const parallelSlope = 1e-12

// whereAbove is the half of the region's neighbourhood where p is above q.
// Where the planes are parallel it is all or nothing, the first winning a tie.
func whereAbove(p, q Plane, first bool, region plan.Region) (half plan.Region, all bool) {
	d := p.less(q)
	g := d.Gradient()
	if g < parallelSlope {
		return nil, d.Level > 0 || d.Level == 0 && first
	}
	low, high, ok := region.Bounds()
	if !ok {
		return nil, true
	}
	up := plan.Point{d.SlopeX / g, d.SlopeY / g}
	centre := low.Add(high).Mul(0.5)
	reach := high.Sub(low).Len() + 1
	on := centre.Sub(up.Mul(d.At(centre) / g))
	if on.Sub(centre).Len() > reach {
		return nil, d.At(centre) > 0
	}
	along := plan.Left(up).Mul(2 * reach)
	deep := up.Mul(3 * reach)
	return plan.FromRing(plan.Ring{on.Sub(along), on.Add(along), on.Add(along).Add(deep), on.Sub(along).Add(deep)}), false
}

// Frame places a body: local x, y, z run along U, V, W (right-handed, unit).
type Frame struct {
	Origin  mgl64.Vec3
	U, V, W mgl64.Vec3
}

// WorldFrame leaves local coordinates as they are.
func WorldFrame() Frame {
	return Frame{U: mgl64.Vec3{1, 0, 0}, V: mgl64.Vec3{0, 1, 0}, W: mgl64.Vec3{0, 0, 1}}
}

// UprightFrame has local x along a horizontal unit direction, local y up, and
// local z along x × y, which points to the right of the direction in plan.
func UprightFrame(origin mgl64.Vec3, along plan.Point) Frame {
	return Frame{Origin: origin, U: mgl64.Vec3{along.X(), along.Y(), 0}, V: mgl64.Vec3{0, 0, 1},
		W: mgl64.Vec3{along.Y(), -along.X(), 0}}
}

// Point turns local coordinates into the model's.
func (f Frame) Point(local mgl64.Vec3) mgl64.Vec3 {
	return f.Origin.Add(f.U.Mul(local.X())).Add(f.V.Mul(local.Y())).Add(f.W.Mul(local.Z()))
}

// Local turns the model's coordinates into local ones.
func (f Frame) Local(p mgl64.Vec3) mgl64.Vec3 {
	d := p.Sub(f.Origin)
	return mgl64.Vec3{d.Dot(f.U), d.Dot(f.V), d.Dot(f.W)}
}
