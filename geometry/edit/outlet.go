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

// OutletTo says which way the outlet is turned.
func OutletTo(deg float64) message.Message {
	switch job.AngleDeg(deg) {
	case 90:
		return message.Of("remedy.outlet-back")
	case 180:
		return message.Of("remedy.outlet-left")
	case 270:
		return message.Of("remedy.outlet-front")
	}
	return message.Of("remedy.outlet-right")
}
