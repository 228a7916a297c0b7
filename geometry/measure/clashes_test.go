package measure_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// letInAlong is the let-in demo with its run turned into the next bay, whose
// lower joist 4 has its flank at y = 1413.5, and along that joist to the wall, the
// pipe's flank this far off the joist's.
func letInAlong(t *testing.T, gapMM float64) job.Job {
	j := demotest.Rooms(t)[2].Job.Clone()
	y := 1413.5 + gapMM + 25
	j.Waste.Waypoints = []plan.Point{{400, 1932}, {400, y}}
	j.Waste.Exit.OffsetMM = 2000 - y
	return j
}

// measured is the value of a quantity for a subject, or of the worst subject that
// begins so; not a number where there is none.
func measured(r geometry.Result, quantity, subject string) float64 {
	worst := math.NaN()
	for _, m := range r.Measured {
		if m.Quantity == quantity && strings.HasPrefix(m.Subject.String(), subject) && !(m.Value >= worst) {
			worst = m.Value
		}
	}
	return worst
}

func raised(r geometry.Result, id string) bool {
	return slices.ContainsFunc(r.Findings, func(f rule.Finding) bool { return f.Rule.ID == id })
}

// A pipe of 50 mm along a joist: 24.5 mm inside its flank nothing was found, for
// its middle lay outside. The joist lies level here, so the gap is the plan's.
// The bend before it stands out 3.5 mm more, to within its chords.
func TestPipeAlongAJoist(t *testing.T) {
	for _, c := range []struct {
		gap         float64
		stops, near bool
	}{{30, false, false}, {6.6, false, false}, {6.4, false, true}, {3.6, false, true}, {3.4, true, true}, {0, true, true}, {-1, true, true}, {-24.5, true, true}} {
		r := geometry.Evaluate(letInAlong(t, c.gap), demotest.Packs(t)["UK"])
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		if raised(r, "clash-joist") != c.stops || raised(r, "clash-joist-near") != c.near {
			t.Errorf("gap %v: cut along %v, near %v; want %v, %v", c.gap, raised(r, "clash-joist"), raised(r, "clash-joist-near"), c.stops, c.near)
		}
		if c.gap > 20 {
			continue
		}
		last := r.Heights.Run.Pieces[len(r.Heights.Run.Pieces)-1]
		if got := measured(r, "clash.joist-gap", rule.Subject{Of: rule.PieceByJoist, Piece: last.Name(), Number: 4}.String()); !(math.Abs(got-c.gap) <= 1e-6) {
			t.Errorf("%s lies %v off joist 4, want %v", last.Name().Message(), got, c.gap)
		}
		bend := r.Heights.Run.Pieces[len(r.Heights.Run.Pieces)-2]
		if got := measured(r, "clash.joist-gap", rule.Subject{Of: rule.PieceByJoist, Piece: bend.Name(), Number: 4}.String()); !(math.Abs(got-(c.gap-3.5)) <= 0.05) {
			t.Errorf("%s lies %v off joist 4, want %v", bend.Name().Message(), got, c.gap-3.5)
		}
	}
}

// A straight pipe that passes through a joist from side to side is a cut and no
// clash, square and oblique.
func TestPipeAcrossAJoistIsACut(t *testing.T) {
	for _, turn := range []float64{270, 225, 315, 250} {
		cuts := 0
		for first := 100.0; first < 500; first += 40 {
			j := demotest.Rooms(t)[2].Job.Clone()
			demotest.AcrossJoists(&j, 150)
			j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM = turn, first
			r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
			if len(r.Problems) > 0 {
				t.Fatal(r.Problems)
			}
			cuts += len(r.Joists)
			for _, c := range r.Joists {
				subject := rule.Subject{Of: rule.PieceByJoist, Piece: c.Piece.Name(), Number: c.Joist.Number}.String()
				if got := measured(r, "clash.joist-gap", subject); !math.IsNaN(got) {
					t.Errorf("joists at %v°: %s is a %s and has a gap of %v", turn, subject, c.Kind, got)
				}
			}
		}
		if cuts == 0 {
			t.Errorf("joists at %v°: none is cut", turn)
		}
	}
}

// A bend in the middle of a joist was a hole like any other.
func TestBendInAJoist(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	j.Waste.Waypoints = []plan.Point{{560, 1932}, {560, 1840}, {300, 1840}, {300, 1932}}
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	if !raised(r, "clash-joist") {
		t.Errorf("a bend in joist 5 is not found: %+v", r.Findings[0])
	}
}

