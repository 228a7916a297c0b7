package measure_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/plan"
)

// The starting job by hand. Its room is 2400 by 1900, with a doorway of 760; the shower
// 1400 by 900 in its back left corner, open at the right and at the front. Along the back
// the floor is at 108 and the walls are tanked 2200 over that; along the left wall it is
// so for 83 and then rises by 16.34 over 817.
func TestSealingByHand(t *testing.T) {
	const wallsMM2 = 1400*2200 + 83*2200 + 817*(2200-8.17)
	beyond := 300.0
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   measure.Sealing
	}{
		"as it begins": {func(*job.Job) {}, measure.Sealing{TankedFloorMM2: 2400 * 1900, TankedWallMM2: wallsMM2,
			TapeFloorMM: 2*(2400+1900) - 760, TapeCornersMM: 2200, TapeEdgesMM: 1400 + 900, Collars: 1, FieldMM: 2400}},
		// A finish that stays is not tanked; the shower's own floor is.
		"beside a finish that stays": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 10, Out: job.OutShower}}
		}, measure.Sealing{TankedFloorMM2: 1400 * 900, TankedWallMM2: wallsMM2, TapeFloorMM: 1400 + 900, TapeCornersMM: 2200, TapeEdgesMM: 2300, Collars: 1, FieldMM: 1400}},
		// 300 out the tanking meets 300 of the back wall and 300 of the left one, and the walls
		// are tanked to 1000: 1200 less of 2300 mm of them.
		"as far as stated": {func(j *job.Job) {
			j.Layers.Tanking = &job.Tanking{WallToMM: 1000, BeyondMM: &beyond}
		}, measure.Sealing{TankedFloorMM2: 1400*900 + 780000, TankedWallMM2: wallsMM2 - 1200*2300, TapeFloorMM: 2300 + 600, TapeCornersMM: 1000, TapeEdgesMM: 2300, Collars: 1, FieldMM: 2400}},
		// No field longer than 1000: across the shower one joint of 900 on the tile's own at
		// x = 700. The room's tile has joints every 603 from there and from y = 1817: three at
		// x = 700 and 1303, 1000 long, and 1906, 1900 long, and two at y = 611, 2400 long, and
		// 1214, 1000 long.
		"jointed": {func(j *job.Job) {
			j.Layers.Joints = &job.Joints{PerimeterMM: 8, AtEdge: true, GreatestFieldMM: 1000}
		}, measure.Sealing{TankedFloorMM2: 2400 * 1900, TankedWallMM2: wallsMM2, TapeFloorMM: 7840, TapeCornersMM: 2200, TapeEdgesMM: 2300, Collars: 1,
			JointMM: 8, SealantFloorMM: 8600, SealantCornersMM: 2200, SealantEdgesMM: 2300, SealantFieldsMM: 900 + 2*1000 + 1900 + 2400 + 1000, FieldMM: 900}},
		// A stack of 110 in the room is one more collar and has a joint round it.
		"jointed round a stack": {func(j *job.Job) {
			j.Layers.Joints = &job.Joints{PerimeterMM: 8}
			j.Room.Stacks = []job.Stack{{At: plan.Point{2000, 1000}, NominalMM: 110, OutsideMM: 110}}
		}, measure.Sealing{TankedFloorMM2: 2400 * 1900, TankedWallMM2: wallsMM2, TapeFloorMM: 7840, TapeCornersMM: 2200, TapeEdgesMM: 2300, Collars: 2,
			JointMM: 8, SealantFloorMM: 8600 + math.Pi*110, SealantCornersMM: 2200, FieldMM: 2400}},
	} {
		j := job.New()
		c.change(&j)
		got := measure.SealingOf(levelled(t, j))
		for what, v := range map[string][2]float64{
			"floor tanked": {got.TankedFloorMM2, c.want.TankedFloorMM2}, "walls tanked": {got.TankedWallMM2, c.want.TankedWallMM2},
			"tape at the floor": {got.TapeFloorMM, c.want.TapeFloorMM}, "tape in corners": {got.TapeCornersMM, c.want.TapeCornersMM}, "tape at edges": {got.TapeEdgesMM, c.want.TapeEdgesMM},
			"collars": {float64(got.Collars), float64(c.want.Collars)}, "gap": {got.JointMM, c.want.JointMM}, "sealant at the floor": {got.SealantFloorMM, c.want.SealantFloorMM},
			"sealant in corners": {got.SealantCornersMM, c.want.SealantCornersMM}, "sealant at edges": {got.SealantEdgesMM, c.want.SealantEdgesMM},
			"sealant across": {got.SealantFieldsMM, c.want.SealantFieldsMM}, "longest field": {got.FieldMM, c.want.FieldMM},
		} {
			if !(math.Abs(v[0]-v[1]) <= 1e-6*math.Max(1, v[1])) {
				t.Errorf("%s: %s %v, want %v", name, what, v[0], v[1])
			}
		}
	}
}

