package measure_test

import (
	"math"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A gap is told up to 20 mm beyond what must be kept: 3 beside joists, else nothing.
// Of each pair of bodies one gap a tenth under that is told and one a tenth over it
// is not.

// gapCase is a gap and the job that has it.
type gapCase struct {
	name, quantity, subject string
	job                     job.Job
	want                    float64
}

// holdGaps holds gaps to within so much; bends are drawn in chords that lie a
// twentieth of a millimetre off their arc.
func holdGaps(t *testing.T, byAtMost float64, cases []gapCase) {
	t.Helper()
	for _, c := range cases {
		got := not
		for _, m := range all(t, c.job) {
			if m.Quantity == c.quantity && m.Subject.String() == c.subject {
				if !math.IsNaN(got) {
					t.Errorf("%s: the gap of %s is measured twice", c.name, c.subject)
				}
				got = m.Value
			}
		}
		if math.IsNaN(got) != math.IsNaN(c.want) || math.Abs(got-c.want) > byAtMost {
			t.Errorf("%s: %s has a gap of %v, by hand %v", c.name, c.subject, got, c.want)
		}
	}
}

// even lays a winding run without a fall: gaps are then those in plan.
func even(points ...plan.Point) job.Job {
	return on(winding(points...), func(j *job.Job) { j.Waste.Gradient = 0 })
}

// A run that comes back to itself, to its trap or to the channel over it. The trap is
// 110 square behind the outlet: from (−110, −55) to (0, 55).
func TestGapsOfTheRunToItself(t *testing.T) {
	// comesBack goes out 400, 300 aside, 200 back and down to so far from its own line.
	comesBack := func(to float64) job.Job {
		return even(plan.Point{400, 0}, plan.Point{400, 300}, plan.Point{200, 300}, plan.Point{200, to})
	}
	// roundTheTrap passes beside the trap at so far from the outlet's line.
	roundTheTrap := func(y float64) job.Job {
		return even(plan.Point{200, 0}, plan.Point{200, y}, plan.Point{-300, y})
	}
	// beside turns by square bends so far apart between their ends.
	beside := func(between float64) job.Job {
		return even(plan.Point{200, 0}, plan.Point{200, 90 + between}, plan.Point{500, 90 + between})
	}
	holdGaps(t, closeMM, []gapCase{
		// Both are 25 thick about their axes.
		{"pipe by pipe", "clash.run-gap", "pipe 7, piece-by-piece 1, pipe", comesBack(69.9), 19.9},
		{"pipe by pipe, farther", "clash.run-gap", "pipe 7, piece-by-piece 1, pipe", comesBack(70.1), not},
		{"pipe in pipe", "clash.run-gap", "pipe 7, piece-by-piece 1, pipe", comesBack(40), -10},
		{"pipe across pipe", "clash.run-gap", "pipe 7, piece-by-piece 1, pipe", comesBack(-300), -50},
		{"pipe by trap", "clash.run-gap", "pipe 5, piece-by-trap", roundTheTrap(55 + 25 + 19.9), 19.9},
		{"pipe by trap, farther", "clash.run-gap", "pipe 5, piece-by-trap", roundTheTrap(55 + 25 + 20.1), not},
		// The first piece comes out of the trap.
		{"the first piece", "clash.run-gap", "pipe 1, piece-by-trap", roundTheTrap(100), not},
		// What little of the run lies between is one turn: bends 60 apart with 28.5 of each
		// between would have 3 left, and are parts of one run.
		{"bends of one turn", "clash.run-gap", "bend-90 4, piece-by-piece 2, bend-90", beside(60), not},
		{"the pipes of one turn", "clash.run-gap", "pipe 5, piece-by-piece 1, pipe", beside(60), not},
	})
	// To a bend of 45: its sockets are 15.5 deep, so that a millimetre stays between them on
	// its inner side, 28.5 + 1 from the corner; the arc of radius 29.5 between them has its
	// middle at (370.5, 29.5). A pipe that comes back on the outlet's line to (x, 0) ends
	// √((x − 370.5)² + 29.5²) from that; 29.5, the pipe's 25 and the fitting's 28.5 are off.
	toBend := func(gap float64) job.Job {
		x := 370.5 + math.Sqrt(math.Pow(gap+29.5+25+28.5, 2)-29.5*29.5)
		return even(plan.Point{400, 0}, plan.Point{400, 200}, plan.Point{700, 200}, plan.Point{700, 0}, plan.Point{x, 0})
	}
	const chordMM = 0.06
	holdGaps(t, chordMM, []gapCase{
		{"pipe by bend", "clash.run-gap", "pipe 9, piece-by-piece 2, bend-90", toBend(19.8), 19.8},
		{"pipe by bend, farther", "clash.run-gap", "pipe 9, piece-by-piece 2, bend-90", toBend(20.2), not},
		{"pipe in bend", "clash.run-gap", "pipe 9, piece-by-piece 2, bend-90", toBend(-5), -5},
	})
	// Under the channel: the crown 24.992 over an axis at 43, as in the usual job; the
	// channel's underside at 95 less its depth.
	channel := func(gap float64) job.Job {
		return on(outletAt20(), func(j *job.Job) { j.Drain.ChannelDepthMM = 95 - 43 - 25*40/math.Sqrt(1601) - gap })
	}
	holdGaps(t, closeMM, []gapCase{
		{"pipe by channel", "clash.run-gap", "pipe 1, piece-by-channel", channel(19.9), 19.9},
		{"pipe by channel, farther", "clash.run-gap", "pipe 1, piece-by-channel", channel(20.1), not},
		{"pipe by channel, touching", "clash.run-gap", "pipe 1, piece-by-channel", channel(0), 0},
	})
}

// Along walls, through them and through doorways.
func TestGapsToWalls(t *testing.T) {
	// along turns to the front at x and leaves at y = 1100.
	along := func(x float64) job.Job {
		return on(outletAt20(), func(j *job.Job) {
			j.Waste.Waypoints = []plan.Point{{x, 1832}, {x, 1100}}
			j.Waste.Exit.OffsetMM = 800
		})
	}
	// small has a trap of 60, which stands as far off the back wall as its channel of 70:
	// the pipe's middle is 35 more, and 25 of that are pipe.
	small := func(clearance float64) job.Job {
		return on(outletAt20(), func(j *job.Job) {
			j.Drain.TrapSizeMM, j.Drain.WallClearanceMM = 60, clearance
			j.Waste.Exit.OffsetMM = clearance + 35
		})
	}
	clear := func(mm float64) job.Job {
		return on(outletAt20(), func(j *job.Job) { j.Drain.WallClearanceMM = mm; j.Waste.Exit.OffsetMM = mm + 55 })
	}
	// throughWall has an falling-piece, 28.5 about its axis, from 540 along, 15 into the wall.
	throughWall := on(outletAt20(), func(j *job.Job) {
		j.Waste.Fittings = fallingPiece(false)
		j.Waste.Fittings[0].AtMM = 540
	})
	// straight goes out behind the drain: the trap stands 13 off wall C, its joint of 25 reaches 12 into the wall, where the hole
	// of the pipe of 50 has 8 to spare all round.
	straight := func(jointOutsideMM float64) job.Job {
		return on(outletAt20(), func(j *job.Job) {
			j.Drain.OutletTurnDeg, j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM, j.Waste.HoleRoomMM = 90, 25, jointOutsideMM, 8
			j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 2, OffsetMM: 2400 - 700} // the trap stands 700 from wall B
		})
	}
	holdGaps(t, closeMM, []gapCase{
		{"a joint in the hole of its pipe", "clash.wall-gap", "joint 1, piece-by-wall C", straight(66), not},
		{"a joint larger than the hole of its pipe", "clash.wall-gap", "joint 1, piece-by-wall C", straight(66.1), -12 - 33.05*0.025/math.Sqrt(1.000625)},
		{"pipe along a wall", "clash.wall-gap", "pipe 3, piece-by-wall B", along(44.9 + 1e-9), 19.9},
		{"pipe along a wall, farther", "clash.wall-gap", "pipe 3, piece-by-wall B", along(45.1), not},
		{"out through its wall", "clash.wall-gap", "pipe 5, piece-by-wall B", along(100), not},
		{"beside the pipe that leaves", "clash.wall-gap", "pipe 1, piece-by-wall C", small(9.9), 19.9},
		{"beside the pipe that leaves, farther", "clash.wall-gap", "pipe 1, piece-by-wall C", small(10.1), not},
		{"trap by wall", "clash.wall-gap", "trap-by-wall C", clear(19.9), 19.9},
		{"trap by wall, just so far", "clash.wall-gap", "trap-by-wall C", clear(20), not},
		{"trap by wall, farther", "clash.wall-gap", "trap-by-wall C", clear(20.1), not},
		{"channel by wall", "clash.wall-gap", "drain-channel-by-wall C", clear(19.9), 19.9},
		{"a channel without depth", "clash.wall-gap", "drain-channel-by-wall C", on(outletAt20(), func(j *job.Job) { j.Drain.ChannelDepthMM = 0 }), not},
		{"channel by wall, farther", "clash.wall-gap", "drain-channel-by-wall C", clear(20.1), not},
		{"trap in no other wall", "clash.wall-gap", "trap-by-wall B", clear(13), not},
		// Its end leans back by 1 in 20 of 28.5.
		{"a fitting in the wall", "clash.wall-gap", "falling-piece 2, piece-by-wall B", throughWall, -15 - 28.5*0.05/math.Sqrt(1.0025)},
	})
	const chordMM = 0.06
	holdGaps(t, chordMM, []gapCase{
		{"bend along a wall", "clash.wall-gap", "bend-90 2, piece-by-wall B", along(28.5 + 19.8), 19.8},
		{"bend along a wall, farther", "clash.wall-gap", "bend-90 2, piece-by-wall B", along(28.5 + 20.2), not},
	})
}

