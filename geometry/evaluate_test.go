package geometry_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

var update = flag.Bool("update", false, "write the golden files")

func packs(tb testing.TB) map[string]rule.Pack { return demotest.Packs(tb) }

func demoJobs(tb testing.TB) []assets.Demo { return demotest.Demos(tb) }

func TestDemosAreSound(t *testing.T) {
	p := packs(t)
	for _, d := range demoJobs(t) {
		r := geometry.Evaluate(d.Job, p[d.Job.Region])
		demotest.Inspect(t, r)
		cannot := strings.Contains(d.File, "cannot")
		if r.Stops() != cannot {
			t.Errorf("%s: stopped %v, want %v: %+v", d.File, r.Stops(), cannot, r.Findings[0])
		}
	}
}

// Levels and findings of every demo, as text that a reviewer can read.
func TestGolden(t *testing.T) {
	p := packs(t)
	for _, d := range demoJobs(t) {
		r := geometry.Evaluate(d.Job, p[d.Job.Region])
		var b strings.Builder
		fmt.Fprintf(&b, "%s\nleast raise governed by %s\n\nlevels\n", d.Job.Name, r.Heights.Governing().Name())
		for _, row := range r.Schedule {
			fmt.Fprintf(&b, "  %-46s %-5s %10.4f  ±%.3f ±%.3f\n", row.Label(), row.Kind, row.Value, row.Worst, row.Statistical)
		}
		fmt.Fprintf(&b, "\nparts\n")
		for _, part := range r.Assembly.Parts {
			fmt.Fprintf(&b, "  %-20s %-16s %14.3f cm³\n", part.ID, part.Material, part.Shape.Volume()/1000)
		}
		fmt.Fprintf(&b, "\nfindings\n")
		for _, f := range r.Findings {
			fmt.Fprintf(&b, "  %-8s %-22s %-28s %12.4f %s %.4f\n", f.Rule.Severity, f.Rule.ID, f.Measurement.Subject.String(), f.Measurement.Value, f.Rule.Compare, f.Rule.Limit)
		}
		got := strings.ReplaceAll(b.String(), "-0.000", " 0.000")
		file := filepath.Join("testdata", strings.TrimSuffix(d.File, ".json")+".golden")
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
			t.Errorf("%s (run go test ./geometry -update when this is meant):\n%s", d.File, diff)
		}
	}
}

