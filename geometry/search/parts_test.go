package search

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// An alternative beats another in any one way, from what makes a difference on: a
// twentieth of a millimetre, a hundred-thousandth of fall.
func TestBetterInOneWay(t *testing.T) {
	axis, edge := &rule.Rule{ID: "axis"}, &rule.Rule{ID: "edge"}
	than := Alternative{RaiseMM: 70, JoistsCut: 2, LengthMM: 900, Bends: 2, EdgeStepMM: 100, Gradient: 0.02, Advisories: 3, MovesExit: true,
		Unkept: []Unkept{{axis, 2}, {edge, 1}}}
	for _, c := range []struct {
		name string
		make func(a *Alternative)
		want bool
	}{
		{"the same", func(*Alternative) {}, false},
		{"lower", func(a *Alternative) { a.RaiseMM -= 0.051 }, true},
		{"hardly lower", func(a *Alternative) { a.RaiseMM -= 0.049 }, false},
		{"higher", func(a *Alternative) { a.RaiseMM += 1 }, false},
		{"fewer joists", func(a *Alternative) { a.JoistsCut-- }, true},
		{"more joists", func(a *Alternative) { a.JoistsCut++ }, false},
		{"shorter", func(a *Alternative) { a.LengthMM -= 0.051 }, true},
		{"hardly shorter", func(a *Alternative) { a.LengthMM -= 0.049 }, false},
		{"longer", func(a *Alternative) { a.LengthMM += 1 }, false},
		{"fewer bends", func(a *Alternative) { a.Bends-- }, true},
		{"more bends", func(a *Alternative) { a.Bends++ }, false},
		{"a smaller step", func(a *Alternative) { a.EdgeStepMM -= 0.051 }, true},
		{"a hardly smaller step", func(a *Alternative) { a.EdgeStepMM -= 0.049 }, false},
		{"a larger step", func(a *Alternative) { a.EdgeStepMM++ }, false},
		{"steeper", func(a *Alternative) { a.Gradient += 1.1e-5 }, true},
		{"hardly steeper", func(a *Alternative) { a.Gradient += 0.9e-5 }, false},
		{"flatter", func(a *Alternative) { a.Gradient -= 0.01 }, false},
		{"less advice", func(a *Alternative) { a.Advisories-- }, true},
		{"more advice", func(a *Alternative) { a.Advisories++ }, false},
		{"to the stated exit", func(a *Alternative) { a.MovesExit = false }, true},
		{"a limit kept in one cut more", func(a *Alternative) { a.Unkept = []Unkept{{axis, 1}, {edge, 1}} }, true},
		{"one limit kept", func(a *Alternative) { a.Unkept = []Unkept{{axis, 2}} }, true},
		{"as often another", func(a *Alternative) { a.Unkept = []Unkept{{edge, 3}} }, false},
		{"more often", func(a *Alternative) { a.Unkept = []Unkept{{axis, 2}, {edge, 2}} }, false},
	} {
		a := than
		c.make(&a)
		if got := a.better(&than); got != c.want {
			t.Errorf("%s: better %v, want %v", c.name, got, c.want)
		}
	}
	stated := Alternative{}
	if moved := (Alternative{MovesExit: true}); moved.better(&stated) || !stated.better(&moved) {
		t.Error("another exit is held for better than the stated one")
	}
}

