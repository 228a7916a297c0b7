package trace

import "github.com/go-gl/mathgl/mgl32"

// texel adds a vector and a number as one texel.
func texel(to *[]float32, v mgl32.Vec3, w float32) { *to = append(*to, v[0], v[1], v[2], w) }

// packMaterials lays materials out for the shader; those in hidden are not seen by
// the eye.
func packMaterials(all []Material, hidden []bool) (out []float32) {
	for i, m := range all {
		unseen := float32(0)
		if i < len(hidden) && hidden[i] {
			unseen = 1
		}
		t := m.Tiling
		texel(&out, m.Colour, m.Roughness)
		texel(&out, mgl32.Vec3{m.Metal, kindNumber(m.Kind), m.Wet}, unseen)
		texel(&out, mgl32.Vec3{t.LengthMM, t.WidthMM, t.JointMM}, t.Bond)
		texel(&out, t.Origin, t.Surface)
		texel(&out, t.U, 0)
		texel(&out, t.V, 0)
		texel(&out, t.Grout, t.Hand)
		texel(&out, mgl32.Vec3{}, 0)
	}
	return out
}

// kindNumber is how the shader knows a kind.
func kindNumber(k Kind) float32 { return float32(k) }

// packTriangles lays triangles and their normals out in the tree's order.
func packTriangles(s *Scene, order []int) (triangles, normals []float32) {
	for _, i := range order {
		t := s.Triangles[i]
		glass := float32(0)
		if s.Materials[t.Material].Kind == Glass {
			glass = 1
		}
		texel(&triangles, t.Corners[0], float32(t.Material))
		texel(&triangles, t.Corners[1].Sub(t.Corners[0]), glass)
		texel(&triangles, t.Corners[2].Sub(t.Corners[0]), t.LiftMM)
		for _, n := range t.Normals {
			texel(&normals, n, float32(t.Material))
		}
	}
	return triangles, normals
}

// packLamps lays lamps and then windows out for the shader.
func packLamps(s *Scene) (out []float32, count int) {
	const sphere, window = 1, 2
	add := func(centre, u, v, radiance mgl32.Vec3, beam, kind float32) {
		texel(&out, centre, beam)
		texel(&out, u, kind)
		texel(&out, v, 0)
		texel(&out, radiance, 0)
	}
	for _, w := range s.Windows {
		add(w.Centre, w.U, w.V, mgl32.Vec3{}, 0, window)
	}
	for _, l := range s.Lamps {
		kind := float32(0)
		if l.V == (mgl32.Vec3{}) {
			kind = sphere
		}
		add(l.Centre, l.U, l.V, l.Radiance, l.Beam, kind)
	}
	return out, len(s.Windows) + len(s.Lamps)
}