// Openings in the tanked walls of the starting job: the back wall runs from x = 2400 to
// nought, its shower from 1000 to 2400 along it with the floor at 108; 2200 over that it is
// tanked, up to 2308.
func TestOpeningsInTankedWalls(t *testing.T) {
	const back, left = 1400 * 2200, 83*2200 + 817*(2200-8.17)
	window := func(offset, width, sill, height float64) job.Window {
		return job.Window{Wall: 2, OffsetMM: offset, WidthMM: width, SillMM: sill, HeightMM: height, RevealMM: 100}
	}
	for name, c := range map[string]struct {
		change                               func(*job.Job)
		walls, openings, tape, corners, tall float64
		windows                              int
	}{
		"a window wholly inside": {func(j *job.Job) { j.Room.Windows = []job.Window{window(1200, 600, 1200, 900)} },
			back + left - 540000, 540000, 3000, 2200, 900, 1},
		"a window over the height": {func(j *job.Job) { // 1608 - 1208 of it, and no head
			j.Layers.Tanking = &job.Tanking{WallToMM: 1500}
			j.Room.Windows = []job.Window{window(1200, 600, 1208, 900)}
		}, back + left - 700*2300 - 240000, 240000, 600 + 2*400, 1500, 400, 1},
		"a window that only touches": {func(j *job.Job) {
			j.Layers.Tanking = &job.Tanking{WallToMM: 1500}
			j.Room.Windows = []job.Window{window(1200, 600, 1608, 600)}
		}, back + left - 700*2300, 0, 0, 1500, 0, 0},
		"a window past the shower's end": {func(j *job.Job) { j.Room.Windows = []job.Window{window(700, 600, 1200, 900)} },
			back + left - 270000, 270000, 300 + 900 + 300, 2200, 900, 1},
		"a window in another wall": {func(j *job.Job) {
			w := window(600, 600, 1200, 900)
			w.Wall = 1
			j.Room.Windows = []job.Window{w}
		}, back + left, 0, 0, 2200, 0, 0},
		"a doorway": {func(j *job.Job) { // up to 2020, from the floor at 108
			j.Room.Doorways = []job.Doorway{{Wall: 2, OffsetMM: 1200, WidthMM: 760, HeightMM: 2000, NeighbourFFLMM: 20, Leaf: job.LeafNone}}
		}, back + left - 760*1912, 760 * 1912, 760 + 2*1912, 2200, 0, 0},
		"a ceiling lower than the tanking": {slopingToLeft,
			892*1308 + 1308*1308/2 + 92*2200 + 83*892 + 817*(892-8.17), 0, 0, 892, 0, 0},
		// From x = 200 to 800 the ceiling rises from 1200 to 1800, to the window's upper corner.
		"a window under a sloping ceiling": {func(j *job.Job) {
			slopingToLeft(j)
			j.Room.Windows = []job.Window{window(1600, 600, 900, 900)}
		}, 892*1308 + 1308*1308/2 + 92*2200 + 83*892 + 817*(892-8.17) - 360000, 360000, 600 + 300 + 900, 892, 900, 1},
		"walls that are not tanked": {func(j *job.Job) {
			j.Layers.Wall.Tanking.ThicknessMM = 0
			j.Room.Windows = []job.Window{window(1200, 600, 1200, 900)}
		}, 0, 0, 0, 0, 0, 0},
	} {
		j := job.New()
		c.change(&j)
		got := measure.SealingOf(levelled(t, j))
		tall, reveals := 0.0, 0.0
		for _, w := range got.Windows {
			tall = math.Max(tall, w.TallMM)
			reveals = 100 * c.tape
		}
		for what, v := range map[string][2]float64{"walls": {got.TankedWallMM2, c.walls}, "openings": {got.OpeningsMM2, c.openings}, "tape": {got.TapeOpeningsMM, c.tape},
			"corners": {got.TapeCornersMM, c.corners}, "windows": {float64(len(got.Windows)), float64(c.windows)}, "height": {tall, c.tall}, "reveals": {got.RevealsMM2, reveals}} {
			if !(math.Abs(v[0]-v[1]) <= 1e-6*math.Max(1, v[1])) {
				t.Errorf("%s: %s %v, want %v", name, what, v[0], v[1])
			}
		}
	}
}

