// Package paint puts drawings on pixels: areas with hatches, lines, dimensions
// and level marks, at any scale.
package paint

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
	"underfall/app/words"
	"underfall/geometry/edit"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// View places a drawing on a picture: Centre of the drawing's coordinates is
// in the middle, PixelsPerMM is the scale.
type View struct {
	Centre      plan.Point
	PixelsPerMM float64
	Width       int
	Height      int
}

// ToPixel gives the place of a point of the drawing, y down.
func (v View) ToPixel(p plan.Point) (x, y float64) {
	return float64(v.Width)/2 + (p.X()-v.Centre.X())*v.PixelsPerMM, float64(v.Height)/2 - (p.Y()-v.Centre.Y())*v.PixelsPerMM
}

// ToDrawing gives the point of the drawing at a place of the picture.
func (v View) ToDrawing(x, y float64) plan.Point {
	return plan.Point{v.Centre.X() + (x-float64(v.Width)/2)/v.PixelsPerMM, v.Centre.Y() - (y-float64(v.Height)/2)/v.PixelsPerMM}
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
	Scale            float64    // pixels to a point of text
	Book             words.Book // puts what stands in the drawing into words
	// Unit says what unit bare numbers are in; nothing where each has its own.
	Unit message.Message
	Fill func(material.Material) color.RGBA
	// Chosen is the part to be marked.
	Chosen string
}

// Painter draws with one font.
type Painter struct {
	font  *opentype.Font
	faces map[int]font.Face
}

// NewPainter makes a painter from a TrueType font.
func NewPainter(fontData []byte) (*Painter, error) {
	f, err := opentype.Parse(fontData)
	if err != nil {
		return nil, fmt.Errorf("reading the drawing font: %w", err)
	}
	return &Painter{font: f, faces: map[int]font.Face{}}, nil
}

func (p *Painter) face(sizePixels float64) font.Face {
	key := int(math.Round(sizePixels * 2))
	if f, ok := p.faces[key]; ok {
		return f
	}
	f, err := opentype.NewFace(p.font, &opentype.FaceOptions{Size: float64(key) / 2, DPI: 72, Hinting: font.HintingVertical})
	if err != nil {
		return nil
	}
	p.faces[key] = f
	return f
}

// canvas is one picture being painted.
type canvas struct {
	*Painter
	image *image.RGBA
	view  View
	to    Projection // where points go: the view, or a camera's picture
	style Style
}

// Placed is a dimension's text as it stands on the picture, and what it shows that can be
// typed on: a parameter by its key, how far something is from a wall, or a mark on a tape.
type Placed struct {
	Box  image.Rectangle
	Key  string
	Sets edit.FromWall
	Mark *edit.Mark
	Text string // as it is written
}

// Overlay is a drawing with the projection that puts it into a picture.
type Overlay struct {
	Drawing section.Drawing
	To      Projection
}

// Annotate draws the dimensions and level marks of drawings over a picture of
// them, wherever their projections put them: the same drawings, seen in space.
// Texts of one keep off those of the others.
func (p *Painter) Annotate(img *image.RGBA, s Style, drawings ...Overlay) {
	size := img.Bounds().Size()
	c := &canvas{Painter: p, image: img, view: View{Width: size.X, Height: size.Y, PixelsPerMM: 1}, style: s}
	var seen []section.Seen
	for i := range drawings {
		seen = append(seen, section.Seen{Drawing: &drawings[i].Drawing, To: onto(drawings[i].To), PixelsPerMM: 1})
	}
	l := section.Letter(c.sheet(), seen...)
	c.lettering(&l)
}

// hatchPixels is the basic spacing of hatches, in points.
const hatchPixels = 7

// Draw paints the drawing into the picture, and says where the dimensions that
// can be typed on came to stand.
func (p *Painter) Draw(img *image.RGBA, d section.Drawing, v View, s Style) []Placed {
	c := &canvas{Painter: p, image: img, view: v, to: v, style: s}
	draw.Draw(img, img.Bounds(), image.NewUniform(s.Paper), image.Point{}, draw.Src)
	window := plan.Rectangle(v.ToDrawing(-20, float64(v.Height)+20), v.ToDrawing(float64(v.Width)+20, -20))
	for i := range d.Areas {
		c.area(&d.Areas[i], window)
	}
	c.edges(d.Areas)
	for _, l := range d.Lines {
		c.line(l)
	}
	l := section.Letter(c.sheet(), seen(&d, v))
	c.lettering(&l)
	c.say(d.Fault)
	return c.placed(&l)
}

