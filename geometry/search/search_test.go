package search_test

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

func find(t testing.TB, j job.Job, exits []job.Exit, grid search.Grid) search.Outcome {
	t.Helper()
	s, err := search.Runs(context.Background(), j, demotest.Packs(t)[j.Region], exits, grid, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A run that comes no lower for falling little is found at the usual fall, however flat the job states it: the straight run
// of a new job needs the 72 of its trap at either.
func TestFallsAsUsualWhereNothingForcesLess(t *testing.T) {
	j := job.New()
	j.Waste.Gradient = 0.018 // the least there is in the UK
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.Grid{Steps: 1, MostBends: 0})
	if len(s.Found) != 1 || math.Abs(s.Found[0].RaiseMM-72) > 0.05 || math.Abs(s.Found[0].Gradient-1.0/40) > 1e-6 {
		t.Errorf("found %d runs, want one of 72 at 1:40", len(s.Found))
		for _, a := range s.Found {
			t.Logf("raise %.1f at %.4f", a.RaiseMM, a.Gradient)
		}
	}
	j.SetStanding("waste.gradient", job.Held)
	for _, a := range find(t, j, []job.Exit{j.Waste.Exit}, search.Grid{Steps: 1, MostBends: 0}).Found {
		if math.Abs(a.Gradient-0.018) > 1e-6 {
			t.Errorf("held at 0.018, and found at %.4f", a.Gradient)
		}
	}
}

// The straight run of the slab demo is found, and nothing beats it.
func TestFindsTheStraightRun(t *testing.T) {
	j := demotest.Rooms(t)[0].Job
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
	if len(s.Found) == 0 {
		t.Fatal("nothing found")
	}
	if f := s.Found[0]; f.Bends != 0 || len(f.Job.Waste.Waypoints) != 0 || f.Job.Drain.OutletTurnDeg != 180 {
		t.Errorf("the lowest run has %d bends, outlet %v", f.Bends, f.Job.Drain.OutletTurnDeg)
	}
}

// Everything found is buildable by the full evaluation, with the same raise,
// and no member of the set is worse than another in every way.
func TestFoundRunsAreBuildable(t *testing.T) {
	for _, n := range []int{0, 1, 2, 4} {
		j := demotest.Rooms(t)[n].Job
		s := find(t, j, search.UsualExits(j, 300), search.UsualGrid())
		if len(s.Found) == 0 {
			t.Errorf("%s: nothing found of %d tried", j.Name, s.Tried)
		}
		for i, f := range s.Found {
			r := geometry.Evaluate(f.Job, demotest.Packs(t)[j.Region])
			if r.Stops() {
				t.Errorf("%s: run %d is stopped: %s, %v", j.Name, i, r.Findings[0].Rule.ID, r.Problems)
			}
			if raise := r.Heights.BaseTopMM - r.Heights.FloorHighMM; math.Abs(raise-f.RaiseMM) > 1e-6 {
				t.Errorf("%s: run %d needs %v, not %v", j.Name, i, raise, f.RaiseMM)
			}
			for k, o := range s.Found {
				if k != i && (f.MovesExit || !o.MovesExit) && o.RaiseMM <= f.RaiseMM && o.JoistsCut <= f.JoistsCut && o.LengthMM <= f.LengthMM && o.Bends <= f.Bends && o.EdgeStepMM <= f.EdgeStepMM && o.Gradient >= f.Gradient && o.Advisories <= f.Advisories {
					t.Errorf("%s: run %d is nowhere better than run %d", j.Name, i, k)
				}
			}
		}
	}
}

// Against a search of its own: every chain of one or two bends on the same
// grid, written out by hand as nested loops over axis-parallel runs, has
// nothing better than what was found.
func TestSearchIsCompleteOnItsGrid(t *testing.T) {
	j := demotest.Rooms(t)[0].Job
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{200, 1300}}
	p := demotest.Packs(t)[j.Region]
	grid := search.Grid{Steps: 5, MostBends: 2}
	s := find(t, j, []job.Exit{j.Waste.Exit}, grid)
	best := math.Inf(1)
	for _, turn := range []float64{0, 90, 180, 270} {
		k := j.Clone()
		k.Drain.OutletTurnDeg = turn
		base := geometry.Evaluate(k, p)
		if len(base.Problems) > 0 {
			t.Fatal(base.Problems)
		}
		out, to := base.Layout.Outlet, base.Layout.OutletTo
		side := plan.Left(to)
		rel := k.Waste.Exit.At.Sub(out)
		try := func(turns ...plan.Point) {
			k.Waste.Waypoints = turns
			if r := geometry.Evaluate(k, p); !r.Stops() {
				best = math.Min(best, r.Heights.BaseTopMM-r.Heights.FloorHighMM)
			}
		}
		// One square turn; two square turns with the cross leg anywhere.
		try(out.Add(to.Mul(rel.Dot(to))))
		for step := 50.0; step < 1500; step += 25 {
			a := out.Add(to.Mul(step))
			try(a, a.Add(side.Mul(rel.Dot(side))))
		}
	}
	if len(s.Found) == 0 || !(s.Found[0].RaiseMM <= best+0.5) || math.IsInf(best, 1) {
		t.Errorf("found %+v; by hand %v", s.Found, best)
	}
}

