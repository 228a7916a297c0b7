package clash_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry/clash"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// block is a prism over a rectangle between two levels.
func block(x0, y0, x1, y1, z0, z1 float64) *clash.Prism {
	return clash.NewPrism(plan.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, solid.Plane{Level: z0}, solid.Plane{Level: z1})
}

// A joist 47 wide and 200 deep along x, its flanks at y = ±23.5, its top at 0,
// against a pipe of radius 25.
func TestPipeAndJoistByHand(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, 0)
	pipe := func(a, b mgl64.Vec3) clash.Cylinder { return clash.Cylinder{From: a, To: b, RadiusMM: 25} }
	for _, c := range []struct {
		what string
		pipe clash.Cylinder
		want float64
	}{
		// 60 − 23.5 − 25 = 11.5.
		{"beside, along", pipe(mgl64.Vec3{-500, 60, -100}, mgl64.Vec3{500, 60, -100}), 11.5},
		{"half a millimetre beside", pipe(mgl64.Vec3{-500, 49, -100}, mgl64.Vec3{500, 49, -100}), 0.5},
		// Square to the arris, falling at 45° 15 outside it: out by 25 − 15 there, by
		// far more square to the flank or the top.
		{"over the arris", pipe(mgl64.Vec3{0, 23.5 + 15*math.Sqrt2/2 - 300, 15*math.Sqrt2/2 + 300}, mgl64.Vec3{0, 23.5 + 15*math.Sqrt2/2 + 300, 15*math.Sqrt2/2 - 300}), -10},
		// The same askew: it runs 300 along as it falls by 300.
		{"askew over the arris", pipe(mgl64.Vec3{-300, 23.5 + 15*math.Sqrt2/2 - 300, 15*math.Sqrt2/2 + 300}, mgl64.Vec3{300, 23.5 + 15*math.Sqrt2/2 + 300, 15*math.Sqrt2/2 - 300}), -10},
		// 48.5 − 23.5 − 25 = 0.
		{"touching", pipe(mgl64.Vec3{-500, 48.5, -100}, mgl64.Vec3{500, 48.5, -100}), 0},
		// 24 − 23.5 − 25 = −24.5: half of it is in the joist.
		{"half in the flank", pipe(mgl64.Vec3{-500, 24, -100}, mgl64.Vec3{500, 24, -100}), -24.5},
		// Its middle in the joist's: out by 23.5 + 25 to either side.
		{"in, along", pipe(mgl64.Vec3{-500, 0, -100}, mgl64.Vec3{500, 0, -100}), -48.5},
		{"its axis in the flank", pipe(mgl64.Vec3{-500, 23.5, -100}, mgl64.Vec3{500, 23.5, -100}), -25},
		// Upwards out of the joist: 10 + 25.
		{"in near the top", pipe(mgl64.Vec3{-500, 0, -10}, mgl64.Vec3{500, 0, -10}), -35},
		// Across: out at the top by 40 + 25, at the bottom by 160 + 25.
		{"across", pipe(mgl64.Vec3{0, -300, -40}, mgl64.Vec3{0, 300, -40}), -65},
		// Oblique: down is still the least way; 45° and 20° in plan.
		{"across at 45°", pipe(mgl64.Vec3{-300, -300, -40}, mgl64.Vec3{300, 300, -40}), -65},
		{"across at 20°", pipe(mgl64.Vec3{-300 * math.Cos(math.Pi/9), -300 * math.Sin(math.Pi/9), -40}, mgl64.Vec3{300 * math.Cos(math.Pi/9), 300 * math.Sin(math.Pi/9), -40}), -65},
		// Over it: 30 − 25.
		{"over", pipe(mgl64.Vec3{0, -300, 30}, mgl64.Vec3{0, 300, 30}), 5},
		// Past the top corner on the skew: its axis is 30 out and 40 up, 50 off.
		{"beside the arris", pipe(mgl64.Vec3{-500, 53.5, 40}, mgl64.Vec3{500, 53.5, 40}), 25},
		// A flat end square to the flank, 7 off it; a round one would have been
		// there already.
		{"its end before the flank", pipe(mgl64.Vec3{0, 30.5, -100}, mgl64.Vec3{0, 300, -100}), 7},
		// Its end 3 past the arris along its axis, at 45° to flank and top.
		{"its end on the arris", pipe(mgl64.Vec3{0, 23.5 - 3/math.Sqrt2, -3 / math.Sqrt2}, mgl64.Vec3{0, 323.5, 300}), -3},
		{"its end in the flank", pipe(mgl64.Vec3{0, 20.5, -100}, mgl64.Vec3{0, 300, -100}), -3},
		// An end past the joist's: 4 off in x, 60 − 25 − 23.5 = 11.5 off in y:
		// the rim's lowest point in y lies at y = 35; √(4² + 11.5²).
		{"its end past the joist's end", pipe(mgl64.Vec3{1004, 60, -100}, mgl64.Vec3{1500, 60, -100}), math.Hypot(4, 11.5)},
		// A vertical drop beside: 70 − 23.5 − 25.
		{"a drop", pipe(mgl64.Vec3{0, 70, 100}, mgl64.Vec3{0, 70, -400}), 21.5},
	} {
		got := c.pipe.Gap(joist)
		if !(math.Abs(got.GapMM-c.want) <= 1e-5) {
			t.Errorf("%s: %v, want %v", c.what, got.GapMM, c.want)
		}
		back := clash.Cylinder{From: c.pipe.To, To: c.pipe.From, RadiusMM: 25}
		if other := back.Gap(joist); math.Abs(other.GapMM-got.GapMM) > 1e-5 {
			t.Errorf("%s: the other way round %v, then %v", c.what, other.GapMM, got.GapMM)
		}
	}
}

