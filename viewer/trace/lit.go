package trace

import (
	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl32"
)

// LitShader is for programs of others that light faces by a room's volume, without
// following light: it gives surfaceAt, lightOf and film. Who draws with it calls Light
// first.
const LitShader = surfaceShader + volumeShader + skyShader + glossShader + toneShader + `
uniform vec3 boxLow, boxHigh;  // what the room mirrors as, in its own frame
uniform vec2 boxTurn;          // cosine and sine of that frame
uniform vec3 boxWall, boxFloor;

vec3 volumeAt(vec3 p, vec3 n) { return volumeStands > 0 ? volumeLight(whole, p + n * 45.0, n) : volumeMean * (0.75 + 0.25 * n.z); }

// How much of a window is in a direction, with an edge as soft as is told by how it
// grows with the distance.
float windowIn(Lamp w, vec3 p, vec3 d, float least, float grows) {
	vec3 n = cross(w.u, w.v);
	float facing = dot(d, n), t = dot(w.centre - p, n) / facing;
	if (facing >= 0.0 || t <= 0.0) return 0.0;
	vec3 q = p + d * t - w.centre;
	float u = length(w.u), v = length(w.v), soft = least + grows * t;
	return smoothstep(soft, -soft, max(abs(dot(q, w.u)) / u - u, abs(dot(q, w.v)) / v - v));
}

float sunBy(vec3 p) {
	float most = 0.0;
	for (int k = 0; k < lampCount; k++) {
		Lamp w = lampAt(k);
		if (w.kind != 2) break; // windows come first
		most = max(most, windowIn(w, p, toSun, 6.0, 0.018));
	}
	return most;
}

// What a face mirrors: the room as a box, lit by its volume, and its windows.
vec3 mirrored(vec3 from, vec3 dir, float rough) {
	vec3 p = vec3(from.x * boxTurn.x + from.y * boxTurn.y, from.y * boxTurn.x - from.x * boxTurn.y, from.z);
	vec3 d = vec3(dir.x * boxTurn.x + dir.y * boxTurn.y, dir.y * boxTurn.x - dir.x * boxTurn.y, dir.z);
	p = clamp(p, boxLow + 1.0, boxHigh - 1.0);
	vec3 t = (mix(boxLow, boxHigh, step(0.0, d)) - p) / (d + sign(d) * 1e-6 + 1e-9);
	float far = min(t.x, min(t.y, t.z));
	vec3 n = far == t.x ? vec3(-sign(d.x), 0.0, 0.0) : far == t.y ? vec3(0.0, -sign(d.y), 0.0) : vec3(0.0, 0.0, -sign(d.z));
	vec3 base = n.z > 0.5 ? boxFloor : n.z < -0.5 ? vec3(0.8) : boxWall;
	n = vec3(n.x * boxTurn.x - n.y * boxTurn.y, n.x * boxTurn.y + n.y * boxTurn.x, n.z);
	vec3 c = base * volumeAt(from + dir * far, n);
	for (int k = 0; k < lampCount; k++) {
		Lamp w = lampAt(k);
		if (w.kind != 2) break;
		c = mix(c, sky(dir), windowIn(w, from, dir, 4.0, rough * rough));
	}
	return c;
}

// The light a face sends towards v. Shade is how much of the sun other things leave.
vec3 lightOf(Surface s, vec3 place, vec3 face, vec3 v, float shade) {
	if (s.kind == 2) return s.base;
	if (s.kind == 8) return skyShown(sky(-v));
	if (s.kind == 3) return s.base * mirrored(place, reflect(-v, face), 0.0);
	vec3 f0 = mix(vec3(0.04), s.base, s.metal);
	float nv = max(dot(s.normal, v), 0.02), ns = dot(s.normal, toSun);
	vec3 F = fresnel(f0, s.rough, nv);
	bool shines = s.metal > 0.5 || s.rough < 0.7 && (s.kind == 0 || s.kind == 5 || s.kind == 7);
	vec3 c = vec3(0.0);
	if (s.metal < 0.5) {
		vec3 light = volumeAt(place, s.normal);
		if (ns > 0.0 && shade > 0.0 && sun.x > 0.0) light += sun * (ns / 3.14159265 * shade * sunBy(place));
		c = s.base * s.open * light * (shines ? 1.0 - F : vec3(1.0));
	}
	if (shines) c += F * s.open * mirrored(place, reflect(-v, s.normal), s.rough);
	return c;
}
`

// Box is a room as a plain box in a frame turned about the upright.
type Box struct {
	Low, High   mgl32.Vec3
	Cos, Sin    float32
	Wall, Floor mgl32.Vec3 // albedo
}

// Light tells a program with LitShader about a scene's materials, sky and windows, the
// light of the room that a volume stands for, and the exposure. It uses texture units
// from first on, three of them, and leaves the program in use.
func (r *Room) Light(handle uint32, of *Room, box Box, e Exposure, first int) {
	p := program{handle, map[string]int32{}}
	gl.UseProgram(handle)
	p.texture("materials", first, gl.TEXTURE_BUFFER, r.materials.texture)
	p.texture("lamps", first+1, gl.TEXTURE_BUFFER, r.lamps.texture)
	p.texture("whole", first+2, gl.TEXTURE_BUFFER, of.light.texture)
	r.sky(p)
	of.stand(p)
	p.vec3("boxLow", box.Low)
	p.vec3("boxHigh", box.High)
	p.vec2("boxTurn", box.Cos, box.Sin)
	p.vec3("boxWall", box.Wall)
	p.vec3("boxFloor", box.Floor)
	p.number("exposure", e.Factor)
	p.vec3("white", e.White)
	gl.ActiveTexture(gl.TEXTURE0)
}

// Warm tells that the room's light stands, if roughly.
func (r *Room) Warm() bool { return r.warm }

// Mean is the mean light in the room; the one it was loaded with until it stands.
func (r *Room) Mean() mgl32.Vec3 { return r.mean }

// ToExpose is an exposure for a mean light, before a picture's own is known.
func ToExpose(mean mgl32.Vec3) Exposure {
	const albedo, middle = 0.5, 0.6
	return Exposure{float32(middle / (albedo*luminance(mean) + 1e-4)), mgl32.Vec3{1, 1, 1}}
}
