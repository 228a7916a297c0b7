package pen

import (
	"image"
	"image/color"

	"underfall/geometry/placing"
)

// Within is a pen whose upper left corner is that of a box on the page of another, and which marks nothing outside
// of it: fills and strokes are cut at its edges, texts and pictures that reach over them left out.
func Within(to Pen, b placing.Box) Pen {
	return within{to, b}
}

type within struct {
	to  Pen
	box placing.Box
}

func (w within) point(p placing.Point) placing.Point {
	return placing.Point{w.box.Low[0] + p[0], w.box.Low[1] + p[1]}
}

func (w within) moved(b placing.Box) placing.Box {
	return placing.Box{Low: w.point(b.Low), High: w.point(b.High)}
}

func (w within) Fill(rings [][]placing.Point, ink color.RGBA) {
	var kept [][]placing.Point
	for _, ring := range rings {
		moved := make([]placing.Point, len(ring))
		for i, q := range ring {
			moved[i] = w.point(q)
		}
		if cut := w.clipped(moved); len(cut) > 0 {
			kept = append(kept, cut)
		}
	}
	w.to.Fill(kept, ink)
}

// clipped is a ring cut at the box's four edges in turn. Parts that hang apart then hang together by
// stretches of an edge that enclose nothing. Source: Sutherland and Hodgman, Reentrant polygon clipping, CACM 1974;
// from memory.
func (w within) clipped(ring []placing.Point) []placing.Point {
	for axis := range 2 {
		for _, side := range [2]float64{-1, 1} {
			limit := w.box.Low[axis]
			if side > 0 {
				limit = w.box.High[axis]
			}
			over := func(p placing.Point) float64 { return (p[axis] - limit) * side }
			var out []placing.Point
			for i, q := range ring {
				before := ring[(i+len(ring)-1)%len(ring)]
				from, to := over(before), over(q)
				if (from > 0) != (to > 0) {
					t := from / (from - to)
					out = append(out, placing.Point{before[0] + t*(q[0]-before[0]), before[1] + t*(q[1]-before[1])})
				}
				if to <= 0 {
					out = append(out, q)
				}
			}
			ring = out
		}
	}
	return ring
}

func (w within) Box(b placing.Box, ink color.RGBA) {
	m := w.moved(b)
	for k := range 2 {
		m.Low[k], m.High[k] = max(m.Low[k], w.box.Low[k]), min(m.High[k], w.box.High[k])
	}
	if m.Low[0] <= m.High[0] && m.Low[1] <= m.High[1] {
		w.to.Box(m, ink)
	}
}

func (w within) Stroke(lines []placing.Straight, width float64, ink color.RGBA) {
	kept := make([]placing.Straight, 0, len(lines))
	for _, l := range lines {
		if cut, ok := (placing.Straight{w.point(l[0]), w.point(l[1])}).CutTo(w.box); ok {
			kept = append(kept, cut)
		}
	}
	w.to.Stroke(kept, width, ink)
}

func (w within) Text(text string, at placing.Point, size float64, face Face, ink color.RGBA) {
	p := w.point(at)
	taken := placing.Box{Low: placing.Point{p[0], p[1] - size}, High: placing.Point{p[0] + w.TextWidth(text, size, face), p[1]}}
	if taken.Within(w.box) {
		w.to.Text(text, p, size, face, ink)
	}
}

func (w within) TextWidth(text string, size float64, face Face) float64 {
	return w.to.TextWidth(text, size, face)
}

func (w within) Picture(img image.Image, b placing.Box) {
	if m := w.moved(b); m.Within(w.box) {
		w.to.Picture(img, m)
	}
}
