package measure_test

import (
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/hydraulic"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

func waterOf(t *testing.T, make func(*job.Job)) measure.Water {
	t.Helper()
	return measure.WaterOf(levelled(t, on(outletAt20(), make)))
}

// fromWallToWall has the front alone open: the shower is 2400 wide and 900 deep, level
// for 83 at the back and then rising by 16.34 to the front.
func fromWallToWall(j *job.Job) {
	j.Shower.OffsetMM, j.Shower.WidthMM = 0, 2400
	chosen(j, 69)
}

// What is held when the waste is blocked, to where it goes over first.
func TestReserveByHand(t *testing.T) {
	wide := func(extra func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) { fromWallToWall(j); extra(j) }
	}
	for _, c := range []struct {
		name            string
		make            func(*job.Job)
		litres, spillMM float64
		where           string
		at              mgl64.Vec3
	}{
		{"open beside the drain", func(*job.Job) {}, 0, 108, "spills-at 0, right", mgl64.Vec3{1400, 1900, 108}},
		// 16.34 deep over the level strip, half as much on the slope of 817.
		{"over the front", wide(func(*job.Job) {}), 2400 * 16.34 * (83 + 817.0/2) / 1e6, 124.34, "spills-at 0, front", mgl64.Vec3{2400, 1000, 124.34}},
		// The room's floor at 201: 93 over the drain everywhere, less what the slope takes.
		{"over the room", wide(func(j *job.Job) { j.Layers.Room.Tile.ThicknessMM, j.Layers.Room.Bed.ThicknessMM = 100, 100 }),
			2400 * (900*93 - 817*16.34/2) / 1e6, 201, "spills-at 0, front", mgl64.Vec3{2400, 1000, 201}},
		// To a channel across the middle: at the open right edge the floor is lowest in the
		// channel's 70, from y = 1415.
		{"beside a channel across", func(j *job.Job) { j.Former.Fall = job.FallMid }, 0, 108, "spills-at 0, right", mgl64.Vec3{1400, 1415, 108}},
		// Falling as a whole to a point, the water goes out at the doorway, from x = 1500.
		{"over a high doorstep", func(j *job.Job) {
			j.Former.Fall = job.FallRoom
			j.Room.Doorways[0].NeighbourFFLMM = 500
		}, not, 500, "spills-at 1", mgl64.Vec3{1500, 0, 500}},
	} {
		r := waterOf(t, c.make).Reserve
		if math.Abs(r.SpillMM-c.spillMM) > closeMM || r.Where.String() != c.where || r.At.Sub(c.at).Len() > closeMM {
			t.Errorf("%s: it goes over at %v, %s, %v; by hand at %v, %s, %v", c.name, r.SpillMM, r.Where, r.At, c.spillMM, c.where, c.at)
		}
		if !math.IsNaN(c.litres) && math.Abs(r.Litres-c.litres) > 1e-6 {
			t.Errorf("%s: %v litres, by hand %v", c.name, r.Litres, c.litres)
		}
		// At 0.2 litres a second.
		if math.Abs(r.Minutes-r.Litres/12) > 1e-9 {
			t.Errorf("%s: %v litres last %v minutes", c.name, r.Litres, r.Minutes)
		}
	}
	// With no water it lasts for ever, and with nowhere to go over as well; neither is a
	// measurement.
	dry := waterOf(t, wide(func(j *job.Job) { j.Water.ShowerFlowsLPS = nil }))
	if !math.IsInf(dry.Reserve.Minutes, 1) || !(dry.Reserve.Litres > 19) {
		t.Errorf("without water: %+v", dry.Reserve)
	}
	if dry := waterOf(t, func(j *job.Job) { j.Water.ShowerFlowsLPS = nil }).Reserve; dry.Litres != 0 || !math.IsInf(dry.Minutes, 1) {
		t.Errorf("without water, where nothing is held: %+v", dry)
	}
	closed := func(j *job.Job) { j.Former.Fall, j.Room.Doorways = job.FallRoom, nil }
	if r := waterOf(t, closed).Reserve; !math.IsInf(r.Minutes, 1) || !math.IsInf(r.SpillMM, 1) || r.Litres != 0 {
		t.Errorf("without a doorway: %+v", r)
	}
	holdChanges(t, outletAt20(), []change{
		{"over the front", fromWallToWall, []want{{"water.reserve", "spills-at 0, front", 2400 * 16.34 * 491.5 / 1e6 / 12, mgl64.Vec3{2400, 1000, 124.34}}}},
		{"closed", closed, []want{{"water.reserve", "doorway 1", not, nowhere}}},
		{"dry", func(j *job.Job) { j.Water.ShowerFlowsLPS = nil }, []want{{"water.flow", "shower", 0, nowhere}, {"water.reserve", "spills-at 0, right", not, nowhere}, {"pipe.velocity", "pipe 1", not, nowhere},
			{"inlet.flow-share", "drain-cover", not, nowhere}, {"trap.seal-left", "trap", not, nowhere}, {"trap.water-stands", "drain-cover", not, nowhere}, {"floor.least-fall", "shower-tile", not, nowhere}}},
	})
}

