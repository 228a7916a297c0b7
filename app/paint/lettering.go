package paint

import (
	"image/color"

	"underfall/app/pen"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// sheet is the picture as drawings are lettered on it.
func (c *canvas) sheet() section.Sheet {
	measured := map[sizedText]float64{}
	return section.Sheet{
		Width: float64(c.view.Width), Height: float64(c.view.Height), Scale: c.style.Scale, LeastText: c.style.LeastText, Unit: c.style.Unit,
		Taken: c.style.Taken, Chosen: c.style.Chosen,
		Measure: func(m message.Message, size float64) float64 {
			text := sizedText{c.style.Book.Say(m), size}
			wide, known := measured[text]
			if !known {
				wide = c.textWidth(text.text, size)
				measured[text] = wide
			}
			return wide
		},
	}
}

// sizedText is a text in a size.
type sizedText struct {
	text string
	size float64
}

// onto is the place of a drawing's points on the picture.
func onto(to Projection) func(plan.Point) placing.Point {
	return func(p plan.Point) (at placing.Point) {
		at[0], at[1] = to.ToPixel(p)
		return at
	}
}

// seen is a drawing as it lies on the picture of a view.
func seen(d *section.Drawing, v View) section.Seen {
	back := func(at placing.Point) plan.Point { return v.ToDrawing(at[0], at[1]) }
	return section.Seen{Drawing: d, To: onto(v), Back: back, PixelsPerMM: v.PixelsPerMM}
}

// Sizes of what leads to texts, in points.
const (
	staffPoints   = 1.2
	ringStroke    = 1.4
	leadPoints    = 0.6 // what leads out to a line
	notePoints    = 0.7
	measurePoints = 0.9
)

// lettering paints lettering: lines first, as texts stand on patches of paper.
func (c *canvas) lettering(l *section.Lettering) {
	s := c.style.Scale
	c.measured(l)
	for i := range l.Measures {
		c.measure(&l.Measures[i])
	}
	for _, o := range l.SetOuts {
		c.pen.Stroke([]placing.Straight{o.Lead}, leadPoints*s, c.leadInk())
		c.ticked(o.Line)
	}
	for _, stem := range l.Stems {
		c.stem(stem)
	}
	for _, n := range l.Notes {
		c.pen.Stroke(n.Lines, notePoints*s, c.style.Ink)
		for _, at := range n.Dots {
			c.dot(at)
		}
	}
	for _, at := range l.Dots {
		c.dot(at)
	}
	for i := range l.Texts {
		t := &l.Texts[i]
		c.letters(c.style.Book.Say(t.Message), t.At[0], t.At[1], t.Size, c.ground(t))
	}
	for _, d := range l.Discs {
		c.disc(d)
	}
}

// placed are the texts that can be typed on, or that tell what they hang on.
func (c *canvas) placed(l *section.Lettering) (out []Placed) {
	for i := range l.Texts {
		if t := &l.Texts[i]; t.Typed() || len(t.HangsOn) > 0 {
			out = append(out, Placed{Box: pen.Pixels(t.Box), Line: t.Line, Key: t.Key, Sets: t.Sets, Mark: t.Mark, HangsOn: t.HangsOn, Text: c.style.Book.Say(t.Message)})
		}
	}
	return out
}

// dot paints the dot at a place.
func (c *canvas) dot(at placing.Point) {
	r := section.DotPoints * c.style.Scale
	c.pen.Fill([][]placing.Point{placing.Around(at, 2*r, 2*r).Corners()}, c.style.Ink)
}

// stem draws a staff's foot that stands on a level, or hangs under it, and the stem on it.
func (c *canvas) stem(stem section.Stem) {
	s := c.style.Scale
	var lines []placing.Straight
	for i := 1; i < len(stem.Points); i++ {
		lines = append(lines, placing.Straight{stem.Points[i-1], stem.Points[i]})
	}
	c.pen.Stroke(lines, staffPoints*s, c.style.Accent)
	at, half, high := stem.Points[0], section.FootPoints/2*s, -section.FootPoints*s
	if stem.Down {
		high = -high
	}
	c.pen.Fill([][]placing.Point{{{at[0] - half, at[1]}, {at[0] + half, at[1]}, {at[0] + half, at[1] + high}, {at[0] - half, at[1] + high}}}, c.style.Accent)
}

// disc paints a disc with a wall's letter, or a ring with a corner's.
func (c *canvas) disc(d section.Disc) {
	c.round(d.At, d.Radius, c.style.Ink)
	ink := c.style.Paper
	if d.Ring {
		c.round(d.At, d.Radius-ringStroke*c.style.Scale, c.style.Paper)
		ink = c.style.Ink
	}
	c.letters(d.Letters, d.At[0], d.At[1], d.Size, ink)
}

// round fills a circle about a place.
func (c *canvas) round(at placing.Point, radius float64, ink color.RGBA) {
	const sides = 48
	c.pen.Fill([][]placing.Point{circle(at, radius, sides)}, ink)
}

// circle is a ring of so many sides about a place.
func circle(at placing.Point, radius float64, sides int) []placing.Point {
	ring := make([]placing.Point, sides)
	for i := range ring {
		way := plan.DirectionDeg(float64(i) * 360 / float64(sides))
		ring[i] = placing.Point{at[0] + radius*way.X(), at[1] + radius*way.Y()}
	}
	return ring
}

// measure draws the line of a dimension, and those that lead out to it.
func (c *canvas) measure(m *section.Measure) {
	s := c.style.Scale
	over := 4 * s
	var leads []placing.Straight
	for k, end := range m.Line {
		leads = append(leads, placing.Straight{m.Of[k], {end[0] + m.Side[0]*over, end[1] + m.Side[1]*over}})
	}
	c.pen.Stroke(leads, leadPoints*s, c.leadInk())
	c.ticked(m.Line)
	if m.Flat {
		c.broken(m.Line)
	}
}

// broken marks where a line runs on off the picture.
func (c *canvas) broken(line placing.Straight) {
	const inPoints, halfPoints, stepPoints = 9, 5, 2.5
	s := c.style.Scale
	from, to := line.Within(placing.Box{High: placing.Point{float64(c.view.Width), float64(c.view.Height)}})
	length := line.Length()
	if (to-from)*length < 4*inPoints*s {
		return
	}
	dx, dy := (line[1][0]-line[0][0])/length, (line[1][1]-line[0][1])/length
	for _, end := range [2]struct {
		off bool
		at  float64
	}{{from > 0, from*length + inPoints*s}, {to < 1, to*length - inPoints*s}} {
		if !end.off {
			continue
		}
		at := func(along, aside float64) placing.Point {
			t := end.at + along*s
			return placing.Point{line[0][0] + dx*t - dy*aside*s, line[0][1] + dy*t + dx*aside*s}
		}
		gap, a, b := placing.Straight{at(-stepPoints, 0), at(stepPoints, 0)}, at(-stepPoints/2, halfPoints), at(stepPoints/2, -halfPoints)
		c.pen.Stroke([]placing.Straight{gap}, 2*s, c.style.Paper)
		c.pen.Stroke([]placing.Straight{{at(-stepPoints, 0), a}, {a, b}, {b, at(stepPoints, 0)}}, measurePoints*s, c.style.Ink)
	}
}

// leadInk is the ink of what leads out to a line.
func (c *canvas) leadInk() color.RGBA { return mix(c.style.Paper, c.style.Ink, 0.45) }

// ticked draws a line with a tick across each of its ends.
func (c *canvas) ticked(line placing.Straight) {
	s := c.style.Scale
	tick := 4 * s
	c.pen.Stroke([]placing.Straight{line}, measurePoints*s, c.style.Ink)
	var ticks []placing.Straight
	for _, end := range line {
		ticks = append(ticks, placing.Straight{{end[0] - tick, end[1] + tick}, {end[0] + tick, end[1] - tick}})
	}
	c.pen.Stroke(ticks, 1.4*s, c.style.Ink)
}
