package layout_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// The starting room, 2400 by 1900, with walls of four thicknesses. Square
// corners: an outer face goes on past the corner by the neighbour's thickness.
// The footprint of the first wall is then a trapezium of 2400 and
// 150 + 2400 + 120 over 100: (2400 + 2670)/2 · 100 = 253 500 mm².
func TestWallsByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		j := job.New()
		for i, thick := range []float64{100, 120, 215, 150} {
			j.Room.Walls[i].ThicknessMM = thick
		}
		l := place(t, f.job(j))
		for i, want := range []struct {
			a, b, outward                     plan.Point
			length, thick, before, after, mm2 float64
		}{
			{plan.Point{0, 0}, plan.Point{2400, 0}, plan.Point{0, -1}, 2400, 100, 150, 120, 253500},
			{plan.Point{2400, 0}, plan.Point{2400, 1900}, plan.Point{1, 0}, 1900, 120, 100, 215, 4115 * 120 / 2},
			{plan.Point{2400, 1900}, plan.Point{0, 1900}, plan.Point{0, 1}, 2400, 215, 120, 150, 5070 * 215 / 2},
			{plan.Point{0, 1900}, plan.Point{0, 0}, plan.Point{-1, 0}, 1900, 150, 215, 100, 4115 * 150 / 2},
		} {
			k := f.wall(i, 4)
			if f.backward {
				want.a, want.b, want.before, want.after = want.b, want.a, want.after, want.before
			}
			w, name := l.Walls[k], fmt.Sprintf("wall %d, ", i)
			if w.Index != k {
				t.Errorf("%sindex %d, want %d", name, w.Index, k)
			}
			nearPoint(t, name+"start", w.A, f.point(want.a))
			nearPoint(t, name+"end", w.B, f.point(want.b))
			nearPoint(t, name+"way out", w.Outward, f.vector(want.outward))
			nearPoint(t, name+"way along", w.Along, f.vector(want.b.Sub(want.a).Mul(1/want.length)))
			near(t, name+"length", w.LengthMM, want.length)
			near(t, name+"thickness", w.ThicknessMM, want.thick)
			near(t, name+"start of the outer face", w.OuterFromMM, -want.before)
			near(t, name+"end of the outer face", w.OuterToMM, want.length+want.after)
			nearPoint(t, name+"a quarter along", w.At(want.length/4), f.point(want.a.Mul(0.75).Add(want.b.Mul(0.25))))
			nearArea(t, name+"footprint", w.Footprint(), want.mm2)
			// The outer corners are there, and the wall lies outside the room.
			for _, c := range []plan.Point{w.At(w.OuterFromMM), w.At(w.OuterToMM)} {
				if p := c.Add(f.vector(want.outward).Mul(want.thick)); !w.Footprint().Contains(p, 1e-5) {
					t.Errorf("%sfootprint lacks its outer corner %v", name, p)
				}
			}
			if shared := plan.SharedArea(w.Footprint(), l.Room); shared > 1 {
				t.Errorf("%sfootprint takes %v mm² of the room", name, shared)
			}
		}
	})
}

// Where walls of one thickness s meet at an angle a, outer faces meet
// s·cot(a/2) past the corner; past an inward point, as far before it. More than
// one and a half thicknesses is cut off: cot 35° = 1.4281 stays, cot 30° =
// 1.7321 does not.
func TestSharpCornersAreCutOff(t *testing.T) {
	const thick = 100.0
	for _, c := range []struct{ angleDeg, past float64 }{{90, 100}, {70, 100 / math.Tan(35*math.Pi/180)}, {60, 150}, {40, 150}} {
		s, k := math.Sincos(c.angleDeg * math.Pi / 180)
		name := fmt.Sprintf("corner of %v°", c.angleDeg)
		l := place(t, withOutline(job.New(), thick, plan.Point{0, 0}, plan.Point{3000, 0}, plan.Point{3000 * k, 3000 * s}))
		near(t, name+", first wall", l.Walls[0].OuterFromMM, -c.past)
		near(t, name+", last wall", l.Walls[2].OuterToMM, 3000+c.past)
		// The same angle as a wedge that stands into the room, its point at
		// (2000, 800).
		half := 1200 * math.Tan(c.angleDeg/2*math.Pi/180)
		l = place(t, withOutline(job.New(), thick, plan.Point{0, 0}, plan.Point{4000, 0}, plan.Point{4000, 2000},
			plan.Point{2000 + half, 2000}, plan.Point{2000, 800}, plan.Point{2000 - half, 2000}, plan.Point{0, 2000}))
		near(t, name+", wall up to the point", l.Walls[3].OuterToMM, math.Hypot(half, 1200)-c.past)
		near(t, name+", wall from the point", l.Walls[4].OuterFromMM, c.past)
	}
}

// The cut goes by the thicker of two walls: a thin wall of 50 beside one of 150
// at a right angle reaches 150 past the corner, three of its own thicknesses
// but one of the other's.
func TestThickerWallSaysWhereToCut(t *testing.T) {
	j := job.New()
	for i, thick := range []float64{50, 150, 50, 150} {
		j.Room.Walls[i].ThicknessMM = thick
	}
	for i, w := range place(t, j).Walls {
		past := []float64{150, 50}[i%2]
		near(t, fmt.Sprintf("wall %d, start", i), w.OuterFromMM, -past)
		near(t, fmt.Sprintf("wall %d, end", i), w.OuterToMM, w.LengthMM+past)
	}
}

// Walls that go straight on meet at their corner, however thick they are.
func TestStraightOnMeetsAtTheCorner(t *testing.T) {
	j := withOutline(job.New(), 100, plan.Point{0, 0}, plan.Point{1200, 0}, plan.Point{2400, 0}, plan.Point{2400, 1900}, plan.Point{0, 1900})
	j.Room.Walls[1].ThicknessMM = 140
	j.Shower.Wall = 3
	l := place(t, j)
	near(t, "end of the first", l.Walls[0].OuterToMM, 1200)
	near(t, "start of the second", l.Walls[1].OuterFromMM, 0)
	near(t, "start of the first", l.Walls[0].OuterFromMM, -100)
	near(t, "end of the second", l.Walls[1].OuterToMM, 1300)
}

// The nearest wall of the starting room; past a corner, 30 and 40 aside, it is
// 50 to the corner, whichever wall is named.
func TestClear(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		l := place(t, f.job(job.New()))
		for _, c := range []struct {
			at   plan.Point
			mm   float64
			wall int
		}{{plan.Point{1200, 100}, 100, 0}, {plan.Point{2150, 900}, 250, 1}, {plan.Point{1200, 1850}, 50, 2}, {plan.Point{300, 500}, 300, 3}, {plan.Point{-30, -40}, 50, -1}} {
			mm, w := l.Clear(f.point(c.at))
			near(t, fmt.Sprintf("clear of the walls at %v", c.at), mm, c.mm)
			if c.wall >= 0 && w.Index != f.wall(c.wall, 4) {
				t.Errorf("at %v the nearest wall is %d, want %d", c.at, w.Index, f.wall(c.wall, 4))
			}
		}
	})
	if mm, _ := (layout.Layout{}).Clear(plan.Point{}); !math.IsInf(mm, 1) {
		t.Errorf("without walls it is %v to the nearest", mm)
	}
}