// What is kept is what no other beats in every way, whichever came first.
func TestKeepsWhatIsWanted(t *testing.T) {
	low := Alternative{RaiseMM: 70, LengthMM: 900}
	short := Alternative{RaiseMM: 80, LengthMM: 800}
	worse := Alternative{RaiseMM: 80, LengthMM: 900}
	best := Alternative{RaiseMM: 60, LengthMM: 700}
	for _, c := range []struct {
		name string
		in   []Alternative
		want []float64 // by their raise
	}{
		{"each has its use", []Alternative{low, short}, []float64{70, 80}},
		{"the worse after", []Alternative{low, short, worse}, []float64{70, 80}},
		{"the worse before", []Alternative{worse, low, short}, []float64{70, 80}},
		{"twice the same", []Alternative{low, low}, []float64{70}},
		{"the best last", []Alternative{low, short, best}, []float64{60}},
		{"the best first", []Alternative{best, low, short}, []float64{60}},
	} {
		var s Outcome
		var got []float64
		for _, a := range c.in {
			a.Job = job.New()
			s.keep(a)
		}
		for _, a := range s.Found {
			got = append(got, a.RaiseMM)
			if k := a.Change.Apply(job.New()); k.Waste.Exit != a.Job.Waste.Exit {
				t.Errorf("%s: its change leads to %+v", c.name, k.Waste.Exit)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: kept raises of %v, want %v", c.name, got, c.want)
		}
	}
}

// What rules say of a run: whether it is stopped, by more than the want of a vent,
// what a fitting may mend, and how many of them are about the way it goes.
func TestVerdicts(t *testing.T) {
	anything := func(quantity string, s rule.Severity, c rule.Compare, when rule.When) rule.Rule {
		limit := 1.0 // against a value of 0
		if c == rule.AtMost {
			limit = -1
		}
		return rule.Rule{ID: quantity, Quantity: quantity, Severity: s, Compare: c, Limit: limit, When: when}
	}
	vent := rule.When{Without: []string{stage.TagVentilated}}
	for _, c := range []struct {
		name string
		rule rule.Rule
		want verdict
	}{
		{"a level", anything("exit.too-low", rule.Stop, rule.AtLeast, rule.When{}), verdict{stopped: true, stoppedAnyway: true, advisories: 1}},
		{"advice on it", anything("exit.too-low", rule.Advice, rule.AtLeast, rule.When{}), verdict{advisories: 1}},
		{"without a vent", anything("exit.too-low", rule.Stop, rule.AtLeast, vent), verdict{stopped: true, advisories: 1}},
		{"what no run changes", anything("trap.seal", rule.Stop, rule.AtLeast, rule.When{}), verdict{}},
		{"nor that", anything("trap.flow-share", rule.Stop, rule.AtLeast, rule.When{}), verdict{}},
		{"nor that either", anything("base.keep-zone-cut", rule.Stop, rule.AtLeast, rule.When{}), verdict{}},
		{"not of the way it goes", anything("base.too-low", rule.Stop, rule.AtLeast, rule.When{}), verdict{stopped: true, stoppedAnyway: true}},
		{"too much for the pipe", anything("pipe.smooth-share", rule.Stop, rule.AtMost, rule.When{}), verdict{stopped: true, stoppedAnyway: true, larger: true}},
		{"nearly too much for the pipe", anything("pipe.flow-share", rule.Advice, rule.AtMost, rule.When{}), verdict{}},
		{"too long", anything("run.length", rule.Stop, rule.AtMost, rule.When{}), verdict{stopped: true, stoppedAnyway: true, larger: true, advisories: 1}},
		{"too many bends", anything("run.bends", rule.Stop, rule.AtMost, rule.When{}), verdict{stopped: true, stoppedAnyway: true, larger: true, advisories: 1}},
		{"too flat", anything("pipe.gradient", rule.Stop, rule.AtLeast, rule.When{}), verdict{stopped: true, stoppedAnyway: true, larger: true, advisories: 1}},
		{"too steep", anything("pipe.gradient", rule.Stop, rule.AtMost, rule.When{}), verdict{stopped: true, stoppedAnyway: true, steep: true, advisories: 1}},
		{"rather steep", anything("pipe.gradient", rule.Advice, rule.AtMost, rule.When{}), verdict{steep: true, advisories: 1}},
		{"rather flat", anything("pipe.gradient", rule.Advice, rule.AtLeast, rule.When{}), verdict{advisories: 1}},
		{"near a joist", anything("clash.joist-gap", rule.Advice, rule.AtLeast, rule.When{}), verdict{advisories: 1}},
		{"near a wall", anything("clash.wall-gap", rule.Advice, rule.AtLeast, rule.When{}), verdict{}},
	} {
		var v verdict
		v.judge(rule.Pack{Rules: []rule.Rule{c.rule}}, []rule.Measurement{{Quantity: c.rule.Quantity}})
		if !reflect.DeepEqual(v, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, v, c.want)
		}
	}
}

