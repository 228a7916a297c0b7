package search

import (
	"cmp"
	"slices"
)

// What a run asks for besides height, in the millimetres of height that are taken for it.
// Common practice, no source.
const (
	fittingIsMM = 10 // a bend or a fitting: joints to make, a place to clog
	adviceIsMM  = 10 // something that the rules say of it without stopping it
	flatterIsMM = 5  // a fall flatter than stated or usual, nothing of which is to spare
	metreIsMM   = 10 // of pipe
	joistIsMM   = 50 // a joist cut
	unkeptIsMM  = 50 // a cut in a joist that does not keep a limit
)

// asksMM is what a run asks for, all told, in millimetres of height; flatter tells that it
// falls less than stated or usual.
func (a *Alternative) asksMM(flatter bool) float64 {
	mm := a.RaiseMM + fittingIsMM*float64(a.Bends+len(a.Job.Waste.Fittings)) + adviceIsMM*float64(a.Advisories) +
		joistIsMM*float64(a.JoistsCut) + metreIsMM*a.LengthMM/1000
	mm += unkeptIsMM * float64(a.unkeptCuts())
	if flatter {
		mm += flatterIsMM
	}
	return mm
}

// inOrder puts runs in the order in which a plumber would look at them: those to the stated
// exit first, then those that ask for least.
func inOrder(runs []Alternative, ampleFall float64) {
	asks := func(a *Alternative) float64 { return a.asksMM(a.Job.Waste.Gradient < ampleFall-sameFall) }
	slices.SortStableFunc(runs, func(a, b Alternative) int {
		if a.MovesExit != b.MovesExit {
			if a.MovesExit {
				return 1
			}
			return -1
		}
		return cmp.Or(cmp.Compare(asks(&a), asks(&b)), cmp.Compare(a.RaiseMM, b.RaiseMM))
	})
}

// Lower are the runs found that need at least a millimetre less than a bare raise, those that need least first: the ones to the
// stated exit before others where they need the same.
func (s *Outcome) Lower(bareMM float64) (out []Alternative) {
	const worthMM = 1
	for _, a := range s.Found {
		if a.BareMM <= bareMM-worthMM {
			out = append(out, a)
		}
	}
	slices.SortStableFunc(out, func(a, b Alternative) int { return cmp.Compare(a.BareMM, b.BareMM) })
	return out
}
