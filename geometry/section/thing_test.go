package section_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// Of every job that Underfall comes with: each thing of its plan is one of its own, has a name and an
// outline, and one to three inputs on its tag, which are there for it. All walls and corners are among them.
func TestThingsOfThePlan(t *testing.T) {
	for _, r := range demotest.Results(t) {
		d, j := section.PlanOf(r), r.Settled
		seen, count := map[section.ThingID]bool{}, map[edit.HandleKind]int{}
		for _, thing := range d.Things {
			if seen[thing.ThingID] {
				t.Errorf("%s: %v is there twice", j.Name, thing.ThingID)
			}
			seen[thing.ThingID] = true
			count[thing.Moves.Kind]++
			if thing.Name.IsZero() || len(thing.Outline()) < 2 || (len(thing.Ring) > 0) == (len(thing.Path) > 0) {
				t.Errorf("%s: %v is named %v and outlined %v", j.Name, thing.ThingID, thing.Name, thing.Outline())
			}
			tagged := j.TaggedAlong(thing.Key, thing.Along)
			measured := j.Room.Measured() && thing.Moves.Kind == edit.HandleCorner
			if n := len(tagged); (n < 1 || n > 3) && !measured {
				t.Errorf("%s: %v has %v on its tag", j.Name, thing.ThingID, tagged)
			}
			for _, path := range tagged {
				if _, ok := job.InputOf(path); !ok {
					t.Errorf("%s: %v has %s on its tag, which is no input", j.Name, thing.ThingID, path)
				}
			}
		}
		if n := len(j.Room.Outline); count[edit.HandleSide] != n || count[edit.HandleCorner] != n || count[edit.HandleDoorway] != len(j.Room.Doorways) ||
			count[edit.HandleLevel]+count[edit.HandleReading] != len(j.StatedLevels())+len(j.Laser.Readings) {
			t.Errorf("%s: %v of a room of %d corners", j.Name, count, n)
		}
	}
}

// By hand in the starting room of 2400 × 1900: its walls are 100 thick, the door from 1500 to 2260 in wall A at
// y = 0, the shower from x = 0 to 1400 and y = 1000 to 1900 with the drain's cover of 70 × 800 at the back of it.
func TestThingAtByHand(t *testing.T) {
	d := section.PlanOf(starting(t, func(*job.Job) {}))
	const reachMM = 20
	for name, c := range map[string]struct {
		at   plan.Point
		want section.ThingID
	}{
		"the door":             {plan.Point{1900, -50}, section.ThingID{Key: "room.doorways[0]"}},
		"its wall beside it":   {plan.Point{700, -50}, section.ThingID{Key: "room.walls[0]"}},
		"a corner":             {plan.Point{2390, 10}, section.ThingID{Key: "room.outline[1]"}},
		"the shower":           {plan.Point{700, 1300}, section.ThingID{Key: "shower"}},
		"its open front":       {plan.Point{300, 1005}, section.ThingID{Key: "shower.depthMM", Number: 1}},
		"just outside of that": {plan.Point{300, 985}, section.ThingID{Key: "shower.depthMM", Number: 1}},
		"its open right":       {plan.Point{1395, 1300}, section.ThingID{Key: "shower.widthMM", Number: 2}},
		"the drain":            {plan.Point{1050, 1852}, section.ThingID{Key: "drain"}},
		// The shower's left edge lies along wall B, and its end on the corner there.
		"the corner at its end": {plan.Point{5, 1890}, section.ThingID{Key: "room.outline[3]"}},
		"its left":              {plan.Point{10, 1300}, section.ThingID{Key: "shower.widthMM", Number: 3}},
	} {
		if got, ok := d.ThingAt(c.at, reachMM); !ok || got.ThingID != c.want {
			t.Errorf("%s: %v, want %v", name, got.ThingID, c.want)
		}
	}
	for _, nowhere := range []plan.Point{{700, 500}, {300, 975}, {5000, 5000}} {
		if got, ok := d.ThingAt(nowhere, reachMM); ok {
			t.Errorf("%v: %v", nowhere, got.ThingID)
		}
	}
}

// The starting room has no glass: the tag of an edge has its own figures. With a pane on the right and a door in the front
// each of those tags has how wide and how high its glass is, the left one as before.
func TestGlassStandsOnTheTagOfItsEdge(t *testing.T) {
	of := func(change func(*job.Job)) map[job.ShowerSide][]string {
		r := starting(t, change)
		tags := map[job.ShowerSide][]string{}
		for _, thing := range section.PlanOf(r).Things {
			if thing.Along != "" {
				tags[thing.Along] = r.Settled.TaggedAlong(thing.Key, thing.Along)
			}
		}
		return tags
	}
	own := of(func(j *job.Job) { j.Shower.Screens = nil })
	for side, tag := range own {
		for _, path := range tag {
			if strings.HasPrefix(path, "shower.screens") {
				t.Errorf("without glass the %s edge has %s on its tag", side, path)
			}
		}
	}
	glazed := of(func(j *job.Job) {
		pane := job.Screen{Kind: job.ScreenPane, Side: job.SideRight, WidthMM: 800, HeightMM: 2000, ThicknessMM: 8, GapMM: 4}
		front := pane
		front.Side = job.SideFront
		j.Shower.Screens = []job.Screen{pane, front}
	})
	for side, want := range map[job.ShowerSide][]string{
		job.SideRight: {"shower.widthMM", "shower.screens[0].widthMM", "shower.screens[0].heightMM"},
		job.SideFront: {"shower.depthMM", "shower.screens[1].widthMM", "shower.screens[1].heightMM"},
		job.SideLeft:  own[job.SideLeft],
	} {
		if got := glazed[side]; len(own[side]) == 0 || !slices.Equal(got, want) {
			t.Errorf("the %s edge has %v on its tag, want %v", side, got, want)
		}
	}
}

// The things follow each other round and round, both ways.
func TestNextThing(t *testing.T) {
	d := section.PlanOf(starting(t, joistsToTheBack))
	first, _ := d.NextThing(section.ThingID{}, 1)
	last, _ := d.NextThing(section.ThingID{}, -1)
	if first.ThingID != d.Things[0].ThingID || last.ThingID != d.Things[len(d.Things)-1].ThingID {
		t.Errorf("from none to %v and %v", first.ThingID, last.ThingID)
	}
	at := first
	for range d.Things {
		next, _ := d.NextThing(at.ThingID, 1)
		if back, _ := d.NextThing(next.ThingID, -1); back.ThingID != at.ThingID {
			t.Errorf("back from %v to %v, not %v", next.ThingID, back.ThingID, at.ThingID)
		}
		at = next
	}
	if at.ThingID != first.ThingID {
		t.Errorf("round to %v, not %v", at.ThingID, first.ThingID)
	}
	if _, ok := new(section.Drawing).NextThing(first.ThingID, 1); ok {
		t.Error("a thing of no plan")
	}
	if there, ok := d.Thing(first.ThingID); !ok || math.Abs(there.At.Sub(first.At).Len()) > 0 {
		t.Errorf("%v is %v", first.ThingID, there)
	}
	if _, ok := d.Thing(section.ThingID{Key: "room.windows[3]"}); ok {
		t.Error("a window that is not there")
	}
}