// breaks are changes to a sound job, each with the finding it must raise, and
// nothing graver than before may be missed: one line a rule.
func TestEveryClashIsFound(t *testing.T) {
	p := packs(t)
	demos := demoJobs(t)
	byFile := func(n int) job.Job { return demos[n-1].Job.Clone() }
	slab, loft, letIn, access, lshape := 1, 2, 3, 4, 5
	num := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		rule   string
		demo   int
		change func(*job.Job)
	}{
		{"backfall", slab, func(j *job.Job) { j.Waste.Gradient = -0.01 }},
		{"backfall", slab, func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingExtender, AtMM: 100, LengthMM: 120, Slope: 0.05, Reversed: true}}
		}},
		{"reducer-reversed", slab, func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 100, LengthMM: 60, NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39, Reversed: true}}
		}},
		{"reducer-loss", slab, func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 100, LengthMM: 60, NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 71, Reversed: true}}
		}},
		{"uk-gradient-min-50", slab, func(j *job.Job) { j.Waste.Gradient = 0.01 }},
		{"uk-gradient-max-50", slab, func(j *job.Job) { j.Waste.Gradient = 0.12 }},
		{"uk-gradient-min-40", slab, func(j *job.Job) { j.Waste.NominalMM, j.Waste.Gradient = 40, 0.01 }},
		{"uk-gradient-max-40", slab, func(j *job.Job) { j.Waste.NominalMM, j.Waste.Gradient = 40, 0.12 }},
		{"uk-length-50", slab, func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{200, 1832}, {200, 200}, {2300, 200}, {2300, 1000}}
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{1500, 1000}}
		}},
		{"uk-bends", slab, func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{400, 1832}, {400, 1500}, {200, 1500}, {200, 1200}}
			j.Waste.Exit.OffsetMM = 700
		}},
		{"turn-off", slab, func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{400, 1832}}; j.Waste.Exit.OffsetMM = 300 }},
		{"leg-short", slab, func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{200, 1832}, {200, 1780}}
			j.Waste.Exit.OffsetMM = 120
		}},
		{"fitting-misplaced", slab, func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingExtender, AtMM: 3000, LengthMM: 120, Slope: 0.05}}
		}},
		{"run-nothing", slab, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{645, 1832}} }},
		{"pipe-cover", slab, func(j *job.Job) { j.Drain.OutletInvertDepthMM = 40 }},
		{"pipe-exposed", slab, func(j *job.Job) {
			j.Drain.OutletTurnDeg = 0
			j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
		}},
		{"pipe-wall-gap", slab, func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{28, 1832}, {28, 1100}}
			j.Waste.Exit.OffsetMM = 800
		}},
		{"pipe-into-floor", slab, func(j *job.Job) { j.Base.Height, j.Base.HeightMM, j.Waste.Gradient = job.HeightChosen, 70, 0.08 }},
		{"trap-floor", slab, func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40 }},
		{"base-low", slab, func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 40 }},
		{"base-thin", slab, func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 10 }},
		{"exit-ground", slab, func(j *job.Job) {
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 60
			j.Room.Walls[3].OutsideGroundMM = num(20)
		}},
		{"exit-ground-gap", slab, func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = num(-40) }},
		{"exit-stud", slab, func(j *job.Job) {
			j.Room.Walls[3] = job.Wall{Kind: job.WallStud, ThicknessMM: 100, StudSpacingMM: 400, FirstStudMM: 80, StudWidthMM: 47}
		}},
		{"exit-corner", slab, func(j *job.Job) { j.Waste.Exit.OffsetMM = 20 }},
		{"exit-low", slab, func(j *job.Job) {
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 67
			j.Waste.Exit.Level = job.NotBelow(40)
		}},
		{"exit-joist", loft, func(j *job.Job) {
			j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{2450, 2032}}
		}},
		{"clash-joist", letIn, func(j *job.Job) { // half in the flank of joist 4
			j.Waste.Waypoints = []plan.Point{{400, 1932}, {400, 1414}}
			j.Waste.Exit.OffsetMM = 2000 - 1414
		}},
		{"clash-joist", letIn, func(j *job.Job) { // turns within joist 5
			j.Waste.Waypoints = []plan.Point{{560, 1932}, {560, 1840}, {300, 1840}, {300, 1932}}
		}},
		{"clash-joist-near", letIn, func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{400, 1932}, {400, 1413.5 + 27}}
			j.Waste.Exit.OffsetMM = 2000 - (1413.5 + 27)
		}},
		{"clash-drain", letIn, func(j *job.Job) { j.Floor.Joists.DirectionDeg, j.Drain.ChannelDepthMM = 270, 70 }},
		{"clash-drain", slab, func(j *job.Job) { j.Drain.ChannelDepthMM = 140 }},
		{"exit-high", slab, func(j *job.Job) {
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1832}, Level: job.NotBelow(-60)}
		}},
		{"exit-narrow", slab, func(j *job.Job) {
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 1832}, NominalMM: 40}
		}},
		{"exit-stud", slab, func(j *job.Job) { // at 45°, clear at the inner face
			j.Waste.Waypoints = []plan.Point{{300, 1832}}
			j.Waste.Exit.OffsetMM = 368
			j.Room.Walls[3] = job.Wall{Kind: job.WallStud, ThicknessMM: 100, StudSpacingMM: 600, FirstStudMM: 468, StudWidthMM: 47}
		}},
		{"uk-hole-size", letIn, func(j *job.Job) { // 56 mm in 300 mm is small enough, but not at 45°
			demotest.AcrossJoists(j, 150)
			j.Floor.Joists.DirectionDeg, j.Floor.Joists.DepthMM, j.Floor.Joists.FirstOffsetMM = 225, 300, 250
		}},
		{"trap-joist", letIn, func(j *job.Job) { j.Floor.Joists.FirstOffsetMM = 130 }},
		{"trap-joist-depth", letIn, func(j *job.Job) {
			j.Base.Height, j.Base.HeightMM, j.Drain.TrapDepthMM = job.HeightChosen, -20, 300
		}},
		{"pipe-below-joists", letIn, func(j *job.Job) {
			j.Base.Height = job.HeightChosen
			j.Base.HeightMM = -20
			j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 150, 170
			j.Waste.Gradient = 0.24
		}},
		{"trap-below-open", letIn, func(j *job.Job) { j.Floor.CeilingBelow, j.Drain.TrapDepthMM = false, 300 }},
		{"pipe-below-open", letIn, func(j *job.Job) {
			j.Floor.CeilingBelow = false
			j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 250, 270
		}},
		{"uk-hole-size", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 150) }},
		{"uk-hole-zone-min", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 150) }},
		{"uk-hole-zone-max", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 150); j.Floor.Joists.SupportsMM = []float64{-932, 1068} }},
		{"uk-hole-axis", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 115) }},
		{"uk-notch-depth", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 80) }},
		{"uk-notch-zone-min", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 80) }},
		{"uk-notch-zone-max", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 80); j.Floor.Joists.SupportsMM = []float64{-932, 1068} }},
		{"uk-hole-spacing", letIn, func(j *job.Job) {
			demotest.AcrossJoists(j, 150)
			j.Floor.Joists.FirstOffsetMM = 100
			j.Waste.Waypoints = []plan.Point{{150, 1932}, {150, 1832}, {600, 1832}}
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{600, 1200}}
		}},
		{"uk-deep-joist", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 150); j.Floor.Joists.DepthMM = 300 }},
		{"joist-severed", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 260) }},
		{"joist-engineered", letIn, func(j *job.Job) { demotest.AcrossJoists(j, 150); j.Floor.Joists.Engineered = true }},
		{"pipe-flow", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{200.0 / 60} }},
		{"trap-flow", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{0.4, 0.3} }},
		{"trap-flow-near", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{0.5} }},
		{"uk-seal", slab, func(j *job.Job) { j.Drain.SealMM = 30 }},
		{"uk-trap-size", slab, func(j *job.Job) { j.Waste.NominalMM = 32 }},
		{"former-thin", slab, func(j *job.Job) { j.Former.ThicknessAtDrainMM = 10 }},
		{"floor-flat", slab, func(j *job.Job) { j.Former.Slope = 0.002 }},
		{"uk-fall-min", slab, func(j *job.Job) { j.Former.Slope = 1.0 / 120 }},
		{"uk-fall-max", slab, func(j *job.Job) { j.Former.Slope = 1.0 / 20 }},
		{"residual", slab, func(j *job.Job) { j.SpotLevels[0].LevelMM = 30 }},
		{"edge-step", slab, func(*job.Job) {}},
		{"door-step", slab, func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom }},
		{"door-leaf", slab, func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom; j.Room.Doorways[0].Leaf = job.LeafIn }},
		{"cover-short", slab, func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM = 30 }},
		{"cover-proud", slab, func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM = 2 }},
		{"drain-strip", slab, func(j *job.Job) { j.Drain.WallClearanceMM = 40 }},
		{"drain-under", slab, func(j *job.Job) { j.Drain.WallClearanceMM = 5 }},
		{"base-cut", slab, func(j *job.Job) { j.Base.Moulded = true; j.Base.CutAtStartMM = num(20) }},
		{"uk-edge-acc", slab, func(j *job.Job) { j.Accessible = true }},
		{"uk-door-acc", slab, func(j *job.Job) { j.Accessible, j.Room.Edge = true, job.EdgeRaiseRoom }},
		{"uk-ramp", slab, func(j *job.Job) { j.Room.Edge, j.Room.RampRunMM = job.EdgeRamp, 600 }},
		{"joist-bending", letIn, func(j *job.Job) { j.Floor.Joists.DepthMM = 95 }},
		{"joist-shear", letIn, func(j *job.Job) { j.Floor.Joists.WidthMM, j.Floor.Joists.DepthMM = 20, 60 }},
		{"joist-tile", letIn, func(j *job.Job) { j.Floor.Joists.DepthMM = 100 }},
		{"joist-sag", letIn, func(j *job.Job) { j.Floor.Joists.DepthMM = 95 }},
		{"joist-grade", letIn, func(j *job.Job) { j.Floor.Joists.Grade = "oak" }},
		{"pipe-velocity", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS, j.Waste.Gradient = []float64{0.03}, 0.004 }},
		{"inlet-flow", access, func(j *job.Job) { j.Drain.WidthMM, j.Water.ShowerFlowsLPS = 40, []float64{1.6} }},
		{"reserve", slab, func(*job.Job) {}},
		{"trap-flow-estimated", slab, func(j *job.Job) { j.Drain.CapacityLPS, j.Water.ShowerFlowsLPS = 0, []float64{0.8} }},
		{"trap-seal-left", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS, j.Waste.Gradient = []float64{3}, 0.06 }},
		{"trap-stands", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{0.7} }},
		{"floor-puddle", slab, func(j *job.Job) { j.Former.Slope, j.Layers.Shower.Bed.ToleranceMM = 1.0/150, 2 }},
		{"flow-none", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS = nil }},
		{"flow-large", slab, func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{200.0 / 60} }},
		{"pipe-unruled", slab, func(j *job.Job) { j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM = 63, 63, 59 }},
		{"exit-above", slab, func(j *job.Job) {
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 70
			j.Waste.Exit.Level = job.Exactly(150)
		}},
		{"exit-joist", letIn, func(j *job.Job) {
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{1500, j.Floor.Joists.FirstOffsetMM + 2*j.Floor.Joists.SpacingMM}}
		}},
		{"built-contradiction", slab, func(j *job.Job) { j.AsBuilt.TileAtDrainMM = num(40) }},
		{"built-reach", slab, func(j *job.Job) { j.AsBuilt.BaseTopMM = num(40) }},
		{"c-electrics", slab, func(*job.Job) {}},
		{"c-structure", letIn, func(*job.Job) {}},
		{"us-arm-fall", slab, func(j *job.Job) { j.Region, j.Waste.Gradient = "US", 0.08 }},
		{"us-length-50", slab, func(j *job.Job) {
			j.Region = "US"
			j.Waste.Waypoints = []plan.Point{{200, 1832}, {200, 200}}
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{1500, 200}}
		}},
		{"us-fall-min", slab, func(j *job.Job) { j.Region, j.Former.Slope = "US", 1.0/60 }},
		{"us-side", slab, func(j *job.Job) { j.Region, j.Shower.DepthMM = "US", 700 }},
		{"us-edge-acc", slab, func(j *job.Job) { j.Region, j.Accessible = "US", true }},
		{"us-notch-zone", letIn, func(j *job.Job) {
			j.Region = "US"
			demotest.AcrossJoists(j, 80)
			j.Floor.Joists.SupportsMM = []float64{-932, 1068}
		}},
		{"us-hole-edge", letIn, func(j *job.Job) { j.Region = "US"; demotest.AcrossJoists(j, 115) }},
		{"joist-bending", letIn, func(j *job.Job) {
			j.Region, j.Floor.Joists.Grade, j.Floor.Joists.DepthMM = "US", "SPF No.2", 120
		}},
		{"us-seal-max", slab, func(j *job.Job) { j.Region, j.Drain.SealMM, j.Drain.TrapDepthMM = "US", 110, 150 }},
		{"au-fall-max", access, func(j *job.Job) { j.Former.Slope = 1.0 / 45 }},
		{"au-fall-min", access, func(j *job.Job) { j.Former.Slope = 1.0 / 100 }},
		{"au-gradient-min", access, func(j *job.Job) { j.Waste.Gradient = 0.02 }},
		{"nz-fall-min", access, func(j *job.Job) { j.Region = "NZ" }},
		{"de-seal", slab, func(j *job.Job) { j.Region, j.Drain.SealMM = "DE", 30 }},
		{"de-edge-acc", slab, func(j *job.Job) { j.Region, j.Accessible = "DE", true }},
		{"de-gradient-max", slab, func(j *job.Job) { j.Region, j.Waste.Gradient = "DE", 0.06 }},
		{"ie-notch-zone-max", letIn, func(j *job.Job) {
			j.Region = "IE"
			demotest.AcrossJoists(j, 80)
			j.Floor.Joists.SupportsMM = []float64{-932, 1068}
		}},
		{"ie-door-acc", lshape, func(j *job.Job) { j.Accessible = true }},
	} {
		j := byFile(c.demo)
		c.change(&j)
		r := geometry.Evaluate(j, p[j.Region])
		if len(r.Problems) > 0 {
			t.Errorf("%s: the changed job means nothing: %v", c.rule, r.Problems)
			continue
		}
		demotest.Inspect(t, r)
		found := false
		for _, f := range r.Findings {
			if f.Rule.ID == c.rule {
				found = true
				if f.Rule.Source.Document == "" || f.Rule.Remedy == "" {
					t.Errorf("%s has no source or remedy", c.rule)
				}
				if d := r.Assembly.Bounds(); !d.Meets(solid.Around(f.Measurement.At, 100)) {
					t.Errorf("%s lies at %v, outside the model", c.rule, f.Measurement.At)
				}
			}
		}
		if !found {
			t.Errorf("%s is not found", c.rule)
		}
	}
}

