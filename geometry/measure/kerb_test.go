package measure_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// A shower of 1400 by 900 in the corner, its right and its front open. The tile at the
// drain lies at 108, at the front edge 16.34 higher, at the room 13. A kerb 50 high and
// 100 wide comes to 174.34: 161.34 over the room, 66.34 over the drain. It takes 1400 by
// 100 at the front and 800 by 100 at the right.
//
// Water up to its top stands on 1300 by 800, less nothing, as the drain counts: over the
// strip of 83 along the back 66.34 deep, over the 717 of the plane before the kerb from
// 66.34 to 66.34 − 14.34, 59.17 in the middle.
func TestKerbByHand(t *testing.T) {
	r := evaluated(t, func(j *job.Job) { j.Shower.Kerb = &job.Kerb{HeightMM: 50, WidthMM: 100} })
	got := map[string]float64{}
	for _, m := range r.Measured {
		got[m.Quantity+" "+m.Subject.String()] = m.Value
	}
	for name, want := range map[string]float64{"kerb.over-drain shower-kerb": 66.34, "step.edge open-edge 1, right": 161.34, "step.edge open-edge 2, front": 161.34} {
		if math.Abs(got[name]-want) > 1e-6 {
			t.Errorf("%s is %v, want %v", name, got[name], want)
		}
	}
	w := r.Water.Reserve
	want := 1300 * (83*66.34 + 717*59.17) / 1e6
	if math.Abs(w.SpillMM-174.34) > 1e-6 || math.Abs(w.Litres-want) > 1e-6 || w.Where.Of != rule.SpillsAt {
		t.Errorf("%+v, want %v l to 174.34", w, want)
	}
	// Its body ends at the walls' finish, 13 thick: from the tile, 50 + 16.34 over the
	// drain less what the tile has risen, up to its top.
	for _, p := range r.Assembly.Parts {
		if p.ID != "kerb" {
			continue
		}
		front := 1387.0 * 100 * (50 + 1) // the front's tile rises 2 over its width: 1 less in the middle
		// At the right, from 13 to 800 off the back: 70 level, then 717 that rise 14.34.
		right := 100 * (70*66.34 + 717*59.17)
		if v := p.Mesh().Volume(); math.Abs(v-front-right) > 1 {
			t.Errorf("kerb of %v mm³, want %v", v, front+right)
		}
		return
	}
	t.Error("no kerb is built")
}

// Where there is no open edge, or the whole room falls, a kerb is nothing.
func TestNoKerb(t *testing.T) {
	r := evaluated(t, func(j *job.Job) {
		j.Shower.Kerb, j.Former.Fall = &job.Kerb{HeightMM: 50, WidthMM: 100}, job.FallRoom
	})
	if _, ok := r.Heights.KerbTop(&r.Settled, &r.Layout); ok {
		t.Error("a kerb in a room that falls")
	}
}
