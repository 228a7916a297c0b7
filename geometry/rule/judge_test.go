package rule_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// A rule holds up to its limit and a millionth of it over, at least a millionth:
// of 1000 that is 0.001. What is no number breaks every rule, and a caution
// applies whatever the value.
func TestBrokenOnBothSides(t *testing.T) {
	for _, c := range []struct {
		compare      rule.Compare
		limit, value float64
		broken       bool
	}{
		{rule.AtLeast, 20, 20, false}, {rule.AtLeast, 20, 21, false}, {rule.AtLeast, 20, 19.99, true},
		{rule.AtLeast, 20, math.Inf(1), false}, {rule.AtLeast, 20, math.Inf(-1), true},
		{rule.AtMost, 20, 20, false}, {rule.AtMost, 20, 19, false}, {rule.AtMost, 20, 20.01, true},
		{rule.AtMost, 20, math.Inf(1), true}, {rule.AtMost, 20, math.Inf(-1), false},
		{rule.AtLeast, 1000, 1000 - 0.00098, false}, {rule.AtLeast, 1000, 1000 - 0.00102, true},
		{rule.AtLeast, -1000, -1000 - 0.00098, false}, {rule.AtLeast, -1000, -1000 - 0.00102, true},
		{rule.AtMost, 1000, 1000 + 0.00098, false}, {rule.AtMost, 1000, 1000 + 0.00102, true},
		{rule.AtMost, -1000, -1000 + 0.00098, false}, {rule.AtMost, -1000, -1000 + 0.00102, true},
		{rule.AtLeast, 0, -0.98e-6, false}, {rule.AtLeast, 0, -1.02e-6, true}, {rule.AtMost, 0, 0.98e-6, false}, {rule.AtMost, 0, 1.02e-6, true},
		{rule.AtLeast, 0, -1e-6, false}, {rule.AtMost, 0, 1e-6, false},
		{rule.AtLeast, 0.02, 0.02 - 0.98e-6, false}, {rule.AtLeast, 0.02, 0.02 - 1.02e-6, true},
		{rule.AtLeast, 20, math.NaN(), true}, {rule.AtMost, 20, math.NaN(), true},
		{rule.Present, 20, 0, true}, {rule.Present, 20, 20, true}, {rule.Present, 20, 40, true}, {rule.Present, 20, math.NaN(), true},
	} {
		r := rule.Rule{Compare: c.compare, Limit: c.limit}
		if got := r.Broken(rule.Measurement{Value: c.value}); got != c.broken || r.BrokenBy(c.value) != got {
			t.Errorf("%v, %s %v: broken %v, want %v", c.value, c.compare, c.limit, got, c.broken)
		}
	}
}

