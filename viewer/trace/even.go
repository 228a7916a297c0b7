package trace

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
)

// Even is the light on what stands in a room before it is followed, the same everywhere: a room that is a plain box, with the
// scene's windows, lamps and sky. Where nothing gives light it is zero.
//
// Method: an integrating sphere (common practice, no source). What comes in is spread over all faces, and is mirrored from
// one to the next: of a share r that they mirror, 1 + r + r² and so on reach them. What the sun lights itself is not among it.
func (s *Scene) Even(b Box) (light mgl32.Vec3) {
	size := b.High.Sub(b.Low)
	floor, walls := size[0]*size[1], 2*(size[0]+size[1])*size[2]
	area := 2*floor + walls
	for k := range 3 {
		mirrored := (b.Wall[k]*walls + (b.Floor[k]+ceilingAlbedo)*floor) / area
		light[k] = (s.flux()[k] + mirrored*s.sunlight()[k]) / (math.Pi * area * (1 - mirrored))
	}
	return light
}

// ceilingAlbedo is that of the ceiling of a plain box.
const ceilingAlbedo = 0.8

// flux is what windows, but for the sun, and lamps give to the room.
func (s *Scene) flux() (sum mgl32.Vec3) {
	for _, w := range s.Windows {
		// Upright, it takes in half the sky and half the ground.
		seen := s.Sky.Low.Add(s.Sky.High).Mul(0.25).Add(s.Sky.Ground.Mul(0.5 * groundSeen))
		sum = sum.Add(seen.Mul(math.Pi * w.area()))
	}
	for _, l := range s.Lamps {
		area, beam := 4*l.U.Cross(l.V).Len(), float32(2*math.Pi)/(l.Beam+2)
		if l.V == (mgl32.Vec3{}) {
			area, beam = 4*math.Pi*l.U.Dot(l.U), math.Pi
		}
		sum = sum.Add(l.Radiance.Mul(area * beam))
	}
	return sum
}

// groundSeen is how much of the ground's radiance is seen of it, as skyShader has it.
const groundSeen = 0.8

// sunlight is what the sun gives to the room by its windows.
func (s *Scene) sunlight() (sum mgl32.Vec3) {
	for _, w := range s.Windows {
		facing := max(0, -w.U.Cross(w.V).Normalize().Dot(s.Sky.ToSun))
		sum = sum.Add(s.Sky.Sun.Mul(facing * w.area()))
	}
	return sum
}

// area of a window.
func (w Window) area() float32 { return 4 * w.U.Cross(w.V).Len() }
