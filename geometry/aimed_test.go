package geometry_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/asbuilt"
	"underfall/geometry/demotest"
)

// Whoever builds to a level that is aimed at has nothing to do otherwise: of every demo, each level measured as aimed leaves all levels
// as they are, asks for what was planned, and contradicts nothing.
func TestBuiltAsAimedChangesNothing(t *testing.T) {
	measured := 0
	for _, r := range demotest.Shown(t) {
		for i, mm := range asbuilt.Aimed(&r.Layout, &r.Heights) {
			j := r.Stated.Clone()
			if math.IsNaN(mm) {
				continue
			}
			measured++
			field := j.AsBuilt.Levels()[i]
			*field.MM = &mm
			built := geometry.Evaluate(j, r.Pack)
			if len(built.Problems)+len(built.Contradictions) > 0 {
				t.Errorf("%s, %s at %v: %v %v", r.Stated.Name, field.Field, mm, built.Problems, built.Contradictions)
				continue
			}
			for k, now := range asbuilt.Aimed(&built.Layout, &built.Heights) {
				if was := asbuilt.Aimed(&r.Layout, &r.Heights)[k]; math.Abs(now-was) > 1e-6 {
					t.Errorf("%s, %s at %v: level %d moves from %v to %v", r.Stated.Name, field.Field, mm, k, was, now)
				}
			}
			for _, do := range built.DoNow {
				if math.Abs(do.Value-do.Planned) > 1e-6 {
					t.Errorf("%s, %s at %v: %s %v instead of %v", r.Stated.Name, field.Field, mm, do.What, do.Value, do.Planned)
				}
			}
		}
	}
	if measured < 40 {
		t.Errorf("only %d levels are aimed at", measured)
	}
}
