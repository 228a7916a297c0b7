package assembly

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/solid"
)

// arc is a bend's path: a quarter or less of a circle in steps.
func arc(radiusMM, turn float64) []mgl64.Vec3 {
	const steps = 18
	var path []mgl64.Vec3
	for k := range steps + 1 {
		s, c := math.Sincos(turn * float64(k) / steps)
		path = append(path, mgl64.Vec3{radiusMM * s, radiusMM * (1 - c), -0.02 * radiusMM * turn * float64(k) / steps})
	}
	return path
}

// A bend tighter than its fitting is thick came out folded over itself, and its
// section crossed itself; a wide one keeps its arc.
func TestTightBendsDoNotFold(t *testing.T) {
	for _, c := range []struct {
		name              string
		bendMM, outsideMM float64
		turn              float64
		mitred            bool
	}{
		{"wide", 45, 28.5, math.Pi / 2, false},
		{"tight", 10, 28.5, math.Pi / 2, true},
		{"very tight, large pipe", 5, 58.5, math.Pi / 2, true},
		{"tight, half as far", 10, 28.5, math.Pi / 4, true},
	} {
		folded := arc(c.bendMM, c.turn)
		path := unfolded(folded, c.outsideMM)
		if mitred := len(path) == 3; mitred != c.mitred {
			t.Errorf("%s: %d corners", c.name, len(path))
		}
		// The ends stay on the lines of the pipes that come in and go out.
		if d := math.Hypot(path[0].Y(), 0); d > 0.06*c.bendMM+0.06*c.outsideMM {
			t.Errorf("%s: comes in %v mm off", c.name, d)
		}
		crossing := func(path []mgl64.Vec3) (n int) {
			m := solid.Tube{Path: path, OutsideRadiusMM: c.outsideMM, InsideRadiusMM: c.outsideMM - 4}.Mesh()
			for z := -c.outsideMM + 1.3; z < c.outsideMM; z += 2 {
				r, err := m.Slice(solid.HorizontalCut(z))
				if err != nil {
					t.Fatalf("%s: %v", c.name, err)
				}
				for _, p := range r {
					if _, _, bad := p.Outer.CrossingEdges(); bad {
						n++
					}
				}
			}
			return n
		}
		if n := crossing(path); n > 0 {
			t.Errorf("%s: %d sections cross themselves", c.name, n)
		}
		if n := crossing(folded); c.mitred && n == 0 {
			t.Errorf("%s: as an arc it did not fold", c.name)
		}
	}
}
