package trace

// skyShader is the sky, and the windows that it is seen by.
const skyShader = `
uniform samplerBuffer lamps; // four texels a lamp, see packLamps
uniform int lampCount;
uniform vec3 skyHigh, skyLow, skyGround, sun, toSun, outside;

float luminance(vec3 c) { return dot(c, vec3(0.2126, 0.7152, 0.0722)); }

// The light of a direction of the sky, and of the ground under it.
vec3 sky(vec3 d) { return mix(skyGround * 0.8, mix(skyLow, skyHigh, smoothstep(0.0, 0.6, d.z)), smoothstep(0.02, 0.12, d.z)); }

// What is seen in that direction: sky, hills far off, trees before them, a lawn.
vec3 outlook(vec3 d) {
	float along = atan(d.y, d.x);
	vec3 c = mix(skyLow, skyHigh, smoothstep(0.0, 0.6, d.z));
	c *= 0.90 + 0.20 * smoothstep(0.35, 0.75, cloud(vec2(along * 2.0, d.z * 7.0)));
	float hills = 0.03 + 0.07 * cloud(vec2(along * 3.0, 1.0));
	c = mix(mix(skyGround, skyLow, 0.4), c, smoothstep(hills - 0.005, hills + 0.005, d.z));
	if (d.z < -0.05) {
		vec2 lawn = d.xy / -d.z;
		c = skyGround * vec3(0.62, 0.72, 0.45) * (0.3 + 0.6 * cloud(lawn * 1.3));
	}
	float trees = 0.20 * cloud(vec2(along * 8.0, 7.0)) - 0.035 + 0.02 * cloud(vec2(along * 60.0, d.z * 60.0));
	vec3 leaves = skyGround * vec3(0.46, 0.54, 0.36) * (0.05 + 1.1 * smoothstep(0.2, 0.9, cloud(vec2(along * 1.2, d.z) * 34.0)));
	return mix(leaves, c, max(smoothstep(trees - 0.008, trees + 0.008, d.z), 1.0 - smoothstep(-0.075, -0.065, d.z)));
}

// The outlook as it is in the picture: less bright than the light it gives, as a photographer
// draws windows back so that there is something to be seen in them.
vec3 skyShown(vec3 c) { float l = luminance(c); return 0.8 * c / (1.0 + 2.4 * l * inversesqrt(1.0 + l)); }

struct Lamp { vec3 centre, u, v, radiance; float beam; int kind; }; // 0 rectangle, 1 sphere, 2 window
Lamp lampAt(int k) {
	vec4 a = texelFetch(lamps, 4 * k), b = texelFetch(lamps, 4 * k + 1), c = texelFetch(lamps, 4 * k + 2), e = texelFetch(lamps, 4 * k + 3);
	return Lamp(a.xyz, b.xyz, c.xyz, e.xyz, a.w, int(b.w));
}

// How far along a ray a window is; nothing where the ray passes beside it.
float toWindow(Lamp w, vec3 o, vec3 d) {
	vec3 n = cross(w.u, w.v);
	float t = dot(w.centre - o, n) / dot(d, n);
	vec3 q = o + d * t - w.centre;
	bool in_ = t > 0.0 && dot(d, n) < 0.0 && abs(dot(q, w.u)) < dot(w.u, w.u) && abs(dot(q, w.v)) < dot(w.v, w.v);
	return in_ ? t : 0.0;
}

// Whether what meets nothing leaves by a window, or comes in by one.
bool byWindow(vec3 o, vec3 d) {
	for (int k = 0; k < lampCount; k++) {
		Lamp w = lampAt(k);
		if (w.kind == 2 && toWindow(w, o, d) > 0.0) return true;
	}
	return false;
}
`