func TestBlocksByHand(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, -20)
	turned := clash.NewPrism(plan.Ring{{0, 23.5 + 10}, {50, 23.5 + 60}, {0, 23.5 + 110}, {-50, 23.5 + 60}}, solid.Plane{Level: -60}, solid.Plane{Level: 20})
	for _, c := range []struct {
		what string
		body *clash.Prism
		want float64
	}{
		{"on it", block(0, -35, 100, 35, -20, 50), 0},
		{"over it", block(0, -35, 100, 35, -15, 50), 5},
		{"let into it", block(0, -35, 100, 35, -47, 50), -27},
		{"beside it", block(0, 30, 100, 100, -47, 50), 6.5},
		{"in its flank", block(0, 20, 100, 100, -147, 50), -3.5},
		{"off the arris", block(0, 26.5, 100, 100, -16, 50), 5},
		{"corner first", turned, 10},
		// A roof over it that falls with y: nearest at the far arris. The plane
		// z = −15 − 0.1·(y + 23.5) lies −19.7 at y = 23.5, 0.3 over −20, square to
		// the plane 0.3/√1.01.
		{"a sloping underside", clash.NewPrism(plan.Ring{{0, -100}, {100, -100}, {100, 100}, {0, 100}}, solid.Plane{Level: -17.35, SlopeY: -0.1}, solid.Plane{Level: 50}), 0.3 / math.Sqrt(1.01)},
	} {
		if got := c.body.Gap(joist); math.Abs(got.GapMM-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.what, got.GapMM, c.want)
		}
		if got := joist.Gap(c.body); math.Abs(got.GapMM-c.want) > 1e-9 {
			t.Errorf("%s, the other way round: %v, want %v", c.what, got.GapMM, c.want)
		}
	}
}

// shape is a body as this test knows it: how far a point lies outside, and the
// farthest it reaches in a direction.
type shape struct {
	outside func(mgl64.Vec3) float64
	reach   func(mgl64.Vec3) float64
}

