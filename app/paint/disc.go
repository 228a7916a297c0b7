package paint

import (
	"image"
	"image/color"
	"math"

	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Sizes of discs with a letter, in points.
const (
	discRadius = 10
	discText   = 12
	discBroad  = 19 // how broad a wall must be to have its disc in it
	ringText   = 10
	ringStroke = 1.4
)

// disc puts the letter of a name on a filled disc: on what it names where that is broad enough, else
// beside it, and where it has no room there on it all the same.
func (c *canvas) disc(n *section.Name) {
	text, size := n.Disc.String(), discText*c.style.Scale
	radius := math.Max(discRadius*c.style.Scale, c.textWidth(text, size)/2+nameGap*c.style.Scale)
	picture := image.Rect(0, 0, c.view.Width, c.view.Height)
	broad := n.BroadMM*c.view.PixelsPerMM >= discBroad*c.style.Scale
	for _, try := range [...]struct {
		good   func(image.Rectangle) bool
		narrow bool // on what is too narrow for it
	}{{c.clear, false}, {c.clear, true}, {c.free, false}} {
		for _, place := range n.Places {
			if place.Side.Len() == 0 && !broad && !try.narrow {
				continue
			}
			x, y := c.discPlace(place, radius)
			if box := squareBox(x, y, radius); box.In(picture) && try.good(box) {
				c.discAt(text, x, y, radius, size)
				return
			}
		}
	}
	line := c.strokeOf(n.Line[0], n.Line[1])
	from, to := c.shown(line)
	if from >= to {
		return
	}
	for _, share := range [...]float64{0.5, 0.3, 0.7, 0.15, 0.85} {
		at := from + share*(to-from)
		x, y := line[0][0]+at*(line[1][0]-line[0][0]), line[0][1]+at*(line[1][1]-line[0][1])
		if box := squareBox(x, y, radius); box.In(picture) && c.free(box) {
			c.discAt(text, x, y, radius, size)
			return
		}
	}
}

// discPlace is the middle of a disc at a place, past what can be dragged there.
func (c *canvas) discPlace(place section.NameAt, radius float64) (x, y float64) {
	x, y = c.to.ToPixel(place.At)
	if far := place.Side.Len(); far > 0 {
		off := (radius + nameGap*c.style.Scale) / far
		x, y = x+place.Side.X()*off, y-place.Side.Y()*off
	}
	return x, y
}

// ring puts the letters of a corner into a ring where there is room for it.
func (c *canvas) ring(n *section.Name) {
	text, size := n.Ring.String(), ringText*c.style.Scale
	radius := math.Max(discRadius*c.style.Scale, c.textWidth(text, size)/2+nameGap/2*c.style.Scale)
	picture := image.Rect(0, 0, c.view.Width, c.view.Height)
	for _, place := range n.Places {
		x, y := c.discPlace(place, radius)
		box := squareBox(x, y, radius)
		if !box.In(picture) || !c.clear(box) {
			continue
		}
		c.round(x, y, radius, c.style.Ink)
		c.round(x, y, radius-ringStroke*c.style.Scale, c.style.Paper)
		c.letters(text, x, y, size, c.style.Ink)
		c.taken = append(c.taken, box)
		return
	}
}

// discAt paints a disc with its letter about a place.
func (c *canvas) discAt(text string, x, y, radius, size float64) {
	c.round(x, y, radius, c.style.Ink)
	c.letters(text, x, y, size, c.style.Paper)
	c.taken = append(c.taken, squareBox(x, y, radius))
}

// round fills a circle about a place.
func (c *canvas) round(x, y, radius float64, ink color.RGBA) {
	const sides = 48
	rim := make([][2]float64, sides)
	for i := range rim {
		way := plan.DirectionDeg(float64(i) * 360 / sides)
		rim[i] = [2]float64{x + radius*way.X(), y + radius*way.Y()}
	}
	c.fill([][][2]float64{rim}, ink)
}
