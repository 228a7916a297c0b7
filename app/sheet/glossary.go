package sheet

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// term is a word of the trade: what it is found by in the catalogue, and where it is seen in a drawing.
type term struct {
	id string
	// parts are the beginnings of the ids of the areas that show it, lines the kinds of lines, mark what is marked there; nothing where no
	// drawing shows it.
	parts, lines []string
	mark         message.ID
	// at is its place where neither tells it; nil for none.
	at func(d *section.Drawing, m *maker) (plan.Point, bool)
}

// word and means are the ids of the word and of what it means.
func (t *term) word() message.ID  { return message.ID("glossary." + t.id) }
func (t *term) means() message.ID { return message.ID("glossary." + t.id + ".means") }

// shownBy tells whether an area shows the word, by the id of its part: one of its parts, or one of several of that.
func (t *term) shownBy(part string) bool {
	return slices.ContainsFunc(t.parts, func(is string) bool {
		rest, begins := strings.CutPrefix(part, is)
		return begins && (rest == "" || strings.Trim(rest, "-0123456789") == "")
	})
}

// GlossaryIDs are the ids of all words of the trade and of what they mean.
func GlossaryIDs() (out []message.ID) {
	for _, t := range terms() {
		out = append(out, t.word(), t.means())
	}
	return out
}

// terms are the words of the trade that Underfall uses. What is thinnest comes first, as it has the fewest places to be shown at.
func terms() []term {
	return []term{
		{id: "flange", at: flangePlace}, {id: "cover", parts: []string{"cover"}}, {id: "channel", parts: []string{"channel"}},
		{id: "seal", parts: []string{"seal", "trap-water"}}, {id: "weir", at: weirPlace}, {id: "dip", at: dipPlace},
		{id: "trap", parts: []string{"trap"}},
		{id: "tanking", parts: []string{"tanking"}}, {id: "bed", parts: []string{"tile-bed"}}, {id: "tile", parts: []string{"tile"}},
		{id: "former-bed", parts: []string{"former-bed"}}, {id: "former", parts: []string{"former"}},
		{id: "base", parts: []string{"base", "base-between", "lower-board", "base-let-in"}}, {id: "base-bed", parts: []string{"adhesive"}},
		{id: "wall-tile", parts: []string{"wall-tile"}}, {id: "joint", parts: []string{"sealant"}},
		{id: "lining", parts: []string{"wall-course"}}, {id: "way-in", at: stepPlace}, {id: "screen", lines: []string{"screen"}},
		{id: "room-floor", parts: []string{"room-tile"}}, {id: "structural-floor", parts: []string{"slab", "deck"}},
		{id: "joist", parts: []string{"joist"}}, {id: "noggin", parts: []string{"noggin"}}, {id: "ledger", parts: []string{"batten"}},
		{id: "ramp", parts: []string{"ramp"}}, {id: "kerb", parts: []string{"kerb"}},
		{id: "outlet", at: outletPlace}, {id: "invert", mark: section.MarkInvert}, {id: "crown", mark: section.MarkCrown},
		{id: "cover-over-pipe", mark: section.MarkLeastCover}, {id: "core-hole", mark: section.MarkCore},
		{id: "waste", parts: []string{"pipe", "run-straight"}},
		{id: "way-down", parts: []string{"way-down", "drop"}}, {id: "gully", mark: section.MarkGully}, {id: "stack", parts: []string{"stack"}},
		{id: "vent", mark: section.MarkVent}, {id: "pump", parts: []string{"pump"}},
		{id: "adaptor"}, {id: "bend"}, {id: "bore"}, {id: "boss"}, {id: "branch"}, {id: "clearance"}, {id: "collar"}, {id: "datum"},
		{id: "diagonal"}, {id: "exit"}, {id: "fall"}, {id: "finished-floor"}, {id: "flood-test"}, {id: "flush"}, {id: "headroom"},
		{id: "high-spot"}, {id: "hold"}, {id: "insertion"}, {id: "keep-zone"}, {id: "laser-line"}, {id: "leak-test"},
		{id: "lip"}, {id: "nominal"}, {id: "notch"}, {id: "plane"}, {id: "primer"}, {id: "raise"}, {id: "raking"},
		{id: "read-down"}, {id: "reducer"}, {id: "reserve"}, {id: "socket"}, {id: "solvent"}, {id: "spot-level"}, {id: "step"},
		{id: "trimmer"}, {id: "upturn"}, {id: "water-stop"}, {id: "zone"},
	}
}

