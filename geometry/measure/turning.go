package measure

import (
	"container/heap"
	"math"

	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// turningCircleMM is the diameter of the largest circle on the room's floor clear of walls,
// fixtures, boxes over the run and stacks, over the shower or beside it.
//
// Method: squares are divided where the most that a circle about a place in them may have
// still beats the best; to a tenth of a millimetre of the radius.
func (m *Measurer) turningCircleMM() float64 {
	const withinMM = 0.1
	low, high, _ := m.Layout.Room.Bounds()
	best := 0.0
	todo := &squares{}
	clear := m.clearFloor()
	look := func(middle plan.Point, half float64) {
		is, most := clear.about(middle, half*math.Sqrt2)
		best = math.Max(best, is)
		if most > best+withinMM {
			heap.Push(todo, square{middle, half, most})
		}
	}
	half := math.Max(high.X()-low.X(), high.Y()-low.Y()) / 2
	look(low.Add(high).Mul(0.5), half)
	for todo.Len() > 0 {
		s := heap.Pop(todo).(square)
		if s.most <= best+withinMM {
			continue
		}
		h := s.half / 2
		for _, to := range [4]plan.Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			look(s.middle.Add(to), h)
		}
	}
	return 2 * best
}

// clearFloor is the floor with what stands on it.
type clearFloor struct {
	room   plan.Region
	taken  []plan.Region
	sides  [][2]plan.Point // of all of them
	stacks []layout.Stack
	// straight is room for what about finds.
	straight []sideway
}

// sideway is how far it is to a side that a place lies beside, and the direction away from it.
type sideway struct {
	mm   float64
	away plan.Point
}

func (m *Measurer) clearFloor() *clearFloor {
	c := &clearFloor{room: m.Layout.Room, stacks: m.Layout.Stacks}
	for _, s := range m.obstacles() {
		c.taken = append(c.taken, plan.FromRing(s.ring))
	}
	for _, of := range append([]plan.Region{c.room}, c.taken...) {
		for _, p := range of {
			for _, ring := range p.Rings() {
				for i, a := range ring {
					c.sides = append(c.sides, [2]plan.Point{a, ring[(i+1)%len(ring)]})
				}
			}
		}
	}
	return c
}

// about is the radius of the clear circle about a place, none where something stands, and
// the most that one about any place within reach may have.
//
// It grows by no more than the way there. Between two sides that both places lie beside,
// it is no more than half of what lies between them: else all places midway between two
// walls would have to be looked at.
func (c *clearFloor) about(p plan.Point, reachMM float64) (isMM, mostMM float64) {
	isMM = math.Inf(1)
	c.straight = c.straight[:0]
	for _, s := range c.sides {
		at := plan.NearestOnSegment(p, s[0], s[1])
		to := p.Sub(at)
		d := to.Len()
		isMM = min(isMM, d)
		if d > reachMM && at.Sub(s[0]).Len() > reachMM && at.Sub(s[1]).Len() > reachMM {
			c.straight = append(c.straight, sideway{d, to.Mul(1 / d)})
		}
	}
	for _, s := range c.stacks {
		isMM = min(isMM, p.Sub(s.At).Len()-s.RadiusMM)
	}
	if !c.free(p) {
		// The nearest free place lies beyond a side.
		return 0, reachMM - isMM
	}
	mostMM = isMM + reachMM
	for i, a := range c.straight {
		for _, b := range c.straight[:i] {
			mostMM = min(mostMM, (a.mm+b.mm+a.away.Add(b.away).Len()*reachMM)/2)
		}
	}
	return isMM, mostMM
}

// free tells whether a place lies in the room, and not in what stands there.
func (c *clearFloor) free(p plan.Point) bool {
	if !c.room.Contains(p, 0) {
		return false
	}
	for _, taken := range c.taken {
		if taken.Contains(p, 0) {
			return false
		}
	}
	return true
}

// square is a part of the floor that may hold the middle of a larger circle.
type square struct {
	middle     plan.Point
	half, most float64
}

// squares are the ones still to be looked at, the most promising first, and of those the
// smallest.
type squares []square

func (s squares) Len() int { return len(s) }
func (s squares) Less(i, k int) bool {
	return s[i].most > s[k].most || s[i].most == s[k].most && s[i].half < s[k].half
}
func (s squares) Swap(i, k int) { s[i], s[k] = s[k], s[i] }
func (s *squares) Push(x any)   { *s = append(*s, x.(square)) }
func (s *squares) Pop() any {
	last := (*s)[len(*s)-1]
	*s = (*s)[:len(*s)-1]
	return last
}
