package viewer

// Body faces: hemisphere and sun, with the joints of tiled faces laid by
// position so that they need no texture.
const bodyVertex = `#version 330 core
layout(location=0) in vec3 position;
layout(location=1) in vec3 normal;
uniform mat4 matrix;
uniform vec4 cut;
uniform mat4 sunMatrix;
out vec3 place;
out vec3 facing;
out vec4 inSun;
void main() {
	place = position;
	facing = normal;
	inSun = sunMatrix * vec4(position, 1.0);
	gl_ClipDistance[0] = -dot(cut, vec4(position, 1.0));
	gl_Position = matrix * vec4(position, 1.0);
}`

const bodyFragment = `#version 330 core
in vec3 place;
in vec3 facing;
in vec4 inSun;
uniform vec3 colour;
uniform vec3 eye;
uniform vec3 sun;
uniform float shadows;
uniform sampler2DShadow sunDepth;
uniform float gloss;
uniform vec4 tile;      // length, width, joint, on
uniform vec3 tileOrigin;
uniform vec3 tileU;
uniform vec3 tileV;
uniform vec3 grout;
uniform float flatLook;
uniform float chosen;
out vec4 result;

float chance(vec2 c) { return fract(sin(dot(c, vec2(12.9898, 78.233))) * 43758.5453); }

void main() {
	vec3 n = normalize(facing);
	if (!gl_FrontFacing) n = -n;
	vec3 base = colour;
	if (tile.w > 0.5) {
		vec3 q = place - tileOrigin;
		vec2 p = vec2(dot(q, tileU), dot(q, tileV));
		// Faces turned away from the tiling are the tile's edge.
		if (abs(dot(n, cross(tileU, tileV))) > 0.7) {
			vec2 size = tile.xy;
			vec2 cell = floor(p / size);
			vec2 within = p - cell * size;
			vec2 away = min(within, size - within);
			vec2 width = fwidth(p);
			vec2 half_ = vec2(tile.z * 0.5);
			vec2 cover = clamp((half_ + width * 0.5 - away) / max(width, vec2(1e-4)), 0.0, 1.0) * clamp(tile.z / max(width, vec2(1e-4)), 0.0, 1.0);
			float joint = max(cover.x, cover.y);
			base *= 0.93 + 0.14 * chance(cell);
			base = mix(base, grout, joint);
		}
	}
	float lit = max(dot(n, sun), 0.0);
	if (shadows > 0.5) {
		vec3 s = inSun.xyz / inSun.w * 0.5 + 0.5;
		s.z -= 0.0015;
		lit *= texture(sunDepth, s);
	}
	vec3 sky = mix(vec3(0.42, 0.40, 0.38), vec3(0.78, 0.82, 0.88), n.z * 0.5 + 0.5);
	vec3 toEye = normalize(eye - place);
	vec3 halfway = normalize(toEye + sun);
	float shine = gloss * pow(max(dot(n, halfway), 0.0), 60.0) * lit;
	float rim = gloss * 0.25 * pow(1.0 - max(dot(n, toEye), 0.0), 4.0);
	vec3 light = base * (sky * 0.62 + vec3(1.0, 0.96, 0.9) * 0.75 * lit) + shine + rim;
	light = mix(light, base * (0.75 + 0.25 * n.z), flatLook);
	light = mix(light, vec3(1.0, 0.62, 0.1), chosen * 0.35);
	result = vec4(pow(light / (1.0 + 0.12 * light), vec3(1.0 / 2.2)), 1.0);
}`

// Depth only, seen from the sun.
const sunVertex = `#version 330 core
layout(location=0) in vec3 position;
uniform mat4 matrix;
uniform vec4 cut;
void main() {
	gl_ClipDistance[0] = -dot(cut, vec4(position, 1.0));
	gl_Position = matrix * vec4(position, 1.0);
}`

const sunFragment = `#version 330 core
void main() {}`

// Lines are screen-space strips: both ends come with every corner.
const lineVertex = `#version 330 core
layout(location=0) in vec3 here;
layout(location=1) in vec3 there;
layout(location=2) in vec2 corner; // which end, which side
uniform mat4 matrix;
uniform vec4 cut;
uniform vec2 size;
uniform float widthPixels;
uniform float lift;
void main() {
	vec4 a = matrix * vec4(here, 1.0);
	vec4 b = matrix * vec4(there, 1.0);
	float near = 1e-3;
	if (a.w < near && b.w < near) { gl_Position = vec4(2.0, 2.0, 2.0, 1.0); gl_ClipDistance[0] = -1.0; return; }
	vec3 ha = here, hb = there;
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
	p.z -= lift * p.w;
	gl_ClipDistance[0] = -dot(cut, vec4(place, 1.0));
	gl_Position = p;
}`

const flatFragment = `#version 330 core
uniform vec4 ink;
out vec4 result;
void main() { result = ink; }`

// Cut faces in one flat colour.
const capVertex = `#version 330 core
layout(location=0) in vec3 position;
uniform mat4 matrix;
uniform float lift;
void main() {
	gl_Position = matrix * vec4(position, 1.0);
	gl_Position.z -= lift * gl_Position.w;
}`
