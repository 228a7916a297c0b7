package paint

import (
	"image"
	"image/color"
	"math"
	"slices"

	"underfall/app/pen"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

func (c *canvas) area(a *section.Area, window plan.Region) {
	low, high, ok := a.Region.Bounds()
	wl, wh, _ := window.Bounds()
	if !ok || low.X() > wh.X() || high.X() < wl.X() || low.Y() > wh.Y() || high.Y() < wl.Y() {
		return
	}
	region := a.Region
	if low.X() < wl.X() || high.X() > wh.X() || low.Y() < wl.Y() || high.Y() > wh.Y() {
		for _, side := range []func(plan.Point) float64{
			func(q plan.Point) float64 { return q.X() - wl.X() }, func(q plan.Point) float64 { return wh.X() - q.X() },
			func(q plan.Point) float64 { return q.Y() - wl.Y() }, func(q plan.Point) float64 { return wh.Y() - q.Y() }} {
			region = region.Where(side)
		}
	}
	pattern, fill := a.Pattern(), c.filling(a)
	// Patterns of thin layers would not read: those are filled alone.
	var hatched plan.Region
	for _, p := range region {
		var rings [][]placing.Point
		for _, r := range p.Rings() {
			rings = append(rings, c.pixels(r))
		}
		c.pen.Fill(rings, fill)
		if c.thickness(p) >= leastHatched*c.style.Scale {
			hatched = append(hatched, p)
		}
	}
	if pattern.Solid || !a.Cut && !a.Hatched {
		return
	}
	spacing := hatchPixels * c.style.Scale / c.view.PixelsPerMM
	var lines []placing.Straight
	for _, l := range section.Hatch(hatched, pattern, spacing) {
		var q placing.Straight
		q[0][0], q[0][1] = c.view.ToPixel(l[0])
		q[1][0], q[1][1] = c.view.ToPixel(l[1])
		lines = append(lines, q)
	}
	c.hatch(lines, mix(fill, hatchInk(), hatchStrength))
}

// hatchInk is what hatches are drawn with, dark on light and dark paper alike, as
// materials have middling colours on both.
func hatchInk() color.RGBA { return color.RGBA{0x1a, 0x1d, 0x21, 255} }

const (
	hatchStrength = 0.55 // of the ink
	hatchPoints   = 0.8  // how wide hatch lines are
	leastHatched  = 4    // points: a layer that is thinner is filled alone
	seenStrength  = 0.72 // of the colour of what is seen behind the cut
	edgePoints    = 0.9  // how wide edges are
	chosenPoints  = 2.6  // and of what is chosen
)

// thickness of a polygon on the picture, in pixels: of a layer, how thick it is on
// average.
func (c *canvas) thickness(p plan.Polygon) float64 {
	round := 0.0
	for _, ring := range p.Rings() {
		for i, q := range ring {
			round += ring[(i+1)%len(ring)].Sub(q).Len()
		}
	}
	if round == 0 {
		return 0
	}
	return 2 * plan.Region{p}.Area() / round * c.view.PixelsPerMM
}

// hatch draws hatch lines; strokes as short as they are wide are spots.
func (c *canvas) hatch(lines []placing.Straight, ink color.RGBA) {
	width := hatchPoints * c.style.Scale
	spot := 3 * width
	var long []placing.Straight
	var spots [][]placing.Point
	for _, l := range lines {
		dx, dy := l[1][0]-l[0][0], l[1][1]-l[0][1]
		if length := math.Hypot(dx, dy); length >= spot {
			long = append(long, l)
		} else if length > width/2 {
			spots = append(spots, octagon((l[0][0]+l[1][0])/2, (l[0][1]+l[1][1])/2, length/2))
		}
	}
	c.pen.Stroke(long, width, ink)
	const batch = 256
	for part := range slices.Chunk(spots, batch) {
		c.pen.Fill(part, ink)
	}
}

// octagon is a spot.
func octagon(x, y, radius float64) []placing.Point {
	out := make([]placing.Point, 8)
	for i := range out {
		s, k := math.Sincos((float64(i) + 0.5) * math.Pi / 4)
		out[i] = placing.Point{x + radius*k, y + radius*s}
	}
	return out
}

// filling is the colour an area is filled with: its own, else its material's; what is
// seen behind the cut lies back on the paper.
func (c *canvas) filling(a *section.Area) color.RGBA {
	fill := a.Colour
	if fill.A == 0 {
		fill = c.style.Fill(a.Material)
	}
	if a.Cut {
		return fill
	}
	return mix(c.style.Paper, fill, seenStrength)
}

// edges draws the outlines of areas: in ink where they are cut. A layer that must be seen
// however thin it is has its own colour round it, over its neighbours' edges.
func (c *canvas) edges(areas []section.Area) {
	s := c.style
	for i := range areas {
		switch a := &areas[i]; {
		case a.Pattern().LeastPoints > 0:
		case a.Cut:
			c.outline(a.Region, s.Ink, edgePoints*s.Scale)
		default:
			c.outline(a.Region, s.Soft, edgePoints*s.Scale)
		}
	}
	for i := range areas {
		a := &areas[i]
		if least := a.Pattern().LeastPoints; least > 0 {
			c.outline(a.Region, c.filling(a), least*s.Scale)
		}
		if slices.Contains(s.Chosen, a.PartID) {
			c.outline(a.Region, s.Accent, chosenPoints*s.Scale)
		}
	}
}

func (c *canvas) outline(r plan.Region, ink color.RGBA, width float64) {
	var lines []placing.Straight
	for _, p := range r {
		for _, ring := range p.Rings() {
			lines = append(lines, placing.Round(c.pixels(ring))...)
		}
	}
	c.pen.Stroke(lines, width, ink)
}

// Areas paints areas alone: filled, hatched and edged, on what the picture shows already.
func Areas(img *image.RGBA, areas []section.Area, v View, s Style) {
	var none pen.Fonts
	c := &canvas{pen: none.On(img), view: v, to: v, style: s}
	window := plan.Rectangle(v.Shown(-pastRim))
	for i := range areas {
		c.area(&areas[i], window)
	}
	c.edges(areas)
}
