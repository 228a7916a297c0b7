package placing

import (
	"math"
	"slices"
)

// Cover is how much of a picture is taken, in small square cells: what has been drawn so far in a
// box is told without looking at the drawing.
//
// Method: counts in cells, and sums of them over all that lies above and to the left (a summed-area
// table), so that any box takes four of them. A box that covers part of a cell counts as much of it.
type Cover struct {
	cell       float64
	wide, high int
	counts     []float64
	sums       []float64 // one more than the cells each way; nil while counts are added
}

// NewCover is of a picture from its corner on, in cells so large.
func NewCover(width, height, cell float64) *Cover {
	wide, high := max(1, int(math.Ceil(width/cell))), max(1, int(math.Ceil(height/cell)))
	return &Cover{cell: cell, wide: wide, high: high, counts: make([]float64, wide*high)}
}

// along calls f with the cells that a straight passes through, each once.
func (c *Cover) along(s Straight, f func(x, y int)) {
	from, to := s.Within(Box{High: Point{float64(c.wide) * c.cell, float64(c.high) * c.cell}})
	if !(from < to) {
		return
	}
	const perCell = 1.5 // steps in a cell, so that none is passed over by much
	steps := int(math.Ceil((to - from) * s.Length() / c.cell * perCell))
	lastX, lastY := -1, -1
	for i := 0; i <= steps; i++ {
		t := from + (to-from)*float64(i)/math.Max(1, float64(steps))
		x, y := int((s[0][0]+t*(s[1][0]-s[0][0]))/c.cell), int((s[0][1]+t*(s[1][1]-s[0][1]))/c.cell)
		if (x != lastX || y != lastY) && x >= 0 && y >= 0 && x < c.wide && y < c.high {
			f(x, y)
			lastX, lastY = x, y
		}
	}
}

// Line adds a straight, with a weight for every cell that it passes through.
func (c *Cover) Line(s Straight, weight float64) {
	c.along(s, func(x, y int) { c.counts[y*c.wide+x] += weight })
	c.sums = nil
}

// Fill marks the cells whose middles lie in closed rings, by the even-odd rule, with a weight.
func (c *Cover) Fill(rings [][]Point, weight float64) {
	var at []float64
	for y := range c.high {
		middle := (float64(y) + 0.5) * c.cell
		at = at[:0]
		for _, r := range rings {
			for i, a := range r {
				b := r[(i+1)%len(r)]
				if (a[1] > middle) != (b[1] > middle) {
					at = append(at, a[0]+(middle-a[1])/(b[1]-a[1])*(b[0]-a[0]))
				}
			}
		}
		slices.Sort(at)
		for i := 0; i+1 < len(at); i += 2 {
			from := max(0, int(math.Ceil(at[i]/c.cell-0.5)))
			to := min(c.wide-1, int(math.Floor(at[i+1]/c.cell-0.5)))
			for x := from; x <= to; x++ {
				c.counts[y*c.wide+x] = weight
			}
		}
	}
	c.sums = nil
}

func (c *Cover) sum() {
	c.sums = make([]float64, (c.wide+1)*(c.high+1))
	for y := range c.high {
		row := 0.0
		for x := range c.wide {
			row += c.counts[y*c.wide+x]
			c.sums[(y+1)*(c.wide+1)+x+1] = c.sums[y*(c.wide+1)+x+1] + row
		}
	}
}

// upTo is the sum of all cells above and to the left of a place, given in cells.
func (c *Cover) upTo(x, y float64) float64 {
	x, y = math.Max(0, math.Min(float64(c.wide), x)), math.Max(0, math.Min(float64(c.high), y))
	i, k := min(int(x), c.wide-1), min(int(y), c.high-1)
	u, v := x-float64(i), y-float64(k)
	at := func(i, k int) float64 { return c.sums[k*(c.wide+1)+i] }
	return (1-v)*((1-u)*at(i, k)+u*at(i+1, k)) + v*((1-u)*at(i, k+1)+u*at(i+1, k+1))
}

// In is how much there is in a box, in cells by their weights.
func (c *Cover) In(b Box) float64 {
	if c.sums == nil {
		c.sum()
	}
	x0, y0, x1, y1 := b.Low[0]/c.cell, b.Low[1]/c.cell, b.High[0]/c.cell, b.High[1]/c.cell
	return math.Max(0, c.upTo(x1, y1)-c.upTo(x0, y1)-c.upTo(x1, y0)+c.upTo(x0, y0))
}

// ofLine is how much of what is in a box one straight has added, with a weight for a cell.
func (c *Cover) ofLine(s Straight, b Box, weight float64) (sum float64) {
	if !s.Meets(b) {
		return 0
	}
	share := func(k int, low, high float64) float64 {
		from, to := float64(k)*c.cell, float64(k+1)*c.cell
		return math.Max(0, math.Min(to, high)-math.Max(from, low)) / c.cell
	}
	c.along(s, func(x, y int) { sum += weight * share(x, b.Low[0], b.High[0]) * share(y, b.Low[1], b.High[1]) })
	return sum
}

// on is how much there is in the cells that a straight passes through.
func (c *Cover) on(s Straight) (sum float64) {
	if c.noneAbout(s) { // as about most
		return 0
	}
	c.along(s, func(x, y int) { sum += c.counts[y*c.wide+x] })
	return sum
}

// noneAbout tells that there is nothing in the cells of the box about a straight; it may say no where there is nothing.
func (c *Cover) noneAbout(s Straight) bool {
	if c.sums == nil { // summing up takes longer than looking at a few
		return false
	}
	from := func(k, most int) int { return max(0, min(most, int(min(s[0][k], s[1][k])/c.cell))) }
	to := func(k, most int) int { return max(0, min(most, int(max(s[0][k], s[1][k])/c.cell)+1)) }
	x0, y0, x1, y1 := from(0, c.wide), from(1, c.high), to(0, c.wide), to(1, c.high)
	at := func(x, y int) float64 { return c.sums[y*(c.wide+1)+x] }
	return at(x1, y1) == at(x0, y1) && at(x1, y0) == at(x0, y0)
}