// cost is what a run asks for, as runs are held against each other.
type cost struct {
	raise, length, step, fall     float64
	joists, bends, advice, unkept int
}

// costOf is that of a job as it is worked out.
func costOf(r geometry.Result, k *job.Job) cost {
	c := cost{raise: r.Heights.BaseTopMM - r.Heights.FloorHighMM, length: r.Heights.Run.LengthMM, fall: r.Heights.Gradient,
		joists: len(r.Joists), bends: r.Heights.Run.Bends}
	for _, f := range r.Findings {
		if q := f.Rule.Quantity; q == "pipe.gradient" || q == "clash.joist-gap" || strings.HasPrefix(q, "run.") || strings.HasPrefix(q, "exit.") {
			c.advice++
		}
		// How strong a cut joist is hangs on all that lies on the floor: a search does not ask.
		if f.Measurement.Subject.Of == rule.JoistCut && !strings.HasSuffix(f.Rule.Quantity, "-share") {
			c.unkept++
		}
	}
	for _, e := range r.Heights.Edges(k, &r.Layout) {
		c.step = math.Max(c.step, math.Abs(e.WorstStepMM()))
	}
	return c
}

// foundCost is that of a run that was found.
func foundCost(f *search.Alternative) cost {
	c := cost{f.RaiseMM, f.LengthMM, f.EdgeStepMM, f.Gradient, f.JoistsCut, f.Bends, f.Advisories, 0}
	for _, u := range f.Unkept {
		c.unkept += u.Cuts
	}
	return c
}

// worse tells whether a is nowhere better than b.
func worse(a, b cost) bool {
	return a.raise >= b.raise-0.05 && a.length >= b.length-0.05 && a.step >= b.step-0.05 && a.fall <= b.fall+1e-5 &&
		a.joists >= b.joists && a.bends >= b.bends && a.advice >= b.advice && a.unkept >= b.unkept
}

// Against every chain of up to three bends of 45° and 90° on the same grid,
// enumerated here by itself and worked out by the full evaluation: the set
// found is the one that no other run beats.
func TestSearchFindsTheWholeParetoSet(t *testing.T) {
	j := demotest.Rooms(t)[0].Job
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{260, 1290}}
	j.Drain.ChannelDepthMM, j.Drain.WeirDepthMM, j.Drain.TrapDepthMM = 10, 13, 76 // so that the pipe, not the trap, sets the height
	wholeSet(t, j, demotest.Packs(t)[j.Region])
}

// Through joists the runs differ in how many limits on cuts they do not keep as well: here each of them only advises.
func TestSearchFindsTheWholeSetThroughJoists(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	j.Base.Height, j.Waste.Exit = job.HeightBuildable, job.Exit{Kind: job.ExitPipe, At: plan.Point{260, 1560}}
	j.Floor.Joists.SupportsMM, j.Shower.Screens = []float64{-1000, 2550}, nil
	pack := demotest.Packs(t)[j.Region]
	pack.Rules = slices.Clone(pack.Rules)
	for i := range pack.Rules {
		if r := &pack.Rules[i]; strings.HasPrefix(r.Quantity, "joist.hole") {
			r.Severity = rule.Advice
		}
	}
	if kinds := wholeSet(t, j, pack); kinds < 2 {
		t.Errorf("the runs all leave as many limits unkept: %d kinds", kinds)
	}
}

