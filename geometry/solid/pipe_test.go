package solid

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry/plan"
)

// A circle of radius 20 stands as a polygon of so many sides that each lies
// within 0.05 of it: π/arccos(1 − 0.05/20) = 44.4, in fours 48. Its area is
// 24·sin(7.5°)·20² = 24·0.1305262·400.
const rodArea = 24 * 0.13052619222 * 400

func TestTubesByHand(t *testing.T) {
	straight := []mgl64.Vec3{{0, 0, 0}, {300, 0, 0}}
	// 300 + 400 + 100 long: along x, then along y, then up.
	turned := []mgl64.Vec3{{0, 0, 0}, {300, 0, 0}, {300, 400, 0}, {300, 400, 100}}
	for name, c := range map[string]struct {
		tube   Tube
		volume float64
		bounds Box
	}{
		"rod":  {Tube{straight, 20, 0}, rodArea * 300, Box{mgl64.Vec3{-28.284271247, -28.284271247, -28.284271247}, mgl64.Vec3{328.284271247, 28.284271247, 28.284271247}}},
		"pipe": {Tube{straight, 20, 10}, rodArea * 300 * 3 / 4, Box{mgl64.Vec3{-28.284271247, -28.284271247, -28.284271247}, mgl64.Vec3{328.284271247, 28.284271247, 28.284271247}}},
		"run":  {Tube{turned, 20, 10}, rodArea * 800 * 3 / 4, Box{mgl64.Vec3{-28.284271247, -28.284271247, -28.284271247}, mgl64.Vec3{328.284271247, 428.284271247, 128.284271247}}},
	} {
		if got := c.tube.Volume(); math.Abs(got-c.volume) > 1e-4 {
			t.Errorf("%s: volume %v, want %v", name, got, c.volume)
		}
		if got := c.tube.Bounds(); got.Low.Sub(c.bounds.Low).Len() > 1e-6 || got.High.Sub(c.bounds.High).Len() > 1e-6 {
			t.Errorf("%s: bounds %v, want %v", name, got, c.bounds)
		}
		m := c.tube.Mesh()
		for i, v := range m.Vertices {
			// Every corner lies a radius off the line of a leg it ends.
			nearest := math.Inf(1)
			for k := 1; k < len(c.tube.Path); k++ {
				a, d := c.tube.Path[k-1], c.tube.Path[k].Sub(c.tube.Path[k-1]).Normalize()
				off := v.Sub(a).Cross(d).Len()
				nearest = math.Min(nearest, math.Min(math.Abs(off-20), math.Abs(off-c.tube.InsideRadiusMM)))
			}
			if nearest > 1e-9 {
				t.Errorf("%s: corner %d, %v, lies %v off both its radii", name, i, v, nearest)
				break
			}
		}
	}
	// A path of no legs has no body.
	for _, path := range [][]mgl64.Vec3{nil, {{1, 2, 3}}} {
		if m := (Tube{path, 20, 10}).Mesh(); len(m.Triangles)+len(m.Vertices) > 0 || (Tube{path, 20, 10}).Volume() != 0 {
			t.Errorf("a path of %d points has a body", len(path))
		}
	}
	// Its first corner stands half a side up from across, so that its sides lie
	// square to across and upright.
	sin, cos := math.Sincos(math.Pi / 48)
	if v := (Tube{straight, 20, 0}).Mesh().Vertices[0]; !near3(v, mgl64.Vec3{0, 20 * cos, 20 * sin}) {
		t.Errorf("the first corner lies at %v", v)
	}
	// Ends are square to their legs, and the mitre halves the turn.
	m := Tube{turned, 20, 0}.Mesh()
	for i, v := range m.Vertices[:48] {
		if math.Abs(v.X()) > 1e-9 {
			t.Errorf("corner %d of the first end lies at %v", i, v)
		}
	}
	for i, v := range m.Vertices[48:96] {
		if math.Abs(v.X()-300+v.Y()) > 1e-9 {
			t.Errorf("corner %d of the mitre lies at %v", i, v)
		}
	}
	for i, v := range m.Vertices[144:] {
		if math.Abs(v.Z()-100) > 1e-9 {
			t.Errorf("corner %d of the last end lies at %v", i, v)
		}
	}
}

