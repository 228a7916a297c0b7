package assembly_test

import (
	"math"
	"os"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/solid"
)

// What is sawn out of the boards: 10 round the trap's 110, 130 square; and for
// the pipe, 50 across with sockets that stand out 3.5, 10 to either side, 77 wide
// from the shower's edge at x = 0 to the square at 635.
// Round the drain, from its underside at 70 up, the boards are cut back by 10 too:
// 820 × 90 from (290, 1807). Of that the square takes 130 × 90 already, and the
// pipe's channel 345 of its length by what both have across, up to 1870.5.
const (
	showerMM2   = 1400 * 900
	channelMM2  = 130*133 + 635*77
	besidePipe  = showerMM2 - channelMM2
	recessMM2   = 820*93 - 130*93 - 345*63.5
	roomRestMM2 = 2400*1900 - showerMM2
)

// Adhesive from 0 to 3, base to 72, bed to 75, all beside the channel; the bed and
// the base's top 2 beside the drain as well.
func TestBaseBesideTheChannel(t *testing.T) {
	b := build(t, nil)
	for id, level := range map[string][2]float64{"adhesive": {0, 3}, "base": {3, 72}, "former-bed": {72, 75}} {
		b.volume(id, besidePipe*(level[1]-level[0])-recessMM2*math.Max(0, level[1]-math.Max(70, level[0])))
		b.box(id, mgl64.Vec3{0, 1000, level[0]}, mgl64.Vec3{1400, 1900, level[1]})
		// Between pipe and boards, and between trap and boards; the saw stops
		// nowhere half way down.
		z := (level[0] + math.Min(70, level[1])) / 2
		if level[0] >= 70 {
			b.open(id, mgl64.Vec3{290.1, 1807.1, 73}, mgl64.Vec3{1109.9, 1899.9, 73})
			b.filled(id, mgl64.Vec3{289.9, 1880, 73}, mgl64.Vec3{1110.1, 1850, 73}, mgl64.Vec3{1000, 1806.9, 73})
			continue
		}
		b.open(id, mgl64.Vec3{1, 1832 + 38.4, z}, mgl64.Vec3{600, 1832 - 38.4, z}, mgl64.Vec3{764.9, 1767.1, z}, mgl64.Vec3{635.1, 1899.9, z})
		b.filled(id, mgl64.Vec3{1, 1832 + 38.6, z}, mgl64.Vec3{600, 1832 - 38.6, z},
			mgl64.Vec3{765.1, 1832, z}, mgl64.Vec3{700, 1766.9, z}, mgl64.Vec3{634.9, 1896, z})
	}
}

// Without leeway the saw goes along the trap and the sockets: 110 square and 57
// wide, up to the outlet at x = 645; the strip of 13 that would be left at the wall goes
// too, under 20 as it is (common practice, no source).
func TestChannelWithoutLeeway(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Base.SawMarginMM = 0 })
	// Beside the drain, 800 × 70, but for 110 of the trap and 345 × 43.5 of the
	// pipe, the base's top 2 are cut back.
	b.volume("base", (showerMM2-110*123-645*57)*69-(800*83-110*83-345*43.5)*2)
	// With half a millimetre they are 111 and 58 wide, and 801 × 71 by the drain.
	b = build(t, func(j *job.Job) { j.Base.SawMarginMM = 0.5 })
	b.volume("base", (showerMM2-111*123.5-644.5*58)*69-(801*83.5-111*83.5-345*44.5)*2)
	b = build(t, func(j *job.Job) { j.Base.SawMarginMM = 20 })
	// With 20 they are 150 and 97 wide; the wall, at 1900, is 7 nearer. Beside the
	// drain 840 × 103 are cut back, but for 150 × 103 and 345 × 83.5.
	b.volume("base", (showerMM2-150*143-625*97)*69-(840*103-150*103-345*83.5)*2)
}

