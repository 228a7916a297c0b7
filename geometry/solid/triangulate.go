package solid

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"github.com/rclancey/go-earcut"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Sheet is a region with the triangles that cover it. Only Cover makes one, so
// that whatever is built over a sheet can be meshed: a region that cannot be
// covered fails where it is drawn up, not where its body is looked at.
type Sheet struct {
	region plan.Region
	covers []planMesh // one a polygon
}

// Region is what the sheet covers.
func (s Sheet) Region() plan.Region { return s.region }

// Empty tells whether there is nothing of it.
func (s Sheet) Empty() bool { return len(s.region) == 0 }

// Cover covers a region with triangles; what names it for the message when
// that fails. The sheet is then empty, as it is for an empty region.
func Cover(sh *plan.Shaper, region plan.Region, what message.Message) Sheet {
	s := Sheet{region: region}
	for _, p := range region {
		if !sh.Attempt(what, func() error {
			m, err := triangulate(p)
			s.covers = append(s.covers, m)
			return err
		}) {
			return Sheet{}
		}
	}
	return s
}

// CoverBy covers a polygon with triangles that whoever drew it knows, by the indexes
// of its corners, the outer ring's first and then each hole's. They are held to what
// any cover must be; where they are none, the polygon is covered as any other is.
func CoverBy(sh *plan.Shaper, p plan.Polygon, triangles [][3]int, what message.Message) Sheet {
	m := planMesh{triangles: triangles}
	var outline outline
	for _, ring := range p.Rings() {
		m.points = append(m.points, ring...)
		outline = append(outline, len(m.points))
	}
	region := plan.Region{p}
	if m.covers(outline, region.Area()) != nil {
		return Cover(sh, region, what)
	}
	if !sh.Attempt(what, func() error { return nil }) {
		return Sheet{}
	}
	return Sheet{region, []planMesh{m}}
}

// Triangles are all triangles, counter-clockwise, by corner.
func (s Sheet) Triangles() [][3]plan.Point {
	var out [][3]plan.Point
	for _, m := range s.covers {
		for _, t := range m.triangles {
			out = append(out, [3]plan.Point{m.points[t[0]], m.points[t[1]], m.points[t[2]]})
		}
	}
	return out
}

// planMesh is a triangulated plan region: neighbours share whole edges, so
// that it can be lifted to a closed body.
type planMesh struct {
	points    []plan.Point
	triangles [][3]int
}

// triangulate covers a polygon with counter-clockwise triangles. The ear
// clipper takes its holes in from one direction and now and then makes a
// crossing bridge where edges nearly line up. So it sees the polygon along its
// longest edge and on a fine grid, where what is meant to line up does; a bad
// cover is tried again turned.
func triangulate(p plan.Polygon) (planMesh, error) {
	var m planMesh
	var holes []int
	var outline outline
	area := (plan.Region{p}).Area()
	p = withoutHairs(p)
	if len(p.Holes) > 0 {
		p = withoutTouching(p)
	}
	for i, ring := range p.Rings() {
		if len(ring) < 3 {
			return m, fmt.Errorf("a ring of %d corners encloses nothing", len(ring))
		}
		if i > 0 {
			holes = append(holes, len(m.points))
		}
		for k, q := range ring {
			if q == ring[(k+1)%len(ring)] {
				return m, errors.New("a corner is there twice")
			}
		}
		m.points = append(m.points, ring...)
		outline = append(outline, len(m.points))
	}
	for _, q := range m.points {
		if s := q.X() + q.Y(); math.IsNaN(s) || math.IsInf(s, 0) {
			return m, errors.New("a corner lies nowhere")
		}
	}
	if len(holes) == 0 && m.fan() {
		return m, nil
	}
	along := longestEdge(p.Outer)
	var err error
	const turns = 8
	for turn := range turns {
		if err = m.clipEars(holes, turned(along, 0.7*float64(turn))); err != nil {
			return m, fmt.Errorf("triangulating an outline of %d corners: %w", len(m.points), err)
		}
		m.mend(outline)
		if err = m.covers(outline, area); err == nil {
			return m, nil
		}
	}
	return m, fmt.Errorf("triangulating an outline of %d corners: %w", len(m.points), err)
}

// plainMM is how far a corner must stand out, and how high a triangle must be,
// for a fan of them to be good to work with.
const plainMM = 1e-3

// fan covers a single ring with triangles from its first corner when the ring
// turns left clearly at every corner and once round: then they are a cover.
func (m *planMesh) fan() bool {
	n := len(m.points)
	clear := func(a, b, c plan.Point) bool {
		longest := math.Max(c.Sub(a).Len(), math.Max(b.Sub(a).Len(), c.Sub(b).Len()))
		return plan.Cross(b.Sub(a), c.Sub(a)) > plainMM*longest
	}
	turns := 0.0
	for i, b := range m.points {
		a, c := m.points[(i+n-1)%n], m.points[(i+1)%n]
		if !clear(a, b, c) || i > 0 && i+1 < n && !clear(m.points[0], b, c) {
			return false
		}
		u, v := b.Sub(a), c.Sub(b)
		turns += math.Atan2(plan.Cross(u, v), u.Dot(v))
	}
	if turns > 3*math.Pi {
		return false
	}
	m.triangles = make([][3]int, 0, n-2)
	for i := 1; i+1 < n; i++ {
		m.triangles = append(m.triangles, [3]int{0, i, i + 1})
	}
	return true
}