// Out through a wall beside a doorway in it, whose opening begins so far along; the
// pipe leaves 68 along. Below, the opening begins at the floor, or at the neighbour's.
func TestGapsToDoorways(t *testing.T) {
	doorway := func(fromMM, ffl float64) job.Job {
		return on(outletAt20(), func(j *job.Job) {
			j.Room.Doorways = []job.Doorway{{Wall: 3, OffsetMM: fromMM, WidthMM: 500, HeightMM: 2040, NeighbourFFLMM: ffl, Leaf: job.LeafNone}}
		})
	}
	// low is under the opening: with the base's top at b the axis comes to b − 52 − 16.125 +
	// 23 at the wall's face, where the crown is nearest; the pipe leans 1 in 40.
	low := func(gap, sill, ffl float64) job.Job {
		b := 45.125 + sill - (gap+25)*math.Hypot(1, 1.0/40)
		return on(doorway(20, ffl), func(j *job.Job) { chosen(j, b-3) })
	}
	// high is over an opening of a height, to a floor so far below that its head lies at
	// −20: through the wall of 215 the axis falls by another 5.375 to where it is nearest.
	high := func(gap, height float64) job.Job {
		b := 45.125 + 5.375 - 20 + (gap+25)*math.Hypot(1, 1.0/40)
		return on(doorway(20, -20-height), func(j *job.Job) {
			chosen(j, b-3)
			j.Room.Doorways[0].HeightMM = height
		})
	}
	const quantity, subject = "clash.door-gap", "pipe 1, piece-by-doorway 1"
	holdGaps(t, closeMM, []gapCase{
		{"beside it", quantity, subject, doorway(68+25+19.9, 20), 19.9},
		{"beside it, farther", quantity, subject, doorway(68+25+20.1, 20), not},
		{"under it", quantity, subject, low(19.9, 0, 20), 19.9},
		{"under it, farther", quantity, subject, low(20.1, 0, 20), not},
		{"over a low one", quantity, subject, high(19.9, 500), 19.9},
		{"over a higher one", quantity, subject, high(19.9, 600), 19.9},
		{"over a low one, farther", quantity, subject, high(20.1, 500), not},
		{"under one to a lower floor", quantity, subject, low(5, -30, -30), 5},
	})
	// A run that passes a doorway without going through its wall is held to the wall.
	beside := on(outletAt20(), func(j *job.Job) {
		j.Room.Doorways = []job.Doorway{{Wall: 3, OffsetMM: 300, WidthMM: 400, HeightMM: 2040, NeighbourFFLMM: 20, Leaf: job.LeafNone}}
		j.Waste.Waypoints = []plan.Point{{40, 1832}, {40, 1100}}
		j.Waste.Exit.OffsetMM = 800
	})
	holdGaps(t, closeMM, []gapCase{{"past it", quantity, "pipe 3, piece-by-doorway 1", beside, not}, {"past it", "clash.wall-gap", "pipe 3, piece-by-wall A", beside, 15}})
}

