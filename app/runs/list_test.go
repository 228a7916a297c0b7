package runs

import (
	"testing"

	"underfall/app/roomtest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/unit"
	"underfall/geometry/ways"
)

// What a run asks for stands beside what the job asks for now, so that both add up as they are told; of what there is none
// nothing is said.
func TestWhatARunAsksFor(t *testing.T) {
	roomtest.New(t, roomtest.First(t))
	free := job.Job{Units: unit.Metric}
	run := search.Alternative{Job: free, RaiseMM: 71.6, EdgeStepMM: 111.3, LengthMM: 920, Gradient: 0.025, ExitInvertMM: 4}
	for name, c := range map[string]struct {
		change func(*search.Alternative)
		now    *ways.Raised
		want   string
	}{
		"lower": {func(*search.Alternative) {}, &ways.Raised{FloorMM: 0, TopMM: 87.4},
			"Base top 72 up · 15 lower than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"higher": {func(*search.Alternative) {}, &ways.Raised{FloorMM: 0, TopMM: 70},
			"Base top 72 up · 2 higher than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"as high": {func(*search.Alternative) {}, &ways.Raised{FloorMM: 0, TopMM: 71.4},
			"Base top 72 up · as high as now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"over a floor that lies high": {func(*search.Alternative) {}, &ways.Raised{FloorMM: 2.4, TopMM: 89.8},
			"Base top 72 up · 16 lower than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"beside nothing": {func(*search.Alternative) {}, nil, "Base top 72 up · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"lower by less than is read": {func(*search.Alternative) {}, &ways.Raised{FloorMM: 0, TopMM: 72.2},
			"Base top 72 up · as high as now · step 111 · pipe 920 at 1:40 · leaves at +4"},
		"with all": {func(a *search.Alternative) { a.Bends, a.JoistsCut, a.Advisories, a.EdgeStepMM = 1, 2, 1, 0 }, nil,
			"Base top 72 up · pipe 920 at 1:40 · 1 bend · 2 joists cut · 1 piece of advice on the run · leaves at +4"},
		"off the middle of its joists": {func(a *search.Alternative) {
			a.JoistsCut, a.Unkept = 2, []search.Unkept{{Rule: &rule.Rule{ID: "uk-hole-axis"}, Cuts: 2}}
		}, nil,
			"Base top 72 up · step 111 · pipe 920 at 1:40 · 2 joists cut · a limit not kept in 2 cuts: Hole off the middle of the joist · leaves at +4"},
		"flat as that costs": {func(a *search.Alternative) { a.Gradient, a.Flat = 0.02, &search.Flat{Fall: 0.025, HigherMM: 7} }, nil,
			"Base top 72 up · step 111 · pipe 920 at 1:50 · at 1:40 the base would come 7 higher · leaves at +4"},
		"flat as that stops": {func(a *search.Alternative) {
			a.Gradient, a.Flat = 0.02, &search.Flat{Fall: 0.025, HigherMM: 7, Stops: &rule.Rule{ID: "leg-short"}}
		}, nil,
			"Base top 72 up · step 111 · pipe 920 at 1:50 · not at 1:40: No room for the fittings · leaves at +4"},
		"let down": {func(a *search.Alternative) { a.RaiseMM = -20 }, &ways.Raised{FloorMM: 0, TopMM: -10},
			"Base top 20 down · 10 lower than now · step 111 · pipe 920 at 1:40 · leaves at +4"},
	} {
		a := run
		c.change(&a)
		if got := detail(a, free, c.now); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
