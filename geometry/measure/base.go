package measure

import (
	"underfall/geometry/assembly"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/rule"
)

func (m *Measurer) base() {
	h, j := &m.Heights, &m.Settled
	at := m.fallMiddle().Vec3(h.BaseTopMM)
	thickness := h.BaseThicknessMM(j)
	m.add("base.thickness", of(rule.Base), thickness, at)
	if j.Base.Support == job.OnFloor {
		m.add("base.thin-by", of(rule.Base), max(0, j.Base.MinThicknessMM-thickness), at)
	} else {
		m.add("base.thin-by", of(rule.Base), max(0, h.JoistTopMM(j)-h.BaseTopMM), at)
	}
	governing := h.Governing()
	reason := governing.Reason()
	m.add("base.too-low", rule.Subject{Of: rule.Base, Which: reason.By.ID(), Piece: reason.Piece}, max(0, governing.BaseTopMM-h.BaseTopMM), governing.At)
	if j.Base.KeepZoneMM > 0 && !j.Base.Screed {
		m.add("base.keep-zone-cut", of(rule.BaseBoard), keepZoneCutMM(*j), at)
	}
	if assembly.Covered(j, &h.Run) {
		m.add("base.pipe-covering", of(rule.Base), assembly.CoveringMM(j, h, m.underShower()), at)
	}
	if h.Survey.WorstIndex >= 0 {
		spot := j.SpotLevels[h.Survey.WorstIndex]
		m.add("floor.residual", rule.Subject{Of: rule.SpotLevel, Number: h.Survey.WorstIndex + 1}, h.Survey.WorstResidualMM, spot.At.Vec3(spot.LevelMM))
	}
}

// stack measures the base against what it is made of and what it must leave room for.
func (m *Measurer) stack() {
	h, j := &m.Heights, &m.Settled
	at := m.fallMiddle().Vec3(h.BaseTopMM)
	by, clear := h.ClearTop()
	reason := by.Reason()
	// What lies too low altogether has a measurement of its own.
	if room := h.BaseTopMM - h.LeastBaseTopMM(); room > -sameMM {
		m.add("base.clear-short-by", rule.Subject{Of: rule.Base, Which: reason.By.ID(), Piece: reason.Piece}, max(0, clear-h.BaseTopMM), by.At)
	}
	if len(j.Base.BoardsMM) == 0 || j.AsBuilt.BaseTopMM != nil {
		return // it comes to any height, or has the one it has
	}
	height := h.BaseTopMM - h.FootMM(j)
	next, _, ok := level.LowestHeight(&j.Base, height)
	if !ok {
		m.add("base.over-stacks-by", of(rule.Base), height-highestStackMM(&j.Base), at)
		return
	}
	m.add("base.under-stack-by", of(rule.Base), next-height, at)
}

// highestStackMM is the highest base that the boards at hand give.
func highestStackMM(b *job.Base) float64 {
	return level.MostBoards*b.BoardsMM[len(b.BoardsMM)-1] + (level.MostBoards-1)*b.BetweenGreatestMM
}

// overPieceMM is by how much the former is larger than one piece of it comes, along the
// fall or across it; limited is false where it comes in any size.
func overPieceMM(j *job.Job) (overMM float64, limited bool) {
	along, across := j.Shower.DepthMM, j.Shower.WidthMM
	switch j.Former.Fall {
	case job.FallLeft, job.FallRight:
		along, across = across, along
	case job.FallMid:
		along /= 2
	}
	for _, of := range [2][2]float64{{along, j.Former.LongestMM}, {across, j.Former.WidestMM}} {
		if of[1] > 0 {
			overMM, limited = max(overMM, of[0]-of[1]), true
		}
	}
	return overMM, limited
}

// keepZoneCutMM is how far a cut reaches into the middle of the base board that must
// be kept. A shower longer than the board is extended, not cut.
func keepZoneCutMM(j job.Job) float64 {
	start, end := BaseCuts(j)
	return max(0, max(start, end)-(j.Base.BoardLengthMM-j.Base.KeepZoneMM)/2)
}

// BaseCuts is what is trimmed off a base board at its start and its end to fit
// the shower's width: equally unless the job says otherwise; nothing when the
// shower is longer than the board.
func BaseCuts(j job.Job) (startMM, endMM float64) {
	spare := max(0, j.Base.BoardLengthMM-j.Shower.WidthMM)
	start := spare / 2
	if j.Base.CutAtStartMM != nil {
		start = min(spare, *j.Base.CutAtStartMM)
	}
	return start, spare - start
}

// underShower are the distances along the run between which it lies under the shower.
func (m *Measurer) underShower() []float64 {
	if len(m.plan.underShower) == 0 {
		m.plan.underShower = assembly.UnderShower(&m.Layout, &m.Heights.Run)
	}
	return m.plan.underShower
}
