package joist

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Noggin is a piece of timber across a bay between two joists.
type Noggin struct {
	Ring plan.Ring
	// TopMM is how far under the joists' tops its top lies, DepthMM its depth.
	TopMM, DepthMM float64
	// UnderDeck carries the cut edge of the deck; others carry the boards let in.
	UnderDeck bool
}

// Bay is what an opening for a base let in takes of the room between two joists.
type Bay struct {
	// WideMM is how wide the boards in it are; ClearMM what is clear between the ledgers
	// that carry them, endless without any. BearingMM is what lies on a ledger.
	WideMM, ClearMM, BearingMM float64
	// AlongMM is the greatest length of board along the joists between what carries it
	// across, endless where nothing does.
	//
	// What reaches past the last that carries it counts twice: w·c²/2 is the moment of a
	// span of 2c.
	AlongMM float64
	// EdgeMM is the greatest length of the deck's cut edge across the bay that nothing
	// carries.
	EdgeMM float64
	Middle plan.Point
}

// Opening is how the opening for a base let in between joists is carried.
type Opening struct {
	Noggins []Noggin
	Bays    []Bay
	// OverhangMM is how far the deck beside it reaches past its last joist at most.
	OverhangMM float64
}

// trough is the opening in the joists' own directions: along them and across.
type trough struct {
	j          *job.Job
	l          *layout.Layout
	h          *level.Heights
	along      plan.Point
	across     plan.Point
	u0, u1     float64
	v0, v1     float64
	decked     [4]bool // the deck goes on past the sides at u0, u1, v0, v1
	held       [2]bool // a trimmer with a ledger carries the ends at u0, u1
	wide, deep float64 // of a ledger
	margin     float64
}

// OpeningOf is how the opening of a base let in is carried; ok is false where none is let
// in, or it does not lie square to the joists.
func OpeningOf(j *job.Job, l *layout.Layout, h *level.Heights) (o Opening, ok bool) {
	t, ok := troughOf(j, l, h)
	if !ok {
		return Opening{}, false
	}
	var joists []*layout.Joist
	for i := range l.Joists {
		if js := &l.Joists[i]; js.Member != layout.CutJoist && js.Member != layout.Trimmer {
			joists = append(joists, js)
		}
	}
	slices.SortFunc(joists, func(a, b *layout.Joist) int { return cmp.Compare(t.v(a.Origin), t.v(b.Origin)) })
	t.between(joists, math.Inf(-1), math.Inf(1), func(from, to, low, high float64) { t.trimmed(&o, from, to, low, high) })
	return o, true
}

// between calls for what the opening takes, from low to high, of each bay from one joist's
// flank to the next, and from those given to the first and from the last.
func (t *trough) between(joists []*layout.Joist, from, to float64, bay func(from, to, low, high float64)) {
	last := from
	for i := 0; i <= len(joists); i++ {
		a, b := last, to
		if i < len(joists) {
			at, half := t.v(joists[i].Origin), joists[i].WidthMM/2
			b, last = at-half, at+half
		}
		if low, high := max(a, t.v0), min(b, t.v1); high-low > plan.HairMM {
			bay(a, b, low, high)
		}
	}
}

// trimmed adds the bays between two joists that run whole: one, or where joists between
// them are cut, those beside each of their pieces and the openings between trimmers.
func (t *trough) trimmed(o *Opening, from, to, low, high float64) {
	whole := *t
	open := math.Inf(-1) // where the opening before pieces begins
	rows := t.rows(from, to)
	for _, row := range rows {
		if row.hung[0] && t.within(&whole, open, row.from-t.j.Floor.Joists.WidthMM, [2]bool{!math.IsInf(open, 0), true}) {
			t.bay(o, from, to, low, high)
		}
		if t.within(&whole, row.from, row.to, row.hung) {
			t.between(row.pieces, from, to, func(a, b, low, high float64) { t.bay(o, a, b, low, high) })
		}
		open = row.to
		if row.hung[1] {
			open += t.j.Floor.Joists.WidthMM
		}
	}
	if last := len(rows) - 1; last < 0 || rows[last].hung[1] {
		if t.within(&whole, open, math.Inf(1), [2]bool{!math.IsInf(open, 0), false}) {
			t.bay(o, from, to, low, high)
		}
	}
	*t = whole
}

// row is pieces of joists side by side that are cut for the same openings: how far they
// reach along the joists, and whether they hang on trimmers there.
type row struct {
	from, to float64
	hung     [2]bool
	pieces   []*layout.Joist // from the lowest across the joists up
}

