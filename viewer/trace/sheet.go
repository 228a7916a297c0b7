package trace

// sheetVertex covers the whole picture with one triangle.
const sheetVertex = `#version 330 core
void main() { gl_Position = vec4(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0, 0.0, 1.0); }`

// gatherFragment makes means and noise of the sums of samples, and what is known of
// the faces, for smoothing.
const gatherFragment = `#version 330 core
` + countShader + `
uniform sampler2D mattSum, glossSum, albedoSum, normalSum;
layout(location=0) out vec4 outMatt;  // light; its variance
layout(location=1) out vec4 outGloss;
layout(location=2) out vec4 outFace;  // normal; how far, 0 for no face
layout(location=3) out vec4 outTint;  // albedo; its slope in the picture is found later
float luminance(vec3 c) { return dot(c, vec3(0.2126, 0.7152, 0.0722)); }
void main() {
	ivec2 p = ivec2(gl_FragCoord.xy), edge = textureSize(mattSum, 0) - 1;
	float samples = samplesAt(p);
	vec4 m0 = texelFetch(mattSum, p, 0) / samples, g0 = texelFetch(glossSum, p, 0) / samples;
	vec4 a = texelFetch(albedoSum, p, 0), n = texelFetch(normalSum, p, 0);
	float count = max(a.a, 1e-4);
	float own = 0.0, sumM = 0.0, sumM2 = 0.0, sumG = 0.0, sumG2 = 0.0, mostM = 0.0, mostG = 0.0;
	for (int y = -2; y <= 2; y++) for (int x = -2; x <= 2; x++) {
		ivec2 q = clamp(p + ivec2(x, y), ivec2(0), edge);
		float has = samplesAt(q);
		vec4 m = texelFetch(mattSum, q, 0) / has;
		float b = luminance(texelFetch(glossSum, q, 0).rgb) / has, c = luminance(m.rgb);
		own += max(m.a - c * c, 0.0);
		sumM += c; sumM2 += c * c; sumG += b; sumG2 += b * b;
		if ((x != 0 || y != 0) && abs(x) < 2 && abs(y) < 2) { mostM = max(mostM, c); mostG = max(mostG, b); }
	}
	own /= 25.0 * samples;
	float aroundM = max(sumM2 / 25.0 - sumM * sumM / 625.0, 0.0), aroundG = max(sumG2 / 25.0 - sumG * sumG / 625.0, 0.0);
	// A single bright pixel is an accident.
	float c = luminance(m0.rgb), b = luminance(g0.rgb);
	if (c > mostM) m0.rgb *= mostM / c;
	if (b > mostG) g0.rgb *= mostG / b;
	outMatt = vec4(m0.rgb, samples < 4.5 ? max(own, 0.5 * aroundM) : own); // few samples do not tell their noise
	outGloss = vec4(g0.rgb, aroundG);
	outFace = vec4(normalize(n.xyz + 1e-6), a.a > 0.0 ? n.w / count : 0.0);
	outTint = vec4(a.rgb / count, 0.0);
}`

