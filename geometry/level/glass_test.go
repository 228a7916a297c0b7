package level_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/plan"
)

// The pane of the starting job runs along x = 1378 from y = 1887 to 1045, 4 over the tile:
// that lies at 108 up to y = 1817 and rises by 1:50 from there, 15.44 in all. On a kerb of
// 60, over 124.34, it is level.
func TestGlassIsCutToTheFloor(t *testing.T) {
	j := job.New()
	l, h := solve(j)
	g := h.GlassOf(&j, &l, &l.Screens[0])
	want := []level.GlassPlace{{At: plan.Point{1378, 1887}, LevelMM: 112}, {At: plan.Point{1378, 1817}, LevelMM: 112}, {At: plan.Point{1378, 1045}, LevelMM: 127.44}}
	if len(g.Foot) != len(want) {
		t.Fatalf("its foot is %v, want %v", g.Foot, want)
	}
	for i, p := range g.Foot {
		if p.At.Sub(want[i].At).Len() > 1e-9 || math.Abs(p.LevelMM-want[i].LevelMM) > 1e-9 {
			t.Errorf("place %d of its foot is %v, want %v", i+1, p, want[i])
		}
	}
	near(t, "drop", g.DropMM(), 15.44)
	near(t, "height", g.TallMM(), 2011.44)
	for y, levelMM := range map[float64]float64{2000: 112, 1887: 112, 1850: 112, 1817: 112, 1767: 113, 1045: 127.44, 900: 127.44} {
		near(t, "its lower edge", g.LevelAt(plan.Point{0, y}), levelMM)
	}
	j.Shower.Kerb = &job.Kerb{HeightMM: 60, WidthMM: 100}
	l, h = solve(j)
	g = h.GlassOf(&j, &l, &l.Screens[0])
	near(t, "drop on a kerb", g.DropMM(), 0)
	near(t, "foot on a kerb", g.Lowest().LevelMM, 124.34+60+4)
}
