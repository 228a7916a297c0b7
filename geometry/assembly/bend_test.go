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
		{"a little tighter than thick", 28.3, 28.5, math.Pi / 2, true},
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

// Where a bend is mitred, by hand. An arc of radius R that turns θ in 18 chords turns
// θ/18 between them. A fitting of radius r takes r·tan(θ/36) of a chord at either end on
// its inner side; a chord is 2R·sin(θ/36) long. A millimetre of radius kept on the inner
// side, an arc goes from R = (r + 1)/cos(θ/36) on: for 90° and 28.5 from 29.5/cos 2.5° =
// 29.528. One that is mitred turns φ = θ·17/18 between its first and its last chord.
// Sharper than tan(φ/2) = 2.5 none is: φ 136.4°, θ 144.4°.
func TestWhereBendsAreMitred(t *testing.T) {
	degree := math.Pi / 180
	for _, c := range []struct {
		radiusMM, turnDeg float64
		mitred            bool
	}{{29.54, 90, false}, {29.51, 90, true}, {1, 144, true}, {1, 145, false}, {1, 0.0001, false}, {1, 1, true}} {
		if got := len(unfolded(arc(c.radiusMM, c.turnDeg*degree), 28.5)) == 3; got != c.mitred {
			t.Errorf("a bend of %v over %v° is mitred: %v", c.radiusMM, c.turnDeg, got)
		}
	}
	// A flat one of radius 10: its first chord runs 2.5° off the line that comes
	// in, and meets the last one 9.5908 on.
	flat := arc(10, 90*degree)
	for i := range flat {
		flat[i][2] = 0
	}
	path := unfolded(flat, 28.5)
	if len(path) != 3 {
		t.Fatalf("%d corners", len(path))
	}
	for i, want := range []mgl64.Vec3{{9.58166 - 27.00604, 0.41834 - 1.17911, 0}, {9.58166, 0.41834, 0}, {9.58166 + 1.17911, 0.41834 + 27.00604, 0}} {
		if path[i].Sub(want).Len() > 1e-4 {
			t.Errorf("corner %d at %v, want %v", i, path[i], want)
		}
	}
	// Nothing to mitre, also where rounding makes the lengths along a line come out
	// as more than they are.
	straights := [][]mgl64.Vec3{{{0, 0, 0}, {10, 0, 0}}, {{0, 0, 0}, {10, 0, 0}, {20, 0, 0}}}
	over := 0
	for k := range 400 {
		s, c := math.Sincos(float64(k) / 60)
		u := mgl64.Vec3{c, s, 0.025}
		straight := []mgl64.Vec3{{0, 0, 0}, u.Mul(7), u.Mul(16)}
		if straight[1].Normalize().Dot(straight[2].Sub(straight[1]).Normalize()) > 1 {
			over++
		}
		straights = append(straights, straight)
	}
	if over == 0 {
		t.Error("no line here comes out as longer than it is")
	}
	for _, straight := range straights {
		if got := unfolded(straight, 28.5); len(got) != len(straight) || got[0] != straight[0] || got[len(got)-1] != straight[len(straight)-1] {
			t.Errorf("a straight %v comes out as %v", straight, got)
		}
	}
}
