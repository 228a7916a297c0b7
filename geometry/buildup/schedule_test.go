package buildup_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// row is a row of the schedule as it should be.
type row struct {
	of     buildup.RowOf
	number int
	label  string
	kind   buildup.RowKind
	value  float64
	at     mgl64.Vec3
	layers int // of its stack, with the structure; 0 for none
}

func expectRows(t *testing.T, got []buildup.Row, want []row) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%d rows, want %d", len(got), len(want))
	}
	for i, w := range want {
		if i >= len(got) {
			t.Errorf("%q is missing", w.label)
			continue
		}
		g := got[i]
		if g.ID != (buildup.RowID{Of: w.of, Number: w.number}) || g.Message().String() != w.label || g.Kind() != w.kind ||
			!(math.Abs(g.Value-w.value) <= 1e-6) || !(g.At.Sub(w.at).Len() <= 1e-6) ||
			len(g.Stack) != w.layers || g.Worst != 0 || g.Statistical != 0 {
			t.Errorf("row %d: %+v\nwant   %+v", i, g, w)
		}
	}
}

// pick are the rows about some things, in their order.
func pick(rows []buildup.Row, of ...buildup.RowOf) (out []buildup.Row) {
	for _, r := range rows {
		for _, o := range of {
			if r.ID.Of == o {
				out = append(out, r)
			}
		}
	}
	return out
}

