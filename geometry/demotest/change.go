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
	EachPlace(&j, move)
	j.Floor.Joists.DirectionDeg = job.AngleDeg(j.Floor.Joists.DirectionDeg + angleDeg)
	return j
}

// EachPlace changes every point in plan of a job: of the room, of the waste, and of
// things of lists.
func EachPlace(j *job.Job, change func(*plan.Point)) {
	for _, ps := range [][]plan.Point{j.Room.Outline, j.Room.Tape.Drawn, j.Waste.Waypoints} {
		for i := range ps {
			change(&ps[i])
		}
	}
	for i := range j.SpotLevels {
		change(&j.SpotLevels[i].At)
	}
	change(&j.Waste.Exit.At)
	for _, l := range job.Lists() {
		at := [2]*job.NumberEntry{}
		for _, e := range l.Entries() {
			switch e.Key {
			case "at[0]":
				at[0] = e.Number
			case "at[1]":
				at[1] = e.Number
			}
		}
		for i := 0; at[0] != nil && i < l.Count(j); i++ {
			p := plan.Point{*at[0].At(j, i), *at[1].At(j, i)}
			change(&p)
			at[0].Set(j, i, &p[0])
			at[1].Set(j, i, &p[1])
		}
	}
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
