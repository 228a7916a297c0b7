package edit

import (
	"math"
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Number sets one number of the job. A height of the base that is typed is
// chosen; a shower that ends in the far corner of its wall still does at another width; a
// drain that moves takes a waste that goes straight out through a wall along, a slab that is set down the readings on it.
func Number(p job.Parameter, value float64) Edit {
	keys := []string{p.Key}
	if p.Key == job.BaseHeightKey {
		keys = append(keys, heightModeKey)
	}
	e := States(Of(p.Message(), func(j *job.Job) {
		if strings.HasPrefix(p.Key, "drain.") {
			keepingStraight(j, func() { *j = p.With(*j, value) })
			return
		}
		before, down := j.Shower, j.SetDown()
		*j = p.With(*j, value)
		slabLowered(j, j.SetDown()-down)
		if p.Key == job.BaseHeightKey {
			j.Base.Height = job.HeightChosen
		}
		keepCorner(j, before)
	}), keys...)
	of := func(j job.Job) (float64, bool) { return p.Get(j), true }
	return e.stated(Figure{p.Key, value, p.Kind, of, func(v float64) Edit { return Number(p, v) }}).About(keys...).
		called(func(j *job.Job) message.Message { return j.PlaceOf(p.Key) })
}

// keepCorner leaves a shower of another width than before in the far corner of its wall, if it
// was there and not in the near one.
func keepCorner(j *job.Job, before job.Shower) {
	end := before.OffsetMM + before.WidthMM
	if j.Shower.WidthMM != before.WidthMM && before.OffsetMM > 0 && math.Abs(j.Room.WallLengthMM(before.Wall)-end) < plan.HairMM {
		j.Shower.OffsetMM = math.Max(0, end-j.Shower.WidthMM)
	}
}

// Optional sets a number that may be absent; nil takes it away.
func Optional(what message.Message, field func(*job.Job) **float64, value *float64) Edit {
	return Of(what, func(j *job.Job) {
		if value != nil {
			v := *value
			*field(j) = &v
			return
		}
		*field(j) = nil
	})
}

// Measured enters a level measured as built, or takes it away.
func Measured(level int, value *float64) Edit {
	what := new(job.AsBuilt).Levels()[level].Message()
	return Optional(what, func(j *job.Job) **float64 { return j.AsBuilt.Levels()[level].MM }, value)
}
