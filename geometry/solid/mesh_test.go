package solid

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

func near3(a, b mgl64.Vec3) bool { return a.Sub(b).Len() < 1e-9 }

func TestBoxesByHand(t *testing.T) {
	b := Around(mgl64.Vec3{1, 2, 3}, 10)
	if b != (Box{mgl64.Vec3{-9, -8, -7}, mgl64.Vec3{11, 12, 13}}) || b.Centre() != (mgl64.Vec3{1, 2, 3}) {
		t.Errorf("around a point: %v, centre %v", b, b.Centre())
	}
	if got := EmptyBox().Include(mgl64.Vec3{1, 2, 3}); got != (Box{mgl64.Vec3{1, 2, 3}, mgl64.Vec3{1, 2, 3}}) {
		t.Errorf("a point alone: %v", got)
	}
	if got := b.Include(mgl64.Vec3{-20, 2, 30}); got != (Box{mgl64.Vec3{-20, -8, -7}, mgl64.Vec3{11, 12, 30}}) {
		t.Errorf("with a point outside: %v", got)
	}
	if b.Join(EmptyBox()) != b || EmptyBox().Join(b) != b {
		t.Error("joined with nothing it is another box")
	}
	point := Box{mgl64.Vec3{40, 0, 0}, mgl64.Vec3{40, 0, 0}}
	if got := b.Join(point); got != (Box{mgl64.Vec3{-9, -8, -7}, mgl64.Vec3{40, 12, 13}}) {
		t.Errorf("joined with a point: %v", got)
	}
	// Boxes touch where they share a face, an edge or a corner, on either side of
	// each axis.
	for axis := range 3 {
		for _, way := range []float64{-1, 1} {
			var shift mgl64.Vec3
			shift[axis] = 20 * way
			if o := (Box{b.Low.Add(shift), b.High.Add(shift)}); !b.Meets(o) {
				t.Errorf("side by side along axis %d, %v, they do not meet", axis, way)
			}
			shift[axis] = 20.001 * way
			if o := (Box{b.Low.Add(shift), b.High.Add(shift)}); b.Meets(o) {
				t.Errorf("apart along axis %d, %v, they meet", axis, way)
			}
		}
	}
}

func TestCutsByHand(t *testing.T) {
	// Along x it is looked at from the right, y = −∞.
	v := VerticalCut(plan.Point{10, 20}, plan.Point{1, 0})
	if v.Along != (mgl64.Vec3{1, 0, 0}) || v.Up != (mgl64.Vec3{0, 0, 1}) || v.Normal != (mgl64.Vec3{0, -1, 0}) || v.Origin != (mgl64.Vec3{10, 20, 0}) {
		t.Errorf("along x: %+v", v)
	}
	h := HorizontalCut(30)
	if h.Along != (mgl64.Vec3{1, 0, 0}) || h.Up != (mgl64.Vec3{0, 1, 0}) || h.Normal != (mgl64.Vec3{0, 0, 1}) || h.Origin != (mgl64.Vec3{0, 0, 30}) {
		t.Errorf("level: %+v", h)
	}
	askew := VerticalCut(plan.Point{10, 20}, plan.Point{0.6, 0.8})
	for _, c := range []struct {
		cut  Cut
		p    mgl64.Vec3
		side float64
		flat plan.Point
	}{
		{v, mgl64.Vec3{13, 15, 7}, 5, plan.Point{3, 7}},
		{v, mgl64.Vec3{13, 26, 7}, -6, plan.Point{3, 7}},
		{h, mgl64.Vec3{13, 15, 37}, 7, plan.Point{13, 15}},
		// (3, 4) on from the origin is 5 along; to its right is (0.8, −0.6).
		{askew, mgl64.Vec3{13, 24, 7}, 0, plan.Point{5, 7}},
		{askew, mgl64.Vec3{18, 14, 7}, 10, plan.Point{0, 7}},
	} {
		flat := c.cut.Flat(c.p)
		if math.Abs(c.cut.Side(c.p)-c.side) > 1e-9 || flat.Sub(c.flat).Len() > 1e-9 {
			t.Errorf("%v lies %v in front, at %v; want %v, %v", c.p, c.cut.Side(c.p), flat, c.side, c.flat)
		}
		if back := c.cut.Space(flat).Add(c.cut.Normal.Mul(c.side)); !near3(back, c.p) {
			t.Errorf("%v comes back as %v", c.p, back)
		}
	}
	// A box of 20 × 40 × 60: along its room diagonal it reaches
	// (10 + 20 + 30)/√3 = 34.64 to either side of its middle.
	box := Box{mgl64.Vec3{-10, -20, -30}, mgl64.Vec3{10, 20, 30}}
	for _, signs := range []mgl64.Vec3{{1, 1, 1}, {-1, 1, 1}, {1, -1, 1}, {1, 1, -1}} {
		normal := signs.Mul(1 / math.Sqrt(3))
		for _, d := range []float64{-60 / math.Sqrt(3), 60 / math.Sqrt(3)} {
			for share, want := range map[float64]bool{0: true, 0.999999: true, 1.000001: false} {
				if got := (Cut{Origin: normal.Mul(d * share), Normal: normal}).Crosses(box); got != want {
					t.Errorf("normal %v, %v of the way out: crosses %v", normal, share, got)
				}
			}
		}
	}
	for z, want := range map[float64]bool{-30.001: false, -30: true, 30: true, 30.001: false} {
		if got := HorizontalCut(z).Crosses(box); got != want {
			t.Errorf("level %v crosses: %v", z, got)
		}
	}
}

