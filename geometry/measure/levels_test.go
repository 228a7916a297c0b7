package measure_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// chosen sets a height of the base by hand.
func chosen(j *job.Job, heightMM float64) {
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, heightMM
}

// tilted gives the floor readings on a plane: level 0 at the origin, rising by so
// much to x = 2000 and to y = 2000.
func tilted(j *job.Job, toRightMM, backMM float64) {
	j.SpotLevels = []job.SpotLevel{{}, {At: plan.Point{2000, 0}, LevelMM: toRightMM}, {At: plan.Point{0, 2000}, LevelMM: backMM},
		{At: plan.Point{2000, 2000}, LevelMM: toRightMM + backMM}}
}

// The trap's water: what the body lacks for weir, seal and passage as stated, over its
// floor of 2.5; where weir and outlet lie to each other and to the channel, whose
// underside is at 70; and the passage, 220 long all round inside the dip.
func TestTrapWaterByHand(t *testing.T) {
	at, outlet := mgl64.Vec3{700, 1832, 0}, mgl64.Vec3{645, 1832, 20}
	stated := func(weir, seal, passage, outlet float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Drain.WeirDepthMM, j.Drain.SealMM, j.Drain.PassageMM, j.Drain.OutletInvertDepthMM = weir, seal, passage, outlet
			chosen(j, 69)
		}
	}
	through := func(passageMM float64) float64 { return math.Pi / 4 * 46 * 46 / (220 * passageMM) }
	nominal := func(mm float64) func(*job.Job) { return func(j *job.Job) { j.Drain.OutletNominalMM = mm } }
	begins := func(kind job.FittingKind, atMM float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Drain.OutletNominalMM, j.Waste.Fittings = 40, reducer(75, 75, 71, false)
			j.Waste.Fittings[0].Kind, j.Waste.Fittings[0].AtMM = kind, atMM
			chosen(j, 100)
		}
	}
	holdChanges(t, job.New(), []change{
		{"10 short", stated(42.5, 50, 10, 75), []want{{"trap.water-short-by", "trap", 10, at}, {"trap.seal", "trap", 40, at}, {"trap.passage-share", "trap", through(10), at}, {"trap.inner-weir", "trap", 32.5, at}}},
		{"a shallow seal over a high passage", stated(32, 30, 10, 75), []want{{"trap.water-short-by", "trap", 0, at}, {"trap.seal", "trap", 30, at}, {"trap.passage-share", "trap", through(30.5), at}}},
		{"no passage", stated(92.5, 0, 0, 95), []want{{"trap.water-short-by", "trap", 0, at}, {"trap.seal", "trap", 0, at}, {"trap.passage-share", "trap", math.Inf(1), at}}},
		{"a weir in the channel", stated(20, 50, 10, 75), []want{{"trap.weir-over-channel", "trap", 5, at}, {"trap.outlet-over-weir", "trap", 0, at}, {"trap.inner-weir", "trap", 55, at}}},
		{"an outlet at the weir", stated(32, 50, 10, 32), []want{{"trap.weir-over-channel", "trap", 0, at}, {"trap.outlet-over-weir", "trap", 0, at}, {"trap.inner-weir", "trap", 0, at}, {"trap.seal", "trap", 50, at}}},
		// It holds the water up, in the channel too.
		{"an outlet over the weir", stated(32, 50, 10, 24), []want{{"trap.weir-over-channel", "trap", 1, at}, {"trap.outlet-over-weir", "trap", 8, at}, {"trap.inner-weir", "trap", 0, at}, {"trap.seal", "trap", 58, at}}},
		{"an outlet of 40", nominal(40), []want{{"trap.outlet-mismatch", "trap-outlet", 10, outlet}}},
		{"an outlet of 75", nominal(75), []want{{"trap.outlet-mismatch", "trap-outlet", 25, outlet}}},
		{"with a reducer on it", begins(job.FittingReducer, 0), []want{{"trap.outlet-mismatch", "trap-outlet", 0, nowhere}}},
		{"with an adaptor on it", begins(job.FittingAdaptor, 0), []want{{"trap.outlet-mismatch", "trap-outlet", 0, nowhere}}},
		{"with a reducer further on", begins(job.FittingReducer, 100), []want{{"trap.outlet-mismatch", "trap-outlet", 10, nowhere}}},
	})
}

