package solid

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// checkShape is the one check every body must pass: a closed outward mesh of
// the expected topology whose volume is the shape's own, and sections whose
// areas add up to it.
func checkShape(t interface {
	Helper()
	Fatalf(string, ...any)
}, s Shape, euler int) {
	t.Helper()
	m := s.Mesh()
	if err := m.CheckClosed(); err != nil {
		t.Fatalf("mesh not closed: %v", err)
	}
	if got := m.EulerNumber(); euler != anyEuler && got != euler {
		t.Fatalf("Euler number %d, want %d", got, euler)
	}
	want := s.Volume()
	if got := m.Volume(); math.Abs(got-want) > 1e-6*math.Max(1, want) {
		t.Fatalf("mesh volume %.6f, shape volume %.6f", got, want)
	}
	b, mb := s.Bounds(), m.Bounds()
	for i := range 3 {
		if mb.Low[i] < b.Low[i]-1e-6 || mb.High[i] > b.High[i]+1e-6 {
			t.Fatalf("mesh %v leaves its box %v", mb, b)
		}
	}
	// Midpoint rule over sections: its error falls with the square of the step.
	for _, axis := range []int{0, 1, 2} {
		const steps = 200
		low, high := mb.Low[axis], mb.High[axis]
		step := (high - low) / steps
		sum := 0.0
		for i := range steps {
			at := low + (float64(i)+0.5)*step
			var cut Cut
			switch axis {
			case 0:
				cut = VerticalCut(plan.Point{at, 0}, plan.Point{0, 1})
			case 1:
				cut = VerticalCut(plan.Point{0, at}, plan.Point{1, 0})
			default:
				cut = HorizontalCut(at)
			}
			sum += slice(t, m, cut).Area() * step
		}
		if math.Abs(sum-want) > 0.02*want {
			t.Fatalf("sections along axis %d add up to %.1f, volume is %.1f", axis, sum, want)
		}
	}
}

const anyEuler = math.MinInt

// slice is the section of a body that can be cut.
func slice(t interface{ Fatalf(string, ...any) }, m *Mesh, c Cut) plan.Region {
	r, err := m.Slice(c)
	if err != nil {
		t.Fatalf("section: %v", err)
	}
	return r
}

// sheet covers a region that can be covered.
func sheet(t interface{ Fatal(...any) }, r plan.Region) Sheet {
	var sh plan.Shaper
	s := Cover(&sh, r, message.Of("shape.board"))
	if sh.Err() != nil {
		t.Fatal(sh.Err())
	}
	return s
}

func TestShapes(t *testing.T) {
	var sh plan.Shaper
	board := plan.Rectangle(plan.Point{0, 0}, plan.Point{300, 200})
	hole := plan.FromRing(plan.Circle(plan.Point{150, 100}, 40, ChordErrorMM))
	plate, drilled := Cover(&sh, board, message.Of("shape.board")), Cover(&sh, sh.Subtract(board, hole, message.Of("shape.drilled-board")), message.Of("shape.drilled-board"))
	if sh.Err() != nil {
		t.Fatal(sh.Err())
	}
	valley := Surface{Through(plan.Point{150, 0}, 30, plan.Point{-1, 0}, 0.1), Through(plan.Point{150, 0}, 30, plan.Point{1, 0}, 0.05)}
	pyramid := Surface{
		Through(plan.Point{120, 0}, 20, plan.Point{-1, 0}, 0.05), Through(plan.Point{180, 0}, 20, plan.Point{1, 0}, 0.05),
		Through(plan.Point{0, 80}, 20, plan.Point{0, -1}, 0.06), Through(plan.Point{0, 120}, 20, plan.Point{0, 1}, 0.06), Plane{Level: 20}}
	for name, c := range map[string]struct {
		shape Shape
		euler int
	}{
		"block":             {Block(plate, 0, 50), 2},
		"block with hole":   {Block(drilled, 0, 50), 0},
		"single fall":       {Upright(plate, Level(0), Surface{Through(plan.Point{}, 12, plan.Point{0, 1}, 1.0/40)}), 2},
		"valley":            {Upright(plate, Level(0), valley), 2},
		"four-way fall":     {Upright(drilled, Level(0), pyramid), 0},
		"membrane":          {Upright(plate, pyramid, pyramid.Raised(1)), 2},
		"wall with a core":  {Prism{UprightFrame(mgl64.Vec3{10, 20, 5}, plan.Point{0.6, 0.8}), drilled, Level(0), Level(100)}, 0},
		"two boards":        {Compound{Block(plate, 0, 50), Block(plate, 50, 60)}, 4},
		"pipe":              {Tube{[]mgl64.Vec3{{0, 0, 0}, {300, 0, -6}, {400, 100, -8}, {400, 300, -10}}, 20, 18}, 0},
		"rod straight down": {Tube{[]mgl64.Vec3{{0, 0, 100}, {0, 0, 0}}, 20, 0}, 2},
		"reducer":           {NewTaper(mgl64.Vec3{0, 0, 23}, mgl64.Vec3{60, 0, 18}, 25, 20, 23, 18), 0},
	} {
		t.Run(name, func(t *testing.T) { checkShape(t, c.shape, c.euler) })
	}
}

// A prism between parallel planes at slope 1:40, worked by hand:
// 300 × 200 × (12 + 200/2/40) = 870 000 mm³.
func TestSingleFallVolumeByHand(t *testing.T) {
	p := Upright(sheet(t, plan.Rectangle(plan.Point{0, 0}, plan.Point{300, 200})), Level(0), Surface{Through(plan.Point{}, 12, plan.Point{0, 1}, 1.0/40)})
	if got := p.Volume(); math.Abs(got-870000) > 1e-6 {
		t.Fatalf("volume %f, want 870000", got)
	}
}

