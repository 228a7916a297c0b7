package search_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/rule"
	"underfall/geometry/search"
)

// Where no exit through a wall is let through and no change of one helps, a pump at an
// open edge of the shower is named, and does; it is not among the ways while others go.
func TestAPumpIsTheLastWay(t *testing.T) {
	j := job.New()
	j.Base.Height = job.HeightBuildable
	pack := demotest.Packs(t)["UK"]
	exits := search.UsualExits(j, 400)
	grid := search.Grid{Steps: 4, MostBends: 2}
	s, err := search.Runs(t.Context(), j, pack, exits, grid, nil)
	if err != nil || len(s.Found) == 0 {
		t.Fatalf("found %d: %v", len(s.Found), err)
	}
	for _, a := range s.Found {
		if a.Job.Waste.Exit.Kind != job.ExitWall {
			t.Errorf("led to %s", a.Job.Waste.Exit.Kind)
		}
	}
	// Nobody may drill the walls.
	pack.Rules = append([]rule.Rule{{ID: "no-hole", Quantity: "exit.off-corner", Compare: rule.AtLeast, Limit: 1e6, Severity: rule.Stop}}, pack.Rules...)
	s, err = search.Runs(t.Context(), j, rule.Pack{Region: pack.Region, FloorLoad: pack.FloorLoad, Rules: pack.Rules}.Where(func(rule.Rule) bool { return true }), exits, grid, nil)
	if err != nil || len(s.Found) != 0 || len(s.Relaxations) != 1 || s.Relaxations[0].What.ID != "relaxation.pump" {
		t.Fatalf("found %d, relaxations %+v: %v", len(s.Found), s.Relaxations, err)
	}
	best := s.Relaxations[0].Best
	if r := geometry.Evaluate(best.Change.Apply(j), pack); r.Stops() || r.Settled.Waste.Exit.Kind != job.ExitPump {
		t.Errorf("the pump does not do it: %v", r.Findings[0].Rule.ID)
	}
}
