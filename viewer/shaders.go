package viewer

// Shaders work in linear light and millimetres. Samples of one picture are
// added up in linear light; toning to the screen comes last, so inks that must
// come out exactly are toned backwards first.

// bodyVertex places a face, lifted when the build is drawn apart.
const bodyVertex = `#version 330 core
layout(location=0) in vec3 position;
layout(location=1) in vec3 normal;
uniform mat4 matrix;
uniform mat4 keyMatrix;
uniform mat4 skyMatrix;
uniform vec4 cutA;
uniform vec4 cutB;
uniform float lift;
out vec3 place;
out vec3 facing;
out vec3 inKey;
out vec3 inSky;
invariant gl_Position;
void main() {
	place = position;
	facing = normal;
	vec4 world = vec4(position + vec3(0.0, 0.0, lift), 1.0);
	// A little off the face, so that it does not shade itself.
	vec4 off = world + vec4(normal * 7.0, 0.0);
	inKey = (keyMatrix * off).xyz * 0.5 + 0.5;
	inSky = (skyMatrix * off).xyz * 0.5 + 0.5;
	gl_ClipDistance[0] = dot(cutA, vec4(position, 1.0));
	gl_ClipDistance[1] = dot(cutB, vec4(position, 1.0));
	gl_Position = matrix * world;
}`

