package trace

// sheetVertex covers the whole picture with one triangle.
const sheetVertex = `#version 330 core
void main() { gl_Position = vec4(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0, 0.0, 1.0); }`

// smoothFragment is one pass of smoothing light over faces: far places weigh less
// by what they show of another face (edge-avoiding à-trous wavelets, Dammertz and
// others 2010). The first pass takes the sums of samples.
const smoothFragment = `#version 330 core
uniform sampler2D matt, gloss, albedo, normal;
uniform float stepPixels, samples;
uniform bool first;
layout(location=0) out vec4 outMatt;  // light and its variance
layout(location=1) out vec4 outGloss;
float luminance(vec3 c) { return dot(c, vec3(0.2126, 0.7152, 0.0722)); }
ivec2 edge;
vec4 mattAt(ivec2 p) {
	vec4 c = texelFetch(matt, p, 0);
	if (first) { c /= samples; float m = luminance(c.rgb); c.a = max(c.a - m * m, 0.0) / samples; }
	return c;
}
vec4 glossAt(ivec2 p) {
	vec4 c = texelFetch(gloss, p, 0);
	return first ? vec4(c.rgb / samples, 0.0) : c;
}
struct Face { vec3 albedo, normal; float way; };
Face faceAt(ivec2 p) {
	vec4 a = texelFetch(albedo, p, 0), n = texelFetch(normal, p, 0);
	float count = max(a.a, 1e-4);
	return Face(a.rgb / count, normalize(n.xyz + 1e-6), n.w / count);
}
void main() {
	ivec2 p = ivec2(gl_FragCoord.xy);
	edge = textureSize(matt, 0) - 1;
	vec4 m0 = mattAt(p), g0 = glossAt(p);
	Face f0 = faceAt(p);
	// How noisy it is round here.
	float sumM = 0.0, sumM2 = 0.0, sumG = 0.0, sumG2 = 0.0, own = 0.0, mostM = 0.0, mostG = 0.0, n = 0.0;
	for (int y = -2; y <= 2; y++) for (int x = -2; x <= 2; x++) {
		ivec2 q = clamp(p + ivec2(x, y), ivec2(0), edge);
		vec4 m = mattAt(q), g = glossAt(q);
		float a = luminance(m.rgb), b = luminance(g.rgb);
		sumM += a; sumM2 += a * a; sumG += b; sumG2 += b * b; own += m.a; n++;
		if ((x != 0 || y != 0) && abs(x) < 2 && abs(y) < 2) { mostM = max(mostM, a); mostG = max(mostG, b); }
	}
	own /= n;
	float aroundM = max(sumM2 / n - sumM * sumM / (n * n), 0.0), aroundG = max(sumG2 / n - sumG * sumG / (n * n), 0.0);
	if (first) {
		// A single bright pixel is an accident.
		float a = luminance(m0.rgb), b = luminance(g0.rgb);
		if (a > mostM) m0.rgb *= mostM / a;
		if (b > mostG) g0.rgb *= mostG / b;
		if (samples < 4.5) own = max(own, 0.5 * aroundM); // too few to tell by themselves
		m0.a = own; g0.a = aroundG;
	}
	float noiseM = 3.0 * sqrt(own) + 1e-3, noiseG = 1.6 * sqrt(first ? aroundG : max(g0.a, 0.0)) + 1e-3;
	float l0 = luminance(m0.rgb), k0 = luminance(g0.rgb);
	Face r = faceAt(clamp(p + ivec2(1, 0), ivec2(0), edge)), l = faceAt(clamp(p - ivec2(1, 0), ivec2(0), edge));
	Face u = faceAt(clamp(p + ivec2(0, 1), ivec2(0), edge)), d = faceAt(clamp(p - ivec2(0, 1), ivec2(0), edge));
	vec2 ahead = vec2(r.way, u.way) - f0.way, back = f0.way - vec2(l.way, d.way);
	vec2 slope = vec2(abs(ahead.x) < abs(back.x) ? ahead.x : back.x, abs(ahead.y) < abs(back.y) ? ahead.y : back.y);
	vec4 sum = vec4(0.0), sum2 = vec4(0.0);
	float w1 = 0.0, w2 = 0.0;
	for (int y = -2; y <= 2; y++) for (int x = -2; x <= 2; x++) {
		ivec2 q = p + ivec2(x, y) * int(stepPixels);
		if (any(lessThan(q, ivec2(0))) || any(greaterThan(q, edge))) continue;
		bool here = x == 0 && y == 0;
		Face f = faceAt(q);
		float kernel = (x == 0 ? 0.375 : abs(x) == 1 ? 0.25 : 0.0625) * (y == 0 ? 0.375 : abs(y) == 1 ? 0.25 : 0.0625);
		float alike = max(dot(f0.normal, f.normal), 0.0);
		float off = abs(f.way - f0.way - dot(slope, vec2(x, y) * stepPixels));
		float w = kernel * pow(alike, 40.0) * exp(-off / (f0.way * 0.0006 * stepPixels + 3.0 + 0.25 * stepPixels * (abs(slope.x) + abs(slope.y))));
		vec4 m = here ? m0 : mattAt(q), g = here ? g0 : glossAt(q);
		vec3 tint = f.albedo - f0.albedo;
		float a = w * exp(-abs(luminance(m.rgb) - l0) / noiseM);
		float b = w * exp(-abs(luminance(g.rgb) - k0) / noiseG) * exp(-dot(tint, tint) * 60.0) * pow(alike, 160.0);
		sum += vec4(m.rgb * a, m.a * a * a); w1 += a;
		sum2 += vec4(g.rgb * b, (first ? aroundG : g.a) * b * b); w2 += b;
	}
	outMatt = w1 > 1e-8 ? vec4(sum.rgb / w1, sum.a / (w1 * w1)) : m0;
	outGloss = w2 > 1e-8 ? vec4(sum2.rgb / w2, sum2.a / (w2 * w2)) : g0;
}`