// The base: how thick it is, what it lacks against the thinnest board and for the
// waste, and what keeps it up. The usual job's would be at 72.
func TestBaseByHand(t *testing.T) {
	onFloor := mgl64.Vec3{700, 1450, 43}
	holdChanges(t, job.New(), []change{
		// 40 on a bed of 3: 43. The outlet comes to 43 − 52 = −9, the trap to −29; the pipe's
		// underside at the exit to −9 − 16.125 − 2.
		{"too low", func(j *job.Job) { chosen(j, 40); j.Base.MinThicknessMM = 50 }, []want{
			{"base.thickness", "base", 40, onFloor}, {"base.thin-by", "base", 10, onFloor},
			{"base.too-low", "base, trap-on-floor", 29, mgl64.Vec3{700, 1832, 0}},
			{"trap.into-floor", "trap", 29, mgl64.Vec3{700, 1832, -29}},
			{"pipe.into-floor", "pipe 1", 27.125, mgl64.Vec3{0, 1832, -9 - 16.125 + 23}},
		}},
		{"as thick as the thinnest board", func(j *job.Job) { chosen(j, 40); j.Base.MinThicknessMM = 40 }, []want{{"base.thin-by", "base", 0, onFloor}}},
		{"higher than needed", func(j *job.Job) { chosen(j, 80) }, []want{
			{"base.thickness", "base", 80, mgl64.Vec3{700, 1450, 83}},
			{"base.too-low", "base, trap-on-floor", 0, mgl64.Vec3{700, 1832, 0}},
			{"trap.into-floor", "trap", 0, mgl64.Vec3{700, 1832, 11}},
		}},
		// With the outlet 88 under the flange the pipe's underside at the exit asks for
		// 88 − 23 + 16.125 + 2 = 83.125.
		{"held up by the pipe", func(j *job.Job) { j.Drain.OutletInvertDepthMM = 88; chosen(j, 80) }, []want{
			{"base.too-low", "pipe 1, base, piece-on-floor", 0.125, mgl64.Vec3{0, 1832, 0}},
			{"base.too-low", "base, trap-on-floor", not, mgl64.Vec3{}},
		}},
	})
	// Let in, the joists' tops are at −22, and the deck is cut out: a base 30 under
	// the floor lacks 8.
	at := mgl64.Vec3{700, 1550, -30}
	holdChanges(t, demotest.Rooms(t)[2].Job, []change{
		{"let in too low", func(j *job.Job) { chosen(j, -30) }, []want{
			{"base.thickness", "base", -30, at}, {"base.thin-by", "base", 8, at},
			{"base.too-low", "base, joist-tops", 8, mgl64.Vec3{700, 1550, 0}},
		}},
		{"let in, standing over the deck", func(j *job.Job) { chosen(j, 5) }, []want{
			{"base.thickness", "base", 5, mgl64.Vec3{700, 1550, 5}}, {"base.thin-by", "base", 0, mgl64.Vec3{700, 1550, 5}},
		}},
	})
}

// A board of 1500 for a shower of 1400 is 100 too long: 50 off each end, or what is
// asked for off its start and the rest off its end. The middle 1400 must be kept: more than 50 off
// either end cuts into it.
func TestBoardCutsByHand(t *testing.T) {
	cut := func(startMM, boardMM float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Base.KeepZoneMM, j.Base.BoardLengthMM = min(boardMM, j.Shower.WidthMM), boardMM
			if startMM >= 0 {
				j.Base.CutAtStartMM = of(startMM)
			}
		}
	}
	at := mgl64.Vec3{700, 1450, 72}
	holdChanges(t, job.New(), []change{
		{"equal", cut(-1, 1500), []want{{"base.keep-zone-cut", "base-board", 0, at}}},
		{"20 off the start", cut(20, 1500), []want{{"base.keep-zone-cut", "base-board", 30, at}}},
		{"70 off the start", cut(70, 1500), []want{{"base.keep-zone-cut", "base-board", 20, at}}},
		{"more than there is", cut(130, 1500), []want{{"base.keep-zone-cut", "base-board", 50, at}}},
		{"extended", cut(20, 1300), []want{{"base.keep-zone-cut", "base-board", 0, at}}},
		{"a screed", func(j *job.Job) { cut(20, 1500)(j); j.Base.Screed = true }, []want{{"base.keep-zone-cut", "base-board", not, mgl64.Vec3{}}}},
		{"no keep zone", func(j *job.Job) { j.Base.CutAtStartMM = of(20) }, []want{{"base.keep-zone-cut", "base-board", not, mgl64.Vec3{}}}},
	})
}

