package theme

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// at is a place of a mark, in units from its upper left corner.
type at struct{ x, y float64 }

// path is a line of straight pieces; curves are made of many.
type path []at

// pen draws shapes into a picture of pixels. All lengths are in units.
type pen struct {
	img    *image.RGBA
	pixels float64 // to a unit
	fonts  *fonts
}

// curveSteps are the straight pieces of a quarter of a circle.
const curveSteps = 12

// arc goes round a centre from an angle to another, in degrees clockwise from the right, as
// y goes down.
func arc(c at, rx, ry, fromDeg, toDeg float64) path {
	n := max(1, int(math.Ceil(math.Abs(toDeg-fromDeg)/90*curveSteps)))
	out := make(path, n+1)
	for i := range out {
		s, k := math.Sincos((fromDeg + (toDeg-fromDeg)*float64(i)/float64(n)) * math.Pi / 180)
		out[i] = at{c.x + rx*k, c.y + ry*s}
	}
	return out
}

// bow goes from a to b, drawn towards c.
func bow(a, c, b at) path {
	out := make(path, curveSteps+1)
	for i := range out {
		t := float64(i) / curveSteps
		u := 1 - t
		out[i] = at{u*u*a.x + 2*u*t*c.x + t*t*b.x, u*u*a.y + 2*u*t*c.y + t*t*b.y}
	}
	return out
}

// box is a rectangle with round corners.
func box(x, y, w, h, r float64) path {
	r = max(0, min(r, w/2, h/2))
	if r == 0 {
		return path{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
	}
	var out path
	out = append(out, arc(at{x + w - r, y + r}, r, r, -90, 0)...)
	out = append(out, arc(at{x + w - r, y + h - r}, r, r, 0, 90)...)
	out = append(out, arc(at{x + r, y + h - r}, r, r, 90, 180)...)
	return append(out, arc(at{x + r, y + r}, r, r, 180, 270)...)
}

// fill paints what closed lines enclose.
func (p *pen) fill(ink color.NRGBA, shapes ...path) {
	low, high := at{math.Inf(1), math.Inf(1)}, at{math.Inf(-1), math.Inf(-1)}
	for _, s := range shapes {
		for _, q := range s {
			low = at{min(low.x, q.x*p.pixels), min(low.y, q.y*p.pixels)}
			high = at{max(high.x, q.x*p.pixels), max(high.y, q.y*p.pixels)}
		}
	}
	all := p.img.Bounds()
	low = at{max(low.x, float64(all.Min.X)), max(low.y, float64(all.Min.Y))}
	high = at{min(high.x, float64(all.Max.X)), min(high.y, float64(all.Max.Y))}
	if !(low.x < high.x && low.y < high.y) {
		return
	}
	b := image.Rect(int(low.x), int(low.y), int(math.Ceil(high.x)), int(math.Ceil(high.y)))
	z := vector.NewRasterizer(b.Dx(), b.Dy())
	for _, s := range shapes {
		for i, q := range s {
			x, y := float32(q.x*p.pixels-float64(b.Min.X)), float32(q.y*p.pixels-float64(b.Min.Y))
			if i == 0 {
				z.MoveTo(x, y)
			} else {
				z.LineTo(x, y)
			}
		}
		z.ClosePath()
	}
	z.Draw(p.img, b, image.NewUniform(ink), image.Point{})
}

// line draws a line with round ends and corners.
func (p *pen) line(ink color.NRGBA, width float64, points ...at) {
	var shapes []path
	for i := range points {
		shapes = append(shapes, arc(points[i], width/2, width/2, 0, 360))
		if i > 0 {
			shapes = append(shapes, bar(points[i-1], points[i], width)...)
		}
	}
	p.fill(ink, shapes...)
}

// ring draws a closed line.
func (p *pen) ring(ink color.NRGBA, width float64, shape path) {
	p.line(ink, width, append(shape[:len(shape):len(shape)], shape[0])...)
}

// bar is a straight piece of a line, as wide as it is; none of a piece without a length.
func bar(a, b at, width float64) []path {
	dx, dy := b.x-a.x, b.y-a.y
	long := math.Hypot(dx, dy)
	if long == 0 {
		return nil
	}
	nx, ny := -dy/long*width/2, dx/long*width/2
	return []path{{{a.x - nx, a.y - ny}, {b.x - nx, b.y - ny}, {b.x + nx, b.y + ny}, {a.x + nx, a.y + ny}}}
}

// broken draws a line broken by turns into the given dashes and gaps, with blunt ends.
func (p *pen) broken(ink color.NRGBA, width float64, dashes []float64, points ...at) {
	var shapes []path
	which, left := 0, dashes[0]
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		for from := 0.0; from < long; {
			to := min(long, from+left)
			if which%2 == 0 {
				shapes = append(shapes, bar(between(a, b, from/long), between(a, b, to/long), width)...)
			}
			left -= to - from
			from = to
			if left <= 1e-9 {
				which = (which + 1) % len(dashes)
				left = dashes[which]
			}
		}
	}
	p.fill(ink, shapes...)
}

func between(a, b at, t float64) at { return at{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t} }

// text writes in the middle of a place, in bold type of a height.
func (p *pen) text(ink color.NRGBA, text string, middle at, size float64) {
	f := p.fonts.bold(size * p.pixels)
	if f == nil {
		return
	}
	const capital = 0.714 // of the type's height: what a capital of Noto Sans has
	wide := float64(font.MeasureString(f, text)) / 64
	d := font.Drawer{Dst: p.img, Src: image.NewUniform(ink), Face: f,
		Dot: fixed.Point26_6{X: fixed.Int26_6((middle.x*p.pixels - wide/2) * 64), Y: fixed.Int26_6((middle.y + size*capital/2) * p.pixels * 64)}}
	d.DrawString(text)
}

// Pen draws the lines of controls that draw themselves, in units, into a picture of so many
// pixels to one.
type Pen struct{ pen pen }

// NewPen makes a pen for a picture.
func NewPen(img *image.RGBA, pixels float64) *Pen { return &Pen{pen{img: img, pixels: pixels}} }

// Line draws a line with round ends through places x, y.
func (p *Pen) Line(ink color.NRGBA, width float64, places ...[2]float64) {
	p.pen.line(ink, width, ats(places)...)
}

// Dashed draws a broken line.
func (p *Pen) Dashed(ink color.NRGBA, width, dash, gap float64, places ...[2]float64) {
	p.pen.broken(ink, width, []float64{dash, gap}, ats(places)...)
}

// Arrow draws an arrow from a to b, with a head at a as well where it has both.
func (p *Pen) Arrow(ink color.NRGBA, a, b [2]float64, both bool) {
	p.pen.arrow(ink, at{a[0], a[1]}, at{b[0], b[1]}, both)
}

func ats(places [][2]float64) path {
	out := make(path, len(places))
	for i, q := range places {
		out[i] = at{q[0], q[1]}
	}
	return out
}