func cylinderShape(c clash.Cylinder) shape {
	u := c.To.Sub(c.From).Normalize()
	length := c.To.Sub(c.From).Len()
	return shape{
		func(q mgl64.Vec3) float64 {
			d := q.Sub(c.From)
			t := d.Dot(u)
			return math.Hypot(math.Max(0, math.Max(-t, t-length)), math.Max(0, d.Sub(u.Mul(t)).Len()-c.RadiusMM))
		},
		func(n mgl64.Vec3) float64 {
			return math.Max(n.Dot(c.From), n.Dot(c.To)) + c.RadiusMM*n.Sub(u.Mul(n.Dot(u))).Len()
		},
	}
}

// surface is a prism's faces as triangles, from which points are sampled.
func triangles(ring plan.Ring, bottom, top solid.Plane) [][3]mgl64.Vec3 {
	var out [][3]mgl64.Vec3
	lift := func(q plan.Point, p solid.Plane) mgl64.Vec3 { return mgl64.Vec3{q.X(), q.Y(), p.At(q)} }
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		out = append(out, [3]mgl64.Vec3{lift(a, bottom), lift(b, bottom), lift(b, top)}, [3]mgl64.Vec3{lift(a, bottom), lift(b, top), lift(a, top)})
		if i > 1 {
			for _, p := range []solid.Plane{bottom, top} {
				out = append(out, [3]mgl64.Vec3{lift(ring[0], p), lift(ring[i-1], p), lift(a, p)})
			}
		}
	}
	return out
}

// least samples a convex function over a triangle ever more closely about the
// best place so far.
func least(t [3]mgl64.Vec3, f func(mgl64.Vec3) float64) float64 {
	const steps = 4
	best, u0, v0 := math.Inf(1), 0.5, 0.5
	// Along a crease the way down is narrow: closer only where no step helps.
	for size, tries := 0.5, 0; size > 1e-6 && tries < 60; tries++ {
		cu, cv, before := u0, v0, best
		for i := -steps; i <= steps; i++ {
			for k := -steps; k <= steps; k++ {
				u, v := cu+size*float64(i)/steps, cv+size*float64(k)/steps
				u, v = math.Max(0, math.Min(1, u)), math.Max(0, math.Min(1, v))
				if u+v > 1 {
					u, v = u/(u+v), v/(u+v)
				}
				q := t[0].Add(t[1].Sub(t[0]).Mul(u)).Add(t[2].Sub(t[0]).Mul(v))
				if d := f(q); d < best {
					best, u0, v0 = d, u, v
				}
			}
		}
		if best == before || best < 1e-9 {
			size *= 0.4
		}
	}
	return best
}

type drawnPrism struct {
	ring        plan.Ring
	bottom, top solid.Plane
}

func anyPrism(t *rapid.T, label string) drawnPrism {
	number := func(name string, least, most float64) float64 {
		return math.Round(rapid.Float64Range(least, most).Draw(t, label+" "+name)*100) / 100
	}
	at := plan.Point{number("x", -150, 150), number("y", -150, 150)}
	n := rapid.IntRange(3, 6).Draw(t, label+" corners")
	turn, a, b := number("turn", 0, 6), number("long", 20, 150), number("wide", 20, 150)
	var ring plan.Ring
	for k := range n {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		ring = append(ring, at.Add(mgl64.Rotate2D(turn).Mul2x1(plan.Point{a * c, b * s})))
	}
	z := number("level", -150, 150)
	slope := func(level float64, name string) solid.Plane {
		return solid.Through(at, level, plan.Point{1, 0}, number(name, -0.1, 0.1))
	}
	return drawnPrism{ring, slope(z, "bottom"), slope(z+number("height", 40, 200), "top")}
}

func (d drawnPrism) body() *clash.Prism { return clash.NewPrism(d.ring, d.bottom, d.top) }

// squareTo are unit vectors along an axis and square to it and to an edge, or to
// two edges: the ways out of a prism that a net of directions may miss.
func (d drawnPrism) squareTo(axis mgl64.Vec3) []mgl64.Vec3 {
	ways := append(d.edges(), axis)
	out := []mgl64.Vec3{axis.Normalize()}
	for i, v := range ways {
		for _, w := range ways[:i] {
			if n := v.Normalize().Cross(w.Normalize()); n.Len() > 1e-9 {
				out = append(out, n.Normalize())
			}
		}
	}
	return out
}