// slopingToLeft lets the ceiling rise at 45° from 1000 over the left wall.
func slopingToLeft(j *job.Job) { j.Room.Slopes = []job.Slope{{Wall: 3, KneeMM: 1000, PitchDeg: 45}} }

// Turned up by 25 round the room, the tanking takes as much of its walls, less the doorway:
// 2400 and 1900 and the 1000 beside the shower twice, less 760.
func TestUpturnTakesTanking(t *testing.T) {
	j := job.New()
	j.Layers.Tanking = &job.Tanking{UpturnMM: 25}
	if got, want := measure.SealingOf(levelled(t, j)).UpturnMM2, 25.0*(2400+1900+2*1000-760); math.Abs(got-want) > 1e-6 {
		t.Errorf("%v mm² turned up, want %v", got, want)
	}
	beyond := 0.0
	j.Layers.Tanking.BeyondMM = &beyond
	if got := measure.SealingOf(levelled(t, j)).UpturnMM2; got != 0 {
		t.Errorf("%v mm² turned up of a floor that is not tanked", got)
	}
}

// The tanking goes up and over a box in the tanked floor. The run of 1000 to the right wall has
// its crown 75 over the floor at the shower's edge, 57 of sockets: with 27.5 round those and 12 of
// board the box is 68 to each side, at the back wall, and 118 high, 117 over the tanking of 1. It
// takes 136 by 1000 of the floor, as much over its lid, and 117 up its one free face; tape lies along
// that and up the right wall. The joint goes along the face in place of the back wall, and
// leaves out the 136 at the right one.
func TestTankingGoesOverABox(t *testing.T) {
	beyond, none := 300.0, 0.0
	right := func(j *job.Job) {
		j.Layers.Joints = &job.Joints{PerimeterMM: 8}
		j.Drain.OutletTurnDeg, j.Waste.Exit = 0, job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
		boxedIn(j, 27.5)
	}
	for name, c := range map[string]struct {
		change                             func(*job.Job)
		floor, over, tape, tapeFloor, seal float64
	}{
		"bare":  {func(j *job.Job) { right(j); j.Waste.Boxing = nil }, 2400 * 1900, 0, 0, 7840, 8600},
		"boxed": {right, 2400*1900 - 136000, 1000 * (136 + 117), 1000 + 117, 7840, 8600 - 136},
		// 300 out from the shower 300 of the box lies in the tanked floor, and no wall at its end.
		"partly tanked": {func(j *job.Job) { right(j); j.Layers.Tanking = &job.Tanking{BeyondMM: &beyond} },
			1400*900 + 780000 - 136*300, 300 * (136 + 117), 300, 2300 + 600, 8600 - 136},
		"on a floor that is not tanked": {func(j *job.Job) { right(j); j.Layers.Tanking = &job.Tanking{BeyondMM: &none} },
			1400 * 900, 0, 0, 2300, 8600 - 136},
		// Off the wall by 11 there are two faces, and 114 of floor and of the right wall.
		"between two faces": {func(j *job.Job) { right(j); boxedIn(j, 16.5) },
			2400*1900 - 114000, 1000 * (114 + 2*106), 2 * (1000 + 106), 7840, 8600 - 114 + 2000},
	} {
		j := job.New()
		c.change(&j)
		got := measure.SealingOf(levelled(t, j))
		for what, v := range map[string][2]float64{"floor": {got.TankedFloorMM2, c.floor}, "over the box": {got.BoxingMM2, c.over},
			"tape of the box": {got.TapeBoxingMM, c.tape}, "tape": {got.TapeFloorMM, c.tapeFloor}, "joint": {got.SealantFloorMM, c.seal}} {
			if !(math.Abs(v[0]-v[1]) <= 1e-6*math.Max(1, v[1])) {
				t.Errorf("%s: %s %v, want %v", name, what, v[0], v[1])
			}
		}
	}
}