// outline is where each ring of a polygon ends in its list of corners.
type outline []int

// has tells whether a ring runs straight from corner a to corner b: the only
// edges of triangles that may lack an opposite.
func (o outline) has(a, b int) bool {
	if b == a+1 {
		for _, end := range o {
			if b == end {
				return false
			}
		}
		return true
	}
	first := 0
	for _, end := range o {
		if a == end-1 {
			return b == first
		}
		first = end
	}
	return false
}

// longestEdge is the direction of a ring's longest edge.
func longestEdge(r plan.Ring) plan.Point {
	longest := plan.Point{}
	for i, p := range r {
		if d := r[(i+1)%len(r)].Sub(p); d.Dot(d) > longest.Dot(longest) {
			longest = d
		}
	}
	if longest == (plan.Point{}) {
		return plan.Point{1, 0}
	}
	return longest.Normalize()
}

// turned is a direction turned by an angle.
func turned(u plan.Point, angle float64) plan.Point {
	s, c := math.Sincos(angle)
	return u.Mul(c).Add(plan.Left(u).Mul(s))
}

// clipGridMM is the grid the ear clipper sees corners on.
const clipGridMM = 1e-6

// clipEars triangulates with the points seen along a direction.
func (m *planMesh) clipEars(holes []int, along plan.Point) error {
	flat := make([]float64, 0, 2*len(m.points))
	for _, q := range m.points {
		d := q.Sub(m.points[0])
		flat = append(flat, math.Round(d.Dot(along)/clipGridMM), math.Round(plan.Cross(along, d)/clipGridMM))
	}
	index, err := earcut.Earcut(flat, holes, 2)
	if err != nil {
		return err
	}
	m.triangles = make([][3]int, 0, len(index)/3)
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

// covers tells why the triangles are no cover: they must have the whole area,
// walk every edge of the outline once, and every other edge once each way.
func (m *planMesh) covers(outline outline, areaMM2 float64) error {
	sum := 0.0
	for _, t := range m.triangles {
		sum += plan.Cross(m.points[t[1]].Sub(m.points[t[0]]), m.points[t[2]].Sub(m.points[t[0]])) / 2
	}
	const roundingShare, slackMM2 = 1e-6, 1e-3 // the ear clipper moves no corner
	if !(math.Abs(sum-areaMM2) <= roundingShare*areaMM2+slackMM2) {
		return fmt.Errorf("the triangles have %.2f mm² instead of %.2f", sum, areaMM2)
	}
	edges := m.edges()
	walked := 0
	for _, t := range m.triangles {
		for e := range 3 {
			a, b := t[e], t[(e+1)%3]
			border := outline.has(a, b)
			if border {
				walked++
			}
			if edges.count(a, b) != 1 || edges.count(b, a) > 1 || border == (edges.count(b, a) == 1) {
				return errors.New("the triangles leave a gap or overlap")
			}
		}
	}
	if walked != len(m.points) {
		return fmt.Errorf("the triangles leave out %d of its edges", len(m.points)-walked)
	}
	return nil
}

// mend splits triangles whose edge passes through a corner that the
// triangulation dropped for lying on a straight line.
func (m *planMesh) mend(outline outline) {
	for range len(m.points) {
		edges := m.edges()
		split := false
		for t := range m.triangles {
			for e := range 3 {
				a, b := m.triangles[t][e], m.triangles[t][(e+1)%3]
				if edges.count(b, a) > 0 || outline.has(a, b) {
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

// edgeTable is the directed edges of triangles by the corner they start from.
type edgeTable struct {
	first []int // where each corner's edges start
	to    []int
}

func (m *planMesh) edges() edgeTable {
	t := edgeTable{make([]int, len(m.points)+2), make([]int, 3*len(m.triangles))}
	for _, tri := range m.triangles {
		for _, a := range tri {
			t.first[a+2]++
		}
	}
	for i := 2; i < len(t.first); i++ {
		t.first[i] += t.first[i-1]
	}
	// Filling moves each start on to its end, which is the next one's start.
	for _, tri := range m.triangles {
		for e, a := range tri {
			t.to[t.first[a+1]] = tri[(e+1)%3]
			t.first[a+1]++
		}
	}
	return t
}

// count is how often the triangles walk from a to b.
func (t edgeTable) count(a, b int) int {
	n := 0
	for _, to := range t.to[t.first[a]:t.first[a+1]] {
		if to == b {
			n++
		}
	}
	return n
}

// pointsOn finds the corners strictly inside the segment a-b, in order.
func (m *planMesh) pointsOn(a, b int) []int {
	pa, pb := m.points[a], m.points[b]
	d := pb.Sub(pa)
	l := d.Len()
	var on []int
	at := func(v int) float64 { return m.points[v].Sub(pa).Dot(d) / (l * l) }
	for v := range m.points {
		if math.Abs(plan.Cross(d, m.points[v].Sub(pa))) >= plan.HairMM*l {
			continue
		}
		const endShare = 1e-9 // of the segment: its own ends, also where they lie twice
		if t := at(v); t > endShare && t < 1-endShare {
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
	if g < parallelSlope {
		return
	}
	distance := make([]float64, len(m.points))
	for i, p := range m.points {
		distance[i] = d.At(p) / g
		if math.Abs(distance[i]) < plan.HairMM {
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
