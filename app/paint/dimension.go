package paint

import (
	"image"
	"math"

	"underfall/geometry/section"
)

func (c *canvas) dimension(d section.Dimension) {
	text := c.style.Book.Say(d.Text)
	s := c.style.Scale
	ax, ay := c.to.ToPixel(d.From)
	bx, by := c.to.ToPixel(d.To)
	ox, oy := c.to.ToPixel(d.From.Add(d.Side.Mul(10)))
	sx, sy := ox-ax, oy-ay
	if l := math.Hypot(sx, sy); l > 1e-9 {
		sx, sy = sx/l, sy/l
	}
	if math.IsNaN(ax + ay + bx + by + sx + sy) {
		return // behind the camera
	}
	spread := float64(levelSpread)
	if math.Abs(sx) > math.Abs(sy) {
		spread = uprightSpread
	}
	off := rowOffset(d, spread) * s
	// The dimension line runs square to the side, at the further of the ends; in
	// a camera's picture, beside what it measures.
	reach := math.Max(ax*sx+ay*sy, bx*sx+by*sy) + off
	pa, pb := reach-(ax*sx+ay*sy), reach-(bx*sx+by*sy)
	if _, flat := c.to.(View); !flat {
		pa, pb = off, off
	}
	a, b := [2]float64{ax + sx*pa, ay + sy*pa}, [2]float64{bx + sx*pb, by + sy*pb}
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	if upright := math.Abs(sx) > math.Abs(sy); length < 3*s || upright && length < 13*s {
		return // too small to read at this scale; it comes when one zooms in
	}
	if _, flat := c.to.(View); !flat && !inside(c.image.Bounds(), (a[0]+b[0])/2, (a[1]+b[1])/2, c.textWidth(text, textSize*s)/2+4*s) {
		return // its text would be cut off by the picture's rim
	}
	soft := mix(c.style.Paper, c.style.Ink, 0.45)
	over := 4 * s
	c.strokes([][2][2]float64{
		{{ax, ay}, {a[0] + sx*over, a[1] + sy*over}}, {{bx, by}, {b[0] + sx*over, b[1] + sy*over}}}, 0.6*s, soft)
	c.strokes([][2][2]float64{{a, b}}, 0.9*s, c.style.Ink)
	defer func() { c.kept = append(c.kept, stroke{a, b}) }() // from now on: its own text may stand on it
	tick := 4 * s
	c.strokes([][2][2]float64{
		{{a[0] - tick, a[1] + tick}, {a[0] + tick, a[1] - tick}},
		{{b[0] - tick, b[1] + tick}, {b[0] + tick, b[1] - tick}},
	}, 1.4*s, c.style.Ink)
	size := textSize * s
	w := c.textWidth(text, size)
	vertical := math.Abs(b[1]-a[1]) > math.Abs(b[0]-a[0])
	places := c.onLine(a, b, w)
	for i := range places {
		at := &places[i]
		switch {
		case vertical:
			// Beside the line, outwards; on the line it would hide it.
			at[0] = math.Max(w/2+3*s, math.Min(float64(c.view.Width)-w/2-3*s, at[0]+sx*(w/2+6*s)))
		case w+6*s > length:
			// No room on the line: below it, when nothing is there.
			at[1] += 13 * s * sign(sy)
		}
	}
	if w+6*s > length || math.Abs(b[1]-a[1]) < w && vertical {
		places = places[:1]
	}
	for _, good := range [...]func(image.Rectangle) bool{c.clear, c.free} {
		for _, at := range places {
			if good(textBox(at[0], at[1], w, size)) {
				c.text(text, at[0], at[1], size, c.style.Ink)
				c.place(d)
				return
			}
		}
	}
}

// inside tells whether a text of half a width about a place lies in the picture.
func inside(r image.Rectangle, x, y, half float64) bool {
	return x-half >= float64(r.Min.X) && x+half <= float64(r.Max.X) && y-half/3 >= float64(r.Min.Y) && y+half/3 <= float64(r.Max.Y)
}

// place notes where a dimension's text came to stand.
func (c *canvas) place(d section.Dimension) {
	if d.Key != "" {
		c.placed = append(c.placed, Placed{c.taken[len(c.taken)-1], d.Key})
	}
}

func sign(v float64) float64 {
	if v < 0 {
		return -1
	}
	return 1
}
