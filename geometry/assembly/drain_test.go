package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// The channel is bent of plate 2.5 thick, 800 × 70, from its underside at 70 up to
// the cover's at 108 − 5. Its throat over the trap is as large as both overlap,
// 110 along and 1817 to 1887 across, less 5 all round: 100 × 60.
func TestChannel(t *testing.T) {
	b := build(t, nil)
	b.volume("channel", (800*70-100*60)*2.5+(800*70-795*65)*(33-2.5))
	b.box("channel", mgl64.Vec3{300, 1817, 70}, mgl64.Vec3{1100, 1887, 103})
	b.filled("channel", mgl64.Vec3{302.4, 1852, 90}, mgl64.Vec3{1097.6, 1852, 90}, mgl64.Vec3{700, 1819.4, 90}, mgl64.Vec3{700, 1884.6, 90}, mgl64.Vec3{400, 1852, 72.4})
	b.open("channel", mgl64.Vec3{302.6, 1852, 90}, mgl64.Vec3{1097.4, 1852, 90}, mgl64.Vec3{700, 1819.6, 90}, mgl64.Vec3{700, 1884.4, 90}, mgl64.Vec3{400, 1852, 72.6})
	b.open("channel", mgl64.Vec3{650.1, 1822.1, 71}, mgl64.Vec3{749.9, 1881.9, 71})
	b.filled("channel", mgl64.Vec3{649.9, 1850, 71}, mgl64.Vec3{750.1, 1850, 71}, mgl64.Vec3{700, 1821.9, 71}, mgl64.Vec3{700, 1882.1, 71})
}

// The throat follows the trap along the drain, to its right end at 1100 − 5 and
// its left at 300 + 5. A drain shorter than the trap bounds it: 100 − 10 long.
func TestThroatAtTheEnd(t *testing.T) {
	// The run is longer: at 1:100 the trap still stands on the floor.
	b := build(t, func(j *job.Job) { j.Drain.TrapOffsetMM, j.Waste.Gradient = 345, 0.01 })
	b.volume("channel", (800*70-100*60)*2.5+(800*70-795*65)*(33-2.5))
	b.open("channel", mgl64.Vec3{995.1, 1850, 71}, mgl64.Vec3{1094.9, 1850, 71})
	b.filled("channel", mgl64.Vec3{994.9, 1850, 71}, mgl64.Vec3{1095.1, 1850, 71})
	b = build(t, func(j *job.Job) { j.Drain.TrapOffsetMM = -345 })
	b.open("channel", mgl64.Vec3{404.9, 1850, 71}, mgl64.Vec3{305.1, 1850, 71})
	b.filled("channel", mgl64.Vec3{405.1, 1850, 71}, mgl64.Vec3{304.9, 1850, 71})
	b = build(t, func(j *job.Job) { j.Drain.LengthMM = 100 })
	b.volume("channel", (100*70-90*60)*2.5+(100*70-95*65)*(33-2.5))
	// A trap narrower than the channel, 60: it stands at the wall's side, 1900 −
	// 13 − 70 to 1887, its own middle at 1852, and bounds the throat across too.
	b = build(t, func(j *job.Job) { j.Drain.TrapSizeMM = 60 })
	b.volume("channel", (800*70-50*50)*2.5+(800*70-795*65)*(33-2.5))
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
	if f := b.part("cover-tile").Finish; f == nil || *f != b.Settled.Layers.Shower {
		t.Errorf("the tile in the cover is %+v, not the floor's", f)
	}
}

// The trap's shell: a bottom of 110 square, three sides bent of plate 2.5 thick,
// 110 + 2·105 long along their middles as laid out, and a side with the outlet,
// 110 less the bore of 46; from 0 up to the channel at 70. From the throat's edge
// a dip tube of plate, 100 × 60 outside, hangs from 70 down into the seal: 50
// under the outlet at 20 there is no room, so to 3 plates over the bottom, 7.5.
func TestTrapShell(t *testing.T) {
	b := build(t, nil)
	const sides = 67.5
	want := 110*110*2.5 + (110*2.5+2*105*2.5)*sides + (110*sides-math.Pi*23*23)*2.5 + (100*60-95*55)*62.5
	b.rounded("trap", want, -chords(2*math.Pi*23, 2.5))
	b.box("trap", mgl64.Vec3{645, 1777, 0}, mgl64.Vec3{755, 1887, 70})
	// The outlet's middle lies 23 over its invert, in the side to the left.
	b.open("trap", mgl64.Vec3{646, 1832, 43}, mgl64.Vec3{646, 1832, 43 - 22.8}, mgl64.Vec3{646, 1832 + 22.8, 43})
	b.filled("trap", mgl64.Vec3{646, 1832, 43 - 23.1}, mgl64.Vec3{646, 1832 + 23.1, 43}, mgl64.Vec3{646, 1832, 43 + 23.1})
	b.filled("trap", mgl64.Vec3{754, 1832, 43}, mgl64.Vec3{700, 1778, 43}, mgl64.Vec3{700, 1886, 43}, mgl64.Vec3{700, 1832, 2.4})
	b.open("trap", mgl64.Vec3{752, 1832, 43}, mgl64.Vec3{700, 1832, 2.6}, mgl64.Vec3{700, 1780, 43})
	// The dip tube's plate and end.
	b.filled("trap", mgl64.Vec3{651, 1852, 7.6}, mgl64.Vec3{749, 1852, 69.9}, mgl64.Vec3{700, 1823, 40}, mgl64.Vec3{700, 1881, 40})
	b.open("trap", mgl64.Vec3{651, 1852, 7.4}, mgl64.Vec3{653, 1852, 40}, mgl64.Vec3{700, 1852, 40})
}

