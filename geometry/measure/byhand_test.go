package measure_test

import (
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// want is a measurement worked out by hand: of what, how much and where. One that
// is not a number is not measured; a place that is left out may be anywhere.
type want struct {
	quantity, subject string
	value             float64
	at                mgl64.Vec3
}

// not is the value of what is not measured.
var not = math.NaN()

// levelled is a job with its levels, under the rules of its region.
func levelled(t testing.TB, j job.Job) stage.Levelled {
	t.Helper()
	return levelledUnder(t, j, demotest.Packs(t)[j.Region])
}

func levelledUnder(t testing.TB, j job.Job, pack rule.Pack) stage.Levelled {
	t.Helper()
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	var sh plan.Shaper
	l := stage.Place(j, pack, &sh).Level()
	if err := sh.Err(); err != nil {
		t.Fatal(err)
	}
	return l
}

// all are all measurements of a job.
func all(t testing.TB, j job.Job) []rule.Measurement {
	t.Helper()
	return allOf(levelled(t, j))
}

func allOf(l stage.Levelled) []rule.Measurement {
	return measure.All(l, l.BuildUp(), l.Crossings(), measure.WaterOf(l), measure.SealingOf(l))
}

// closeMM is how near a value or a place worked out by hand must be met, beside
// what float64 loses.
const closeMM = 1e-6

// meets holds measurements against those worked out by hand.
func meets(t *testing.T, name string, got []rule.Measurement, wants ...want) {
	t.Helper()
	for _, w := range wants {
		found := 0
		for _, m := range got {
			if m.Quantity != w.quantity || m.Subject.String() != w.subject {
				continue
			}
			found++
			if !math.IsNaN(w.value) && m.Value != w.value && !(math.Abs(m.Value-w.value) <= closeMM*max(1, math.Abs(w.value))) {
				t.Errorf("%s: %s of %s is %v, by hand %v", name, w.quantity, w.subject, m.Value, w.value)
			}
			if w.at != (mgl64.Vec3{}) && !(m.At.Sub(w.at).Len() <= closeMM) {
				t.Errorf("%s: %s of %s is measured at %v, by hand at %v", name, w.quantity, w.subject, m.At, w.at)
			}
		}
		if found != 1 && !math.IsNaN(w.value) || found != 0 && math.IsNaN(w.value) {
			t.Errorf("%s: %s of %s is measured %d times, want the value %v", name, w.quantity, w.subject, found, w.value)
		}
	}
}

// change is one change of a job and what it makes of some measurements.
type change struct {
	name  string
	make  func(*job.Job)
	wants []want
}

func holdChanges(t *testing.T, from job.Job, changes []change) {
	t.Helper()
	for _, c := range changes {
		meets(t, c.name, all(t, on(from, c.make)), c.wants...)
	}
}

func of(v float64) *float64 { return &v }

// The usual job from the floor up. The floor lies at 0 and the bed is 3 thick. The
// trap, 95 deep, stands on the floor: the flange is at 95, the former's 20 and its
// bed's 3 under it give the base's top, 72. Layers of 1 + 3 + 9 make 13: tile at
// 108. The outlet's invert is 75 under the flange, at 20; the channel 25, at 70.
//
// The shower lies from x = 0 to 1400 and y = 1000 to 1900, its back at y = 1900. The
// drain is 13 off the wall and 70 by 800: x = 300 to 1100, y = 1817 to 1887. The
// trap, 110 square and as far off the wall: x = 645 to 755, y = 1777 to 1887, its
// middle at (700, 1832). The pipe goes 645 from its face to the wall at x = 0, then
// through its 215 and 60 more: 920. It falls 1:40, so 16.125 to the exit and 23 in
// all. Its bore is 46 and its wall 2.
func usualMeasurements() []want {
	var (
		middle = mgl64.Vec3{185, 1832, 20 - 11.5 + 23} // of the run, 460 along
		start  = mgl64.Vec3{645, 1832, 20 + 23}
		exit   = mgl64.Vec3{0, 1832, 20 - 16.125 + 23}
		trap   = mgl64.Vec3{700, 1832, 0}
		drain  = mgl64.Vec3{700, 1852, 108}
		shower = mgl64.Vec3{700, 1450, 108}
		// The floor falls 1:50 from y = 1817.
		floor = mgl64.Vec3{700, 1450, 108 + 367.0/50}
		none  mgl64.Vec3
	)
	return []want{
		{"pipe.gradient", "pipe 1", 1.0 / 40, middle},
		{"run.bends", "waste-run", 0, middle},
		{"run.length", "waste-run", 920, middle},
		{"run.fall-in-bores", "waste-run", 16.125 / 46, middle},
		{"run.drop", "waste-run", 16.125, middle},
		{"run.narrows-by", "waste-run", 0, middle},
		// No vent and no stack: told at the end of the run, 920/40 below the outlet at 20, half a bore of 46 up.
		{"vent.none", "waste-run", 1, mgl64.Vec3{-275, 1832, 20 - 23 + 23}},
		{"run.under-trap-by", "waste-run", 0, middle},
		{"trap.size", "trap-and-waste", 50, start},
		{"pipe.unruled", "waste-run", 0, middle},
		// The crown is at 20 + 46 + 2 where it leaves the trap.
		{"pipe.cover", "pipe 1", 72 - 68, start},
		{"pipe.former-over", "pipe 1", 20, start},
		{"pipe.exposed", "waste-run", 0, start},
		// The underside comes down to 20 − 16.125 − 2 at the exit, over the floor.
		{"pipe.into-floor", "pipe 1", 0, exit},
		{"pipe.wall-gap", "pipe 1, piece-by-wall C", 68 - 25, middle},
		// Full, by Colebrook and White with k = 1 mm: √(2·9.81·0.046·0.025) = 0.150210,
		// 0.001/(3.71·0.046) = 0.0058597, 2.51·1.31e-6/(0.046·0.15021) = 0.00047588; the
		// logarithm of their sum is −2.198212, so 0.660387 m/s on π/4·0.046² m²:
		// 1.097501 l/s.
		{"pipe.flow-share", "pipe 1", 0.2 / 1.097501, middle},
		{"pipe.smooth-share", "pipe 1", 0.2 / 1.800997, middle},
		// The ground is at −150, the underside at 20 − 23 − 2.
		{"exit.above-ground", "exit", 145, mgl64.Vec3{-275, 1832, 20 - 23 + 23}},
		// The hole is 8 wider than the pipe on each side.
		{"exit.off-corner", "exit", 68 - 25 - 8, exit},
		// On through the wall of 215 the pipe falls by 5.375; a circle of 33·√(1 + 1/1600)
		// and half of that holds it all, 71.4 across, which the drill of 78 makes.
		{"core.over-slab", "exit-in-wall B", 26.875 - 5.375/2 - 78/2, exit},
		{"core.axis-height", "exit-in-wall B", 26.875 - 5.375/2, exit},
		// The weir is 32 under the flange, the seal 50 and the body's floor 2.5: of 95 that
		// leaves 10.5 under the dip, of 10 stated. The outlet is 43 under the weir.
		{"trap.seal", "trap", 50, trap},
		{"trap.water-short-by", "trap", 0, trap},
		{"trap.weir-over-channel", "trap", 0, trap},
		{"trap.outlet-over-weir", "trap", 0, trap},
		{"trap.inner-weir", "trap", 75 - 32, trap},
		// The dip hangs from where channel and body overlap, 5 in all round: 60 across the
		// channel, and along it 0.6 of the 100 that are left to the wall of the outlet. Its
		// plate is 2.5 thick: inside it is 55 square.
		{"trap.passage-share", "trap", math.Pi / 4 * 46 * 46 / (4 * 55 * 10.5), trap},
		{"trap.outlet-mismatch", "trap-outlet", 0, mgl64.Vec3{645, 1832, 20}},
		{"trap.flow-share", "trap", 0.2 / 0.6, trap},
		{"trap.into-floor", "trap", 0, trap},
		// The pipe's axis starts at (645, 43) in x and z and leans 1 in 40 back: where its
		// flat end stands, the crown is 25·1/√(1 + 40²) further left and 25·40/√(1 + 40²)
		// over the axis. The channel's underside is at 70.
		{"clash.run-gap", "pipe 1, piece-by-channel", 70 - 43 - 25*40/math.Sqrt(1601), none},
		{"clash.wall-gap", "trap-by-wall C", 13, none},
		{"clash.wall-gap", "drain-channel-by-wall C", 13, none},
		{"base.thickness", "base", 69, mgl64.Vec3{700, 1450, 72}},
		{"base.thin-by", "base", 0, mgl64.Vec3{700, 1450, 72}},
		{"base.too-low", "base, trap-on-floor", 0, trap},
		{"base.clear-short-by", "base, trap-on-floor", 0, trap},
		// The plane's middle is at y = (1000 + 1817)/2.
		{"floor.fall", "plane 1", 1.0 / 50, mgl64.Vec3{700, 1408.5, 108 + 408.5/50}},
		{"floor.out-of-level", "structural-floor", 0, mgl64.Vec3{700, 1450, 0}},
		{"former.thin-by", "former", 0, mgl64.Vec3{700, 1817, 95}},
		// Finishes of 13 stand on the back wall and on the left one.
		{"shower.least-side", "shower", 900 - 13, shower},
		{"shower.longest-side", "shower", 1400 - 13, shower},
		{"shower.area", "shower", (1400 - 13) * (900 - 13), shower},
		// At the front it has risen by 817/50 = 16.34; the room's tile is at 13.
		{"step.edge", "open-edge 1, right", 108 + 16.34 - 13, mgl64.Vec3{1400, 1450, 108 + 367.0/50}},
		{"step.edge", "open-edge 2, front", 108 + 16.34 - 13, mgl64.Vec3{700, 1000, 108 + 16.34}},
		{"step.door", "doorway 1", 20 - 13, mgl64.Vec3{1880, 0, 13}},
		{"doorway.passage", "doorway 1", 760, mgl64.Vec3{1880, 0, 13}}, // nothing stands before it
		{"cover.short-by", "drain-cover", 0, drain},
		{"cover.proud-by", "drain-cover", 0, drain},
		{"drain.strip", "drain", 0, drain},
		{"drain.under-wall", "drain", 0, drain},
		{"water.flow", "shower", 0.2, drain},
		// The cover is 3 smaller all round, 794 by 64. Its slots are 6 wide, 23 either side
		// of its middle, and (794 − 44)/22 = 34 of them: 34·6·46 = 9384 mm²; the gap round
		// it is 3·2·(800 + 70) = 5220 mm². Through 0.014604 m² 20 mm of water drive
		// 0.67·0.014604·√(2·9.81·0.02) = 6.12936 l/s, more than over its long edge.
		// 345 of the channel's 800 lead to the trap from either side; 13 of bed and tile over 25.
		{"channel.fill-share", "drain", math.Sqrt(3) * 1000 * math.Cbrt(math.Pow(0.2/1000*345/800/0.07, 2)/9.81) / (25 + 13), drain},
		{"inlet.flow-share", "drain-cover", 0.2 / (0.37 * math.Sqrt(2*9.81) * 0.8 * math.Pow(0.02, 1.5) * 1000), drain},
		{"pipe.velocity", "pipe 1", hydraulicVelocity(1.0/40, 0.2), middle},
		{"trap.seal-left", "trap", 50, trap},
		{"trap.water-stands", "drain-cover", 0, drain},
		// The bed of ±1 and the tile of ±0.5, the one way here and the other way 300 on, and
		// the former ±2 over the 817 that it falls.
		{"floor.least-fall", "shower-tile", 1.0/50 - math.Hypot(2*math.Sqrt(1.25)/300, 2.0/817), shower},
		// Of the strip of 83 along the back, walls finished 13 thick leave 70 by 1387, and
		// the drain takes 800 of that.
		// The front is open from end to end; the pane at the right stands from 13 to 855 off
		// the back, over tile that has risen 351/50 in its middle.
		{"shower.way-in", "shower", 1400, drain},
		{"screen.off-edge", "screen 1", 0, mgl64.Vec3{1400, 1900 - 434, 108 + 351.0/50}},
		{"floor.level-area", "level-floor", 70 * (1387 - 800), drain},
		// The right edge is open beside the drain: nothing is held there.
		{"water.reserve", "spills-at 0, right", 0, mgl64.Vec3{1400, 1900, 108}},
		// The walls are tanked as high as they are tiled, 2200 over the tile at the drain; their
		// lowest stretch over the floor is where that is highest, at the front.
		{"tanking.wall-to", "wall-tanking", 2200 - 817.0/50, mgl64.Vec3{0, 1000, 108 + 817.0/50}},
		// In the middle of the pane, from 13 to 855 off the back.
		{"tanking.screen-stop", "screen 1", 0, mgl64.Vec3{1400, 1466, 108 + 351.0/50}},
		// The middle of 2400 × 1900 less the shower's 1400 × 900.
		{"tanking.upturn", "floor-tanking", 0, mgl64.Vec3{4590.0 / 3.3, 2505.0 / 3.3, 13}},
		{"caution.electrics", "shower", 1, floor},
		// The ceiling at 2400 over the tile, 13 off the wall and 70 wide the drain: people
		// stand as far as 1300, where the tile is at 108 + 517/50, the front is at 108 + 817/50.
		{"room.headroom", "shower", 2400 - 118.34, mgl64.Vec3{700, 1300, 118.34}},
		{"shower.ceiling", "shower", 2400 - 124.34, mgl64.Vec3{700, 1000, 124.34}},
		{"room.headroom", "doorway 1", 2400 - 13, mgl64.Vec3{1880, 0, 20}},
		{"doorway.height", "doorway 1", 2040, mgl64.Vec3{1880, 0, 20}}, // the floor beyond is higher
		{"caution.services", "exit", 1, exit},
		{"caution.pipe-outside", "exit", 1, mgl64.Vec3{-275, 1832, 20 - 23 + 23}},
		{"beyond.unknown", "exit", 1, mgl64.Vec3{-275, 1832, 20 - 23 + 23}},
		{"caution.dust", "tile-and-boards", 1, floor},
		{"caution.solvent", "waste-run", 1, floor},
		{"caution.gas", "trap", 1, floor},
		{"caution.slip", "floor-tile", 1, floor},
		{"caution.scald", "shower", 1, floor},
		{"caution.covering", "waste-run-and-membrane", 1, floor},
	}
}

// The usual job is measured by hand from end to end, and nothing else is measured
// of it.
func TestEveryMeasurementOfTheUsualJob(t *testing.T) {
	got, wants := all(t, job.New()), usualMeasurements()
	meets(t, "the usual job", got, wants...)
	for _, m := range got {
		if !slices.ContainsFunc(wants, func(w want) bool { return w.quantity == m.Quantity && w.subject == m.Subject.String() }) {
			t.Errorf("%s of %s is %v, and is not worked out by hand", m.Quantity, m.Subject, m.Value)
		}
		facts := map[string]float64{"nominalMM": 50}
		if m.Quantity == "trap.size" {
			facts = map[string]float64{"flowLPS": 0.2}
		}
		tags := []string{"slab", "fall-back"}
		if m.Quantity == "step.edge" && m.Subject.Number == 1 {
			tags = append([]string{"closed"}, tags...) // by the usual pane
		}
		if !slices.Equal(m.Tags, tags) || !maps.Equal(m.Facts, facts) {
			t.Errorf("%s of %s is measured under %v, %v", m.Quantity, m.Subject, m.Tags, m.Facts)
		}
	}
}

// Subjects are told apart by what they are and their numbers, which findings are known
// by from one evaluation to the next.
func TestSubjectsOfTheUsualJob(t *testing.T) {
	pipe := message.Numbered{ID: "piece.pipe", Number: 1}
	subjects := map[string]rule.Subject{
		"pipe 1":                   {Of: rule.Piece, Piece: pipe},
		"pipe 1, piece-by-wall C":  {Of: rule.PieceByWall, Number: 3, Piece: pipe},
		"pipe 1, piece-by-channel": {Of: rule.PieceByChannel, Piece: pipe},
		"trap":                     {Of: rule.Trap}, "trap-by-wall C": {Of: rule.TrapByWall, Number: 3},
		"drain": {Of: rule.Drain}, "drain-channel-by-wall C": {Of: rule.DrainChannelByWall, Number: 3},
		"waste-run": {Of: rule.WasteRun}, "exit": {Of: rule.Exit}, "base": {Of: rule.Base},
		"plane 1": {Of: rule.Plane, Number: 1}, "doorway 1": {Of: rule.Doorway, Number: 1},
		"open-edge 1, right": {Of: rule.OpenEdge, Number: 1, Which: "edge.right"}, "open-edge 2, front": {Of: rule.OpenEdge, Number: 2, Which: "edge.front"},
	}
	for _, m := range all(t, job.New()) {
		want, ok := subjects[m.Subject.String()]
		if m.Quantity == "water.reserve" {
			want, ok = rule.Subject{Of: rule.SpillsAt, Which: "edge.right"}, true
		}
		if ok && m.Subject != want {
			t.Errorf("%s is measured of %+v, want %+v", m.Quantity, m.Subject, want)
		}
	}
}

// The same room walked the other way round, from its back left corner to the right, is
// measured the same.
func TestUsualJobWalkedTheOtherWay(t *testing.T) {
	got := all(t, on(job.New(), func(j *job.Job) {
		w := j.Room.Walls
		j.Room.Outline = []plan.Point{{0, 1900}, {2400, 1900}, {2400, 0}, {0, 0}}
		j.Room.Walls = []job.Wall{w[2], w[1], w[0], w[3]}
		j.Room.Doorways[0].Wall, j.Room.Doorways[0].OffsetMM = 2, 140
		j.Shower.Wall, j.Shower.OffsetMM = 0, 0
		j.Waste.Exit.OffsetMM = 1832
	}))
	meets(t, "walked the other way", got, usualMeasurements()...)
}

// What a rule may ask of the circumstances comes with every measurement, and what
// one measurement alone has comes before it.
func TestCircumstancesOfMeasurements(t *testing.T) {
	fallingPiece := []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 120, Slope: 0.05}}
	for _, c := range []struct {
		quantity, subject string
		make              func(*job.Job)
		tags              []string
		nominalMM         float64
	}{
		{"trap.seal", "trap", func(j *job.Job) { j.Waste.Vent = &job.Vent{NominalMM: 32} }, []string{"ventilated", "slab", "fall-back"}, 50},
		{"trap.seal", "trap", func(j *job.Job) { j.Accessible = true }, []string{"accessible", "slab", "fall-back"}, 50},
		{"trap.seal", "trap", func(j *job.Job) { j.Floor.CeilingBelow = true }, []string{"ceiling", "slab", "fall-back"}, 50},
		{"trap.seal", "trap", func(j *job.Job) { j.Floor.Kind = job.FloorTimber }, []string{"timber", "fall-back"}, 50},
		{"trap.seal", "trap", func(j *job.Job) { j.Former.Fall = job.FallMid }, []string{"slab", "fall-mid"}, 50},
		{"trap.seal", "trap", func(j *job.Job) { j.Waste.NominalMM = 40 }, []string{"slab", "fall-back"}, 40},
		{"pipe.gradient", "falling-piece 2", func(j *job.Job) { j.Waste.Fittings = fallingPiece }, []string{"falling-piece", "slab", "fall-back"}, 50},
		{"pipe.gradient", "pipe 3", func(j *job.Job) { j.Waste.Fittings = fallingPiece }, []string{"slab", "fall-back"}, 50},
		{"trap.flow-share", "trap", func(*job.Job) {}, []string{"slab", "fall-back"}, 50},
		{"trap.flow-share", "trap", func(j *job.Job) { j.Drain.CapacityLPS = 0 }, []string{"estimated", "slab", "fall-back"}, 50},
	} {
		found := false
		for _, m := range all(t, on(job.New(), c.make)) {
			if m.Quantity == c.quantity && m.Subject.String() == c.subject {
				found = true
				if !slices.Equal(m.Tags, c.tags) || len(m.Facts) != 1 || m.Facts["nominalMM"] != c.nominalMM {
					t.Errorf("%s of %s is measured under %v, %v; want %v and %v", c.quantity, c.subject, m.Tags, m.Facts, c.tags, c.nominalMM)
				}
			}
		}
		if !found {
			t.Errorf("%s of %s is not measured", c.quantity, c.subject)
		}
	}
}