// tileShader lays tiles by position, so that no texture is needed and joints
// stay sharp at any distance.
const tileShader = `
uniform vec4 tile;       // length, width, joint, bond; bond 0 for no tiles
uniform vec3 tileOrigin;
uniform vec3 tileU;
uniform vec3 tileV;
uniform vec3 grout;
uniform float surface;   // 0 plain, 1 stone, 2 terrazzo

float chance(vec2 c) { return fract(sin(dot(c, vec2(12.9898, 78.233))) * 43758.5453); }
vec2 chance2(vec2 c) { return vec2(chance(c), chance(c + 17.31)); }

float noise(vec2 p) {
	vec2 i = floor(p), f = fract(p);
	f = f * f * (3.0 - 2.0 * f);
	return mix(mix(chance(i), chance(i + vec2(1, 0)), f.x), mix(chance(i + vec2(0, 1)), chance(i + vec2(1, 1)), f.x), f.y);
}
float cloud(vec2 p) {
	float s = 0.0, a = 0.5;
	for (int k = 0; k < 5; k++) { s += a * noise(p); p = p * 2.03 + 11.7; a *= 0.5; }
	return s;
}

// The tile a place lies on: its number, the place within it, the distance to
// the middle of the nearest joint and the direction there.
void findTile(vec2 p, out vec2 cell, out vec2 within, out float edge, out vec2 outward) {
	vec2 size = tile.xy;
	if (tile.w > 4.5) { // hexagons, flat to flat as wide as the tile is long
		float f = size.x;
		vec2 r = vec2(f, f * 1.7320508);
		vec2 a = mod(p, r) - 0.5 * r, b = mod(p - 0.5 * r, r) - 0.5 * r;
		vec2 g = dot(a, a) < dot(b, b) ? a : b;
		cell = floor((p - g) / (0.5 * r) + 0.5);
		within = g + 0.5 * r;
		vec2 q = abs(g);
		float slant = dot(q, vec2(0.5, 0.8660254));
		edge = 0.5 * f - max(q.x, slant);
		outward = q.x > slant ? vec2(sign(g.x), 0.0) : vec2(0.5, 0.8660254) * sign(g);
		return;
	}
	vec2 start;
	if (tile.w > 3.5) { // herringbone of bricks as long as a whole number of widths
		float w = size.y, n = max(1.0, floor(size.x / size.y + 0.5));
		vec2 c = floor(p / w);
		float t = mod(c.x - c.y, 2.0 * n);
		if (t < n) { start = vec2(c.x - t, c.y) * w; size = vec2(n * w, w); }
		else { float b = 2.0 * n - 1.0 - t; start = vec2(c.x, c.y - b) * w; size = vec2(w, n * w); }
		cell = floor(start / w + 0.5) + (t < n ? 0.0 : 0.37);
	} else {
		float row = floor(p.y / size.y);
		float every = tile.w > 2.5 ? 3.0 : tile.w > 1.5 ? 2.0 : 1.0;
		float shift = mod(row, every) / every * size.x;
		float col = floor((p.x + shift) / size.x);
		start = vec2(col * size.x - shift, row * size.y);
		cell = vec2(col, row);
	}
	within = p - start;
	vec2 d = min(within, size - within);
	edge = min(d.x, d.y);
	outward = d.x < d.y ? vec2(within.x < 0.5 * size.x ? -1.0 : 1.0, 0.0) : vec2(0.0, within.y < 0.5 * size.y ? -1.0 : 1.0);
}

// tiled changes colour, roughness and normal of a tiled face.
void tiled(vec3 place, inout vec3 base, inout float rough, inout vec3 n) {
	vec3 across = cross(tileU, tileV);
	// Faces turned away from the tiling are a tile's edge.
	if (tile.w < 0.5 || abs(dot(n, across)) < 0.7) return;
	vec3 q = place - tileOrigin;
	vec2 p = vec2(dot(q, tileU), dot(q, tileV));
	vec2 cell, within, outward;
	float edge;
	float pixel = max(1e-3, 0.7 * length(fwidth(p)));
	findTile(p, cell, within, edge, outward);
	float own = chance(cell);
	base *= 0.95 + 0.10 * own;
	if (surface > 1.5) {
		// Chips in a paler ground.
		vec3 ground = mix(base, vec3(0.70, 0.68, 0.64), 0.35);
		vec3 pale = mix(base, vec3(0.9, 0.88, 0.84), 0.55);
		float seen = clamp(1.6 - pixel / 7.0, 0.0, 1.0);
		vec2 s = (within + 311.0 * chance2(cell)) / 13.0;
		vec2 c = floor(s);
		float near = 9.0, second = 9.0; vec2 which = vec2(0.0);
		for (int y = -1; y <= 1; y++) for (int x = -1; x <= 1; x++) {
			vec2 g = c + vec2(x, y);
			float d = distance(s, g + 0.15 + 0.7 * chance2(g));
			if (d < near) { second = near; near = d; which = g; } else if (d < second) second = d;
		}
		float kind = chance(which + 3.1);
		vec3 chip = kind < 0.45 ? base * 0.75 : kind < 0.75 ? vec3(0.30, 0.23, 0.18) : pale;
		float inChip = smoothstep(0.10, 0.18, second - near) * step(chance(which + 7.7), 0.72);
		vec3 mean = mix(ground, 0.45 * base * 0.75 + 0.30 * vec3(0.30, 0.23, 0.18) + 0.25 * pale, 0.55);
		base = mix(mean, mix(ground, chip, inChip), seen);
	} else if (surface > 0.5) {
		vec2 s = within / 300.0 + 17.0 * chance2(cell);
		float soft = cloud(s * 3.0);
		float vein = 1.0 - abs(2.0 * cloud(s * 2.2 + 1.7 * soft) - 1.0);
		base *= 0.88 + 0.24 * soft;
		float fine = clamp(1.5 - pixel / 5.0, 0.0, 1.0);
		base = mix(base, base * 1.22 + 0.02, smoothstep(0.945, 0.995, vein) * 0.55 * fine);
		base *= 1.0 - 0.10 * smoothstep(0.93, 1.0, 1.0 - abs(2.0 * cloud(s * 4.7 + 9.0) - 1.0)) * fine;
		rough = clamp(rough * (0.85 + 0.4 * soft), 0.05, 1.0);
	}
	float joint = 0.5 * tile.z;
	float cover = clamp((joint + 0.5 * pixel - edge) / pixel, 0.0, 1.0) * clamp(tile.z / pixel, 0.0, 1.0);
	// A small chamfer catches the light beside the joint.
	float chamfer = clamp((joint + 1.6 - edge) / 1.6, 0.0, 1.0) * clamp(2.0 - pixel, 0.0, 1.0) * (1.0 - cover);
	n = normalize(n + (tileU * outward.x + tileV * outward.y) * 0.45 * chamfer);
	base = mix(base, grout, cover);
	rough = mix(rough, 0.9, cover);
}
`

