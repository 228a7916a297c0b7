package trace

import (
	"fmt"

	"github.com/go-gl/gl/v3.3-core/gl"
	"github.com/go-gl/mathgl/mgl32"
)

// LitShader is for programs of others that light faces by a room's volume, without
// following light: it gives surfaceAt, lightOf and film. Who draws with it calls Light
// first.
func (a Abilities) LitShader() string { return define(a.Filters) + oneMaterial + litShader }

const litShader = surfaceShader + volumeShader + skyShader + glossShader + toneShader + mirrorShader + `
uniform sampler2D mirrorSeen;
uniform int mirrorStands;
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
		most = max(most, windowIn(w, p, toSun, 6.0, 0.018));
	}
	return most;
}

// How far along a ray from inside the room the box is, and which way it faces there.
float toBox(vec3 from, vec3 dir, out vec3 n) {
	vec3 p = vec3(from.x * boxTurn.x + from.y * boxTurn.y, from.y * boxTurn.x - from.x * boxTurn.y, from.z);
	vec3 d = vec3(dir.x * boxTurn.x + dir.y * boxTurn.y, dir.y * boxTurn.x - dir.x * boxTurn.y, dir.z);
	p = clamp(p, boxLow + 1.0, boxHigh - 1.0);
	vec3 t = (mix(boxLow, boxHigh, step(0.0, d)) - p) / (d + sign(d) * 1e-6 + 1e-9);
	float far = min(t.x, min(t.y, t.z));
	n = far == t.x ? vec3(-sign(d.x), 0.0, 0.0) : far == t.y ? vec3(0.0, -sign(d.y), 0.0) : vec3(0.0, 0.0, -sign(d.z));
	return far;
}

// What a face mirrors: the room as a box, lit by its volume, and its windows.
vec3 mirrored(vec3 from, vec3 dir, float rough) {
	vec3 n;
	float far = toBox(from, dir, n);
	vec3 base = n.z > 0.5 ? boxFloor : n.z < -0.5 ? vec3(0.8) : boxWall;
	n = vec3(n.x * boxTurn.x - n.y * boxTurn.y, n.x * boxTurn.y + n.y * boxTurn.x, n.z);
	vec3 c = base * volumeAt(from + dir * far, n);
	for (int k = 0; k < lampCount; k++) {
		Lamp w = lampAt(k);
		float there = windowIn(w, from, dir, 4.0, rough * rough);
		if (there > 0.0) c = mix(c, sky(dir), there);
	}
	return c;
}

// What a mirror shows: of the largest what was seen from before its middle, moved as if all stood at the box.
vec3 inMirror(vec3 from, vec3 face, vec3 dir) {
	if (mirrorStands < 1 || dot(face, mirrorAhead) < 0.99) return mirrored(from, dir, 0.0);
	vec3 n;
	vec3 d = normalize(from + dir * toBox(from, dir, n) - mirrorFrom);
	return textureLod(mirrorSeen, vec2(dot(d, mirrorU), dot(d, mirrorV)) / (1.0 + max(dot(d, mirrorAhead), 0.0)) * 0.5 + 0.5, 0.0).rgb;
}

// The light a face sends towards v. Shade is how much of the sun other things leave.
vec3 lightOf(Surface s, vec3 place, vec3 face, vec3 v, float shade) {
	if (SHEETS && s.kind == 2) return s.base;
	if (SHEETS && s.kind == 8) return skyShown(outlook(-v));
	if (SHEETS && s.kind == 3) return s.base * inMirror(place, face, reflect(-v, face));
	vec3 f0 = mix(vec3(0.04), s.base, s.metal);
	float nv = max(dot(s.normal, v), 0.02), ns = dot(s.normal, toSun);
	vec3 F = fresnel(f0, s.rough, nv);
	bool shines = SHINES && (s.metal > 0.5 || s.rough < 0.7 && (s.kind == 0 || s.kind == 5 || s.kind == 7));
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

// Class is what of LitShader the faces of a material have need of. A program of one class leaves the rest out, which
// costs time at every pixel wherever a driver works out both sides of a question, as those without a card do.
type Class struct {
	sheet   bool // glass, mirrors, what glows, the sky
	grown   bool // wood, cloth, leaves
	tiled   bool
	surface int8 // of tiles, as Tiling.Surface
	wet     bool
	shines  bool
}

// Class is the material's.
func (m Material) Class() Class {
	// A grain, a vein, the shade of a glaze may make a place glossier than the whole by so much.
	const matt = 0.9
	c := Class{tiled: m.Tiling.Bond > 0.5, wet: m.Wet > 0}
	switch m.Kind {
	case Glass, Glow, Mirror, Beyond:
		c.sheet = true
	case Wood, Cloth, Leaf:
		c.grown = true
	}
	if c.tiled {
		c.surface = int8(m.Tiling.Surface)
	}
	c.shines = m.Metal > 0.5 || c.wet || m.Roughness < matt && (m.Kind == Solid || c.grown)
	return c
}

// Define is what goes before LitShader in a program of the class.
func (c Class) Define() string {
	return fmt.Sprintf(`
#define SHEETS %t
#define GROWN %t
#define TILED %t
#define LAID %d.0
#define WET %t
#define SHINES %t
`, c.sheet, c.grown, c.tiled, c.surface, c.wet, c.shines)
}

// Box is a room as a plain box in a frame turned about the upright.
type Box struct {
	Low, High   mgl32.Vec3
	Cos, Sin    float32
	Wall, Floor mgl32.Vec3 // albedo
}

// Light tells a program with LitShader, by its handle, about a scene's sky and windows, the
// light of the room that a volume stands for, and the exposure. It uses texture units
// from first on, three of them, and leaves the program in use.
func (t *Tracer) Light(handle uint32, r, of *Room, box Box, e Exposure, first int) {
	p, known := t.lit[handle]
	if !known {
		p = program{handle, map[string]int32{}}
		t.lit[handle] = p
	}
	gl.UseProgram(handle)
	p.texels("lamps", first, r.lamps)
	p.texels("whole", first+1, of.light)
	stands := 0
	if m := of.mirror; m != nil && m.stands() {
		stands = 1
		m.tell(p)
		p.texture("mirrorSeen", first+2, gl.TEXTURE_2D, m.seen.textures[0])
	} else {
		p.texture("mirrorSeen", first+2, gl.TEXTURE_2D, 0)
	}
	p.whole("mirrorStands", stands)
	r.sky(p, len(r.scene.Windows))
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

// Face tells a program that Light told of the room which of its materials is drawn next.
func (t *Tracer) Face(handle uint32, r *Room, material int) {
	const numbers = 4 * texelsOfMaterial
	gl.Uniform4fv(t.lit[handle].place("ofMaterial"), texelsOfMaterial, &r.packed[numbers*material])
}

// Warm tells that the room's light stands, if roughly.
func (r *Room) Warm() bool { return r.warm }

// Mean is the mean light in the room; the one it was loaded with until it stands.
func (r *Room) Mean() mgl32.Vec3 { return r.mean }