// wholeSet holds what a search to the exit of a job finds against every chain; it gives how many numbers of unkept limits the
// buildable ones have.
func wholeSet(t *testing.T, j job.Job, pack rule.Pack) int {
	const steps = 3
	s, err := search.Runs(t.Context(), j, pack, []job.Exit{j.Waste.Exit}, search.Grid{Steps: steps, MostBends: 3}, nil)
	if err != nil {
		t.Fatal(err)
	}
	all, tried := everyChain(j, pack, steps, []float64{j.Waste.Gradient, 0.018})
	unkept := map[int]bool{}
	if tried < 300 || len(all) < 12 {
		t.Fatalf("only %d runs tried, %d buildable", tried, len(all))
	}
	for _, c := range all {
		unkept[c.unkept] = true
		if !slices.ContainsFunc(s.Found, func(f search.Alternative) bool { return worse(c, foundCost(&f)) }) {
			t.Errorf("nothing found is as good as %+v", c)
		}
	}
	for _, f := range s.Found {
		mine := foundCost(&f)
		if !slices.ContainsFunc(all, func(c cost) bool {
			c.fall = math.Max(c.fall, mine.fall) // it may fall more than the grid has it where that costs nothing
			return worse(mine, c) && worse(c, mine)
		}) {
			t.Errorf("%+v is found and is no chain of the grid", mine)
		}
	}
	t.Logf("%d runs tried by hand, %d buildable, %d in the set, %d numbers of unkept limits", tried, len(all), len(s.Found), len(unkept))
	return len(unkept)
}

// everyChain works out every chain to the exit of a job.
func everyChain(j job.Job, p rule.Pack, steps float64, falls []float64) (all []cost, tried int) {
	for _, outlet := range []float64{0, 90, 180, 270} {
		k := j.Clone()
		k.Drain.OutletTurnDeg = outlet
		l := geometry.Evaluate(k, p).Layout
		rel := j.Waste.Exit.At.Sub(l.Outlet)
		heading := func(deg float64) plan.Point {
			sin, cos := math.Sincos(deg * math.Pi / 180)
			return l.ToRight.Mul(cos).Sub(l.Into.Mul(sin))
		}
		try := func(degs, lengths []float64) {
			at := l.Outlet
			k.Waste.Waypoints = nil
			for i := range len(degs) - 1 {
				at = at.Add(heading(degs[i]).Mul(lengths[i]))
				if !l.Room.Contains(at, 1e-6) {
					return
				}
				k.Waste.Waypoints = append(k.Waste.Waypoints, at)
			}
			for _, k.Waste.Gradient = range falls {
				tried++
				if r := geometry.Evaluate(k, p); !r.Stops() {
					all = append(all, costOf(r, &k))
				}
			}
		}
		var turns func(degs []float64)
		turns = func(degs []float64) {
			n := len(degs)
			if n > 4 {
				return
			}
			if n > 1 {
				face := func(i int) float64 { // of the bend before leg i
					if i == 0 || i == n {
						return 0
					}
					return map[bool]float64{true: j.Waste.Bend45FaceMM, false: j.Waste.Bend90FaceMM}[math.Abs(degs[i]-degs[i-1]) == 45]
				}
				lengths := make([]float64, n)
				var choose func(i int)
				choose = func(i int) {
					if i < n-2 {
						least := face(i) + face(i+1)
						for s := 0.0; s <= steps; s++ {
							lengths[i] = least + (rel.Len()+400-least)*s*s/steps/steps
							choose(i + 1)
						}
						return
					}
					// The last two legs close the chain, by Cramer's rule.
					rest := rel
					for m := range n - 2 {
						rest = rest.Sub(heading(degs[m]).Mul(lengths[m]))
					}
					u, v := heading(degs[n-2]), heading(degs[n-1])
					det := u.X()*v.Y() - u.Y()*v.X()
					if math.Abs(det) < 1e-9 {
						return
					}
					lengths[n-2], lengths[n-1] = (rest.X()*v.Y()-rest.Y()*v.X())/det, (u.X()*rest.Y()-u.Y()*rest.X())/det
					if lengths[n-2] >= face(n-2)+face(n-1)-1e-6 && lengths[n-1] >= face(n-1)-1e-6 {
						try(degs, lengths)
					}
				}
				choose(0)
			}
			for _, turn := range []float64{-90, -45, 45, 90} {
				turns(append(append([]float64(nil), degs...), degs[n-1]+turn))
			}
		}
		turns([]float64{outlet})
	}
	return all, tried
}

