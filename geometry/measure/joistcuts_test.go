package measure_test

import (
	"math"
	"slices"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// across is the let-in demo with joists 47 wide across its run, their middles at
// x = 200, 650, …, resting at y = 2000 and y = 0. The base is at 0, so the outlet at
// 23 less its depth. The joists reach from −22 to −242.
//
// The run goes left at y = 1932, 68 from the support, and falls 1:40. It comes to the
// first joist 645 − 223.5 = 421.5 along and leaves it 468.5 along; in the second it
// begins, and leaves it 18.5 along.
func across(t *testing.T, outletMM float64) job.Job {
	j := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&j, outletMM)
	return j
}

// ellipse is half the height of the hole on a joist's face, for a pipe that falls
// 1:40 and has 25 + 3 of room round its middle.
var ellipse = 28 * math.Hypot(1, 1.0/40)

// twice crosses the joist at x = 400 at y = 1932 and y = 1732.
func twice(j *job.Job) {
	j.Floor.Joists.FirstOffsetMM = 400
	toPipe(j, plan.Point{250, 1932}, plan.Point{250, 1732}, plan.Point{600, 1732})
}

func TestHolesByHand(t *testing.T) {
	// With the outlet at −127 the axis is at −104 − 421.5/40 and −104 − 468.5/40 on the two
	// faces of the first joist, and at −104 and −104 − 18.5/40 in the second.
	entry, leave := -104-421.5/40, -104-468.5/40
	first, second := mgl64.Vec3{200, 1932, (entry + leave) / 2}, mgl64.Vec3{635.75, 1932, -104 - 9.25/40}
	of := func(quantity string, value float64) want { return want{quantity, "pipe 1, joist-cut 1", value, first} }
	none := func(quantity string) want { return want{quantity, "pipe 1, joist-cut 1", not, nowhere} }
	got := all(t, across(t, 150))
	meets(t, "a hole", got,
		of("joist.cut-depth", 220),
		// As high as both ellipses reach: more than their length, 56.
		of("joist.hole-size", (47.0/40+2*ellipse)/220),
		of("joist.hole-zone", 68.0/2000),
		// More is left below than above.
		of("joist.hole-edge", -22-(entry+ellipse)),
		of("joist.hole-off-axis", ((entry+leave)/2+132)/220),
		none("joist.notch-depth"), none("joist.notch-zone"), none("joist.notch-length"), none("joist.severed"), none("joist.hole-spacing"), none("joist.notch-to-hole"),
		want{"joist.hole-size", "pipe 1, joist-cut 2", (18.5/40 + 2*ellipse) / 220, second}, want{"joist.hole-edge", "pipe 1, joist-cut 2", -22 - (-104 + ellipse), second},
		want{"joist.cut-depth", "pipe 1, joist-cut 3", not, nowhere}, want{"joist.engineered-cut", "joists", not, nowhere},
		want{"caution.structure", "timber-floor", 2, mgl64.Vec3{200, 1932, -22}})
	// 60 lower it is nearer to the bottom, and under the middle.
	meets(t, "a low hole", all(t, across(t, 210)),
		want{"joist.hole-edge", "pipe 1, joist-cut 1", leave - 60 - ellipse + 242, nowhere},
		want{"joist.hole-off-axis", "pipe 1, joist-cut 1", (-132 - ((entry+leave)/2 - 60)) / 220, nowhere})
	engineered := on(across(t, 150), func(j *job.Job) { j.Floor.Joists.Engineered = true })
	meets(t, "engineered", all(t, engineered), want{"joist.engineered-cut", "joists", 2, mgl64.Vec3{200, 1932, -22}})
	uncut := on(demotest.Rooms(t)[2].Job, func(j *job.Job) { j.Floor.Joists.Engineered = true })
	meets(t, "engineered and uncut", all(t, uncut), want{"joist.engineered-cut", "joists", not, nowhere}, want{"caution.structure", "timber-floor", 0, mgl64.Vec3{700, 1550, 0}})
}

