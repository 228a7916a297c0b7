package asbuilt_test

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/asbuilt"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

func asBuilt(t *testing.T, change func(*job.AsBuilt)) geometry.Result {
	t.Helper()
	j := job.New()
	change(&j.AsBuilt)
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	return r
}

func mm(v float64) *float64 { return &v }

// The starting job as it is built, by hand: base top planned at 72, bed 3,
// former 20, flange 95, tanking 1, bed 3, tile 9, tile 108; at the front edge
// 16.34 higher; outlet 20, exit 3.875.
func TestAsBuiltByHand(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.AsBuilt)
		want   asbuilt.Instruction
	}{
		"base 2 low": {
			func(a *job.AsBuilt) { a.BaseTopMM = mm(70) },
			asbuilt.Instruction{What: "now.former-bed", Kind: buildup.IsDepth, Value: 5, Planned: 3, Possible: true},
		},
		"base 4 high": {
			func(a *job.AsBuilt) { a.BaseTopMM = mm(76) },
			asbuilt.Instruction{What: "now.former-bed", Kind: buildup.IsDepth, Value: -1, Planned: 3},
		},
		"former 2 low": {
			func(a *job.AsBuilt) { a.FormerAtDrainMM = mm(93) },
			asbuilt.Instruction{What: "now.tile-bed-at-drain", Kind: buildup.IsDepth, Value: 5, Planned: 3, Possible: true},
		},
		"edge 1.5 high": {
			func(a *job.AsBuilt) { a.FormerAtEdgeMM = mm(95 + 16.34 + 1.5) },
			asbuilt.Instruction{What: "now.tile-bed-at-high-end", Kind: buildup.IsDepth, Value: 1.5, Planned: 3, Possible: true},
		},
		"outlet 1 low": {
			func(a *job.AsBuilt) { a.OutletInvertMM = mm(19) },
			asbuilt.Instruction{What: "now.exit-invert", Kind: buildup.IsLevel, Value: 2.875, Planned: 3.875, Possible: true},
		},
		"exit 3.1 lower": {
			func(a *job.AsBuilt) { a.ExitInvertMM = mm(20 - 645*0.03) },
			asbuilt.Instruction{What: "now.pipe-fall", Kind: buildup.IsFall, Value: 0.03, Planned: 0.025, Possible: true},
		},
		"tile 1 high": {
			func(a *job.AsBuilt) { a.TileAtDrainMM = mm(109) },
			asbuilt.Instruction{What: "now.cover-over-flange", Kind: buildup.IsDepth, Value: 14, Planned: 13, Possible: true},
		},
	} {
		r := asBuilt(t, c.change)
		found := false
		for _, i := range r.DoNow {
			if i.What == c.want.What {
				found = true
				if !(math.Abs(i.Value-c.want.Value) <= 1e-9) || !(math.Abs(i.Planned-c.want.Planned) <= 1e-9) ||
					i.Kind != c.want.Kind || i.Possible != c.want.Possible {
					t.Errorf("%s: %+v, want %+v", name, i, c.want)
				}
			}
		}
		if !found || len(r.Contradictions) > 0 {
			t.Errorf("%s: %+v, contradictions %+v", name, r.DoNow, r.Contradictions)
		}
		demotest.Inspect(t, r)
	}
}

// What is measured shows in every level after it.
func TestAsBuiltMovesWhatComesAfter(t *testing.T) {
	planned := geometry.Evaluate(job.New(), demotest.Packs(t)["UK"])
	r := asBuilt(t, func(a *job.AsBuilt) { a.BaseTopMM, a.FormerAtDrainMM = mm(71), mm(96) })
	if r.Heights.BaseTopMM != 71 || r.Heights.FlangeMM != 96 || !(math.Abs(r.Heights.TileMM-109) <= 1e-9) ||
		!(math.Abs(r.Heights.OutletMM-21) <= 1e-9) {
		t.Errorf("%+v", r.Heights)
	}
	if planned.Heights.TileMM != 108 {
		t.Errorf("planned tile at %v", planned.Heights.TileMM)
	}
	// A measured edge turns the fall: 4 mm higher over 817 mm.
	r = asBuilt(t, func(a *job.AsBuilt) { a.FormerAtEdgeMM = mm(95 + 16.34 + 4) })
	if got, want := r.Layout.Planes[0].Gradient(), 1.0/50+4.0/817; !(math.Abs(got-want) <= 1e-9) {
		t.Errorf("fall as built %v, want %v", got, want)
	}
}

