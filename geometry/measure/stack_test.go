package measure_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// What is measured where a run joins a stack outside its wall: the pipe's bottom is at
// the datum, its bore 46, so that its middle is at 23.
func TestJoiningAStack(t *testing.T) {
	level := func(mm float64) *float64 { return &mm }
	none := math.NaN()
	for name, c := range map[string]struct {
		stack                           job.Stack
		narrower, foot, opposed, length float64
	}{
		"nothing stated":               {job.Stack{NominalMM: 110}, 0, none, none, 920},
		"smaller":                      {job.Stack{NominalMM: 40}, 10, none, none, 920},
		"its foot":                     {job.Stack{NominalMM: 110, FootInvertMM: level(-300)}, 0, 300, none, 920},
		"a basin's branch below":       {job.Stack{NominalMM: 110, OpposedMM: level(-77), OpposedNominalMM: 40}, 0, none, 100, 920},
		"a basin's branch above":       {job.Stack{NominalMM: 110, OpposedMM: level(123), OpposedNominalMM: 40}, 0, none, 100, 920},
		"a toilet's branch above":      {job.Stack{NominalMM: 110, OpposedMM: level(123), OpposedNominalMM: 110}, 0, none, 100, 920},
		"a toilet's branch as high":    {job.Stack{NominalMM: 110, OpposedMM: level(23), OpposedNominalMM: 110}, 0, none, none, 920},
		"a toilet's branch lies below": {job.Stack{NominalMM: 110, OpposedMM: level(-77), OpposedNominalMM: 110}, 0, none, none, 920},
	} {
		j := job.New()
		c.stack.At, c.stack.OutsideMM = plan.Point{-330, 1832}, 110
		j.Room.Stacks = []job.Stack{c.stack}
		j.Waste.Exit = job.Exit{Kind: job.ExitStack, Level: job.Exactly(0)}
		r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
		for _, q := range []struct {
			quantity, subject string
			want              float64
		}{{"stack.narrower", "stack 1", c.narrower}, {"stack.above-foot", "stack 1", c.foot}, {"stack.off-opposed", "stack 1", c.opposed},
			{"run.length", "waste-run", c.length}, {"stack.flow", "stack 1", 0.2}} {
			got := measured(r, q.quantity, q.subject)
			if math.IsNaN(got) != math.IsNaN(q.want) || math.Abs(got-q.want) > 1e-6 {
				t.Errorf("%s: %s is %v, want %v", name, q.quantity, got, q.want)
			}
		}
		if got := measured(r, "exit.in-stud", "exit"); !math.IsNaN(got) {
			t.Errorf("%s: studs in a wall of masonry: %v", name, got)
		}
	}
}

// lengthsOf are the lengths of the run that are measured, with whether a vent serves them.
func lengthsOf(r geometry.Result) map[bool]float64 {
	out := map[bool]float64{}
	for _, m := range r.Measured {
		if m.Quantity == "run.length" && (m.Subject.Of == rule.WasteRun || m.Subject.Of == rule.WasteRunToVent) {
			out[m.Has("ventilated")] = m.Value
		}
	}
	return out
}

// A vent serves the run from where it joins on, and from the trap on where it is as near
// as the country asks: 750 in the UK (Approved Document H, 2015, 1.22), no figure in the
// US, whose trap arm runs to the vent. The run is 920 long: 645 in the room, a wall of 215
// and 60; it falls 1 in 40, its bore is 46.
func TestVentServes(t *testing.T) {
	for name, c := range map[string]struct {
		region string
		vent   *job.Vent
		want   map[bool]float64
		bores  float64
	}{
		"none":               {"UK", nil, map[bool]float64{false: 920}, 645.0 / 40 / 46},
		"at the trap":        {"UK", &job.Vent{NominalMM: 32}, map[bool]float64{true: 920}, 645.0 / 40 / 46},
		"near enough":        {"UK", &job.Vent{AtMM: 750, NominalMM: 32}, map[bool]float64{true: 920}, 645.0 / 40 / 46},
		"too far":            {"UK", &job.Vent{AtMM: 751, NominalMM: 32}, map[bool]float64{false: 751, true: 920}, 645.0 / 40 / 46},
		"a trap arm":         {"US", &job.Vent{AtMM: 460, NominalMM: 32}, map[bool]float64{false: 460, true: 920}, 460.0 / 40 / 46},
		"beyond the end":     {"US", &job.Vent{AtMM: 2000, NominalMM: 32}, map[bool]float64{false: 920}, 645.0 / 40 / 46},
		"at a trap, the US":  {"US", &job.Vent{NominalMM: 32}, map[bool]float64{true: 920}, 645.0 / 40 / 46},
		"near enough, no UK": {"DE", &job.Vent{AtMM: 750, NominalMM: 32}, map[bool]float64{false: 750, true: 920}, 645.0 / 40 / 46},
	} {
		j := job.New()
		j.Region, j.Waste.Vent = c.region, c.vent
		r := geometry.Evaluate(j, demotest.Packs(t)[c.region])
		got := lengthsOf(r)
		if len(got) != len(c.want) {
			t.Errorf("%s: lengths %v, want %v", name, got, c.want)
		}
		for vented, mm := range c.want {
			if math.Abs(got[vented]-mm) > 1e-6 {
				t.Errorf("%s: lengths %v, want %v", name, got, c.want)
			}
		}
		bores := math.NaN()
		for _, m := range r.Measured {
			if m.Quantity == "run.fall-in-bores" {
				bores = m.Value
			}
		}
		if math.Abs(bores-c.bores) > 1e-9 {
			t.Errorf("%s: it falls %v bores, want %v", name, bores, c.bores)
		}
	}
}