// Every rule of every pack can be broken: it is broken by some measurement
// and kept by another.
func TestEveryRuleCanFail(t *testing.T) {
	for region, p := range packs(t) {
		for _, r := range p.Rules {
			m := rule.Measurement{Quantity: r.Quantity, Tags: r.When.Tags, Facts: map[string]float64{}}
			for k, v := range r.When.Facts {
				m.Facts[k] = (v[0] + v[1]) / 2
			}
			if !r.Applies(m) {
				t.Errorf("%s %s never applies", region, r.ID)
			}
			if r.Compare == rule.Present {
				continue
			}
			step := math.Max(1e-3, math.Abs(r.Limit)*1e-3)
			over, under, at := m, m, m
			over.Value, under.Value, at.Value = r.Limit+step, r.Limit-step, r.Limit
			if r.Broken(at) || r.Broken(over) == r.Broken(under) {
				t.Errorf("%s %s: broken at the limit %v, over %v, under %v", region, r.ID, r.Broken(at), r.Broken(over), r.Broken(under))
			}
			nan := m
			nan.Value = math.NaN()
			if !r.Broken(nan) {
				t.Errorf("%s %s lets pass what is not a number", region, r.ID)
			}
		}
	}
}

// Joist limits by the UK and Irish rule: a 150 mm joist spanning 3.0 m may be
// notched from 210 to 750 mm from a support, at most 18.75 mm deep; holes of a
// quarter of the depth from 750 to 1200 mm. Hertfordshire Building Control
// note and TGD A (1997); R27: 195 mm over 3600 mm gives 24.4 mm, 252 to 900 mm
// and 48.75 mm, 900 to 1440 mm.
func TestJoistLimits(t *testing.T) {
	ie := packs(t)["IE"]
	for _, c := range []struct {
		compare         rule.Compare
		quantity        string
		factor150, want float64
	}{
		{rule.AtMost, "joist.notch-depth", 150, 18.75}, {rule.AtLeast, "joist.notch-zone", 3000, 210}, {rule.AtMost, "joist.notch-zone", 3000, 750},
		{rule.AtMost, "joist.hole-size", 150, 37.5}, {rule.AtLeast, "joist.hole-zone", 3000, 750}, {rule.AtMost, "joist.hole-zone", 3000, 1200},
		{rule.AtMost, "joist.notch-depth", 195, 24.375}, {rule.AtLeast, "joist.notch-zone", 3600, 252}, {rule.AtMost, "joist.hole-size", 195, 48.75}, {rule.AtMost, "joist.hole-zone", 3600, 1440},
	} {
		limit, _, ok := ie.Limit(c.quantity, c.compare, nil)
		if !ok || math.Abs(limit*c.factor150-c.want) > 1e-9 {
			t.Errorf("%s %s: %v of %v is %v, want %v", c.quantity, c.compare, limit, c.factor150, limit*c.factor150, c.want)
		}
	}
	// IRC 2x10 (9.25 in): notch 1.54, notch length 3.08, hole 3.08 in (R26).
	us := packs(t)["US"]
	for quantity, want := range map[string]float64{"joist.notch-depth": 1.54, "joist.notch-length": 3.08, "joist.hole-size": 3.08} {
		limit, _, ok := us.Limit(quantity, rule.AtMost, nil)
		if !ok || math.Abs(limit*9.25-want) > 0.01 {
			t.Errorf("US %s: %v in, want %v", quantity, limit*9.25, want)
		}
	}
}

