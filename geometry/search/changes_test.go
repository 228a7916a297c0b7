package search

import (
	"context"
	"math"
	"slices"
	"sync"
	"testing"

	"underfall/assets"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/measure"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

func ukPack(t *testing.T) rule.Pack {
	t.Helper()
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	return packs["UK"]
}

// Each change there is: when there is anything to change, what it changes and how it is
// worded. The base of the first stands on 40, the bed of 3 under it: its top 43 up.
func TestChangesAndTheirWords(t *testing.T) {
	all := relaxations(gradients(0.018, 0.09))
	low := func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40 }
	for _, c := range []struct {
		name string
		of   int
		make func(*job.Job)
		is   func(job.Job) bool // what it is once changed; nil where there is nothing to change
		best Alternative
		want string
	}{
		{"height", 0, low, func(k job.Job) bool { return k.Base.Height == job.HeightBuildable }, Alternative{RaiseMM: 72}, "relaxation.higher{by: 29 mm, raise: 72 mm}"},
		// What is left of a millimetre counts as one more.
		{"height, not in whole millimetres", 0, low, func(k job.Job) bool { return k.Base.Height == job.HeightBuildable }, Alternative{RaiseMM: 72.2}, "relaxation.higher{by: 30 mm, raise: 72.2 mm}"},
		{"height, as low as works", 0, func(*job.Job) {}, nil, Alternative{}, ""},
		{"size", 1, func(j *job.Job) { j.Waste.NominalMM = 40 }, func(k job.Job) bool {
			return k.Waste.NominalMM == 50 && k.Waste.OutsideDiameterMM == 50 && k.Waste.BoreMM == 46
		}, Alternative{Job: job.New()}, "relaxation.pipe{pipe: size 50, stated: size 40}"},
		{"size already", 1, func(*job.Job) {}, nil, Alternative{}, ""},
		{"fall", 2, func(j *job.Job) { j.Waste.Gradient = 0.01 }, func(k job.Job) bool { return k.Waste.Gradient == 0.018 }, Alternative{Job: job.New()}, "relaxation.fall{fall: 0.025 falling, stated: 0.01 falling}"},
		{"fall already", 2, func(j *job.Job) { j.Waste.Gradient = 0.018 }, nil, Alternative{}, ""},
		{"fall that follows from the exit", 2, func(j *job.Job) { j.Waste.Gradient, j.Waste.Exit.Level = 0.01, job.Exactly(0) }, nil, Alternative{}, ""},
		{"vent", ventChange, func(*job.Job) {}, func(k job.Job) bool { return k.Waste.Vent != nil }, Alternative{}, "relaxation.ventilated"},
		{"vent already", ventChange, func(j *job.Job) { j.Waste.Vent = &job.Vent{NominalMM: 32} }, nil, Alternative{}, ""},
		{"exit", 4, func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(30) }, func(k job.Job) bool { return k.Waste.Exit.Level == job.ExitLevel{} }, Alternative{ExitInvertMM: 4.4}, "relaxation.exit-level{level: 4.4 mm over the datum, stated: 30 mm over the datum}"},
		{"exit, exactly", 4, func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(-7) }, func(k job.Job) bool { return k.Waste.Exit.Level == job.ExitLevel{} }, Alternative{ExitInvertMM: 4}, "relaxation.exit-level{level: 4 mm over the datum, stated: -7 mm over the datum}"},
		{"exit already free", 4, func(*job.Job) {}, nil, Alternative{}, ""},
		{"support", 5, func(j *job.Job) { j.Base.Support = job.BetweenJoists; low(j) }, func(k job.Job) bool { return k.Base.Support == job.OnFloor && k.Base.Height == job.HeightBuildable }, Alternative{RaiseMM: 71.6}, "relaxation.base-on-floor{raise: 71.6 mm}"},
		{"support already", 5, func(*job.Job) {}, nil, Alternative{}, ""},
		{"box", boxChange, func(*job.Job) {}, func(k job.Job) bool { return k.Waste.Boxing != nil && *k.Waste.Boxing == job.UsualBoxing() }, Alternative{}, "relaxation.boxed-in"},
		{"box already", boxChange, func(j *job.Job) { j.Waste.Boxing = &job.Boxing{} }, nil, Alternative{}, ""},
	} {
		j := job.New()
		c.make(&j)
		change, ok := all[c.of].change(j)
		if ok != (c.is != nil) {
			t.Errorf("%s: there is something to change: %v", c.name, ok)
		}
		if c.is == nil {
			continue
		}
		if k := change.Apply(j); !c.is(k) {
			t.Errorf("%s: it becomes %+v, %+v", c.name, k.Base, k.Waste)
		}
		if got := all[c.of].what(j, c.best).String(); got != c.want {
			t.Errorf("%s: “%s”, want “%s”", c.name, got, c.want)
		}
	}
	// With no limit on the fall there is none to change to.
	flat := job.New()
	flat.Waste.Gradient = 0.001
	if _, ok := relaxations(rule.Pack{})[2].change(flat); ok {
		t.Error("a fall is changed to a limit that is not there")
	}
	if len(all) != 7 {
		t.Errorf("there are %d changes, of which seven are told of here", len(all))
	}
}