// A pipe of 40 mm that may not run as far gets a reducer to 50 mm; an exit too
// deep for the steepest fall gets a falling piece. Each is buildable as it stands.
func TestSearchPutsFittingsIn(t *testing.T) {
	for kind, change := range map[job.FittingKind]func(*job.Job){
		job.FittingReducer: func(j *job.Job) {
			j.Room.Outline = []plan.Point{{0, 0}, {6000, 0}, {6000, 1900}, {0, 1900}}
			j.Shower.OffsetMM, j.Room.Edge = 2000, job.EdgeRaiseRoom
			j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM, j.Waste.SocketOutsideMM = 40, 43, 39, 50
		},
		job.FittingFallingPiece: func(j *job.Job) {
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 72
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{20, 1832}, Level: job.Exactly(-130)}
			j.Base.Support, j.Floor.Kind = job.BetweenJoists, job.FloorTimber
			j.Base.HeightMM = 0
			j.Floor.Joists.DirectionDeg, j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 0, 600, 230
			j.Region = "DE"
			j.Drain.TrapDepthMM = 120
		},
	} {
		j := job.New()
		change(&j)
		s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
		with := 0
		for _, f := range s.Found {
			if r := geometry.Evaluate(f.Job, demotest.Packs(t)[j.Region]); r.Stops() {
				t.Errorf("%s: %s stops it", kind, r.Findings[0].Rule.ID)
			}
			if len(f.Job.Waste.Fittings) == 1 && f.Job.Waste.Fittings[0].Kind == kind {
				with++
			}
		}
		if with == 0 {
			t.Errorf("%s: none of %d runs has one; tried %d", kind, len(s.Found), s.Tried)
			for _, f := range geometry.Evaluate(j, demotest.Packs(t)[j.Region]).Findings {
				t.Logf("%s %s %v", f.Rule.Severity, f.Rule.ID, f.Measurement.Value)
			}
		}
	}
}

// A cancelled search ends at once.
func TestSearchCanBeCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	j := demotest.Rooms(t)[5].Job
	if s, err := search.Runs(ctx, j, demotest.Packs(t)["UK"], search.UsualExits(j, 50), search.UsualGrid(), nil); err != nil || s.Tried > 0 {
		t.Errorf("%d runs tried after being cancelled", s.Tried)
	}
}

// A run that falls less than usual falls as steeply as comes no higher for it, and tells what 1:40 would take. The straight pipe of
// 920 needs the base at 70.125 with that, and 0.92 less for each millimetre on a metre that it falls less. Boards of 60 and 5, on a
// bed of 3 and 2 apart, make 70 and then 77: 70 do up to 0.025 − 0.125/920 = 0.02486, half millimetres on a metre down 0.0245.
func TestFallsBetweenAreFound(t *testing.T) {
	j := edit.Height(job.HeightBuildable, 0).Apply(pipeSets())
	j.Base.BoardsMM, j.Base.BetweenLeastMM, j.Base.BetweenGreatestMM = []float64{5, 60}, 2, 2
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.Grid{Steps: 1, MostBends: 0})
	if len(s.Found) != 2 {
		t.Fatalf("%d runs", len(s.Found))
	}
	for _, a := range s.Found {
		switch flat := a.Flat; {
		case math.Abs(a.RaiseMM-77) < 1e-6:
			if math.Abs(a.Gradient-0.025) > 1e-9 || flat != nil {
				t.Errorf("77 up it falls %v: %+v", a.Gradient, flat)
			}
		case math.Abs(a.RaiseMM-70) > 1e-6 || math.Abs(a.Gradient-0.0245) > 1e-9:
			t.Errorf("%v up it falls %v", a.RaiseMM, a.Gradient)
		case flat == nil || flat.Stops != nil || math.Abs(flat.HigherMM-7) > 1e-6 || math.Abs(flat.Fall-0.025) > 1e-9:
			t.Errorf("what 1:40 would take: %+v", flat)
		}
	}
}

