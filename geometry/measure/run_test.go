package measure_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// nowhere is a place that is not looked at.
var nowhere mgl64.Vec3

// lShaped is the usual job without the front right quarter of its room: walls are
// at x = 1200 up to y = 700 and from there to the right at y = 700.
func lShaped() job.Job {
	return on(job.New(), func(j *job.Job) {
		wall := j.Room.Walls[0]
		j.Room.Outline = []plan.Point{{0, 0}, {1200, 0}, {1200, 700}, {2400, 700}, {2400, 1900}, {0, 1900}}
		j.Room.Walls = []job.Wall{wall, wall, wall, wall, j.Room.Walls[2], j.Room.Walls[3]}
		j.Room.Doorways = nil
		j.Shower.Wall, j.Waste.Exit.Wall = 4, 5
	})
}

// toPipe ends the run in an existing pipe, by way of turns.
func toPipe(j *job.Job, points ...plan.Point) {
	j.Waste.Waypoints = points[:len(points)-1]
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: points[len(points)-1]}
}

// fallingPiece is 120 of pipe that falls 1:20 and reducer one of 60 to the next pipe,
// both 100 along the run.
func fallingPiece(reversed bool) []job.Fitting {
	return []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: 0.05, Reversed: reversed}}
}

func reducer(nominal, outside, bore float64, reversed bool) []job.Fitting {
	return []job.Fitting{{Kind: job.FittingReducer, AtMM: 100, LengthMM: 60, Pipe: part.Pipe{NominalMM: nominal, OutsideDiameterMM: outside, BoreMM: bore, SocketOutsideMM: outside + 7}, Reversed: reversed}}
}

// outletAt20 is the usual job with its base kept where it is, at 72: the outlet is at
// (645, 1832) and looks to the left, its invert at 20, whatever the run asks for.
func outletAt20() job.Job { return on(job.New(), func(j *job.Job) { chosen(j, 69) }) }

// What cannot be put together as stated.
func TestRunInTroubleByHand(t *testing.T) {
	tan60, tan30 := math.Sqrt(3), 1/math.Sqrt(3)
	holdChanges(t, outletAt20(), []change{
		{"as it should be", func(*job.Job) {}, []want{{"run.turn-off", "trap-outlet", not, nowhere}, {"run.leg-short", "joint 1, leg", not, nowhere},
			{"run.fitting-misplaced", "in-line-fitting 1, falling-piece", not, nowhere}, {"run.nothing", "waste-run", not, nowhere}}},
		// 60° is 15 off the nearer bend, 45.
		{"a turn of 60°", func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{345, 1832}}
			j.Waste.Exit.OffsetMM = 68 + 345*tan60
		}, []want{
			{"run.turn-off", "bend-45 2", 15, mgl64.Vec3{345, 1832, 20}}, {"run.turn-off", "trap-outlet", not, nowhere}}},
		// Off the outlet's line by 30°, where nothing turns at all; then 30° back.
		{"aslant from the outlet", func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{345, 1832 - 300*tan30}}
			j.Waste.Exit.OffsetMM = 68 + 300*tan30
		}, []want{{"run.turn-off", "trap-outlet", 30, mgl64.Vec3{645, 1832, 20}}, {"run.turn-off", "bend-45 2", 15, mgl64.Vec3{345, 1832 - 300*tan30, 20}}}},
		// Square bends take 45 at each end: 52 between two of them lacks 38. No pipe is left there.
		{"a short leg", func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{200, 1832}, {200, 1780}}
			j.Waste.Exit.OffsetMM = 120
		}, []want{
			{"run.leg-short", "bend-90 2, leg 3, bend-90", 38, mgl64.Vec3{200, 1806, 20}},
			{"run.leg-short", "joint 1, leg 2, bend-90", not, nowhere}, {"run.leg-short", "bend-90 3, leg", not, nowhere}}},
		{"a fitting past the end", func(j *job.Job) { j.Waste.Fittings = fallingPiece(false); j.Waste.Fittings[0].AtMM = 3000 }, []want{
			{"run.fitting-misplaced", "in-line-fitting 1, falling-piece", 3000, mgl64.Vec3{645, 1832, 20}}}},
		{"the second fitting past the end", func(j *job.Job) {
			j.Waste.Fittings = append(fallingPiece(false), reducer(75, 75, 71, false)...)
			j.Waste.Fittings[1].AtMM = 2000
		}, []want{{"run.fitting-misplaced", "in-line-fitting 2, reducer", 2000, mgl64.Vec3{645, 1832, 20}}, {"run.fitting-misplaced", "in-line-fitting 1, falling-piece", not, nowhere}}},
		{"nowhere to go but down", func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{645, 1832}} }, []want{{"caution.services", "exit", not, nowhere}}},
		{"nowhere to go", func(j *job.Job) { toPipe(j, plan.Point{645, 1832}) }, []want{
			{"run.nothing", "waste-run", 0, mgl64.Vec3{645, 1832, 20}}, {"run.length", "waste-run", not, nowhere}, {"run.bends", "waste-run", not, nowhere},
			{"exit.in-joist", "existing-pipe-end", not, nowhere}, {"caution.services", "exit", not, nowhere}}},
	})
}