// Any rod or pipe along a path of turns up to a right angle is closed, keeps its
// volume and its box, and its Euler number: 2 for a rod, 0 for a pipe.
func TestAnyTubes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		path := []mgl64.Vec3{{0, 0, 0}}
		direction := mgl64.Vec3{1, 0, 0}
		for range rapid.IntRange(1, 4).Draw(t, "legs") {
			turn := rapid.Float64Range(-math.Pi/2, math.Pi/2).Draw(t, "turn")
			next := mgl64.Rotate3DZ(turn).Mul3x1(direction)
			next[2] = rapid.Float64Range(-0.3, 0.3).Draw(t, "fall")
			if next = next.Normalize(); next.Dot(direction) < 0 {
				next = direction
			}
			direction = next
			path = append(path, path[len(path)-1].Add(direction.Mul(rapid.Float64Range(100, 500).Draw(t, "length"))))
		}
		tube := Tube{path, rapid.Float64Range(10, 40).Draw(t, "outside"), 0}
		euler := 2
		if rapid.Bool().Draw(t, "hollow") {
			tube.InsideRadiusMM, euler = tube.OutsideRadiusMM*rapid.Float64Range(0.3, 0.95).Draw(t, "inside"), 0
		}
		m := tube.Mesh()
		if err := m.CheckClosed(); err != nil {
			t.Fatal(err)
		}
		if got := m.EulerNumber(); got != euler {
			t.Fatalf("Euler number %d, want %d", got, euler)
		}
		if got, want := m.Volume(), tube.Volume(); math.Abs(got-want) > 1e-6*want {
			t.Fatalf("volume of the mesh %v, of the tube %v", got, want)
		}
		b, mb := tube.Bounds(), m.Bounds()
		if b.Join(mb) != b {
			t.Fatalf("mesh %v leaves its box %v", mb, b)
		}
	})
}

// across gives two directions square to a third, right-handed, the second as
// upright as can be: up to where the third is itself all but upright.
func TestAcrossByHand(t *testing.T) {
	for name, c := range map[string]struct{ d, u, v mgl64.Vec3 }{
		"along x":  {mgl64.Vec3{1, 0, 0}, mgl64.Vec3{0, 1, 0}, mgl64.Vec3{0, 0, 1}},
		"along y":  {mgl64.Vec3{0, 1, 0}, mgl64.Vec3{-1, 0, 0}, mgl64.Vec3{0, 0, 1}},
		"falling":  {mgl64.Vec3{0.8, 0, -0.6}, mgl64.Vec3{0, 1, 0}, mgl64.Vec3{0.6, 0, 0.8}},
		"upright":  {mgl64.Vec3{0, 0, 1}, mgl64.Vec3{1, 0, 0}, mgl64.Vec3{0, 1, 0}},
		"downward": {mgl64.Vec3{0, 0, -1}, mgl64.Vec3{-1, 0, 0}, mgl64.Vec3{0, 1, 0}},
		"steep":    {mgl64.Vec3{math.Sqrt(1 - 0.985*0.985), 0, 0.985}, mgl64.Vec3{0, 1, 0}, mgl64.Vec3{-0.985, 0, math.Sqrt(1 - 0.985*0.985)}},
		"steeper":  {mgl64.Vec3{math.Sqrt(1 - 0.995*0.995), 0, 0.995}, mgl64.Vec3{0.995, 0, -math.Sqrt(1 - 0.995*0.995)}, mgl64.Vec3{0, 1, 0}},
		"as steep": {mgl64.Vec3{math.Sqrt(1 - 0.995*0.995), 0, -0.995}, mgl64.Vec3{-0.995, 0, -math.Sqrt(1 - 0.995*0.995)}, mgl64.Vec3{0, 1, 0}},
	} {
		if u, v := across(c.d); !near3(u, c.u) || !near3(v, c.v) {
			t.Errorf("%s: %v and %v, want %v and %v", name, u, v, c.u, c.v)
		}
	}
}

