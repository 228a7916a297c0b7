package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The shower has two walls: 3 at its back, finished along 1400, and 4 at its left,
// along 900. The finish, 1 + 3 + 9 = 13, begins on the floor's tanking, level at 96
// from y = 1817 back and rising 1:50 from there, and ends 2200 over the tile at
// the drain, at 2308. At the back that is 2212 all along. At the left it begins
// beside the other's 13 and is 887 long, less the triangle of the floor, 817 long
// and 16.34 high.
func TestWallFinishesMeetInTheCorner(t *testing.T) {
	b := build(t, nil)
	const back, left = 1400 * 2212, 887*2212 - 817*16.34/2
	for id, c := range map[string]struct{ mm2, from, to float64 }{
		"wall-tanking": {1, 0, 1}, "wall-bed": {3, 1, 4}, "wall-tile": {9, 4, 13},
	} {
		b.volume(id+"-1", back*c.mm2)
		b.box(id+"-1", mgl64.Vec3{0, 1900 - c.to, 96}, mgl64.Vec3{1400, 1900 - c.from, 2308})
		b.volume(id+"-2", left*c.mm2)
		b.box(id+"-2", mgl64.Vec3{c.from, 1000, 96}, mgl64.Vec3{c.to, 1887, 2308})
		middle := (c.from + c.to) / 2
		b.filled(id+"-2", mgl64.Vec3{middle, 1819, 96.1}, mgl64.Vec3{middle, 1001, 96 + 16.34 + 0.1})
		b.open(id+"-2", mgl64.Vec3{middle, 1400, 96 + 417/50.0 - 0.1}, mgl64.Vec3{middle, 1001, 96 + 16.3 - 0.1})
		if x, y := b.part(id+"-1").Wall, b.part(id+"-2").Wall; x != 3 || y != 4 {
			t.Errorf("%s: on walls %d and %d, want 3 and 4", id, x, y)
		}
	}
	b.none("wall-tile-3", "wall-tile-0")
}

// Walls may be tiled lower, and never over the ceiling: at the back from 96, with the
// tile at the drain at 108, to 1308 and to the room's 2400.
func TestWallsAreTiledAsHighAsStated(t *testing.T) {
	for tiledTo, top := range map[float64]float64{1200: 1308, 2291: 2399, 2293: 2400, 6000: 2400} {
		b := build(t, func(j *job.Job) { j.Layers.WallTiledToMM = tiledTo })
		b.box("wall-tile-1", mgl64.Vec3{0, 1887, 96}, mgl64.Vec3{1400, 1896, top})
		b.volume("wall-tile-1", 1400*(top-96)*9)
	}
}

// A run that ends within the room, though it heads for a wall, leaves that whole.
func TestNoHoleWhereTheRunStaysInTheRoom(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Drain.OutletTurnDeg = 270
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{700, 1300}}
	})
	for z := -20.0; z <= 80; z += 5 {
		b.filled("wall-1", mgl64.Vec3{700, -50, z})
	}
}

// Whichever number the walls have: walked the other way round the one at the back is
// the first.
func TestTheFirstWallIsFinished(t *testing.T) {
	b := build(t, func(j *job.Job) {
		w := j.Room.Walls
		j.Room.Outline = []plan.Point{{0, 1900}, {2400, 1900}, {2400, 0}, {0, 0}}
		j.Room.Walls = []job.Wall{w[2], w[1], w[0], w[3]}
		j.Room.Doorways[0].Wall, j.Room.Doorways[0].OffsetMM = 2, 140
		j.Shower.Wall, j.Shower.OffsetMM = 0, 0
		j.Waste.Exit.OffsetMM = 1832
	})
	b.volume("wall-tile-1", 1400*2212*9)
	b.volume("wall-tile-2", (887*2212-817*16.34/2)*9)
	if x, y := b.part("wall-tile-1").Wall, b.part("wall-tile-2").Wall; x != 1 || y != 4 {
		t.Errorf("on walls %d and %d, want 1 and 4", x, y)
	}
}

