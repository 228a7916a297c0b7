package rule_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"underfall/geometry/rule"
)

// packsOf loads a common pack, one of a region and one within it, with what is usual in each.
func packsOf(common, region, within string) (map[string]rule.Pack, error) {
	load := `"floorLoad": {"kNM2": 1.5, "source": {"mark": "common-practice"}}`
	usual := func(inputs string) string {
		if inputs == "" {
			return `"rules": []`
		}
		return `"usual": {"inputs": [` + inputs + `], "source": {"mark": "common-practice"}}, "rules": []`
	}
	return rule.Load(fstest.MapFS{
		"common.json": {Data: []byte(`{"region": "common", "edition": "2026-11", ` + usual(common) + `}`)},
		"a.json":      {Data: []byte(`{"region": "A", "edition": "2026-11", ` + load + `, ` + usual(region) + `}`)},
		"ab.json":     {Data: []byte(`{"region": "A-B", "parent": "A", "edition": "2026-11", ` + usual(within) + `}`)},
	})
}

// What a region says is usual stands in for what its parent says of the same, of the same kind; the
// rest it has from there.
func TestWhatIsUsualIsInherited(t *testing.T) {
	packs, err := packsOf(
		`{"key": "x", "values": [1, 2]}, {"key": "y", "values": [3, 4, 5]}, {"key": "w", "of": "stud", "values": [75, 100]}`,
		`{"key": "x", "values": [10, 20]}, {"key": "w", "of": "brick", "values": [102, 215]}`,
		`{"key": "y", "values": [30, 50]}`)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		region, key, of string
		want            []float64
	}{
		{"common", "x", "", []float64{1, 2}}, {"A", "x", "", []float64{10, 20}}, {"A-B", "x", "", []float64{10, 20}},
		{"A", "y", "", []float64{3, 4, 5}}, {"A-B", "y", "", []float64{30, 50}}, {"A-B", "w", "stud", []float64{75, 100}},
		{"A", "w", "brick", []float64{102, 215}}, {"common", "w", "brick", nil}, {"A", "w", "", nil}, {"A", "z", "", nil},
	} {
		if got := packs[c.region].Usual.Values(c.key, c.of); !slices.Equal(got, c.want) {
			t.Errorf("%s: %s of %q: %v, want %v", c.region, c.key, c.of, got, c.want)
		}
	}
	bare, err := packsOf(`{"key": "x", "values": [1, 2]}`, "", "")
	if err != nil || !slices.Equal(bare["A-B"].Usual.Values("x", ""), []float64{1, 2}) {
		t.Errorf("a region that says nothing: %v, %v", bare["A-B"].Usual, err)
	}
}

// What is no range is refused where it stands.
func TestWhatIsUsualIsChecked(t *testing.T) {
	for inputs, says := range map[string]string{
		`{"key": "x", "values": [2, 1]}`:                                 "goes up",
		`{"key": "x", "values": [1, 1]}`:                                 "goes up",
		`{"key": "x", "values": [1]}`:                                    "two values",
		`{"key": "", "values": [1, 2]}`:                                  "names an input",
		`{"key": "x", "values": [1, 2]}, {"key": "x", "values": [1, 3]}`: "twice",
	} {
		if _, err := packsOf("", inputs, ""); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want one about %q", inputs, err, says)
		}
	}
}