// The strip round a screed by hand: the shower's walls are 1400 and 900 long, as are its open
// edges; the room's 8600 less those and a doorway of 760. A stack of 110 stands in the room.
func TestEdgeStripByHand(t *testing.T) {
	insulation, screed, mat := job.Course{Kind: job.CourseInsulation, Layer: job.Layer{ThicknessMM: 20}},
		job.Course{Kind: job.CourseScreed, Layer: job.Layer{ThicknessMM: 65}}, job.Course{Kind: job.CourseHeating, Layer: job.Layer{ThicknessMM: 5}}
	const shower, edges, room = 1400 + 900, 1400 + 900, 8600 - 2300 - 760
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   float64
	}{
		"none":                   {func(*job.Job) {}, 0},
		"bonded":                 {func(j *job.Job) { j.Base.Under = []job.Course{screed} }, 0},
		"under the insulation":   {func(j *job.Job) { j.Base.Under = []job.Course{screed, insulation} }, 0},
		"floating in the shower": {func(j *job.Job) { j.Base.Under = []job.Course{insulation, screed} }, shower + edges},
		"a base of screed over insulation": {func(j *job.Job) {
			j.Base.Screed, j.Base.Under = true, []job.Course{insulation}
		}, shower + edges},
		"heated in the room, round a stack": {func(j *job.Job) {
			j.Layers.Room.Under = []job.Course{screed, mat}
			j.Room.Stacks = []job.Stack{{At: plan.Point{2000, 1000}, NominalMM: 110, OutsideMM: 110}}
		}, room + edges + math.Pi*110},
		"a mat without a screed": {func(j *job.Job) { j.Layers.Room.Under = []job.Course{mat} }, 0},
		"both": {func(j *job.Job) {
			j.Base.Under, j.Layers.Room.Under = []job.Course{insulation, screed}, []job.Course{insulation, screed}
		}, shower + room + edges},
		"on insulation that was found": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingInsulation, ThicknessMM: 40, Out: job.OutNowhere}}
			j.Base.Under = []job.Course{screed}
		}, shower + edges},
		"of a floor that falls as a whole": {func(j *job.Job) {
			j.Former.Fall, j.Shower.Screens = job.FallRoom, nil
			j.Base.Under = []job.Course{insulation, screed}
		}, 8600 - 760},
	} {
		j := job.New()
		c.change(&j)
		if got := measure.SealingOf(levelled(t, j)).EdgeStripMM; math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: %v of strip, want %v", name, got, c.want)
		}
	}
}

