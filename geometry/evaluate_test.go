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
)

var update = flag.Bool("update", false, "write the golden files")

func packs(tb testing.TB) map[string]rule.Pack { return demotest.Packs(tb) }

func demoJobs(tb testing.TB) []assets.Demo { return demotest.Rooms(tb) }

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
		fmt.Fprintf(&b, "%s\nleast raise governed by %s\n\nlevels\n", d.Job.Name, r.Heights.Governing().Reason().Message())
		for _, row := range r.Schedule {
			fmt.Fprintf(&b, "  %-46s %-5s %10.4f  ±%.3f ±%.3f\n", row.Message(), row.Kind(), row.Value, row.Worst, row.Statistical)
		}
		fmt.Fprintf(&b, "\nparts\n")
		for _, part := range r.Assembly.Parts {
			fmt.Fprintf(&b, "  %-20s %-16s %14.3f cm³\n", part.ID, part.Material, part.Shape.Volume()/1000)
		}
		fmt.Fprintf(&b, "\nfindings\n")
		for _, f := range r.Findings {
			fmt.Fprintf(&b, "  %-9s %-22s %-28s %12.4f %s %.4f\n", f.Rule.Severity, f.Rule.ID, f.Measurement.Subject.String(), f.Measurement.Value, f.Rule.Compare, f.Rule.Limit)
		}
		fmt.Fprintf(&b, "\ncautions\n")
		for _, f := range r.Cautions {
			fmt.Fprintf(&b, "  %-14s %-9s %-22s %s\n", f.Rule.Stage, f.Rule.Severity, f.Rule.ID, f.Measurement.Subject)
		}
		a := r.Answer(nil)
		fmt.Fprintf(&b, "\nanswer %s\n", a.Headline())
		for _, m := range a.Lines() {
			fmt.Fprintf(&b, "  %s\n", m)
		}
		for _, c := range a.Cards {
			fmt.Fprintf(&b, "  %-9s %-22s %d\n", c.Severity(), c.Cause(), len(c.Places))
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
	// The drain is 20 wide: runs of 890 and 440 make 80·440/890 = 39.55 of it.
	least, greatest, broken := falls(room(1800, 900))
	if math.Abs(1/least-80) > 1e-6 || math.Abs(1/greatest-80*440.0/890) > 1e-6 || !broken {
		t.Errorf("1800 × 900: 1:%.3f to 1:%.3f, broken %v; want 1:80 to 1:39.55, broken", 1/least, 1/greatest, broken)
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

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// Any valid job evaluates without panic, twice to the same, and saved and
// loaded to the same.
func TestAnyJobEvaluates(t *testing.T) {
	t.Parallel()
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
			if !d.Fault.IsZero() || len(d.Areas) == 0 {
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
