package geometry_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

// The rods show the levels that everything else tells, layer on layer, and the step is the
// difference of its two rods but over a kerb.
func TestRods(t *testing.T) {
	seen := map[geometry.RodOf]bool{}
	for _, r := range demotest.Shown(t) {
		name := r.Settled.Name
		rods, steps := r.Rods()
		if rods[0].Of != geometry.RodDrain || math.Abs(rods[0].LevelMM-r.Heights.TileMM) > 0.02 {
			t.Errorf("%s: the drain's rod is %+v, the tile there is at %.2f", name, rods[0], r.Heights.TileMM)
		}
		for _, rod := range rods {
			seen[rod.Of] = true
			for i := 1; i < len(rod.Layers); i++ {
				if math.Abs(rod.Layers[i].BottomMM-rod.Layers[i-1].TopMM) > 1e-6 {
					t.Errorf("%s: %s: layer %d begins at %.3f, the one below ends at %.3f", name, rod.Of, i,
						rod.Layers[i].BottomMM, rod.Layers[i-1].TopMM)
				}
			}
			if n := len(rod.Layers); n > 0 && math.Abs(rod.Layers[n-1].TopMM-rod.LevelMM) > 1e-6 {
				t.Errorf("%s: %s: the layers end at %.3f, the level is %.3f", name, rod.Of, rod.Layers[n-1].TopMM, rod.LevelMM)
			}
		}
		for _, s := range steps {
			if rods[s.To].Of == geometry.RodWayIn && r.Settled.Shower.Kerb != nil {
				continue
			}
			if got := rods[s.To].LevelMM - rods[s.From].LevelMM; math.Abs(got-s.MM) > 0.5 && r.Settled.Room.Edge != job.EdgeRamp {
				t.Errorf("%s: from %s to %s it rises %.2f by the rods, %.2f by the answer", name, rods[s.From].Of, rods[s.To].Of, got, s.MM)
			}
		}
	}
	for _, of := range []geometry.RodOf{geometry.RodWayIn, geometry.RodRoom, geometry.RodDoorway, geometry.RodBeyond} {
		if !seen[of] {
			t.Errorf("no demo has a rod of %s", of)
		}
	}
}

// A job that could not be worked out has no rods.
func TestNoRods(t *testing.T) {
	r := demotest.Shown(t)[0]
	r.Problems = job.Problems{{Key: "room"}}
	if rods, steps := r.Rods(); len(rods)+len(steps) > 0 {
		t.Fatalf("%d rods and %d steps", len(rods), len(steps))
	}
}
