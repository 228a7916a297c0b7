package takeoff_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/takeoff"
	"underfall/geometry/waste"
)

func guideTable(tb testing.TB) guide.Table {
	tb.Helper()
	t, err := assets.Guide()
	if err != nil {
		tb.Fatal(err)
	}
	return t
}

// taken is the starting job, changed, with what it takes.
func taken(t *testing.T, change func(*job.Job)) (takeoff.Takeoff, geometry.Result) {
	t.Helper()
	j := job.New()
	change(&j)
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	return of(t, &r), r
}

func of(tb testing.TB, r *geometry.Result) takeoff.Takeoff {
	tb.Helper()
	table := guideTable(tb)
	out, err := takeoff.Of(r, &table)
	if err != nil {
		tb.Fatal(err)
	}
	return out
}

// line is the one line of an item; there must be no other.
func line(t *testing.T, of takeoff.Takeoff, id message.ID) takeoff.Line {
	t.Helper()
	all := lines(of, id)
	if len(all) != 1 {
		t.Fatalf("%d lines of %s", len(all), id)
	}
	return all[0]
}

func lines(of takeoff.Takeoff, id message.ID) (out []takeoff.Line) {
	for _, l := range of.Lines {
		if l.Item.ID == id {
			out = append(out, l)
		}
	}
	return out
}

// The starting job by hand. Its shower is 1400 by 900 in the corner of walls B, to the left, and C, at
// its back, in a room of 2400 by 1900; a drain of 800 by 70 lies 13 off the back wall, a doorway of
// 760 in wall A. Guide values, common practice without a source: adhesive 1.4 kg a litre, grout 1.6,
// primer 0.15 l/m², 5 % lost of what is spread, 10 % of tile and sheets.
//
// Sawn out of the base are 130·133 for the trap and 635·77 for the pipe; beds of 3 lie under base and
// former, that of the former is left out as well for the channel, which reaches 5 below it: 820·93
// with the saw's margin and to the wall, of which 130·93 and 345·63.5 are out already. The tile of the
// floor ends 13 off both walls. Wall tile begins on the tanking, 12 under the tile at the drain, and
// goes up to 2200 over that: at the back level, at the left, less the 13 that the back wall takes,
// with a floor that rises 1 in 50 from 83 off the back wall on.
func TestTheStartingJobByHand(t *testing.T) {
	got, _ := taken(t, func(*job.Job) {})
	const (
		base    = 1400.0*900 - 130*133 - 635*77
		channel = 820.0*93 - 130*93 - 345*63.5
		floor   = 1387.0*887 - 800*70
		open    = 1400.0*900 - 800*70
		room    = 2400.0*1900 - 1400*900
		walls   = 1400.0*2212 + 887*2212 - 817.0*817/2/50
		lost    = 1.05
		cut     = 1.1
		litre   = 1e6
		squareM = 1e6
		// The open edges have faces of tile. A base of 72 carries bed, former of 20, tanking, bed and tile, 108
		// at the drain, over a room's floor of 13; the front lies 817/50 higher, and the side rises to that.
		faces = 2300*(108.0-13) + 1400*817.0/50 + 817.0*817/2/50
	)
	grout := (floor+faces)*(1-40000.0/(203*203))*9 + walls*(1-180000.0/(602*302))*9 + room*(1-360000.0/(603*603))*9
	for _, c := range []struct {
		id      message.ID
		measure guide.Measure
		needed  float64
		packs   int
	}{
		{"order.adhesive", guide.Mass, (2*base - channel + floor + faces + room + walls) * 3 / litre * 1.4 * lost, 3},
		{"order.tanking", guide.Area, (open + faces + room + walls) * cut, 0},
		{"order.primer", guide.Liquid, (base + room + walls) / squareM * 0.15 * lost, 2},
		{"order.grout", guide.Mass, grout / litre * 1.6 * lost, 1},
		{"order.tile-shower", guide.Area, (floor + faces) * cut, 38 + spareTiles},
		{"order.tile-wall", guide.Area, walls * cut, 31 + spareTiles},
		{"order.tile-room", guide.Area, room * cut, 10 + spareTiles},
		// No joints are stated: a gap of 5, 6 deep, along all walls but the doorway and in the corner
		// of the shower's walls.
		{"order.sealant", guide.Liquid, (8600 - 760 + 2200) * 5 * 6 / litre * lost, 2},
		{"order.backing", guide.Length, (8600 - 760 + 2200) * cut, 2},
		// Tape beside it along both open edges and at the foot of their faces; five corner pieces, each lapped by three tapes; one
		// join of rolls of 10 m.
		{"order.tape", guide.Length, 8600 - 760 + 2200 + 2*2300 + 5*3*50 + 50, 2},
		{"order.corner-inside", guide.Count, 4, 0},
		{"order.corner-outside", guide.Count, 1, 0},
		{"order.collar-drain", guide.Count, 1, 0},
		{"order.board", guide.Area, base, 2},
		{"order.former-any", guide.Count, 1, 0},
		{"order.former-level", guide.Count, 1, 0},
		// From the trap's face, 645 off wall B, through 215 of wall and 60 past it, at 1:40; a clip
		// every 600 for pipe of 50.
		{"order.pipe-plain", guide.Length, 920 * math.Sqrt(1+1.0/1600), 1},
		{"order.clips", guide.Count, 2, 0},
		// Upright ends of wall tile, 2200 at the back and, on a floor 16.34 higher, at the left; its
		// top; 1400 and 900 go on one length.
		{"order.trim-wall", guide.Length, 2200 + 2200 - 817.0/50 + 1400 + 900, 3},
		{"order.trim-step", guide.Length, 1400 + 900, 1},
		{"order.trim-door", guide.Length, 760, 1},
		{"order.pane", guide.Count, 1, 0},
		{"order.glass-profile", guide.Count, 1, 0},
		{"order.glass-at-wall", guide.Count, 1, 0},
		{"order.wall-seal", guide.Count, 1, 0},
	} {
		l := line(t, got, c.id)
		if l.Needed.Measure != c.measure || math.Abs(l.Needed.Value-c.needed) > 1e-6*c.needed || l.Packs != c.packs {
			t.Errorf("%s: %+v, %d packs; want %v, %d", c.id, l.Needed, l.Packs, c.needed, c.packs)
		}
	}
	if n := len(got.Lines); n != 27 { // those above, the drain and its cover
		for _, l := range got.Lines {
			t.Log(l.Item)
		}
		t.Errorf("%d lines", n)
	}
}

