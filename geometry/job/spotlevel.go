package job

import (
	"math"

	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// spotLevels are the levels of the structural floor that are stated; those that are worked out of readings
// stand after them. A level without its ± is as good as a careful laser reading.
func spotLevels() Input {
	return Input{Key: SpotLevelsKey, Table: &Table{key: SpotLevelsKey, Most: mostItems, usual: nextLevel,
		Columns: append(inPlan(".at"),
			column(".levelMM", unit.Length, -mostReadingMM, mostReadingMM, 1),
			column(".toleranceMM", unit.Length, 0, mostOffMM, 0.5).or(UsualReadingMM).less()),
		get: func(j *Job) [][]float64 {
			var out [][]float64
			for _, s := range j.StatedLevels() {
				out = append(out, []float64{s.At.X(), s.At.Y(), s.LevelMM, s.ToleranceMM})
			}
			return out
		},
		set: func(j *Job, rows [][]float64) {
			j.SpotLevels = nil
			for _, v := range rows {
				j.SpotLevels = append(j.SpotLevels, SpotLevel{At: plan.Point{v[0], v[1]}, LevelMM: v[2], ToleranceMM: v[3]})
			}
			j.WorkOutLevels()
		}}}
}

// nextLevel is a level where one is wanted next, as high as the one nearest to it: in the corners of
// the room and its middle, whichever lies farthest from those there are.
func nextLevel(j *Job) []float64 {
	const cornerShare = 0.1 // how far from a corner a staff stands, of the way to the middle: common practice, no source
	var middle plan.Point
	for _, p := range j.Room.Outline {
		middle = middle.Add(p.Mul(1 / float64(len(j.Room.Outline))))
	}
	places := []plan.Point{middle}
	for _, p := range j.Room.Outline {
		places = append(places, p.Add(middle.Sub(p).Mul(cornerShare)))
	}
	var at plan.Point
	levelMM, farMM := 0.0, -1.0
	for _, p := range places {
		if !plan.FromRing(j.Room.Outline).Contains(p, plan.HairMM) {
			continue
		}
		nearestMM, near := math.Inf(1), 0.0
		for _, s := range j.SpotLevels {
			if mm := s.At.Sub(p).Len(); mm < nearestMM {
				nearestMM, near = mm, s.LevelMM
			}
		}
		if nearestMM > farMM {
			farMM, at, levelMM = nearestMM, p, near
		}
	}
	return []float64{math.Round(at.X()), math.Round(at.Y()), levelMM, UsualReadingMM}
}