// Falls, fittings and sizes along the run, which begins at (645, 1832) with its
// invert at 20 and its axis 23 over that.
func TestPiecesByHand(t *testing.T) {
	at := func(alongMM, downMM, halfBoreMM float64) mgl64.Vec3 {
		return mgl64.Vec3{645 - alongMM, 1832, 20 - downMM + halfBoreMM}
	}
	holdChanges(t, outletAt20(), []change{
		// 100 of pipe, 120 of falling piece that takes 6, 700 of pipe.
		{"an falling-piece", func(j *job.Job) { j.Waste.Fittings = fallingPiece(false) }, []want{
			{"pipe.gradient", "pipe 1", 0.025, at(50, 1.25, 23)}, {"pipe.gradient", "falling-piece 2", 0.05, at(160, 5.5, 23)}, {"pipe.gradient", "pipe 3", 0.025, at(570, 8.5+8.75, 23)},
			{"run.fall-in-bores", "waste-run", (425.0/40 + 2.5 + 6) / 46, at(460, 8.5+6, 23)},
			{"run.length", "waste-run-of-size 50", not, nowhere}, {"reducer.rise", "falling-piece 2", not, nowhere}}},
		{"a falling piece the wrong way round", func(j *job.Job) { j.Waste.Fittings = fallingPiece(true) }, []want{{"pipe.gradient", "falling-piece 2", -0.05, at(160, -0.5, 23)}}},
		// The trap's joint falls as the pipe after it, and is measured with that: 30 of it, and
		// 890 of pipe whose middle lies 475 along. It reaches (64 − 46)/2 = 9 below the invert,
		// 50 + 9 − 4 = 55 over it.
		{"a joint", func(j *job.Job) { j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, 64 }, []want{
			{"pipe.gradient", "joint 1", not, nowhere}, {"pipe.gradient", "pipe 1", 0.025, at(475, 11.875, 23)},
			{"pipe.flow-share", "joint 1", not, nowhere}, {"pipe.velocity", "joint 1", not, nowhere}, {"pipe.velocity", "pipe 1", hydraulicVelocity(0.025, 0.2), at(475, 11.875, 23)},
			{"pipe.cover", "joint 1", 72 - 20 - 55, at(0, 0, 23)}, {"pipe.cover", "pipe 1", 72 - 20 + 0.75 - 48, at(30, 0.75, 23)},
			{"run.length", "waste-run", 920, nowhere}, {"clash.run-gap", "joint 1, piece-by-trap", not, nowhere}}},
		// Turned round a reducer keeps the crown: from 46 to 39 the invert rises by 7, less
		// the 1.5 that the piece falls; from 46 to 71 it loses 25.
		{"a reducer to a smaller pipe, turned round", func(j *job.Job) { j.Waste.Fittings = reducer(40, 43, 39, true) }, []want{
			{"reducer.rise", "reducer 2", 7, at(130, 3.25-3.5, 23)}, {"reducer.loss", "reducer 2", 0, nowhere}, {"pipe.gradient", "reducer 2", not, nowhere}}},
		{"a reducer to a larger pipe, turned round", func(j *job.Job) { j.Waste.Fittings = reducer(75, 75, 71, true) }, []want{
			{"reducer.rise", "reducer 2", 0, nowhere}, {"reducer.loss", "reducer 2", 25, nowhere}}},
		// 100 and the reducer's 60 count with the pipe they come in, the rest with the other.
		{"a reducer", func(j *job.Job) { j.Waste.Fittings = reducer(75, 75, 71, false) }, []want{
			{"reducer.rise", "reducer 2", not, nowhere}, {"reducer.loss", "reducer 2", not, nowhere},
			{"run.length", "waste-run", 920, at(460, 11.5, 35.5)}, {"run.length", "waste-run-of-size 50", 160, at(460, 11.5, 35.5)}, {"run.length", "waste-run-of-size 75", 760, nowhere},
			{"run.fall-in-bores", "waste-run", 16.125 / 46, nowhere}, {"trap.size", "trap-and-waste", 50, at(0, 0, 23)}}},
	})
	// Square bends cut off 45 at each side and are 45·π/2 round. A bend's centre line is drawn in chords that leave no more than a twentieth of a
	// millimetre at its outside, so its length comes out less than a hundredth short.
	turned := all(t, on(job.New(), func(j *job.Job) {
		j.Waste.Waypoints = []plan.Point{{300, 1832}, {300, 1500}}
		j.Waste.Exit.OffsetMM = 400
	}))
	meets(t, "two bends", turned, want{"run.bends", "waste-run", 2, nowhere})
	for _, m := range turned {
		if round := 345 + 332 + 300 + 275 - 4*45 + 45*math.Pi; m.Quantity == "run.length" && (m.Value > round || m.Value < round-0.01*45*math.Pi) {
			t.Errorf("two bends: %v long, by hand %v round the arcs", m.Value, round)
		}
	}
	// Each piece is held to the rules of its own size, the whole to those of the last.
	facts := map[string]float64{"pipe 1": 50, "pipe 3": 75, "waste-run": 75, "waste-run-of-size 50": 50, "waste-run-of-size 75": 75}
	for _, m := range all(t, on(job.New(), func(j *job.Job) { j.Waste.Fittings = reducer(75, 75, 71, false) })) {
		if want, ok := facts[m.Subject.String()]; ok && (m.Quantity == "pipe.gradient" || m.Quantity == "run.length") {
			delete(facts, m.Subject.String())
			if m.Facts["nominalMM"] != want {
				t.Errorf("%s of %s is held to the rules of %v mm pipe, want %v", m.Quantity, m.Subject, m.Facts["nominalMM"], want)
			}
		}
	}
	if len(facts) > 0 {
		t.Errorf("not measured: %v", facts)
	}
}

