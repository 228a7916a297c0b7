package plan

import (
	"cmp"
	"math"
	"slices"
)

// Interval is a stretch of a line, From < To, by distance along it.
type Interval struct{ From, To float64 }

// Clip gives the stretches of the infinite line through origin along the unit
// direction that lie inside the region, in order.
func (r Region) Clip(origin, direction Point) []Interval {
	normal := Left(direction)
	var few [16]float64
	at := few[:0]
	for _, p := range r {
		for k := range p.rings() {
			ring := p.ring(k)
			if len(ring) == 0 {
				continue
			}
			a := ring[0].Sub(origin)
			da := a.Dot(normal)
			for i := range ring {
				next := i + 1
				if next == len(ring) {
					next = 0
				}
				b := ring[next].Sub(origin)
				db := b.Dot(normal)
				// A corner on the line counts as above it, so that crossings
				// always come in pairs.
				if (da >= 0) != (db >= 0) {
					t := da / (da - db)
					at = append(at, a.Add(b.Sub(a).Mul(t)).Dot(direction))
				}
				a, da = b, db
			}
		}
	}
	slices.Sort(at)
	out := make([]Interval, 0, len(at)/2)
	for i := 0; i+1 < len(at); i += 2 {
		if at[i+1]-at[i] > snapMM {
			out = append(out, Interval{at[i], at[i+1]})
		}
	}
	if len(out) == 0 {
		return nil
	}
	return out
}

// parallelSine is the sine of an angle under which two directions are parallel:
// where such lines cross, if they do, is rounding and far outside any building.
const parallelSine = 1e-12

// ClipLines gives, line by line, the stretches inside the region of n parallel
// lines along a unit direction. The first lies at a distance to the left of the
// origin, each other a step farther left. It is Clip for many lines at once: every
// edge is asked which lines it crosses.
func (r Region) ClipLines(direction Point, firstMM, stepMM float64, n int, inside func(line int, in Interval)) {
	crossings := r.crossings(direction, firstMM, stepMM, n)
	// The crossings of a line lie between its start and the next one's.
	starts := make([]int, n+1)
	for _, c := range crossings {
		starts[c.line+1]++
	}
	for line := range n {
		starts[line+1] += starts[line]
	}
	at, next := make([]float64, len(crossings)), slices.Clone(starts)
	for _, c := range crossings {
		at[next[c.line]] = c.alongMM
		next[c.line]++
	}
	for line := range n {
		on := at[starts[line]:starts[line+1]]
		slices.Sort(on)
		for i := 0; i+1 < len(on); i += 2 {
			if on[i+1]-on[i] > snapMM {
				inside(line, Interval{on[i], on[i+1]})
			}
		}
	}
}

// crossing is where an edge crosses one of many lines, by distance along that.
type crossing struct {
	line    int
	alongMM float64
}

// crossings are the places where edges of the region cross one of n parallel
// lines. A corner on a line counts as left of it, so that they come in pairs.
func (r Region) crossings(direction Point, firstMM, stepMM float64, n int) []crossing {
	out := make([]crossing, 0, 4*n)
	normal := Left(direction)
	for _, p := range r {
		for k := range p.rings() {
			ring := p.ring(k)
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				va, vb := a.Dot(normal), b.Dot(normal)
				low, high := min(va, vb), max(va, vb)
				from, each := a.Dot(direction), b.Sub(a).Dot(direction)/(va-vb)
				for line := max(0, int(math.Floor((low-firstMM)/stepMM))); line < n; line++ {
					offset := firstMM + float64(line)*stepMM
					if offset > high {
						break
					}
					if offset > low {
						out = append(out, crossing{line, from + each*(va-offset)})
					}
				}
			}
		}
	}
	return out
}

// MeetLines is where two lines cross: the parameters s and t at which
// a + s·u = b + t·v; ok is false for parallel lines.
func MeetLines(a, u, b, v Point) (s, t float64, ok bool) {
	det := Cross(u, v)
	if det*det <= parallelSine*parallelSine*u.Dot(u)*v.Dot(v) {
		return 0, 0, false
	}
	d := b.Sub(a)
	return Cross(d, v) / det, Cross(d, u) / det, true
}