// seriesNeeds is the depth of water that the usual drain without a data sheet needs for a
// flow, by hand: over its one long edge of 800, or through its slots and gap, 14 604 mm²,
// and through an outlet of 46 under what it has besides.
func seriesNeeds(flowLPS, dropMM float64) float64 {
	q, g2 := flowLPS/1000, 2*9.81
	cover := math.Max(math.Pow(q/(0.37*math.Sqrt(g2)*0.8), 2.0/3), math.Pow(q/(0.67*14604e-6), 2)/g2)
	return 1000*cover + math.Max(0, 1000*math.Pow(q/(0.6*math.Pi/4*46*46/1e6), 2)/g2-dropMM)
}

// What the trap carries under 20 mm of water by its data sheet: between its points in
// straight lines; beyond them by the square root of the height over the weir, which is
// 108 − 95 + 32 = 45 under the cover, over the middle of the outlet at 20 + 23.
func TestTrapCapacityByHand(t *testing.T) {
	type points []part.HeadFlow
	for _, c := range []struct {
		name   string
		stated part.HeadFlow
		curve  points
		want   float64
		basis  hydraulic.Basis
	}{
		{"the point itself", part.HeadFlow{HeadMM: 20, FlowLPS: 0.6}, nil, 0.6, hydraulic.FromPoint},
		{"among the curve's", part.HeadFlow{HeadMM: 15, FlowLPS: 0.5}, points{{HeadMM: 10, FlowLPS: 0.4}, {HeadMM: 30, FlowLPS: 0.7}}, 0.5 + 0.2*5/15, hydraulic.FromCurve},
		{"before the curve's", part.HeadFlow{HeadMM: 5, FlowLPS: 0.2}, points{{HeadMM: 10, FlowLPS: 0.4}, {HeadMM: 30, FlowLPS: 0.7}}, 0.55, hydraulic.FromCurve},
		{"after the curve's", part.HeadFlow{HeadMM: 20, FlowLPS: 0.6}, points{{HeadMM: 5, FlowLPS: 0.3}, {HeadMM: 10, FlowLPS: 0.4}}, 0.6, hydraulic.FromCurve},
		{"at one of the curve's", part.HeadFlow{HeadMM: 20, FlowLPS: 0.6}, points{{HeadMM: 20, FlowLPS: 0.55}, {HeadMM: 30, FlowLPS: 0.7}}, 0.55, hydraulic.FromCurve},
		{"at one between", part.HeadFlow{HeadMM: 15, FlowLPS: 0.45}, points{{HeadMM: 10, FlowLPS: 0.4}, {HeadMM: 15, FlowLPS: 0.5}, {HeadMM: 30, FlowLPS: 0.7}}, 0.5 + 0.2*5/15, hydraulic.FromCurve},
		{"the curve alone", part.HeadFlow{HeadMM: 20}, points{{HeadMM: 10, FlowLPS: 0.4}, {HeadMM: 30, FlowLPS: 0.7}}, 0.55, hydraulic.FromCurve},
	} {
		trap := waterOf(t, func(j *job.Job) {
			j.Drain.CapacityHeadMM, j.Drain.CapacityLPS, j.Drain.CapacityCurve = c.stated.HeadMM, c.stated.FlowLPS, c.curve
		}).Trap
		if math.Abs(trap.CapacityLPS-c.want) > 1e-9 || trap.Basis != c.basis || trap.HeadMM != 20 {
			t.Errorf("%s: %v l/s, %s, under %v; by hand %v, %s", c.name, trap.CapacityLPS, trap.Basis, trap.HeadMM, c.want, c.basis)
		}
	}
}

