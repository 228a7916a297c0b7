package space

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/viewer"
)

// mostBeside is how many results are shown beside the one that is worked on.
const mostBeside = viewer.Slots - 1

// beside is a result that is shown beside the one that is worked on.
type beside struct {
	result     *geometry.Result
	generation int
}

// strips are the results that stand beside each other in one picture, each from a line on that can be dragged.
type strips struct {
	others   []beside
	divides  []float64 // where each of them begins, a share of the width
	dividing int       // the line that is dragged; -1 for none
	counted  int       // results that were ever beside another
	lines    [mostBeside]*canvas.Line
	knobs    [mostBeside]*canvas.Circle
	says     []string // of each strip what it is, the first of the result that is worked on
	plates   [mostBeside + 1]*canvas.Rectangle
	texts    [mostBeside + 1]*canvas.Text
}

func newStrips() *strips {
	s := &strips{dividing: -1}
	for i := range s.lines {
		s.lines[i], s.knobs[i] = canvas.NewLine(nil), canvas.NewCircle(nil)
		s.lines[i].StrokeWidth = 3
	}
	for i := range s.plates {
		s.plates[i], s.texts[i] = canvas.NewRectangle(nil), canvas.NewText("", nil)
		s.plates[i].StrokeWidth = theme.EdgeWidth
	}
	s.hide()
	return s
}

func (s *strips) objects() (out []fyne.CanvasObject) {
	for i := range s.lines {
		out = append(out, s.lines[i], s.knobs[i])
	}
	for i := range s.plates {
		out = append(out, s.plates[i], s.texts[i])
	}
	return out
}

func (s *strips) hide() {
	for _, o := range s.objects() {
		o.Hide()
	}
}

// Compare shows results beside the one that is worked on, each on the right of a line that can be dragged; none shows that alone.
// Says is what is written over each strip, the first of what is worked on. Those that stay keep their places.
func (v *View) Compare(with []*geometry.Result, says []string) {
	s := v.strips
	with = with[:min(len(with), mostBeside)]
	s.says = slices.Clone(says)
	same := slices.EqualFunc(with, s.others, func(r *geometry.Result, o beside) bool { return r == o.result })
	if same {
		v.placeStrips()
		return
	}
	before := s.others
	s.others = nil
	for _, r := range with {
		i := slices.IndexFunc(before, func(o beside) bool { return o.result == r })
		if i >= 0 {
			s.others = append(s.others, before[i])
			continue
		}
		s.counted++
		s.others = append(s.others, beside{r, s.counted})
	}
	if len(before) != len(with) {
		from, to := v.showerAcross()
		s.divides = nil
		for i := range with {
			s.divides = append(s.divides, from+(to-from)*float64(i+1)/float64(len(with)+1))
		}
	}
	v.placeStrips()
	v.ask(true)
}

// showerAcross is from where to where the shower reaches across the picture, as shares of its width, so that lines divide that; all
// of the picture where that is too little to be divided.
func (v *View) showerAcross() (from, to float64) {
	const least = 0.25
	from, to = 1, 0
	l, heights := &v.result.Layout, &v.result.Heights
	for _, p := range l.Corners {
		if x, _, ok := v.sight.Camera.Project(p.Vec3(heights.ShowerAt(l, p)), v.aspect()); ok {
			from, to = min(from, x), max(to, x)
		}
	}
	from, to = max(0, from), min(1, to)
	if to-from < least {
		return 0, 1
	}
	return from, to
}

// divideAt is the line that can be grasped at a place; -1 for none.
func (v *View) divideAt(p fyne.Position) int {
	return slices.IndexFunc(v.strips.divides, func(at float64) bool {
		return math.Abs(float64(p.X)-at*float64(v.Size().Width)) < knobRadius+6
	})
}

// divide moves the line that is dragged, no further than to the next.
func (v *View) divide(to float64) {
	const apart = 0.02
	s := v.strips
	low, high := apart, 1-apart
	if s.dividing > 0 {
		low = s.divides[s.dividing-1] + apart
	}
	if s.dividing+1 < len(s.divides) {
		high = s.divides[s.dividing+1] - apart
	}
	s.divides = slices.Clone(s.divides) // pictures that are being drawn have their own
	s.divides[s.dividing] = max(low, min(high, to))
	v.placeStrips()
	v.ask(true)
}

const knobRadius = 20

// placeStrips draws the lines between pictures that stand beside each other, and over each what it is.
func (v *View) placeStrips() {
	s, size := v.strips, v.Size()
	s.hide()
	if len(s.others) == 0 {
		return
	}
	paper, accent := v.theme.Color("background", 0), v.theme.Color("primary", 0)
	show := func(of ...fyne.CanvasObject) {
		for _, o := range of {
			o.Show()
			o.Refresh()
		}
	}
	for i, at := range s.divides {
		x, line, knob := float32(at)*size.Width, s.lines[i], s.knobs[i]
		line.StrokeColor = paper
		line.Position1, line.Position2 = fyne.NewPos(x, 0), fyne.NewPos(x, size.Height)
		knob.FillColor, knob.StrokeColor, knob.StrokeWidth = paper, accent, 4
		knob.Resize(fyne.NewSize(2*knobRadius, 2*knobRadius))
		knob.Move(fyne.NewPos(x-knobRadius, size.Height/2-knobRadius))
		show(line, knob)
	}
	from := float32(0)
	for i := range min(len(s.says), len(s.others)+1) {
		to := size.Width
		if i < len(s.divides) {
			to = float32(s.divides[i]) * size.Width
		}
		if v.labelStrip(i, from, to) {
			show(s.plates[i], s.texts[i])
		}
		from = to
	}
}

// labelStrip writes what a strip is at the top of it, as much as there is room for; it tells whether there is any.
func (v *View) labelStrip(i int, from, to float32) bool {
	s, t := v.strips, v.theme
	pad, text, plate := t.Unit(theme.Space2), s.texts[i], s.plates[i]
	text.Color, text.TextSize, text.TextStyle.Bold = t.Role(theme.Ink), t.Text(theme.TextHeading), true
	says := []rune(s.says[i])
	text.Text = s.says[i]
	for n := len(says); n > 0 && text.MinSize().Width > to-from-4*pad; n-- {
		text.Text = string(says[:n-1]) + "…"
	}
	size := text.MinSize()
	if size.Width > to-from-4*pad {
		return false
	}
	at := fyne.NewPos((from+to-size.Width)/2, 2*pad)
	plate.FillColor, plate.StrokeColor, plate.CornerRadius = t.Role(theme.Sheet), t.Role(theme.Edge), t.Unit(theme.PlateRadius)
	plate.Move(at.SubtractXY(pad, pad/2))
	plate.Resize(size.AddWidthHeight(2*pad, pad))
	text.Move(at)
	text.Resize(size)
	return true
}
