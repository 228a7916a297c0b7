package measure_test

import (
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// boxedIn boxes the run in with so much room round its sockets, which are 57 across: with 12
// of board, the box is 40.5 and that room to each side of the pipe's middle.
func boxedIn(j *job.Job, gapMM float64) { j.Waste.Boxing = &job.Boxing{BoardMM: 12, GapMM: gapMM} }

// What of the run lies bare in the room is boxed in, and no longer bare: the runs are those
// of TestCoverByHand. A run within the shower, or under a raised floor, has nothing to box in.
func TestBoxedByHand(t *testing.T) {
	right := func(j *job.Job) {
		boxedIn(j, 16.5)
		j.Drain.OutletTurnDeg = 0
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
	}
	at := func(alongMM, crownMM float64) mgl64.Vec3 { return mgl64.Vec3{755 + alongMM, 1832, crownMM - 25} }
	none := []want{{"pipe.boxed", "waste-run", 0, nowhere}, {"pipe.exposed", "waste-run", 0, nowhere}, {"boxing.in-sweep", "doorway 1", not, nowhere}}
	holdChanges(t, job.New(), []change{
		{"no box", func(j *job.Job) { right(j); j.Waste.Boxing = nil }, []want{
			{"pipe.boxed", "waste-run", not, nowhere},
			{"pipe.exposed", "waste-run", 1000, nowhere},
		}},
		{"to the wall", right, []want{{"pipe.boxed", "waste-run", 1000, at(1145, 62.5)}, {"pipe.exposed", "waste-run", 0, nowhere}}},
		// Down to where the crown meets the floor, half way.
		{"half bare", func(j *job.Job) { right(j); chosen(j, 29.625) }, []want{
			{"pipe.boxed", "waste-run", 500, at(895, 6.25)},
			{"pipe.exposed", "waste-run", 0, nowhere},
		}},
		{"in the floor", func(j *job.Job) { right(j); chosen(j, 17) }, none},
		{"within the shower", func(j *job.Job) { boxedIn(j, 16.5) }, none},
		{"in a raised room", func(j *job.Job) { right(j); chosen(j, 100); j.Room.Edge = job.EdgeRaiseRoom }, none},
		// Out of the ramp's mortar, 43.125/(0.14234 − 0.025) past the edge.
		{"under a ramp", func(j *job.Job) {
			right(j)
			chosen(j, 100)
			j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 1000, nil
		}, []want{
			{"pipe.boxed", "waste-run", 1000 - 43.125/(0.14234-0.025), nowhere}, {"pipe.exposed", "waste-run", 0, nowhere}}},
		// Down through the floor 500 past the shower's front: as far as the bend that turns it
		// down, which is 45 from centre to face.
		{"through the floor", func(j *job.Job) {
			boxedIn(j, 16.5)
			j.Drain.OutletTurnDeg, j.Waste.Exit = 270, job.Exit{Kind: job.ExitFloor, At: plan.Point{700, 500}}
		}, []want{{"pipe.boxed", "waste-run", 500 - 45, nowhere}, {"pipe.exposed", "waste-run", 0, nowhere}}},
	})
}

// A box in the way: the pipe goes along x to a turn and on towards the doorway, which is 1500
// to 2260 along the front wall, y = 0, as far as y = 300. It is the box that counts.
func TestBoxInTheWayByHand(t *testing.T) {
	toDoor := func(x, gapMM float64) func(*job.Job) {
		return func(j *job.Job) {
			boxedIn(j, gapMM)
			j.Drain.OutletTurnDeg = 0
			toPipe(j, plan.Point{x, 1832}, plan.Point{x, 300})
			j.Room.Doorways[0].Leaf, j.Room.Doorways[0].HingeAtStart = job.LeafIn, true
		}
	}
	across := func(j *job.Job) {
		boxedIn(j, 16.5)
		j.Drain.OutletTurnDeg = 270
		j.Waste.Waypoints, j.Waste.Exit = []plan.Point{{700, 400}}, job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 400}
	}
	// The leaf sweeps a quarter of 760 about (1500, 0): of what lies within x = 1507 and beyond
	// y = 300 the half of the chord to it, √(760² − x²) − 300 high at x from the hinge.
	under := func(x float64) float64 { return (x*math.Sqrt(760*760-x*x)+760*760*math.Asin(x/760))/2 - 300*x }
	holdChanges(t, job.New(), []change{
		{"short of it", toDoor(1440, 16.5), []want{{"doorway.passage", "doorway 1", 760, nowhere},
			{"boxing.before-doorway", "doorway 1", 0, nowhere}, {"boxing.in-sweep", "doorway 1", 0, nowhere}}},
		// To 1450 + 28.5 + 16.5 + 12. A cupboard on the right wall, 200 deep, takes 60 more.
		{"before it", toDoor(1450, 16.5), []want{{"doorway.passage", "doorway 1", 753, nowhere},
			{"boxing.before-doorway", "doorway 1", 7, mgl64.Vec3{1880, 0, 20}}}},
		{"a closer box", toDoor(1450, 9.5), []want{
			{"boxing.before-doorway", "doorway 1", 0, nowhere},
			{"boxing.in-sweep", "doorway 1", 0, nowhere},
		}},
		{"between it and a fixture", func(j *job.Job) {
			toDoor(1450, 16.5)(j)
			j.Room.Fixtures = cupboard(0)
			j.Room.Fixtures[0].Wall, j.Room.Fixtures[0].OffsetMM, j.Room.Fixtures[0].DepthMM = 1, 0, 200
		}, []want{{"doorway.passage", "doorway 1", 693, nowhere}}},
		{"all across", across, []want{{"doorway.passage", "doorway 1", 0, nowhere},
			{"boxing.before-doorway", "doorway 1", 760, nowhere}, {"boxing.in-sweep", "doorway 1", 0, nowhere}}},
		// The leaf's underside 8 over the floor beyond: at 300 it goes clear over the box.
		{"under the leaf", func(j *job.Job) { toDoor(1450, 16.5)(j); j.Room.Doorways[0].NeighbourFFLMM = 300 }, []want{
			{"boxing.in-sweep", "doorway 1", 0, nowhere},
		}},
		// A cupboard from 1000 to 1400 along the front wall and 700 deep: the box takes 7 of it
		// from y = 300 on, unless it hangs over that.
		{"in a fixture", func(j *job.Job) { toDoor(1450, 16.5)(j); j.Room.Fixtures = cupboard(0) }, []want{
			{"boxing.in-fixture", "fixture 1", 7 * 400, nowhere},
		}},
		{"beside it", func(j *job.Job) { toDoor(1450, 9.5)(j); j.Room.Fixtures = cupboard(0) }, []want{
			{"boxing.in-fixture", "fixture 1", 0, nowhere},
		}},
		{"under it", func(j *job.Job) { toDoor(1450, 16.5)(j); j.Room.Fixtures = cupboard(200) }, []want{
			{"boxing.in-fixture", "fixture 1", 0, nowhere},
		}},
	})
	j := job.New()
	toDoor(1450, 16.5)(&j)
	const chordMM2 = 2 // which the quarter's corners leave
	for _, m := range all(t, j) {
		if m.Quantity == "boxing.in-sweep" && math.Abs(m.Value-under(7)) > chordMM2 {
			t.Errorf("%v mm² in the sweep, want %v", m.Value, under(7))
		}
	}
}