// Levels that cannot be are named and left out; nothing panics or is lost.
func TestContradictoryLevels(t *testing.T) {
	for name, change := range map[string]func(*job.AsBuilt){
		"base under the floor":      func(a *job.AsBuilt) { a.BaseTopMM = mm(-20) },
		"former under the base":     func(a *job.AsBuilt) { a.BaseTopMM, a.FormerAtDrainMM = mm(72), mm(60) },
		"edge under the drain":      func(a *job.AsBuilt) { a.FormerAtDrainMM, a.FormerAtEdgeMM = mm(95), mm(90) },
		"tile under its layers":     func(a *job.AsBuilt) { a.TileAtDrainMM = mm(96) },
		"outlet over the flange":    func(a *job.AsBuilt) { a.OutletInvertMM = mm(200) },
		"outlet far under the trap": func(a *job.AsBuilt) { a.OutletInvertMM = mm(-800) },
	} {
		r := asBuilt(t, change)
		if len(r.Contradictions) != 1 || !r.Stops() {
			t.Errorf("%s: %+v", name, r.Contradictions)
		}
		demotest.Inspect(t, r)
	}
}

// Whatever is measured, the job evaluates to something whole; what it makes of
// the levels that do not contradict each other is what was measured.
func TestAnyMeasuredLevels(t *testing.T) {
	p := demotest.Packs(t)
	demos := demotest.Rooms(t)
	held := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		j := rapid.SampledFrom(demos).Draw(t, "demo").Job.Clone()
		h := geometry.Evaluate(j, p[j.Region]).Heights
		planned := map[string]float64{
			"base": h.BaseTopMM, "outlet": h.OutletMM, "exit": h.Run.InvertAt(h.Run.ExitAtMM),
			"drain": h.FlangeMM, "edge": h.FlangeMM + 20, "tile": h.TileMM,
		}
		// Half of them are near what was planned: levels drawn anywhere mostly
		// contradict each other.
		far := rapid.Bool().Draw(t, "far off")
		a := &j.AsBuilt
		fields := map[string]**float64{
			"base": &a.BaseTopMM, "outlet": &a.OutletInvertMM, "exit": &a.ExitInvertMM,
			"drain": &a.FormerAtDrainMM, "edge": &a.FormerAtEdgeMM, "tile": &a.TileAtDrainMM,
		}
		for _, name := range slices.Sorted(maps.Keys(fields)) { // in one order, so that a seed draws the same again
			field := fields[name]
			if rapid.Bool().Draw(t, "has "+name) {
				v := planned[name] + rapid.Float64Range(-1, 1).Draw(t, name)
				if far {
					v = rapid.Float64Range(-300, 300).Draw(t, name+" far off")
				}
				*field = &v
			}
		}
		r := geometry.Evaluate(j, p[j.Region])
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		demotest.Inspect(t, r)
		if len(r.Contradictions) > 0 {
			return
		}
		for name, c := range map[string]struct {
			measured *float64
			got      float64
		}{"base": {a.BaseTopMM, r.Heights.BaseTopMM}, "drain": {a.FormerAtDrainMM, r.Heights.FlangeMM}, "outlet": {a.OutletInvertMM, r.Heights.OutletMM}} {
			if c.measured == nil {
				continue
			}
			held[name]++
			if math.Abs(*c.measured-c.got) > 1e-6 {
				t.Fatalf("%s measured %v, built %v", name, *c.measured, c.got)
			}
		}
	})
	if (held["base"] < 5 || held["drain"] < 5 || held["outlet"] < 5) && !testing.Short() {
		t.Errorf("only these were held against what was measured: %v", held)
	}
}

// With 65 of screed under the base and a mat of 6 under the tanking, tile measured 2 high
// is a bed 2 thicker, the courses being as they are: 108 + 65 + 6 + 2. A base measured at 60
// would lie 5 under the screed.
func TestAsBuiltOverCourses(t *testing.T) {
	j := job.New()
	j.Base.Under = []job.Course{{Kind: job.CourseScreed, Layer: job.Layer{ThicknessMM: 65}}}
	j.Layers.Shower.Under = []job.Course{{Kind: job.CourseHeating, Layer: job.Layer{ThicknessMM: 6}}}
	j.AsBuilt.TileAtDrainMM = mm(181)
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	if got := r.Settled.Layers.Shower.Bed.ThicknessMM; math.Abs(got-5) > 1e-9 || math.Abs(r.Heights.TileMM-181) > 1e-9 {
		t.Errorf("a bed of %v and tile at %v, want 5 and 181", got, r.Heights.TileMM)
	}
	j.AsBuilt = job.AsBuilt{BaseTopMM: mm(60)}
	if c := geometry.Evaluate(j, demotest.Packs(t)["UK"]).Contradictions; len(c) != 1 || c[0].What != "contradiction.base-under-floor" || math.Abs(c[0].ByMM-5) > 1e-9 {
		t.Errorf("%v, want the base 5 under the screed", c)
	}
}