// edges are the ways the prism's edges run.
func (d drawnPrism) edges() []mgl64.Vec3 {
	ways := []mgl64.Vec3{{0, 0, 1}}
	for i, a := range d.ring {
		b := d.ring[(i+1)%len(d.ring)]
		for _, p := range []solid.Plane{d.bottom, d.top} {
			ways = append(ways, mgl64.Vec3{b.X() - a.X(), b.Y() - a.Y(), p.At(b) - p.At(a)})
		}
	}
	return ways
}

// reach is the farthest the prism reaches in a direction.
func (d drawnPrism) reach() func(n mgl64.Vec3) float64 {
	var corners []mgl64.Vec3
	for _, q := range d.ring {
		corners = append(corners, mgl64.Vec3{q.X(), q.Y(), d.bottom.At(q)}, mgl64.Vec3{q.X(), q.Y(), d.top.At(q)})
	}
	return func(n mgl64.Vec3) float64 {
		best := math.Inf(-1)
		for i := range corners {
			c := &corners[i]
			best = max(best, n[0]*c[0]+n[1]*c[1]+n[2]*c[2])
		}
		return best
	}
}

// leastDepth is the least way out of one body over a net of directions, searched
// closer about the best of them: never less than the true one.
func leastDepth(a, b func(mgl64.Vec3) float64) float64 {
	type place struct{ theta, phi, depth float64 }
	at := func(theta, phi float64) place {
		s, c := math.Sincos(theta)
		sp, cp := math.Sincos(phi)
		n := mgl64.Vec3{s * cp, s * sp, c}
		return place{theta, phi, a(n) + b(n.Mul(-1))}
	}
	const steps = 32
	var net [steps + 1][2 * steps]place
	for i := range net {
		for k := range net[i] {
			net[i][k] = at(math.Pi*float64(i)/steps, math.Pi*float64(k)/steps)
		}
	}
	from := net[0][0]
	for i := range net {
		for _, p := range net[i] {
			if p.depth < from.depth {
				from = p
			}
		}
	}
	best := math.Inf(1)
	for i := range net {
		for k := range net[i] {
			p := net[i][k]
			// Only from places that none beside them is better than; bodies that are
			// apart have but one of them.
			least := p.depth
			for di := -1; di <= 1; di++ {
				for dk := -1; dk <= 1; dk++ {
					least = min(least, net[min(max(i+di, 0), steps)][(k+dk+2*steps)%(2*steps)].depth)
				}
			}
			if p.depth > least || from.depth < 0 && p != from {
				continue
			}
			// Along a crease the way down is narrow: closer only where no step helps.
			for size, tries := 0.1, 0; size > 1e-6 && tries < 80; tries++ {
				c := p
				for i := -2; i <= 2; i++ {
					for k := -2; k <= 2; k++ {
						if q := at(c.theta+size*float64(i)/2, c.phi+size*float64(k)/2); q.depth < p.depth {
							p = q
						}
					}
				}
				if p == c {
					size *= 0.6
				}
			}
			best = min(best, p.depth)
		}
	}
	return best
}

