package edit_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// headed is the starting job with a shower head.
func headed() job.Job {
	j := job.New()
	j.Shower.Head = &job.Head{At: plan.Point{300, 1500}, HeightMM: 2100}
	return j
}

// The starting room of 2400 by 1900 has its shower, 1400 wide and 900 deep, in the far corner of
// the back wall, which runs from (2400, 1900) to (0, 1900), its head at (300, 1500); walls are
// numbered from the front one on against the clock. Typed on a wall a length moves the next one, but
// the one before where the shower stands at the next alone.
func TestLengthsOfWalls(t *testing.T) {
	start := headed()
	head := start.Shower.Head.At
	for name, c := range map[string]struct {
		wall          int
		mm            float64
		low, high     plan.Point
		head          plan.Point
		offset, width float64
	}{
		"the front longer":  {0, 2600, plan.Point{0, 0}, plan.Point{2600, 1900}, head, 1200, 1400},
		"the front shorter": {0, 2200, plan.Point{0, 0}, plan.Point{2200, 1900}, head, 800, 1400},
		// The shower is at the back wall, which is next, and so the front one moves.
		"the right longer":  {1, 2100, plan.Point{0, -200}, plan.Point{2400, 1900}, head, 1000, 1400},
		"the left shorter":  {3, 1800, plan.Point{0, 100}, plan.Point{2400, 1900}, head, 1000, 1400},
		"the back shorter":  {2, 2000, plan.Point{0, 0}, plan.Point{2000, 1900}, head, 600, 1400},
		"as long as it was": {2, 2400, plan.Point{0, 0}, plan.Point{2400, 1900}, head, 1000, 1400},
		// Less than the shower is wide: the job's check says so.
		"too short": {2, 1300, plan.Point{0, 0}, plan.Point{1300, 1900}, head.Add(plan.Point{}), 0, 1400},
	} {
		j := edit.Side{Wall: c.wall}.Set(c.mm).Apply(start)
		low, high, _ := plan.FromRing(j.Room.Outline).Bounds()
		if low.Sub(c.low).Len() > 1e-6 || high.Sub(c.high).Len() > 1e-6 || len(j.Room.Outline) != 4 {
			t.Errorf("%s: the room is %v", name, j.Room.Outline)
		}
		if math.Abs(j.Shower.OffsetMM-c.offset) > 1e-6 || j.Shower.WidthMM != c.width {
			t.Errorf("%s: the shower is %v wide from %v", name, j.Shower.WidthMM, j.Shower.OffsetMM)
		}
		if name != "too short" && j.Shower.Head.At.Sub(c.head).Len() > 1e-6 {
			t.Errorf("%s: the head is at %v", name, j.Shower.Head.At)
		}
		if mm, ok := (edit.Side{Wall: c.wall}).MM(j); !ok || math.Abs(mm-c.mm) > 1e-6 {
			t.Errorf("%s: the wall is %v long", name, mm)
		}
	}
	if _, ok := (edit.Side{Wall: 4}).MM(start); ok {
		t.Error("a fifth wall")
	}
	for key, want := range map[string]bool{"room.walls[2]": true, "room.walls": false, "room.walls[x]": false,
		"room.walls[2].kind": false, "room.heightMM": false, "room.walls[-1]": false} {
		if s, ok := edit.SideAt(key); ok != want || ok && s.Key() != key {
			t.Errorf("%s: %v %v", key, s, ok)
		}
	}
}

// A side that is dragged by its outer face, 215 past the inner one, moves square to itself,
// to a length of the wall before it in steps of five; the back wall takes the shower along, with its
// head, and the run still goes straight out.
func TestSidesAreDragged(t *testing.T) {
	start := headed()
	drag := func(wall int, x, y float64) job.Job {
		return edit.Drag(edit.Handle{Kind: edit.HandleSide, Index: wall}, plan.Point{x, y}).Apply(start)
	}
	back := drag(2, 700, 2115+113)
	if back.Room.Outline[2] != (plan.Point{2400, 2015}) || back.Room.Outline[3] != (plan.Point{0, 2015}) {
		t.Errorf("the back wall goes to %v", back.Room.Outline)
	}
	if want := start.Shower.Head.At.Add(plan.Point{0, 115}); back.Shower.Head.At.Sub(want).Len() > 1e-6 {
		t.Errorf("the head goes to %v, want %v", back.Shower.Head.At, want)
	}
	if back.Waste.Exit != start.Waste.Exit { // from the corner as before
		t.Errorf("the exit goes to %+v", back.Waste.Exit)
	}
	left := drag(3, -215-98, 300)
	if left.Room.Outline[3] != (plan.Point{-100, 1900}) || left.Shower.OffsetMM != 1100 {
		t.Errorf("the left wall goes to %v, the shower to %v", left.Room.Outline, left.Shower.OffsetMM)
	}
}

