package chance_test

import (
	"context"
	"math"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// count counts the chances of a result.
func count(ctx context.Context, r geometry.Result, samples int, seed uint64) (chance.Chances, error) {
	return chance.Count(ctx, r.Levelled, r.Findings, samples, seed)
}

func risks(t testing.TB, j job.Job, samples int) (geometry.Result, []chance.Risk) {
	t.Helper()
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	c, err := count(context.Background(), r, samples, 7)
	if err != nil {
		t.Fatal("nothing was counted")
	}
	return r, c.Risks
}

func riskOf(rs []chance.Risk, rule string) chance.Risk {
	for _, r := range rs {
		if r.Rule.ID == rule {
			return r
		}
	}
	return chance.Risk{}
}

// above is the chance that a normal value passes a limit: the closed form,
// ½·erfc((limit − mean)/(σ·√2)).
func above(limit, mean, sigma float64) float64 {
	return 0.5 * math.Erfc((limit-mean)/(sigma*math.Sqrt2))
}

// Where a value depends on its inputs in straight lines its risk has a closed
// form, and the samples agree within four standard errors of counting,
// √(p·(1 − p)/n): of 2000 samples 4 × 0.0067 where p is 0.1.
func TestRisksAgainstTheClosedForm(t *testing.T) {
	const samples = 2000
	for _, c := range []struct {
		name, rule string
		change     func(*job.Job)
		want       func(r geometry.Result) float64
	}{
		// The pipe's fall: only what the pipe is laid to counts. ±3 mm over a
		// metre, two standard deviations.
		{"pipe's fall", "uk-gradient-min-50", func(j *job.Job) { j.Waste.Gradient = 0.020 },
			func(r geometry.Result) float64 { return above(0.020, 0.018, 1.5/1000) }},
		// The tile's fall: ±2 mm over its 817 mm.
		{"tile's fall", "uk-fall-min", func(j *job.Job) { j.Former.Slope = 1.0/80 + 0.0005 },
			func(r geometry.Result) float64 { return above(1.0/80+0.0005, 1.0/80, 1.0/817) }},
		// The step at the door: floor 3, tanking 0.3, bed 1, tile 0.5 and the
		// neighbour's 1, by the root of the sum of squares.
		{"step at the door", "uk-door-acc", func(j *job.Job) {
			j.Accessible = true
			j.Room.Doorways[0].NeighbourFFLMM = 13 - 14
		}, func(r geometry.Result) float64 {
			sigma := math.Sqrt(9+0.09+1+0.25+1) / 2
			return above(15, 14, sigma) + above(15, -14, sigma)
		}},
	} {
		j := job.New()
		c.change(&j)
		r, rs := risks(t, j, samples)
		want := c.want(r)
		got := riskOf(rs, c.rule).Probability
		if limit := 4 * math.Sqrt(want*(1-want)/samples); want < 0.01 || want > 0.99 || math.Abs(got-want) > limit {
			t.Errorf("%s: %.4f of the samples break the rule, closed form %.4f ± %.4f", c.name, got, want, limit)
		}
	}
}

// The limit used above is the pack's own.
func TestDoorLimitOfTheRisk(t *testing.T) {
	for _, r := range demotest.Packs(t)["UK"].About("step.door") {
		if r.ID == "uk-door-acc" && r.Limit == 15 {
			return
		}
	}
	t.Error("the accessible step is not 15")
}

// Tolerances of the starting job by hand. Tile at the drain: floor 3, base 1,
// bed 1, former 1, tanking 0.3, tile bed 1, tile 0.5. The step at the front
// edge: the floor lifts both sides and drops out; base, bed, former, the fall's
// 2, and the layers of both sides. Cover over the pipe at the outlet: bed and
// former lower the outlet's flange but not the base.
func TestSpreadsByHand(t *testing.T) {
	r := geometry.Evaluate(job.New(), demotest.Packs(t)["UK"])
	layers := 0.3*0.3 + 1 + 0.5*0.5
	for label, want := range map[string][2]float64{
		"row.tile-at-drain":                {3 + 1 + 1 + 1 + 1.8, math.Sqrt(9 + 3 + layers)},
		"row.edge-step{at: edge.at-front}": {3 + 2 + 3.6, math.Sqrt(3 + 4 + 2*layers)},
		"row.door-step{n: 1}":              {3 + 1.8 + 1, math.Sqrt(9 + layers + 1)},
		"row.outlet-invert":                {3 + 1 + 1 + 1 + 1, math.Sqrt(9 + 4)},
		"row.exit-invert":                  {3 + 1 + 1 + 1 + 1 + 3*0.645, math.Sqrt(9 + 4 + 9*0.645*0.645)},
	} {
		found := false
		for _, row := range r.Schedule {
			if row.Message().String() == label {
				found = true
				if math.Abs(row.Worst-want[0]) > 1e-6 || math.Abs(row.Statistical-want[1]) > 1e-6 {
					t.Errorf("%s: ±%.4f at worst, ±%.4f; by hand %.4f, %.4f", label, row.Worst, row.Statistical, want[0], want[1])
				}
			}
		}
		if !found {
			t.Errorf("no row %q", label)
		}
	}
}

// A measured base is as good as the laser, whatever the floor; what stands on
// it keeps its own tolerances.
func TestSpreadsOfWhatIsBuilt(t *testing.T) {
	topMM := 72.0
	j := job.New()
	j.AsBuilt.BaseTopMM = &topMM
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	layers := 0.3*0.3 + 1 + 0.5*0.5
	want := map[string]float64{"row.base-top": 1, "row.tile-at-drain": math.Sqrt(1 + 2 + layers)}
	for _, row := range r.Schedule {
		by, ok := want[row.Message().String()]
		if ok && math.Abs(row.Statistical-by) > 1e-6 {
			t.Errorf("%s: ±%.4f, by hand %.4f", row.Message().String(), row.Statistical, by)
		}
		delete(want, row.Message().String())
	}
	if len(want) > 0 {
		t.Errorf("no rows %v", want)
	}
}

// The input named is the one that contributes most, with its share of the
// variance: neighbour's floor ±4 against ±√(9+1.34) of the rest. Of 1500 samples the
// correlation, √0.607, is known to (1 − 0.607)/√1500 = 0.0101, its square to twice
// 0.779 of that, 0.0158: four of those are 0.063.
func TestRiskNamesItsMainInput(t *testing.T) {
	j := job.New()
	j.Accessible = true
	j.Room.Doorways[0].NeighbourFFLMM = 13 - 14
	j.Tolerances.DoorwayMM = 4
	_, rs := risks(t, j, 1500)
	r := riskOf(rs, "uk-door-acc")
	if want := 16 / (16 + 10.34); r.Main != (message.Numbered{ID: "input.floor-beyond-doorway", Number: 1}) || math.Abs(r.MainShare-want) > 0.063 {
		t.Errorf("%v has %.3f of it, want the floor beyond the doorway with %.3f", r.Main, r.MainShare, want)
	}
}

// How much higher to set the base: with the trap alone in the way, base, bed,
// former and trap each ±1 make σ = 1, so 95 of 100 need 1.645 mm more. Set that
// much higher nothing more is needed, and the base is too low in 5 of 100.
//
// Of 2500 samples 5 of 100 are known to √(0.05·0.95/2500) = 0.00436, and where the
// normal density is 0.103, the margin to 0.00436/0.103 = 0.0423: four of those are
// 0.169. The second count starts from the first's margin, so both are √2 of that.
func TestBaseMargin(t *testing.T) {
	j := job.New()
	j.Drain.OutletInvertDepthMM = 40 // the pipe lies far over the floor
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	c, err := count(context.Background(), r, 2500, 3)
	if err != nil || math.Abs(c.MarginMM-1.645) > 0.169 {
		t.Errorf("%.3f mm more, want 1.645", c.MarginMM)
	}
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, r.Heights.BaseTopMM-r.Heights.BaseUnderMM+c.MarginMM
	c, _ = count(context.Background(), geometry.Evaluate(j, demotest.Packs(t)["UK"]), 2500, 4)
	if p := riskOf(c.Risks, "base-low").Probability; math.Abs(c.MarginMM) > 0.24 || math.Abs(p-0.05) > 0.0247 {
		t.Errorf("set higher it needs %.3f mm more and is too low in %.1f of 100", c.MarginMM, 100*p)
	}
}

// The same seed gives the same answer whatever the number of processors.
func TestRisksRepeat(t *testing.T) {
	j := demotest.Rooms(t)[4].Job
	_, a := risks(t, j, 300)
	before := runtime.GOMAXPROCS(1)
	_, b := risks(t, j, 300)
	runtime.GOMAXPROCS(before)
	if d := cmp.Diff(a, b); d != "" {
		t.Error(d)
	}
}

// What is broken by far is certain, what is kept by far is not listed, and a
// cancelled count gives nothing. The seal of the job that cannot be built is 20
// short and its shower's flow a ninth over what its trap carries, and neither has a
// tolerance; the slab's pipe falls 1:40 where 18 mm in a metre are enough, by more
// than four standard deviations of 1.5.
func TestRisksOfTheDemos(t *testing.T) {
	for _, d := range demotest.Rooms(t) {
		r, rs := risks(t, d.Job, 100)
		for _, x := range rs {
			if x.Probability < 0 || x.Probability > 1 || x.MainShare < 0 || x.MainShare > 1 {
				t.Errorf("%s: %+v", d.File, x)
			}
			if x.Planned && x.Probability < 0.5 {
				t.Errorf("%s: %s is broken as planned and yet only %.2f likely", d.File, x.Rule.ID, x.Probability)
			}
		}
		switch cannot := strings.Contains(d.File, "cannot"); {
		case cannot:
			for _, id := range []string{"uk-seal", "trap-flow", "drain-strip"} {
				if x := riskOf(rs, id); x.Probability != 1 || !x.Planned {
					t.Errorf("%s: %s is %.2f likely, planned %v", d.File, id, x.Probability, x.Planned)
				}
			}
		case strings.HasPrefix(d.File, "1-"):
			for _, id := range []string{"uk-seal", "uk-gradient-min-50", "uk-gradient-max-50", "trap-flow", "pipe-flow"} {
				if x := riskOf(rs, id); x.Probability != 0 {
					t.Errorf("%s: %s is listed with %.2f", d.File, id, x.Probability)
				}
			}
			// The trap stands on the floor: an even chance, of 300 within four
			// standard errors of 0.0289.
			if x := riskOf(rs, "trap-floor"); x.Planned || math.Abs(x.Probability-0.5) > 0.116 {
				t.Errorf("%s: the trap meets the floor in %.2f, planned %v", d.File, x.Probability, x.Planned)
			}
		}
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		if got, err := count(ctx, r, 100, 1); err == nil || len(got.Risks) > 0 {
			t.Errorf("%s: a cancelled count gives %d risks", d.File, len(got.Risks))
		}
	}
}

// A bound that some samples find on a high spot of the floor and others on the floor
// is one risk: a reading of 1 proud of its plane, give or take as much, holds up the
// trap either way.
func TestOneBoundIsOneRisk(t *testing.T) {
	j := job.New()
	j.SpotLevels = []job.SpotLevel{
		{At: plan.Point{300, 400}}, {At: plan.Point{2100, 400}}, {At: plan.Point{300, 1500}}, {At: plan.Point{700, 1800}, LevelMM: 1, ToleranceMM: 1}, {At: plan.Point{2100, 1800}},
	}
	_, rs := risks(t, j, 400)
	seen := map[string]int{}
	for _, r := range rs {
		if r.Rule.ID == "base-low" {
			seen[strings.TrimSuffix(strings.TrimSuffix(string(r.Measurement.Subject.Which), "-on-high-spot"), "-on-floor")+r.Measurement.Subject.Piece.Message().String()]++
		}
	}
	if len(seen) == 0 {
		t.Fatal("the base is never too low")
	}
	for of, n := range seen {
		if n > 1 {
			t.Errorf("%s is %d risks", of, n)
		}
	}
}

// A probability is told in so many of a hundred, but nothing as certain or as never
// before it rounds to that; an input that has less than a fifth is not named.
func TestWordsOfARisk(t *testing.T) {
	in := func(n int) message.Message { return message.Of("chance.in-100", message.No("n", n)) }
	for p, want := range map[float64]message.Message{
		0: message.Of("chance.least"), 0.00499: message.Of("chance.least"), 0.005: in(1), 0.0149: in(1), 0.0151: in(2), 0.5: in(50),
		0.994: in(99), 0.9951: message.Of("chance.certain"), 1: message.Of("chance.certain"),
	} {
		if d := cmp.Diff(want, chance.Risk{Probability: p}.Chance()); d != "" {
			t.Errorf("%v: %s", p, d)
		}
	}
	base := message.Numbered{ID: "input.base", Number: 2}
	for share, want := range map[float64]message.Message{
		0.1999: {}, 0.2: message.Of("chance.main", message.In("input", base.Message()), message.Arg{Name: "share", Value: message.Share(0.2)}),
		0.236: message.Of("chance.main", message.In("input", base.Message()), message.Arg{Name: "share", Value: message.Share(0.24)}),
	} {
		if d := cmp.Diff(want, chance.Risk{Main: base, MainShare: share}.From()); d != "" {
			t.Errorf("a share of %v: %s", share, d)
		}
	}
	if got := (chance.Risk{MainShare: 1}).From(); !got.IsZero() {
		t.Errorf("of no input: %v", got)
	}
}

// Courses come out otherwise as all layers do: ±3 under the base, ±2 under the shower's
// tanking, ±4 under the room's, beside what there is without them.
func TestSpreadsOfCourses(t *testing.T) {
	course := func(k job.CourseKind, mm, toleranceMM float64) []job.Course {
		return []job.Course{{Kind: job.CoursePrimer}, {Kind: k, Layer: job.Layer{ThicknessMM: mm, ToleranceMM: toleranceMM}}}
	}
	j := job.New()
	j.Base.Under, j.Layers.Room.Under = course(job.CourseScreed, 65, 3), course(job.CourseScreed, 50, 4)
	j.Layers.Shower.Under = course(job.CourseHeating, 6, 2)
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	layers := 0.3*0.3 + 1 + 0.5*0.5
	want := map[string][2]float64{
		"row.tile-at-drain":                {3 + 3 + 3 + 1.8 + 2, math.Sqrt(9 + 9 + 3 + layers + 4)},
		"row.edge-step{at: edge.at-front}": {3 + 2 + 3.6 + 3 + 2 + 4, math.Sqrt(3 + 4 + 2*layers + 9 + 4 + 16)},
		"row.door-step{n: 1}":              {3 + 1.8 + 1 + 4, math.Sqrt(9 + layers + 1 + 16)},
		"row.outlet-invert":                {3 + 3 + 4, math.Sqrt(9 + 9 + 4)},
	}
	for _, row := range r.Schedule {
		by, ok := want[row.Message().String()]
		if ok && (math.Abs(row.Worst-by[0]) > 1e-6 || math.Abs(row.Statistical-by[1]) > 1e-6) {
			t.Errorf("%s: ±%.4f at worst, ±%.4f; by hand %.4f, %.4f", row.Message(), row.Worst, row.Statistical, by[0], by[1])
		}
		delete(want, row.Message().String())
	}
	if len(want) > 0 {
		t.Errorf("no rows %v", want)
	}
}

// A floor without readings is off by as much where it is set down as beside it, also where
// the datum lies there: ±3 and nothing of the 50.
func TestSpreadOfASetDownFloor(t *testing.T) {
	j := job.New()
	j.Shower.Wall, j.Shower.OffsetMM, j.Room.Doorways = 0, 0, nil
	j.Floor.SetDownMM = 50
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	found := false
	for _, row := range r.Schedule {
		if row.Message().ID == "row.floor-high" {
			found = true
			if row.Value != -50 || math.Abs(row.Worst-3) > 1e-9 {
				t.Errorf("the floor is at %v ± %v, want -50 ± 3", row.Value, row.Worst)
			}
		}
	}
	if !found || len(r.Problems) > 0 || !r.Layout.FallArea.Contains([2]float64{}, 0) {
		t.Errorf("the shower lies over %v: %v", r.Layout.FallArea, r.Problems)
	}
}
