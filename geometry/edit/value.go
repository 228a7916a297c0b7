package edit

import "underfall/geometry/job"

// Number sets one number of the job. A height of the base that is typed is
// chosen.
func Number(p job.Parameter, value float64) Edit {
	return Of(string(p.Group)+": "+p.Label, func(j *job.Job) {
		*j = p.With(*j, value)
		if p.Key == job.BaseHeightKey {
			j.Base.Height = job.HeightChosen
		}
	})
}

// Optional sets a number that may be absent; nil takes it away.
func Optional(name string, field func(*job.Job) **float64, value *float64) Edit {
	return Of(name, func(j *job.Job) {
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
	names := new(job.AsBuilt).Levels()
	return Optional("As built: "+names[level].Label, func(j *job.Job) **float64 { return j.AsBuilt.Levels()[level].MM }, value)
}
