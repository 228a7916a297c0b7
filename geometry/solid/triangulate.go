package solid

import (
	"fmt"
	"math"
	"sort"

	"github.com/rclancey/go-earcut"
	"underfall/geometry/plan"
)

// planMesh is a triangulated plan region: neighbours share whole edges, so
// that it can be lifted to a closed body.
type planMesh struct {
	points    []plan.Point
	triangles [][3]int
	// outline are the directed edges of the polygon's rings: the only edges
	// that may lack an opposite.
	outline map[[2]int]bool
}

// triangulate covers a polygon with counter-clockwise triangles. The ear
// clipper takes its holes in from one direction and now and then makes a
// crossing bridge where edges nearly line up; seen from another direction it
// does not, so a bad cover is tried again turned.
func triangulate(p plan.Polygon) (planMesh, error) {
	m := planMesh{outline: map[[2]int]bool{}}
	var holes []int
	for i, ring := range p.Rings() {
		first := len(m.points)
		if i > 0 {
			holes = append(holes, first)
		}
		for k, q := range ring {
			m.points = append(m.points, q)
			m.outline[[2]int{first + k, first + (k+1)%len(ring)}] = true
		}
	}
	const turns = 8
	for turn := range turns {
		if err := m.clipEars(holes, float64(turn)*0.7); err != nil {
			return m, fmt.Errorf("triangulating an outline of %d corners: %w", len(m.points), err)
		}
		m.mend()
		if m.covers((plan.Region{p}).Area()) {
			break
		}
	}
	return m, nil
}

// Triangles covers a region with counter-clockwise triangles; for drawing.
func Triangles(r plan.Region) (points []plan.Point, triangles [][3]int) {
	for _, p := range r {
		m, err := triangulate(p)
		if err != nil {
			continue
		}
		base := len(points)
		points = append(points, m.points...)
		for _, t := range m.triangles {
			triangles = append(triangles, [3]int{t[0] + base, t[1] + base, t[2] + base})
		}
	}
	return points, triangles
}

// clipEars triangulates with the points seen turned by an angle.
func (m *planMesh) clipEars(holes []int, angle float64) error {
	s, c := math.Sincos(angle)
	flat := make([]float64, 0, 2*len(m.points))
	for _, q := range m.points {
		flat = append(flat, c*q.X()-s*q.Y(), s*q.X()+c*q.Y())
	}
	index, err := earcut.Earcut(flat, holes, 2)
	if err != nil {
		return err
	}
	m.triangles = m.triangles[:0]
	for i := 0; i+2 < len(index); i += 3 {
		a, b, c := index[i], index[i+1], index[i+2]
		switch area := plan.Cross(m.points[b].Sub(m.points[a]), m.points[c].Sub(m.points[a])); {
		case area > 0:
			m.triangles = append(m.triangles, [3]int{a, b, c})
		case area < 0:
			m.triangles = append(m.triangles, [3]int{a, c, b})
		}
	}
	return nil
}

// covers tells whether the triangles have the whole area and no open edge but
// the outline's, each once.
func (m *planMesh) covers(area float64) bool {
	sum := 0.0
	walked := make(map[[2]int]int, 3*len(m.triangles))
	for _, t := range m.triangles {
		sum += plan.Cross(m.points[t[1]].Sub(m.points[t[0]]), m.points[t[2]].Sub(m.points[t[0]])) / 2
		for e := range 3 {
			walked[[2]int{t[e], t[(e+1)%3]}]++
		}
	}
	for e, n := range walked {
		if back := walked[[2]int{e[1], e[0]}]; n != 1 || m.outline[e] == (back == 1) {
			return false
		}
	}
	return math.Abs(sum-area) <= 1e-6*area+1e-3
}

