package boarding

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/plan"
)

// Cut is a rectangle that is sawn out of a piece: how far it begins from the piece's corner,
// along its layer and across, and how large it is so.
type Cut struct{ AtMM, SizeMM plan.Point }

// sameCutMM is under what saw and tape tell nothing apart.
const sameCutMM = 0.1

// cuts are the rectangles by which a piece is less than the one it is sawn from, along the
// layer; none where it is cut askew, which no rectangles tell.
func (l *Layer) cuts(p *Piece) []Cut {
	along := []float64{0, p.LengthMM}
	for _, poly := range p.Region {
		for _, ring := range poly.Rings() {
			for _, q := range ring {
				along = append(along, q.Dot(l.Along)-p.CornerMM.X())
			}
		}
	}
	slices.Sort(along)
	along = slices.CompactFunc(along, func(a, b float64) bool { return math.Abs(b-a) < sameCutMM })
	var out []Cut
	for i, from := range along[:len(along)-1] {
		to := along[i+1]
		missing, askew := l.missing(p, from, to)
		if askew {
			return nil
		}
		for _, iv := range missing {
			out = withCut(out, Cut{plan.Point{from, iv.From}, plan.Point{to - from, iv.To - iv.From}})
		}
	}
	slices.SortFunc(out, func(a, b Cut) int {
		return cmp.Or(cmp.Compare(a.AtMM.X(), b.AtMM.X()), cmp.Compare(a.AtMM.Y(), b.AtMM.Y()))
	})
	return out
}

// missing are the stretches across a piece that are sawn out of it between two places along
// it; askew tells that they are not the same at both.
func (l *Layer) missing(p *Piece, fromMM, toMM float64) (out []plan.Interval, askew bool) {
	at := func(alongMM float64) []plan.Interval {
		origin := l.Along.Mul(p.CornerMM.X() + alongMM).Add(l.Across.Mul(p.CornerMM.Y()))
		all := plan.Without([]plan.Interval{{From: 0, To: p.WidthMM}}, p.Region.Clip(origin, l.Across))
		return slices.DeleteFunc(all, func(iv plan.Interval) bool { return iv.To-iv.From < sameCutMM })
	}
	const inside = 0.05 // of the way between them
	first, last := at(fromMM+inside*(toMM-fromMM)), at(toMM-inside*(toMM-fromMM))
	same := slices.EqualFunc(first, last, func(a, b plan.Interval) bool {
		return math.Abs(a.From-b.From) < sameCutMM && math.Abs(a.To-b.To) < sameCutMM
	})
	return first, !same
}

// withCut are cuts with one more, which may go on from one that is there.
func withCut(cuts []Cut, c Cut) []Cut {
	for i := range cuts {
		o := &cuts[i]
		goesOn := math.Abs(o.AtMM.X()+o.SizeMM.X()-c.AtMM.X()) < sameCutMM
		if goesOn && math.Abs(o.AtMM.Y()-c.AtMM.Y()) < sameCutMM && math.Abs(o.SizeMM.Y()-c.SizeMM.Y()) < sameCutMM {
			o.SizeMM[0] += c.SizeMM.X()
			return cuts
		}
	}
	return append(cuts, c)
}