// pathShader follows light: rays through the tree, light straight from lamps,
// windows and sun, and paths that end in the volume. Who includes it gives
// pathShader's uniforms by Room.bind.
const pathShader = allMaterials + surfaceShader + volumeShader + skyShader + `
uniform samplerBuffer nodes;     // two texels a node, see tree.pack
uniform samplerBuffer triangles; // corner and material, two edges (glass, lift)
uniform samplerBuffer normals;   // of the three corners
uniform VOLUME bounced;          // the volume without that straight from lamps and windows
uniform int nodeCount;
uniform float sunSpread;
uniform int cutCount;
uniform vec4 cuts[2];
uniform int bounces;      // traced after the first place

const float far_ = 1e9;
const float mostBounced = 3.0; // of what one path may bring after its first place
const float most = 40.0;

uint seed;
float number(uint s) {
	uint w = ((s >> ((s >> 28u) + 4u)) ^ s) * 277803737u;
	return float(((w >> 22u) ^ w) >> 8u) * (1.0 / 16777216.0);
}
uint after(uint s) { return s * 747796405u + 2891336453u; }
float rnd() { seed = after(seed); return number(seed); }
// The first numbers of a path are spread evenly over its samples: Roberts' additive
// recurrence in eight dimensions, from a place of each pixel's own; but for the first, by
// which a face mirrors or does not: its steps would be small, and of few samples all alike.
// Worked out one by one: a list that every pixel is at another place of is slow to read.
uint evenSeed;
float evenStep, evenSample;
int drawn;
float draw() {
	bool even = drawn < 8;
	uint s = after(even ? evenSeed : seed);
	float v = number(s);
	if (!even) { seed = s; return v; }
	v = fract(v + evenStep * evenSample);
	evenSeed = s;
	evenStep = drawn == 0 ? 0.849345 : evenStep * 0.921599;
	drawn++;
	return v;
}
void begin(uvec2 pixel, uint sampleNumber) {
	evenSeed = mixed(pixel.x + mixed(pixel.y + 77u));
	evenStep = 0.414214;
	evenSample = float(sampleNumber);
	seed = mixed(evenSeed ^ mixed(sampleNumber * 2654435769u + 1u));
	drawn = 0;
}

bool cutAway(vec3 p) {
	if (cutCount == 0) return false;
	if (dot(cuts[0], vec4(p, 1.0)) <= 0.0) return false;
	return cutCount < 2 || dot(cuts[1], vec4(p, 1.0)) > 0.0;
}

struct Hit { int triangle; float at; vec2 uv; };

bool meets(int k, vec3 o, vec3 d, float most_, out float t, out vec2 uv, out vec4 a, out vec4 b) {
	vec4 p = texelFetch(triangles, 3 * k), e = texelFetch(triangles, 3 * k + 1), f = texelFetch(triangles, 3 * k + 2);
	vec3 pv = cross(d, f.xyz), tv = o - p.xyz;
	float inverse = 1.0 / dot(e.xyz, pv);
	uv.x = dot(tv, pv) * inverse;
	vec3 qv = cross(tv, e.xyz);
	uv.y = dot(d, qv) * inverse;
	t = dot(f.xyz, qv) * inverse;
	a = p; b = vec4(e.w, f.w, 0.0, 0.0);
	if (!(uv.x >= 0.0 && uv.y >= 0.0 && uv.x + uv.y <= 1.0 && t > 0.0 && t < most_)) return false;
	return cutCount == 0 || !cutAway(o + d * t - vec3(0.0, 0.0, f.w));
}

int octantOf(vec3 d) { return (d.x < 0.0 ? 1 : 0) + (d.y < 0.0 ? 2 : 0) + (d.z < 0.0 ? 4 : 0); }
vec3 inverseOf(vec3 d) { return 1.0 / (d + vec3(equal(d, vec3(0.0))) * 1e-9); }

// The triangles of the next leaf of the tree that a ray meets before most_, as the tree has them: 0 for none. What is
// done with them stands outside of this loop: without a card it would be worked out for every box.
int nextLeaf(int start, int end, vec3 inverse, vec3 oi, float most_, inout int i) {
	int leaf = 0;
	while (i < end && leaf == 0) {
		vec4 a = texelFetch(nodes, 2 * i), b = texelFetch(nodes, 2 * i + 1);
		vec3 t0 = a.xyz * inverse - oi, t1 = b.xyz * inverse - oi;
		vec3 lo = min(t0, t1), hi = max(t0, t1);
		bool beside = max(max(lo.x, lo.y), max(lo.z, 0.0)) > min(min(hi.x, hi.y), min(hi.z, most_));
		leaf = beside ? 0 : max(int(b.w), 0);
		i = beside ? start + int(a.w) : i + 1;
	}
	return leaf;
}

// The nearest face along a ray. The eye looks through what stands between it and
// the room.
Hit nearest(vec3 o, vec3 d, bool eye) {
	Hit h = Hit(-1, far_, vec2(0.0));
	vec3 inverse = inverseOf(d), oi = o * inverse;
	int start = octantOf(d) * nodeCount, i = start, end = start + nodeCount;
	while (i < end) {
		int leaf = nextLeaf(start, end, inverse, oi, h.at, i), first = leaf >> 4, last = first + (leaf & 15);
		for (int k = first; k < last; k++) {
			float t; vec2 uv; vec4 p, q;
			if (meets(k, o, d, h.at, t, uv, p, q) && !(eye && texelFetch(materials, 8 * int(p.w) + 1).w > 0.5)) h = Hit(k, t, uv);
		}
	}
	return h;
}

const vec3 glassFace = vec3(0.945, 0.965, 0.957); // what light keeps through one face of a pane

// How much light comes through to a place from a direction.
vec3 through(vec3 o, vec3 d, float most_) {
	vec3 inverse = inverseOf(d), oi = o * inverse, left = vec3(1.0);
	int start = octantOf(d) * nodeCount, i = start, end = start + nodeCount;
	while (i < end) {
		int leaf = nextLeaf(start, end, inverse, oi, most_, i), first = leaf >> 4, last = first + (leaf & 15);
		for (int k = first; k < last; k++) {
			float t; vec2 uv; vec4 p, q;
			if (meets(k, o, d, most_, t, uv, p, q)) {
				if (q.x < 0.5) return vec3(0.0);
				left *= glassFace;
			}
		}
	}
	return left;
}

// Light straight from lamps, windows and sun on a matt place, for an albedo of one.
//
// Method: of one place on each, one is chosen by what each would give if nothing
// stood between (resampled importance sampling, Talbot 2005), and one ray is sent.
vec3 straight(vec3 p, vec3 n, vec3 face, bool leaf, bool withSun) {
	float sum = 0.0, chosen = 0.0, reach = 0.0;
	vec3 light = vec3(0.0), towards = n;
	float pick = draw(), r1 = draw(), r2 = draw();
	vec3 side = normalize(cross(toSun, vec3(0.31, 0.47, 0.83)));
	vec3 ray = normalize(toSun + sunSpread * sqrt(r2) * (side * cos(6.2831853 * r1) + cross(toSun, side) * sin(6.2831853 * r1)));
	float sunReach = 0.0;
	for (int k = 0; k <= lampCount; k++) {
		vec3 l = ray, c = vec3(0.0);
		float until = 0.0;
		if (k == lampCount) {
			if (sunReach <= 0.0 || !withSun) continue;
			c = sun / 3.14159265; until = sunReach;
		} else {
			Lamp w = lampAt(k);
			if (w.kind == 2) sunReach = max(sunReach, toWindow(w, p, ray));
			float a = fract(r1 + float(k) * 0.618034), b = fract(r2 + float(k) * 0.754878);
			if (w.kind == 1) {
				float r = length(w.u), z = 2.0 * a - 1.0, turn = 6.2831853 * b, s = sqrt(max(0.0, 1.0 - z * z));
				vec3 to = w.centre + 0.7 * r * vec3(s * cos(turn), s * sin(turn), z) - p;
				float d2 = dot(to, to);
				l = to * inversesqrt(d2);
				c = w.radiance * (r * r / max(d2, r * r));
				until = sqrt(d2) - 1.8 * r;
			} else {
				vec3 to = w.centre + w.u * (2.0 * a - 1.0) + w.v * (2.0 * b - 1.0) - p, x = cross(w.u, w.v);
				float d2 = dot(to, to), size = length(x);
				l = to * inversesqrt(d2);
				float back = -dot(l, x) / size;
				if (back <= 0.0) continue;
				c = (w.kind == 2 ? sky(l) : w.radiance * pow(back, w.beam)) * (back * 4.0 * size / (max(d2, 400.0) * 3.14159265));
				until = sqrt(d2) - 2.0;
			}
		}
		float cosine = leaf ? abs(dot(n, l)) : dot(n, l);
		if (cosine <= 0.0 || !leaf && dot(face, l) <= 0.0) continue;
		c *= cosine;
		float w = luminance(c);
		if (w <= 0.0) continue;
		sum += w;
		float share = w / sum;
		if (pick < share) { pick /= share; light = c; towards = l; reach = until; chosen = w; }
		else pick = (pick - share) / max(1.0 - share, 1e-6);
	}
	if (chosen <= 0.0 || reach <= 0.0) return vec3(0.0);
	return light * (sum / chosen) * through(p + face * (dot(face, towards) > 0.0 ? 0.4 : -0.4), towards, reach);
}

void basis(vec3 n, out vec3 u, out vec3 v) {
	u = normalize(abs(n.z) > 0.9 ? cross(vec3(1, 0, 0), n) : cross(vec3(0, 0, 1), n));
	v = cross(n, u);
}

vec3 spread(vec3 n, float a, float b) { // over the half-sphere by the cosine
	vec3 u, v;
	basis(n, u, v);
	float r = sqrt(a);
	return normalize(u * (r * cos(6.2831853 * b)) + v * (r * sin(6.2831853 * b)) + n * sqrt(max(0.0, 1.0 - a)));
}
` + glossShader

