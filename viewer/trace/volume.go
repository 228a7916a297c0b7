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
	walls     []segment
}

// segment is a wall in plan beside a corner that turns into the room: light does not come through it.
type segment [2]mgl32.Vec2

// faces are the sides of a place of the grid: +x, -x, +y, -y, +z, -z.
const faces = 6

const (
	spacingMM = 200
	insetMM   = 60 // of the outermost places from the walls
	mostWalls = 8  // as many as the shader has room for
	// Along an edge of a texture of three dimensions every driver has room for 256 places; six grids stand over each other.
	mostAlong, mostHigh = 256, 256 / faces
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
		v.count[k] = min(max(2, int(size/spacingMM)+1), [3]int{mostAlong, mostAlong, mostHigh}[k])
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
	v.walls = reentrant(outline)
	return v
}

// middle is that of the grid.
func (v *Volume) middle() (m mgl32.Vec3) {
	for k := range 3 {
		m[k] = v.low[k] + 0.5*v.step[k]*float32(v.count[k]-1)
	}
	return m
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

// reentrant are the walls beside the corners that turn into the room, those that light could be taken from behind of;
// the first where there are very many.
func reentrant(outline []mgl32.Vec2) (out []segment) {
	turn := float32(0)
	n := len(outline)
	for i, a := range outline {
		b := outline[(i+1)%n]
		turn += a[0]*b[1] - a[1]*b[0]
	}
	inward := func(i int) bool {
		a, b, c := outline[(i+n-1)%n], outline[i], outline[(i+1)%n]
		u, w := b.Sub(a), c.Sub(b)
		return (u[0]*w[1]-u[1]*w[0])*turn < 0
	}
	for i, a := range outline {
		next := (i + 1) % n
		if (inward(i) || inward(next)) && len(out) < mostWalls {
			out = append(out, segment{a, outline[next]})
		}
	}
	return out
}

// crossed tells on which side of a line from o to a a place b lies.
func crossed(o, a, b mgl32.Vec2) float32 {
	return (a[0]-o[0])*(b[1]-o[1]) - (a[1]-o[1])*(b[0]-o[0])
}

// reaches tells whether no wall stands between two places in plan, as the shader's does.
func (v *Volume) reaches(p, q mgl32.Vec3) bool {
	from, to := mgl32.Vec2{p[0], p[1]}, mgl32.Vec2{q[0], q[1]}
	for _, w := range v.walls {
		if crossed(from, to, w[0])*crossed(from, to, w[1]) <= 0 && crossed(w[0], w[1], from)*crossed(w[0], w[1], to) <= 0 {
			return false
		}
	}
	return true
}

// light is what was gathered on one face of a place.
type light struct {
	lamps, bounced mgl32.Vec3
	open           float32 // share of the rays that did not start inside of something
}

// A place lies inside of something where no more than so many of its rays do not begin there, and in the open from so many on.
const hiddenBelow, openFrom = 0.55, 0.85

// weight is what a place weighs of which such a share of the rays did not begin inside of something: all or nothing at one share
// would have chance decide.
func weight(open float32) float32 {
	const least = 1.0 / 64
	if w := min(1, (open-hiddenBelow)/(openFrom-hiddenBelow)); w > least {
		return w
	}
	return 0
}

// pack lays the volume out for the shader: of each place of the grid six texels
// with all of the light, or only the bounced, and the place's weight. Mean is that
// of all weighing places.
//
// Method: one pass of 1-2-1 along each axis among places that weigh takes the
// noise off.
func (v *Volume) pack(of []light) (whole, bounced []float32, mean mgl32.Vec3) {
	weighs := make([]float32, len(v.index))
	for g, i := range v.index {
		if i < 0 {
			continue
		}
		open := float32(0)
		for f := range faces {
			open += of[faces*i+f].open / faces
		}
		weighs[g] = weight(open)
	}
	values := make([][2]mgl32.Vec3, faces*len(v.index))
	for g, i := range v.index {
		if weighs[g] > 0 {
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
		w := weighs[g]
		n += w
		for f := range faces {
			a, b := values[faces*g+f][0], values[faces*g+f][1]
			whole, bounced = append(whole, a[0], a[1], a[2], w), append(bounced, b[0], b[1], b[2], w)
			mean = mean.Add(a.Mul(w / faces))
		}
	}
	if n > 0 {
		mean = mean.Mul(1 / n)
	}
	return whole, bounced, mean
}

// at is a place of the grid.
func (v *Volume) at(g int) mgl32.Vec3 { return v.places[v.index[g]] }

// smooth is one pass of 1-2-1 along an axis, not through walls.
func (v *Volume) smooth(values [][2]mgl32.Vec3, weighs []float32, stride, count int) [][2]mgl32.Vec3 {
	out := make([][2]mgl32.Vec3, len(values))
	for g := range weighs {
		if weighs[g] <= 0 {
			continue
		}
		var beside []int // the places that light is taken from
		for _, next := range [2]int{-1, 1} {
			k, o := g/stride%count+next, g+next*stride
			if k >= 0 && k < count && weighs[o] > 0 && v.reaches(v.at(g), v.at(o)) {
				beside = append(beside, o)
			}
		}
		for f := range faces {
			sum, w := values[faces*g+f], weighs[g]
			for c := range sum {
				sum[c] = sum[c].Mul(w)
			}
			for _, o := range beside {
				for c := range sum {
					sum[c] = sum[c].Add(values[faces*o+f][c].Mul(0.5 * weighs[o]))
				}
				w += 0.5 * weighs[o]
			}
			for c := range sum {
				out[faces*g+f][c] = sum[c].Mul(1 / w)
			}
		}
	}
	return out
}

// pathsFilter tells whether paths have the driver read between the places of a volume: without a card that takes longer
// where a path's neighbours end elsewhere.
func (a Abilities) pathsFilter() bool { return a.Filters && a.Computes }

// define goes before volumeShader: whether the driver reads between the places of a volume.
func define(filtered bool) string {
	if filtered {
		return "#define FILTERED\n"
	}
	return ""
}

// volumeShader reads the light of a volume at a place, for a face that looks along
// a normal: of the eight places round it those that weigh and that a line reaches.
// Where the driver reads between them, it does so once for each axis; beside a wall that
// light could be taken from behind of the eight are read one by one all the same.
const volumeShader = `
#ifdef FILTERED
#define VOLUME sampler3D
#else
#define VOLUME samplerBuffer
#endif
uniform VOLUME whole;        // with all of its light
uniform int volumeStands;    // 0 while there is none: then light is the mean
uniform vec3 volumeLow, volumeStep;
uniform ivec3 volumeCount;
uniform vec3 volumeMean;
uniform int wallCount;
uniform vec4 walls[8];

float crossed(vec2 o, vec2 a, vec2 b) { return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x); }
bool reaches(vec2 p, vec2 q) {
	for (int k = 0; k < wallCount; k++) {
		vec2 a = walls[k].xy, b = walls[k].zw;
		if (crossed(p, q, a) * crossed(p, q, b) <= 0.0 && crossed(a, b, p) * crossed(a, b, q) <= 0.0) return false;
	}
	return true;
}
#ifdef FILTERED
// A face of a place, its light with the weight taken out again; a is 0 where it weighs nothing.
vec4 placeOf(sampler3D volume, ivec3 g, int face) {
	float weighs = texelFetch(volume, g, 0).a;
	return vec4(texelFetch(volume, g + ivec3(0, 0, face * volumeCount.z), 0).rgb / max(weighs, 1e-4), weighs > 0.004 ? weighs : 0.0);
}
#else
vec4 placeOf(samplerBuffer volume, ivec3 g, int face) {
	return texelFetch(volume, 6 * (g.x + volumeCount.x * (g.y + volumeCount.y * g.z)) + face);
}
#endif
vec3 volumeLight(VOLUME volume, vec3 p, vec3 n) {
	vec3 c = clamp((p - volumeLow) / volumeStep, vec3(0.0), vec3(volumeCount - 1)), n2 = n * n;
	ivec3 face = ivec3(n.x > 0.0 ? 0 : 1, n.y > 0.0 ? 2 : 3, n.z > 0.0 ? 4 : 5);
#ifdef FILTERED
	vec3 size = vec3(volumeCount.xy, 6 * volumeCount.z), at = (c + 0.5) / size, slab = vec3(face * volumeCount.z) / size.z;
	vec4 y = textureLod(volume, at + vec3(0.0, 0.0, slab.y), 0.0);
	if (y.a < 0.99) { // no wall is near
		vec4 x = textureLod(volume, at + vec3(0.0, 0.0, slab.x), 0.0), z = textureLod(volume, at + vec3(0.0, 0.0, slab.z), 0.0);
		return x.a > 0.0 ? (n2.x * x.rgb + n2.y * y.rgb + n2.z * z.rgb) / x.a : volumeMean;
	}
#endif
	ivec3 i = min(ivec3(c), volumeCount - 2);
	vec3 f = c - vec3(i);
	vec4 sum = vec4(0.0);
	for (int k = 0; k < TIMES(8); k++) {
		ivec3 o = ivec3(k & 1, (k >> 1) & 1, k >> 2), g = i + o;
		vec3 w3 = mix(1.0 - f, f, vec3(o));
		float w = max(w3.x * w3.y * w3.z, 1e-5);
		vec4 x = placeOf(volume, g, face.x);
		if (x.a <= 0.0 || wallCount > 0 && !reaches(p.xy, volumeLow.xy + volumeStep.xy * vec2(g.xy))) continue;
		sum += w * x.a * vec4(n2.x * x.rgb + n2.y * placeOf(volume, g, face.y).rgb + n2.z * placeOf(volume, g, face.z).rgb, 1.0);
	}
	return sum.a > 0.0 ? sum.rgb / sum.a : volumeMean;
}
`

// beyondWeight is what a place outside the room, or inside of something, weighs in a grid that the driver reads
// between: beside places that weigh next to nothing, alone their mean.
const beyondWeight = 1.0 / 1024

// grid lays packed light out for a driver that reads between places: six grids over each other, one for each face, of
// light times weight. The weight itself stands in those of the faces along x, in those along y whether a wall is near.
func (v *Volume) grid(packed []float32) []float32 {
	n := len(v.index)
	out := make([]float32, 4*faces*n)
	near := v.nearWalls()
	for g := range n {
		var of []int // places that this one's light is the mean of
		weight := float32(beyondWeight)
		if w := packed[4*faces*g+3]; w > 0 {
			of, weight = []int{g}, w
		} else {
			of = v.weighingRound(g, packed)
		}
		for f := range faces {
			at := out[4*(f*n+g):]
			for _, o := range of {
				for k := range 3 {
					at[k] += packed[4*(faces*o+f)+k] * weight / float32(len(of))
				}
			}
			if len(of) > 0 {
				at[3] = weight
			}
			if f == 2 || f == 3 {
				at[3] = near[g%(v.count[0]*v.count[1])]
			}
		}
	}
	return out
}

// weighingRound are the places beside one, over corners too, that weigh.
func (v *Volume) weighingRound(g int, packed []float32) (out []int) {
	x, y, z := g%v.count[0], g/v.count[0]%v.count[1], g/(v.count[0]*v.count[1])
	for k := max(0, z-1); k <= min(z+1, v.count[2]-1); k++ {
		for j := max(0, y-1); j <= min(y+1, v.count[1]-1); j++ {
			for i := max(0, x-1); i <= min(x+1, v.count[0]-1); i++ {
				if o := i + v.count[0]*(j+v.count[1]*k); packed[4*faces*o+3] > 0 {
					out = append(out, o)
				}
			}
		}
	}
	return out
}

// nearWalls is 1 for the places in plan at the corners of squares of the grid that a wall passes through, beside a
// corner that turns into the room; 0 for others.
func (v *Volume) nearWalls() []float32 {
	out := make([]float32, v.count[0]*v.count[1])
	at := func(x, y int) mgl32.Vec2 {
		return mgl32.Vec2{v.low[0] + float32(x)*v.step[0], v.low[1] + float32(y)*v.step[1]}
	}
	for y := range v.count[1] - 1 {
		for x := range v.count[0] - 1 {
			for _, w := range v.walls {
				if w.passes(at(x, y), at(x+1, y+1)) {
					for _, c := range [4]int{0, 1, v.count[0], v.count[0] + 1} {
						out[x+v.count[0]*y+c] = 1
					}
				}
			}
		}
	}
	return out
}

// passes tells whether a wall passes through a rectangle or touches it.
func (s segment) passes(low, high mgl32.Vec2) bool {
	for k := range 2 {
		if max(s[0][k], s[1][k]) < low[k] || min(s[0][k], s[1][k]) > high[k] {
			return false
		}
	}
	over, under := false, false
	for _, c := range [4]mgl32.Vec2{low, high, {low[0], high[1]}, {high[0], low[1]}} {
		side := crossed(s[0], s[1], c)
		over, under = over || side >= 0, under || side <= 0
	}
	return over && under
}

// finite keeps what is no number, or less than nothing, out of a sum.
func finite(v float32) float32 {
	if f := float64(v); math.IsNaN(f) || math.IsInf(f, 0) || v < 0 {
		return 0
	}
	return v
}