// The trap just stands on the floor with the base's top at 72, 69 over its bed of 3. With
// 5 wanted under it the top must come to 77. Boards of 10 and 60 with 2 to 4 between
// give 72 to 74 over the bed; four of 60 give no more than 252.
func TestStackByHand(t *testing.T) {
	at := func(z float64) mgl64.Vec3 { return mgl64.Vec3{700, 1450, z} }
	trap := mgl64.Vec3{700, 1832, 0}
	made := func(mode job.HeightMode, mm float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Base.Height, j.Base.HeightMM, j.Base.BoardsMM, j.Drain.BedUnderMM = mode, mm, []float64{10, 60}, 5
		}
	}
	holdChanges(t, job.New(), []change{
		{"bare", made(job.HeightBare, 0), []want{{"base.clear-short-by", "base, trap-on-floor", 5, trap}, {"base.under-stack-by", "base", 3, at(72)}}},
		{"buildable", made(job.HeightBuildable, 0), []want{{"base.clear-short-by", "base, trap-on-floor", 0, trap}, {"base.under-stack-by", "base", 0, at(77)}}},
		{"73 over the bed", made(job.HeightChosen, 73), []want{{"base.clear-short-by", "base, trap-on-floor", 1, trap}, {"base.under-stack-by", "base", 0, at(76)}}},
		{"75 over the bed", made(job.HeightChosen, 75), []want{{"base.under-stack-by", "base", 84 - 75, at(78)}}},
		// Too low altogether is said elsewhere.
		{"68 over the bed", made(job.HeightChosen, 68), []want{{"base.clear-short-by", "base, trap-on-floor", not, mgl64.Vec3{}}}},
		{"higher than all boards", made(job.HeightChosen, 253), []want{{"base.over-stacks-by", "base", 1, at(256)}, {"base.under-stack-by", "base", not, mgl64.Vec3{}}}},
		{"as high as they come", made(job.HeightChosen, 252), []want{{"base.over-stacks-by", "base", not, mgl64.Vec3{}}, {"base.under-stack-by", "base", 0, at(255)}}},
		{"measured", func(j *job.Job) { made(job.HeightChosen, 75)(j); j.AsBuilt.BaseTopMM = of(76) }, []want{{"base.under-stack-by", "base", not, mgl64.Vec3{}}}},
		{"in one piece", func(j *job.Job) { made(job.HeightChosen, 75.3)(j); j.Base.BoardsMM = nil }, []want{{"base.under-stack-by", "base", not, mgl64.Vec3{}}}},
	})
}

// The structural floor: how far its readings lie off the plane and how far it is
// out of level under the shower.
func TestStructuralFloorByHand(t *testing.T) {
	holdChanges(t, job.New(), []change{
		{"no readings", func(*job.Job) {}, []want{{"floor.residual", "spot-level 1", not, mgl64.Vec3{}}}},
		// Eight readings of 0 about one of 5: a level plane at 5/9, the one 40/9 over it. It
		// holds the trap up as well, by 5 over the floor as the rest has it.
		{"a hump", func(j *job.Job) {
			for _, x := range []float64{300, 700, 1100} {
				for _, y := range []float64{1100, 1450, 1800} {
					s := job.SpotLevel{At: plan.Point{x, y}}
					if x == 700 && y == 1450 {
						s.LevelMM = 5
					}
					j.SpotLevels = append(j.SpotLevels, s)
				}
			}
			chosen(j, 60)
		}, []want{
			{"floor.residual", "spot-level 5", 40.0 / 9, mgl64.Vec3{700, 1450, 5}},
			{"floor.out-of-level", "structural-floor", 0, mgl64.Vec3{700, 1450, 5}},
			// The base is at 5 + 3 + 60, the trap at 68 − 72 = −4, and the floor there as good as
			// at 5. The outlet is at 68 − 52 = 16, the underside at the exit 18.125 lower.
			{"trap.into-floor", "trap", 9, mgl64.Vec3{700, 1832, -4}},
			{"pipe.into-floor", "pipe 1", 5 - (16 - 18.125), mgl64.Vec3{0, 1832, 16 - 16.125 + 23}},
		}},
		// 10 in 2000 to the right, 5 in 2000 back. From the corner at (0, 1000) to that at
		// (1400, 1900) it rises by 7 + 2.25; that is at 7 + 4.75. The trap's highest corner
		// is (755, 1887): 3.775 + 4.7175 = 8.4925; the base is at 11.75 + 3 + 60, the trap 72
		// lower.
		{"tilted", func(j *job.Job) { tilted(j, 10, 5); chosen(j, 60) }, []want{
			{"floor.residual", "spot-level 1", 0, mgl64.Vec3{}},
			{"floor.out-of-level", "structural-floor", 9.25, mgl64.Vec3{700, 1450, 11.75}},
			{"trap.into-floor", "trap", 8.4925 - (74.75 - 72), mgl64.Vec3{700, 1832, 2.75}},
			// The pipe's underside is at 74.75 − 52 − 2 = 20.75 where it starts over a floor of
			// 3.225 + 4.58, and at 4.625 at the exit over one of 4.58: 0.045 over it.
			{"pipe.into-floor", "pipe 1", 0, mgl64.Vec3{0, 1832, 6.625 + 23}},
		}},
	})
}

