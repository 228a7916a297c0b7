package stage_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// pack has two least falls for pipes of 45 to 55, the second stricter, one of a
// quarter of that for wider ones, another for those with a vent, and a greatest.
func pack() rule.Pack {
	limit := func(c rule.Compare, fall float64, when rule.When) rule.Rule {
		return rule.Rule{Quantity: "pipe.gradient", Compare: c, Limit: fall, When: when}
	}
	narrow := rule.When{Facts: map[string][2]float64{"nominalMM": {45, 55}}}
	return rule.Pack{Rules: []rule.Rule{
		limit(rule.AtLeast, 0.01, narrow),
		limit(rule.AtLeast, 0.02, narrow),
		limit(rule.AtLeast, 0.005, rule.When{Facts: map[string][2]float64{"nominalMM": {70, 110}}}),
		limit(rule.AtLeast, 0.03, rule.When{Tags: []string{"ventilated"}}),
		limit(rule.AtMost, 0.09, narrow),
	}}
}

func TestGradientLimit(t *testing.T) {
	for name, c := range map[string]struct {
		nominal    float64
		ventilated bool
		compare    rule.Compare
		want       float64
		ok         bool
	}{
		"strictest of two":      {50, false, rule.AtLeast, 0.02, true},
		"by the pipe's size":    {75, false, rule.AtLeast, 0.005, true},
		"none for this size":    {32, false, rule.AtLeast, 0, false},
		"with a vent":           {50, true, rule.AtLeast, 0.03, true},
		"greatest":              {50, false, rule.AtMost, 0.09, true},
		"no greatest this wide": {75, false, rule.AtMost, 0, false},
	} {
		j := job.New()
		if j.Waste.NominalMM = c.nominal; c.ventilated {
			j.Waste.Vent = &job.Vent{NominalMM: 32}
		}
		if got, ok := stage.GradientLimit(pack(), j, c.compare); got != c.want || ok != c.ok {
			t.Errorf("%s: %v %v, want %v %v", name, got, ok, c.want, c.ok)
		}
	}
	if got := stage.PipeFacts(50); len(got) != 1 || got["nominalMM"] != 50 {
		t.Errorf("facts %v", got)
	}
}

// withExit is the starting job with its pipe's invert at the exit given.
func withExit(mm float64) job.Job {
	j := job.New()
	j.Waste.Exit.Level = job.Exactly(mm)
	return j
}

func place(j job.Job, p rule.Pack) stage.Placed { return stage.Place(j, p, &plan.Shaper{}) }

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9) {
		t.Errorf("%s %v, want %v", what, got, want)
	}
}

// Where the exit's level drives, the least raise counts on the flattest pipe
// that the pack allows. By hand: the outlet lies 75 − 20 − 3 = 52 under the
// base's top and the exit 645 along, with an invert at 30: the base's top at
// 30 + 645·0.02 + 52 = 94.9, at 82 without a limit, at 30 + 645·0.03 + 52 =
// 101.35 with a vent.
func TestLevelByHand(t *testing.T) {
	l := place(withExit(30), pack()).Level()
	near(t, "base with a limit", l.Heights.BaseTopMM, 94.9)
	near(t, "base without", place(withExit(30), rule.Pack{}).Level().Heights.BaseTopMM, 82)
	if l.DoNow != nil || l.Contradictions != nil || !reflect.DeepEqual(l.Settled, withExit(30)) {
		t.Errorf("nothing is measured, but %v, %v", l.DoNow, l.Contradictions)
	}
	// Another run over the same layout has the limit of its own pipe.
	j := withExit(30)
	j.Waste.Vent = &job.Vent{NominalMM: 32}
	near(t, "base with a vent", place(withExit(30), pack()).WithRun(j).Level().Heights.BaseTopMM, 101.35)
	// A stated fall of 1:20 over 645: from the outlet at 20 down to −12.25.
	// Its underside would lie 14.25 under the floor, which the base makes up for.
	steep := place(job.New(), pack()).WithGradient(0.05).Level()
	near(t, "fall", steep.Heights.Gradient, 0.05)
	near(t, "base over a steep pipe", steep.Heights.BaseTopMM, 72+14.25)
}

