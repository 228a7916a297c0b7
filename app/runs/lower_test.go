package runs

import (
	"context"
	"errors"
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/rule"
)

// The ways that are said to need a lower base do: each, laid and worked out in full, needs at least a millimetre less than the job as it
// stands, the first what is said and no other less than that, and nothing stops it that did not stop the job before. Of the
// jobs that Underfall comes with some have such a way, of others it is said that there is none.
func TestALowerWayIsLower(t *testing.T) {
	some, none := false, false
	for _, r := range demotest.Shown(t) {
		if r.Stops() { // looking for those takes long
			continue
		}
		l, err := LowerThan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		if len(l.Ways) == 0 {
			none = none || l.Said.ID == "levels.none-lower"
			continue
		}
		some = true
		bare := func(r geometry.Result) float64 { return r.Raises.Bare.TopMM - r.Heights.FloorHighMM }
		before := math.Inf(-1)
		for i, w := range l.Ways {
			laid := geometry.Evaluate(w.Edit.Apply(r.Stated), r.Pack)
			if len(laid.Problems) > 0 || laid.Stops() {
				t.Errorf("%s, way %d: %v, stopped %v", r.Stated.Name, i, laid.Problems, laid.Answer(nil).Of(rule.Stop))
				continue
			}
			if bare(laid) > bare(r)-1+1e-6 || bare(laid) < before-1e-6 {
				t.Errorf("%s, way %d needs %v, the one before %v, the job as it stands %v", r.Stated.Name, i, bare(laid), before, bare(r))
			}
			before = bare(laid)
		}
		said, first := l.Said.Args[0].Value.String(), geometry.Evaluate(l.Ways[0].Edit.Apply(r.Stated), r.Pack)
		if want := first.HeightLines(first.Raises)[0].Args[0].Value.String(); said != want {
			t.Errorf("%s: said to need %s, needs %s", r.Stated.Name, said, want)
		}
	}
	if !some || !none {
		t.Errorf("some have a lower way: %v, some have none: %v", some, none)
	}
}

// Who no longer wants to know is told nothing.
func TestLookingForALowerWayEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if l, err := LowerThan(ctx, demotest.Shown(t)[0]); !errors.Is(err, context.Canceled) || !l.Said.IsZero() {
		t.Errorf("%v, %v", l.Said, err)
	}
}
