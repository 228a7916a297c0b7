package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Member is what a timber of the floor is for.
type Member uint8

// The members.
const (
	// CommonJoist runs whole and carries no trimmer.
	CommonJoist Member = iota
	// CutJoist is a piece of a joist that is cut out for an opening.
	CutJoist
	// TrimmingJoist is whole and carries trimmers.
	TrimmingJoist
	// SecondJoist lies against a trimming joist, on the opening's side, and doubles it.
	SecondJoist
	// Trimmer runs across from second joist to second joist and carries the ends of a
	// cut one.
	Trimmer
)

// Joist is one joist or other timber of the floor in plan: its centre line runs from
// Origin along Along between FromMM and ToMM. Origin and the layout's lie in one line
// across it.
type Joist struct {
	Index  int // in Layout.Joists
	Member Member
	// Number is a joist's as they lie; of second joists and trimmers how manieth of
	// its member it is. Piece tells the pieces of a cut joist apart. All from one; no
	// piece is nought.
	Number, Piece int
	// From is the letter of the wall that joists are counted from.
	From message.Letter
	// Doubles is, of a second joist, the number of the joist that it doubles.
	Doubles int
	// HungStart and HungEnd tell that an end of a cut joist hangs on a trimmer.
	HungStart, HungEnd bool
	Origin, Along      plan.Point
	FromMM, ToMM       float64
	WidthMM            float64
	Footprint          plan.Region
}

// LengthMM of the timber in the room.
func (j *Joist) LengthMM() float64 { return j.ToMM - j.FromMM }

// Middle of the timber in the room.
func (j *Joist) Middle() plan.Point { return j.Origin.Add(j.Along.Mul((j.FromMM + j.ToMM) / 2)) }

// Trimmed tells that the timber is one of an opening's: what it bears is for an engineer.
func (j *Joist) Trimmed() bool { return j.Member != CommonJoist }

// ID of the timber as a part.
func (j *Joist) ID() string {
	switch j.Member {
	case CutJoist:
		return fmt.Sprintf("joist-%d-%d", j.Number, j.Piece)
	case SecondJoist:
		return fmt.Sprintf("second-joist-%d", j.Number)
	case Trimmer:
		return fmt.Sprintf("trimmer-%d", j.Number)
	}
	return fmt.Sprintf("joist-%d", j.Number)
}

// Name is what the timber is called as a part.
func (j *Joist) Name() message.Message {
	return j.called("part.joist", "part.cut-joist", "part.second-joist", "part.trimmer")
}

// Shape names the timber with its cuts, as a shape that may fail.
func (j *Joist) Shape() message.Message {
	return j.called("shape.joist", "shape.cut-joist", "shape.second-joist", "shape.trimmer")
}

// called says which timber it is, by the words for each kind of member.
func (j *Joist) called(joist, cut, second, trimmer message.ID) message.Message {
	n, from := message.No("n", j.Number), message.Wall("wall", j.From)
	switch j.Member {
	case CutJoist:
		return message.Of(cut, n, from, message.No("piece", j.Piece))
	case SecondJoist:
		return message.Of(second, n)
	case Trimmer:
		return message.Of(trimmer, n)
	}
	return message.Of(joist, n, from)
}

// CutOut is an opening for which a joist is cut.
type CutOut struct {
	Joist int // counted from one, as the joists lie
	// Which of the joist's openings it is, from one.
	Which int
	// Trim is the opening as the job states it, by its index: all that is cut out for it has the same.
	Trim int
	// Carriers are the whole joists on both sides that carry the trimmers.
	Carriers [2]int
	// LengthMM is how much of the joist is cut out: the opening, and the trimmers that
	// stand in its line; FromMM along the joist from its start in the room.
	FromMM, LengthMM float64
	// Ring is what is cut out, in plan.
	Ring plan.Ring
}

// Middle of what is cut out.
func (c CutOut) Middle() plan.Point { return c.Ring[0].Add(c.Ring[2]).Mul(0.5) }