// In the let-in demo the joists lie along the run, 47 wide about y = 1840 and every
// 450, from −22 to −242; the deck that is left beside the shower is between −22 and 0.
func TestGapsToJoists(t *testing.T) {
	letIn := demotest.Rooms(t)[2].Job
	// overJoist turns along joist 5 above it or below it, without a fall: the flange is
	// at the base's 23, the axis 23 over the outlet's invert.
	overJoist := func(baseMM, outletMM float64) job.Job {
		return on(letIn, func(j *job.Job) {
			chosen(j, baseMM)
			j.Floor.CeilingBelow, j.Waste.Gradient = false, 0
			j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = outletMM, outletMM+20
			toPipe(j, plan.Point{560, 1932}, plan.Point{560, 1840}, plan.Point{300, 1840})
		})
	}
	clear := func(mm float64) job.Job { return on(letIn, func(j *job.Job) { j.Drain.WallClearanceMM = mm }) }
	acrossAt := func(channelMM float64) job.Job {
		return on(letIn, func(j *job.Job) {
			j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.SupportsMM = 270, 400, []float64{0, 2000}
			j.Drain.ChannelDepthMM = channelMM
		})
	}
	holdGaps(t, closeMM, []gapCase{
		{"pipe beside a joist", "clash.joist-gap", "pipe 5, piece-by-joist 4", letInAlong(t, 22.9), 22.9},
		{"pipe beside a joist, farther", "clash.joist-gap", "pipe 5, piece-by-joist 4", letInAlong(t, 23.1), not},
		{"bend over a joist", "clash.joist-gap", "bend-90 4, piece-by-joist 5", overJoist(-22+28.5-46+75+22.9, 75), 22.9},
		{"bend over a joist, farther", "clash.joist-gap", "bend-90 4, piece-by-joist 5", overJoist(-22+28.5-46+75+23.1, 75), not},
		{"bend under a joist", "clash.joist-gap", "bend-90 4, piece-by-joist 5", overJoist(0, 242+28.5+46+22.9), 22.9},
		{"bend under a joist, farther", "clash.joist-gap", "bend-90 4, piece-by-joist 5", overJoist(0, 242+28.5+46+23.1), not},
		// A pipe over a joist or under it passes it, or would cut it.
		{"pipe over a joist", "clash.joist-gap", "pipe 5, piece-by-joist 5", overJoist(-22+28.5-46+75+22.9, 75), not},
		// The channel reaches from −24 to 1, its side 70 and the clearance off the wall at
		// y = 2000; the joist's side is at 1863.5.
		{"channel beside a joist", "clash.drain-gap", "drain-channel-by-joist 5", clear(66.5 - 19.9), 19.9},
		{"channel beside a joist, farther", "clash.drain-gap", "drain-channel-by-joist 5", clear(66.5 - 20.1), not},
		{"channel over a joist", "clash.drain-gap", "drain-channel-by-joist 1", acrossAt(23 - 19.9), 19.9},
		{"channel over a joist, farther", "clash.drain-gap", "drain-channel-by-joist 1", acrossAt(23 - 20.1), not},
		{"channel let in by the floor", "clash.drain-gap", "drain-channel-by-floor", acrossAt(10), not},
		{"channel over the floor", "clash.drain-gap", "drain-channel-by-floor", on(outletAt20(), func(j *job.Job) { j.Drain.ChannelDepthMM = 95 - 19.9 }), 19.9},
		{"channel over the floor, farther", "clash.drain-gap", "drain-channel-by-floor", on(outletAt20(), func(j *job.Job) { j.Drain.ChannelDepthMM = 95 - 20.1 }), not},
		{"channel over a timber floor", "clash.drain-gap", "drain-channel-by-floor", on(outletAt20(), func(j *job.Job) { j.Floor.Kind, j.Drain.ChannelDepthMM = job.FloorTimber, 95-19.9 }), 19.9},
		{"channel in the floor", "clash.drain-gap", "drain-channel-by-floor", on(outletAt20(), func(j *job.Job) { j.Drain.ChannelDepthMM = 95 + 19.9 }), -19.9},
	})
}