// What drives the trap is the height over its weir, or over the middle of the outlet where
// that is higher, and of the 20 mm over the cover what the cover leaves. The outlet's
// middle lies at 43 and the tile at 108; a weir 52 under the flange is as high, one under
// it makes no difference.
func TestWeirDrivesTheTrap(t *testing.T) {
	for weir, dropMM := range map[float64]float64{27: 40, 32: 45, 51: 64, 52: 65, 53: 65, 70: 65} {
		trap := waterOf(t, func(j *job.Job) { j.Drain.CapacityLPS, j.Drain.WeirDepthMM = 0, weir }).Trap
		if needs := seriesNeeds(trap.CapacityLPS, dropMM); math.Abs(needs-20) > 1e-6 || trap.Basis != hydraulic.FromOrifice {
			t.Errorf("a weir %v under the flange: %v l/s by %s needs %v mm", weir, trap.CapacityLPS, trap.Basis, needs)
		}
	}
}

// How deep water stands: with 0.6 l/s under 10 mm, a flow q needs hc + (10 − h6 + 45)·(q/0.6)² − 45,
// where the cover takes hc of it, and h6 at 0.6. It may
// stand 16.34 before it goes over the front, and half a metre where it can nowhere.
func TestWaterStandsByHand(t *testing.T) {
	stands := func(flow float64, closed bool) func(*job.Job) {
		return func(j *job.Job) {
			fromWallToWall(j)
			if closed {
				j.Former.Fall, j.Room.Doorways = job.FallRoom, nil
			}
			j.Water.ShowerFlowsLPS, j.Drain.CapacityHeadMM = []float64{flow}, 10
		}
	}
	need := func(flow float64) float64 {
		cover := func(flow float64) float64 { return 1000 * math.Pow(flow/1000/(0.37*math.Sqrt(19.62)*0.8), 2.0/3) }
		return cover(flow) + (55-cover(0.6))*math.Pow(flow/0.6, 2) - 45
	}
	// The drain of a whole room is 70 square, its cover without slots: through 840 mm² 0.6
	// need more than 10, and the trap has its 45 alone.
	closedNeed := func(flow float64) float64 {
		return 1000*math.Pow(flow/1000/(0.67*840e-6), 2)/19.62 + 45*math.Pow(flow/0.6, 2) - 45
	}
	for _, c := range []struct {
		flow    float64
		closed  bool
		want    float64
		drowned bool
	}{{0.5, false, 0, false}, {0.62, false, need(0.62), false}, {0.63, false, need(0.63), false}, {0.637, false, 16.34, true}, {1.38, true, closedNeed(1.38), false}, {1.382, true, 500, true}} {
		// Found by halving, to a thousandth.
		w := waterOf(t, stands(c.flow, c.closed))
		if math.Abs(w.Trap.StandsMM-c.want) > 1e-3 || w.Trap.Drowned != c.drowned {
			t.Errorf("%v l/s: %v deep, goes over %v; by hand %v, %v", c.flow, w.Trap.StandsMM, w.Trap.Drowned, c.want, c.drowned)
		}
		value := w.Trap.StandsMM
		if c.drowned {
			value = math.Inf(1)
		}
		for _, m := range all(t, on(outletAt20(), stands(c.flow, c.closed))) {
			if m.Quantity == "trap.water-stands" && m.Value != value {
				t.Errorf("%v l/s: measured %v, want %v", c.flow, m.Value, value)
			}
		}
	}
}

