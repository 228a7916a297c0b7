package fit_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/settle"
)

// What is held stays where something else ends a finding: a small shower grows
// deeper, one of a held depth wider. What alone ends it is offered at last, lets go of what
// is held and says so.
func TestRemediesKeepOffWhatIsHeld(t *testing.T) {
	slab := demotest.Rooms(t)[0].Job
	bends := func(j *job.Job) {
		j.Waste.Waypoints = []plan.Point{{500, 1832}, {500, 300}, {300, 300}, {300, 1832}}
	}
	small := func(j *job.Job) {
		j.Region, j.Shower.Screens, j.Drain.LengthMM = "US", nil, 600
		j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM = 1500, 900, 610
	}
	for name, c := range map[string]struct {
		of     job.Job
		change func(*job.Job)
		held   string
		rule   string
		does   string
		letsGo bool
	}{
		"small":            {job.New(), small, "", "us-area", "remedy.shower-depth", false},
		"small, held deep": {job.New(), small, "shower.depthMM", "us-area", "remedy.shower-width", false},
		"bends":            {slab, bends, "", "uk-bends", "remedy.straight", false},
		"held bends":       {slab, bends, "waste.waypoints", "uk-bends", "remedy.straight", true},
		"flat pipe":        {slab, func(j *job.Job) { j.Waste.Gradient = 0.01 }, "waste.exit.offsetMM", "uk-gradient-min-50", "remedy.pipe-fall", false},
		"flat held pipe":   {slab, func(j *job.Job) { j.Waste.Gradient = 0.01 }, "waste.gradient", "uk-gradient-min-50", "remedy.pipe-fall", true},
		"low held base": {job.New(), func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40 }, job.BaseHeightKey, "base-low",
			"remedy.base-height", true},
	} {
		j := c.of.Clone()
		c.change(&j)
		j.SetStanding(c.held, job.Held)
		r := evaluated(t, j)
		f, found := broken(r, c.rule)
		if !found {
			t.Errorf("%s: %s is not broken", name, c.rule)
			continue
		}
		got, _, ok := fit.RemedyOf(r, f)
		if !ok || !strings.Contains(got.Does.String(), c.does) || (len(got.LetsGo) > 0) != c.letsGo {
			t.Errorf("%s: offered %v: %v, lets go of %v", name, ok, got.Does, got.LetsGo)
			continue
		}
		said := slices.ContainsFunc(got.Changes(r, f), func(m message.Message) bool { return m.ID == "remedy.lets-go" })
		after := got.Edit.Apply(j)
		moved := j.Moved(&after, job.Held)
		if said != c.letsGo || !slices.Equal(moved, got.LetsGo) || c.letsGo && after.StandingOf(c.held) != job.Stated {
			t.Errorf("%s: said %v, moved %v, now %q", name, said, moved, after.StandingOf(c.held))
		}
		if s := settle.Do(j, got.Edit); s.Refused != nil || !reflect.DeepEqual(s.Job, after) {
			t.Errorf("%s: the change is settled otherwise: %v", name, s.Refused)
		}
		if !c.letsGo && c.held != "" && after.StandingOf(c.held) != job.Held {
			t.Errorf("%s: %s is no longer held", name, c.held)
		}
	}
}
