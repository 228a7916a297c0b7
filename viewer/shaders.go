package viewer

import "underfall/viewer/trace"

// Shaders work in linear light and millimetres. What they give is as bright as it is
// shown; it is coded for the screen last, so that samples of one picture can be added
// up before.

// bodyVertex places a face, lifted when the build is drawn apart.
const bodyVertex = `#version 330 core
layout(location=0) in vec3 position;
layout(location=1) in vec3 normal;
uniform mat4 matrix;
uniform mat4 keyMatrix;
uniform vec4 cutA;
uniform vec4 cutB;
uniform float lift;
out vec3 place;
out vec3 lifted;
out vec3 facing;
out vec3 inKey;
invariant gl_Position;
void main() {
	place = position;
	facing = normal;
	lifted = position + vec3(0.0, 0.0, lift);
	// A little off the face, so that it does not shade itself.
	inKey = (keyMatrix * vec4(lifted + normal * 7.0, 1.0)).xyz * 0.5 + 0.5;
	gl_ClipDistance[0] = dot(cutA, vec4(position, 1.0));
	gl_ClipDistance[1] = dot(cutB, vec4(position, 1.0));
	gl_Position = matrix * vec4(lifted, 1.0);
}`

// bodyFragment lights a face by the volume of its room and by the sun where it comes in
// by a window, with the shadows of other things; or shows it flat.
func bodyFragment(able trace.Abilities) string { return shaderVersion + bodyOfClass(able) }

// bodyFragmentOf is bodyFragment for materials of one class, not coloured by their height.
func bodyFragmentOf(c trace.Class, able trace.Abilities) string {
	return shaderVersion + "#define HEIGHTS false\n" + c.Define() + bodyOfClass(able)
}

const shaderVersion = "#version 330 core\n"

func bodyOfClass(able trace.Abilities) string { return bodyInputs + able.LitShader() + bodyLit }

const bodyInputs = `
#ifndef HEIGHTS
#define HEIGHTS true
#endif
in vec3 place;
in vec3 lifted;
in vec3 facing;
in vec3 inKey;
uniform float alpha;
uniform vec3 eye;
uniform float flatLook;
uniform vec4 paper;      // what lies behind a technical cut fades towards it
uniform float chosen;
uniform vec4 relief;     // level of the drain, span, on, spacing of contours
uniform vec3 heightColours[5];
uniform sampler2DShadow keyMap;
uniform float keyOn;
out vec4 result;
`

const bodyLit = `
vec3 heightColour(float t) {
	t = clamp(t, 0.0, 1.0) * 4.0;
	int k = int(min(floor(t), 3.0));
	return mix(heightColours[k], heightColours[k + 1], t - float(k));
}

vec3 heights() {
	float z = place.z - relief.x;
	vec3 c = heightColour(z / max(1e-3, relief.y));
	// What lies under the lowest or over the highest is none of the legend's heights.
	c = mix(c, vec3(0.40), step(1.0, max(-z, z - relief.y)));
	float w = fwidth(z);
	float line = 0.0;
	for (int k = 0; k < 2; k++) {
		float every = relief.w * (k == 0 ? 1.0 : 5.0);
		float off = abs(fract(z / every - 0.5) - 0.5) * every;
		line = max(line, (k == 0 ? 0.35 : 0.8) * (1.0 - smoothstep(0.0, 1.2 * max(w, 1e-5), off)));
	}
	return mix(c, vec3(0.02), line * step(1e-6, w));
}

float sunShade() {
	if (keyOn < 0.5) return 1.0;
	vec3 at = inKey - vec3(0.0, 0.0, 0.0009);
	vec2 a = vec2(1.4, 0.5) / 1024.0, b = vec2(-a.y, a.x);
	return 0.25 * (texture(keyMap, at + vec3(a, 0.0)) + texture(keyMap, at - vec3(a, 0.0)) + texture(keyMap, at + vec3(b, 0.0)) + texture(keyMap, at - vec3(b, 0.0)));
}

void main() {
	vec3 n = normalize(facing), v = normalize(eye - lifted);
	if (dot(n, v) < 0.0) n = -n;
	float pixel = 0.7 * max(length(dFdx(place)), length(dFdy(place)));
	Surface s = surfaceAt(0, place, n, pixel, false);
	vec3 c;
	float a = alpha;
	if (flatLook > 0.5) c = mix(s.base * (0.78 + 0.22 * n.z), paper.rgb, paper.a);
	else if (SHEETS && s.kind == 1) {
		float mirroring = glassFresnel(abs(dot(n, v)));
		a = mirroring + 0.05;
		c = film(mirrored(lifted, reflect(-v, n), 0.0) * mirroring / a);
	} else {
		float shade = dot(n, toSun) > 0.0 ? sunShade() : 0.0;
		if (HEIGHTS && relief.z > 0.5) {
			// Their colours are a legend's: light only shapes them.
			s.base = vec3(1.0); s.rough = 1.0; s.metal = 0.0; s.normal = n; s.open = 1.0;
			c = heights() * (0.55 + 0.5 * film(lightOf(s, lifted, n, v, shade)).g);
		} else c = film(lightOf(s, lifted, n, v, shade));
	}
	c = mix(c, vec3(0.88, 0.42, 0.10), chosen * 0.42);
	result = vec4(c * a, a);
}`