// Water stops by hand: a doorway of 760 and a pane of 842. The pane's is measured where the room
// lies no 25 over the shower and no kerb stands there.
func TestWaterStopsByHand(t *testing.T) {
	both := func(j *job.Job) { j.Layers.Tanking = &job.Tanking{DoorStopMM: 5, ScreenStopMM: 6} }
	kerb := func(j *job.Job) { both(j); j.Shower.Kerb = &job.Kerb{HeightMM: 75, WidthMM: 100} }
	// A return of 300 beside the shower: the pane, from 13 on, stands 287 of its length at it.
	half := func(j *job.Job) {
		both(j)
		j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 1600}, {1400, 1600}, {1400, 1900}, {0, 1900}}
		j.Room.Walls = append(j.Room.Walls, j.Room.Walls[0], j.Room.Walls[0])
		j.Shower.Wall, j.Shower.OffsetMM = 4, 0
	}
	for name, c := range map[string]struct {
		change         func(*job.Job)
		doors, screens float64
	}{"both": {both, 760, 842}, "none": {func(*job.Job) {}, 0, 0}, "a kerb": {kerb, 760, 0}, "half at a wall": {half, 760, 842 - 287}} {
		j := job.New()
		c.change(&j)
		if got := measure.SealingOf(levelled(t, j)); got.StopDoorsMM != c.doors || math.Abs(got.StopScreensMM-c.screens) > 1e-6 {
			t.Errorf("%s: %v at doorways and %v along panes", name, got.StopDoorsMM, got.StopScreensMM)
		}
	}
	holdChanges(t, job.New(), []change{
		{"stated", both, []want{{"tanking.screen-stop", "screen 1", 6, nowhere}}},
		{"none", func(*job.Job) {}, []want{{"tanking.screen-stop", "screen 1", 0, nowhere}}},
		{"a kerb", kerb, []want{{"tanking.screen-stop", "screen 1", not, nowhere}}},
		{"a door", func(j *job.Job) { j.Shower.Screens[0].Kind = job.ScreenDoor }, []want{{"tanking.screen-stop", "screen 1", not, nowhere}}},
		// On a floor of 150 that stays the room lies 33 and more over the shower.
		{"stepped down", func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 150, Out: job.OutShower}}
		}, []want{{"tanking.screen-stop", "screen 1", not, nowhere}}},
	})
}

// The waste goes out through a wall of 300: a sleeve as long where its two leaves are known, and the
// cavity of 120 is measured.
func TestSleeveThroughACavityWall(t *testing.T) {
	cavity := func(inner float64) func(*job.Job) {
		return func(j *job.Job) {
			w := &j.Room.Walls[3]
			w.Kind, w.ThicknessMM, w.InnerLeafMM, w.CavityMM = job.WallCavity, 300, inner, 120
		}
	}
	for inner, want := range map[float64]float64{100: 300, 0: 0} {
		j := job.New()
		cavity(inner)(&j)
		if got := measure.SealingOf(levelled(t, j)).SleeveMM; got != want {
			t.Errorf("an inner leaf of %v: a sleeve of %v, want %v", inner, got, want)
		}
	}
	holdChanges(t, job.New(), []change{
		{"known", cavity(100), []want{{"caution.cavity", "exit-in-wall B", 120, nowhere}}},
		{"not known", cavity(0), []want{{"caution.cavity", "exit-in-wall B", not, nowhere}}},
	})
}

// A stop at the doorway of a floor that falls as a whole holds the water so much higher.
func TestWaterStopHoldsWater(t *testing.T) {
	j := job.New()
	j.Former.Fall = job.FallRoom
	plain := measure.WaterOf(levelled(t, j)).Reserve
	j.Layers.Tanking = &job.Tanking{DoorStopMM: 12}
	if got := measure.WaterOf(levelled(t, j)).Reserve; math.Abs(got.SpillMM-plain.SpillMM-12) > 1e-9 || got.Litres <= plain.Litres {
		t.Errorf("water runs over at %v and %v l are held, without a stop at %v and %v l", got.SpillMM, got.Litres, plain.SpillMM, plain.Litres)
	}
}
