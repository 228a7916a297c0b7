package survey_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/plan"
	"underfall/geometry/survey"
)

// usual is how well a tape tells a length in these tests, plus or minus.
const usual = 2

// A triangle by its three sides, 3-4-5: the corner between 3 and 4 is square, whatever it was drawn as.
func TestThreeFourFive(t *testing.T) {
	f := worked(t, []plan.Point{{0, 0}, {2900, 0}, {300, 4100}}, []survey.Measure{
		far(0, 1, 3000, usual), far(0, 2, 4000, usual), far(1, 2, 5000, usual),
	})
	for i, want := range []plan.Point{{0, 0}, {3000, 0}, {0, 4000}} {
		near(t, "corner", f.Corners[i].Sub(want).Len(), 0, 1e-5)
	}
	if f.Assumed.Any() || !f.Closes || f.OpenMM != 0 {
		t.Errorf("assumed %v, closes %v, open %v", f.Assumed, f.Closes, f.OpenMM)
	}
}

// The area of a triangle of sides 13, 14 and 15 is 84 by Heron's formula.
func TestHeron(t *testing.T) {
	f := worked(t, []plan.Point{{0, 0}, {1000, 0}, {500, 900}}, []survey.Measure{
		far(0, 1, 1300, usual), far(1, 2, 1400, usual), far(2, 0, 1500, usual),
	})
	near(t, "area", plan.Ring(f.Corners).SignedArea(), 840000, 1e-2)
}

// A rectangle of 2400 by 1800 has diagonals of 3000; all six measures agree.
func TestRectangleWithDiagonals(t *testing.T) {
	drawn := []plan.Point{{100, 200}, {2600, 200}, {2600, 1900}, {100, 1900}}
	f := worked(t, drawn, []survey.Measure{far(0, 1, 2400, usual), far(1, 2, 1800, usual), far(2, 3, 2400, usual), far(3, 0, 1800, usual),
		far(0, 2, 3000, usual), far(3, 1, 3000, usual)})
	for i, want := range []plan.Point{{100, 200}, {2500, 200}, {2500, 2000}, {100, 2000}} {
		near(t, "corner", f.Corners[i].Sub(want).Len(), 0, 1e-5)
	}
	if f.Assumed.Any() || !f.Closes {
		t.Errorf("assumed %v, closes %v", f.Assumed, f.Closes)
	}
	near(t, "open", f.OpenMM, 0, 1e-5)
}

// Two lengths and nothing else: all corners are taken as square, and said to be.
func TestTwoLengthsAreARectangle(t *testing.T) {
	drawn := []plan.Point{{0, 0}, {3000, 0}, {3000, 1000}, {0, 1000}}
	f := worked(t, drawn, []survey.Measure{far(0, 1, 2400, usual), far(1, 2, 1900, usual)})
	for i, want := range []plan.Point{{0, 0}, {2400, 0}, {2400, 1900}, {0, 1900}} {
		near(t, "corner", f.Corners[i].Sub(want).Len(), 0, 1e-4)
	}
	if !slices.Equal(f.Assumed.Square, []int{0, 1, 2, 3}) || len(f.Assumed.Walls)+len(f.Assumed.Drawn) > 0 {
		t.Errorf("assumed %v", f.Assumed)
	}
	// With one length alone, the walls across it are as drawn as well.
	f = worked(t, drawn, []survey.Measure{far(0, 1, 2400, usual)})
	for i, want := range []plan.Point{{0, 0}, {2400, 0}, {2400, 1000}, {0, 1000}} {
		near(t, "corner", f.Corners[i].Sub(want).Len(), 0, 1e-3)
	}
	if !slices.Equal(f.Assumed.Walls, []int{1, 3}) {
		t.Errorf("assumed %v", f.Assumed)
	}
	// With none it is as drawn.
	if f = worked(t, drawn, nil); !slices.Equal(f.Corners, drawn) || len(f.Assumed.Walls) != 4 {
		t.Errorf("with nothing measured %v", f)
	}
}