// With a seal of 10 there is room for it: the tube ends 10 under the outlet.
func TestShortSeal(t *testing.T) {
	b := build(t, func(j *job.Job) { j.Drain.SealMM = 10 })
	const sides = 67.5
	want := 110*110*2.5 + (110*2.5+2*105*2.5)*sides + (110*sides-math.Pi*23*23)*2.5 + (100*60-95*55)*60
	b.rounded("trap", want, -chords(2*math.Pi*23, 2.5))
	b.volume("seal", 105*105*7.5+(105*105-(100*60-95*55))*10)
}

// A channel as deep as the trap is drawn 4 plates up over it: the trap is there,
// 10 high. A dip tube no longer than its plate is thick, from there to 3 plates
// over the bottom, is left out; one that is 0.1 longer is not.
func TestTrapUnderADeepChannel(t *testing.T) {
	for _, c := range []struct {
		depth, high float64
		tube        bool
	}{{95, 10, false}, {84.9, 10.1, true}} {
		b := build(t, func(j *job.Job) { j.Drain.ChannelDepthMM = c.depth })
		b.box("trap", mgl64.Vec3{645, 1777, 0}, mgl64.Vec3{755, 1887, c.high})
		if there := demotest.Holds(b.part("trap").Mesh(), mgl64.Vec3{651, 1852, 7.6}); there != c.tube {
			t.Errorf("a channel %v deep: a dip tube %v", c.depth, there)
		}
	}
}

// The outlet points the other ways as well: towards the room at 270, with the
// hole in that side.
func TestOutletIntoTheRoom(t *testing.T) {
	b := build(t, func(j *job.Job) {
		j.Drain.OutletTurnDeg = 270
		j.Waste.Gradient = 0.005
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 0, OffsetMM: 700}
	})
	b.open("trap", mgl64.Vec3{700, 1778, 43}, mgl64.Vec3{700 + 22.8, 1778, 43})
	b.filled("trap", mgl64.Vec3{700 + 23.1, 1778, 43}, mgl64.Vec3{646, 1832, 43}, mgl64.Vec3{700, 1778, 43 + 23.1}, mgl64.Vec3{754, 1832, 43})
}

// The water stands up to the outlet's invert at 20, 105 square from the bottom
// plate at 2.5: under the tube's end at 7.5 whole, over it less the tube's plate.
func TestWaterOfTheSeal(t *testing.T) {
	b := build(t, nil)
	b.volume("seal", 105*105*5+(105*105-(100*60-95*55))*12.5)
	b.box("seal", mgl64.Vec3{647.5, 1779.5, 2.5}, mgl64.Vec3{752.5, 1884.5, 20})
	// The outlet 5 over the trap's underside, or less: no water stands in it. The
	// trap hangs on at 0, as deep under the flange.
	for depth, there := range map[float64]bool{90: false, 89.9: true} {
		b = build(t, func(j *job.Job) {
			j.Drain.OutletInvertDepthMM, j.Drain.SealMM = depth, 1
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		})
		if b.has("seal") != there {
			t.Errorf("an outlet %v under the flange: water %v", depth, !there)
		}
	}
	// The outlet 6 over it: the tube, 3 plates over the bottom at the lowest, ends
	// over the water, which is whole.
	b = build(t, func(j *job.Job) {
		j.Drain.OutletInvertDepthMM = 89
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	})
	b.volume("seal", 105*105*3.5)
	// Nor does it reach into the water where the trap has no seal.
	b = build(t, func(j *job.Job) { j.Drain.SealMM = 0 })
	b.volume("seal", 105*105*17.5)
	b.box("seal", mgl64.Vec3{647.5, 1779.5, 2.5}, mgl64.Vec3{752.5, 1884.5, 20})
}
