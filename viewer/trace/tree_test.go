package trace

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl32"
	"pgregory.net/rapid"
)

// meet is the distance to a triangle along a ray, by Möller and Trumbore (1997).
func meet(from, d mgl32.Vec3, t Triangle) (float32, bool) {
	e1, e2 := t.Corners[1].Sub(t.Corners[0]), t.Corners[2].Sub(t.Corners[0])
	p := d.Cross(e2)
	det := e1.Dot(p)
	if det == 0 {
		return 0, false
	}
	s := from.Sub(t.Corners[0])
	u := s.Dot(p) / det
	q := s.Cross(e1)
	v := d.Dot(q) / det
	far := e2.Dot(q) / det
	return far, u >= 0 && v >= 0 && u+v <= 1 && far > 0
}

// walk follows a ray through the packed tree as the shader does, and counts the
// triangles it tried.
func walk(nodes []float32, each int, order []int, all []Triangle, from, d mgl32.Vec3) (nearest int, best float32, tried int) {
	octant := 0
	for k := range 3 {
		if d[k] < 0 {
			octant |= 1 << k
		}
	}
	nearest, best = -1, float32(math.Inf(1))
	for i, start := 0, octant*each; i < each; {
		n := nodes[8*(start+i) : 8*(start+i)+8]
		near, far := float32(0), best
		for k := range 3 {
			a, b := (n[k]-from[k])/d[k], (n[4+k]-from[k])/d[k]
			near, far = max(near, min(a, b)), min(far, max(a, b))
		}
		if near > far {
			i = int(n[3])
			continue
		}
		if leaf := int(n[7]); leaf >= 0 {
			for k := range leaf & (1<<leafCountBits - 1) {
				tried++
				if t, ok := meet(from, d, all[order[leaf>>leafCountBits+k]]); ok && t < best {
					nearest, best = order[leaf>>leafCountBits+k], t
				}
			}
		}
		i++
	}
	return nearest, best, tried
}

// A ray through the tree meets what it meets when every triangle is tried.
func TestTreeAgainstEveryTriangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.Float32Range(-1000, 1000)
		point := rapid.Custom(func(t *rapid.T) mgl32.Vec3 {
			return mgl32.Vec3{number.Draw(t, "x"), number.Draw(t, "y"), number.Draw(t, "z")}
		})
		small := rapid.Float32Range(-80, 80)
		var all []Triangle
		for range rapid.IntRange(1, 90).Draw(t, "count") {
			a := point.Draw(t, "corner")
			if len(all) > 0 && rapid.IntRange(0, 3).Draw(t, "same place") == 0 {
				a = all[0].Corners[0] // many on one place
			}
			var tr Triangle
			tr.Corners[0] = a
			for k := 1; k < 3; k++ {
				tr.Corners[k] = a.Add(mgl32.Vec3{small.Draw(t, "x"), small.Draw(t, "y"), small.Draw(t, "z")})
			}
			all = append(all, tr)
		}
		tr := plant(all)
		nodes, each := tr.pack()
		from, at := point.Draw(t, "from"), all[0].Corners[0].Add(all[0].Corners[1]).Add(all[0].Corners[2]).Mul(1.0/3)
		d := at.Sub(from)
		if d.Len() < 1 || d[0] == 0 || d[1] == 0 || d[2] == 0 {
			t.Skip("no direction")
		}
		d = d.Normalize()
		want := float32(math.Inf(1))
		for _, tri := range all {
			if far, ok := meet(from, d, tri); ok {
				want = min(want, far)
			}
		}
		if _, got, _ := walk(nodes, each, tr.order, all, from, d); got != want {
			t.Fatalf("the tree meets at %v, the triangles at %v", got, want)
		}
	})
}

// Every triangle is in one leaf, and of a ball of many a ray tries few.
func TestTreeIsWorthItsTrouble(t *testing.T) {
	var all []Triangle
	const around = 80
	at := func(i, j int) mgl32.Vec3 {
		st, ct := math.Sincos(math.Pi * float64(i) / around)
		sp, cp := math.Sincos(2 * math.Pi * float64(j) / around)
		return mgl32.Vec3{float32(1000 * st * cp), float32(1000 * st * sp), float32(1000 * ct)}
	}
	for i := range around {
		for j := range around {
			all = append(all, Triangle{Corners: [3]mgl32.Vec3{at(i, j), at(i+1, j), at(i+1, j+1)}}, Triangle{Corners: [3]mgl32.Vec3{at(i, j), at(i+1, j+1), at(i, j+1)}})
		}
	}
	tr := plant(all)
	seen := make([]int, len(all))
	for _, i := range tr.order {
		seen[i]++
	}
	for i, n := range seen {
		if n != 1 {
			t.Fatalf("triangle %d is in %d leaves", i, n)
		}
	}
	nodes, each := tr.pack()
	if _, _, tried := walk(nodes, each, tr.order, all, mgl32.Vec3{3000, 40, 70}, mgl32.Vec3{-1, 0.01, 0.02}.Normalize()); tried > 40 {
		t.Errorf("a ray tries %d of %d triangles", tried, len(all))
	}
}

func BenchmarkTree(b *testing.B) {
	var all []Triangle
	const side = 100 // 20 000 triangles
	for i := range side {
		for j := range side {
			p := mgl32.Vec3{float32(i * 30), float32(j * 30), float32(i * j % 17)}
			all = append(all, Triangle{Corners: [3]mgl32.Vec3{p, p.Add(mgl32.Vec3{30, 0, 0}), p.Add(mgl32.Vec3{0, 30, 9})}}, Triangle{Corners: [3]mgl32.Vec3{p, p.Add(mgl32.Vec3{-30, 0, 0}), p.Add(mgl32.Vec3{0, -30, 9})}})
		}
	}
	for b.Loop() {
		plant(all).pack()
	}
}