// A rule speaks of a measurement when the quantity is its own, every tag is
// there, none it goes without is, and every fact is between its two values or on
// one.
func TestAppliesByCircumstances(t *testing.T) {
	facts := func(v float64) map[string]float64 { return map[string]float64{"nominalMM": v} }
	when := rule.When{Tags: []string{"accessible", "timber"}, Without: []string{"ventilated", "outdoors"},
		Facts: map[string][2]float64{"nominalMM": {35, 45}}}
	both := []string{"timber", "accessible", "other"}
	for name, c := range map[string]struct {
		quantity string
		tags     []string
		facts    map[string]float64
		want     bool
	}{
		"all":              {"pipe.gradient", both, facts(40), true},
		"another quantity": {"pipe.cover", both, facts(40), false},
		"no tags":          {"pipe.gradient", nil, facts(40), false},
		"first tag only":   {"pipe.gradient", []string{"accessible"}, facts(40), false},
		"second tag only":  {"pipe.gradient", []string{"timber"}, facts(40), false},
		"ventilated":       {"pipe.gradient", append(both[:3:3], "ventilated"), facts(40), false},
		"outdoors":         {"pipe.gradient", append(both[:3:3], "outdoors"), facts(40), false},
		"least size":       {"pipe.gradient", both, facts(35), true},
		"too small":        {"pipe.gradient", both, facts(34.9), false},
		"greatest size":    {"pipe.gradient", both, facts(45), true},
		"too large":        {"pipe.gradient", both, facts(45.1), false},
		"no size":          {"pipe.gradient", both, nil, false},
		"another fact":     {"pipe.gradient", both, map[string]float64{"other": 40}, false},
	} {
		r := rule.Rule{Quantity: "pipe.gradient", When: when}
		if got := r.Applies(rule.Measurement{Quantity: c.quantity, Tags: c.tags, Facts: c.facts}); got != c.want {
			t.Errorf("%s: applies %v, want %v", name, got, c.want)
		}
	}
	// A fact that is not stated lies between no two values, not even about 0.
	if (rule.Rule{When: rule.When{Facts: map[string][2]float64{"nominalMM": {-1, 1}}}}).Applies(rule.Measurement{}) {
		t.Error("a fact that is missing counts as 0")
	}
	// Outside two values it lies below the first or above the second, and is stated.
	outside := rule.Rule{When: rule.When{Outside: map[string][2]float64{"nominalMM": {35, 45}}}}
	for v, want := range map[float64]bool{34.9: true, 35: false, 40: false, 45: false, 45.1: true} {
		if got := outside.Applies(rule.Measurement{Facts: facts(v)}); got != want {
			t.Errorf("%v outside 35 to 45: applies %v, want %v", v, got, want)
		}
	}
	if outside.Applies(rule.Measurement{}) {
		t.Error("a fact that is missing lies outside")
	}
	r := rule.Rule{When: when}
	for tag, want := range map[string]bool{
		"accessible": true, "timber": true, "ventilated": true, "outdoors": true, "other": false, "": false,
	} {
		if got := r.Speaks(tag); got != want {
			t.Errorf("speaks of %q: %v, want %v", tag, got, want)
		}
	}
}

// pipe is a pipe of the run.
func pipe(number int) rule.Subject {
	return rule.Subject{Of: rule.Piece, Piece: message.Numbered{ID: "piece.pipe", Number: number}}
}

// several is a pack of rules on two quantities, and a measurement of each.
func several() (rule.Pack, []rule.Measurement) {
	p := rule.Pack{Rules: []rule.Rule{
		{ID: "advice 1", Quantity: "pipe.cover", Compare: rule.AtLeast, Limit: 10, Severity: rule.Advice},
		{ID: "stop 1", Quantity: "pipe.cover", Compare: rule.AtLeast, Limit: 5, Severity: rule.Stop},
		{ID: "caution", Quantity: "pipe.cover", Compare: rule.Present, Severity: rule.Licensed},
		{ID: "advice 2", Quantity: "pipe.gradient", Compare: rule.AtMost, Limit: 0.1, Severity: rule.Advice},
		{ID: "stop 2", Quantity: "pipe.gradient", Compare: rule.AtMost, Limit: 0.2, Severity: rule.Stop},
		{ID: "licensed", Quantity: "pipe.gradient", Compare: rule.AtMost, Limit: 0.1, Severity: rule.Licensed},
		{ID: "advice 3", Quantity: "pipe.gradient", Compare: rule.AtMost, Limit: 0.1, Severity: rule.Advice},
	}}
	return p, []rule.Measurement{{Quantity: "pipe.gradient", Subject: pipe(1), Value: 0.15},
		{Quantity: "pipe.cover", Subject: pipe(2), Value: 4}}
}

