package boarding

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/assembly"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// field is what boards are laid over in rows.
type field struct {
	layer *Layer
	limit size
	sh    *plan.Shaper
	// bearers are where end joints are to lie, as distances along the rows, where they need to
	// be borne.
	borne   bool
	bearers []float64
	// kept tells that boards have a zone that is not cut: rows are then not staggered, and
	// trimMM is what is sawn off the first board of each.
	kept   bool
	trimMM float64
	// before are the end joints of the row before.
	before []float64
}

// what names the shape of a piece.
func what() message.Message { return message.Of("shape.board-piece") }

// strip is the rectangle between two distances along the rows and two across.
func (f *field) strip(u0, u1, v0, v1 float64) plan.Region {
	at := func(u, v float64) plan.Point { return f.layer.Along.Mul(u).Add(f.layer.Across.Mul(v)) }
	return plan.FromRing(plan.Ring{at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)})
}

// lay puts boards over a region: rows from one side to the other, in each as many boards as it
// takes, their end joints off those of the row before.
func (f *field) lay(region plan.Region) {
	u0, u1 := region.Reach(f.layer.Along)
	v0, v1 := region.Reach(f.layer.Across)
	if f.layer.TooMany = f.layer.TooMany || f.tooMany(u1-u0, v1-v0); f.layer.TooMany {
		return
	}
	for _, row := range rows(v0, v1, f.limit.wide) {
		var joints []float64
		in := f.sh.Intersect(region, f.strip(u0-1, u1+1, row.From, row.To), what())
		slices.SortStableFunc(in, func(a, b plan.Polygon) int {
			return cmp.Or(f.order(a, b, f.layer.Along), f.order(a, b, f.layer.Across))
		})
		for _, part := range in {
			from, to := (plan.Region{part}).Reach(f.layer.Along)
			at := f.joints(from, to)
			joints = append(joints, at...)
			ends := append(append([]float64{from}, at...), to)
			for i := range len(ends) - 1 {
				f.piece(plan.Region{part}, ends[i], ends[i+1], row)
			}
		}
		f.before = joints
	}
}

// tooMany tells whether boards are too small to be laid out over so much.
func (f *field) tooMany(longMM, wideMM float64) bool {
	return math.Min(f.limit.long, f.limit.wide) < leastBoardMM ||
		(math.Ceil(longMM/f.limit.long)+1)*math.Ceil(wideMM/f.limit.wide) > mostPieces
}

// order is which of two parts of a row begins first in a direction.
func (f *field) order(a, b plan.Polygon, along plan.Point) int {
	from, _ := (plan.Region{a}).Reach(along)
	other, _ := (plan.Region{b}).Reach(along)
	if math.Abs(from-other) < leastPieceMM {
		return 0
	}
	return cmp.Compare(from, other)
}

// rows divide a width into boards: whole ones from the start, the last ripped; where that
// would be too narrow, the first as well, both alike.
func rows(from, to, wideMM float64) (out []plan.Interval) {
	n := math.Ceil((to-from)/wideMM - plan.HairMM)
	last := to - from - (n-1)*wideMM
	first := wideMM
	if n > 1 && last < leastRipMM {
		first = (wideMM + last) / 2
	}
	for at := from; to-at > plan.HairMM; {
		next := math.Min(to, at+first)
		out = append(out, plan.Interval{From: at, To: next})
		at, first = next, wideMM
	}
	return out
}

// joints are where the boards of a row from one distance to another end, between those: the first
// of the ways to begin it that keeps them off the joints of the row before and leaves no bit at
// its ends, or the one that comes nearest to it.
func (f *field) joints(from, to float64) []float64 {
	whole := f.limit.long
	if f.kept {
		return f.from(from, to, whole-f.trimMM)
	}
	if to-from <= whole+plan.HairMM {
		return nil
	}
	var best []float64
	most := math.Inf(-1)
	for _, share := range [...]float64{1, 1.0 / 2, 2.0 / 3, 1.0 / 3, 3.0 / 4, 1.0 / 4} {
		at := f.from(from, to, share*whole)
		off := math.Inf(1) // as a share of what it is to be
		for _, a := range at {
			for _, b := range f.before {
				off = math.Min(off, math.Abs(a-b)/(staggerShare*whole))
			}
		}
		ends := math.Min(at[0]-from, to-at[len(at)-1]) / leastEndMM
		if good := math.Min(1, math.Min(off, ends)); good > most+plan.HairMM {
			most, best = good, at
		}
	}
	return best
}

// from are the joints of a row whose first board is so long at most.
func (f *field) from(from, to, firstMM float64) (at []float64) {
	const leastMM = 50
	last, reach := from, firstMM
	for to-last > reach+plan.HairMM {
		next := last + reach
		if b, ok := f.bearer(last+leastMM, next); ok {
			next = b
		}
		at = append(at, next)
		last, reach = next, f.limit.long
	}
	return at
}

// bearer is the last bearer between two distances.
func (f *field) bearer(from, to float64) (at float64, ok bool) {
	for _, b := range slices.Backward(f.bearers) {
		if b <= to+plan.HairMM && b >= from {
			return b, true
		}
	}
	return 0, false
}

// piece adds what a board takes of a part of a row: one piece, or several where more is sawn out of it than
// leaves it whole.
func (f *field) piece(part plan.Region, from, to float64, row plan.Interval) {
	if f.borne && to < reachTo(part, f.layer.Along)-plan.HairMM && !slices.Contains(f.bearers, to) {
		f.layer.Loose++
	}
	for _, p := range f.sh.Intersect(part, f.strip(from, to, row.From, row.To), what()) {
		f.layer.add(plan.Region{p})
	}
}

func reachTo(r plan.Region, along plan.Point) float64 {
	_, to := r.Reach(along)
	return to
}

// add adds one piece, unless it is a strip that is filled.
func (l *Layer) add(region plan.Region) {
	u0, u1 := region.Reach(l.Along)
	v0, v1 := region.Reach(l.Across)
	if math.Min(u1-u0, v1-v0) < assembly.LeastStripMM {
		l.Strips++
		return
	}
	const sameMM2 = 1
	p := Piece{Region: region, CornerMM: plan.Point{u0, v0}, Along: l.Along, LengthMM: u1 - u0, WidthMM: v1 - v0}
	if p.Notched = p.LengthMM*p.WidthMM-region.Area() > sameMM2; p.Notched {
		p.Cuts = l.cuts(&p)
	}
	l.Pieces = append(l.Pieces, p)
}
