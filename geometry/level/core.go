package level

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// Core is the hole that the waste goes out through: round, and square through its wall.
type Core struct {
	Wall int // counted from one
	// AlongMM is its middle from the wall's start, At that on the inner face.
	AlongMM float64
	At      plan.Point
	// CentreMM is the level of its middle: half way between those of the pipe's middle on the two faces, which falls within it.
	CentreMM float64
	// LeastMM is the diameter that holds the pipe all through the wall with the room to
	// be left round it.
	LeastMM float64
}

// Core is the hole through the wall that a levelled run leaves by; ok is false where it
// leaves by none.
//
// Method: on each face the pipe with its room makes an ellipse, r·√(1 + a² + b²) to its
// farthest, for a pipe that goes a along the wall and rises b for each millimetre through
// it. The circle about the middle of both that holds both reaches half the way between
// them farther.
func (h *Heights) Core(j *job.Job, l *layout.Layout) (c Core, ok bool) {
	run := &h.Run
	if run.Wall == 0 || len(run.Pieces) == 0 {
		return Core{}, false
	}
	w, pipe := &l.Walls[run.Wall-1], run.Outgoing()
	face := func(at float64) plan.Point {
		return plan.Point{run.PointAt(at).Sub(w.A).Dot(w.Along), run.InvertAt(at) + pipe.BoreMM/2}
	}
	in, out := face(run.WallAtMM), face(run.OuterFaceAtMM(w.ThicknessMM, w.Outward))
	way := out.Sub(in)
	radius := (pipe.OutsideDiameterMM/2 + j.Waste.HoleRoomMM) * math.Sqrt(1+way.Dot(way)/(w.ThicknessMM*w.ThicknessMM))
	middle := in.Add(out).Mul(0.5)
	return Core{Wall: run.Wall, AlongMM: middle.X(), At: w.At(middle.X()), CentreMM: middle.Y(), LeastMM: 2*radius + way.Len()}, true
}

// ThroughLeaves tells whether the run goes out through both leaves of a cavity wall.
func (h *Heights) ThroughLeaves(j *job.Job, l *layout.Layout) bool {
	run := &h.Run
	if run.Wall == 0 || len(j.Room.Walls[run.Wall-1].Leaves()) < 2 {
		return false
	}
	w := &l.Walls[run.Wall-1]
	const reachesMM = 1
	return run.LengthMM > run.OuterFaceAtMM(w.ThicknessMM, w.Outward)-reachesMM
}
