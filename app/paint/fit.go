package paint

import (
	"math"

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
	stand := func(from, to, side plan.Point, reachX, reachY float64) {
		if !inside(from) || !inside(to) {
			return
		}
		switch {
		case side.X() < -0.5:
			hold(&across, math.Min(from.X(), to.X()), reachX, 0)
		case side.X() > 0.5:
			hold(&across, math.Max(from.X(), to.X()), 0, reachX)
		case side.Y() < -0.5:
			hold(&up, math.Min(from.Y(), to.Y()), reachY, 0)
		case side.Y() > 0.5:
			hold(&up, math.Max(from.Y(), to.Y()), 0, reachY)
		}
	}
	for _, m := range d.Dimensions {
		stand(m.From, m.To, m.Side, m.OffPoints()+textWidth, m.OffPoints()+textHeight)
	}
	for _, t := range d.Tapes {
		stand(t.Zero, t.End, t.Side, t.ReachPoints(), t.ReachPoints())
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