// The whole schedule of the starting job by hand: see starting for its levels.
// The trap is 95 deep; the outlet's invert 75 under the flange, at 20; the pipe's
// exit 645 along, 16.125 lower; through a wall of 215 and 60 beyond it ends 920
// along, 23 lower at −3. The crown of a bore of 46 in 50 lies 48 over the invert: at
// 68 where it begins, under a base's top of 72. The falling plane reaches from
// y = 1000 to 1817, its middle 408.5/50 = 8.17 over the drain's tile. The room's
// middle is that of 2400 × 1900 less 1400 × 900:
// ((4.56·1200 − 1.26·700)/3.3, (4.56·950 − 1.26·1450)/3.3).
func TestScheduleByHand(t *testing.T) {
	const level, step, fall, depth = buildup.IsLevel, buildup.IsStep, buildup.IsFall, buildup.IsDepth
	f, _, _ := floorOf(starting(nil))
	room := mgl64.Vec3{4590.0 / 3.3, 2505.0 / 3.3, 13}
	want := []row{
		{buildup.FloorHigh, 0, "row.floor-high", level, 0, mgl64.Vec3{700, 1450, 0}, 0},
		{buildup.BaseUnder, 0, "row.base-under", level, 3, mgl64.Vec3{700, 1450, 3}, 0},
		{buildup.BaseTop, 0, "row.base-top", level, 72, mgl64.Vec3{700, 1450, 72}, 0},
		{buildup.TrapUnder, 0, "row.trap-under", level, 0, mgl64.Vec3{700, 1832, 0}, 0},
		{buildup.OutletInvert, 0, "row.outlet-invert", level, 20, mgl64.Vec3{645, 1832, 20}, 0},
		{buildup.PieceInvertAtWall, 0, "row.piece-invert-at-wall{piece: piece.pipe{number: 1}}", level, 3.875, mgl64.Vec3{0, 1832, 3.875}, 0},
		{buildup.PieceFall, 0, "row.piece-fall{piece: piece.pipe{number: 1}}", fall, 0.025, mgl64.Vec3{185, 1832, 8.5}, 0},
		{buildup.PipeCover, 0, "row.pipe-cover", depth, 4, mgl64.Vec3{645, 1832, 68}, 0},
		{buildup.FormerOverPipe, 0, "row.former-over-pipe", depth, 20, mgl64.Vec3{645, 1832, 68}, 0},
		{buildup.ExitInvert, 0, "row.exit-invert", level, 3.875, mgl64.Vec3{0, 1832, 3.875}, 0},
		{buildup.ExitCrown, 0, "row.exit-crown", level, 49.875, mgl64.Vec3{0, 1832, 49.875}, 0},
		// The axis, 23 over the invert, is 5.375 lower outside, at 1 in 40 through a wall of 215; the circle, about the
		// middle between both, holds one of 66·√(1 + 1/1600) and the 5.375 between the faces.
		{buildup.CoreMiddle, 0, "row.core-middle", level, 24.1875, mgl64.Vec3{0, 1832, 24.1875}, 0},
		{buildup.CoreLeast, 0, "row.core-least", depth, 66*math.Sqrt(1+1.0/1600) + 5.375, mgl64.Vec3{0, 1832, 24.1875}, 0},
		{buildup.Flange, 0, "row.flange", level, 95, mgl64.Vec3{700, 1817, 95}, 0},
		{buildup.TileAtDrain, 0, "row.tile-at-drain", level, 108, mgl64.Vec3{700, 1817, 108}, 8},
		{buildup.CoverSet, 0, "row.cover-set", level, 108, mgl64.Vec3{700, 1852, 108}, 0},
		{buildup.PlaneFall, 0, "row.plane-fall{n: 1}", fall, 0.02, mgl64.Vec3{700, 1408.5, 116.17}, 0},
		{buildup.EdgeLow, 0, "row.edge-low{at: edge.at-right}", level, 108, mgl64.Vec3{1400, 1900, 108}, 8},
		{buildup.EdgeHigh, 0, "row.edge-high{at: edge.at-right}", level, 124.34, mgl64.Vec3{1400, 1000, 124.34}, 8},
		// The glass leaves 13 and 45 of the right edge, which nobody steps over.
		{buildup.EdgeTile, 1, "row.edge-tile{at: edge.at-front}", level, 124.34, mgl64.Vec3{700, 1000, 124.34}, 8},
		{buildup.EdgeStep, 1, "row.edge-step{at: edge.at-front}", step, 111.34, mgl64.Vec3{700, 1000, 124.34}, 0},
		{buildup.RoomFloor, 0, "row.room-floor", level, 13, room, 4},
		// Half a millimetre inside, to a neighbour at 20.
		{buildup.DoorFloor, 0, "row.door-floor{n: 1}", level, 13, mgl64.Vec3{1880, 0.5, 13}, 4},
		{buildup.DoorStep, 0, "row.door-step{n: 1}", step, -7, mgl64.Vec3{1880, 0.5, 13}, 0},
		// The glass, 22 inside the edge, runs from y = 1887 to 1045, where the floor lies
		// 772/50 = 15.44 higher; 4 under it, and 2000 over its higher end.
		{buildup.ScreenDrop, 0, "row.screen-drop{n: 1}", depth, 15.44, mgl64.Vec3{1378, 1887, 112}, 0},
		{buildup.ScreenTall, 0, "row.screen-tall{n: 1}", depth, 2011.44, mgl64.Vec3{1378, 1887, 112}, 0},
	}
	expectRows(t, f.Schedule(), want)
	// A row that is asked for by itself comes to the same.
	for i, r := range f.Schedule() {
		if got := f.Value(r); !(math.Abs(got-want[i].value) <= 1e-6) {
			t.Errorf("%s by itself: %v, want %v", r.Message(), got, want[i].value)
		}
	}
}

