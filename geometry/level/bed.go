package level

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// BedPlace is how thick the bed under the base is at a place.
type BedPlace struct {
	At          plan.Point
	ThicknessMM float64
	// Reading is the number of the spot level that tells it, from one; 0 where the
	// floor's plane does.
	Reading int
}

// Bed is the bed that levels a base on a floor that is not level.
type Bed struct {
	// Places are the corners of the base that no reading lies near, and the readings under
	// it, in that order.
	Places []BedPlace
	// Least and Greatest are the thinnest and the thickest of them.
	Least, Greatest BedPlace
	// VolumeMM3 is under the whole of the base, channels and all.
	VolumeMM3 float64
}

// Bed is the bed under a base that stands on the floor; ok is false for one let in.
//
// Method: the floor is its plane of least squares, of which readings lie as much under
// as over it: the bed's volume is that over the plane, exactly, by its middle. At a
// reading the bed is what the reading leaves.
func (h *Heights) Bed(j *job.Job, l *layout.Layout) (b Bed, ok bool) {
	if j.Base.Support != job.OnFloor {
		return Bed{}, false
	}
	put := func(p BedPlace) {
		if len(b.Places) == 0 || p.ThicknessMM < b.Least.ThicknessMM-plan.HairMM {
			b.Least = p
		}
		if len(b.Places) == 0 || p.ThicknessMM > b.Greatest.ThicknessMM+plan.HairMM {
			b.Greatest = p
		}
		b.Places = append(b.Places, p)
	}
	read := func(q plan.Point) bool {
		for _, s := range j.SpotLevels {
			if l.FallArea.Contains(s.At, 0) && s.At.Sub(q).Len() < reachMM {
				return true
			}
		}
		return false
	}
	for _, poly := range l.FallArea {
		for _, q := range poly.Outer {
			if read(q) {
				continue // the reading says it better
			}
			put(BedPlace{At: q, ThicknessMM: h.BedMM(q)})
		}
	}
	for i, s := range j.OfStructure(l.FallArea) {
		if l.FallArea.Contains(s.At, 0) {
			put(BedPlace{s.At, h.BaseUnderMM - s.LevelMM - j.OnStructureMM() - j.SetDown(), i + 1})
		}
	}
	b.VolumeMM3 = l.FallArea.Area() * h.BedMM(l.FallArea.Centroid())
	return b, true
}

// BedMM is how thick the bed is at a plan point by the plane it lies on; not negative.
func (h *Heights) BedMM(p plan.Point) float64 {
	return math.Max(0, h.BaseUnderMM-h.Ground.At(p))
}