// picture puts light and albedo together again; a is the share that met anything.
const pictureShader = `
uniform sampler2D matt, gloss, albedo, glossSum;
uniform float samples;
vec4 pictureAt(ivec2 p) {
	vec4 a = texelFetch(albedo, p, 0);
	vec3 c = texelFetch(matt, p, 0).rgb * a.rgb / max(a.a, 1e-4) + texelFetch(gloss, p, 0).rgb;
	if (any(isnan(c)) || any(isinf(c))) c = vec3(0.0);
	return vec4(max(c, 0.0), texelFetch(glossSum, p, 0).a / samples);
}
`

// meterFragment is the picture in few pixels, for the exposure.
const meterFragment = `#version 330 core
` + pictureShader + `
uniform vec2 meterSize;
out vec4 result;
void main() {
	ivec2 size = textureSize(matt, 0);
	vec4 sum = vec4(0.0);
	for (int y = 0; y < 2; y++) for (int x = 0; x < 2; x++) sum += pictureAt(min(ivec2((gl_FragCoord.xy - 0.25 + 0.5 * vec2(x, y)) / meterSize * vec2(size)), size - 1));
	result = sum / 4.0;
}`

// toneShader brings light to the screen as a film does: a toe, a long shoulder,
// colours paling as they near white.
const toneShader = `
uniform float exposure;
uniform vec3 white;
vec3 film(vec3 c) {
	c = max(c * exposure * white, 0.0);
	const float power = 1.30, knee = 0.60, brightest = 6.0;
	float end = pow(brightest, power);
	float l = dot(c, vec3(0.2126, 0.7152, 0.0722)), t = pow(l, power);
	float tl = t / (t + knee) * (end + knee) / end;
	vec3 x = pow(c, vec3(power));
	x = x / (x + knee) * ((end + knee) / end);
	return clamp(mix(x, min(c * (tl / max(l, 1e-6)), vec3(1.2)), 0.45), 0.0, 1.0);
}
`

// toneFragment gives the picture as it is shown, first row on top, with inks laid
// over it and paper behind.
const toneFragment = `#version 330 core
` + pictureShader + toneShader + `
uniform sampler2D inks;
uniform float inkSamples;
uniform vec4 paper;
out vec4 result;
void main() {
	ivec2 size = textureSize(matt, 0), p = ivec2(gl_FragCoord.xy);
	p.y = size.y - 1 - p.y;
	vec4 c = pictureAt(p);
	vec3 x = film(c.rgb / max(c.a, 1e-3));
	vec4 shown = vec4(x, 1.0) * c.a + paper * (1.0 - c.a);
	if (inkSamples > 0.0) { vec4 ink = texelFetch(inks, p, 0) / inkSamples; shown = ink + shown * (1.0 - ink.a); }
	vec3 coded = pow(max(shown.rgb / max(shown.a, 1e-3), 0.0), vec3(1.0 / 2.2));
	uint h = uint(p.x) * 1597334677u ^ uint(p.y) * 3812015801u;
	h = (h ^ (h >> 15u)) * 2246822519u; h ^= h >> 13u;
	coded += (float(h >> 8u) / 16777216.0 - 0.5) / 255.0 * (1.0 - step(0.999, shown.a) * step(1.0, 1.0 - c.a));
	result = vec4(clamp(coded, 0.0, 1.0) * shown.a, shown.a);
}`
