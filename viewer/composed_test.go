package viewer_test

import (
	"fmt"
	"math"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/plan"
	"underfall/viewer"
)

// In the customer's picture of every demo the shower stands in the middle and takes a good part of it, its floor and its drain are
// seen past what stands in the room, and its first thing is no bare wall. How much of each: common practice, no source.
func TestTheShowerIsWellInThePicture(t *testing.T) {
	const aspect, columns, lines = 1.6, 32, 20
	const leastShower, leastFloorSeen, offMiddle, mostBare = 0.18, 0.8, 0.19, 0.5
	for _, res := range demotest.Shown(t) {
		scene, l := viewer.NewScene(res, nil), &res.Layout
		c := viewer.CameraFor(viewer.ViewPhoto, res, aspect)
		f := viewer.Frame{Scene: scene, Stage: buildup.StageTile, Camera: c, Width: 960, Height: 600}
		eye := c.Eye()
		at := plan.Point{eye.X(), eye.Y()}
		farMM := l.Shower.Centroid().Sub(at).Len()
		shower, bare := 0.0, 0.0
		for i := range columns {
			for k := range lines {
				hit, ok := f.Pick(c.Ray((float64(i)+0.5)/columns, (float64(k)+0.5)/lines, aspect))
				if !ok || !f.Sees(c, hit.At) {
					continue
				}
				p := plan.Point{hit.At.X(), hit.At.Y()}
				const wallsMM, nearer = 120, 0.7
				if l.Shower.Contains(p, wallsMM) {
					shower++
				} else if hit.Part.Wall > 0 && p.Sub(at).Len() < nearer*farMM {
					bare++
				}
			}
		}
		shower, bare = shower/(columns*lines), bare/(columns*lines)
		seen, all := 0.0, 0.0
		low, high, _ := l.Shower.Bounds()
		for i := range 6 {
			for k := range 6 {
				p := low.Add(plan.Point{(float64(i) + 0.5) / 6 * (high.X() - low.X()), (float64(k) + 0.5) / 6 * (high.Y() - low.Y())})
				if !l.Shower.Contains(p, 0) {
					continue
				}
				all++
				if f.Sees(c, p.Vec3(res.Heights.ShowerAt(l, p)+5)) {
					seen++
				}
			}
		}
		x, _, ok := c.Project(l.Shower.Centroid().Vec3(res.Heights.TileMM), aspect)
		told := fmt.Sprintf("%s: shower %.2f, floor seen %.2f, middle %.2f, bare %.2f", res.Settled.Name, shower, seen/all, x, bare)
		t.Log(told)
		if shower < leastShower || seen/all < leastFloorSeen || !ok || math.Abs(x-0.5) > offMiddle || bare > mostBare {
			t.Error(told)
		}
		if drain := l.DrainCentre.Vec3(res.Heights.ShowerAt(l, l.DrainCentre) + 5); !f.Sees(c, drain) {
			t.Errorf("%s: the drain is not seen", res.Settled.Name)
		}
	}
}
