package paint

import (
	"image"
	"image/color"
	"math"

	"underfall/geometry/edit"
	"underfall/geometry/section"
)

// dimension draws a dimension with its text; one too small to read comes when one zooms in.
func (c *canvas) dimension(d section.Dimension) {
	text, size := c.style.Book.Say(d.Text), textSize*c.style.Scale
	width := c.textWidth(text, size)
	l, ok := c.lineOf(d)
	if !ok || !c.readable(l, width) {
		return
	}
	c.dimensionLine(l)
	if at, ok := c.dimensionText(l, width); ok {
		c.text(text, at[0], at[1], size, c.style.Ink)
		c.place(d.Key, edit.FromWall{})
	}
	c.kept = append(c.kept, l.line) // from now on: its own text may stand on it
}

// dimensioned is a dimension as it comes to lie on the picture: what it measures, its line, and the
// way that the line stands off, of length one.
type dimensioned struct {
	of, line stroke
	side     [2]float64
}

// upright tells whether it stands off sideways.
func (l *dimensioned) upright() bool { return math.Abs(l.side[0]) > math.Abs(l.side[1]) }

// flat tells a drawing from a camera's picture.
func (c *canvas) flat() bool {
	_, flat := c.to.(View)
	return flat
}

// lineOf is where a dimension lies on the picture; ok is false behind the camera.
func (c *canvas) lineOf(d section.Dimension) (l dimensioned, ok bool) {
	ax, ay := c.to.ToPixel(d.From)
	bx, by := c.to.ToPixel(d.To)
	ox, oy := c.to.ToPixel(d.From.Add(d.Side.Mul(10)))
	sx, sy := ox-ax, oy-ay
	if l := math.Hypot(sx, sy); l > 1e-9 {
		sx, sy = sx/l, sy/l
	}
	if math.IsNaN(ax + ay + bx + by + sx + sy) {
		return l, false
	}
	l.of, l.side = stroke{{ax, ay}, {bx, by}}, [2]float64{sx, sy}
	spread := float64(levelSpread)
	if l.upright() {
		spread = uprightSpread
	}
	off := rowOffset(d, spread) * c.style.Scale
	// The dimension line runs square to the side, at the further of the ends; in
	// a camera's picture, beside what it measures.
	reach := math.Max(ax*sx+ay*sy, bx*sx+by*sy) + off
	pa, pb := reach-(ax*sx+ay*sy), reach-(bx*sx+by*sy)
	if !c.flat() {
		pa, pb = off, off
	}
	l.line = stroke{{ax + sx*pa, ay + sy*pa}, {bx + sx*pb, by + sy*pb}}
	return l, true
}

// readable tells whether a dimension is large enough to be read at this scale, and in a camera's
// picture whether its text, of a width, would not be cut off by the rim.
func (c *canvas) readable(l dimensioned, width float64) bool {
	s, length, a, b := c.style.Scale, l.line.length(), l.line[0], l.line[1]
	if length < 3*s || l.upright() && length < 13*s {
		return false
	}
	return c.flat() || inside(c.image.Bounds(), (a[0]+b[0])/2, (a[1]+b[1])/2, width/2+4*s)
}

// dimensionLine draws the line of a dimension, and those that lead out to it.
func (c *canvas) dimensionLine(l dimensioned) {
	s := c.style.Scale
	over := 4 * s
	var leads [][2][2]float64
	for k, end := range l.line {
		leads = append(leads, [2][2]float64{l.of[k], {end[0] + l.side[0]*over, end[1] + l.side[1]*over}})
	}
	c.strokes(leads, 0.6*s, c.leadInk())
	c.ticked(l.line)
	c.broken(l.line)
}

// broken marks, on a drawing, where a line runs on off the picture.
func (c *canvas) broken(line stroke) {
	const inPoints, halfPoints, stepPoints = 9, 5, 2.5
	if !c.flat() {
		return
	}
	s := c.style.Scale
	from, to := c.shown(line)
	length := line.length()
	if (to-from)*length < 4*inPoints*s {
		return
	}
	dx, dy := (line[1][0]-line[0][0])/length, (line[1][1]-line[0][1])/length
	for _, end := range [2]struct {
		off bool
		at  float64
	}{{from > 0, from*length + inPoints*s}, {to < 1, to*length - inPoints*s}} {
		if !end.off {
			continue
		}
		at := func(along, aside float64) [2]float64 {
			t := end.at + along*s
			return [2]float64{line[0][0] + dx*t - dy*aside*s, line[0][1] + dy*t + dx*aside*s}
		}
		gap, a, b := [2][2]float64{at(-stepPoints, 0), at(stepPoints, 0)}, at(-stepPoints/2, halfPoints), at(stepPoints/2, -halfPoints)
		c.strokes([][2][2]float64{gap}, 2*s, c.style.Paper)
		c.strokes([][2][2]float64{{at(-stepPoints, 0), a}, {a, b}, {b, at(stepPoints, 0)}}, 0.9*s, c.style.Ink)
	}
}

// leadInk is the ink of what leads out to a line.
func (c *canvas) leadInk() color.RGBA { return mix(c.style.Paper, c.style.Ink, 0.45) }

// ticked draws a line with a tick across each of its ends.
func (c *canvas) ticked(line stroke) {
	s := c.style.Scale
	tick := 4 * s
	c.strokes([][2][2]float64{line}, 0.9*s, c.style.Ink)
	var ticks [][2][2]float64
	for _, end := range line {
		ticks = append(ticks, [2][2]float64{{end[0] - tick, end[1] + tick}, {end[0] + tick, end[1] - tick}})
	}
	c.strokes(ticks, 1.4*s, c.style.Ink)
}

// dimensionText is where the text of a dimension, of a width, finds room: keeping off lines where
// it can; ok is false where there is none.
func (c *canvas) dimensionText(l dimensioned, width float64) (at [2]float64, ok bool) {
	s, a, b := c.style.Scale, l.line[0], l.line[1]
	vertical, short := math.Abs(b[1]-a[1]) > math.Abs(b[0]-a[0]), width+6*s > l.line.length()
	places := c.onLine(l.line, width)
	for i := range places {
		at := &places[i]
		switch {
		case vertical:
			// Beside the line, outwards; on the line it would hide it.
			at[0] = math.Max(width/2+3*s, math.Min(float64(c.view.Width)-width/2-3*s, at[0]+l.side[0]*(width/2+6*s)))
		case short:
			// No room on the line: below it, when nothing is there.
			at[1] += 13 * s * sign(l.side[1])
		}
	}
	if short || math.Abs(b[1]-a[1]) < width && vertical {
		places = places[:1]
	}
	for _, good := range [...]func(image.Rectangle) bool{c.clear, c.free} {
		for _, at := range places {
			if good(textBox(at[0], at[1], width, textSize*s)) {
				return at, true
			}
		}
	}
	return at, false
}

// inside tells whether a text of half a width about a place lies in the picture.
func inside(r image.Rectangle, x, y, half float64) bool {
	return x-half >= float64(r.Min.X) && x+half <= float64(r.Max.X) && y-half/3 >= float64(r.Min.Y) && y+half/3 <= float64(r.Max.Y)
}

// place notes where the text just written came to stand, if it shows what can be typed on.
func (c *canvas) place(key string, sets edit.FromWall) {
	if key != "" || sets != (edit.FromWall{}) {
		c.placed = append(c.placed, Placed{c.taken[len(c.taken)-1], key, sets})
	}
}

func sign(v float64) float64 {
	if v < 0 {
		return -1
	}
	return 1
}
