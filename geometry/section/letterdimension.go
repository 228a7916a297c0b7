package section

import (
	"math"

	"underfall/geometry/edit"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// How far apart rows of dimensions stand, in points: the texts of upright lines stand beside
// them, and take more.
const (
	firstRow      = 20
	levelSpread   = 24
	uprightSpread = 64
)

// OffPoints is how far off the drawing a dimension's line stands on paper, in points, where it comes to stand off
// to a side there.
func (d *Dimension) OffPoints(side plan.Point) float64 {
	spread := float64(levelSpread)
	if sideways(side) {
		spread = uprightSpread
	}
	return firstRow + spread*float64(d.Row-1)
}

// sideways tells whether a way leads more to the side than up or down.
func sideways(way [2]float64) bool { return math.Abs(way[0]) > math.Abs(way[1]) }

// upright tells whether it stands off sideways.
func (m *Measure) upright() bool { return sideways(m.Side) }

// measure is where a dimension lies on the sheet; ok is false behind the camera.
func (l *letterer) measure(d *Seen, dim *Dimension) (m Measure, ok bool) {
	a, b, side := d.To(dim.From), d.To(dim.To), d.way(dim.From, dim.Side)
	if math.IsNaN(a[0] + a[1] + b[0] + b[1] + side[0] + side[1]) {
		return m, false
	}
	m = Measure{Of: placing.Straight{a, b}, Side: side, Flat: d.Back != nil}
	off := dim.OffPoints(m.Side) * l.Scale
	// The line runs square to the side, at the further of the ends; in a picture in space, beside
	// what it measures.
	pa, pb := off, off
	if m.Flat {
		reach := math.Max(a[0]*side[0]+a[1]*side[1], b[0]*side[0]+b[1]*side[1]) + off
		pa, pb = reach-(a[0]*side[0]+a[1]*side[1]), reach-(b[0]*side[0]+b[1]*side[1])
	}
	m.Line = placing.Straight{{a[0] + side[0]*pa, a[1] + side[1]*pa}, {b[0] + side[0]*pb, b[1] + side[1]*pb}}
	return m, true
}

// readable tells whether a dimension is large enough to be read at this scale, as that of a step always is, and in a
// picture in space whether its text, of a width, would not be cut off by the rim.
func (l *letterer) readable(m *Measure, step bool, width float64) bool {
	const least, leastUpright, rim = 3, 13, 4
	length := m.Line.Length()
	if !step && (length < least*l.Scale || m.upright() && length < leastUpright*l.Scale) {
		return false
	}
	middle := placing.Point{(m.Line[0][0] + m.Line[1][0]) / 2, (m.Line[0][1] + m.Line[1][1]) / 2}
	return m.Flat || placing.Around(middle, width+2*rim*l.Scale, width*2/3).Within(l.scene.Picture)
}

// dimension asks for room for a dimension; one that is too small to read, or has no room for its text,
// comes when one zooms in.
func (l *letterer) dimension(d *Seen, dim *Dimension) {
	size := TextPoints * l.Scale
	width := l.Measure(dim.Text, size)
	m, ok := l.measure(d, dim)
	if ok && dim.Step && !m.Line.Meets(l.scene.Picture) {
		// Past the rim; on the step's other side, close to it, it is told all the same.
		inwards := *dim
		inwards.Side, inwards.Row = dim.Side.Mul(-1), 1
		m, ok = l.measure(d, &inwards)
	}
	if !ok || !l.readable(&m, dim.Step, width) {
		return
	}
	if m.Line.Meets(l.scene.Picture) {
		l.keep(m.Line)
	}
	label := placing.Label{Own: []placing.Straight{m.Line}, OffCut: dim.OffCut, LeaveOut: mustCost}
	if dim.Step {
		label.LeaveOut = stepCost
	}
	texts := l.onMeasure(&m, dim, width, size)
	for i := range texts {
		const eachCost = 3
		texts[i].Key, texts[i].HangsOn, texts[i].Line = dim.Key, dim.HangsOn, &m.Line
		label.Candidates = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{texts[i].Box}, Cost: eachCost * float64(i)})
	}
	l.add(label, func(k int, out *Lettering) {
		out.Texts, out.Measures = append(out.Texts, texts[k]), append(out.Measures, m)
	})
}

