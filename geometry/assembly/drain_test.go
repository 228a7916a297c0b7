package assembly_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// The channel is bent of plate 2.5 thick, 800 × 70, from its underside at 70 up to
// the cover's at 108 − 5. Its throat lies over the trap where both overlap, 110
// along and 1817 to 1887 across, less 5 all round: 100 × 60. Of its length 0.6 is the
// dip's; what is nearer to the outlet, on the left, is the riser's and the chamber's.
func TestChannel(t *testing.T) {
	b := build(t, nil)
	b.volume("channel", (800*70-60*60)*2.5+(800*70-795*65)*(33-2.5))
	b.box("channel", mgl64.Vec3{300, 1817, 70}, mgl64.Vec3{1100, 1887, 103})
	b.filled("channel", mgl64.Vec3{302.4, 1852, 90}, mgl64.Vec3{1097.6, 1852, 90}, mgl64.Vec3{700, 1819.4, 90}, mgl64.Vec3{700, 1884.6, 90}, mgl64.Vec3{400, 1852, 72.4})
	b.open("channel", mgl64.Vec3{302.6, 1852, 90}, mgl64.Vec3{1097.4, 1852, 90}, mgl64.Vec3{700, 1819.6, 90}, mgl64.Vec3{700, 1884.4, 90}, mgl64.Vec3{400, 1852, 72.6})
	b.open("channel", mgl64.Vec3{690.1, 1822.1, 71}, mgl64.Vec3{749.9, 1881.9, 71})
	b.filled("channel", mgl64.Vec3{689.9, 1850, 71}, mgl64.Vec3{750.1, 1850, 71}, mgl64.Vec3{700, 1821.9, 71}, mgl64.Vec3{700, 1882.1, 71})
}

// The throat follows the trap along the drain, to its right end at 1100 − 5 and
// its left at 300 + 5 + 40, where riser and chamber are. A drain shorter than the trap
// bounds it: from 45 behind the middle 0.6 of 95 to where the dip could stand before
// the outlet's wall, 57 long.
func TestThroatAtTheEnd(t *testing.T) {
	// The run is longer: at 1:100 the trap still stands on the floor.
	b := build(t, func(j *job.Job) { j.Drain.TrapOffsetMM, j.Waste.Gradient = 345, 0.01 })
	b.volume("channel", (800*70-60*60)*2.5+(800*70-795*65)*(33-2.5))
	b.open("channel", mgl64.Vec3{1035.1, 1850, 71}, mgl64.Vec3{1094.9, 1850, 71})
	b.filled("channel", mgl64.Vec3{1034.9, 1850, 71}, mgl64.Vec3{1095.1, 1850, 71})
	b = build(t, func(j *job.Job) { j.Drain.TrapOffsetMM = -345 })
	b.open("channel", mgl64.Vec3{404.9, 1850, 71}, mgl64.Vec3{345.1, 1850, 71})
	b.filled("channel", mgl64.Vec3{405.1, 1850, 71}, mgl64.Vec3{344.9, 1850, 71})
	b = build(t, func(j *job.Job) { j.Drain.LengthMM = 100 })
	b.volume("channel", (100*70-57*60)*2.5+(100*70-95*65)*(33-2.5))
	// A trap narrower than the channel, 60: it stands at the wall's side, 1900 −
	// 13 − 60 to 1887, its own middle at 1857, and bounds the throat across too.
	b = build(t, func(j *job.Job) { j.Drain.TrapSizeMM = 60 })
	b.volume("channel", (800*70-30*50)*2.5+(800*70-795*65)*(33-2.5))
}

