package unit

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/message"
)

// Chain is what is shown of the parts of a chain and of the whole, in mm: the parts add up to the
// whole, and none is off by as much as a step that it is shown in.
//
// Method: largest remainder. The whole is rounded, the parts are rounded down, and the steps that
// are then missing go to the parts with the largest remainders. A part that needs no rounding keeps
// its length; where only such parts are left to give or take a step, the whole is shown as finely
// as the parts are.
func Chain(c message.Chain, s System) (partsMM []float64, wholeMM float64) {
	steps, coarse := stepsIn(c.Round, s), stepsIn(c.Whole, s)
	sum := 0.0
	for _, mm := range c.PartsMM {
		sum += mm
	}
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		return slices.Clone(c.PartsMM), sum
	}
	shares := sharesOf(c.PartsMM, steps)
	const same = 1e-9 // of a step: what is left of products of whole numbers
	whole := inSteps(sum, coarse) * steps
	missing := math.Round(whole) - shares.down
	if math.Abs(whole-math.Round(whole)) > same || missing < 0 || int(missing) > shares.uneven {
		missing = inSteps(sum*steps, 1) - shares.down
	}
	for _, i := range shares.order[:int(math.Max(0, missing))] {
		shares.parts[i]++
	}
	partsMM = make([]float64, len(shares.parts))
	for i, n := range shares.parts {
		partsMM[i] = n / steps
	}
	return partsMM, (shares.down + math.Max(0, missing)) / steps
}

// shares are the parts of a chain in whole steps, rounded down.
type shares struct {
	parts  []float64
	down   float64 // all of them together
	order  []int   // by the size of what was left of each, the largest first
	uneven int     // how many had something left
}

func sharesOf(partsMM []float64, steps float64) shares {
	const hair = 1e-7 // of a step, as in inSteps
	out := shares{parts: make([]float64, len(partsMM)), order: make([]int, len(partsMM))}
	left := make([]float64, len(partsMM))
	for i, mm := range partsMM {
		out.parts[i] = math.Floor(mm*steps + hair)
		left[i] = math.Max(0, mm*steps-out.parts[i])
		out.down += out.parts[i]
		out.order[i] = i
		if left[i] > hair {
			out.uneven++
		}
	}
	slices.SortStableFunc(out.order, func(i, k int) int { return cmp.Compare(left[k], left[i]) })
	return out
}

// stepsIn is how many steps a millimetre has that lengths are shown in.
func stepsIn(round message.Round, s System) float64 {
	if s == Imperial {
		return inchScale().back(sixteenthsIn)
	}
	return [...]float64{message.Whole: 1, message.Half: 2, message.Tenth: 10, message.Stock: 1}[round]
}

// Chained writes a stretch of a chain with its unit.
func Chained(v message.InChain, s System) string {
	parts, sum := Chain(v.Chain, s)
	if v.From > 0 || v.To < len(parts) {
		sum = 0
		for _, mm := range parts[v.From:v.To] {
			sum += mm
		}
	}
	if v.Feet {
		return InFeet(sum, v.Round, s)
	}
	return Format(sum, Length, s)
}

// AsRead is a length as it is read on a tape: in whole millimetres, or in sixteenths of an inch.
func AsRead(mm float64, s System) float64 {
	return inSteps(mm, stepsIn(message.Whole, s))
}

// RiseRead is how far one level lies over another as both are read, so that all three add up: off by less than
// a step that levels are read in.
func RiseRead(v message.Rise, s System) float64 { return AsRead(v.ToMM, s) - AsRead(v.FromMM, s) }

// Rise writes how far one level lies over another as both are read: with its sign, or how far without.
func Rise(v message.Rise, s System) string {
	mm := RiseRead(v, s)
	if v.Signed {
		return SignedLevel(mm, s)
	}
	return Rounded(math.Abs(mm), message.Whole, s)
}
