package geometry

import (
	"underfall/geometry/measure"
	"underfall/geometry/rule"
)

// Timber is the part of the floor's timbers that a subject is of, by its id; empty where it is of none.
func (r *Result) Timber(of rule.Subject) string {
	for i := range r.Layout.Joists {
		if js := &r.Layout.Joists[i]; measure.IsOf(of, js) {
			return js.ID()
		}
	}
	return ""
}