// What is measured is settled once: the base at 70 instead of 72 is chosen so, 67
// high on its adhesive of 3, and the bed under the former makes up the 2 mm. Levelled
// again with another base, that one counts and the measured one no more.
func TestAgain(t *testing.T) {
	j := job.New()
	base, edge := 70.0, 93+817*0.03
	j.AsBuilt.BaseTopMM, j.AsBuilt.FormerAtEdgeMM = &base, &edge
	p := place(j, pack())
	l := p.Level()
	near(t, "base", l.Heights.BaseTopMM, 70)
	if len(l.DoNow) == 0 || l.DoNow[0].What != "now.former-bed" {
		t.Errorf("to do: %+v", l.DoNow)
	}
	// The former's high end 0.03·817 over the drain: as many planes, as steep.
	near(t, "fall", l.Layout.Planes[0].Gradient(), 0.03)
	near(t, "fall of the settled job", l.Settled.Former.Slope, 0.03)
	near(t, "fall as planned", p.Layout.Planes[0].Gradient(), 0.02)

	k := l.Settled
	k.Base.HeightMM += 5
	anew := again(l, k, p.Layout)
	near(t, "base again", anew.Heights.BaseTopMM, 75)
	near(t, "fall again", anew.Layout.Planes[0].Gradient(), 0.02)
	near(t, "base before", l.Heights.BaseTopMM, 70)
	if anew.Settled.Base.HeightMM != 72 {
		t.Errorf("settled on a base of %v, want 72", anew.Settled.Base.HeightMM)
	}
	// The flattest pipe that counted is kept.
	exact := place(withExit(30), pack()).Level()
	near(t, "base by the exit again", again(exact, exact.Settled, exact.Layout).Heights.BaseTopMM, 94.9)
}

func TestMeasuredContradictions(t *testing.T) {
	j := job.New()
	base := -10.0
	j.AsBuilt.BaseTopMM = &base
	if l := place(j, pack()).Level(); len(l.Contradictions) != 1 {
		t.Errorf("a base 10 under the floor: %+v", l.Contradictions)
	}
}

