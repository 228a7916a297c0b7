package plan

import (
	"cmp"
	"math"
	"slices"
)

// overlay joins and cuts two regions whose corners lie on the grid, where what
// comes out can be told for sure, and gives up where it cannot: then the boolean
// operations of the library decide. It is many times as quick as those, which
// serve shapes of any size. The zero value is ready; its lists are used again
// from one operation to the next.
//
// Method: edges are divided where they meet (corners on the grid are whole
// numbers, so that whether corners lie on edges, or edges on each other, is
// exact), each piece lies inside, outside or on the edge of the other region
// (Margalit and Knott 1989), and the pieces that bound the outcome are chained
// into rings. It gives up where edges cross within a hair of each other, where
// a piece lies so near to an edge that rounding would decide, where the rings of
// one region touch, and where more than one chain leaves a corner.
type overlay struct {
	edges   []overlayEdge
	order   []int32 // edges by their least x
	corners []Point // in steps of the grid, whole but where edges cross
	places  []Point // in millimetres
	same    []int32 // the corner of the other region in the same place, or itself
	sides   []uint8 // bit 1: on the first region's edges, bit 2: on the second's
	cuts    []edgeCut
	pieces  []edgePiece
	leaving []int32 // the piece that leaves each corner, or -1
	rings   [2][]overlayRing
}

type overlayRing struct {
	first, count int32 // of its edges
	polygon      int32
	hole         bool
	low, high    Point
}

type overlayEdge struct {
	from, to       int32 // corners
	x0, y0, x1, y1 int64
	lowX, highX    int64
	lowY, highY    int64
	side           uint8 // 0 or 1: of which region
	previous, next int32
}

// edgeCut is a corner that divides an edge at a share of its length.
type edgeCut struct {
	edge, corner int32
	share        float64
}

// edgePiece is a part of an edge between two places where the regions may meet.
type edgePiece struct {
	from, to int32
	side     uint8
	lies     place
	kept     bool
}

// place is where a piece lies by the other region.
type place uint8

const (
	unknown place = iota
	outside
	inside
	onSameWay  // on an edge walked the same way
	onOtherWay // on an edge walked the other way
)

// operation is what is done with two regions.
type operation uint8

const (
	union operation = iota
	difference
	intersection
)

const (
	// mostSteps keeps products of whole coordinates within 64 bits.
	mostSteps = 1 << 29
	// apartSteps is how far apart the places must lie where an edge meets the
	// other region for their order to be sure, and surelySteps how far from an
	// edge a point must lie for its side to be.
	apartSteps  = 10
	surelySteps = 0.01
)

// combine gives the outcome; ok is false where it is not sure. The corners of
// both regions lie on the grid.
func (o *overlay) combine(a, b Region, stepMM float64, op operation) (out Region, ok bool) {
	o.edges, o.corners, o.places, o.cuts, o.pieces = o.edges[:0], o.corners[:0], o.places[:0], o.cuts[:0], o.pieces[:0]
	o.same, o.sides = o.same[:0], o.sides[:0]
	if !o.take(a, 0, stepMM) || !o.take(b, 1, stepMM) || !o.meet() || !o.nested(0) || !o.nested(1) {
		return nil, false
	}
	o.divide()
	if !o.place() {
		return nil, false
	}
	o.choose(op)
	return o.chain()
}

