package geometry_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// What cannot be, taken together, is refused with a sentence about its place in the job or
// found by a rule; and the job that says so is kept as it was said.
func TestWhatCannotBeIsSaid(t *testing.T) {
	stackAt := func(x, y float64) func(*job.Job) {
		return func(j *job.Job) { j.Room.Stacks = []job.Stack{{At: plan.Point{x, y}, NominalMM: 110, OutsideMM: 110}} }
	}
	window := func(wall int, w job.Window) func(*job.Job) {
		return func(j *job.Job) { w.Wall = wall; j.Room.Windows = []job.Window{w} }
	}
	headAt := func(x, y float64) func(*job.Job) {
		return func(j *job.Job) { j.Shower.Head = &job.Head{At: plan.Point{x, y}, HeightMM: 2000} }
	}
	kerb := func(change func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) { j.Shower.Kerb = &job.Kerb{HeightMM: 50, WidthMM: 100}; change(j) }
	}
	for name, c := range map[string]struct {
		change        func(*job.Job)
		problem, rule string
	}{
		"a screen wider than its opening": {func(j *job.Job) { j.Shower.Screens[0].WidthMM = 1000 }, "", "screen-place"},
		"a stack far off, and the waste into it": {func(j *job.Job) {
			stackAt(-20000, 5000)(j)
			j.Waste.Exit = job.Exit{Kind: job.ExitStack}
		}, "", "uk-length-50"},
		"the waste into a stack that is not": {func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitStack} }, "waste.exit.stack", ""},
		"a stack in the shower":              {stackAt(700, 1400), "", "stack-in-shower"},
		"a ceiling down to the floor":        {func(j *job.Job) { j.Room.Slopes = []job.Slope{{Wall: 2, PitchDeg: 30}} }, "", "ceiling-meets-floor"},
		"a ramp into a wall":                 {func(j *job.Job) { rampOf("UK")(j, 1100) }, "", "ramp-room"},
		"a window in a doorway":              {window(0, job.Window{OffsetMM: 1600, WidthMM: 300, HeightMM: 500}), "room.windows[0]", ""},
		"a window past its wall":             {window(1, job.Window{OffsetMM: 1700, WidthMM: 300, HeightMM: 500}), "room.windows[0].offsetMM", ""},
		"a window over the ceiling":          {window(1, job.Window{OffsetMM: 600, WidthMM: 300, SillMM: 2300, HeightMM: 500}), "", "window-ceiling"},
		"a head outside the shower":          {headAt(2000, 400), "", "head-outside"},
		"a head outside the room":            {headAt(-4000, 400), "shower.head.at", ""},
		"a kerb where the whole room falls":  {kerb(func(j *job.Job) { j.Former.Fall = job.FallRoom }), "", "kerb-idle"},
		"a kerb without an open edge": {kerb(func(j *job.Job) {
			j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM = 0, 2400, 1900
		}), "", "kerb-idle"},
		"a kerb wider than the shower is deep": {kerb(func(j *job.Job) { j.Shower.DepthMM, j.Shower.Kerb.WidthMM = 350, 400 }), "", "kerb-drain"},
		"a fixture in the shower":              {func(j *job.Job) { atWall(j, 3, 100, 400, 400) }, "", "fixture-shower"},
		"a fixture past its wall":              {func(j *job.Job) { atWall(j, 0, 2200, 400, 400) }, "room.fixtures[0].offsetMM", ""},
		"a pump outside":                       {func(j *job.Job) { intoPump(j, -900, 0.4) }, "", "pump-place"},
		"a drain sold only longer than its side": {func(j *job.Job) {
			j.Drain.LengthMM, j.Drain.SoldLengthsMM = 0, []float64{1500}
		}, "drain.offsetMM", ""},
		"a side with no room for any drain": {func(j *job.Job) {
			j.Drain.LengthMM, j.Drain.WallClearanceMM, j.Shower.OffsetMM, j.Shower.WidthMM = 0, 200, 2000, 400
		}, "", "drain-room"},
		"a slab set down through itself": {func(j *job.Job) { j.Floor.SetDownMM = 150 }, "floor.setDownMM", ""},
		"a layer of nothing":             {func(j *job.Job) { j.Base.Under = []job.Course{{Kind: job.CourseLevelling}} }, "", "course-nothing"},
		"a vent past the end":            {func(j *job.Job) { j.Waste.Vent = &job.Vent{AtMM: 5000, NominalMM: 32} }, "", "vent-past"},
	} {
		t.Run(name, func(t *testing.T) {
			j := demo(t, slab)
			c.change(&j)
			r := geometry.Evaluate(j, packs(t)[j.Region])
			raised := map[string]bool{}
			for _, f := range r.Findings {
				raised[f.Rule.ID] = true
			}
			places := map[string]bool{}
			for _, p := range r.Problems {
				places[p.Key] = true
			}
			switch {
			case c.problem != "" && !places[c.problem]:
				t.Errorf("no word on %s, only %v", c.problem, r.Problems)
			case c.rule != "" && (!raised[c.rule] || len(r.Problems) > 0):
				t.Errorf("%s is not found: %v", c.rule, r.Problems)
			case c.rule != "":
				demotest.Inspect(t, r)
			}
			if diff := cmp.Diff(j, r.Stated); diff != "" {
				t.Errorf("the job is changed:\n%s", diff)
			}
			kept(t, j, c.problem != "")
		})
	}
}

// kept fails unless a job comes back from its file as it was; one that is refused is
// refused there as well.
func kept(t *testing.T, j job.Job, refused bool) {
	t.Helper()
	text, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	back, err := job.Parse(text)
	if (err != nil) != refused {
		t.Errorf("from its file: %v", err)
	}
	if err == nil {
		if diff := cmp.Diff(j, back); diff != "" {
			t.Errorf("from its file:\n%s", diff)
		}
	}
}
