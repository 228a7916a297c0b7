package viewer

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Light is the time of day.
type Light int

// The lights.
const (
	LightDay     Light = iota // a large window, cool sky
	LightEvening              // a warm lamp over the shower
)

// lighting is a light set up for a scene, in linear light.
type lighting struct {
	key       mgl64.Vec3 // towards the key light
	spread    float64    // of its face, as a share of its distance
	keyColour mgl64.Vec3
	skyColour mgl64.Vec3
	// bounce is what comes from where the sky is hidden.
	bounce mgl64.Vec3
	spot   [4]float32
	lamp   float32 // brightness of what is mirrored overhead
}

// lighting sets a light up for a scene: by day from the open side, over the
// shoulder of who looks at the shower; in the evening from over it.
func (s *Scene) lighting(l Light) lighting {
	if l == LightEvening {
		return lighting{key: mgl64.Vec3{0.06, -0.05, 1}.Normalize(), spread: 0.30, keyColour: mgl64.Vec3{1.12, 0.94, 0.72}.Mul(1.35),
			skyColour: mgl64.Vec3{0.40, 0.345, 0.29}, bounce: mgl64.Vec3{0.27, 0.228, 0.186},
			spot: [4]float32{float32(s.centre[0]), float32(s.centre[1]), 0, 1250}, lamp: 2.2}
	}
	key := s.into.Mul(0.55).Add(s.openSide.Mul(0.42)).Add(mgl64.Vec3{0, 0, 0.95})
	return lighting{key: key.Normalize(), spread: 0.26, keyColour: mgl64.Vec3{1, 0.95, 0.87}.Mul(1.18),
		skyColour: mgl64.Vec3{0.33, 0.36, 0.41}, bounce: mgl64.Vec3{0.145, 0.137, 0.123}, lamp: 1.6}
}

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

// keyAt is the direction to one place of the key light's face.
func (l lighting) keyAt(sample int) mgl64.Vec3 {
	if sample == 0 {
		return l.key
	}
	u, v := basis(l.key)
	x, y := spreadOut(sample, 0.5)
	radius, angle := math.Sqrt(x)*l.spread, 2*math.Pi*y
	s, c := math.Sincos(angle)
	return l.key.Add(u.Mul(radius * c)).Add(v.Mul(radius * s)).Normalize()
}

// skyAt is one of the directions of the upper half-sphere, spread evenly.
func skyAt(sample int) mgl64.Vec3 {
	// From 3° above the horizon: a shadow map seen edge on shows nothing.
	x, y := spreadOut(sample, 0.13)
	z := 0.05 + 0.95*x
	r, angle := math.Sqrt(1-z*z), 2*math.Pi*y
	s, c := math.Sincos(angle)
	return mgl64.Vec3{r * c, r * s, z}
}

// virtual is a place lit by the key light that lights others in turn.
type virtual struct{ place, facing, colour mgl64.Vec3 }

// virtualLights are so many places the key light falls on in a sample.
const virtualLights = 4

// bounced finds the places by following rays of the key light into the scene.
func (f Frame) bounced(l lighting, key mgl64.Vec3, sample int) []virtual {
	b := f.Scene.floor
	centre := b.Centre()
	radius := b.High.Sub(b.Low).Len() / 2
	u, v := basis(key)
	var out []virtual
	for k := range virtualLights {
		n := sample*virtualLights + k + 1
		x, y := spreadOut(n, 0.71)
		r, angle := radius*math.Sqrt(x), 2*math.Pi*y
		s, c := math.Sincos(angle)
		from := centre.Add(key.Mul(6000)).Add(u.Mul(r * c)).Add(v.Mul(r * s))
		hit, ok := f.Scene.pickLit(f, from, key.Mul(-1), key)
		if !ok {
			continue
		}
		// Each stands for its share of the light that falls on the disc.
		power := radius * radius * 1e-6 * math.Pi / virtualLights
		colour := mgl64.Vec3{}
		for i := range 3 {
			colour[i] = float64(hit.colour[i]) * l.keyColour[i] * power / math.Pi
		}
		if l.spot[3] > 0 {
			dx, dy := hit.at.X()-float64(l.spot[0]), hit.at.Y()-float64(l.spot[1])
			colour = colour.Mul(1 / (1 + (dx*dx+dy*dy)/float64(l.spot[3]*l.spot[3])))
		}
		out = append(out, virtual{hit.at.Add(hit.facing.Mul(5)), hit.facing, colour})
	}
	return out
}
