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

func off(a, b mgl64.Vec3) float64 { return a.Sub(b).Len() }

// Where a pipe of radius 25 is nearest to a joist 47 wide and 200 deep along x,
// by hand, with the gap.
func TestPlaceOfPipeAndJoistByHand(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, 0)
	for _, c := range []struct {
		what     string
		from, to mgl64.Vec3
		gap      float64
		at       mgl64.Vec3
	}{
		// The end's lowest point in y, half-way to the flank: y = 60 − 25 = 35 and
		// 23.5, so 29.25; the drop is nearest along the whole of it, from its lower
		// end on.
		{"end before the flank", mgl64.Vec3{0, 30.5, -100}, mgl64.Vec3{0, 300, -100}, 7, mgl64.Vec3{0, 27, -100}},
		{"over the top", mgl64.Vec3{5, 0, 30}, mgl64.Vec3{5, 0, 90}, 30, mgl64.Vec3{5, 0, 15}},
		{"under it", mgl64.Vec3{5, 0, -230}, mgl64.Vec3{5, 0, -290}, 30, mgl64.Vec3{5, 0, -215}},
		// The arris y = 23.5, z = 0; it passes that at x = 7, square to it, 50 off.
		{"across an arris", mgl64.Vec3{7, 53.5 - 40, 40 + 30}, mgl64.Vec3{7, 53.5 + 40, 40 - 30}, 25, mgl64.Vec3{7, 23.5, 0}},
		// The corner x = 1000: 30 past it in x, 40 up, its axis along y.
		{"past a corner", mgl64.Vec3{1030, 23.5, 40}, mgl64.Vec3{1030, -23.5, 40}, 25, mgl64.Vec3{1000, 0, 0}},
	} {
		p := clash.Cylinder{From: c.from, To: c.to, RadiusMM: 25}
		got := p.Gap(joist)
		if !(math.Abs(got.GapMM-c.gap) <= 1e-5) {
			t.Errorf("%s: gap %v, want %v", c.what, got.GapMM, c.gap)
		}
		// Along the arris the place may be anywhere where the gap is least.
		at := got.At
		if c.what == "past a corner" {
			at[1] = 0
		}
		if !(off(at, c.at) <= 0.01) {
			t.Errorf("%s: nearest at %v, want %v", c.what, got.At, c.at)
		}
	}
	// Past the joist's end the corner itself is nearest, with nothing left to
	// chance: 4 off in x, and 60 − 25 − 23.5 off in y.
	for _, sx := range []float64{1, -1} {
		for _, sy := range []float64{1, -1} {
			p := clash.Cylinder{From: mgl64.Vec3{1004 * sx, 60 * sy, -100}, To: mgl64.Vec3{1500 * sx, 60 * sy, -100}, RadiusMM: 25}
			slab := block(-1000, -23.5, 1000, 23.5, -100, -99)
			if got := p.Gap(slab); math.Abs(got.GapMM-math.Hypot(4, 11.5)) > 1e-9 || off(got.At, mgl64.Vec3{1000 * sx, 23.5 * sy, -100}) > 1e-9 {
				t.Errorf("past the end %v %v: %+v", sx, sy, got)
			}
		}
	}
	// The axis runs through the joist from its flank to its flank: the middle of
	// that.
	through := clash.Cylinder{From: mgl64.Vec3{0, -300, -40}, To: mgl64.Vec3{0, 100, -40}, RadiusMM: 25}
	if got := through.Gap(joist); off(got.At, mgl64.Vec3{0, 0, -40}) > 1e-9 {
		t.Errorf("through it: at %v", got.At)
	}
	// Its axis beside the joist, 1, 17 or 24 off, and its round side in it: where it
	// comes through the flank.
	for _, y := range []float64{24.5, 40.5, 47.5} {
		beside := clash.Cylinder{From: mgl64.Vec3{-500, y, -100}, To: mgl64.Vec3{500, y, -100}, RadiusMM: 25}
		if got := beside.Gap(joist); math.Abs(got.At.Y()-23.5) > 1e-9 || off(got.At, mgl64.Vec3{got.At.X(), y, -100}) > 25 || math.Abs(got.At.X()) > 500 {
			t.Errorf("%v beside: at %v", y, got.At)
		}
	}
	// Its axis in the flank itself, all the way.
	in := clash.Cylinder{From: mgl64.Vec3{-500, 23.5, -100}, To: mgl64.Vec3{500, 23.5, -100}, RadiusMM: 25}
	if got := in.Gap(joist); off(got.At, mgl64.Vec3{0, 23.5, -100}) > 1e-9 {
		t.Errorf("in the flank: at %v", got.At)
	}
	// From the joist's middle out at one side.
	out := clash.Cylinder{From: mgl64.Vec3{0, 3.5, -40}, To: mgl64.Vec3{0, 100, -40}, RadiusMM: 25}
	if got := out.Gap(joist); off(got.At, mgl64.Vec3{0, 13.5, -40}) > 1e-9 {
		t.Errorf("out of it: at %v", got.At)
	}
}