// mend splits triangles whose edge passes through a corner that the
// triangulation dropped for lying on a straight line.
func (m *planMesh) mend() {
	for range len(m.points) {
		open := m.openEdges()
		for e := range m.outline {
			delete(open, e)
		}
		split := false
		for t := range m.triangles {
			for e := range 3 {
				a, b := m.triangles[t][e], m.triangles[t][(e+1)%3]
				if !open[[2]int{a, b}] {
					continue
				}
				on := m.pointsOn(a, b)
				if len(on) == 0 {
					continue
				}
				c := m.triangles[t][(e+2)%3]
				m.triangles[t] = [3]int{a, on[0], c}
				on = append(on, b)
				for k := range len(on) - 1 {
					m.triangles = append(m.triangles, [3]int{on[k], on[k+1], c})
				}
				split = true
				break
			}
		}
		if !split {
			return
		}
	}
}

// openEdges are the directed edges without an opposite one.
func (m *planMesh) openEdges() map[[2]int]bool {
	open := make(map[[2]int]bool, 3*len(m.triangles))
	for _, t := range m.triangles {
		for e := range 3 {
			a, b := t[e], t[(e+1)%3]
			if open[[2]int{b, a}] {
				delete(open, [2]int{b, a})
			} else {
				open[[2]int{a, b}] = true
			}
		}
	}
	return open
}

// pointsOn finds the corners strictly inside the segment a-b, in order.
func (m *planMesh) pointsOn(a, b int) []int {
	pa, pb := m.points[a], m.points[b]
	d := pb.Sub(pa)
	l := d.Len()
	var on []int
	at := func(v int) float64 { return m.points[v].Sub(pa).Dot(d) / (l * l) }
	for v := range m.points {
		if v == a || v == b || math.Abs(plan.Cross(d, m.points[v].Sub(pa))) >= 1e-6*l {
			continue
		}
		if t := at(v); t > 1e-9 && t < 1-1e-9 {
			on = append(on, v)
		}
	}
	sort.Slice(on, func(i, j int) bool { return at(on[i]) < at(on[j]) })
	return on
}

// splitAlong cuts every triangle that crosses the line where d is zero, so
// that d keeps its sign over each triangle.
func (m *planMesh) splitAlong(d Plane) {
	g := d.Gradient()
	if g < 1e-12 {
		return
	}
	distance := make([]float64, len(m.points))
	for i, p := range m.points {
		distance[i] = d.At(p) / g
		if math.Abs(distance[i]) < 1e-6 {
			distance[i] = 0
		}
	}
	cuts := map[[2]int]int{}
	cut := func(a, b int) int {
		key := [2]int{min(a, b), max(a, b)}
		if v, ok := cuts[key]; ok {
			return v
		}
		lo, hi := key[0], key[1]
		t := distance[lo] / (distance[lo] - distance[hi])
		m.points = append(m.points, m.points[lo].Add(m.points[hi].Sub(m.points[lo]).Mul(t)))
		cuts[key] = len(m.points) - 1
		return cuts[key]
	}
	var out [][3]int
	for _, t := range m.triangles {
		// Turn the triangle so that its lone corner comes first.
		sign := func(i int) int {
			switch {
			case distance[t[i]] > 0:
				return 1
			case distance[t[i]] < 0:
				return -1
			}
			return 0
		}
		s := [3]int{sign(0), sign(1), sign(2)}
		switch {
		case s[0] >= 0 && s[1] >= 0 && s[2] >= 0, s[0] <= 0 && s[1] <= 0 && s[2] <= 0:
			out = append(out, t)
		case s[0] == 0 || s[1] == 0 || s[2] == 0:
			k := 0
			for s[k] != 0 {
				k++
			}
			a, b, c := t[k], t[(k+1)%3], t[(k+2)%3]
			v := cut(b, c)
			out = append(out, [3]int{a, b, v}, [3]int{a, v, c})
		default:
			k := 0
			for s[k] == s[(k+1)%3] || s[k] == s[(k+2)%3] {
				k++
			}
			a, b, c := t[k], t[(k+1)%3], t[(k+2)%3]
			ab, ac := cut(a, b), cut(a, c)
			out = append(out, [3]int{a, ab, ac}, [3]int{ab, b, c}, [3]int{ab, c, ac})
		}
	}
	m.triangles = out
}
