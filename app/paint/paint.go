// Package paint puts drawings on pixels: areas with hatches, lines, dimensions
// and level marks, at any scale.
package paint

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"
	"slices"
	"sort"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
	"underfall/app/words"
	"underfall/geometry/edit"
	"underfall/geometry/material"
	"underfall/geometry/message"
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
	Scale                    float64    // pixels to a point of text
	Book                     words.Book // puts what stands in the drawing into words
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
	// taken are the boxes of texts already placed, grips those of what can be dragged, and over
	// the straights that are laid over the picture: neither is ever written on.
	taken, grips []image.Rectangle
	over         []stroke
	kept         []stroke
	filled       []plan.Region // what runs through others, which no text is to stand in
	cut          []plan.Region // all that is cut, which notes keep off where they can
	placed       []Placed
}

// Placed is a dimension's text as it stands on the picture, and what it shows that can be
// typed on: a parameter by its key, or how far something is from a wall.
type Placed struct {
	Box  image.Rectangle
	Key  string
	Sets edit.FromWall
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
	for _, d := range drawings {
		c.to = d.To
		for _, dim := range d.Drawing.Dimensions {
			c.dimension(dim)
		}
		c.marks(d.Drawing.Marks)
	}
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
	c.keep(&d)
	c.keepOver(&d)
	for _, dim := range d.Dimensions {
		c.dimension(dim)
	}
	c.foot(d.Rise)
	c.list(d.List)
	c.names(d.Names, true)
	c.marks(d.Marks)
	for _, o := range d.SetOuts {
		c.setOut(o)
	}
	c.names(d.Names, false)
	for _, n := range d.Notes {
		c.note(n)
	}
	c.say(d.Fault)
	return c.placed
}

// foot says at the foot of a drawing which unit its numbers are in, and how many times its heights
// are exaggerated.
func (c *canvas) foot(times float64) {
	var said []string
	if !c.style.Unit.IsZero() {
		said = append(said, c.style.Book.Say(c.style.Unit))
	}
	if times > 1 {
		said = append(said, c.style.Book.Say(message.Of("drawing.rise", message.No("times", int(math.Round(times))))))
	}
	if len(said) == 0 {
		return
	}
	text, size := strings.Join(said, " · "), textSize*c.style.Scale
	c.text(text, size+c.textWidth(text, size)/2, float64(c.view.Height)-1.5*size, size, c.style.Ink)
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
	f := c.face(size)
	if f == nil {
		return
	}
	w := c.textWidth(text, size)
	pad := 2 * c.style.Scale
	box := image.Rect(int(x-w/2-pad), int(y-size*0.62), int(math.Ceil(x+w/2+pad)), int(math.Ceil(y+size*0.62)))
	patch := c.style.Paper
	patch.A = 255
	draw.Draw(c.image, box.Intersect(c.image.Bounds()), image.NewUniform(patch), image.Point{}, draw.Src)
	c.letters(text, x, y, size, ink)
	c.taken = append(c.taken, box)
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

// unwritten tells whether a box overlaps no text.
func (c *canvas) unwritten(box image.Rectangle) bool {
	return !slices.ContainsFunc(c.taken, box.Overlaps)
}

// free tells whether a text has room in a box: it overlaps none, and nothing that is laid over
// the picture.
func (c *canvas) free(box image.Rectangle) bool {
	beside := box.Inset(-int(gripHalf * c.style.Scale))
	return c.unwritten(box) && !slices.ContainsFunc(c.grips, box.Overlaps) &&
		!slices.ContainsFunc(c.over, func(s stroke) bool { return s.meets(beside) })
}

const textSize = 11

// The foot of a level mark, a square, and how wide the staff on it is.
const (
	footPoints  = 6
	staffPoints = 1.2
)

// marks places level marks: a staff's foot at the level and a label led out
// to free space, finished levels upwards, what lies below downwards.
func (c *canvas) marks(ms []section.Mark) {
	s := c.style.Scale
	size := textSize * s
	// The same level said twice close together is said once.
	const apartPixels = 130
	type said struct {
		text string
		x    float64
	}
	var done []said
	places := markPlaces()
	order := append([]section.Mark(nil), ms...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].At.X() < order[j].At.X() })
	for _, m := range order {
		x, y := c.to.ToPixel(m.At)
		if math.IsNaN(x) || x < 0 || x > float64(c.view.Width) || y < 0 || y > float64(c.view.Height) {
			continue
		}
		text := c.style.Book.Say(m.Message())
		if slices.ContainsFunc(done, func(d said) bool { return d.text == text && math.Abs(d.x-x) < apartPixels*s }) {
			continue
		}
		w := c.textWidth(text, size)
		dir := -1.0
		if m.Below() {
			dir = 1
		}
		at, ok := c.markAt(x, y, dir, w, places)
		if !ok {
			continue
		}
		// A staff's foot: it stands on the level, or hangs under it.
		c.strokes([][2][2]float64{{{x, y}, at}}, staffPoints*s, c.style.Accent)
		half, high := footPoints/2*s, dir*footPoints*s
		c.fill([][][2]float64{{{x - half, y}, {x + half, y}, {x + half, y + high}, {x - half, y + high}}}, c.style.Accent)
		c.text(text, at[0], at[1], size, c.style.Ink)
		done = append(done, said{text, x})
	}
}

// markAt is the place for the text of a mark: one near by that covers neither texts nor lines where
// there is one, else one that covers no text; ok is false where there is none.
func (c *canvas) markAt(x, y, dir, width float64, places []markPlace) (at [2]float64, ok bool) {
	s := c.style.Scale
	size := textSize * s
	for _, try := range [...]struct {
		good func(image.Rectangle) bool
		far  float64
	}{{c.clear, markNear}, {c.free, math.Inf(1)}} {
		for _, place := range places {
			if place.off+math.Abs(place.across) > try.far {
				continue
			}
			ly := y + dir*place.off*s
			if ly < size || ly > float64(c.view.Height)-size {
				continue
			}
			lx := math.Max(width/2+4*s, math.Min(float64(c.view.Width)-width/2-4*s, x+place.across*s))
			box := image.Rect(int(lx-width/2-4), int(ly-size*0.7), int(lx+width/2+4), int(ly+size*0.7))
			if try.good(box) && c.open(stroke{{x, y}, {lx, ly}}) {
				return [2]float64{lx, ly}, true
			}
		}
	}
	return at, false
}