// A size that rules on the fall leave out while they speak of others.
func TestUnruledSizesByHand(t *testing.T) {
	of := func(q string, sizes map[string][2]float64) rule.Rule {
		return rule.Rule{ID: q, Quantity: q, Compare: rule.AtLeast, When: rule.When{Facts: sizes}}
	}
	between := map[string][2]float64{"nominalMM": {40, 50}}
	for _, c := range []struct {
		name    string
		rules   []rule.Rule
		nominal float64
		want    float64
	}{
		{"within", []rule.Rule{of("pipe.gradient", between)}, 45, 0},
		{"the least", []rule.Rule{of("pipe.gradient", between)}, 40, 0},
		{"the largest", []rule.Rule{of("pipe.gradient", between)}, 50, 0},
		{"smaller", []rule.Rule{of("pipe.gradient", between)}, 39, 1},
		{"larger", []rule.Rule{of("pipe.gradient", between)}, 51, 1},
		{"in the second rule", []rule.Rule{of("pipe.gradient", map[string][2]float64{"nominalMM": {32, 32}}), of("pipe.gradient", between)}, 45, 0},
		{"a rule for all sizes", []rule.Rule{of("pipe.gradient", nil)}, 63, 0},
		{"a rule on something else", []rule.Rule{of("run.length", between)}, 63, 0},
		{"a rule by another fact", []rule.Rule{of("pipe.gradient", map[string][2]float64{"lengthMM": {1, 2}})}, 63, 0},
		{"no rules", nil, 63, 0},
	} {
		j := on(job.New(), func(j *job.Job) { j.Waste.NominalMM = c.nominal })
		meets(t, c.name, allOf(levelledUnder(t, j, rule.Pack{Rules: c.rules})), want{"pipe.unruled", "waste-run", c.want, mgl64.Vec3{185, 1832, 31.5}})
	}
}

