package fit_test

import (
	"math"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/fit"
)

// Joists of 245 that span 2000 along the room have holes 500 to 800 from a support. The waste crosses them 68 from one: it is laid
// 432 further on. Where the supports lie 900 and 1100 off the nearest place with room is 800 from the other, 300 further on; the
// trap cannot go there with it, so the outlet is turned that way. All joists crossed are then free of it, and the job stands no worse.
func TestACrossingIsMovedAlongItsJoist(t *testing.T) {
	for name, c := range map[string]struct {
		offMM        float64 // the support that it is nearest to, from the crossing
		rule         string
		fromMM, exit float64
	}{
		"too near a support": {68, "uk-hole-zone-min", 500, 68 + 432},
		"too near mid-span":  {900, "uk-hole-zone-max", 800, 68 + 300},
	} {
		j := demotest.Rooms(t)[2].Job.Clone()
		demotest.AcrossJoists(&j, 150)
		j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.DepthMM = 100, 245
		j.Floor.Joists.SupportsMM = []float64{68 - c.offMM, 2068 - c.offMM}
		r := evaluated(t, j)
		f, found := broken(r, c.rule)
		if !found {
			t.Fatalf("%s: nothing to mend", name)
		}
		got, why, ok := fit.RemedyOf(r, f)
		if !ok {
			t.Errorf("%s: nothing is offered: %v", name, why)
			continue
		}
		after := got.Edit.Apply(j)
		if math.Abs(after.Waste.Exit.OffsetMM-c.exit) > 1e-6 || got.Worse {
			t.Errorf("%s: %v has it leave at %v, want %v; worse %v", name, got.Does, after.Waste.Exit.OffsetMM, c.exit, got.Worse)
		}
		if _, still := broken(got.After, c.rule); still || len(got.After.Joists) == 0 {
			t.Errorf("%s: still there, with %d joists crossed", name, len(got.After.Joists))
		}
		for _, x := range got.After.Joists {
			if math.Abs(x.SupportMM-c.fromMM) > 1e-6 {
				t.Errorf("%s: %v crosses %v from a support, want %v", name, got.Does, x.SupportMM, c.fromMM)
			}
		}
	}
}