// A ramp of 600 from 124.34 down to the room's 13, told where it climbs most: at the front
// in the middle of its level tile line, at the right at its far end, where the tile line
// falls by 1 in 50 along it as well, 111.34/600 away from it. A pane on the first 500 of the
// front leaves 900; one on all of the right edge no ramp there.
func TestRampIsTold(t *testing.T) {
	const level, fall, depth = buildup.IsLevel, buildup.IsFall, buildup.IsDepth
	told := func(change func(*job.Job)) []buildup.Row {
		f, _, _ := floorOf(starting(func(j *job.Job) { ramped(j); change(j) }))
		return pick(f.Schedule(), buildup.RampRise, buildup.RampRun, buildup.RampFall, buildup.RampFoot)
	}
	rows := func(n int, at string, from, middle, foot plan.Point, slope float64) []row {
		at = "{at: edge.at-" + at + "}"
		return []row{
			{buildup.RampRise, n, "row.ramp-rise" + at, depth, 111.34, from.Vec3(124.34), 0},
			{buildup.RampRun, n, "row.ramp-run" + at, depth, 600, middle.Vec3(68.67), 0},
			{buildup.RampFall, n, "row.ramp-fall" + at, fall, slope, middle.Vec3(68.67), 0},
			{buildup.RampFoot, n, "row.ramp-foot" + at, level, 13, foot.Vec3(13), 0},
		}
	}
	right := rows(0, "right", plan.Point{1400, 1000}, plan.Point{1700, 1000}, plan.Point{2000, 1000}, math.Hypot(111.34/600, 0.02))
	front := rows(1, "front", plan.Point{700, 1000}, plan.Point{700, 700}, plan.Point{700, 400}, 111.34/600)
	expectRows(t, told(func(*job.Job) {}), append(right, front...))
	pane := job.Screen{Kind: job.ScreenPane, Side: job.SideFront, WidthMM: 500, HeightMM: 2000, ThicknessMM: 8}
	expectRows(t, told(func(j *job.Job) {
		j.Shower.Screens = []job.Screen{pane, {Kind: job.ScreenPane, Side: job.SideRight, WidthMM: 900, HeightMM: 2000, ThicknessMM: 8}}
	}), rows(1, "front", plan.Point{950, 1000}, plan.Point{950, 700}, plan.Point{950, 400}, 111.34/600))
	// Into the wall 1000 away a ramp of 1200 has no foot in the room.
	for _, r := range told(func(j *job.Job) { j.Room.RampRunMM = 1200 }) {
		if r.ID.Of == buildup.RampFoot {
			t.Errorf("a foot beyond the wall: %+v", r)
		}
	}
}

// A drain that is as long as its side, 1400 less 13 at each end, is told; one of a stated
// length is not.
func TestDrainsLengthIsTold(t *testing.T) {
	f, _, _ := floorOf(starting(func(j *job.Job) { j.Drain.LengthMM = 0 }))
	expectRows(t, pick(f.Schedule(), buildup.DrainLong), []row{
		{buildup.DrainLong, 0, "row.drain-long", buildup.IsDepth, 1374, mgl64.Vec3{700, 1852, 108}, 0},
	})
}

// A cheek is told by its lower end first, whichever way its edge goes: with the
// drain at the front the right edge rises to the back.
func TestCheekTheOtherWay(t *testing.T) {
	f, _, _ := floorOf(starting(func(j *job.Job) {
		j.Former.Fall, j.Room.Edge = job.FallFront, job.EdgeStep
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	}))
	// The drain's edge lies 13 + 70 inside the front one, 817 from the back.
	expectRows(t, pick(f.Schedule(), buildup.EdgeLow, buildup.EdgeHigh), []row{
		{buildup.EdgeLow, 0, "row.edge-low{at: edge.at-right}", buildup.IsLevel, 108, mgl64.Vec3{1400, 1000, 108}, 8},
		{buildup.EdgeHigh, 0, "row.edge-high{at: edge.at-right}", buildup.IsLevel, 124.34, mgl64.Vec3{1400, 1900, 124.34}, 8},
	})
}

// A base let in has no underside on the floor but ledgers that its boards of 20 lie on, a floor that falls everywhere no
// edges and no floor of the room beside it.
func TestRowsThereAreNot(t *testing.T) {
	f, _, _ := floorOf(letIn())
	if rows := pick(f.Schedule(), buildup.BaseUnder); len(rows) > 0 {
		t.Errorf("let in: %+v", rows)
	}
	// The boards lie from −42 up, as its stack by hand has them.
	if rows := pick(f.Schedule(), buildup.LedgerTop); len(rows) != 1 || math.Abs(rows[0].Value+42) > 1e-9 || rows[0].Message().String() != "row.ledger-top" {
		t.Errorf("let in, its ledgers: %+v", rows)
	}
	f, _, _ = floorOf(starting(allFalls))
	if rows := pick(f.Schedule(), buildup.RoomFloor, buildup.EdgeTile, buildup.EdgeLow, buildup.EdgeStep); len(rows) > 0 {
		t.Errorf("whole room: %+v", rows)
	}
	if planes := pick(f.Schedule(), buildup.PlaneFall); len(planes) != 4 ||
		planes[3].Message().String() != "row.plane-fall{n: 4}" || planes[3].ID.Number != 3 {
		t.Errorf("whole room: planes %+v", planes)
	}
}

