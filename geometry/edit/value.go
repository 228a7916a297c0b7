package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Number sets one number of the job. A height of the base that is typed is
// chosen.
func Number(p job.Parameter, value float64) Edit {
	return Of(p.Message(), func(j *job.Job) {
		*j = p.With(*j, value)
		if p.Key == job.BaseHeightKey {
			j.Base.Height = job.HeightChosen
		}
	})
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