// Four-way fall against NCC 2022 Housing Provisions 10.2.12: in 1800 × 900
// with one central waste and a level edge, 1:80 along the long plane (from the
// very centre) makes the short plane 1:40, steeper than 1:50: it cannot
// comply, while a linear drain at one end can. In 1600 × 1000 (R25) 10 mm
// gives 1:80 and 1:50 exactly, the limiting pass.
func TestFourWayFall(t *testing.T) {
	p := packs(t)["AU"]
	room := func(width, depth float64) job.Job {
		j := job.New()
		j.Region = "AU"
		j.Room.Outline = []plan.Point{{0, 0}, {4000, 0}, {4000, 3000}, {0, 3000}}
		j.Shower = job.Shower{Wall: 2, OffsetMM: 1000, WidthMM: width, DepthMM: depth}
		j.Former.Fall, j.Former.Slope = job.FallPoint, 1.0/80
		j.Drain.WidthMM = 20 // nearly a point, as the rule's example is drawn
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 3, OffsetMM: 800}
		return j
	}
	falls := func(j job.Job) (least, greatest float64, broken bool) {
		r := geometry.Evaluate(j, p)
		if len(r.Problems) > 0 {
			t.Fatal(r.Problems)
		}
		least = math.Inf(1)
		for _, m := range r.Measured {
			if m.Quantity == "floor.fall" {
				least, greatest = math.Min(least, m.Value), math.Max(greatest, m.Value)
			}
		}
		for _, f := range r.Findings {
			broken = broken || f.Rule.ID == "au-fall-max" || f.Rule.ID == "au-fall-min"
		}
		return least, greatest, broken
	}
	least, greatest, broken := falls(room(1800, 900))
	if math.Abs(1/least-80) > 0.01 || math.Abs(1/greatest-40) > 1 || !broken {
		t.Errorf("1800 × 900: 1:%.1f to 1:%.1f, broken %v; want 1:80 to 1:40, broken", 1/least, 1/greatest, broken)
	}
	j := room(1800, 900)
	j.Former.Fall, j.Drain.LengthMM, j.Drain.WidthMM = job.FallLeft, 800, 70
	if _, _, broken := falls(j); broken {
		t.Error("1800 × 900 with a linear drain at its end does not comply")
	}
	// The drain's half width counts, so the limiting case is drawn with
	// distances of 800 and 500 from its edge.
	if least, greatest, broken := falls(room(1620, 1020)); math.Abs(1/least-80) > 1e-6 || math.Abs(1/greatest-50) > 1e-6 || broken {
		t.Errorf("1600 × 1000: 1:%.3f to 1:%.3f, broken %v; want 1:80 to 1:50, kept", 1/least, 1/greatest, broken)
	}
}