// A vent does nothing but free a job of rules where no rule asks for one and the fall is
// limited no less and no more strictly without it.
func TestWhatAVentDoes(t *testing.T) {
	fall := func(c rule.Compare, limit float64, tags, without []string) rule.Rule {
		return rule.Rule{Quantity: "pipe.gradient", Compare: c, Limit: limit, When: rule.When{Tags: tags, Without: without}}
	}
	vent := []string{stage.TagVentilated}
	for _, c := range []struct {
		name  string
		rules []rule.Rule
		want  bool
	}{
		{"no rules", nil, true},
		{"a rule without a vent", []rule.Rule{{Quantity: "run.length", Compare: rule.AtMost, Limit: 3000, When: rule.When{Without: vent}}}, true},
		{"a rule with a vent", []rule.Rule{{Quantity: "run.length", Compare: rule.AtMost, Limit: 3000, When: rule.When{Tags: vent}}}, false},
		{"falls as ever", []rule.Rule{fall(rule.AtLeast, 0.018, nil, nil), fall(rule.AtMost, 0.09, nil, nil)}, true},
		{"less fall with a vent", []rule.Rule{fall(rule.AtLeast, 0.01, nil, nil), fall(rule.AtLeast, 0.018, nil, vent)}, false},
		{"no least fall with a vent", []rule.Rule{fall(rule.AtLeast, 0.018, nil, vent)}, false},
		{"no least fall of nothing with a vent", []rule.Rule{fall(rule.AtLeast, 0, nil, vent)}, false},
		{"more fall with a vent", []rule.Rule{fall(rule.AtMost, 0.09, nil, nil), fall(rule.AtMost, 0.05, nil, vent)}, false},
		{"any fall with a vent", []rule.Rule{fall(rule.AtMost, 0.05, nil, vent)}, true},
	} {
		if got := onlyFreesByVent(job.New(), rule.Pack{Rules: c.rules}); got != c.want {
			t.Errorf("%s: it only frees %v, want %v", c.name, got, c.want)
		}
	}
	// Limits on other sizes do not come in.
	other := fall(rule.AtLeast, 0.018, nil, vent)
	other.When.Facts = map[string][2]float64{"nominalMM": {32, 40}}
	if !onlyFreesByVent(job.New(), rule.Pack{Rules: []rule.Rule{other}}) {
		t.Error("a limit on other pipe changes with a vent")
	}
}

// Where two changes are needed both are named, and neither alone would do: a base of 40,
// which is 29 too low for the trap, and a pipe of 32, too small for a shower.
func TestTwoChangesAreNamed(t *testing.T) {
	j := job.New()
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40
	j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM = 32, 36, 32
	pack := ukPack(t)
	found, err := Runs(context.Background(), j, pack, []job.Exit{j.Waste.Exit}, Grid{Steps: 2, MostBends: 1}, nil)
	if err != nil || len(found.Found) > 0 || len(found.Relaxations) == 0 {
		t.Fatalf("%d found, %d changes, %v", len(found.Found), len(found.Relaxations), err)
	}
	for _, r := range found.Relaxations {
		if r.What.String() != "relaxation.all{changes: [relaxation.higher{by: 29 mm, raise: 72 mm}, relaxation.pipe{pipe: size 50, stated: size 32}]}" {
			t.Errorf("“%s”", r.What)
		}
		k := r.Best.Change.Apply(j)
		if k.Base.Height != job.HeightBuildable || k.Waste.NominalMM != 50 || k.Waste.Exit != j.Waste.Exit {
			t.Errorf("its change leads to %+v, %+v", k.Base, k.Waste)
		}
	}
}

