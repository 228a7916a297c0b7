package trace

import (
	"math"

	"github.com/go-gl/mathgl/mgl32"
)

// Volume is the light inside a room: at each place of a grid what falls onto a
// white face towards each of six sides ("ambient cubes", McTaggart 2004). Places
// outside the room, or inside of something, weigh nothing.
type Volume struct {
	low, step mgl32.Vec3
	count     [3]int
	places    []mgl32.Vec3 // those inside the room, as they are baked
	index     []int        // of the grid's places among them; -1 for outside
	corners   []segment
}

// segment is a wall in plan at a corner that turns into the room: light does not
// come round it.
type segment [2]mgl32.Vec2

// faces are the sides of a place of the grid: +x, -x, +y, -y, +z, -z.
const faces = 6

const (
	spacingMM   = 200
	insetMM     = 60 // of the outermost places from the walls
	mostCorners = 8
)

// NewVolume lays the grid into a room: its outline in plan, in either direction
// round, from the floor to the highest of its ceiling, and the ceiling over a place,
// in mm.
func NewVolume(outline []mgl32.Vec2, floorMM, highestMM float32, ceilingMM func(x, y float32) float32) *Volume {
	v := &Volume{}
	low := mgl32.Vec3{outline[0][0], outline[0][1], floorMM}
	high := mgl32.Vec3{outline[0][0], outline[0][1], highestMM}
	for _, p := range outline {
		for k := range 2 {
			low[k], high[k] = min(low[k], p[k]), max(high[k], p[k])
		}
	}
	for k := range 3 {
		size := max(high[k]-low[k]-2*insetMM, 1)
		v.count[k] = max(2, int(size/spacingMM)+1)
		v.low[k], v.step[k] = low[k]+insetMM, size/float32(v.count[k]-1)
	}
	for z := range v.count[2] {
		for y := range v.count[1] {
			for x := range v.count[0] {
				p := v.low.Add(mgl32.Vec3{float32(x) * v.step[0], float32(y) * v.step[1], float32(z) * v.step[2]})
				if !inside(outline, mgl32.Vec2{p[0], p[1]}) || p[2] > ceilingMM(p[0], p[1])-insetMM/2 {
					v.index = append(v.index, -1)
					continue
				}
				v.index = append(v.index, len(v.places))
				v.places = append(v.places, p)
			}
		}
	}
	v.corners = reentrant(outline)
	return v
}

// inside tells whether a place lies in an outline: a line from it crosses it an odd
// number of times.
func inside(outline []mgl32.Vec2, p mgl32.Vec2) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			in = !in
		}
	}
	return in
}

// reentrant are the walls beside the corners that turn into the room, as far as
// two steps of the grid from them; the first corners where there are very many.
func reentrant(outline []mgl32.Vec2) (out []segment) {
	turn := float32(0)
	n := len(outline)
	for i, a := range outline {
		b := outline[(i+1)%n]
		turn += a[0]*b[1] - a[1]*b[0]
	}
	for i, b := range outline {
		a, c := outline[(i+n-1)%n], outline[(i+1)%n]
		u, w := b.Sub(a), c.Sub(b)
		if (u[0]*w[1]-u[1]*w[0])*turn >= 0 || len(out)+2 > mostCorners {
			continue
		}
		for _, end := range []mgl32.Vec2{a, c} {
			along := end.Sub(b)
			if l := along.Len(); l > 2*spacingMM {
				along = along.Mul(2 * spacingMM / l)
			}
			out = append(out, segment{b, b.Add(along)})
		}
	}
	return out
}

// light is what was gathered on one face of a place.
type light struct {
	lamps, bounced mgl32.Vec3
	open           float32 // share of the rays that did not start inside of something
}

// fewestOpen is the share of rays below which a place lies inside of something.
const fewestOpen = 0.7