// A board 1500 long cut to 1340 loses 80 at each end. Geometry.
func TestBaseCut(t *testing.T) {
	j := job.New()
	j.Base.BoardLengthMM, j.Shower.WidthMM = 1500, 1340
	if a, b := measure.BaseCuts(j); a != 80 || b != 80 {
		t.Errorf("cuts %v and %v, want 80 and 80", a, b)
	}
	j.Shower.WidthMM = 1600
	if a, b := measure.BaseCuts(j); a != 0 || b != 0 {
		t.Errorf("a shower longer than the board: cuts %v and %v", a, b)
	}
}

// sameMeasurements compares everything but places.
func sameMeasurements(t interface{ Fatalf(string, ...any) }, a, b geometry.Result) {
	if len(a.Measured) != len(b.Measured) {
		t.Fatalf("%d measurements, then %d", len(a.Measured), len(b.Measured))
	}
	for i, m := range a.Measured {
		o := b.Measured[i]
		if m.Quantity != o.Quantity || m.Subject != o.Subject || math.Abs(m.Value-o.Value) > 1e-4*math.Max(1, math.Abs(m.Value)) {
			t.Fatalf("%s of %s is %v, then %s of %s is %v", m.Quantity, m.Subject, m.Value, o.Quantity, o.Subject, o.Value)
		}
	}
}

