package words_test

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/source"
	"underfall/geometry/unit"
)

// Every rule has its words in either units, and in inches none of them shows a metric
// figure, nor an imperial one in millimetres: but for the sizes of pipes, which are
// names.
func TestRulesHaveWords(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	b := book(t)
	sizes := regexp.MustCompile(`(32|40|50) mm (branch|shower branch|pipe|trap|waste)` +
		`|[1-4](-1/2)? in (trap arm|drain|vent|and smaller|shower trap|pipe|only)` +
		`|[23] in(, | pipe| and larger)|least (25|32|40|50|65) mm\.|(50|65|75|90|100|150) mm stack|EN |1-1/[24] in`)
	metric, imperial := regexp.MustCompile(`\d ?(mm|cm|m|l/min|mm/m)\b`), regexp.MustCompile(`\d ?("|in\b|ft\b|in²|gpm)`)
	for region, p := range packs {
		b.Text(p.Name())
		b.Text(p.Grounds())
		if region == rule.CommonRegion {
			continue // its rules are said with each region's load of floors
		}
		for _, r := range p.Rules {
			for _, m := range []message.Message{r.Heading(), r.Text(), r.Remedy()} {
				in, mm := sizes.ReplaceAllString(b.In(unit.Imperial).Say(m), ""), sizes.ReplaceAllString(b.Say(m), "")
				if found := metric.FindString(in); found != "" {
					t.Errorf("%s in inches, %s: “%s” in “%s”", region, m.ID, found, in)
				}
				if found := imperial.FindString(mm); found != "" {
					t.Errorf("%s in millimetres, %s: “%s” in “%s”", region, m.ID, found, mm)
				}
				if strings.Contains(in+mm, "–") {
					t.Errorf("%s: a figure is missing in “%s”", m.ID, mm)
				}
			}
			b.Say(r.Source.Message())
			b.Text(rule.QuantityName(r.Quantity))
		}
	}
	for _, id := range rule.QuantityNames() {
		b.Text(id)
	}
	for _, id := range source.IDs() {
		b.Text(id)
	}
}

// What a finding shows, by hand.
func TestFindingsInWords(t *testing.T) {
	b := book(t)
	pipe := rule.Subject{Of: rule.Piece, Piece: message.Numbered{ID: "piece.pipe", Number: 1}}
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	of := func(id string, subject rule.Subject, value float64) rule.Finding {
		for _, r := range packs["UK"].Rules {
			if r.ID == id {
				return rule.Finding{Rule: r, Measurement: rule.Measurement{Quantity: r.Quantity, Subject: subject, Value: value}}
			}
		}
		t.Fatalf("there is no rule %s", id)
		return rule.Finding{}
	}
	inJoist := func(f rule.Finding) rule.Finding {
		f.Measurement.OfMM = 200
		return f
	}
	for _, c := range []struct {
		f              rule.Finding
		metric, inches string
	}{
		{of("uk-gradient-min-40", pipe, 0.0125),
			"Pipe 1: 1:80 (12.5 mm/m), at least 1:55.6 (18 mm/m)", "Pipe 1: 1/8 in/ft (1.25 %), at least 3/16 in/ft (1.8 %)"},
		{of("uk-seal", rule.Subject{Of: rule.Trap}, 49.96), "Trap: 49.96 mm, at least 50 mm", `Trap: 1.967", at least 1.969"`},
		{of("uk-seal", rule.Subject{Of: rule.Trap}, 50), "Trap: 50 mm, at least 50 mm", `Trap: 1 15/16", at least 1 15/16"`},
		{of("base-low", rule.Subject{Of: rule.Base, Which: "bound.trap-on-floor"}, 3.3),
			"Base, set by the trap over the floor: 3.3 mm too low", `Base, set by the trap over the floor: 1/8" too low`},
		{of("base-low", rule.Subject{Of: rule.Base, Which: "bound.trap-on-floor"}, 0),
			"Base, set by the trap over the floor: none", "Base, set by the trap over the floor: none"},
		{of("uk-length-40", rule.Subject{Of: rule.WasteRun}, 3805.1),
			"Waste run: 3805 mm, at most 3000 mm", `Waste run: 12' 5 13/16", at most 9' 10 1/8"`},
		// Of a joist 200 deep.
		{inJoist(of("uk-hole-size", pipe, 0.286)), "Pipe 1: hole 57 mm, 50 mm is the most", `Pipe 1: hole 2 1/4", 1 15/16" is the most`},
		{of("clash-deck", pipe, -12.9), "Pipe 1: 13 mm into it", `Pipe 1: 1/2" into it`},
		{of("c-gas", rule.Subject{Of: rule.Trap}, 1), "Trap", "Trap"},
	} {
		if got := b.Say(c.f.Message()); got != c.metric {
			t.Errorf("“%s”, want “%s”", got, c.metric)
		}
		if got := b.In(unit.Imperial).Say(c.f.Message()); got != c.inches {
			t.Errorf("“%s”, want “%s”", got, c.inches)
		}
	}
	for id, want := range map[string]string{
		"uk-seal":       "Approved Document H (England), 2015, H1, Table 1 (read in the document)",
		"pipe-wall-gap": "common practice, no source",
		"pipe-cover":    "follows from the geometry",
		"trap-flow":     "the trap's data sheet as entered",
		"uk-fall-min":   "BS 5385-3; BS 5385-4, 2024; 2015 (from memory, not yet checked: look it up)",
	} {
		if got := b.Say(of(id, pipe, 0).Rule.Source.Message()); got != want {
			t.Errorf("%s comes from “%s”, want “%s”", id, got, want)
		}
	}
	if got, want := b.Say(of("uk-seal", pipe, 0).Rule.Text()), "The seal of a shower trap must be at least 50 mm deep."; got != want {
		t.Errorf("“%s”, want “%s”", got, want)
	}
}