func TestNotchesByHand(t *testing.T) {
	// The outlet at −57: the axis on the faces at −34 − 421.5/40 and −34 − 468.5/40, from
	// which the cut reaches over the joist's top.
	entry, leave := -34-421.5/40, -34-468.5/40
	at := mgl64.Vec3{200, 1932, (entry + leave) / 2}
	none := func(quantity string) want { return want{quantity, "pipe 1, joist-cut 1", not, nowhere} }
	meets(t, "a notch", all(t, across(t, 80)),
		want{"joist.cut-depth", "pipe 1, joist-cut 1", 220, at},
		want{"joist.notch-depth", "pipe 1, joist-cut 1", (-22 - (leave - ellipse)) / 220, at},
		want{"joist.notch-zone", "pipe 1, joist-cut 1", 68.0 / 2000, at}, want{"joist.notch-length", "pipe 1, joist-cut 1", 56.0 / 220, at},
		none("joist.hole-size"), none("joist.hole-zone"), none("joist.hole-edge"), none("joist.hole-off-axis"), none("joist.severed"))
	// 180 lower it comes out at the bottom; its top is what is left of the joist's depth.
	meets(t, "severed from below", all(t, across(t, 260)),
		want{"joist.severed", "pipe 1, joist-cut 1", entry - 180 + ellipse + 242, at.Add(mgl64.Vec3{0, 0, -180})}, none("joist.notch-depth"), none("joist.hole-size"))
	// Joists 50 deep are cut from top to bottom.
	thin := on(across(t, 80), func(j *job.Job) { j.Floor.Joists.DepthMM = 50 })
	meets(t, "severed all through", all(t, thin), want{"joist.severed", "pipe 1, joist-cut 1", 50, at})
}

// Cuts in one joist are held against the nearest before them: holes from middle to
// middle, in the larger's diameters; with a notch, by what is left between.
func TestCutsBesideEachOtherByHand(t *testing.T) {
	size := 47.0/40 + 2*ellipse // of a hole square through a joist
	spacing := func(subject string, apartMM, sizeMM float64) want {
		return want{"joist.hole-spacing", subject, apartMM / sizeMM, nowhere}
	}
	between := func(subject string, valueMM float64) want {
		return want{"joist.notch-to-hole", subject, valueMM, nowhere}
	}
	thrice := func(j *job.Job) {
		twice(j)
		toPipe(j, plan.Point{250, 1932}, plan.Point{250, 1732}, plan.Point{550, 1732}, plan.Point{550, 1432}, plan.Point{250, 1432})
	}
	// steep falls 1:10; from the first joist, 245 along, it is 395 to the corner, 200 to the
	// next and 150 back, less what the bends cut off: some 46 lower.
	steep := func(j *job.Job) { twice(j); j.Waste.Gradient = 0.1 }
	holdChanges(t, across(t, 150), []change{
		{"two holes", twice, []want{spacing("pipe 5, joist-cut 1", 200, size), spacing("pipe 1, joist-cut 1", not, 1), between("pipe 5, joist-cut 1", not)}},
		{"three holes", thrice, []want{spacing("pipe 5, joist-cut 1", 200, size), spacing("pipe 9, joist-cut 1", 300, size)}},
		// The pipe back is wider: 75 and 3 on each side, and falls 1:40 as before.
		{"a large hole and a small one", func(j *job.Job) {
			twice(j)
			j.Waste.Fittings = reducer(75, 75, 71, false)
			j.Waste.Fittings[0].AtMM = 280
		}, []want{spacing("pipe 7, joist-cut 1", 200, 47.0/40+81*math.Hypot(1, 1.0/40))}},
	})
	// With the outlet at −37 the axis is at −14 less the fall, some 6 at the first cut, 18
	// at the second and 29 at the third, and the cuts reach over the joist's top at −22.
	holdChanges(t, across(t, 60), []change{
		{"two notches", twice, []want{between("pipe 5, joist-cut 1", 200-56), spacing("pipe 5, joist-cut 1", not, 1)}},
		{"a notch and a hole", steep, []want{between("pipe 5, joist-cut 1", 200-56), spacing("pipe 5, joist-cut 1", not, 1), between("pipe 1, joist-cut 1", not)}},
		{"three notches", thrice, []want{between("pipe 5, joist-cut 1", 200-56), between("pipe 9, joist-cut 1", 300-56)}},
	})
	for name, c := range map[string]struct {
		make  func(*job.Job)
		kinds []joist.Kind
	}{"twice": {twice, []joist.Kind{joist.Notch, joist.Notch}}, "steep": {steep, []joist.Kind{joist.Notch, joist.Hole}}, "thrice": {thrice, []joist.Kind{joist.Notch, joist.Notch, joist.Notch}}} {
		var kinds []joist.Kind
		cuts := levelled(t, on(across(t, 60), c.make))
		for _, cut := range cuts.Crossings() {
			kinds = append(kinds, cut.Kind)
		}
		if !slices.Equal(kinds, c.kinds) {
			t.Errorf("%s there are %v, want %v", name, kinds, c.kinds)
		}
	}
	// In two joists they are not beside each other.
	meets(t, "two joists", all(t, across(t, 150)), spacing("pipe 1, joist-cut 2", not, 1), between("pipe 1, joist-cut 2", not))
}