// The falling floor, the former and the shower's size.
func TestFloorAndShowerByHand(t *testing.T) {
	holdChanges(t, job.New(), []change{
		{"a thin former", func(j *job.Job) { j.Former.ThicknessAtDrainMM = 10 }, []want{{"former.thin-by", "former", 5, mgl64.Vec3{700, 1817, 95}}}},
		{"a former as thick as it must be", func(j *job.Job) { j.Former.ThicknessAtDrainMM = 15 }, []want{{"former.thin-by", "former", 0, mgl64.Vec3{}}}},
		// A shower 800 wide, from x = 600: its middle is at x = 1000. The pipe is 300 longer,
		// 945 to the exit, and its underside there asks for a base at 52 + 945/40 + 2.
		{"narrower than deep", func(j *job.Job) { j.Shower.WidthMM, j.Drain.LengthMM = 800, 600 }, []want{
			{"shower.least-side", "shower", 800, mgl64.Vec3{1000, 1450, 77.625 + 36}}, {"shower.area", "shower", 800 * (900 - 13), mgl64.Vec3{1000, 1450, 77.625 + 36}}}},
		// A channel of 70 across the middle, at y = 1450: planes to y = 1485 and from 1415.
		// Each is 415 deep, its middle 207.5 from the channel. The base is at 103.
		{"to the middle", func(j *job.Job) { j.Former.Fall = job.FallMid; chosen(j, 100) }, []want{
			{"floor.fall", "plane 1", 0.02, mgl64.Vec3{700, 1415 - 207.5, 139 + 4.15}}, {"floor.fall", "plane 2", 0.02, mgl64.Vec3{700, 1485 + 207.5, 139 + 4.15}},
			{"floor.fall", "plane 3", not, mgl64.Vec3{}}}},
		// To a point 70 square in the middle: 665 to the sides and 415 to front and back,
		// which come out steeper, 0.02·665/415.
		{"to a point", func(j *job.Job) { j.Former.Fall = job.FallPoint }, []want{
			{"floor.fall", "plane 1", 0.02, mgl64.Vec3{}}, {"floor.fall", "plane 2", 0.02 * 665 / 415, mgl64.Vec3{}},
			{"floor.fall", "plane 3", 0.02, mgl64.Vec3{}}, {"floor.fall", "plane 4", 0.02 * 665 / 415, mgl64.Vec3{}}, {"floor.fall", "plane 5", not, mgl64.Vec3{}}}},
	})
}

// leafMM2 is the quarter of a circle that a leaf sweeps over, drawn in 24 triangles.
func leafMM2(wide float64) float64 { return 24 * wide * wide / 2 * math.Sin(math.Pi/48) }

// besideShower moves the doorway into the left wall of the starting job, which goes from y = 1900 to the front, so that
// so much of its 760 lies beside the shower.
func besideShower(mm float64) func(*job.Job) {
	return func(j *job.Job) {
		j.Room.Doorways[0] = job.Doorway{Wall: 3, OffsetMM: 900 - mm, WidthMM: 760, HeightMM: 2040, NeighbourFFLMM: 20, Leaf: job.LeafNone}
	}
}