// A channel that lies less than the plates' height over the trap is drawn up to
// clear it: 4 plates, 10 over the trap's underside.
func TestChannelOverTheTrap(t *testing.T) {
	// The trap 95 deep stands on the floor, its underside at 0: a channel 85 deep
	// has its own at 10, one 86 deep too.
	for _, depth := range []float64{85, 86} {
		b := build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = depth })
		b.box("channel", mgl64.Vec3{300, 1817, 10}, mgl64.Vec3{1100, 1887, 103})
		b.box("trap", mgl64.Vec3{645, 1777, 0}, mgl64.Vec3{755, 1887, 10})
	}
	b := build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = 84 })
	b.box("channel", mgl64.Vec3{300, 1817, 11}, mgl64.Vec3{1100, 1887, 103})
	// A channel needs 2 plates under the cover: the flange, 13 under the tile and
	// 8 under the lip, is that and 3 more; with a bed of 0.5 and a tile of 0.5
	// the lip lies 2 under it, at 93, and the channel, 3 deep, at 92.
	b = build(t, func(j *job.Job) {
		j.Layers.Shower.Tanking.ThicknessMM, j.Layers.Shower.Bed.ThicknessMM, j.Layers.Shower.Tile.ThicknessMM = 2, 0.5, 0.5
		j.Drain.ChannelDepthMM = 3
	})
	b.none("channel")
	b.box("cover", mgl64.Vec3{303, 1820, 93}, mgl64.Vec3{1097, 1884, 98})
	for depth, there := range map[float64]bool{7: false, 7.1: true} { // 5 under the lip, and 5.1
		b = build(t, func(j *job.Job) {
			j.Layers.Shower.Tanking.ThicknessMM, j.Layers.Shower.Bed.ThicknessMM, j.Layers.Shower.Tile.ThicknessMM = 2, 0.5, 0.5
			j.Drain.ChannelDepthMM = depth
		})
		if b.has("channel") != there {
			t.Errorf("a channel %v deep: drawn %v", depth, !there)
		}
	}
}

// The cover is a plate 5 thick, 3 in from the channel all round: 794 × 64. Its
// slots are 6 wide, 22 apart and 9 in from the edge: 46 long; as many as fit
// between 22 from either end: (794 − 44)/22 = 34.09.
func TestSlottedCover(t *testing.T) {
	b := build(t, nil)
	b.volume("cover", (794*64-34*6*46)*5)
	b.box("cover", mgl64.Vec3{303, 1820, 103}, mgl64.Vec3{1097, 1884, 108})
	// 34 slots: 17 to either side, the inner ones 11 from the middle.
	b.open("cover", mgl64.Vec3{711, 1852, 105}, mgl64.Vec3{689, 1852, 105}, mgl64.Vec3{713.9, 1874.9, 105}, mgl64.Vec3{708.1, 1829.1, 105}, mgl64.Vec3{700 + 16.5*22, 1852, 105}, mgl64.Vec3{700 - 16.5*22, 1852, 105})
	b.filled("cover", mgl64.Vec3{700, 1852, 105}, mgl64.Vec3{714.1, 1852, 105}, mgl64.Vec3{707.9, 1852, 105}, mgl64.Vec3{711, 1875.1, 105}, mgl64.Vec3{711, 1828.9, 105}, mgl64.Vec3{700 + 17.5*22, 1852, 105})
	b.none("cover-tile")
	if f := b.part("cover").Finish; f != nil {
		t.Errorf("a slotted cover is finished with %+v", *f)
	}
}

// The cover is drawn in triangles along its slots: of n slots the rims' two left
// corners meet each of the 2n corners along their rim, and the plate's end. A cover
// drawn wrongly would be covered as any other plate and look the same.
func TestCoverIsDrawnAlongItsSlots(t *testing.T) {
	for length, n := range map[float64]int{800: 34, 94: 2, 72: 1} {
		b := build(t, func(j *job.Job) { j.Drain.LengthMM = length })
		lower, upper, all := 0, 0, 0
		for _, tri := range b.part("cover").Shape.(solid.Prism).Sheet.Triangles() {
			all++
			for _, q := range tri {
				if q.Sub(plan.Point{700 - length/2 + 3, 1820}).Len() < 1e-6 {
					lower++
				}
				if q.Sub(plan.Point{700 - length/2 + 3, 1884}).Len() < 1e-6 {
					upper++
				}
			}
		}
		// Six at the ends, two rims of 2n − 1 and two in each of the n − 1 bars.
		if lower != 2*n+2 || upper != 2*n+1 || all != 6+2*(2*n-1)+2*(n-1) {
			t.Errorf("%d slots: %d triangles, %d at the lower and %d at the upper left corner", n, all, lower, upper)
		}
	}
}

