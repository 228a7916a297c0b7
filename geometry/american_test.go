package geometry_test

import (
	"math"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// A new job in the United States is framed: stud walls at 16 in, joists, the waste down through the
// floor. Its falls are laid to 2 mm over a floor and 3 over a run, of which half is a standard deviation:
// set 1.645 of those over the least of 1/4 in a foot, 95 of 100 come out no flatter. Where the UPC
// holds, its own paragraph is cited for what it says itself.
func TestAmericanJobsBeginFramed(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	for _, region := range []string{"US", "US-UPC"} {
		j := edit.Start(region, shelf)
		for i, w := range j.Room.Walls {
			if w.Kind != job.WallStud || w.StudSpacingMM != 16*25.4 {
				t.Errorf("%s: wall %d is of %s, studs at %v", region, i+1, w.Kind, w.StudSpacingMM)
			}
		}
		if j.Floor.Kind != job.FloorTimber || j.Waste.Exit.Kind != job.ExitFloor || len(j.Standings) > 0 {
			t.Errorf("%s: a floor of %s, the waste goes %s, %v", region, j.Floor.Kind, j.Waste.Exit.Kind, j.Standings)
		}
		r := geometry.Evaluate(j, packs(t)[region])
		if len(r.Problems) > 0 {
			t.Fatalf("%s: %v", region, r.Problems)
		}
		for _, f := range r.Findings {
			if f.Rule.Severity == rule.Stop {
				t.Errorf("%s: %s of %s: %v", region, f.Rule.ID, f.Measurement.Subject, f.Measurement.Value)
			}
		}
		const least, sigmas = 1.0 / 48, 1.645
		_, overMM := r.Layout.HighEnd()
		overMM /= j.Former.Slope
		if j.Former.Slope < least+sigmas*j.Tolerances.FallMM/2/overMM {
			t.Errorf("%s: the floor falls %v over %v", region, j.Former.Slope, overMM)
		}
		if j.Waste.Gradient < least+sigmas*j.Tolerances.PipeMM/2/math.Max(1000, r.Heights.Run.ExitAtMM) {
			t.Errorf("%s: the pipe falls %v", region, j.Waste.Gradient)
		}
		for _, c := range r.Pack.Checks(r.Measured) {
			upc := strings.HasPrefix(c.Rule.Source.Document, "Uniform Plumbing Code")
			switch c.Rule.Quantity {
			case "pipe.gradient", "run.length", "trap.size", "shower.area", "shower.least-side":
				if want := region == "US-UPC"; upc != want && strings.HasPrefix(c.Rule.ID, "us-") {
					t.Errorf("%s: %s is of %s", region, c.Rule.ID, c.Rule.Source.Document)
				}
			}
		}
	}
}
