package level

import (
	"iter"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// GroundHighMM is the highest of what the bed under a base on the floor lies on.
func (h *Heights) GroundHighMM(j *job.Job) float64 {
	return h.FloorHighMM + j.OnStructureMM() + j.SetDown()
}

// GroundAt is what lies under a base, or beside it in the room, at a plan point.
func (h *Heights) GroundAt(l *layout.Layout, p plan.Point) float64 {
	if h.Ground == h.Beside || l.FallArea.Contains(p, plan.HairMM) {
		return h.Ground.At(p)
	}
	return h.Beside.At(p)
}

// StructureAt is the level of the structural floor at a plan point.
func (h *Heights) StructureAt(j *job.Job, l *layout.Layout, p plan.Point) float64 {
	if down := j.SetDown(); down > 0 && l.FallArea.Contains(p, plan.HairMM) {
		return h.Survey.Floor.At(p) - down
	}
	return h.Survey.Floor.At(p)
}

// HighAt is the level that trap and pipe must stay over at a plan point of a
// floor: what lies there, and over it what the highest reading near stands proud.
func (h *Heights) HighAt(l *layout.Layout, p plan.Point) float64 { return h.GroundAt(l, p) + h.ProudMM }

// KerbAt is the level to stay over where the run leaves the shower: what lies higher on
// either side.
func (h *Heights) KerbAt(p plan.Point) float64 {
	return max(h.Ground.At(p), h.Beside.At(p)) + h.ProudMM
}

// Kerbs are the places, with their distances along the run, where a piece crosses the
// shower's border before the exit; none where all that is stated leaves the floor as high
// on both sides.
func (h *Heights) Kerbs(j *job.Job, l *layout.Layout, p *waste.Piece, exitAtMM float64) iter.Seq2[float64, plan.Point] {
	return func(yield func(float64, plan.Point) bool) {
		if j.Base.Support != job.OnFloor || len(j.Floor.Existing) == 0 && len(j.UnderBase()) == 0 && j.SetDown() == 0 {
			return
		}
		for s := range p.Stretches {
			for _, iv := range l.FallArea.Clip(s.A, s.Along()) {
				for _, t := range [2]float64{iv.From, iv.To} {
					at := s.FromMM + t
					if t > 0 && t < s.LengthMM && at < exitAtMM-plan.HairMM && !yield(at, s.A.Add(s.Along().Mul(t))) {
						return
					}
				}
			}
		}
	}
}
