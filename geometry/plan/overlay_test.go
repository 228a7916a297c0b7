package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// anyShape draws a shape as floors have them, or worse: rectangles, slivers,
// triangles, circles, an L, a frame with a hole, two of them apart; corners on
// a coarse lattice, so that edges and corners coincide, or a hair off it.
func anyShape(r *rand.Rand) Region {
	hairs := []float64{0, 0, 0, 0, 1e-2, 1e-3, 1e-4, 2e-4, 5e-5, 1e-6}
	at := func() float64 { return float64(r.IntN(9))*50 + hairs[r.IntN(len(hairs))] }
	rectangle := func() Region { return Rectangle(Point{at(), at()}, Point{at(), at()}) }
	switch r.IntN(9) {
	case 0, 1, 2:
		return rectangle()
	case 3:
		a, b := Point{at(), at()}, Point{at(), at()}
		if b.Sub(a).Len() < 1 {
			return nil
		}
		n := Left(b.Sub(a).Normalize()).Mul([]float64{10, 1e-2, 1e-3, 1e-4}[r.IntN(4)])
		return FromRing(Ring{a, b, b.Add(n), a.Add(n)})
	case 4:
		return FromRing(Ring{{at(), at()}, {at(), at()}, {at(), at()}})
	case 5:
		return FromRing(Circle(Point{at(), at()}, 10+at()/4, 0.05))
	case 6:
		x, y, w := at(), at(), 50+at()
		return FromRing(Ring{{x, y}, {x + w, y}, {x + w, y + w/2}, {x + w/2, y + w/2}, {x + w/2, y + w}, {x, y + w}})
	case 7:
		x, y, w := at(), at(), 100+at()
		out := Rectangle(Point{x, y}, Point{x + w, y + w})
		out[0].Holes = []Ring{Rectangle(Point{x + w/4, y + w/4}, Point{x + w/2, y + w*3/4})[0].Outer.Reversed()}
		return out
	}
	a, b := rectangle(), rectangle()
	if !boundsMeet(a, b) {
		return append(a, b...)
	}
	return a
}

// What the overlay is sure of is what the library makes of it: the same area,
// and the same points in it. It has to be sure often enough to be of use.
func TestOverlayAgreesWithTheLibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	sure, tried := map[operation]int{}, map[operation]int{}
	var o overlay
	for n := range 4000 {
		op := operation(n % 3)
		sin, cos := math.Sincos([]float64{0, 0, 0.3, math.Pi / 4, 1e-5, 1.234}[r.IntN(6)])
		askew := turnedFrame{Point{float64(r.IntN(20000) - 10000), 0.3}, Point{cos, sin}, Point{-sin, cos}}
		a, b := anyShape(r).into(askew, 0), anyShape(r).into(askew, 0)
		if len(a) == 0 || len(b) == 0 || a.Area() < 1e-3 || b.Area() < 1e-3 {
			continue
		}
		f := mainFrame(a)
		a, b = a.into(f, gridMM), b.into(f, gridMM)
		g, err := op.inLibrary()(a.geometry(), b.geometry())
		if err != nil {
			continue
		}
		tried[op]++
		got, ok := o.combine(a, b, gridMM, op)
		if !ok {
			continue
		}
		sure[op]++
		want := fromGeometry(g)
		about := fmt.Sprintf("case %d, operation %d:\n%v\n%v\ngives\n%v\nand by the library\n%v", n, op, a, b, got, want)
		if math.Abs(got.Area()-want.Area()) > 1e-6*math.Max(1, got.edgesMM()) {
			t.Fatalf("area %v, by the library %v; %s", got.Area(), want.Area(), about)
		}
		for _, p := range got {
			if p.Outer.SignedArea() <= 0 {
				t.Fatalf("an outer ring is walked clockwise; %s", about)
			}
			for _, h := range p.Holes {
				if h.SignedArea() >= 0 {
					t.Fatalf("a hole is walked counter-clockwise; %s", about)
				}
			}
		}
		all := append(append(Region(nil), a...), b...)
		low, high, _ := all.Bounds()
		for range 20 {
			p := Point{low.X() + (high.X()-low.X())*r.Float64(), low.Y() + (high.Y()-low.Y())*r.Float64()}
			const near = 1e-5
			if got.Contains(p, near) == want.Contains(p, near) || got.Contains(p, near) != got.Contains(p, 0) || want.Contains(p, near) != want.Contains(p, 0) {
				continue
			}
			t.Fatalf("%v lies in it %v, by the library %v; %s", p, got.Contains(p, 0), want.Contains(p, 0), about)
		}
	}
	for op, n := range tried {
		if n < 1100 || sure[op] < n*93/100 {
			t.Errorf("operation %d: sure of %d out of %d", op, sure[op], n)
		}
	}
}