// Findings come gravest first, and among equals in the order of measurements
// and rules. Checks come in that order, kept ones too, without cautions.
func TestOrderOfFindings(t *testing.T) {
	p, ms := several()
	ids := func(fs []rule.Finding) string {
		var out []string
		for _, f := range fs {
			out = append(out, f.Rule.ID)
		}
		return strings.Join(out, ", ")
	}
	if got, want := ids(p.Judge(ms)), "stop 1, licensed, caution, advice 2, advice 3, advice 1"; got != want {
		t.Errorf("found %s, want %s", got, want)
	}
	var checks []string
	for _, c := range p.Checks(ms) {
		checks = append(checks, fmt.Sprintf("%s %v", c.Rule.ID, c.Kept))
	}
	const want = "advice 2 false, stop 2 true, licensed false, advice 3 false, advice 1 false, stop 1 false"
	if got := strings.Join(checks, ", "); got != want {
		t.Errorf("checked %s, want %s", got, want)
	}
	if got := ids(p.Judge(nil)); got != "" {
		t.Errorf("nothing measured, found %s", got)
	}
	// One and two findings.
	if got := ids(p.Judge([]rule.Measurement{{Quantity: "pipe.cover", Value: 30}})); got != "caution" {
		t.Errorf("found %s, want the caution", got)
	}
	if got := ids(p.Judge([]rule.Measurement{{Quantity: "pipe.cover", Value: 7}})); got != "caution, advice 1" {
		t.Errorf("found %s, want caution, advice 1", got)
	}
	if got := p.Judge(ms)[0].Key(); got != "stop 1/"+pipe(2).ID() || !strings.HasSuffix(got, ".2") {
		t.Errorf("the gravest is called %s", got)
	}
	var about []string
	for _, r := range p.About("pipe.cover") {
		about = append(about, r.ID)
	}
	if got := strings.Join(about, ", "); got != "advice 1, stop 1, caution" {
		t.Errorf("about the cover: %s", got)
	}
	if p.About("trap.seal") != nil {
		t.Error("there is no rule on the seal")
	}
	for i, s := range []rule.Severity{rule.Stop, rule.NotKnown, rule.Licensed, rule.Advice, rule.Note} {
		if s.Rank() != i {
			t.Errorf("%s ranks %d, want %d", s, s.Rank(), i)
		}
	}
}

// Of several limits the strictest binds: the greatest least, the least greatest,
// of the rules that compare so and speak of the circumstances.
func TestStrictestLimit(t *testing.T) {
	const q = "pipe.gradient"
	tagged := rule.When{Tags: []string{"steep"}}
	p := rule.Pack{Rules: []rule.Rule{
		{ID: "a", Quantity: q, Compare: rule.AtLeast, Limit: 2}, {ID: "b", Quantity: q, Compare: rule.AtLeast, Limit: 5},
		{ID: "c", Quantity: q, Compare: rule.AtLeast, Limit: 3},
		{ID: "again", Quantity: q, Compare: rule.AtLeast, Limit: 5}, {ID: "d", Quantity: q, Compare: rule.AtMost, Limit: 8},
		{ID: "e", Quantity: q, Compare: rule.AtMost, Limit: 6},
		{ID: "f", Quantity: q, Compare: rule.AtMost, Limit: 7}, {ID: "once more", Quantity: q, Compare: rule.AtMost, Limit: 6},
		{ID: "g", Quantity: q, Compare: rule.AtLeast, Limit: 9, When: tagged},
		{ID: "h", Quantity: q, Compare: rule.AtMost, Limit: 1, When: tagged}, {ID: "i", Quantity: q, Compare: rule.Present, Limit: 77},
		{ID: "j", Quantity: "pipe.cover", Compare: rule.AtLeast, Limit: 99},
		{ID: "k", Quantity: "trap.seal", Compare: rule.AtLeast, Limit: -4},
	}}
	for _, c := range []struct {
		quantity string
		compare  rule.Compare
		tags     []string
		limit    float64
		id       string
	}{{q, rule.AtLeast, nil, 5, "b"}, {q, rule.AtMost, nil, 6, "e"}, {q, rule.AtLeast, []string{"steep"}, 9, "g"},
		{q, rule.AtMost, []string{"steep"}, 1, "h"},
		{"pipe.cover", rule.AtLeast, nil, 99, "j"}, {"pipe.cover", rule.AtMost, nil, 0, ""}, {"trap.seal", rule.AtLeast, nil, -4, "k"}} {
		limit, from, ok := p.Limit(c.quantity, c.compare, nil, c.tags...)
		if limit != c.limit || from.ID != c.id || ok != (c.id != "") {
			t.Errorf("%s, %s, %v: %v by %q, want %v by %q", c.quantity, c.compare, c.tags, limit, from.ID, c.limit, c.id)
		}
	}
}