const bodyFragmentHead = `#version 330 core
in vec3 place;
in vec3 facing;
in vec3 inKey;
in vec3 inSky;
uniform vec3 colour;
uniform float roughness;
uniform float metal;
uniform float alpha;
uniform vec3 eye;
uniform float flatLook;
uniform vec4 paper;      // what lies behind a technical cut fades towards it
uniform float chosen;
uniform float wet;
uniform vec4 relief;     // level of the drain, span, on, spacing of contours
uniform vec3 heightColours[5];
uniform vec3 keyFrom;
uniform vec3 keyColour;
uniform vec4 spot;       // where the evening lamp hangs; w is its reach, 0 for none
uniform vec3 skyFrom;
uniform vec3 skyColour;
uniform vec3 bounceColour;
uniform vec3 roomLow;    // of the box the room reflects as, in its own frame
uniform vec3 roomHigh;
uniform vec2 roomTurn;   // cosine and sine of that frame
uniform vec3 roomWall;
uniform vec3 roomFloor;
uniform vec3 roomCeiling;
uniform vec4 roomLamp;   // brightness of the window or lamp in it, and its place on the ceiling
out vec4 result;
` + tileShader + `
vec2 turned(vec2 p) { return vec2(p.x * roomTurn.x + p.y * roomTurn.y, -p.x * roomTurn.y + p.y * roomTurn.x); }

// What a ray from a place sees of the room, as a plain box with a bright part
// of its ceiling.
vec3 surroundings(vec3 from, vec3 dir, float rough) {
	vec3 p = vec3(turned(from.xy), from.z), d = vec3(turned(dir.xy), dir.z);
	p = clamp(p, roomLow + 1.0, roomHigh - 1.0);
	vec3 t = (mix(roomLow, roomHigh, step(0.0, d)) - p) / (d + sign(d) * 1e-6 + 1e-9);
	float far = min(t.x, min(t.y, t.z));
	vec3 hit = p + d * far;
	vec3 c = roomWall * (0.75 + 0.25 * (hit.z - roomLow.z) / (roomHigh.z - roomLow.z));
	if (far == t.z) {
		c = d.z > 0.0 ? roomCeiling : roomFloor;
		if (d.z > 0.0) {
			vec2 o = abs(hit.xy - roomLamp.yz) - roomLamp.w;
			c += roomLamp.x * (1.0 - smoothstep(0.0, 120.0 + 900.0 * rough, max(o.x, o.y)));
		}
	}
	vec3 mean = 0.5 * roomWall + 0.25 * (roomFloor + roomCeiling) + 0.06 * roomLamp.x;
	return mix(c, mean, rough * rough);
}

vec3 heightColour(float t) {
	t = clamp(t, 0.0, 1.0) * 4.0;
	int k = int(min(floor(t), 3.0));
	return mix(heightColours[k], heightColours[k + 1], t - float(k));
}

vec3 heights(vec3 base) {
	float z = place.z - relief.x;
	vec3 c = heightColour(z / max(1e-3, relief.y));
	float w = fwidth(z);
	float line = 0.0;
	for (int k = 0; k < 2; k++) {
		float every = relief.w * (k == 0 ? 1.0 : 5.0);
		float off = abs(fract(z / every - 0.5) - 0.5) * every;
		line = max(line, (k == 0 ? 0.35 : 0.8) * (1.0 - smoothstep(0.0, 1.2 * max(w, 1e-5), off)));
	}
	return mix(c, vec3(0.02), line * step(1e-6, w));
}

// Reflectance at normal incidence and its share of the surroundings, after
// the fit by Karis (2014) to the split sum of microfacets.
vec3 share(vec3 f0, float rough, float nv) {
	vec4 r = rough * vec4(-1.0, -0.0275, -0.572, 0.022) + vec4(1.0, 0.0425, 1.04, -0.04);
	float a = min(r.x * r.x, exp2(-9.28 * nv)) * r.x + r.y;
	vec2 ab = vec2(-1.04, 1.04) * a + r.zw;
	return f0 * ab.x + ab.y;
}

// Light of one direction off a rough surface: Lambert below, GGX with Smith's
// shadowing above (Walter and others, 2007).
vec3 lit(vec3 n, vec3 v, vec3 l, vec3 diffuse, vec3 f0, float rough) {
	float nl = max(dot(n, l), 0.0), nv = max(dot(n, v), 1e-3);
	vec3 h = normalize(v + l);
	float nh = max(dot(n, h), 0.0), vh = max(dot(v, h), 0.0);
	float a = rough * rough, a2 = a * a;
	float d = nh * nh * (a2 - 1.0) + 1.0;
	float D = a2 / (3.14159 * d * d);
	float k = 0.5 * a;
	float G = 1.0 / ((nl * (1.0 - k) + k) * (nv * (1.0 - k) + k) * 4.0);
	vec3 F = f0 + (1.0 - f0) * pow(clamp(1.0 - vh, 0.0, 1.0), 5.0);
	return (diffuse * (1.0 - F) / 3.14159 + min(D * G, 30.0) * F) * nl;
}
`

