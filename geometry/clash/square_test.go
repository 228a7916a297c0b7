package clash

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
)

// Directions are parallel up to a thousand-millionth of a radian, however long
// they are.
func TestSquare(t *testing.T) {
	for _, length := range []float64{0.01, 1, 700} {
		for angle, want := range map[float64]bool{0: false, 0.98e-9: false, 1.05e-9: true, 0.3: true, math.Pi / 2: true, math.Pi - 0.98e-9: false, math.Pi - 1.05e-9: true} {
			u := mgl64.Vec3{length, 0, 0}
			v := mgl64.Vec3{3 * math.Cos(angle), 3 * math.Sin(angle), 0}
			n, ok := square(u, v)
			if ok != want || ok && n.Sub(mgl64.Vec3{0, 0, 1}).Len() > 1e-9 {
				t.Errorf("%v long, at %v: %v, %v", length, angle, n, ok)
			}
		}
	}
	if _, ok := square(mgl64.Vec3{}, mgl64.Vec3{1, 0, 0}); ok {
		t.Error("something is square to nothing")
	}
}
