// Package survey works out where a room's corners are from what was measured of it: lengths of walls,
// distances from corner to corner, angles. More measures than are needed are adjusted to each other by
// least squares; what too few leave open is taken as the room was drawn, and said.
package survey

import (
	"errors"
	"math"
	"slices"

	"underfall/geometry/plan"
)

// Kind is what was measured.
type Kind int

// The kinds of measures.
const (
	Distance Kind = iota // from corner to corner, mm
	Angle                // at a corner, inside the room, degrees
)

// Measure is one measure of the room, of corners by their indices.
type Measure struct {
	Kind Kind
	// From and To are the corners of a distance. Those of an angle are what it lies between: it turns at
	// the corner At from the way to From to the way to To, the way that the room's corners run.
	From, To int
	At       int
	Value    float64 // mm, or degrees over 0 and under 360
	// Tolerance is plus or minus, held by 95 of 100: mm, or degrees; over 0.
	Tolerance float64
}

// deviations is how many standard deviations a tolerance that holds in 95 of 100 is: JCGM 100:2008 (GUM), 6.2.
const deviations = 2

// Fit are the corners that agree best with what was measured.
type Fit struct {
	// Corners are as many as were drawn, in their order: the first one lies where it was drawn, and the
	// first wall runs the way it was drawn. On a grid of a millionth of a millimetre.
	Corners []plan.Point
	// Residuals are by how much each measure is changed to agree with all others: of the room less as
	// measured.
	Residuals []Residual
	// Assumed is what was not measured and is taken as it was drawn.
	Assumed Assumed
	// OpenMM is what does not close: how far the measure that agrees least is off what the others give
	// for it; 0 where there are none too many.
	OpenMM float64
	// Closes tells that no measure is off by more than measuring explains.
	Closes bool
	// Blunder is the one measure that disagrees with all others; nil where there is none, or where it
	// cannot be told which.
	Blunder *Blunder
}

// Residual is by how much one measure is changed.
type Residual struct {
	// Value is in the measure's own unit; MM of an angle is what that comes to at the end of the longer
	// of the two ways it lies between.
	Value, MM float64
	// Checked tells that the other measures say something of this one; AgainstRest is then how far it is
	// off what they give for it, as measured less that: mm, or degrees.
	Checked     bool
	AgainstRest float64
}

// Assumed is what was taken as it was drawn, as the measures do not suffice for it.
type Assumed struct {
	// Square are corners that were drawn square, and Drawn other ones, by their indices.
	Square, Drawn []int
	// Walls have the lengths they were drawn with, by their indices.
	Walls []int
}

// Any tells whether anything is.
func (a Assumed) Any() bool { return len(a.Square)+len(a.Drawn)+len(a.Walls) > 0 }

// Blunder is a measure that disagrees with all others.
type Blunder struct {
	Measure int // its index
	// By is how far it is over what the others give: mm, or degrees.
	By float64
}

// ErrUnsettled is that no room was found that the measures come to rest in.
var ErrUnsettled = errors.New("the measures come to no room")

// ErrMeasure is that a measure means nothing.
var ErrMeasure = errors.New("a measure means nothing")

// ImpossibleError is that two corners are measured farther apart than the measured way round between them
// is long.
type ImpossibleError struct {
	Measure int     // its index
	RoundMM float64 // the way round
}

func (e *ImpossibleError) Error() string { return "a distance is longer than the way round" }

// Work works out the corners of a room as drawn, of three or more corners, from what was measured; the
// order of the measures makes no difference.
//
// Method: least squares by Gauss and Newton, weighted by the tolerances. Angles and, after them, lengths as
// drawn decide what the measures leave open, each in the ways that those before hold too weakly. One more measure
// that agrees with the corners moves nothing where nothing is assumed; where something is, it may change what decides
// on it, and corners then move by less than what was drawn is off what was measured and what that carries along of an angle.
// Errors: ErrMeasure, ErrUnsettled, ImpossibleError.
func Work(drawn []plan.Point, measures []Measure) (Fit, error) {
	for i := range measures {
		if !measures[i].sound(len(drawn)) {
			return Fit{}, ErrMeasure
		}
	}
	if err := reachable(len(drawn), measures); err != nil {
		return Fit{}, err
	}
	p := newProblem(drawn, measures)
	s, ok := p.settle()
	if !ok {
		return Fit{}, ErrUnsettled
	}
	f := Fit{Corners: p.placed(s.at), Assumed: s.assumed}
	f.Residuals, f.OpenMM, f.Closes = p.residuals(s)
	if !f.Closes {
		f.Blunder = blunder(drawn, measures, f.Residuals)
	}
	return f, nil
}

// Settled tells whether corners are those that Work gives, for nearly all rooms without working them out anew.
func Settled(drawn []plan.Point, measures []Measure, corners []plan.Point) bool {
	if len(corners) != len(drawn) {
		return false
	}
	for i := range measures {
		if !measures[i].sound(len(drawn)) {
			return false
		}
	}
	if reachable(len(drawn), measures) != nil {
		return false
	}
	p := newProblem(drawn, measures)
	if p.rests(corners) {
		return true
	}
	s, ok := p.settle()
	return ok && slices.Equal(p.placed(s.at), corners)
}

// sound tells whether the measure means something of a room of n corners.
func (m *Measure) sound(n int) bool {
	corner := func(i int) bool { return i >= 0 && i < n }
	good := corner(m.From) && corner(m.To) && m.From != m.To && m.Value > 0 && m.Tolerance > 0 &&
		!math.IsInf(m.Value, 0) && !math.IsInf(m.Tolerance, 0)
	if m.Kind == Angle {
		return good && corner(m.At) && m.At != m.From && m.At != m.To && m.Value < 360
	}
	return good
}

// certain is by how many tolerances a distance is surely too long.
const certain = 3

// reachable tells whether all distances are no longer than the measured ways round between their corners,
// as far as measuring can tell.
//
// Method: shortest ways between all corners, by Floyd and Warshall. Of several measures of one distance the
// longest counts: that they disagree is no impossibility.
func reachable(n int, measures []Measure) error {
	way := make([]float64, n*n)
	for i := range way {
		way[i] = math.Inf(1)
	}
	for _, m := range measures {
		if m.Kind != Distance {
			continue
		}
		long := m.Value + certain*m.Tolerance
		if at := way[m.From*n+m.To]; !math.IsInf(at, 1) {
			long = math.Max(long, at)
		}
		way[m.From*n+m.To], way[m.To*n+m.From] = long, long
	}
	for k := range n {
		for i := range n {
			for j := range n {
				way[i*n+j] = math.Min(way[i*n+j], way[i*n+k]+way[k*n+j])
			}
		}
	}
	var worst *ImpossibleError
	over := 0.0
	for i, m := range measures {
		round := way[m.From*n+m.To]
		if by := m.Value - certain*m.Tolerance - round; m.Kind == Distance && by > over {
			worst, over = &ImpossibleError{i, round}, by
		}
	}
	if worst != nil {
		return worst
	}
	return nil
}
