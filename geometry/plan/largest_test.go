package plan_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"underfall/geometry/plan"
)

// In a rectangle of 300 by 100 a square of 10 grows tenfold; in a right triangle with
// legs of 120 a square of s along the legs touches the long side where s + s = 120.
func TestLargestScaleByHand(t *testing.T) {
	square := plan.Ring{{-5, -5}, {5, -5}, {5, 5}, {-5, 5}}
	for want, ring := range map[float64]plan.Ring{
		10: {{0, 0}, {300, 0}, {300, 100}, {0, 100}},
		6:  {{0, 0}, {120, 0}, {0, 120}},
	} {
		if got := ring.LargestScale(square); math.Abs(got-want) > 1e-9 {
			t.Errorf("scale %v, want %v", got, want)
		}
	}
}

// In random convex rings no place of a fine grid holds a larger rectangle than that, and
// one a little smaller has a place.
func TestLargestScaleAgainstTrying(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 40 {
		var points []plan.Point
		for range 3 + rng.IntN(8) {
			points = append(points, plan.Point{rng.Float64() * 100, rng.Float64() * 100})
		}
		ring := plan.Hull(points)
		a, b := 5+rng.Float64()*20, 5+rng.Float64()*20
		shape := plan.Ring{{a, b}, {-a, b}, {-a, -b}, {a, -b}}
		got, tried := ring.LargestScale(shape), 0.0
		region := plan.FromRing(ring)
		for x := 0.0; x <= 100; x++ {
			for y := 0.0; y <= 100; y++ {
				for k := tried + 0.01; ; k += 0.01 {
					whole := true
					for _, s := range shape {
						whole = whole && region.Contains(plan.Point{x + k*s.X(), y + k*s.Y()}, 1e-9)
					}
					if !whole {
						break
					}
					tried = k
				}
			}
		}
		// Off the grid by half a step both ways a rectangle loses at most so much.
		if slack := 0.01 + 1.5/math.Min(a, b); tried > got+1e-6 || tried < got-slack {
			t.Errorf("ring %v: scale %v, by trying %v", ring, got, tried)
		}
	}
}
