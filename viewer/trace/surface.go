package trace

// Shaders work in linear light and millimetres.

// chanceShader gives numbers that look drawn at random, by whole numbers alone: no
// driver's sine is in them.
const chanceShader = `
uint mixed(uint h) { h = (h ^ (h >> 16u)) * 2246822519u; h = (h ^ (h >> 13u)) * 3266489917u; return h ^ (h >> 16u); }
float chance(vec2 c) {
	uvec2 q = uvec2(ivec2(floor(c * 64.0 + 0.5)));
	return float(mixed(q.x * 1597334677u ^ mixed(q.y * 3812015801u)) >> 8u) * (1.0 / 16777216.0);
}
vec2 chance2(vec2 c) { return vec2(chance(c), chance(c + 17.31)); }
// Noise, and how much more of it there is one along x than at a place. A program of one material works out once for a whole row of
// the grid what that brings in; following paths takes longer that way.
#ifdef ONE_MATERIAL
uint rowAt(int y) { return mixed(uint(y) * 3812015801u); }
float inRow(uint row, int x) { return float(mixed(uint(x) * 1597334677u ^ row) >> 8u) * (1.0 / 16777216.0); }
float noise(vec2 p) {
	vec2 i = floor(p), f = p - i;
	f = f * f * (3.0 - 2.0 * f);
	ivec2 q = 64 * ivec2(i);
	uint low = rowAt(q.y), high = rowAt(q.y + 64);
	return mix(mix(inRow(low, q.x), inRow(low, q.x + 64), f.x), mix(inRow(high, q.x), inRow(high, q.x + 64), f.x), f.y);
}
float noiseRise(vec2 p) {
	vec2 i = floor(p), f = p - i;
	f = f * f * (3.0 - 2.0 * f);
	ivec2 q = 64 * ivec2(i);
	uint low = rowAt(q.y), high = rowAt(q.y + 64);
	float lower = inRow(low, q.x + 64), upper = inRow(high, q.x + 64);
	return mix(mix(lower - inRow(low, q.x), inRow(low, q.x + 128) - lower, f.x),
		mix(upper - inRow(high, q.x), inRow(high, q.x + 128) - upper, f.x), f.y);
}
#else
float noise(vec2 p) {
	vec2 i = floor(p), f = fract(p);
	f = f * f * (3.0 - 2.0 * f);
	return mix(mix(chance(i), chance(i + vec2(1, 0)), f.x), mix(chance(i + vec2(0, 1)), chance(i + vec2(1, 1)), f.x), f.y);
}
float noiseRise(vec2 p) { return noise(p + vec2(1, 0)) - noise(p); }
#endif
float cloud(vec2 p) {
	float s = 0.0, a = 0.5;
	for (int k = 0; k < TIMES(4); k++) { s += a * noise(p); p = p * 2.03 + 11.7; a *= 0.5; }
	return s / 0.9375;
}
`

// texelsOfMaterial are those that packMaterials lays out for each.
const texelsOfMaterial = 8

// allMaterials and oneMaterial go before surfaceShader: it is of any of a scene's, or of the one that is drawn.
//
// Of any, most of it is left out at most places. A driver without a card works it out all the same: of a loop once round
// where it knows too late how often that is, every round where it knows beforehand.
const (
	allMaterials = `
#ifdef AT_ONCE
#define TIMES(n) n
#else
uniform int one; // 1
#define TIMES(n) (n * one)
#endif
uniform samplerBuffer materials;
#define MATERIAL(m, k) texelFetch(materials, 8 * (m) + k)
`
	oneMaterial = `
#define ONE_MATERIAL
#define TIMES(n) n
uniform vec4 ofMaterial[8];
#define MATERIAL(m, k) ofMaterial[k]
`
)

