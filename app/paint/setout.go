package paint

import (
	"math"
	"slices"

	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// setOut draws a distance that is set out where its text finds room; one without room comes
// when one zooms in.
func (c *canvas) setOut(o section.SetOut) {
	s := c.style.Scale
	size := textSize * s
	text := c.style.Book.Say(o.Text)
	width := c.textWidth(text, size)
	for _, span := range o.Spans {
		line := c.strokeOf(span[0], span[1])
		if !c.open(line) || c.alongKept(line) {
			continue
		}
		for _, at := range c.besideLine(line, width, size) {
			if !c.room(textBox(at[0], at[1], width+2*patchSide*s, size)) {
				continue
			}
			ox, oy := c.to.ToPixel(o.Of)
			c.strokes([][2][2]float64{{{ox, oy}, line[1]}}, 0.6*s, c.leadInk())
			c.ticked(line)
			c.text(text, at[0], at[1], size, c.style.Ink)
			c.kept = append(c.kept, line)
			c.place(o.Key, o.Sets)
			return
		}
	}
}

// alongKept tells whether a straight runs along a line that is to be kept or is laid over the
// picture, so that one could not be told from the other.
func (c *canvas) alongKept(line stroke) bool {
	const asidePoints, leastPoints, withCos = 3, 8, 0.99
	s := c.style.Scale
	to := plan.Point(line[1]).Sub(plan.Point(line[0]))
	length := to.Len()
	to = to.Normalize()
	for _, k := range slices.Concat(c.kept, c.over) {
		a, b := plan.Point(k[0]).Sub(plan.Point(line[0])), plan.Point(k[1]).Sub(plan.Point(line[0]))
		if along := b.Sub(a); math.Abs(along.Dot(to)) < withCos*along.Len() || math.Abs(a.Dot(plan.Left(to))) > asidePoints*s {
			continue
		}
		from, end := math.Min(a.Dot(to), b.Dot(to)), math.Max(a.Dot(to), b.Dot(to))
		if math.Min(end, length)-math.Max(from, 0) > leastPoints*s {
			return true
		}
	}
	return false
}

// besideLine is where the text of a line may stand, the best first: on it where it leaves enough
// of the line to be seen, then beside it, then past its ends. None for a line too short to see.
func (c *canvas) besideLine(line stroke, width, size float64) (out [][2]float64) {
	const leastPoints, endPoints = 6, 10
	s := c.style.Scale
	dx, dy := line[1][0]-line[0][0], line[1][1]-line[0][1]
	length := line.length()
	if !(length >= leastPoints*s) {
		return nil
	}
	dx, dy = dx/length, dy/length
	on := c.onLine(line, width)
	if long := math.Abs(dx)*width + math.Abs(dy)*size; long+2*endPoints*s <= length {
		out = append(out, on...)
	}
	off := math.Abs(dy)*width/2 + math.Abs(dx)*size*0.6 + nameGap*s
	for _, at := range on {
		out = append(out, [2]float64{at[0] - dy*off, at[1] + dx*off}, [2]float64{at[0] + dy*off, at[1] - dx*off})
	}
	past := math.Abs(dx)*width/2 + math.Abs(dy)*size*0.6 + 2*nameGap*s
	return append(out, [2]float64{line[1][0] + dx*past, line[1][1] + dy*past}, [2]float64{line[0][0] - dx*past, line[0][1] - dy*past})
}
