package takeoff_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/takeoff"
)

// many is a length so many times.
func many(n int, mm float64) []float64 { return slices.Repeat([]float64{mm}, n) }

// Published instances of bin packing, which is the cutting of a stock, with the fewest bins that are
// known to do: the data sets P01 to P04 of Florida State University's collection BIN_PACKING. P02 and
// P03 are from Martello and Toth, Knapsack problems, 1990, chapter 8; P04, which leaves nothing over,
// is Graham's, of which first fit makes more bins when a piece is taken away. The last is what is left
// of P04 without its piece of 46: seven bins still do.
func TestCutsPublishedInstances(t *testing.T) {
	graham := slices.Concat([]float64{442}, many(7, 252), many(5, 127), many(4, 106), []float64{85, 84, 46}, many(2, 37), many(3, 12), many(6, 10), many(2, 9))
	without := slices.DeleteFunc(slices.Clone(graham), func(mm float64) bool { return mm == 46 })
	for _, c := range []struct {
		name   string
		stock  float64
		pieces []float64
		want   int
	}{
		{"P01", 100, []float64{70, 60, 50, 33, 33, 33, 11, 7, 3}, 4},
		{"P02", 100, []float64{99, 94, 79, 64, 50, 46, 43, 37, 32, 19, 18, 7, 6, 3}, 7},
		{"P03", 100, []float64{49, 41, 34, 33, 29, 26, 26, 22, 20, 19}, 3},
		{"P04", 524, graham, 7},
		{"P04 less 46", 524, without, 7},
	} {
		got := takeoff.Cut(c.pieces, c.stock, 0)
		if len(got.Bars) != c.want || !got.Fewest {
			t.Errorf("%s: %d bars, fewest %v; want %d", c.name, len(got.Bars), got.Fewest, c.want)
		}
		holdCut(t, got, c.pieces, 0)
	}
}

// The saw counts between pieces and not at the end of a bar: of 3000, two of 1498 go with a cut of 4,
// two of 1499 do not, and one of 3000 needs no cut.
func TestTheSawCounts(t *testing.T) {
	for _, c := range []struct {
		pieces []float64
		want   int
		left   float64
	}{{many(2, 1498), 1, 0}, {many(2, 1499), 2, 1497}, {[]float64{3000}, 1, 0}, {[]float64{1000, 500}, 1, 1492}, {nil, 0, 0}} {
		got := takeoff.Cut(c.pieces, 3000, 4)
		if len(got.Bars) != c.want || c.want > 0 && math.Abs(got.Bars[0].LeftMM-c.left) > 1e-9 {
			t.Errorf("%v: %+v, want %d bars with %v left of the first", c.pieces, got.Bars, c.want, c.left)
		}
		holdCut(t, got, c.pieces, 4)
	}
}

type failing interface {
	Helper()
	Errorf(string, ...any)
}

// holdCut checks that every piece is cut once, and that no bar gives more than it is long.
func holdCut(t failing, got takeoff.Cutting, pieces []float64, sawMM float64) {
	t.Helper()
	var cut []float64
	for _, b := range got.Bars {
		long := -sawMM
		for _, mm := range b.PiecesMM {
			long += mm + sawMM
		}
		if len(b.PiecesMM) == 0 || long > got.StockMM+0.02*float64(len(b.PiecesMM)) || b.LeftMM > got.StockMM-long+1e-9 {
			t.Errorf("of %v are cut %v, %v left", got.StockMM, b.PiecesMM, b.LeftMM)
		}
		cut = append(cut, b.PiecesMM...)
	}
	want := slices.Clone(pieces)
	slices.Sort(want)
	if slices.Sort(cut); !slices.Equal(cut, want) {
		t.Errorf("cut are %v, want %v", cut, want)
	}
}

// Up to seven pieces, every way to put them on bars is tried by the test itself: none takes fewer.
func TestNoWayTakesFewerBars(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const stock = 3000
		pieces := rapid.SliceOfN(rapid.Float64Range(20, stock), 0, 7).Draw(t, "pieces")
		saw := rapid.Float64Range(0, 5).Draw(t, "saw")
		got := takeoff.Cut(pieces, stock, saw)
		holdCut(t, got, pieces, saw)
		fewest := len(pieces)
		var left []float64
		var place func(i int)
		place = func(i int) {
			if len(left) >= fewest {
				return
			}
			if i == len(pieces) {
				fewest = len(left)
				return
			}
			for b := range left {
				if need := pieces[i] + saw; left[b] >= need-1e-9 {
					left[b] -= need
					place(i + 1)
					left[b] += need
				}
			}
			left = append(left, stock-pieces[i])
			place(i + 1)
			left = left[:len(left)-1]
		}
		place(0)
		// Pieces are counted in hundredths, rounded up: what fits by less than that may not be found.
		if len(got.Bars) < fewest || len(got.Bars) > fewest && closeCall(pieces, saw, stock) > 0.1 {
			t.Fatalf("%d bars of %v, %d do", len(got.Bars), pieces, fewest)
		}
	})
}

// closeCall is by how little some set of the pieces makes or misses a whole bar.
func closeCall(pieces []float64, saw, stock float64) float64 {
	nearest := math.Inf(1)
	for set := 1; set < 1<<len(pieces); set++ {
		sum := -saw
		for i, mm := range pieces {
			if set>>i&1 == 1 {
				sum += mm + saw
			}
		}
		nearest = math.Min(nearest, math.Abs(sum-stock))
	}
	return nearest
}