// Turning or shifting the whole room changes coordinates and nothing else.
func TestMovingTheRoomChangesNothing(t *testing.T) {
	p := packs(t)
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(must(assets.Demos())).Draw(t, "demo")
		angle := float64(rapid.IntRange(0, 359).Draw(t, "angle"))
		by := plan.Point{float64(rapid.IntRange(-9000, 9000).Draw(t, "x")), float64(rapid.IntRange(-9000, 9000).Draw(t, "y"))}
		a := geometry.Evaluate(d.Job, p[d.Job.Region])
		b := geometry.Evaluate(demotest.Moved(d.Job, angle, by), p[d.Job.Region])
		if len(b.Problems) > 0 {
			t.Fatalf("moved: %v", b.Problems)
		}
		sameMeasurements(t, a, b)
	})
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// A mirrored room has the same heights and findings, left and right swapped.
func TestMirror(t *testing.T) {
	p := packs(t)
	for _, d := range demoJobs(t) {
		if d.Job.Floor.Kind != job.FloorSlab {
			continue // the joists' offset counts from one side
		}
		j := d.Job.Clone()
		for i, q := range j.Room.Outline {
			j.Room.Outline[i] = plan.Point{-q.X(), q.Y()}
		}
		for i, s := range j.SpotLevels {
			j.SpotLevels[i].At = plan.Point{-s.At.X(), s.At.Y()}
		}
		j.Drain.OutletTurnDeg = job.AngleDeg(180 - j.Drain.OutletTurnDeg)
		switch j.Former.Fall {
		case job.FallLeft:
			j.Former.Fall = job.FallRight
		case job.FallRight:
			j.Former.Fall = job.FallLeft
		}
		a, b := geometry.Evaluate(d.Job, p[j.Region]), geometry.Evaluate(j, p[j.Region])
		values := func(r geometry.Result) map[string]float64 {
			sum := map[string]float64{}
			for _, m := range r.Measured {
				sum[m.Quantity] += m.Value
			}
			return sum
		}
		va, vb := values(a), values(b)
		for q, v := range va {
			if math.Abs(v-vb[q]) > 1e-6 {
				t.Errorf("%s: %s %v, mirrored %v", d.File, q, v, vb[q])
			}
		}
		demotest.Inspect(t, b)
	}
}