// A wire of radius 0.1 that runs less than a millimetre over the joist's top,
// from 0.5 to 0.6, is 0.4 off it; from 0.5 over it into it by 0.5 it is in it
// from its middle on, and its place half-way from there.
func TestWireByTheTop(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, 0)
	over := clash.Cylinder{From: mgl64.Vec3{-10, 0, 0.5}, To: mgl64.Vec3{10, 0, 0.6}, RadiusMM: 0.1}
	// The rim of its lower end: 0.5 − 0.1·cos of its slope of 0.1 in 20.
	for _, w := range []clash.Cylinder{over, {From: over.To, To: over.From, RadiusMM: 0.1}} {
		if got := w.Gap(joist); math.Abs(got.GapMM-(0.5-0.1/math.Hypot(1, 0.005))) > 1e-9 {
			t.Errorf("over it: %+v", got)
		}
	}
	into := clash.Cylinder{From: mgl64.Vec3{-10, 0, 0.5}, To: mgl64.Vec3{10, 0, -0.5}, RadiusMM: 0.1}
	for _, w := range []clash.Cylinder{into, {From: into.To, To: into.From, RadiusMM: 0.1}} {
		if got := w.Gap(joist); got.GapMM >= 0 || off(got.At, mgl64.Vec3{5, 0, -0.25}) > 1e-9 {
			t.Errorf("into it: %+v", got)
		}
	}
}