// pack lays the volume out for the shader: of each place of the grid six texels
// with all of the light, or only the bounced, and the place's weight. Mean is that
// of all weighing places.
//
// Method: one pass of 1-2-1 along each axis among places that weigh takes the
// noise off.
func (v *Volume) pack(of []light) (whole, bounced []float32, mean mgl32.Vec3) {
	weighs := make([]bool, len(v.index))
	for g, i := range v.index {
		if i < 0 {
			continue
		}
		open := float32(0)
		for f := range faces {
			open += of[faces*i+f].open / faces
		}
		weighs[g] = open >= fewestOpen
	}
	values := make([][2]mgl32.Vec3, faces*len(v.index))
	for g, i := range v.index {
		if weighs[g] {
			for f := range faces {
				l := of[faces*i+f]
				values[faces*g+f] = [2]mgl32.Vec3{l.lamps.Add(l.bounced), l.bounced}
			}
		}
	}
	stride := 1
	for k := range 3 {
		values = v.smooth(values, weighs, stride, v.count[k])
		stride *= v.count[k]
	}
	n := float32(0)
	for g := range v.index {
		w := float32(0)
		if weighs[g] {
			w = 1
			n++
		}
		for f := range faces {
			a, b := values[faces*g+f][0], values[faces*g+f][1]
			whole, bounced = append(whole, a[0], a[1], a[2], w), append(bounced, b[0], b[1], b[2], w)
			mean = mean.Add(a.Mul(1.0 / faces))
		}
	}
	if n > 0 {
		mean = mean.Mul(1 / n)
	}
	return whole, bounced, mean
}

// smooth is one pass of 1-2-1 along an axis.
func (v *Volume) smooth(values [][2]mgl32.Vec3, weighs []bool, stride, count int) [][2]mgl32.Vec3 {
	out := make([][2]mgl32.Vec3, len(values))
	for g := range weighs {
		if !weighs[g] {
			continue
		}
		at := g / stride % count
		for f := range faces {
			sum, w := values[faces*g+f], float32(1)
			for _, next := range [2]int{-1, 1} {
				if k := at + next; k >= 0 && k < count && weighs[g+next*stride] {
					o := values[faces*(g+next*stride)+f]
					for c := range sum {
						sum[c] = sum[c].Add(o[c].Mul(0.5))
					}
					w += 0.5
				}
			}
			for c := range sum {
				out[faces*g+f][c] = sum[c].Mul(1 / w)
			}
		}
	}
	return out
}

// volumeShader reads the light of a volume at a place, for a face that looks along
// a normal: of the eight places round it those that weigh and that a line reaches.
const volumeShader = `
uniform samplerBuffer whole; // with all of its light
uniform int volumeStands;    // 0 while there is none: then light is the mean
uniform vec3 volumeLow, volumeStep;
uniform ivec3 volumeCount;
uniform vec3 volumeMean;
uniform int cornerCount;
uniform vec4 corners[8];

float crossed(vec2 o, vec2 a, vec2 b) { return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x); }
bool reaches(vec2 p, vec2 q) {
	for (int k = 0; k < cornerCount; k++) {
		vec2 a = corners[k].xy, b = corners[k].zw;
		if (crossed(p, q, a) * crossed(p, q, b) <= 0.0 && crossed(a, b, p) * crossed(a, b, q) <= 0.0) return false;
	}
	return true;
}
vec3 volumeLight(samplerBuffer volume, vec3 p, vec3 n) {
	vec3 c = clamp((p - volumeLow) / volumeStep, vec3(0.0), vec3(volumeCount - 1));
	ivec3 i = min(ivec3(c), volumeCount - 2);
	vec3 f = c - vec3(i), n2 = n * n;
	ivec3 face = ivec3(n.x > 0.0 ? 0 : 1, n.y > 0.0 ? 2 : 3, n.z > 0.0 ? 4 : 5);
	vec4 sum = vec4(0.0);
	for (int k = 0; k < 8; k++) {
		ivec3 o = ivec3(k & 1, (k >> 1) & 1, k >> 2), g = i + o;
		vec3 w3 = mix(1.0 - f, f, vec3(o));
		float w = max(w3.x * w3.y * w3.z, 1e-5);
		int at = 6 * (g.x + volumeCount.x * (g.y + volumeCount.y * g.z));
		vec4 x = texelFetch(volume, at + face.x);
		if (x.a <= 0.0 || cornerCount > 0 && !reaches(p.xy, volumeLow.xy + volumeStep.xy * vec2(g.xy))) continue;
		sum += w * vec4(n2.x * x.rgb + n2.y * texelFetch(volume, at + face.y).rgb + n2.z * texelFetch(volume, at + face.z).rgb, 1.0);
	}
	return sum.a > 0.0 ? sum.rgb / sum.a : volumeMean;
}
`

// finite keeps what is no number, or less than nothing, out of a sum.
func finite(v float32) float32 {
	if f := float64(v); math.IsNaN(f) || math.IsInf(f, 0) || v < 0 {
		return 0
	}
	return v
}
