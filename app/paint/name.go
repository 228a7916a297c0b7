package paint

import (
	"image"
	"math"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Sizes of names, dots and of what is set out on paper, in points.
const (
	nameGap   = 5    // from a place to a text beside it
	nameSmall = 0.82 // of the usual size
	dotHalf   = 1.8  // half the dot at a place
	patchSide = 2    // how far the paper under a text reaches past it
	gripHalf  = 6    // half of what can be dragged, which no text is to lie under
)

// names writes those of a worth, in their order.
func (c *canvas) names(all []section.Name, first bool) {
	for i := range all {
		switch n := &all[i]; {
		case n.First != first:
		case n.Disc != 0:
			c.disc(n)
		case n.Ring != (message.Corner{}):
			c.ring(n)
		default:
			c.name(n)
		}
	}
}

// name writes the fullest of a name's texts that has room, at the first of its places; one
// without room comes when one zooms in.
func (c *canvas) name(n *section.Name) {
	size := textSize * c.style.Scale
	if n.Small {
		size *= nameSmall
	}
	for _, m := range n.Texts {
		text := c.style.Book.Say(m)
		width := c.textWidth(text, size)
		for _, place := range n.Places {
			x, y, box := c.namePlace(place, n.Dot || !n.Small, width, size)
			if !c.room(box) || len(n.In) > 0 && !c.within(box, n.In) {
				continue
			}
			if n.Dot && !c.dot(place.At) {
				continue
			}
			c.text(text, x, y, size, c.style.Ink)
			return
		}
	}
}

// namePlace is the middle of a text at a place, past what can be dragged there or close to it, and
// the box that it takes.
func (c *canvas) namePlace(place section.NameAt, past bool, width, size float64) (x, y float64, box image.Rectangle) {
	x, y = c.to.ToPixel(place.At)
	if reach := math.Max(math.Abs(place.Side.X()), math.Abs(place.Side.Y())); reach > 0 {
		gap := nameGap * c.style.Scale
		if past {
			gap = (gripHalf + patchSide + 1) * c.style.Scale
		}
		x += place.Side.X() / reach * (width/2 + gap)
		y -= place.Side.Y() / reach * (size/2 + gap)
	}
	return x, y, textBox(x, y, width+2*patchSide*c.style.Scale, size)
}

// room tells whether a box lies on the picture and covers no text, no line that is to be kept.
func (c *canvas) room(box image.Rectangle) bool {
	return box.In(image.Rect(0, 0, c.view.Width, c.view.Height)) && c.clear(box)
}

// within tells whether a box lies in a region of the drawing.
func (c *canvas) within(box image.Rectangle, region plan.Region) bool {
	for _, x := range [2]int{box.Min.X, box.Max.X} {
		for _, y := range [2]int{box.Min.Y, box.Max.Y} {
			if !region.Contains(c.view.ToDrawing(float64(x), float64(y)), 0) {
				return false
			}
		}
	}
	return true
}

// dot marks a place; false where a text stands on it.
func (c *canvas) dot(at plan.Point) bool {
	x, y := c.to.ToPixel(at)
	box := squareBox(x, y, dotHalf*c.style.Scale)
	if !c.unwritten(box) {
		return false
	}
	c.inkDot(x, y)
	c.taken = append(c.taken, box)
	return true
}

// inkDot paints the dot at a place.
func (c *canvas) inkDot(x, y float64) {
	r := dotHalf * c.style.Scale
	c.fill([][][2]float64{{{x - r, y - r}, {x + r, y - r}, {x + r, y + r}, {x - r, y + r}}}, c.style.Ink)
}

// squareBox is what a square of half a side about a place takes.
func squareBox(x, y, half float64) image.Rectangle {
	return image.Rect(int(x-half), int(y-half), int(math.Ceil(x+half)), int(math.Ceil(y+half)))
}

// keepOver notes what a window lays over the drawing: what can be dragged, and straights.
func (c *canvas) keepOver(d *section.Drawing) {
	r := gripHalf * c.style.Scale
	for _, h := range d.Handles {
		x, y := c.to.ToPixel(h.At)
		c.grips = append(c.grips, squareBox(x, y, r))
	}
	for _, o := range d.Over {
		c.over = append(c.over, c.strokeOf(o[0], o[1]))
	}
}
