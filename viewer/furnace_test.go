package viewer

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl32"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/section"
	"underfall/viewer/trace"
)

// ball is a ball of a material about the origin.
func ball(m trace.Material) *trace.Scene {
	const around, radius = 48, 500
	s := &trace.Scene{Materials: []trace.Material{m}, Outside: mgl32.Vec3{1, 1, 1}, Sky: trace.Sky{ToSun: mgl32.Vec3{0, 0, 1}}}
	at := func(i, j int) mgl32.Vec3 {
		st, ct := math.Sincos(math.Pi * float64(i) / around)
		sp, cp := math.Sincos(2 * math.Pi * float64(j) / around)
		return mgl32.Vec3{float32(st * cp), float32(st * sp), float32(ct)}
	}
	for i := range around {
		for j := range around {
			for _, n := range [][3]mgl32.Vec3{{at(i, j), at(i+1, j), at(i+1, j+1)}, {at(i, j), at(i+1, j+1), at(i, j+1)}} {
				s.Triangles = append(s.Triangles, trace.Triangle{Corners: [3]mgl32.Vec3{n[0].Mul(radius), n[1].Mul(radius), n[2].Mul(radius)}, Normals: n})
			}
		}
	}
	return s
}

// plate is a rectangle across the line of sight, turned about the upright by an angle.
func plate(m trace.Material, turn float64) []trace.Triangle {
	sin, cos := math.Sincos(turn)
	u, v := mgl32.Vec3{float32(4000 * cos), float32(4000 * sin), 0}, mgl32.Vec3{0, 0, 4000}
	n := mgl32.Vec3{float32(sin), float32(-cos), 0}
	a, b, c, d := u.Mul(-1).Sub(v), u.Sub(v), u.Add(v), v.Sub(u)
	return []trace.Triangle{{Corners: [3]mgl32.Vec3{a, b, c}, Normals: [3]mgl32.Vec3{n, n, n}}, {Corners: [3]mgl32.Vec3{a, c, d}, Normals: [3]mgl32.Vec3{n, n, n}}}
}

// seen is the mean light of the picture's middle, of a camera that looks along +y at
// the origin.
func seen(t *testing.T, r *Renderer, s *trace.Scene, samples int) float64 {
	t.Helper()
	room := r.tracer.Load(s, nil, mgl32.Vec3{1, 1, 1})
	defer room.Free()
	var p trace.Picture
	defer p.Free()
	const side = 16
	v := trace.View{Eye: mgl32.Vec3{0, -3000, 0}, Forward: mgl32.Vec3{0, 1, 0}, Right: mgl32.Vec3{0.02, 0, 0}, Up: mgl32.Vec3{0, 0, 0.02}, NearMM: 1}
	for range samples {
		if err := r.tracer.Sample(&p, room, v, side, side, side, 1); err != nil {
			t.Fatal(err)
		}
	}
	sum := 0.0
	light := p.Light()
	for i := 0; i < len(light); i += 4 {
		sum += float64(light[i+1])
	}
	return sum / (side * side)
}

// The white furnace: what is white and matt cannot be told from the even light round
// it, and nothing gives more light than it gets.
func TestWhiteFurnace(t *testing.T) {
	r := Open(t)
	white := mgl32.Vec3{1, 1, 1}
	for _, k := range []trace.Kind{trace.Solid, trace.Paint} {
		if got := seen(t, r, ball(trace.Material{Kind: k, Colour: white, Roughness: 1}), 64); math.Abs(got-1) > 0.005 {
			t.Errorf("white of kind %d: %.4f", k, got)
		}
	}
	for _, metal := range []float32{0, 1} {
		for _, rough := range []float32{0.03, 0.1, 0.25, 0.4, 0.6, 0.69, 0.9} {
			got := seen(t, r, ball(trace.Material{Colour: white, Roughness: rough, Metal: metal}), 128)
			if got > 1.005 || got < 0.4 { // a rough metal's second bounce among its facets is left out
				t.Errorf("roughness %v, metal %v: %.4f", rough, metal, got)
			}
		}
	}
	for k := trace.Wood; k <= trace.Leaf; k++ {
		if got := seen(t, r, ball(trace.Material{Kind: k, Colour: mgl32.Vec3{0.8, 0.8, 0.8}, Roughness: 0.5}), 64); got > 1.005 {
			t.Errorf("kind %d: %.4f", k, got)
		}
	}
	for bond := range 5 {
		for surface := range 3 {
			tiling := trace.Tiling{Bond: float32(bond + 1), LengthMM: 103, WidthMM: 53, JointMM: 3,
				U: mgl32.Vec3{1, 0, 0}, V: mgl32.Vec3{0, 0, 1}, Surface: float32(surface), Grout: white, Hand: float32(bond % 2)}
			m := trace.Material{Colour: white, Roughness: 0.3, Wet: float32((bond + surface) % 2), Tiling: tiling}
			s := &trace.Scene{Materials: []trace.Material{m}, Triangles: plate(m, 0), Outside: white, Sky: trace.Sky{ToSun: mgl32.Vec3{0, 0, 1}}}
			if got := seen(t, r, s, 64); got > 1.005 {
				t.Errorf("tiles of bond %d, surface %d: %.4f", bond+1, surface, got)
			}
		}
	}
}

