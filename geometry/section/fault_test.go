package section

import (
	"errors"
	"math"
	"strings"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/plan"
)

// A drawing one of whose shapes cannot be worked out shows every part all the
// same and says what is wrong. It used to end the program from whichever
// goroutine drew, or to leave the pipe out of the plan without a word.
func TestDrawingsSayWhatIsWrong(t *testing.T) {
	for _, r := range demotest.Results(t) {
		cut := ThroughDrain(r)
		sound := Of(r, cut, buildup.StageTile)
		if sound.Fault != "" || PlanOf(r).Fault != "" {
			t.Errorf("%s: %q, %q", r.Settled.Name, sound.Fault, PlanOf(r).Fault)
		}
		var refused []string
		k := &sketch{refuse: func(what string, gridMM float64) error {
			if math.IsNaN(gridMM) {
				return nil // the cut through a body by itself
			}
			refused = append(refused, what)
			return errors.New("put in by the test")
		}}
		d := k.of(r, cut, buildup.StageTile)
		if len(refused) == 0 || !strings.Contains(d.Fault, ": "+refused[0]+". Move the cut") {
			t.Errorf("%s: fault %q of %v", r.Settled.Name, d.Fault, refused)
		}
		shown := map[string]bool{}
		for _, a := range d.Areas {
			shown[a.PartID] = len(a.Region) > 0
		}
		for _, a := range sound.Areas {
			if !shown[a.PartID] {
				t.Errorf("%s: %s is not drawn", r.Settled.Name, a.Name)
			}
		}
		run := &sketch{refuse: func(what string, _ float64) error {
			if what == "the waste run's outline" {
				return errors.New("put in by the test")
			}
			return nil
		}}
		if p := run.planOf(r); !strings.Contains(p.Fault, "the waste run's outline") || len(p.Areas) == 0 {
			t.Errorf("%s: fault of the plan %q", r.Settled.Name, p.Fault)
		}
	}
}

// A body that cannot be cut is the one that is missing, by name.
func TestBodyThatCannotBeCutIsNamed(t *testing.T) {
	r := demotest.Results(t)[0]
	k := &sketch{refuse: func(what string, _ float64) error {
		if what == "Base" {
			return errors.New("put in by the test")
		}
		return nil
	}}
	d := k.of(r, ThroughDrain(r), buildup.StageTile)
	if !strings.Contains(d.Fault, ": Base. Move the cut") {
		t.Errorf("fault %q", d.Fault)
	}
	for _, a := range d.Areas {
		if a.PartID == "base" {
			t.Errorf("the base is drawn: %v", plan.Region(a.Region))
		}
	}
	if Fault(nil, MoveCut) != "" {
		t.Errorf("without an error: %q", Fault(nil, MoveCut))
	}
}