// The channel is as wide as the widest pipe needs, before and behind a reducer:
// 75 + 2·(3.5 + 10) = 102 wide.
func TestChannelForTheWidestPipe(t *testing.T) {
	wider := part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 71, SocketOutsideMM: 75 + 7}
	for _, fitting := range []job.Fitting{
		{Kind: job.FittingReducer, AtMM: 100, LengthMM: 60, Pipe: wider},
		// To the run's very end, 645 + 900 from the outlet.
		{Kind: job.FittingReducer, AtMM: 100, LengthMM: 1445, Pipe: wider},
	} {
		b := build(t, func(j *job.Job) {
			j.Waste.Fittings = []job.Fitting{fitting}
			j.Waste.Exit.Kind, j.Waste.Exit.At = job.ExitPipe, [2]float64{-900, 1832} // the run ends well past the shower
		})
		b.volume("former-bed", (showerMM2-130*133-635*102-(820*93-130*93-345*76))*3)
	}
	// The trap's nut is wider than all of the run: 90 + 2·10.
	joint := build(t, func(j *job.Job) { j.Drain.OutletJointMM, j.Drain.OutletJointOutsideMM = 30, 90 })
	joint.volume("former-bed", (showerMM2-130*133-635*110-(820*93-130*93-345*80))*3)
	// Narrower behind the reducer it stays as wide as before it.
	b := build(t, func(j *job.Job) {
		narrower := part.Pipe{NominalMM: 40, OutsideDiameterMM: 40, BoreMM: 36, SocketOutsideMM: 40 + 7}
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 100, LengthMM: 60, Pipe: narrower}}
	})
	b.volume("former-bed", (besidePipe-recessMM2)*3)
}

// Without a run there is the trap's hole alone.
func TestChannelWithoutARun(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: [2]float64{645, 1832}} })
	b.volume("base", (showerMM2-130*133)*69-(820-130)*93*2)
}

// Boards are cut back for the drain from its underside up: not where it rests on
// them, and all through where it leaves less than 6 of a board (common practice, no
// source) or reaches a bed's underside. A wedge of a bed is
// not. The trap, 95 deep, stands on the floor; base from 3 to 72, bed to 75.
func TestRecessForTheDrain(t *testing.T) {
	for _, c := range []struct{ depth, bed, base float64 }{
		{19.9, 0, 0}, {20, 0, 0}, {20.1, 0.1, 0}, {22.9, 2.9, 0}, {23, 3, 0}, {23.1, 3, 0.1}, {25, 3, 2},
		{86, 3, 63}, {86.1, 3, 69}, {92, 3, 69}, {92.1, 3, 69},
	} {
		b := build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = c.depth })
		b.volume("former-bed", besidePipe*3-recessMM2*c.bed)
		b.volume("base", besidePipe*69-recessMM2*c.base)
		// The rest of the floor keeps clear of the drain by itself.
		b.volume("tanking", showerMM2-800*70)
		b.box("base", mgl64.Vec3{0, 1000, 3}, mgl64.Vec3{1400, 1900, 72})
		// Cut back over a part of its height it is two boards, whole ones are one.
		for id, shells := range map[string]bool{"base": c.base > 0 && c.base < 69, "former-bed": c.bed > 0 && c.bed < 3} {
			if _, two := b.part(id).Shape.(solid.Compound); two != shells {
				t.Errorf("a channel %v deep: %s is of two boards: %v", c.depth, id, two)
			}
		}
	}
	// A drain without a channel.
	b := build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = 0 })
	b.volume("former-bed", besidePipe*3)
	// Raised boards in the room are not the drain's.
	b = build(t, func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom })
	b.volume("room-base", roomRestMM2*108.34)
	// Not where the drain lies along the open front either: the trap's hole, 130
	// square about y = 1055, takes 10 off them, the drain's recess nothing. The tile
	// rises 830 from the drain's edge to the back, to 108 + 16.6.
	b = build(t, func(j *job.Job) {
		j.Room.Edge, j.Former.Fall, j.Drain.WallClearanceMM = job.EdgeRaiseRoom, job.FallFront, 0
		j.Waste.Exit.OffsetMM = 845
	})
	b.volume("room-base", (roomRestMM2-130*10)*(108+16.6-13-3))
	// A channel down in the adhesive cuts a level bed, and leaves a wedge whole.
	b = build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = 94 })
	b.volume("adhesive", besidePipe*3-recessMM2*2)
	b = build(t, func(j *job.Job) {
		tilted(j)
		j.Drain.ChannelDepthMM = 94
	})
	b.between("adhesive", (showerMM2*4.8-(130*130+635*77)*3.272-130*3*3.006)*(1-1e-6),
		(showerMM2*4.8-(130*130+635*77)*3.272-130*3*3.006)*(1+1e-6))
}

