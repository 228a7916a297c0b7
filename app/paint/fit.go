package paint

import (
	"math"

	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// FitTo is the view that shows what a drawing has to be looked at first, with room on the
// picture for the rows of its dimensions.
func FitTo(d *section.Drawing, width, height int, scale float64) View {
	return FitTurned(d, 0, width, height, scale)
}

// FitTurned is that view of a drawing which is turned on the picture.
func FitTurned(d *section.Drawing, turned plan.Quarters, width, height int, scale float64) View {
	low, high := corners(turned.Turned(d.FocusLow), turned.Turned(d.FocusHigh))
	v := Fit(low, high, width, height, scale)
	h := holding{d: d, turned: turned, scale: scale}
	h.all()
	v.Centre, v.PixelsPerMM = h.fit(v, float64(width), float64(height))
	v.Centre, v.Turned = turned.Back().Turned(v.Centre), turned
	return v
}

// holding are the places that a picture has to hold, as they lie on it: across and up it.
type holding struct {
	d          *section.Drawing
	turned     plan.Quarters
	scale      float64 // pixels to a point
	across, up []held
}

// hold adds a place along an axis with what it needs before and after it, in points.
func (h *holding) hold(axis *[]held, at, before, after float64) {
	*axis = append(*axis, held{at, before * h.scale, after * h.scale})
}

// place has a place held, so many points from the rim.
func (h *holding) place(p plan.Point, side, up float64) {
	p = h.turned.Turned(p)
	h.hold(&h.across, p.X(), side, side)
	h.hold(&h.up, p.Y(), up, up)
}

// all adds what is looked at first, what only has to show, and what stands beside it.
func (h *holding) all() {
	const sideMargin, upMargin, textWidth, textHeight, rim = 30, 40, 60, 10, 5
	for _, p := range [2]plan.Point{h.d.FocusLow, h.d.FocusHigh} {
		h.place(p, sideMargin, upMargin)
	}
	for _, p := range h.d.Shows {
		h.place(p, rim, rim)
	}
	for i := range h.d.Dimensions {
		m := &h.d.Dimensions[i]
		side := h.turned.Turned(m.Side)
		h.beside(m.From, m.To, side, m.OffPoints(side)+textWidth, m.OffPoints(side)+textHeight)
	}
	for i := range h.d.Tapes {
		t := &h.d.Tapes[i]
		side := h.turned.Turned(t.Side)
		h.beside(t.Zero, t.End, side, t.ReachPoints(side), t.ReachPoints(side))
	}
}

// beside has a row held that stands off from between two places to a side of the picture, so many points.
func (h *holding) beside(from, to, side plan.Point, reachX, reachY float64) {
	if !h.inFocus(from) || !h.inFocus(to) {
		return
	}
	from, to = h.turned.Turned(from), h.turned.Turned(to)
	switch {
	case side.X() < -0.5:
		h.hold(&h.across, math.Min(from.X(), to.X()), reachX, 0)
	case side.X() > 0.5:
		h.hold(&h.across, math.Max(from.X(), to.X()), 0, reachX)
	case side.Y() < -0.5:
		h.hold(&h.up, math.Min(from.Y(), to.Y()), reachY, 0)
	case side.Y() > 0.5:
		h.hold(&h.up, math.Max(from.Y(), to.Y()), 0, reachY)
	}
}

// inFocus tells whether a place of the drawing is looked at first.
func (h *holding) inFocus(p plan.Point) bool {
	const hair = 1e-6
	low, high := h.d.FocusLow, h.d.FocusHigh
	return p.X() >= low.X()-hair && p.X() <= high.X()+hair && p.Y() >= low.Y()-hair && p.Y() <= high.Y()+hair
}

// fit is the middle and the largest scale, up to that of a view, at which a picture holds all places; those of the
// view where even half of it is too large: what is built is to be read, and rows that have no room go.
func (h *holding) fit(v View, width, height float64) (middle plan.Point, pixelsPerMM float64) {
	fits := func(pixelsPerMM float64) bool {
		_, x := centred(h.across, width, pixelsPerMM)
		_, y := centred(h.up, height, pixelsPerMM)
		return x && y
	}
	low, high := v.PixelsPerMM/2, v.PixelsPerMM
	if !fits(high) {
		if !fits(low) {
			return v.Centre, v.PixelsPerMM
		}
		const steps = 20 // of halving
		for range steps {
			if middle := (low + high) / 2; fits(middle) {
				low = middle
			} else {
				high = middle
			}
		}
		high = low
	}
	x, _ := centred(h.across, width, high)
	y, _ := centred(h.up, height, high)
	return plan.Point{x, y}, high
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