// Primer goes only where the substrate asks: not on a lining of boards, a mat or a former of boards,
// but on one of mortar; a layer of primer that the job states counts in the place of that.
func TestPrimerOnlyWhereItIsAskedFor(t *testing.T) {
	const perM2 = 0.15 * 1.05 / 1e6
	layer := job.Layer{ThicknessMM: 3}
	of := func(k job.CourseKind) []job.Course { return []job.Course{{Kind: k, Layer: layer}} }
	base, r := taken(t, func(*job.Job) {})
	before := line(t, base, "order.primer").Needed.Value
	const room = 2400.0*1900 - 1400*900
	for name, c := range map[string]struct {
		change func(*job.Job)
		less   float64 // mm²
	}{
		"lined walls":           {func(j *job.Job) { j.Layers.Wall.Under = of(job.CourseLining) }, math.NaN()},
		"a mat in the room":     {func(j *job.Job) { j.Layers.Room.Under = of(job.CourseDecoupling) }, room},
		"primer in the room":    {func(j *job.Job) { j.Layers.Room.Under = of(job.CoursePrimer) }, 0},
		"levelling in the room": {func(j *job.Job) { j.Layers.Room.Under = of(job.CourseLevelling) }, 0},
		"mortar":                {func(j *job.Job) { j.Former.Mortar = true }, -r.Layout.OpenFloor.Area()},
		"overlay under it":      {func(j *job.Job) { j.Base.Under = of(job.CourseOverlay) }, 1400*900 - 130*133 - 635*77},
	} {
		got, _ := taken(t, c.change)
		less := (before - line(t, got, "order.primer").Needed.Value) / perM2
		if want := c.less; math.IsNaN(want) {
			// All of the walls, a little more than they have with boards that stand out from them.
			if less < 4.9e6 || less > 5.2e6 {
				t.Errorf("%s: primer for %v less", name, less)
			}
		} else if math.Abs(less-want) > 1 {
			t.Errorf("%s: primer for %v less, want %v", name, less, want)
		}
	}
}

// Allowances of bonds, common practice without a source; hexagons as wide across their flats as the
// tile is long.
func TestTileAllowances(t *testing.T) {
	const area = 1387.0*887 - 800*70 + 2300*(108.0-13) + 1400*817.0/50 + 817.0*817/2/50 // with the open edges' faces
	for bond, c := range map[job.Bond]struct {
		item          message.ID
		share, module float64
	}{
		job.BondStack: {"order.tile-shower", 0.10, 203 * 203}, job.BondHalf: {"order.tile-shower", 0.10, 203 * 203},
		job.BondThird:       {"order.tile-shower", 0.10, 203 * 203},
		job.BondHerringbone: {"order.tile-shower", 0.15, 203 * 203},
		job.BondHexagon:     {"order.hexagons-shower", 0.15, 0.8660254037844386 * 203 * 203},
	} {
		got, _ := taken(t, func(j *job.Job) { j.Layers.Shower.Bond = bond })
		l := line(t, got, c.item)
		if math.Abs(l.Needed.Value-area*(1+c.share)) > 1 || l.Packs != int(math.Ceil(area*(1+c.share)/c.module))+spareTiles {
			t.Errorf("%s: %+v, %d tiles", bond, l.Needed, l.Packs)
		}
	}
	// Mosaic comes on sheets of its maker's, which are not counted.
	got, _ := taken(t, func(j *job.Job) { j.Layers.Shower.TileLengthMM, j.Layers.Shower.TileWidthMM = 50, 50 })
	if l := line(t, got, "order.tile-shower"); l.Packs != 0 {
		t.Errorf("%d pieces of mosaic are counted", l.Packs)
	}
}

