package geometry_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// single are the bodies a part is made of, each by itself.
func single(s solid.Shape) []solid.Shape {
	if c, ok := s.(solid.Compound); ok {
		var out []solid.Shape
		for _, shape := range c {
			out = append(out, single(shape)...)
		}
		return out
	}
	return []solid.Shape{s}
}

// joined tells whether two parts share room by what they are: pieces of one run
// are put into each other at their ends, the first of them into the trap.
func joined(a, b assembly.Part) bool {
	run := func(p assembly.Part) bool { return strings.HasPrefix(p.ID, "run-") }
	return run(a) && run(b) || run(a) && (b.ID == "trap" || b.ID == "seal") || run(b) && (a.ID == "trap" || a.ID == "seal")
}

// No two parts of a job that nothing stops share room: where the one would lie in
// the other it is sawn, drilled or recessed for it. manifold-3d intersects all the
// bodies whose bounds meet; a thousandth of a litre is what its single precision
// and the chords of circles leave.
func TestPartsShareNoRoom(t *testing.T) {
	t.Parallel()
	jobs := map[string]job.Job{}
	for _, d := range demotest.Rooms(t)[:5] {
		jobs[d.File] = d.Job
	}
	askew := demotest.Moved(demotest.Rooms(t)[2].Job, 23.7, plan.Point{311, -77})
	jobs["let in, in a room that stands askew"] = askew
	ramp := demotest.Rooms(t)[4].Job.Clone()
	ramp.Room.Edge = job.EdgeRamp
	jobs["with a ramp"] = ramp
	var shared []manifoldShared
	for name, j := range jobs {
		r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		if len(r.Problems) > 0 {
			t.Fatalf("%s: %v", name, r.Problems)
		}
		parts := r.Assembly.Parts
		for i, a := range parts {
			for _, b := range parts[:i] {
				if joined(a, b) || !a.Bounds().Meets(b.Bounds()) {
					continue
				}
				for n, s := range single(a.Shape) {
					for k, o := range single(b.Shape) {
						if s.Bounds().Meets(o.Bounds()) {
							what := fmt.Sprintf("%s: %s (%d) and %s (%d)", name, a.ID, n, b.ID, k)
							shared = append(shared, manifoldShared{what, asManifoldMesh("a", s.Mesh()), asManifoldMesh("b", o.Mesh())})
						}
					}
				}
			}
		}
	}
	const leastMM3 = 1000
	for _, a := range askManifold(t, nil, nil, nil, shared...) {
		if !(math.Abs(a.Volume) < leastMM3) {
			t.Errorf("%s share %.0f mm³ (%s)", a.Name, a.Volume, a.Status)
		}
	}
	t.Logf("%d pairs of bodies intersected", len(shared))
}