// CrossingEdges finds the first two edges of the ring that touch or cross
// although they are not neighbours, or fold back on each other: the reason an
// outline encloses no clear area. ok is false for a simple ring.
func (r Ring) CrossingEdges() (i, j int, ok bool) {
	n := len(r)
	for i := range n {
		a, b := r[i], r[(i+1)%n]
		for j := i + 1; j < n; j++ {
			c, d := r[j], r[(j+1)%n]
			switch {
			case j == i+1:
				if foldsBack(a, b, d) {
					return i, j, true
				}
			case i == 0 && j == n-1:
				if foldsBack(c, d, b) {
					return j, i, true
				}
			case segmentsTouch(a, b, c, d):
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// foldSine is the sine of an angle under which an edge runs back along the one
// before it: over 10 m they part by a hundred-thousandth of a millimetre.
const foldSine = 1e-9

// foldsBack tells whether b-c runs back along a-b.
func foldsBack(a, b, c Point) bool {
	u, v := b.Sub(a), c.Sub(b)
	return math.Abs(Cross(u, v)) <= foldSine*u.Len()*v.Len() && u.Dot(v) < 0
}

func segmentsTouch(a, b, c, d Point) bool { return Apart(a, b, c, d) == 0 }

// Apart is the distance between two segments; 0 where they touch or cross.
func Apart(a, b, c, d Point) float64 {
	if s, t, ok := MeetLines(a, b.Sub(a), c, d.Sub(c)); ok && s >= 0 && s <= 1 && t >= 0 && t <= 1 {
		return 0
	}
	least := min(DistanceToSegment(a, c, d), DistanceToSegment(b, c, d), DistanceToSegment(c, a, b), DistanceToSegment(d, a, b))
	if least < HairMM {
		return 0
	}
	return least
}

// Hull is the convex hull of the points, counter-clockwise.
func Hull(points []Point) Ring {
	xs := append([]Point(nil), points...)
	slices.SortFunc(xs, func(a, b Point) int {
		if a.X() != b.X() {
			return cmp.Compare(a.X(), b.X())
		}
		return cmp.Compare(a.Y(), b.Y())
	})
	chain := func(in []Point) []Point {
		out := make([]Point, 0, len(in))
		for _, p := range in {
			for len(out) >= 2 && Cross(out[len(out)-1].Sub(out[len(out)-2]), p.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out
	}
	if len(xs) < 3 {
		return xs
	}
	lower := chain(xs)
	for i, j := 0, len(xs)-1; i < j; i, j = i+1, j-1 {
		xs[i], xs[j] = xs[j], xs[i]
	}
	upper := chain(xs)
	return append(append(Ring(nil), lower[:len(lower)-1]...), upper[:len(upper)-1]...)
}

// Drawn is the convex hull of a convex counter-clockwise ring and the same ring
// moved: what it passes over on the way.
func Drawn(r Ring, by Point) Ring {
	out := make(Ring, 0, len(r)+2)
	for i, p := range r {
		before, after := r[(i+len(r)-1)%len(r)], r[(i+1)%len(r)]
		// Edges that look ahead are those of the moved ring.
		in, on := Cross(by, p.Sub(before)), Cross(by, after.Sub(p))
		if in <= 0 && on <= 0 || in < 0 && on > 0 {
			out = append(out, p)
		}
		if in > 0 || on > 0 {
			out = append(out, p.Add(by))
		}
		if in > 0 && on < 0 {
			out = append(out, p)
		}
	}
	return out
}

// Overlap tells whether two regions share more than edges. It is quicker than
// intersecting them.
//
// Method: they do when edges cross, or when a corner, the middle of an edge or
// a point within one lies strictly inside the other.
func (r Region) Overlap(b Region) bool {
	return boundsMeet(r, b) && (edgesCross(r, b) || reaches(r, b) || reaches(b, r))
}

// strictlyContains tells whether a point lies inside by more than a hair.
func (r Region) strictlyContains(p Point) bool {
	return r.Contains(p, 0) && !r.onEdge(p)
}

func (r Region) onEdge(p Point) bool {
	for _, poly := range r {
		for k := range poly.rings() {
			ring := poly.ring(k)
			for i := range ring {
				if a, b := ring[i], ring[(i+1)%len(ring)]; WithinOfSegment(p, a, b, HairMM) {
					return true
				}
			}
		}
	}
	return false
}

// reaches tells whether a corner, an edge's middle or an inner point of a lies
// within b.
func reaches(a, b Region) bool {
	low, high, _ := b.Bounds()
	near := func(p Point) bool {
		return p.X() > low.X() && p.X() < high.X() && p.Y() > low.Y() && p.Y() < high.Y() && b.strictlyContains(p)
	}
	for _, poly := range a {
		for k := range poly.rings() {
			ring := poly.ring(k)
			for i, p := range ring {
				if q := ring[(i+1)%len(ring)]; near(p) || near(p.Add(q).Mul(0.5)) {
					return true
				}
			}
		}
		if near(poly.innerPoint()) {
			return true
		}
	}
	return false
}

// innerPoint is the middle of the first stretch of a line across the polygon.
func (p Polygon) innerPoint() Point {
	low, high, _ := Region{p}.Bounds()
	y := low.Y() + (high.Y()-low.Y())*0.4871
	for _, iv := range (Region{p}).Clip(Point{0, y}, Point{1, 0}) {
		return Point{(iv.From + iv.To) / 2, y}
	}
	return p.Outer[0]
}

// endShare is the share of an edge next to its ends where another one only touches
// it: of 10 m a hundred-thousandth of a millimetre.
const endShare = 1e-9

func edgesCross(a, b Region) bool {
	within := func(s float64) bool { return s > endShare && s < 1-endShare }
	for _, pa := range a {
		for ka := range pa.rings() {
			ra := pa.ring(ka)
			for i, p := range ra {
				q := ra[(i+1)%len(ra)]
				low, high := Point{min(p.X(), q.X()), min(p.Y(), q.Y())}, Point{max(p.X(), q.X()), max(p.Y(), q.Y())}
				for _, pb := range b {
					for kb := range pb.rings() {
						rb := pb.ring(kb)
						for k, o := range rb {
							e := rb[(k+1)%len(rb)]
							if max(o.X(), e.X()) < low.X() || min(o.X(), e.X()) > high.X() || max(o.Y(), e.Y()) < low.Y() || min(o.Y(), e.Y()) > high.Y() {
								continue
							}
							if s, t, ok := MeetLines(p, q.Sub(p), o, e.Sub(o)); ok && within(s) && within(t) {
								return true
							}
						}
					}
				}
			}
		}
	}
	return false
}