// The section of the same prism along the fall, by hand: a trapezium of
// heights 12 and 17 over 200, area 2900 mm².
func TestSectionIsExact(t *testing.T) {
	p := Upright(sheet(t, plan.Rectangle(plan.Point{0, 0}, plan.Point{300, 200})), Level(0), Surface{Through(plan.Point{}, 12, plan.Point{0, 1}, 1.0/40)})
	got := slice(t, p.Mesh(), VerticalCut(plan.Point{111, 0}, plan.Point{0, 1}))
	if len(got) != 1 || len(got[0].Outer) != 4 || math.Abs(got.Area()-2900) > 1e-9 {
		t.Fatalf("section %v, area %f, want one trapezium of 2900", got, got.Area())
	}
}

// Random boards with random cut-outs and random fall planes stay closed and
// exact, also where cut-outs line up and where cuts run through corners.
func TestRandomPrisms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// To half a millimetre: finer slivers are not material.
		grid := rapid.Map(rapid.IntRange(0, 80), func(i int) float64 { return float64(i) / 2 })
		if rapid.Bool().Draw(t, "on a grid") {
			grid = rapid.Map(rapid.IntRange(0, 8), func(i int) float64 { return float64(5 * i) })
		}
		point := rapid.Custom(func(t *rapid.T) plan.Point {
			return plan.Point{grid.Draw(t, "x"), grid.Draw(t, "y")}
		})
		var sh plan.Shaper
		region := plan.Rectangle(plan.Point{-3, -3}, plan.Point{43, 43})
		for range rapid.IntRange(0, 5).Draw(t, "cut-outs") {
			region = sh.Subtract(region, plan.Rectangle(point.Draw(t, "a"), point.Draw(t, "b")), message.Of("shape.cut-out"))
		}
		if sh.Err() != nil {
			t.Fatal(sh.Err())
		}
		if region.Area() < 10 {
			t.Skip("nothing left")
		}
		// Cut-outs that touch in one point leave no body with two faces at
		// each edge.
		corners := map[plan.Point]bool{}
		for _, poly := range region {
			for _, ring := range poly.Rings() {
				for _, q := range ring {
					if corners[q] {
						t.Skip("cut-outs touch in a point")
					}
					corners[q] = true
				}
			}
		}
		surface := Surface{{Level: 20}}
		slope := rapid.Map(rapid.IntRange(-100, 100), func(i int) float64 { return float64(i) / 1000 })
		for range rapid.IntRange(0, 4).Draw(t, "planes") {
			surface = append(surface, Plane{20 + 10*slope.Draw(t, "level"), slope.Draw(t, "sx"), slope.Draw(t, "sy")})
		}
		p := Upright(sheet(t, region), Level(0), surface)
		m := p.Mesh()
		if err := m.CheckClosed(); err != nil {
			t.Fatal(err)
		}
		// The shape's own volume comes from regions on a grid of 1e-4 mm: over a
		// few hundred millimetres of edges and heights that differ by a few.
		const gridVolume = 1e-4 * 300 * 10
		if got, want := m.Volume(), p.Volume(); math.Abs(got-want) > 1e-6*want+gridVolume {
			t.Fatalf("mesh volume %f, shape volume %f", got, want)
		}
		// Off the grid: on a face a section may show either side of it.
		through := plan.Point{20.03, 20.07}
		cut := VerticalCut(through, mgl64.Rotate2D(rapid.Float64Range(0, 6.28).Draw(t, "angle")).Mul2x1(plan.Point{1, 0}))
		// What lies under the surface along the cut, by the midpoint rule: exact but
		// for the strips where the surface bends, at most 16 of them.
		along, want, slack := plan.Point{cut.Along.X(), cut.Along.Y()}, 0.0, 1e-3
		for _, iv := range region.Clip(through, along) {
			const strips = 400
			wide := (iv.To - iv.From) / strips
			for k := range strips {
				want += surface.At(through.Add(along.Mul(iv.From+(float64(k)+0.5)*wide))) * wide
			}
			slack += 16 * 0.1 * wide * wide
		}
		if a := slice(t, m, cut).Area(); math.Abs(a-want) > slack {
			t.Fatalf("section area %f, under the surface along the cut there are %f", a, want)
		}
	})
}

// A mesh with a triangle missing has no section where it is open; the section
// used to be closed by guess.
func TestOpenMeshHasNoSection(t *testing.T) {
	m := Block(sheet(t, plan.Rectangle(plan.Point{0, 0}, plan.Point{300, 200})), 0, 50).Mesh()
	cut := VerticalCut(plan.Point{111, 0}, plan.Point{0, 1})
	if r := slice(t, m, cut); r.Area() != 200*50 {
		t.Fatalf("area %v, want 10000", r.Area())
	}
	failed := 0
	for i := range m.Triangles {
		open := &Mesh{Vertices: m.Vertices, Triangles: append(append([][3]int32(nil), m.Triangles[:i]...), m.Triangles[i+1:]...)}
		r, err := open.Slice(cut)
		if err == nil && r.Area() != 200*50 || err != nil && r != nil {
			t.Errorf("without triangle %d: area %v, %v", i, r.Area(), err)
		}
		if err != nil {
			failed++
		}
	}
	if failed == 0 {
		t.Error("every open mesh has a section")
	}
}