// cube is a block of 1 × 1 × 1 from the origin.
func cube(t *testing.T) *Mesh {
	return Block(sheet(t, plan.Rectangle(plan.Point{0, 0}, plan.Point{1, 1})), 0, 1).Mesh()
}

// A plane square to the room diagonal of a cube cuts it, by hand, in its middle
// in a regular hexagon of sides √½, area 3√3/4, and a third up in a triangle of
// sides √2, area √3/2.
func TestSectionsOfACubeOnTheSkew(t *testing.T) {
	normal := mgl64.Vec3{1, 1, 1}.Normalize()
	along := mgl64.Vec3{1, -1, 0}.Normalize()
	for sum, want := range map[float64]float64{1.5: 3 * math.Sqrt(3) / 4, 0.9999999: math.Sqrt(3) / 2, 0.5: math.Sqrt(3) / 8, 2.5: math.Sqrt(3) / 8} {
		for _, way := range []float64{1, -1} {
			n := normal.Mul(way)
			cut := Cut{Origin: mgl64.Vec3{sum, 0, 0}, Along: along, Up: n.Cross(along), Normal: n}
			got := slice(t, cube(t), cut)
			if len(got) != 1 || math.Abs(got.Area()-want) > 1e-6 {
				t.Errorf("where x + y + z = %v, seen from side %v: %v in %d pieces, want %v", sum, way, got.Area(), len(got), want)
			}
		}
	}
}

// A corner on the plane counts as in front of it: the top face shows, the
// underside does not.
func TestSectionsInAFace(t *testing.T) {
	m := cube(t)
	for z, want := range map[float64]float64{-0.001: 0, 0: 0, 1e-9: 1, 0.5: 1, 1: 1, 1.001: 0} {
		if got := slice(t, m, HorizontalCut(z)).Area(); math.Abs(got-want) > 1e-8 {
			t.Errorf("at %v the section has %v, want %v", z, got, want)
		}
	}
}

