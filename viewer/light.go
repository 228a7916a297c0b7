package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// halton is the i-th member of a low-discrepancy sequence in a base.
func halton(i, base int) float64 {
	f, out := 1.0, 0.0
	for ; i > 0; i /= base {
		f /= float64(base)
		out += f * float64(i%base)
	}
	return out
}

// spreadOut is the i-th of points that fill the unit square evenly however many
// are taken: Roberts' additive recurrence (2018), from an offset of its own.
func spreadOut(i int, offset float64) (x, y float64) {
	const a, b = 0.7548776662466927, 0.5698402909980532
	_, x = math.Modf(offset + a*float64(i))
	_, y = math.Modf(offset + b*float64(i))
	return x, y
}

// basis is two directions square to a third.
func basis(n mgl64.Vec3) (u, v mgl64.Vec3) {
	other := mgl64.Vec3{0, 0, 1}
	if math.Abs(n.Z()) > 0.9 {
		other = mgl64.Vec3{1, 0, 0}
	}
	u = other.Cross(n).Normalize()
	return u, n.Cross(u)
}

// sunAt is the direction to one place of the sun's disc, the middle for sample 0.
func sunAt(to mgl64.Vec3, spread float64, sample int) mgl64.Vec3 {
	if sample == 0 {
		return to
	}
	u, v := basis(to)
	x, y := spreadOut(sample, 0.5)
	s, c := math.Sincos(2 * math.Pi * y)
	radius := math.Sqrt(x) * spread
	return to.Add(u.Mul(radius * c)).Add(v.Mul(radius * s)).Normalize()
}