// A book without a text for a rule tells of it.
func TestRuleWithoutWords(t *testing.T) {
	s, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	var missing []message.ID
	b := s.Book(words.British, unit.Metric, func(m message.Message) { missing = append(missing, m.ID) })
	b.Say(rule.Rule{ID: "no-such", Quantity: "trap.seal"}.Text())
	if len(missing) != 1 || missing[0] != "rule.no-such.text" {
		t.Errorf("%v", missing)
	}
}

// Whatever breaks its limit is said with other figures than that, in both systems of units, however
// little it is beyond; lengths that fall short as well.
func TestBrokenLimitsLookBroken(t *testing.T) {
	s, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	quantities := slices.Sorted(maps.Keys(rule.Quantities()))
	rapid.Check(t, func(t *rapid.T) {
		quantity := rapid.SampledFrom(quantities).Draw(t, "quantity")
		if k := rule.Quantities()[quantity]; k == unit.Nominal {
			return // a name
		}
		f := rule.Finding{Rule: rule.Rule{Quantity: quantity, Limit: rapid.Float64Range(0.02, 2000).Draw(t, "limit")}}
		if rule.Quantities()[quantity] == unit.Area {
			f.Rule.Limit *= 1e4 // from two square centimetres
		}
		off := f.Rule.Limit * rapid.Float64Range(1e-6, 0.5).Draw(t, "off")
		f.Rule.Compare, f.Measurement.Value = rule.AtLeast, f.Rule.Limit-off
		if rapid.Bool().Draw(t, "at most") {
			f.Rule.Compare, f.Measurement.Value = rule.AtMost, f.Rule.Limit+off
		}
		for _, system := range []unit.System{unit.Metric, unit.Imperial} {
			b := s.Book(words.British, system, func(m message.Message) { t.Errorf("no words for %s", m) })
			if value, limit := b.Value(f.Value()), b.Value(f.Limit()); value == limit && f.Rule.BrokenBy(f.Measurement.Value) {
				t.Errorf("%s: %v against %v are both “%s”", quantity, f.Measurement.Value, f.Rule.Limit, value)
			}
		}
		needs := rapid.Float64Range(0.1, 5000).Draw(t, "needs")
		has := needs - needs*rapid.Float64Range(1e-4, 0.5).Draw(t, "short")
		f = rule.Finding{Rule: rule.Rule{Quantity: "ramp.short-by", Compare: rule.AtMost},
			Measurement: rule.Measurement{Quantity: "ramp.short-by", NeedsMM: needs, HasMM: has, Value: needs - has}}
		m := f.Message()
		b := s.Book(words.British, unit.Metric, func(m message.Message) { t.Errorf("no words for %s", m) })
		if m.ID != "finding.short" || b.Value(m.Args[1].Value) == b.Value(m.Args[2].Value) {
			t.Errorf("%v of %v: %s", f.Measurement.HasMM, needs, b.Say(m))
		}
	})
}