// A cylinder without length is a disc that lies flat; a hair longer it stands
// as its axis says. By hand over a joist's top at z = 0: lying 30 over it the
// gap is 30, standing it is 5.
func TestDiscs(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, 0)
	disc := func(at mgl64.Vec3, length float64) clash.Cylinder {
		return clash.Cylinder{From: at, To: at.Add(mgl64.Vec3{length, 0, 0}), RadiusMM: 25}
	}
	for _, c := range []struct {
		what string
		disc clash.Cylinder
		want float64
	}{
		{"over it", disc(mgl64.Vec3{0, 0, 30}, 0), 30},
		{"under it", disc(mgl64.Vec3{0, 0, -230}, 0), 30},
		{"beside it", disc(mgl64.Vec3{0, 60, -100}, 0), 11.5},
		{"past its arris", disc(mgl64.Vec3{0, 60, 10}, 0), math.Hypot(10, 11.5)},
		{"in it", disc(mgl64.Vec3{0, 0, -10}, 0), -10},
		{"a little longer", disc(mgl64.Vec3{0, 0, 30}, 0.95e-9), 30},
		{"longer than that", disc(mgl64.Vec3{0, 0, 30}, 1.05e-9), 5},
	} {
		if got := c.disc.Gap(joist).GapMM; !(math.Abs(got-c.want) <= 1e-5) {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}

// The bound that is quick to work out is the gap itself before a face, the
// distance to the farther of two faces past an edge, and how deep a body is in
// where it is in. By hand.
func TestBoundsOfTheGap(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, 0)
	for _, c := range []struct {
		what     string
		from, to mgl64.Vec3
		want     float64
	}{
		{"beside, along", mgl64.Vec3{-500, 60, -100}, mgl64.Vec3{500, 60, -100}, 11.5},
		{"over, across", mgl64.Vec3{0, -300, 30}, mgl64.Vec3{0, 300, 30}, 5},
		{"beside the arris", mgl64.Vec3{-500, 53.5, 60}, mgl64.Vec3{500, 53.5, 60}, 35},
		{"before its end", mgl64.Vec3{1030, 0, -40}, mgl64.Vec3{1090, 0, -40}, 30},
		{"end before the flank", mgl64.Vec3{0, 30.5, -100}, mgl64.Vec3{0, 300, -100}, 7},
		// The axis falls by 3 in 4, its end 50 over the top: the rim hangs 25·0.8
		// lower.
		{"on the skew", mgl64.Vec3{0, 0, 50}, mgl64.Vec3{40, 0, 80}, 30},
		{"in the flank", mgl64.Vec3{-500, 24, -100}, mgl64.Vec3{500, 24, -100}, -24.5},
	} {
		if got := (&clash.Cylinder{From: c.from, To: c.to, RadiusMM: 25}).AtLeast(joist); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: at least %v, want %v", c.what, got, c.want)
		}
	}
}

// Two pipes of radius 25 and 20 by hand; ends count as round.
func TestPipesByHand(t *testing.T) {
	origin := mgl64.Vec3{}
	for _, c := range []struct {
		what       string
		a, b, c, d mgl64.Vec3
		gap        float64
		at         mgl64.Vec3
	}{
		{"crossing, 100 over", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{10, -50, 100}, mgl64.Vec3{10, 50, 100}, 55, mgl64.Vec3{10, 0, 50}},
		{"at 45°, 100 over", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{-20, -50, 100}, mgl64.Vec3{80, 50, 100}, 55, mgl64.Vec3{30, 0, 50}},
		{"crossing in one another", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{10, -50, 0}, mgl64.Vec3{10, 50, 0}, -45, mgl64.Vec3{10, 0, 0}},
		// The second ends 30 before the first's line, 40 beyond its end: 50.
		{"past an end", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{90, 30, 0}, mgl64.Vec3{90, 99, 0}, 5, mgl64.Vec3{70, 15, 0}},
		{"before an end", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{-90, 99, 0}, mgl64.Vec3{-90, 30, 0}, 5, mgl64.Vec3{-70, 15, 0}},
		{"end above the middle", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{20, 0, 60}, mgl64.Vec3{30, 9, 160}, 15, mgl64.Vec3{20, 0, 30}},
		{"one after the other", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{110, 0, 0}, mgl64.Vec3{190, 0, 0}, 15, mgl64.Vec3{80, 0, 0}},
		{"one is a point", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{10, 60, 0}, mgl64.Vec3{10, 60, 0}, 15, mgl64.Vec3{10, 30, 0}},
		{"a point past an end", mgl64.Vec3{-50, 0, 0}, mgl64.Vec3{50, 0, 0}, mgl64.Vec3{80, 40, 0}, mgl64.Vec3{80, 40, 0}, 5, mgl64.Vec3{65, 20, 0}},
		{"two points", origin, origin, mgl64.Vec3{0, 60, 80}, mgl64.Vec3{0, 60, 80}, 55, mgl64.Vec3{0, 30, 40}},
	} {
		for _, flip := range []bool{false, true} {
			a, b := clash.Cylinder{From: c.a, To: c.b, RadiusMM: 25}, clash.Cylinder{From: c.c, To: c.d, RadiusMM: 20}
			if flip {
				a.From, a.To, b.From, b.To = a.To, a.From, b.To, b.From
			}
			for _, got := range []clash.Meeting{a.GapTo(&b), b.GapTo(&a)} {
				if !(math.Abs(got.GapMM-c.gap) <= 1e-9 && off(got.At, c.at) <= 1e-9) {
					t.Errorf("%s: %+v, want %v at %v", c.what, got, c.gap, c.at)
				}
			}
		}
	}
	// Side by side from x = −50 to 50 and from 20 to 90: anywhere where both are.
	a := clash.Cylinder{From: mgl64.Vec3{-50, 0, 0}, To: mgl64.Vec3{50, 0, 0}, RadiusMM: 25}
	b := clash.Cylinder{From: mgl64.Vec3{20, 60, 0}, To: mgl64.Vec3{90, 60, 0}, RadiusMM: 20}
	if got := a.GapTo(&b); math.Abs(got.GapMM-15) > 1e-9 || got.At.Y() != 30 || got.At.X() < 20 || got.At.X() > 50 {
		t.Errorf("side by side: %+v", got)
	}
}

