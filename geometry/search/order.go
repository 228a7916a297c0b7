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

// Lower are the runs found that need at least a millimetre less than a bare raise and really differ, those that need least first: the
// ones to the stated exit before others where they need the same.
func (s *Outcome) Lower(bareMM float64) (out []Alternative) {
	var lower []Alternative
	for _, a := range s.Found {
		if a.BareMM <= bareMM-worthMM {
			lower = append(lower, a)
		}
	}
	for _, a := range distinct(lower, func(a *Alternative) float64 { return a.BareMM }) {
		out = append(out, *a)
	}
	slices.SortStableFunc(out, func(a, b Alternative) int { return cmp.Compare(a.BareMM, b.BareMM) })
	return out
}

// Distinct are the runs found that really differ, in their order: of those by each way out the one that asks for least, and what
// gains on that in what matters apart from the sum: the lowest base, the fewest joists cut and limits on that unkept, the
// smallest step, the best fall. One more bend for a little less pipe is no other run.
func (s *Outcome) Distinct() []*Alternative {
	return distinct(s.Found, func(a *Alternative) float64 { return a.RaiseMM })
}

// distinct are those of some runs, by how high their bases come.
func distinct(runs []Alternative, highMM func(*Alternative) float64) (out []*Alternative) {
	picked := make([]bool, len(runs))
	all := func(holds func(k int) bool) bool { // of those picked
		for k := range runs {
			if picked[k] && !holds(k) {
				return false
			}
		}
		return true
	}
	for i := range runs {
		same := func(k int) bool {
			return runs[k].MovesExit == runs[i].MovesExit && WayOutOf(runs[k].Job.Waste.Exit) == WayOutOf(runs[i].Job.Waste.Exit)
		}
		if !all(func(k int) bool { return !same(k) }) {
			continue // the first by its way out is picked, and what gains on it
		}
		picked[i] = true
		for _, gains := range gainsApart(highMM) {
			best := i
			for k := range runs {
				if same(k) && gains(&runs[k], &runs[best]) {
					best = k
				}
			}
			if all(func(k int) bool { return !same(k) || gains(&runs[best], &runs[k]) }) {
				picked[best] = true
			}
		}
	}
	for i := range runs {
		if picked[i] {
			out = append(out, &runs[i])
		}
	}
	return out
}

// gainsApart are the ways in which a run gains on another that matter apart from the sum.
func gainsApart(highMM func(*Alternative) float64) []func(a, than *Alternative) bool {
	const steeperShare = 1.1 // a tenth more fall
	return []func(a, than *Alternative) bool{
		func(a, than *Alternative) bool { return highMM(a) <= highMM(than)-worthMM },
		func(a, than *Alternative) bool { return a.JoistsCut < than.JoistsCut },
		func(a, than *Alternative) bool { return a.unkeptCuts() < than.unkeptCuts() },
		func(a, than *Alternative) bool { return a.EdgeStepMM <= than.EdgeStepMM-worthMM },
		func(a, than *Alternative) bool { return a.Gradient >= than.Gradient*steeperShare },
	}
}