// A leaf that slides aside keeps what its edge takes of the opening of 760, or the 620 that the
// wall is too short beside it; with a box that takes 7 at the other side, both. A strip of 60 along the
// wall has to be free: a cupboard of 400 at it stands in 60 of that. Into a wall there is none.
func TestSlidingLeafByHand(t *testing.T) {
	slides := func(leaf job.LeafSwing, toStart bool, keeps float64) func(*job.Job) {
		return func(j *job.Job) {
			d := &j.Room.Doorways[0]
			d.Leaf, d.HingeAtStart, d.LeafKeepsMM = leaf, toStart, keeps
		}
	}
	withBox := func(j *job.Job) {
		slides(job.LeafPocket, false, 40)(j)
		j.Room.Doorways[0].OffsetMM, j.Room.Doorways[0].WidthMM = 1500, 450 // the pocket as long, to 2400
		boxedIn(j, 16.5)
		j.Drain.OutletTurnDeg = 0
		toPipe(j, plan.Point{1450, 1832}, plan.Point{1450, 300})
	}
	holdChanges(t, job.New(), []change{
		{"hinged", func(*job.Job) {},
			[]want{{"doorway.passage", "doorway 1", 760, nowhere}, {"doorway.slide-short", "doorway 1", not, nowhere}}},
		{"whole", slides(job.LeafSlide, true, 0),
			[]want{{"doorway.passage", "doorway 1", 760, nowhere}, {"doorway.slide-short", "doorway 1", 0, nowhere}}},
		{"its edge", slides(job.LeafPocket, true, 40), []want{{"doorway.passage", "doorway 1", 720, nowhere}}},
		{"a short wall", slides(job.LeafPocket, false, 40),
			[]want{{"doorway.passage", "doorway 1", 140, nowhere}, {"doorway.slide-short", "doorway 1", 620, nowhere}}},
		{"beside a box", withBox, []want{{"doorway.passage", "doorway 1", 450 - 7 - 40, nowhere}}},
		{"by a cupboard", func(j *job.Job) { slides(job.LeafSlide, true, 0)(j); j.Room.Fixtures = cupboard(0) },
			[]want{{"fixture.in-sweep", "fixture 1", 400 * 60, nowhere}}},
		{"into a wall by a cupboard", func(j *job.Job) { slides(job.LeafPocket, true, 0)(j); j.Room.Fixtures = cupboard(0) },
			[]want{{"fixture.in-sweep", "fixture 1", 0, nowhere}}},
		// Along a floor raised to 124.34 its underside at 28 does not clear.
		{"over a raised floor", func(j *job.Job) { slides(job.LeafSlide, true, 0)(j); j.Room.Edge = job.EdgeRaiseRoom },
			[]want{{"door.leaf-gap", "doorway 1", 28 - 124.34, nowhere}}},
	})
}