// gradients is a pack that limits the fall of the pipe.
func gradients(least, most float64) rule.Pack {
	return rule.Pack{Rules: []rule.Rule{{ID: "least", Quantity: "pipe.gradient", Compare: rule.AtLeast, Limit: least}, {ID: "most", Quantity: "pipe.gradient", Compare: rule.AtMost, Limit: most}}}
}

// Cuts in joists that do not keep a limit are counted by the limit: two of three holes lie more than a tenth off the middle.
func TestCountsUnkeptLimitsOfCuts(t *testing.T) {
	pack := rule.Pack{Rules: []rule.Rule{{ID: "axis", Quantity: "joist.hole-off-axis", Compare: rule.AtMost, Limit: 0.1, Severity: rule.Advice}}}
	var ms []rule.Measurement
	for _, off := range []float64{0.24, 0.05, 0.24} {
		ms = append(ms, rule.Measurement{Quantity: "joist.hole-off-axis", Subject: rule.Subject{Of: rule.JoistCut}, Value: off})
	}
	var v verdict
	v.judge(pack, ms)
	if v.stopped || len(v.unkept) != 1 || v.unkept[0].Rule.ID != "axis" || v.unkept[0].Cuts != 2 {
		t.Errorf("%+v, want the limit unkept in 2 cuts", v)
	}
}

