package geometry_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Beside the level of the way out stands what was stated of it: nothing while it is open, or assumed.
func TestTheWayOutTellsWhatWasStated(t *testing.T) {
	line := func(j job.Job) message.Message {
		r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		for _, f := range r.Figures() {
			if f.Of.ID == "figure.way-out" {
				return f.Line
			}
		}
		t.Fatal("no way out", r.Problems)
		return message.Message{}
	}
	open := job.New()
	plain := line(open).String()
	exactly := edit.ExitLevel(job.Exactly(-100)).Apply(open)
	assumed := exactly.Clone()
	assumed.Standings = map[string]job.Standing{job.ExitLevelKey: job.Assumed}
	for name, c := range map[string]struct {
		j    job.Job
		want string
	}{
		"open":    {open, "figure.through-wall"},
		"stated":  {exactly, "figure.way-stated{line: " + plain + ", level: -100 mm over the datum}"},
		"least":   {edit.ExitLevel(job.NotBelow(-100)).Apply(open), "figure.way-least{line: " + plain + ", level: -100 mm over the datum}"},
		"assumed": {assumed, plain},
	} {
		if got := line(c.j); got.String() != c.want && string(got.ID) != c.want {
			t.Errorf("%s: %s, not %s", name, got, c.want)
		}
	}
}