// A run of several pieces: 300 along a length of 100 with a fall of its own of 1:20,
// then down through the floor at 545 along. By hand from 20: 7.5 lower at 300, 12.5 at
// 400, and at 500, where the bend of 45 that turns down begins, 15. The drop itself
// is no piece that falls.
func TestPiecesOfARun(t *testing.T) {
	j := starting(func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{100, 1832}}
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 300, LengthMM: 100, Slope: 0.05}}
	})
	f, _, _ := floorOf(j)
	expectRows(t, pick(f.Schedule(), buildup.PieceInvert, buildup.PieceFall, buildup.ExitInvert), []row{
		{buildup.PieceInvert, 0, "row.piece-invert{piece: piece.pipe{number: 1}}", buildup.IsLevel, 12.5, mgl64.Vec3{345, 1832, 12.5}, 0},
		{buildup.PieceInvert, 1, "row.piece-invert{piece: piece.falling-piece{number: 2}}", buildup.IsLevel, 7.5, mgl64.Vec3{245, 1832, 7.5}, 0},
		{buildup.PieceInvert, 2, "row.piece-invert{piece: piece.pipe{number: 3}}", buildup.IsLevel, 5, mgl64.Vec3{145, 1832, 5}, 0},
		{buildup.PieceFall, 0, "row.piece-fall{piece: piece.pipe{number: 1}}", buildup.IsFall, 0.025, mgl64.Vec3{495, 1832, 16.25}, 0},
		{buildup.PieceFall, 1, "row.piece-fall{piece: piece.falling-piece{number: 2}}", buildup.IsFall, 0.05, mgl64.Vec3{295, 1832, 10}, 0},
		{buildup.PieceFall, 2, "row.piece-fall{piece: piece.pipe{number: 3}}", buildup.IsFall, 0.025, mgl64.Vec3{195, 1832, 6.25}, 0},
		{buildup.ExitInvert, 0, "row.exit-invert", buildup.IsLevel, 5, mgl64.Vec3{100, 1832, 5}, 0},
	})
}

// The trap's joint has no level and no fall of its own: the pipe after it, from 30 on, has
// the rows that the one without a joint has.
func TestJointHasNoRows(t *testing.T) {
	f, _, _ := floorOf(starting(func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, 64
	}))
	expectRows(t, pick(f.Schedule(), buildup.OutletInvert, buildup.PieceInvert, buildup.PieceInvertAtWall, buildup.PieceFall), []row{
		{buildup.OutletInvert, 0, "row.outlet-invert", buildup.IsLevel, 20, mgl64.Vec3{645, 1832, 20}, 0},
		{buildup.PieceInvertAtWall, 1, "row.piece-invert-at-wall{piece: piece.pipe{number: 1}}",
			buildup.IsLevel, 20 - 16.125, mgl64.Vec3{0, 1832, 20 - 16.125}, 0},
		{buildup.PieceFall, 1, "row.piece-fall{piece: piece.pipe{number: 1}}", buildup.IsFall, 0.025, mgl64.Vec3{170, 1832, 20 - 0.025*475}, 0},
	})
}

// A bend without a length has a level, but no fall.
func TestBendWithoutLength(t *testing.T) {
	f, _, _ := floorOf(starting(func(j *job.Job) {
		j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM, j.Waste.Bend90FaceMM = 0, 300, 0
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	}))
	expectRows(t, pick(f.Schedule(), buildup.PieceFall), []row{
		{buildup.PieceFall, 0, "row.piece-fall{piece: piece.pipe{number: 1}}",
			buildup.IsFall, 0.025, mgl64.Vec3{472.5, 1832, 20 - 0.025*172.5}, 0},
		// On to the wall of 100 and 60 past it: 345 and 1992 along.
		{buildup.PieceFall, 2, "row.piece-fall{piece: piece.pipe{number: 3}}",
			buildup.IsFall, 0.025, mgl64.Vec3{300, 836, 20 - 0.025*(345+996)}, 0},
	})
	if rows := pick(f.Schedule(), buildup.PieceInvert, buildup.PieceInvertAtWall); len(rows) != 3 ||
		rows[1].Message().String() != "row.piece-invert{piece: piece.bend-90{number: 2}}" {
		t.Errorf("%+v", rows)
	}
}