// onMeasure are the places for the text of a dimension, the best first: on a level line, beside an
// upright one, past the ends of one that is too short. A low step is told over it first: beside it floors run.
func (l *letterer) onMeasure(m *Measure, dim *Dimension, width, size float64) (out []Text) {
	s, a, b := l.Scale, m.Line[0], m.Line[1]
	vertical, short := math.Abs(b[1]-a[1]) > math.Abs(b[0]-a[0]), width+6*s > m.Line.Length()
	put := func(x, y float64) { out = append(out, l.text(dim.Text, placing.Point{x, y}, width, size)) }
	places := l.onLine(m.Line, width, m.Flat)
	if short || vertical && math.Abs(b[1]-a[1]) < width {
		places = places[:1]
	}
	beside := (width/2 + 6*s) * math.Copysign(1, m.Side[0])
	middle := placing.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
	past := func() {
		put(middle[0], math.Min(a[1], b[1])-size)
		put(middle[0], math.Max(a[1], b[1])+size)
	}
	if vertical && dim.Step && m.Line.Length() < 2*size {
		top := math.Min(a[1], b[1]) - size
		past()
		put(middle[0]+beside, top)
		put(middle[0]-beside, top)
	}
	for _, at := range places {
		switch {
		case vertical:
			// Outwards; on the line it would hide it.
			put(math.Max(width/2+3*s, math.Min(l.Width-width/2-3*s, at[0]+beside)), at[1])
		case short:
			put(at[0], at[1]+13*s*math.Copysign(1, m.Side[1]))
		default:
			put(at[0], at[1])
		}
	}
	for _, at := range places {
		if vertical {
			put(at[0]-beside, at[1])
		}
	}
	left, right := math.Min(a[0], b[0]), math.Max(a[0], b[0])
	switch {
	case vertical:
		past() // where it is too low for its text
	case short:
		put(right+width/2+8*s, middle[1])
		put(left-width/2-8*s, middle[1])
		put(middle[0], middle[1]-13*s*math.Copysign(1, m.Side[1]))
		put(right+width/2+2*s, middle[1]+13*s*math.Copysign(1, m.Side[1]))
		put(left-width/2-2*s, middle[1]+13*s*math.Copysign(1, m.Side[1]))
	}
	return out
}

// onLine is where on a line its text may stand, the best first: the middle of what shows of it, then
// other places.
func (l *letterer) onLine(line placing.Straight, width float64, flat bool) (out []placing.Point) {
	from, to := 0.0, 1.0
	if flat {
		if in, end := line.Within(l.scene.Picture); (end-in)*line.Length() >= width {
			from, to = in, end
		}
	}
	for _, share := range [...]float64{0.5, 0.35, 0.65, 0.22, 0.78} {
		t := from + share*(to-from)
		out = append(out, placing.Point{line[0][0] + t*(line[1][0]-line[0][0]), line[0][1] + t*(line[1][1]-line[0][1])})
	}
	return out
}

// setOut asks for room for a distance that is set out: one without room comes when one zooms in.
func (l *letterer) setOut(d *Seen, o *SetOut) {
	const spanCost, placeCost = 1.5, 0.5
	size := TextPoints * l.Scale
	width := l.Measure(o.Text, size)
	label := placing.Label{LeaveOut: couldCost}
	if o.Sets != (edit.FromWall{}) {
		label.LeaveOut = setCost
	}
	var texts []Text
	var lines []SetOutLine
	for i, span := range o.Spans {
		line := d.straight(span[0], span[1])
		if l.alongKept(line) {
			continue
		}
		lead := placing.Straight{d.To(o.Of), line[1]}
		for k, at := range l.besideLine(line, width, size) {
			t := l.text(o.Text, at, width, size)
			t.Key, t.Sets, t.HangsOn, t.Line = o.Key, o.Sets, o.HangsOn, &line
			cost := spanCost*float64(i) + placeCost*float64(k)
			label.Candidates = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{t.Box}, Leader: []placing.Straight{line, lead}, Cost: cost})
			texts, lines = append(texts, t), append(lines, SetOutLine{line, lead})
		}
	}
	l.add(label, func(k int, out *Lettering) {
		out.Texts, out.SetOuts = append(out.Texts, texts[k]), append(out.SetOuts, lines[k])
	})
}

// alongKept tells whether a straight runs along a line that is to be kept or is laid over the
// picture, so that one could not be told from the other.
func (l *letterer) alongKept(line placing.Straight) bool {
	for _, lines := range [...][]placing.Straight{l.kept, l.scene.Over} {
		for _, k := range lines {
			if line.Along(k) {
				return true
			}
		}
	}
	return false
}

// besideLine is where the text of a line may stand, the best first: on it where it leaves enough
// of the line to be seen, then beside it, then past its ends. None for a line too short to see.
func (l *letterer) besideLine(line placing.Straight, width, size float64) (out []placing.Point) {
	const leastPoints, endPoints = 6, 10
	s, length := l.Scale, line.Length()
	if !(length >= leastPoints*s) {
		return nil
	}
	dx, dy := (line[1][0]-line[0][0])/length, (line[1][1]-line[0][1])/length
	on := l.onLine(line, width, true)
	if long := math.Abs(dx)*width + math.Abs(dy)*size; long+2*endPoints*s <= length {
		out = append(out, on...)
	}
	off := math.Abs(dy)*width/2 + math.Abs(dx)*size*0.6 + gapPoints*s
	for _, at := range on {
		out = append(out, placing.Point{at[0] - dy*off, at[1] + dx*off}, placing.Point{at[0] + dy*off, at[1] - dx*off})
	}
	past := math.Abs(dx)*width/2 + math.Abs(dy)*size*0.6 + 2*gapPoints*s
	return append(out, placing.Point{line[1][0] + dx*past, line[1][1] + dy*past}, placing.Point{line[0][0] - dx*past, line[0][1] - dy*past})
}

// Typed tells whether a text shows what can be typed on.
func (t *Text) Typed() bool { return t.Key != "" || t.Sets != (edit.FromWall{}) || t.Mark != nil }
