package tolerance_test

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/tolerance"
)

func shortage(t *testing.T, j job.Job) tolerance.Shortage {
	t.Helper()
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	var sh plan.Shaper
	l := stage.Place(j, rule.Pack{}, &sh).Level()
	if sh.Err() != nil {
		t.Fatal(sh.Err())
	}
	return l.Shortage()
}

// flat is the starting job with a pipe so flat that it never comes near the floor, and
// nothing off but what is set here: ±2 each of base, bed, former and trap. The floor's
// ±3 moves trap and base alike.
func flat() job.Job {
	j := job.New()
	j.Waste.Gradient = 0
	j.Tolerances = job.Tolerances{FloorMM: 3, BaseMM: 2, BedMM: 2, FormerMM: 2, TrapMM: 2}
	return j
}

// Where the trap alone counts the shortage is normal about nought with a standard
// deviation of √(4·1²) = 2: by tables (NIST/SEMATECH handbook, 1.3.6.7.1) 95 of 100 lie
// under 1.645 of them, 97.5 under 1.960, 84.13 under one.
func TestShortageInClosedForm(t *testing.T) {
	s := shortage(t, flat())
	for share, want := range map[float64]float64{0.5: 0, 0.95: 1.645 * 2, 0.975: 1.960 * 2, 0.8413: 2} {
		if got := s.HigherMM(share); math.Abs(got-want) > 0.01 {
			t.Errorf("%v of builds need %v more, want %v", share, got, want)
		}
		if got := s.Fits(want); math.Abs(got-share) > 0.001 {
			t.Errorf("with %v more %v fit, want %v", want, got, share)
		}
	}
	// A base that stands 5 higher than it must: 2.5 deviations, 99.38 of 100.
	j := flat()
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69+5
	if s := shortage(t, j); math.Abs(s.Fits(0)-0.9938) > 0.001 || math.Abs(s.HigherMM(0.95)-(1.645*2-5)) > 0.01 {
		t.Errorf("5 higher: %v fit, %v more are needed", s.Fits(0), s.HigherMM(0.95))
	}
	// Its room for bedding is no part of what fails: it is there to be eaten up.
	j.Drain.BedUnderMM = 20
	if s := shortage(t, j); math.Abs(s.Fits(0)-0.9938) > 0.001 {
		t.Errorf("with room for bedding %v fit", s.Fits(0))
	}
}

// The trap and the end of the pipe at once, drawn here by hand: the pipe of 645 to the
// wall falls 1:40, so that its underside of 2 lies 75 + 16.125 + 2 = 93.125 under the
// flange, 1.875 less deep than the trap; base, bed and former move both, the trap's
// depth the one, the outlet and the pipe the other. The pipe may be off by 3 over
// its 920 to the outer face, over a metre at least.
func TestShortageOfTwoAgainstDraws(t *testing.T) {
	j := flat()
	j.Waste.Gradient, j.Tolerances.PipeMM, j.Tolerances.OutletMM = 1.0/40, 3, 2
	s := shortage(t, j)
	random := rand.New(rand.NewPCG(7, 7))
	var by []float64
	for range 200000 {
		z := func(tolerance float64) float64 { return random.NormFloat64() * tolerance / 2 }
		both := -z(2) - z(2) - z(2)
		by = append(by, both+math.Max(z(2), -1.875+z(2)+z(3)*0.645))
	}
	sort.Float64s(by)
	for _, share := range []float64{0.5, 0.8, 0.95, 0.99} {
		if got, want := s.HigherMM(share), by[int(share*float64(len(by)))]; math.Abs(got-want) > 0.2 {
			t.Errorf("%v of builds need %v more, drawn %v", share, got, want)
		}
	}
}

// A shortage of known numbers.
func TestShortageByHand(t *testing.T) {
	s := tolerance.Shortage{-3, -2, -1, 0, 1, 2, 3, 4, 5, 6}
	for higher, want := range map[float64]float64{-4: 0, -3: 0.1, 0: 0.4, 0.5: 0.4, 5: 0.9, 6: 1, 100: 1} {
		if got := s.Fits(higher); got != want {
			t.Errorf("%v higher: %v, want %v", higher, got, want)
		}
	}
	for share, want := range map[float64]float64{0: -3, 0.1: -3, 0.11: -2, 0.5: 1, 0.95: 6, 1: 6} {
		if got := s.HigherMM(share); got != want {
			t.Errorf("%v of builds need %v, want %v", share, got, want)
		}
	}
	var none tolerance.Shortage
	if none.Fits(-1000) != 1 || !math.IsInf(none.HigherMM(0.95), -1) {
		t.Error("a base that nothing asks more of is asked for more")
	}
}

// A base let in flush stands on the joists, and nothing under it can be too low where
// there is no ceiling.
func TestNoShortage(t *testing.T) {
	j := job.New()
	j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
	j.Room.Walls[3].OutsideGroundMM = nil
	if s := shortage(t, j); len(s) > 0 {
		t.Errorf("%d draws, the least %v", len(s), s[0])
	}
}
