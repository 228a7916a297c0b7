package layout

import (
	"math"
	"slices"

	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Crease is a straight along which two falling planes of the floor meet: a hip or a
// valley. It runs down from A to B and falls by Slope, rise over run, not negative:
// always less than the planes do where they meet at an angle.
type Crease struct {
	A, B  plan.Point
	Slope float64
}

// LengthMM of the crease in plan.
func (c Crease) LengthMM() float64 { return c.B.Sub(c.A).Len() }

// shortestCreaseMM is under which length a crease is no fold in a tile but a corner at
// which planes touch, and how near to a corner one ends that runs to it.
const shortestCreaseMM = 1

// Creases are where the falling planes meet each other; where they meet the level of the
// drain is none.
//
// Method: two planes meet on the straight where their levels are equal. What lies within
// the fall area is kept where no other plane lies higher: exact.
func (l Layout) Creases() []Crease {
	var out []Crease
	for i := 1; i < len(l.Fall); i++ {
		for k := i + 1; k < len(l.Fall); k++ {
			out = l.appendCreases(out, i, k)
		}
	}
	return out
}

// appendCreases adds those of two planes, given by their index in the fall.
func (l Layout) appendCreases(out []Crease, i, k int) []Crease {
	p, q := l.Fall[i], l.Fall[k]
	apart := plan.Point{p.SlopeX - q.SlopeX, p.SlopeY - q.SlopeY}
	g := apart.Len()
	if math.Min(p.Gradient(), q.Gradient()) < levelSlope || g < levelSlope {
		return out
	}
	centre := l.FallArea.Centroid()
	on := centre.Sub(apart.Mul((p.At(centre) - q.At(centre)) / (g * g)))
	along := plan.Left(apart.Mul(1 / g))
	slope := p.SlopeX*along.X() + p.SlopeY*along.Y()
	if slope > 0 {
		along, slope = along.Mul(-1), -slope
	}
	for _, in := range l.FallArea.Clip(on, along) {
		for n, o := range l.Fall {
			if n != i && n != k {
				in = carried(in, p, o, on, along)
			}
		}
		if in.To-in.From >= shortestCreaseMM {
			out = append(out, Crease{on.Add(along.Mul(in.From)), on.Add(along.Mul(in.To)), -slope})
		}
	}
	return out
}

// levelSlope is a fall, or a difference of falls, under which planes lie level: a
// hundredth of a millimetre over 10 m.
const levelSlope = 1e-6

// carried is the part of a stretch of a straight on which a plane is not below another.
func carried(in plan.Interval, p, other solid.Plane, on, along plan.Point) plan.Interval {
	over := func(s float64) float64 {
		at := on.Add(along.Mul(s))
		return p.At(at) - other.At(at)
	}
	from, to := over(in.From), over(in.To)
	switch {
	case from < 0 && to < 0:
		in.To = in.From
	case from < 0:
		in.From += (in.To - in.From) * from / (from - to)
	case to < 0:
		in.To = in.From + (in.To-in.From)*from/(from-to)
	}
	return in
}

// creasesAlong are the places between two points, in order, at which another plane begins
// to carry the falling floor; at the points themselves is none.
func (l Layout) creasesAlong(a, b plan.Point) []plan.Point {
	var shares []float64
	long := b.Sub(a).Len()
	for i, p := range l.Fall {
		for _, q := range l.Fall[i+1:] {
			da, db := p.At(a)-q.At(a), p.At(b)-q.At(b)
			if da*db >= 0 {
				continue
			}
			share := da / (da - db)
			if math.Min(share, 1-share)*long < shortestCreaseMM {
				continue
			}
			if at := a.Add(b.Sub(a).Mul(share)); p.At(at) > l.Fall.At(at)-plan.HairMM {
				shares = append(shares, share)
			}
		}
	}
	slices.Sort(shares)
	var out []plan.Point
	for i, s := range shares {
		if i == 0 || (s-shares[i-1])*long > plan.HairMM {
			out = append(out, a.Add(b.Sub(a).Mul(s)))
		}
	}
	return out
}