// glossShader is how smooth faces mirror.
const glossShader = `
// Reflectance of a face by angle, after Schlick (1994); what is rough never gets as
// bright edge on.
vec3 fresnel(vec3 f0, float rough, float cosine) {
	return f0 + (max(vec3(1.0 - rough), f0) - f0) * pow(clamp(1.0 - cosine, 0.0, 1.0), 5.0);
}
// The same of glass, by Fresnel's equations for an index of 1.52.
float glassFresnel(float cosine) {
	const float index = 1.52;
	float inner = sqrt(max(0.0, 1.0 - (1.0 - cosine * cosine) / (index * index)));
	float s = (cosine - index * inner) / (cosine + index * inner), p = (inner - index * cosine) / (inner + index * cosine);
	return 0.5 * (s * s + p * p);
}
// Smith's share of microfacets that are seen from a direction (Walter and others,
// 2007); z is its cosine.
float smith(float z, float alpha) { return 2.0 * z / (z + sqrt(alpha * alpha + (1.0 - alpha * alpha) * z * z)); }
// A normal of the microfacets that are seen from v, which stands over z (Heitz 2018,
// "Sampling the GGX Distribution of Visible Normals").
vec3 facet(vec3 v, float alpha, float a, float b) {
	vec3 h = normalize(vec3(alpha * v.xy, v.z));
	float l = dot(h.xy, h.xy);
	vec3 t1 = l > 1e-7 ? vec3(-h.y, h.x, 0.0) * inversesqrt(l) : vec3(1, 0, 0), t2 = cross(h, t1);
	float r = sqrt(a), x = r * cos(6.2831853 * b), s = 0.5 * (1.0 + h.z);
	float y = mix(sqrt(max(0.0, 1.0 - x * x)), r * sin(6.2831853 * b), s);
	vec3 n = x * t1 + y * t2 + sqrt(max(0.0, 1.0 - x * x - y * y)) * h;
	return normalize(vec3(alpha * n.xy, max(1e-5, n.z)));
}
`