// rows are the pieces of cut joists between two that run whole, from the start on.
func (t *trough) rows(from, to float64) []row {
	start := t.l.JoistOrigin.Dot(t.along)
	var out []row
	for i := range t.l.Joists {
		js := &t.l.Joists[i]
		if js.Member != layout.CutJoist || t.v(js.Origin) < from || t.v(js.Origin) > to {
			continue
		}
		a, b := start+js.FromMM, start+js.ToMM
		// They begin and end at the same trimmers; at walls each at its own.
		at := slices.IndexFunc(out, func(r row) bool { return a < r.to && b > r.from })
		if at < 0 {
			out = append(out, row{a, b, [2]bool{js.HungStart, js.HungEnd}, []*layout.Joist{js}})
			continue
		}
		r := &out[at]
		r.from, r.to, r.pieces = min(r.from, a), max(r.to, b), append(r.pieces, js)
	}
	slices.SortFunc(out, func(a, b row) int { return cmp.Compare(a.from, b.from) })
	return out
}

// within narrows the trough to a part of its length that begins and ends at trimmers, or
// not; false where nothing of it is there.
func (t *trough) within(whole *trough, fromMM, toMM float64, held [2]bool) bool {
	t.u0, t.u1 = max(whole.u0, fromMM), min(whole.u1, toMM)
	t.held = [2]bool{held[0] && t.u0 == fromMM, held[1] && t.u1 == toMM}
	t.decked[0] = whole.decked[0] && t.u0 == whole.u0 && !t.held[0]
	t.decked[1] = whole.decked[1] && t.u1 == whole.u1 && !t.held[1]
	return t.u1-t.u0 > plan.HairMM
}

func (t *trough) v(p plan.Point) float64 { return p.Dot(t.across) }

func (t *trough) at(u, v float64) plan.Point { return t.along.Mul(u).Add(t.across.Mul(v)) }

// squareSine is the sine of the angle up to which a shower lies square to the joists.
const squareSine = 0.01

// Askew tells that a base is let in between joists that its shower does not lie square to:
// bays are then no rectangles, and the deck's edges run slantwise over the joists. How they
// are carried is not worked out.
func Askew(j *job.Job, l *layout.Layout) bool {
	if j.Base.Support != job.BetweenJoists || len(l.Joists) == 0 || j.Former.Fall == job.FallRoom {
		return false
	}
	s := math.Abs(plan.Cross(l.ToRight, l.JoistAlong))
	return s > squareSine && s < 1-squareSine
}

// troughOf is the opening of a shower that lies square to the joists.
func troughOf(j *job.Job, l *layout.Layout, h *level.Heights) (*trough, bool) {
	if j.Base.Support != job.BetweenJoists || len(l.Joists) == 0 || j.Former.Fall == job.FallRoom || Askew(j, l) {
		return nil, false
	}
	t := &trough{j: j, l: l, h: h, along: l.JoistAlong, across: plan.Left(l.JoistAlong), margin: j.Base.SawMarginMM}
	t.wide, t.deep = j.Base.Ledger()
	t.u0, t.u1 = l.FallArea.Reach(t.along)
	t.v0, t.v1 = l.FallArea.Reach(t.across)
	for _, e := range l.OpenEdges() {
		out := l.Outward(e)
		for side, to := range [4]plan.Point{t.along.Mul(-1), t.along, t.across.Mul(-1), t.across} {
			t.decked[side] = t.decked[side] || out.Dot(to) > 1-squareSine
		}
	}
	return t, true
}

// leastApartMM is how near to each other noggins are set at all. Common practice, no
// source.
const leastApartMM = 100

// bay adds a bay from one joist's flank to the next, of which the opening takes from low
// to high; endless where there is no joist.
func (t *trough) bay(o *Opening, from, to, low, high float64) {
	joistLow, joistHigh := !math.IsInf(from, 0), !math.IsInf(to, 0)
	ledgerLow, ledgerHigh := joistLow && low == from, joistHigh && high == to
	b := Bay{WideMM: high - low, ClearMM: math.Inf(1), BearingMM: math.Inf(1), AlongMM: math.Inf(1), Middle: t.at((t.u0+t.u1)/2, (low+high)/2)}
	if t.decked[0] || t.decked[1] {
		b.EdgeMM = b.WideMM
	}
	switch {
	case ledgerLow && ledgerHigh:
		// Ledgers in a narrow bay leave each other room.
		b.BearingMM = min(t.wide, b.WideMM/2-1)
		b.ClearMM = b.WideMM - 2*b.BearingMM
	case ledgerLow || ledgerHigh:
		b.BearingMM = min(t.wide, b.WideMM)
		b.ClearMM = 2 * (b.WideMM - b.BearingMM)
	}
	// The deck beside the opening ends between joists.
	if t.decked[2] && low == t.v0 && low > from && joistLow {
		o.OverhangMM = max(o.OverhangMM, low-from)
	}
	if t.decked[3] && high == t.v1 && high < to && joistHigh {
		o.OverhangMM = max(o.OverhangMM, to-high)
	}
	// Noggins go from joist to joist, or from one to a wall at the shower's side.
	reaches := (joistLow || joistHigh) && (joistLow || !t.decked[2]) && (joistHigh || !t.decked[3])
	if !joistLow {
		from = low
	}
	if !joistHigh {
		to = high
	}
	inner := [2]float64{from, to} // of what is as high as the ledgers
	if ledgerLow {
		inner[0] += b.BearingMM
	}
	if ledgerHigh {
		inner[1] -= b.BearingMM
	}
	if reaches && t.j.Base.NogginSpacingMM > 0 {
		t.carry(o, &b, from, to, inner)
	}
	o.Bays = append(o.Bays, b)
}

