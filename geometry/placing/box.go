package placing

import "math"

// Point is a place on a picture, across and down.
type Point = [2]float64

// Box is an upright rectangle of a picture, from its upper left to its lower right corner.
type Box struct{ Low, High Point }

// Around is the box about a place, so wide and so high.
func Around(at Point, wide, high float64) Box {
	return Box{Point{at[0] - wide/2, at[1] - high/2}, Point{at[0] + wide/2, at[1] + high/2}}
}

// Overlaps tells whether two boxes share more than an edge.
func (b Box) Overlaps(o Box) bool {
	return b.Low[0] < o.High[0] && o.Low[0] < b.High[0] && b.Low[1] < o.High[1] && o.Low[1] < b.High[1]
}

// Within tells whether all of the box lies in another.
func (b Box) Within(o Box) bool {
	return b.Low[0] >= o.Low[0] && b.High[0] <= o.High[0] && b.Low[1] >= o.Low[1] && b.High[1] <= o.High[1]
}

// Grown is the box with so much more on every side.
func (b Box) Grown(by float64) Box {
	return Box{Point{b.Low[0] - by, b.Low[1] - by}, Point{b.High[0] + by, b.High[1] + by}}
}

// Corners are the box's, round it from the upper left one.
func (b Box) Corners() []Point {
	return []Point{b.Low, {b.High[0], b.Low[1]}, b.High, {b.Low[0], b.High[1]}}
}

// Straight is a straight line of a picture.
type Straight [2]Point

// Round are the straights round a ring of points, the last back to the first.
func Round(ring []Point) (out []Straight) {
	for i, p := range ring {
		out = append(out, Straight{p, ring[(i+1)%len(ring)]})
	}
	return out
}

// Length of the straight.
func (s Straight) Length() float64 { return math.Hypot(s[1][0]-s[0][0], s[1][1]-s[0][1]) }

// Within is from which share of its length to which the straight lies in a box; from is greater
// than to where it does not. Along an axis that it runs square to it is not looked at.
func (s Straight) Within(b Box) (from, to float64) {
	const squarePixels = 1e-9
	from, to = 0, 1
	for k := range 2 {
		step := s[1][k] - s[0][k]
		if math.Abs(step) <= squarePixels {
			continue
		}
		in, out := (b.Low[k]-s[0][k])/step, (b.High[k]-s[0][k])/step
		from, to = math.Max(from, math.Min(in, out)), math.Min(to, math.Max(in, out))
	}
	return from, to
}

// Meets tells whether the straight passes through a box or touches it.
func (s Straight) Meets(b Box) bool {
	for k := range 2 {
		if math.Max(s[0][k], s[1][k]) < b.Low[k] || math.Min(s[0][k], s[1][k]) > b.High[k] {
			return false
		}
	}
	from, to := s.Within(b)
	return from <= to
}

// CutTo is the part of the straight that lies in a box; ok is false where none does.
func (s Straight) CutTo(b Box) (part Straight, ok bool) {
	if !s.Meets(b) {
		return s, false
	}
	from, to := s.Within(b)
	at := func(share float64) Point {
		return Point{s[0][0] + share*(s[1][0]-s[0][0]), s[0][1] + share*(s[1][1]-s[0][1])}
	}
	return Straight{at(from), at(to)}, true
}

// crosses tells whether two straights cross, each on both sides of the other.
func (s Straight) crosses(o Straight) bool {
	side := func(a, b, p Point) float64 { return (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0]) }
	return side(s[0], s[1], o[0])*side(s[0], s[1], o[1]) < 0 && side(o[0], o[1], s[0])*side(o[0], o[1], s[1]) < 0
}

// besidePixels is how near to another a straight runs along it.
const besidePixels = 3

// Along tells whether two straights run so close along each other that one could not be told from
// the other.
func (s Straight) Along(o Straight) bool {
	const leastPixels, withCos = 8, 0.99
	long, other := s.Length(), o.Length()
	if long == 0 || other == 0 {
		return false
	}
	way := Point{(s[1][0] - s[0][0]) / long, (s[1][1] - s[0][1]) / long}
	along := func(p Point) float64 { return (p[0]-s[0][0])*way[0] + (p[1]-s[0][1])*way[1] }
	aside := func(p Point) float64 { return math.Abs((p[1]-s[0][1])*way[0] - (p[0]-s[0][0])*way[1]) }
	from, to := along(o[0]), along(o[1])
	if math.Abs(to-from) < withCos*other || aside(o[0]) > besidePixels {
		return false
	}
	return math.Min(math.Max(from, to), long)-math.Max(math.Min(from, to), 0) > leastPixels
}