// glimpseShader is what is seen along a ray without any chance in it: lit by the
// volume, with the sun where it comes in by a window.
const glimpseShader = `
vec3 glimpse(vec3 o, vec3 d) {
	vec3 kept = vec3(1.0);
	for (int leg = 0; leg < 4; leg++) {
		Hit h = nearest(o, d, false);
		if (h.triangle < 0) return kept * (byWindow(o, d) ? outlook(d) : outside);
		vec4 corner = texelFetch(triangles, 3 * h.triangle);
		vec3 ea = texelFetch(triangles, 3 * h.triangle + 1).xyz;
		vec4 eb = texelFetch(triangles, 3 * h.triangle + 2);
		vec3 p = o + d * h.at, n = normalize(cross(ea, eb.xyz));
		if (dot(n, d) > 0.0) n = -n;
		Surface s = surfaceAt(int(corner.w), p - vec3(0.0, 0.0, eb.w), n, 4.0 + 0.002 * h.at, true);
		if (s.kind == 2) return kept * s.base;
		if (s.kind == 1) { kept *= glassFace; o = p - n * 0.3; continue; }
		if (s.kind == 3) { kept *= s.base; o = p + n * 0.3; d = reflect(d, n); continue; }
		vec3 light = volumeStands > 0 ? volumeLight(whole, p + n * 45.0, n) : volumeMean;
		float facing = dot(n, toSun);
		if (facing > 0.0 && byWindow(p, toSun)) light += sun * (facing / 3.14159265);
		return kept * s.base * light;
	}
	return vec3(0.0);
}
`