// Pipes that cross at a tenth of a millionth of a radian cross; at less they are
// as good as parallel, and less than 5·10⁻⁵ apart over half a metre.
func TestPipesAlmostParallel(t *testing.T) {
	for angle, within := range map[float64]float64{1.02e-7: 1e-6, 0.98e-7: 5e-5, 1e-6: 1e-6} {
		a := clash.Cylinder{From: mgl64.Vec3{-500, 0, 0}, To: mgl64.Vec3{500, 0, 0}, RadiusMM: 25}
		b := clash.Cylinder{From: mgl64.Vec3{-500, -500 * angle, 0}, To: mgl64.Vec3{500, 500 * angle, 0}, RadiusMM: 20}
		if got := a.GapTo(&b).GapMM; got < -45-1e-9 || got > -45+within {
			t.Errorf("at %v they are %v apart", angle, got+45)
		}
	}
}

// Where two blocks are nearest, and the middle of what both cover where they
// are in each other. By hand.
func TestPlaceOfBlocksByHand(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, -20)
	ring := func(points ...plan.Point) *clash.Prism {
		return clash.NewPrism(points, solid.Plane{Level: -60}, solid.Plane{Level: 20})
	}
	for _, c := range []struct {
		what string
		body *clash.Prism
		gap  float64
		at   mgl64.Vec3
		free [3]bool // along which axes it may lie anywhere
	}{
		// A pyramid's foot would be a point; a block on its arris is nearest along
		// a line, x free between 0 and 100.
		{"off the arris", block(0, 26.5, 100, 100, -16, 50), 5, mgl64.Vec3{0, 25, -18}, [3]bool{true, false, false}},
		{"past two faces", block(1003, 27.5, 1100, 100, -8, 50), 13, mgl64.Vec3{1001.5, 25.5, -14}, [3]bool{}},
		{"corner first", ring(plan.Point{7, 33.5}, plan.Point{57, 83.5}, plan.Point{7, 133.5}, plan.Point{-43, 83.5}), 10, mgl64.Vec3{7, 28.5, 0}, [3]bool{false, false, true}},
		{"its corner before the other's end", ring(plan.Point{1006, 3}, plan.Point{1056, -47}, plan.Point{1106, 3}, plan.Point{1056, 53}), 6, mgl64.Vec3{1003, 3, 0}, [3]bool{false, false, true}},
		// Both cover x from 0 to 100, y from −23.5 to 20, z from −47 to −20.
		{"let into it", block(0, -35, 100, 20, -47, 50), -27, mgl64.Vec3{50, -1.75, -33.5}, [3]bool{}},
		{"touching", block(0, -35, 100, 20, -20, 50), 0, mgl64.Vec3{50, -1.75, -20}, [3]bool{}},
	} {
		for _, got := range []clash.Meeting{c.body.Gap(joist), joist.Gap(c.body)} {
			at := got.At
			for i, free := range c.free {
				if free {
					at[i] = c.at[i]
				}
			}
			if !(math.Abs(got.GapMM-c.gap) <= 1e-9 && off(at, c.at) <= 1e-9) {
				t.Errorf("%s: %+v, want %v at %v", c.what, got, c.gap, c.at)
			}
		}
	}
}