// What lies over the pipe and how much of it is bare. To the right the run goes from
// the trap's face at x = 755 past the shower's edge at 1400, 645 along, to the wall at
// 2400, 1645 along. The outlet is 52 under the base's top and the crown 4.
func TestCoverByHand(t *testing.T) {
	right := func(j *job.Job) {
		j.Drain.OutletTurnDeg = 0
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
	}
	at := func(alongMM, crownMM float64) mgl64.Vec3 {
		return mgl64.Vec3{755 + alongMM, 1832, crownMM - 25}
	}
	holdChanges(t, job.New(), []change{
		// The pipe at the exit asks for a base at 52 + 1645/40 + 2 = 95.125: the crown
		// comes to 75 at the edge and 50 at the wall, bare all the way.
		{"bare", right, []want{{"pipe.cover", "pipe 1", 4, at(0, 91.125)}, {"pipe.exposed", "waste-run", 1000, at(1145, 62.5)}}},
		// With the base at 32.625 the crown leaves the shower at 12.5 and meets the wall at
		// −12.5: the half of it is in the floor.
		{"half bare", func(j *job.Job) { right(j); chosen(j, 29.625) }, []want{{"pipe.cover", "pipe 1", 4, at(0, 28.625)}, {"pipe.exposed", "waste-run", 500, at(1145, 0)}}},
		// The same where the floor lies 100 higher.
		{"half bare, higher up", func(j *job.Job) {
			right(j)
			chosen(j, 29.625)
			j.SpotLevels = []job.SpotLevel{{LevelMM: 100}}
		}, []want{{"pipe.exposed", "waste-run", 500, at(1145, 100)}}},
		{"in the floor", func(j *job.Job) { right(j); chosen(j, 17) }, []want{{"pipe.exposed", "waste-run", 0, at(0, 16)}}},
		// Rising 1:100 from a base at 103, the crown is 6.45 higher at the edge; behind the
		// shower that lets go of it, it is bare to the wall.
		{"backwards", func(j *job.Job) { right(j); chosen(j, 100); j.Waste.Gradient = -0.01 }, []want{
			{"pipe.cover", "pipe 1", 4 - 6.45, at(645, 105.45)}, {"pipe.former-over", "pipe 1", 20, at(645, 105.45)}, {"pipe.exposed", "waste-run", 1000, at(1145, 99+11.45)}}},
		// The room's floor raised to the front edge's 16.34 over the drain's tile, less 13 of
		// layers, covers it: by 103 + 36 + 16.34 − 13 − (99 − 645/40) at the edge and more
		// behind. The shower's 4 is less.
		{"in a raised room", func(j *job.Job) { right(j); chosen(j, 100); j.Room.Edge = job.EdgeRaiseRoom }, []want{
			{"pipe.cover", "pipe 1", 4, at(0, 99)}, {"pipe.exposed", "waste-run", 0, nowhere}}},
		// Under a ramp 1000 long it is covered for a part. The ramps fall from the front
		// edge's 155.34 to the room's 13, so here from the 139 of the drain's tile, their
		// mortar 13 lower from 126 on: the crown, 82.875 at the edge and falling by 1/40,
		// comes out of it 43.125/(0.14234 − 0.025) beyond.
		{"under a ramp", func(j *job.Job) {
			right(j)
			chosen(j, 100)
			j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 1000, nil
		}, []want{
			{"pipe.exposed", "waste-run", 1000 - 43.125/(0.14234-0.025), nowhere}}},
		// A piece by itself in that floor: a falling piece from 800 to 920 along, whose crown is
		// its socket's, 3.5 higher. Nothing of the former is over it.
		{"a piece in a raised room", func(j *job.Job) {
			right(j)
			chosen(j, 100)
			j.Room.Edge, j.Waste.Fittings = job.EdgeRaiseRoom, fallingPiece(false)
			j.Waste.Fittings[0].AtMM = 800
		}, []want{
			{"pipe.cover", "falling-piece 2", 142.34 - (99 - 20 + 3.5), at(800, 79)}, {"pipe.former-over", "falling-piece 2", not, nowhere},
			{"pipe.cover", "pipe 1", 4, nowhere}, {"pipe.cover", "pipe 3", 142.34 - (99 - 20 - 6), at(920, 73)}, {"pipe.former-over", "pipe 3", not, nowhere}}},
		// Rising 1:20 in the raised room, its worst is at its lower end.
		{"a rising piece in a raised room", func(j *job.Job) {
			right(j)
			chosen(j, 100)
			j.Room.Edge, j.Waste.Fittings = job.EdgeRaiseRoom, fallingPiece(true)
			j.Waste.Fittings[0].AtMM = 800
		}, []want{{"pipe.cover", "falling-piece 2", 142.34 - (99 - 20 + 6 + 3.5), at(920, 85)}}},
		// Where it lies level with the floor's top from end to end none of it is bare.
		{"level with the floor", func(j *job.Job) { right(j); chosen(j, 1); j.Waste.Gradient = 0 }, []want{{"pipe.exposed", "waste-run", 0, nowhere}, {"pipe.cover", "pipe 1", 4, at(0, 0)}}},
		// A bend without a fall in the raised room is covered alike all round; where it
		// begins counts.
		{"a level bend in a raised room", func(j *job.Job) {
			right(j)
			chosen(j, 100)
			j.Room.Edge, j.Waste.Gradient = job.EdgeRaiseRoom, 0
			toPipe(j, plan.Point{2000, 1832}, plan.Point{2000, 900})
		}, []want{{"pipe.cover", "bend-90 2", 142.34 - (99 + 3.5), at(1200, 99)}}},
		// Forwards, out at the shower's front at y = 1000 and on to y = 500: the pipe starts
		// at the trap's front, y = 1777, 4 under the base. The former there is 20 + 40/50.
		{"forwards", func(j *job.Job) {
			j.Drain.OutletTurnDeg = 270
			chosen(j, 100)
			toPipe(j, plan.Point{700, 500})
		}, []want{{"pipe.cover", "pipe 1", 4, mgl64.Vec3{700, 1777, 74}}, {"pipe.former-over", "pipe 1", 20 + 40.0/50, mgl64.Vec3{700, 1777, 74}},
			// From 777 along to its end at 1277.
			{"pipe.exposed", "waste-run", 500, mgl64.Vec3{700, 750, 74 - 1027.0/40}}}},
	})
}