// samplePath is one sample of a picture: what each pixel sees along one path.
// Where the first place is matt its albedo is taken out of the light, so that the
// light alone is smoothed.
const samplePath = pathShader + glimpseShader + `
uniform vec2 size;
uniform int sampleNumber;
uniform vec2 jitter;
uniform vec3 eye, right, up, forward; // right and up by half the picture
uniform float near;
uniform float pixelAngle;

// What panes mirror. A driver without a card would take its time for it at every leg of every path, pane or not: there it
// is worked out last, of so many faces the eye looks through at most. A card has no room to keep so much for later.
struct Pane { vec3 o, d, weight; };
vec3 mirroredBy(Pane p) { return p.weight * min(glimpse(p.o, p.d), vec3(most)); }
#ifndef AT_ONCE
const int mostPanes = 6;
Pane panes[mostPanes];
#endif

bool sound(vec3 c) { return !any(isnan(c)) && !any(isinf(c)) && all(greaterThanEqual(c, vec3(0.0))); }

void follow(ivec2 pixel) {
	begin(uvec2(pixel), uint(sampleNumber));
	vec2 at = (vec2(pixel) + 0.5 + jitter) / size * 2.0 - 1.0;
	vec3 d = forward + right * at.x + up * at.y;
	vec3 o = eye + d * near;
	d = normalize(d);
	vec3 weight = vec3(1.0), matt = vec3(0.0), gloss = vec3(0.0), albedo = vec3(0.0), normal = vec3(0.0);
	float way = 0.0, count = 0.0, met = 1.0, blur = 0.0;
	bool sharp = true;   // no matt place yet: lamps and sky are seen themselves
	bool plainView = true; // nothing yet but panes and mirrors
	bool mattPath = false;
	bool inGlass = false;
	bool outOfWindow = false; // what is seen there is worked out last: it takes long
	int bounce = 0;
#ifndef AT_ONCE
	int paneCount = 0;
#endif
	for (int leg = 0; leg < 14; leg++) {
		Hit h = nearest(o, d, leg == 0);
		if (h.triangle < 0) {
			// What the windows give to what is matt is told by straight.
			bool window = byWindow(o, d);
			outOfWindow = window && sharp;
			if (leg == 0) { met = window ? 1.0 : 0.0; normal = -d; count = 1.0; way = 20000.0; }
			else if (!window) {
				vec3 c = outside * weight;
				if (mattPath) matt += min(c, vec3(mostBounced));
				else gloss += plainView ? weight * skyShown(outside) : min(c, vec3(2.0 * mostBounced));
			}
			break;
		}
		vec3 p = o + d * h.at;
		way += h.at;
		if (inGlass) { weight *= exp(-h.at * vec3(0.0030, 0.0008, 0.0015)); inGlass = false; }
		vec4 na = texelFetch(normals, 3 * h.triangle);
		vec3 nb = texelFetch(normals, 3 * h.triangle + 1).xyz, nc = texelFetch(normals, 3 * h.triangle + 2).xyz;
		vec4 corner = texelFetch(triangles, 3 * h.triangle), ea = texelFetch(triangles, 3 * h.triangle + 1), eb = texelFetch(triangles, 3 * h.triangle + 2);
		vec3 outward = na.xyz * (1.0 - h.uv.x - h.uv.y) + nb * h.uv.x + nc * h.uv.y;
		vec3 face = normalize(cross(ea.xyz, eb.xyz)), n = normalize(outward + 1e-6 * face);
		if (dot(face, d) > 0.0) face = -face;
		bool leaving = dot(outward, d) > 0.0;
		if (dot(n, face) < 0.0) n = -n;
		float footprint = plainView ? 0.6 * way * pixelAngle / max(abs(dot(n, d)), 0.12) : 4.0 + 0.3 * h.at * blur;
		Surface s = surfaceAt(int(corner.w), p - vec3(0.0, 0.0, eb.w), n, footprint, !plainView && (!sharp || blur > 0.15));
		if (s.kind == 2) {
			vec3 c = s.base * weight;
			if (sharp) gloss += plainView ? c : min(c, vec3(2.0 * mostBounced));
			if (plainView && count == 0.0) { count = 1.0; normal = face; }
			break;
		}
		if (s.kind == 1) {
			float mirrored = glassFresnel(abs(dot(d, n)));
			if (plainView) {
				Pane pane = Pane(p + face * 0.3, reflect(d, n), weight * mirrored);
#ifdef AT_ONCE
				gloss += mirroredBy(pane);
#else
				for (int k = mostPanes - 1; k > 0; k--) panes[k] = panes[k - 1];
				panes[0] = pane;
				paneCount++;
#endif
			}
			weight *= 1.0 - mirrored;
			o = p - face * 0.05;
			inGlass = !leaving;
			continue;
		}
		if (s.kind == 3) { weight *= s.base; d = reflect(d, n); o = p + face * 0.3; continue; }
		if (dot(s.normal, d) > -0.02) s.normal = normalize(s.normal - d * (dot(s.normal, d) + 0.02));
		vec3 v = -d, f0 = mix(vec3(0.04), s.base, s.metal), dull = s.base * (1.0 - s.metal);
		float nv = max(dot(s.normal, v), 0.02);
		vec3 F = fresnel(f0, s.rough, nv);
		float bright = max(F.x, max(F.y, F.z));
		bool shines = s.metal > 0.5 || s.rough < 0.7 && (s.kind == 0 || s.kind == 5 || s.kind == 7);
		float glossy = s.metal > 0.5 ? 1.0 : !shines ? 0.0 : plainView ? clamp(0.2 + bright, 0.0, 0.75) : sharp ? bright : 0.0;
		bool first = plainView;
		if (first) { count = 1.0; albedo = dull; normal = s.normal; }
		plainView = false;
		if (draw() < glossy) {
			float alpha = max(0.002, s.rough * s.rough);
			if (!first) alpha = max(alpha, 0.1);
			blur = max(blur, s.rough * s.rough);
			vec3 u, w;
			basis(s.normal, u, w);
			vec3 lv = vec3(dot(v, u), dot(v, w), nv), m = facet(lv, alpha, draw(), draw()), l = reflect(-lv, m);
			if (l.z <= 0.0) break;
			weight *= fresnel(f0, s.rough, max(dot(lv, m), 0.0)) * (min(smith(l.z, alpha), 1.0) * s.open / glossy);
			d = normalize(u * l.x + w * l.y + s.normal * l.z);
			if (dot(d, face) < 0.0) d = reflect(d, face);
			o = p + face * 0.3;
			if (bounce > bounces) { gloss += weight * volumeLight(whole, p + face * 45.0, d); break; }
			bounce++;
			continue;
		}
		weight *= s.open * (glossy > 0.0 ? (1.0 - F) / (1.0 - glossy) : shines && sharp ? 1.0 - F : vec3(1.0));
		if (first) mattPath = true; else weight *= dull;
		vec3 c = weight * straight(p, s.normal, face, s.kind == 7, true);
		if (bounce >= bounces) c += weight * (volumeStands > 0 ? volumeLight(bounced, p + face * 45.0, s.normal) : volumeMean);
		if (bounce > 0) c = min(c, vec3(mostBounced));
		if (mattPath) matt += c; else gloss += c;
		if (bounce >= bounces) break;
		bounce++;
		d = spread(s.normal, draw(), draw());
		if (s.kind == 7 && rnd() < 0.4) d = -d;
		else if (dot(d, face) < 0.0) d = reflect(d, face);
		o = p + face * (dot(d, face) > 0.0 ? 0.3 : -0.3);
		sharp = false;
	}
	if (outOfWindow) {
		vec3 c = outlook(d);
		gloss += plainView ? weight * skyShown(c) : min(weight * c, vec3(2.0 * mostBounced));
	}
#ifndef AT_ONCE
	for (int k = 0; k < min(paneCount, mostPanes); k++) {
		gloss += mirroredBy(panes[0]);
		for (int j = 1; j < mostPanes; j++) panes[j - 1] = panes[j];
	}
#endif
	if (!sound(matt)) matt = vec3(0.0);
	if (!sound(gloss)) gloss = vec3(0.0);
	if (!sound(abs(normal)) || !sound(albedo)) { normal = vec3(0.0); albedo = vec3(0.0); count = 0.0; }
	matt = min(matt, vec3(most)); gloss = min(gloss, vec3(most));
	float l = luminance(matt);
	outMatt = vec4(matt, l * l);
	outGloss = vec4(gloss, met);
	outAlbedo = vec4(albedo * count, count);
	outNormal = vec4(normal * count, way * count);
}
`