// To a ceiling lower than that the finish goes up to the ceiling.
func TestWallFinishEndsAtTheCeiling(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Room.HeightMM = 2000 })
	b.volume("wall-tile-1", 1400*(2000-96)*9)
	b = build(t, func(j *job.Job) { j.Room.HeightMM = 2308 })
	b.volume("wall-tile-1", 1400*2212*9)
	// Under a ceiling below the floor there is nothing to finish.
	b = build(t, func(j *job.Job) { j.Room.HeightMM = 96 })
	b.none("wall-tile-1", "wall-tile-2", "wall-bed-1", "wall-tanking-2")
	// Less than a square millimetre is nothing: 1400 of 0.0007, and of 0.00073.
	for height, there := range map[float64]bool{96.0007: false, 96.00073: true} {
		if b = build(t, func(j *job.Job) { j.Room.HeightMM = height }); b.has("wall-tile-1") != there {
			t.Errorf("a ceiling at %v: finished %v", height, !there)
		}
	}
}

// A finish without one of its layers is that much thinner, on the wall as in the
// corner.
func TestWallFinishWithoutALayer(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Layers.Wall.Bed.ThicknessMM = 0 })
	b.none("wall-bed-1", "wall-bed-2")
	b.box("wall-tile-1", mgl64.Vec3{0, 1890, 96}, mgl64.Vec3{1400, 1899, 2308})
	b.box("wall-tile-2", mgl64.Vec3{1, 1000, 96}, mgl64.Vec3{10, 1890, 2308})
}

// In a shower from wall to wall, 2400 × 900, walls 2 and 4 stand at its right and
// left: both begin beside the back's 13. Its drain is in the middle, at 1200.
func TestThreeWalls(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Shower.OffsetMM, j.Shower.WidthMM = 0, 2400
		j.Waste.Gradient = 0.01
	})
	const side = 887*2212 - 817*16.34/2
	b.volume("wall-tile-1", 2400*2212*9)
	b.volume("wall-tile-2", side*9)
	b.volume("wall-tile-3", side*9)
	b.box("wall-tile-2", mgl64.Vec3{2387, 1000, 96}, mgl64.Vec3{2396, 1887, 2308})
	b.box("wall-tile-3", mgl64.Vec3{4, 1000, 96}, mgl64.Vec3{13, 1887, 2308})
	// The floor's tile within: 2400 − 26 wide, 900 − 13 deep, less the drain.
	b.volume("tile", ((2400-26)*887-800*70)*9)
}

// Where the shower does not reach the corner its finish does not either, and
// walls that meet nothing are finished along their whole stretch.
func TestShowerAwayFromTheCorner(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Shower.OffsetMM = 900 // 100 from wall 4
		j.Waste.Gradient = 0.01
	})
	b.volume("wall-tile-1", 1400*2212*9)
	b.box("wall-tile-1", mgl64.Vec3{100, 1887, 96}, mgl64.Vec3{1500, 1896, 2308})
	b.none("wall-tile-2")
	b.volume("tile", (1400*887-800*70)*9)
}

// The wall at the left ends a little past the corner, and the room goes on: the
// stretch that the back's finish of 13 leaves of it is finished when it is 1 long.
func TestFinishOnAShortWall(t *testing.T) {
	for length, there := range map[float64]bool{10: false, 13.9: false, 14.1: true} {
		b := build(t, func(j *job.Job) {
			j.Room.Outline = []plan.Point{{-500, 0}, {2400, 0}, {2400, 1900}, {0, 1900}, {0, 1900 - length}, {-500, 1900 - length}}
			j.Room.Walls = append(j.Room.Walls, j.Room.Walls[0], j.Room.Walls[0])
			j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{100, 1832}}
		})
		if b.has("wall-tile-2") != there {
			t.Errorf("a wall of %v beside a finish of 13: finished %v", length, !there)
		}
		if there {
			b.box("wall-tile-2", mgl64.Vec3{4, 1900 - length, 96}, mgl64.Vec3{13, 1887, 2308})
		}
	}
}

// Where the shower takes the whole room nothing of the room's floor is left.
func TestShowerTakesTheRoom(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Shower = job.Shower{Wall: 2, WidthMM: 2400, DepthMM: 1900}
		j.Room.Edge = job.EdgeRaiseRoom
	})
	b.none("room-tanking", "room-bed", "room-tile", "room-base", "room-finish", "ramp-1")
	b.volume("wall-tile-1", 2400*2212*9)
}

