// Package paint puts drawings on pixels: areas with hatches, lines, dimensions
// and level marks, at any scale.
package paint

import (
	"image"
	"image/color"
	"math"
	"slices"

	"underfall/app/pen"
	"underfall/app/words"
	"underfall/geometry/edit"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// View places a drawing on a picture: Centre of the drawing's coordinates is
// in the middle, PixelsPerMM is the scale, and Turned is how it is turned about the middle.
type View struct {
	Centre      plan.Point
	PixelsPerMM float64
	Width       int
	Height      int
	Turned      plan.Quarters
}

// ToPixel gives the place of a point of the drawing, y down.
func (v View) ToPixel(p plan.Point) (x, y float64) {
	off := v.Turned.Turned(plan.Point{p.X() - v.Centre.X(), p.Y() - v.Centre.Y()})
	return float64(v.Width)/2 + off.X()*v.PixelsPerMM, float64(v.Height)/2 - off.Y()*v.PixelsPerMM
}

// ToDrawing gives the point of the drawing at a place of the picture.
func (v View) ToDrawing(x, y float64) plan.Point {
	return v.Centre.Add(v.Way(x-float64(v.Width)/2, y-float64(v.Height)/2))
}

// Way is the way in the drawing, in mm, that leads so many pixels to the right and down on the picture.
func (v View) Way(right, down float64) plan.Point {
	return v.Turned.Back().Turned(plan.Point{right / v.PixelsPerMM, -down / v.PixelsPerMM})
}

// Shown are the corners of what shows of the drawing, as far as it lies some pixels within the rim; past the
// rim where that is less than none.
func (v View) Shown(within float64) (low, high plan.Point) {
	return corners(v.ToDrawing(within, float64(v.Height)-within), v.ToDrawing(float64(v.Width)-within, within))
}

// corners are the lower left and the upper right of a rectangle that two points lie across.
func corners(a, b plan.Point) (low, high plan.Point) {
	return plan.Point{math.Min(a.X(), b.X()), math.Min(a.Y(), b.Y())}, plan.Point{math.Max(a.X(), b.X()), math.Max(a.Y(), b.Y())}
}

// Projection places points of a drawing on a picture.
type Projection interface {
	ToPixel(p plan.Point) (x, y float64)
}

// Fit is the view that shows the part of a drawing between two corners, with
// room for its dimensions.
func Fit(low, high plan.Point, width, height int, scale float64) View {
	v := View{Centre: low.Add(high).Mul(0.5), PixelsPerMM: 1, Width: width, Height: height}
	size := high.Sub(low)
	marginX, marginY := 30*scale, 40*scale
	if size.X() > 0 && size.Y() > 0 {
		v.PixelsPerMM = math.Min((float64(width)-2*marginX)/size.X(), (float64(height)-2*marginY)/size.Y())
	}
	v.PixelsPerMM = math.Max(0.005, v.PixelsPerMM)
	return v
}

// Style is how it looks.
type Style struct {
	Paper, Ink, Soft, Accent color.RGBA
	// Told is the ink of what is not as it was meant, on its ground.
	Told, ToldGround color.RGBA
	Scale            float64 // pixels to a point of text
	// LeastText is how small a text may be at least, in pixels; 0 for as small as there is room for.
	LeastText float64
	Book      words.Book // puts what stands in the drawing into words
	// Unit says what unit bare numbers are in; nothing where each has its own.
	Unit message.Message
	Fill func(material.Material) color.RGBA
	// Chosen are the parts to be marked.
	Chosen []string
	// Taken is what will be laid over the drawing, in pixels: nothing is written there.
	Taken []placing.Box
}

// Painter draws on pixels with one font.
type Painter struct{ fonts *pen.Fonts }

// NewPainter makes a painter from a TrueType font.
func NewPainter(fontData []byte) (*Painter, error) {
	fonts, err := pen.NewFonts(fontData, nil)
	if err != nil {
		return nil, err
	}
	return &Painter{fonts}, nil
}

// canvas is one drawing being made with a pen.
type canvas struct {
	pen   pen.Pen
	view  View
	to    Projection // where points go: the view, or a camera's picture
	style Style
}

// on is a canvas of all of a picture.
func (p *Painter) on(img *image.RGBA, s Style) *canvas {
	size := img.Bounds().Size()
	return &canvas{pen: p.fonts.On(img), view: View{Width: size.X, Height: size.Y, PixelsPerMM: 1}, style: s}
}

// Placed is a dimension's text as it stands on the picture, and what it shows that can be
// typed on: a parameter by its key, how far something is from a wall, or a mark on a tape; or the paths of what it
// hangs on where it cannot.
type Placed struct {
	Box image.Rectangle
	// Line is the line of the dimension, in pixels; nil for what has none.
	Line *placing.Straight
	Key  string
	Sets edit.FromWall
	Mark *edit.Mark
	// HangsOn are paths of the job's file.
	HangsOn []string
	Text    string // as it is written
}

// Overlay is a drawing with the projection that puts it into a picture.
type Overlay struct {
	Drawing section.Drawing
	To      Projection
}

// Annotate draws the dimensions and level marks of drawings over a picture of
// them, wherever their projections put them: the same drawings, seen in space.
// Texts of one keep off those of the others, and off what else is put over the picture, whose pins
// it tells the places of, and where all labels were put, for the picture that follows.
func (p *Painter) Annotate(img *image.RGBA, s Style, over Over, drawings ...Overlay) (pinned []Pinned, places []int) {
	c := p.on(img, s)
	var seen []section.Seen
	for i := range drawings {
		seen = append(seen, section.Seen{Drawing: &drawings[i].Drawing, To: onto(drawings[i].To), PixelsPerMM: 1})
	}
	sheet := c.sheet()
	pins, lines := c.pinsOn(over.Pins)
	sheet.Pins, sheet.Taken, sheet.Before = pins, over.Taken, over.Before
	l := section.Letter(sheet, seen...)
	c.lettering(&l)
	return c.pins(over.Pins, lines, &l), l.Places
}

// hatchPixels is the basic spacing of hatches, in points; areas are painted as far as pastRim past the rim of the
// picture, in pixels.
const (
	hatchPixels = 7
	pastRim     = 20
)

// Draw paints the drawing into the picture, with pins at places of the picture, and says where the dimensions that
// can be typed on came to stand.
func (p *Painter) Draw(img *image.RGBA, d section.Drawing, v View, s Style, pins ...Pin) []Placed {
	return On(p.fonts.On(img), d, v, s, pins...)
}

// DrawAfter is Draw of what follows another drawing while something is dragged: its labels stay where those of the
// one before were put, as far as they can. Before is nil for none; where its own were put is for the next.
func (p *Painter) DrawAfter(img *image.RGBA, d section.Drawing, v View, s Style, before []int, pins ...Pin) (placed []Placed, places []int) {
	return draw(p.fonts.On(img), d, v, s, before, pins)
}

// On draws with any pen, from the upper left corner of its page.
func On(to pen.Pen, d section.Drawing, v View, s Style, pins ...Pin) []Placed {
	placed, _ := draw(to, d, v, s, nil, pins)
	return placed
}

func draw(to pen.Pen, d section.Drawing, v View, s Style, before []int, pins []Pin) (placed []Placed, places []int) {
	c := &canvas{pen: to, view: v, to: v, style: s}
	to.Box(placing.Box{High: placing.Point{float64(v.Width), float64(v.Height)}}, s.Paper)
	window := plan.Rectangle(v.Shown(-pastRim))
	for i := range d.Areas {
		c.area(&d.Areas[i], window)
	}
	c.edges(d.Areas)
	for _, l := range d.Lines {
		c.line(l)
	}
	for _, b := range d.Below {
		if slices.Contains(s.Chosen, b.PartID) {
			c.outline(b.Region, s.Accent, chosenPoints*s.Scale)
		}
	}
	sheet := c.sheet()
	on, lines := c.pinsOn(pins)
	sheet.Pins, sheet.Before = on, before
	l := section.Letter(sheet, seen(&d, v))
	c.lettering(&l)
	c.pins(pins, lines, &l)
	c.say(d.Fault)
	return c.placed(&l), l.Places
}

func (c *canvas) pixels(r plan.Ring) []placing.Point {
	out := make([]placing.Point, len(r))
	for i, q := range r {
		out[i][0], out[i][1] = c.to.ToPixel(q)
	}
	return out
}

func mix(a, b color.RGBA, t float64) color.RGBA {
	m := func(x, y uint8) uint8 { return uint8(float64(x)*(1-t) + float64(y)*t) }
	return color.RGBA{m(a.R, b.R), m(a.G, b.G), m(a.B, b.B), 255}
}

func (c *canvas) line(l section.Line) {
	width := map[section.Weight]float64{section.Thin: 0.8, section.Medium: 1.3, section.Heavy: 2}[l.Weight] * c.style.Scale
	ink := c.style.Ink
	if l.Weight == section.Thin {
		ink = mix(c.style.Paper, c.style.Ink, 0.6)
	}
	var lines []placing.Straight
	px := c.pixels(l.Points)
	for i := 1; i < len(px); i++ {
		if !l.Dashed {
			lines = append(lines, placing.Straight{px[i-1], px[i]})
			continue
		}
		lines = append(lines, dashes(px[i-1], px[i], 6*c.style.Scale, 4*c.style.Scale)...)
	}
	c.pen.Stroke(lines, width, ink)
}

func dashes(a, b placing.Point, dash, gap float64) []placing.Straight {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	const most = 2000
	if length < 1e-9 || length/(dash+gap) > most {
		return []placing.Straight{{a, b}}
	}
	at := func(t float64) placing.Point {
		t = math.Min(1, t/length)
		return placing.Point{a[0] + (b[0]-a[0])*t, a[1] + (b[1]-a[1])*t}
	}
	var out []placing.Straight
	for s := 0.0; s < length; s += dash + gap {
		out = append(out, placing.Straight{at(s), at(s + dash)})
	}
	return out
}

// textWidth is how wide a text is, in pixels.
func (c *canvas) textWidth(text string, size float64) float64 {
	return c.pen.TextWidth(text, size, pen.Regular)
}

// text writes centred on a place, on a patch of paper so that it reads over
// hatches.
func (c *canvas) text(text string, x, y, size float64, ink color.RGBA) {
	const pad, high = 2, 1.24
	c.patch(placing.Around(placing.Point{x, y}, c.textWidth(text, size)+2*pad*c.style.Scale, high*size))
	c.letters(text, x, y, size, ink)
}

// patch is the paper under a text.
func (c *canvas) patch(b placing.Box) {
	patch := c.style.Paper
	patch.A = 255
	c.pen.Box(b, patch)
}

// letters writes centred on a place, on whatever is there.
func (c *canvas) letters(text string, x, y, size float64, ink color.RGBA) {
	c.pen.Text(text, placing.Point{x - c.textWidth(text, size)/2, y + size*0.36}, size, pen.Regular, ink)
}