// flangePlace is on the drain's flange, where a drawing goes through the drain.
func flangePlace(d *section.Drawing, m *maker) (plan.Point, bool) {
	low, high, ok := boundsOf(d, "channel")
	return plan.Point{low.X() + 0.1*(high.X()-low.X()), m.r.Heights.FlangeMM}, ok && d.Rise == 0
}

// weirPlace is at the edge that the trap's water stands at.
func weirPlace(d *section.Drawing, _ *maker) (plan.Point, bool) {
	low, high, ok := boundsOf(d, "seal", "trap-water")
	return plan.Point{low.X() + 0.15*(high.X()-low.X()), high.Y()}, ok
}

// dipPlace is on what reaches down into the trap's water from above, off its floor.
func dipPlace(d *section.Drawing, _ *maker) (plan.Point, bool) {
	const offFloorMM, steps = 5, 200
	low, high, ok := boundsOf(d, "seal", "trap-water")
	for i := range steps {
		x := high.X() - (high.X()-low.X())*(float64(i)+0.5)/steps
		for k := range d.Areas {
			if !ok || d.Areas[k].PartID != "trap" {
				continue
			}
			for _, iv := range d.Areas[k].Region.Clip(plan.Point{x, 0}, plan.Point{0, 1}) {
				if iv.From > low.Y()+offFloorMM && iv.From < high.Y() && iv.To > high.Y() {
					return plan.Point{x, (iv.From + high.Y()) / 2}, true
				}
			}
		}
	}
	return plan.Point{}, false
}

// outletPlace is where the pipe begins at the trap, in a drawing along it.
func outletPlace(d *section.Drawing, m *maker) (plan.Point, bool) {
	return plan.Point{0, m.r.Heights.OutletMM * d.Rise}, d.Rise > 0
}

// stepPlace is where one steps in.
func stepPlace(d *section.Drawing, _ *maker) (plan.Point, bool) {
	for _, o := range d.Dimensions {
		if o.Step {
			return o.To, true
		}
	}
	return plan.Point{}, false
}

// boundsOf is what the areas of some parts take of a drawing; ok is false without any.
func boundsOf(d *section.Drawing, parts ...string) (low, high plan.Point, ok bool) {
	low, high = plan.Point{math.Inf(1), math.Inf(1)}, plan.Point{math.Inf(-1), math.Inf(-1)}
	for i := range d.Areas {
		if !slices.Contains(parts, d.Areas[i].PartID) {
			continue
		}
		if l, h, any := d.Areas[i].Region.Bounds(); any {
			ok = true
			for axis := range 2 {
				low[axis], high[axis] = math.Min(low[axis], l[axis]), math.Max(high[axis], h[axis])
			}
		}
	}
	return low, high, ok
}

// glossary is the sheet of the words of the trade: drawings of the job with the words at what they mean, each once, and all of them with
// what they mean.
func (m *maker) glossary() []block {
	detail, close := m.atTheDrain()
	across, err := m.across()
	long := section.LongOf(m.r)
	meant := m.meant()
	return m.fewestPages(func(times float64) []block {
		out := append(m.lines(m.full.Text("glossary.intro"), body()), gap(6))
		left := terms()
		if close {
			out = append(out, m.worded("glossary.at-drain", &detail, &left, 0.36*times*m.room())...)
		}
		if err == nil {
			out = append(out, m.worded("glossary.across", &across, &left, 0.24*times*m.room())...)
		}
		out = append(out, m.worded("glossary.along", &long, &left, 0.26*times*m.room())...)
		return append(out, meant...)
	})
}

// meant are all words with what they mean, by the alphabet.
func (m *maker) meant() []block {
	all := terms()
	slices.SortFunc(all, func(a, b term) int {
		return cmp.Compare(strings.ToLower(m.full.Text(a.word())), strings.ToLower(m.full.Text(b.word())))
	})
	var rows [][]string
	for _, t := range all {
		rows = append(rows, []string{m.full.Text(t.word()), m.full.Text(t.means())})
	}
	columns := []tableColumn{m.column("glossary.column.word", 1.4).heavy(), m.column("glossary.column.means", 4)}
	return table(m.to, columns, rows, m.wide)
}