func (c *canvas) pixels(r plan.Ring) [][2]float64 {
	out := make([][2]float64, len(r))
	for i, q := range r {
		out[i][0], out[i][1] = c.to.ToPixel(q)
	}
	return out
}

// fill paints closed rings by the non-zero rule.
func (c *canvas) fill(rings [][][2]float64, ink color.RGBA) {
	if len(rings) == 0 {
		return // the bounds of nothing would be the whole picture
	}
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, r := range rings {
		for _, q := range r {
			for k := range 2 {
				low[k], high[k] = math.Min(low[k], q[k]), math.Max(high[k], q[k])
			}
		}
	}
	box := image.Rect(
		int(math.Floor(clampPixel(low[0]))), int(math.Floor(clampPixel(low[1]))),
		int(math.Ceil(clampPixel(high[0])))+1, int(math.Ceil(clampPixel(high[1])))+1,
	).Intersect(c.image.Bounds())
	if box.Empty() {
		return
	}
	z := vector.NewRasterizer(box.Dx(), box.Dy())
	for _, r := range rings {
		for i, q := range r {
			x, y := float32(clampPixel(q[0])-float64(box.Min.X)), float32(clampPixel(q[1])-float64(box.Min.Y))
			if i == 0 {
				z.MoveTo(x, y)
			} else {
				z.LineTo(x, y)
			}
		}
		z.ClosePath()
	}
	z.Draw(c.image, box, image.NewUniform(ink), image.Point{})
}

// clampPixel keeps far-off coordinates within what the rasterizer can add up.
func clampPixel(v float64) float64 { return math.Max(-8000, math.Min(16000, v)) }

// strokes paints straight lines of one width in one go.
func (c *canvas) strokes(lines [][2][2]float64, width float64, ink color.RGBA) {
	const batch = 256
	for len(lines) > 0 {
		n := min(batch, len(lines))
		rings := make([][][2]float64, 0, n)
		for _, l := range lines[:n] {
			dx, dy := l[1][0]-l[0][0], l[1][1]-l[0][1]
			length := math.Hypot(dx, dy)
			if length < 1e-9 {
				continue
			}
			nx, ny := -dy/length*width/2, dx/length*width/2
			rings = append(rings, [][2]float64{
				{l[0][0] - nx, l[0][1] - ny}, {l[1][0] - nx, l[1][1] - ny},
				{l[1][0] + nx, l[1][1] + ny}, {l[0][0] + nx, l[0][1] + ny},
			})
		}
		c.fill(rings, ink)
		lines = lines[n:]
	}
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
	var lines [][2][2]float64
	px := c.pixels(l.Points)
	for i := 1; i < len(px); i++ {
		if !l.Dashed {
			lines = append(lines, [2][2]float64{px[i-1], px[i]})
			continue
		}
		lines = append(lines, dashes(px[i-1], px[i], 6*c.style.Scale, 4*c.style.Scale)...)
	}
	c.strokes(lines, width, ink)
}

func dashes(a, b [2]float64, dash, gap float64) [][2][2]float64 {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	const most = 2000
	if length < 1e-9 || length/(dash+gap) > most {
		return [][2][2]float64{{a, b}}
	}
	at := func(t float64) [2]float64 {
		t = math.Min(1, t/length)
		return [2]float64{a[0] + (b[0]-a[0])*t, a[1] + (b[1]-a[1])*t}
	}
	var out [][2][2]float64
	for s := 0.0; s < length; s += dash + gap {
		out = append(out, [2][2]float64{at(s), at(s + dash)})
	}
	return out
}

// width of a text in pixels.
func (c *canvas) textWidth(text string, size float64) float64 {
	f := c.face(size)
	if f == nil {
		return 0
	}
	return float64(font.MeasureString(f, text)) / 64
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
	draw.Draw(c.image, pixelsOf(b).Intersect(c.image.Bounds()), image.NewUniform(patch), image.Point{}, draw.Src)
}

// letters writes centred on a place, on whatever is there.
func (c *canvas) letters(text string, x, y, size float64, ink color.RGBA) {
	f := c.face(size)
	if f == nil {
		return
	}
	dot := fixed.Point26_6{X: fixed.Int26_6((x - c.textWidth(text, size)/2) * 64), Y: fixed.Int26_6((y + size*0.36) * 64)}
	d := font.Drawer{Dst: c.image, Src: image.NewUniform(ink), Face: f, Dot: dot}
	d.DrawString(text)
}
