package measure_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The starting shower is 900 deep before the wall at y = 1900 and falls 1 in 50 to the
// drain there, whose tile's edge lies 83 off the wall (13 and 70); people stand from 300 off that wall on. With
// its base at 69 the tile at the drain is at 69 + 3 + 20 + 13 = 105; at y = 1600 it is
// 217 · 0.02 = 4.34 higher. Doorway 1 is in the wall at y = 0 and the floor there at 13.
func TestHeadroomByHand(t *testing.T) {
	const tile = 105.0
	for name, c := range map[string]struct {
		slopes               []job.Slope
		stand, door, ceiling float64
	}{
		// The front, at y = 1000, is 817 · 0.02 = 16.34 over the drain; people stand as far
		// as 300 before it, 10.34 over it.
		"level":             {nil, 2400 - tile - 10.34, 2400 - 13, 2400 - tile - 16.34},
		"over the wall":     {[]job.Slope{{Wall: 2, KneeMM: 1000, PitchDeg: 45}}, 1300 - tile - 4.34, 2400 - 13, 1000 - tile},
		"over the doorway":  {[]job.Slope{{Wall: 0, KneeMM: 1900, PitchDeg: 20}}, 1900 + 1300*math.Tan(math.Pi/9) - tile - 10.34, 1900 - 13, 0},
		"two, the lower is": {[]job.Slope{{Wall: 2, KneeMM: 1000, PitchDeg: 45}, {Wall: 2, KneeMM: 600, PitchDeg: 45}}, 900 - tile - 4.34, 2400 - 13, 600 - tile},
	} {
		j := job.New()
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 66
		j.Room.Slopes = c.slopes
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if name == "over the doorway" {
			c.stand, c.ceiling = math.Min(c.stand, 2400-tile-10.34), measured(r, "shower.ceiling", "shower")
		}
		for quantity, want := range map[string][2]any{"room.headroom": {"shower", c.stand}, "shower.ceiling": {"shower", c.ceiling}} {
			if got := measured(r, quantity, want[0].(string)); math.Abs(got-want[1].(float64)) > 0.01 {
				t.Errorf("%s: %s is %v, want %v", name, quantity, got, want[1])
			}
		}
		if got := measured(r, "room.headroom", "doorway 1"); math.Abs(got-c.door) > 1 {
			t.Errorf("%s: the doorway has %v, want %v", name, got, c.door)
		}
	}
	if r := geometry.Evaluate(job.New(), demotest.Packs(t)["UK"]); r.Layout.CeilingAt(plan.Point{1, 1}) != 2400 {
		t.Error("a room without slopes has a level ceiling")
	}
}