// A turn of 90° on the way: both straights go 15.5 into the bend's sockets, which are 57 wide and
// leave each other 1 at its inner side: 45 − 57/2 − 1. In a run that falls 1:40 each piece is longer
// by the root of 1 + 1/1600.
func TestPipeGoesIntoSockets(t *testing.T) {
	got, r := taken(t, func(j *job.Job) {
		j.Room.Walls[0].OutsideGroundMM = j.Room.Walls[3].OutsideGroundMM
		j.Waste.Waypoints = []plan.Point{{300, 1832}}
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 0, OffsetMM: 300}
	})
	if n := len(r.Heights.Run.Pieces); n != 3 || len(r.Heights.Run.Trouble) > 0 {
		t.Fatalf("%d pieces, %v", n, r.Heights.Run.Trouble)
	}
	l := line(t, got, "order.pipe-plain")
	// From the trap's face to the bend's, 45 before its corner, and into it; on from there through 100
	// of wall and 60 past it.
	k := math.Sqrt(1 + 1.0/1600)
	want := []float64{(1832-45+100+60)*k + 15.5, (645-300-45)*k + 15.5}
	same := func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }
	if len(l.Cutting.Bars) != 1 || !slices.EqualFunc(l.Cutting.Bars[0].PiecesMM, want, same) {
		t.Errorf("cut are %v, want %v", l.Cutting.Bars, want)
	}
	if n := line(t, got, "order.bend-90").Needed.Value; n != 1 {
		t.Errorf("%v bends", n)
	}
}

// Sealant is reckoned by its true section: a gap of 12 is filled 6 deep, as half of it, one of 20 is 9
// deep, as the tile, not 10.
func TestSealantBySection(t *testing.T) {
	for gap, depth := range map[float64]float64{8: 6, 12: 6, 16: 8, 20: 9} {
		got, r := taken(t, func(j *job.Job) { j.Layers.Joints = &job.Joints{PerimeterMM: gap} })
		want := r.Sealing.SealantMM() * gap * depth / 1e6 * 1.05
		if l := line(t, got, "order.sealant"); math.Abs(l.Needed.Value-want) > 1e-9 {
			t.Errorf("a gap of %v: %v l, want %v", gap, l.Needed.Value, want)
		}
		if n := len(lines(got, "order.backing")); (n == 1) != (depth < 9) {
			t.Errorf("a gap of %v: %d lines of cord", gap, n)
		}
	}
}

// A kerb of 75 by 100 along both open edges, between the walls' finishes of 13: its sides are tiled
// and tanked, its length is as its area has it.
func TestKerb(t *testing.T) {
	without, _ := taken(t, func(*job.Job) {})
	got, r := taken(t, func(j *job.Job) { j.Shower.Kerb, j.Shower.Screens = &job.Kerb{HeightMM: 75, WidthMM: 100}, nil })
	long := r.Layout.Kerb.Area()/100 - 2*13
	l := line(t, got, "order.kerb")
	if math.Abs(l.Needed.Value-long) > 1 {
		t.Errorf("%v of kerb, want %v", l.Needed.Value, long)
	}
	more := line(t, got, "order.tile-shower").Needed.Value - line(t, without, "order.tile-shower").Needed.Value
	// Each side is between 75 high, where the floor is highest, and 92, where it is lowest.
	if more < 1.1*2*long*75 || more > 1.1*2*long*(75+17) {
		t.Errorf("%v more tile for a kerb of %v", more, long)
	}
	if got := line(t, got, "order.trim-step").Needed.Value; math.Abs(got-2300) > 1e-6 {
		t.Errorf("the outer edge of a kerb along 2300 has a trim of %v", got)
	}
}

// Water stops are as long as the doorway and the pane: 760, and the pane of 842, of which 13 at the
// wall are not in the way of its tile.
func TestWaterStops(t *testing.T) {
	got, _ := taken(t, func(j *job.Job) { j.Layers.Tanking = &job.Tanking{DoorStopMM: 5, ScreenStopMM: 5} })
	l := line(t, got, "order.stop-angle")
	pieces := slices.Concat(l.Cutting.Bars[0].PiecesMM)
	if len(pieces) != 2 || math.Abs(pieces[1]-760) > 1e-6 || pieces[0] < 842-13-1 || pieces[0] > 842+1 {
		t.Errorf("stops of %v", pieces)
	}
	if len(lines(got, "order.trim-door")) > 0 {
		t.Error("a doorway with a water stop has a trim as well")
	}
}

// A stop along a doorway of 760, 400 of it beside the shower and 360 beside the room's floor, is cut where they meet.
func TestWaterStopOverTwoFloors(t *testing.T) {
	got, _ := taken(t, func(j *job.Job) {
		j.Layers.Tanking = &job.Tanking{DoorStopMM: 5}
		j.Room.Doorways[0] = job.Doorway{Wall: 3, OffsetMM: 500, WidthMM: 760, HeightMM: 2040, NeighbourFFLMM: 20, Leaf: job.LeafNone}
	})
	pieces := slices.Sorted(slices.Values(slices.Concat(line(t, got, "order.stop-angle").Cutting.Bars[0].PiecesMM)))
	if len(pieces) != 2 || math.Abs(pieces[0]-360) > 1e-6 || math.Abs(pieces[1]-400) > 1e-6 {
		t.Errorf("stops of %v", pieces)
	}
}

