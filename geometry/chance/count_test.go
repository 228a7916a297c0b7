package chance_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"underfall/geometry/chance"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// limit is a rule on a quantity that stops the job.
func limit(quantity string, compare rule.Compare, value float64) rule.Pack {
	return rule.Pack{Rules: []rule.Rule{{ID: "limit", Quantity: quantity, Compare: compare, Limit: value, Severity: rule.Stop}}}
}

// What always breaks a rule is certain and what never does is no risk, however many
// samples there are: each is counted once, and none is left out.
func TestEverySampleIsCounted(t *testing.T) {
	j := sure(func(j *job.Job) { j.Tolerances.BaseMM = 1 })
	for _, samples := range []int{1, 2, 63, 64, 65, 200} {
		c, err := chance.Count(t.Context(), levelled(t, j, limit("trap.seal", rule.AtLeast, 60)), nil, samples, 1)
		if err != nil || len(c.Risks) != 1 || c.Risks[0].Probability != 1 || c.Risks[0].Main != (message.Numbered{}) {
			t.Errorf("of %d samples: %+v, %v", samples, c.Risks, err)
		}
		c, err = chance.Count(t.Context(), levelled(t, j, limit("trap.seal", rule.AtLeast, 40)), nil, samples, 1)
		if err != nil || len(c.Risks) != 0 {
			t.Errorf("of %d samples a rule that is kept: %+v, %v", samples, c.Risks, err)
		}
	}
	// A caution is there whatever is measured.
	if c, err := chance.Count(t.Context(), levelled(t, j, limit("trap.seal", rule.Present, 0)), nil, 10, 1); err != nil || len(c.Risks) > 0 {
		t.Errorf("a caution is a risk: %+v, %v", c.Risks, err)
	}
}

// Without samples or without a job there is nothing to count, and that is said.
func TestNothingToCount(t *testing.T) {
	l := levelled(t, sure(func(*job.Job) {}), rule.Pack{})
	for _, c := range []struct {
		l       stage.Levelled
		samples int
		want    string
	}{{l, 0, "at least one sample"}, {l, -1, "at least one sample"}, {stage.Levelled{}, 10, "could not be worked out"}} {
		got, err := chance.Count(t.Context(), c.l, nil, c.samples, 1)
		if err == nil || !strings.Contains(err.Error(), c.want) || len(got.Risks) > 0 {
			t.Errorf("%d samples: %+v, %v, want that it %s", c.samples, got, err, c.want)
		}
	}
	if _, err := chance.Count(t.Context(), l, nil, 1, 1); err != nil {
		t.Errorf("one sample: %v", err)
	}
}

// The seed decides what is drawn: the same one gives the same, another something else.
func TestSeedsDraw(t *testing.T) {
	l := levelled(t, sure(func(j *job.Job) { j.Tolerances.BaseMM = 2 }), rule.Pack{})
	margin := func(seed uint64) float64 {
		c, err := chance.Count(t.Context(), l, nil, 100, seed)
		if err != nil {
			t.Fatal(err)
		}
		return c.MarginMM
	}
	if a, b, again := margin(1), margin(2), margin(1); a == b || a != again {
		t.Errorf("margins %v, %v and again %v", a, b, again)
	}
}

// What is broken as planned is known as such by its finding.
func TestPlannedRisks(t *testing.T) {
	l := levelled(t, sure(func(j *job.Job) { j.Tolerances.BaseMM = 1 }), limit("trap.seal", rule.AtLeast, 60))
	findings := l.Pack.Judge([]rule.Measurement{{Quantity: "trap.seal", Subject: rule.Subject{Of: rule.Trap}, Value: 50}})
	for _, c := range []struct {
		findings []rule.Finding
		want     bool
	}{{findings, true}, {nil, false}} {
		got, err := chance.Count(t.Context(), l, c.findings, 10, 1)
		if err != nil || len(got.Risks) != 1 || got.Risks[0].Planned != c.want || got.Risks[0].Key() != findings[0].Key() {
			t.Errorf("%+v, %v; want planned %v", got.Risks, err, c.want)
		}
	}
}

// A gap that is too large to be told as planned is followed in the samples that have
// it, with its place. The channel stands 20.5 over the floor, of which 20 are not told; the
// base's ±2 is one standard deviation of 1, so 15.87 of 100 come under 19.5. Of 500
// samples that is known to √(0.1587·0.8413/500) = 0.0163; four of those are 0.0654.
func TestWhatOnlySamplesMeasure(t *testing.T) {
	j := sure(func(j *job.Job) { j.Tolerances.BaseMM = 2; j.Drain.ChannelDepthMM = 95 - 20.5 })
	c, err := chance.Count(t.Context(), levelled(t, j, limit("clash.drain-gap", rule.AtLeast, 19.5)), nil, 500, 3)
	if err != nil || len(c.Risks) != 1 {
		t.Fatalf("%+v, %v", c.Risks, err)
	}
	r := c.Risks[0]
	if math.Abs(r.Probability-0.1587) > 0.0654 {
		t.Errorf("in %v of the samples", r.Probability)
	}
	if m := r.Measurement; m.Subject.String() != "drain-channel-by-floor" || !(m.Value < 20) || m.At.X() < 300 || m.At.X() > 1100 || m.At.Y() < 1817 || m.At.Y() > 1887 {
		t.Errorf("%s is %v at %v", m.Subject, m.Value, m.At)
	}
}

// The margin is what lifts 95 of 100 bases over what they need: a base 10 lower lacks
// 10 more, and one that is high enough has that much to spare.
func TestMarginFollowsTheBase(t *testing.T) {
	margin := func(heightMM float64) float64 {
		j := sure(func(j *job.Job) { j.Tolerances.BaseMM, j.Base.HeightMM = 1, heightMM })
		c, err := chance.Count(t.Context(), levelled(t, j, rule.Pack{}), nil, 200, 1)
		if err != nil {
			t.Fatal(err)
		}
		return c.MarginMM
	}
	at := margin(69)
	if low, high := margin(59), margin(89); math.Abs(low-at-10) > 1e-9 || math.Abs(at-high-20) > 1e-9 {
		t.Errorf("margins %v, 10 lower %v, 20 higher %v", at, low, high)
	}
}

// The first verdict is of so few samples that it comes at once, says that it is rough, and has the
// share that fits within four standard errors of counting, √(p·(1 − p)/n), of the full count's.
func TestFirstVerdict(t *testing.T) {
	const first, full = 500, 10000
	for _, r := range demotest.Results(t) {
		rough, err := chance.First(context.Background(), r.Levelled, r.Findings, chance.Seed)
		if err != nil {
			t.Fatal(err)
		}
		all, err := count(context.Background(), r, full, chance.Seed)
		if err != nil {
			t.Fatal(err)
		}
		if p := all.Fits; !rough.Rough || all.Rough || math.Abs(rough.Fits-p) > 4*math.Sqrt(p*(1-p)/first)+1.0/first {
			t.Errorf("%s: of %d samples %.3f fit, of %d %.3f; rough: %v, %v", r.Stated.Name, first, rough.Fits, full, p, rough.Rough, all.Rough)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := chance.First(ctx, demotest.Results(t)[0].Levelled, nil, chance.Seed); err == nil {
		t.Error("a cancelled one gives a verdict")
	}
}
