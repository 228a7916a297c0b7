package unknown_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/question"
	"underfall/geometry/rule"
	"underfall/geometry/settle"
	"underfall/geometry/unknown"
)

// start is the starting job of a region with the waste down through the floor, which nothing stops
// and of which all is known.
func start(t testing.TB, region string) job.Job {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := edit.ExitKind(job.ExitFloor).Apply(edit.Start(region, shelf))
	j.Standings = nil
	return j
}

func notKnown(j job.Job, keys ...string) job.Job {
	j = j.Clone()
	for _, key := range keys {
		j.SetStanding(key, job.NotKnown)
	}
	return j
}

func evaluated(t testing.TB, j job.Job) geometry.Result {
	t.Helper()
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	return r
}

func explored(t testing.TB, r geometry.Result) unknown.Exploration {
	t.Helper()
	x, err := unknown.Explore(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// step is the step at the way in of a job, worked out afresh.
func step(t testing.TB, j job.Job) (mm float64, standing geometry.Standing) {
	t.Helper()
	a := evaluated(t, j).Answer(nil)
	s, _ := a.WayIn()
	return s.MM, a.Standing
}

// With nothing that is not known there is one case, the answer is the job's own, and nothing is
// worth a look.
func TestAllIsKnown(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		x := explored(t, r)
		own := r.Answer(nil)
		if len(x.Cases) != 1 || len(x.Unknowns) > 0 || x.Look != nil || len(x.Untried) > 0 {
			t.Errorf("%s: %d cases, %d unknowns, look %v", r.Stated.Name, len(x.Cases), len(x.Unknowns), x.Look)
		}
		if got := x.Answer(own); !reflect.DeepEqual(got, own) {
			t.Errorf("%s: another answer: %v", r.Stated.Name, got.Standing)
		}
		if s, ok := own.WayIn(); ok && (x.Step != unknown.Range{LeastMM: s.MM, GreatestMM: s.MM}) {
			t.Errorf("%s: steps %v, the one there is %v", r.Stated.Name, x.Step, s.MM)
		}
	}
	var none *unknown.Exploration
	own := demotest.Shown(t)[0].Answer(nil)
	if got := none.Answer(own); !reflect.DeepEqual(got, own) {
		t.Error("what is not explored yet has another answer")
	}
}

// Two tiles of which neither is known: in the shower 9, or 7 or 12 as usual; in the room the same.
// The step goes up with the one and down with the other, so that it lies from 5 under to 5 over what
// is drawn: 10 apart in nine cases. Whichever tile is known, the other leaves 12 − 7 = 5 open: each
// is worth 5. The thickness of the slab changes nothing of a floor on it.
func TestTwoTilesByHand(t *testing.T) {
	j := notKnown(start(t, "UK"), "layers.shower.tile.thicknessMM", "layers.room.tile.thicknessMM")
	j.Layers.Shower.Tile.ThicknessMM, j.Layers.Room.Tile.ThicknessMM = 9, 9
	drawn, _ := step(t, j)
	x := explored(t, evaluated(t, j))
	if len(x.Cases) != 9 || len(x.Unknowns) != 2 || len(x.Untried) != 0 {
		t.Fatalf("%d cases of %d unknowns", len(x.Cases), len(x.Unknowns))
	}
	near(t, "least step", x.Step.LeastMM, drawn-5)
	near(t, "greatest step", x.Step.GreatestMM, drawn+5)
	for _, u := range x.Unknowns {
		near(t, u.Key, u.Worth.MM, 5)
		if u.Alone || len(u.Values) != 3 || u.Worth.Built != 0 {
			t.Errorf("%s: %+v", u.Key, u)
		}
	}
	if x.Look == nil || x.Look.Do.ID != "look.measure" {
		t.Errorf("look %+v", x.Look)
	}
	// Each case is its job worked out afresh, and states what it says.
	for _, c := range x.Cases {
		mm, standing := step(t, c.Job)
		s, _ := c.Answer.WayIn()
		if mm != s.MM || standing != c.Answer.Standing || len(c.Job.Standings) != 0 {
			t.Errorf("%v: step %v, afresh %v; %v, afresh %v; %v", c.What(), s.MM, mm, c.Answer.Standing, standing, c.Job.Standings)
		}
		madeBy(t, j, c.Edit, c.Job)
	}
	slab := explored(t, evaluated(t, notKnown(start(t, "UK"), "floor.slabThicknessMM")))
	if len(slab.Cases) != 3 || slab.Unknowns[0].Worth.MM != 0 || slab.Look != nil {
		t.Errorf("slab: %d cases, worth %v, look %v", len(slab.Cases), slab.Unknowns[0].Worth, slab.Look)
	}
}

// madeBy holds that an edit makes a job, as it is and as every change is settled.
func madeBy(t *testing.T, from job.Job, e edit.Edit, want job.Job) {
	t.Helper()
	if !reflect.DeepEqual(e.Apply(from), want) {
		t.Error("the edit makes another job")
	}
	if s := settle.Do(from, e); s.Refused != nil || !reflect.DeepEqual(s.Job, want) {
		t.Errorf("settled, it makes another job: %v, %v", s.Refused, s.Moved)
	}
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// ranged is the start with the room's tile not known, drawn at the greatest it may be, and other
// values usual for it than in the region.
func ranged(t *testing.T, least, greatest float64) geometry.Result {
	j := notKnown(start(t, "UK"), "layers.room.tile.thicknessMM")
	j.Layers.Room.Tile.ThicknessMM = greatest
	r := evaluated(t, j)
	r.Pack.Usual = rule.Usual{Inputs: []rule.UsualInput{{Key: "layers.room.tile.thicknessMM", Values: []float64{least, greatest}}}}
	return r
}

// Up to 3 mm nothing is worth a look; up to 10 the answer is known; beyond either, and by no more
// than a hundredth of a millimetre, it is otherwise.
func TestLimitsOfWhatIsTheSame(t *testing.T) {
	for _, c := range []struct {
		leastMM float64
		look    bool
		known   bool
	}{{17, false, true}, {16.99, true, true}, {10, true, true}, {9.99, true, false}} {
		r := ranged(t, c.leastMM, 20)
		x := explored(t, r)
		near(t, "worth", x.Unknowns[0].Worth.MM, 20-c.leastMM)
		if (x.Look != nil) != c.look {
			t.Errorf("%v to 20: a look %v, want %v", c.leastMM, x.Look != nil, c.look)
		}
		own := r.Answer(nil)
		a := x.Answer(own)
		if known := a.Standing != geometry.NotKnown; known != c.known || own.Standing == geometry.NotKnown {
			t.Errorf("%v to 20: %v, of its own %v", c.leastMM, a.Standing, own.Standing)
		}
		if !c.known && a.Headline().ID != "answer.depends-step" {
			t.Errorf("headline %v", a.Headline())
		}
	}
}

// What is under the floor is not known: concrete as drawn, or joists in either direction, with the
// trap between two of them or over one. Each case is held against jobs made by hand, on the floor and
// let in: where the trap lies between two joists it is half a bay, 200, from the nearest.
func TestWhatIsUnderTheFloor(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := notKnown(edit.Start("UK", shelf), "floor.kind")
	r := evaluated(t, j)
	x := explored(t, r)
	if len(x.Cases) != 5 {
		t.Fatalf("%d cases", len(x.Cases))
	}
	trap := r.Layout.TrapCentre
	least, greatest := math.Inf(1), math.Inf(-1)
	for i, c := range x.Cases {
		madeBy(t, j, c.Edit, c.Job)
		got, _ := c.Answer.WayIn()
		least, greatest = math.Min(least, got.MM), math.Max(greatest, got.MM)
		if i == 0 {
			if c.Job.Floor.Kind != job.FloorSlab || c.Job.StandingOf("floor.kind") != job.Stated {
				t.Errorf("as drawn: %v, %q", c.Job.Floor.Kind, c.Job.StandingOf("floor.kind"))
			}
			continue
		}
		// The trap is 68 from the wall at 1900 and 700 along it. Joists along X are counted from
		// Y = 0, joists along Y from X = 2400.
		fromMM := trap.Y()
		if c.Job.Floor.Joists.DirectionDeg == 90 {
			fromMM = 2400 - trap.X()
		}
		off := math.Mod(fromMM-c.Job.Floor.Joists.FirstOffsetMM+4000, 400)
		off = math.Min(off, 400-off)
		if want := []float64{0, 200, 0, 200, 0}[i]; math.Abs(off-want) > 0.5 {
			t.Errorf("case %d: the nearest joist is %v from the trap, want %v", i, off, want)
		}
		best := math.Inf(1)
		for _, support := range []job.SupportKind{job.OnFloor, job.BetweenJoists} {
			k := c.Job.Clone()
			k.Base.Support = support
			if support == job.BetweenJoists {
				k.Base.NogginSpacingMM = 600
			}
			if mm, standing := step(t, k); standing != geometry.Stops {
				best = math.Min(best, mm)
			}
		}
		if math.Abs(best-got.MM) > 1e-6 {
			t.Errorf("case %d, %v: step %v, the best by hand %v", i, c.What(), got.MM, best)
		}
	}
	// Known, nothing is left open: it is worth all there is.
	near(t, "worth", x.Unknowns[0].Worth.MM, greatest-least)
	if greatest-least < 50 || x.Look == nil || x.Look.Do.ID != "look.floor" || len(x.Look.Cautions) < 3 {
		t.Errorf("from %v to %v, look %+v", least, greatest, x.Look)
	}
	if a := x.Answer(r.Answer(nil)); a.Standing != geometry.NotKnown {
		t.Errorf("it stands %v", a.Standing)
	}
	// Who holds the direction, or how the base stands, has fewer cases, or other ones.
	j.SetStanding("floor.joists.directionDeg", job.Held)
	j.SetStanding("floor.joists.firstOffsetMM", job.Held)
	j.SetStanding("base.support", job.Held)
	held := explored(t, evaluated(t, j))
	if len(held.Cases) != 2 || held.Cases[1].Job.Base.Support != job.OnFloor {
		t.Errorf("held: %d cases", len(held.Cases))
	}
}

// Where the water goes is not known: through each of the walls with an outside, into a stack and down
// through the floor. Some of it cannot be built, which the answer says, and a look round outside
// settles.
func TestWhereTheWaterGoes(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := edit.Start("UK", shelf)
	ground := -150.0
	j.Room.Walls[2].OutsideGroundMM = &ground
	j.Drain.OutletJointOutsideMM = 60 // larger than the hole straight out behind the drain, which it would reach into
	j = notKnown(j, "waste.exit.kind")
	r := evaluated(t, j)
	x := explored(t, r)
	var kinds []string
	stops, built := 0, 0
	for _, c := range x.Cases {
		e := c.Job.Waste.Exit
		madeBy(t, j, c.Edit, c.Job)
		kinds = append(kinds, fmt.Sprintf("%s %d", e.Kind, e.Wall))
		if c.Answer.Standing == geometry.Stops {
			stops++
		} else {
			built++
		}
	}
	if want := []string{"wall 3", "wall 2", "stack 3", "floor 3"}; !slices.Equal(kinds, want) {
		t.Errorf("%v, want %v", kinds, want)
	}
	a := x.Answer(r.Answer(nil))
	if mixed := stops > 0 && built > 0; !mixed || a.Standing != geometry.NotKnown || a.Headline().ID != "answer.depends-built" {
		t.Errorf("%d stop, %d can be built: %v, %v", stops, built, a.Standing, a.Headline())
	}
	if x.Unknowns[0].Worth.Built != 1 || x.Look == nil || x.Look.Do.ID != "look.exit" {
		t.Errorf("%+v, %+v", x.Unknowns[0].Worth, x.Look)
	}
	// Only which wall is not known: the walls alone.
	j.SetStanding("waste.exit.kind", job.Stated)
	j.SetStanding("waste.exit.wall", job.NotKnown)
	if x := explored(t, evaluated(t, j)); len(x.Cases) != 2 {
		t.Errorf("%d walls", len(x.Cases))
	}
}

// Five numbers of three values each: two are paired, 9 cases; three would be 27, more than two dozen,
// so the others are tried with all else as drawn: two further values each. Of these each is worth how
// far it moves the step by itself: a tile in the room of 7 to 12 by 5.
func TestNoMoreThanTwoDozen(t *testing.T) {
	j := notKnown(start(t, "UK"), "floor.slabThicknessMM", "layers.room.tile.thicknessMM", "layers.shower.tile.thicknessMM",
		"room.doorways[0].neighbourFFLMM", "floor.setDownMM")
	j.Floor.SlabThicknessMM, j.Room.Doorways[0].NeighbourFFLMM = 140, 30
	j.Layers.Shower.Tile.ThicknessMM, j.Layers.Room.Tile.ThicknessMM = 9, 9
	x := explored(t, evaluated(t, j))
	if len(x.Cases) != 9+2+2 || !slices.Equal(x.Untried, []string{"floor.setDownMM"}) {
		t.Errorf("%d cases; not tried: %v", len(x.Cases), x.Untried)
	}
	want := map[string]float64{"floor.slabThicknessMM": 0, "layers.room.tile.thicknessMM": 5, "layers.shower.tile.thicknessMM": 5,
		"room.doorways[0].neighbourFFLMM": 0}
	for _, u := range x.Unknowns {
		if alone := u.Key == "layers.shower.tile.thicknessMM" || u.Key == "room.doorways[0].neighbourFFLMM"; u.Alone != alone {
			t.Errorf("%s: alone %v", u.Key, u.Alone)
		}
		near(t, u.Key, u.Worth.MM, want[u.Key])
	}
}

// A value of an unknown, found out, states that one alone: explored anew, the cases are those that had
// it.
func TestWhatWasFoundOut(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := notKnown(edit.Start("UK", shelf), "floor.kind", "layers.shower.tile.thicknessMM")
	x := explored(t, evaluated(t, j))
	if len(x.Cases) != 15 {
		t.Fatalf("%d cases", len(x.Cases))
	}
	for _, v := range x.Unknowns[0].Values {
		k := v.Edit.Apply(j)
		if k.StandingOf("floor.kind") != job.Stated || k.StandingOf("layers.shower.tile.thicknessMM") != job.NotKnown {
			t.Errorf("%v: %v", v.What, k.Standings)
		}
		var steps []float64
		for _, c := range x.Cases {
			if c.Is[0].ID == v.ID {
				s, _ := c.Answer.WayIn()
				steps = append(steps, s.MM)
			}
		}
		again := explored(t, evaluated(t, k))
		if len(again.Cases) != 3 || len(steps) != 3 {
			t.Fatalf("%v: %d cases, before %d", v.What, len(again.Cases), len(steps))
		}
		for i, c := range again.Cases {
			if s, _ := c.Answer.WayIn(); math.Abs(s.MM-steps[i]) > 1e-6 {
				t.Errorf("%v: step %v, before %v", v.What, s.MM, steps[i])
			}
		}
	}
}

// What a person holds narrows what may be: no case moves it.
func TestCasesLeaveWhatIsHeld(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]int{"drain.outletTurnDeg": -1, "waste.exit.offsetMM": 1, "floor.kind": -1, "base.support": -1} {
		j := notKnown(edit.Start("UK", shelf), "waste.exit.kind", "layers.room.tile.thicknessMM")
		j.SetStanding(key, job.Held)
		x := explored(t, evaluated(t, j))
		exits := map[string]bool{}
		for _, c := range x.Cases {
			exits[c.Is[0].ID] = true
			if moved := j.Moved(&c.Job, job.Held); len(moved) > 0 {
				t.Errorf("%v moves %v", c.What(), moved)
			}
		}
		if want > 0 && len(exits) != want {
			t.Errorf("%s held: %v", key, exits)
		}
	}
}

// Which way the joists of a timber floor run is not known, and where the first lies is assumed: one look
// tells both, and there are four ways for them to lie. The first is as drawn. Held where it is, the
// first joist leaves the two directions; alone not known, what a trap comes to over one or between two.
func TestHowJoistsLie(t *testing.T) {
	for _, c := range []struct {
		run, first job.Standing
		cases      int
		assumed    int
		key        string
	}{
		{job.NotKnown, job.Assumed, 4, 0, "floor.joists.directionDeg"}, {job.NotKnown, job.Held, 2, 0, "floor.joists.directionDeg"},
		{job.Held, job.NotKnown, 2, 0, "floor.joists.firstOffsetMM"}, {job.Stated, job.Assumed, 1, 1, ""},
	} {
		j := edit.FloorKind(job.FloorTimber).Apply(start(t, "UK"))
		j.SetStanding("floor.joists.directionDeg", c.run)
		j.SetStanding("floor.joists.firstOffsetMM", c.first)
		x := explored(t, evaluated(t, j))
		if len(x.Cases) != c.cases || len(x.Assumed) != c.assumed || len(x.Untried) > 0 {
			t.Errorf("%v, %v: %d cases, %d assumed, %v", c.run, c.first, len(x.Cases), len(x.Assumed), x.Untried)
		}
		if c.key != "" && (len(x.Unknowns) != 1 || x.Unknowns[0].Key != c.key) {
			t.Errorf("%v, %v: %+v", c.run, c.first, x.Unknowns)
		}
	}
}

// What is assumed makes no case and changes no answer, and what it is worth is told.
func TestWhatIsAssumed(t *testing.T) {
	j := start(t, "UK")
	j.SetStanding("layers.room.tile.thicknessMM", job.Assumed)
	j.SetStanding("shower.widthMM", job.Assumed) // of which nothing usual is known
	r := evaluated(t, j)
	x := explored(t, r)
	if len(x.Cases) != 1 || len(x.Assumed) != 1 || len(x.Untried) != 0 {
		t.Fatalf("%d cases, %d assumed, %v", len(x.Cases), len(x.Assumed), x.Untried)
	}
	near(t, "worth", x.Assumed[0].Worth.MM, 5) // 7 to 12
	own := r.Answer(nil)
	if a := x.Answer(own); a.Standing != own.Standing || x.Look == nil || x.Look.Of.Key != "layers.room.tile.thicknessMM" {
		t.Errorf("%v, look %+v", a.Standing, x.Look)
	}
}

// A wall that is assumed to be of brick may be of studs, which are then clear of the hole: the trade
// finds them before it drills. It settles nothing, and that is said.
func TestStudsAreClearOfTheHole(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := notKnown(edit.Start("UK", shelf), "room.walls[3].kind")
	x := explored(t, evaluated(t, j))
	if len(x.Cases) != 3 || x.Rest().IsZero() || x.Unknowns[0].Worth.Matters() {
		t.Fatalf("%d cases, %v, %+v", len(x.Cases), x.Rest(), x.Unknowns[0].Worth)
	}
	for _, c := range x.Cases {
		w, at := c.Job.Room.Walls[3], c.Job.Waste.Exit.OffsetMM
		if w.Kind != job.WallStud {
			continue
		}
		off := math.Mod(at-w.FirstStudMM+10*w.StudSpacingMM, w.StudSpacingMM)
		near(t, "from the nearest stud", math.Min(off, w.StudSpacingMM-off), w.StudSpacingMM/2)
	}
	all := explored(t, evaluated(t, start(t, "UK")))
	if !all.Rest().IsZero() {
		t.Errorf("all is known, and it says %v", all.Rest())
	}
}

// A job that cannot be worked out has one case, and says why; a cancelled exploration says so.
func TestWhatCannotBeExplored(t *testing.T) {
	j := notKnown(start(t, "UK"), "floor.kind")
	j.Shower.WidthMM = -1
	r := geometry.Evaluate(j, demotest.Packs(t)["UK"])
	x := explored(t, r)
	if a := x.Answer(r.Answer(nil)); len(x.Cases) != 1 || a.Standing != geometry.Stops || x.Look != nil {
		t.Errorf("%d cases, %v", len(x.Cases), a.Standing)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := unknown.Explore(ctx, evaluated(t, notKnown(start(t, "UK"), "floor.kind"))); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// What each region says is usual can be entered as it stands there, and leads somewhere.
func TestUsualValuesCanBeEntered(t *testing.T) {
	for region, pack := range demotest.Packs(t) {
		if len(pack.Usual.Inputs) < 10 {
			t.Errorf("%s: %d usual values", region, len(pack.Usual.Inputs))
		}
		for _, in := range pack.Usual.Inputs {
			p, ok := job.Find(in.Key)
			for _, v := range in.Values {
				if wrong := p.Check(v); ok && !wrong.IsZero() {
					t.Errorf("%s: %s of %v: %v", region, in.Key, v, wrong)
				}
			}
		}
	}
}

// Exploring what is under a floor, where the water can go and three numbers of it: two dozen cases.
func BenchmarkExplore(b *testing.B) {
	r := evaluated(b, notKnown(start(b, "UK"), "floor.kind", "waste.exit.kind", "floor.joists.depthMM", "floor.joists.spacingMM",
		"layers.shower.tile.thicknessMM"))
	for b.Loop() {
		if x := explored(b, r); len(x.Cases) < 15 {
			b.Fatal(len(x.Cases))
		}
	}
}

// Where it is not stated what the waste joins, the answer waits for that: none of what the assumed tile may be makes it
// another, and the look is at what it joins. Once that is stated the tile is worth a look, and without anything assumed
// what is not stated has its card alone.
func TestTheLookIsAtWhatTheAnswerWaitsFor(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := edit.Start("UK", shelf)
	j.Standings, j.Waste.Beyond = nil, nil
	if x := explored(t, evaluated(t, j)); x.Look != nil {
		t.Errorf("nothing is assumed, and the look is %+v", x.Look)
	}
	const tile = "layers.room.tile.thicknessMM"
	j.SetStanding(tile, job.Assumed)
	r := evaluated(t, j)
	if own := r.Answer(nil); own.Standing != geometry.NotKnown {
		t.Fatalf("the job is %s", own.Standing)
	}
	x := explored(t, r)
	for _, v := range x.Assumed[0].Values {
		if _, standing := step(t, v.Edit.Apply(j)); standing != geometry.NotKnown {
			t.Errorf("%v makes it %s", v.What, standing)
		}
	}
	if x.Look == nil || x.Look.Do.ID != "look.not-stated" || x.Look.Of.What.ID != "rule.beyond-unknown.heading" || len(x.Look.Of.Values) > 0 {
		t.Errorf("the look is %+v", x.Look)
	}
	beyond := job.UsualBeyond()
	j.Waste.Beyond = &beyond
	if x := explored(t, evaluated(t, j)); x.Look == nil || x.Look.Of.Key != tile {
		t.Errorf("stated, the look is %+v", x.Look)
	}
}

// Where joists lie that run along the pipe decides whether the base can go in between two of them, a hundred millimetres lower:
// that is worth looking at before what the waste joins, which settles none of the height; and what the base stands on is decided
// by it and is nothing to look at.
func TestTheLookIsAtWhatDecidesMost(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	p := question.PracticeIn("UK", shelf)
	s := p.Begin()
	s.Floor.Is = question.Timber
	s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1}
	for name, c := range map[string]struct {
		way  question.Runs
		want message.ID
	}{"along the pipe": {question.AlongA, "look.joists"}, "not known": {question.RunsNotKnown, "look.joists-run"}, "across it": {question.FromA, "look.not-stated"}} {
		s.Floor.Runs = c.way
		j, problems := p.Job(s)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		x := explored(t, evaluated(t, j))
		if x.Look == nil || x.Look.Do.ID != c.want {
			t.Errorf("joists %s: the look is %+v", name, x.Look)
		}
	}
}

// A concrete floor that turns out to be timber: nobody has said that the base stands on the deck, so the answer says what it comes
// to let in between the joists, worked out here by the job that is; and nothing once somebody has decided.
func TestTheBaseMayBeLetIn(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	p := question.PracticeIn("UK", shelf)
	s := p.Begin()
	s.Floor = question.Floor{Is: question.Concrete, Said: true}
	slab, problems := p.Job(s)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	j := edit.FloorKind(job.FloorTimber).Apply(slab)
	on, _ := step(t, j)
	// As it is drawn a joist lies under the trap; between two of them, which lie where nobody has looked, it goes in.
	in, standing := step(t, edit.Support(job.BetweenJoists).Apply(j))
	if standing != geometry.Stops {
		t.Fatal("no joist is in the way")
	}
	if on-in < 10 {
		t.Fatalf("let in it is %v, on the deck %v: this tells nothing", in, on)
	}
	said := func(j job.Job) (now, then float64, ok bool) {
		r := evaluated(t, j)
		x := explored(t, r)
		for _, m := range x.Answer(r.Answer(nil)).Brief() {
			if m.ID == "unknown.let-in-where" {
				for _, a := range m.Args {
					rise, _ := a.Value.(message.Rise)
					mm := rise.MM()
					switch a.Name {
					case "now":
						now = mm
					case "then":
						then = mm
					}
				}
				return now, then, true
			}
		}
		return 0, 0, false
	}
	if now, then, ok := said(j); !ok || math.Abs(now-on) > 1 || math.Abs(then-in) > 1 {
		t.Errorf("it says %v, %v instead of %v; worked out %v instead of %v", ok, then, now, in, on)
	}
	lies := j.Clone() // with a joist half a bay further on, and none in the way as it is drawn
	lies.Floor.Joists.FirstOffsetMM -= lies.Floor.Joists.SpacingMM / 2
	r := evaluated(t, lies)
	x := explored(t, r)
	if brief := x.Answer(r.Answer(nil)).Brief(); brief[len(brief)-1].ID != "unknown.let-in" {
		t.Errorf("with no joist in the way: %v", brief)
	}
	for name, j := range map[string]job.Job{
		"decided": edit.Support(job.OnFloor).Apply(j), "let in": edit.Support(job.BetweenJoists).Apply(j), "concrete": slab,
	} {
		if _, _, ok := said(j); ok {
			t.Errorf("%s: it speaks of letting the base in", name)
		}
	}
}
