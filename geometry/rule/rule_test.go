package rule_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

const pack = `{"region":"XX","floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},"rules":[
 {"id":"a","quantity":"pipe.gradient","compare":"at-least","limit":0.018,"when":{"facts":{"nominalMM":[35,45]},"without":["ventilated"]},
  "severity":"stop","source":{"document":"d","edition":"e","clause":"c","mark":"read"}}]}`

func TestParsePackRefuses(t *testing.T) {
	if _, err := rule.ParsePack([]byte(pack)); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct{ old, new, says string }{
		"unknown quantity":   {"pipe.gradient", "pipe.colour", "pipe.colour"},
		"unknown comparison": {"at-least", "about", "about"},
		"unknown severity":   {`"stop"`, `"grave"`, "grave"},
		"memory that stops":  {`"read"`, `"memory"`, "may not stop"},
		"practice that does": {`"read"`, `"common-practice"`, "may not stop"},
		"memory that says who decides": {`"stop","source":{"document":"d","edition":"e","clause":"c","mark":"read"`,
			`"licensed","source":{"document":"d","mark":"memory"`, "only advise"},
		"unknown mark":  {`"read"`, `"trust me"`, "trust me"},
		"no source":     {`"document":"d"`, `"document":""`, "source"},
		"a web address": {`"document":"d"`, `"document":"https://example.org"`, "web address"},
		"unknown field": {`"limit"`, `"limits"`, "limits"},
		"words":         {`"severity"`, `"text":"t","severity"`, "text"},
		"truncated":     {`"mark":"read"}}]}`, "", "reading"},
	} {
		if _, err := rule.ParsePack([]byte(strings.Replace(pack, c.old, c.new, 1))); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want an error about %q", name, err, c.says)
		}
	}
}

// Every region has a load of floors from 0.5 to 10 kN/m², with its source; the common
// rules have none.
func TestLoadOfFloors(t *testing.T) {
	const own = `"floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},`
	of := func(kNM2 string) string {
		return `"floorLoad":{"kNM2":` + kNM2 + `,"source":{"mark":"common-practice"}},`
	}
	for _, c := range []struct{ region, load, says string }{
		{"XX", of("0.5"), ""}, {"XX", of("10"), ""}, {"XX", of("0.49"), "0.5 to 10"}, {"XX", of("10.1"), "0.5 to 10"}, {"XX", "", "0.5 to 10"},
		{"XX", `"floorLoad":{"kNM2":1.5},`, "mark"}, {"XX", strings.Replace(of("1.5"), ",", `,"pointKN":10,`, 1), ""}, {"XX", strings.Replace(of("1.5"), ",", `,"pointKN":10.1,`, 1), "0 to 10 kN"},
		{"XX", strings.Replace(of("1.5"), ",", `,"pointKN":-1,`, 1), "0 to 10 kN"}, {rule.CommonRegion, "", ""}, {rule.CommonRegion, own, "region's own"},
	} {
		p, err := rule.ParsePack([]byte(strings.NewReplacer(`"XX"`, `"`+c.region+`"`, own, c.load).Replace(pack)))
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%s with %s: %v, want an error about %q", c.region, c.load, err, c.says)
		}
		if c.region == rule.CommonRegion && p.FloorLoad.KNM2 != 0 {
			t.Errorf("the common load is %v", p.FloorLoad.KNM2)
		}
	}
}

