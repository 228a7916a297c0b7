package level_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/message"
)

// A fitting's socket stands 3.5 mm out over the pipe (common practice, no source),
// and stands on the floor before the pipe does. The starting job with a trap 90
// deep in place of 95 and a falling piece at the pipe's own fall, 1:40, from 400 to
// 520 along it: the pipe's wall is 2, so at its end the socket's underside lies
// 13 + 2 + 3.5 = 18.5 below the outlet's invert; the pipe's at the wall, at 645,
// 16.125 + 2 = 18.125. The flange is 75 over the invert, the base's top 23 under
// the flange: 18.5 + 75 − 23 = 70.5. The trap would let it down to 90 − 23 = 67.
func TestSocketsStandOnTheFloor(t *testing.T) {
	j := job.New()
	j.Drain.TrapDepthMM = 90
	j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 400, LengthMM: 120, Slope: 0.025}}
	_, h := solve(j)
	if g := h.Governing(); math.Abs(h.BaseTopMM-70.5) > 1e-9 || g.Reason() != (level.Reason{By: level.PieceOnFloor, Piece: message.Numbered{ID: "piece.falling-piece", Number: 2}}) {
		t.Errorf("base top at %v, governed by %v", h.BaseTopMM, g.Reason())
	}
	j.Waste.Fittings = nil
	if _, h := solve(j); math.Abs(h.BaseTopMM-70.125) > 1e-9 {
		t.Errorf("without it base top at %v", h.BaseTopMM)
	}
}
