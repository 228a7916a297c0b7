package paint

import (
	"image/color"
	"math"

	"underfall/app/pen"
	"underfall/geometry/placing"
	"underfall/geometry/section"
)

// Pin marks a place of a picture with a disc, and with a label where there is room.
type Pin struct {
	At placing.Point // in pixels
	// Label is what is said of it; nothing for a disc alone. Sign stands in the disc, a letter at most.
	Label, Sign string
	// Ink is the colour of what it tells, Ground that of the sheet that the label stands on.
	Ink, Ground color.RGBA
	// Hidden is one whose place cannot be seen: hollow, and led to with a broken line.
	Hidden bool
	// Chosen is the one that was gone to: ringed, and its label stands wherever there is room.
	Chosen bool
	// Ring has a ring stand round the place, which stays seen, in the place of the disc.
	Ring bool
}

// Over is what is put over a picture besides drawings.
type Over struct {
	// Pins are placed together with all texts, those first whose labels are worth most.
	Pins []Pin
	// Taken is what lies over the picture, in pixels: nothing is written there.
	Taken []placing.Box
	// Before is where labels were put over the picture that this one follows while something moves: they stay there as
	// far as they can. Nil has all of them placed afresh.
	Before []int
}

// Pinned is where a pin and its label came to stand, in pixels. Label is the zero box without one.
type Pinned struct{ Disc, Label placing.Box }

// Sizes of pins, in points.
const (
	PinRadius    = 8  // of the disc
	RingRadius   = 16 // of a ring round a place that stays seen
	ringEdge     = 3
	pinRing      = 4 // how far the ring round a chosen one stands off
	pinEdge      = 1.6
	pinText      = 12
	pinSign      = 12
	pinLine      = 1.35 // from line to line of a label, in sizes of its text
	pinPad       = 5
	pinMostWide  = 190  // of a label that can be broken into lines
	pinMostShare = 0.45 // and of the picture's width
	pinDash      = 3.2
	pinGap       = 2.6
	pinDashes    = 9 // round a hollow disc
)

// reach is how far a pin's disc reaches with all that is about it.
func (p *Pin) reach() float64 {
	if p.Ring {
		return RingRadius + ringEdge/2
	}
	if p.Chosen {
		return PinRadius + pinRing + pinEdge
	}
	return PinRadius + pinEdge/2
}

// pinsOn are pins as they are placed on a sheet, and the lines of their labels.
func (c *canvas) pinsOn(pins []Pin) (on []section.Pin, lines [][]string) {
	s := c.style.Scale
	most := math.Min(pinMostWide*s, pinMostShare*float64(c.view.Width))
	lines = make([][]string, len(pins))
	for i := range pins {
		p := &pins[i]
		pin := section.Pin{At: p.At, Radius: p.reach() * s, Must: p.Chosen || p.Ring}
		lines[i] = c.inLines(p.Label, pinText*s, most)
		for _, line := range lines[i] {
			pin.Wide = math.Max(pin.Wide, c.textWidth(line, pinText*s)+2*pinPad*s)
		}
		pin.High = (float64(len(lines[i]))*pinLine*pinText + pinPad) * s
		on = append(on, pin)
	}
	return on, lines
}

// pins paints pins with their labels, the first over the others, and says where they stand.
func (c *canvas) pins(pins []Pin, lines [][]string, l *section.Lettering) []Pinned {
	out := make([]Pinned, len(pins))
	s := c.style.Scale
	for _, at := range l.Pinned {
		p := &pins[at.Pin]
		out[at.Pin].Label = at.Box
		c.pen.Box(at.Box, p.Ground)
		c.pinStrokes(append(placing.Round(at.Box.Corners()), at.Leader), p)
		size := pinText * s
		for n, line := range lines[at.Pin] {
			y := at.Box.Low[1] + (pinPad/2+(float64(n)+0.5)*pinLine*pinText)*s
			c.letters(line, at.Box.Low[0]+pinPad*s+c.textWidth(line, size)/2, y, size, c.style.Ink)
		}
	}
	for i := len(pins) - 1; i >= 0; i-- {
		p := &pins[i]
		out[i].Disc = placing.Around(p.At, 2*p.reach()*s, 2*p.reach()*s)
		if p.Ring {
			const sides = 48
			c.pen.Stroke(placing.Round(circle(p.At, RingRadius*s, sides)), ringEdge*s, p.Ink)
			continue
		}
		if p.Chosen {
			c.round(p.At, (PinRadius+pinRing+pinEdge)*s, p.Ink)
			c.round(p.At, (PinRadius+pinRing)*s, p.Ground)
		}
		c.round(p.At, (PinRadius+pinEdge/2)*s, p.Ground)
		ink := p.Ground
		if p.Hidden {
			c.pinStrokes(placing.Round(circle(p.At, PinRadius*s, pinDashes)), p) // each side a dash and a gap
			ink = p.Ink
		} else {
			c.round(p.At, PinRadius*s, p.Ink)
		}
		if p.Sign != "" {
			size := pinSign * s
			c.pen.Text(p.Sign, placing.Point{p.At[0] - c.pen.TextWidth(p.Sign, size, pen.Bold)/2, p.At[1] + size*0.36}, size, pen.Bold, ink)
		}
	}
	return out
}

// pinStrokes draws lines of a pin, broken where its place is hidden.
func (c *canvas) pinStrokes(lines []placing.Straight, p *Pin) {
	s := c.style.Scale
	if p.Hidden {
		var broken []placing.Straight
		for _, l := range lines {
			broken = append(broken, dashes(l[0], l[1], pinDash*s, pinGap*s)...)
		}
		lines = broken
	}
	c.pen.Stroke(lines, pinEdge*s, p.Ink)
}
