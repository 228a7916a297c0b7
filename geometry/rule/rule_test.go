package rule_test

import (
	"fmt"
	"maps"
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

const pack = `{"region":"XX","edition":"2026-11","floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},"rules":[
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
		{"XX", `"floorLoad":{"kNM2":1.5},`, "mark"},
		{"XX", strings.Replace(of("1.5"), ",", `,"pointKN":10,`, 1), ""},
		{"XX", strings.Replace(of("1.5"), ",", `,"pointKN":10.1,`, 1), "0 to 10 kN"},
		{"XX", strings.Replace(of("1.5"), ",", `,"pointKN":-1,`, 1), "0 to 10 kN"},
		{rule.CommonRegion, "", ""}, {rule.CommonRegion, own, "region's own"},
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
	points := map[string]float64{"UK": 2, "IE": 2, "AU": 1.8, "NZ": 1.8, "DE": 1, "AU-SA": 1.8, "UK-EN": 2, "UK-SC": 2, "UK-WA": 2, "UK-NI": 2}
	want := map[string]float64{"UK": 1.5, "IE": 1.5, "US": 1.92, "AU": 1.5, "NZ": 1.5, "DE": 2, "US-UPC": 1.92, "AU-SA": 1.5, rule.CommonRegion: 0,
		"UK-EN": 1.5, "UK-SC": 1.5, "UK-WA": 1.5, "UK-NI": 1.5}
	for region, p := range packs {
		if p.FloorLoad.KNM2 != want[region] || p.FloorLoad.PointKN != points[region] {
			t.Errorf("%s: %v kN/m² and %v kN, want %v and %v", region, p.FloorLoad.KNM2, p.FloorLoad.PointKN, want[region], points[region])
		}
		for _, r := range p.Rules {
			f, has := r.Figures["load"]
			counts := slices.Contains([]string{"joist.bending-share", "joist.shear-share", "joist.bearing-share",
				"joist.stiffness", "joist.final-stiffness"}, r.Quantity)
			if has != (counts && region != rule.CommonRegion) || has && f != (rule.Figure{Value: want[region], Unit: unit.Load}) {
				t.Errorf("%s, %s: the load is %+v", region, r.ID, f)
			}
		}
	}
}

func TestLoadJoinsCommonRules(t *testing.T) {
	common := strings.NewReplacer(`"XX"`, `"common"`, `"id":"a"`, `"id":"b"`,
		`"floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},`, ``).Replace(pack)
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
		"UK": append([]string{"BS ", "Approved Document", "Building Regulations (England)", "UK National Annex",
			"NHBC", "The Tile Association", "Premier Guarantee"}, european...),
		"IE": append([]string{"Technical Guidance Document", "Irish", "BS "}, european...),
		"DE": append([]string{"DIN ", "VDI ", "German"}, european...),
		"US": {"International ", "IRC ", "IPC ", "2010 ADA", "ADA ", "TCNA", "National Electrical Code"},
		"AU": {"NCC ", "AS ", "AS/NZS "}, "AU-SA": {"NCC "}, "US-UPC": {"Uniform Plumbing Code"},
		"UK-EN": {"Approved Document"},
		"UK-SC": {"Building Standards Technical Handbook"}, "UK-WA": {"Approved Document H (Wales)"}, "UK-NI": {"Technical Booklet"},
		"NZ": {"Acceptable Solution", "NZS ", "AS/NZS ", "Building Performance (MBIE)", "Standards New Zealand"},
	}
	named := func(of []string, document string) bool {
		textbooks := []string{"", "FHWA HEC-22", "Novak and others, Hydraulic Structures"}
		return slices.Contains(textbooks, document) || slices.ContainsFunc(of, func(body string) bool { return strings.HasPrefix(document, body) })
	}
	// from is the region, or the one it lies within, whose rule it is; empty for common ones.
	from := func(region, id string) string {
		for region != "" && !strings.HasPrefix(id, strings.ToLower(region)+"-") {
			region = packs[region].Parent
		}
		return region
	}
	for region, p := range packs {
		for _, r := range p.Rules {
			if !named(bodies[from(region, r.ID)], r.Source.Document) {
				t.Errorf("%s: %s names %s", region, r.ID, r.Source.Document)
			}
		}
		of := slices.Concat(bodies[region], bodies[p.Parent]) // what it does not say itself its parent does
		if !named(of, p.FloorLoad.Source.Document) || !named(of, p.Ramps.Source.Document) {
			t.Errorf("%s: load or ramps name %s, %s", region, p.FloorLoad.Source.Document, p.Ramps.Source.Document)
		}
	}
}

