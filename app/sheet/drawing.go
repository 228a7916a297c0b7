package sheet

import (
	"math"
	"slices"
	"strconv"

	"underfall/app/paint"
	"underfall/app/pen"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// drawingScale is how large letters and lines of a drawing are on paper against those on a screen.
const drawingScale = 0.66

// scales are the ones that drawings are made in, the largest first: after ISO 5455 and, between its steps, those
// usual for buildings; in inches those of an architect's scale.
func scales(units unit.System) []drawnScale {
	if units == unit.Imperial {
		var out []drawnScale
		for _, s := range []struct {
			label string
			ratio float64
		}{{"6\" = 1'", 2}, {"3\" = 1'", 4}, {"1½\" = 1'", 8}, {"1\" = 1'", 12}, {"¾\" = 1'", 16}, {"½\" = 1'", 24}, {"⅜\" = 1'", 32},
			{"¼\" = 1'", 48}, {"⅛\" = 1'", 96}} {
			out = append(out, drawnScale{s.ratio, s.label})
		}
		return out
	}
	var out []drawnScale
	for _, ratio := range []float64{1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200} {
		out = append(out, drawnScale{ratio, "1:" + strconv.Itoa(int(ratio))})
	}
	return out
}

// drawnScale is a scale: so many millimetres to one of paper, and what it is called.
type drawnScale struct {
	ratio float64
	label string
}

func (s drawnScale) pointsPerMM() float64 { return PointsPerMM / s.ratio }

// style is how drawings look on this paper.
func (m *maker) style() paint.Style {
	s := paint.Usual(false, drawingScale, m.say, m.r.Settled.Units)
	s.Paper, s.Ink, s.Soft, s.Accent = white(), ink(), softInk(), ink()
	s.LeastText = smallPoints
	s.Unit = message.Message{} // the head says it
	return s
}

// drawn is a drawing in the largest scale that its focus and its dimensions leave room for, in a frame as wide as
// given and no higher than needed, with its heading, which is told the scale and what it is about, and a scale bar. high is the
// most the frame may be; nothing comes of a drawing without areas and lines. What is too large for the paper in any scale is drawn
// as large as it fits, without one, and that is told.
func (m *maker) drawn(head message.ID, d *section.Drawing, wide, high float64, about ...message.Arg) []block {
	if len(d.Areas) == 0 && len(d.Lines) == 0 {
		return nil
	}
	across := int(wide)
	fits := func(tall int) float64 { return paint.FitTo(d, across, tall, drawingScale).PixelsPerMM }
	scale, ok := m.scaleFor(d, wide, high)
	if !ok {
		told := message.Of("sheet.too-large", message.In("paper", message.Of(m.Paper.Name())), message.Name("scale", scale.label))
		out := m.unscaled(message.Of(head, append(about, message.In("scale", message.Of("sheet.no-scale")))...), d, wide, high)
		return append(out, paragraph(m.to, m.say.Say(told), strong(), wide)...)
	}
	low, tall := 40, int(high)
	for low < tall {
		if middle := (low + tall) / 2; fits(middle) >= scale.pointsPerMM() {
			tall = middle
		} else {
			low = middle + 1
		}
	}
	view := paint.FitTo(d, across, tall, drawingScale)
	view.PixelsPerMM = scale.pointsPerMM()
	out := heading(m.to, m.say.Say(message.Of(head, append(about, message.Name("scale", scale.label))...)), wide)
	return append(out, m.framed(d, view), m.scaleBar(scale))
}

// scaleFor is the largest scale that a drawing has in a frame; ok is false where none is small enough, and it is the smallest.
func (m *maker) scaleFor(d *section.Drawing, wide, high float64) (s drawnScale, ok bool) {
	most := paint.FitTo(d, int(wide), int(high), drawingScale).PixelsPerMM
	all := scales(m.r.Settled.Units)
	if i := slices.IndexFunc(all, func(s drawnScale) bool { return s.pointsPerMM() <= most }); i >= 0 {
		return all[i], true
	}
	return all[len(all)-1], false
}

// unscaled is a drawing as large as its frame lets it be, with its heading.
func (m *maker) unscaled(head message.Message, d *section.Drawing, wide, high float64) []block {
	return append(heading(m.to, m.say.Say(head), wide), m.framed(d, paint.FitTo(d, int(wide), int(high), drawingScale)))
}

// framed is a drawing in the frame of its view, which stays on the page of what follows.
func (m *maker) framed(d *section.Drawing, v paint.View) block {
	wide, high := float64(v.Width), float64(v.Height)
	return block{high: high, keep: true, draw: func(to pen.Pen, at placing.Point) {
		paint.On(pen.Within(to, placing.Box{Low: at, High: placing.Point{at[0] + wide, at[1] + high}}), *d, v, m.style())
	}}
}

// barMM is how long scale bars are of what is drawn: about a quarter of the page at most.
func (m *maker) barMM(s drawnScale) (mm float64, parts int) {
	const mostPoints = 140
	steps := []float64{50, 100, 200, 500, 1000, 2000, 5000}
	if m.r.Settled.Units == unit.Imperial {
		const footMM = 304.8
		steps = []float64{footMM / 4, footMM / 2, footMM, 2 * footMM, 4 * footMM, 8 * footMM, 16 * footMM}
	}
	mm = steps[0]
	for _, step := range steps {
		if step*s.pointsPerMM() <= mostPoints {
			mm = step
		}
	}
	return mm, 4
}

// scaleBar is a bar that shows a length of what is drawn, to hold a rule against.
func (m *maker) scaleBar(s drawnScale) block {
	mm, parts := m.barMM(s)
	long := mm * s.pointsPerMM()
	text := m.full.Value(message.Length{MM: mm, Feet: true})
	const barHigh = 3
	return block{high: 14, draw: func(to pen.Pen, at placing.Point) {
		part := long / float64(parts)
		y := at[1] + 4
		for i := range parts {
			left := at[0] + float64(i)*part
			if i%2 == 0 {
				to.Box(placing.Box{Low: placing.Point{left, y}, High: placing.Point{left + part, y + barHigh}}, ink())
			}
		}
		edge := []placing.Straight{{{at[0], y}, {at[0] + long, y}}, {{at[0], y + barHigh}, {at[0] + long, y + barHigh}},
			{{at[0] + long, y}, {at[0] + long, y + barHigh}}}
		to.Stroke(edge, 0.4, ink())
		to.Text(text, placing.Point{at[0] + long + 4, y + barHigh + math.Round(smallPoints)/4}, smallPoints, pen.Regular, ink())
	}}
}
