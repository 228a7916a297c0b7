package plan_test

import (
	"slices"
	"testing"

	"underfall/geometry/plan"
)

// What is taken may lie before, across, within, over all, past or beside.
func TestWithout(t *testing.T) {
	from := []plan.Interval{{From: 0, To: 10}, {From: 20, To: 30}}
	for name, c := range map[string]struct{ take, want []plan.Interval }{
		"nothing":  {nil, from},
		"before":   {[]plan.Interval{{From: -5, To: 0}}, from},
		"across":   {[]plan.Interval{{From: 5, To: 25}}, []plan.Interval{{From: 0, To: 5}, {From: 25, To: 30}}},
		"within":   {[]plan.Interval{{From: 2, To: 3}}, []plan.Interval{{From: 0, To: 2}, {From: 3, To: 10}, {From: 20, To: 30}}},
		"over all": {[]plan.Interval{{From: -1, To: 40}}, nil},
		"two":      {[]plan.Interval{{From: 0, To: 4}, {From: 3, To: 22}}, []plan.Interval{{From: 22, To: 30}}},
	} {
		if got := plan.Without(from, c.take); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
