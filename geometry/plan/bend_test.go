package plan_test

import (
	"math"
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// A square whose upper corners lie a hair under the sloping edge of another shape, by the
// grid: what is left is one outline that goes through them, not a strip a hair thin. By
// hand: 1000 wide and from 1000 to 1001 high are 1 000 500 mm², less 100 × 100.
func TestNoHairAlongAnEdge(t *testing.T) {
	room := plan.FromRing(plan.Ring{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1001}})
	top := func(x, below float64) float64 { return 1001 - x/1000 - below }
	for name, below := range map[string]float64{"on it": 0, "half a step under": 5e-5, "half a step over": -5e-5, "a step and a third under": 1.3e-4} {
		shower := plan.FromRing(plan.Ring{{300.3, top(300.3, below) - 100}, {400.3, top(400.3, below) - 100}, {400.3, top(400.3, below)}, {300.3, top(300.3, below)}})
		sh := &plan.Shaper{}
		rest := sh.Subtract(room, shower, message.Of("shape.room-floor"))
		if err := sh.Err(); err != nil || len(rest) != 1 || len(rest[0].Holes) != 0 || math.Abs(rest.Area()-990500) > 0.3 {
			t.Errorf("%s: %v, %v mm² in %d parts", name, err, rest.Area(), len(rest))
		}
		both := sh.Union(rest, shower, message.Of("shape.room-floor"))
		if err := sh.Err(); err != nil || len(both) != 1 || len(both[0].Holes) != 0 || math.Abs(both.Area()-1000500) > 0.3 {
			t.Errorf("%s: joined again %v, %v mm² in %d parts", name, err, both.Area(), len(both))
		}
	}
	// What lies clearly off the edge leaves its strip.
	for _, below := range []float64{0.001, 0.5} {
		shower := plan.FromRing(plan.Ring{{300.3, top(300.3, below) - 100}, {400.3, top(400.3, below) - 100}, {400.3, top(400.3, below)}, {300.3, top(300.3, below)}})
		sh := &plan.Shaper{}
		if rest := sh.Subtract(room, shower, message.Of("shape.room-floor")); sh.Err() != nil || len(rest) != 1 || len(rest[0].Holes) != 1 {
			t.Errorf("%v under: %v", below, rest)
		}
	}
}