// Walls that meet askew: wall 4 leaves wall 3 at 135° and meets wall 1 at 45°. It
// is 1900·√2 long; the finish of 13 on the others takes 13/cos 45° of it at both
// ends. The tanking is 1 thick: standing at 45°, its box measures as much as its
// length and its thickness together, from corner to corner.
func TestFinishInAnObliqueCorner(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Room.Outline = []plan.Point{{-1900, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}
		j.Former.Fall = job.FallRoom
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{400, 1450}}
	})
	m := b.part("wall-tanking-4").Mesh().Bounds()
	if got, want := math.Hypot(m.High[0]-m.Low[0], m.High[1]-m.Low[1]), 1900*math.Sqrt2-2*13*math.Sqrt2+1; math.Abs(got-want) > 1e-6 {
		t.Errorf("the finish of wall 4 measures %v, want %v", got, want)
	}
}

// A room that falls as a whole is finished on all walls. Wall 1 runs through,
// 2 begins beside it, 3 beside 2, and 4 lies between 3 and 1. Along the walls the
// floor lies level, 33.3 over the drain (see TestFormerToAPoint), the tanking at
// 129.3; the doorway is open to 2060.
func TestFinishesOfAWholeRoom(t *testing.T) {
	b := build(t, pointRoom)
	const height = 2308 - 129.3
	b.between("wall-tile-1", (2400*height-760*(2060-129.3))*9*(1-1e-6), (2400*height-760*(2060-129.3))*9*(1+1e-6))
	for id, length := range map[string]float64{"wall-tile-2": 1887, "wall-tile-3": 2387, "wall-tile-4": 1874} {
		b.between(id, length*height*9*(1-1e-6), length*height*9*(1+1e-6))
	}
	b.box("wall-tile-4", mgl64.Vec3{4, 13, 129.3}, mgl64.Vec3{13, 1887, 2308})
	b.open("wall-tile-1", mgl64.Vec3{1501, 8, 200}, mgl64.Vec3{2259, 8, 2059})
	b.filled("wall-tile-1", mgl64.Vec3{1499, 8, 200}, mgl64.Vec3{1900, 8, 2061})
	// The floor's tile within all of it, less the drain.
	b.volume("tile", ((2400-26)*(1900-26)-70*70)*9)
	b.volume("tile-bed", ((2400-26)*(1900-26)-70*70)*3)
}

// Bed and tile of the shower's floor lie within the walls' finish of 13, at the
// back along 1400 and at the left along 887 of what is left, and round the drain.
func TestShowerTile(t *testing.T) {
	b := build(t, nil)
	const area = showerMM2 - 800*70 - 1400*13 - 887*13
	b.volume("tile-bed", area*3)
	b.volume("tile", area*9)
	b.box("tile-bed", mgl64.Vec3{13, 1000, 96}, mgl64.Vec3{1400, 1887, 99 + 16.34})
	b.box("tile", mgl64.Vec3{13, 1000, 99}, mgl64.Vec3{1400, 1887, 108 + 16.34})
	b.open("tile", mgl64.Vec3{301, 1820, 100}, mgl64.Vec3{12, 1500, 104})
	b.filled("tile", mgl64.Vec3{299, 1820, 100}, mgl64.Vec3{14, 1500, 110})
}

// The room's own finish lies on the floor as it is, beside the shower.
func TestRoomFinish(t *testing.T) {
	b := build(t, nil)
	for id, level := range map[string][2]float64{"room-tanking": {0, 1}, "room-bed": {1, 4}, "room-tile": {4, 13}} {
		b.volume(id, roomRestMM2*(level[1]-level[0]))
		b.box(id, mgl64.Vec3{0, 0, level[0]}, mgl64.Vec3{2400, 1900, level[1]})
		z := (level[0] + level[1]) / 2
		b.open(id, mgl64.Vec3{1399, 1001, z})
		b.filled(id, mgl64.Vec3{1401, 1001, z}, mgl64.Vec3{1399, 999, z})
	}
	b.none("existing-1", "room-base", "ramp-1", "ramp-2")
	// An existing finish that stays is one layer in the place of three.
	b = build(t, func(j *job.Job) {
		j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 10, Out: job.OutShower}}
	})
	b.volume("existing-1", roomRestMM2*10)
	b.box("existing-1", mgl64.Vec3{0, 0, 0}, mgl64.Vec3{2400, 1900, 10})
	b.none("room-tanking", "room-bed", "room-tile", "room-base")
}

