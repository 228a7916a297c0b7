package trace

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
)

// box is between two corners.
type box struct{ low, high mgl32.Vec3 }

func noBox() box {
	inf := float32(math.Inf(1))
	return box{mgl32.Vec3{inf, inf, inf}, mgl32.Vec3{-inf, -inf, -inf}}
}

func (b box) join(o box) box {
	for k := range 3 {
		b.low[k], b.high[k] = min(b.low[k], o.low[k]), max(b.high[k], o.high[k])
	}
	return b
}

// area is half the box's surface; 0 of no box.
func (b box) area() float32 {
	d := b.high.Sub(b.low)
	if d[0] < 0 {
		return 0
	}
	return d[0]*d[1] + d[1]*d[2] + d[2]*d[0]
}

// node is a box of the tree: of two nodes, or with some triangles in it.
type node struct {
	box
	left, right *node
	axis        int // the two lie beside each other along
	from, count int // triangles in the tree's order
	size        int // nodes from here down
}

// tree is boxes in boxes round triangles.
type tree struct {
	root  *node
	order []int // triangles as the leaves count them
}

const (
	treeBins      = 16
	mostInLeaf    = 8
	fewInLeaf     = 2   // not worth dividing
	costOfABox    = 0.7 // against that of a triangle
	boxSlackMM    = 0.02
	leafCountBits = 4 // mostInLeaf fits
)

// plant makes the tree of triangles; without any it has no root.
//
// Method: divided where the surface area heuristic is least, of so many places
// along each axis (Wald 2007, "On fast construction of SAH-based bounding volume
// hierarchies").
func plant(triangles []Triangle) tree {
	g := gardener{order: make([]int, len(triangles)), boxes: make([]box, len(triangles)), middles: make([]mgl32.Vec3, len(triangles))}
	for i, t := range triangles {
		b := box{t.Corners[0], t.Corners[0]}.join(box{t.Corners[1], t.Corners[1]}).join(box{t.Corners[2], t.Corners[2]})
		slack := mgl32.Vec3{boxSlackMM, boxSlackMM, boxSlackMM}
		g.order[i], g.boxes[i], g.middles[i] = i, box{b.low.Sub(slack), b.high.Add(slack)}, b.low.Add(b.high).Mul(0.5)
	}
	out := tree{order: g.order}
	if len(triangles) > 0 {
		out.root = g.grow(0, len(triangles))
	}
	return out
}

type gardener struct {
	order   []int
	boxes   []box
	middles []mgl32.Vec3
}

// grow makes the node of some of the triangles and puts them in its order.
func (g *gardener) grow(from, to int) *node {
	n := &node{box: noBox(), from: from, count: to - from, size: 1}
	middles := noBox()
	for _, i := range g.order[from:to] {
		n.box, middles = n.join(g.boxes[i]), middles.join(box{g.middles[i], g.middles[i]})
	}
	if n.count <= fewInLeaf {
		return n
	}
	axis, at, ok := g.divide(n, middles)
	middle := from
	if ok {
		for i := from; i < to; i++ {
			if bin(g.middles[g.order[i]], middles, axis) < at {
				g.order[i], g.order[middle] = g.order[middle], g.order[i]
				middle++
			}
		}
	} else {
		if n.count <= mostInLeaf {
			return n
		}
		middle = (from + to) / 2 // all lie on one place
	}
	n.axis = axis
	n.left, n.right = g.grow(from, middle), g.grow(middle, to)
	n.size += n.left.size + n.right.size
	n.count = 0
	return n
}

func bin(p mgl32.Vec3, in box, axis int) int {
	return min(treeBins-1, int((p[axis]-in.low[axis])/(in.high[axis]-in.low[axis])*treeBins))
}

// divide finds where to divide a node; not ok where it should stay whole.
func (g *gardener) divide(n *node, middles box) (axis, at int, ok bool) {
	best := float32(n.count) * n.area()
	if n.count > mostInLeaf {
		best = float32(math.Inf(1))
	}
	for k := range 3 {
		if middles.high[k]-middles.low[k] < 1e-6 {
			continue
		}
		var boxes [treeBins]box
		var counts [treeBins]int
		for b := range boxes {
			boxes[b] = noBox()
		}
		for _, i := range g.order[n.from : n.from+n.count] {
			b := bin(g.middles[i], middles, k)
			boxes[b], counts[b] = boxes[b].join(g.boxes[i]), counts[b]+1
		}
		var above [treeBins]float32 // cost of the bins from here on
		sum, c := noBox(), 0
		for b := treeBins - 1; b > 0; b-- {
			sum, c = sum.join(boxes[b]), c+counts[b]
			above[b] = float32(c) * sum.area()
		}
		sum, c = noBox(), 0
		for b := 1; b < treeBins; b++ {
			sum, c = sum.join(boxes[b-1]), c+counts[b-1]
			if c == 0 || c == n.count {
				continue
			}
			if cost := costOfABox*n.area() + float32(c)*sum.area() + above[b]; cost < best {
				best, axis, at, ok = cost, k, b, true
			}
		}
	}
	return axis, at, ok
}

// octants is how many ways a ray can head.
const octants = 8

// pack lays the tree out for the shader, once for each octant that a ray may head
// into, so that near boxes come first: of each node low corner and the node to
// skip to, then high corner and its triangles (first and count; -1 for none).
// Every octant has the same number of nodes.
func (t tree) pack() (nodes []float32, each int) {
	if t.root == nil {
		return nil, 0
	}
	each = t.root.size
	nodes = make([]float32, 0, octants*each*8)
	for octant := range octants {
		at := 0
		var lay func(n *node)
		lay = func(n *node) {
			leaf := float32(-1)
			if n.left == nil {
				leaf = float32(n.from<<leafCountBits | n.count)
			}
			nodes = append(nodes, n.low[0], n.low[1], n.low[2], float32(at+n.size), n.high[0], n.high[1], n.high[2], leaf)
			at++
			if n.left == nil {
				return
			}
			near, far := n.left, n.right
			if octant>>n.axis&1 == 1 {
				near, far = far, near
			}
			lay(near)
			lay(far)
		}
		lay(t.root)
	}
	return nodes, each
}