// The share told goes to 0.3 with the search of the job as it stands, a task at a time:
// simple runs are half of that, a task for each of four turns of the outlet, the others
// the other half, a task for each of four first turns as well. Where nothing
// fits a third of the rest is for single changes, each in its place among the 128 sets.
func TestSharesOfProgress(t *testing.T) {
	told := func(j job.Job) (out []float64) {
		var mu sync.Mutex
		if _, err := Runs(context.Background(), j, ukPack(t), []job.Exit{j.Waste.Exit}, Grid{Steps: 2, MostBends: 2}, func(share float64) {
			mu.Lock()
			defer mu.Unlock()
			out = append(out, math.Round(share*1e9)/1e9)
		}); err != nil {
			t.Fatal(err)
		}
		slices.Sort(out)
		return out
	}
	var want []float64
	for k := 1.0; k <= 4; k++ {
		want = append(want, math.Round(0.15*k/4*1e9)/1e9)
	}
	for k := 1.0; k <= 16; k++ {
		want = append(want, math.Round((0.15+0.15*k/16)*1e9)/1e9)
	}
	if got := told(job.New()); !slices.Equal(got, want) {
		t.Errorf("told %v, want %v", got, want)
	}
	low := job.New()
	low.Base.Height, low.Base.HeightMM = job.HeightChosen, 40
	vented := func(set float64) float64 { return math.Round((0.3+0.7*set/128/3)*1e9) / 1e9 }
	for _, set := range []float64{1, 2, 4, 16, 32} {
		want = append(want, vented(set))
	}
	got := told(low)
	if i := slices.Index(got, vented(8)); i >= 0 {
		got = slices.Delete(got, i, i+1) // the vent may be in vain
	}
	// Under the shower no pipe lies bare: boxing it in, the set 64, is in vain.
	if !slices.Equal(got, want) {
		t.Errorf("told %v, want %v", got, want)
	}
}

// A place for the trap that the grid names twice, or that it has already, is tried once,
// and one where it does not fit not at all.
func TestTrapPlacesAreTriedOnce(t *testing.T) {
	j := job.New()
	tried := func(places ...float64) int {
		s, err := Runs(context.Background(), j, ukPack(t), []job.Exit{j.Waste.Exit}, Grid{Steps: 2, MostBends: 1, TrapsMM: places}, nil)
		if err != nil {
			t.Fatal(err)
		}
		return s.Tried
	}
	alone := tried()
	if again := tried(0, 5000); again != alone {
		t.Errorf("with the trap's own place %d are tried, without it %d", again, alone)
	}
	if once, twice := tried(100), tried(100, 100); once <= alone || twice != once {
		t.Errorf("%d are tried with one place more, %d with it twice, %d alone", once, twice, alone)
	}
}

// Found runs stand in order: to the stated exit first, then those that ask for least. A run
// with no more bends, no more advice and no less fall than the one before it is higher or
// longer.
func TestFoundRunsStandInOrder(t *testing.T) {
	j := demotest.Rooms(t)[0].Job.Clone()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{260, 1290}}
	j.Drain.ChannelDepthMM, j.Drain.WeirDepthMM, j.Drain.TrapDepthMM = 10, 13, 76 // so that the pipe, not the trap, sets the height
	s, err := Runs(context.Background(), j, ukPack(t), UsualExits(j, 600), UsualGrid(), nil)
	if err != nil || len(s.Found) < 3 {
		t.Fatalf("%d found, %v", len(s.Found), err)
	}
	moved := 0
	for i, a := range s.Found {
		if a.MovesExit == edit.SamePlace(a.Job.Waste.Exit, j.Waste.Exit) {
			t.Errorf("run %d moves the exit: %v", i, a.MovesExit)
		}
		if a.MovesExit {
			moved++
		}
		if i == 0 {
			continue
		}
		b := s.Found[i-1]
		plainer := a.Bends <= b.Bends && a.Advisories <= b.Advisories && a.Gradient >= b.Gradient
		if b.MovesExit && !a.MovesExit || b.MovesExit == a.MovesExit && plainer && a.RaiseMM <= b.RaiseMM && a.LengthMM <= b.LengthMM {
			t.Errorf("run %d, %v up and %v long, stands after one %v up and %v long", i, a.RaiseMM, a.LengthMM, b.RaiseMM, b.LengthMM)
		}
	}
	if moved == 0 || moved == len(s.Found) {
		t.Errorf("%d of %d runs go elsewhere", moved, len(s.Found))
	}
}

// By hand, in millimetres of height: 10 for a bend, a fitting or advice, 5 for a fall flatter
// than stated, 10 for a metre of pipe, 50 for a joist.
func TestPlainRunsStandFirst(t *testing.T) {
	run := func(raise, length float64, bends, advice, joists int, fall float64, fittings ...job.Fitting) Alternative {
		a := Alternative{RaiseMM: raise, LengthMM: length, Bends: bends, Advisories: advice, JoistsCut: joists}
		a.Job.Waste.Gradient, a.Job.Waste.Fittings = fall, fittings
		return a
	}
	moved := run(60, 500, 0, 0, 0, 0.025)
	moved.MovesExit = true
	want := []Alternative{
		run(72, 900, 0, 0, 0, 0.025),                 // 81
		run(77.5, 958, 1, 0, 0, 0.025),               // 97.08
		run(72, 1155, 1, 0, 0, 0.018),                // 98.55
		run(72, 2000, 0, 0, 0, 0.025, job.Fitting{}), // 102
		run(72, 953, 3, 1, 0, 0.025),                 // 121.53
		run(60, 1200, 0, 0, 1, 0.025),                // 122
		moved,                                        // 65, but elsewhere
	}
	for shift := range want {
		got := append(append([]Alternative(nil), want[shift:]...), want[:shift]...)
		inOrder(got, 0.025)
		for i := range got {
			if got[i].RaiseMM != want[i].RaiseMM || got[i].LengthMM != want[i].LengthMM {
				t.Errorf("turned by %d, place %d: %v up, %v long; want %v, %v", shift, i, got[i].RaiseMM, got[i].LengthMM, want[i].RaiseMM, want[i].LengthMM)
			}
		}
	}
}

