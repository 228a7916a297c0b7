package level_test

import (
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/level"
)

// What stands on a high spot says so, from half a millimetre over the plane on: two
// readings give their mean, level, and the one under the shower stands over it by
// half of what they differ.
func TestHighSpotsAreNamed(t *testing.T) {
	for _, c := range []struct {
		differMM    float64
		trap, piece level.Bound
	}{
		{0.98, level.TrapOnFloor, level.PieceOnFloor},
		{1.02, level.TrapOnHighSpot, level.PieceOnHighSpot},
	} {
		j := job.New()
		j.SpotLevels = spots([3]float64{700, 1450, c.differMM}, [3]float64{2300, 100, 0})
		_, h := solve(j)
		named := map[level.Reason]bool{}
		for _, b := range h.Constraints {
			named[b.Reason()] = true
		}
		if !named[level.Reason{By: c.trap}] || !named[level.Reason{By: c.piece, Piece: pipe(1)}] {
			t.Errorf("readings that differ by %v: %v", c.differMM, named)
		}
	}
}