// Let in between joists of 47 every 400 that run into the room: ledgers of 38 by 38 along the flanks
// under all of the shower's 900, less what is sawn out for trap and pipe, and noggins at thirds; a
// screw every 300 of ledger and one more, four to a noggin.
func TestTimberOfABaseLetIn(t *testing.T) {
	got, r := taken(t, func(j *job.Job) {
		j.Floor.Kind, j.Base.Support, j.Base.NogginSpacingMM, j.Floor.Joists.DirectionDeg = job.FloorTimber, job.BetweenJoists, 300, 90
	})
	sum, mm3 := 0.0, 0.0
	for _, l := range lines(got, "order.timber") {
		for _, b := range l.Cutting.Bars {
			for _, mm := range b.PiecesMM {
				sum += mm
			}
		}
	}
	noggins := 0
	for i := range r.Assembly.Parts {
		switch p := &r.Assembly.Parts[i]; {
		case p.ID == "battens":
			mm3 += p.Mesh().Volume() / (38 * 38)
		case len(p.ID) > 7 && p.ID[:7] == "noggin-":
			noggins++
			if deck := p.Bounds().High.Z()-p.Bounds().Low.Z() > 50; deck {
				mm3 += p.Mesh().Volume() / (47 * (p.Bounds().High.Z() - p.Bounds().Low.Z()))
			} else {
				mm3 += p.Mesh().Volume() / (38 * 38)
			}
		}
	}
	// Where the channel is cut askew into a ledger it is bought as long as its longer edge.
	if sum < mm3-1 || sum > 1.05*mm3 {
		t.Errorf("%v of timber, the bodies are %v long", sum, mm3)
	}
	screws := line(t, got, "order.timber-screws")
	if screws.Needed.Value < float64(4*noggins)+sum/300/2 || math.Mod(screws.Needed.Value, 1) != 0 {
		t.Errorf("%v screws for %d noggins and %v of timber", screws.Needed.Value, noggins, sum)
	}
	if len(lines(got, "order.hangers")) > 0 {
		t.Error("hangers where no joist is cut")
	}
}

// Boxing round the bare pipe and boards on walls are bought by their area with a tenth for cutting;
// those on a wall and on a deck are screwed, 250 apart on walls, 200 on a deck; on a slab overlay is
// bedded.
func TestBoardsOfCourses(t *testing.T) {
	course := func(k job.CourseKind, mm float64) []job.Course {
		return []job.Course{{Kind: k, Layer: job.Layer{ThicknessMM: mm}}}
	}
	const room = 2400.0*1900 - 1400*900
	for floor, screwed := range map[job.FloorKind]bool{job.FloorSlab: false, job.FloorTimber: true} {
		got, _ := taken(t, func(j *job.Job) { j.Floor.Kind, j.Layers.Room.Under = floor, course(job.CourseOverlay, 10) })
		if l := line(t, got, "order.overlay"); math.Abs(l.Needed.Value-room*1.1) > 1 || l.Packs != 4 {
			t.Errorf("%+v of overlay, %d sheets", l.Needed, l.Packs)
		}
		want := 0
		if screwed {
			want = int(math.Ceil(room / 200 / 200))
		}
		n := 0
		for _, l := range lines(got, "order.overlay-screws") {
			n += int(l.Needed.Value)
		}
		if n != want {
			t.Errorf("on a %s: %d screws, want %d", floor, n, want)
		}
	}
	got, _ := taken(t, func(j *job.Job) { j.Layers.Wall.Under = course(job.CourseLining, 12.5) })
	lining := line(t, got, "order.lining")
	if n, want := line(t, got, "order.lining-screws").Needed.Value, math.Ceil(lining.Needed.Value/1.1/250/250); n != want {
		t.Errorf("%v screws on walls, want %v", n, want)
	}
}

// The outlet of a drain of 800 that lies 300 to the right of its middle lies 100 from its end; one in the middle is another
// thing to buy.
func TestADrainIsOrderedWithItsOutlet(t *testing.T) {
	for at, want := range map[float64]message.ID{0: "order.drain-linear", 300: "order.drain-linear-right", -300: "order.drain-linear-left"} {
		got, _ := taken(t, func(j *job.Job) { j.Drain.TrapOffsetMM = at })
		l := line(t, got, want)
		if at != 0 && (!slices.Contains(l.Item.Args, message.MM("off", 300)) || !slices.Contains(l.Item.Args, message.MM("end", 100))) {
			t.Errorf("%v: %+v", at, l.Item)
		}
	}
}

// Pipe is primed before it is welded in the United States, cleaned in the United Kingdom: common practice, no source.
func TestWhatPipeIsWeldedWith(t *testing.T) {
	primedIn, cleanedIn := map[string]bool{}, map[string]bool{}
	for _, r := range demotest.Shown(t) {
		got, region := of(t, &r), r.Settled.Region
		primedIn[region] = primedIn[region] || len(lines(got, "order.weld-primer")) > 0
		cleanedIn[region] = cleanedIn[region] || len(lines(got, "order.cleaner")) > 0
	}
	for region, primed := range map[string]bool{"US": true, "UK": false} {
		if primedIn[region] != primed || cleanedIn[region] == primed {
			t.Errorf("%s: primer is ordered: %v, cleaner: %v", region, primedIn[region], cleanedIn[region])
		}
	}
}

