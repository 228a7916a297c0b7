package measure_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/measure"
)

// The starting job by hand. Its room is 2400 by 1900, with a doorway of 760; the shower
// 1400 by 900 in its back left corner, open at the right and at the front. Along the back
// the floor is at 108 and the walls are tanked 2200 over that; along the left wall it is
// so for 83 and then rises by 16.34 over 817.
func TestSealingByHand(t *testing.T) {
	const wallsMM2 = 1400*2200 + 83*2200 + 817*(2200-8.17)
	beyond := 300.0
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   measure.Sealing
	}{
		"as it begins": {func(*job.Job) {}, measure.Sealing{TankedFloorMM2: 2400 * 1900, TankedWallMM2: wallsMM2,
			TapeFloorMM: 2*(2400+1900) - 760, TapeCornersMM: 2200, TapeEdgesMM: 1400 + 900, Collars: 1, FieldMM: 2400}},
		// A finish that stays is not tanked; the shower's own floor is.
		"beside a finish that stays": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 10, Out: job.OutShower}}
		}, measure.Sealing{TankedFloorMM2: 1400 * 900, TankedWallMM2: wallsMM2, TapeFloorMM: 1400 + 900, TapeCornersMM: 2200, TapeEdgesMM: 2300, Collars: 1, FieldMM: 1400}},
		// 300 out the tanking meets 300 of the back wall and 300 of the left one, and the walls
		// are tanked to 1000: 1200 less of 2300 mm of them.
		"as far as stated": {func(j *job.Job) {
			j.Layers.Tanking = &job.Tanking{WallToMM: 1000, BeyondMM: &beyond}
		}, measure.Sealing{TankedFloorMM2: 1400*900 + 780000, TankedWallMM2: wallsMM2 - 1200*2300, TapeFloorMM: 2300 + 600, TapeCornersMM: 1000, TapeEdgesMM: 2300, Collars: 1, FieldMM: 2400}},
		// No field longer than 1000: across the shower one joint of 900; across the rest two
		// at x = 800, 1000 long, and 1600, 1900 long, and one at y = 950, 2400 long.
		"jointed": {func(j *job.Job) {
			j.Layers.Joints = &job.Joints{PerimeterMM: 8, AtEdge: true, GreatestFieldMM: 1000}
		}, measure.Sealing{TankedFloorMM2: 2400 * 1900, TankedWallMM2: wallsMM2, TapeFloorMM: 7840, TapeCornersMM: 2200, TapeEdgesMM: 2300, Collars: 1,
			JointMM: 8, SealantFloorMM: 8600, SealantCornersMM: 2200, SealantEdgesMM: 2300, SealantFieldsMM: 900 + 1000 + 1900 + 2400, FieldMM: 950}},
	} {
		j := job.New()
		c.change(&j)
		got := measure.SealingOf(levelled(t, j))
		for what, v := range map[string][2]float64{
			"floor tanked": {got.TankedFloorMM2, c.want.TankedFloorMM2}, "walls tanked": {got.TankedWallMM2, c.want.TankedWallMM2},
			"tape at the floor": {got.TapeFloorMM, c.want.TapeFloorMM}, "tape in corners": {got.TapeCornersMM, c.want.TapeCornersMM}, "tape at edges": {got.TapeEdgesMM, c.want.TapeEdgesMM},
			"collars": {float64(got.Collars), float64(c.want.Collars)}, "gap": {got.JointMM, c.want.JointMM}, "sealant at the floor": {got.SealantFloorMM, c.want.SealantFloorMM},
			"sealant in corners": {got.SealantCornersMM, c.want.SealantCornersMM}, "sealant at edges": {got.SealantEdgesMM, c.want.SealantEdgesMM},
			"sealant across": {got.SealantFieldsMM, c.want.SealantFieldsMM}, "longest field": {got.FieldMM, c.want.FieldMM},
		} {
			if !(math.Abs(v[0]-v[1]) <= 1e-6*math.Max(1, v[1])) {
				t.Errorf("%s: %s %v, want %v", name, what, v[0], v[1])
			}
		}
	}
}

// A stop at the doorway of a floor that falls as a whole holds the water so much higher.
func TestWaterStopHoldsWater(t *testing.T) {
	j := job.New()
	j.Former.Fall = job.FallRoom
	plain := measure.WaterOf(levelled(t, j)).Reserve
	j.Layers.Tanking = &job.Tanking{DoorStopMM: 12}
	if got := measure.WaterOf(levelled(t, j)).Reserve; math.Abs(got.SpillMM-plain.SpillMM-12) > 1e-9 || got.Litres <= plain.Litres {
		t.Errorf("water runs over at %v and %v l are held, without a stop at %v and %v l", got.SpillMM, got.Litres, plain.SpillMM, plain.Litres)
	}
}