// A prism is the same whichever way round its ring is walked, and set anew with
// a ring of more or fewer corners it is like a new one.
func TestPrismsSetAnew(t *testing.T) {
	rings := []plan.Ring{
		{{0, 0}, {100, 0}, {100, 60}, {0, 60}},
		{{0, 0}, {100, 0}, {0, 60}},
		{{0, 0}, {60, -20}, {100, 0}, {110, 60}, {60, 90}, {-10, 60}},
		{{500, 0}, {560, 0}, {560, 60}, {530, 90}, {500, 60}},
		{{0, 0}, {100, 0}, {0, 60}},
	}
	bottom, top := solid.Plane{Level: -20, SlopeX: 0.1}, solid.Plane{Level: 50, SlopeY: 0.05}
	other := block(90, 50, 400, 300, 30, 200)
	pipes := []clash.Cylinder{
		{From: mgl64.Vec3{-300, 100, 120}, To: mgl64.Vec3{300, 90, 80}, RadiusMM: 25},
		{From: mgl64.Vec3{-300, 30, 20}, To: mgl64.Vec3{300, 40, 10}, RadiusMM: 25},
		{From: mgl64.Vec3{150, -200, -90}, To: mgl64.Vec3{150, 300, -95}, RadiusMM: 25},
	}
	var p clash.Prism
	for i, ring := range rings {
		p.Set(ring, bottom, top)
		fresh, back := clash.NewPrism(ring, bottom, top), clash.NewPrism(ring.Reversed(), bottom, top)
		if got, want := p.Gap(other), fresh.Gap(other); got != want || math.Abs(back.Gap(other).GapMM-want.GapMM) > 1e-9 {
			t.Errorf("ring %d: %+v, made new %+v, the other way round %+v", i, got, want, back.Gap(other))
		}
		for k, pipe := range pipes {
			if got, want := pipe.Gap(&p), pipe.Gap(fresh); got != want || math.Abs(pipe.Gap(back).GapMM-want.GapMM) > 1e-5 {
				t.Errorf("ring %d, pipe %d: %+v, made new %+v, the other way round %+v", i, k, got, want, pipe.Gap(back))
			}
		}
	}
	// The same ring on planes that rise, fall or tilt: one of them, or both.
	square := rings[0].Reversed()
	for i, planes := range [][2]solid.Plane{
		{{Level: -20}, {Level: 50}}, {{Level: -10}, {Level: 50}}, {{Level: -10}, {Level: 40}}, {{Level: -40}, {Level: 90}},
		{{Level: -40, SlopeX: 0.1}, {Level: 90}}, {{Level: -40, SlopeX: 0.1, SlopeY: 0.2}, {Level: 90}},
		{{Level: -40, SlopeX: 0.1, SlopeY: 0.2}, {Level: 90, SlopeX: 0.3}}, {{Level: -30, SlopeX: 0.1, SlopeY: 0.2}, {Level: 95, SlopeX: 0.3}},
		{{Level: -30, SlopeX: 0.1, SlopeY: 0.2}, {Level: 95, SlopeX: 0.3, SlopeY: -0.1}},
		{{Level: -30, SlopeX: 0.1, SlopeY: 0.3}, {Level: 95, SlopeX: 0.3, SlopeY: -0.2}},
		{{Level: -30, SlopeX: -0.1, SlopeY: 0.3}, {Level: 95, SlopeX: 0.2, SlopeY: -0.2}},
	} {
		p.Set(square, planes[0], planes[1])
		fresh := clash.NewPrism(square, planes[0], planes[1])
		// One that has not grown by other rings before.
		lifted := clash.NewPrism(square, planes[0].Raised(-300), planes[1].Raised(-300))
		lifted.Set(square, planes[0], planes[1])
		for k, body := range []*clash.Prism{other, block(120, 20, 160, 40, 0, 30), block(-60, 20, -20, 40, 0, 30), block(40, 80, 60, 120, 0, 30), block(40, -60, 60, -20, 0, 30),
			block(120, 75, 160, 100, 0, 30), block(-60, -60, -20, -20, 0, 30), block(90, 50, 400, 300, -300, -60), block(10, 10, 50, 50, 200, 300), block(10, 10, 50, 50, -300, -200), block(10, 10, 50, 50, 30, 80)} {
			if got, want := p.Gap(body), fresh.Gap(body); got != want {
				t.Errorf("planes %d, body %d: %+v, made new %+v", i, k, got, want)
			}
			if got, want := lifted.Gap(body), fresh.Gap(body); math.Abs(got.GapMM-want.GapMM) > 1e-9 {
				t.Errorf("planes %d lifted, body %d: %+v, made new %+v", i, k, got, want)
			}
			if got, want := body.Gap(&p), body.Gap(fresh); got != want {
				t.Errorf("planes %d, to body %d: %+v, made new %+v", i, k, got, want)
			}
		}
		var upright []clash.Cylinder
		for _, at := range []plan.Point{{50, -40}, {50, 100}, {-40, 30}, {140, 30}, {-30, -30}, {130, 90}} {
			upright = append(upright, clash.Cylinder{From: at.Vec3(0), To: at.Vec3(30), RadiusMM: 10})
		}
		for k, pipe := range append(append(upright, pipes...), clash.Cylinder{From: mgl64.Vec3{20, 30, 130}, To: mgl64.Vec3{20, 30, 200}, RadiusMM: 10}, clash.Cylinder{From: mgl64.Vec3{20, 30, -130}, To: mgl64.Vec3{20, 30, -200}, RadiusMM: 10}) {
			if got, want := pipe.Gap(lifted), pipe.Gap(fresh); math.Abs(got.GapMM-want.GapMM) > 1e-5 {
				t.Errorf("planes %d lifted, pipe %d: %+v, made new %+v", i, k, got, want)
			}
			if got, want := pipe.Gap(&p), pipe.Gap(fresh); got != want {
				t.Errorf("planes %d, pipe %d: %+v, made new %+v", i, k, got, want)
			}
		}
	}
	// A prism that is set anew needs no more room.
	if n := testing.AllocsPerRun(20, func() { p.Set(rings[0], bottom, top) }); n > 0 {
		t.Errorf("setting a prism anew sets aside memory %v times", n)
	}
}