// A box of 1000 along the middle of the floor: two sides and a lid, each screwed along both its edges, 250 apart with one at the
// end, makes three times two rows of five. Its tile: sides up to 107 over the structural floor, of which the room's 13 of finish lie
// beside them, and a lid of 114; the pipe is 57 across its sockets, with 16.5 beside it and 12 of board.
func TestABoxIsScrewedAndTiled(t *testing.T) {
	right := func(j *job.Job) {
		j.SpotLevels = nil
		j.Drain.OutletTurnDeg, j.Waste.Exit = 0, job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
	}
	plain, _ := taken(t, right)
	got, _ := taken(t, func(j *job.Job) { right(j); j.Waste.Boxing = &job.Boxing{BoardMM: 12, GapMM: 16.5} })
	if len(lines(plain, "order.lining-screws")) > 0 {
		t.Error("screws are on the list where no board is screwed")
	}
	if n := line(t, got, "order.lining-screws").Needed.Value; n != 30 {
		t.Errorf("%v screws for the box, want 30", n)
	}
	const more = 2*(107.0-13)*1000 + 114*1000 - 114*1000 // its tile less what it leaves out of the floor's
	if n := line(t, got, "order.tile-room").Needed.Value - line(t, plain, "order.tile-room").Needed.Value; math.Abs(n-1.1*more) > 1 {
		t.Errorf("%v more tile in the room with the box, want %v", n, 1.1*more)
	}
}

// Boards of a former that come 1200 by 1200: over a fall of 817 and a width of 1400 two pieces, 1200
// and 200 wide, from two boards. Of boards 700 wide two of 700, the saw between none of them. What
// lies level beside the drain is bought by itself.
func TestFormersByHand(t *testing.T) {
	for wide, boards := range map[float64]float64{1200: 2, 700: 2, 500: 3, 1400: 1} {
		got, _ := taken(t, func(j *job.Job) { j.Former.LongestMM, j.Former.WidestMM = 1200, wide })
		if n := line(t, got, "order.former").Needed.Value; n != boards {
			t.Errorf("%v wide: %v boards, want %v", wide, n, boards)
		}
	}
	// Of boards 600 long the second begins where the first ends, 12 higher.
	got, _ := taken(t, func(j *job.Job) { j.Former.LongestMM, j.Former.WidestMM = 600, 1400 })
	all := lines(got, "order.former")
	if len(all) != 2 || all[0].Needed.Value != 1 || all[1].Needed.Value != 1 ||
		!slices.Contains(all[1].Item.Args, message.Layer("thick", 32)) {
		t.Errorf("%v", all)
	}
}

// Joints of pipe: the demo below has a reducer and a bend in solvent-weld pipe; each takes two sockets
// of its sizes. 16 ml of cement each up to 50 mm, 24 up to 80; half of that of primer, which goes first there. Common
// practice, no source.
func TestCementBySize(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		if r.Settled.Parts.Pipe == nil || r.Settled.Parts.Pipe.ID != "pvc-dwv" || len(r.Heights.Run.Pieces) != 4 {
			continue
		}
		got := of(t, &r)
		// At 50: the trap's socket and the reducer's; at 65: the reducer's and the bend's two.
		if l := line(t, got, "order.cement"); math.Abs(l.Needed.Value-(2*0.016+3*0.024)) > 1e-9 || l.Packs != 1 {
			t.Errorf("%+v of cement", l.Needed)
		}
		if l := line(t, got, "order.weld-primer"); math.Abs(l.Needed.Value-(2*0.008+3*0.012)) > 1e-9 {
			t.Errorf("%+v of primer", l.Needed)
		}
		return
	}
	t.Error("no demo has such a run")
}

// Pipe longer than it is sold is joined by a coupling.
func TestCouplings(t *testing.T) {
	got, _ := taken(t, func(j *job.Job) {
		j.Room.Walls[3].ThicknessMM, j.Waste.Beyond = 300, &job.Beyond{LengthMM: 2600, Joins: job.JoinGully}
	})
	l := line(t, got, "order.pipe-plain")
	long := (645.0 + 300 + 2600) * math.Sqrt(1+1.0/1600)
	if math.Abs(l.Needed.Value-long) > 1e-6 || l.Packs != 2 {
		t.Errorf("%v of pipe in %d lengths, want %v", l.Needed.Value, l.Packs, long)
	}
	if n := line(t, got, "order.coupling").Needed.Value; n != 1 {
		t.Errorf("%v couplings", n)
	}
}