// The hole for the waste, 100 along the left wall, lies clear of a doorway from 700 on, but in the
// pocket of its leaf that slides 600 that way.
func TestHoleInAPocket(t *testing.T) {
	for leaf, want := range map[job.LeafSwing]bool{job.LeafOut: false, job.LeafSlide: false, job.LeafPocket: true} {
		r := evaluated(t, func(j *job.Job) {
			j.Room.Doorways = append(j.Room.Doorways, job.Doorway{Wall: 3, OffsetMM: 700, WidthMM: 600, HeightMM: 2000, Leaf: leaf, HingeAtStart: true})
			j.Waste.Exit.OffsetMM = 100
		})
		found := slices.ContainsFunc(r.Findings, func(f rule.Finding) bool { return f.Rule.ID == "core-opening" })
		if found != want {
			t.Errorf("%s: a hole in the opening: %v", leaf, found)
		}
	}
}

// The leaf of a screen's door at the shower's right side meets a box that comes up to it. The
// pipe climbs 1:20 from the shower, its crown 75 there, so that the box out to the right wall
// has its lid 12 over 75 + 50 + 3.5 + 16.5: at 157. Hung at the back the leaf of 880 passes over all
// of the box within a quarter of a disc, from 10 of the shower's back on; hung 100 over the
// floor, which is at 108 and more, it clears the box.
func TestScreenDoorMeetsABox(t *testing.T) {
	for name, c := range map[string]struct {
		gapMM float64
		meets bool
	}{"close to the floor": {10, true}, "high over it": {100, false}} {
		j := job.New()
		boxedIn(&j, 16.5)
		j.Drain.OutletTurnDeg, j.Waste.Gradient = 0, -0.05
		j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
		j.Shower.Screens = []job.Screen{{Kind: job.ScreenDoor, Side: job.SideRight,
			OffsetMM: 10, WidthMM: 880, HeightMM: 1900, ThicknessMM: 8, GapMM: c.gapMM}}
		// From the hinge at y = 1890 the box lies 1 to 115 deep.
		half := func(y float64) float64 { return (y*math.Sqrt(880*880-y*y) + 880*880*math.Asin(y/880)) / 2 }
		want := 0.0
		if c.meets {
			want = half(115) - half(1)
		}
		const chordMM2 = 120 // which the quarter's corners leave
		for _, m := range all(t, j) {
			if m.Quantity == "screen.sweep-blocked" && math.Abs(m.Value-want) > chordMM2 {
				t.Errorf("%s: %v mm² blocked, want %v", name, m.Value, want)
			}
		}
	}
}