// A wall that leans by 40 mm over 2000: the diagonals tell so, by Pythagoras: a room of 3000 by 2000 with the far
// corner at 3040.
func TestOutOfSquare(t *testing.T) {
	drawn := []plan.Point{{0, 0}, {3000, 0}, {3000, 2000}, {0, 2000}}
	f := worked(t, drawn, []survey.Measure{far(0, 1, 3000, usual), far(1, 2, math.Hypot(40, 2000), usual), far(2, 3, 3040, usual), far(3, 0, 2000, usual),
		far(0, 2, math.Hypot(3040, 2000), usual), far(1, 3, math.Hypot(3000, 2000), usual)})
	leans := survey.Leans(drawn, f.Corners)
	if len(leans) != 4 {
		t.Fatalf("%v", leans)
	}
	deg := math.Atan2(40, 2000) * 180 / math.Pi
	for i, want := range []struct {
		deg, mm float64
		wall    int
	}{{0, 0, 0}, {deg, 3000 * math.Sin(math.Atan2(40, 2000)), 0}, {-deg, -3040 * math.Sin(math.Atan2(40, 2000)), 2}, {0, 0, 2}} {
		near(t, "lean", leans[i].Deg, want.deg, 1e-6)
		near(t, "lean over the wall", leans[i].MM, want.mm, 1e-4)
		if leans[i].Wall != want.wall || leans[i].Corner != i {
			t.Errorf("lean %v", leans[i])
		}
	}
}

// What does not close is shared out: opposite sides of a rectangle measured 2400 and 2400, both diagonals 3004, where
// Pythagoras gives 3000. By symmetry the room stays a rectangle of sides a and b, and the sum of squares
// 2(a-2400)² + 2(b-1800)² + 2(√(a²+b²)-3004)² is least where each side is longer by the same share of its cosine
// of what is left on the diagonals: a = 2400+0.8x, b = 1800+0.6x, the diagonals 3000+x, and x = 3004-3000-x: 2 mm.
func TestSharedOut(t *testing.T) {
	drawn := []plan.Point{{0, 0}, {2400, 0}, {2400, 1800}, {0, 1800}}
	f := worked(t, drawn, []survey.Measure{far(0, 1, 2400, usual), far(1, 2, 1800, usual), far(2, 3, 2400, usual), far(3, 0, 1800, usual),
		far(0, 2, 3004, usual), far(1, 3, 3004, usual)})
	for i, want := range []float64{1.6, 1.2, 1.6, 1.2, -2, -2} {
		near(t, "residual", f.Residuals[i].MM, want, 1e-3)
	}
	near(t, "corner", f.Corners[2].Sub(plan.Point{2401.6, 1801.2}).Len(), 0, 2e-3)
	// One measure is too many. Its weights are equal, so all are checked by as much as their squares share:
	// 4/16 of the diagonal's residual is its own: what it is off the others is 2/0.25.
	near(t, "open", f.OpenMM, 8, 0.02)
}

// One diagonal 60 long: with four walls and the other diagonal any of the six would do, but only without that one is
// the room as square as it was drawn.
func TestLongDiagonalIsNamed(t *testing.T) {
	drawn := []plan.Point{{0, 0}, {2500, 0}, {2500, 2000}, {0, 2000}}
	measures := []survey.Measure{far(0, 1, 2400, usual), far(1, 2, 1801, usual), far(2, 3, 2400, usual), far(3, 0, 1800, usual),
		far(0, 2, 3060, usual), far(1, 3, 2999, usual)}
	f := worked(t, drawn, measures)
	if f.Closes || f.Blunder == nil || f.Blunder.Measure != 4 {
		t.Fatalf("closes %v, blunder %v, open %v", f.Closes, f.Blunder, f.OpenMM)
	}
	near(t, "blunder", f.Blunder.By, 60, 3)
	// A wall 60 short likewise.
	measures[4].Value, measures[2].Value = 3000, 2340
	if f = worked(t, drawn, measures); f.Blunder == nil || f.Blunder.Measure != 2 {
		t.Fatalf("blunder %v", f.Blunder)
	}
	near(t, "blunder", f.Blunder.By, -60, 3)
	// Two at once do not close, and none is named.
	measures[4].Value, measures[1].Value = 3060, 1720
	if f = worked(t, drawn, measures); f.Closes || f.Blunder != nil {
		t.Errorf("two blunders: closes %v, blunder %v", f.Closes, f.Blunder)
	}
}

// A wall measured twice counts by how well each tells it: 2400 ± 1 and 2410 ± 2 come to (4·2400 + 2410)/5 = 2402.
func TestWeights(t *testing.T) {
	f := worked(t, []plan.Point{{0, 0}, {2000, 0}, {2000, 1000}, {0, 1000}}, []survey.Measure{
		far(0, 1, 2400, 1), far(1, 0, 2410, 2), far(1, 2, 1000, 2),
	})
	near(t, "wall", f.Corners[1].X(), 2402, 1e-4)
	near(t, "first against the second", f.Residuals[0].AgainstRest, -10, 1e-3)
	near(t, "second against the first", f.Residuals[1].AgainstRest, 10, 1e-3)
}

