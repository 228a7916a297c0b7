package measure_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/hydraulic"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/rule"
)

func evaluated(t *testing.T, change func(*job.Job)) geometry.Result {
	t.Helper()
	j := job.New()
	change(&j)
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	return r
}

// Outlets of 12, 15 and 9 l/min on a trap of 24: 15 and 9 use it up, and the
// 12 has nothing left; on one of 30, 15 and 12 leave 3 for the third.
func TestWhichOutletsToKeep(t *testing.T) {
	for capacity, want := range map[float64]struct {
		keep []int
		left float64
	}{24: {[]int{1, 2}, 0}, 30: {[]int{0, 1}, 3}, 40: {[]int{0, 1, 2}, 0}} {
		r := evaluated(t, func(j *job.Job) {
			j.Water.ShowerFlowsLPS = []float64{12.0 / 60, 15.0 / 60, 9.0 / 60}
			j.Drain.CapacityLPS = capacity / 60
		})
		o := r.Water.Outlets
		if !slices.Equal(o.Keep, want.keep) || o.Limit != (rule.Subject{Of: rule.Trap}) {
			t.Errorf("trap of %v l/min: keep %v, limited by %s; want %v", capacity, o.Keep, o.Limit, want.keep)
		}
		for i, left := range o.RegulateTo {
			if math.Abs(left*60-want.left) > 1e-6 {
				t.Errorf("trap of %v l/min: outlet %d may have %v l/min, want %v", capacity, i, left*60, want.left)
			}
		}
	}
}

// Of outlets that are alike the first are kept, and where those use up the trap there
// is nothing to hold another to.
func TestWhichOfLikeOutletsToKeep(t *testing.T) {
	o := evaluated(t, func(j *job.Job) { j.Water.ShowerFlowsLPS, j.Drain.CapacityLPS = []float64{0.25, 0.25, 0.25}, 0.5 }).Water.Outlets
	if !slices.Equal(o.Keep, []int{0, 1}) || o.CarriesLPS != 0.5 || len(o.RegulateTo) > 0 {
		t.Errorf("%+v", o)
	}
}

// Bed ±2 and tile ±0.5 over 600 mm come to 2·√4.25; the former ±2 over its 817 mm of fall
// to 2·600/817 on as many. At 1:50 the root of the sum of their squares is left over; at
// 1:200 the tile falls back and holds that less 3 mm of water.
func TestEvennessByHand(t *testing.T) {
	off := math.Hypot(2*math.Sqrt(4.25), 2*600/817.0)
	for slope, want := range map[float64][2]float64{0.02: {0.02 - off/600, 0}, 0.005: {0.005 - off/600, off - 3}} {
		e := evaluated(t, func(j *job.Job) {
			j.Former.Slope = slope
			j.Layers.Shower.Bed.ToleranceMM, j.Layers.Shower.TileLengthMM = 2, 600
		}).Water.Evenness
		if math.Abs(e.LeastFall-want[0]) > 1e-9 || math.Abs(e.PuddleMM-want[1]) > 1e-9 || e.OverMM != 600 {
			t.Errorf("fall %v: %+v, want %v", slope, e, want)
		}
	}
}

// The trap's capacity says where it comes from, and the water over the cover
// is what that capacity needs.
func TestTrapCapacityIsLabelled(t *testing.T) {
	for basis, change := range map[hydraulic.Basis]func(*job.Job){
		hydraulic.FromPoint:   func(*job.Job) {},
		hydraulic.FromOrifice: func(j *job.Job) { j.Drain.CapacityLPS = 0 },
		hydraulic.FromCurve: func(j *job.Job) {
			j.Drain.CapacityCurve = []part.HeadFlow{{HeadMM: 5, FlowLPS: 0.3}, {HeadMM: 30, FlowLPS: 0.7}}
		},
	} {
		w := evaluated(t, change).Water
		if w.Trap.Basis != basis || w.Trap.CapacityLPS <= 0 || w.Trap.Drowned {
			t.Errorf("%+v, want basis %s", w.Trap, basis)
		}
	}
	// From wall to wall the water may stand 16 mm before it goes over the front.
	r := evaluated(t, func(j *job.Job) {
		j.Shower.OffsetMM, j.Shower.WidthMM = 0, 2400
		j.Water.ShowerFlowsLPS, j.Drain.CapacityHeadMM = []float64{0.6}, 10
	})
	if math.Abs(r.Water.Trap.StandsMM-10) > 0.01 || r.Water.Trap.Drowned {
		t.Errorf("at the stated capacity: %+v, want the stated 10 mm", r.Water.Trap)
	}
	// Where a side is open beside the drain there is nothing to stand behind.
	if r := evaluated(t, func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{0.6} }); !r.Water.Trap.Drowned {
		t.Errorf("beside an open side the water stands %v mm", r.Water.Trap.StandsMM)
	}
}

