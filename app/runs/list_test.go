package runs

import (
	"strings"
	"testing"

	"underfall/app/roomtest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/unit"
)

// What a run asks for stands beside what the job asks for now, so that both add up as they are told; of what there is none
// nothing is said.
func TestWhatARunAsksFor(t *testing.T) {
	roomtest.New(t, roomtest.First(t))
	free := job.Job{Units: unit.Metric}
	run := search.Alternative{Job: free, RaiseMM: 71.6, EdgeStepMM: 111.3, LengthMM: 920, Gradient: 0.025, ExitInvertMM: 4}
	for name, c := range map[string]struct {
		change func(*search.Alternative)
		now    *raised
		want   string
	}{
		"lower": {func(*search.Alternative) {}, &raised{0, 87.4},
			"Base top 72 up · 15 lower than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"higher": {func(*search.Alternative) {}, &raised{0, 70},
			"Base top 72 up · 2 higher than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"as high": {func(*search.Alternative) {}, &raised{0, 71.4},
			"Base top 72 up · as high as now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"over a floor that lies high": {func(*search.Alternative) {}, &raised{2.4, 89.8},
			"Base top 72 up · 16 lower than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"beside nothing": {func(*search.Alternative) {}, nil, "Base top 72 up · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"with all": {func(a *search.Alternative) { a.Bends, a.JoistsCut, a.Advisories, a.EdgeStepMM = 1, 2, 1, 0 }, nil,
			"Base top 72 up · pipe 920 at 1:40 · 1 bend · 2 joists cut · 1 piece of advice on the run · leaves at +4"},
		"let down": {func(a *search.Alternative) { a.RaiseMM = -20 }, &raised{0, -10},
			"Base top 20 down · 10 lower than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
	} {
		a := run
		c.change(&a)
		if got := runDetail(a, free, c.now); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// The best run by each way out stands before a second by any: to the stated exit, then through each wall and into each stack, in
// the order in which the search has them; what stops most runs to the stated exit is said with them.
func TestTheBestByEachWayOutComesFirst(t *testing.T) {
	run := func(of job.Exit, moves bool) search.Alternative {
		return search.Alternative{Job: job.Job{Waste: job.Waste{Exit: of}}, MovesExit: moves}
	}
	wall := func(wall int, mm float64) job.Exit { return job.Exit{Kind: job.ExitWall, Wall: wall, OffsetMM: mm} }
	stack := job.Exit{Kind: job.ExitStack}
	s := search.Outcome{Found: []search.Alternative{run(wall(0, 70), false), run(wall(0, 70), false),
		run(wall(1, 60), true), run(wall(1, 260), true), run(stack, true), run(wall(2, 60), true)}}
	for i, at := range []int{0, 2, 4, 5, 1, 3} {
		if all := listings(s); len(all) != len(s.Found) || all[i].run != &s.Found[at] {
			t.Fatalf("listed %d is not found %d, or not all %d are: %d", i, at, len(s.Found), len(all))
		}
	}
	bare := rule.Rule{ID: "bare"}
	s = search.Outcome{Found: s.Found[2:], Hindrance: &search.Hindrance{Tried: 5, By: []search.Hinder{{Rule: bare, Runs: 4}}}}
	if note := foundNote(s, job.New(), false); !strings.Contains(note.String(), bare.Heading().String()) {
		t.Errorf("what stops runs to the stated exit is not said: %s", note)
	}
	s.Found, s.Relaxations = nil, []search.Relaxation{{}}
	note := foundNote(s, job.New(), false).String()
	if why, leads := strings.Index(note, "run.first-hinder"), strings.Index(note, "run.by-changes"); why < 0 || leads < why {
		t.Errorf("between what leads on to the list and the list stands another thing: %s", note)
	}
}
