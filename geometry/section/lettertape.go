package section

import (
	"math"

	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// TapeLine is a tape on the sheet, from its zero on, with the way that it stands off, of length one.
type TapeLine struct {
	Line  placing.Straight
	Side  placing.Point
	Ticks []TapeTick
}

// TapeTick is a mark on it, and what leads from there to its figure; nothing where that stands beside it.
type TapeTick struct {
	At   placing.Point
	Lead placing.Straight
	Lit  bool
}

// How far off a tape stands and its figures from it, in points.
const (
	tapeOff   = 30
	tickClear = 8
	litPad    = 3 // round the figure of a mark that is lit
)

// ReachPoints is how far off the drawing a tape reaches on paper with its figures, in points, where it comes to
// stand off to a side there.
func (t *Tape) ReachPoints(side plan.Point) float64 {
	const figureWide, figureHigh = 62, 18
	if sideways(side) {
		return tapeOff + tickClear + figureWide
	}
	return tapeOff + tickClear + figureHigh
}

// measured asks for room for what was measured of a room.
func (l *letterer) measured(d *Seen) {
	for i := range d.Tapes {
		l.tape(d, &d.Tapes[i])
	}
	for i := range d.Diagonals {
		l.diagonal(d, &d.Diagonals[i])
	}
	if o := d.OffSquare; o != nil {
		l.offSquare(d, o)
	}
}

// tape asks for room for the figures of a tape: beside their ticks, away from the room, and where they come too close
// farther off or on the other side.
func (l *letterer) tape(d *Seen, t *Tape) {
	zero, side := d.To(t.Zero), d.way(t.Zero, t.Side)
	if side == (placing.Point{}) {
		return
	}
	off := func(at placing.Point, by float64) placing.Point {
		return placing.Point{at[0] + side[0]*by*l.Scale, at[1] + side[1]*by*l.Scale}
	}
	line := TapeLine{Line: placing.Straight{off(zero, tapeOff), off(d.To(t.End), tapeOff)}, Side: side}
	if !line.Line.Meets(l.scene.Picture) {
		return
	}
	l.keep(line.Line)
	at := len(l.out.Tapes)
	for k := range t.Marks {
		line.Ticks = append(line.Ticks, TapeTick{At: off(d.To(t.Marks[k].At), tapeOff), Lit: t.Marks[k].Lit})
	}
	l.out.Tapes = append(l.out.Tapes, line)
	// The lit one first: it is to stand where it is looked for.
	for _, lit := range [...]bool{true, false} {
		for k := range t.Marks {
			if t.Marks[k].Lit == lit && !t.saidElsewhere(k) {
				l.tapeMark(&t.Marks[k], &line, at, k)
			}
		}
	}
	l.tapeName(t, &line)
}

// saidElsewhere tells whether another mark at the place of one says the same: one that is asked, else the last of them,
// where the tape ends at what stands in the corner.
func (t *Tape) saidElsewhere(mark int) bool {
	m := &t.Marks[mark]
	for k := range t.Marks {
		o := &t.Marks[k]
		if k == mark || o.At.Sub(m.At).Len() > plan.HairMM || o.Text.String() != m.Text.String() {
			continue
		}
		if o.Lit != m.Lit && o.Lit || o.Lit == m.Lit && k > mark {
			return true
		}
	}
	return false
}

// figure is a text with what of it can be typed on, and how it looks.
func (l *letterer) figure(t *TapeMark, at placing.Point, width, size float64) Text {
	m := t.Mark
	text := l.text(t.Text, at, width, size)
	text.Mark = &m
	if t.Lit {
		text.Look = LookLit
	}
	return text
}

// tapeMark asks for room for the figure of a mark, by its place among a tape's and the tape's among all.
func (l *letterer) tapeMark(m *TapeMark, line *TapeLine, tape, tick int) {
	const rows, rowCost, innerCost, shiftCost = 4, 8, 14, 3
	size, s := TextPoints*l.Scale, l.Scale
	width := l.Measure(m.Text, size)
	if m.Lit {
		width += 2 * litPad * s
	}
	at, side := line.Ticks[tick].At, line.Side
	level := math.Abs(side[1]) > math.Abs(side[0])
	label := placing.Label{Own: []placing.Straight{line.Line}, LeaveOut: mustCost}
	var texts []Text
	var leads []placing.Straight
	for way, sense := range [...]float64{1, -1} {
		for row := range rows {
			for k, shift := range [...]float64{0, 0.5, -0.5, 0.9, -0.9} {
				half, step := size*0.62, size*1.3
				if !level {
					half, step = width/2, width+4*s
				}
				far := sense * (tickClear*s + half + float64(row)*step)
				p := placing.Point{at[0] + side[0]*far, at[1] + side[1]*far}
				if level {
					p[0] += shift * width
				} else {
					p[1] += shift * size * 1.3
				}
				c := placing.Candidate{Cost: rowCost*float64(row) + innerCost*float64(way) + shiftCost*float64(k)}
				t := l.figure(m, p, width, size)
				c.Boxes = []placing.Box{t.Box}
				lead := placing.Straight{}
				if row > 0 || k > 0 {
					lead = placing.Straight{at, near(at, t.Box)}
					c.Leader = []placing.Straight{lead}
				}
				label.Candidates, texts, leads = append(label.Candidates, c), append(texts, t), append(leads, lead)
			}
		}
	}
	l.add(label, func(k int, out *Lettering) {
		out.Texts = append(out.Texts, texts[k])
		out.Tapes[tape].Ticks[tick].Lead = leads[k]
	})
}

// near is the place of a box nearest to another place.
func near(at placing.Point, b placing.Box) placing.Point {
	for k := range 2 {
		at[k] = math.Max(b.Low[k], math.Min(b.High[k], at[k]))
	}
	return at
}

// tapeName asks for room to say what tape it is: beside it near its zero, on either side.
func (l *letterer) tapeName(t *Tape, line *TapeLine) {
	size := l.small(smallShare)
	width := l.Measure(t.Said, size)
	long := line.Line.Length()
	level := math.Abs(line.Side[1]) > math.Abs(line.Side[0])
	if !level || width+4*gapPoints*l.Scale > long {
		return // an upright tape has its words beside its wall's letter
	}
	label := placing.Label{LeaveOut: couldCost}
	var texts []Text
	for k, share := range [...]float64{0.2, 0.35, 0.5, 0.65, 0.8} {
		for way, sense := range [...]float64{1, -1} {
			along := math.Max(share, (width/2+2*gapPoints*l.Scale)/long)
			far := sense * (gapPoints*l.Scale + size*0.62)
			text := l.text(t.Said, placing.Point{line.Line[0][0] + along*(line.Line[1][0]-line.Line[0][0]) + line.Side[0]*far,
				line.Line[0][1] + along*(line.Line[1][1]-line.Line[0][1]) + line.Side[1]*far}, width, size)
			text.Look = LookPress
			label.Candidates = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{text.Box}, Cost: float64(2*k + way)})
			texts = append(texts, text)
		}
	}
	l.add(label, func(k int, out *Lettering) { out.Texts = append(out.Texts, texts[k]) })
}