// A bed of nothing is no part; one that is there, however thin, is.
func TestBedOfNothingIsNoPart(t *testing.T) {
	for _, c := range []struct {
		id   string
		set  func(*job.Job, float64)
		area float64
	}{
		{"adhesive", func(j *job.Job, v float64) { j.Base.AdhesiveMM = v }, besidePipe},
		{"former-bed", func(j *job.Job, v float64) { j.Former.BedMM = v }, besidePipe - recessMM2},
		{"tanking", func(j *job.Job, v float64) { j.Layers.Shower.Tanking.ThicknessMM = v }, showerMM2 - 800*70},
		{"room-tanking", func(j *job.Job, v float64) { j.Layers.Room.Tanking.ThicknessMM = v }, roomRestMM2},
		{"room-bed", func(j *job.Job, v float64) { j.Layers.Room.Bed.ThicknessMM = v }, roomRestMM2},
		{"room-tile", func(j *job.Job, v float64) { j.Layers.Room.Tile.ThicknessMM = v }, roomRestMM2},
	} {
		b := build(t, func(j *job.Job) { c.set(j, 0) })
		b.none(c.id)
		b = build(t, func(j *job.Job) { c.set(j, 0.1) })
		b.between(c.id, c.area*0.1*(1-1e-6), c.area*0.1*(1+1e-6))
	}
}

// What is less than a millionth of a millimetre is nothing: rounding. So is what
// lies under its own bed by no more than that.
func TestHowLittleIsNothing(t *testing.T) {
	for thickness, there := range map[float64]bool{0.95e-6: false, 1.05e-6: true} {
		if b := build(t, func(j *job.Job) { j.Former.BedMM = thickness }); b.has("former-bed") != there {
			t.Errorf("a bed of %v: a part %v", thickness, !there)
		}
	}
	for under, there := range map[float64]bool{0.95e-6: true, 1.05e-6: false} {
		b := build(t, func(j *job.Job) {
			tilted(j)
			j.Base.AdhesiveMM = -under
		})
		if b.has("adhesive") != there {
			t.Errorf("a wedge that ends %v under the floor: a part %v", under, !there)
		}
	}
}

// A floor that rises 4 mm a metre to the back: the base stands level on its
// highest place under the shower, 7.6 at y = 1900. Without a bed of its own it
// is bedded all the same, in a wedge that runs out to nothing at the back: at y it
// is 0.004·(1900 − y) thick. Over the shower's 1400 × 900 that is 1.8 on average,
// over the channel, about y = 1832, 0.272, over the strip of 3 behind the trap 0.006.
func TestBedThatRunsOutIsAPart(t *testing.T) {
	b := build(t, func(j *job.Job) {
		tilted(j)
		j.Base.AdhesiveMM = 0
	})
	b.between("adhesive", (showerMM2*1.8-(130*130+635*77)*0.272-130*3*0.006)*(1-1e-6),
		(showerMM2*1.8-(130*130+635*77)*0.272-130*3*0.006)*(1+1e-6))
	b.box("adhesive", mgl64.Vec3{0, 1000, 4}, mgl64.Vec3{1400, 1900, 7.6})
	// With 3 it is 3 thicker everywhere.
	b = build(t, tilted)
	b.between("adhesive", (showerMM2*4.8-(130*130+635*77)*3.272-130*3*3.006)*(1-1e-6),
		(showerMM2*4.8-(130*130+635*77)*3.272-130*3*3.006)*(1+1e-6))
	// Set into the floor, the base would lie under its bed: it is left out, and
	// what lies on it is not.
	b = build(t, func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, -1 })
	b.none("base")
	b.volume("former-bed", (besidePipe-recessMM2)*3)
	b = build(t, func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 1 })
	b.volume("base", besidePipe-recessMM2)
}