// A floor that falls 1 in 200 away from wall B: the bed under the base is 3 thick there and 10 at the
// other end of the shower, a wedge whose volume is that of its middle: (3 + x/200) over 1400 by 900
// with its middle at 700, less the trap's 130·133 about 700 and the pipe's 635·77 about 317.5.
func TestAWedgeOfBed(t *testing.T) {
	level, even := taken(t, func(*job.Job) {})
	got, sloping := taken(t, func(j *job.Job) {
		for _, p := range []plan.Point{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}} {
			j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: p, LevelMM: -p.X() / 200, ToleranceMM: 1})
		}
	})
	more := (1400.0*900*700 - 130*133*700 - 635*77*317.5) / 200
	kg := line(t, got, "order.adhesive").Needed.Value - line(t, level, "order.adhesive").Needed.Value
	evenFaces, _ := even.Heights.FacesMM2(&even.Settled, &even.Layout)
	slopingFaces, _ := sloping.Heights.FacesMM2(&sloping.Settled, &sloping.Layout)
	more += (slopingFaces - evenFaces) * 3 // the bed of the tile on the open edges' faces
	if want := more / 1e6 * 1.4 * 1.05; math.Abs(kg-want) > 1e-4*want {
		t.Errorf("%v kg more for the wedge, want %v", kg, want)
	}
	told := slices.ContainsFunc(line(t, got, "order.adhesive").How, func(m message.Message) bool {
		return m.ID == "order.how.wedge" &&
			slices.Contains(m.Args, message.Layer("least", 3)) && slices.Contains(m.Args, message.Layer("greatest", 10))
	})
	if !told {
		t.Errorf("%v", line(t, got, "order.adhesive").How)
	}
}

// A vent on the run is a branch and an upright pipe, as long as its body, clipped every 1.2 m; one on
// the stack that the run joins is that stack.
func TestVent(t *testing.T) {
	got, r := taken(t, func(j *job.Job) { j.Waste.Vent = &job.Vent{AtMM: 800, NominalMM: 32} })
	found := false
	for _, l := range lines(got, "order.pipe-plain") {
		if !slices.Contains(l.Bodies, "vent") {
			continue
		}
		found = true
		for i := range r.Assembly.Parts {
			if p := &r.Assembly.Parts[i]; p.ID == "vent" {
				// The tube is drawn with a bore of nine tenths.
				ring := math.Pi / 4 * 32 * 32 * (1 - 0.81)
				if long := p.Mesh().Volume() / ring; math.Abs(l.Needed.Value-long) > 0.02*long {
					t.Errorf("%v of vent, its body is %v long", l.Needed.Value, long)
				}
			}
		}
	}
	if n := len(lines(got, "order.vent-branch")); n != 1 || !found {
		t.Errorf("%d branches, the vent is there: %v", n, found)
	}
	clips := 0.0
	for _, l := range lines(got, "order.clips") {
		clips += l.Needed.Value
	}
	if clips != 2+1 && clips != 2+2 {
		t.Errorf("%v clips", clips)
	}
}

// A bend turns the run down outside into a gully: from the bend's face to where it ends, and 20 into
// its socket.
func TestWayDownOutside(t *testing.T) {
	down := -400.0
	got, r := taken(t, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{LengthMM: 150, Joins: job.JoinGully, DownToMM: &down} })
	run := &r.Heights.Run
	bends := line(t, got, "order.bend-90")
	l := line(t, got, "order.pipe-plain")
	// 45 is from the bend's corner to both its faces; the pipe's middle lies 23 over its invert.
	want := run.InvertAt(run.LengthMM-45) + 23 - 45 - down + 20
	last := l.Cutting.Bars[0].PiecesMM
	if bends.Needed.Value != 1 || len(last) != 2 || math.Abs(last[1]-want) > 1e-6 && math.Abs(last[0]-want) > 1e-6 {
		t.Errorf("%v, want one of %v", l.Cutting.Bars, want)
	}
}

// A window in the tanked wall has four corner pieces, tape round it and its reveals.
func TestWindowInTheTanking(t *testing.T) {
	before, _ := taken(t, func(*job.Job) {})
	got, r := taken(t, func(j *job.Job) {
		j.Room.Windows = []job.Window{{Wall: 2, OffsetMM: 1500, WidthMM: 600, SillMM: 1200, HeightMM: 600}}
	})
	if len(r.Sealing.Windows) != 1 {
		t.Fatal("the window is not in the tanking")
	}
	more := line(t, got, "order.corner-outside").Needed.Value - line(t, before, "order.corner-outside").Needed.Value
	if more != 4 {
		t.Errorf("%v more corners", more)
	}
	if tape := line(t, got, "order.tape").Needed.Value - line(t, before, "order.tape").Needed.Value; tape < 4*600 {
		t.Errorf("%v more tape round a window of 600 by 600", tape)
	}
}

// What trims an opening in joists is bought as long as it is, with its hangers.
func TestTimberThatTrims(t *testing.T) {
	got, r := taken(t, func(j *job.Job) {
		j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, 90
		j.Floor.Joists.Trims = []job.Trim{job.UsualTrim(j)}
	})
	cut := r.Cutting()
	want := 0.0
	for _, x := range slices.Concat(cut.Trimmers, cut.Seconds) {
		want += x.LengthMM
	}
	if l := line(t, got, "order.timber"); want == 0 || math.Abs(l.Needed.Value-want) > 1e-6 {
		t.Errorf("%v of timber, want %v", l.Needed.Value, want)
	}
	// Two trimmers hang at both ends, the two pieces of the joist at one each.
	if n := line(t, got, "order.hangers").Needed.Value; n != 6 {
		t.Errorf("%v hangers, want 6", n)
	}
}