// bodyFragmentQuick is for pictures that move: no shadows, the sky as a
// gradient.
const bodyFragmentQuick = bodyFragmentHead + `
void main() {
	vec3 n = normalize(facing), v = normalize(eye - place);
	if (dot(n, v) < 0.0) n = -n;
	vec3 base = colour;
	float rough = roughness;
	tiled(place, base, rough, n);
	if (relief.z > 0.5) { base = heights(base); rough = 0.8; }
	vec3 light;
	if (flatLook > 0.5) light = mix(base * (0.78 + 0.22 * n.z), paper.rgb, paper.a);
	else {
		base *= 1.0 - 0.25 * wet;
		rough = mix(rough, 0.12, 0.8 * wet);
		vec3 f0 = mix(vec3(0.04), base, metal), diffuse = base * (1.0 - metal);
		light = 3.14159 * keyColour * lit(n, v, keyFrom, diffuse, f0, max(rough, 0.1)) * 0.8;
		light += diffuse * mix(bounceColour, skyColour, 0.5 + 0.5 * n.z);
		light += share(f0, rough, max(dot(n, v), 1e-3)) * surroundings(place, reflect(-v, n), rough);
	}
	light = mix(light, vec3(1.0, 0.45, 0.08), chosen * 0.45);
	result = vec4(light * alpha, alpha);
}`