// Through the wall beside the shower there are runs of one bend, and of three that save a
// hand's breadth of pipe: the plain one stands first.
func TestAPlainRunStandsBeforeACrookedOne(t *testing.T) {
	j := job.New()
	j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 3, OffsetMM: 222}
	s, err := Runs(context.Background(), j, ukPack(t), []job.Exit{j.Waste.Exit}, UsualGrid(), nil)
	if err != nil || len(s.Found) == 0 {
		t.Fatalf("%d found, %v", len(s.Found), err)
	}
	least := s.Found[0].Bends
	for _, a := range s.Found {
		least = min(least, a.Bends)
	}
	if f := s.Found[0]; f.Bends != least || f.Bends > 1 {
		t.Errorf("first stands a run of %d bends, %v up, %v long; the plainest has %d", f.Bends, f.RaiseMM, f.LengthMM, least)
	}
}

// What the straight run of the usual job costs, by hand: the base at 72, 920 to the far
// side of the wall, and an edge of 111.34; at the exit its invert is at 20 − 645/40.
func TestCostsByHand(t *testing.T) {
	j := job.New()
	s, err := Runs(context.Background(), j, ukPack(t), []job.Exit{j.Waste.Exit}, Grid{Steps: 2, MostBends: 0}, nil)
	if err != nil || len(s.Found) == 0 {
		t.Fatalf("%d found, %v", len(s.Found), err)
	}
	a := s.Found[0]
	for what, v := range map[string][2]float64{"raise": {a.RaiseMM, 72}, "length": {a.LengthMM, 920}, "step": {a.EdgeStepMM, 111.34}, "exit": {a.ExitInvertMM, 3.875},
		"fall": {a.Gradient, 0.025}, "bends": {float64(a.Bends), 0}, "joists": {float64(a.JoistsCut), 0}} {
		if math.Abs(v[0]-v[1]) > 1e-9 {
			t.Errorf("its %s is %v, by hand %v", what, v[0], v[1])
		}
	}
	if a.Governing != (level.Reason{By: level.TrapOnFloor}) || a.MovesExit || len(s.Besides) > 0 {
		t.Errorf("governed by %v, elsewhere %v, besides %v", a.Governing, a.MovesExit, s.Besides)
	}
}

// A run that does not go together is tried and never kept, though no rule speaks of it.
func TestTroubledRunsAreNotKept(t *testing.T) {
	j := job.New()
	var s Outcome
	s.try(new(measure.Measurer), stage.Place(j, rule.Pack{}, &plan.Shaper{}))
	if s.Tried != 1 || len(s.Found) != 1 {
		t.Fatalf("of a sound run %d are tried and %d kept", s.Tried, len(s.Found))
	}
	s = Outcome{}
	j.Waste.Waypoints = []plan.Point{{345, 1700}} // off the outlet's line
	s.try(new(measure.Measurer), stage.Place(j, rule.Pack{}, &plan.Shaper{}))
	if s.Tried != 1 || len(s.Found) != 0 {
		t.Errorf("of a run in trouble %d are tried and %d kept", s.Tried, len(s.Found))
	}
}

// A point drain has no length to shift its trap along: nothing is tried, where along a
// linear one the least shift is.
func TestTrapsOfPointDrainsStay(t *testing.T) {
	for fall, want := range map[job.FallKind]string{job.FallPoint: "", job.FallBack: "relaxation.trap{by: 50 mm}"} {
		j := job.New()
		j.Former.Fall = fall
		s := Outcome{stated: j.Waste.Exit}
		if err := s.relaxTrap(t.Context(), j, rule.Pack{}, []job.Exit{j.Waste.Exit}, Grid{Steps: 2, MostBends: 2}); err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, r := range s.Relaxations {
			got += r.What.String()
		}
		if got != want || (s.Tried > 0) != (want != "") {
			t.Errorf("%s: “%s” after %d tried, want “%s”", fall, got, s.Tried, want)
		}
	}
}