// A cylinder against a prism: the distance against the nearest of points sampled
// on the prism; where they overlap, no direction out is shorter.
func TestCylindersAgainstSamples(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPrism(t, "prism")
		end := func(name string) mgl64.Vec3 {
			v := rapid.SliceOfN(rapid.IntRange(-300, 300), 3, 3).Draw(t, name)
			return mgl64.Vec3{float64(v[0]), float64(v[1]), float64(v[2])}
		}
		c := clash.Cylinder{From: end("from"), To: end("to"), RadiusMM: float64(rapid.IntRange(5, 60).Draw(t, "radius"))}
		if c.To.Sub(c.From).Len() < 1 {
			return
		}
		s := cylinderShape(c)
		sampled := math.Inf(1)
		for _, tri := range triangles(p.ring, p.bottom, p.top) {
			sampled = math.Min(sampled, least(tri, s.outside))
		}
		got := c.Gap(p.body())
		if got.GapMM > 0 && math.Abs(got.GapMM-sampled) > 0.01 {
			t.Fatalf("gap %v, sampled %v", got.GapMM, sampled)
		}
		if got.GapMM <= 0 && sampled > 0.01 && !inside(p, c.From) {
			t.Fatalf("overlap of %v, sampled %v apart", -got.GapMM, sampled)
		}
		// Where they are nearest lies on a shortest way from one to the other, or in
		// both.
		if off := s.outside(got.At) + p.outside(got.At); math.Abs(off-math.Max(0, got.GapMM)) > 0.01 {
			t.Fatalf("gap %v; %v lies %v off both together", got.GapMM, got.At, off)
		}
		if bound := c.AtLeast(p.body()); bound > got.GapMM+1e-9 {
			t.Fatalf("gap %v, and at least %v", got.GapMM, bound)
		}
		if got.GapMM < 0 {
			out := leastDepth(s.reach, p.reach())
			for _, n := range p.squareTo(c.To.Sub(c.From)) {
				out = min(out, s.reach(n)+p.reach()(n.Mul(-1)), s.reach(n.Mul(-1))+p.reach()(n))
			}
			if -got.GapMM < out-1e-6 {
				t.Fatalf("%v deep, no way out shorter than %v was found", -got.GapMM, out)
			}
		}
	})
}

// outside is how far a point lies outside the prism.
func (d drawnPrism) outside(q mgl64.Vec3) float64 {
	if inside(d, q) {
		return 0
	}
	nearest := math.Inf(1)
	for _, tri := range triangles(d.ring, d.bottom, d.top) {
		n := tri[1].Sub(tri[0]).Cross(tri[2].Sub(tri[0])).Normalize()
		over := true // the triangle, square to it
		for i, a := range tri {
			along := tri[(i+1)%3].Sub(a)
			over = over && n.Cross(along).Dot(q.Sub(a)) >= 0
			share := math.Max(0, math.Min(1, q.Sub(a).Dot(along)/along.Dot(along)))
			nearest = math.Min(nearest, q.Sub(a).Sub(along.Mul(share)).Len())
		}
		if over {
			nearest = math.Min(nearest, math.Abs(n.Dot(q.Sub(tri[0]))))
		}
	}
	return nearest
}

func inside(p drawnPrism, q mgl64.Vec3) bool {
	flat := plan.Point{q.X(), q.Y()}
	return plan.FromRing(p.ring).Contains(flat, 0) && q.Z() >= p.bottom.At(flat) && q.Z() <= p.top.At(flat)
}

// Two prisms: the same both ways; apart, against sampled points; overlapping,
// against sampled directions.
func TestPrismsAgainstSamples(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyPrism(t, "a"), anyPrism(t, "b")
		got, back := a.body().Gap(b.body()), b.body().Gap(a.body())
		if math.Abs(got.GapMM-back.GapMM) > 1e-9 {
			t.Fatalf("%v, the other way round %v", got.GapMM, back.GapMM)
		}
		if got.GapMM > 0 {
			if off := a.outside(got.At) + b.outside(got.At); math.Abs(off-got.GapMM) > 0.01 {
				t.Fatalf("gap %v; %v lies %v off both together", got.GapMM, got.At, off)
			}
		}
		// How far bodies are apart, or how deep in each other, is attained in some
		// direction and by no other farther. The net of directions can miss by a
		// little, to one side only.
		far, near := a.reach(), b.reach()
		found := -leastDepth(far, near)
		// Square to an edge of each they may come apart within less than the net's width.
		for _, v := range a.edges() {
			for _, w := range b.edges() {
				if n := v.Cross(w); n.Len() > 1e-9 {
					n = n.Normalize()
					found = max(found, -far(n)-near(n.Mul(-1)), -far(n.Mul(-1))-near(n))
				}
			}
		}
		if got.GapMM < found-1e-3 || got.GapMM > found+0.1*math.Abs(found)+0.1 {
			t.Fatalf("gap %v, by directions %v", got.GapMM, found)
		}
	})
}
