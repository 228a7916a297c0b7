package layout_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// timber is the starting job on joists 47 wide at 400 centres, along the X axis.
func timber() job.Job {
	j := job.New()
	j.Floor.Kind = job.FloorTimber
	j.Floor.Joists.WidthMM, j.Floor.Joists.SpacingMM, j.Floor.Joists.DirectionDeg = 47, 400, 0
	return j
}

// In the starting room, 2400 by 1900, the joists run to the right and are
// counted from the front wall, which is on the right-hand side looking along
// them. A joist that reaches under the room with no more than a sliver counts:
// half of 47 is 23.5, so from −23.5 to 1923.5.
func TestJoistsByHand(t *testing.T) {
	for name, c := range map[string]struct {
		first, spacing float64
		want           []float64 // centre lines from the front wall
	}{
		"usual":                 {200, 400, []float64{200, 600, 1000, 1400, 1800}},
		"first one far in":      {1000, 400, []float64{200, 600, 1000, 1400, 1800}},
		"first one outside":     {-950, 400, []float64{250, 650, 1050, 1450, 1850}},
		"one under the front":   {-23, 450, []float64{-23, 427, 877, 1327, 1777}},
		"one past the front":    {-24, 450, []float64{426, 876, 1326, 1776}},
		"one under the back":    {323, 400, []float64{323, 723, 1123, 1523, 1923}},
		"one past the back":     {324, 400, []float64{324, 724, 1124, 1524}},
		"touching the front":    {-23.5, 450, []float64{-23.5, 426.5, 876.5, 1326.5, 1776.5}},
		"touching the back":     {323.5, 400, []float64{323.5, 723.5, 1123.5, 1523.5, 1923.5}},
		"counted back to under": {780, 400, []float64{-20, 380, 780, 1180, 1580}},
	} {
		t.Run(name, func(t *testing.T) {
			inEveryFrame(t, func(t *testing.T, f frame) {
				j := timber()
				j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.SpacingMM = c.first, c.spacing
				if f.turnDeg != 0 && c.first*2 != math.Trunc(c.first)*2 {
					t.Skip("what just touches does so in exact numbers only")
				}
				l := place(t, f.job(j))
				if len(l.Joists) != len(c.want) {
					t.Fatalf("%d joists, want %d", len(l.Joists), len(c.want))
				}
				for i, v := range c.want {
					x, name := l.Joists[i], fmt.Sprintf("joist %d, ", i+1)
					if x.Number != i+1 {
						t.Errorf("%snumber %d", name, x.Number)
					}
					nearPoint(t, name+"start", x.Origin.Add(x.Along.Mul(x.FromMM)), f.point(plan.Point{0, v}))
					nearPoint(t, name+"end", x.Origin.Add(x.Along.Mul(x.ToMM)), f.point(plan.Point{2400, v}))
					nearPoint(t, name+"origin", x.Origin, f.point(plan.Point{0, v}))
					nearPoint(t, name+"direction", x.Along, f.vector(plan.Point{1, 0}))
					near(t, name+"width", x.WidthMM, 47)
					boxIs(t, name+"footprint", x.Footprint, f, plan.Point{0, v - 23.5}, plan.Point{2400, v + 23.5})
				}
				nearPoint(t, "origin", l.JoistOrigin, f.point(plan.Point{0, 0}))
				nearPoint(t, "direction", l.JoistAlong, f.vector(plan.Point{1, 0}))
				if len(l.SupportsMM) != 2 {
					t.Fatalf("supports at %v", l.SupportsMM)
				}
				near(t, "first support", l.SupportsMM[0], 0)
				near(t, "last support", l.SupportsMM[1], 2400)
			})
		})
	}
}