// atTheDrain is the section through the drain, seen close: the drain with its trap and what lies beside it; ok is false where no section
// shows it.
func (m *maker) atTheDrain() (d section.Drawing, ok bool) {
	d, err := section.Through(m.r, section.Cutting{Of: section.CutDrain}, buildup.StageTile)
	if err != nil {
		return d, false
	}
	const besideMM, overMM, underMM = 130, 70, 30
	low, high, ok := boundsOf(&d, "cover", "channel", "trap")
	d.FocusLow, d.FocusHigh = low.Sub(plan.Point{besideMM, underMM}), high.Add(plan.Point{besideMM, overMM})
	return d, ok
}

// worded is a drawing with the words that are still left at what they mean in it, as far as it shows them; those are left no more.
func (m *maker) worded(head message.ID, of *section.Drawing, left *[]term, high float64) []block {
	if len(of.Areas) == 0 {
		return nil
	}
	d := of.Bare()
	var used []float64
	*left = slices.DeleteFunc(*left, func(t term) bool {
		at, ok := m.placeOf(&t, of, used)
		if ok {
			used = append(used, at.X())
			under := at.Y() < (d.FocusLow.Y()+d.FocusHigh.Y())/2
			d.Marks = append(d.Marks, section.Mark{At: at, Of: section.MarkWord, Said: message.Of(t.word()), Under: under})
		}
		return ok
	})
	return append(m.unscaled(message.Of(head), &d, m.wide, high), gap(8))
}

// markedApart is the mark of a drawing, of those of a kind that are seen, that lies farthest across it from the places that others are
// shown at.
func markedApart(of message.ID, d *section.Drawing, used []float64, seen func(plan.Point) bool) (at plan.Point, ok bool) {
	if of == "" {
		return at, false
	}
	farthest := -1.0
	for _, o := range d.Marks {
		if o.Of != of || !seen(o.At) {
			continue
		}
		apart := math.Inf(1)
		for _, u := range used {
			apart = math.Min(apart, math.Abs(u-o.At.X()))
		}
		if apart > farthest {
			farthest, at, ok = apart, o.At, true
		}
	}
	return at, ok
}

// placeOf is where a drawing shows a word within what is looked at of it, away from the places across it that others are shown at.
func (m *maker) placeOf(t *term, d *section.Drawing, used []float64) (at plan.Point, ok bool) {
	const inside = 0.03 // of what is looked at, from its rim
	rim := d.FocusHigh.Sub(d.FocusLow).Mul(inside)
	low, high := d.FocusLow.Add(rim), d.FocusHigh.Sub(rim)
	seen := func(p plan.Point) bool {
		return p.X() > low.X() && p.X() < high.X() && p.Y() > low.Y() && p.Y() < high.Y()
	}
	if t.at != nil {
		at, ok = t.at(d, m)
		return at, ok && seen(at)
	}
	if at, ok := markedApart(t.mark, d, used, seen); ok {
		return at, true
	}
	for _, l := range d.Lines {
		for _, p := range l.Points {
			if slices.Contains(t.lines, l.Kind) && seen(p) {
				return p, true
			}
		}
	}
	best := 0.0
	const places, thickMM = 40, 20.0 // what is thicker is no better to lead to
	for i := range places {
		x := low.X() + (high.X()-low.X())*(float64(i)+0.5)/places
		apart := (high.X() - low.X()) / 4
		for _, u := range used {
			apart = math.Min(apart, math.Abs(u-x))
		}
		for k := range d.Areas {
			if !t.shownBy(d.Areas[k].PartID) {
				continue
			}
			for _, iv := range d.Areas[k].Region.Clip(plan.Point{x, 0}, plan.Point{0, 1}) {
				from, to := math.Max(iv.From, low.Y()), math.Min(iv.To, high.Y())
				if worth := apart * math.Min(to-from, thickMM); to > from && worth > best {
					best, at, ok = worth, plan.Point{x, (from + to) / 2}, true
				}
			}
		}
	}
	return at, ok
}