// The falls tried are the stated one, the usual 1:40 where that is steeper, and the flattest allowed where that is flatter;
// with the exit's level given exactly, there is nothing to try.
func TestFallsTried(t *testing.T) {
	exactly := func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(0) }
	none := func(*job.Job) {}
	flat := func(j *job.Job) { j.Waste.Gradient = 0.018 }
	for _, c := range []struct {
		name string
		pack rule.Pack
		make func(*job.Job)
		want []float64
	}{
		{"a flatter one allowed", gradients(0.018, 0.09), none, []float64{0.025, 0.018}},
		{"none flatter", gradients(0.025, 0.09), none, []float64{0.025}},
		{"hardly flatter", gradients(0.025-0.9e-6, 0.09), none, []float64{0.025}},
		{"a little flatter", gradients(0.025-1.1e-6, 0.09), none, []float64{0.025, 0.025 - 1.1e-6}},
		{"steeper asked for", gradients(0.03, 0.09), none, []float64{0.025}},
		{"level allowed", gradients(0, 0.09), none, []float64{0.025}},
		{"backwards allowed", gradients(-0.01, 0.09), none, []float64{0.025}},
		{"nothing said", rule.Pack{}, none, []float64{0.025}},
		{"not below", gradients(0.018, 0.09), func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(0) }, []float64{0.025, 0.018}},
		{"exactly", gradients(0.018, 0.09), exactly, []float64{0.025}},
		{"stated flat", gradients(0.018, 0.09), flat, []float64{0.025, 0.018}},
		{"stated flat, the usual too steep", gradients(0.018, 0.02), flat, []float64{0.018}},
		{"held flat", gradients(0.018, 0.09), func(j *job.Job) { flat(j); j.SetStanding("waste.gradient", job.Held) }, []float64{0.018}},
		{"stated flat, exactly", gradients(0.018, 0.09), func(j *job.Job) { flat(j); exactly(j) }, []float64{0.018}},
	} {
		j := job.New()
		c.make(&j)
		if got := fallsToTry(j, c.pack); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// What may mend a run. A reducer leads to 50 mm pipe from any smaller. A falling piece of
// 150 takes what the rest, falling as steeply as allowed, leaves: with the outlet at 20
// and 645 to the exit, of which 495 fall at 0.03, an exit at −10 leaves 30 − 14.85 for it,
// and 15.15/150 is 0.101.
func TestMendingFittings(t *testing.T) {
	fallingPiece := func(slope float64) string { return fmt.Sprintf("falling-piece 150 at 0, %.6f", slope) }
	const reducer = "reducer 60 at 0, 50"
	for _, c := range []struct {
		name    string
		nominal float64
		exit    job.ExitLevel
		at      plan.Point
		most    float64
		verdict verdict
		want    []string
	}{
		{"nothing wrong", 40, job.Exactly(-10), plan.Point{}, 0.03, verdict{}, nil},
		{"stopped by something else", 40, job.Exactly(-10), plan.Point{}, 0.03, verdict{stopped: true, stoppedAnyway: true, advisories: 1}, nil},
		{"too small", 49, job.ExitLevel{}, plan.Point{}, 0.03, verdict{larger: true}, []string{reducer}},
		{"too small already at 50", 50, job.ExitLevel{}, plan.Point{}, 0.03, verdict{larger: true}, nil},
		{"too steep", 50, job.Exactly(-10), plan.Point{}, 0.03, verdict{steep: true}, []string{fallingPiece(0.101)}},
		{"too steep and too small", 40, job.Exactly(-10), plan.Point{}, 0.03, verdict{steep: true, larger: true}, []string{reducer, fallingPiece(0.101)}},
		{"too steep by itself", 50, job.NotBelow(-10), plan.Point{}, 0.03, verdict{steep: true}, nil},
		// An exit at 0 leaves 20 − 14.85 − 0.65 for 0.03 over 150: the whole way falls at 0.031.
		{"a little too steep", 50, job.Exactly(0), plan.Point{}, 0.031, verdict{steep: true}, []string{fallingPiece((20 - 0.031*495) / 150)}},
		{"not too steep", 50, job.Exactly(0), plan.Point{}, 0.0311, verdict{steep: true}, nil},
		// At −144.8 it takes 164.8 − 14.85 over 150, just under 1:1; at −145 more.
		{"far too deep", 50, job.Exactly(-144.8), plan.Point{}, 0.03, verdict{steep: true}, []string{fallingPiece(149.95 / 150)}},
		{"deeper than a falling piece falls", 50, job.Exactly(-145), plan.Point{}, 0.03, verdict{steep: true}, nil},
		// A way of 151 has room for one, of 149 none.
		{"a short way", 50, job.Exactly(-10), plan.Point{494, 1832}, 0.03, verdict{steep: true}, []string{fallingPiece((30 - 0.03) / 150)}},
		{"too short a way", 50, job.Exactly(-10), plan.Point{496, 1832}, 0.03, verdict{steep: true}, nil},
		{"no limit", 50, job.Exactly(-10), plan.Point{}, 0, verdict{steep: true}, nil},
	} {
		j := job.New()
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Waste.NominalMM, j.Waste.Exit.Level = c.nominal, c.exit
		if c.at != (plan.Point{}) {
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: c.at, Level: c.exit}
		}
		pack := rule.Pack{}
		if c.most > 0 {
			pack = gradients(0.018, c.most)
		}
		var got []string
		for _, f := range mending(stage.Place(j, pack, &plan.Shaper{}), c.verdict) {
			if size := f.Slope; f.Kind == job.FittingFallingPiece {
				got = append(got, fmt.Sprintf("%s %v at %v, %.6f", f.Kind, f.LengthMM, f.AtMM, size))
			} else {
				got = append(got, fmt.Sprintf("%s %v at %v, %v", f.Kind, f.LengthMM, f.AtMM, f.NominalMM))
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// A channel of 800 and a trap of 110 leave (800 − 110)/2 = 345 to each side, in whole
// centimetres 340.
func TestTrapPlacesByHand(t *testing.T) {
	for _, c := range []struct {
		fall         job.FallKind
		length, trap float64
		want         []float64
	}{
		{job.FallBack, 800, 110, []float64{0, 340, -340}}, {job.FallMid, 800, 100, []float64{0, 350, -350}}, {job.FallBack, 800, 98, []float64{0, 350, -350}},
		{job.FallBack, 800, 102, []float64{0, 340, -340}}, {job.FallBack, 100, 110, []float64{0, 0, 0}}, {job.FallPoint, 800, 110, nil}, {job.FallRoom, 800, 110, nil},
	} {
		j := job.New()
		j.Former.Fall, j.Drain.LengthMM, j.Drain.TrapSizeMM = c.fall, c.length, c.trap
		got := TrapPlaces(j)
		if len(got) != len(c.want) {
			t.Fatalf("%s, %v: %v, want %v", c.fall, c.length, got, c.want)
		}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 0 {
				t.Errorf("%s, %v, trap %v: %v, want %v", c.fall, c.length, c.trap, got, c.want)
			}
		}
	}
}

// Along a wall 1900 long, 60 off its corners, are 1780: at most 400 apart four parts, so
// five exits 445 apart. Only walls with an outside count, and a level the waste may not
// lie under holds along the wall it was stated for.
func TestUsualExitsByHand(t *testing.T) {
	offsets := func(exits []job.Exit, wall int) (out []float64) {
		for _, e := range exits[1:] {
			if e.Wall == wall && e.Kind == job.ExitWall {
				out = append(out, e.OffsetMM)
			}
		}
		return out
	}
	j := job.New()
	for spacing, want := range map[float64][]float64{400: {60, 505, 950, 1395, 1840}, 1780: {60, 1840}, 1781: {60}, 900: {60, 1840}, 890: {60, 950, 1840}} {
		exits := UsualExits(j, spacing)
		if exits[0] != j.Waste.Exit || len(exits) != 1+len(want) || !slices.Equal(offsets(exits, 3), want) {
			t.Errorf("every %v: %+v, want them at %v", spacing, exits, want)
		}
	}
	ground := -150.0
	j.Room.Walls[0].OutsideGroundMM = &ground
	both := UsualExits(j, 1000)
	// Of the wall 2400 long 2280 are left: two parts.
	if !slices.Equal(offsets(both, 0), []float64{60, 1200, 2340}) || !slices.Equal(offsets(both, 3), []float64{60, 1840}) {
		t.Errorf("two walls: %+v", both)
	}
	for _, c := range []struct {
		name     string
		exit     job.Exit
		own, far job.ExitLevel // what the exits in wall 3 and in wall 0 have
	}{
		{"not below", job.Exit{Kind: job.ExitWall, Wall: 3, OffsetMM: 68, Level: job.NotBelow(7)}, job.NotBelow(7), job.ExitLevel{}},
		{"in the other wall", job.Exit{Kind: job.ExitWall, Wall: 0, OffsetMM: 68, Level: job.NotBelow(7)}, job.ExitLevel{}, job.NotBelow(7)},
		{"exactly", job.Exit{Kind: job.ExitWall, Wall: 3, OffsetMM: 68, Level: job.Exactly(7)}, job.ExitLevel{}, job.ExitLevel{}},
		{"a pipe's end", job.Exit{Kind: job.ExitPipe, Wall: 3, At: plan.Point{300, 1832}, Level: job.NotBelow(7)}, job.ExitLevel{}, job.ExitLevel{}},
	} {
		j.Waste.Exit = c.exit
		for _, e := range UsualExits(j, 1000)[1:] {
			if want := map[int]job.ExitLevel{3: c.own, 0: c.far}[e.Wall]; e.Level != want {
				t.Errorf("%s: the exit in wall %d has the level %+v, want %+v", c.name, e.Wall, e.Level, want)
			}
		}
	}
}

// More changes at once are tried on the first exit and twelve spread over the rest.
func TestExitsAreThinned(t *testing.T) {
	for n, want := range map[int][]float64{
		1: {0}, 12: {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11},
		13: {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, 25: {0, 1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23}, 37: {0, 1, 4, 7, 10, 13, 16, 19, 22, 25, 28, 31, 34},
	} {
		exits := make([]job.Exit, n)
		for i := range exits {
			exits[i].OffsetMM = float64(i)
		}
		var got []float64
		for _, e := range thinned(exits) {
			got = append(got, e.OffsetMM)
		}
		if !slices.Equal(got, want) {
			t.Errorf("of %d: %v, want %v", n, got, want)
		}
	}
}

// Pipe ends that were found are tried, at their levels, but for the one that the waste leads
// to as it is.
func TestPipeEndsAreUsualExits(t *testing.T) {
	found := -40.0
	j := job.New()
	j.Room.PipeEnds = []job.PipeEnd{{At: plan.Point{300, 400}}, {At: plan.Point{2000, 500}, InvertMM: &found, NominalMM: 50}}
	ends := func() (out []job.Exit) {
		for _, e := range UsualExits(j, 1000) {
			if e.Kind == job.ExitPipe {
				out = append(out, e)
			}
		}
		return out
	}
	first := job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 400}}
	second := job.Exit{Kind: job.ExitPipe, At: plan.Point{2000, 500}, NominalMM: 50, Level: job.Exactly(-40)}
	if got := ends(); !slices.Equal(got, []job.Exit{first, second}) {
		t.Errorf("%+v", got)
	}
	// What is stated of the exit's level stays where the waste leads there already.
	own := second
	own.Level = job.NotBelow(-60)
	j.Waste.Exit = own
	if got := ends(); !slices.Equal(got, []job.Exit{own, first}) {
		t.Errorf("leading there: %+v", got)
	}
}

// Lower are those that need a whole millimetre less or more, in the order of what they need; of two that need the same the one found
// first, which is the one to the stated exit. By one way out the first and the lowest of them are told.
func TestLowerRuns(t *testing.T) {
	through := job.Job{Waste: job.Waste{Exit: job.Exit{Wall: 3, Kind: job.ExitWall}}}
	s := Outcome{Found: []Alternative{{BareMM: 70, LengthMM: 1}, {BareMM: 72.1, LengthMM: 2}, {BareMM: 72, LengthMM: 3}, {BareMM: 70, LengthMM: 4, Job: through}, {BareMM: 61, LengthMM: 5}}}
	var got []float64
	for _, a := range s.Lower(73) {
		got = append(got, a.LengthMM)
	}
	if want := []float64{5, 1, 4}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := s.Lower(61.9); len(got) != 0 {
		t.Errorf("of those that need at least 61, lower than 61.9 by a millimetre are %v", got)
	}
}

// Of the runs by one way out those are told apart that gain in what matters: one bend more for a little less pipe, or a base half
// a millimetre lower, is no other run; by each way out one is told.
func TestDistinctRuns(t *testing.T) {
	by := func(wall int, moves bool, make func(*Alternative)) Alternative {
		a := Alternative{RaiseMM: 80, LengthMM: 900, Gradient: 0.02, JoistsCut: 1, EdgeStepMM: 40, MovesExit: moves}
		a.Job.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: wall}
		make(&a)
		return a
	}
	s := Outcome{Found: []Alternative{
		by(0, false, func(*Alternative) {}),
		by(0, false, func(a *Alternative) { a.LengthMM, a.Bends = 850, 1 }),
		by(0, false, func(a *Alternative) { a.RaiseMM = 79.5 }),
		by(0, false, func(a *Alternative) { a.RaiseMM, a.Bends = 70, 2 }),
		by(0, false, func(a *Alternative) { a.RaiseMM, a.Bends = 75, 1 }),
		by(0, false, func(a *Alternative) { a.JoistsCut, a.LengthMM = 0, 2000 }),
		by(0, false, func(a *Alternative) { a.Gradient, a.RaiseMM = 0.021, 81 }),
		by(0, false, func(a *Alternative) { a.Gradient, a.RaiseMM = 0.025, 85 }),
		by(1, true, func(a *Alternative) { a.LengthMM = 3000 }),
		by(1, true, func(a *Alternative) { a.LengthMM, a.Bends = 2900, 1 }),
	}}
	var got []int
	for _, a := range s.Distinct() {
		for i := range s.Found {
			if a == &s.Found[i] {
				got = append(got, i)
			}
		}
	}
	if want := []int{0, 3, 5, 7, 8}; !slices.Equal(got, want) {
		t.Errorf("told are %v, want %v", got, want)
	}
}
