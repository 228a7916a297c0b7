package viewer

import (
	"testing"

	"github.com/go-gl/mathgl/mgl32"
	"underfall/viewer/trace"
)

// No light comes through a wall that stands between two arms of a room by way of its volume. Of all faces only the one
// side of that wall is white and lit, and no place of the other arm sees it, as all of them lie behind its plane. So
// nothing that bounced may light the wall's other side, but near its end, where the grid's places in the opening are
// within two steps.
func TestNoLightComesThroughAWall(t *testing.T) {
	t.Run("read by the shader", func(t *testing.T) {
		noLightComesThrough(t, tracingWith(t, func(a trace.Abilities) trace.Abilities { a.Filters = false; return a }))
	})
	t.Run("read by the driver", func(t *testing.T) {
		noLightComesThrough(t, tracingWith(t, func(a trace.Abilities) trace.Abilities {
			if !a.Filters || !a.Computes {
				t.Skipf("the driver is able to %+v", a)
			}
			return a
		}))
	})
}

func noLightComesThrough(t *testing.T, r *Renderer) {
	defer r.close()
	outline := []mgl32.Vec2{{0, 0}, {4000, 0}, {4000, 4000}, {2100, 4000}, {2100, 1000}, {2000, 1000}, {2000, 4000}, {0, 4000}}
	const highMM, whiteWall, seenWall = 2400, 3, 5
	lamp := trace.Lamp{Centre: mgl32.Vec3{2700, 3000, 1200}, U: mgl32.Vec3{0, 0, 300}, V: mgl32.Vec3{0, 300, 0}}
	lamp.Radiance = mgl32.Vec3{20, 20, 20}
	s := &trace.Scene{Sky: trace.Sky{ToSun: mgl32.Vec3{0, 0, 1}}, Lamps: []trace.Lamp{lamp},
		Materials: []trace.Material{{Roughness: 1}, {Colour: mgl32.Vec3{0.9, 0.9, 0.9}, Roughness: 1}}}
	quad := func(material int, n, a, b, c, d mgl32.Vec3) {
		for _, k := range [][3]mgl32.Vec3{{a, b, c}, {a, c, d}} {
			s.Triangles = append(s.Triangles, trace.Triangle{Corners: k, Normals: [3]mgl32.Vec3{n, n, n}, Material: material})
		}
	}
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		along := b.Sub(a).Normalize()
		white := 0
		if i == whiteWall || i == seenWall {
			white = 1
		}
		quad(white, mgl32.Vec3{-along[1], along[0], 0}, a.Vec3(0), b.Vec3(0), b.Vec3(highMM), a.Vec3(highMM))
	}
	for z, n := range map[float32]float32{0: 1, highMM: -1} {
		for _, k := range [][4]float32{{0, 0, 4000, 1000}, {0, 1000, 2000, 4000}, {2100, 1000, 4000, 4000}} {
			quad(0, mgl32.Vec3{0, 0, n}, mgl32.Vec3{k[0], k[1], z}, mgl32.Vec3{k[2], k[1], z}, mgl32.Vec3{k[2], k[3], z}, mgl32.Vec3{k[0], k[3], z})
		}
	}
	room := r.tracer.Load(s, trace.NewVolume(outline, 0, highMM, func(_, _ float32) float32 { return highMM }), mgl32.Vec3{})
	defer room.Free()
	for room.Passes() < trace.EnoughPasses {
		if err := r.tracer.Bake(room, wholePass); err != nil {
			t.Fatal(err)
		}
	}
	// Light that a wall has from the volume alone, along it.
	const width, height = 40, 6
	light := func(eye, forward mgl32.Vec3) (out [width]float64) {
		var p trace.Picture
		defer p.Free()
		v := trace.View{Eye: eye, Forward: forward, Right: mgl32.Vec3{0, 1, 0}, Up: mgl32.Vec3{0, 0, 0.1}, NearMM: 1}
		for range 4 {
			if err := r.tracer.Sample(&p, room, v, width, height, height, 0); err != nil {
				t.Fatal(err)
			}
		}
		for i, l := range p.Light() {
			if i%4 == 1 {
				out[i/4%width] += float64(l) / height
			}
		}
		return out
	}
	most := 0.0
	for _, l := range light(mgl32.Vec3{3300, 2800, 1200}, mgl32.Vec3{-1, 0, 0}) {
		most = max(most, l)
	}
	if most < 0.1 {
		t.Fatalf("the white wall has %v only", most)
	}
	for i, l := range light(mgl32.Vec3{800, 2800, 1200}, mgl32.Vec3{1, 0, 0}) {
		const nearEndMM = 500
		mm := 600 + (float64(i)+0.5)/width*2400 // from the wall's end
		if mm > nearEndMM && l > 1e-6 {
			t.Errorf("%.0f mm from the wall's end: %.5f, and %.3f on its white side", mm, l, most)
		}
	}
}