// Boards far too small to be laid out are bought by their area, a tenth more for cutting.
func TestBoardsThatAreNotLaidOut(t *testing.T) {
	got, r := taken(t, func(j *job.Job) { j.Base.BoardLengthMM, j.Base.BoardWidthMM = 100, 10 })
	l := line(t, got, "order.board-loose")
	thick := r.Heights.BaseTopMM - r.Heights.BaseUnderMM
	want := 0.0
	for i := range r.Assembly.Parts {
		if p := &r.Assembly.Parts[i]; p.ID == "base" {
			want = p.Mesh().Volume() / thick * 1.1
		}
	}
	if want == 0 || math.Abs(l.Needed.Value-want) > 1e-6*want || l.Packs != 0 {
		t.Errorf("%+v, %d packs; want %v", l.Needed, l.Packs, want)
	}
}

// A board at hand that is a little thinner is packed up; where none is near it is said.
func TestBoardsAtHand(t *testing.T) {
	for name, c := range map[string]struct {
		boards []float64
		how    message.ID
		thick  float64
	}{
		"own":     {[]float64{20, 69}, "", 69},
		"thinner": {[]float64{20, 64}, "order.how.packed-up", 64},
		"none":    {[]float64{20}, "order.how.not-at-hand", 69},
	} {
		got, r := taken(t, func(j *job.Job) { j.Base.Height, j.Base.HeightMM, j.Base.BoardsMM = job.HeightChosen, 69, c.boards })
		if len(r.Heights.Stack.BoardsMM()) > 1 {
			t.Fatalf("%s: a stack of %v", name, r.Heights.Stack.BoardsMM())
		}
		l := line(t, got, "order.board")
		told := slices.ContainsFunc(l.How, func(m message.Message) bool { return m.ID == c.how })
		if !slices.Contains(l.Item.Args, message.Layer("thick", c.thick)) || c.how != "" && !told {
			t.Errorf("%s: %s, %v", name, l.Item, l.How)
		}
	}
}

// Grout of one colour is bought together, another by itself, each called by its colour.
func TestGroutByColour(t *testing.T) {
	one, _ := taken(t, func(*job.Job) {})
	got, _ := taken(t, func(j *job.Job) { j.Layers.Wall.GroutColour = "#3b3a3a" })
	dark, grey := line(t, got, "order.grout-coloured"), line(t, got, "order.grout")
	if dark.Item.Args[0].Value.String() != "colour.dark-grey" {
		t.Errorf("%s", dark.Item)
	}
	if sum, all := dark.Needed.Value+grey.Needed.Value, line(t, one, "order.grout").Needed.Value; math.Abs(sum-all) > 1e-9 {
		t.Errorf("%v of both, %v of one", sum, all)
	}
}

// A stack outside has a boss for the run, whose pipe goes 20 into it: through 100 of wall and 150 on to where it joins.
func TestStackOutsideHasABoss(t *testing.T) {
	got, r := taken(t, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{LengthMM: 150, Joins: job.JoinStack} })
	plain, _ := taken(t, func(j *job.Job) { j.Waste.Beyond = &job.Beyond{LengthMM: 150, Joins: job.JoinGully} })
	if n := line(t, got, "order.branch-outside").Needed.Value; n != 1 || len(lines(plain, "order.branch-outside")) > 0 {
		t.Errorf("%v bosses, %v at a gully", n, lines(plain, "order.branch-outside"))
	}
	long, gully := line(t, got, "order.pipe-plain").Needed.Value, line(t, plain, "order.pipe-plain").Needed.Value
	if in := r.Settled.Waste.InsertionMM; math.Abs(long-gully-in) > 1e-6 || in != 20 {
		t.Errorf("pipe %v, and %v into a gully; want %v more", long, gully, in)
	}
}

// A trap with a ring takes lubricant as every other socket does: of the heated floor's straight run the trap's, and the boss's outside.
func TestTheTrapsRingIsLubricated(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		if r.Settled.Parts.Drain == nil || r.Settled.Parts.Drain.ID != "linear-low-push-fit" {
			continue
		}
		l := line(t, of(t, &r), "order.lubricant")
		if len(l.How) != 1 || l.How[0].Args[0].Value != message.Count(2) {
			t.Errorf("%v", l.How)
		}
		return
	}
	t.Error("no demo has such a trap")
}

// A straight that is left between the trap and a reducer without a socket is there however short it is, and is on the list.
func TestTheLeastStraightIsListed(t *testing.T) {
	got, r := taken(t, func(j *job.Job) {
		j.Waste.InsertionMM = 0
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingReducer, AtMM: 0.006, LengthMM: 60,
			Pipe: part.Pipe{NominalMM: 75, OutsideDiameterMM: 75, BoreMM: 70, SocketOutsideMM: 82}}}
	})
	if p := r.Heights.Run.Pieces[0]; p.Kind != waste.Straight || p.LengthMM() > 0.0061 {
		t.Fatalf("the run begins with %s of %v", p.Kind, p.LengthMM())
	}
	for _, l := range got.Lines {
		if slices.Contains(l.Bodies, "run-straight-1") {
			return
		}
	}
	t.Error("it is on no line")
}

