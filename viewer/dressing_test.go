package viewer

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A head too close to the walls for an arm hangs from the ceiling: from a sloping one where
// that is the lower. The back wall is at y = 1900; 100 from it a ceiling that rises at 45°
// from 2200 is at 2300, and the level one stays at 2400.
func TestTheHeadHangsFromTheCeilingOverIt(t *testing.T) {
	for _, c := range []struct {
		slopes []job.Slope
		top    float64
	}{{nil, 2400}, {[]job.Slope{{Wall: 2, KneeMM: 2200, PitchDeg: 45}}, 2300}} {
		j := demotest.Rooms(t)[0].Job.Clone()
		j.Room.Slopes, j.Shower.Head = c.slopes, &job.Head{At: plan.Point{100, 1800}, HeightMM: 2000}
		r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		f, _ := fittings(r)
		top := math.Inf(-1)
		for i := 2; i < len(f.vertices); i += 6 {
			top = math.Max(top, float64(f.vertices[i]))
		}
		if math.Abs(top-c.top) > 1e-6 {
			t.Errorf("%v: it hangs from %v, want %v", c.slopes, top, c.top)
		}
	}
}
