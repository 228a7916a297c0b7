package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Tanking of the starting job to 1000 over the tile at the drain, 300 out from the right
// edge, 900 long, and the front one, 1400 long, and a stop of 5 at the doorway. On the
// floor it then takes 300 × (900 + 300) + 1400 × 300 = 780 000 mm²; elsewhere the bed of 3
// is 4. On the walls it ends at 108 + 1000; over that the bed takes up its thickness.
func TestReachOfTheTanking(t *testing.T) {
	beyond := 300.0
	plain := build(t, nil)
	b := build(t, func(j *job.Job) {
		j.Layers.Tanking = &job.Tanking{WallToMM: 1000, BeyondMM: &beyond, DoorStopMM: 5}
	})
	const tankedMM2 = 780000
	b.volume("room-tanking", tankedMM2)
	b.box("room-tanking", mgl64.Vec3{0, 700, 0}, mgl64.Vec3{1700, 1900, 1})
	b.volume("room-bed", tankedMM2*3+(roomRestMM2-tankedMM2)*4)
	b.volume("room-tile", roomRestMM2*9)
	b.filled("room-bed", mgl64.Vec3{2000, 500, 0.5})
	b.open("room-bed", mgl64.Vec3{1600, 1200, 0.5})
	for _, wall := range []string{"-1", "-2"} {
		tanking, bed := b.part("wall-tanking"+wall), b.part("wall-bed"+wall)
		if high := tanking.Bounds().High.Z(); math.Abs(high-1108) > 1e-9 {
			t.Errorf("wall%s is tanked to %v, want 1108", wall, high)
		}
		whole := plain.part("wall-tanking"+wall).Mesh().Volume() + plain.part("wall-bed"+wall).Mesh().Volume()
		if got := tanking.Mesh().Volume() + bed.Mesh().Volume(); math.Abs(got-whole) > 1e-6*whole {
			t.Errorf("tanking and bed of wall%s take %v mm³, want %v", wall, got, whole)
		}
	}
	b.volume("door-stop-1", 760*3*18)
	b.box("door-stop-1", mgl64.Vec3{1500, -3, 0}, mgl64.Vec3{2260, 0, 18})
	plain.none("door-stop-1")
	// A finish that stays has neither tanking nor a stop on it.
	kept := build(t, func(j *job.Job) {
		j.Layers.Tanking = &job.Tanking{DoorStopMM: 5}
		j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 10, Out: job.OutShower}}
	})
	kept.none("door-stop-1", "room-tanking")
}

// A doorway in the left wall from y = 1400 to 640, of which 400 lie beside the shower, whose tile rises 1:50 from 108 at
// y = 1817: to 116.34 and 124.34; the room's lies at 13. The stop stands 5 over both.
func TestDoorStopFollowsTheFloor(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Layers.Tanking = &job.Tanking{DoorStopMM: 5}
		j.Room.Doorways[0] = job.Doorway{Wall: 3, OffsetMM: 500, WidthMM: 760, HeightMM: 2040, NeighbourFFLMM: 20, Leaf: job.LeafNone}
	})
	b.volume("door-stop-1", 3*(400*(121.34+129.34)/2+360*18))
	b.box("door-stop-1", mgl64.Vec3{-3, 640, 0}, mgl64.Vec3{0, 1400, 129.34})
}

// On a slab that rises by 24 from the left wall to the right one, 1 in 100, the stop in the doorway from x = 1500 to 2260
// begins on it all along: at 15 up to 22.6.
func TestDoorStopBeginsOnTheStructure(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Layers.Tanking = &job.Tanking{DoorStopMM: 5}
		for _, p := range j.Room.Outline {
			j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: p, LevelMM: p.X() / 100})
		}
	})
	stop := b.part("door-stop-1")
	if low := stop.Bounds().Low.Z(); math.Abs(low-15) > 1e-6 {
		t.Errorf("it begins at %v, want 15", low)
	}
	b.open("door-stop-1", mgl64.Vec3{2250, -1, 20})
	b.filled("door-stop-1", mgl64.Vec3{1510, -1, 16})
}

// Tanking that goes higher than the tile stands out over it.
func TestTankingOverTheTile(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Layers.WallTiledToMM = 1000
		j.Layers.Tanking = &job.Tanking{WallToMM: 1500}
	})
	for id, want := range map[string]float64{"wall-tanking-1": 1608, "wall-bed-1": 1108, "wall-tile-1": 1108} {
		if got := b.part(id).Bounds().High.Z(); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s ends at %v, want %v", id, got, want)
		}
	}
}