// Loads as the packs' sources have them, typed a second time on purpose; from memory. 40
// pounds on a square foot are 40 × 4.448 N over 0.0929 m², 1.915 kN/m². The rules it
// counts for name it, and no others.
func TestLoadsOfFloorsByRegion(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	points := map[string]float64{"UK": 2, "IE": 2, "AU": 1.8, "NZ": 1.8, "DE": 1}
	want := map[string]float64{"UK": 1.5, "IE": 1.5, "US": 1.92, "AU": 1.5, "NZ": 1.5, "DE": 2, rule.CommonRegion: 0}
	for region, p := range packs {
		if p.FloorLoad.KNM2 != want[region] || p.FloorLoad.PointKN != points[region] {
			t.Errorf("%s: %v kN/m² and %v kN, want %v and %v", region, p.FloorLoad.KNM2, p.FloorLoad.PointKN, want[region], points[region])
		}
		for _, r := range p.Rules {
			f, has := r.Figures["load"]
			counts := slices.Contains([]string{"joist.bending-share", "joist.shear-share", "joist.stiffness", "joist.final-stiffness"}, r.Quantity)
			if has != (counts && region != rule.CommonRegion) || has && f != (rule.Figure{Value: want[region], Unit: unit.Load}) {
				t.Errorf("%s, %s: the load is %+v", region, r.ID, f)
			}
		}
	}
}

func TestLoadJoinsCommonRules(t *testing.T) {
	common := strings.NewReplacer(`"XX"`, `"common"`, `"id":"a"`, `"id":"b"`, `"floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},`, ``).Replace(pack)
	packs, err := rule.Load(fstest.MapFS{"xx.json": {Data: []byte(pack)}, "common.json": {Data: []byte(common)}})
	if err != nil || len(packs["XX"].Rules) != 2 || len(packs[rule.CommonRegion].Rules) != 1 {
		t.Fatalf("%+v, %v", packs, err)
	}
	if _, err := rule.Load(fstest.MapFS{"xx.json": {Data: []byte(pack)}}); err == nil {
		t.Error("packs without common rules load")
	}
}

// No document is named where it does not hold: what is common names none of any place,
// and each region only those of the bodies that write for it.
func TestDocumentsStayInTheirRegions(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	european := []string{"EN ", "BS EN ", "I.S. "}
	bodies := map[string][]string{
		"UK": append([]string{"BS ", "Approved Document", "Building Regulations (England)", "UK National Annex", "NHBC", "The Tile Association", "Premier Guarantee"}, european...),
		"IE": append([]string{"Technical Guidance Document", "Irish", "BS "}, european...),
		"DE": append([]string{"DIN ", "VDI ", "German"}, european...),
		"US": {"International ", "IRC ", "IPC ", "2010 ADA", "ADA ", "Uniform Plumbing Code", "TCNA", "National Electrical Code"},
		"AU": {"NCC ", "AS ", "AS/NZS "},
		"NZ": {"Acceptable Solution", "NZS ", "AS/NZS ", "Building Performance (MBIE)", "Standards New Zealand"},
	}
	named := func(of []string, document string) bool {
		textbooks := []string{"", "FHWA HEC-22", "Novak and others, Hydraulic Structures"}
		return slices.Contains(textbooks, document) || slices.ContainsFunc(of, func(body string) bool { return strings.HasPrefix(document, body) })
	}
	for region, p := range packs {
		for _, r := range p.Rules {
			of := bodies[region]
			if !strings.HasPrefix(r.ID, strings.ToLower(region)+"-") {
				of = nil
			}
			if !named(of, r.Source.Document) {
				t.Errorf("%s: %s names %s", region, r.ID, r.Source.Document)
			}
		}
		if !named(bodies[region], p.FloorLoad.Source.Document) || !named(bodies[region], p.Ramps.Source.Document) {
			t.Errorf("%s: load or ramps name %s, %s", region, p.FloorLoad.Source.Document, p.Ramps.Source.Document)
		}
	}
}

