package rule_test

import (
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry/rule"
)

// Sizes of core drills as the packs have them, typed a second time; common practice, no
// source: 52, 65, 78, 91, 107, 117, 127, 152 mm, in the US whole and half inches.
func TestCoreDrills(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		region     string
		hole, want float64
		there      bool
	}{
		{"UK", 10, 52, true}, {"UK", 52, 52, true}, {"UK", 52.1, 65, true}, {"UK", 66, 78, true}, {"DE", 79, 91, true}, {"AU", 92, 107, true}, {"NZ", 108, 117, true},
		{"IE", 118, 127, true}, {"UK", 128, 152, true}, {"UK", 152.1, 0, false}, {"US", 52, 63.5, true}, {"US", 64, 76.2, true}, {"US", 130, 152.4, true},
	} {
		drills := packs[c.region].CoreDrills
		if mm, there := drills.Next(c.hole); mm != c.want || there != c.there {
			t.Errorf("%s: for %v the drill of %v, %v; want %v, %v", c.region, c.hole, mm, there, c.want, c.there)
		}
		if want := map[bool]float64{true: c.want, false: c.hole}[c.there]; drills.For(c.hole) != want {
			t.Errorf("%s: a hole of %v comes out %v, want %v", c.region, c.hole, drills.For(c.hole), want)
		}
	}
}

// Drills out of order or without a source are refused.
func TestParsePackRefusesDrills(t *testing.T) {
	const at = `"rules":[`
	for drills, says := range map[string]string{
		`{"sizesMM":[52,65],"source":{"mark":"common-practice"}}`: "",
		`{"sizesMM":[65,52],"source":{"mark":"common-practice"}}`: "core drills",
		`{"sizesMM":[5],"source":{"mark":"common-practice"}}`:     "core drills",
		`{"sizesMM":[52]}`: "mark",
	} {
		_, err := rule.ParsePack([]byte(strings.Replace(pack, at, `"coreDrills":`+drills+`,`+at, 1)))
		if says == "" && err != nil || says != "" && (err == nil || !strings.Contains(err.Error(), says)) {
			t.Errorf("%s: %v, want an error about %q", drills, err, says)
		}
	}
}
