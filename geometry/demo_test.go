package geometry_test

import (
	"testing"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/unit"
)

func TestShow(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		r := geometry.Evaluate(d.Job, packs[d.Job.Region])
		t.Log("=====", d.Job.Name, r.Problems)
		for _, c := range r.Heights.Constraints {
			t.Logf("   least: %-40s %.1f", c.Name, c.BaseTopMM)
		}
		for _, row := range r.Schedule {
			t.Logf("   %-40s %8.1f %v", row.Label, row.LevelMM, row.At)
		}
		for _, f := range r.Findings {
			if f.Rule.Compare != "present" {
				t.Logf("   ** %s %s: %s | %s | %s", f.Rule.Severity, f.Rule.Subject, f.Measurement.Subject, f.Measured(unit.Metric), f.LimitText(unit.Metric))
			}
		}
		for _, p := range r.Assembly.Parts {
			if err := p.Mesh().CheckClosed(); err != nil {
				t.Errorf("%s %s: %v", d.File, p.ID, err)
			}
			if v, w := p.Mesh().Volume(), p.Shape.Volume(); v < 0 || (v-w) > 1e-6*w+1e-3 || (w-v) > 1e-6*w+1e-3 {
				t.Errorf("%s %s: volume %f %f", d.File, p.ID, v, w)
			}
		}
	}
}
