package stage_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// boarded is the starting job on boards of 10 and 60 with 2 to 4 between, 5 wanted
// under trap and pipe, the pipe level so that the trap alone counts, and ±2 each of base,
// bed, former and trap.
func boarded(mode job.HeightMode) job.Job {
	j := job.New()
	j.Base.Height, j.Base.BoardsMM = mode, []float64{10, 60}
	j.Drain.BedUnderMM, j.Waste.ClearUnderMM, j.Waste.Gradient = 5, 5, 0
	j.Tolerances = job.Tolerances{BaseMM: 2, BedMM: 2, FormerMM: 2, TrapMM: 2}
	return j
}

// By hand: the trap, 95 deep under a former of 20 on a bed of 3, asks for the base's top
// at 72, at 77 with 5 under it. Over the bed of 3 that is 74: 60 + 10 with 4 between. It
// fits in as many builds as a normal value of mean −5 and deviation √4 lies under nought:
// 99.38 of 100; bare in half of them.
func TestRaisesByHand(t *testing.T) {
	for _, mode := range []job.HeightMode{job.HeightBare, job.HeightBuildable, job.HeightSafe} {
		l := place(boarded(mode), rule.Pack{}).Level()
		r := l.Raises()
		near(t, "bare", r.Bare.TopMM, 72)
		near(t, "buildable", r.Buildable.TopMM, 77)
		near(t, "safe", r.Safe.TopMM, 77)
		near(t, "between", r.Safe.Stack.BetweenMM, 4)
		if b := r.Buildable.Stack.BoardsMM(); len(b) != 2 || b[0] != 60 || b[1] != 10 || !r.Buildable.Given || r.Bare.Given {
			t.Errorf("%s: built of %v, given %v, bare %v", mode, b, r.Buildable.Given, r.Bare.Given)
		}
		for name, c := range map[string][2]float64{"bare": {r.Bare.Fits, 0.5}, "buildable": {r.Buildable.Fits, 0.9938}, "safe": {r.Safe.Fits, 0.9938}} {
			if math.Abs(c[0]-c[1]) > 0.001 {
				t.Errorf("%s: %s fits in %v, want %v", mode, name, c[0], c[1])
			}
		}
		want := map[job.HeightMode]float64{job.HeightBare: 72, job.HeightBuildable: 77, job.HeightSafe: 77}[mode]
		near(t, string(mode), l.Heights.BaseTopMM, want)
		near(t, "now", r.Now.TopMM, want)
		if r.SetBy.Reason().Message().ID != "bound.trap-on-floor" || r.SetBy.ClearMM != 5 {
			t.Errorf("set by %+v", r.SetBy)
		}
	}
}

// Without room wanted under the trap the buildable height is 72 over boards of 69 to be:
// 72 are 60 + 10 with 2 between, at 75, 3 over what is needed: 1.5 deviations, 93.32 of
// 100, which is not safe. That takes 1.645·2 = 3.29 over 72: 75.29, so 72.29 over the
// bed, which 60 + 10 with 2.5 between give at 75.5.
func TestSafeIsHigherThanBuildable(t *testing.T) {
	j := boarded(job.HeightSafe)
	j.Drain.BedUnderMM, j.Waste.ClearUnderMM = 0, 0
	l := place(j, rule.Pack{}).Level()
	r := l.Raises()
	near(t, "buildable", r.Buildable.TopMM, 75)
	near(t, "safe", r.Safe.TopMM, 75.5)
	near(t, "the base", l.Heights.BaseTopMM, 75.5)
	near(t, "bed between", l.Heights.Stack.BetweenMM, 2.5)
	if math.Abs(r.Buildable.Fits-0.9332) > 0.001 || r.Safe.Fits < 0.95 {
		t.Errorf("fits in %v, safe in %v", r.Buildable.Fits, r.Safe.Fits)
	}
	// A buildable base stays where it is.
	j.Base.Height = job.HeightBuildable
	near(t, "buildable base", place(j, rule.Pack{}).Level().Heights.BaseTopMM, 75)
}

// Boards that do not come so high give no height, and the base has what is needed.
func TestNoBoardsGiveIt(t *testing.T) {
	j := boarded(job.HeightBuildable)
	j.Base.BoardsMM = []float64{10}
	l := place(j, rule.Pack{}).Level()
	near(t, "base", l.Heights.BaseTopMM, 77)
	if r := l.Raises(); r.Buildable.Given || r.Now.Given || len(l.Heights.Stack.BoardsMM()) > 0 {
		t.Errorf("given: %+v", r)
	}
	// Of a height that no boards give nothing is said to be safe.
	if got := l.HeightLines(l.Raises())[2].String(); got != "heights.safe-none" {
		t.Errorf("a safe height that nothing gives: %s", got)
	}
}