// Two levelled jobs have one plan when they come of one placed job, and only
// then: not when placed twice, nor laid anew, nor without any run.
func TestSamePlan(t *testing.T) {
	p := place(job.New(), pack())
	a := p.Level()
	if n := len(a.Heights.Run.Pieces); n != 1 {
		t.Fatalf("%d pieces, the job is meant to have the one straight", n)
	}
	turned := job.New()
	turned.Waste.Exit.Wall, turned.Waste.Exit.OffsetMM = 0, 700
	gone := job.New()
	gone.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: p.Layout.Outlet}
	b, relevelled, steep := p.Level(), again(a, a.Settled, p.Layout), p.WithGradient(0.03).Level()
	anew, other, none, none2 := place(job.New(), pack()).Level(), p.WithRun(turned).Level(), p.WithRun(gone).Level(), p.WithRun(gone).Level()
	if len(other.Heights.Run.Pieces) < 3 || len(none.Heights.Run.Pieces) > 0 {
		t.Fatalf("%d and %d pieces, meant to be some and none", len(other.Heights.Run.Pieces), len(none.Heights.Run.Pieces))
	}
	other2 := again(other, turned, p.Layout)
	for name, c := range map[string]struct {
		a, b *stage.Levelled
		want bool
	}{
		"itself": {&a, &a, true}, "levelled twice": {&a, &b, true}, "again": {&a, &relevelled, true}, "another fall": {&a, &steep, true},
		"of several pieces": {&other, &other2, true},
		"placed twice":      {&a, &anew, false}, "another run": {&a, &other, false},
		"against none": {&a, &none, false}, "none against it": {&none, &a, false}, "none twice": {&none, &none2, false},
	} {
		if got := c.a.SamePlan(c.b); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// The floor and the joists cut are those of the settled job: a base measured 5
// lower brings the trap 5 deeper into what the joists are cut with.
func TestFloorAndCrossingsAreOfTheSettledJob(t *testing.T) {
	j := job.New()
	j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 0
	j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM = 90, 200
	planned := place(j, pack()).Level()
	base := -5.0
	j.AsBuilt.BaseTopMM = &base
	built := place(j, pack()).Level()
	at := planned.Layout.DrainEdge
	// By hand: 0 + 3 + 20 + 13 at the drain.
	planFloor, builtFloor := planned.BuildUp(), built.BuildUp()
	near(t, "planned tile", planFloor.FinishedMM(at), 36)
	near(t, "built tile", builtFloor.FinishedMM(at), 31)
	a, b := planned.Crossings(), built.Crossings()
	if len(a) == 0 || len(a) != len(b) {
		t.Fatalf("%d joists cut as planned, %d as built", len(a), len(b))
	}
	near(t, "the cut as built", b[0].CutLowMM(), a[0].CutLowMM()-5)
}

// A job that follows on another takes its layout over where nothing that is placed has
// changed, and only there; its run and its pack are its own.
func TestPlaceAfter(t *testing.T) {
	before := place(job.New(), rule.Pack{})
	for name, c := range map[string]struct {
		before stage.Placed
		change func(*job.Job)
		same   bool
	}{
		"other tile":   {before, func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM = 12 }, true},
		"other run":    {before, func(j *job.Job) { j.Waste.Exit.OffsetMM, j.Waste.Gradient = 300, 0.05 }, true},
		"other shower": {before, func(j *job.Job) { j.Shower.WidthMM = 1200 }, false},
		"other fall":   {before, func(j *job.Job) { j.Former.Slope = 0.03 }, false},
		"the first":    {stage.Placed{}, func(*job.Job) {}, false},
	} {
		j := job.New()
		c.change(&j)
		got, want := stage.PlaceAfter(c.before, j, pack(), &plan.Shaper{}), place(j, pack())
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: placed otherwise than by itself", name)
		}
		if same := len(c.before.Layout.Planes) > 0 && &got.Layout.Planes[0] == &c.before.Layout.Planes[0]; same != c.same {
			t.Errorf("%s: layout taken over: %v, want %v", name, same, c.same)
		}
	}
}

func TestMisshapen(t *testing.T) {
	var sound plan.Shaper
	square := plan.Rectangle(plan.Point{0, 0}, plan.Point{10, 10})
	sound.Intersect(square, square, message.Of("shape.square"))
	if p := stage.Misshapen(&sound); p != nil {
		t.Errorf("nothing failed: %v", p)
	}
	failing := plan.Shaper{Refuse: func(message.Message, float64) error { return errors.New("put in by the test") }}
	failing.Attempt(message.Of("shape.base"), func() error { return nil })
	p := stage.Misshapen(&failing)
	if len(p) != 1 || p[0].Key != "" || p[0].What.String() != "problem.misshapen{what: shape.base}" {
		t.Errorf("%v", p)
	}
}

// A job levelled in the room of any other is as good as one levelled anew, measured
// levels and all.
func TestLevelIn(t *testing.T) {
	base, long := 70.0, job.New()
	measured := job.New()
	measured.AsBuilt.BaseTopMM = &base
	long.Waste.Waypoints = []plan.Point{{300, 1832}, {300, 500}}
	var l stage.Levelled
	for i, j := range []job.Job{long, job.New(), measured, withExit(30), long, measured, job.New()} {
		p := place(j, pack())
		want := p.Level()
		p.LevelIn(&l)
		if !l.Heights.Same(&want.Heights) || !reflect.DeepEqual(l.Settled, want.Settled) || !reflect.DeepEqual(l.DoNow, want.DoNow) ||
			!reflect.DeepEqual(l.Layout, want.Layout) || !p.SamePlan(&l) || !l.SamePlan(&want) {
			t.Errorf("job %d: %+v, want %+v", i, l, want)
		}
	}
}

// again levels a settled job and a layout anew, apart from the job they come of.
func again(l stage.Levelled, settled job.Job, in layout.Layout) stage.Levelled {
	l = l.Apart()
	l.Settled, l.Layout = settled, in
	l.Relevel()
	return l
}