// take lists the edges of a region.
func (o *overlay) take(r Region, side uint8, stepMM float64) bool {
	o.rings[side] = o.rings[side][:0]
	for n, p := range r {
		for k := range p.rings() {
			ring := p.ring(k)
			if area := ring.SignedArea(); len(ring) < 3 || k == 0 && area <= 0 || k > 0 && area >= 0 {
				return false
			}
			first, corner := int32(len(o.edges)), int32(len(o.corners))
			count := int32(len(ring))
			low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
			for _, q := range ring {
				at := Point{math.Round(q.X() / stepMM), math.Round(q.Y() / stepMM)}
				if !(math.Abs(at.X()) < mostSteps && math.Abs(at.Y()) < mostSteps) {
					return false
				}
				low = Point{math.Min(low.X(), at.X()), math.Min(low.Y(), at.Y())}
				high = Point{math.Max(high.X(), at.X()), math.Max(high.Y(), at.Y())}
				o.addCorner(at, q, 1<<side)
			}
			for i := range count {
				next := (i + 1) % count
				a, b := o.corners[corner+i], o.corners[corner+next]
				e := overlayEdge{from: corner + i, to: corner + next, side: side,
					previous: first + (i+count-1)%count, next: first + next,
					x0: int64(a.X()), y0: int64(a.Y()), x1: int64(b.X()), y1: int64(b.Y())}
				e.lowX, e.highX, e.lowY, e.highY = min(e.x0, e.x1), max(e.x0, e.x1), min(e.y0, e.y1), max(e.y0, e.y1)
				o.edges = append(o.edges, e)
			}
			o.rings[side] = append(o.rings[side], overlayRing{first, count, int32(n), k > 0, low, high})
		}
	}
	return true
}

func (o *overlay) addCorner(at, placeMM Point, sides uint8) int32 {
	n := int32(len(o.corners))
	o.corners, o.places = append(o.corners, at), append(o.places, placeMM)
	o.same, o.sides = append(o.same, n), append(o.sides, sides)
	return n
}

// meet finds where edges cross and touch; false where those of one region do.
func (o *overlay) meet() bool {
	o.order = o.order[:0]
	for i := range o.edges {
		o.order = append(o.order, int32(i))
	}
	slices.SortFunc(o.order, func(i, j int32) int { return cmp.Compare(o.edges[i].lowX, o.edges[j].lowX) })
	for n, i := range o.order {
		e := &o.edges[i]
		for _, j := range o.order[n+1:] {
			f := &o.edges[j]
			if f.lowX > e.highX {
				break
			}
			if f.lowY > e.highY || f.highY < e.lowY {
				continue
			}
			if e.side == f.side {
				if !apart(e, f, i, j) {
					return false
				}
				continue
			}
			if e.side == 0 {
				o.meeting(i, j)
			} else {
				o.meeting(j, i)
			}
		}
	}
	return true
}

// turn is twice the area of a triangle, positive counter-clockwise. It is exact.
func turn(ax, ay, bx, by, cx, cy int64) int64 { return (bx-ax)*(cy-ay) - (by-ay)*(cx-ax) }

// apart tells whether two edges of one region meet nowhere but at the corner
// that neighbours share.
func apart(e, f *overlayEdge, i, j int32) bool {
	if e.next == j || f.next == i {
		if f.next == i {
			e, f = f, e
		}
		// Not folded back.
		return turn(e.x0, e.y0, e.x1, e.y1, f.x1, f.y1) != 0 || (e.x1-e.x0)*(f.x1-f.x0)+(e.y1-e.y0)*(f.y1-f.y0) > 0
	}
	a, b := turn(f.x0, f.y0, f.x1, f.y1, e.x0, e.y0), turn(f.x0, f.y0, f.x1, f.y1, e.x1, e.y1)
	if a > 0 && b > 0 || a < 0 && b < 0 {
		return true
	}
	c, d := turn(e.x0, e.y0, e.x1, e.y1, f.x0, f.y0), turn(e.x0, e.y0, e.x1, e.y1, f.x1, f.y1)
	// On one line, boxes that meet are edges that meet.
	return c > 0 && d > 0 || c < 0 && d < 0
}

// meeting notes where an edge of the first region meets one of the second.
func (o *overlay) meeting(i, j int32) {
	e, f := &o.edges[i], &o.edges[j]
	a, b := turn(f.x0, f.y0, f.x1, f.y1, e.x0, e.y0), turn(f.x0, f.y0, f.x1, f.y1, e.x1, e.y1)
	if a > 0 && b > 0 || a < 0 && b < 0 {
		return
	}
	c, d := turn(e.x0, e.y0, e.x1, e.y1, f.x0, f.y0), turn(e.x0, e.y0, e.x1, e.y1, f.x1, f.y1)
	if c > 0 && d > 0 || c < 0 && d < 0 {
		return
	}
	if a != 0 && b != 0 && c != 0 && d != 0 {
		s, t := float64(a)/float64(a-b), float64(c)/float64(c-d)
		from, to := o.corners[e.from], o.corners[e.to]
		fromMM, toMM := o.places[e.from], o.places[e.to]
		x := o.addCorner(from.Add(to.Sub(from).Mul(s)), fromMM.Add(toMM.Sub(fromMM).Mul(s)), 3)
		o.cuts = append(o.cuts, edgeCut{i, x, s}, edgeCut{j, x, t})
		return
	}
	// Every corner is the end of one edge, and the start of the next.
	if b == 0 {
		o.touch(e.to, e.x1, e.y1, j)
	}
	if d == 0 {
		o.touch(f.to, f.x1, f.y1, i)
	}
}

