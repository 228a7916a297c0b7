package boarding

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/plan"
)

// SawMM is what the saw takes between two pieces of a sheet. Common practice, no source.
const SawMM = 4

// saw puts the pieces on sheets.
//
// Method: in some order each piece is sawn from the first gap that holds it, of the sheets in
// turn, without turning it; what it leaves of the gap is divided by one cut. Three orders and
// three ways to cut are tried; the fewest sheets count, then the largest gap that is left. No more
// than that: more thought may save a sheet.
func (g *layers) saw() {
	for s := range g.out.Stocks {
		stock := &g.out.Stocks[s]
		var pieces []*Piece
		for i := range g.out.Layers {
			if l := &g.out.Layers[i]; l.Stock == s {
				for k := range l.Pieces {
					pieces = append(pieces, &l.Pieces[k])
				}
			}
		}
		best := stock.nest(pieces)
		for i, p := range pieces {
			p.Sheet, p.OnSheetMM = best.on[i].sheet, best.on[i].at
			stock.LeftMM2 -= p.Region.Area()
		}
		stock.Sheets = best.sheets
		stock.LeftMM2 += float64(stock.Sheets) * stock.LengthMM * stock.WidthMM
	}
}

// gap is a rectangle of a sheet that nothing is sawn from yet, or that a piece is.
type gap struct {
	sheet      int
	at         plan.Point
	long, wide float64
}

// nested is where pieces lie on how many sheets, and the largest gap they leave.
type nested struct {
	on     []gap
	sheets int
	gapMM2 float64
}

// nest tries orders and ways to cut, and gives the best.
func (s *Stock) nest(pieces []*Piece) (best nested) {
	by := func(key func(*Piece) float64) []int {
		order := make([]int, len(pieces))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			p, q := pieces[a], pieces[b]
			return cmp.Or(cmp.Compare(key(q), key(p)), cmp.Compare(q.LengthMM*q.WidthMM, p.LengthMM*p.WidthMM))
		})
		return order
	}
	// In whole millimetres, so that rounding does not decide.
	widest := by(func(p *Piece) float64 { return math.Round(p.WidthMM) })
	longest := by(func(p *Piece) float64 { return math.Round(p.LengthMM) })
	largest := by(func(p *Piece) float64 { return math.Round(p.LengthMM * p.WidthMM) })
	for _, order := range [][]int{widest, longest, largest} {
		for _, cut := range []func(past, beside float64, from gap) bool{
			func(past, beside float64, from gap) bool { return past*from.wide > beside*from.long },
			func(float64, float64, gap) bool { return true },
			func(float64, float64, gap) bool { return false },
		} {
			n := s.inOrder(pieces, order, cut)
			if best.on == nil || n.sheets < best.sheets || n.sheets == best.sheets && n.gapMM2 > best.gapMM2+1 {
				best = n
			}
		}
	}
	return best
}

// inOrder puts pieces on sheets in an order; across tells whether what a piece leaves of its
// gap, so long past it and so wide beside it, is cut across the board first.
func (s *Stock) inOrder(pieces []*Piece, order []int, across func(past, beside float64, from gap) bool) nested {
	n := nested{on: make([]gap, len(pieces))}
	var gaps []gap
	for _, k := range order {
		p := pieces[k]
		i := slices.IndexFunc(gaps, func(g gap) bool { return p.LengthMM <= g.long+fitsMM && p.WidthMM <= g.wide+fitsMM })
		if i < 0 {
			n.sheets++
			i, gaps = len(gaps), append(gaps, gap{n.sheets, plan.Point{}, s.LengthMM, s.WidthMM})
		}
		from := gaps[i]
		n.on[k] = gap{from.sheet, from.at, p.LengthMM, p.WidthMM}
		past, beside := from.long-p.LengthMM-SawMM, from.wide-p.WidthMM-SawMM
		end := gap{from.sheet, from.at.Add(plan.Point{p.LengthMM + SawMM, 0}), past, p.WidthMM}
		side := gap{from.sheet, from.at.Add(plan.Point{0, p.WidthMM + SawMM}), from.long, beside}
		if across(past, beside, from) {
			end.wide, side.long = from.wide, p.LengthMM
		}
		left := slices.DeleteFunc([]gap{end, side}, func(g gap) bool { return g.long < leastPieceMM || g.wide < leastPieceMM })
		gaps = slices.Replace(gaps, i, i+1, left...)
	}
	for _, g := range gaps {
		n.gapMM2 = math.Max(n.gapMM2, g.long*g.wide)
	}
	return n
}

// fitsMM is within which a piece is as large as a gap: what rounding leaves.
const fitsMM = 1e-3

// Sawn is the piece as it lies on its sheet, whose lower left corner is at a place.
func (p *Piece) Sawn(at plan.Point) plan.Region {
	across := plan.Left(p.Along)
	return p.Region.EachCorner(func(q plan.Point) plan.Point {
		return at.Add(plan.Point{q.Dot(p.Along), q.Dot(across)}).Sub(p.CornerMM)
	})
}

// Whole tells whether a piece is a sheet as it comes.
func (s *Stock) Whole(p *Piece) bool {
	return !p.Notched && p.LengthMM > s.LengthMM-fitsMM && p.WidthMM > s.WidthMM-fitsMM
}
