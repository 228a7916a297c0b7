package measure_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The largest circle clear on the floor: of a bare room 2400 by 1900 as wide as it is deep;
// what stands along a wall takes its depth, and what stands in the middle leaves what is
// beside it. To a fifth of a millimetre, as the measurer looks for it.
func TestTurningCircleByHand(t *testing.T) {
	at := func(wall int, from, wide, deep float64) job.Fixture {
		return job.Fixture{Kind: job.FixtureCupboard, Wall: wall, OffsetMM: from, WidthMM: wide, DepthMM: deep, HeightMM: 900}
	}
	stack := []job.Stack{{At: plan.Point{1200, 950}, NominalMM: 100, OutsideMM: 100}}
	for name, c := range map[string]struct {
		fixtures []job.Fixture
		stacks   []job.Stack
		want     float64
	}{
		"bare":            {nil, nil, 1900},
		"along the front": {[]job.Fixture{at(0, 0, 2400, 500)}, nil, 1400},
		"both sides":      {[]job.Fixture{at(1, 0, 1900, 600), at(3, 0, 1900, 700)}, nil, 1100},
		// A circle of r in a corner that touches the walls x = 0, y = 0 and the stack:
		// (1200 − r)² + (950 − r)² = (r + 50)², or r² − 2·2200 r + 2 340 000 = 0.
		"a stack in the middle": {nil, stack, 2 * (2200 - math.Sqrt(2200*2200-2340000))},
	} {
		j := job.New()
		j.Accessible, j.Room.Fixtures, j.Room.Stacks = true, c.fixtures, c.stacks
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if got := measured(r, "room.turning-circle", "room-floor"); math.Abs(got-c.want) > 0.3 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
