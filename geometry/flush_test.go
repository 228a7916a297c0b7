package geometry_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/layout"
)

// Floors that finish flush, by hand from the structure to the step at the front edge, 817
// in front of the drain, where the fall of 1:50 has risen 16.34. The shower's finish is
// 1 + 3 + 9 on a former of 20 on 3; so is the room's, on what is under it.
func TestFlushFloorsByHand(t *testing.T) {
	course := func(k job.CourseKind, mm float64) job.Course {
		return job.Course{Kind: k, Layer: job.Layer{ThicknessMM: mm}}
	}
	for name, c := range map[string]struct {
		change                 func(*job.Job)
		base, tile, edge, room float64
	}{
		// Straight on the joists, 22 under the deck: −22 + 23 + 13 = 14 at the drain. The
		// room has 12 of board and a mat of 4 on the deck.
		"let in": {func(j *job.Job) {
			j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, -22
			j.Layers.Room.Under = []job.Course{course(job.CourseOverlay, 12), course(job.CourseDecoupling, 4)}
		}, -22, 14, 30.34, 29},
		// A slab 110 lower under the shower, a bed of 3 and 80 of base: −27, and 36 over it.
		"set down": {func(j *job.Job) {
			j.Floor.SetDownMM = 110
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 80
		}, -27, 9, 25.34, 13},
		// A screed of 65 and its tile of 15 taken out under the shower, the tile alone in
		// the room, which is tiled anew on 65 of screed and a mat of 4: 82. The base of 40
		// stands on the slab with 3 under it.
		"screed out": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingScreed, ThicknessMM: 65, Out: job.OutShower}, {Kind: job.ExistingFinish, ThicknessMM: 15, Out: job.OutEverywhere}}
			j.Layers.Room.Under = []job.Course{course(job.CourseHeating, 4)}
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40
		}, 43, 79, 95.34, 82},
		// The same, tile and screed left in the room, which keeps its 80; a base of 27, and
		// a mat of 3 under the shower's tanking.
		"finish kept": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingScreed, ThicknessMM: 65, Out: job.OutShower}, {Kind: job.ExistingFinish, ThicknessMM: 15, Out: job.OutShower}}
			j.Layers.Shower.Under = []job.Course{course(job.CourseDecoupling, 3)}
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 27
		}, 30, 69, 85.34, 80},
	} {
		j := job.New()
		c.change(&j)
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if len(r.Problems) > 0 {
			t.Errorf("%s: %v", name, r.Problems)
			continue
		}
		h := &r.Heights
		step := math.NaN()
		for _, e := range h.Edges(&r.Settled, &r.Layout) {
			if e.Edge.Side == layout.Front {
				step = e.WorstStepMM()
			}
		}
		front := r.Layout.DrainEdge.Add(r.Layout.Into.Mul(817))
		for what, v := range map[string][2]float64{
			"base": {h.BaseTopMM, c.base}, "tile": {h.TileMM, c.tile}, "edge": {h.ShowerAt(&r.Layout, front), c.edge},
			"room": {h.RoomAt(&r.Settled, front), c.room}, "step": {step, c.edge - c.room},
		} {
			if !(math.Abs(v[0]-v[1]) <= 1e-9) {
				t.Errorf("%s: %s %v, want %v", name, what, v[0], v[1])
			}
		}
	}
}