// Which outlets run together, and what limits them. The usual pipe carries 1.0975, the
// cover takes in 6.13; a drain of 40 square has a cover without slots, and through the gap
// of 3 round it, 480 mm², go 0.67·480e-6·√(2·9.81·0.02) m³/s.
func TestOutletsByHand(t *testing.T) {
	flows := func(capacity float64, flows ...float64) func(*job.Job) {
		return func(j *job.Job) { j.Drain.CapacityLPS, j.Water.ShowerFlowsLPS = capacity, flows }
	}
	small := func(j *job.Job) {
		flows(0.6, 0.1, 0.15)(j)
		j.Former.Fall, j.Drain.WidthMM = job.FallPoint, 40
	}
	gap := 0.67 * 480e-6 * math.Sqrt(2*9.81*0.02) * 1000
	for _, c := range []struct {
		name    string
		make    func(*job.Job)
		carries float64
		limit   string
		keep    []int
		left    map[int]float64
	}{
		{"all of them", flows(0.6, 0.3, 0.3), 0.6, "trap", []int{0, 1}, nil},
		{"one of them", flows(0.6, 0.5, 0.4), 0.6, "trap", []int{0}, map[int]float64{1: 0.1}},
		{"more of them for as much", flows(0.2, 0.2, 0.1, 0.1), 0.2, "trap", []int{1, 2}, nil},
		{"fewer of them for as much", flows(0.2, 0.1, 0.1, 0.2), 0.2, "trap", []int{0, 1}, nil},
		{"none of them", flows(0.2, 0.3), 0.2, "trap", nil, map[int]float64{0: 0.2}},
		{"the pipe", flows(5, 1, 0.2), 1.097501, "pipe 1", []int{0}, map[int]float64{1: 0.097501}},
		// Of two pipes that carry as little the first is named.
		{"the first of two pipes", func(j *job.Job) { flows(5, 1, 0.2)(j); j.Waste.Fittings = fallingPiece(false) }, 1.097501, "pipe 1", []int{0}, map[int]float64{1: 0.097501}},
		{"the cover", small, gap, "drain-cover", []int{1}, map[int]float64{0: gap - 0.15}},
	} {
		o := waterOf(t, c.make).Outlets
		const digits = 1e-6 // of the pipe's flow by hand
		same := len(o.RegulateTo) == len(c.left)
		for i, left := range c.left {
			same = same && math.Abs(o.RegulateTo[i]-left) < digits
		}
		if math.Abs(o.CarriesLPS-c.carries) > digits || o.Limit.String() != c.limit || !slices.Equal(o.Keep, c.keep) || !same {
			t.Errorf("%s: %+v, by hand %v by %s, %v, %v", c.name, o, c.carries, c.limit, c.keep, c.left)
		}
		sum := 0.0
		for _, i := range c.keep {
			sum += on(outletAt20(), c.make).Water.ShowerFlowsLPS[i]
		}
		if math.Abs(o.KeepLPS-sum) > 1e-12 {
			t.Errorf("%s: those kept run %v, by hand %v", c.name, o.KeepLPS, sum)
		}
	}
}

// A seal of 50 less what falls in the pipes that run full, from the trap on: as far as
// the first with air over its water.
func TestSealLeftByHand(t *testing.T) {
	flat := func(flow, slope float64) func(*job.Job) {
		return func(j *job.Job) {
			// 100 of pipe, 120 of falling-piece, the rest.
			j.Waste.Gradient, j.Waste.Fittings, j.Water.ShowerFlowsLPS = 0.01, fallingPiece(false), []float64{flow}
			j.Waste.Fittings[0].Slope = slope
		}
	}
	// Full, a pipe of 46 at 1:100 carries less than 0.7 and at 1:4 more than 3.
	holdChanges(t, outletAt20(), []change{
		{"full before a steep piece", flat(0.9, 0.25), []want{{"trap.seal-left", "trap", 50 - 1, mgl64.Vec3{700, 1832, 0}}}},
		{"full all along", flat(0.9, 0.01), []want{{"trap.seal-left", "trap", 50 - 9.2, mgl64.Vec3{700, 1832, 0}}}},
		{"air over the water", flat(0.2, 0.01), []want{{"trap.seal-left", "trap", 50, mgl64.Vec3{700, 1832, 0}}}},
		// Backwards nothing is pulled: 1 and 7 of the pipes before and behind.
		{"a piece backwards", func(j *job.Job) { flat(0.9, 0.01)(j); j.Waste.Fittings[0].Reversed = true }, []want{{"trap.seal-left", "trap", 50 - 8, mgl64.Vec3{700, 1832, 0}}}},
		{"all of it", func(j *job.Job) { flat(0.9, 0.01)(j); j.Drain.SealMM = 5 }, []want{{"trap.seal-left", "trap", 0, mgl64.Vec3{700, 1832, 0}}}},
	})
}

