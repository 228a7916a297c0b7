package clash

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/solid"
)

// Cylinder is a round body with flat ends.
type Cylinder struct {
	From, To mgl64.Vec3 // the middles of its ends
	RadiusMM float64
}

// noLengthMM is under which a cylinder has no direction of its own.
const noLengthMM = 1e-9

// axis is the direction of a cylinder and its length. One without length is a
// disc that lies flat.
func (c *Cylinder) axis() (u mgl64.Vec3, length float64) {
	d := c.To.Sub(c.From)
	if length = d.Len(); length < noLengthMM {
		return mgl64.Vec3{0, 0, 1}, 0
	}
	return d.Mul(1 / length), length
}

// from is how far a point lies outside the cylinder.
func (c *Cylinder) from(q, u mgl64.Vec3, length float64) float64 {
	d := q.Sub(c.From)
	t := d.Dot(u)
	beyond := max(0, max(-t, t-length))
	beside := max(0, d.Sub(u.Mul(t)).Len()-c.RadiusMM)
	return math.Sqrt(beyond*beyond + beside*beside) // of millimetres: no overflow
}

// noAngle is the square of the sine of an angle too small to tell a side by: what
// rounding leaves of it.
const noAngle = 1e-14

// farthest is a point of the cylinder that lies farthest in a direction.
func (c *Cylinder) farthest(n, u mgl64.Vec3) mgl64.Vec3 {
	end := c.From
	along := n.Dot(u)
	if along > 0 {
		end = c.To
	}
	// Both are unit vectors: what of the one is square to the other is as long as this.
	if across := 1 - along*along; across > noAngle {
		end = end.Add(n.Sub(u.Mul(along)).Mul(c.RadiusMM / math.Sqrt(across)))
	}
	return end
}

// apart is how far a prism lies beyond the cylinder in a direction or against it.
func (c *Cylinder) apart(p *Prism, n, u mgl64.Vec3, length float64) float64 {
	low, high := p.span(n)
	along := n.Dot(u)
	middle := n.Dot(c.From.Add(c.To)) / 2
	half := math.Abs(along)*length/2 + c.RadiusMM*math.Sqrt(max(0, 1-along*along))
	return max(low-middle-half, middle-half-high)
}

// AtLeast is a bound of the gap to a prism that is quick to work out: no gap is
// less.
func (c *Cylinder) AtLeast(p *Prism) float64 {
	u, length := c.axis()
	return c.atLeast(p, u, length)
}

// atLeast is the farthest the cylinder stays off the plane of a face.
func (c *Cylinder) atLeast(p *Prism, u mgl64.Vec3, length float64) float64 {
	middle := c.From.Add(c.To).Mul(0.5)
	gap := math.Inf(-1)
	for i := range p.faces {
		f := &p.faces[i]
		along := f.out.Dot(u)
		gap = max(gap, f.out.Dot(middle)-math.Abs(along)*length/2-c.RadiusMM*math.Sqrt(max(0, 1-along*along))-f.offset)
	}
	return gap
}

// Gap holds a cylinder against a prism.
//
// Method: apart, they are nearest within a face, where the cylinder's point
// farthest towards the face lies over it, or on an edge, along which the distance
// to the cylinder is convex: closed form where the nearest part is the round
// side, else by golden section, the place to a thousandth of a millimetre. Where they
// overlap, the depth is the least over the directions square to a face, to an
// end, or to an edge and the axis: exact but where only the rim of an end is in
// the prism, where it may come out deeper, never shallower, than it is.
func (c *Cylinder) Gap(p *Prism) Meeting {
	u, length := c.axis()
	if from, to, ok := p.clip(c.From, c.To); ok {
		return c.overlap(p, c.From.Add(c.To.Sub(c.From).Mul((from+to)/2)))
	}
	nearest := Meeting{GapMM: math.Inf(1)}
	for i := range p.faces {
		f := &p.faces[i]
		q := c.farthest(f.out.Mul(-1), u)
		h := f.out.Dot(q) - f.offset
		if h >= 0 {
			if h < nearest.GapMM && f.under(q) {
				nearest = Meeting{h, q.Sub(f.out.Mul(h / 2))}
			}
			continue
		}
		// The cylinder reaches through the plane of the face: here or beside it.
		o := c.farthest(f.out, u)
		if over := f.out.Dot(o) - f.offset; over >= 0 {
			if on := q.Add(o.Sub(q).Mul(h / (h - over))); f.under(on) {
				return c.overlap(p, on)
			}
		}
	}
	if nearest.GapMM <= c.atLeast(p, u, length) {
		return nearest // an edge cannot be nearer
	}
	for _, e := range p.edges {
		on, q, share := nearestOfSegments(e[0], e[1], c.From, c.To)
		d := on.Sub(q).Len() - c.RadiusMM // no less than from a body with round ends
		if d >= nearest.GapMM {
			continue
		}
		if share <= 0 || share >= 1 {
			on, d = c.nearestOn(e[0], e[1], u, length)
		}
		if d <= 0 {
			return c.overlap(p, on)
		}
		if d < nearest.GapMM {
			nearest = Meeting{d, on}
		}
	}
	return nearest
}

