package paint

import (
	"cmp"
	"image"
	"math"
	"slices"

	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// FitTo is the view that shows what a drawing has to be looked at first, with room on the
// picture for the rows of its dimensions.
func FitTo(d *section.Drawing, width, height int, scale float64) View {
	v := Fit(d.FocusLow, d.FocusHigh, width, height, scale)
	var across, up []held
	hold := func(list *[]held, at, beforePixels, afterPixels float64) {
		*list = append(*list, held{at, beforePixels * scale, afterPixels * scale})
	}
	const sideMargin, upMargin, textWidth, textHeight = 30, 40, 60, 10
	for _, p := range [2]plan.Point{d.FocusLow, d.FocusHigh} {
		hold(&across, p.X(), sideMargin, sideMargin)
		hold(&up, p.Y(), upMargin, upMargin)
	}
	inside := func(p plan.Point) bool {
		const hair = 1e-6
		return p.X() >= d.FocusLow.X()-hair && p.X() <= d.FocusHigh.X()+hair && p.Y() >= d.FocusLow.Y()-hair && p.Y() <= d.FocusHigh.Y()+hair
	}
	for _, m := range d.Dimensions {
		if !inside(m.From) || !inside(m.To) {
			continue
		}
		switch {
		case m.Side.X() < -0.5:
			hold(&across, math.Min(m.From.X(), m.To.X()), rowOffset(m, uprightSpread)+textWidth, 0)
		case m.Side.X() > 0.5:
			hold(&across, math.Max(m.From.X(), m.To.X()), 0, rowOffset(m, uprightSpread)+textWidth)
		case m.Side.Y() < -0.5:
			hold(&up, math.Min(m.From.Y(), m.To.Y()), rowOffset(m, levelSpread)+textHeight, 0)
		case m.Side.Y() > 0.5:
			hold(&up, math.Max(m.From.Y(), m.To.Y()), 0, rowOffset(m, levelSpread)+textHeight)
		}
	}
	fits := func(pixelsPerMM float64) bool {
		_, x := centred(across, float64(width), pixelsPerMM)
		_, y := centred(up, float64(height), pixelsPerMM)
		return x && y
	}
	// The largest scale that fits, found by halving.
	low, high := v.PixelsPerMM/4, v.PixelsPerMM
	if !fits(high) {
		if !fits(low) {
			return v
		}
		const steps = 20
		for range steps {
			if middle := (low + high) / 2; fits(middle) {
				low = middle
			} else {
				high = middle
			}
		}
		v.PixelsPerMM = low
	}
	x, _ := centred(across, float64(width), v.PixelsPerMM)
	y, _ := centred(up, float64(height), v.PixelsPerMM)
	v.Centre = plan.Point{x, y}
	return v
}

// held is a place along one axis of a drawing with the pixels that it needs before and after it.
type held struct{ at, before, after float64 }

// centred is where the middle of a picture must be to hold all places, as near to the middle of
// them as can be; ok is false where it cannot hold them.
func centred(all []held, pixels, pixelsPerMM float64) (middle float64, ok bool) {
	low, high := math.Inf(-1), math.Inf(1)
	for _, h := range all {
		high = math.Min(high, h.at+(pixels/2-h.before)/pixelsPerMM)
		low = math.Max(low, h.at-(pixels/2-h.after)/pixelsPerMM)
	}
	return (low + high) / 2, low <= high
}

// How far apart rows of dimensions stand, in points: the texts of upright lines stand beside
// them, and take more.
const (
	firstRow      = 20
	levelSpread   = 24
	uprightSpread = 64
)

// rowOffset is how far off the drawing a dimension stands, in points.
func rowOffset(d section.Dimension, spread float64) float64 {
	return firstRow + spread*float64(d.Row-1)
}

// stroke is a straight of the drawing on the picture.
type stroke [2][2]float64

func (s stroke) length() float64 { return math.Hypot(s[1][0]-s[0][0], s[1][1]-s[0][1]) }

// keep notes the lines that no text is to cover where it can stand elsewhere: all but the
// thinnest, and what runs through others.
func (c *canvas) keep(d *section.Drawing) {
	add := func(points [][2]float64) {
		for i := 1; i < len(points); i++ {
			c.kept = append(c.kept, stroke{points[i-1], points[i]})
		}
	}
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Weight > section.Thin {
			add(c.pixels(l.Points))
		}
		if l.Kind == "run" || l.Kind == "trap" {
			c.filled = append(c.filled, plan.FromRing(l.Points))
		}
	}
	for i := range d.Areas {
		a := &d.Areas[i]
		if a.Cut {
			c.cut = append(c.cut, a.Region)
		}
		if a.Material.RunsThrough() {
			c.filled = append(c.filled, a.Region)
			for _, p := range a.Region {
				for _, r := range p.Rings() {
					ring := c.pixels(r)
					add(append(ring, ring[0]))
				}
			}
		}
	}
}