// An angle stated at a corner of a room with two walls measured: 80° between walls of 2000 and 1000.
func TestAngle(t *testing.T) {
	drawn := []plan.Point{{0, 0}, {2000, 0}, {0, 1000}}
	f := worked(t, drawn, []survey.Measure{far(0, 1, 2000, usual), far(0, 2, 1000, usual), at(0, 1, 2, 80, 0.5)})
	sin, cos := math.Sincos(80 * math.Pi / 180)
	near(t, "corner", f.Corners[2].Sub(plan.Point{1000 * cos, 1000 * sin}).Len(), 0, 1e-5)
	// A corner that comes in has over 180°.
	drawn = []plan.Point{{0, 0}, {3000, 0}, {3000, 1000}, {1000, 1000}, {1000, 2000}, {0, 2000}}
	f = worked(t, drawn, []survey.Measure{at(3, 4, 2, 280, 0.5)})
	if l := survey.Leans(drawn, f.Corners)[3]; l.Corner != 3 || math.Abs(l.Deg-10) > 1e-4 {
		t.Errorf("%v", l)
	}
}

// What cannot be is refused.
func TestRefused(t *testing.T) {
	drawn := []plan.Point{{0, 0}, {1000, 0}, {0, 1000}}
	var far3 *survey.ImpossibleError
	_, err := survey.Work(drawn, []survey.Measure{far(0, 1, 1000, usual), far(1, 2, 1000, usual), far(2, 0, 2100, usual)})
	if !errors.As(err, &far3) || far3.Measure != 2 || math.Abs(far3.RoundMM-2000-12) > 1e-9 {
		t.Errorf("an impossible triangle gives %v", err)
	}
	for name, m := range map[string]survey.Measure{
		"no length": far(0, 1, 0, usual), "a length less than none": far(0, 1, -5, usual), "no number": far(0, 1, math.NaN(), usual),
		"no end": far(0, 1, math.Inf(1), usual), "a corner that is not": far(0, 3, 1000, usual), "one corner": far(1, 1, 1000, usual),
		"not accurate": far(0, 1, 1000, 0), "angle at its own end": at(1, 1, 2, 90, 1), "a whole turn": at(0, 1, 2, 360, 1),
	} {
		if _, err := survey.Work(drawn, []survey.Measure{m}); !errors.Is(err, survey.ErrMeasure) {
			t.Errorf("%s gives %v", name, err)
		}
	}
}

// rooms are simple rooms of 3 to 9 corners, of either walk: corners at rising angles about a middle, and at least as far
// from it and apart as rooms have them.
func rooms(t *rapid.T) []plan.Point {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	out := make([]plan.Point, n)
	for i := range out {
		a := (float64(i) + rapid.Float64Range(0, 0.6).Draw(t, "angle")) * 2 * math.Pi / float64(n)
		out[i] = plan.DirectionDeg(a * 180 / math.Pi).Mul(rapid.Float64Range(900, 3000).Draw(t, "radius"))
	}
	if rapid.Bool().Draw(t, "clockwise") {
		slices.Reverse(out)
	}
	return out
}

// sketchOffMM is how far a corner is drawn off its place, along each axis.
const sketchOffMM = 80

// sketched is the room as somebody draws it who has not measured it: with corners off by up to 80 mm.
func sketched(t *rapid.T, room []plan.Point) []plan.Point {
	out := slices.Clone(room)
	for i := range out {
		off := rapid.Float64Range(-sketchOffMM, sketchOffMM)
		out[i] = out[i].Add(plan.Point{off.Draw(t, "x"), off.Draw(t, "y")})
	}
	return out
}

// measured are all walls and all distances from corner to corner.
func measured(room []plan.Point) (out []survey.Measure) {
	for i := range room {
		for j := range i {
			out = append(out, far(j, i, room[i].Sub(room[j]).Len(), usual))
		}
	}
	return out
}

// same tells whether two rooms have the same distances from corner to corner, and turn the same way.
func same(t *rapid.T, a, b []plan.Point, withinMM float64) {
	for i := range a {
		for j := range i {
			if d := math.Abs(a[i].Sub(a[j]).Len() - b[i].Sub(b[j]).Len()); d > withinMM {
				t.Fatalf("corners %d and %d are off by %v", j, i, d)
			}
		}
	}
	if (plan.Ring(a).SignedArea() > 0) != (plan.Ring(b).SignedArea() > 0) {
		t.Fatal("the other way round")
	}
}

