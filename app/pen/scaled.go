package pen

import (
	"image"
	"image/color"

	"underfall/geometry/placing"
)

// Scaled is a pen whose page is so many times as large on the page of another, corner on corner.
func Scaled(to Pen, times float64) Pen { return scaled{to, times} }

type scaled struct {
	to    Pen
	times float64
}

func (s scaled) point(p placing.Point) placing.Point {
	return placing.Point{p[0] * s.times, p[1] * s.times}
}

func (s scaled) box(b placing.Box) placing.Box {
	return placing.Box{Low: s.point(b.Low), High: s.point(b.High)}
}

func (s scaled) Fill(rings [][]placing.Point, ink color.RGBA) {
	out := make([][]placing.Point, len(rings))
	for i, ring := range rings {
		out[i] = make([]placing.Point, len(ring))
		for k, q := range ring {
			out[i][k] = s.point(q)
		}
	}
	s.to.Fill(out, ink)
}

func (s scaled) Box(b placing.Box, ink color.RGBA) { s.to.Box(s.box(b), ink) }

func (s scaled) Stroke(lines []placing.Straight, width float64, ink color.RGBA) {
	out := make([]placing.Straight, len(lines))
	for i, l := range lines {
		out[i] = placing.Straight{s.point(l[0]), s.point(l[1])}
	}
	s.to.Stroke(out, width*s.times, ink)
}

func (s scaled) Text(text string, at placing.Point, size float64, face Face, ink color.RGBA) {
	s.to.Text(text, s.point(at), size*s.times, face, ink)
}

func (s scaled) TextWidth(text string, size float64, face Face) float64 {
	return s.to.TextWidth(text, size*s.times, face) / s.times
}

func (s scaled) Picture(img image.Image, b placing.Box) { s.to.Picture(img, s.box(b)) }