// touch notes a corner in line with an edge of the other region, if it lies on
// it.
func (o *overlay) touch(corner int32, x, y int64, edge int32) {
	e := &o.edges[edge]
	if x < e.lowX || x > e.highX || y < e.lowY || y > e.highY {
		return
	}
	for _, end := range [2]struct {
		corner int32
		x, y   int64
	}{{e.from, e.x0, e.y0}, {e.to, e.x1, e.y1}} {
		if x == end.x && y == end.y {
			// The second region's corner stands for the first's.
			first, second := end.corner, corner
			if first > second {
				first, second = second, first
			}
			o.same[second] = first
			o.sides[first] = 3
			return
		}
	}
	o.sides[corner] = 3
	dx, dy := e.x1-e.x0, e.y1-e.y0
	o.cuts = append(o.cuts, edgeCut{edge, corner, float64((x-e.x0)*dx+(y-e.y0)*dy) / float64(dx*dx+dy*dy)})
}

// nested tells whether a region's rings, which do not touch, lie as they should:
// holes in the polygon they belong to, nothing else in anything.
func (o *overlay) nested(side uint8) bool {
	rings := o.rings[side]
	for i := range rings {
		for k := range rings {
			if i == k {
				continue
			}
			should := rings[i].hole && !rings[k].hole && rings[i].polygon == rings[k].polygon
			in, sure := o.within(o.corners[o.edges[rings[i].first].from], rings[k])
			// An island within another polygon's hole lies in that polygon's outer
			// ring too; that is left to the library.
			if !sure || in != should {
				return false
			}
		}
	}
	return true
}

// within tells whether a point lies in a ring; sure is false near an edge.
func (o *overlay) within(p Point, ring overlayRing) (in, sure bool) {
	if p.X() < ring.low.X() || p.X() > ring.high.X() || p.Y() < ring.low.Y() || p.Y() > ring.high.Y() {
		return false, true
	}
	for i := ring.first; i < ring.first+ring.count; i++ {
		e := &o.edges[i]
		a, b := Point{float64(e.x0), float64(e.y0)}, Point{float64(e.x1), float64(e.y1)}
		if (a.Y() > p.Y()) == (b.Y() > p.Y()) {
			continue
		}
		along := b.Sub(a)
		side := Cross(along, p.Sub(a))
		if math.Abs(side) <= surelySteps*(math.Abs(along.X())+math.Abs(along.Y())) {
			return false, false
		}
		if (side > 0) == (b.Y() > a.Y()) {
			in = !in
		}
	}
	return in, true
}

// divide makes the pieces of all edges.
func (o *overlay) divide() {
	slices.SortFunc(o.cuts, func(a, b edgeCut) int {
		if a.edge != b.edge {
			return cmp.Compare(a.edge, b.edge)
		}
		return cmp.Compare(a.share, b.share)
	})
	cuts := o.cuts
	for i := range o.edges {
		e := &o.edges[i]
		from := o.same[e.from]
		add := func(to int32) {
			if from != to {
				o.pieces = append(o.pieces, edgePiece{from: from, to: to, side: e.side})
			}
			from = to
		}
		for len(cuts) > 0 && cuts[0].edge == int32(i) {
			add(o.same[cuts[0].corner])
			cuts = cuts[1:]
		}
		add(o.same[e.to])
	}
}

