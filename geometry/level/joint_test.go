package level_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// What of the run stands on the floor. With the base's top at 0 the flange of the
// starting job is at 3 + 20 = 23 and the outlet at 23 − 75 = −52; its trap made 90 deep
// lets the base down to 90 − 23 = 67, and its pipe of 50 over 46, falling 1:40 over 645,
// to 2 + 16.125 + 52 = 70.125.
//
//	joint of 30, 64 across     reaches (64 − 46)/2 = 9 below the invert: 9 + 0.75 + 52 = 61.75
//	joint of 30, 90 across     reaches 22 below it: 22 + 0.75 + 52 = 74.75
//	falling piece 400 to 520   at the pipe's own fall; sockets of 62 reach 2 + 6 = 8 below
//	                           the invert: 8 + 13 + 52 = 73
//	reducer 400 to 460         to 40 over 36 in sockets of 60: 2 + 10 = 12 below the invert
//	                           at its end: 12 + 11.5 + 52 = 75.5
func TestSocketsAndJointsOnTheFloor(t *testing.T) {
	piece := func(id message.ID, number int) level.Reason {
		return level.Reason{By: level.PieceOnFloor, Piece: message.Numbered{ID: id, Number: number}}
	}
	joint := func(outsideMM float64) func(*job.Job) {
		return func(j *job.Job) { j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, outsideMM }
	}
	with := func(f job.Fitting) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Fittings = []job.Fitting{f} }
	}
	falling := with(job.Fitting{Kind: job.FittingFallingPiece, AtMM: 400, LengthMM: 120, Slope: 0.025})
	for name, c := range map[string]struct {
		change func(*job.Job)
		top    float64
		by     level.Reason
	}{
		"pipe":       {func(*job.Job) {}, 70.125, piece("piece.pipe", 1)},
		"joint":      {joint(64), 70.125, piece("piece.pipe", 1)},
		"wide joint": {joint(90), 74.75, piece("piece.joint", 1)},
		"wide sockets": {func(j *job.Job) {
			j.Waste.SocketOutsideMM = 62
			falling(j)
		}, 73, piece("piece.falling-piece", 2)},
		"reducer": {with(job.Fitting{Kind: job.FittingReducer, AtMM: 400, LengthMM: 60, Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 60, InsertionMM: 20}}),
			75.5, piece("piece.reducer", 2)},
	} {
		j := job.New()
		j.Drain.TrapDepthMM = 90
		c.change(&j)
		_, h := solve(j)
		if g := h.Governing(); math.Abs(g.BaseTopMM-c.top) > 1e-9 || g.Reason() != c.by {
			t.Errorf("%s: base top at %v by %v, want %v by %v", name, g.BaseTopMM, g.Reason(), c.top, c.by)
		}
	}
}