// A region's rule stands in for the common one it names, if that speaks of the same
// quantity and nothing else has taken its place; regions without it keep the common one.
func TestReplacedRules(t *testing.T) {
	const load = `"floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},`
	one := func(id, also, quantity string) string {
		return `{"id":"` + id + `",` + also + `"quantity":"` + quantity +
			`","compare":"at-least","limit":1,"severity":"advice","source":{"mark":"common-practice"}}`
	}
	common := `{"region":"common","edition":"2026-11","rules":[` + one("a", "", "pipe.cover") + `,` + one("b", "", "pipe.gradient") + `]}`
	of := func(region string, rules ...string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte(`{"region":"` + region + `","edition":"2026-11",` + load + `"rules":[` + strings.Join(rules, ",") + `]}`)}
	}
	files := fstest.MapFS{"common.json": {Data: []byte(common)}, "xx.json": of("XX", one("xx-a", `"replaces":["a"],`, "pipe.cover")),
		"yy.json": of("YY")}
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
		"its parent does not":  {one("xx-a", `"replaces":["c"],`, "pipe.cover")},
		"replaced already":     {one("xx-a", `"replaces":["a"],`, "pipe.cover"), one("xx-b", `"replaces":["a"],`, "pipe.cover")},
		"another quantity":     {one("xx-a", `"replaces":["b"],`, "pipe.cover")},
		"xx-b replaces xx-a":   {one("xx-a", "", "pipe.cover"), one("xx-b", `"replaces":["xx-a"],`, "pipe.cover")},
		"two rules are called": {one("xx-a", "", "pipe.cover"), one("xx-a", "", "pipe.cover")},
	} {
		files["xx.json"] = of("XX", rules...)
		if _, err := rule.Load(files); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v, want an error that says %q", err, says)
		}
	}
}

// What lies within a region has its rules, but for those it replaces, and its load; it is
// named after it. By hand: XX has a, replaced by its own, and b; XX-Y replaces both.
func TestRegionsWithinRegions(t *testing.T) {
	one := func(id, also, quantity string) string {
		return `{"id":"` + id + `",` + also + `"quantity":"` + quantity +
			`","compare":"at-least","limit":1,"severity":"advice","source":{"mark":"common-practice"}}`
	}
	file := func(region, also string, rules ...string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte(`{"region":"` + region + `","edition":"2026-11",` + also + `"rules":[` + strings.Join(rules, ",") + `]}`)}
	}
	const load = `"floorLoad":{"kNM2":1.7,"source":{"mark":"common-practice"}},`
	files := fstest.MapFS{
		"common.json": file("common", "", one("a", "", "pipe.cover"), one("b", "", "joist.stiffness")),
		"xx.json":     file("XX", load, one("xx-a", `"replaces":["a"],`, "pipe.cover")),
		"xx-y.json":   file("XX-Y", `"parent":"XX",`, one("xx-y-a", `"replaces":["xx-a"],`, "pipe.cover")),
		"xx-z.json":   file("XX-Z", `"parent":"XX","floorLoad":{"kNM2":3,"source":{"mark":"common-practice"}},`),
	}
	packs, err := rule.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	for region, c := range map[string]struct {
		rules string
		load  float64
	}{"XX": {"xx-a b", 1.7}, "XX-Y": {"xx-y-a b", 1.7}, "XX-Z": {"xx-a b", 3}} {
		var got []string
		for _, r := range packs[region].Rules {
			got = append(got, r.ID)
			if r.ID == "b" && r.Figures["load"].Value != c.load {
				t.Errorf("%s names a load of %v, want %v", region, r.Figures["load"].Value, c.load)
			}
		}
		if strings.Join(got, " ") != c.rules || packs[region].FloorLoad.KNM2 != c.load {
			t.Errorf("%s: %v with %v kN/m², want %s with %v", region, got, packs[region].FloorLoad.KNM2, c.rules, c.load)
		}
	}
	for says, f := range map[string]*fstest.MapFile{
		`parent "YY" is missing`: file("YY-A", `"parent":"YY",`),
		"must be called XX-":     file("YY", `"parent":"XX",`),
		"not to be named":        file("common-A", `"parent":"common",`),
		"year and a month":       {Data: []byte(`{"region":"YY","edition":"2026-13",` + load + `"rules":[]}`)},
		"another rule pack":      file("XX", load),
	} {
		files["zz.json"] = f
		if _, err := rule.Load(files); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v, want an error that says %q", err, says)
		}
	}
}

