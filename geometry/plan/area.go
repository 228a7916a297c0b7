package plan

import "math"

// Where is the part of the region where an affine function is not negative:
// one side of a straight line. It cannot fail. Where the line cuts the region
// into pieces their rings stay joined along it, there and back, which neither
// areas nor centroids nor Clip see; for outlines to be drawn take a Shaper.
//
// Method: each ring is clipped by itself (Sutherland and Hodgman).
func (r Region) Where(side func(Point) float64) Region {
	clipped := func(ring Ring) Ring {
		out := make(Ring, 0, len(ring)+2)
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			dp, dq := side(p), side(q)
			if dp >= 0 {
				out = append(out, p)
			}
			if dp > 0 && dq < 0 || dp < 0 && dq > 0 {
				out = append(out, p.Add(q.Sub(p).Mul(dp/(dp-dq))))
			}
		}
		return out
	}
	return r.eachRing(clipped)
}

// span is an edge seen as the top of the upright strip below it: its height
// runs from y0 at x0 to y1 at x1, x0 < x1. The strip counts with its sign.
type span struct{ x0, y0, x1, y1, sign float64 }

func (s span) at(x float64) float64 { return s.y0 + (s.y1-s.y0)*(x-s.x0)/(s.x1-s.x0) }

// spans of all edges that are not upright, with heights over a level.
// They are added to those given.
func (r Region) spans(out []span, over float64) []span {
	for _, p := range r {
		for k := -1; k < len(p.Holes); k++ {
			ring := p.Outer
			if k >= 0 {
				ring = p.Holes[k]
			}
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				switch {
				case a.X() < b.X():
					out = append(out, span{a.X(), a.Y() - over, b.X(), b.Y() - over, -1})
				case a.X() > b.X():
					out = append(out, span{b.X(), b.Y() - over, a.X(), a.Y() - over, 1})
				}
			}
		}
	}
	return out
}

// SharedArea is the area that a and b share, in mm². It cannot fail.
//
// Method: a region is the sum, with signs, of the strips between its edges and
// a line below everything. Two strips share what lies below the lower of their
// edges, so the shared area is the sum over all pairs of edges; no crossing
// has to be decided. Where a region covers a place twice it counts twice.
func SharedArea(a, b Region) float64 {
	if !boundsMeet(a, b) {
		return 0
	}
	al, _, _ := a.Bounds()
	bl, _, _ := b.Bounds()
	over := math.Min(al.Y(), bl.Y())
	sum := 0.0
	// Most regions have few corners.
	var few [2][24]span
	of := b.spans(few[0][:0], over)
	for _, s := range a.spans(few[1][:0], over) {
		for _, t := range of {
			x0, x1 := math.Max(s.x0, t.x0), math.Min(s.x1, t.x1)
			if x0 < x1 {
				sum += s.sign * t.sign * underBoth(s, t, x0, x1)
			}
		}
	}
	return sum
}

// underBoth is the area below the lower of two spans between two places.
func underBoth(s, t span, x0, x1 float64) float64 {
	s0, s1, t0, t1 := s.at(x0), s.at(x1), t.at(x0), t.at(x1)
	d0, d1 := s0-t0, s1-t1
	if d0*d1 >= 0 {
		return (math.Min(s0, t0) + math.Min(s1, t1)) / 2 * (x1 - x0)
	}
	// They cross in between, at the same height.
	share := d0 / (d0 - d1)
	middle := s0 + (s1-s0)*share
	return ((math.Min(s0, t0)+middle)*share + (middle+math.Min(s1, t1))*(1-share)) / 2 * (x1 - x0)
}

// Reach is how far a region goes along a unit direction, from and to, by distances from the
// origin; of an empty one from is the greater.
func (r Region) Reach(along Point) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, poly := range r {
		for _, p := range poly.Outer {
			from, to = math.Min(from, p.Dot(along)), math.Max(to, p.Dot(along))
		}
	}
	return from, to
}
