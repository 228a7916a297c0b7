package geometry_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
)

// The jobs of testdata/faults, of which `./cmd/dev gallery` makes pictures: each has
// what its name says, and is told so in a number worked by hand.
//
// A pipe of 50 along joist 4 of the let-in floor, its flank 10 off, touching, and
// 24.5 inside; the bend before it is 3.5 larger. Through a joist it is a cut, which is
// no clash. A channel 70 deep under a flange at 1 reaches 47 under the joists' tops
// at −22. A deck of 38 cut out lets the base down by as much, and the tile with it:
// −38 + 3 + 20 + 13 = −2. A reading 5 over the floor lifts the base on it. A pipe's
// end at −60 is that far under an outlet at 22.57, less the fall of the run.
func TestFaultsAreFound(t *testing.T) {
	for file, c := range map[string]struct {
		quantity, subject string
		want              float64 // not a number: not measured
		rule              string  // that is broken; empty for none
	}{
		"pipe-beside-joist":   {"clash.joist-gap", "pipe 5, piece-by-joist 4", 10, ""},
		"pipe-touching-joist": {"clash.joist-gap", "pipe 5, piece-by-joist 4", 0, "clash-joist-near"},
		"pipe-in-joist":       {"clash.joist-gap", "pipe 5, piece-by-joist 4", -24.5, "clash-joist"},
		"pipe-across-joists":  {"clash.joist-gap", "pipe 1, piece-by-joist 1", math.NaN(), "uk-hole-size"},
		"channel-over-joists": {"clash.drain-gap", "drain-channel-by-joist 2", -47, "clash-drain"},
		"pipe-end-60-low":     {"exit.too-high", "existing-pipe-end", 63.4, "exit-high"},
	} {
		r := faultyJob(t, file)
		got := math.NaN()
		for _, m := range r.Measured {
			if m.Quantity == c.quantity && m.Subject.String() == c.subject {
				got = m.Value
			}
		}
		if math.IsNaN(got) != math.IsNaN(c.want) || math.Abs(got-c.want) > 0.05 {
			t.Errorf("%s: %s of %s is %v, want %v", file, c.quantity, c.subject, got, c.want)
		}
		broken := false
		for _, f := range r.Findings {
			broken = broken || f.Rule.ID == c.rule
			if c.rule == "" && f.Rule.Quantity == c.quantity && f.Measurement.Subject.String() == c.subject {
				t.Errorf("%s: breaks %s", file, f.Rule.ID)
			}
		}
		if c.rule != "" && !broken {
			t.Errorf("%s: %s is not broken", file, c.rule)
		}
	}
	if h := faultyJob(t, "deck-38-let-in").Heights; math.Abs(h.BaseTopMM+38) > 1e-6 || math.Abs(h.TileMM+2) > 1e-6 {
		t.Errorf("let in by 38 the base's top lies at %v, the tile at %v", h.BaseTopMM, h.TileMM)
	}
	flat := geometry.Evaluate(demotest.Rooms(t)[0].Job, demotest.Packs(t)["UK"]).Heights
	if h := faultyJob(t, "hump-5").Heights; !(h.FloorHighMM == 5) || h.BaseUnderMM != 8 || !(h.ProudMM > 0) || !(h.BaseTopMM > flat.BaseTopMM) {
		t.Errorf("on a hump of 5 the floor is highest at %v, the base lies on %v, its top at %v", h.FloorHighMM, h.BaseUnderMM, h.BaseTopMM)
	}
}

// faultyJob is one of the jobs, worked out.
func faultyJob(t *testing.T, name string) geometry.Result {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "faults", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatalf("%s: %v", name, r.Problems)
	}
	return r
}