// Two rules that stop whatever is built are refused, in one pack or between a pack and its
// parent; not where they meet at one value, hold of different things or only advise.
func TestContradictoryRules(t *testing.T) {
	one := func(id, compare string, limit float64, severity, when string) string {
		return fmt.Sprintf(`{"id":%q,"quantity":"trap.seal","compare":%q,"limit":%v,"when":{%s},"severity":%q,"source":{"mark":"derived"}}`, id, compare, limit, when, severity)
	}
	least := one("a", "at-least", 50, "stop", "")
	for name, c := range map[string]struct {
		other   string
		refused bool
	}{
		"less is the most":       {one("xx-b", "at-most", 40, "stop", ""), true},
		"where it is ventilated": {one("xx-b", "at-most", 40, "stop", `"tags":["ventilated"]`), true},
		"of one value":           {one("xx-b", "at-most", 50, "stop", ""), false},
		"more is the most":       {one("xx-b", "at-most", 100, "stop", ""), false},
		"only advised":           {one("xx-b", "at-most", 40, "advice", ""), false},
		"of another quantity":    {strings.Replace(one("xx-b", "at-most", 40, "stop", ""), "trap.seal", "pipe.cover", 1), false},
	} {
		files := fstest.MapFS{
			"common.json": {Data: []byte(`{"region":"common","edition":"2026-11","rules":[` + least + `]}`)},
			"xx.json":     {Data: []byte(`{"region":"XX","edition":"2026-11","floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},"rules":[` + c.other + `]}`)},
		}
		_, err := rule.Load(files)
		if (err != nil) != c.refused || err != nil && !strings.Contains(err.Error(), "nothing keeps both") {
			t.Errorf("%s: %v", name, err)
		}
	}
	// Circumstances that exclude each other let both stand.
	for name, when := range map[string][2]string{
		"a tag and not":      {`"tags":["ventilated"]`, `"without":["ventilated"]`},
		"two sizes":          {`"facts":{"nominalMM":[30,45]}`, `"facts":{"nominalMM":[46,60]}`},
		"inside and outside": {`"facts":{"flowLPS":[0.1,0.2]}`, `"outside":{"flowLPS":[0,0.36]}`},
	} {
		for _, way := range [][2]int{{0, 1}, {1, 0}} {
			common := `{"region":"common","edition":"2026-11","rules":[` + one("a", "at-least", 50, "stop", when[way[0]]) +
				`,` + one("b", "at-most", 40, "stop", when[way[1]]) + `]}`
			if _, err := rule.Load(fstest.MapFS{"common.json": {Data: []byte(common)}}); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

// Cautions, and only they, have a stage of work; two limits are in order; severities are
// those there are.
func TestParsePackHoldsKindsOfRule(t *testing.T) {
	for text, says := range map[string]string{
		`"quantity":"caution.gas","compare":"present","severity":"advice","stage":"laying-waste"`:           "",
		`"quantity":"caution.gas","compare":"present","severity":"advice"`:                                  "stage of work",
		`"quantity":"caution.gas","compare":"present","severity":"advice","stage":"lunch"`:                  "stage of work",
		`"quantity":"caution.gas","compare":"at-most","limit":1,"severity":"advice","stage":"laying-waste"`: "no limit",
		`"quantity":"trap.seal","compare":"at-least","limit":1,"severity":"advice","stage":"laying-waste"`:  "only a standing caution",
		`"quantity":"step.edge","compare":"not-between","limit":3,"to":40,"severity":"advice"`:              "",
		`"quantity":"step.edge","compare":"not-between","limit":3,"to":3,"severity":"advice"`:               "upper limit must be over 3",
		`"quantity":"step.edge","compare":"at-most","limit":3,"to":4,"severity":"advice"`:                   "between two",
		`"quantity":"step.edge","compare":"at-most","limit":3,"severity":"note"`:                            "",
		`"quantity":"step.edge","compare":"at-most","limit":3,"severity":"not-known"`:                       "",
		`"quantity":"step.edge","compare":"at-most","limit":3,"severity":"doubt"`:                           "severity",
	} {
		_, err := rule.ParsePack([]byte(`{"region":"common","edition":"2026-11","rules":[{"id":"a",` + text + `,"source":{"mark":"common-practice"}}]}`))
		if says == "" && err != nil || says != "" && (err == nil || !strings.Contains(err.Error(), says)) {
			t.Errorf("%s: %v, want %q", text, err, says)
		}
	}
}

// A caution from memory may ask for a licensed person; it may not stop.
func TestCautionFromMemory(t *testing.T) {
	for severity, says := range map[string]string{"licensed": "", "advice": "", "stop": "not \"stop\"", "note": "not \"note\""} {
		_, err := rule.ParsePack([]byte(`{"region":"common","edition":"2026-11","rules":[{"id":"a","quantity":"caution.gas","compare":"present","limit":0,"severity":"` + severity + `","stage":"laying-waste","source":{"document":"d","mark":"memory"}}]}`))
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
		return rule.Measurement{Quantity: "pipe.gradient", Subject: pipe(1), Value: v,
			Facts: map[string]float64{"nominalMM": nominal}, Tags: tags}
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
	if got, want := f.Rule.Text().String(), "rule.a.text{limit: 0.018 falling}"; got != want ||
		f.Rule.Heading().ID != "rule.a.heading" || f.Rule.Remedy().ID != "rule.a.remedy" {
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

// replacedByRegions are the common rules, or those of the region that it stands on, that each region replaces.
func replacedByRegions() map[string][]string {
	return map[string][]string{
		"UK": {"edge-step-acc", "door-step-acc", "joist-engineered", "joist-bending", "joist-shear", "joist-bearing", "joist-sag",
			"trap-seal-left", "c-electrics", "c-heating", "headroom"},
		"IE": {"joist-bending", "joist-shear", "c-electrics"},
		"US": {"edge-step-acc", "door-step-acc", "joist-engineered", "joist-tile", "c-electrics", "pipe-narrows", "way-in-acc",
			"c-scald", "c-cover"},
		"US-UPC": {"us-gradient-min", "us-gradient-min-80", "us-length-40", "us-length-50", "us-trap-size", "us-trap-least",
			"us-side", "us-area", "us-way-in", "us-liner",
			"us-length-80", "us-length-100"},
		"AU": {"c-electrics", "edge-lip"}, "NZ": {"c-electrics"}, "AU-SA": nil,
		"UK-EN": nil, "UK-SC": nil, "UK-WA": nil, "UK-NI": nil,
		"DE":              {"edge-step-acc", "door-step-acc", "joist-bending", "joist-shear", "c-electrics"},
		rule.CommonRegion: nil,
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
	replaced := replacedByRegions()
	parents := map[string]string{rule.CommonRegion: "", "US-UPC": "US", "AU-SA": "AU",
		"UK-EN": "UK", "UK-SC": "UK", "UK-WA": "UK", "UK-NI": "UK"}
	typed := typedOut(t)
	// Documents for England do not hold in the other nations: what they replace is had there again.
	otherNations := []string{"UK-SC", "UK-WA", "UK-NI"}
	isEngland := func(id string) bool {
		for _, row := range typed {
			if row[1] == id {
				return strings.HasPrefix(row[7], "Approved Document") || strings.HasPrefix(row[7], "Building Regulations (England)")
			}
		}
		return false
	}
	// all are a region's rules with those of what it stands on; own counts its own.
	var all func(region string) (ids []string, own int)
	all = func(region string) (ids []string, own int) {
		for _, row := range typed {
			if row[0] == region {
				ids = append(ids, row[1])
			}
		}
		own = len(ids)
		parent, known := parents[region]
		if !known {
			parent = rule.CommonRegion
		}
		if parent != "" {
			from, _ := all(parent)
			if slices.Contains(otherNations, region) {
				from = append(slices.DeleteFunc(from, isEngland), "edge-step-acc", "door-step-acc", "headroom", "trap-seal-left")
			}
			ids = append(ids, slices.DeleteFunc(from, func(id string) bool { return slices.Contains(replaced[region], id) })...)
		}
		return ids, own
	}
	for region, p := range packs {
		if _, known := replaced[region]; !known {
			t.Errorf("%s is a region more", region)
			continue
		}
		want, n := all(region)
		var got []string
		for i, r := range p.Rules {
			if prefix := strings.ToLower(region) + "-"; region != rule.CommonRegion && strings.HasPrefix(r.ID, prefix) != (i < n) {
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
		{Quantity: "joist.stiffness", Value: 300}, {Quantity: "joist.bending-share", Value: 2},
		{Quantity: "floor.residual", Value: 6}, {Quantity: "joist.severed", Value: 10},
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
	quantities := slices.Sorted(maps.Keys(rule.Quantities())) // in one order, so that a seed draws the same again
	rapid.Check(t, func(t *rapid.T) {
		var ms []rule.Measurement
		for range rapid.IntRange(0, 20).Draw(t, "n") {
			ms = append(ms, rule.Measurement{Quantity: rapid.SampledFrom(quantities).Draw(t, "q"),
				Value: rapid.Float64Range(-10, 1000).Draw(t, "v"), Facts: map[string]float64{"nominalMM": 40}})
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
