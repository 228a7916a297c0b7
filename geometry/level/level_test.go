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
	s := level.Measure(spots([3]float64{0, 0, 0}, [3]float64{2000, 0, 4}, [3]float64{0, 2000, 6}, [3]float64{2000, 2000, 14}), nil, 0)
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
		got := level.Measure(s, nil, 0)
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
		got := level.Measure(ss, nil, 0)
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
		"tile at drain": {h.ShowerAt(&l, l.DrainEdge), 108},
		"tile at front": {h.ShowerAt(&l, plan.Point{700, 1000}), 108 + 817.0/50},
		"room":          {h.RoomAt(&j, plan.Point{2000, 500}), 13},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s %v, want %v", name, c[0], c[1])
		}
	}
	if g := h.Governing(); g.Reason() != (level.Reason{By: level.TrapOnFloor}) {
		t.Errorf("governed by %v", g.Reason())
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
		e := edgesOf(&h, &j, &l)
		front := 0.0
		for _, x := range e {
			if x.Edge.Side == layout.Front {
				front = x.ShowerA
			}
		}
		if got := front - h.ShowerAt(&l, l.DrainEdge); math.Abs(got-c.rise) > 0.001 {
			t.Errorf("slope %v over %v: rise %v, want %v", c.slope, c.run, got, c.rise)
		}
	}
}

// room is how much lower everything could be: the least of what trap, pipes and
// fittings stand over the floor, the base is thicker than it must be, and the exit
// lies over its level. It asks the levels as they came out, not for the reasons.
func room(j job.Job, l layout.Layout, h level.Heights) float64 {
	least := h.BaseTopMM - h.BaseUnderMM - j.Base.MinThicknessMM
	for _, poly := range l.Trap {
		for _, q := range poly.Outer {
			least = math.Min(least, h.TrapMM-h.Survey.Floor.At(q))
		}
	}
	for _, p := range h.Run.Pieces {
		// The body round the pipe's middle, half a bore over the invert.
		under := p.RadiusMM() - p.Pipe.BoreMM/2
		least = math.Min(least, p.FromInvertMM-under-h.Survey.Floor.At(p.Path[0]))
		if p.ToMM < h.Run.ExitAtMM {
			least = math.Min(least, p.ToInvertMM-under-h.Survey.Floor.At(p.Path[len(p.Path)-1]))
		}
	}
	at := h.Run.InvertAt(h.Run.ExitAtMM)
	under := (h.Run.Outgoing().OutsideDiameterMM - h.Run.Outgoing().BoreMM) / 2
	least = math.Min(least, at-under-h.Survey.Floor.At(h.Run.Exit))
	if invert, ok := j.Waste.Exit.Level.InvertMM(); ok {
		least = math.Min(least, at-invert)
	}
	if ground := j.Room.Walls[3].OutsideGroundMM; ground != nil {
		least = math.Min(least, h.Run.InvertAt(h.Run.LengthMM)-under-*ground)
	}
	return least
}

// At the least raise everything fits with nothing to spare: not a hundredth of a
// millimetre lower. Each of the reasons there are governs some of the jobs.
func TestLeastRaiseIsLeast(t *testing.T) {
	governed := map[level.Reason]int{}
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		// A floor out of level, by readings away from the shower.
		f := rapid.Float64Range(-0.01, 0.01)
		a, b := f.Draw(t, "floor along x"), f.Draw(t, "floor along y")
		for _, q := range []plan.Point{{1700, 50}, {2300, 50}, {1700, 800}, {2300, 800}} {
			j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: q, LevelMM: a*q.X() + b*q.Y()})
		}
		j.Waste.Gradient = rapid.Float64Range(0, 0.1).Draw(t, "gradient")
		j.Drain.OutletInvertDepthMM = rapid.Float64Range(30, 90).Draw(t, "outlet")
		j.Drain.TrapDepthMM = j.Drain.OutletInvertDepthMM + rapid.Float64Range(0, 40).Draw(t, "trap")
		j.Base.MinThicknessMM = rapid.Float64Range(0, 120).Draw(t, "board")
		j.Former.BedMM = rapid.Float64Range(0, 10).Draw(t, "bed")
		j.Former.ThicknessAtDrainMM = rapid.Float64Range(10, 40).Draw(t, "former")
		switch rapid.IntRange(0, 3).Draw(t, "more") {
		case 1:
			j.Waste.Exit.Level = job.NotBelow(rapid.Float64Range(-50, 100).Draw(t, "exit"))
		case 2:
			ground := rapid.Float64Range(-50, 100).Draw(t, "ground")
			j.Room.Walls[3].OutsideGroundMM = &ground
		case 3:
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: rapid.Float64Range(0, 0.2).Draw(t, "falling piece")}}
		}
		if p := j.Validate(); len(p) > 0 {
			t.Fatal(p)
		}
		l, h := solve(j)
		governed[h.Governing().Reason()]++
		if left := room(j, l, h); math.Abs(left) > 1e-6 {
			t.Fatalf("governed by %v: %v to spare", h.Governing().Reason(), left)
		}
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, h.BaseTopMM-h.BaseUnderMM-0.01
		if l, h := solve(j); math.Abs(room(j, l, h)+0.01) > 1e-6 {
			t.Fatalf("a hundredth lower: %v to spare", room(j, l, h))
		}
	})
	if len(governed) < 5 && !testing.Short() {
		t.Errorf("only these govern: %v", governed)
	}
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
		if h2.ShowerAt(&l2, p) <= h.ShowerAt(&l, p) || h2.TileMM != h.TileMM {
			t.Fatalf("edge %v then %v, drain %v then %v", h.ShowerAt(&l, p), h2.ShowerAt(&l2, p), h.TileMM, h2.TileMM)
		}
	})
}