// sampleSums are what samplePath gives.
func sampleSums() []string {
	return []string{
		"outMatt",   // light on what is matt; its luminance squared
		"outGloss",  // all other light; the share that met anything
		"outAlbedo", // of the first matt place; how many samples found one
		"outNormal", // of it; how far it is
	}
}

// bakePath is one path for each face of each place of a volume: a pixel is a
// face, its path begins as if from a white surface there.
const bakePath = pathShader + `
uniform samplerBuffer places;
uniform int width, faceCount, passNumber;

void follow(ivec2 pixel) {
	outLamps = vec4(0.0); outBounced = vec4(0.0);
	int index = pixel.x + pixel.y * width;
	if (index >= faceCount) return;
	begin(uvec2(pixel), uint(passNumber));
	vec3 o = texelFetch(places, index / 6).xyz, n = vec3(0.0), weight = vec3(1.0), sum = vec3(0.0);
	int side = index % 6;
	n[side >> 1] = (side & 1) == 0 ? 1.0 : -1.0;
	vec3 lampLight = straight(o, n, n, false, false), d = spread(n, draw(), draw());
	float open = 1.0;
	bool solidYet = false;
	for (int leg = 0, bounce = 0; leg < 12; leg++) {
		Hit h = nearest(o, d, false);
		if (h.triangle < 0) { if (!byWindow(o, d)) sum += weight * outside; break; }
		vec3 p = o + d * h.at;
		vec4 na = texelFetch(normals, 3 * h.triangle), corner = texelFetch(triangles, 3 * h.triangle), ea = texelFetch(triangles, 3 * h.triangle + 1), eb = texelFetch(triangles, 3 * h.triangle + 2);
		vec3 outward = na.xyz * (1.0 - h.uv.x - h.uv.y) + texelFetch(normals, 3 * h.triangle + 1).xyz * h.uv.x + texelFetch(normals, 3 * h.triangle + 2).xyz * h.uv.y;
		vec3 face = normalize(cross(ea.xyz, eb.xyz)), m = normalize(outward + 1e-6 * face);
		if (dot(face, d) > 0.0) face = -face;
		bool leaving = dot(outward, d) > 0.0;
		if (dot(m, face) < 0.0) m = -m;
		Surface s = surfaceAt(int(corner.w), p - vec3(0.0, 0.0, eb.w), m, 50.0, true);
		if (s.kind == 1) { weight *= glassFace; o = p - face * 0.3; continue; }
		if (!solidYet && leaving) { open = 0.0; break; }
		solidYet = true;
		if (s.kind == 2) break;
		o = p + face * 0.3;
		if (s.kind == 3) { weight *= s.base; d = reflect(d, m); continue; }
		// What mirrors is taken as matt here.
		weight *= s.base * s.open;
		sum += min(weight * straight(p, m, face, s.kind == 7, true), vec3(mostBounced));
		if (++bounce > bounces) { if (volumeStands > 0) sum += weight * volumeLight(bounced, p + face * 45.0, m); break; }
		d = spread(m, draw(), draw());
		if (dot(d, face) < 0.0) d = reflect(d, face);
	}
	if (any(isnan(sum)) || any(isinf(sum)) || any(isnan(lampLight)) || any(isinf(lampLight))) return;
	outLamps = vec4(min(lampLight, vec3(most)), open);
	outBounced = vec4(min(sum, vec3(most)), 1.0);
}
`

// bakeSums are what bakePath gives.
func bakeSums() []string {
	return []string{
		"outLamps",   // straight from lamps and windows; rays not begun inside of something
		"outBounced", // what came by way of something else
	}
}