// A run with air over the water sucks nothing; one that runs full takes as much of
// the seal of 50 as it falls: 3 % over 645 + 215 + 60 of pipe through the wall,
// 27.6; and at 6 %, 55.2, all of it and no more. With a turn the stretches count
// together: 300, a bend of 45·π/2 and 187 at 3 %, 16.73.
func TestSealLeft(t *testing.T) {
	full := func(gradient float64) func(*job.Job) {
		return func(j *job.Job) { j.Water.ShowerFlowsLPS, j.Waste.Gradient = []float64{3}, gradient }
	}
	for what, c := range map[string]struct {
		change func(*job.Job)
		want   float64
	}{
		"part full":    {func(*job.Job) {}, 50},
		"full at 3 %":  {full(0.03), 50 - 27.6},
		"full at 6 %":  {full(0.06), 0},
		"a seal of 30": {func(j *job.Job) { full(0.03)(j); j.Drain.SealMM = 30 }, 30 - 27.6},
		// With a weir at 40 the body lacks 7.5 for the seal.
		"a seal cut short":               {func(j *job.Job) { full(0.03)(j); j.Drain.WeirDepthMM = 40 }, 42.5 - 27.6},
		"with a joint, which is as full": {func(j *job.Job) { full(0.03)(j); j.Drain.OutletJointMM = 30 }, 50 - 27.6},
		"with a joint, part full":        {func(j *job.Job) { j.Drain.OutletJointMM = 30 }, 50},
		"round a turn": {func(j *job.Job) {
			full(0.03)(j)
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: [2]float64{300, 1600}}
		}, 50 - 0.03*(300+45*math.Pi/2+187)},
	} {
		// A bend's chords are a hair shorter than its arc.
		if got := evaluated(t, c.change).Water.SealLeftMM; math.Abs(got-c.want) > 1e-3 {
			t.Errorf("%s: %v mm left, want %v", what, got, c.want)
		}
	}
	// The 3 l/s fill a pipe of 50; where it is steep enough to carry them they do
	// not. A pipe of 46 running full by Colebrook-White at roughness 1 mm carries
	// 1.1 l/s at 1:40: twice that is full, half is not.
	for flow, left := range map[float64]bool{0.5: true, 2.2: false} {
		got := evaluated(t, func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{flow} }).Water.SealLeftMM
		if (got == 50) != left {
			t.Errorf("at %v l/s %v of 50 is left", flow, got)
		}
	}
}

// hydraulicVelocity is that of a flow in a pipe of 46 mm at a slope; the flow in
// pipes is held against published values where it is worked out.
func hydraulicVelocity(slope, flowLPS float64) float64 {
	return hydraulic.InPipe(46, slope, flowLPS).VelocityMPS
}

// hydraulicCapacity is what a pipe of 46 mm carries full at a slope.
func hydraulicCapacity(slope float64) float64 {
	flow, _ := hydraulic.ColebrookWhite(46, 1, slope)
	return flow
}

// What else runs into the waste counts for pipe and stack, not for trap and cover. By hand
// for the shower's 0.2 with a bath and a basin of 1.6 together: 0.5·√1.8 = 0.67082 of what
// the pipe carries instead of 0.2, 3.3541 times as much.
func TestSharedWaste(t *testing.T) {
	of := func(otherDU float64) map[string]float64 {
		r := evaluated(t, func(j *job.Job) { j.Water = job.Water{ShowerFlowsLPS: []float64{0.2}, OtherDU: otherDU} })
		out := map[string]float64{}
		for _, m := range r.Measured {
			out[m.Quantity] = m.Value
		}
		return out
	}
	alone, shared := of(0), of(1.6)
	for quantity, times := range map[string]float64{"pipe.flow-share": 3.3541, "pipe.smooth-share": 3.3541, "trap.flow-share": 1, "inlet.flow-share": 1, "water.flow": 1} {
		if got := shared[quantity] / alone[quantity]; math.Abs(got-times) > 5e-5 || alone[quantity] == 0 {
			t.Errorf("%s: %v times as much, want %v", quantity, got, times)
		}
	}
	if alone["pipe.velocity"] >= shared["pipe.velocity"] {
		t.Error("more water does not run faster")
	}
}
