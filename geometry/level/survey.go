// Package level works out heights: the structural floor from its spot levels,
// the least raise that makes the waste work, and the levels that follow from it.
package level

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Survey is the structural floor as measured.
type Survey struct {
	Floor solid.Plane
	// WorstResidualMM is the largest distance of a reading from the plane, and
	// WorstIndex that reading's index; -1 without readings.
	WorstResidualMM float64
	WorstIndex      int
	// UnevenMM is how far the floor lies off the plane between the readings, plus
	// or minus, in 95 of 100 places, as the residuals tell; 0 where there are too
	// few readings to tell.
	UnevenMM float64
}

// Measure fits the structural floor to levels of it. Those in a part of it that is set
// down lie that much lower than they would beside it.
//
// Method: three or more readings that do not lie on one line give the plane of
// least squares z = c + a·x + b·y, by its normal equations; fewer, or in line, give their mean,
// level; none gives level zero.
func Measure(spots []job.SpotLevel, setDown plan.Region, byMM float64) Survey {
	if byMM > 0 {
		spots = slices.Clone(spots)
		for i := range spots {
			if setDown.Contains(spots[i].At, 0) {
				spots[i].LevelMM += byMM
			}
		}
	}
	return fitted(spots)
}

// fitted is the survey of readings of one floor.
func fitted(spots []job.SpotLevel) Survey {
	s := Survey{WorstIndex: -1}
	if len(spots) == 0 {
		return s
	}
	mean, meanAt := 0.0, plan.Point{}
	for _, p := range spots {
		mean += p.LevelMM / float64(len(spots))
		meanAt = meanAt.Add(p.At.Mul(1 / float64(len(spots))))
	}
	s.Floor = solid.Plane{Level: mean}
	if spread(spots, meanAt) > 1 {
		// About the middle of the readings the constant uncouples from the slopes,
		// which two equations are left for.
		var xx, yy, xy, xz, yz float64
		for _, p := range spots {
			d, z := p.At.Sub(meanAt), p.LevelMM-mean
			xx, yy, xy = xx+d.X()*d.X(), yy+d.Y()*d.Y(), xy+d.X()*d.Y()
			xz, yz = xz+d.X()*z, yz+d.Y()*z
		}
		det := xx*yy - xy*xy
		a, b := (xz*yy-yz*xy)/det, (yz*xx-xz*xy)/det
		s.Floor = solid.Plane{Level: mean - a*meanAt.X() - b*meanAt.Y(), SlopeX: a, SlopeY: b}
	}
	squares := 0.0
	for i, p := range spots {
		squares += math.Pow(p.LevelMM-s.Floor.At(p.At), 2)
		if r := math.Abs(p.LevelMM - s.Floor.At(p.At)); r > s.WorstResidualMM+plan.HairMM || s.WorstIndex < 0 {
			s.WorstResidualMM, s.WorstIndex = r, i
		}
	}
	// The standard deviation of residuals about a fitted plane, and twice that.
	// JCGM 100:2008 (GUM), H.3; 6.2 for the two.
	const planeParameters, deviations = 3, 2
	if n := len(spots) - planeParameters; n > 0 {
		if s.UnevenMM = deviations * math.Sqrt(squares/float64(n)); s.UnevenMM < plan.HairMM {
			s.UnevenMM = 0
		}
	}
	return s
}

// reachMM is how far round a reading the floor is taken to be as high as it.
// Common practice, no source.
const reachMM = 150

// highSpots is the highest the floor lies under a region that is set down so far: by
// the plane, or by a reading in it or near; where that is; and how far the highest of those readings
// stands proud of the plane, not negative.
func (s Survey) highSpots(spots []job.SpotLevel, r plan.Region, setDownMM float64) (at plan.Point, highMM, proudMM float64) {
	at, highMM = highest(s.Floor, r)
	highMM -= setDownMM
	for _, p := range spots {
		if !r.Contains(p.At, reachMM) {
			continue
		}
		if setDownMM > 0 && !r.Contains(p.At, 0) {
			p.LevelMM -= setDownMM
		}
		if p.LevelMM > highMM {
			at, highMM = p.At, p.LevelMM
		}
		proudMM = math.Max(proudMM, p.LevelMM-(s.Floor.At(p.At)-setDownMM))
	}
	return at, highMM, proudMM
}

// spread is how far the readings reach square to the line they best lie on:
// the root of the smaller eigenvalue of their scatter, mm.
func spread(spots []job.SpotLevel, mean plan.Point) float64 {
	var xx, yy, xy float64
	for _, p := range spots {
		d := p.At.Sub(mean)
		xx, yy, xy = xx+d.X()*d.X(), yy+d.Y()*d.Y(), xy+d.X()*d.Y()
	}
	half := (xx + yy) / 2
	return math.Sqrt(math.Max(0, half-math.Hypot((xx-yy)/2, xy)) / float64(len(spots)))
}

// highest is the highest level of a plane over a region, and where that is: of several places that are as high their middle.
func highest(p solid.Plane, r plan.Region) (at plan.Point, levelMM float64) {
	levelMM = math.Inf(-1)
	n := 0.0
	for _, poly := range r {
		for _, q := range poly.Outer {
			switch z := p.At(q); {
			case z > levelMM+plan.HairMM:
				at, levelMM, n = q, z, 1
			case z > levelMM-plan.HairMM:
				at, levelMM, n = at.Add(q), math.Max(levelMM, z), n+1
			}
		}
	}
	if n > 0 {
		at = at.Mul(1 / n)
	}
	return at, levelMM
}