// Two blocks with one arris over another, by hand: the lower one's top rises 3 in
// 10 along x and ends at y = 0, the upper one's underside rises 1 in 5 along y and
// ends at x = 0. Elsewhere they are farther apart, and neither lies wholly on one
// side of a face of the other. Square to both arrises, (−0.3, −0.2, 1), 5 upright
// are 5/√1.13.
func TestArrisOverArris(t *testing.T) {
	lower := clash.NewPrism(plan.Ring{{-100, -100}, {100, -100}, {100, 0}, {-100, 0}}, solid.Plane{Level: -300}, solid.Plane{SlopeX: 0.3, SlopeY: 0.5})
	for _, up := range []float64{5, -5} {
		upper := clash.NewPrism(plan.Ring{{-100, -100}, {0, -100}, {0, 100}, {-100, 100}}, solid.Plane{Level: up, SlopeY: 0.2}, solid.Plane{Level: 300})
		for _, got := range []clash.Meeting{lower.Gap(upper), upper.Gap(lower)} {
			if want := up / math.Sqrt(1.13); !(math.Abs(got.GapMM-want) <= 1e-9) {
				t.Errorf("%v over it: %v, want %v", up, got.GapMM, want)
			}
		}
	}
}

// A gap counts only where it is less than the reach; by hand 5 past an arris,
// 3 off the one face and 4 off the other, and 5 over a top.
func TestGapsWithinReach(t *testing.T) {
	joist := block(-1000, -23.5, 1000, 23.5, -200, -20)
	for name, c := range map[string]struct {
		body *clash.Prism
		gap  float64
	}{
		"past the arris": {block(0, 26.5, 100, 100, -16, 50), 5},
		"over it":        {block(0, -10, 100, 10, -15, 50), 5},
		"let into it":    {block(0, -35, 100, 35, -47, 50), -27},
	} {
		for reach, want := range map[float64]float64{c.gap + 1e-6: c.gap, c.gap: math.Inf(1), c.gap - 0.5: math.Inf(1), 1000: c.gap} {
			for _, got := range []clash.Meeting{c.body.GapWithin(joist, reach), joist.GapWithin(c.body, reach)} {
				if !(got.GapMM == want || math.Abs(got.GapMM-want) <= 1e-9) {
					t.Errorf("%s, within %v: %v, want %v", name, reach, got.GapMM, want)
				}
			}
		}
	}
}

