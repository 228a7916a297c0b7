package takeoff_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/guide"
	"underfall/geometry/message"
)

// reckoned is a line of an order as it was reckoned with pencil and paper from the job's file: how much is needed, and how many packs
// that takes, 0 where it is sold as needed.
type reckoned struct {
	id      message.ID
	measure guide.Measure
	needed  float64
	packs   int
}

// Guide values of these reckonings, common practice without a source: 5 % are lost of what is spread, 10 % of tile, cord and sheets;
// tanking 1.5 kg a litre, adhesive 1.4, grout 1.6, primer 0.15 l/m². Joints are 3 mm wide and as deep as the tile. Tile of 200 by 200
// comes to (200+3)² a piece, of 600 by 300 to 603·303, of 600 by 600 to 603². Walls have 1 of tanking, 2 of bed and 9 of tile, so that
// floor tile ends 12 off them; their tile begins on the floor's tanking, 9+2 = 11 under the tile there.
const (
	spread   = 1.05
	withCuts = 1.1
	mm2PerM2 = 1e6
	mm3PerL  = 1e6
	joint200 = 1 - 200.0*200/(203*203)
	joint600 = 1 - 600.0*300/(603*303)
	jointBig = 1 - 600.0*600/(603*603)
)

// grouted is how many kilogrammes of grout some areas take, of small tile and wall tile 9 thick and of large tile 10 thick.
func grouted(small, wall, large float64) float64 {
	return (small*joint200*9 + wall*joint600*9 + large*jointBig*10) / mm3PerL * 1.6 * spread
}

// held holds what a demo takes against what was reckoned, to a thousandth.
func held(t *testing.T, r *geometry.Result, all []reckoned) {
	t.Helper()
	const same = 1e-3
	got := of(t, r)
	for _, c := range all {
		l := line(t, got, c.id)
		if l.Needed.Measure != c.measure || math.Abs(l.Needed.Value-c.needed) > same*c.needed || l.Packs != c.packs {
			t.Errorf("%s: %s: %+v, %d packs; want %v, %d", r.Settled.Name, c.id, l.Needed, l.Packs, c.needed, c.packs)
		}
	}
}

// The first demo: a room of 2400 by 1900 with a doorway of 760, a shower of 1400 by 900 in the corner of two walls, a drain of 1200 by
// 70 that lies 13 off the back wall and falls away 1 in 50 to its front and to both ends, which are 100 long.
//
// Its floor: 1400·900 − 1200·70 = 1.176 m² of tanking, (1400−12)(900−12) − 84 000 = 1 148 544 mm² of tile; the room's 2400·1900 −
// 1400·900 = 3.3 m². At the back the tile lies level but for both ends, which rise to 100/50 = 2 (200 mm² in all); along the left wall it
// lies at 2 from 12 to 183 off the back wall and rises from there to 817/50 = 16.34 at the front: 2·171 + (817² − 100²)/(2·50) = 6916.9
// mm². Wall tile goes up to 2200 over the drain's: 1400·2211 − 200 + 888·2211 − 6916.9 mm².
//
// Its open edges' faces: the drain's tile is 115.5 over the datum (4, the highest of the floor, 3 of bed, 60 and 10 of board with 3.5
// between them, 3, 20, 1, 2 and 9), the room's 13 over a floor that is the plane 3(y−300)/1300 − (x−300)/900: 1.171 in the middle of the
// front, at 700, 1000, and 1.432 in that of the right edge, at 1400, 1450. The front lies 817/50 higher, the edge as the left wall.
func TestTheSlabsOrderByHand(t *testing.T) {
	const (
		floor = 1388.0*888 - 1200*70
		open  = 1400.0*900 - 1200*70
		room  = 2400.0*1900 - 1400*900
		walls = 1400.0*2211 - 200 + 888*2211 - 6916.9
		foot  = 2*(2400.0+1900) - 760 // of the walls
		faces = 2300*(115.5-13) - 1400*1.171 - 900*1.432 + 1400*817.0/50 + 2*183 + (817.0*817-100*100)/(2*50)
		up    = 2200.0 - 2 // the corner, from the tile at its foot
	)
	r := demotest.Shown(t)[0]
	held(t, &r, []reckoned{
		{"order.tanking", guide.Mass, (open + faces + walls + room) / mm3PerL * 1.5 * spread, 3},
		{"order.tile-shower", guide.Area, (floor + faces) * withCuts, 38 + spareTiles}, // 1.5523 m² of 0.041209
		{"order.tile-wall", guide.Area, walls * withCuts, 31 + spareTiles},             // 5.5568 m² of 0.182709
		{"order.tile-room", guide.Area, room * withCuts, 10 + spareTiles},              // 3.63 m² of 0.363609
		{"order.grout", guide.Mass, grouted(floor+faces, walls, room), 1},
		// Tape at the foot, in the corner, along both open edges and at the foot of their faces; five corner pieces lapped by
		// three tapes each, one join of rolls of 10 m.
		{"order.tape", guide.Length, foot + up + 2*(1400+900) + 5*3*50 + 50, 2},
		{"order.corner-inside", guide.Count, 4, 0},
		{"order.corner-outside", guide.Count, 1, 0},
		{"order.sealant", guide.Liquid, (foot + up) * 5 * 6 / mm3PerL * spread, 2},
		{"order.backing", guide.Length, (foot + up) * withCuts, 2},
		{"order.trim-wall", guide.Length, 2198 + (2200 - 16.34) + 1400 + 900, 3},
		{"order.trim-step", guide.Length, 1400 + 900, 1},
		{"order.trim-door", guide.Length, 760, 1},
		{"order.pane", guide.Count, 1, 0},
	})
}