// A rough metal in even light gives back what the microfacets of Trowbridge and Reitz
// (GGX) with Smith's masking give by Walter and others (2007), equations 20, 33 and
// 34, integrated here over the half-sphere.
func TestRoughMetalAsPublished(t *testing.T) {
	r := Open(t)
	reflected := func(rough, turn float64) float64 {
		a2 := math.Pow(rough, 4)
		smith := func(z float64) float64 { return 2 / (1 + math.Sqrt(1+a2*(1-z*z)/(z*z))) }
		v := mgl32.Vec3{float32(math.Sin(turn)), 0, float32(math.Cos(turn))}
		sum := 0.0
		const steps = 700
		for i := range steps {
			for j := range steps {
				// Half vectors by their own angle, fine near the normal.
				u := (float64(i) + 0.5) / steps
				theta := math.Pi / 2 * u * u
				phi := 2 * math.Pi * (float64(j) + 0.5) / steps
				s, c := math.Sincos(theta)
				h := mgl32.Vec3{float32(s * math.Cos(phi)), float32(s * math.Sin(phi)), float32(c)}
				vh := float64(v.Dot(h))
				l := h.Mul(float32(2 * vh)).Sub(v)
				if vh <= 0 || l[2] <= 0 {
					continue
				}
				d := a2 / (math.Pi * math.Pow(c*c*(a2-1)+1, 2))
				// f cos dω_l with dω_l = 4 (v·h) dω_h
				sum += d * smith(float64(v[2])) * smith(float64(l[2])) * vh / float64(v[2]) * s * (math.Pi * u / steps) * (2 * math.Pi / steps)
			}
		}
		return sum
	}
	for _, rough := range []float64{0.3, 0.5, 0.8} {
		for _, deg := range []float64{0, 45, 70} {
			turn := deg * math.Pi / 180
			m := trace.Material{Colour: mgl32.Vec3{1, 1, 1}, Roughness: float32(rough), Metal: 1}
			s := &trace.Scene{Materials: []trace.Material{m}, Triangles: plate(m, turn), Outside: mgl32.Vec3{1, 1, 1}, Sky: trace.Sky{ToSun: mgl32.Vec3{0, 0, 1}}}
			if got, want := seen(t, r, s, 400), reflected(rough, turn); math.Abs(got-want) > 0.012 {
				t.Errorf("roughness %v at %v°: %.4f, want %.4f", rough, deg, got, want)
			}
		}
	}
}

// A pane before black mirrors what Fresnel's equations say of glass with an index of
// 1.52, by hand: square on ((1.52-1)/(1.52+1))² = 0.0426; at 60° the sine inside is
// 0.8660/1.52 = 0.5698 and the cosine 0.8218, so across ((0.5-1.2492)/(0.5+1.2492))² =
// 0.1834, along ((0.8218-0.76)/(0.8218+0.76))² = 0.0015, and half of both 0.0925.
func TestGlassAsPublished(t *testing.T) {
	r := Open(t)
	for deg, want := range map[float64]float64{0: 0.0426, 60: 0.0925} {
		s := &trace.Scene{Materials: []trace.Material{{Kind: trace.Glass}, {Roughness: 1}}, Outside: mgl32.Vec3{1, 1, 1}, Sky: trace.Sky{ToSun: mgl32.Vec3{0, 0, 1}}}
		s.Triangles = plate(s.Materials[0], deg*math.Pi/180)
		for _, b := range plate(s.Materials[1], 0) {
			b.Material = 1
			for k := range b.Corners {
				b.Corners[k][1] += 9000
				b.Corners[k] = mgl32.Vec3{b.Corners[k][0] * 3, b.Corners[k][1], b.Corners[k][2] * 3}
			}
			s.Triangles = append(s.Triangles, b)
		}
		if got := seen(t, r, s, 8); math.Abs(got-want) > 0.002 {
			t.Errorf("at %v°: %.4f, want %.4f", deg, got, want)
		}
	}
}

// No pixel of any room in any light and view is no number, or less than nothing.
func TestEveryPixelIsANumber(t *testing.T) {
	r := Open(t)
	for n, res := range demotest.Results(t) {
		s := NewScene(res, nil)
		cuts := section.Corner(res)
		for _, v := range Views() {
			f := Frame{Scene: s, Stage: buildup.StageTile, Width: 96, Height: 64, Light: job.Light{Kind: job.LightKinds().Choices[n%3].Value, Hour: 9}, Wet: true, Camera: CameraFor(v, res, 1.5, cuts[:]...)}
			if v == ViewCut {
				f.Caps = NewCaps(res, f.Stage, HatchMM, cuts[:]...)
			}
			if _, _, err := r.Refine(f, 0, 2, false); err != nil {
				t.Fatal(err)
			}
			light := r.sums[0].traced.picture.Light()
			any := false
			for i, l := range light {
				if f := float64(l); math.IsNaN(f) || math.IsInf(f, 0) || l < 0 {
					t.Fatalf("%s, %s: number %d is %v", res.Settled.Name, v, i, l)
				}
				any = any || l > 0.01
			}
			if !any {
				t.Errorf("%s, %s: all is black", res.Settled.Name, v)
			}
		}
	}
}
