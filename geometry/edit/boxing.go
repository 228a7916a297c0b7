package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// BoxIn boxes the pipe in along the room, as is usual; nothing where it is.
func BoxIn() Edit {
	return Of(message.Of("edit.box-in"), func(j *job.Job) {
		if j.Waste.Boxing == nil {
			boxing := job.UsualBoxing()
			j.Waste.Boxing = &boxing
		}
	})
}
