package measure_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The largest circle clear on the floor: of a bare room 2400 by 1900 as wide as it is deep;
// what stands along a wall takes its depth, and what stands in the middle leaves what is
// beside it. To a fifth of a millimetre, as the measurer looks for it.
func TestTurningCircleByHand(t *testing.T) {
	at := func(wall int, from, wide, deep float64) job.Fixture {
		return job.Fixture{Kind: job.FixtureCupboard, Wall: wall, OffsetMM: from, WidthMM: wide, DepthMM: deep, HeightMM: 900}
	}
	stack := []job.Stack{{At: plan.Point{1200, 950}, NominalMM: 100, OutsideMM: 100}}
	for name, c := range map[string]struct {
		fixtures []job.Fixture
		stacks   []job.Stack
		want     float64
	}{
		"bare":            {nil, nil, 1900},
		"along the front": {[]job.Fixture{at(0, 0, 2400, 500)}, nil, 1400},
		"both sides":      {[]job.Fixture{at(1, 0, 1900, 600), at(3, 0, 1900, 700)}, nil, 1100},
		// A circle of r in a corner that touches the walls x = 0, y = 0 and the stack:
		// (1200 − r)² + (950 − r)² = (r + 50)², or r² − 2·2200 r + 2 340 000 = 0.
		"a stack in the middle": {nil, stack, 2 * (2200 - math.Sqrt(2200*2200-2340000))},
	} {
		j := job.New()
		j.Accessible, j.Room.Fixtures, j.Room.Stacks = true, c.fixtures, c.stacks
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if got := measured(r, "room.turning-circle", "room-floor"); math.Abs(got-c.want) > 0.3 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// A box over the pipe takes floor as a fixture does. Out to the right wall it lies along the
// back from x = 1400, the shower's side, and down to y = 1832 − 57 = 1775: a circle of r that
// touches the walls x = 0 and y = 0 and its corner has (1400 − r)² + (1775 − r)² = r². Across
// the room to that wall at y = 400 the box takes from 343 to 457 of x over 643, and its leg from
// the shower as much of x from 643 to 757: beside that the floor is 643 wide, behind the box
// the front has 343, and the shower and what lies between it and the box 1900 − 457 beside x =
// 757, of 2400 − 757.
func TestTurningCircleBesideABox(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   float64
	}{
		"along the wall": {func(j *job.Job) {
			j.Drain.OutletTurnDeg, j.Waste.Exit = 0, job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
		}, 2 * (3175 - math.Sqrt(3175*3175-1400*1400-1775*1775))},
		"across the room": {func(j *job.Job) {
			j.Drain.OutletTurnDeg = 270
			j.Waste.Waypoints, j.Waste.Exit = []plan.Point{{700, 400}}, job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 400}
		}, 1900 - 457},
	} {
		j := job.New()
		j.Accessible = true
		c.change(&j)
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if got := measured(r, "room.turning-circle", "room-floor"); math.Abs(got-1900) > 0.3 {
			t.Errorf("%s: %v beside a bare pipe, want 1900", name, got)
		}
		boxedIn(&j, 16.5)
		r = geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if got := measured(r, "room.turning-circle", "room-floor"); math.Abs(got-c.want) > 0.3 {
			t.Errorf("%s: %v beside a box, want %v", name, got, c.want)
		}
	}
}

// The largest circle is no smaller than about any place of a raster over the floor, and no
// larger than its places allow: between them it can grow by no more than half its diagonal.
func TestTurningCircleAgainstARaster(t *testing.T) {
	packs := demotest.Packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		j.Accessible = true
		out := rapid.Float64Range(-300, 300).Draw(t, "out of square")
		j.Room.Outline = plan.Ring{{0, 0}, {2600, 0}, {2600 + out, 2100}, {0, 2100}}
		for i := range rapid.IntRange(0, 3).Draw(t, "fixtures") {
			j.Room.Fixtures = append(j.Room.Fixtures, job.Fixture{Kind: job.FixtureCupboard, Wall: rapid.IntRange(0, 3).Draw(t, "wall"),
				OffsetMM: 100 + 300*float64(i), WidthMM: rapid.Float64Range(200, 900).Draw(t, "wide"), DepthMM: rapid.Float64Range(200, 700).Draw(t, "deep"), HeightMM: 900})
		}
		for range rapid.IntRange(0, 2).Draw(t, "stacks") {
			at := plan.Point{rapid.Float64Range(100, 2200).Draw(t, "x"), rapid.Float64Range(100, 2000).Draw(t, "y")}
			j.Room.Stacks = append(j.Room.Stacks, job.Stack{At: at, NominalMM: 100, OutsideMM: 110})
		}
		r := geometry.Evaluate(j, packs["UK"])
		if len(r.Problems) > 0 {
			t.Skip(r.Problems)
		}
		const raster = 25.0
		best := 0.0
		for x := -300.0; x <= 2900; x += raster {
			for y := 0.0; y <= 2100; y += raster {
				p := plan.Point{x, y}
				if !r.Layout.Room.Contains(p, 0) {
					continue
				}
				clear := r.Layout.Room.EdgeMM(p)
				for _, f := range r.Layout.Fixtures {
					clear = min(clear, f.EdgeMM(p))
					if plan.FromRing(f).Contains(p, 0) {
						clear = 0
					}
				}
				for _, s := range r.Layout.Stacks {
					clear = min(clear, s.At.Sub(p).Len()-s.RadiusMM)
				}
				best = max(best, clear)
			}
		}
		if got := measured(r, "room.turning-circle", "room-floor") / 2; got < best-0.1 || got > best+raster/math.Sqrt2+0.1 {
			t.Fatalf("a radius of %v, the raster's best is %v", got, best)
		}
	})
}
