package paint

import (
	"image/color"

	"underfall/geometry/placing"
	"underfall/geometry/section"
)

// Sizes of tapes, in points.
const (
	tapePoints     = 1.6
	tapeDotPoints  = 4
	tapeTickPoints = 4.5 // to each side
	litTickPoints  = 7
	quietShare     = 0.75 // of the size of a mark that tells what was read
	dotPoints      = 1.4  // of dotted lines, and of their gaps three times that
)

// measured paints the tapes of a room, what was measured across it, its edges if it were square, and where its floor
// was read.
func (c *canvas) measured(l *section.Lettering) {
	s := c.style.Scale
	for _, line := range l.Dotted {
		c.pen.Stroke(dashes(line[0], line[1], dotPoints*s, 3*dotPoints*s), measurePoints*s, c.style.Ink)
	}
	for _, line := range l.Square {
		c.pen.Stroke(dashes(line[0], line[1], 6*s, 4*s), tapePoints*s, c.style.Told)
	}
	for _, at := range l.Read {
		half, high := section.ReadingPoints*s, 1.6*section.ReadingPoints*s
		c.pen.Fill([][]placing.Point{{at, {at[0] - half, at[1] - high}, {at[0] + half, at[1] - high}}}, c.style.Accent)
	}
	for _, at := range l.ReadQuiet {
		half, high := quietShare*section.ReadingPoints*s, quietShare*1.6*section.ReadingPoints*s
		left, right := placing.Point{at[0] - half, at[1] - high}, placing.Point{at[0] + half, at[1] - high}
		c.pen.Stroke([]placing.Straight{{at, left}, {left, right}, {right, at}}, measurePoints*s, c.style.Ink)
	}
	for i := range l.Tapes {
		t := &l.Tapes[i]
		c.pen.Stroke([]placing.Straight{t.Line}, tapePoints*s, c.style.Accent)
		c.round(t.Line[0], tapeDotPoints*s, c.style.Accent)
		for _, tick := range t.Ticks {
			c.tapeTick(t, tick)
		}
	}
}

// tapeTick paints a tick across a tape, and what leads from it to its figure.
func (c *canvas) tapeTick(t *section.TapeLine, tick section.TapeTick) {
	s := c.style.Scale
	long, wide := tapeTickPoints*s, tapePoints*s
	if tick.Lit {
		long, wide = litTickPoints*s, 2*wide
	}
	across := func(by float64) placing.Point {
		return placing.Point{tick.At[0] + t.Side[0]*by, tick.At[1] + t.Side[1]*by}
	}
	c.pen.Stroke([]placing.Straight{{across(-long), across(long)}}, wide, c.style.Accent)
	if tick.Lead != (placing.Straight{}) {
		c.pen.Stroke([]placing.Straight{tick.Lead}, leadPoints*s, c.leadInk())
	}
}

// ground paints what a text stands on and gives the ink that it is written in.
func (c *canvas) ground(t *section.Text) color.RGBA {
	plate := func(ground color.RGBA) {
		c.pen.Box(t.Box, ground)
	}
	switch t.Look {
	case section.LookLit:
		plate(c.style.Accent)
		b, in := t.Box, 1.5*c.style.Scale
		for k := range 2 {
			b.Low[k], b.High[k] = b.Low[k]+in, b.High[k]-in
		}
		c.patch(b)
	case section.LookTold:
		plate(c.style.ToldGround)
		return c.style.Told
	case section.LookPress:
		c.patch(t.Box)
		return c.style.Accent
	default:
		c.patch(t.Box)
	}
	return c.style.Ink
}