// A pack without its region, a rule without its id, and two rules of one id are
// refused, and the message counts rules from one.
func TestPacksThatLackSomething(t *testing.T) {
	second := strings.Replace(strings.TrimSuffix(pack[strings.Index(pack, "{\"id\""):], "]}"), `"id":"a"`, `"id":"b"`, 1)
	two := strings.TrimSuffix(pack, "]}") + "," + second + "]}"
	if p, err := rule.ParsePack([]byte(two)); err != nil || len(p.Rules) != 2 {
		t.Fatalf("%d rules, %v", len(p.Rules), err)
	}
	for name, c := range map[string]struct{ old, new, says string }{
		"no region": {`"region":"XX"`, `"region":""`, "region must"},
		"no id":     {`"id":"b"`, `"id":""`, "rule 2 (): the id"},
		"one name":  {`"id":"b"`, `"id":"a"`, "two rules are called a"},
		"no number": {`0.018`, `1e999`, "reading a rule pack"},
		"memory, licensed": {`"severity":"stop","source":{"document":"d","edition":"e","clause":"c","mark":"read"}`,
			`"severity":"licensed","source":{"document":"d","mark":"memory"}`, "memory"},
		"unknown in second": {`"id":"b","quantity":"pipe.gradient"`, `"id":"b","quantity":"pipe.colour"`, "rule 2 (b): quantity"},
		"second unmarked": {`"id":"b","quantity":"pipe.gradient","compare":"at-least","limit":0.018,"when":{"facts":{"nominalMM":[35,45]},"without":["ventilated"]},
  "severity":"stop","source":{"document":"d","edition":"e","clause":"c","mark":"read"}`, `"id":"b","quantity":"pipe.gradient","compare":"at-least","severity":"stop","source":{"document":"d"}`, "rule 2 (b): mark"},
	} {
		text := strings.Replace(two, c.old, c.new, 1)
		if _, err := rule.ParsePack([]byte(text)); text == two || err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want an error about %q", name, err, c.says)
		}
	}
	advises := strings.NewReplacer(`"stop"`, `"advice"`, `"read"`, `"memory"`).Replace(pack)
	if _, err := rule.ParsePack([]byte(advises)); err != nil {
		t.Errorf("a limit from memory that advises: %v", err)
	}
}

// What a finding says of its limit: what should not be there at all has none, and what
// is always said has no number.
func TestWhatFindingsSay(t *testing.T) {
	for _, c := range []struct {
		compare      rule.Compare
		limit, value float64
		want         string
	}{
		{rule.AtLeast, 20, 12, "finding.at-least{subject: piece.pipe{number: 1}, value: 12 mm, limit: 20 mm}"},
		{rule.AtLeast, 0, -1, "found.stands-out{subject: piece.pipe{number: 1}, by: 1 mm, limit: 0 mm}"},
		{rule.AtMost, 20, math.Inf(1), "finding.endless{subject: piece.pipe{number: 1}, limit: 20 mm}"},
		{rule.AtMost, 20, math.NaN(), "finding.unknown{subject: piece.pipe{number: 1}}"},
		{rule.AtMost, 20, 32, "finding.at-most{subject: piece.pipe{number: 1}, value: 32 mm, limit: 20 mm}"},
		{rule.AtMost, 0.01, 3.3, "finding.too-much{subject: piece.pipe{number: 1}, value: 3.3 mm}"},
		{rule.AtMost, 0.01, 0.005, "finding.none{subject: piece.pipe{number: 1}}"},
		{rule.AtMost, 1, 7, "finding.too-much{subject: piece.pipe{number: 1}, value: 7 mm}"}, // a millimetre is let pass
		{rule.AtMost, 1.01, 7, "finding.at-most{subject: piece.pipe{number: 1}, value: 7 mm, limit: 1.01 mm}"},
		{rule.AtMost, 0, -20, "finding.at-most{subject: piece.pipe{number: 1}, value: -20 mm, limit: 0 mm}"},
		{rule.Present, 20, 12, "piece.pipe{number: 1}"},
	} {
		f := rule.Finding{Rule: rule.Rule{Quantity: "pipe.cover", Compare: c.compare, Limit: c.limit},
			Measurement: rule.Measurement{Subject: pipe(1), Value: c.value}}
		if got := f.Message().String(); got != c.want {
			t.Errorf("%s", got)
		}
	}
}

