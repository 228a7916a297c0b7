package section

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
)

// Sizes of a note on paper, in points.
const (
	noteLead     = 16  // from the outermost layer to the foot of its texts
	noteTick     = 8   // from the upright to a text
	noteGap      = 4   // from there to the text
	noteLine     = 14  // from a text to the next
	noteFarOff   = 150 // how far out a note may be moved to find room
	noteAside    = 40  // how far apart places are that it is led aside to
	noteFarAside = 480 // how far they are away at most
	noteSmall    = 0.8 // of the usual size, where there is little room
)

// noteForm is a way to write a note: on the right of its upright (1), the left (-1) or half on
// each side (0), in which share of the usual size, and what that costs.
type noteForm struct{ side, size, cost float64 }

// noteFoot is where the foot of a note's texts stands: so far beyond the outermost layer, and so far
// to the right of there.
type noteFoot struct{ lead, aside float64 }

// noteWriter asks for room for one note.
type noteWriter struct {
	*letterer
	label placing.Label
	at    []notePlace // of the candidates
}

// notePlace is how a note stands at a candidate.
type notePlace struct {
	of     *NotePlace
	form   noteForm
	foot   placing.Point
	leader []placing.Straight
}

// note asks for room for the names of layers along one of its places, or led aside; one without room
// comes when one zooms in.
func (l *letterer) note(d *Seen, n *Note) {
	const placeCost, farCost, asideCost, asideFirst = 1.5, 0.25, 0.12, 25
	w := noteWriter{letterer: l, label: placing.Label{LeaveOut: mustCost, OffCut: true}}
	s := l.Scale
	for i := range n.Places {
		place := &n.Places[i]
		measured, widest := 0.0, 0.0 // which size the widest text is of, and how wide it is
		for _, form := range [...]noteForm{{1, 1, 0}, {-1, 1, 4}, {0, 1, 10}, {1, noteSmall, 18}, {-1, noteSmall, 20}, {0, noteSmall, 26}} {
			if form.size != measured { // saying a text takes longer than all else
				measured, widest = form.size, 0
				for _, t := range place.Texts {
					widest = math.Max(widest, l.Measure(t, l.small(form.size)))
				}
			}
			for far := 0.0; far <= noteFarOff; far += 2 * noteLine {
				cost := form.cost + placeCost*float64(i) + farCost*far
				w.try(d, place, form, noteFoot{lead: (noteLead + far) * s}, widest, cost)
				for aside := noteAside * s; i == 0 && aside < math.Min(l.Width, noteFarAside*s); aside += noteAside * s {
					cost := cost + asideFirst + asideCost/s*aside
					w.try(d, place, form, noteFoot{(noteLead + far) * s, aside}, widest, cost)
					w.try(d, place, form, noteFoot{(noteLead + far) * s, -aside}, widest, cost)
				}
			}
		}
	}
	l.add(w.label, func(k int, out *Lettering) { l.write(d, &w.at[k], out) })
}

// try adds a place for a note, in a form and from a foot on, that costs so much.
func (w *noteWriter) try(d *Seen, place *NotePlace, form noteForm, foot noteFoot, widest, cost float64) {
	s := w.Scale
	first, last := d.To(place.Points[0]), d.To(place.Points[len(place.Points)-1])
	way := placing.Point{first[0] - last[0], first[1] - last[1]}
	if long := math.Hypot(way[0], way[1]); long > 0 {
		way = placing.Point{way[0] / long, way[1] / long}
	} else {
		way = placing.Point{0, -1}
	}
	if level := math.Abs(way[0]) > 0.5; level && (form.side*way[0] <= 0 || foot.aside != 0) {
		return // its texts would lie back over the wall
	}
	if foot.aside != 0 && form.side*foot.aside <= 0 {
		return // what leads to it would run through its own texts
	}
	turn := placing.Point{first[0] + way[0]*foot.lead, first[1] + way[1]*foot.lead}
	at := placing.Point{turn[0] + foot.aside, turn[1]}
	rows := form.rows(len(place.Texts))
	size := w.small(form.size)
	height, half := size*noteLine/TextPoints*float64(rows-1), size*0.65
	reach := noteTick*s + widest + 2*noteGap*s
	box := placing.Box{Low: placing.Point{at[0] - reach, at[1] - height - half}, High: placing.Point{at[0] + reach, at[1] + half}}
	if form.side > 0 {
		box.Low[0] = at[0]
	} else if form.side < 0 {
		box.High[0] = at[0]
	}
	if !box.Within(w.scene.Picture) {
		return
	}
	leader := []placing.Straight{{last, turn}}
	if foot.aside != 0 {
		leader = append(leader, placing.Straight{turn, at})
	}
	w.label.Candidates = append(w.label.Candidates, placing.Candidate{
		Boxes: []placing.Box{box}, Leader: leader, Marks: w.dots(d, place.Points), Cost: cost})
	w.at = append(w.at, notePlace{place, form, at, leader})
}

