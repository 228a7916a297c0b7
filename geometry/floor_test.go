package geometry_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// bodiesOf are the upright bodies of the floor's layers by their parts' ids; a
// ramp's by its edge.
func bodiesOf(r geometry.Result) map[string][]solid.Prism {
	out := map[string][]solid.Prism{}
	for _, p := range r.Assembly.Parts {
		switch shape := p.Shape.(type) {
		case solid.Prism:
			out[p.ID] = []solid.Prism{shape}
		case solid.Compound:
			for _, s := range shape {
				if prism, ok := s.(solid.Prism); ok {
					out[p.ID] = append(out[p.ID], prism)
				}
			}
		}
	}
	return out
}

// Anywhere in any job's floor the finished height, the top of the build-up and
// the top of the bodies are one, and each course is as thick as its body there.
func TestFloorIsOne(t *testing.T) {
	t.Parallel()
	compared, bodies, packs := 0, 0, packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		j.AsBuilt = job.AsBuilt{} // measured levels may contradict one another
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		parts := bodiesOf(r)
		low, high, _ := r.Layout.Room.Bounds()
		for range 15 {
			share := rapid.IntRange(1, 996)
			p := plan.Point{low.X() + (high.X()-low.X())*float64(share.Draw(t, "x"))/997, low.Y() + (high.Y()-low.Y())*float64(share.Draw(t, "y"))/997}
			if !demotest.WellInside(r.Layout.Room, p, 1) {
				continue
			}
			stack := r.Floor.At(p)
			if got := r.Floor.FinishedMM(p); got != stack.TopMM() {
				t.Fatalf("at %v the floor is finished at %v, its layers reach %v", p, got, stack.TopMM())
			}
			for i, c := range stack[1:] {
				if c.BottomMM != stack[i].TopMM || c.TopMM <= c.BottomMM {
					t.Fatalf("at %v layer %d lies from %v to %v on one that ends at %v", p, i, c.BottomMM, c.TopMM, stack[i].TopMM)
				}
				bottom, top, onEdge := math.Inf(1), math.Inf(-1), false
				for _, body := range parts[c.Kind.Facts().PartID] {
					region := body.Sheet.Region()
					for _, by := range []plan.Point{{0.01, 0}, {-0.01, 0}, {0, 0.01}, {0, -0.01}} {
						onEdge = onEdge || region.Contains(p.Add(by), 0) != region.Contains(p, 0)
					}
					if region.Contains(p, 0) {
						bottom, top = math.Min(bottom, body.Bottom.At(p)), math.Max(top, body.Top.At(p))
					}
				}
				if onEdge || bottom > top || r.Layout.Drain.Contains(p, math.Sqrt2*(r.Settled.Base.SawMarginMM+20)+0.01) {
					continue // sawn out, by the drain and a strip beside it, behind the wall's tile, or a ramp
				}
				if math.Abs(top-c.TopMM) > 1e-6 || math.Abs(bottom-c.BottomMM) > 1e-6 {
					// What lies under a part sunk below its floor is in the findings.
					if bottom < stack[i].TopMM-1e-6 {
						continue
					}
					t.Fatalf("%s at %v: a body from %v to %v, a layer from %v to %v", c.Kind.Facts().Name, p, bottom, top, c.BottomMM, c.TopMM)
				}
				bodies++
			}
			compared++
		}
	})
	if enough := compared >= 1000 && bodies >= 3000; !enough && !testing.Short() || compared == 0 {
		t.Errorf("only %d places and %d bodies compared", compared, bodies)
	}
}

// A hump of 5 mm under the shower lifts what stands on it by 5, though the
// plane of the readings hardly notices; the same hump in the far corner of the
// room lifts nothing there by more than the plane does. By hand: eight readings
// of 0 at the corners and edge middles of a square and one of 5 in its middle
// give the level plane 5/9; the hump stands 4.444 over it.
func TestTheFloorStandsOnItsHighSpots(t *testing.T) {
	j := job.New()
	j.SpotLevels = nil
	for _, x := range []float64{300, 700, 1100} {
		for _, y := range []float64{1100, 1450, 1800} {
			s := job.SpotLevel{At: plan.Point{x, y}}
			if x == 700 && y == 1450 {
				s.LevelMM = 5
			}
			j.SpotLevels = append(j.SpotLevels, s)
		}
	}
	r := geometry.Evaluate(j, packs(t)["UK"])
	h := r.Heights
	if plane := h.Survey.Floor.At(plan.Point{700, 1450}); math.Abs(plane-5.0/9) > 1e-9 {
		t.Fatalf("the plane lies at %v", plane)
	}
	if math.Abs(h.FloorHighMM-5) > 1e-9 || math.Abs(h.BaseUnderMM-8) > 1e-9 {
		t.Errorf("the floor is highest at %v, the base lies on %v; want 5 and 8", h.FloorHighMM, h.BaseUnderMM)
	}
	// The trap, 95 deep under its flange, stands on the hump too.
	if math.Abs(h.TrapMM-5) > 1e-9 {
		t.Errorf("the trap stands at %v, want 5", h.TrapMM)
	}
	far := j.Clone()
	far.SpotLevels[4].LevelMM = 0
	far.SpotLevels = append(far.SpotLevels, job.SpotLevel{At: plan.Point{2300, 100}, LevelMM: 5})
	got, high := geometry.Evaluate(far, packs(t)["UK"]), math.Inf(-1)
	for _, p := range got.Layout.FallArea[0].Outer {
		high = math.Max(high, got.Heights.Survey.Floor.At(p))
	}
	if math.Abs(got.Heights.FloorHighMM-high) > 1e-9 {
		t.Errorf("a hump in the far corner lifts the base to %v, the plane is highest at %v", got.Heights.FloorHighMM, high)
	}
	// What the readings leave of a plane is one of the things that are uncertain:
	// twice the root of the mean square of the residuals, eight of 5/9 and one of
	// 40/9, over nine readings less three: 2·√(22.222/6) = 3.849.
	flat := j.Clone()
	flat.SpotLevels[4].LevelMM = 0
	spread := func(j job.Job) float64 {
		for _, row := range geometry.Evaluate(j, packs(t)["UK"]).Schedule {
			if row.ID.Of == buildup.FloorHigh {
				return row.Worst
			}
		}
		t.Fatal("no such row")
		return 0
	}
	if a, b := spread(flat), spread(j); a != 0 || math.Abs(b-2*math.Sqrt(22.0/6+2.0/9/6)) > 1e-6 {
		t.Errorf("the floor may be off by %v where it is flat, by %v where it has a hump", a, b)
	}
}