// Pipes of radius 25 by all that lies between two planes, by hand: 20 thick and
// level; rising 3 in 4, where what lies 50 over it is 40 off.
func TestLayersByHand(t *testing.T) {
	pipe := func(a, b mgl64.Vec3) clash.Cylinder { return clash.Cylinder{From: a, To: b, RadiusMM: 25} }
	rising := solid.Plane{SlopeX: 0.75}
	for name, c := range map[string]struct {
		top  solid.Plane
		pipe clash.Cylinder
		gap  float64
	}{
		"over":             {solid.Plane{}, pipe(mgl64.Vec3{0, 0, 30}, mgl64.Vec3{100, 0, 30}), 5},
		"over, falling":    {solid.Plane{}, pipe(mgl64.Vec3{0, 0, 80}, mgl64.Vec3{30, 0, 40}), 40 - 25*0.6},
		"under":            {solid.Plane{}, pipe(mgl64.Vec3{0, 0, -60}, mgl64.Vec3{100, 0, -60}), 15},
		"under, rising":    {solid.Plane{}, pipe(mgl64.Vec3{0, 0, -100}, mgl64.Vec3{30, 0, -60}), 40 - 25*0.6},
		"in its middle":    {solid.Plane{}, pipe(mgl64.Vec3{0, 0, -10}, mgl64.Vec3{100, 0, -10}), -35},
		"near its top":     {solid.Plane{}, pipe(mgl64.Vec3{0, 0, -4}, mgl64.Vec3{100, 0, -4}), -29},
		"through it":       {solid.Plane{}, pipe(mgl64.Vec3{0, 0, 100}, mgl64.Vec3{0, 0, -50}), -50},
		"a drop over it":   {solid.Plane{}, pipe(mgl64.Vec3{0, 0, 100}, mgl64.Vec3{0, 0, 7}), 7},
		"over the rise":    {rising, pipe(mgl64.Vec3{0, -9, 50}, mgl64.Vec3{0, 9, 50}), 15},
		"along the rise":   {rising, pipe(mgl64.Vec3{0, 0, 50}, mgl64.Vec3{80, 0, 110}), 15},
		"a drop over that": {rising, pipe(mgl64.Vec3{0, 0, 50}, mgl64.Vec3{0, 0, 150}), 40 - 25*0.6},
		// Under it by 70 at x = 80: 0.8·(60 − 20 + 70).
		"under the rise": {rising, pipe(mgl64.Vec3{80, -9, -70}, mgl64.Vec3{80, 9, -70}), 0.8*(60-20+70) - 25},
		"up the other":   {solid.Plane{Level: 10, SlopeY: -0.75}, pipe(mgl64.Vec3{0, 40, 30}, mgl64.Vec3{9, 40, 30}), 0.8*50 - 25},
	} {
		under := c.top.Raised(-20)
		far := pipe(mgl64.Vec3{0, 0, 9000}, mgl64.Vec3{1, 0, 9000})
		for _, bodies := range [][]clash.Cylinder{{c.pipe}, {c.pipe, far}, {far, c.pipe}} {
			got := clash.GapToLayer(bodies, under, c.top)
			if !(math.Abs(got.GapMM-c.gap) <= 1e-9 && off(got.At, c.pipe.From.Add(c.pipe.To).Mul(0.5)) <= 1e-9) {
				t.Errorf("%s: %+v, want %v", name, got, c.gap)
			}
		}
	}
	if got := clash.GapToLayer(nil, solid.Plane{Level: -20}, solid.Plane{}); !math.IsInf(got.GapMM, 1) {
		t.Errorf("of nothing: %+v", got)
	}
}

