package takeoff

import (
	"cmp"
	"math"
	"slices"
)

// Bar is one length as it is sold, with what is cut from it.
type Bar struct {
	// PiecesMM are cut from it, the longest first; LeftMM is what remains, without what the saw took.
	PiecesMM []float64
	LeftMM   float64
}

// Cutting is how pieces are cut from lengths of a stock.
type Cutting struct {
	StockMM float64
	Bars    []Bar
	// Fewest tells that no fewer bars do, which was proved.
	Fewest bool
}

// Pieces is how many pieces are cut.
func (c Cutting) Pieces() (n int) {
	for _, b := range c.Bars {
		n += len(b.PiecesMM)
	}
	return n
}

// mostSteps bounds the search for fewer bars: far more than a bathroom's pipe and trims ask for.
const mostSteps = 30_000

// unitMM is the step in which lengths to be cut are counted: a hundredth, rounded up, as pieces
// must not come too short.
const unitMM = 0.01

// hairSteps is what rounding may leave of a length in steps.
const hairSteps = 0.01

// Cut cuts pieces, none longer than the stock, from as few bars as can be found, the saw taking so
// much at each cut.
//
// Method: bin completion. Whether one bar fewer does is tried from the least number that the lengths
// leave possible; each bar takes the longest piece that remains and, in turn, every set of others that no
// further piece fits beside. A branch ends where what its bars leave over is more than may be left in all.
// Exact, but for the bound of steps, after which the best that was found by placing each piece, the
// longest first, on the fullest bar that takes it, counts. Source: Korf, An improved algorithm for
// optimal bin packing, IJCAI 2003; from memory.
func Cut(piecesMM []float64, stockMM, sawMM float64) Cutting {
	out := Cutting{StockMM: stockMM, Fewest: true}
	if len(piecesMM) == 0 {
		return out
	}
	pieces := slices.Clone(piecesMM)
	slices.SortFunc(pieces, func(a, b float64) int { return cmp.Compare(b, a) })
	saw := int64(math.Round(sawMM / unitMM))
	// With each piece goes one cut, and the bar is longer by the last one, which may not be needed.
	room := int64(math.Floor(stockMM/unitMM+hairSteps)) + saw
	lengths, total := make([]int64, len(pieces)), int64(0)
	for i, mm := range pieces {
		lengths[i] = int64(math.Ceil(mm/unitMM-hairSteps)) + saw
		total += lengths[i]
	}
	best := fullest(lengths, room)
	least := leastBars(lengths, room, total)
	p := packing{lengths: lengths, room: room, steps: mostSteps}
	for n := least; n < len(best); n++ {
		if found := p.into(n, total); found != nil {
			best = found
			break
		}
		if p.steps <= 0 {
			out.Fewest = false
			break
		}
	}
	for _, bar := range best {
		b := Bar{LeftMM: stockMM}
		for k, i := range bar {
			b.PiecesMM = append(b.PiecesMM, pieces[i])
			b.LeftMM -= pieces[i]
			if k > 0 {
				b.LeftMM -= sawMM
			}
		}
		b.LeftMM = math.Max(0, b.LeftMM)
		if b.LeftMM > 0 {
			b.LeftMM = math.Max(0, b.LeftMM-sawMM) // the cut that parts it from the last piece
		}
		out.Bars = append(out.Bars, b)
	}
	return out
}

// fullest puts each piece on the fullest bar that takes it.
func fullest(lengths []int64, room int64) (bars [][]int) {
	var left []int64
	for i, l := range lengths {
		best := -1
		for b := range left {
			if left[b] >= l && (best < 0 || left[b] < left[best]) {
				best = b
			}
		}
		if best < 0 {
			best, left, bars = len(left), append(left, room), append(bars, nil)
		}
		left[best] -= l
		bars[best] = append(bars[best], i)
	}
	return bars
}

// leastBars is how many bars there are at least, for lengths that go down.
//
// Method: for each length k up to half a bar, those longer than a bar less k have a bar each that takes
// nothing of k or more, those over half a bar one each, and what of the others down to k does not go beside
// the latter needs bars of its own. Source: Martello and Toth, Knapsack problems, 1990, 8.3.2: L2.
func leastBars(lengths []int64, room, total int64) int {
	least := (total + room - 1) / room
	for _, k := range lengths {
		if 2*k > room {
			continue
		}
		var alone, half, sum, beside int64
		for _, l := range lengths {
			switch {
			case l > room-k:
				alone++
			case 2*l > room:
				half++
				beside += room - l
			case l >= k:
				sum += l
			}
		}
		own := int64(0)
		if sum > beside {
			own = (sum - beside + room - 1) / room
		}
		least = max(least, alone+half+own)
	}
	return int(least)
}

// packing looks for a way to cut lengths, which go down, from a number of bars.
type packing struct {
	lengths []int64
	room    int64
	steps   int
	used    []bool
	bars    [][]int
}

// into is how the lengths go into so many bars; nil where they do not, or the steps are used up.
func (p *packing) into(n int, total int64) [][]int {
	p.used, p.bars = make([]bool, len(p.lengths)), nil
	if p.fill(n, int64(n)*p.room-total) {
		return p.bars
	}
	return nil
}

// fill cuts what remains from n bars, which may leave so much over in all.
func (p *packing) fill(n int, spare int64) bool {
	first := slices.Index(p.used, false)
	if first < 0 {
		return true
	}
	if n == 0 || spare < 0 || p.lengths[first] > p.room {
		return false
	}
	p.used[first] = true
	if p.complete([]int{first}, p.room-p.lengths[first], first+1, n, spare) {
		return true
	}
	p.used[first] = false
	return false
}

// complete adds pieces from one on to a bar with so much room left, then fills the others.
func (p *packing) complete(bar []int, left int64, from, n int, spare int64) bool {
	if p.steps--; p.steps <= 0 {
		return false
	}
	before := int64(-1) // one as long was left out already
	for i := from; i < len(p.lengths); i++ {
		if l := p.lengths[i]; !p.used[i] && l <= left && l != before {
			p.used[i] = true
			if p.complete(append(bar[:len(bar):len(bar)], i), left-l, i+1, n, spare) {
				return true
			}
			p.used[i], before = false, l
		}
	}
	// A bar that takes a further piece is no worse with it.
	for i := range p.lengths {
		if !p.used[i] && p.lengths[i] <= left {
			return false
		}
	}
	p.bars = append(p.bars, bar)
	if p.fill(n-1, spare-left) {
		return true
	}
	p.bars = p.bars[:len(p.bars)-1]
	return false
}