// joists are the joists where the room has a floor of them, with the openings cut out of
// them trimmed.
func (l *Layout) joists(j job.Job) {
	if j.Floor.Kind != job.FloorTimber {
		return
	}
	lines := j.JoistLines()
	js := &j.Floor.Joists
	l.JoistAlong, l.JoistOrigin, l.JoistsFrom = lines.Along, lines.Origin, j.JoistsFrom()
	l.SupportsMM = js.SupportsMM
	if len(l.SupportsMM) == 0 {
		l.SupportsMM = []float64{0, lines.LengthMM}
	}
	t := trimming{l: l, widthMM: js.WidthMM, lines: lines.Lines, trims: js.Trims, byJoist: map[int][]int{}, carries: map[int][2]bool{}}
	for i, trim := range js.Trims {
		if by := trim.Carriers(); by[0] < 1 || by[1] > len(lines.Lines) {
			continue // no joists carry it, which the job's check says
		}
		for n := trim.Joist; n <= trim.Last(); n++ {
			t.byJoist[n] = append(t.byJoist[n], i)
		}
		for side, by := range trim.Carriers() {
			// The opening lies after the joist before it, and before the one after.
			of := t.carries[by]
			of[1-side] = true
			t.carries[by] = of
		}
	}
	for i := range lines.Lines {
		t.joist(i + 1)
	}
	t.trim()
}

// trimming adds the timbers of a floor to its layout.
type trimming struct {
	l       *Layout
	widthMM float64
	lines   []job.JoistLine
	trims   []job.Trim
	byJoist map[int][]int // which of the trims cut a joist
	// carries tells of a joist whether it carries trimmers before it and after it, as
	// joists are counted.
	carries map[int][2]bool
}

// add puts in a timber that runs along the joists, or across them, on a line so far the
// other way.
func (t *trimming) add(j Joist, across bool, offMM, fromMM, toMM float64) {
	l := t.l
	j.Along, j.From = l.JoistAlong, l.JoistsFrom
	side := plan.Left(l.JoistAlong)
	if across {
		j.Along, side = side, l.JoistAlong
	}
	j.Index, j.Origin, j.FromMM, j.ToMM, j.WidthMM = len(l.Joists), l.JoistOrigin.Add(side.Mul(offMM)), fromMM, toMM, t.widthMM
	middle := j.Origin.Add(j.Along.Mul((fromMM + toMM) / 2))
	j.Footprint = rectangle(middle, j.Along, plan.Left(j.Along), (toMM-fromMM)/2, t.widthMM/2)
	l.Joists = append(l.Joists, j)
}

// opening is what of a statement of one is in one joist: the clear opening between two
// trimmers, along the joists from their origin; the trimmers are so thick, nought where the
// joist ends in it.
type opening struct {
	of                              job.Trim
	index                           int // of the statement
	fromMM, toMM, beforeMM, afterMM float64
}

// openings are those of a joist, from its start on.
func (t *trimming) openings(n int) (out []opening) {
	for _, i := range t.byJoist[n] {
		trim := t.trims[i]
		o := opening{of: trim, index: i}
		from, to, trimmer := trim.Opening(t.lines, n)
		o.fromMM, o.toMM = from, to
		if trimmer[0] {
			o.beforeMM = t.widthMM
		}
		if trimmer[1] {
			o.afterMM = t.widthMM
		}
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b opening) int { return cmp.Compare(a.fromMM, b.fromMM) })
	return out
}

// joist puts in a joist, whole or what is left of it.
func (t *trimming) joist(n int) {
	line, member := t.lines[n-1], CommonJoist
	if t.carries[n] != [2]bool{} {
		member = TrimmingJoist
	}
	from, piece, hung := line.FromMM, 0, false
	for _, o := range t.openings(n) {
		member = CutJoist
		if o.beforeMM > 0 {
			piece++
			t.add(Joist{Member: member, Number: n, Piece: piece, HungStart: hung, HungEnd: true}, false, line.OffsetMM, from, o.fromMM-o.beforeMM)
		}
		from, hung = o.toMM+o.afterMM, true
		if o.afterMM == 0 {
			return
		}
	}
	if member == CutJoist {
		piece++
	}
	t.add(Joist{Member: member, Number: n, Piece: piece, HungStart: hung}, false, line.OffsetMM, from, line.ToMM)
}