// The channel was held against nothing. Let in, the flange is at −22 + 3 + 20 = 1;
// a channel 70 deep reaches to −69 and the joists to −22: 47 mm into each that
// lies under it. With 23 mm it rests on them, and may.
func TestChannelOverJoists(t *testing.T) {
	for _, c := range []struct {
		depth, want float64
		found       bool
	}{{70, -47, true}, {23.1, -0.1, true}, {23, 0, false}, {10, 13, false}} {
		j := demotest.Rooms(t)[2].Job.Clone()
		j.Floor.Joists.DirectionDeg, j.Floor.Joists.SupportsMM = 270, []float64{0, 2000}
		// Joists at x = 400, 850, 1300 …; the channel from 300 to 1100, the trap from
		// 645 to 755.
		j.Floor.Joists.FirstOffsetMM = 400
		j.Drain.ChannelDepthMM = c.depth
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		for _, number := range []int{1, 2} {
			if got := measured(r, "clash.drain-gap", fmt.Sprintf("drain-channel-by-joist %d", number)); !(math.Abs(got-c.want) <= 1e-6) {
				t.Errorf("channel %v deep: joist %d at %v, want %v", c.depth, number, got, c.want)
			}
		}
		if raised(r, "clash-drain") != c.found || raised(r, "trap-joist") {
			t.Errorf("channel %v deep: clash %v, trap %v", c.depth, raised(r, "clash-drain"), raised(r, "trap-joist"))
		}
	}
}

// On a floor, a channel deeper than flange over floor: the slab of the first demo
// is not level, so the floor under each corner counts.
func TestChannelIntoTheFloor(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	high := math.Inf(-1)
	for _, q := range r.Layout.Drain[0].Outer {
		high = math.Max(high, r.Heights.Survey.Floor.At(q))
	}
	for _, c := range []struct {
		under float64
		found bool
	}{{1, true}, {0.02, true}, {-0.1, false}} {
		j.Drain.ChannelDepthMM = r.Heights.FlangeMM - high + c.under
		again := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		// Square to a floor that falls by less than 1:200 the depth is the same.
		if got := measured(again, "clash.drain-gap", "drain-channel-by-floor"); !(math.Abs(got+c.under) <= 1e-4) {
			t.Errorf("channel %v into the floor: gap %v", c.under, got)
		}
		if raised(again, "clash-drain") != c.found {
			t.Errorf("channel %v into the floor: found %v", c.under, !c.found)
		}
	}
}

// An existing pipe whose end lies 60 mm under where the run arrives was passed
// over in silence: "not below" was met.
func TestExistingPipeEndIsMet(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1832}}
	run := geometry.Evaluate(j, demotest.Packs(t)["UK"]).Heights.Run
	arrives := run.InvertAt(run.ExitAtMM)
	for _, c := range []struct {
		under float64
		found bool
	}{{60, true}, {1.01, true}, {0.99, false}, {0, false}} {
		j.Waste.Exit.Level = job.NotBelow(arrives - c.under)
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if got := measured(r, "exit.too-high", "existing-pipe-end"); !(math.Abs(got-c.under) <= 1e-9) {
			t.Errorf("%v over the pipe's end: measured %v", c.under, got)
		}
		if raised(r, "exit-high") != c.found || c.found && !r.Stops() {
			t.Errorf("%v over the pipe's end: found %v", c.under, !c.found)
		}
		// Given as exact the fall follows from it, and it is met.
		j.Waste.Exit.Level = job.Exactly(arrives - c.under)
		if r := geometry.Evaluate(j, demotest.Packs(t)["UK"]); raised(r, "exit-high") || raised(r, "exit-low") {
			t.Errorf("%v under, given as exact, is not met", c.under)
		}
	}
	// Through a wall, where it may leave higher, nothing is missed.
	j = demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Exit.Level = job.NotBelow(-150)
	if r := geometry.Evaluate(j, demotest.Packs(t)["UK"]); raised(r, "exit-high") {
		t.Error("a wall's exit that may lie higher is held to its level")
	}
}

// A drop through the floor with its joist just beyond: the fitting it turns down in
// and goes down as is 50 + 2·3.5 across, and 3 mm are left round it: its middle
// must be 23.5 + 28.5 + 3 = 55 off the middle of the joist. The pipe alone, as it
// was held, would have had 51.5 of that.
func TestDropBesideAJoist(t *testing.T) {
	for _, c := range []struct{ off, want float64 }{{55.1, 0}, {54.9, 0.1}, {52, 3}, {40, 15}} {
		j := demotest.Rooms(t)[1].Job.Clone()
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		out := r.Layout.OutletTo
		// The nearest joist straight ahead of the outlet.
		var ahead []float64
		for _, js := range r.Layout.Joists {
			across := plan.Left(js.Along)
			if d := js.Origin.Sub(r.Layout.Outlet).Dot(across) / out.Dot(across); d > 200 {
				ahead = append(ahead, d)
			}
		}
		slices.Sort(ahead)
		j.Waste.Waypoints = nil
		j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: r.Layout.Outlet.Add(out.Mul(ahead[0] - c.off))}
		r = geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if got := measured(r, "exit.in-joist", "drop"); !(math.Abs(got-c.want) <= 1e-4) || raised(r, "exit-joist") != (c.want > 0) {
			t.Errorf("a drop %v off a joist: %v, want %v", c.off, got, c.want)
		}
	}
}