// Of a job as it stands the same runs are found as with all that could be changed of it, and no more is tried.
func TestAsItStandsTriesNoChanges(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j, grid := demotest.Rooms(t)[0].Job, search.UsualGrid()
	grid.Shelf = shelf
	exits := search.UsualExits(j, 300)
	whole := find(t, j, exits, grid)
	alone, err := search.AsItStands(t.Context(), j, demotest.Packs(t)[j.Region], exits, grid, nil)
	if err != nil || len(alone.Found) == 0 {
		t.Fatalf("%d found, %v", len(alone.Found), err)
	}
	if len(alone.Cheap)+len(alone.Relaxations)+len(alone.Closed) > 0 || alone.Tried >= whole.Tried {
		t.Errorf("%d runs tried, with changes %d", alone.Tried, whole.Tried)
	}
	if d := cmp.Diff(foundCosts(whole), foundCosts(alone)); d != "" {
		t.Errorf("other runs are found:\n%s", d)
	}
}

// foundCosts are those of all runs found.
func foundCosts(s search.Outcome) (out []string) {
	for i := range s.Found {
		out = append(out, fmt.Sprintf("%+v", foundCost(&s.Found[i])))
	}
	return out
}

// A turned room gives the same runs.
func TestSearchTurnsWithTheRoom(t *testing.T) {
	j := demotest.Rooms(t)[0].Job
	a := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
	k := demotest.Moved(j, 30, plan.Point{700, -300})
	b := find(t, k, []job.Exit{k.Waste.Exit}, search.UsualGrid())
	if len(a.Found) != len(b.Found) {
		t.Fatalf("%d runs, turned %d", len(a.Found), len(b.Found))
	}
	for i := range a.Found {
		if math.Abs(a.Found[i].RaiseMM-b.Found[i].RaiseMM) > 1e-6 || math.Abs(a.Found[i].LengthMM-b.Found[i].LengthMM) > 1e-6 {
			t.Errorf("run %d: %+v, turned %+v", i, a.Found[i].RaiseMM, b.Found[i].RaiseMM)
		}
	}
}

// A mirrored room gives the same runs, mirrored.
func TestSearchMirrorsWithTheRoom(t *testing.T) {
	j := demotest.Rooms(t)[0].Job
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{260, 1290}}
	j.Drain.ChannelDepthMM, j.Drain.WeirDepthMM, j.Drain.TrapDepthMM = 10, 13, 76
	k := j.Clone()
	for i, q := range k.Room.Outline {
		k.Room.Outline[i] = plan.Point{-q.X(), q.Y()}
	}
	for i, s := range k.SpotLevels {
		k.SpotLevels[i].At = plan.Point{-s.At.X(), s.At.Y()}
	}
	k.Waste.Exit.At = plan.Point{-260, 1290}
	a, b := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid()), find(t, k, []job.Exit{k.Waste.Exit}, search.UsualGrid())
	if len(a.Found) == 0 || len(a.Found) != len(b.Found) {
		t.Fatalf("%d runs, mirrored %d", len(a.Found), len(b.Found))
	}
	for i, f := range a.Found {
		g := b.Found[i]
		if math.Abs(f.RaiseMM-g.RaiseMM) > 1e-6 || math.Abs(f.LengthMM-g.LengthMM) > 1e-6 || f.Bends != g.Bends || f.Advisories != g.Advisories {
			t.Errorf("run %d: %v mm up, %v long; mirrored %v, %v", i, f.RaiseMM, f.LengthMM, g.RaiseMM, g.LengthMM)
		}
	}
}

// With the exit's level given exactly, or measured as built, other exits have
// no level of their own: they are searched all the same.
func TestExactLevelWithOtherExits(t *testing.T) {
	planned := geometry.Evaluate(demotest.Rooms(t)[0].Job, demotest.Packs(t)["UK"])
	level := planned.Heights.Run.InvertAt(planned.Heights.Run.ExitAtMM)
	kept, moved, deep := 0, 0, -20.0
	for name, change := range map[string]func(*job.Job){
		"exactly, deep":  func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(deep) },
		"measured, deep": func(j *job.Job) { j.AsBuilt.ExitInvertMM = &deep },
		"exactly":        func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(level) },
		"measured":       func(j *job.Job) { j.AsBuilt.ExitInvertMM = &level },
	} {
		j := demotest.Rooms(t)[0].Job.Clone()
		change(&j)
		s := find(t, j, search.UsualExits(j, 300), search.UsualGrid())
		for _, a := range s.Found {
			k := a.Change.Apply(j)
			switch {
			case !a.MovesExit:
				kept++
				if k.Waste.Exit != j.Waste.Exit || !cmp.Equal(k.AsBuilt, j.AsBuilt) {
					t.Errorf("%s: the exit is to stay, and becomes %+v, %+v", name, k.Waste.Exit, k.AsBuilt)
				}
			default:
				moved++
				if k.Waste.Exit.Level.Kind() != job.ExitFree || k.AsBuilt.ExitInvertMM != nil {
					t.Errorf("%s: another exit has the level of the stated one: %+v", name, k.Waste.Exit)
				}
			}
		}
		for i := 1; i < len(s.Found); i++ {
			if s.Found[i-1].MovesExit && !s.Found[i].MovesExit {
				t.Errorf("%s: runs to the stated exit and to others stand mixed", name)
			}
		}
	}
	if kept == 0 || moved == 0 {
		t.Errorf("%d runs to the stated exit, %d to others", kept, moved)
	}
}