// Of the way out, and of what lies deeper or higher than it may, it is told what the number measures.
func TestWhatIsTooMuchIsNamed(t *testing.T) {
	for quantity, want := range map[string]string{
		"exit.in-sole-plate": "found.into-plate", "exit.in-stud": "found.into-stud", "exit.in-joist": "found.near-joist",
		"core.no-drill-by": "found.over-drill", "exit.too-low": "found.too-low", "exit.too-high": "found.too-high",
		"exit.above-outlet": "found.above-outlet", "exit.narrower": "found.narrower", "trap.into-floor": "found.into-floor",
		"pipe.below-joists": "found.below-joists", "cover.proud-by": "found.above-tile", "cover.short-by": "found.below-tile",
	} {
		f := rule.Finding{Rule: rule.Rule{Quantity: quantity, Compare: rule.AtMost}, Measurement: rule.Measurement{Subject: pipe(1), Value: 33}}
		if got := f.Message().String(); got != want+"{subject: piece.pipe{number: 1}, value: 33 mm, limit: 0 mm}" {
			t.Errorf("%s: %s", quantity, got)
		}
	}
}

// A gap that there is none of says how far one body is in the other, a share what it is
// of.
func TestFindingsOfGapsAndShares(t *testing.T) {
	for _, c := range []struct {
		quantity     string
		compare      rule.Compare
		limit, value float64
		want         string
	}{
		{"clash.deck-gap", rule.AtLeast, -0.01, -12.9, "finding.into{subject: piece.pipe{number: 1}, into: 12.9 mm}"},
		{"clash.joist-gap", rule.AtLeast, 3, -12.9, "finding.into-not-clear{subject: piece.pipe{number: 1}, into: 12.9 mm, limit: 3 mm}"},
		{"clash.joist-gap", rule.AtLeast, 3, 2, "found.clear{subject: piece.pipe{number: 1}, value: 2 mm, limit: 3 mm}"},
		{"joist.bending-share", rule.AtMost, 1, 1.2,
			"finding.at-most{subject: piece.pipe{number: 1}, value: figure.of-strength{value: 1.2 of one}, limit: 1 of one}"},
		{"joist.stiffness", rule.AtLeast, 360, 280,
			"finding.at-least{subject: piece.pipe{number: 1}, value: figure.span-over{value: 280}, limit: 360}"},
	} {
		f := rule.Finding{Rule: rule.Rule{Quantity: c.quantity, Compare: c.compare, Limit: c.limit},
			Measurement: rule.Measurement{Subject: pipe(1), Value: c.value}}
		if got := f.Message().String(); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
	// Every share that is measured is of something.
	for q, kind := range rule.Quantities() {
		f := rule.Finding{Rule: rule.Rule{Quantity: q, Compare: rule.AtMost}}
		if _, named := f.Figure("value").Value.(message.Said); kind == unit.Ratio && !named {
			t.Errorf("%s is a share of nothing", q)
		}
	}
}

// What a rule allows by the depth or the span of a joist is told in millimetres, where the hole is; the limit by the
// last whole one that keeps it: a quarter of 170 is 42.5, and a hole of 43 would be too large; a twelfth of 195 is 16.25,
// and the least would be 17. Small ones have their tenths.
func TestCutsInJoistsAreToldAsLengths(t *testing.T) {
	for _, c := range []struct {
		quantity            string
		compare             rule.Compare
		limit, valueMM, mm  float64
		value, limited, way string
	}{
		{"joist.hole-size", rule.AtMost, 0.25, 60, 200, "figure.hole{value: 60 mm}", "50 mm", "found.most"},
		{"joist.hole-size", rule.AtMost, 0.25, 48.6, 170, "figure.hole{value: 48.6 mm}", "42 mm", "found.most"},
		{"joist.hole-size", rule.AtMost, 1.0 / 3, 70, 195, "figure.hole{value: 70 mm}", "65 mm", "found.most"},
		{"joist.hole-zone", rule.AtLeast, 0.25, 414, 1800, "figure.from-support{value: 414 mm}", "450 mm", "found.least"},
		{"joist.notch-zone", rule.AtMost, 0.25, 512, 1802, "figure.from-support{value: 512 mm}", "450 mm", "found.most"},
		{"joist.notch-length", rule.AtLeast, 1.0 / 12, 12, 195, "figure.notch-long{value: 12 mm}", "17 mm", "found.least"},
		{"joist.hole-off-axis", rule.AtMost, 0.01, 4.2, 195, "figure.off-middle{value: 4.2 mm}", "1.95 mm", "found.most"},
		{"joist.hole-spacing", rule.AtLeast, 3, 150, 60, "figure.holes-apart{value: 150 mm}", "180 mm", "found.least"},
	} {
		m := rule.Measurement{Subject: pipe(1), Value: c.valueMM / c.mm, OfMM: c.mm}
		f := rule.Finding{Rule: rule.Rule{Quantity: c.quantity, Compare: c.compare, Limit: c.limit}, Measurement: m}
		want := c.way + "{subject: piece.pipe{number: 1}, value: " + c.value + ", limit: " + c.limited + "}"
		if got := f.Message().String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// In inches a limit is the last sixteenth that keeps it, not that of its last whole millimetre: a quarter of 7 1/4 in is
// 1 13/16 in, a third 2.4167, which is 2 6/16 and a little.
func TestLimitsOfCutsInInches(t *testing.T) {
	const depthMM = 7.25 * 25.4
	for share, want := range map[float64]string{0.25: `1 13/16"`, 1.0 / 3: `2 3/8"`} {
		f := rule.Finding{
			Rule:        rule.Rule{Quantity: "joist.hole-size", Compare: rule.AtMost, Limit: share},
			Measurement: rule.Measurement{Subject: pipe(1), Value: 0.2, OfMM: depthMM},
		}
		mm, ok := f.Limit().(message.Length)
		if got := unit.Rounded(unit.Bounded(mm.MM, mm.Bound, mm.Round, unit.Imperial), mm.Round, unit.Imperial); !ok || got != want {
			t.Errorf("%v of the depth is told as %s, want %s", share, got, want)
		}
	}
}

// Both numbers are rounded alike: the one that is larger never looks smaller.
func TestRoundingOfFindings(t *testing.T) {
	for _, c := range []struct {
		limit, value float64
		round        message.Round
	}{{3000, 3805.1, message.Whole}, {50.8, 50.79, message.Tenth}, {50, 49.96, message.Whole}, {3, 2.6, message.Tenth},
		{0, 59.7, message.Whole}} {
		f := rule.Finding{Rule: rule.Rule{Quantity: "step.edge", Compare: rule.AtLeast, Limit: c.limit},
			Measurement: rule.Measurement{Value: c.value}}
		for _, v := range []message.Value{f.Value(), f.Limit()} {
			if a, ok := v.(message.Apart); ok {
				v = a.Value
			}
			if got := v.(message.Length).Round; got != c.round {
				t.Errorf("%v beside %v is rounded to %v", c.value, c.limit, got)
			}
		}
	}
}

// A value that breaks its limit is shown so that it does not look the same; one that
// keeps it, as any other.
func TestValuesBesideTheirLimits(t *testing.T) {
	f := rule.Finding{Rule: rule.Rule{Quantity: "trap.seal", Compare: rule.AtLeast, Limit: 50}, Measurement: rule.Measurement{Value: 49.96}}
	value, limit := message.Length{MM: 49.96}, message.Length{MM: 50}
	if f.Value() != (message.Apart{Value: value, From: limit}) || f.Limit() != (message.Apart{Value: limit, From: value}) {
		t.Errorf("%#v, %#v", f.Value(), f.Limit())
	}
	f.Measurement.Value = 50
	if f.Value() != limit || f.Limit() != limit {
		t.Errorf("%#v, %#v", f.Value(), f.Limit())
	}
}

// Figures of a source that its rule's texts name go with the limit.
func TestFiguresOfARule(t *testing.T) {
	r := rule.Rule{ID: "zone", Quantity: "trap.size", Limit: 50,
		Figures: map[string]rule.Figure{"low": {100, unit.Length}, "beside": {1200, unit.Length}, "ratio": {1.6, unit.Count}}}
	if got, want := r.Text().String(), "rule.zone.text{limit: size 50, beside: 1200 mm, low: 100 mm, ratio: 1.6}"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	p := rule.Pack{Region: "UK", Rules: []rule.Rule{r}}
	want := []message.ID{"pack.uk.name", "pack.uk.grounds", "rule.zone.heading", "rule.zone.text", "rule.zone.remedy"}
	if got := p.IDs(); !slices.Equal(got, want) {
		t.Errorf("%v", got)
	}
	if got := rule.QuantityNames(); len(got) != len(rule.Quantities()) || got[0] != "quantity.base.clear-short-by" {
		t.Errorf("%v", got)
	}
}