// The stack of a lined wall: 12.5 of boards, then 1, 3 and 9 on the bare wall y = 1900;
// the shower's tile ends 25.5 in front of it.
func TestLinedWall(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Layers.Wall.Under = []job.Course{{Kind: job.CoursePrimer}, {Kind: job.CourseLining, Layer: job.Layer{ThicknessMM: 12.5}}}
	})
	for id, from := range map[string]float64{"wall-course-2-1": 0, "wall-tanking-1": 12.5, "wall-bed-1": 13.5, "wall-tile-1": 16.5} {
		if got := b.part(id).Bounds().High.Y(); math.Abs(got-(1900-from)) > 1e-9 {
			t.Errorf("%s begins at %v, want %v", id, got, 1900-from)
		}
	}
	if got := b.part("wall-tile-1").Bounds().Low.Y(); math.Abs(got-1874.5) > 1e-9 {
		t.Errorf("the wall's face is at %v, want 1874.5", got)
	}
	b.none("wall-course-1-1")
	b.open("tile", mgl64.Vec3{100, 1875, 112})
	b.filled("tile", mgl64.Vec3{100, 1874, 105})
}

// Joints of 8 along the walls of the starting job and along its open edges. In the shower
// they run along tile 13 thick on the walls, in the room along bare walls and the edges. Tile
// and sealant together are the tile without joints.
func TestJointsAlongWalls(t *testing.T) {
	plain := build(t, nil)
	b := build(t, func(j *job.Job) { j.Layers.Joints = &job.Joints{PerimeterMM: 8, AtEdge: true} })
	for tile, sealant := range map[string]string{"tile": "sealant-shower", "room-tile": "sealant-room"} {
		whole := plain.part(tile).Mesh().Volume()
		if got := b.part(tile).Mesh().Volume() + b.part(sealant).Mesh().Volume(); math.Abs(got-whole) > 1e-6*whole {
			t.Errorf("%s and %s take %v mm³, want %v", tile, sealant, got, whole)
		}
	}
	// The room: bottom 2400, right 1900, back 1000, left 1000, front edge 1400 and right edge
	// 900; 8 × 8 lies in two of them in three corners and where the edges meet the walls; the
	// corner of the two edges is in neither.
	const strips = (2400+1900+1000+1000+1400+900)*8 - 5*8*8
	b.volume("sealant-room", strips*9)
	// The left wall's tile ends at x = 13.
	b.open("tile", mgl64.Vec3{17, 1300, 113})
	b.filled("sealant-shower", mgl64.Vec3{17, 1300, 113})
	b.filled("tile", mgl64.Vec3{22, 1300, 113})
	plain.none("sealant-room", "sealant-shower")
}

// A stack of 110 in the shower of the starting job: boards, former and tile are cut round
// it, the tile 8 off it, which is filled. Between 55 and 63 from its middle lie π(63² - 55²) =
// 2966 mm² of sealant 9 thick, but for what the chords of the circles cut off.
func TestFloorRoundAStack(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Room.Stacks = []job.Stack{{At: plan.Point{1000, 1300}, NominalMM: 110, OutsideMM: 110}}
		j.Layers.Joints = &job.Joints{PerimeterMM: 8}
	})
	for id, z := range map[string]float64{"base": 60, "former": 98, "tile": 118} {
		b.open(id, mgl64.Vec3{1000, 1300, z})
		b.open(id, mgl64.Vec3{1052, 1300, z})
		b.filled(id, mgl64.Vec3{1066, 1300, z})
	}
	b.filled("base", mgl64.Vec3{1057, 1300, 60})
	b.open("tile", mgl64.Vec3{1060, 1300, 118})
	b.filled("sealant-shower", mgl64.Vec3{1060, 1300, 118})
	b.open("sealant-shower", mgl64.Vec3{1000, 1300, 118})
	along := build(t, func(j *job.Job) { j.Layers.Joints = &job.Joints{PerimeterMM: 8} }).part("sealant-shower").Mesh().Volume()
	if got := (b.part("sealant-shower").Mesh().Volume() - along) / 9; math.Abs(got-math.Pi*(63*63-55*55)) > 20 {
		t.Errorf("%v mm² of sealant round the stack, want about 2966", got)
	}
}

