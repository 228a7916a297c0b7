package search_test

import (
	"slices"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// Where the whole room comes up to fall to the drain its door meets it, whichever way the run goes: that is told beside the runs found,
// and nothing else stops one of them.
func TestADoorThatMeetsTheFloorIsToldBesideTheRuns(t *testing.T) {
	all := demotest.Shown(t)
	i := slices.IndexFunc(all, func(r geometry.Result) bool { return strings.HasPrefix(r.Stated.Name, "Loft") })
	j := all[i].Stated.Clone()
	j.Former.Fall = job.FallRoom
	s := find(t, j, search.UsualExits(j, 600), search.UsualGrid())
	if len(s.Found) == 0 || !slices.ContainsFunc(s.Besides, func(f rule.Finding) bool { return f.Rule.ID == "door-leaf" }) {
		t.Fatalf("%d found, besides %v", len(s.Found), s.Besides)
	}
	for _, a := range s.Found {
		for _, c := range geometry.Evaluate(a.Change.Apply(j), demotest.Packs(t)[j.Region]).Answer(nil).Of(rule.Stop) {
			if !slices.ContainsFunc(s.Besides, func(f rule.Finding) bool { return f.Rule.ID == c.Worst().Rule.ID }) {
				t.Errorf("%v stops a run that was found, and is not told", c.Worst().Rule.ID)
			}
		}
	}
}
