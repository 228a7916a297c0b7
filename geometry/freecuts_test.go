package geometry_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"underfall/geometry"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// askew are cuts of a result at angles and places drawn by chance: through two points of its room, and
// through its places turned and moved aside, as far as they meet the room.
func askew(r geometry.Result, random *rand.Rand, n int) (out []section.Cutting) {
	low, high, _ := r.Layout.Room.Bounds()
	at := func() plan.Point {
		return plan.Point{low.X() + random.Float64()*(high.X()-low.X()), low.Y() + random.Float64()*(high.Y()-low.Y())}
	}
	places := section.CutPlaces(r)
	for len(out) < n {
		c := section.Cutting{Of: section.CutPoints, From: at(), To: at()}
		if len(out)%2 == 1 {
			c = places[random.IntN(len(places))].Turned(r, at(), random.Float64()*360)
		}
		if _, err := c.Plane(r); err == nil {
			out = append(out, c)
		}
	}
	return out
}

// Every body of every demo has, in cuts at any angle, the area that manifold-3d cuts out of it; single
// precision there limits the agreement.
func TestCutsAtAnyAngleAgainstManifold(t *testing.T) {
	t.Parallel()
	p := packs(t)
	random := rand.New(rand.NewPCG(15, 3))
	const cuts = 16
	wants, said := map[string][]float64{}, map[string][]section.Cutting{}
	crossed, bodies := 0, 0
	var meshes []manifoldMesh
	for _, demo := range demoJobs(t) {
		r := geometry.Evaluate(demo.Job, p[demo.Job.Region])
		through := askew(r, random, cuts)
		for _, part := range r.Assembly.Parts {
			if _, shells := part.Shape.(solid.Compound); shells {
				continue // shells that touch face to face are not one manifold
			}
			m := part.Mesh()
			x := asManifoldMesh(fmt.Sprint(demo.File, " ", part.ID, " ", len(meshes)), m)
			said[x.Name] = through
			for _, c := range through {
				plane, err := c.Plane(r)
				if err != nil {
					t.Fatal(err)
				}
				x.Cuts = append(x.Cuts, toZero(plane))
				cut, err := m.Slice(plane)
				if err != nil {
					t.Fatalf("%s: %v: %v", x.Name, c, err)
				}
				wants[x.Name] = append(wants[x.Name], cut.Area())
				if cut.Area() > 0 {
					crossed++
				}
			}
			bodies++
			meshes = append(meshes, x)
		}
	}
	for _, a := range askManifold(t, meshes, nil, nil) {
		if a.Status != "NoError" {
			t.Errorf("%s: manifold-3d says %s", a.Name, a.Status)
		}
		for i, area := range a.Sections {
			if want := wants[a.Name][i]; math.Abs(area-want) > 5e-4*want+0.5 {
				t.Errorf("%s: cut %+v has %.2f there, %.2f here", a.Name, said[a.Name][i], area, want)
			}
		}
	}
	t.Logf("%d bodies, %d of %d cuts go through one", bodies, crossed, cuts*bodies)
	if crossed < 4*bodies {
		t.Errorf("only %d cuts go through a body of %d", crossed, bodies)
	}
}