// place says of every piece where it lies by the other region; false where that
// is not sure.
func (o *overlay) place() bool {
	for i := range o.pieces {
		p := &o.pieces[i]
		a, b := o.corners[p.from], o.corners[p.to]
		if d := b.Sub(a); o.sides[p.from] == 3 && o.sides[p.to] == 3 {
			if math.Abs(d.X())+math.Abs(d.Y()) < apartSteps {
				return false
			}
			if p.lies = o.shared(p); p.lies != unknown {
				continue
			}
		}
		// Nothing changes between two pieces that meet where the other region is
		// not.
		if i > 0 && o.pieces[i-1].to == p.from && o.sides[p.from] != 3 {
			p.lies = o.pieces[i-1].lies
			continue
		}
		in, sure := false, true
		middle := a.Add(b).Mul(0.5)
		for _, ring := range o.rings[1-p.side] {
			within, known := o.within(middle, ring)
			in, sure = in != within, sure && known
		}
		if !sure {
			return false
		}
		if p.lies = outside; in {
			p.lies = inside
		}
	}
	return true
}

// shared tells whether a piece lies on one of the other region.
func (o *overlay) shared(p *edgePiece) place {
	for k := range o.pieces {
		q := &o.pieces[k]
		switch {
		case q.side == p.side:
		case q.from == p.from && q.to == p.to:
			return onSameWay
		case q.from == p.to && q.to == p.from:
			return onOtherWay
		}
	}
	return unknown
}

// choose keeps the pieces that bound the outcome, turned the way they run round
// it.
func (o *overlay) choose(op operation) {
	o.leaving = o.leaving[:0]
	for range o.corners {
		o.leaving = append(o.leaving, -1)
	}
	for i := range o.pieces {
		p := &o.pieces[i]
		switch p.lies {
		case outside:
			p.kept = op == union || op == difference && p.side == 0
		case inside:
			p.kept = op == intersection || op == difference && p.side == 1
		case onSameWay:
			p.kept = op != difference && p.side == 0
		case onOtherWay:
			p.kept = op == difference && p.side == 0
		}
		if !p.kept {
			continue
		}
		if op == difference && p.side == 1 {
			p.from, p.to = p.to, p.from
		}
		o.leaving[p.from] = int32(i)
	}
}

// chain makes rings of the pieces kept, and polygons of those. Where two leave one
// corner no piece leads on to the first of them, and its chain does not close:
// then it is not ok.
func (o *overlay) chain() (out Region, ok bool) {
	var holes []Ring
	for i := range o.pieces {
		if !o.pieces[i].kept {
			continue
		}
		count := 0
		for at := int32(i); ; count++ {
			p := &o.pieces[at]
			p.kept = false
			if at = o.leaving[p.to]; at == int32(i) {
				break
			}
			if at < 0 || !o.pieces[at].kept {
				return nil, false
			}
		}
		ring := make(Ring, 0, count+1)
		for at := int32(i); len(ring) <= count; at = o.leaving[o.pieces[at].to] {
			q := o.places[o.pieces[at].from]
			ring = append(ring, Point{onGrid(q.X(), snapMM), onGrid(q.Y(), snapMM)})
		}
		ring = ring.straightened()
		switch area := ring.SignedArea(); {
		case len(ring) < 3 || math.Abs(area) < sliverMM2:
		case area > 0:
			out = append(out, Polygon{Outer: ring})
		default:
			holes = append(holes, ring)
		}
	}
	for _, h := range holes {
		into := -1
		for i := range out {
			if into < 0 || out[i].Outer.encloses(h[0]) {
				if into >= 0 && out[into].Outer.encloses(h[0]) {
					return nil, false // one within another; left to the library
				}
				into = i
			}
		}
		if into < 0 || !out[into].Outer.encloses(h[0]) {
			return nil, false
		}
		out[into].Holes = append(out[into].Holes, h)
	}
	return out, true
}

// encloses tells whether a point that is not on the ring lies within it.
func (r Ring) encloses(p Point) bool {
	in := false
	for i, a := range r {
		b := r[(i+1)%len(r)]
		if (a.Y() > p.Y()) != (b.Y() > p.Y()) && p.X() < a.X()+(p.Y()-a.Y())/(b.Y()-a.Y())*(b.X()-a.X()) {
			in = !in
		}
	}
	return in
}