// carry puts noggins across a bay: at both ends of the opening, under the deck's edge and
// under the boards, and between them.
func (t *trough) carry(o *Opening, b *Bay, from, to float64, inner [2]float64) {
	var carried []float64
	b.EdgeMM = 0
	put := func(n Noggin, at float64) bool {
		if t.hit(&n) {
			return false
		}
		o.Noggins = append(o.Noggins, n)
		if !n.UnderDeck {
			carried = append(carried, at)
		}
		return true
	}
	under := t.j.Base.MinThicknessMM
	for end, u := range [2]float64{t.u0, t.u1} {
		if t.held[end] {
			carried = append(carried, u)
			continue
		}
		in := float64(1 - 2*end)
		if t.decked[end] {
			n := Noggin{t.ring(u, u-in*t.j.Floor.Joists.WidthMM, from, to), 0, min(t.j.Floor.Joists.DepthMM, under+t.deep), true}
			if !put(n, u) {
				b.EdgeMM = b.WideMM
			}
		}
		put(Noggin{t.ring(u, u+in*t.wide, inner[0], inner[1]), under, t.deep, false}, u)
	}
	n := math.Ceil((t.u1 - t.u0) / max(leastApartMM, t.j.Base.NogginSpacingMM))
	for k := 1.0; k < n; k++ {
		u := t.u0 + (t.u1-t.u0)*k/n
		put(Noggin{t.ring(u-t.wide/2, u+t.wide/2, inner[0], inner[1]), under, t.deep, false}, u)
	}
	b.AlongMM = t.greatest(carried)
}

// greatest is the greatest length along the joists between places that carry boards, what
// reaches past the last of them twice; endless without any.
func (t *trough) greatest(carried []float64) float64 {
	if len(carried) == 0 {
		return math.Inf(1)
	}
	slices.Sort(carried)
	most := 2 * max(carried[0]-t.u0, t.u1-carried[len(carried)-1])
	for i := 1; i < len(carried); i++ {
		most = max(most, carried[i]-carried[i-1])
	}
	return most
}

func (t *trough) ring(uA, uB, vA, vB float64) plan.Ring {
	return plan.Ring{t.at(uA, vA), t.at(uB, vA), t.at(uB, vB), t.at(uA, vB)}
}

// hit tells whether the trap, the drain's channel or the run passes where a noggin would
// be, with the saw margin round it: it is then left out.
func (t *trough) hit(n *Noggin) bool {
	if len(n.Ring) == 0 || n.Ring[0].Sub(n.Ring[2]).Len() <= plan.HairMM || t.v(n.Ring[2])-t.v(n.Ring[1]) <= plan.HairMM {
		return true
	}
	top := t.h.JoistTopMM(t.j) - n.TopMM
	bottom := top - n.DepthMM
	region := plan.Region{{Outer: n.Ring}}
	for _, p := range []struct {
		region plan.Region
		lowMM  float64
	}{{t.l.Trap, t.h.TrapMM}, {t.l.Drain, t.h.ChannelMM}} {
		if p.lowMM < top && region.Overlap(p.region) {
			return true
		}
	}
	for i := range t.h.Run.Pieces {
		p := &t.h.Run.Pieces[i]
		reach := p.RadiusMM() + t.margin
		low := min(p.FromInvertMM-p.BelowInvertMM(p.FromMM), p.ToInvertMM-p.BelowInvertMM(p.ToMM))
		high := max(p.FromInvertMM+p.AboveInvertMM(p.FromMM), p.ToInvertMM+p.AboveInvertMM(p.ToMM))
		if p.Kind == waste.Drop {
			low = math.Inf(-1)
		}
		if low < top && high > bottom && pathMeets(p.BodyPath(), n.Ring, reach) {
			return true
		}
	}
	return false
}

// pathMeets tells whether a path comes nearer to a convex ring than a reach.
func pathMeets(path []plan.Point, ring plan.Ring, reachMM float64) bool {
	region := plan.Region{{Outer: ring}}
	for i, p := range path {
		if region.Contains(p, reachMM) {
			return true
		}
		for k := range ring {
			if i > 0 && plan.Apart(path[i-1], p, ring[k], ring[(k+1)%len(ring)]) < reachMM {
				return true
			}
		}
	}
	return false
}