// What the cover lets in, by hand: the gap of 3 round it along 2·(800 + 70), and
// its slots. Slots shorter than 8 are none: a drain 32 wide has 26/2 − 9 = 4 to
// either side of its middle. A drain too short for a slot has none: 2 slots need
// 44 + 44 of the cover's length, 1 needs 66.
func TestCoverOpenings(t *testing.T) {
	for _, c := range []struct {
		length, width       float64
		fall                job.FallKind
		cover               job.CoverKind
		perimeterMM, areaMM float64
	}{
		{800, 70, job.FallBack, job.CoverSlotted, 1740, 34*6*46 + 1740*3},
		{800, 32, job.FallBack, job.CoverSlotted, 1664, 34*6*8 + 1664*3},
		{800, 31.9, job.FallBack, job.CoverSlotted, 1663.8, 1663.8 * 3},
		{72, 70, job.FallBack, job.CoverSlotted, 284, 1*6*46 + 284*3},
		{71, 70, job.FallBack, job.CoverSlotted, 282, 282 * 3},
		{94, 70, job.FallBack, job.CoverSlotted, 328, 2*6*46 + 328*3},
		{50, 32, job.FallBack, job.CoverSlotted, 164, 164 * 3},
		// A point drain is square, whatever the length: 110, 104 in the cover.
		{800, 110, job.FallPoint, job.CoverSlotted, 440, 2*6*86 + 440*3},
		{800, 110, job.FallRoom, job.CoverSlotted, 440, 2*6*86 + 440*3},
		// A tile in a tray: a gap of 6 round it and no slots.
		{800, 70, job.FallBack, job.CoverTileInsert, 1740, 1740 * 6},
		{800, 110, job.FallPoint, job.CoverTileInsert, 440, 440 * 6},
	} {
		j := job.New()
		j.Drain.LengthMM, j.Drain.WidthMM, j.Former.Fall, j.Style.Cover = c.length, c.width, c.fall, c.cover
		perimeter, area := assembly.CoverOpenings(j)
		if math.Abs(perimeter-c.perimeterMM) > 1e-9 || math.Abs(area-c.areaMM) > 1e-9 {
			t.Errorf("%v × %v, fall %s, %s: %v round and %v open, want %v and %v", c.length, c.width, c.fall, c.cover, perimeter, area, c.perimeterMM, c.areaMM)
		}
	}
}

// The cover's body has the slots that water is reckoned with, also where there
// are none.
func TestCoverHasItsOpenings(t *testing.T) {
	for _, width := range []float64{31.9, 32, 70} {
		b := build(t, func(j *job.Job) { j.Drain.WidthMM = width })
		perimeter, area := assembly.CoverOpenings(b.Settled)
		b.volume("cover", 5*((800-6)*(width-6)-(area-3*perimeter)))
	}
}

// A tile in a tray: 6 in from the channel all round, 788 × 58; the tray 2 thick
// under the lip at 103, the tile on it up to 108.
func TestTileInTheCover(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Style.Cover = job.CoverTileInsert })
	b.volume("cover", 788*58*2)
	b.box("cover", mgl64.Vec3{306, 1823, 101}, mgl64.Vec3{1094, 1881, 103})
	b.volume("cover-tile", 788*58*5)
	b.box("cover-tile", mgl64.Vec3{306, 1823, 103}, mgl64.Vec3{1094, 1881, 108})
	if f := b.part("cover-tile").Finish; f == nil || !reflect.DeepEqual(*f, b.Settled.Layers.Shower) {
		t.Errorf("the tile in the cover is %+v, not the floor's", f)
	}
}

// shellMM3 is the trap's shell: a bottom of 110 square, three sides bent of plate 2.5
// thick, 110 + 2·105 long along their middles as laid out, and a side with the outlet,
// 110 less the bore of 46; from 0 up to the channel at 70. The chords of the outlet's
// hole leave as much more.
const shellMM3 = 110*110*2.5 + (110*2.5+2*105*2.5)*67.5 + (110*67.5-math.Pi*23*23)*2.5

// tubeMM2 is the dip's plate, 60 × 60 outside.
const tubeMM2 = 60*60 - 55*55