// What begins at the exit, as the pipe in the wall after a fitting that ends there,
// has no level of its own.
func TestFittingAtTheExit(t *testing.T) {
	f, _, _ := floorOf(starting(func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 545, LengthMM: 100, Slope: 0.05}}
	}))
	expectRows(t, pick(f.Schedule(), buildup.PieceInvert), []row{
		{buildup.PieceInvert, 0, "row.piece-invert{piece: piece.pipe{number: 1}}",
			buildup.IsLevel, 20 - 545*0.025, mgl64.Vec3{100, 1832, 20 - 545*0.025}, 0},
		{buildup.PieceInvert, 1, "row.piece-invert{piece: piece.falling-piece{number: 2}}",
			buildup.IsLevel, 15 - 545*0.025, mgl64.Vec3{0, 1832, 15 - 545*0.025}, 0},
	})
}

// Cover and former over the pipe are the least along the run. The pipe rises 1:50
// to the exit: crown 48 over 20 + 12.9 there, 80.9, in a base up to 72; the former
// over the run in a shower that falls to the left is thinner the farther left.
func TestLeastOverThePipe(t *testing.T) {
	rises := func(j *job.Job) {
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.Waste.Exit.Level = job.Exactly(20 + 12.9)
	}
	f, _, _ := floorOf(starting(rises))
	expectRows(t, pick(f.Schedule(), buildup.PipeCover, buildup.FormerOverPipe), []row{
		{buildup.PipeCover, 0, "row.pipe-cover", buildup.IsDepth, -8.9, mgl64.Vec3{0, 1832, 80.9}, 0},
		{buildup.FormerOverPipe, 0, "row.former-over-pipe", buildup.IsDepth, 20, mgl64.Vec3{645, 1832, 68}, 0},
	})
	// Out to the front from a trap 68 off the back wall the former gets thicker; to
	// the exit through the front wall its least is at the trap. In a raised room the
	// base goes on: up to 124.34 − 13 = 111.34, so the least cover is in the shower.
	out := func(j *job.Job) {
		j.Drain.OutletTurnDeg = 270
		j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 0, 700
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 89
	}
	f, _, _ = floorOf(starting(func(j *job.Job) { out(j); raised(j) }))
	expectRows(t, pick(f.Schedule(), buildup.PipeCover, buildup.FormerOverPipe), []row{
		{buildup.PipeCover, 0, "row.pipe-cover", buildup.IsDepth, 4, mgl64.Vec3{700, 1777, 88}, 0},
		{buildup.FormerOverPipe, 0, "row.former-over-pipe", buildup.IsDepth, 20.8, mgl64.Vec3{700, 1777, 88}, 0},
	})
	// In a base of a whole floor the run has cover nowhere else than in it; a pipe
	// that lies in the room alone has none over it, and no row says so.
	outside := starting(func(j *job.Job) {
		out(j)
		j.Drain.OutletTurnDeg = 0
		j.Waste.Waypoints = nil
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
	})
	f, _, _ = floorOf(outside)
	// From (755, 1832) to the wall at 2400; its crown at the outlet, 88, is the
	// highest: only that end lies in the shower.
	expectRows(t, pick(f.Schedule(), buildup.PipeCover), []row{
		{buildup.PipeCover, 0, "row.pipe-cover", buildup.IsDepth, 4, mgl64.Vec3{755, 1832, 88}, 0},
	})
}