// At 30° over the same room, from the room's outermost points: the farthest
// back along the joists is (0, 0), the farthest to the right of them (2400, 0),
// which lies 2400·sin 30° = 1200 aside. The first joist is 200 from there, on
// the line −x/2 + y·cos 30° = −1000: into the room at (2000, 0), which is
// 2000·cos 30° along, out of it at (2400, 200/cos 30°), 2400·cos 30° +
// 200·tan 30° along. Across, the room reaches 1200 + 1900·cos 30° = 2845.45:
// joists at 200 to 2600 make seven; along, 2400·cos 30° + 950 = 3028.46.
func TestJoistsAskew(t *testing.T) {
	c, tan := math.Sqrt(3)/2, 1/math.Sqrt(3)
	j := timber()
	j.Floor.Joists.DirectionDeg = 30
	l := place(t, j)
	if len(l.Joists) != 7 {
		t.Fatalf("%d joists, want 7", len(l.Joists))
	}
	nearPoint(t, "origin", l.JoistOrigin, plan.Point{600, -1200 * c})
	nearPoint(t, "direction", l.JoistAlong, plan.Point{c, 0.5})
	near(t, "last support", l.SupportsMM[1], 2400*c+950)
	first := l.Joists[0]
	near(t, "start of the first", first.FromMM, 2000*c)
	near(t, "end of the first", first.ToMM, 2400*c+200*tan)
	nearPoint(t, "origin of the first", first.Origin, plan.Point{600 - 100, -1200*c + 200*c})
	nearArea(t, "first", first.Footprint, 47*(400*c+200*tan))
	nearPoint(t, "middle of the first", first.Footprint.Centroid(), plan.Point{2200, 100 / c})
	for deg, want := range map[float64]plan.Point{0: {1, 0}, 90: {0, 1}, 180: {-1, 0}, 270: {0, -1}, -90: {0, -1}} {
		j.Floor.Joists.DirectionDeg = deg
		if got := place(t, j).JoistAlong; got != want {
			t.Errorf("at %v° joists run %v, want exactly %v", deg, got, want)
		}
	}
}

// In a room whose back wall is 1400 long over a front of 2400, joists end at
// the leaning wall: at y = 950 halfway, 1900. One half under the front wall is
// as long as the room half a millimetre in, 2400 − 1000·0.5/1900; one under the
// back wall likewise, 1400 + 1000·0.5/1900. Where the room has a bay in the way
// the joist runs through it.
func TestJoistsEndAtTheWalls(t *testing.T) {
	leaning := withOutline(timber(), 100, plan.Point{0, 0}, plan.Point{2400, 0}, plan.Point{1400, 1900}, plan.Point{0, 1900})
	bay := withOutline(timber(), 100, plan.Point{0, 0}, plan.Point{900, 0}, plan.Point{900, 500}, plan.Point{1500, 500}, plan.Point{1500, 0},
		plan.Point{2400, 0}, plan.Point{2400, 1900}, plan.Point{0, 1900})
	bay.Shower.Wall = 6
	for name, c := range map[string]struct {
		j       job.Job
		first   float64
		from    float64
		to      float64
		spacing float64
	}{
		"halfway":         {leaning, 950, 0, 1900, 2000},
		"under the front": {leaning, -20, 0, 2400 - 1000*0.5/1900, 2000},
		"under the back":  {leaning, 1920, 0, 1400 + 1000*0.5/1900, 2000},
		"past the bay":    {bay, 1200, 0, 2400, 2000},
		"through the bay": {bay, 200, 0, 2400, 2000},
	} {
		j := c.j
		j.Shower.WidthMM, j.Shower.OffsetMM = 1400, 0
		j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.SpacingMM = c.first, c.spacing
		l := place(t, j)
		if len(l.Joists) != 1 {
			t.Fatalf("%s: %d joists, want one", name, len(l.Joists))
		}
		near(t, name+", start", l.Joists[0].FromMM, c.from)
		near(t, name+", end", l.Joists[0].ToMM, c.to)
	}
}

// Supports that are stated stay as they are; a slab has neither joists nor
// supports; and joists closer than anyone lays them do not go on for ever.
func TestSupportsAndCount(t *testing.T) {
	j := timber()
	j.Floor.Joists.SupportsMM = []float64{-50, 1200, 2450}
	if got := place(t, j).SupportsMM; fmt.Sprint(got) != "[-50 1200 2450]" {
		t.Errorf("supports at %v", got)
	}
	j.Floor.Kind = job.FloorSlab
	if l := place(t, j); len(l.Joists)+len(l.SupportsMM) > 0 || l.JoistAlong != (plan.Point{}) {
		t.Errorf("a slab with %d joists on supports %v", len(l.Joists), l.SupportsMM)
	}
	// 1900 at 3.1 would make 613, at 3.2 it makes 594.
	j = timber()
	j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.WidthMM = 0, 0.2
	for spacing, want := range map[float64]int{3.1: 601, 3.2: 594} {
		j.Floor.Joists.SpacingMM = spacing
		if got := len(place(t, j).Joists); got != want {
			t.Errorf("%d joists at %v, want %d", got, spacing, want)
		}
	}
}

