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
		"another rule": {func(*job.Job) {}, "reserve", false, ""},
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

// The trap is at (700, 1832), 68 from the back wall. To the left the waste goes straight out; an
// outlet that looks the other way leaves no room for its bends, one that looks at the back wall
// runs into it. To the end of a pipe at (600, 1200), 100 aside, it goes from an outlet that looks
// into the room; the outlet that looks left is 45 from it, where a bend needs more. Turned, the
// run goes together.
func TestOutletIsTurnedTowardsTheExit(t *testing.T) {
	left := job.New().Waste.Exit
	aside := job.Exit{Kind: job.ExitPipe, At: plan.Point{600, 1200}}
	for name, c := range map[string]struct {
		exit  job.Exit
		turns []plan.Point
		deg   float64
		rule  string
		want  float64
		does  message.ID
	}{
		"away from the exit":       {left, nil, 0, "leg-short", 180, "remedy.outlet-left"},
		"at the wall":              {left, nil, 90, "clash-wall", 180, "remedy.outlet-left"},
		"aside":                    {aside, nil, 180, "leg-short", 270, "remedy.outlet-front"},
		"with its turns as stated": {left, []plan.Point{{300, 1832}, {300, 1600}, {100, 1600}, {100, 1832}}, 0, "turn-off", 180, "remedy.outlet-left"},
		"with other turns":         {left, []plan.Point{{780, 1832}, {780, 1600}, {100, 1600}, {100, 1832}}, 0, "leg-short", 180, "remedy.outlet-and-turns"},
	} {
		j := job.New()
		boxing := job.UsualBoxing()
		j.Drain.OutletTurnDeg, j.Waste.Exit, j.Waste.Waypoints, j.Waste.Boxing = c.deg, c.exit, c.turns, &boxing
		measured := 30.0
		j.AsBuilt.OutletInvertMM = &measured
		r := evaluated(t, j)
		f, found := broken(r, c.rule)
		if !found {
			t.Fatalf("%s: nothing to mend", name)
		}
		got, why, ok := fit.RemedyOf(r, f)
		if !ok || !why.IsZero() || got.Does.ID != c.does {
			t.Errorf("%s: offered %v, “%v”, %v", name, ok, got.Does, why)
			continue
		}
		k := got.Edit.Apply(j)
		if k.Drain.OutletTurnDeg != c.want || k.AsBuilt.OutletInvertMM != nil {
			t.Errorf("%s: the outlet looks %v, want %v; measured %v", name, k.Drain.OutletTurnDeg, c.want, k.AsBuilt.OutletInvertMM)
		}
		if again := evaluated(t, k); len(again.Heights.Run.Trouble) > 0 {
			t.Errorf("%s: turned, %v", name, again.Heights.Run.Trouble)
		}
	}
	// An end of a pipe under the trap, which no way reaches.
	j := job.New()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{710, 1820}}
	r := evaluated(t, j)
	f, found := broken(r, "leg-short")
	if !found {
		f, found = broken(r, "turn-off")
	}
	if !found {
		t.Fatal("nothing to mend at the trap")
	}
	if got, why, ok := fit.RemedyOf(r, f); ok || !why.IsZero() {
		t.Errorf("turning is offered where it does not help: “%v”, %v", got.Does, why)
	}
}