// GapToLayer holds cylinders against all that lies between two parallel planes.
func GapToLayer(bodies []Cylinder, under, top solid.Plane) Meeting {
	up := mgl64.Vec3{-top.SlopeX, -top.SlopeY, 1}.Normalize()
	over, below := up.Z()*top.Level, up.Z()*under.Level
	worst := Meeting{GapMM: math.Inf(1)}
	for i := range bodies {
		c := &bodies[i]
		from, to := up.Dot(c.From), up.Dot(c.To)
		square := up.Z() * up.Z() // of the cosine to the axis; a disc's is plumb
		if d := c.To.Sub(c.From); d.Dot(d) >= noLengthMM*noLengthMM {
			square = (to - from) * (to - from) / d.Dot(d)
		}
		reach := c.RadiusMM * math.Sqrt(max(0, 1-square))
		if gap := max(min(from, to)-reach-over, below-max(from, to)-reach); gap < worst.GapMM {
			worst = Meeting{gap, c.From.Add(c.To).Mul(0.5)}
		}
	}
	return worst
}

// GapTo holds two cylinders against each other along their round sides.
//
// Method: the distance of the axes less both radii. An end counts as rounded off
// with the cylinder's radius, as it lies within the next piece of the same run;
// a flat end that stands free may be that much farther off than it says, never
// nearer.
func (c *Cylinder) GapTo(o *Cylinder) Meeting {
	p, q, _ := nearestOfSegments(c.From, c.To, o.From, o.To)
	return Meeting{q.Sub(p).Len() - c.RadiusMM - o.RadiusMM, p.Add(q).Mul(0.5)}
}

// nearestOn is the point of a segment nearest to the cylinder, and how far it
// lies outside, where an end of the axis is the nearest of it.
func (c *Cylinder) nearestOn(a, b, u mgl64.Vec3, length float64) (mgl64.Vec3, float64) {
	v := b.Sub(a)
	size := v.Len()
	at := func(t float64) float64 { return c.from(a.Add(v.Mul(t)), u, length) }
	// Only the flat ends ask for a search: the place lies no farther than a radius
	// from the one nearest to the axis. It need not be found closely: along an edge
	// the distance is flat there.
	const golden, closeMM = 0.6180339887498949, 1e-3
	on, _, _ := nearestOfSegments(a, b, c.From, c.To)
	amid, reach := on.Sub(a).Len()/size, c.RadiusMM/size
	low, high := max(0, amid-reach), min(1, amid+reach)
	s, t := high-golden*(high-low), low+golden*(high-low)
	ds, dt := at(s), at(t)
	for size*(high-low) > closeMM && ds > 0 && dt > 0 {
		if ds < dt {
			high, t, dt = t, s, ds
			s = high - golden*(high-low)
			ds = at(s)
		} else {
			low, s, ds = s, t, dt
			t = low + golden*(high-low)
			dt = at(t)
		}
	}
	best, d := s, ds
	for _, k := range [...]float64{t, low, high} {
		if dk := at(k); dk < d {
			best, d = k, dk
		}
	}
	return a.Add(v.Mul(best)), d
}

// overlap is the meeting of bodies that overlap at a place.
func (c *Cylinder) overlap(p *Prism, at mgl64.Vec3) Meeting {
	u, length := c.axis()
	gap := max(c.apart(p, u, u, length), c.atLeast(p, u, length))
	for _, way := range p.ways {
		if n, ok := square(u, way); ok {
			gap = max(gap, c.apart(p, n, u, length))
		}
	}
	return Meeting{min(0, gap), at}
}