// Let in: the deck is cut out over the shower. Boards 20 thick lie between the
// joists from −42 to −22, over all of it the base from −22 to −10. The joists in
// the shower at x = 200, 600 and 1000 are 47 wide and 900 long, the one at 1400
// lies half in it; over 77 mm of two of them the channel is sawn out already.
func TestLetInBase(t *testing.T) {
	b := build(t, letIn)
	b.volume("deck", roomRestMM2*22)
	b.open("deck", mgl64.Vec3{1399, 1001, -11})
	b.filled("deck", mgl64.Vec3{1401, 1001, -11}, mgl64.Vec3{1399, 999, -11})
	const onJoistsMM2 = (3*47+23.5)*900 - 2*47*77
	// Beside the trap 11.5 are left to the joist at 623.5, over 133 less the 77 of the pipe: less
	// than can be sawn.
	b.volume("base-let-in", (besidePipe-onJoistsMM2-11.5*(133-77))*20)
	b.box("base-let-in", mgl64.Vec3{0, 1000, -42}, mgl64.Vec3{1376.5, 1900, -22})
	b.open("base-let-in", mgl64.Vec3{577, 1300, -30}, mgl64.Vec3{623, 1300, -30})
	b.filled("base-let-in", mgl64.Vec3{576, 1300, -30}, mgl64.Vec3{624, 1300, -30})
	// The drain's underside lies at 13 − 25, 2 under the base's top.
	b.volume("base", besidePipe*12-recessMM2*2)
	b.box("base", mgl64.Vec3{0, 1000, -22}, mgl64.Vec3{1400, 1900, -10})
	b.volume("former-bed", (besidePipe-recessMM2)*3)
	b.none("adhesive", "slab")
}

// Battens of 38 × 38 stand on the joists' flanks under those boards, from −80 to
// −42, as long as the boards: 7 flanks in the shower, 900 long. The channel, 77
// wide up to x = 635 and 130 from there to 765, goes through the ones at 138.5,
// 223.5 and 538.5; the one from 623.5 to 661.5 loses 133, as no boards lie beside the
// trap. One more is fixed to the wall at x = 0, less the pipe's 77.
func TestBattens(t *testing.T) {
	b := build(t, letIn)
	b.volume("battens", 38*38*(8*900-4*77-133))
	b.box("battens", mgl64.Vec3{0, 1000, -80}, mgl64.Vec3{1376.5, 1900, -42})
	b.filled("battens", mgl64.Vec3{576, 1300, -60}, mgl64.Vec3{539, 1300, -60}, mgl64.Vec3{624, 1300, -60})
	b.open("battens", mgl64.Vec3{600, 1300, -60}, mgl64.Vec3{538, 1300, -60}, mgl64.Vec3{662, 1300, -60})
	build(t, onJoists).none("battens", "base-let-in")
	// Of a shower up to x = 1362 the flank of the joist at 1400,
	// at 1376.5 is outside, and its ledger from there to 1338.5 whole, 23.5 of it under the boards;
	// up to 1345 they reach 6.5 on to it, too little, and it is doubled, down to 1300.5.
	for wide, low := range map[float64]float64{1362: 1338.5, 1345: 1300.5} {
		b = build(t, func(j *job.Job) {
			letIn(j)
			j.Shower.OffsetMM, j.Shower.WidthMM = j.Shower.OffsetMM+j.Shower.WidthMM-wide, wide
		})
		b.filled("battens", mgl64.Vec3{1376.4, 1300, -60}, mgl64.Vec3{low + 0.1, 1300, -60})
		b.open("battens", mgl64.Vec3{low - 0.1, 1300, -60})
	}
	// Joists 120 apart leave bays of 73: battens of 35.5 with 2 between them.
	b = build(t, func(j *job.Job) {
		letIn(j)
		j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 120, 1800
	})
	// The bay between the joists at x = 600 and 480 is open in its middle, 540.
	b.filled("battens", mgl64.Vec3{538.9, 1300, -60}, mgl64.Vec3{541.1, 1300, -60})
	b.open("battens", mgl64.Vec3{539.1, 1300, -60}, mgl64.Vec3{540.9, 1300, -60})
	// In bays of 80 there is room for 38 and 38, with 4 between.
	b = build(t, func(j *job.Job) {
		letIn(j)
		j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 127, 1800
	})
	b.filled("battens", mgl64.Vec3{576.5 - 37.9, 1300, -60}, mgl64.Vec3{496.5 + 37.9, 1300, -60})
	b.open("battens", mgl64.Vec3{576.5 - 38.1, 1300, -60}, mgl64.Vec3{496.5 + 38.1, 1300, -60})
}