// What was worked out from measured levels is not stated by using a run: the
// base that was to be as low as works still is.
func TestUsingARunStatesNothingMeasured(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Base.Height = job.HeightBare
	top := geometry.Evaluate(j, demotest.Packs(t)[j.Region]).Heights.BaseTopMM + 6
	j.AsBuilt.BaseTopMM = &top
	s := find(t, j, []job.Exit{j.Waste.Exit}, search.UsualGrid())
	if len(s.Found) == 0 {
		t.Fatal("nothing found")
	}
	for _, a := range s.Found {
		k := a.Change.Apply(j)
		if !reflect.DeepEqual(k.Base, j.Base) || k.Former != j.Former || k.Waste.Exit != j.Waste.Exit {
			t.Errorf("using a run states %+v, %+v", k.Base, k.Waste.Exit)
		}
		if r := geometry.Evaluate(k, demotest.Packs(t)[j.Region]); r.Heights.BaseTopMM != top || a.RaiseMM != top-r.Heights.FloorHighMM {
			t.Errorf("the base that was measured at %v stands at %v, said to be raised %v", top, r.Heights.BaseTopMM, a.RaiseMM)
		}
	}
}

// A level that the exit may not lie under holds for every exit tried in its
// wall: a hole 8 mm beside the stated one is not offered 40 mm lower.
func TestOtherExitsInTheWallKeepTheLevel(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Exit.Level = job.NotBelow(60)
	for _, e := range search.UsualExits(j, 150) {
		if e.Wall == j.Waste.Exit.Wall && !e.Level.Equal(job.NotBelow(60)) {
			t.Errorf("the exit %v along has the level %v", e.OffsetMM, e.Level)
		}
		if e.Wall != j.Waste.Exit.Wall && e.Level.Kind() != job.ExitFree {
			t.Errorf("an exit in another wall has the level %v", e.Level)
		}
	}
	s := find(t, j, search.UsualExits(j, 150), search.UsualGrid())
	if len(s.Found) == 0 {
		t.Fatal("nothing found")
	}
	for _, a := range s.Found {
		if a.Job.Waste.Exit.Wall == j.Waste.Exit.Wall && a.ExitInvertMM < 60-1e-6 {
			t.Errorf("a run leaves the same wall at %v", a.ExitInvertMM)
		}
		if r := geometry.Evaluate(a.Change.Apply(j), demotest.Packs(t)["UK"]); math.Abs(r.Heights.Run.InvertAt(r.Heights.Run.ExitAtMM)-a.ExitInvertMM) > 1e-6 {
			t.Errorf("it leaves at %v, said to be %v", r.Heights.Run.InvertAt(r.Heights.Run.ExitAtMM), a.ExitInvertMM)
		}
	}
}

// A trap is one body: measured 1.5 mm lower at its outlet it hangs 1.5 mm lower,
// and is found to stand in the floor.
func TestMeasuredOutletMovesTheTrap(t *testing.T) {
	j := job.New()
	planned := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	outlet := planned.Heights.OutletMM - 1.5
	j.AsBuilt.BaseTopMM, j.AsBuilt.OutletInvertMM = &planned.Heights.BaseTopMM, &outlet
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	if got := r.Heights.OutletMM - r.Heights.TrapMM; math.Abs(got-20) > 1e-9 || math.Abs(r.Heights.TrapMM+1.5) > 1e-9 {
		t.Errorf("the trap's underside lies at %v, %v under its outlet; want -1.5 and 20", r.Heights.TrapMM, got)
	}
	for _, f := range r.Findings {
		if f.Rule.Quantity == "trap.into-floor" {
			return
		}
	}
	t.Error("the trap in the floor is not found")
}