// Steps: at the open edges, up and down, with a ramp, and at the doorway.
func TestStepsByHand(t *testing.T) {
	holdChanges(t, job.New(), []change{
		// The room's tile is at 4 + 200: 96 over the shower at the drain, less at the front.
		{"down into the shower", func(j *job.Job) { j.Layers.Room.Tile.ThicknessMM = 100; j.Layers.Room.Bed.ThicknessMM = 100 }, []want{
			{"step.edge", "open-edge 1, right", 201 - 108, mgl64.Vec3{1400, 1450, 108 + 367.0/50}}, {"step.edge", "open-edge 2, front", 201 - 124.34, mgl64.Vec3{700, 1000, 124.34}},
			{"step.door", "doorway 1", 201 - 20, mgl64.Vec3{1880, 0, 201}}}},
		// Ramps of 600 in front, from 124.34 down to 13: by 0.185567, and at the right edge
		// by that and by the 1:50 of its tile. The UK's 1:12 asks for 12·111.34 = 1336.08
		// in front, and of the steepest line at the right, straight out √(1/144 − 1/2500). There are 1000 to the wall, at both.
		{"a ramp", func(j *job.Job) { j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil }, []want{
			{"step.ramp", "open-edge 1, right", math.Hypot(111.34/600, 0.02), mgl64.Vec3{1400, 1450, 115.34}}, {"step.ramp", "open-edge 2, front", 111.34 / 600, mgl64.Vec3{700, 1000, 124.34}},
			{"step.edge", "open-edge 1, right", 0, mgl64.Vec3{1400, 1450, 108 + 367.0/50}}, {"step.edge", "open-edge 2, front", 0, mgl64.Vec3{700, 1000, 124.34}},
			{"ramp.short-by", "open-edge 1, right", 111.34/math.Sqrt(1.0/144-1.0/2500) - 600, mgl64.Vec3{}}, {"ramp.short-by", "open-edge 2, front", 736.08, mgl64.Vec3{}},
			{"ramp.room-short-by", "ramp-by-wall D, at-right", 0, mgl64.Vec3{}}, {"ramp.room-short-by", "ramp-by-wall A, at-front", 0, mgl64.Vec3{}},
			{"ramp.foot-lip", "open-edge 1, right", not, mgl64.Vec3{}}, {"ramp.under-leaf", "doorway 1", not, mgl64.Vec3{}}}},
		{"a very short ramp", func(j *job.Job) { j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 0.5, nil }, []want{{"step.ramp", "open-edge 2, front", 111.34 / 0.5, mgl64.Vec3{}}}},
		// As long as 1:12 asks: there is no step, and the wall is 336.08 too near.
		{"a ramp of no stated length", func(j *job.Job) { j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 0, nil }, []want{
			{"step.ramp", "open-edge 1, right", 1.0 / 12, mgl64.Vec3{}}, {"ramp.short-by", "open-edge 1, right", 0, mgl64.Vec3{}},
			{"ramp.room-short-by", "ramp-by-wall A, at-front", 111.34/math.Sqrt(1.0/144-1.0/2500) - 1000, mgl64.Vec3{}}}},
		// To the wall there are 1000 of the 1100 that are stated.
		{"a ramp into a wall", func(j *job.Job) { j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 1100, nil }, []want{
			{"ramp.room-short-by", "ramp-by-wall A, at-front", 100, mgl64.Vec3{}}, {"step.ramp", "open-edge 2, front", 111.34 / 1100, mgl64.Vec3{}}}},
		// The starting pane closes the right edge; one on the first 500 of the front has the
		// ramp, from y = 1000 to 400, end square beside it, at x = 500. At the left wall basins
		// hang from y = 900 to 500 and 600 deep: the last 100 of them over the ramp.
		{"a ramp beside panes", func(j *job.Job) {
			pane := j.Shower.Screens[0]
			pane.Side, pane.OffsetMM, pane.WidthMM = job.SideFront, 0, 500
			j.Room.Edge, j.Shower.Screens = job.EdgeRamp, append(j.Shower.Screens, pane)
			stands := job.Fixture{Kind: job.FixtureBasin, Wall: 3, OffsetMM: 1000, WidthMM: 400, DepthMM: 600, HeightMM: 150, UnderMM: 700}
			high := stands
			high.UnderMM = 2000
			j.Room.Fixtures = []job.Fixture{stands, high}
		}, []want{
			{"ramp.open-side", "screen 2", 111.34, mgl64.Vec3{500, 1000, 124.34}}, {"ramp.open-side", "screen 1", not, mgl64.Vec3{}},
			{"step.edge", "open-edge 1, right", not, mgl64.Vec3{}}, {"step.ramp", "open-edge 1, right", not, mgl64.Vec3{}},
			{"step.edge", "open-edge 2, front", 0, mgl64.Vec3{}},
			{"ramp.under-fixture", "fixture 1, fixture.basin", 100 * 400, mgl64.Vec3{}}, {"ramp.under-fixture", "fixture 2, fixture.basin", not, mgl64.Vec3{}}}},
		// Where panes leave nobody a way the edges are steps, as told.
		{"a ramp to nowhere", func(j *job.Job) {
			pane := j.Shower.Screens[0]
			pane.Side, pane.OffsetMM, pane.WidthMM = job.SideFront, 0, 1400
			j.Room.Edge, j.Shower.Screens = job.EdgeRamp, append(j.Shower.Screens, pane)
		}, []want{{"step.edge", "open-edge 2, front", 111.34, mgl64.Vec3{}}, {"step.ramp", "open-edge 2, front", not, mgl64.Vec3{}}}},
		// A finish of 10 stays; the ramp's own 13 end over it.
		{"a ramp on a thin finish", func(j *job.Job) {
			j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 10, Out: job.OutShower}}
		}, []want{{"ramp.foot-lip", "open-edge 2, front", 3, mgl64.Vec3{}}}},
		// The leaf opens into the room about the opening's near end, x = 1500, and sweeps
		// over a quarter of a circle of 760, all of it over the floor the ramp takes.
		{"a ramp under a leaf", func(j *job.Job) {
			j.Room.Edge, j.Room.RampRunMM, j.Room.Doorways[0].Leaf, j.Shower.Screens = job.EdgeRamp, 4000, job.LeafIn, nil
		}, []want{{"ramp.under-leaf", "doorway 1", leafMM2(760), mgl64.Vec3{}}}},
		{"no ramp", func(*job.Job) {}, []want{{"step.ramp", "open-edge 1, right", not, mgl64.Vec3{}}, {"door.leaf-gap", "doorway 1", not, mgl64.Vec3{}}}},
		{"the neighbour lies lower", func(j *job.Job) { j.Room.Doorways[0].NeighbourFFLMM = 4 }, []want{{"step.door", "doorway 1", 9, mgl64.Vec3{1880, 0, 13}}}},
		// A stop of 5 on the floor's 13 stands 2 under the neighbour's 20: its own height is the
		// worse. Beside a neighbour at 4 it is 14 high.
		{"a water stop", func(j *job.Job) { j.Layers.Tanking = &job.Tanking{DoorStopMM: 5} }, []want{{"step.door", "doorway 1", 5, mgl64.Vec3{1880, 0, 13}}}},
		{"a water stop over a lower neighbour", func(j *job.Job) {
			j.Layers.Tanking, j.Room.Doorways[0].NeighbourFFLMM = &job.Tanking{DoorStopMM: 5}, 4
		}, []want{{"step.door", "doorway 1", 14, mgl64.Vec3{1880, 0, 13}}}},
		// A doorway in the left wall whose last 110 lie beside the shower, whose front edge is at y = 1000 and at the
		// left wall 108 + 16.34 high: worst there, however little of the doorway it is; but 4 are within what walls are off.
		{"a doorway a little beside the shower", besideShower(110), []want{{"step.door", "doorway 1", 124.34 - 20, mgl64.Vec3{}}}},
		{"a doorway half beside the shower", besideShower(400), []want{{"step.door", "doorway 1", 124.34 - 20, mgl64.Vec3{}}}},
		{"a doorway nearly clear of the shower", besideShower(4), []want{{"step.door", "doorway 1", 20 - 13, mgl64.Vec3{0, 624, 13}}}},
		// All in one with the shower: no edges, and the doorway's step is from the falling
		// floor, which rises by 1:50 from the drain to the farthest of the room's sides.
		{"the whole room falls", func(j *job.Job) { j.Former.Fall = job.FallRoom }, []want{{"step.edge", "open-edge 1, right", not, mgl64.Vec3{}}, {"step.edge", "open-edge 2, front", not, mgl64.Vec3{}}}},
	})
}