// From the throat's edge, x = 690 to 750, the dip's tube hangs from the channel at 70
// down to 13, the seal's 50 under the weir at 63. Riser and chamber share the 42.5 from
// the dip to the wall of the outlet with the weir's plate, 20 for each: the plate stands
// from x = 670 to 667.5, over the floor of the chamber, which is 2.5 thick and ends at
// the outlet's invert at 20.
func TestTrapShell(t *testing.T) {
	b := build(t, nil)
	b.rounded("trap", shellMM3+tubeMM2*57+105*2.5*(63-17.5)+105*20*2.5, -chords(2*math.Pi*23, 2.5))
	b.box("trap", mgl64.Vec3{645, 1777, 0}, mgl64.Vec3{755, 1887, 70})
	// The outlet's middle lies 23 over its invert, in the side to the left.
	b.open("trap", mgl64.Vec3{646, 1832, 43}, mgl64.Vec3{646, 1832, 43 - 22.8}, mgl64.Vec3{646, 1832 + 22.8, 43})
	b.filled("trap", mgl64.Vec3{646, 1832, 43 - 23.1}, mgl64.Vec3{646, 1832 + 23.1, 43}, mgl64.Vec3{646, 1832, 43 + 23.1})
	b.filled("trap", mgl64.Vec3{754, 1832, 43}, mgl64.Vec3{700, 1778, 43}, mgl64.Vec3{700, 1886, 43}, mgl64.Vec3{700, 1832, 2.4})
	b.open("trap", mgl64.Vec3{752, 1832, 43}, mgl64.Vec3{700, 1832, 2.6}, mgl64.Vec3{700, 1780, 43})
	// The dip tube's plate and end.
	b.filled("trap", mgl64.Vec3{691, 1852, 13.1}, mgl64.Vec3{749, 1852, 69.9}, mgl64.Vec3{700, 1823, 40}, mgl64.Vec3{700, 1881, 40})
	b.open("trap", mgl64.Vec3{691, 1852, 12.9}, mgl64.Vec3{693, 1852, 40}, mgl64.Vec3{720, 1852, 40}, mgl64.Vec3{689, 1852, 40})
	// The weir's plate from side to side, and the chamber's floor.
	b.filled("trap", mgl64.Vec3{669, 1832, 17.6}, mgl64.Vec3{669, 1780, 62.9}, mgl64.Vec3{669, 1884, 62.9}, mgl64.Vec3{667, 1832, 19.9}, mgl64.Vec3{648, 1780, 17.6})
	b.open("trap", mgl64.Vec3{669, 1832, 17.4}, mgl64.Vec3{669, 1832, 63.1}, mgl64.Vec3{671, 1832, 40}, mgl64.Vec3{667, 1832, 20.1}, mgl64.Vec3{648, 1780, 17.4})
}

// With a seal of 10 the tube ends 10 under the weir. The water lies in the whole body
// as far as the chamber's floor, 105 square, then before the weir's plate alone, 82.5
// long, and over the tube's end, at 53, beside its plate.
func TestShortSeal(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Drain.SealMM = 10 })
	b.rounded("trap", shellMM3+tubeMM2*17+105*2.5*(63-17.5)+105*20*2.5, -chords(2*math.Pi*23, 2.5))
	b.volume("seal", 105*105*15+105*82.5*35.5+(105*82.5-tubeMM2)*10)
}

// An outlet at the weir is the weir itself: no plate, no chamber, and the water in all
// of the body. Over the weir it holds the water higher.
func TestOutletAtTheWeir(t *testing.T) {
	for depth, level := range map[float64]float64{32: 63, 30: 65} {
		b := build(t, func(j *job.Job) { j.Drain.OutletInvertDepthMM = depth })
		// Of the outlet's bore there is what lies under the channel.
		b.open("trap", mgl64.Vec3{669, 1832, 62}, mgl64.Vec3{660, 1832, 62})
		b.volume("seal", 105*105*10.5+(105*105-tubeMM2)*(level-13))
		b.box("seal", mgl64.Vec3{647.5, 1779.5, 2.5}, mgl64.Vec3{752.5, 1884.5, level})
	}
	// A little lower there is a weir.
	b := build(t, func(j *job.Job) { j.Drain.OutletInvertDepthMM = 33 })
	b.filled("trap", mgl64.Vec3{669, 1832, 62.9}, mgl64.Vec3{660, 1832, 61.9})
	b.open("trap", mgl64.Vec3{660, 1832, 62.1})
}

// The chamber's floor lies on the body's, at 2.5, under an outlet of less than 5; one
// at 2.5 and under has the body's.
func TestChamberOnTheFloor(t *testing.T) {
	for depth, chamber := range map[float64]float64{90: 2.5, 92: 0.5, 92.5: 0, 95: 0} {
		b := build(t, func(j *job.Job) {
			j.Drain.OutletInvertDepthMM = depth
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		})
		b.volume("seal", 105*82.5*10.5+(105*82.5-tubeMM2)*50)
		for z, there := range map[float64]bool{2.5 + chamber - 0.1: true, 2.5 + chamber + 0.1: false} {
			if got := demotest.Holds(b.part("trap").Mesh(), mgl64.Vec3{660, 1780, z}); got != there {
				t.Errorf("an outlet %v under the flange: the chamber's floor at %v is there: %v", depth, z, got)
			}
		}
		b.filled("trap", mgl64.Vec3{669, 1780, 2.6}, mgl64.Vec3{669, 1780, 62.9})
	}
}