// trim puts in the second joists and the trimmers.
func (t *trimming) trim() {
	seconds, trimmers := 0, 0
	for n := range t.lines {
		for side, carries := range t.carries[n+1] {
			if carries {
				seconds++
				off := t.lines[n].OffsetMM + float64(2*side-1)*t.widthMM
				t.add(Joist{Member: SecondJoist, Number: seconds, Doubles: n + 1}, false, off, t.lines[n].FromMM, t.lines[n].ToMM)
			}
		}
	}
	for n := range t.lines {
		for i, o := range t.openings(n + 1) {
			if n+1 == o.of.Joist {
				trimmers = t.trimmers(o, trimmers)
			}
			t.cutOut(n+1, i+1, o)
		}
	}
}

// trimmers puts in those of an opening, and tells how many there are with those before.
func (t *trimming) trimmers(o opening, before int) int {
	by := o.of.Carriers()
	from, to := t.lines[by[0]-1].OffsetMM+1.5*t.widthMM, t.lines[by[1]-1].OffsetMM-1.5*t.widthMM
	for _, at := range [2]struct{ mm, thickMM float64 }{{o.fromMM - o.beforeMM/2, o.beforeMM}, {o.toMM + o.afterMM/2, o.afterMM}} {
		if at.thickMM > 0 {
			before++
			t.add(Joist{Member: Trimmer, Number: before}, true, at.mm, from, to)
		}
	}
	return before
}

// cutOut puts in what is cut out of a joist for the opening of it that is given.
func (t *trimming) cutOut(n, which int, o opening) {
	along, across := t.l.JoistAlong, plan.Left(t.l.JoistAlong)
	a, b := o.fromMM-o.beforeMM, o.toMM+o.afterMM
	middle := t.l.JoistOrigin.Add(across.Mul(t.lines[n-1].OffsetMM)).Add(along.Mul((a + b) / 2))
	ring := rectangle(middle, along, across, (b-a)/2, t.widthMM/2)[0].Outer
	t.l.CutOuts = append(t.l.CutOuts, CutOut{n, which, o.index, o.of.Carriers(), a - t.lines[n-1].FromMM, b - a, ring})
}

// leastCrossing is the share of a segment under which it only touches a joist, and
// sameSideMM the way across under which it runs along its flank: nothing but
// rounding.
const (
	leastCrossing = 1e-9
	sameSideMM    = 1e-12
)

// Crosses gives the share of the segment a-b inside the joist's breadth and
// length, from and to; ok is false when it stays outside.
func (j Joist) Crosses(a, b plan.Point) (from, to float64, ok bool) {
	across := plan.Left(j.Along)
	if da, db := a.Sub(j.Origin).Dot(across), b.Sub(j.Origin).Dot(across); math.Min(da, db) > j.WidthMM/2 || math.Max(da, db) < -j.WidthMM/2 {
		return 0, 0, false
	}
	from, to = 0, 1
	for _, axis := range []struct {
		dir       plan.Point
		low, high float64
	}{{across, -j.WidthMM / 2, j.WidthMM / 2}, {j.Along, j.FromMM, j.ToMM}} {
		da, db := a.Sub(j.Origin).Dot(axis.dir), b.Sub(j.Origin).Dot(axis.dir)
		if math.Abs(db-da) < sameSideMM {
			if da <= axis.low || da >= axis.high {
				return 0, 0, false
			}
			continue
		}
		t0, t1 := (axis.low-da)/(db-da), (axis.high-da)/(db-da)
		from, to = math.Max(from, math.Min(t0, t1)), math.Min(to, math.Max(t0, t1))
	}
	return from, to, to-from > leastCrossing
}
