package takeoff_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A run of 367 in plan from a trap at 670 to a bend at 303, through the joist at 600 of those 47 wide at 200, 600, 1000, which keeps in
// the room: between two of them are 353, so that a length is 343 at most. With 25 in the sockets at its ends it is 417 long, one of 343
// and one of 74, each longer by what it falls, 1 in 40; the coupling between them lies at 327 in plan, off both joists. With the bend's
// two sockets and those of the one that turns down there are six to weld.
func TestPipeBetweenJoistsIsCoupled(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(demos, func(d assets.Demo) bool { return strings.HasPrefix(d.File, "3-") })
	j := demos[at].Job
	demotest.AcrossJoists(&j, 150)
	j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{250, 1832}}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	got := of(t, &r)
	if n := line(t, got, "order.coupling").Needed.Value; n != 1 {
		t.Errorf("%v couplings", n)
	}
	k := math.Sqrt(1 + 1.0/1600)
	var cut []float64
	for _, bar := range line(t, got, "order.pipe").Cutting.Bars {
		cut = append(cut, bar.PiecesMM...)
	}
	for _, want := range []float64{(343-25)*k + 25, (392-343)*k + 25} {
		if !slices.ContainsFunc(cut, func(mm float64) bool { return math.Abs(mm-want) < 0.01 }) {
			t.Errorf("cut are %v, want one of %v", cut, want)
		}
	}
	// 11 ml of cement for a joint of this size: common practice, no source.
	if v := line(t, got, "order.cement").Needed.Value; math.Abs(v-6*0.011) > 1e-9 {
		t.Errorf("%v l of cement, want that of six sockets", v)
	}
}
