package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// TurnOutlet has the trap's outlet point another way, in degrees as job.Drain has them. A level
// measured at it as built is lost with its place.
func TurnOutlet(deg float64) Edit {
	return Of(message.Of("edit.outlet"), func(j *job.Job) {
		if job.AngleDeg(j.Drain.OutletTurnDeg) != job.AngleDeg(deg) {
			j.Drain.OutletTurnDeg, j.AsBuilt.OutletInvertMM = deg, nil
		}
	}).About("drain.outletTurnDeg")
}
