package plan

import "math"

// LargestScale is by how much a convex shape about the origin can be enlarged, or must
// be made smaller, to lie in a convex counter-clockwise ring, wherever it is put; it is
// not turned. Nought where the ring holds no place for it.
//
// Method: the shape lies within a side where its place and its reach towards that side
// come to less than the side's distance. Place and scale are three numbers, so the
// largest scale is where three sides are touched at once: all threes are tried. Exact.
func (r Ring) LargestScale(shape Ring) float64 {
	sides := make([][4]float64, 0, len(r)) // out x, out y, reach, distance
	for i, p := range r {
		along := r[(i+1)%len(r)].Sub(p)
		if along.Len() < HairMM {
			continue
		}
		out := Left(along.Normalize()).Mul(-1)
		reach := math.Inf(-1)
		for _, s := range shape {
			reach = math.Max(reach, s.Dot(out))
		}
		sides = append(sides, [4]float64{out.X(), out.Y(), reach, p.Dot(out)})
	}
	best := 0.0
	for i := range sides {
		for j := i + 1; j < len(sides); j++ {
			for k := j + 1; k < len(sides); k++ {
				at, scale, ok := touching(sides[i], sides[j], sides[k])
				if ok && scale > best && holds(sides, at, scale) {
					best = scale
				}
			}
		}
	}
	return best
}

// touching is the place and scale at which three sides are touched; ok is false where no
// one scale does.
func touching(a, b, c [4]float64) (at Point, scale float64, ok bool) {
	det := func(p, q, r int) float64 {
		return a[p]*(b[q]*c[r]-b[r]*c[q]) - a[q]*(b[p]*c[r]-b[r]*c[p]) + a[r]*(b[p]*c[q]-b[q]*c[p])
	}
	d := det(0, 1, 2)
	const parallel = 1e-12 // of sides that all but run along each other
	if math.Abs(d) < parallel {
		return at, 0, false
	}
	return Point{det(3, 1, 2) / d, det(0, 3, 2) / d}, det(0, 1, 3) / d, true
}

func holds(sides [][4]float64, at Point, scale float64) bool {
	for _, s := range sides {
		if at.X()*s[0]+at.Y()*s[1]+scale*s[2] > s[3]+HairMM {
			return false
		}
	}
	return true
}