// What the heights say, and when sampling says otherwise.
func TestHeightLines(t *testing.T) {
	l := place(boarded(job.HeightSafe), rule.Pack{}).Level()
	lines := l.HeightLines(l.Raises())
	want := []string{"heights.bare{bare: 72 mm up, by: bound.trap-on-floor}",
		"heights.buildable-clear{made: heights.as-boards-with-beds{raise: 77 mm up, boards: heights.plus{first: 60 mm, rest: heights.length{length: 10 mm}}, " +
			"beds: heights.plus{first: 3 mm, rest: heights.length{length: 4 mm}}}, by: bound.trap-on-floor, clear: 5 mm}",
		"heights.safe-as-it-is{share: heights.about{n: 99}}"}
	said := make([]string, len(lines))
	for i, m := range lines {
		said[i] = m.String()
	}
	if !slices.Equal(said, want) {
		t.Errorf("it says %v, want %v", said, want)
	}
	bare := place(boarded(job.HeightBare), rule.Pack{}).Level()
	if lines := bare.HeightLines(bare.Raises()); len(lines) != 4 ||
		lines[3].String() != "heights.now{made: heights.not-given{raise: 72 mm up}, share: heights.about{n: 50}}" &&
			lines[3].String() != "heights.now{made: heights.not-given{raise: 72 mm up}, share: heights.about{n: 49}}" {
		t.Errorf("it says %v", lines)
	}
	j := boarded(job.HeightSafe)
	j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
	letIn := place(j, rule.Pack{}).Level()
	if got := letIn.HeightLines(letIn.Raises())[1].Args[0].Value.String(); got != "heights.on-joists{raise: -22 mm up}" {
		t.Errorf("let in it says %s", got)
	}
	// A screed of 50 that stays and 5 of levelling under the base are in its height, and said.
	j = boarded(job.HeightSafe)
	j.Floor.Existing = []job.Existing{{Kind: job.ExistingScreed, ThicknessMM: 50, Out: job.OutNowhere}}
	j.Base.Under = []job.Course{{Kind: job.CourseLevelling, Layer: job.Layer{ThicknessMM: 5}}}
	layered := place(j, rule.Pack{}).Level()
	if got := layered.HeightLines(layered.Raises())[1].Args[0].Value.String(); got != "heights.on-layers{made: heights.as-boards-with-beds{raise: 132 mm up, "+
		"boards: heights.plus{first: 60 mm, rest: heights.length{length: 10 mm}}, beds: heights.plus{first: 3 mm, rest: heights.length{length: 4 mm}}}, under: 55 mm}" {
		t.Errorf("over layers it says %s", got)
	}
	// From a slab set down by 40 it comes up as far.
	j = boarded(job.HeightSafe)
	j.Floor.Kind, j.Floor.SetDownMM = job.FloorSlab, 40
	down := place(j, rule.Pack{}).Level()
	if got := down.HeightLines(down.Raises())[1].Args[0].Value.String(); !strings.HasPrefix(got, "heights.from-set-down{made: heights.as-boards-with-beds{raise: 77 mm up") || !strings.HasSuffix(got, "down: 40 mm}") {
		t.Errorf("from a set-down it says %s", got)
	}
	for _, c := range []struct {
		estimated, counted float64
		want               string
	}{{0.97, 0.96, ""}, {0.97, 0.94, "heights.not-safe-after-all"}, {0.95, 0.9499, "heights.not-safe-after-all"}, {0.94, 0.951, "heights.safe-after-all"}, {0.2, 0.3, ""}} {
		r := stage.Raises{Now: stage.Raise{TopMM: 90, Fits: c.estimated}, Safe: stage.Raise{TopMM: 80}}
		if got := r.Sampled(c.counted); got.String() != c.want {
			t.Errorf("estimated %v, counted %v: %s, want %s", c.estimated, c.counted, got, c.want)
		}
	}
}

// A height at which trap and pipe fit in 95 of 100 builds is called safe only as long as no count of builds says otherwise: then
// its own line says that it is not, and no other says it again.
func TestWhatDoesNotComeRightIsNotCalledSafe(t *testing.T) {
	higher := func(mode job.HeightMode) job.Job { // whose safe base lies over its buildable one
		j := boarded(mode)
		j.Drain.BedUnderMM, j.Waste.ClearUnderMM = 0, 0
		return j
	}
	for _, c := range []struct {
		job     job.Job
		counted float64
		want    message.ID
		again   message.ID
	}{
		{boarded(job.HeightSafe), 0.95, "heights.safe-as-it-is", ""},
		{boarded(job.HeightSafe), 0.60, "heights.room-as-it-is", ""},
		{higher(job.HeightSafe), 0.95, "heights.safe", ""},
		{higher(job.HeightSafe), 0.60, "heights.room", ""},
		{higher(job.HeightBuildable), 0.60, "heights.safe", ""}, // what is counted is another height
		{higher(job.HeightBuildable), 0.97, "heights.safe", "heights.safe-after-all"},
	} {
		l := place(c.job, rule.Pack{}).Level()
		r := l.Raises()
		if line := l.HeightLines(r.As(c.counted))[2]; line.ID != c.want {
			t.Errorf("%s, counted %v: %s", c.job.Base.Height, c.counted, line)
		}
		if again := r.Sampled(c.counted); again.ID != c.again {
			t.Errorf("%s, counted %v: said again as %s", c.job.Base.Height, c.counted, again)
		}
	}
}