// diagonal asks for room for the figure of a length across the room, on its line away from the middle, where
// such lines meet.
func (l *letterer) diagonal(d *Seen, g *Diagonal) {
	size := TextPoints * l.Scale
	width := l.Measure(g.Text, size)
	if g.Lit {
		width += 2 * litPad * l.Scale
	}
	line := d.straight(g.From, g.To)
	if !line.Meets(l.scene.Picture) {
		return
	}
	l.scene.Ink.Line(line, thinWeight)
	l.out.Dotted = append(l.out.Dotted, line)
	label := placing.Label{Own: []placing.Straight{line}, LeaveOut: mustCost}
	var texts []Text
	for k, share := range [...]float64{0.72, 0.28, 0.62, 0.38, 0.82, 0.18, 0.5} {
		t := l.text(g.Text, placing.Point{line[0][0] + share*(line[1][0]-line[0][0]), line[0][1] + share*(line[1][1]-line[0][1])}, width, size)
		if t.Key = g.Key; g.Lit {
			t.Look = LookLit
		}
		label.Candidates, texts = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{t.Box}, Cost: 2 * float64(k)}), append(texts, t)
	}
	l.add(label, func(k int, out *Lettering) { out.Texts = append(out.Texts, texts[k]) })
}

// offSquare shows a room as it were square and asks for room to say by how much it is not.
func (l *letterer) offSquare(d *Seen, o *OffSquare) {
	for i := 1; i < len(o.Outline); i++ {
		line := d.straight(o.Outline[i-1], o.Outline[i])
		l.scene.Ink.Line(line, edgeWeight)
		l.out.Square = append(l.out.Square, line)
	}
	size := TextPoints * l.Scale
	width := l.Measure(o.Text, size) + 2*gapPoints*l.Scale
	label := placing.Label{LeaveOut: mustCost}
	var texts []Text
	for k, place := range o.Places {
		t := l.text(o.Text, l.beside(d, place, false, width, size), width, size)
		t.Look = LookTold
		label.Candidates, texts = append(label.Candidates, placing.Candidate{Boxes: []placing.Box{t.Box}, Cost: 2 * float64(k)}), append(texts, t)
	}
	l.add(label, func(k int, out *Lettering) { out.Texts = append(out.Texts, texts[k]) })
}
