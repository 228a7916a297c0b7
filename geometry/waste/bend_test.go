package waste_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// turning is a run that goes 1000 out, turns by an angle, positive to the left,
// and goes on for 1000.
func turning(deg float64) run {
	s, c := math.Sincos(deg * math.Pi / 180)
	return run{turns: []plan.Point{{1000, 0}}, exit: plan.Point{1000 + 1000*c, 1000 * s}}
}

// troubles of a kind in a run.
func troubles(r waste.Run, kind waste.TroubleKind) (out []waste.Trouble) {
	for _, x := range r.Trouble {
		if x.Kind == kind {
			out = append(out, x)
		}
	}
	return out
}

// A fitting keeps its radius when its joints are drawn off its angle: a 45°
// bend of 25 from centre to face has 25/tan 22.5° = 60.36, a 90° bend of 45 has
// 45. At a turn of a the bend then begins and ends radius·tan(a/2) from the
// corner and its centre line is radius·a long. Up to 67.5° the nearer fitting is
// the 45° one. Past 150° a bend reaches no farther than at 150°.
func TestTangentsOfBends(t *testing.T) {
	tan := func(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }
	for _, c := range []struct{ deg, nearest, tangent float64 }{
		{45, 45, 25}, {-45, 45, 25}, {47, 45, 25 / tan(22.5) * tan(23.5)}, {67.4, 45, 25 / tan(22.5) * tan(33.7)},
		{67.6, 90, 45 * tan(33.8)}, {88, 90, 45 * tan(44)}, {90, 90, 45}, {-90, 90, 45}, {92, 90, 45 * tan(46)}, {149, 90, 45 * tan(74.5)},
		{155, 90, 45 * tan(75)}, {-170, 90, 45 * tan(75)}, {2.6, 45, 25 / tan(22.5) * tan(1.3)},
	} {
		for _, f := range frames() {
			name := fmt.Sprintf("turn of %v°", c.deg)
			r := turning(c.deg).lay(f)
			if len(r.Pieces) != 3 || r.Bends != 1 {
				t.Fatalf("%s: pieces %v, %d bends", name, kinds(r), r.Bends)
			}
			bend := r.Pieces[1]
			a := math.Abs(c.deg) * math.Pi / 180
			near(t, name+", angle", bend.TurnDeg, math.Abs(c.deg))
			near(t, name+", fitting", bend.NearestDeg, c.nearest)
			near(t, name+", start along the run", bend.FromMM, 1000-c.tangent)
			s, k := math.Sincos(c.deg * math.Pi / 180)
			corner := plan.Point{1000, 0}
			nearPoint(t, name+", start", bend.Path[0], f.point(corner.Sub(plan.Point{c.tangent, 0})))
			nearPoint(t, name+", end", bend.Path[len(bend.Path)-1], f.point(corner.Add(plan.Point{k, s}.Mul(c.tangent))))
			// All of it lies on the circle that touches both legs, to the left of
			// the outlet for a turn to the left.
			radius := c.tangent / math.Tan(a/2)
			centre := f.point(plan.Point{1000 - c.tangent, math.Copysign(radius, c.deg)})
			outer := radius + 25 // the pipe's outside
			for i, p := range bend.Path {
				near(t, name+", radius", p.Sub(centre).Len(), radius)
				if i == 0 {
					continue
				}
				half := math.Asin(p.Sub(bend.Path[i-1]).Len() / 2 / radius)
				if sagitta := outer * (1 - math.Cos(half)); sagitta > 0.05 {
					t.Errorf("%s: a chord of the pipe's outside lies %v off its circle", name, sagitta)
				}
			}
			if n := len(bend.Path); n < 3 {
				t.Errorf("%s: drawn with %d points", name, n)
			}
			if l := bend.LengthMM(); l > radius*a || l < radius*a*0.999 {
				t.Errorf("%s: %v long, want %v", name, l, radius*a)
			}
			near(t, name+", whole length", r.LengthMM, 2000-2*c.tangent+bend.LengthMM())
			nearPoint(t, name+", way out at the exit", r.ExitTo, f.vector(plan.Point{k, s}))
		}
	}
}

