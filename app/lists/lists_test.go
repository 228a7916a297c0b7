package lists

import (
	"strings"
	"testing"

	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/rule"
)

// What has been measured shows as an instruction. The first job that Underfall comes with has
// 3 mm of bed, so a base 2 mm too low asks for 5 mm.
func TestAsBuiltSaysWhatToDo(t *testing.T) {
	roomtest.British(t)
	first := demotest.Shown(t)[0]
	l := NewLevels(control.NewKeys(), func(buildup.Row) {})
	j := first.Stated.Clone()
	top := first.Heights.BaseTopMM - 2
	j.AsBuilt.BaseTopMM = &top
	l.Show(geometry.Evaluate(j, first.Pack))
	if !l.now.Visible() || !strings.Contains(l.now.Text, "Bed under the former 5 mm instead of 3 mm") {
		t.Errorf("a low base is answered by %q", l.now.Text)
	}
	low := top - 30
	j.AsBuilt.FormerAtDrainMM = &low
	l.Show(geometry.Evaluate(j, first.Pack))
	if !strings.Contains(l.now.Text, "Measure again") {
		t.Errorf("levels that cannot both be are answered by %q", l.now.Text)
	}
	l.Show(first)
	if l.now.Visible() {
		t.Errorf("nothing is measured, yet it says %q", l.now.Text)
	}
}

// A line of the checks goes to its place and tells where its limit is from.
func TestAChosenCheckTellsItsSource(t *testing.T) {
	roomtest.British(t)
	for _, r := range demotest.Shown(t) {
		var at *rule.Check
		c := NewChecks(control.NewKeys(), func(k rule.Check) { at = &k })
		c.Show(r)
		if len(c.checks) == 0 {
			t.Fatalf("%s: nothing was held against a limit", r.Stated.Name)
		}
		for i, k := range c.checks {
			c.list.OnSelected(i)
			if at == nil || at.Key() != k.Key() {
				t.Errorf("%s: %s does not go to its place", r.Stated.Name, k.Key())
			}
			if document := k.Rule.Source.Document; !strings.Contains(c.detail.Text, document) {
				t.Errorf("%s: %s says %q without %q", r.Stated.Name, k.Key(), c.detail.Text, document)
			}
		}
	}
}