// meets tells whether a straight passes through a box.
func (s stroke) meets(box image.Rectangle) bool {
	low, high := [2]float64{float64(box.Min.X), float64(box.Min.Y)}, [2]float64{float64(box.Max.X), float64(box.Max.Y)}
	for k := range 2 {
		if a, b := s[0][k], s[1][k]; math.Max(a, b) < low[k] || math.Min(a, b) > high[k] {
			return false
		}
	}
	from, to := s.within(low, high)
	return from <= to
}

// within is from which share of its length to which a straight lies between two corners; along
// an axis that it runs square to it is not looked at.
func (s stroke) within(low, high [2]float64) (from, to float64) {
	const squarePixels = 1e-9
	from, to = 0, 1
	for k := range 2 {
		step := s[1][k] - s[0][k]
		if math.Abs(step) <= squarePixels {
			continue
		}
		in, out := (low[k]-s[0][k])/step, (high[k]-s[0][k])/step
		from, to = math.Max(from, math.Min(in, out)), math.Min(to, math.Max(in, out))
	}
	return from, to
}

// shown is from which share of its length to which a straight shows on a drawing.
func (c *canvas) shown(s stroke) (from, to float64) {
	return s.within([2]float64{}, [2]float64{float64(c.view.Width), float64(c.view.Height)})
}

// strokeOf is a straight of the drawing as it comes to lie on the picture.
func (c *canvas) strokeOf(from, to plan.Point) (s stroke) {
	s[0][0], s[0][1] = c.to.ToPixel(from)
	s[1][0], s[1][1] = c.to.ToPixel(to)
	return s
}

// clear tells whether a box covers no text, no line that is to be kept, and stands in nothing
// that runs through others.
func (c *canvas) clear(box image.Rectangle) bool {
	if !c.free(box) || slices.ContainsFunc(c.kept, func(s stroke) bool { return s.meets(box) }) {
		return false
	}
	middle := c.view.ToDrawing(float64(box.Min.X+box.Max.X)/2, float64(box.Min.Y+box.Max.Y)/2)
	return !slices.ContainsFunc(c.filled, func(r plan.Region) bool { return r.Contains(middle, 0) })
}

// open tells whether a straight passes through no text.
func (c *canvas) open(s stroke) bool {
	return !slices.ContainsFunc(c.taken, s.meets)
}

// textBox is where a text of a width and size about a place stands.
func textBox(x, y, width, size float64) image.Rectangle {
	return image.Rect(int(x-width/2), int(y-size*0.6), int(math.Ceil(x+width/2)), int(math.Ceil(y+size*0.6)))
}

// onLine is where on a dimension's line its text may stand, the best first: the middle of what
// shows of it, then other places.
func (c *canvas) onLine(line stroke, width float64) [][2]float64 {
	a, b, from, to := line[0], line[1], 0.0, 1.0
	if c.flat() {
		if in, out := c.shown(line); (out-in)*line.length() >= width {
			from, to = in, out
		}
	}
	var out [][2]float64
	for _, share := range [...]float64{0.5, 0.35, 0.65, 0.22, 0.78} {
		t := from + share*(to-from)
		out = append(out, [2]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])})
	}
	return out
}

// markPlace is where the text of a mark may stand, in points from what is marked: across, and
// away from it.
type markPlace struct{ across, off float64 }

// markNear is how far off, across and away together, the text of a mark is led to stand on paper
// alone, in points.
const markNear = 150

// markPlaces are the places for the text of a mark, the nearest first.
func markPlaces() (out []markPlace) {
	const first, line, lines, aside = 34, 17, 12, 55
	for k := range lines {
		for across := -2; across <= 2; across++ {
			out = append(out, markPlace{float64(across * aside), first + float64(k)*line})
		}
	}
	slices.SortStableFunc(out, func(a, b markPlace) int {
		return cmp.Compare(a.off+math.Abs(a.across), b.off+math.Abs(b.across))
	})
	return out
}