// Measures without error give back the room.
func TestMeasuresGiveTheRoomBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rooms(t)
		f, err := survey.Work(sketched(t, room), measured(room))
		if err != nil {
			t.Fatal(err)
		}
		same(t, f.Corners, room, 1e-4)
		if !f.Closes || f.OpenMM > 1e-3 || f.Assumed.Any() {
			t.Fatalf("closes %v, open %v, assumed %v", f.Closes, f.OpenMM, f.Assumed)
		}
	})
}

// The order of measures and which end comes first make no difference at all.
func TestOrderOfMeasures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rooms(t)
		drawn, measures := sketched(t, room), measured(room)
		for i := range measures {
			measures[i].Value += rapid.Float64Range(-2, 2).Draw(t, "error")
		}
		f, err := survey.Work(drawn, measures)
		if err != nil {
			t.Fatal(err)
		}
		order := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1)).Perm(len(measures))
		other := make([]survey.Measure, len(measures))
		for i, k := range order {
			if other[i] = measures[k]; i%2 == 0 {
				other[i].From, other[i].To = other[i].To, other[i].From
			}
		}
		g, err := survey.Work(drawn, other)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(f.Corners, g.Corners) {
			t.Fatalf("%v\n%v", f.Corners, g.Corners)
		}
		for i, k := range order {
			if g.Residuals[i] != f.Residuals[k] {
				t.Fatalf("residual %v, was %v", g.Residuals[i], f.Residuals[k])
			}
		}
		if !survey.Settled(drawn, measures, f.Corners) {
			t.Fatal("not settled")
		}
	})
}

// A room walked the other way round is the same room.
func TestWalkedTheOtherWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rooms(t)
		n := len(room)
		drawn, measures := sketched(t, room), measured(room)
		other := slices.Clone(drawn)
		slices.Reverse(other)
		back := slices.Clone(measures)
		for i := range measures {
			measures[i].Value += rapid.Float64Range(-2, 2).Draw(t, "error")
			back[i] = measures[i]
			back[i].From, back[i].To = n-1-back[i].From, n-1-back[i].To
		}
		f, err := survey.Work(drawn, measures)
		if err != nil {
			t.Fatal(err)
		}
		g, err := survey.Work(other, back)
		if err != nil {
			t.Fatal(err)
		}
		slices.Reverse(g.Corners)
		same(t, g.Corners, f.Corners, 1e-4)
	})
}

// One more measure that agrees moves nothing: of rooms with as many measures as they need and some more,
func TestConsistentMeasureMovesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rooms(t)
		drawn, n := sketched(t, room), len(room)
		var some []survey.Measure
		for _, m := range measured(room) {
			needed := m.From == 0 || m.To == m.From+1
			if m.Value += rapid.Float64Range(-2, 2).Draw(t, "error"); needed || rapid.Bool().Draw(t, "measured") {
				some = append(some, m)
			}
		}
		i := rapid.IntRange(1, n-1).Draw(t, "corner")
		addsNothing(t, drawn, some, rapid.IntRange(0, i-1).Draw(t, "from"), i, sketchOffMM*math.Sqrt2)
	})
}

// and of rooms drawn square with fewer.
func TestConsistentMeasureMovesNoSquareRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(800, 4000)
		a, b, c, d := side.Draw(t, "a"), side.Draw(t, "b"), side.Draw(t, "c"), side.Draw(t, "d")
		drawn := rapid.SampledFrom([][]plan.Point{
			{{0, 0}, {a, 0}, {a, b}, {0, b}},
			{{0, 0}, {a + c, 0}, {a + c, b}, {a, b}, {a, b + d}, {0, b + d}},
			{{0, 0}, {0, b}, {a, b}, {a, 0}},
		}).Draw(t, "drawn")
		var some []survey.Measure
		for i := range drawn {
			if rapid.Bool().Draw(t, "measured") {
				next := (i + 1) % len(drawn)
				other := rapid.Float64Range(-30, 30).Draw(t, "other")
				some = append(some, far(i, next, drawn[next].Sub(drawn[i]).Len()+other, usual))
			}
		}
		i := rapid.IntRange(1, len(drawn)-1).Draw(t, "corner")
		addsNothing(t, drawn, some, rapid.IntRange(0, i-1).Draw(t, "from"), i, 30)
	})
}