func TestGapsToTheDeck(t *testing.T) {
	letIn := demotest.Rooms(t)[2].Job
	// right runs from the trap's face at x = 755 to the right, under the deck from the
	// shower's edge at 1400, 645 along. Falling 1:40, its axis is 16.125 lower there.
	right := func(baseMM, outletMM float64) job.Job {
		return on(letIn, func(j *job.Job) {
			chosen(j, baseMM)
			j.Drain.OutletTurnDeg, j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 0, outletMM, outletMM+20
			toPipe(j, plan.Point{2300, 1932})
		})
	}
	// amid has a falling piece from 1000 to 1120 along, all about it deck, that falls 1:20:
	// 28.5·cos of that about its axis, and 25 and 31 lower than the outlet.
	amid := func(baseMM, outletMM float64) job.Job {
		return on(right(baseMM, outletMM), func(j *job.Job) {
			j.Waste.Fittings = fallingPiece(false)
			j.Waste.Fittings[0].AtMM = 1000
		})
	}
	half := 28.5 / math.Sqrt(1.0025)
	// The axis at the outlet is 46 over the base's top, less the outlet's depth.
	under := func(gap float64) float64 { return 22 + (gap+25)*math.Hypot(1, 1.0/40) - 16.125 + 46 }
	front := func(clearance float64) job.Job {
		return on(letIn, func(j *job.Job) { j.Former.Fall, j.Drain.WallClearanceMM = job.FallFront, clearance })
	}
	const quantity = "clash.deck-gap"
	holdGaps(t, closeMM, []gapCase{
		{"pipe under its edge", quantity, "pipe 1, piece-by-deck", right(0, under(19.9)), 19.9},
		{"pipe under its edge, farther", quantity, "pipe 1, piece-by-deck", right(0, under(20.1)), not},
		{"fitting under it", quantity, "falling-piece 2, piece-by-deck", amid(0, 22+19.9+half-25+46), 19.9},
		{"fitting under it, farther", quantity, "falling-piece 2, piece-by-deck", amid(0, 22+20.1+half-25+46), not},
		{"fitting over it", quantity, "falling-piece 2, piece-by-deck", amid(75-46+31+half+19.9, 75), 19.9},
		{"fitting over it, farther", quantity, "falling-piece 2, piece-by-deck", amid(75-46+31+half+20.1, 75), not},
		// Its underside 10 under the deck's top: out upwards is the shorter way.
		{"fitting in it", quantity, "falling-piece 2, piece-by-deck", amid(75-46+31+half-10, 75), -10},
		// On a slab, beside the shower and along a wall, there is floor and no deck.
		{"a run on a slab", quantity, "pipe 3, piece-by-deck", on(job.New(), func(j *job.Job) {
			j.Drain.OutletTurnDeg = 0
			toPipe(j, plan.Point{2360, 1832}, plan.Point{2360, 1000})
		}), not},
		{"a run in the shower", quantity, "pipe 1, piece-by-deck", letIn, not},
		// At the front, trap and channel stand the clearance off the deck, in its height.
		{"trap by deck", quantity, "trap-by-deck", front(19.9), 19.9},
		{"trap by deck, farther", quantity, "trap-by-deck", front(20.1), not},
		{"channel by deck", quantity, "drain-channel-by-deck", front(19.9), 19.9},
		{"channel by deck, farther", quantity, "drain-channel-by-deck", front(20.1), not},
	})
}