// A shower that fills its wall still does when that grows, its head as far along in shares; one that
// the edit of its own field moves takes its head along, one that it widens does not.
func TestHeadsGoWithShowers(t *testing.T) {
	start := headed()
	full := start.Clone()
	full.Shower.OffsetMM, full.Shower.WidthMM, full.Shower.Screens = 0, 2400, nil
	full.Shower.Head.At = plan.Point{600, 1500}
	wide := edit.Side{Wall: 0}.Set(2800).Apply(full)
	// From the left, x = 0, a quarter along.
	if wide.Shower.WidthMM != 2800 || wide.Shower.Head.At.Sub(plan.Point{700, 1500}).Len() > 1e-6 {
		t.Errorf("the shower is %v wide, its head at %v", wide.Shower.WidthMM, wide.Shower.Head.At)
	}
	set := func(key string, mm float64) job.Job {
		p, _ := job.Find(key)
		return edit.Number(p, mm).Apply(start)
	}
	// The offset is from the right: less of it moves the shower to the right.
	if got := set("shower.offsetMM", 800).Shower.Head.At; got.Sub(start.Shower.Head.At.Add(plan.Point{200, 0})).Len() > 1e-6 {
		t.Errorf("the head of a shower that is moved is at %v", got)
	}
	beside := start.Clone()
	beside.Shower.Head.At = plan.Point{1800, 1500}
	if got := (edit.Side{Wall: 1}).Set(2000).Apply(beside).Shower.Head.At; got != (plan.Point{1800, 1500}) {
		t.Errorf("a head beside the shower goes to %v", got)
	}
	p, _ := job.Find("shower.offsetMM")
	if got := edit.Number(p, 800).Apply(beside).Shower.Head.At; got != (plan.Point{1800, 1500}) {
		t.Errorf("a head beside a shower that is moved goes to %v", got)
	}
	if got := set("shower.depthMM", 1000).Shower.Head.At; got != start.Shower.Head.At {
		t.Errorf("the head of a shower that is made deeper is at %v", got)
	}
}

// Any side of a demo's room that is moved by up to 300 either way is accepted, or refused for what is
// in the way: the shower is out of the room, the drain longer than its side, something past the end
// of its wall, or the room none.
func TestSidesOfDemosMove(t *testing.T) {
	packs, demos := demotest.Packs(t), demotest.Shown(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demos[rapid.IntRange(0, len(demos)-1).Draw(t, "demo")].Stated
		wall := rapid.IntRange(0, len(j.Room.Outline)-1).Draw(t, "wall")
		long, _ := edit.Side{Wall: wall}.MM(j)
		to := long + rapid.Float64Range(-300, 300).Draw(t, "by")
		moved := edit.Side{Wall: wall}.Set(to).Apply(j)
		for _, p := range geometry.Evaluate(moved, packs[moved.Region]).Problems {
			switch {
			case p.What.ID == "problem.shower-out" || p.What.ID == "problem.shower-out-between-corners":
				corners := moved.ShowerCorners()
				if area := plan.FromRing(corners[:]); area.Area()-plan.SharedArea(area, plan.FromRing(moved.Room.Outline)) < 100 {
					t.Errorf("%s: the shower is in the room", p)
				}
			case p.What.ID == "problem.drain-past-side":
				if moved.DrainLengthMM() <= moved.DrainSideMM()-2*math.Abs(moved.Drain.OffsetMM) {
					t.Errorf("%s: the drain fits its side", p)
				}
			case slices.Contains([]message.ID{"problem.opening-past-wall", "problem.doorway-past-wall", "problem.exit-past-wall"}, p.What.ID):
				told, shorter := p.What.Args[0].Value.(message.Length).MM, false
				for i := range moved.Room.Outline {
					now := moved.Room.WallLengthMM(i)
					shorter = shorter || now < j.Room.WallLengthMM(i) && math.Abs(math.Floor(now+plan.HairMM)-told) < 1e-6
				}
				if !shorter {
					t.Errorf("%s: no wall has become so short", p)
				}
			case p.Key == "room.outline", strings.HasPrefix(p.Key, "floor.joists.trims"):
			default:
				t.Errorf("%s, wall %d from %v to %v: %s", j.Name, wall+1, long, to, p)
			}
		}
	})
}

// A side that takes away the last joists of a floor leaves a job that is refused for what is cut out
// of them: of five joists along the room, 1900 deep, at 0, 400 … 1600, the last but one is cut, and
// 1000 deep it has three.
func TestSidesTakeJoistsAway(t *testing.T) {
	j := headed()
	j.Floor.Kind = job.FloorTimber
	j.Floor.Joists = job.Joists{DepthMM: 195, WidthMM: 47, SpacingMM: 400, FirstOffsetMM: 0,
		Trims: []job.Trim{{Joist: 4, FromMM: 800, ToMM: 1400}}}
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	half := edit.Side{Wall: 1}.Set(1000)
	short := half.Apply(half.Apply(j))
	if p := short.Validate(); len(p) != 1 || p[0].Key != "floor.joists.trims[0].joist" {
		t.Errorf("%v", p)
	}
}
