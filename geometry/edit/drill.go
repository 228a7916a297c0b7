package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// DrillFromOutside has the hole through the wall drilled from outside, by a rig that is used as the
// usual one is.
func DrillFromOutside() Edit {
	return Of(message.Of("edit.drill-outside"), func(j *job.Job) {
		d := job.UsualDrill()
		d.From = job.DrillOutside
		j.Waste.Drill = &d
	}).About("waste.drill")
}