// Three corners all but in line: their angles are taken as drawn until the short wall is measured twice. The middle one was drawn
// 3.7° off, which carries the far one along by 158 mm.
func TestConsistentMeasureInALineOfCorners(t *testing.T) {
	drawn := []plan.Point{{861.58, 260.16}, {533.08, 803.98}, {-1321.53, 2286.73}, {-3065.2, -5.3}, {-510.95, -899.09}, {2337.43, -1039.53}}
	addsNothing(t, drawn, []survey.Measure{
		far(0, 1, 674.6573063861924, usual), far(0, 2, 2979.1858397303613, usual), far(1, 2, 2324.238730159235, usual),
		far(0, 3, 3868.62392538496, usual), far(2, 3, 2840.413171824726, usual), far(0, 4, 1787.5063367056055, usual),
		far(3, 4, 2643.4540242900393, usual), far(0, 5, 1964.6119074620083, usual), far(1, 5, 2628.7424440358586, usual),
		far(4, 5, 2849.9721881488103, usual),
	}, 0, 1, sketchOffMM*math.Sqrt2)
}

// addsNothing adds to measures the distance between two corners that they come to. That is where a sum of squares is
// least, and stays so with one more square that is nought: no corner moves. Where something is taken as drawn, what
// decides on it may be another then: they move by less than what is drawn is off what is measured, and what an angle as
// drawn is off carries along all that lies behind its corner.
//
// Why so: one room becomes another with walls as long by turning, at one corner after the other from the last to the
// first, all that lies behind it by what its angle differs. All behind has the other room's shape by then, so each
// corner goes along an arc of that angle round one that it is no farther from than the other room reaches, and as far
// in all as these arcs are long. Before, such an angle is as drawn; after, it is what the further measure leaves. It is
// taken from the corners worked out: that they lie right with it is not told here, only that nothing else moves.
func addsNothing(t interface {
	Fatal(...any)
	Fatalf(string, ...any)
}, drawn []plan.Point, some []survey.Measure, j, i int, drawnOffMM float64,
) {
	f, err := survey.Work(drawn, some)
	if err != nil {
		t.Fatal(err)
	}
	more := append(slices.Clone(some), far(j, i, f.Corners[i].Sub(f.Corners[j]).Len(), usual))
	g, err := survey.Work(drawn, more)
	if err != nil {
		t.Fatal(err)
	}
	mostMM := 0.01
	if f.Assumed.Any() {
		mostMM = drawnOffMM
		for _, at := range f.Assumed.Drawn {
			mostMM += math.Abs(math.Remainder(turnAt(drawn, at)-turnAt(g.Corners, at), 2*math.Pi)) * reachFrom(g.Corners, at)
		}
	}
	for i := range f.Corners {
		if by := g.Corners[i].Sub(f.Corners[i]).Len(); by > mostMM {
			t.Fatalf("corner %d moves by %v", i, by)
		}
	}
}

// turnAt is the angle between the two walls at a corner, radians.
func turnAt(corners []plan.Point, at int) float64 {
	n := len(corners)
	on, back := corners[(at+1)%n].Sub(corners[at]), corners[(at+n-1)%n].Sub(corners[at])
	return math.Atan2(plan.Cross(on, back), on.Dot(back))
}

// reachFrom is how far the farthest corner lies from one.
func reachFrom(corners []plan.Point, at int) (mm float64) {
	for _, c := range corners {
		mm = math.Max(mm, c.Sub(corners[at]).Len())
	}
	return mm
}

// Whatever is measured, it comes to rest or is refused, twice to the same, and measures that are no more than
// are needed are all kept.
func TestWhateverIsMeasured(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drawn := rooms(t)
		n := len(drawn)
		corner := rapid.IntRange(0, n-1)
		var measures []survey.Measure
		for range rapid.IntRange(0, 12).Draw(t, "measures") {
			if rapid.Bool().Draw(t, "angle") {
				c := corner.Draw(t, "at")
				measures = append(measures, at(c, (c+1)%n, (c+n-1)%n, rapid.Float64Range(20, 340).Draw(t, "deg"), 0.5))
				continue
			}
			measures = append(measures, far(corner.Draw(t, "from"), corner.Draw(t, "to"), rapid.Float64Range(100, 9000).Draw(t, "mm"), usual))
		}
		f, err := survey.Work(drawn, measures)
		g, again := survey.Work(drawn, measures)
		if (err == nil) != (again == nil) || !slices.Equal(f.Corners, g.Corners) {
			t.Fatalf("%v and %v", f, g)
		}
		if err != nil {
			return
		}
		for i, c := range f.Corners {
			if math.IsNaN(c.X() + c.Y()) {
				t.Fatalf("corner %d is %v", i, c)
			}
		}
		if !survey.Settled(drawn, measures, f.Corners) {
			t.Fatal("not settled")
		}
		if off := slices.Clone(f.Corners); true {
			off[1] = off[1].Add(plan.Point{1, 1})
			if survey.Settled(drawn, measures, off) {
				t.Fatal("settled anywhere")
			}
		}
	})
}