// A channel as deep as the trap is drawn 4 plates up over it: the trap is there,
// 10 high. A dip tube no longer than its plate is thick, from there to 13, is left out;
// one that is 0.1 longer is not. What stands over the channel's underside is its water.
func TestTrapUnderADeepChannel(t *testing.T) {
	for _, c := range []struct {
		depth, high float64
		tube        bool
	}{{95, 10, false}, {79.5, 15.5, false}, {79.4, 15.6, true}} {
		b := build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = c.depth })
		b.box("trap", mgl64.Vec3{645, 1777, 0}, mgl64.Vec3{755, 1887, c.high})
		b.box("seal", mgl64.Vec3{647.5, 1779.5, 2.5}, mgl64.Vec3{752.5, 1884.5, c.high})
		if there := demotest.Holds(b.part("trap").Mesh(), mgl64.Vec3{691, 1852, 13.1}); there != c.tube {
			t.Errorf("a channel %v deep: a dip tube %v", c.depth, there)
		}
	}
	// Between outlet and weir it cuts off the weir's plate: 50 deep, at 45.
	b := build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = 50 })
	b.filled("trap", mgl64.Vec3{669, 1832, 44.9})
	b.box("trap", mgl64.Vec3{645, 1777, 0}, mgl64.Vec3{755, 1887, 45})
}

// The outlet points the other ways as well: towards the room at 270, with the
// hole in that side, and dip, riser and weir in line with it: the dip from y = 1882 to
// 1822, the weir's plate from 1802 on.
func TestOutletIntoTheRoom(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Drain.OutletTurnDeg = 270
		j.Waste.Gradient = 0.005
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 0, OffsetMM: 700}
	})
	b.open("trap", mgl64.Vec3{700, 1778, 43}, mgl64.Vec3{700 + 22.8, 1778, 43})
	b.filled("trap", mgl64.Vec3{700 + 23.1, 1778, 43}, mgl64.Vec3{646, 1832, 43}, mgl64.Vec3{700, 1778, 43 + 23.1}, mgl64.Vec3{754, 1832, 43})
}

// The water stands up to the weir at 63, from the bottom plate at 2.5: under the tube's
// end at 13 and the chamber's floor at 17.5 in all of the body, 105 square, over that
// before the weir's plate; none in the chamber.
func TestWaterOfTheSeal(t *testing.T) {
	b := build(t, nil)
	b.volume("seal", 105*105*10.5+(105*105-tubeMM2)*4.5+(105*82.5-tubeMM2)*45.5)
	b.box("seal", mgl64.Vec3{647.5, 1779.5, 2.5}, mgl64.Vec3{752.5, 1884.5, 63})
	b.filled("seal", mgl64.Vec3{671, 1832, 62.9}, mgl64.Vec3{720, 1852, 62.9}, mgl64.Vec3{691, 1852, 12.9}, mgl64.Vec3{660, 1832, 17.4})
	b.open("seal", mgl64.Vec3{660, 1832, 20.1}, mgl64.Vec3{691, 1852, 13.1}, mgl64.Vec3{669, 1832, 40}, mgl64.Vec3{720, 1852, 63.1})
	// A weir at the body's floor, under which the outlet lies too, holds none.
	for depth, there := range map[float64]bool{92.5: false, 92.4: true} {
		b = build(t, func(j *job.Job) {
			j.Drain.OutletInvertDepthMM, j.Drain.WeirDepthMM = 95, depth
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		})
		if b.has("seal") != there {
			t.Errorf("a weir %v under the flange: water %v", depth, !there)
		}
	}
	// Nor does the tube reach into the water where the trap has no seal.
	b = build(t, func(j *job.Job) { j.Drain.SealMM = 0 })
	b.volume("seal", 105*105*15+105*82.5*45.5)
	b.box("seal", mgl64.Vec3{647.5, 1779.5, 2.5}, mgl64.Vec3{752.5, 1884.5, 63})
}

// The trap, 110 square, hangs 95 under its flange: with the base's top at 80, 8 over the
// slab. Where a bed is wanted under it that is filled; not where none is, nor between
// joists.
func TestBedUnderTheTrap(t *testing.T) {
	at := func(bedMM float64) func(*job.Job) {
		return func(j *job.Job) { j.Base.Height, j.Base.HeightMM, j.Drain.BedUnderMM = job.HeightChosen, 77, bedMM }
	}
	build(t, at(5)).volume("trap-bed", 110*110*8)
	for _, change := range []func(*job.Job){at(0), func(j *job.Job) {
		at(5)(j)
		j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
	}} {
		for _, p := range build(t, change).Parts {
			if p.ID == "trap-bed" {
				t.Error("there is a bed under it")
			}
		}
	}
}
