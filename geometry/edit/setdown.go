package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// slabLowered has the readings of the floor under the shower go along with a slab that is set down by so much more there than
// when they were taken, or less where it is negative. A level that is held stays.
func slabLowered(j *job.Job, byMM float64) {
	if byMM == 0 || len(j.SpotLevels) == 0 {
		return
	}
	shower := layout.Of(*j, new(plan.Shaper)).FallArea
	goes := func(at plan.Point, key string) bool {
		return shower.Contains(at, 0) && j.StandingOf(key) != job.Held
	}
	stated := j.StatedLevels()
	for i := range stated {
		if goes(stated[i].At, job.Nth(job.SpotLevelsKey, i)+".levelMM") {
			stated[i].LevelMM -= byMM
		}
	}
	j.Laser.KeepLine()
	for i := range j.Laser.Readings {
		if r := &j.Laser.Readings[i]; goes(r.At, job.Nth(job.ReadingsKey, i)+".downMM") {
			r.DownMM += byMM
		}
	}
	j.WorkOutLevels()
}
