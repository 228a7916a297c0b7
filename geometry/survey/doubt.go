package survey

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"underfall/geometry/plan"
)

// leastChecked is the share of a measure that others check at the least, for anything to be said of it.
const leastChecked = 1e-6

// mostDeviations is by how many standard deviations a residual may be off before measuring does not explain it:
// W. Baarda, A testing procedure for use in geodetic networks (1968), one in a thousand; from memory.
const mostDeviations = 3.29

// residuals are those of the measures as given, with what does not close and whether that is measuring.
//
// Method: with H the matrix that makes adjusted measures of measures, a measure is checked by the others as far
// as its 1 - h, and off what they give for it by its residual over that.
func (p *problem) residuals(s settlement) (out []Residual, openMM float64, closes bool) {
	out = make([]Residual, len(p.measured))
	held := p.leverages(s)
	worst := 0.0
	for i := range p.measured {
		r := &p.measured[i]
		off := p.off(s.at, r)
		res := Residual{Value: off, MM: off}
		scale := 1.0
		if r.Kind == Angle {
			scale = math.Max(s.at[r.From].Sub(s.at[r.At]).Len(), s.at[r.To].Sub(s.at[r.At]).Len())
			res.Value, res.MM = off*degrees, off*scale
		}
		if checked := 1 - held[i]; checked > leastChecked {
			res.Checked, res.AgainstRest = true, -res.Value/checked
			// Where one measure alone is too many, all are off by as many deviations: then the least does.
			const same = 1e-6
			by, mm := math.Abs(off)/r.sigma/math.Sqrt(checked), math.Abs(off)*scale/checked
			if by > worst*(1+same) || by > worst*(1-same) && mm < openMM {
				openMM = mm
			}
			worst = math.Max(worst, by)
		}
		out[p.order[i]] = res
	}
	return out, openMM, worst <= mostDeviations
}

// leverages are how far each measure holds itself, from 0 to 1: the diagonal of the matrix that makes adjusted
// measures of measures.
func (p *problem) leverages(s settlement) []float64 {
	out := make([]float64, len(p.measured))
	_, decided, _ := p.ways(s.at, p.measured, everyWay(unknowns(len(s.at))), first(s.held.measured))
	if decided == nil {
		return out
	}
	j, _ := p.slopes(s.at, p.measured)
	var moved, q mat.Dense
	moved.Mul(j, decided)
	var qr mat.QR
	qr.Factorize(&moved)
	qr.QTo(&q)
	for i := range out {
		for k := range s.held.measured {
			out[i] += math.Pow(q.At(i, k), 2)
		}
	}
	return out
}

// blunder is the one measure without which all others agree; nil where there is none. Where several would do,
// it is the one without which the corners come out much nearer to how they were drawn than without any other,
// which walls that were meant to be square tell.
func blunder(drawn []plan.Point, measures []Measure, residuals []Residual) *Blunder {
	type without struct {
		Blunder
		unlike float64
	}
	var found []without
	for i := range measures {
		if !residuals[i].Checked {
			continue
		}
		rest := append(append([]Measure(nil), measures[:i]...), measures[i+1:]...)
		p := newProblem(drawn, rest)
		s, ok := p.settle()
		if !ok || !s.closes(p) {
			continue
		}
		r := row{Measure: measures[i]}
		by := -p.off(s.at, &r)
		if r.Kind == Angle {
			by *= degrees
		}
		found = append(found, without{Blunder{i, by}, p.unlike(s.at)})
	}
	best, second := -1, math.Inf(1)
	for i := range found {
		switch {
		case best < 0 || found[i].unlike < found[best].unlike:
			if best >= 0 {
				second = found[best].unlike
			}
			best = i
		case found[i].unlike < second:
			second = found[i].unlike
		}
	}
	if best < 0 {
		return nil
	}
	// Much nearer, so that chance is no reason, and to what is built.
	much, built := mostDeviations*mostDeviations, deviations*deviations*float64(len(drawn))
	if u := found[best].unlike; len(found) > 1 && (second-u < much || u > built) {
		return nil
	}
	return &found[best].Blunder
}

// closes tells whether no measure is off by more than measuring explains.
func (s settlement) closes(p *problem) bool {
	_, _, closes := p.residuals(s)
	return closes
}

// unlike is how far the corners' angles are off how they were drawn: the sum of squares of standard deviations,
// of rooms as they are built.
func (p *problem) unlike(at []plan.Point) (sum float64) {
	for i := range p.angles {
		sum += math.Pow(p.off(at, &p.angles[i])/p.angles[i].sigma, 2)
	}
	return sum
}