// Ramps of 600 at the shower's two open edges fall to the room's 13 by 111.34 over 600: at
// the front from 124.34, 1400 long; at the right edge from the tile's 108, 83 along the
// drain, and then from a line that rises to 124.34 over 817. At the corner they meet on a
// hip from its 124.34 to the floor 600 to the front and 600·(1 + 12/111.34) to the right.
// Under the room's layers lie wedges of mortar: over a piece of edge that stands h over
// the room's floor h²/2 times the run of each millimetre, at the corner triangles that
// stand 111.34 at one corner and nought at both others. They take their place from the
// room's floor.
func TestRamps(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil })
	const run, hip = 600 / 111.34, 1 + 12/111.34
	cubes := func(h float64) float64 { return h * h * h }
	b.volume("ramp-1", run/2*(95*95*83+50*(cubes(111.34)-cubes(95))/3)+180000*111.34/3)
	b.box("ramp-1", mgl64.Vec3{1400, 400, 0}, mgl64.Vec3{1400 + 600*hip, 1900, 111.34})
	b.volume("ramp-2", 1400*600*111.34/2+180000*hip*111.34/3)
	b.box("ramp-2", mgl64.Vec3{0, 400, 0}, mgl64.Vec3{1400 + 600*hip, 1000, 111.34})
	const right, front = run*(95*83+(95+111.34)/2*817) + 180000, 1400*600 + 180000*hip
	b.volume("room-tile-1", right*9)
	b.volume("room-tile-2", front*9)
	b.volume("room-tile", (roomRestMM2-right-front)*9)
	b.open("room-tile", mgl64.Vec3{1999, 1001, 8}, mgl64.Vec3{1399, 401, 8}, mgl64.Vec3{2000, 500, 8})
	b.filled("room-tile", mgl64.Vec3{2001, 1001, 8}, mgl64.Vec3{1399, 399, 8}, mgl64.Vec3{2070, 999, 8})
	if a, c := b.part("ramp-1").Name, b.part("ramp-2").Name; a.String() != "part.at-edge{part: part.ramp, at: edge.at-right}" || c.String() != "part.at-edge{part: part.ramp, at: edge.at-front}" {
		t.Errorf("%q and %q", a, c)
	}
	// Longer than the room is they end at its walls: 1400 − 400 = 1000 to the
	// right, 1000 to the front; the hip meets the right wall 1000/(1 + 40/111.34) out.
	b = build(t, func(j *job.Job) { j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 2000, nil })
	b.box("ramp-1", mgl64.Vec3{1400, 1000 - 1000/(1+40/111.34), 0}, mgl64.Vec3{2400, 1900, 111.34})
	b.box("room-tile-1", mgl64.Vec3{1400, 1000 - 1000/(1+40/111.34), 108 - 1000*111.34/2000 - 9}, mgl64.Vec3{2400, 1900, 124.34})
	b.none("room-tile", "ramp-3")
}

// The room raised to the shower's highest open edge, 124.34: boards up to 111.34
// on a bed of 3, and the finish on them.
func TestRaisedRoom(t *testing.T) {
	raise := func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom }
	b := build(t, raise)
	b.volume("room-base", roomRestMM2*108.34)
	b.volume("room-tile", roomRestMM2*9)
	b.box("room-tile", mgl64.Vec3{0, 0, 115.34}, mgl64.Vec3{2400, 1900, 124.34})
	b.none("room-finish")
	b.volume("room-adhesive", roomRestMM2*3)
	// Of boards 100, 6 and 2 between go into it.
	b = build(t, func(j *job.Job) { raise(j); j.Base.BoardsMM = []float64{6, 10, 20, 100} })
	b.volume("room-adhesive", roomRestMM2*3.34)
	b.volume("room-lower-board-1", roomRestMM2*100)
	b.volume("room-board-bed-1", roomRestMM2*2)
	b.volume("room-base", roomRestMM2*6)
	// Towards the room the run's channel, 77 wide, goes on through its boards for
	// 1000 to wall 1, and through nothing on them. At 1:200 the trap governs.
	b = build(t, func(j *job.Job) {
		raise(j)
		j.Drain.OutletTurnDeg, j.Waste.Gradient = 270, 0.005
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 0, OffsetMM: 700}
	})
	b.volume("room-base", (roomRestMM2-77*1000)*108.34)
	b.volume("room-tile", roomRestMM2*9)
	b.volume("base", (showerMM2-130*133-77*767)*69-(820-130)*93*2)
}