// What is left under a door that opens inwards: its leaf is 8 over the neighbour's
// floor at 20. Its underside is held against the highest floor it sweeps over.
func TestDoorLeafByHand(t *testing.T) {
	inwards := func(j *job.Job) { j.Room.Doorways[0].Leaf = job.LeafIn }
	// besideShower hinges at y = 1200 in the left wall and sweeps over the shower's
	// front, to y = 440.
	besideShower := func(j *job.Job) {
		j.Room.Doorways[0] = job.Doorway{Wall: 3, OffsetMM: 700, WidthMM: 760, HeightMM: 2040, NeighbourFFLMM: 20, Leaf: job.LeafIn, HingeAtStart: true, LeafGapMM: 8}
	}
	for _, c := range []struct {
		name     string
		make     func(*job.Job)
		want     float64
		x, y     float64
		anywhere bool
	}{
		{"over the room's tile", inwards, 28 - 13, 0, 0, true},
		{"with more under it", func(j *job.Job) { inwards(j); j.Room.Doorways[0].LeafGapMM = 20 }, 40 - 13, 0, 0, true},
		// Rising 10 in 2000, and falling a little to the back: highest at the hinge, x = 2260,
		// by 11.3.
		{"over a rising floor", func(j *job.Job) { inwards(j); tilted(j, 10, -1) }, 28 - 13 - 11.3, 2260, 0, false},
		// Falling as much: highest at the leaf's edge when shut, x = 1500.
		{"over a falling floor", func(j *job.Job) { inwards(j); tilted(j, -10, 0) }, 28 - 13 + 7.5, 1500, 0, false},
		// Rising towards the back: highest where the leaf is square to the wall, y = 760.
		{"over a floor that rises to the back", func(j *job.Job) { inwards(j); tilted(j, 0, 10) }, 28 - 13 - 3.8, 2260, 760, false},
		// Over the shower's front edge the tile is at 108 + 16.34.
		{"over the shower", besideShower, 28 - 124.34, 0, 1000, true},
	} {
		found := false
		for _, m := range all(t, on(job.New(), c.make)) {
			if m.Quantity != "door.leaf-gap" {
				continue
			}
			found = true
			// A corner counts a thousandth of a millimetre inside the part it belongs to.
			const insideMM = 2e-3
			if m.Subject.String() != "doorway 1" || math.Abs(m.Value-c.want) > insideMM/50 {
				t.Errorf("%s: %v is left under the leaf, by hand %v", c.name, m.Value, c.want)
			}
			if !c.anywhere && math.Hypot(m.At.X()-c.x, m.At.Y()-c.y) > insideMM {
				t.Errorf("%s: measured at %v, by hand at %v, %v", c.name, m.At, c.x, c.y)
			}
			if leaf := 20 + on(job.New(), c.make).Room.Doorways[0].LeafGapMM; math.Abs(m.At.Z()-(leaf-m.Value)) > closeMM {
				t.Errorf("%s: measured at %v with %v left", c.name, m.At, m.Value)
			}
		}
		if !found {
			t.Errorf("%s: not measured", c.name)
		}
	}
}