// Joists against the load of the new floor, by the formulas of a beam on two supports
// under an even load q: q·L²/8 and q·L/2 whole, q·x·(L − x)/2 and q·(L/2 − x) at a cut
// x from a support, 5·q·L⁴/384EI and 1.2·q·L²/8GA with G a sixteenth of E; under 2 kN at one
// place, which do more, 2·x·(L − x)/L and 2·(L − x)/L; EN 1995-1-1 as package joist names its clauses. C24:
// 24 in bending and 4 in shear, by kmod 0.8, ksys 1.1 and γM 1.3; 0.67 for cracks.
func TestJoistStrengthByHand(t *testing.T) {
	j := across(t, 150)
	l := levelled(t, j)
	// The third joist, at x = 1100, bears most: the floor to 225 at both sides of it but for the
	// drain, from y = 1917 to 1987, weighed piece by piece; on the joist no boards lie.
	floor := l.BuildUp()
	sum, n := 0.0, 0.0
	for x := 875.25; x < 1325; x += 0.5 {
		for y := 1100.5; y < 2000; y++ {
			if p := (plan.Point{x, y}); l.Layout.OpenFloor.Contains(p, 0) {
				sum, n = sum+floor.AddedKNM2(p), n+1
			}
		}
	}
	b := joist.BeamOf(l.Settled, l.Layout, sum/n, joist.Imposed{KNM2: 1.5, PointKN: 2})
	dead, point, span := 1.35*b.DeadKNM, 1.5*2000, 2000.0 // kN/m is N/mm
	bending, shear := 0.8*1.1*24/1.3, 0.8*1.1*4/1.3
	middle := mgl64.Vec3{1550, 1000, -22} // of the fourth of six
	hole, x := 47.0/40+2*ellipse, 68.0
	cut := mgl64.Vec3{200, 1932, -115.125}
	sag := func(span float64) float64 {
		return 5*math.Pow(span, 4)/(384*11000*47*math.Pow(220, 3)/12) + 1.2*span*span/(8*11000/16*47*220)
	}
	// What is left below and above the hole bends as one about their common middle.
	below := -115.125 - hole/2 + 242
	above := 220 - below - hole
	own := (below*below/2 + above*(220-above/2)) / (below + above)
	second := 47 * (below*(below*below/12+math.Pow(own-below/2, 2)) + above*(above*above/12+math.Pow(220-above/2-own, 2)))
	meets(t, "joists", allOf(l),
		want{"joist.bending-share", "joists-uncut", (dead*span*span/8 + point*span/4) / (47 * 220 * 220 / 6.0) / bending, middle},
		want{"joist.shear-share", "joists-uncut", 1.5 * (dead*span/2 + point) / (0.67 * 47 * 220) / shear, middle},
		want{"joist.stiffness", "joists", span / (sag(span) * b.LiveKNM), middle},
		want{"joist.final-stiffness", "joists", span / (sag(span) * (1.6*b.DeadKNM + 1.18*b.LiveKNM)), middle},
		want{"joist.frequency", "joists", math.Pi / 2 / 4 * math.Sqrt(11000*47*math.Pow(220, 3)/12/1e6/(b.DeadKNM*1000/9.81)), middle},
		want{"joist.grade-unknown", "joists", not, nowhere},
		want{"joist.bending-share", "pipe 1, joist-cut 1", (dead*x*(span-x)/2 + point*x*(span-x)/span) / (second / max(own, 220-own)) / bending, cut},
		want{"joist.shear-share", "pipe 1, joist-cut 1", 1.5 * (dead*(span/2-x) + point*(span-x)/span) / (0.67 * 47 * (220 - hole)) / shear, cut},
		want{"joist.bending-share", "pipe 1, joist-cut 3", not, nowhere})
	// Where 100 bear, to 50 into the room, a hole of 56 about 68 from the support's middle takes 10 of
	// it, and nothing spreads past that: (1.35·dead·span/2 + 1.5·2) over 47 · 90 there, and uncut over
	// 47 · 130, against 0.8·0.007·420/1.2/1.3, uncut half as much again.
	bearing := j.Clone()
	bearing.Floor.Joists.BearingMM = 100
	cross := 0.8 * 0.007 * 420 / 1.2 / 1.3
	meets(t, "on their supports", all(t, bearing),
		want{"joist.bearing-share", "joists-uncut", (dead*span/2 + point) / (47 * 130) / (1.5 * cross), middle},
		want{"joist.bearing", "joists-uncut", 100, middle},
		want{"joist.bearing-share", "pipe 1, joist-cut 1", (dead*span/2 + point) / (47 * 90) / cross, cut},
		want{"joist.bearing", "pipe 1, joist-cut 1", 90, cut},
		want{"joist.bearing", "pipe 1, joist-cut 3", not, nowhere})
	// Under a load of 2 as in Germany, which DIN EN 1991-1-1/NA has; under no region's
	// rules there is none.
	german := j.Clone()
	german.Region = "DE"
	meets(t, "Germany", all(t, german), want{"joist.stiffness", "joists", span / (sag(span) * 2 * 0.45), middle})
	meets(t, "no region", allOf(levelledUnder(t, j, demotest.Packs(t)[rule.CommonRegion])), want{"joist.stiffness", "joists", not, nowhere},
		want{"joist.bending-share", "joists-uncut", not, nowhere})
	j.Floor.Joists.Timber = nil
	meets(t, "of no known grade", all(t, j), want{"joist.grade-unknown", "joists", 1, middle})
	// The joist in the middle is the third of five, from x = 0 to 2600 at y = 940.
	meets(t, "the demo's own joists", all(t, demotest.Rooms(t)[2].Job), want{"joist.stiffness", "joists", 2700 / (sag(2700) * 1.5 * 0.45), mgl64.Vec3{1300, 940, -22}})
}