// Any valid job evaluates without panic, twice to the same, and saved and
// loaded to the same.
func TestAnyJobEvaluates(t *testing.T) {
	p := packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		pack := p[rapid.SampledFrom([]string{"UK", "IE", "US", "AU", "NZ", "DE"}).Draw(t, "region")]
		a := geometry.Evaluate(j, pack)
		if len(a.Problems) > 0 {
			t.Fatal(a.Problems)
		}
		for _, m := range a.Measured {
			if math.IsNaN(m.Value) {
				t.Fatalf("%s of %s is not a number", m.Quantity, m.Subject)
			}
		}
		back, err := job.Parse(must(j.Marshal()))
		if err != nil {
			t.Fatal(err)
		}
		b := geometry.Evaluate(back, pack)
		if len(a.Measured) != len(b.Measured) || len(a.Findings) != len(b.Findings) {
			t.Fatal("the same job came out differently")
		}
		for i := range a.Measured {
			if a.Measured[i].Value != b.Measured[i].Value || a.Measured[i].At != b.Measured[i].At {
				t.Fatalf("%+v, then %+v", a.Measured[i], b.Measured[i])
			}
		}
		for _, part := range a.Assembly.Parts {
			if err := part.Mesh().CheckClosed(); err != nil {
				t.Fatalf("%s: %v", part.ID, err)
			}
		}
		for _, d := range []section.Drawing{section.Of(a, section.ThroughDrain(a), buildup.StageTile), section.Of(a, section.AlongRun(a), buildup.StageTile), section.PlanOf(a)} {
			if d.Fault != "" || len(d.Areas) == 0 {
				t.Fatalf("%d areas drawn: %s", len(d.Areas), d.Fault)
			}
		}
	})
}

// A job that means nothing comes back with its problems, not with geometry.
func TestProblemsStopEvaluation(t *testing.T) {
	j := job.New()
	j.Shower.WidthMM = math.NaN()
	r := geometry.Evaluate(j, packs(t)["UK"])
	if len(r.Problems) == 0 || len(r.Assembly.Parts) > 0 || !r.Stops() {
		t.Errorf("problems %v, %d parts, stops %v", r.Problems, len(r.Assembly.Parts), r.Stops())
	}
}