// A region's rule stands in for the common one it names, if that speaks of the same
// quantity and nothing else has taken its place; regions without it keep the common one.
func TestReplacedRules(t *testing.T) {
	const load = `"floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},`
	one := func(id, also, quantity string) string {
		return `{"id":"` + id + `",` + also + `"quantity":"` + quantity + `","compare":"at-least","limit":1,"severity":"advice","source":{"mark":"common-practice"}}`
	}
	common := `{"region":"common","rules":[` + one("a", "", "pipe.cover") + `,` + one("b", "", "pipe.gradient") + `]}`
	of := func(region string, rules ...string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte(`{"region":"` + region + `",` + load + `"rules":[` + strings.Join(rules, ",") + `]}`)}
	}
	files := fstest.MapFS{"common.json": {Data: []byte(common)}, "xx.json": of("XX", one("xx-a", `"replaces":"a",`, "pipe.cover")), "yy.json": of("YY")}
	packs, err := rule.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	for region, want := range map[string]string{"XX": "xx-a b", "YY": "a b", rule.CommonRegion: "a b"} {
		var got []string
		for _, r := range packs[region].Rules {
			got = append(got, r.ID)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s has %v, want %s", region, got, want)
		}
	}
	for says, rules := range map[string][]string{
		"no common rule":       {one("xx-a", `"replaces":"c",`, "pipe.cover")},
		"replaced already":     {one("xx-a", `"replaces":"a",`, "pipe.cover"), one("xx-b", `"replaces":"a",`, "pipe.cover")},
		"another quantity":     {one("xx-a", `"replaces":"b",`, "pipe.cover")},
		"which is no common":   {one("xx-a", "", "pipe.cover"), one("xx-b", `"replaces":"xx-a",`, "pipe.cover")},
		"two rules are called": {one("xx-a", "", "pipe.cover"), one("xx-a", "", "pipe.cover")},
	} {
		files["xx.json"] = of("XX", rules...)
		if _, err := rule.Load(files); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v, want an error that says %q", err, says)
		}
	}
}

// A caution from memory may ask for a licensed person; it may not stop.
func TestCautionFromMemory(t *testing.T) {
	for severity, says := range map[string]string{"licensed": "", "advice": "", "stop": "may not stop"} {
		_, err := rule.ParsePack([]byte(`{"region":"common","rules":[{"id":"a","quantity":"caution.gas","compare":"present","limit":0,"severity":"` + severity + `","source":{"document":"d","mark":"memory"}}]}`))
		if says == "" && err != nil || says != "" && (err == nil || !strings.Contains(err.Error(), says)) {
			t.Errorf("%s: %v, want %q", severity, err, says)
		}
	}
}

func TestJudge(t *testing.T) {
	p, err := rule.ParsePack([]byte(pack))
	if err != nil {
		t.Fatal(err)
	}
	m := func(v, nominal float64, tags ...string) rule.Measurement {
		return rule.Measurement{Quantity: "pipe.gradient", Subject: pipe(1), Value: v, Facts: map[string]float64{"nominalMM": nominal}, Tags: tags}
	}
	for name, c := range map[string]struct {
		m    rule.Measurement
		want int
	}{
		"too flat": {m(0.01, 40), 1}, "at the limit": {m(0.018, 40), 0}, "steep enough": {m(0.02, 40), 0}, "another size": {m(0.01, 50), 0},
		"ventilated": {m(0.01, 40, "ventilated"), 0}, "not a number": {m(math.NaN(), 40), 1}, "no size": {rule.Measurement{Quantity: "pipe.gradient"}, 0},
	} {
		if got := p.Judge([]rule.Measurement{c.m}); len(got) != c.want {
			t.Errorf("%s: %d findings, want %d", name, len(got), c.want)
		}
	}
	f := p.Judge([]rule.Measurement{m(0.0125, 40)})[0]
	if got, want := f.Message().String(), "finding.at-least{subject: piece.pipe{number: 1}, value: 0.0125 falling, limit: 0.018 falling}"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got, want := f.Rule.Text().String(), "rule.a.text{limit: 0.018 falling}"; got != want || f.Rule.Heading().ID != "rule.a.heading" || f.Rule.Remedy().ID != "rule.a.remedy" {
		t.Errorf("%s, want %s", got, want)
	}
}