// How far pipes reach below the joists, where the base is let in: the deck is 22 and
// the joists 220. With the outlet 250 under the flange at 1 its invert is at −249 and
// the underside at the exit 16.125 + 2 lower.
func TestUndersideBetweenJoistsByHand(t *testing.T) {
	deep := func(j *job.Job) {
		j.Floor.CeilingBelow = false
		j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 250, 270
	}
	holdChanges(t, demotest.Rooms(t)[2].Job, []change{
		{"deep", deep, []want{{"pipe.below-joists", "pipe 1", 267.125 - 242, mgl64.Vec3{0, 1932, -265.125 + 23}}, {"pipe.into-floor", "pipe 1", not, nowhere},
			{"trap.below-joists", "trap", 269 - 242, mgl64.Vec3{700, 1932, -269}}, {"trap.into-floor", "trap", not, nowhere}}},
		// Rising, its lowest is where it leaves the trap.
		{"rising", func(j *job.Job) { deep(j); j.Waste.Gradient = -0.01 }, []want{{"pipe.below-joists", "pipe 1", 251 - 242, mgl64.Vec3{645, 1932, -249 + 23}}}},
		{"shallow", func(*job.Job) {}, []want{{"pipe.below-joists", "pipe 1", 0, nowhere}, {"trap.below-joists", "trap", 0, mgl64.Vec3{700, 1932, -94}}}},
	})
}