// A former weighs what its volume does: of mortar at 2100 kg/m³ rather than of foam at 350, 900
// by 900 falling from all round at 1:50 to a square drain of 120 in its middle, 20 thick there,
// over the one joist that bears all of it. In steps round the drain of 8·r·dr the mean is
// 20 + 0.02·2·((450³ − 60³)/3 − 60·(450² − 60²)/2)/(450² − 60²) = 24.894. Under it the dead load of
// a metre grows by 1.75·24.894·9.81/1000·0.9 kN, and the final sag by 1.6 of what that does.
func TestScreedWeighsByItsVolume(t *testing.T) {
	j := job.New()
	j.Floor.Kind, j.Floor.Joists.DirectionDeg, j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = job.FloorTimber, 90, 900, 550
	j.Shower.WidthMM, j.Shower.DepthMM, j.Shower.Screens = 900, 900, nil
	j.Former.Fall, j.Drain.WidthMM, j.Drain.LengthMM = job.FallPoint, 120, 0
	const spanMM = 1900.0
	sagMM := func(j job.Job) float64 {
		for _, m := range all(t, j) {
			if m.Quantity == "joist.final-stiffness" {
				return spanMM / m.Value
			}
		}
		t.Fatal("no sag is measured")
		return 0
	}
	foam := sagMM(j)
	j.Former.Mortar = true
	got := sagMM(j) - foam
	of := 5*math.Pow(spanMM, 4)/(384*11000*47*math.Pow(195, 3)/12) + 1.2*spanMM*spanMM/(8*11000/16*47*195)
	if want := 1.6 * of * 1.75 * 24.894 * 9.81 / 1000 * 0.9; math.Abs(got-want) > 1e-3*want {
		t.Errorf("mortar makes the joists sag %v more, by hand %v", got, want)
	}
}