// dots are what the dots take that stand in layers.
func (l *letterer) dots(d *Seen, points []plan.Point) (out []placing.Box) {
	for _, p := range points {
		out = append(out, placing.Around(d.To(p), 2*DotPoints*l.Scale, 2*DotPoints*l.Scale))
	}
	return out
}

// rows are how many lines lie one over the other, of so many.
func (f noteForm) rows(lines int) int {
	if f.side == 0 {
		return (lines + 1) / 2
	}
	return lines
}

// write writes the lines and texts of a note at a place.
func (l *letterer) write(d *Seen, at *notePlace, out *Lettering) {
	s, foot, rows := l.Scale, at.foot, at.form.rows(len(at.of.Texts))
	size := l.small(at.form.size)
	pitch := size * noteLine / TextPoints
	height := pitch * float64(rows-1)
	lines := NoteLines{Lines: append(at.leader, placing.Straight{foot, {foot[0], foot[1] - height}})}
	for i, m := range at.of.Texts {
		side, row := at.form.side, i
		if side == 0 {
			if side = 1; i >= rows {
				side, row = -1, i-rows
			}
		}
		y, width := foot[1]-height+float64(row)*pitch, l.Measure(m, size)
		lines.Lines = append(lines.Lines, placing.Straight{{foot[0], y}, {foot[0] + side*noteTick*s, y}})
		out.Texts = append(out.Texts, l.text(m, placing.Point{foot[0] + side*((noteTick+noteGap)*s+width/2), y}, width, size))
	}
	for _, p := range at.of.Points {
		lines.Dots = append(lines.Dots, d.To(p))
	}
	out.Notes = append(out.Notes, lines)
}

// Sizes of a list on paper.
const (
	listPitch = 1.45 // of a line, in sizes of its text
	listSpace = 14   // between columns, in points
	listSmall = 0.7  // of the usual size, where columns are to find room
)

// columns are how the lines of a list stand: in a size of text, so many in a column, and as many of
// them as there is room for.
type columns struct {
	size        float64
	rows, shown int
	wide        []float64 // of each column
}

// columnsOf finds room for lines, so wide each in a size of text, in a box: in the first of the sizes, in
// as many columns as that takes; where there is no room for all, in as many as there is.
func columnsOf(lines int, width func(line int, size float64) float64, boxWide, boxHigh, scale float64, sizes ...float64) (c columns) {
	for _, size := range sizes {
		c = columns{size: size}
		most := int(boxHigh / (c.size * listPitch))
		if most < 1 {
			continue
		}
		c.rows = (lines + (lines+most-1)/most - 1) / max(1, (lines+most-1)/most)
		if c.fill(lines, width, boxWide, scale); c.shown == lines {
			return c
		}
		c.rows = most
		c.fill(lines, width, boxWide, scale)
	}
	return c
}

// fill takes columns of lines while the box is wide enough for them.
func (c *columns) fill(lines int, width func(int, float64) float64, boxWide, scale float64) {
	c.shown, c.wide = 0, nil
	for left := boxWide; c.shown < lines; {
		to, wide := min(lines, c.shown+c.rows), 0.0
		for i := c.shown; i < to; i++ {
			wide = math.Max(wide, width(i, c.size))
		}
		if wide > left {
			return
		}
		c.shown, c.wide = to, append(c.wide, wide)
		left -= wide + listSpace*scale
	}
}

// list writes a drawing's list from its corner of the picture on; where there is no room for all of
// it, its last line says which are left out.
func (l *letterer) list(d *Seen) {
	list := &d.List
	n := len(list.Lines)
	if n == 0 {
		return
	}
	s, margin := l.Scale, 2*patchPoints*l.Scale
	corner := d.To(list.At)
	x, y, right, foot := math.Max(corner[0], margin), math.Max(corner[1], margin), l.Width-margin, l.Height-margin
	texts := make([]message.Message, n)
	for i := range list.Lines {
		texts[i] = list.Lines[i].Text
	}
	col := columnsOf(n, func(i int, size float64) float64 { return l.Measure(texts[i], size) }, right-x, foot-y, s,
		l.small(smallShare), l.small(listSmall))
	more := func(from int) message.Message {
		return message.Of("list.more", message.N("n", n-from), message.No("from", list.Lines[from].Number), message.No("to", list.Lines[n-1].Number))
	}
	if col.shown == 0 {
		width := l.Measure(more(0), col.size)
		l.fixed(l.text(more(0), placing.Point{right - width/2, foot - col.size}, width, col.size))
		return
	}
	if col.shown < n {
		texts[col.shown-1] = more(col.shown - 1)
	}
	pitch := col.size * listPitch
	for k, wide := range col.wide {
		for i := k * col.rows; i < min(col.shown, (k+1)*col.rows); i++ {
			width := l.Measure(texts[i], col.size)
			at := placing.Point{math.Min(x, right-width) + width/2, y + (float64(i-k*col.rows)+0.5)*pitch}
			l.fixed(l.text(texts[i], at, width, col.size))
		}
		x += wide + listSpace*s
	}
}