// The gap of pipes that run along walls, up to half a metre.
func TestWallGapsByHand(t *testing.T) {
	// along turns at x and goes to the front, to leave at y = 1100.
	along := func(x float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{x, 1832}, {x, 1100}}
			j.Waste.Exit.OffsetMM = 800
		}
	}
	// aslant goes nearer to the back wall in two pipes of 400 and 50.
	aslant := func(deg float64) func(*job.Job) {
		rise := math.Tan(deg * math.Pi / 180)
		return func(j *job.Job) { toPipe(j, plan.Point{245, 1832 + 400*rise}, plan.Point{195, 1832 + 450*rise}) }
	}
	holdChanges(t, job.New(), []change{
		{"75 off", along(100), []want{{"pipe.wall-gap", "pipe 3, piece-by-wall B", 75, nowhere}, {"pipe.wall-gap", "pipe 1, piece-by-wall C", 43, nowhere},
			{"pipe.wall-gap", "pipe 1, piece-by-wall B", not, nowhere}, {"pipe.wall-gap", "bend-90 2, piece-by-wall B", not, nowhere}, {"pipe.wall-gap", "pipe 5, piece-by-wall C", not, nowhere}}},
		// What begins at the wall's face lies in the wall.
		{"in the wall", func(j *job.Job) { j.Waste.Fittings = fallingPiece(false); j.Waste.Fittings[0].AtMM = 645 - 120 }, []want{
			{"pipe.wall-gap", "pipe 1, piece-by-wall C", 43, nowhere}, {"pipe.wall-gap", "pipe 3, piece-by-wall C", not, nowhere}, {"pipe.into-floor", "pipe 3", not, nowhere}}},
		{"just under half a metre", along(524.9), []want{{"pipe.wall-gap", "pipe 3, piece-by-wall B", 499.9, nowhere}}},
		{"half a metre", along(525), []want{{"pipe.wall-gap", "pipe 3, piece-by-wall B", not, nowhere}}},
		{"just over half a metre", along(525.1), []want{{"pipe.wall-gap", "pipe 3, piece-by-wall B", not, nowhere}}},
		// Aslant by 5°, the sine 0.087, it runs along the wall still, by 6°, 0.1045, not; the
		// nearer end counts. 400 to the left it comes nearer by 400·tan 5°.
		{"a little aslant", aslant(5), []want{{"pipe.wall-gap", "pipe 1, piece-by-wall C", 43 - 400*math.Tan(5*math.Pi/180), nowhere}}},
		{"aslant", aslant(6), []want{{"pipe.wall-gap", "pipe 1, piece-by-wall C", not, nowhere}}},
	})
	// Past the end of the wall at x = 1200, which ends at y = 700, and past the start of
	// that at y = 700, which starts at x = 1200, there is none; beside them there is.
	down := func(x, y float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Drain.OutletTurnDeg = 270
			toPipe(j, plan.Point{700, 1300}, plan.Point{x, 1300}, plan.Point{x, y})
		}
	}
	holdChanges(t, lShaped(), []change{
		{"past its end", down(1100, 750), []want{{"pipe.wall-gap", "pipe 5, piece-by-wall F", not, nowhere}, {"pipe.wall-gap", "pipe 5, piece-by-wall D", not, nowhere}}},
		{"to its end", down(1100, 700), []want{{"pipe.wall-gap", "pipe 5, piece-by-wall F", 75, nowhere}}},
		{"beside it", down(1100, 650), []want{{"pipe.wall-gap", "pipe 5, piece-by-wall F", 75, nowhere}}},
		{"before its start", func(j *job.Job) {
			j.Drain.OutletTurnDeg = 270
			toPipe(j, plan.Point{700, 800}, plan.Point{1150, 800})
		}, []want{{"pipe.wall-gap", "pipe 3, piece-by-wall E", not, nowhere}}},
		{"to its start", func(j *job.Job) {
			j.Drain.OutletTurnDeg = 270
			toPipe(j, plan.Point{700, 800}, plan.Point{1200, 800})
		}, []want{{"pipe.wall-gap", "pipe 3, piece-by-wall E", 75, nowhere}}},
		{"past its start", func(j *job.Job) {
			j.Drain.OutletTurnDeg = 270
			toPipe(j, plan.Point{700, 800}, plan.Point{1250, 800})
		}, []want{{"pipe.wall-gap", "pipe 3, piece-by-wall E", 75, nowhere}}},
	})
}

// The pipe's capacity is that of its flattest piece; a piece that runs backwards has
// none to speak of, and a reducer and a drop are no lengths of pipe.
func TestFlattestPieceCarriesLeast(t *testing.T) {
	full := hydraulicCapacity
	middle := func(alongMM, downMM float64) mgl64.Vec3 { return mgl64.Vec3{645 - alongMM, 1832, 20 - downMM + 23} }
	slope := func(slope float64) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Fittings = fallingPiece(false); j.Waste.Fittings[0].Slope = slope }
	}
	holdChanges(t, outletAt20(), []change{
		{"a steep falling-piece", slope(0.05), []want{{"pipe.flow-share", "pipe 1", 0.2 / full(0.025), middle(50, 1.25)}, {"pipe.flow-share", "falling-piece 2", not, nowhere}, {"pipe.flow-share", "pipe 3", not, nowhere}}},
		{"a flat falling-piece", slope(0.01), []want{{"pipe.flow-share", "falling-piece 2", 0.2 / full(0.01), middle(160, 2.5+0.6)}}},
		{"a level falling-piece", slope(0), []want{{"pipe.velocity", "pipe 1", hydraulicVelocity(0.025, 0.2), middle(50, 1.25)}, {"pipe.flow-share", "pipe 1", 0.2 / full(0.025), middle(50, 1.25)}}},
		{"backwards", func(j *job.Job) { j.Waste.Gradient = -0.01 }, []want{{"pipe.flow-share", "pipe 1", not, nowhere}}},
		{"twice the water", func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{0.2, 0.2} }, []want{{"pipe.flow-share", "pipe 1", 0.4 / full(0.025), middle(460, 11.5)}}},
		{"no water", func(j *job.Job) { j.Water.ShowerFlowsLPS = nil }, []want{{"pipe.flow-share", "pipe 1", not, nowhere}}},
	})
}