// smoothFragment is one pass of smoothing light over faces: far places weigh less
// by what they show of another face (edge-avoiding à-trous wavelets, Dammertz and
// others 2010).
const smoothFragment = `#version 330 core
uniform sampler2D matt, gloss, faces, tints;
uniform float stepPixels;
layout(location=0) out vec4 outMatt;
layout(location=1) out vec4 outGloss;
float luminance(vec3 c) { return dot(c, vec3(0.2126, 0.7152, 0.0722)); }
void main() {
	ivec2 p = ivec2(gl_FragCoord.xy), edge = textureSize(matt, 0) - 1;
	vec4 m0 = texelFetch(matt, p, 0), g0 = texelFetch(gloss, p, 0), f0 = texelFetch(faces, p, 0);
	vec3 tint = texelFetch(tints, p, 0).rgb;
	// Noise is told by a few pixels: one alone may know nothing of it.
	vec2 noise = vec2(0.0);
	float l0 = 0.0, k0 = 0.0, near0 = 0.0;
	for (int y = -1; y <= 1; y++) for (int x = -1; x <= 1; x++) {
		ivec2 q = clamp(p + ivec2(x, y), ivec2(0), edge);
		float k = (x == 0 ? 0.5 : 0.25) * (y == 0 ? 0.5 : 0.25);
		vec4 m = texelFetch(matt, q, 0), g = texelFetch(gloss, q, 0), f = texelFetch(faces, q, 0);
		noise += k * vec2(m.a, g.a);
		k *= max(dot(f.xyz, f0.xyz), 0.0) * (abs(f.w - f0.w) < 0.02 * f0.w + 5.0 ? 1.0 : 0.0);
		l0 += k * luminance(m.rgb); k0 += k * luminance(g.rgb); near0 += k;
	}
	l0 = near0 > 0.0 ? l0 / near0 : luminance(m0.rgb);
	k0 = near0 > 0.0 ? k0 / near0 : luminance(g0.rgb);
	// Light that differs by less than an eye tells apart is one.
	float quietM = -1.0 / (4.0 * sqrt(noise.x) + 0.02 * l0 + 1e-4), quietG = -1.0 / (3.0 * sqrt(noise.y) + 0.02 * k0 + 1e-3);
	// A face that is seen edge on is one face all the same.
	float r = texelFetch(faces, min(p + ivec2(1, 0), edge), 0).w - f0.w, l = f0.w - texelFetch(faces, max(p - ivec2(1, 0), ivec2(0)), 0).w;
	float u = texelFetch(faces, min(p + ivec2(0, 1), edge), 0).w - f0.w, d = f0.w - texelFetch(faces, max(p - ivec2(0, 1), ivec2(0)), 0).w;
	vec2 slope = vec2(abs(r) < abs(l) ? r : l, abs(u) < abs(d) ? u : d);
	float near = -1.0 / (f0.w * 0.0006 * stepPixels + 3.0 + 0.25 * stepPixels * (abs(slope.x) + abs(slope.y)));
	vec4 sum = m0 * vec4(0.1406, 0.1406, 0.1406, 0.0198), sum2 = g0 * vec4(0.1406, 0.1406, 0.1406, 0.0198);
	float w1 = 0.1406, w2 = 0.1406;
	for (int y = -2; y <= 2; y++) for (int x = -2; x <= 2; x++) {
		ivec2 q = p + ivec2(x, y) * int(stepPixels);
		if (x == 0 && y == 0 || any(lessThan(q, ivec2(0))) || any(greaterThan(q, edge))) continue;
		vec4 f = texelFetch(faces, q, 0);
		float kernel = (x == 0 ? 0.375 : abs(x) == 1 ? 0.25 : 0.0625) * (y == 0 ? 0.375 : abs(y) == 1 ? 0.25 : 0.0625);
		float alike = max(dot(f0.xyz, f.xyz), 0.0), a2 = alike * alike, a4 = a2 * a2, a8 = a4 * a4, a32 = a8 * a8 * a8 * a8;
		float off = abs(f.w - f0.w - dot(slope, vec2(x, y) * stepPixels));
		float w = kernel * a32 * exp(off * near);
		if (w < 1e-4) continue;
		vec4 m = texelFetch(matt, q, 0), g = texelFetch(gloss, q, 0);
		vec3 other = texelFetch(tints, q, 0).rgb - tint;
		float a = w * exp(abs(luminance(m.rgb) - l0) * quietM);
		float b = w * a32 * exp(abs(luminance(g.rgb) - k0) * quietG - 60.0 * dot(other, other));
		sum += vec4(m.rgb * a, m.a * a * a); w1 += a;
		sum2 += vec4(g.rgb * b, g.a * b * b); w2 += b;
	}
	// What neighbours share of each other's noise makes up for half of what goes.
	outMatt = vec4(sum.rgb / w1, 1.5 * sum.a / (w1 * w1));
	outGloss = vec4(sum2.rgb / w2, 1.5 * sum2.a / (w2 * w2));
}`

// pictureShader puts light and albedo together again; a is the share that met anything.
const pictureShader = countShader + `
uniform sampler2D matt, gloss, albedo, glossSum;
vec4 pictureAt(ivec2 p) {
	vec4 a = texelFetch(albedo, p, 0);
	vec3 c = texelFetch(matt, p, 0).rgb * a.rgb / max(a.a, 1e-4) + texelFetch(gloss, p, 0).rgb;
	if (any(isnan(c)) || any(isinf(c))) c = vec3(0.0);
	return vec4(max(c, 0.0), texelFetch(glossSum, p, 0).a / samplesAt(p));
}
`

// meterFragment is the picture in few pixels, for the exposure, and the light on what is matt in it, whatever its colour, for the white.
const meterFragment = `#version 330 core
` + pictureShader + `
uniform vec2 meterSize;
layout(location=0) out vec4 seen;
layout(location=1) out vec4 light;
void main() {
	ivec2 size = textureSize(matt, 0);
	seen = vec4(0.0); light = vec4(0.0);
	for (int y = 0; y < 2; y++) for (int x = 0; x < 2; x++) {
		ivec2 p = min(ivec2((gl_FragCoord.xy - 0.25 + 0.5 * vec2(x, y)) / meterSize * vec2(size)), size - 1);
		seen += pictureAt(p) / 4.0;
		vec3 c = texelFetch(matt, p, 0).rgb;
		if (texelFetch(albedo, p, 0).a > 0.0 && !any(isnan(c)) && !any(isinf(c))) light += vec4(max(c, 0.0), 1.0) / 4.0;
	}
}`

// toneShader brings light to the screen as a film does: a toe, a long shoulder,
// colours paling as they near white. Without an exposure light stays as it is, to be metered.
const toneShader = `
uniform float exposure;
uniform vec3 white;
vec3 film(vec3 c) {
	if (exposure <= 0.0) return max(c, 0.0);
	c = max(c * exposure * white, 0.0);
	const float power = 1.45, knee = 0.55, brightest = 6.0;
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