// Blocks askew: the middle of what their bounds share lies in neither, the place told
// in both. A square on its corner, 100 from middle to corner, over a block that takes
// a strip off its upper right side: there x + y = 95 to 100, while the bounds share x
// and y from 20 to 100.
func TestPlaceOfBlocksAskew(t *testing.T) {
	level := func(z float64) solid.Plane { return solid.Plane{Level: z} }
	diamond := clash.NewPrism(plan.Ring{{100, 0}, {0, 100}, {-100, 0}, {0, -100}}, level(0), level(10))
	wedge := clash.NewPrism(plan.Ring{{20, 75}, {100, 100}, {75, 20}}, level(0), level(10))
	got := diamond.Gap(wedge)
	sum := got.At.X() + got.At.Y()
	if want := -5 / math.Sqrt2; math.Abs(got.GapMM-want) > 1e-9 || sum < 95 || sum > 100 || got.At.Z() < 0 || got.At.Z() > 10 {
		t.Errorf("%+v: want %v, x and y together from 95 to 100", got, want)
	}
	// Any two that overlap.
	rapid.Check(t, func(t *rapid.T) {
		body := func(name string) (*clash.Prism, plan.Ring, solid.Plane, solid.Plane) {
			n := rapid.IntRange(3, 6).Draw(t, name+" corners")
			r, turn := rapid.Float64Range(20, 200).Draw(t, name+" size"), rapid.Float64Range(0, 6).Draw(t, name+" turn")
			x, y := rapid.Float64Range(-150, 150).Draw(t, name+" x"), rapid.Float64Range(-150, 150).Draw(t, name+" y")
			var ring plan.Ring
			for k := range n {
				s, c := math.Sincos(turn + 2*math.Pi*float64(k)/float64(n))
				ring = append(ring, plan.Point{x + r*c, y + r*s})
			}
			bottom := solid.Plane{Level: rapid.Float64Range(-50, 50).Draw(t, name+" z"), SlopeX: rapid.Float64Range(-0.3, 0.3).Draw(t, name+" slope")}
			top := bottom.Raised(rapid.Float64Range(5, 80).Draw(t, name+" height"))
			return clash.NewPrism(ring, bottom, top), ring, bottom, top
		}
		a, ra, ba, ta := body("a")
		b, rb, bb, tb := body("b")
		is := a.Gap(b)
		if is.GapMM >= 0 {
			return
		}
		flat := plan.Point{is.At.X(), is.At.Y()}
		const rounding = 1e-6
		if !plan.FromRing(ra).Contains(flat, rounding) || !plan.FromRing(rb).Contains(flat, rounding) ||
			is.At.Z() < max(ba.At(flat), bb.At(flat))-rounding || is.At.Z() > min(ta.At(flat), tb.At(flat))+rounding {
			t.Fatalf("%v is not in both", is.At)
		}
	})
}