// The strictest limit is the one that binds.
func TestLimit(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	limit, _, ok := packs["UK"].Limit("pipe.gradient", rule.AtLeast, map[string]float64{"nominalMM": 40})
	if !ok || limit != 0.018 {
		t.Errorf("UK 40 mm: at least %v, want 0.018 (Approved Document H, Diagram 3)", limit)
	}
	if _, _, ok := packs["UK"].Limit("trap.seal", rule.AtMost, nil); ok {
		t.Error("the UK has no greatest seal")
	}
}

// Every region has rules of its own, all common ones after them but for those that it
// replaces, and each rule once. What rules there are is typed out in testdata/limits.txt,
// what a region replaces here.
func TestRegions(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	replaced := map[string][]string{
		"UK": {"edge-step-acc", "door-step-acc", "joist-engineered", "joist-bending", "joist-shear", "joist-sag",
			"trap-seal-left", "c-electrics", "c-heating", "headroom"},
		"IE": {"joist-bending", "joist-shear", "c-electrics"},
		"US": {"edge-step-acc", "door-step-acc", "joist-engineered", "joist-tile", "c-electrics", "pipe-narrows"},
		"AU": {"c-electrics"}, "NZ": {"c-electrics"},
		"DE":              {"edge-step-acc", "door-step-acc", "joist-bending", "joist-shear", "c-electrics"},
		rule.CommonRegion: nil,
	}
	typed := typedOut(t)
	for region, p := range packs {
		without, known := replaced[region]
		if !known {
			t.Errorf("%s is a region more", region)
			continue
		}
		n, want := 0, []string(nil)
		for _, row := range typed {
			switch common := row[0] == rule.CommonRegion; {
			case common && !slices.Contains(without, row[1]):
				want = append(want, row[1])
			case !common && row[0] == region:
				want = append(want, row[1])
				n++
			}
		}
		var got []string
		for i, r := range p.Rules {
			if prefix := strings.ToLower(region) + "-"; strings.HasPrefix(r.ID, prefix) != (i < n) {
				t.Errorf("%s: rule %d is %s", region, i+1, r.ID)
			}
			got = append(got, r.ID)
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s has the rules\n%v\nwant\n%v", region, got, want)
		}
	}
	if len(packs) != len(replaced) {
		t.Errorf("%d packs, want %d", len(packs), len(replaced))
	}
}

// Advice, what a licensed person decides, and a stop come out the other way
// round; two of one gravity stay as they were measured.
func TestGravestFirst(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range packs["UK"].Judge([]rule.Measurement{
		{Quantity: "joist.stiffness", Value: 300}, {Quantity: "joist.bending-share", Value: 2}, {Quantity: "floor.residual", Value: 6}, {Quantity: "joist.severed", Value: 10},
	}) {
		got = append(got, f.Rule.ID)
	}
	if want := []string{"joist-severed", "uk-joist-bending", "joist-tile", "residual"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// A finding never loses its gravity: stops come before all else.
func TestFindingsAreSorted(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	var quantities []string
	for q := range rule.Quantities() {
		quantities = append(quantities, q)
	}
	rapid.Check(t, func(t *rapid.T) {
		var ms []rule.Measurement
		for range rapid.IntRange(0, 20).Draw(t, "n") {
			ms = append(ms, rule.Measurement{Quantity: rapid.SampledFrom(quantities).Draw(t, "q"), Value: rapid.Float64Range(-10, 1000).Draw(t, "v"), Facts: map[string]float64{"nominalMM": 40}})
		}
		last := 0
		for _, f := range packs["UK"].Judge(ms) {
			if k := f.Rule.Severity.Rank(); k < last {
				t.Fatal("a graver finding follows a lighter one")
			} else {
				last = k
			}
		}
	})
}

func FuzzParsePack(f *testing.F) {
	f.Add([]byte(pack))
	f.Fuzz(func(t *testing.T, data []byte) {
		if p, err := rule.ParsePack(data); err == nil {
			p.Judge([]rule.Measurement{{Quantity: "pipe.gradient", Value: 1}})
		}
	})
}