// The hole in the wall, as wide as the next core drill makes it, has one thing that closes it.
func TestTheHoleIsClosed(t *testing.T) {
	got, r := taken(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 3} })
	core, ok := r.Heights.Core(&r.Settled, &r.Layout)
	if !ok {
		t.Fatal("there is no hole")
	}
	seal := line(t, got, "order.wall-seal")
	if hole := r.Pack.CoreDrills.For(core.LeastMM); !strings.Contains(seal.Item.String(), fmt.Sprint(hole)) || seal.Needed.Value != 1 {
		t.Errorf("%s for a hole of %v", seal.Item, hole)
	}
}

// A piece of pipe is told by its place, with what is seen of it and what it is sawn to: as much more as goes into sockets.
func TestPiecesOfPipeAreTold(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		for _, l := range lines(of(t, &r), "order.pipe") {
			if len(l.Pieces) == 0 {
				t.Errorf("%s: %s has no pieces", r.Settled.Name, l.Item)
			}
			said := ""
			for _, how := range l.How {
				said += how.String()
			}
			for _, p := range l.Pieces {
				if p.What.IsZero() || p.MM < p.SeenMM || !strings.Contains(said, p.What.String()) {
					t.Errorf("%s: %+v is not told in %s", r.Settled.Name, p, said)
				}
			}
		}
	}
}

// Pieces that would go into fewer lengths if they were joined are told so: more lengths are bought than their sum asks for.
func TestMoreLengthsThanTheirSumAreTold(t *testing.T) {
	told := 0
	for _, r := range demotest.Shown(t) {
		got := of(t, &r)
		for i := range got.Lines {
			l := &got.Lines[i]
			if len(l.Cutting.Bars) == 0 {
				continue
			}
			more := float64(l.Packs-1)*l.Cutting.StockMM >= l.Needed.Value
			says := slices.ContainsFunc(l.How, func(m message.Message) bool { return m.ID == "order.how.not-joined" })
			if more != says {
				t.Errorf("%s: %s, %v needed in %d of %v: told %v", r.Settled.Name, l.Item, l.Needed.Value, l.Packs, l.Cutting.StockMM, says)
			}
			if says {
				told++
			}
		}
	}
	if told == 0 {
		t.Error("no demo takes more lengths than its sum")
	}
}

// A pipe that goes down outside into a drain in the ground is counted down to that ground: 1 m deeper it is 1 m longer.
func TestTheWayDownReachesTheGround(t *testing.T) {
	needed := func(groundMM float64) float64 {
		got, _ := taken(t, func(j *job.Job) {
			j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 3}
			j.Room.Walls[3].OutsideGroundMM = &groundMM
			j.Waste.Beyond = &job.Beyond{LengthMM: 150, Joins: job.JoinDrain}
		})
		return line(t, got, "order.pipe-plain").Needed.Value
	}
	if a, b := needed(-1600), needed(-2600); math.Abs(b-a-1000) > 0.1 {
		t.Errorf("%v with the ground at -1600, %v at -2600", a, b)
	}
}

// Glass is held as pictures show it: a pane by its foot and at the wall that it meets, with none where it stands free; a door on hinges,
// with a strip at its foot; a sliding one in a track. Common practice, no source.
func TestGlassIsHeld(t *testing.T) {
	pane := job.New().Shower.Screens[0]
	free := pane
	free.OffsetMM, free.WidthMM = 200, 500 // of a side that begins at the back wall
	for name, c := range map[string]struct {
		screen job.Screen
		want   map[message.ID]float64
	}{
		"a pane":        {pane, map[message.ID]float64{"order.pane": 1, "order.glass-profile": 1, "order.glass-at-wall": 1}},
		"a free pane":   {free, map[message.ID]float64{"order.pane": 1, "order.glass-profile": 1}},
		"a door":        {ofKind(pane, job.ScreenDoor), map[message.ID]float64{"order.door": 1, "order.glass-hinges": 1, "order.glass-sill": 1}},
		"a panel":       {ofKind(pane, job.ScreenPanel), map[message.ID]float64{"order.panel": 1, "order.glass-hinges": 1, "order.glass-sill": 1}},
		"a sliding one": {ofKind(pane, job.ScreenSlide), map[message.ID]float64{"order.slide": 1, "order.glass-track": 1}},
	} {
		got, _ := taken(t, func(j *job.Job) { j.Shower.Screens = []job.Screen{c.screen} })
		of := map[message.ID]float64{}
		for _, l := range got.Lines {
			if l.Group == takeoff.Glass {
				of[l.Item.ID] = l.Needed.Value
			}
		}
		if !maps.Equal(of, c.want) {
			t.Errorf("%s: %v, want %v", name, of, c.want)
		}
	}
}

// ofKind is a screen of another kind.
func ofKind(s job.Screen, kind job.ScreenKind) job.Screen {
	s.Kind = kind
	return s
}
