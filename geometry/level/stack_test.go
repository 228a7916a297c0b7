package level_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/level"
)

// By hand, with 2 to 4 between boards of 10, 20, 30 and 60.
func TestStacksByHand(t *testing.T) {
	b := job.Base{BoardsMM: []float64{10, 20, 30, 60}, BetweenLeastMM: 2, BetweenGreatestMM: 4}
	for _, c := range []struct {
		atLeast, height float64
		made            string
	}{
		{-5, 0, "[] 0"}, {0, 0, "[] 0"}, {0.5, 10, "[10] 0"}, {10, 10, "[10] 0"},
		// 10 + 10 comes to 22 to 24, so 20 is one board, 20.5 and 23.2 are two.
		{20, 20, "[20] 0"}, {20.5, 22, "[10 10] 2"}, {23.2, 23.5, "[10 10] 3.5"}, {24, 24, "[10 10] 4"}, {24.1, 30, "[30] 0"},
		// 60 + 10 with 2 to 4 between; 60 + 10 + 10 from 84 on, before that 60 + 20.
		{70, 72, "[60 10] 2"}, {73.9, 74, "[60 10] 4"}, {74.5, 75, "[30 30 10] 2.5"}, {84.5, 85, "[60 10 10] 2.5"},
		// A bed is laid to half a millimetre: 85.1 asks for 2.55 each, 3 are laid.
		{85.1, 86, "[60 10 10] 3"},
		// Four of the thickest with the thickest beds: 252.
		{252, 252, "[60 60 60 60] 4"},
	} {
		height, s, ok := level.NextHeight(&b, c.atLeast)
		if made := fmt.Sprint(s.BoardsMM(), s.BetweenMM); !ok || height != c.height || made != c.made || s.HeightMM() != c.height {
			t.Errorf("at least %v: %v as %s, %v, wanted %v as %s", c.atLeast, height, made, ok, c.height, c.made)
		}
	}
	if height, s, ok := level.NextHeight(&b, 252.1); ok {
		t.Errorf("252.1 is %v as %v", height, s.BoardsMM())
	}
}

// A base without boards comes to whole millimetres, and to any height when asked what
// it is made of it is in one piece.
func TestScreedsByHand(t *testing.T) {
	for atLeast, want := range map[float64]float64{70: 70, 70.0001: 71, 70.9: 71, -3.5: -3} {
		if height, s, ok := level.NextHeight(&job.Base{}, atLeast); !ok || height != want || len(s.BoardsMM()) > 0 {
			t.Errorf("at least %v: %v, %v", atLeast, height, ok)
		}
	}
	b := job.Base{BoardsMM: []float64{50}}
	for height, want := range map[float64]bool{50: true, 50.5: false, 49.5: false, 100: true, 0: true, 200: true, 250: false} {
		if s, ok := level.StackOf(&b, height); ok != want || ok && s.HeightMM() != height {
			t.Errorf("%v of boards of 50: %v, %v", height, s.BoardsMM(), ok)
		}
	}
}

// The lowest height is that of the lowest stack there is, and the next one's that of the
// one that is lowest with 3 added for each further board (common practice, no source),
// all of them enumerated: every choice of up to four boards in any order, each bed in
// steps of half a millimetre.
func TestNextHeightAgainstEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := func(least, most int, name string) float64 {
			return float64(rapid.IntRange(2*least, 2*most).Draw(t, name)) / 2
		}
		b := job.Base{BetweenLeastMM: half(0, 3, "least")}
		b.BetweenGreatestMM = b.BetweenLeastMM + half(0, 3, "more")
		at := 5.0
		for range rapid.IntRange(1, 5).Draw(t, "boards") {
			at += half(1, 30, "thicker")
			b.BoardsMM = append(b.BoardsMM, at)
		}
		atLeast := rapid.Float64Range(0.1, 300).Draw(t, "at least")
		lowest, best := math.Inf(1), math.Inf(1)
		var pile func(n int, sum float64)
		pile = func(n int, sum float64) {
			for bed := b.BetweenLeastMM; n > 0 && bed <= b.BetweenGreatestMM; bed += 0.5 {
				if h := sum + float64(n-1)*bed; h >= atLeast {
					lowest = math.Min(lowest, h)
					best = math.Min(best, h+3*float64(n-1))
				}
			}
			for _, board := range b.BoardsMM {
				if n < 4 {
					pile(n+1, sum+board)
				}
			}
		}
		pile(0, 0)
		height, s, ok := level.NextHeight(&b, atLeast)
		if ok == math.IsInf(best, 1) || ok && math.Abs(height+3*float64(len(s.BoardsMM())-1)-best) > 1e-9 {
			t.Fatalf("at least %v of %v: next %v as %v, enumerated %v", atLeast, b.BoardsMM, height, s.BoardsMM(), best)
		}
		height, s, ok = level.LowestHeight(&b, atLeast)
		if ok != !math.IsInf(lowest, 1) || ok && math.Abs(height-lowest) > 1e-9 {
			t.Fatalf("at least %v of %v with %v to %v: %v as %v, %v; enumerated %v", atLeast, b.BoardsMM, b.BetweenLeastMM, b.BetweenGreatestMM, height, s.BoardsMM(), ok, lowest)
		}
		if ok && math.Abs(s.HeightMM()-height) > 1e-9 {
			t.Fatalf("a stack of %v is %v", s.HeightMM(), height)
		}
	})
}