// A pipe's section has its bore as a hole; a rod within it is an island in that;
// a body twice as wide beside it is a piece of its own. Areas by hand from
// squares: 100² − 60² + 20² and 200².
func TestSectionsAreNested(t *testing.T) {
	square := func(x, half float64) plan.Region {
		return plan.Rectangle(plan.Point{x - half, -half}, plan.Point{x + half, half})
	}
	var sh plan.Shaper
	pipe := sh.Subtract(square(0, 50), square(0, 30), message.Of("shape.pipe"))
	body := Compound{Block(sheet(t, pipe), 0, 10), Block(sheet(t, square(0, 10)), 0, 10), Block(sheet(t, square(300, 100)), 0, 10)}
	got := slice(t, body.Mesh(), HorizontalCut(5))
	holes := 0
	for _, p := range got {
		holes += len(p.Holes)
	}
	if want := 6400.0 + 400 + 40000; len(got) != 3 || holes != 1 || math.Abs(got.Area()-want) > 1e-6 {
		t.Errorf("%d pieces with %d holes and %v mm², want 3 with 1 and %v", len(got), holes, got.Area(), want)
	}
	ring := func(half float64) plan.Ring { return square(0, half)[0].Outer }
	// The hole goes to the least ring around it, whatever comes first; one that
	// nothing surrounds is left out, as is one larger than what it lies in.
	for name, c := range map[string]struct {
		rings []plan.Ring
		holes map[float64]int // by the half width of the outer ring
	}{
		"in two":         {[]plan.Ring{ring(50), ring(30).Reversed(), ring(40)}, map[float64]int{50: 0, 40: 1}},
		"in two, turned": {[]plan.Ring{ring(40), ring(50), ring(30).Reversed()}, map[float64]int{50: 0, 40: 1}},
		"in none":        {[]plan.Ring{ring(50), square(300, 20)[0].Outer.Reversed()}, map[float64]int{50: 0}},
		"larger":         {[]plan.Ring{ring(20), ring(30).Reversed(), ring(50)}, map[float64]int{20: 0, 50: 1}},
		"as large":       {[]plan.Ring{ring(30), ring(30).Reversed()}, map[float64]int{30: 0}},
		"two":            {[]plan.Ring{ring(50), square(-20, 5)[0].Outer.Reversed(), square(20, 5)[0].Outer.Reversed()}, map[float64]int{50: 2}},
	} {
		out := nest(c.rings)
		if len(out) != len(c.holes) {
			t.Errorf("%s: %d pieces", name, len(out))
		}
		for _, p := range out {
			half := math.Sqrt(p.Outer.SignedArea()) / 2
			if want, ok := c.holes[math.Round(half)]; !ok || len(p.Holes) != want {
				t.Errorf("%s: the ring of %v has %d holes, want %d", name, half, len(p.Holes), want)
			}
		}
	}
}

// A section of less than a millionth of a square millimetre is none.
func TestLeastSection(t *testing.T) {
	for side, want := range map[float64]int{0.0009: 0, 0.00105: 1} {
		m := Block(sheet(t, plan.Rectangle(plan.Point{0, 0}, plan.Point{side, side})), 0, 1).Mesh()
		if got := slice(t, m, HorizontalCut(0.5)); len(got) != want {
			t.Errorf("%v wide: %d pieces, want %d", side, len(got), want)
		}
	}
}

// A mesh is closed when every edge is walked once each way: not with a triangle
// missing, doubled or turned.
func TestOnlyClosedMeshesAreClosed(t *testing.T) {
	m := cube(t)
	if err := m.CheckClosed(); err != nil {
		t.Error(err)
	}
	for i, tri := range m.Triangles {
		rest := append(append([][3]int32(nil), m.Triangles[:i]...), m.Triangles[i+1:]...)
		for name, triangles := range map[string][][3]int32{
			"missing": rest,
			"doubled": append(append([][3]int32(nil), m.Triangles...), tri),
			"turned":  append(append([][3]int32(nil), rest...), [3]int32{tri[0], tri[2], tri[1]}),
		} {
			if (&Mesh{m.Vertices, triangles}).CheckClosed() == nil {
				t.Errorf("with triangle %d %s it is closed", i, name)
			}
		}
	}
	// Two cubes in one place are two shells in other corners, but not in the same.
	twice := &Mesh{m.Vertices, append(append([][3]int32(nil), m.Triangles...), m.Triangles...)}
	if twice.CheckClosed() == nil {
		t.Error("a cube twice over the same corners is closed")
	}
}

// By hand: a tetrahedron of edges 6 along the axes has 36 mm³, wherever it
// stands and with corners to spare; it has the Euler number 2, two have 4.
func TestVolumeAndEulerNumberByHand(t *testing.T) {
	for _, at := range []mgl64.Vec3{{}, {1000, -2000, 300}} {
		m := &Mesh{Vertices: []mgl64.Vec3{at, at.Add(mgl64.Vec3{6, 0, 0}), at.Add(mgl64.Vec3{0, 6, 0}), at.Add(mgl64.Vec3{0, 0, 6}), {7, 7, 7}},
			Triangles: [][3]int32{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}}}
		if got := m.Volume(); math.Abs(got-36) > 1e-9 || m.EulerNumber() != 2 || m.CheckClosed() != nil {
			t.Errorf("at %v: volume %v, Euler number %d, %v", at, got, m.EulerNumber(), m.CheckClosed())
		}
		both := &Mesh{}
		both.append(m)
		both.append(m)
		if got := both.Volume(); math.Abs(got-72) > 1e-9 || both.EulerNumber() != 4 || both.CheckClosed() != nil {
			t.Errorf("two at %v: volume %v, Euler number %d, %v", at, got, both.EulerNumber(), both.CheckClosed())
		}
	}
	if (&Mesh{}).Volume() != 0 {
		t.Error("nothing has a volume")
	}
}