// The drain: how far its cover reaches, and the strip between it and the wall. The
// layers make 13 over the flange and on the wall.
func TestDrainByHand(t *testing.T) {
	at := func(y, z float64) mgl64.Vec3 { return mgl64.Vec3{700, y, z} }
	strip := func(valueMM, overMM float64, at mgl64.Vec3) []want {
		return []want{{"drain.strip", "drain", valueMM, at}, {"drain.under-wall", "drain", overMM, at}}
	}
	none := strip(not, not, mgl64.Vec3{})
	fall := func(k job.FallKind) func(*job.Job) { return func(j *job.Job) { j.Former.Fall = k } }
	holdChanges(t, job.New(), []change{
		// The cover goes from 8 to 25 over the flange; a tile of 30 asks for 34, one of 2 for 6.
		{"a thick tile", func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM = 30 }, []want{{"cover.short-by", "drain-cover", 9, at(1852, 129)}, {"cover.proud-by", "drain-cover", 0, at(1852, 129)}}},
		{"a thin tile", func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM = 2 }, []want{{"cover.short-by", "drain-cover", 0, at(1852, 101)}, {"cover.proud-by", "drain-cover", 2, at(1852, 101)}}},
		{"off the wall", func(j *job.Job) { j.Drain.WallClearanceMM = 40 }, strip(27, 0, at(1825, 108))},
		{"under the wall's tile", func(j *job.Job) { j.Drain.WallClearanceMM = 5 }, strip(0, 8, at(1860, 108))},
		// At the left there is a wall; the right and the front are open. Across the middle
		// and at a point there is none.
		{"at the left", func(j *job.Job) { j.Former.Fall, j.Drain.WallClearanceMM = job.FallLeft, 40 }, strip(27, 0, mgl64.Vec3{75, 1450, 108})},
		// Against the first wall, at y = 0, with the shower from x = 1000 to 2400.
		{"at the first wall", func(j *job.Job) {
			j.Shower.Wall, j.Drain.WallClearanceMM, j.Room.Doorways = 0, 40, nil
			chosen(j, 100)
		}, strip(27, 0, mgl64.Vec3{1700, 75, 139})},
		{"at the open right", fall(job.FallRight), none},
		{"at the open front", fall(job.FallFront), none},
		{"across the middle", fall(job.FallMid), none},
		{"at a point", fall(job.FallPoint), none},
	})
}