// A joint of 8 across the floor of the starting job lies at x = 1303, on a joint of the
// room's tile: in its tile, 4 to 13 high, and in the shower's.
func TestFieldJoints(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Layers.Joints = &job.Joints{PerimeterMM: 8, GreatestFieldMM: 2000} })
	for _, c := range []struct {
		tile, sealant string
		y, z          float64
	}{{"room-tile", "sealant-room", 500, 8}, {"tile", "sealant-shower", 1500, 112}} {
		for _, x := range []float64{1300, 1303, 1306} {
			b.open(c.tile, mgl64.Vec3{x, c.y, c.z})
			b.filled(c.sealant, mgl64.Vec3{x, c.y, c.z})
		}
		for _, x := range []float64{1298, 1308} {
			b.filled(c.tile, mgl64.Vec3{x, c.y, c.z})
			b.open(c.sealant, mgl64.Vec3{x, c.y, c.z})
		}
	}
}

// The tanking of the starting job's room turns up its walls by 25 over the floor at 13, 1
// thick and as much off the corners: 2400 less the doorway of 760, 1900, 1000 and 1000. Where
// it reaches 300 out from the shower it does so on 300 of two walls.
func TestUpturnOfTheRoomsTanking(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Layers.Tanking = &job.Tanking{UpturnMM: 25} })
	for id, longMM := range map[string]float64{"room-upturn-1": 2398 - 760, "room-upturn-2": 1898, "room-upturn-3": 998, "room-upturn-4": 998} {
		b.volume(id, longMM*25)
	}
	b.box("room-upturn-2", mgl64.Vec3{2399, 1, 13}, mgl64.Vec3{2400, 1899, 38})
	beyond := 300.0
	b = build(t, func(j *job.Job) { j.Layers.Tanking = &job.Tanking{UpturnMM: 25, BeyondMM: &beyond} })
	b.none("room-upturn-1", "room-upturn-2")
	b.volume("room-upturn-3", 299*25)
	b.volume("room-upturn-4", 299*25)
	build(t, nil).none("room-upturn-1")
}

// A water stop along the pane of 842 at the shower's right side, x = 1400: 3 thick at the pane's outer
// face, 14 inside the edge, from the tanking up through 3 of bed and 9 of tile to 5 over it, with a leg
// 20 wide and 1 thick that lies under the pane in the bed. Bed and tile make room for it; a kerb, or a
// door in the pane's place, does without.
func TestWaterStopAlongAPane(t *testing.T) {
	stop := func(change func(*job.Job)) built {
		return build(t, func(j *job.Job) {
			j.Layers.Tanking = &job.Tanking{ScreenStopMM: 5}
			change(j)
		})
	}
	plain, b := build(t, nil), stop(func(*job.Job) {})
	b.volume("screen-stop-1", 842*(3*17+20*1))
	b.filled("screen-stop-1", mgl64.Vec3{1387.5, 1500, 119})
	tanked := b.Heights.FlangeMM + 1 // half way along the pane the floor is 0.02·(1817 − 1466) higher than at the drain
	lies := func(x, overMM float64) mgl64.Vec3 { return mgl64.Vec3{x, 1466, tanked + 0.02*(1817-1466) + overMM} }
	b.filled("screen-stop-1", lies(1367, 0.5), lies(1385, 0.5))
	b.open("screen-stop-1", lies(1365, 0.5), lies(1367, 1.5))
	b.filled("tile-bed", lies(1367, 1.5), lies(1365, 0.5))
	b.volume("tile", plain.part("tile").Mesh().Volume()-842*3*9)
	b.volume("tile-bed", plain.part("tile-bed").Mesh().Volume()-842*(3*3+20*1))
	plain.none("screen-stop-1")
	stop(func(j *job.Job) { j.Shower.Kerb = &job.Kerb{HeightMM: 75, WidthMM: 100} }).none("screen-stop-1")
	stop(func(j *job.Job) { j.Shower.Screens[0].Kind = job.ScreenDoor }).none("screen-stop-1")
	// The first 300 of the side are at a wall: the pane, from 13 on, has 555 of its 842 before the open edge, and no stop
	// at the wall.
	stop(func(j *job.Job) {
		j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 1600}, {1400, 1600}, {1400, 1900}, {0, 1900}}
		j.Room.Walls = append(j.Room.Walls, j.Room.Walls[0], j.Room.Walls[0])
		j.Shower.Wall, j.Shower.OffsetMM = 4, 0
	}).volume("screen-stop-1", 555*(3*17+20*1))
}
