package fit_test

import (
	"testing"

	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// A pipe that lies bare beside the shower can be boxed in, unless the box would stand before
// the doorway, 1500 to 2260 along the front wall; what is told with it is what the box asks
// for. One that lies without a fall besides is boxed in none the less.
func TestBoxIsOfferedWhereItHelps(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		rule   string
		ok     bool
		why    message.ID
	}{
		"along the wall": {func(*job.Job) {}, "pipe-exposed", true, ""},
		"without a fall": {func(j *job.Job) { j.Waste.Gradient = 0 }, "pipe-exposed", true, ""},
		"across a doorway": {func(j *job.Job) {
			j.Waste.Waypoints, j.Waste.Exit = []plan.Point{{1800, 1832}}, job.Exit{Kind: job.ExitPipe, At: plan.Point{1800, 200}}
		}, "pipe-exposed", false, "remedy.not-boxed"},
		"another rule": {func(j *job.Job) { j.Waste.Gradient = 0 }, "backfall", false, ""},
	} {
		j := job.New()
		j.Drain.OutletTurnDeg, j.Waste.Exit = 0, job.Exit{Kind: job.ExitPipe, At: plan.Point{2300, 1832}}
		c.change(&j)
		r := evaluated(t, j)
		f, found := broken(r, c.rule)
		if !found {
			t.Fatalf("%s: nothing to mend", name)
		}
		got, why, ok := fit.RemedyOf(r, f)
		if ok != c.ok || why.ID != c.why {
			t.Errorf("%s: offered %v, %v", name, ok, why)
		}
		if !ok {
			continue
		}
		if b := got.Edit.Apply(j).Waste.Boxing; b == nil || *b != job.UsualBoxing() {
			t.Errorf("%s: %+v", name, b)
		}
		if asks := got.Asks(); len(asks) != 1 || asks[0].Rule.ID != "pipe-boxed" || asks[0].Rule.Severity != rule.Advice {
			t.Errorf("%s: asks %v", name, asks)
		}
		if f, still := broken(got.After, "pipe-exposed"); still {
			t.Errorf("%s: %v still bare", name, f.Measurement.Value)
		}
	}
}
