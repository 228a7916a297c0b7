package demotest

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Moved is the job in a room turned and shifted.
func Moved(j job.Job, angleDeg float64, by plan.Point) job.Job {
	j = j.Clone()
	rotation := mgl64.Rotate2D(angleDeg * math.Pi / 180)
	move := func(p *plan.Point) { *p = rotation.Mul2x1(*p).Add(by) }
	for i := range j.Room.Outline {
		move(&j.Room.Outline[i])
	}
	for i := range j.SpotLevels {
		move(&j.SpotLevels[i].At)
	}
	for i := range j.Waste.Waypoints {
		move(&j.Waste.Waypoints[i])
	}
	move(&j.Waste.Exit.At)
	if h := j.Shower.Head; h != nil {
		move(&h.At)
	}
	j.Floor.Joists.DirectionDeg = job.AngleDeg(j.Floor.Joists.DirectionDeg + angleDeg)
	return j
}

// AcrossJoists turns the joists of the let-in demo so that the run crosses
// them, with the outlet as low as given.
func AcrossJoists(j *job.Job, outletMM float64) {
	j.Floor.Joists.DirectionDeg = 270
	j.Floor.Joists.FirstOffsetMM = 200
	j.Floor.Joists.SupportsMM = []float64{0, 2000}
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 0
	j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = outletMM, outletMM+20
}
