package level_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

func spots(v ...[3]float64) []job.SpotLevel {
	var out []job.SpotLevel
	for _, s := range v {
		out = append(out, job.SpotLevel{At: plan.Point{s[0], s[1]}, LevelMM: s[2]})
	}
	return out
}

// Least-squares plane worked by hand from the normal equations, as in any
// textbook on the method (for instance Eberly, "Least Squares Fitting of Data
// by Linear or Quadratic Structures", section on planes; from memory): the
// corners of a square of side 2000 at 0, 4, 6 and 14 mm. About the middle the
// equations uncouple: c = 6, a = Σxz/Σx² = (−0+4−6+14)·1000/(4·1000²) = 0.003,
// b = (−0−4+6+14)·1000/(4·1000²) = 0.004; residuals are ±1.
func TestPlaneByHand(t *testing.T) {
	s := level.Measure(spots([3]float64{0, 0, 0}, [3]float64{2000, 0, 4}, [3]float64{0, 2000, 6}, [3]float64{2000, 2000, 14}))
	for name, c := range map[string][2]float64{"slope x": {s.Floor.SlopeX, 0.003}, "slope y": {s.Floor.SlopeY, 0.004},
		"level at the middle": {s.Floor.At(plan.Point{1000, 1000}), 6}, "residual": {s.WorstResidualMM, 1}} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s %v, want %v", name, c[0], c[1])
		}
	}
}

// Fewer than three readings, or readings in line, give their mean, level.
func TestPlaneOfFewReadings(t *testing.T) {
	for name, s := range map[string][]job.SpotLevel{
		"none": nil, "one": spots([3]float64{5, 5, 7}), "in line": spots([3]float64{0, 0, 0}, [3]float64{1000, 1000, 5}, [3]float64{2000, 2000, 10}),
		"one place": spots([3]float64{5, 5, 4}, [3]float64{5, 5, 6}, [3]float64{5, 5, 5})} {
		mean := 0.0
		for _, x := range s {
			mean += x.LevelMM / float64(len(s))
		}
		got := level.Measure(s)
		if got.Floor.Gradient() != 0 || math.Abs(got.Floor.Level-mean) > 1e-9 {
			t.Errorf("%s: floor %+v, want level %v", name, got.Floor, mean)
		}
	}
}

// The plane follows readings that lie on one, wherever they are.
func TestPlaneThroughExactReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-0.02, 0.02)
		a, b, c := f.Draw(t, "a"), f.Draw(t, "b"), rapid.Float64Range(-50, 50).Draw(t, "c")
		x0, y0 := rapid.Float64Range(-9000, 9000).Draw(t, "x0"), rapid.Float64Range(-9000, 9000).Draw(t, "y0")
		var ss []job.SpotLevel
		for _, d := range [][2]float64{{0, 0}, {900, 40}, {-30, 1200}, {700, 700}, {350, 90}} {
			x, y := x0+d[0], y0+d[1]
			ss = append(ss, job.SpotLevel{At: plan.Point{x, y}, LevelMM: a*x + b*y + c})
		}
		got := level.Measure(ss)
		if math.Abs(got.Floor.SlopeX-a) > 1e-9 || math.Abs(got.Floor.SlopeY-b) > 1e-9 || got.WorstResidualMM > 1e-6 {
			t.Fatalf("plane %+v, residual %v", got.Floor, got.WorstResidualMM)
		}
	})
}

func solve(j job.Job) (layout.Layout, level.Heights) {
	l := layout.Of(j, &plan.Shaper{})
	return l, level.Solve(j, l, waste.Lay(j, l), 0.018)
}