// bodyFragmentFull is one sample of a picture at rest: the key light from one
// place of its face, the sky from one direction, both with shadows, and light
// bounced once by a few places the key falls on.
const bodyFragmentFull = bodyFragmentHead + `
uniform sampler2DShadow keyMap;
uniform sampler2DShadow skyMap;
uniform vec3 vplPlace[4];
uniform vec3 vplFacing[4];
uniform vec3 vplColour[4];
uniform float vplCount;
uniform vec2 jitter;

void main() {
	vec3 n = normalize(facing), v = normalize(eye - place);
	if (dot(n, v) < 0.0) n = -n;
	vec3 plane = n;
	vec3 base = colour;
	float rough = roughness;
	tiled(place, base, rough, n);
	if (relief.z > 0.5) { base = heights(base); rough = 0.8; }
	if (wet > 0.0) {
		float pool = smoothstep(0.35, 0.75, cloud(place.xy / 260.0));
		base *= 1.0 - wet * (0.18 + 0.14 * pool);
		n = normalize(mix(n, plane, wet * (0.5 + 0.5 * pool)));
		rough = mix(rough, 0.06 + 0.16 * (1.0 - pool), wet);
	}
	vec3 f0 = mix(vec3(0.04), base, metal), diffuse = base * (1.0 - metal);
	float bias = 0.0009;
	vec3 light = vec3(0.0);
	float key = 0.0;
	if (dot(plane, keyFrom) > 0.0) {
		// Taps turned by chance from pixel to pixel: a few samples make a grain,
		// not copies of the shadow side by side.
		float turn = 6.28318 * chance(gl_FragCoord.xy * 0.37 + jitter * 91.7);
		vec2 a = vec2(cos(turn), sin(turn)) * 2.3 / 1024.0, b = vec2(-a.y, a.x) * 0.55;
		vec3 at = inKey - vec3(0.0, 0.0, bias);
		key = 0.25 * (texture(keyMap, at + vec3(a, 0.0)) + texture(keyMap, at - vec3(a, 0.0)) + texture(keyMap, at + vec3(b, 0.0)) + texture(keyMap, at - vec3(b, 0.0)));
	}
	if (spot.w > 0.0) {
		vec2 off = place.xy - spot.xy;
		key *= 1.0 / (1.0 + dot(off, off) / (spot.w * spot.w));
	}
	light += 3.14159 * keyColour * key * lit(n, v, keyFrom, diffuse, f0, max(rough, 0.07));
	float open = dot(plane, skyFrom) > 0.0 ? texture(skyMap, inSky - vec3(0.0, 0.0, bias * 1.5)) : 0.0;
	// Directions spread evenly over the half-sphere: twice the cosine.
	light += diffuse * 2.0 * max(dot(n, skyFrom), 0.0) * mix(bounceColour, skyColour, open);
	// What looks down or sideways sees the floor.
	light += diffuse * (bounceColour + 0.16 * keyColour) * roomFloor * (0.5 - 0.5 * n.z);
	for (int k = 0; k < 4; k++) if (float(k) < vplCount) {
		vec3 to = vplPlace[k] - place;
		float d2 = dot(to, to) * 1e-6;
		vec3 l = normalize(to);
		light += diffuse * vplColour[k] * max(dot(n, l), 0.0) * max(dot(vplFacing[k], -l), 0.0) / (d2 + 0.3);
	}
	// One direction of the lobe a sample; over many, a glossy reflection.
	vec3 r = reflect(-v, n);
	vec3 side = normalize(cross(r, vec3(0.3, 0.5, 0.81)) + vec3(1e-4));
	r = normalize(r + rough * rough * (side * (jitter.x - 0.5) + cross(r, side) * (jitter.y - 0.5)) * 1.6);
	float near = mix(open, 1.0, 0.55);
	light += share(f0, rough, max(dot(n, v), 1e-3)) * surroundings(place, r, rough * 0.6) * near;
	light = mix(light, vec3(1.0, 0.45, 0.08), chosen * 0.4);
	result = vec4(light * alpha, alpha);
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

// addFragment copies a sample, to be added to the sum by blending.
const addFragment = `#version 330 core
in vec2 at;
uniform sampler2D picture;
out vec4 result;
void main() { result = texture(picture, at); }`

// toneFragment brings the mean of the samples to the screen: straight up to a
// knee, then ever less, the brightest channel leading so that colours keep
// their hue. The picture is turned over: images have their first row on top.
const toneFragment = `#version 330 core
in vec2 at;
uniform sampler2D picture;
uniform float samples;
out vec4 result;
const float knee = 0.72;
void main() {
	vec4 c = texture(picture, vec2(at.x, 1.0 - at.y)) / samples;
	vec3 x = c.a > 0.0 ? c.rgb / c.a : vec3(0.0);
	float m = max(x.r, max(x.g, x.b));
	if (m > knee) {
		float y = knee + (1.0 - knee) * (1.0 - exp((knee - m) / (1.0 - knee)));
		x = mix(x * y / m, vec3(y), 0.35 * (1.0 - y / m));
	}
	result = vec4(pow(max(x, 0.0), vec3(1.0 / 2.2)) * c.a, c.a);
}`
