package paint

import (
	"image"
	"image/color"
	"math"

	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Lit draws a measure over a picture so that it is what one sees of it: an arrow from end to end in
// the accent, and a word on a plate beside it.
func (p *Painter) Lit(img *image.RGBA, v View, s Style, from, to plan.Point, word string) {
	c := &canvas{pen: p.fonts.On(img), view: v, to: v, style: s}
	var a, b placing.Point
	a[0], a[1] = v.ToPixel(from)
	b[0], b[1] = v.ToPixel(to)
	long := math.Hypot(b[0]-a[0], b[1]-a[1])
	if long == 0 {
		return
	}
	along := placing.Point{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
	across := placing.Point{-along[1], along[0]}
	c.litArrow(a, b, along, across)
	size := section.TextPoints * s.Scale
	half := c.textWidth(word, size)/2 + 5*s.Scale
	middle := placing.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
	off := 9*s.Scale + math.Abs(across[0])*half + math.Abs(across[1])*size*0.8
	if off < long/2 && math.Abs(along[0]) > 0.5 {
		off = 0 // on the line itself where that is long enough
	}
	at := c.litPlace(middle, across, off, half, size)
	if off > 0 {
		c.pen.Stroke([]placing.Straight{{middle, at}}, s.Scale, s.Accent)
	}
	c.plate(at, half, size, s.Accent)
	c.litWord(word, at, size)
}

// litPlace is where the word stands: beside the middle of the measure, on the side where there is room.
func (c *canvas) litPlace(middle, across placing.Point, off, half, size float64) placing.Point {
	at := func(sign float64) placing.Point {
		return placing.Point{middle[0] + sign*off*across[0], middle[1] + sign*off*across[1]}
	}
	first := -1.0 // to the left of an upright measure, over a level one
	if across[0] < 0 || across[1] > 0 && math.Abs(across[1]) > math.Abs(across[0]) {
		first = 1
	}
	if math.Abs(across[1]) > math.Abs(across[0]) {
		first = -first
	}
	for _, sign := range []float64{first, -first} {
		q := at(sign)
		if q[0] >= half && q[0] <= float64(c.view.Width)-half && q[1] >= size && q[1] <= float64(c.view.Height)-size {
			return q
		}
	}
	return at(first)
}

// litArrow draws the line with a stroke at both ends and heads that point at them: from within,
// or from without where there is no room.
func (c *canvas) litArrow(a, b, along, across placing.Point) {
	s := c.style.Scale
	width, head, tick := 2*s, 6*s, 5*s
	long := math.Hypot(b[0]-a[0], b[1]-a[1])
	to := func(p placing.Point, l, q float64) placing.Point {
		return placing.Point{p[0] + along[0]*l + across[0]*q, p[1] + along[1]*l + across[1]*q}
	}
	lines := []placing.Straight{{to(a, 0, -tick), to(a, 0, tick)}, {to(b, 0, -tick), to(b, 0, tick)}, {a, b}}
	in := 1.0
	if long < 3*head {
		in = -1
		lines = append(lines, placing.Straight{a, to(a, -2*head, 0)}, placing.Straight{b, to(b, 2*head, 0)})
	}
	c.pen.Stroke(lines, width, c.style.Accent)
	c.pen.Fill([][]placing.Point{{a, to(a, in*head, head/2), to(a, in*head, -head/2)}}, c.style.Accent)
	c.pen.Fill([][]placing.Point{{b, to(b, -in*head, head/2), to(b, -in*head, -head/2)}}, c.style.Accent)
}

// plate is a plate of paper with an edge.
func (c *canvas) plate(at placing.Point, half, size float64, edge color.RGBA) {
	s := c.style.Scale
	high := size * 0.8
	box := placing.Around(at, 2*half, 2*high)
	c.pen.Fill([][]placing.Point{box.Grown(s).Corners()}, edge)
	c.pen.Fill([][]placing.Point{box.Corners()}, c.style.Paper)
}

// litWord writes the word on its plate.
func (c *canvas) litWord(word string, at placing.Point, size float64) {
	c.text(word, at[0], at[1], size, c.style.Accent)
}
