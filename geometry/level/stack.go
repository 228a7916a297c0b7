package level

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// MostBoards is how many boards a stack has at most. Common practice, no source.
const MostBoards = 4

// Stack is what a base is made of: boards of the thicknesses at hand, one on the other
// with a bed between each two. The zero value is a base in one piece, as a screed is, or
// one whose height no boards give.
type Stack struct {
	boards [MostBoards]float64
	n      int
	// BetweenMM is the bed between two boards; 0 for a single one.
	BetweenMM float64
}

// BoardsMM are the boards from the bottom up, thickest first; none for a base in one
// piece.
func (s *Stack) BoardsMM() []float64 { return s.boards[:s.n] }

// HeightMM is that of all boards and beds between.
func (s *Stack) HeightMM() float64 {
	h := math.Max(0, float64(s.n-1)) * s.BetweenMM
	for _, b := range s.BoardsMM() {
		h += b
	}
	return h
}

// wholeMM is a height rounded up to the millimetre to which a base in one piece is laid.
func wholeMM(mm float64) float64 { return math.Ceil(mm - plan.HairMM) }

// halfMM is a bed rounded up to the half millimetre to which layers are told.
func halfMM(mm float64) float64 { return math.Ceil(2*(mm-plan.HairMM)) / 2 }

// savedByBoardMM is how much lower a stack must come out for a further board to be laid,
// bedded and left to set. Common practice, no source.
const savedByBoardMM = 3

// NextHeight is the height to build a base to that must be no less than the given one,
// and what it is made of: the lowest stack, unless one of fewer boards is next to as low.
// ok is false where no boards at hand reach so high. A base without boards comes to any
// whole millimetre, and one of no height to that.
func NextHeight(b *job.Base, atLeastMM float64) (heightMM float64, s Stack, ok bool) {
	return next(b, atLeastMM, savedByBoardMM)
}

// LowestHeight is the least height that boards at hand give which is no less than the
// given one, however many it takes; ok is false where they do not reach so high.
func LowestHeight(b *job.Base, atLeastMM float64) (heightMM float64, s Stack, ok bool) {
	return next(b, atLeastMM, 0)
}

func next(b *job.Base, atLeastMM, perBoardMM float64) (heightMM float64, s Stack, ok bool) {
	if len(b.BoardsMM) == 0 {
		return wholeMM(atLeastMM), Stack{}, true
	}
	if atLeastMM <= plan.HairMM {
		return 0, Stack{}, true
	}
	find := finder{base: b, atLeastMM: atLeastMM, perBoardMM: perBoardMM, bestMM: math.Inf(1)}
	for n := 1; n <= MostBoards; n++ {
		find.more(0, 0, n, len(b.BoardsMM)-1)
	}
	return find.best.HeightMM(), find.best, !math.IsInf(find.bestMM, 1)
}

// StackOf is what a base of exactly so much height is made of; ok is false where no
// boards at hand give it.
func StackOf(b *job.Base, heightMM float64) (s Stack, ok bool) {
	lowest, s, ok := LowestHeight(b, heightMM)
	if !ok || math.Abs(lowest-heightMM) > plan.HairMM {
		return Stack{}, false
	}
	return s, true
}

// finder looks for the best stack that is high enough.
type finder struct {
	base      *job.Base
	atLeastMM float64
	// perBoardMM is what each board beside the first counts for beside its height, and
	// bestMM what the best stack so far comes to with that.
	perBoardMM, bestMM float64
	best, now          Stack
}

// more puts one more board onto a stack that is to have n, none thicker than those
// under it: every stack is met once. Of two equally high the one met first counts: of
// fewer boards, and thicker ones below.
func (f *finder) more(laid int, sumMM float64, n, thickest int) {
	beds := float64(n - 1)
	if laid == n {
		between := math.Max(f.base.BetweenLeastMM, halfMM((f.atLeastMM-sumMM)/math.Max(1, beds)))
		if n == 1 {
			between = 0
		}
		height := sumMM + beds*between
		if between > f.base.BetweenGreatestMM+plan.HairMM && n > 1 || height < f.atLeastMM-plan.HairMM || height+beds*f.perBoardMM >= f.bestMM-plan.HairMM {
			return
		}
		f.bestMM, f.best = height+beds*f.perBoardMM, f.now
		f.best.n, f.best.BetweenMM = n, between
		return
	}
	for i := thickest; i >= 0; i-- {
		t := f.base.BoardsMM[i]
		if sumMM+float64(n-laid)*t+beds*f.base.BetweenGreatestMM < f.atLeastMM-plan.HairMM {
			return // thinner ones do not reach it either
		}
		if sumMM+t+float64(n-laid-1)*f.base.BoardsMM[0]+beds*(f.base.BetweenLeastMM+f.perBoardMM) >= f.bestMM-plan.HairMM {
			continue // too high whatever comes on it
		}
		f.now.boards[laid] = t
		f.more(laid+1, sumMM+t, n, i)
	}
}