// The wet room in a set-down slab: a room of 2600 by 2100 with a doorway of 820, a shower of 1200 by 1200 in a corner that falls 1 in 62
// to a drain of 150 by 150 in its middle, so that it lies 525/62 = 8.468 higher along its rim. Walls are tanked up to 1850, and tiled up
// to 2200, over the drain's tile; above the tanking the bed is as much thicker as the tanking is, 1.
//
// Adhesive beds, 2 thick: the floor's tile and the room's; walls 1200 and 1188 long, 2211 − 8.468 high, with 350 of them 1 thicker; and
// one of 5 under a trap of 130 by 130.
func TestTheWetRoomsOrderByHand(t *testing.T) {
	const (
		rise  = 525.0 / 62
		floor = 1188.0*1188 - 150*150
		open  = 1200.0*1200 - 150*150
		room  = 2600.0*2100 - 1200*1200
		long  = 1200.0 + 1188 // of the walls' tile
		walls = long * (2211 - rise)
		foot  = 2*(2600.0+2100) - 820
		up    = 1850 - rise
		beds  = 2*(floor+room+walls) + 350*long + 5*130*130
	)
	r := demotest.Shown(t)[3]
	held(t, &r, []reckoned{
		{"order.tanking", guide.Mass, (open + 2*1200*up + room) / mm3PerL * 1.5 * spread, 3},
		{"order.primer", guide.Liquid, (open + room + walls) / mm2PerM2 * 0.15 * spread, 2},
		{"order.adhesive", guide.Mass, beds / mm3PerL * 1.4 * spread, 2},
		{"order.tile-shower", guide.Area, floor * withCuts, 38 + spareTiles}, // 1.5277 m² of 0.041209
		{"order.tile-wall", guide.Area, walls * withCuts, 32 + spareTiles},   // 5.7856 m² of 0.182709
		{"order.tile-room", guide.Area, room * withCuts, 13 + spareTiles},    // 4.422 m² of 0.363609
		{"order.grout", guide.Mass, grouted(floor, walls, room), 1},
		{"order.tape", guide.Length, foot + up + 2*1200 + 4*3*50 + 50, 2},
		{"order.corner-inside", guide.Count, 4, 0},
		{"order.sealant", guide.Liquid, (foot + up) * 5 * 6 / mm3PerL * spread, 2},
		{"order.backing", guide.Length, (foot + up) * withCuts, 2},
		{"order.trim-wall", guide.Length, 2*(2200-rise) + 2*1200, 3},
		{"order.stop-angle", guide.Length, 820, 1},
		{"order.clips", guide.Count, 2, 0}, // one for each of two pieces shorter than a metre
		{"order.pane", guide.Count, 1, 0},
	})
}

// The bath that was taken out: a room of 1700 by 3600 with a doorway of 900, a shower over its whole width, 1200 deep, with a drain of
// 1200 by 70 that lies 13 off its front edge; it falls 1 in 60 to it from the back, 1117 away, and from both sides, 250 away.
//
// Along a side wall the tile lies at 250/60 = 4.167 from the front edge to where it has come as high towards the back, 83 + 250 = 333 in,
// and rises from there to 18.417 at the back wall's tile, 1188 in: 333·4.167 + (1105² − 250²)/(2·60) = 11 041.9 mm². The back wall's is
// level, 1117/60 = 18.617 at the wall. The pipe goes 25 into the adaptor, which lies 977 from the trap along the run.
func TestTheRampsOrderByHand(t *testing.T) {
	const (
		floor = (1700.0-24)*(1200-12) - 1200*70
		open  = 1700.0*1200 - 1200*70
		room  = 1700.0 * 2400
		back  = 1117.0 / 60
		walls = 1700*(2211-back) + 2*(1188*2211-11041.9)
		foot  = 2*(1700.0+3600) - 900
		up    = 2 * (2200 - back) // both corners
	)
	r := demotest.Shown(t)[10]
	held(t, &r, []reckoned{
		{"order.tanking", guide.Mass, (open + walls + room) / mm3PerL * 1.5 * spread, 4},
		{"order.tile-shower", guide.Area, floor * withCuts, 51 + spareTiles}, // 2.0978 m² of 0.041209
		{"order.tile-wall", guide.Area, walls * withCuts, 54 + spareTiles},   // 9.8541 m² of 0.182709
		{"order.tile-room", guide.Area, room * withCuts, 13 + spareTiles},    // 4.488 m² of 0.363609
		{"order.grout", guide.Mass, grouted(floor, walls, room), 1},
		{"order.tape", guide.Length, foot + up + 1700 + 4*3*50 + 50, 2},
		{"order.corner-inside", guide.Count, 4, 0},
		{"order.sealant", guide.Liquid, (foot + up) * 5 * 6 / mm3PerL * spread, 2},
		{"order.backing", guide.Length, (foot + up) * withCuts, 2},
		{"order.pipe", guide.Length, 977 + 25, 1},
		{"order.trim-wall", guide.Length, 2*(2200-250.0/60) + 1700 + 2*1200, 4},
		{"order.trim-door", guide.Length, 900, 1},
	})
}
