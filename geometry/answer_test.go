package geometry

import (
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/assets"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// with is a result of findings whose base fits in a share of builds.
func with(fits float64, severities ...rule.Severity) Result {
	r := Result{Built: Built{Raises: stage.Raises{Now: stage.Raise{Fits: fits}}}}
	r.Heights.Constraints = []level.Constraint{{By: level.TrapOnFloor}}
	for i, s := range severities {
		r.Findings = append(r.Findings, found([]string{"trap.seal", "pipe.cover", "step.door"}[i], s, i+1, 20))
	}
	return r
}

// The first that holds: stops, not known, tight, sound. Tight is also what comes right in
// fewer than 95 of 100 builds, counted or estimated, or what a stop threatens more often.
func TestStandings(t *testing.T) {
	risk := func(s rule.Severity, p float64) *chance.Chances {
		f := found("joist.severed", s, 1, 5)
		return &chance.Chances{Fits: 0.99, Risks: []chance.Risk{{Rule: f.Rule, Measurement: f.Measurement, Probability: p}}}
	}
	for name, c := range map[string]struct {
		r         Result
		counted   *chance.Chances
		want      Standing
		headline  string
		inHundred int
	}{
		"sound":                  {with(0.95), nil, Sound, "answer.sound-so-far", 95},
		"a note":                 {with(1, rule.Note), nil, Sound, "answer.sound-so-far", 100},
		"advice":                 {with(1, rule.Note, rule.Advice), nil, Tight, "answer.tight{n: 1}", 100},
		"licensed and advice":    {with(1, rule.Licensed, rule.Advice), nil, Tight, "answer.tight-licensed{n: 2, licensed: 1}", 100},
		"not known":              {with(1, rule.Licensed, rule.NotKnown), nil, NotKnown, "answer.not-known{what: rule.pipe.covernot-known.heading{limit: 10 mm}}", 100},
		"stops":                  {with(1, rule.Stop, rule.NotKnown, rule.Stop), nil, Stops, "answer.stops{n: 2}", 0},
		"little to spare":        {with(0.9499), nil, Tight, "answer.chancy", 94},
		"counted to be safe":     {with(0.9499), &chance.Chances{Fits: 0.951}, Sound, "answer.sound", 95},
		"counted to be not":      {with(0.96), &chance.Chances{Fits: 0.94}, Tight, "answer.chancy", 94},
		"more fail than not":     {with(1, rule.Advice), &chance.Chances{Fits: 0.499}, Tight, "answer.unlikely{n: 49}", 49},
		"as many as not":         {with(1, rule.Advice), &chance.Chances{Fits: 0.5}, Tight, "answer.tight{n: 1}", 50},
		"a stop in 5 of 100":     {with(1), risk(rule.Stop, 0.05), Sound, "answer.sound", 95},
		"a stop in 6 of 100":     {with(1), risk(rule.Stop, 0.06), Tight, "answer.chancy", 94},
		"advice may come of it":  {with(1), risk(rule.Advice, 0.5), Sound, "answer.sound", 99},
		"advice will come of it": {with(1), risk(rule.Advice, 0.51), Tight, "answer.chancy", 99},
		"a note will come of it": {with(1), risk(rule.Note, 1), Sound, "answer.sound", 99},
		"cannot be worked out":   {Result{Problems: job.Problems{{}, {}}}, nil, Stops, "answer.stops{n: 2}", 0},
	} {
		// Findings come gravest first.
		slices.SortStableFunc(c.r.Findings, func(a, b rule.Finding) int { return a.Rule.Severity.Rank() - b.Rule.Severity.Rank() })
		a := c.r.Answer(c.counted)
		if a.Standing != c.want || a.Headline().String() != c.headline || a.InHundred() != c.inHundred || len(a.Lines()) == 0 {
			t.Errorf("%s: %s, %s, %d in 100", name, a.Standing, a.Headline(), a.InHundred())
		}
	}
}

// Flush to 3, a lip to 40, a step from there, down as up; by the pack's own rule. Without
// one whatever is not level is a step.
func TestKindsOfStep(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	for mm, want := range map[float64]StepKind{0: Flush, 3: Flush, -3: Flush, 3.1: Lip, -39.9: Lip, 40: AStep, -118: AStep} {
		if got := kindOf(packs["UK"], mm); got != want {
			t.Errorf("%v is %s, want %s", mm, got, want)
		}
	}
	if kindOf(rule.Pack{}, 0) != Flush || kindOf(rule.Pack{}, 5) != AStep {
		t.Error("without a rule a step of 5 is none, or one of nought is one")
	}
}

// What sets the height, and what the next millimetres cost: of what asks for 72, 70 and 76
// with 5 of room under the first, 1 under the second and none under the third the first
// sets 77, the third comes next, 1 lower. The same reason at another place is no other. A base at 76 leaves no room: the
// third holds it up, and the first would at 72.
func TestWhatTheNextMillimetresCost(t *testing.T) {
	h := level.Heights{BaseTopMM: 77, Constraints: []level.Constraint{
		{By: level.TrapOnFloor, BaseTopMM: 71.5, ClearMM: 5},
		{By: level.ThinnestBoard, BaseTopMM: 70, ClearMM: 1},
		{By: level.TrapOnFloor, BaseTopMM: 72, ClearMM: 5, At: mgl64.Vec3{1}},
		{By: level.ExitInvert, BaseTopMM: 76},
	}}
	by, next, lower := priceOf(&h)
	if by.By != level.TrapOnFloor || next.By != level.ExitInvert || math.Abs(lower-1) > 1e-9 {
		t.Errorf("%v, then %v %v lower", by.By, next.By, lower)
	}
	h.BaseTopMM = 76
	if by, next, lower := priceOf(&h); by.By != level.ExitInvert || by.ClearMM != 0 || next.By != level.TrapOnFloor || math.Abs(lower-4) > 1e-9 {
		t.Errorf("low: %v, %v clear, then %v %v lower", by.By, by.ClearMM, next.By, lower)
	}
	h.Constraints = h.Constraints[:1]
	if _, _, lower := priceOf(&h); lower != 0 {
		t.Errorf("nothing else asks for a height, %v lower", lower)
	}
}