// The size of an existing pipe was held against nothing. A pipe of the run's own
// size or larger takes it, also behind a reducer, whose pipe counts; one that is
// not known is not measured.
func TestExistingPipeTakesTheRun(t *testing.T) {
	for _, c := range []struct {
		nominal float64
		reduced bool
		want    float64
	}{{0, false, math.NaN()}, {50, false, 0}, {110, false, 0}, {49, false, 1}, {40, false, 10}, {50, true, 25}, {75, true, 0}} {
		j := demotest.Rooms(t)[0].Job.Clone()
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1832}, NominalMM: c.nominal}
		if c.reduced {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 50, LengthMM: 60, Pipe: part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 71, SocketOutsideMM: 75 + 7}}}
		}
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		got := measured(r, "exit.narrower", "existing-pipe-end")
		if got != c.want && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("a pipe of %v: %v, want %v", c.nominal, got, c.want)
		}
		if raised(r, "exit-narrow") != (c.want > 0) {
			t.Errorf("a pipe of %v: found %v", c.nominal, raised(r, "exit-narrow"))
		}
	}
}

// Out through a stud wall at 45°: where the pipe's middle comes in through the
// inner face, the middle of a stud is a wall's thickness further on, 100 mm, and
// held square to the wall the pipe was clear of it. The stud's near edge at the
// inner face is 23.5/√2 past the pipe's middle, so it lies 25 + 23.5/√2 in it.
func TestObliqueExitMeetsAStud(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Waypoints = []plan.Point{{300, 1832}}
	j.Waste.Exit.OffsetMM = 1900 - 1532
	wall := func(first float64) {
		j.Room.Walls[3] = job.Wall{Kind: job.WallStud, ThicknessMM: 100, StudSpacingMM: 600, FirstStudMM: first, StudWidthMM: 47}
	}
	for _, c := range []struct{ first, want float64 }{
		{368 + 100, 25 + 23.5/math.Sqrt2},
		{368, 25 + 23.5/math.Sqrt2}, // at the inner face
		{368 + 300, 0},
	} {
		wall(c.first)
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		if got := measured(r, "exit.in-stud", "exit"); !(math.Abs(got-c.want) <= 1e-3) {
			t.Errorf("a stud at %v: %v, want %v", c.first, got, c.want)
		}
	}
}

// The search held a pipe's middle against joists and offered runs with half a
// pipe in a joist's side: rules without these clashes let them through.
func TestSearchOffersNoClash(t *testing.T) {
	full := demotest.Packs(t)["UK"]
	blind := full.Where(func(r rule.Rule) bool { return !strings.HasPrefix(r.ID, "clash-") })
	offered := 0
	for _, first := range []float64{0, 45, 225} {
		j := demotest.Rooms(t)[2].Job.Clone()
		j.Floor.Joists.FirstOffsetMM = first
		// Beside the outlet's own line, so that the run comes near a joist's side.
		var exits []job.Exit
		for _, by := range []float64{0, 40, 60, 100} {
			e := j.Waste.Exit
			e.OffsetMM += by
			exits = append(exits, e)
		}
		for _, c := range []struct {
			pack  rule.Pack
			blind bool
		}{{full, false}, {blind, true}} {
			// Each exit by itself: a straight run beats those beside it.
			for _, e := range exits {
				s, err := search.Runs(t.Context(), j, c.pack, []job.Exit{e}, search.Grid{Steps: 4, MostBends: 2}, nil)
				if err != nil {
					t.Fatal(err)
				}
				for _, f := range s.Found {
					r := geometry.Evaluate(f.Job, full)
					switch {
					case c.blind && raised(r, "clash-joist"):
						offered++
					case !c.blind && r.Stops():
						t.Errorf("joists from %v: a run is offered that is stopped: %s %s", first, r.Findings[0].Rule.ID, r.Findings[0].Measurement.Subject)
					}
				}
			}
		}
	}
	if offered == 0 {
		t.Error("without the rules against clashes no run would be offered either: the search was not tried")
	}
}