func cupboard(underMM float64) []job.Fixture {
	return []job.Fixture{{Kind: job.FixtureCupboard, Wall: 0, OffsetMM: 1000, WidthMM: 400, DepthMM: 700, HeightMM: 400, UnderMM: underMM}}
}

// What is boxed in is what lay bare without the box, whichever way the run goes, and none of
// it is left bare: but for bare bits and gaps shorter than a millimetre.
func TestAllThatIsBareIsBoxedIn(t *testing.T) {
	const looseMM = 3
	packs := demotest.Packs(t)
	value := func(t *rapid.T, j job.Job, quantity string) float64 {
		var sh plan.Shaper
		l := stage.Place(j, packs["UK"], &sh).Level()
		if sh.Err() != nil {
			t.Fatal(sh.Err())
		}
		var m measure.Measurer
		m.Begin(l)
		for _, m := range m.Levels() {
			if m.Quantity == quantity {
				return m.Value
			}
		}
		return 0
	}
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		within := func(label string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, label) }
		j.Drain.OutletTurnDeg = rapid.SampledFrom([]float64{0, 180, 270}).Draw(t, "outlet")
		at := plan.Point{within("x", 50, 2350), within("y", 50, 1850)}
		j.Waste.Exit = job.Exit{Kind: rapid.SampledFrom([]job.ExitKind{job.ExitPipe, job.ExitFloor}).Draw(t, "exit"), At: at}
		j.Waste.Gradient = within("fall", -0.01, 0.08)
		j.SpotLevels = []job.SpotLevel{{At: plan.Point{0, 0}}, {At: plan.Point{2000, 0}, LevelMM: within("rise", -15, 15)}, {At: plan.Point{0, 1500}, LevelMM: within("back", -15, 15)}}
		if rapid.Bool().Draw(t, "ramp") {
			j.Room.Edge, j.Room.RampRunMM = job.EdgeRamp, within("run", 300, 1500)
		}
		chosen(&j, within("height", 0, 120))
		if p := j.Validate(); len(p) > 0 {
			t.Skip(p)
		}
		bare := value(t, j, "pipe.exposed")
		boxedIn(&j, within("room", 1, 60))
		boxed, left := value(t, j, "pipe.boxed"), value(t, j, "pipe.exposed")
		if math.Abs(boxed-bare) > looseMM || left > looseMM {
			t.Fatalf("%v bare without a box; %v boxed in and %v bare with one", bare, boxed, left)
		}
	})
}

// The box over a pipe with sockets 57 across that runs across the room along y = 1832, 68 before the wall at y = 1900, is told with
// that: so far from that wall, as wide as the socket with the room and the board at both sides, and so high over the finished floor.
func TestABoxIsToldAsItIsSeen(t *testing.T) {
	const board, room = 12.0, 20.0
	j := on(job.New(), func(j *job.Job) {
		j.Drain.OutletTurnDeg, j.Waste.Boxing = 0, &job.Boxing{BoardMM: board, GapMM: room}
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{2000, 1832}}
	})
	for quantity, wide := range map[string]float64{"pipe.boxed": 57 + 2*(board+room), "pipe.exposed": j.Waste.OutsideDiameterMM} {
		if quantity == "pipe.exposed" {
			j.Waste.Boxing = nil
		} else {
			boxedIn(&j, room)
		}
		ms := all(t, j)
		m := ms[slices.IndexFunc(ms, func(m rule.Measurement) bool { return m.Quantity == quantity })]
		if m.Lies == (rule.Lies{}) {
			t.Fatalf("%s: nothing is told of how it lies", quantity)
		}
		if l := m.Lies; math.Abs(l.WideMM-wide) > 1e-6 || math.Abs(l.FromWallMM-68) > 1e-6 || l.HighMM < 20 || l.HighMM > 200 {
			t.Errorf("%s: %+v, want %v wide, 68 from the wall", quantity, l, wide)
		}
	}
}
