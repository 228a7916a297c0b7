package measure_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// An existing pipe's end under a joist: the joists' underside lies at −22 − 220, the
// crown of a pipe of 50 with a wall of 2 lies 48 over its invert. Half a millimetre
// under the joist it is clear; half a millimetre in, its middle under the joist's, it
// would have to go aside by half of 47, by 25 and by the room of 3.
func TestPipeEndUnderAJoist(t *testing.T) {
	for level, want := range map[float64]float64{-290.5: 0, -289.5: 23.5 + 25 + 3} {
		j := demotest.Rooms(t)[2].Job.Clone()
		js := geometry.Evaluate(j, demotest.Packs(t)["UK"]).Layout.Joists[3]
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: js.Origin.Add(js.Along.Mul(400)), Level: job.Exactly(level), NominalMM: 50}
		j.Waste.Waypoints = []plan.Point{{400, 1932}}
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		if got := measured(r, "exit.in-joist", "existing-pipe-end"); !(math.Abs(got-want) <= 1e-6) {
			t.Errorf("invert at %v: %v, want %v", level, got, want)
		}
	}
}
