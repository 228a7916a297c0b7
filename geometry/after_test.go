package geometry_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

// sameResult tells how two results differ in what anyone sees of them; empty where
// they do not.
func sameResult(a, b geometry.Result) string {
	if fmt.Sprint(a.Problems) != fmt.Sprint(b.Problems) {
		return fmt.Sprintf("problems %v, then %v", a.Problems, b.Problems)
	}
	if fmt.Sprint(a.Measured) != fmt.Sprint(b.Measured) || fmt.Sprint(a.Findings) != fmt.Sprint(b.Findings) {
		return "other measurements or findings"
	}
	if fmt.Sprint(a.Schedule) != fmt.Sprint(b.Schedule) || fmt.Sprint(a.DoNow) != fmt.Sprint(b.DoNow) {
		return "other levels"
	}
	if len(a.Assembly.Parts) != len(b.Assembly.Parts) {
		return fmt.Sprintf("%d parts, then %d", len(a.Assembly.Parts), len(b.Assembly.Parts))
	}
	for i, p := range a.Assembly.Parts {
		q := b.Assembly.Parts[i]
		if p.ID != q.ID || p.Name.String() != q.Name.String() || p.Material != q.Material || p.Bounds() != q.Bounds() || math.Abs(p.Shape.Volume()-q.Shape.Volume()) > 1e-6 {
			return "another part: " + p.ID
		}
		if (p.Finish == nil) != (q.Finish == nil) || !reflect.DeepEqual(p.Finish, q.Finish) {
			return "another finish: " + p.ID
		}
	}
	return ""
}

// Whatever is changed in whatever job, what follows on the result before is what a
// fresh start gives.
func TestEvaluateAfterIsEvaluate(t *testing.T) {
	t.Parallel()
	packs := demotest.Packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		before := geometry.Evaluate(j, packs[j.Region])
		k := j.Clone()
		change := rapid.IntRange(0, len(job.Parameters())+6).Draw(t, "change")
		switch other := change - len(job.Parameters()); {
		case other < 0:
			p := job.Parameters()[change]
			k = p.With(k, rapid.Float64Range(p.Least, p.Greatest).Draw(t, p.Key))
		case other == 0:
			k.Name, k.Notes = "Another", "name"
		case other == 1:
			k.Region = rapid.SampledFrom([]string{"UK", "IE", "US", "AU", "NZ", "DE"}).Draw(t, "region")
		case other == 2:
			k.Accessible = !k.Accessible
			if k.Waste.Vent = nil; rapid.Bool().Draw(t, "vent") {
				k.Waste.Vent = &job.Vent{NominalMM: 32}
			}
		case other == 3:
			k.AsBuilt = job.AsBuilt{}
		case other == 4:
			k.SpotLevels = append(k.SpotLevels, job.SpotLevel{At: k.Room.Outline[0], LevelMM: 4})
		case other == 5:
			k.Water.ShowerFlowsLPS = append(k.Water.ShowerFlowsLPS, 0.1)
		default:
			k = demotest.AnyJob(t)
		}
		after, fresh := geometry.EvaluateAfter(before, k, packs[k.Region]), geometry.Evaluate(k, packs[k.Region])
		if d := sameResult(fresh, after); d != "" {
			t.Fatalf("after change %d: %s", change, d)
		}
	})
}

// What a change does not touch is the very same as before: of another name or rule
// the bodies and the layout, of a thicker tile the layout alone, of a wider shower
// neither.
func TestStagesAreTakenOver(t *testing.T) {
	j := demotest.Rooms(t)[1].Job
	packs := demotest.Packs(t)
	before := geometry.Evaluate(j, packs[j.Region])
	for name, c := range map[string]struct {
		change         func(*job.Job)
		bodies, layout bool
	}{
		"name":        {func(k *job.Job) { k.Name += " again" }, true, true},
		"region":      {func(k *job.Job) { k.Region = "IE" }, true, true},
		"flow":        {func(k *job.Job) { k.Water.ShowerFlowsLPS = []float64{0.2} }, true, true},
		"tile":        {func(k *job.Job) { k.Layers.Shower.Tile.ThicknessMM++ }, false, true},
		"exit":        {func(k *job.Job) { k.Waste.Exit.OffsetMM += 5 }, false, true},
		"wider":       {func(k *job.Job) { k.Shower.WidthMM -= 10 }, false, false},
		"not a job":   {func(k *job.Job) { k.Shower.WidthMM = math.NaN() }, false, false},
		"joist depth": {func(k *job.Job) { k.Floor.Joists.DepthMM += 5 }, false, false},
	} {
		k := j.Clone()
		c.change(&k)
		after := geometry.EvaluateAfter(before, k, packs[k.Region])
		bodies := len(after.Assembly.Parts) > 0 && &after.Assembly.Parts[0] == &before.Assembly.Parts[0]
		layout := len(after.Layout.Walls) > 0 && &after.Layout.Walls[0] == &before.Layout.Walls[0]
		if bodies != c.bodies || layout != c.layout {
			t.Errorf("%s: bodies taken over %v, want %v; layout %v, want %v", name, bodies, c.bodies, layout, c.layout)
		}
	}
	if len(geometry.EvaluateAfter(geometry.Result{}, j, packs[j.Region]).Assembly.Parts) != len(before.Assembly.Parts) {
		t.Error("with nothing before it comes to something else")
	}
}

// BenchmarkEvaluateAfter is a new name, a thicker tile and a wider shower after
// each other, each on the result before.
func BenchmarkEvaluateAfter(b *testing.B) {
	j := demotest.Rooms(b)[1].Job
	pack := demotest.Packs(b)[j.Region]
	before := geometry.Evaluate(j, pack)
	for _, c := range []struct {
		name   string
		change func(*job.Job)
	}{{"name", func(k *job.Job) { k.Name = "Another" }}, {"tile", func(k *job.Job) { k.Layers.Shower.Tile.ThicknessMM++ }}, {"shower", func(k *job.Job) { k.Shower.WidthMM -= 10 }}} {
		k := j.Clone()
		c.change(&k)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				geometry.EvaluateAfter(before, k, pack)
			}
		})
	}
}