// surfaceShader finds how a material takes the light at a place. Pixel is how wide
// a place is seen, in mm: what is finer is seen as its mean. Plain leaves out all
// but the mean, for light that only falls on things that are seen.
const surfaceShader = chanceShader + `
// What a program of one class of materials leaves out; one of all leaves out nothing.
#ifndef SHEETS
#define SHEETS true
#define GROWN true
#define TILED true
#define LAID o.w
#define WET true
#define SHINES true
#endif

struct Surface {
	int kind;
	vec3 base;     // albedo, of metal reflectance, of what glows radiance
	float rough, metal;
	float open;    // what is left of light from all round in a groove
	vec3 normal;
	float film;    // a water film over it, 0 to 1
};

// The tile a place lies on: its number, the place within it, the distance to the
// middle of the nearest joint and the direction there.
struct Tile { vec2 cell, within, outward; float edge; };

Tile findTile(vec2 p, vec2 size, float bond) {
	Tile t;
	if (bond > 4.5) { // hexagons, flat to flat as wide as the tile is long
		float f = size.x;
		vec2 r = vec2(f, f * 1.7320508);
		vec2 a = mod(p, r) - 0.5 * r, b = mod(p - 0.5 * r, r) - 0.5 * r;
		vec2 g = dot(a, a) < dot(b, b) ? a : b;
		t.cell = floor((p - g) / (0.5 * r) + 0.5);
		t.within = g + 0.5 * r;
		vec2 q = abs(g);
		float slant = dot(q, vec2(0.5, 0.8660254));
		t.edge = 0.5 * f - max(q.x, slant);
		t.outward = q.x > slant ? vec2(sign(g.x), 0.0) : vec2(0.5, 0.8660254) * sign(g);
		return t;
	}
	vec2 start;
	if (bond > 3.5) { // herringbone of bricks as long as a whole number of widths
		float w = size.y, n = max(1.0, floor(size.x / size.y + 0.5));
		vec2 c = floor(p / w);
		float s = mod(c.x - c.y, 2.0 * n);
		if (s < n) { start = vec2(c.x - s, c.y) * w; size = vec2(n * w, w); }
		else { float b = 2.0 * n - 1.0 - s; start = vec2(c.x, c.y - b) * w; size = vec2(w, n * w); }
		t.cell = floor(start / w + 0.5) + (s < n ? 0.0 : 0.37);
	} else {
		float row = floor(p.y / size.y);
		float every = bond > 2.5 ? 3.0 : bond > 1.5 ? 2.0 : 1.0;
		float shift = mod(row, every) / every * size.x;
		float col = floor((p.x + shift) / size.x);
		start = vec2(col * size.x - shift, row * size.y);
		t.cell = vec2(col, row);
	}
	t.within = p - start;
	vec2 d = min(t.within, size - t.within);
	t.edge = min(d.x, d.y);
	t.outward = d.x < d.y ? vec2(t.within.x < 0.5 * size.x ? -1.0 : 1.0, 0.0) : vec2(0.0, t.within.y < 0.5 * size.y ? -1.0 : 1.0);
	return t;
}

// Chips of three sizes in a ground. Their colours are shares of the tile's own, so
// that its mean stays what was chosen.
vec3 terrazzo(vec2 p, float pixel) {
	float c = 1.16 * (0.97 + 0.06 * noise(p / 3.0));
	vec3 tint = vec3(1.0);
	float size = 5.5;
	for (int k = 0; k < TIMES(3); k++) {
		float seen = clamp(2.0 - 2.5 * pixel / size, 0.0, 1.0);
		vec2 s = p / size + float(k) * 37.7, i = floor(s), which = vec2(0.0);
		float near = 81.0, second = 81.0; // squared
		for (int c = 0; c < TIMES(9); c++) {
			vec2 g = i + vec2(c % 3 - 1, c / 3 - 1), off = s - g - 0.1 - 0.8 * chance2(g);
			float d = dot(off, off);
			if (d < near) { second = near; near = d; which = g; } else if (d < second) second = d;
		}
		near = sqrt(near); second = sqrt(second);
		float there = 0.40 - 0.05 * float(k);
		if (chance(which + 3.1) < there) {
			float a = chance(which + 5.7);
			float chip = a < 0.34 ? 0.78 : a < 0.66 ? 1.26 : a < 0.80 ? 0.52 : a < 0.93 ? 0.64 : 0.30;
			vec3 hue = a < 0.66 ? vec3(1.0) : a < 0.80 ? vec3(1.10, 0.98, 0.84) : a < 0.93 ? vec3(1.14, 0.98, 0.76) : vec3(1.0);
			float in_ = smoothstep(0.08, 0.16, second - near - 0.1 * noise(s * 5.0)) * seen;
			c = mix(c, chip * (0.92 + 0.16 * noise(p / 1.7 + 9.0)), in_);
			tint = mix(tint, hue, in_);
		}
		c = mix(c, mix(c, 0.86, 0.8 * there), 1.0 - seen);
		size *= 2.1;
	}
	return c * tint;
}

// What a matt face gives back under water: some of the light that it scatters is thrown back onto it by the water's
// upper side (Ångström 1925), of an index of 1.33 so much (Lekner and Dorf, "Why some things are darker when wet",
// Applied Optics 27, 1988). A glaze has such a side of its own, and gets no darker.
vec3 underWater(vec3 dry) { return dry * 0.53 / (1.0 - 0.47 * dry); }

// A face as wet as its film tells: a sheet of water lies on it, smooth over the joints that it fills, with waves that are longer
// down the fall and an edge that is drawn up; where it has torn the face is damp, with drops. A joint, by its share of the place,
// soaks besides, as water in its pores throws light further in (Twomey and others, "Reflectance and albedo differences
// between wet and dry surfaces", Applied Optics 25, 1986). What stands upright is not wet.
void wetten(inout Surface s, vec3 place, vec3 n, float pixel, float joint, bool plain) {
	const float damp = 0.65, pores = 0.6;
	s.film *= smoothstep(0.5, 0.8, n.z);
	float drinks = s.film * smoothstep(0.1, 0.35, s.rough);
	vec3 under = underWater(s.base * mix(1.0, pores, joint));
	if (plain) { s.base = mix(s.base, under, 0.95 * drinks); return; }
	vec2 down = dot(n.xy, n.xy) > 1e-6 ? normalize(n.xy) : vec2(0.0, 1.0), aside = vec2(-down.y, down.x);
	vec2 p = vec2(dot(place.xy, down), dot(place.xy, aside));
	vec2 q = p / vec2(330.0, 130.0);
	float deep = cloud(q);
	vec2 uphill = vec2(cloud(q + vec2(0.02, 0.0)), cloud(q + vec2(0.0, 0.05))) - deep;
	float wide = 0.012 + 0.003 * pixel, sheet = smoothstep(0.40 - wide, 0.40 + wide, deep), edge = 4.0 * sheet * (1.0 - sheet);
	s.base = mix(s.base, under, mix(damp, 1.0, smoothstep(0.33, 0.42, deep)) * drinks);
	vec2 w = p / vec2(150.0, 70.0), x = p / vec2(31.0, 19.0);
	vec2 slope = 0.022 * (vec2(noise(w), noise(w + 31.0)) - 0.5);
	slope += 0.010 * clamp(2.0 - pixel / 8.0, 0.0, 1.0) * (vec2(noise(x), noise(x + 31.0)) - 0.5);
	slope = sheet * slope - 0.26 * edge * clamp(2.0 - pixel / 7.0, 0.0, 1.0) * uphill / max(length(uphill), 1e-4);
	vec2 cell = floor(place.xy / 13.0), from = place.xy / 13.0 - cell - 0.3 - 0.4 * chance2(cell);
	float size = 0.34 * chance(cell + 4.7), round_ = dot(from, from) / max(size * size, 1e-4);
	bool drop = round_ < 1.0 && size > 0.1 && sheet < 0.5;
	vec2 dome = drop ? from / size * (0.5 * clamp(2.0 - pixel / 6.0, 0.0, 1.0)) : vec2(0.0);
	s.normal = normalize(mix(s.normal, n, 0.92 * sheet * s.film) + s.film * vec3(down * slope.x + aside * slope.y + dome, 0.0));
	s.rough = mix(s.rough, mix(0.6 * min(s.rough, 0.5), 0.02, drop ? 1.0 : sheet), s.film);
	s.open = mix(s.open, 1.0, sheet * s.film);
}

Surface surfaceAt(int m, vec3 place, vec3 n, float pixel, bool plain) {
	Surface s;
	vec4 a = MATERIAL(m, 0), b = MATERIAL(m, 1);
	s.base = a.rgb; s.rough = a.a; s.metal = b.x; s.kind = int(b.y); s.film = WET ? b.z : 0.0;
	s.open = 1.0; s.normal = n;
	if (SHEETS && s.kind >= 1 && s.kind <= 3) return s;
	vec4 t = MATERIAL(m, 2);
	vec4 o = MATERIAL(m, 3);
	vec3 u = MATERIAL(m, 4).xyz, v = MATERIAL(m, 5).xyz;
	vec3 q = place - o.xyz;
	if (s.kind == 4) { // no wall is quite flat
		if (!plain) {
			vec3 ax = abs(n);
			vec2 k = (ax.x > 0.7 ? place.yz : ax.y > 0.7 ? place.xz : place.xy) / 170.0;
			s.normal = normalize(n + 0.006 * (vec3(noise(k), noise(k + 31.0), noise(k + 77.0)) - 0.5));
		}
		return s;
	}
	if (GROWN && s.kind == 5) { // wood
		float x = dot(q, u), y = dot(q, v) + 0.7 * dot(q, cross(u, v));
		float warp = 26.0 * (noise(vec2(x / 700.0, y / 90.0)) - 0.5) + 5.0 * noise(vec2(x / 210.0, y / 30.0));
		float ring = fract((y + warp) / 23.0 + 0.6 * noise(vec2(x / 1500.0, y / 40.0)));
		float late = smoothstep(0.2, 0.9, ring) * (1.0 - smoothstep(0.9, 1.0, ring));
		float fine = plain ? 0.0 : clamp(1.6 - pixel / 1.2, 0.0, 1.0);
		float pore = mix(0.5, noise(vec2(x / 16.0, y / 0.9)), fine);
		s.base *= (1.02 - 0.08 * late) * (0.90 + 0.20 * pore) * (0.86 + 0.28 * noise(vec2(x / 900.0, (y + warp) / 60.0)));
		s.base = mix(s.base, s.base * vec3(0.92, 0.83, 0.74), late * 0.3);
		s.rough = clamp(s.rough + 0.12 * (0.5 - pore), 0.15, 1.0);
		s.normal = normalize(n + v * (0.03 * fine * (pore - 0.5)));
		return s;
	}
	if (GROWN && s.kind == 6) { // cloth
		float fine = plain ? 0.0 : clamp(1.6 - pixel / 1.6, 0.0, 1.0);
		if (fine > 0.0) {
			vec3 ax = abs(n);
			vec2 k = ax.x > 0.7 ? q.yz : ax.y > 0.7 ? q.xz : q.xy;
			s.normal = normalize(n + 0.55 * fine * (vec3(noise(k / 1.9), noise(k / 1.9 + 31.0), noise(k / 2.3 + 77.0)) - 0.5));
			s.base *= 1.0 + 0.28 * fine * (noise(k / 2.1 + 5.0) - 0.5);
		}
		return s;
	}
	if (GROWN && s.kind == 7) { s.base *= 0.8 + 0.4 * noise(place.xy / 40.0 + place.z / 30.0); return s; }
	float grouted = 0.0; // the joint's share of the place
	// Faces turned away from the tiling are a tile's edge.
	if (TILED && t.w > 0.5 && abs(dot(n, cross(u, v))) > 0.7) {
		vec4 g = MATERIAL(m, 6);
		float joint = 0.5 * t.z, hand = g.a;
		vec2 p = vec2(dot(q, u), dot(q, v));
		Tile l = findTile(p, t.xy, t.w);
		float cover = clamp((joint + 0.5 * pixel - l.edge) / max(pixel, 1e-3), 0.0, 1.0) * clamp(t.z / max(pixel, 1e-3), 0.0, 1.0);
		if (plain) { // the mean of tile and joint
			float least = t.w > 4.5 ? t.x : min(t.x, t.y);
			s.base = mix(s.base, g.rgb, clamp(2.0 * t.z / max(least, 1.0), 0.0, 0.5));
			if (WET && s.film > 0.0) wetten(s, place, n, pixel, 0.0, true);
			return s;
		}
		float own = chance(l.cell), e = l.edge - joint, near = clamp(1.7 - pixel / 4.0, 0.0, 1.0);
		vec2 tilt = vec2(0.0);
		if (LAID > 1.5) {
			s.base *= terrazzo(l.within + 311.0 * floor(97.0 * chance2(l.cell)), pixel) * (0.98 + 0.04 * own);
			s.rough *= 0.9 + 0.2 * noise(p / 23.0);
		} else if (LAID > 0.5) {
			vec2 z = l.within / 300.0 + 17.0 * chance2(l.cell);
			float soft = cloud(z * 3.0);
			s.base *= 0.86 + 0.28 * soft;
			float vein = 1.0 - abs(2.0 * cloud(z * 2.2 + 1.7 * soft) - 1.0);
			float fine = clamp(1.5 - pixel / 5.0, 0.0, 1.0);
			s.base = mix(s.base, s.base * 1.16 + 0.015, smoothstep(0.945, 0.995, vein) * 0.5 * fine);
			s.base *= 1.0 - 0.08 * smoothstep(0.93, 1.0, 1.0 - abs(2.0 * cloud(z * 4.7 + 9.0) - 1.0)) * fine;
			s.rough *= 0.85 + 0.4 * soft;
		} else {
			// Glaze: a shade of its own, pooled darker beside the edge, paler where
			// it breaks over the rim.
			float shade = own - 0.5 + 0.35 * (cloud(l.within / 38.0 + 40.0 * chance2(l.cell)) - 0.5);
			s.base *= 1.0 + shade * mix(0.04, 0.55, hand);
			s.base *= mix(vec3(1.0), vec3(1.07, 1.0, 0.90), hand * 0.6 * (chance(l.cell + 9.0) - 0.5));
			s.base *= 1.0 + hand * near * (0.5 * smoothstep(2.6, 0.6, e) - 0.12 * smoothstep(12.0, 4.0, e));
		}
		tilt = (chance2(l.cell + 3.3) - 0.5) * mix(0.003, 0.018, hand);
		vec2 w = l.within / 34.0 + 53.0 * chance2(l.cell + 1.7);
		tilt += vec2(noiseRise(w - vec2(0.5, -0.5)), noise(w + vec2(31.5, 7.5)) - noise(w + vec2(31.0, 6.5))) * mix(0.0015, 0.026, hand) * clamp(2.0 - pixel / 12.0, 0.0, 1.0);
		float pillow = clamp(1.0 - e / mix(1.6, 4.5, hand), 0.0, 1.0);
		tilt += l.outward * pillow * pillow * mix(0.28, 0.40, hand) * near * (1.0 - cover);
		float rim = clamp(l.edge / max(joint, 0.1), 0.0, 1.0);
		tilt = mix(tilt, l.outward * 0.45 * rim * rim * near, cover);
		s.base = mix(s.base, g.rgb * (1.0 + 0.2 * near * (noise(p / 1.5) - 0.5)), cover);
		s.rough = mix(s.rough, 0.92, cover);
		grouted = cover;
		s.open = mix(1.0 - 0.12 * near * smoothstep(2.0, 0.0, e), 0.78, cover);
		s.normal = normalize(n + u * tilt.x + v * tilt.y);
	}
	if (WET && s.film > 0.0) wetten(s, place, n, pixel, grouted, plain);
	s.base = clamp(s.base, 0.0, 1.0);
	return s;
}
`