// The room's floor is read in its middle, or where that lies on a ramp in the
// middle of the longest stretch that is none, which is looked for at twelfths. In a
// room moved to (300, 500): with ramps of 600 the stretch along the door's wall is
// free, 2400 long, read at two twelfths of the room's depth, the nearer to the shower of
// the two that are; with ramps of 1000 the one in
// front takes all that, and the one at the right leaves what its lower edge by the drain
// does not need: at a twelfth of the depth from the back, 1.5 over the drain and 96.5 over the
// room, down after 866, and so
// free at the last twelfth of the 1000.
func TestWhereTheRoomIsRead(t *testing.T) {
	for run, want := range map[float64]plan.Point{600: {300 + 1200, 500 + 1900*2.0/12},
		1000: {300 + 1400 + 1000*11.0/12, 500 + 1900*11.0/12}} {
		f, _, _ := floorOf(starting(func(j *job.Job) {
			ramped(j)
			j.Room.RampRunMM = run
			for i := range j.Room.Outline {
				j.Room.Outline[i] = j.Room.Outline[i].Add(plan.Point{300, 500})
			}
		}))
		expectRows(t, pick(f.Schedule(), buildup.RoomFloor),
			[]row{{buildup.RoomFloor, 0, "row.room-floor", buildup.IsLevel, 13, want.Vec3(13), 4}})
	}
	// A shower of 2100 leaves 300 beside it, and the ramps take all.
	f, _, _ := floorOf(starting(func(j *job.Job) {
		ramped(j)
		j.Room.RampRunMM, j.Shower.OffsetMM, j.Shower.WidthMM = 1000, 300, 2100
	}))
	expectRows(t, pick(f.Schedule(), buildup.RoomFloor), nil)
	// The other way round, with the shower along the door's wall, 1000 are left beside
	// it and the first 850 of them ramp: only at eleven twelfths it is free.
	f, _, _ = floorOf(starting(func(j *job.Job) {
		ramped(j)
		j.Room.Doorways = nil
		j.Room.RampRunMM, j.Shower.Wall, j.Shower.OffsetMM, j.Shower.WidthMM = 850, 0, 0, 2400
	}))
	expectRows(t, pick(f.Schedule(), buildup.RoomFloor),
		[]row{{buildup.RoomFloor, 0, "row.room-floor", buildup.IsLevel, 13, mgl64.Vec3{1200, 900 + 1000*11.0/12, 13}, 4}})
	// A shower from wall to wall with a ramp over all the rest leaves no floor; one
	// that fills the room neither.
	for name, c := range map[string]struct{ deep, run float64 }{"all ramp": {900, 1000}, "all shower": {1900, 0}} {
		f, l, _ := floorOf(starting(func(j *job.Job) {
			j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, c.run, nil
			j.Room.Doorways = nil
			copy(j.Room.Outline, []plan.Point{{0, 0}, {1400, 0}, {1400, 1900}, {0, 1900}})
			j.Shower.OffsetMM, j.Shower.DepthMM = 0, c.deep
		}))
		if rows := pick(f.Schedule(), buildup.RoomFloor); len(rows) > 0 || l.Shower.Area() != 1400*c.deep {
			t.Errorf("%s: %+v", name, rows)
		}
	}
}

// Several doorways have rows of their own, each by its own neighbour.
func TestDoorways(t *testing.T) {
	f, l, _ := floorOf(starting(func(j *job.Job) {
		j.Room.Doorways = append(j.Room.Doorways,
			job.Doorway{Wall: 1, OffsetMM: 100, WidthMM: 600, HeightMM: 2040, NeighbourFFLMM: 5, Leaf: job.LeafNone})
	}))
	rows := pick(f.Schedule(), buildup.DoorFloor, buildup.DoorStep)
	if len(rows) != 4 {
		t.Fatalf("%+v", rows)
	}
	expectRows(t, rows[2:], []row{
		{buildup.DoorFloor, 1, "row.door-floor{n: 2}", buildup.IsLevel, 13, mgl64.Vec3{2399.5, 400, 13}, 4},
		{buildup.DoorStep, 1, "row.door-step{n: 2}", buildup.IsStep, 8, mgl64.Vec3{2399.5, 400, 13}, 0},
	})
	if got := fmt.Sprint(f.DoorStepMM(l.Doors[0]), f.DoorStepMM(l.Doors[1])); got != "-7 8" {
		t.Errorf("steps %s, want -7 and 8", got)
	}
}