// The former is 20 thick where it is level and rises 1:50 over the 817 from the
// drain's edge to the front: 8.17 more on average. Level lie the 83 from the edge
// back to the wall, but for the drain. The tanking lies on all of it.
func TestFormerIsAWedge(t *testing.T) {
	b := build(t, nil)
	b.volume("former", 20*(1400*83-800*70)+(20+817/100.0)*1400*817)
	b.box("former", mgl64.Vec3{0, 1000, 75}, mgl64.Vec3{1400, 1900, 95 + 16.34})
	b.volume("tanking", showerMM2-800*70)
	b.box("tanking", mgl64.Vec3{0, 1000, 95}, mgl64.Vec3{1400, 1900, 96 + 16.34})
	for _, id := range []string{"former", "tanking"} {
		z := b.part(id).Mesh().Bounds().Low.Z() + 0.5
		b.open(id, mgl64.Vec3{301, 1818, z}, mgl64.Vec3{1099, 1886, z})
		b.filled(id, mgl64.Vec3{299, 1820, z}, mgl64.Vec3{1101, 1820, z}, mgl64.Vec3{700, 1889, z})
	}
	// As steep again, the other way: from the right wall's side.
	b = build(t, func(j *job.Job) {
		j.Former.Fall, j.Drain.OutletTurnDeg, j.Former.Slope = job.FallRight, 180, 1.0/25
		j.Drain.LengthMM = 600
	})
	// The drain, 70 × 600, lies from x = 1317 to 1387; the floor rises 1:25 from
	// 1317 down to x = 0.
	b.volume("former", 20*(83*900-70*600)+(20+1317/50.0)*1317*900)
}

// Four planes to a point, 70 square about (700, 1450), level with each other
// along the walls: 2400 × 1900 all round with the longest run, 1700 − 35 = 1665,
// at 1:50, 33.3 up. Over that room the floor makes a bowl, a frustum from 4900
// to 4 560 000 mm² with 1235 × 985 half way up: 33.3/6·(A + 4·M + B) by
// Simpson's rule, exact for it. The former is 20 and what lies under the bowl.
func TestFormerToAPoint(t *testing.T) {
	b := build(t, pointRoom)
	const roomMM2, drainMM2 = 2400 * 1900, 70 * 70
	bowl := 33.3 / 6 * (roomMM2 + 4*1235*985 + drainMM2)
	b.between("former", (20*(roomMM2-drainMM2)+33.3*roomMM2-bowl)*(1-1e-6), (20*(roomMM2-drainMM2)+33.3*roomMM2-bowl)*(1+1e-6))
	b.box("former", mgl64.Vec3{0, 0, 75}, mgl64.Vec3{2400, 1900, 95 + 33.3})
	b.volume("tanking", roomMM2-drainMM2)
	b.none("room-tile", "room-bed", "room-tanking", "ramp-1")
	// The drain and its cover are as long as they are wide. The throat in the channel's
	// bottom is 60 wide; from 30 behind the middle it takes 0.6 of the 80 to where the
	// dip could stand before the outlet's wall, which is 48.
	b.box("channel", mgl64.Vec3{665, 1415, 70}, mgl64.Vec3{735, 1485, 103})
	b.volume("channel", (70*70-48*60)*2.5+(70*70-65*65)*30.5)
	b.box("cover", mgl64.Vec3{668, 1418, 103}, mgl64.Vec3{732, 1482, 108})
}

// pointRoom falls as a whole to a point drain of 70, straight out to the left.
func pointRoom(j *job.Job) {
	j.Former.Fall = job.FallRoom
	j.Waste.Exit.OffsetMM = 450
}

// Across the middle of the shower, from both sides: 900/2 − 35 = 415 up to the
// back and to the front, 8.3 at 1:50.
func TestFormerToTheMiddle(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Former.Fall = job.FallMid
		j.Waste.Exit.OffsetMM = 450
	})
	b.volume("former", 20*(1400*70-800*70)+2*1400*415*(20+415/100.0))
	if top := b.part("former").Bounds().High.Z(); math.Abs(top-(95+8.3)) > 1e-9 {
		t.Errorf("the former reaches %v, want 103.3", top)
	}
}

// Jobs whose shapes once could not be worked out. Ledgers beside a joist cut out askew to the
// room touch those of its trimmers, in the corners of the opening: each is taken out of the
// next, as together they are no shape to cut by, nor to be cut. Mortar filled round a pipe, as far as it lies
// over it, ends just short of a round hole, and no line joins the two sides of that.
func TestShapesThatTouch(t *testing.T) {
	for file, part := range map[string]string{"ledgers-in-the-corners.json": "battens", "ledgers-of-two-walls.json": "battens",
		"trough-to-a-round-hole.json": "trough-fill"} {
		data, err := os.ReadFile("testdata/" + file)
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		if b := assembled(t, j); !b.has(part) {
			t.Errorf("%s: there is no %s", file, part)
		}
	}
}