// The whole build-up of the starting job by hand. Floor 0, adhesive 3, trap 95
// deep standing on the floor: flange at 95, so the base's top is at
// 95 − 20 − 3 = 72. The pipe leaves 75 below the flange, at 20, and falls 1:40
// over 645 mm to the wall: its underside at the wall is 20 − 16.125 − 2 = 1.875
// above the floor. The trap governs. Tile: 95 + 1 + 3 + 9 = 108; at the open
// front edge, 900 − 83 = 817 from the drain's edge at 1:50, 16.34 more.
func TestBuildUpByHand(t *testing.T) {
	j := job.New()
	l, h := solve(j)
	for name, c := range map[string][2]float64{
		"base top": {h.BaseTopMM, 72}, "flange": {h.FlangeMM, 95}, "trap": {h.TrapMM, 0}, "outlet": {h.OutletMM, 20},
		"exit invert":   {h.Run.InvertAt(h.Run.ExitAtMM), 20 - 645.0/40},
		"tile at drain": {h.ShowerAt(l, l.DrainEdge), 108},
		"tile at front": {h.ShowerAt(l, plan.Point{700, 1000}), 108 + 817.0/50},
		"room":          {h.RoomAt(j, plan.Point{2000, 500}), 13},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s %v, want %v", name, c[0], c[1])
		}
	}
	if g := h.Governing(); g.Name() != "trap body on the floor" {
		t.Errorf("governed by %q", g.Name())
	}
}

// Rise over a run: 1:40 over 1600 mm is 40 mm; 18 mm/m over 2.5 m is 45 mm;
// 1/4 in a foot over 5 ft is 1-1/4 in; 3° over 120 mm is 6.29 mm. Geometry.
func TestRiseOverRun(t *testing.T) {
	for _, c := range []struct{ slope, run, rise float64 }{{1.0 / 40, 1600, 40}, {0.018, 2500, 45}, {1.0 / 48, 1524, 31.75}, {math.Tan(3 * math.Pi / 180), 120, 6.289}} {
		j := job.New()
		j.Room.Outline = []plan.Point{{0, 0}, {9000, 0}, {9000, 9000}, {0, 9000}}
		j.Former.Slope = c.slope
		j.Shower = job.Shower{Wall: 2, OffsetMM: 1000, WidthMM: 1400, DepthMM: c.run + j.Drain.WallClearanceMM + j.Drain.WidthMM}
		if j.Shower.DepthMM < 300 {
			j.Drain.WallClearanceMM = 180 // keeps the shower deep enough
			j.Shower.DepthMM = c.run + 180 + j.Drain.WidthMM
		}
		l, h := solve(j)
		e := h.Edges(j, l)
		front := 0.0
		for _, x := range e {
			if x.Edge.Side == layout.Front {
				front = x.ShowerA
			}
		}
		if got := front - h.ShowerAt(l, l.DrainEdge); math.Abs(got-c.rise) > 0.001 {
			t.Errorf("slope %v over %v: rise %v, want %v", c.slope, c.run, got, c.rise)
		}
	}
}

// The governing constraint holds with equality at the least raise, and every
// other one holds.
func TestLeastRaiseIsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		for _, key := range []string{"waste.gradient", "drain.trapDepthMM", "former.bedMM", "base.minThicknessMM", "former.thicknessAtDrainMM"} {
			p, _ := job.Find(key)
			lo, hi := p.Least, math.Min(p.Greatest, 150)
			if key == "waste.gradient" {
				lo, hi = 0, 0.1
			}
			if k := p.With(j, rapid.Float64Range(lo, hi).Draw(t, key)); len(k.Validate()) == 0 {
				j = k
			}
		}
		_, h := solve(j)
		for _, c := range h.Constraints {
			if c.BaseTopMM > h.BaseTopMM+1e-9 {
				t.Fatalf("%s needs %v, base top is %v", c.Name(), c.BaseTopMM, h.BaseTopMM)
			}
		}
		if g := h.Governing(); math.Abs(g.BaseTopMM-h.BaseTopMM) > 1e-9 {
			t.Fatalf("governing %v, base top %v", g, h.BaseTopMM)
		}
	})
}

// More fall of the tile never
// lowers the open edge, and never moves the drain.
func TestSteeperFloorNeverLowersTheEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		j.Former.Slope = rapid.Float64Range(0.005, 0.05).Draw(t, "slope")
		l, h := solve(j)
		j.Former.Slope *= 1.2
		l2, h2 := solve(j)
		p := plan.Point{700, 1000}
		if h2.ShowerAt(l2, p) <= h.ShowerAt(l, p) || h2.TileMM != h.TileMM {
			t.Fatalf("edge %v then %v, drain %v then %v", h.ShowerAt(l, p), h2.ShowerAt(l2, p), h.TileMM, h2.TileMM)
		}
	})
}