// shadowVertex gives depth only, seen from a light.
const shadowVertex = `#version 330 core
layout(location=0) in vec3 position;
uniform mat4 matrix;
uniform vec4 cutA;
uniform vec4 cutB;
uniform float lift;
invariant gl_Position;
void main() {
	vec4 world = vec4(position + vec3(0.0, 0.0, lift), 1.0);
	gl_ClipDistance[0] = dot(cutA, vec4(position, 1.0));
	gl_ClipDistance[1] = dot(cutB, vec4(position, 1.0));
	gl_Position = matrix * world;
}`

const shadowFragment = `#version 330 core
void main() {}`

// lineVertex makes screen-space strips: both ends come with every corner.
const lineVertex = `#version 330 core
layout(location=0) in vec3 from;
layout(location=1) in vec3 to;
layout(location=2) in vec2 corner; // which end, which side
uniform mat4 matrix;
uniform vec4 cutA;
uniform vec4 cutB;
uniform vec2 size;
uniform float widthPixels;
uniform float nearer;
uniform float lift;
void main() {
	vec3 up = vec3(0.0, 0.0, lift);
	vec4 a = matrix * vec4(from + up, 1.0);
	vec4 b = matrix * vec4(to + up, 1.0);
	float near = 1e-3;
	gl_ClipDistance[0] = -1.0;
	gl_ClipDistance[1] = -1.0;
	if (a.w < near && b.w < near) { gl_Position = vec4(2.0, 2.0, 2.0, 1.0); return; }
	vec3 ha = from, hb = to;
	if (a.w < near) { float t = (near - a.w) / (b.w - a.w); a = mix(a, b, t); ha = mix(ha, hb, t); }
	if (b.w < near) { float t = (near - b.w) / (a.w - b.w); b = mix(b, a, t); hb = mix(hb, ha, t); }
	vec2 pa = a.xy / a.w * size, pb = b.xy / b.w * size;
	vec2 d = pb - pa;
	float l = length(d);
	d = l > 1e-5 ? d / l : vec2(1.0, 0.0);
	vec2 off = vec2(-d.y, d.x) * corner.y * widthPixels;
	vec4 p = corner.x < 0.5 ? a : b;
	vec3 place = corner.x < 0.5 ? ha : hb;
	p.xy += off / size * p.w;
	p.z -= nearer * p.w;
	gl_ClipDistance[0] = dot(cutA, vec4(place, 1.0));
	gl_ClipDistance[1] = dot(cutB, vec4(place, 1.0));
	gl_Position = p;
}`

const inkFragment = `#version 330 core
uniform vec4 ink;
out vec4 result;
void main() { result = vec4(ink.rgb * ink.a, ink.a); }`

// capVertex is for cut faces in one flat colour.
const capVertex = `#version 330 core
layout(location=0) in vec3 position;
uniform mat4 matrix;
uniform float nearer;
uniform float lift;
void main() {
	gl_Position = matrix * vec4(position + vec3(0.0, 0.0, lift), 1.0);
	gl_Position.z -= nearer * gl_Position.w;
}`

// sheetVertex covers the whole picture with one triangle.
const sheetVertex = `#version 330 core
out vec2 at;
void main() {
	at = vec2(gl_VertexID == 1 ? 2.0 : 0.0, gl_VertexID == 2 ? 2.0 : 0.0);
	gl_Position = vec4(at * 2.0 - 1.0, 0.0, 1.0);
}`

// addFragment copies a sample, to be added to the sum by blending, or adds it to the sum before where there
// is more of it.
const addFragment = `#version 330 core
in vec2 at;
uniform sampler2D picture, before;
uniform float more;
out vec4 result;
void main() {
	result = texture(picture, at);
	if (more > 0.5) result += texture(before, at);
}`

// toneFragment codes the mean of the samples for the screen. The picture is turned
// over: images have their first row on top.
const toneFragment = `#version 330 core
in vec2 at;
uniform sampler2D picture;
uniform float samples;
out vec4 result;
void main() {
	vec4 c = texture(picture, vec2(at.x, 1.0 - at.y)) / samples;
	vec3 x = c.a > 0.0 ? c.rgb / c.a : vec3(0.0);
	result = vec4(pow(clamp(x, 0.0, 1.0), vec3(1.0 / 2.2)) * c.a, c.a);
}`
