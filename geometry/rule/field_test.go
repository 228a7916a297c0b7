package rule_test

import (
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// What a measurement is of is a parameter, an entry of a list, one of the lists that are written
// in one line, the way outside, or what was measured of the room; of a doorway the one that is meant.
func TestFieldsAreThere(t *testing.T) {
	fields := 0
	for quantity := range rule.Quantities() {
		m := rule.Measurement{Quantity: quantity, Subject: rule.Subject{Of: rule.Doorway, Number: 2}}
		field := m.Field()
		if field == "" {
			continue
		}
		fields++
		if _, ok := job.Find(field); ok || slices.Contains([]string{"floor.joists.supportsMM", "water.showerFlowsLPS", "waste.beyond", "room.tape.lengths"}, field) {
			continue
		}
		l, i, entry, ok := job.InList(field)
		if !ok || !slices.ContainsFunc(l.Entries(), func(e job.Entry) bool { return e.Key == entry }) || l.Key == "room.doorways" && i != 1 {
			t.Errorf("%s: there is no %s", quantity, field)
		}
	}
	if fields != 25 {
		t.Errorf("%d quantities have a field", fields)
	}
	if key := (rule.Measurement{Quantity: "clash.joist-gap"}).Field(); key != "" {
		t.Errorf("a clash is of %s", key)
	}
}