// A joint can be drawn 2.5° off a fitting's angle (common practice, no source),
// and no farther: both sides of 0, 45 and 90 degrees.
func TestAngleSlack(t *testing.T) {
	for _, c := range []struct {
		deg     float64
		nearest float64 // 0 where no bend is needed
		trouble bool
	}{
		{2.4, 0, false}, {-2.4, 0, false}, {2.6, 45, true}, {-2.6, 45, true}, {42.4, 45, true}, {42.6, 45, false}, {-42.6, 45, false}, {47.4, 45, false},
		{47.6, 45, true}, {-47.6, 45, true}, {87.4, 90, true}, {87.6, 90, false}, {92.4, 90, false}, {92.6, 90, true}, {-92.6, 90, true}, {60, 45, true}, {75, 90, true},
	} {
		name := fmt.Sprintf("turn of %v°", c.deg)
		r := turning(c.deg).lay(frame{})
		want := 0
		if c.nearest > 0 {
			want = 1
		}
		if r.Bends != want || len(r.Pieces) != 2+want {
			t.Errorf("%s: %d bends, pieces %v", name, r.Bends, kinds(r))
		}
		found := troubles(r, waste.NoBend)
		if c.trouble != (len(found) == 1) || len(r.Trouble) != len(found) {
			t.Errorf("%s: trouble %v", name, r.Trouble)
			continue
		}
		if c.trouble {
			near(t, name+", asked for", found[0].Value, math.Abs(c.deg))
			near(t, name+", there is", found[0].Limit, c.nearest)
			nearPoint(t, name+", where", found[0].At, plan.Point{1000, 0})
			if found[0].Number != 1 {
				t.Errorf("%s: trouble with bend %d, want 1", name, found[0].Number)
			}
		}
	}
}

// The run leaves the trap the way its outlet points, within the same 2.5°.
func TestSlackAtTheOutlet(t *testing.T) {
	for deg, trouble := range map[float64]bool{0: false, 2.4: false, -2.4: false, 2.6: true, -2.6: true, 90: true} {
		s, c := math.Sincos(deg * math.Pi / 180)
		for _, f := range frames() {
			r := run{turns: []plan.Point{{500 * c, 500 * s}}, exit: plan.Point{1000 * c, 1000 * s}}.lay(f)
			if (len(r.Trouble) == 1) != trouble {
				t.Errorf("off by %v°: trouble %v", deg, r.Trouble)
			} else if trouble {
				x := r.Trouble[0]
				near(t, "asked for", x.Value, math.Abs(deg))
				near(t, "there is", x.Limit, 2.5)
				nearPoint(t, "where", x.At, f.point(plan.Point{}))
				if x.Kind != waste.NoBend || x.Number != 0 {
					t.Errorf("off by %v°: %+v", deg, x)
				}
			}
		}
	}
}

// Two 90° bends take 45 each off the leg between them. On 90 they just fit; on
// less they are drawn in, each by the share of the leg there is. A bend between
// two short legs follows the shorter: of 60 and 30 for 90 each it keeps
// 45·30/90 = 15, the first 45·60/90 = 30, the last 15.
func TestBendsOnShortLegs(t *testing.T) {
	for _, c := range []struct {
		second, third float64 // lengths of the legs
		short         []int   // which legs are told
		tangents      [3]float64
	}{
		{90, 90, nil, [3]float64{45, 45, 45}}, {90.1, 90.1, nil, [3]float64{45, 45, 45}}, {90, 89.9, []int{3}, [3]float64{45, 45 * 89.9 / 90, 45 * 89.9 / 90}},
		{60, 30, []int{2, 3}, [3]float64{30, 15, 15}}, {30, 60, []int{2, 3}, [3]float64{15, 15, 30}}, {60, 200, []int{2}, [3]float64{30, 30, 45}},
	} {
		name := fmt.Sprintf("legs of %v and %v", c.second, c.third)
		for _, f := range frames() {
			// Right, up, right again, up.
			turns := []plan.Point{{200, 0}, {200, c.second}, {200 + c.third, c.second}}
			r := run{turns: turns, exit: plan.Point{200 + c.third, c.second + 300}}.lay(f)
			found := troubles(r, waste.NoRoom)
			if len(found) != len(c.short) || len(r.Trouble) != len(found) {
				t.Fatalf("%s: trouble %v", name, r.Trouble)
			}
			for i, leg := range c.short {
				length := []float64{c.second, c.third}[leg-2]
				near(t, name+", there is", found[i].Value, length)
				near(t, name+", needed", found[i].Limit, 90)
				nearPoint(t, name+", where", found[i].At, f.point(turns[leg-2].Add(turns[leg-1]).Mul(0.5)))
				if found[i].Number != leg {
					t.Errorf("%s: trouble with leg %d, want %d", name, found[i].Number, leg)
				}
			}
			bend := 0
			for _, p := range r.Pieces {
				if p.Kind == waste.Bend {
					near(t, fmt.Sprintf("%s, bend %d from its corner", name, bend+1), p.Path[0].Sub(f.point(turns[bend])).Len(), c.tangents[bend])
					bend++
				}
			}
			if bend != 3 || r.Bends != 3 {
				t.Errorf("%s: %d and %d bends", name, bend, r.Bends)
			}
		}
	}
	// The first leg has one bend only: 45 is enough, 44 is not.
	for first, want := range map[float64]int{45: 0, 45.1: 0, 44.9: 1} {
		r := run{turns: []plan.Point{{first, 0}}, exit: plan.Point{first, 300}}.lay(frame{})
		if len(r.Trouble) != want {
			t.Errorf("first leg of %v: trouble %v", first, r.Trouble)
		}
	}
}