// A reducer by hand: from radius 25 to 20 outside over 60, its bore from 23 to
// 18. The polygon for 25: π/arccos(1 − 0.05/25) = 49.7, in fours 52, of
// k = 26·sin(360°/52) = 26·0.1205367 r². Volume k·60/3·((25² + 25·20 + 20²) −
// (23² + 23·18 + 18²)).
func TestTaperByHand(t *testing.T) {
	const k = 26 * 0.12053668
	want := k * 20 * (1525 - 1267)
	for _, from := range []mgl64.Vec3{{0, 0, 23}, {1000, -500, 80}} {
		for _, way := range []mgl64.Vec3{{60, 0, -5}, {0, 60, -5}, {36, -48, 9}} {
			taper := NewTaper(from, from.Add(way), 25, 20, 23, 18)
			if got := taper.Volume(); math.Abs(got-want) > 1e-3 {
				t.Errorf("along %v: volume %v, want %v", way, got, want)
			}
			back := NewTaper(from.Add(way), from, 20, 25, 18, 23)
			if got := back.Volume(); math.Abs(got-want) > 1e-3 {
				t.Errorf("widening along %v: volume %v, want %v", way, got, want)
			}
			b := Box{from.Sub(mgl64.Vec3{25, 25, 25}), from.Add(mgl64.Vec3{25, 25, 25})}.Join(Box{from.Add(way).Sub(mgl64.Vec3{20, 20, 20}), from.Add(way).Add(mgl64.Vec3{20, 20, 20})})
			if got := taper.Bounds(); got.Low.Sub(b.Low).Len() > 1e-9 || got.High.Sub(b.High).Len() > 1e-9 {
				t.Errorf("along %v: bounds %v, want %v", way, got, b)
			}
			// Its ends are upright, square to the way in plan, each corner a radius
			// off their middles.
			flat := mgl64.Vec3{way.X(), way.Y(), 0}
			m := taper.Mesh()
			if first := math.Asin(m.Vertices[0].Sub(from).Z() / 25); math.Abs(first-math.Pi/52) > 1e-9 {
				t.Errorf("along %v: its first corner stands %v up from across", way, first)
			}
			if len(m.Vertices) != 4*52 {
				t.Errorf("it has %d corners", len(m.Vertices))
				continue
			}
			for i, v := range m.Vertices {
				centre, radius := from, []float64{25, 20, 23, 18}[i/52]
				if i/52%2 == 1 {
					centre = from.Add(way)
				}
				if d := v.Sub(centre); math.Abs(d.Dot(flat)) > 1e-6 || math.Abs(d.Len()-radius) > 1e-9 {
					t.Errorf("along %v: corner %d lies %v off the middle of its end", way, i, d)
					break
				}
			}
			if err := m.CheckClosed(); err != nil {
				t.Error(err)
			}
		}
	}
}

// The box of a prism is as high as its top is at its highest corner, and as low
// as the highest of its lower planes' lowest corners. By hand over 300 × 200.
func TestPrismBoundsByHand(t *testing.T) {
	board := sheet(t, plan.Rectangle(plan.Point{-100, 0}, plan.Point{200, 200}))
	valley := Surface{{10, -0.1, 0}, {10, 0.05, 0}} // up to 20 at x = −100 and 200
	for name, c := range map[string]struct {
		p    Prism
		want Box
	}{
		"valley on a level": {Upright(board, Level(-3), valley), Box{mgl64.Vec3{-100, 0, -3}, mgl64.Vec3{200, 200, 20}}},
		// Each plane's least is 0, at the other end from the other's.
		"over a valley": {Upright(board, Surface{{10, -0.05, 0}, {5, 0.05, 0}}, Level(30)), Box{mgl64.Vec3{-100, 0, 0}, mgl64.Vec3{200, 200, 30}}},
		"over two":      {Upright(board, Surface{{Level: 1}, {Level: 4}, {Level: 2}}, Level(30)), Box{mgl64.Vec3{-100, 0, 4}, mgl64.Vec3{200, 200, 30}}},
		// Local z points along −y there: from y = −5 by 27.
		"upright": {Prism{UprightFrame(mgl64.Vec3{0, -5, 7}, plan.Point{1, 0}), board, Level(0), Level(27)}, Box{mgl64.Vec3{-100, -32, 7}, mgl64.Vec3{200, -5, 207}}},
	} {
		if got := c.p.Bounds(); got.Low.Sub(c.want.Low).Len() > 1e-9 || got.High.Sub(c.want.High).Len() > 1e-9 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	if got := Block(Sheet{}, 0, 5).Bounds(); got != EmptyBox() {
		t.Errorf("of nothing: %v", got)
	}
	two := Compound{Block(board, 0, 5), Block(board, 20, 25)}
	if got := two.Bounds(); got != (Box{mgl64.Vec3{-100, 0, 0}, mgl64.Vec3{200, 200, 25}}) || two.Volume() != 600000 {
		t.Errorf("two: %v, %v mm³", got, two.Volume())
	}
}