// The slowest water is in the flattest piece that falls; pieces are those with a length
// of pipe, so neither a reducer nor a drop.
func TestWaterInPiecesByHand(t *testing.T) {
	holdChanges(t, outletAt20(), []change{
		{"a flat falling-piece", func(j *job.Job) { j.Waste.Fittings = fallingPiece(false); j.Waste.Fittings[0].Slope = 0.01 }, []want{{"pipe.velocity", "falling-piece 2", hydraulicVelocity(0.01, 0.2), mgl64.Vec3{485, 1832, 20 - 2.5 - 0.6 + 23}}}},
		{"a steep falling-piece", func(j *job.Job) { j.Waste.Fittings = fallingPiece(false) }, []want{{"pipe.velocity", "pipe 1", hydraulicVelocity(0.025, 0.2), mgl64.Vec3{595, 1832, 20 - 1.25 + 23}}, {"pipe.velocity", "pipe 3", not, nowhere}}},
		{"backwards", func(j *job.Job) { j.Waste.Gradient = -0.01 }, []want{{"pipe.velocity", "pipe 1", not, nowhere}}},
		{"a falling piece backwards", func(j *job.Job) { j.Waste.Fittings = fallingPiece(true) }, []want{{"pipe.velocity", "falling-piece 2", not, nowhere}, {"pipe.velocity", "pipe 1", hydraulicVelocity(0.025, 0.2), nowhere}}},
	})
	names := func(make func(*job.Job)) (out []string) {
		for _, p := range waterOf(t, make).Pieces {
			out = append(out, rule.Subject{Of: rule.Piece, Piece: p.Piece.Name()}.String())
		}
		return out
	}
	if got := names(func(j *job.Job) { j.Waste.Fittings = reducer(75, 75, 71, false) }); !slices.Equal(got, []string{"pipe 1", "pipe 3"}) {
		t.Errorf("with a reducer: %v", got)
	}
	if got := names(func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{245, 1832}} }); !slices.Equal(got, []string{"pipe 1"}) {
		t.Errorf("with a drop: %v", got)
	}
}

// Water comes down on a linear drain along its 800, on one across the middle from both
// sides, and on a point drain of 70 all round.
func TestFilmByHand(t *testing.T) {
	for fall, width := range map[job.FallKind]float64{job.FallBack: 800, job.FallMid: 1600, job.FallPoint: 280} {
		if got, want := waterOf(t, func(j *job.Job) { j.Former.Fall = fall }).Film, hydraulic.OnTile(0.2, width, 0.02); got != want || got.DepthMM == 0 {
			t.Errorf("%s: %+v, want %+v", fall, got, want)
		}
	}
	// With falling ends over its two of 70 as well.
	ends := func(j *job.Job) { j.Former.Ends = job.EndsFalling }
	if got, want := waterOf(t, ends).Film, hydraulic.OnTile(0.2, 940, 0.02); got != want {
		t.Errorf("with falling ends: %+v, want %+v", got, want)
	}
	// The usual cover has slots and a gap of 14604 mm², more than comes over its long edge
	// of 800, which then limits it; over both edges of one across the middle comes more.
	edge := func(mm float64) float64 { return 0.37 * math.Sqrt(2*9.81) * mm / 1000 * math.Pow(0.02, 1.5) * 1000 }
	w := waterOf(t, func(*job.Job) {})
	if !w.InletWeir || math.Abs(w.InletLPS-edge(800)) > 1e-9 || w.InletHeadMM != 20 {
		t.Errorf("the usual cover takes in %v under %v, over its edge %v; by hand %v", w.InletLPS, w.InletHeadMM, w.InletWeir, edge(800))
	}
	if w := waterOf(t, ends); !w.InletWeir || math.Abs(w.InletLPS-edge(940)) > 1e-9 {
		t.Errorf("with falling ends it takes in %v, by hand %v", w.InletLPS, edge(940))
	}
	through := 0.67 * 14604e-6 * math.Sqrt(2*9.81*0.02) * 1000
	if w := waterOf(t, func(j *job.Job) { j.Former.Fall = job.FallMid }); w.InletWeir || math.Abs(w.InletLPS-through) > 1e-9 {
		t.Errorf("across the middle it takes in %v, over its edge %v; by hand %v", w.InletLPS, w.InletWeir, through)
	}
}
