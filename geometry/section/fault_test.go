package section

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// A drawing one of whose shapes cannot be worked out shows every part all the
// same and says what is wrong. It used to end the program from whichever
// goroutine drew, or to leave the pipe out of the plan without a word.
func TestDrawingsSayWhatIsWrong(t *testing.T) {
	for _, r := range demotest.Results(t) {
		cut := ThroughDrain(r)
		sound := Of(r, cut, buildup.StageTile)
		if !sound.Fault.IsZero() || !PlanOf(r).Fault.IsZero() {
			t.Errorf("%s: %v, %v", r.Settled.Name, sound.Fault, PlanOf(r).Fault)
		}
		var refused []message.Message
		k := &sketch{refuse: func(what message.Message, gridMM float64) error {
			if math.IsNaN(gridMM) {
				return nil // the cut through a body by itself
			}
			refused = append(refused, what)
			return errors.New("put in by the test")
		}}
		d := k.of(r, cut, buildup.StageTile)
		if len(refused) == 0 || !cmp.Equal(d.Fault, message.Of("undrawn.cut", message.In("shape", refused[0]))) {
			t.Errorf("%s: fault %v of %v", r.Settled.Name, d.Fault, refused)
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
		run := &sketch{refuse: func(what message.Message, _ float64) error {
			if what.ID == "shape.run-outline" {
				return errors.New("put in by the test")
			}
			return nil
		}}
		if p := run.planOf(r); p.Fault.String() != "undrawn.run{shape: shape.run-outline}" || len(p.Areas) == 0 {
			t.Errorf("%s: fault of the plan %v", r.Settled.Name, p.Fault)
		}
	}
}

// A body that cannot be cut is the one that is missing, by name.
func TestBodyThatCannotBeCutIsNamed(t *testing.T) {
	r := demotest.Results(t)[0]
	k := &sketch{refuse: func(what message.Message, _ float64) error {
		if what.ID == "part.base" {
			return errors.New("put in by the test")
		}
		return nil
	}}
	d := k.of(r, ThroughDrain(r), buildup.StageTile)
	if d.Fault.String() != "undrawn.cut{shape: part.base}" {
		t.Errorf("fault %v", d.Fault)
	}
	for _, a := range d.Areas {
		if a.PartID == "base" {
			t.Errorf("the base is drawn: %v", plan.Region(a.Region))
		}
	}
	if m := Fault(nil, FaultOfCut); !m.IsZero() {
		t.Errorf("without an error: %v", m)
	}
}

// Shells of a part that touch are drawn as one, whichever lies where, and those apart
// as they are.
func TestTouchingShellsAreOne(t *testing.T) {
	middle := plan.Rectangle(plan.Point{0, 0}, plan.Point{100, 100})
	for name, c := range map[string]struct {
		at   plan.Point
		want int
	}{
		"right": {plan.Point{100, 0}, 1}, "left": {plan.Point{-100, 0}, 1}, "over it": {plan.Point{0, 100}, 1}, "under it": {plan.Point{0, -100}, 1},
		"apart, right": {plan.Point{101, 0}, 2}, "apart, left": {plan.Point{-101, 0}, 2}, "apart, over it": {plan.Point{0, 101}, 2}, "apart, under it": {plan.Point{0, -101}, 2},
	} {
		k := &sketch{}
		got := k.merged(append(middle[:1:1], plan.Rectangle(c.at, c.at.Add(plan.Point{100, 100}))...), message.Of("shape.it"))
		if len(got) != c.want || math.Abs(got.Area()-20000) > 1e-6 || k.err != nil {
			t.Errorf("%s: %v, %v", name, got, k.err)
		}
	}
}

// What lies within the window's levels stays, upright rectangles and others; what only
// reaches up to one goes.
func TestCroppedByHand(t *testing.T) {
	window := plan.Rectangle(plan.Point{-100, 10}, plan.Point{100, 30})
	for name, c := range map[string]struct {
		ring plan.Ring
		want float64
	}{
		"within":            {plan.Ring{{0, 12}, {10, 12}, {10, 20}, {0, 20}}, 80},
		"all of it":         {plan.Ring{{0, 10}, {10, 10}, {10, 30}, {0, 30}}, 200},
		"past both":         {plan.Ring{{0, 0}, {10, 0}, {10, 40}, {0, 40}}, 200},
		"up to it":          {plan.Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, 0},
		"down to it":        {plan.Ring{{0, 30}, {10, 30}, {10, 40}, {0, 40}}, 0},
		"a triangle":        {plan.Ring{{0, 0}, {40, 0}, {0, 40}}, 20 * (30 + 10) / 2}, // 30 wide at its foot, 10 at its top
		"slanted, up to it": {plan.Ring{{0, 0}, {10, 10}, {0, 10}}, 0},
	} {
		k := &sketch{}
		got := k.cropped(Area{Region: plan.Region{{Outer: c.ring}}}, 10, 30, window)
		if math.Abs(got.Area()-c.want) > 1e-6 || c.want == 0 && len(got) > 0 || k.err != nil {
			t.Errorf("%s: %v, %v; want %v mm²", name, got, k.err, c.want)
		}
	}
}
