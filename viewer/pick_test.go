package viewer

import (
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

// A line of sight to the middle of what stands in a room, seen from straight before it, meets that thing or another before
// it; what the job states, walls and floor are none.
func TestThingsAreFoundBySight(t *testing.T) {
	found := map[job.ThingKind]bool{}
	for _, res := range demotest.Results(t) {
		f := Frame{Scene: NewScene(res, nil), Stage: buildup.StageTile, Width: 300, Height: 200}
		for _, o := range f.Scene.furnished.Objects {
			for _, upMM := range []float64{0, 20, 40} { // between the bars of a radiator as well
				middle := o.Middle().Vec3((o.FromMM+o.ToMM)/2 + upMM)
				from := middle.Add(o.Out.Mul(o.DepthMM/2 + 250).Vec3(120))
				got, ok := f.Thing(from, middle.Sub(from).Normalize())
				if ok && got == o {
					k, is := o.Thing()
					found[k] = is
				}
				if o.Stated && ok && got == o {
					t.Errorf("%s: a stated %s is a thing", res.Settled.Name, o.Kind)
				}
			}
		}
		up := f.Scene.centre
		up[2] += 900
		if got, ok := f.Thing(up, f.Scene.centre.Sub(up).Normalize()); ok {
			t.Errorf("%s: the floor of the shower is %s", res.Settled.Name, got.Kind)
		}
	}
	for _, k := range job.ThingKinds().Choices {
		if !found[k.Value] {
			t.Errorf("no %s is found", k.Value)
		}
	}
}