// The trap, from x = 645 to 755 and down to −147, in a joist 47 wide: out of it by the
// nearest way. It may touch.
func TestTrapInAJoistByHand(t *testing.T) {
	at := mgl64.Vec3{700, 1932, -147}
	joistAt := func(middle float64) func(*job.Job) {
		return func(j *job.Job) { j.Floor.Joists.FirstOffsetMM = math.Mod(middle, 450) }
	}
	in := func(subject string, value float64) []want { return []want{{"trap.in-joist", subject, value, at}} }
	holdChanges(t, across(t, 150), []change{
		{"its left side", joistAt(645 - 23.5 + 28.5), in("trap-in-joist 2", 28.5)},
		{"its right side", joistAt(755 + 23.5 - 10), in("trap-in-joist 2", 10)},
		{"a hair of its right side", joistAt(755 + 23.5 - 0.01), in("trap-in-joist 2", 0.01)},
		{"touching", joistAt(755 + 23.5), in("trap-in-joist 2", not)},
		{"beside it", joistAt(755 + 23.5 + 5), in("trap-in-joist 2", not)},
		{"another joist", joistAt(755 + 23.5 - 10), in("trap-in-joist 1", not)},
	})
	// Over the joists, a trap of 40 reaches to −17; a flange of 23 with a trap of 45 just
	// meets their tops at −22, one of 45.1 is in them.
	shallow := func(depth float64) func(*job.Job) {
		return func(j *job.Job) { j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 30, depth }
	}
	holdChanges(t, across(t, 150), []change{
		{"over the joists", shallow(40), in("trap-in-joist 2", not)},
		{"on the joists", shallow(45), in("trap-in-joist 2", not)},
		{"a little in the joists", shallow(45.1), []want{{"trap.in-joist", "trap-in-joist 2", 0.1, nowhere}}},
	})
	// On a floor that rises by 10 to the back the base's 0 is over 10, the flange at 33. The
	// joist rises with it, to −22 + 1987/200 at the trap's back, and half a millimetre of
	// that is over the trap's underside; square to the joist's top it is a hair less.
	rising := on(across(t, 150), func(j *job.Job) {
		shallow(33 + 22 - 1987.0/200 + 0.5)(j)
		tilted(j, 0, 10)
	})
	meets(t, "a joist that rises", all(t, rising), want{"trap.in-joist", "trap-in-joist 2", 0.5 / math.Hypot(1, 1.0/200), nowhere})
	meets(t, "on the floor", all(t, on(job.New(), func(j *job.Job) { j.Floor.Kind, j.Floor.Joists.FirstOffsetMM = job.FloorTimber, 1832-1600 })), want{"trap.in-joist", "trap-in-joist 5", not, nowhere})
}

// Let in, the hole for the pipe lies in the open floor: no rig stands over it. Of the rig that
// is entered it still is told how low it gets.
func TestHoleBetweenJoistsNeedsNoRoomUnderTheRig(t *testing.T) {
	j := demotest.Rooms(t)[2].Job.Clone()
	if w := &j.Room.Walls[j.Waste.Exit.Wall]; j.Base.Support != job.BetweenJoists || j.Waste.Exit.Kind != job.ExitWall || w.Kind == job.WallStud {
		t.Fatalf("not let in with an exit through masonry: %s, %s, %s", j.Base.Support, j.Waste.Exit.Kind, w.Kind)
	}
	has := func() bool {
		for _, m := range all(t, j) {
			if m.Quantity == "core.axis-height" || m.Quantity == "core.axis-low-by" {
				return true
			}
		}
		return false
	}
	if has() {
		t.Error("a hole between joists is measured over the floor")
	}
	j.Waste.Drill = &job.Drill{From: job.DrillInside, LeastAxisMM: 60}
	if !has() {
		t.Error("a hole between joists is not held against the rig that was entered")
	}
}