// A joist 47 wide on the line y = 200 between x = 100 and 2500. A segment from
// y = 0 to 400 is in it from 176.5 to 223.5 of 400: 0.44125 to 0.55875. From
// (0, 100) to (400, 300) it is from 76.5 to 123.5 of 200. Along it from x = 0
// to 2600 it is in it between its ends. What just touches it is outside.
func TestCrosses(t *testing.T) {
	for _, f := range []frame{{name: "straight"}, {name: "turned", turnDeg: 30, by: plan.Point{1000, -2000}}} {
		x := layout.Joist{Origin: f.point(plan.Point{0, 200}), Along: f.vector(plan.Point{1, 0}), FromMM: 100, ToMM: 2500, WidthMM: 47}
		for name, c := range map[string]struct {
			a, b     plan.Point
			from, to float64
			ok       bool
		}{
			"square over it":          {plan.Point{500, 0}, plan.Point{500, 400}, 0.44125, 0.55875, true},
			"square back over it":     {plan.Point{500, 400}, plan.Point{500, 0}, 0.44125, 0.55875, true},
			"askew":                   {plan.Point{100, 100}, plan.Point{500, 300}, 0.3825, 0.6175, true},
			"along it":                {plan.Point{0, 200}, plan.Point{2600, 200}, 1 / 26.0, 25 / 26.0, true},
			"back along it":           {plan.Point{2600, 210}, plan.Point{0, 210}, 1 / 26.0, 25 / 26.0, true},
			"within it":               {plan.Point{400, 190}, plan.Point{500, 210}, 0, 1, true},
			"from within":             {plan.Point{400, 200}, plan.Point{400, 247}, 0, 0.5, true},
			"into it":                 {plan.Point{400, 247}, plan.Point{400, 200}, 0.5, 1, true},
			"just inside its breadth": {plan.Point{400, 223.4}, plan.Point{900, 223.4}, 0, 1, true},
			"just outside it":         {plan.Point{400, 223.6}, plan.Point{900, 223.6}, 0, 0, false},
			"below it":                {plan.Point{400, 176.4}, plan.Point{900, 176.4}, 0, 0, false},
			"just inside below":       {plan.Point{400, 176.6}, plan.Point{900, 176.6}, 0, 1, true},
			"just inside its start":   {plan.Point{100.1, 0}, plan.Point{100.1, 400}, 0.44125, 0.55875, true},
			"before its start":        {plan.Point{99.9, 0}, plan.Point{99.9, 400}, 0, 0, false},
			"just inside its end":     {plan.Point{2499.9, 0}, plan.Point{2499.9, 400}, 0.44125, 0.55875, true},
			"past its end":            {plan.Point{2500.1, 0}, plan.Point{2500.1, 400}, 0, 0, false},
			"short of it":             {plan.Point{400, 0}, plan.Point{500, 176}, 0, 0, false},
			"a hair into it":          {plan.Point{400, 76.5}, plan.Point{500, 177.5}, 100 / 101.0, 1, true},
			"beyond it":               {plan.Point{400, 224}, plan.Point{500, 400}, 0, 0, false},
			"past the corner":         {plan.Point{2490, 100}, plan.Point{2600, 260}, 0, 0, false},
			"cuts the corner":         {plan.Point{2440, 100}, plan.Point{2540, 260}, 76.5 / 160, 0.6, true},
		} {
			from, to, ok := x.Crosses(f.point(c.a), f.point(c.b))
			if ok != c.ok {
				t.Errorf("%s, %s: crosses %v, want %v", f.name, name, ok, c.ok)
			}
			if c.ok {
				near(t, f.name+", "+name+", from", from, c.from)
				near(t, f.name+", "+name+", to", to, c.to)
			} else if to > from {
				t.Errorf("%s, %s: outside it crosses from %v to %v", f.name, name, from, to)
			}
		}
	}
}

// What just touches a joist is outside it. The numbers are exact: 64 wide on
// y = 256, from x = 128 to 2048.
func TestTouchingIsNoCrossing(t *testing.T) {
	x := layout.Joist{Origin: plan.Point{0, 256}, Along: plan.Point{1, 0}, FromMM: 128, ToMM: 2048, WidthMM: 64}
	for name, s := range map[string][2]plan.Point{
		"along its near face": {{256, 224}, {512, 224}}, "along its far face": {{256, 288}, {512, 288}},
		"along its start": {{128, 0}, {128, 512}}, "along its end": {{2048, 0}, {2048, 512}},
		"up to its near face": {{256, 0}, {256, 224}}, "up to its far face": {{256, 512}, {256, 288}}, "up to its start": {{0, 256}, {128, 256}},
	} {
		if from, to, ok := x.Crosses(s[0], s[1]); ok {
			t.Errorf("%s: from %v to %v", name, from, to)
		}
	}
}
