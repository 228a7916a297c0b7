package guide_test

import (
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry/guide"
)

// The table that comes with Underfall has a figure of every key and a pack of every item in every
// region, packs of American sizes only in America.
func TestTheTableIsWhole(t *testing.T) {
	table, err := assets.Guide()
	if err != nil {
		t.Fatal(err)
	}
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	for region := range packs {
		for _, k := range guide.Keys() {
			for _, mm := range []float64{0, 32, 40, 50, 110} {
				if f := table.Figure(k, region, mm); !(f.Value > 0) && k != guide.WeldPrimer || f.Source.Mark == "" {
					t.Errorf("%s: %s for %v is %+v", region, k, mm, f)
				}
			}
		}
		for _, item := range guide.Items() {
			if p, ok := table.Pack(item, region, ""); !ok || !(p.Holds > 0) {
				t.Errorf("%s: %s is in no pack", region, item)
			}
		}
	}
	us, _ := table.Pack(guide.Adhesive, "US-UPC", "")
	uk, _ := table.Pack(guide.Adhesive, "UK", "")
	if us.Holds < 22.67 || us.Holds > 22.68 || uk.Holds != 20 {
		t.Errorf("bags of %v and %v kg; want 50 lb and 20 kg", us.Holds, uk.Holds)
	}
	// Waste of 40 mm is clipped closer than of 50, and in America every 4 ft.
	for _, c := range []struct {
		region string
		mm     float64
		want   float64
	}{{"UK", 40, 500}, {"UK", 50, 600}, {"US", 40, 1219.2}, {"UK", 110, 900}} {
		if f := table.Figure(guide.ClipSpacingMM, c.region, c.mm); f.Value != c.want {
			t.Errorf("%s, %v mm: clips every %v, want %v", c.region, c.mm, f.Value, c.want)
		}
	}
}

// A pack of one part goes before the usual one.
func TestAPartsOwnPack(t *testing.T) {
	table := guide.Table{Packs: []guide.Pack{{Item: guide.Grout, Holds: 5}, {Item: guide.Grout, Part: "own", Holds: 3}}}
	if p, _ := table.Pack(guide.Grout, "UK", "own"); p.Holds != 3 {
		t.Errorf("the part's own pack holds %v", p.Holds)
	}
	if p, _ := table.Pack(guide.Grout, "UK", "another"); p.Holds != 5 {
		t.Errorf("another part's pack holds %v", p.Holds)
	}
	if _, ok := table.Pack(guide.Tape, "UK", ""); ok {
		t.Error("tape is packed")
	}
}

// A table that nothing can be reckoned with is refused.
func TestBadTables(t *testing.T) {
	for name, text := range map[string]string{
		"no JSON":          `{`,
		"an unknown field": `{"version": 1, "prices": []}`,
		"another version":  `{"version": 2}`,
		"no figures":       `{"version": 1, "packs": [{"item": "grout", "form": "bag", "measure": "mass", "holds": 5, "source": {"mark": "common-practice"}}]}`,
		"a wild figure":    `{"version": 1, "figures": [{"key": "wild", "value": 1, "source": {"mark": "common-practice"}}]}`,
		"less than none":   `{"version": 1, "figures": [{"key": "groutYield", "value": -1, "source": {"mark": "common-practice"}}]}`,
		"no source":        `{"version": 1, "figures": [{"key": "groutYield", "value": 1, "source": {}}]}`,
	} {
		if _, err := guide.Parse([]byte(text)); err == nil {
			t.Errorf("%s: it is read", name)
		} else if strings.TrimSpace(err.Error()) == "" {
			t.Errorf("%s: nothing is said", name)
		}
	}
}
