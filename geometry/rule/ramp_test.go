package rule_test

import (
	"math"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry/rule"
)

// Lengths of ramp by Approved Document M Volume 2, Table 1 and paragraph 1.26: a going of
// 10 m climbs 500 mm at 1:20, one of 5 m 333 at 1:15, one of 2 m 166 at 1:12; in between
// 1:14 goes with 4 m and 1:19 with 9 m. Up to 2 m the length is twelve times the rise. By
// hand in between: at 3 m one in 13, 3000/13 = 230.77.
func TestRampsByApprovedDocumentM(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	for rise, want := range map[float64]float64{100: 1200, 2000.0 / 12: 2000, 3000.0 / 13: 3000, 4000.0 / 14: 4000, 5000.0 / 15: 5000, 9000.0 / 19: 9000, 500: 10000, 600: 12000, 0: 0, -5: 0} {
		if got := packs["UK"].Ramps.RunMM(rise); math.Abs(got-want) > 1e-6 {
			t.Errorf("UK: a rise of %v asks for %v, want %v", rise, got, want)
		}
	}
	// ADA 405.2: one in twelve, 30 in of rise to a run; worked example: 20 mm ask for 240.
	// From memory: one in ten up to 1900, then one in fourteen; one in twelve; 6 %.
	for region, c := range map[string][2]float64{"US": {20, 240}, "AU": {190, 1900}, "NZ": {100, 1200}, "DE": {60, 1000}, "IE": {100, 1200}} {
		if got := packs[region].Ramps.RunMM(c[0]); math.Abs(got-c[1]) > 1e-6 {
			t.Errorf("%s: a rise of %v asks for %v, want %v", region, c[0], got, c[1])
		}
	}
	// No proportion in between: over 190 by a hair the whole is one in fourteen.
	if got, want := packs["AU"].Ramps.RunMM(191), 191.0*14; got != want {
		t.Errorf("AU: a rise of 191 asks for %v, want %v", got, want)
	}
	if (rule.Ramps{}).RunMM(100) != 0 || (rule.Ramps{}).Any() {
		t.Error("no table is one")
	}
	for _, r := range packs["UK"].Rules {
		if r.ID != "uk-ramp" {
			continue
		}
		for name, want := range map[string]float64{"going1": 2000, "slope1": 1.0 / 12, "going3": 10000, "slope3": 0.05} {
			if got := r.Figures[name].Value; got != want {
				t.Errorf("the rule names %s as %v, want %v", name, got, want)
			}
		}
	}
}

// Ramps that are none, out of order or without a source are refused.
func TestParsePackRefusesRamps(t *testing.T) {
	const at = `"rules":[`
	with := func(ramps string) string { return strings.Replace(pack, at, `"ramps":`+ramps+`,`+at, 1) }
	for ramps, says := range map[string]string{
		`{"goings":[{"toMM":2000,"in":12},{"toMM":5000,"in":15}],"source":{"mark":"common-practice"}}`: "",
		`{"goings":[{"toMM":2000,"in":3}],"source":{"mark":"common-practice"}}`:                        "1:3",
		`{"goings":[{"toMM":2000,"in":12},{"toMM":1000,"in":15}],"source":{"mark":"common-practice"}}`: "1000",
		`{"goings":[{"toMM":2000,"in":12},{"toMM":5000,"in":10}],"source":{"mark":"common-practice"}}`: "1:10",
		`{"goings":[{"toMM":2000,"in":12}]}`:                                                           "mark",
	} {
		if _, err := rule.ParsePack([]byte(with(ramps))); says == "" && err != nil || says != "" && (err == nil || !strings.Contains(err.Error(), says)) {
			t.Errorf("%s: %v, want an error about %q", ramps, err, says)
		}
	}
}