// Levels measured as built that cannot be, and what no bed can take up.
func TestAsBuiltByHand(t *testing.T) {
	holdChanges(t, job.New(), []change{
		{"nothing measured", func(*job.Job) {}, []want{{"built.contradiction", "built-level, tile-under-layers", not, mgl64.Vec3{}}}},
		// The flange is at 95 and 10 of tanking and tile go on it.
		{"a tile under its layers", func(j *job.Job) { j.AsBuilt.TileAtDrainMM = of(40) }, []want{
			{"built.contradiction", "built-level, tile-under-layers", 65, mgl64.Vec3{700, 1817, 40}}}},
		// The former was to lie at 75; on a base at 40 its bed would be 35 thick instead of
		// 3, and a bed may be 10.
		{"a base far too low", func(j *job.Job) { j.AsBuilt.BaseTopMM = of(40) }, []want{{"built.out-of-reach", "off-plan, base-low", 32, mgl64.Vec3{700, 1450, 40}}}},
		// On one at 74.5 it would be 0.5, and a bed must be 1.
		{"a base a little too high", func(j *job.Job) { j.AsBuilt.BaseTopMM = of(74.5) }, []want{{"built.out-of-reach", "off-plan, base-high", 2.5, mgl64.Vec3{700, 1450, 74.5}}}},
		{"a base that the bed takes up", func(j *job.Job) { j.AsBuilt.BaseTopMM = of(70) }, []want{{"built.out-of-reach", "off-plan, base-low", not, mgl64.Vec3{}}, {"built.out-of-reach", "off-plan, base-high", not, mgl64.Vec3{}}}},
		// The tile was to lie at 108, 13 over the flange; between it and the former go 10 of
		// tanking and tile, and the bed.
		{"a former too low at the drain", func(j *job.Job) { j.AsBuilt.FormerAtDrainMM = of(80) }, []want{{"built.out-of-reach", "off-plan, former-low", 18 - 3, mgl64.Vec3{700, 1817, 80}}}},
		{"a former too high at the drain", func(j *job.Job) { j.AsBuilt.FormerAtDrainMM = of(98.5) }, []want{{"built.out-of-reach", "off-plan, former-high", 3 + 0.5, mgl64.Vec3{700, 1817, 98.5}}}},
		// Its high end was to lie 16.34 over the flange's 95.
		{"a former too low at its high end", func(j *job.Job) { j.AsBuilt.FormerAtEdgeMM = of(100) }, []want{{"built.out-of-reach", "off-plan, high-end-low", 11.34, mgl64.Vec3{}}}},
		{"a former too high at its high end", func(j *job.Job) { j.AsBuilt.FormerAtEdgeMM = of(120) }, []want{{"built.out-of-reach", "off-plan, high-end-high", 8.66, mgl64.Vec3{}}}},
		// The cover goes from 8 to 25 over the flange. With a tile of 4 it was to lie at 8.
		{"a tile too high", func(j *job.Job) { j.AsBuilt.TileAtDrainMM = of(125) }, []want{{"built.out-of-reach", "off-plan, tile-high", 17, mgl64.Vec3{700, 1817, 125}}}},
		{"a tile too low", func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM, j.AsBuilt.TileAtDrainMM = 4, of(101) }, []want{{"built.out-of-reach", "off-plan, tile-low", 2, mgl64.Vec3{700, 1817, 101}}}},
	})
}

// A former of 1400 by 900, falling along its 900 to the back, along its 1400 to the left,
// and 450 to either side of the middle. 0 is any size.
func TestFormerInPiecesByHand(t *testing.T) {
	of := func(fall job.FallKind, longest, widest float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Former.Fall, j.Former.LongestMM, j.Former.WidestMM = fall, longest, widest
			j.Drain.LengthMM, j.Drain.OffsetMM = 600, 0
		}
	}
	over := func(mm float64) []want { return []want{{"former.over-piece-by", "former", mm, nowhere}} }
	holdChanges(t, job.New(), []change{
		{"to the back", of(job.FallBack, 800, 1500), over(100)}, {"wide", of(job.FallBack, 1200, 1250), over(150)}, {"in one", of(job.FallBack, 900, 1400), over(0)},
		{"to the left", of(job.FallLeft, 800, 1500), over(600)}, {"from both sides", of(job.FallMid, 440, 0), over(10)},
		{"to a point", of(job.FallPoint, 600, 0), over(300)}, {"of any size", of(job.FallBack, 0, 0), over(not)},
	})
}
