package rule_test

import (
	"slices"
	"testing"
	"testing/fstest"

	"underfall/geometry/rule"
)

// A region within another leaves out what names documents of another place, and has again what that
// replaced; it may leave out only what there is, and only of a parent.
func TestDocumentsAreLeftOut(t *testing.T) {
	const load = `"floorLoad":{"kNM2":1.5,"source":{"mark":"common-practice"}},`
	one := func(id, also, document string) string {
		return `{"id":"` + id + `",` + also + `"quantity":"pipe.cover","compare":"at-least","limit":1,"severity":"advice",` +
			`"source":{"document":"` + document + `","edition":"2020","mark":"memory"}}`
	}
	loaded := func(within string) (map[string]rule.Pack, error) {
		return rule.Load(fstest.MapFS{
			"common.json": {Data: []byte(`{"region":"common","edition":"2026-11","rules":[` + one("a", "", "Textbook") + `]}`)},
			"xx.json":     {Data: []byte(`{"region":"XX","edition":"2026-11",` + load + `"rules":[` + one("xx-a", `"replaces":["a"],`, "Book of the east") + `,` + one("xx-b", "", "Book of all") + `]}`)},
			"xx-w.json":   {Data: []byte(within)},
		})
	}
	packs, err := loaded(`{"region":"XX-W","edition":"2026-11","parent":"XX","leavesOut":["Book of the"],"rules":[]}`)
	if err != nil {
		t.Fatal(err)
	}
	ids := func(region string) (out []string) {
		for _, r := range packs[region].Rules {
			out = append(out, r.ID)
		}
		return out
	}
	if east, west := ids("XX"), ids("XX-W"); !slices.Equal(east, []string{"xx-a", "xx-b"}) || !slices.Equal(west, []string{"xx-b", "a"}) {
		t.Errorf("%v and %v", east, west)
	}
	for name, within := range map[string]string{
		"what there is not": `{"region":"XX-W","edition":"2026-11","parent":"XX","leavesOut":["Book of the north"],"rules":[]}`,
		"of no parent":      `{"region":"YY","edition":"2026-11","leavesOut":["Textbook"],` + load + `"rules":[]}`,
	} {
		if _, err := loaded(within); err == nil {
			t.Errorf("%s may be left out", name)
		}
	}
}
