package furnish_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// trifleMM2 is an area that says nothing: two edges that lie on each other.
const trifleMM2 = 40

func region(o furnish.Object) plan.Region { return plan.FromRing(o.Footprint()) }

// inspect holds furniture against the plan: with areas that regions share, not with the rules that placed it.
func inspect(r *geometry.Result, room furnish.Room) (wrong []string) {
	say := func(format string, of ...any) { wrong = append(wrong, fmt.Sprintf(format, of...)) }
	l := &r.Layout
	for i, o := range room.Objects {
		if o.WidthMM <= 0 || o.DepthMM <= 0 || o.ToMM <= o.FromMM || math.Abs(o.Out.Len()-1) > 1e-9 {
			say("%s is nothing: %+v", o.Kind, o)
		}
		at := region(o)
		for _, b := range room.Objects {
			if b.Kind != furnish.Basin && b.Kind != furnish.Vanity {
				continue
			}
			if !o.Stated && o.Kind != furnish.Vase && o.ToMM < b.ToMM && plan.SharedArea(at, region(b)) > trifleMM2 {
				say("%s stands under %s", o.Kind, b.Kind)
			}
			aside := math.Abs(o.At.Sub(b.At).Dot(b.Along()))
			if o.Kind == furnish.Vase && o.Wall == b.Wall && o.FromMM < b.ToMM+400 && aside < b.WidthMM/4 {
				say("%s stands behind the tap of %s", o.Kind, b.Kind)
			}
		}
		if o.Kind == furnish.Niche {
			inspectNiche(l, room, o, say)
			continue // let into a wall of the shower
		}
		if o.Kind == furnish.Vase {
			continue // in the reveal of a window
		}
		for _, p := range room.Objects[i+1:] {
			if p.Kind == furnish.Vase || p.Kind == furnish.Niche || o.Stated && p.Stated || o.FromMM >= p.ToMM || p.FromMM >= o.ToMM {
				continue
			}
			if plan.SharedArea(at, region(p)) > trifleMM2 {
				say("%s meets %s", o.Kind, p.Kind)
			}
		}
		if o.Stated {
			continue
		}
		inspectPlace(l, room.Windows, o, say)
	}
	for _, w := range room.Windows {
		wall := &l.Walls[w.Wall]
		if w.OffsetMM < 0 || w.OffsetMM+w.WidthMM > wall.LengthMM+1e-6 {
			say("a window of %.0f at %.0f in a wall of %.0f", w.WidthMM, w.OffsetMM, wall.LengthMM)
		}
	}
	return wrong
}

// inspectNiche holds a niche against the wall that it is in, the shower, windows and panes.
func inspectNiche(l *layout.Layout, room furnish.Room, o furnish.Object, say func(format string, of ...any)) {
	w := &l.Walls[o.Wall]
	from := o.At.Sub(w.A).Dot(w.Along) - o.WidthMM/2
	front := o.At.Add(o.Out.Mul(o.DepthMM + 30))
	if back := o.At.Sub(w.A).Dot(w.Outward); !o.Other && back > w.ThicknessMM-10 {
		say("a niche %.0f deep in a wall of %.0f", back, w.ThicknessMM)
	}
	if !l.Shower.Contains(front, 0) {
		say("a niche that is not in the shower")
	}
	if o.ToMM > l.CeilingAt(front)-50 {
		say("a niche at the ceiling")
	}
	for _, x := range room.Windows {
		if x.Wall == o.Wall && x.OffsetMM < from+o.WidthMM && x.OffsetMM+x.WidthMM > from {
			say("a niche under a window or in it")
		}
	}
	for _, x := range l.Screens {
		if before := plan.Strip(w.At(from), w.At(from+o.WidthMM), w.Outward.Mul(-150)); plan.SharedArea(before, x.Glass) > trifleMM2 {
			say("a pane before a niche")
		}
	}
	for _, p := range room.Objects {
		box := plan.Strip(w.At(from), w.At(from+o.WidthMM), w.Outward.Mul(-150))
		if p.Kind != furnish.Niche && p.FromMM < o.ToMM && p.ToMM > o.FromMM && plan.SharedArea(box, region(p)) > trifleMM2 {
			say("%s before a niche", p.Kind)
		}
	}
}

// inspectPlace holds where an object stands against the room, its doors, the shower, the way into it and the windows.
func inspectPlace(l *layout.Layout, windows []job.Window, o furnish.Object, say func(format string, of ...any)) {
	at := region(o)
	if out := at.Area() - plan.SharedArea(at, l.Room); out > trifleMM2 {
		say("%s stands %.0f mm² out of the room", o.Kind, out)
	}
	for _, c := range o.Footprint() {
		if o.ToMM > l.CeilingAt(c)+1e-6 {
			say("%s goes through the ceiling", o.Kind)
		}
	}
	if l.Shower.Area() <= 0.75*l.Room.Area() && plan.SharedArea(at, l.Shower) > trifleMM2 {
		say("%s stands in the shower", o.Kind)
	}
	for _, d := range l.Doors {
		if plan.SharedArea(at, d.Sweep) > trifleMM2 {
			say("%s stands where a door swings", o.Kind)
		}
		if o.FromMM < 2000 && plan.DistanceToSegment(o.Middle(), d.A, d.B) < 200 {
			say("%s stands in a doorway", o.Kind)
		}
	}
	for _, x := range l.Screens {
		if plan.SharedArea(at, x.Sweep) > trifleMM2 {
			say("%s stands where a screen swings", o.Kind)
		}
	}
	for _, w := range l.Ways() {
		out := l.Outward(l.OpenEdges()[w.Edge]).Mul(650)
		if before := plan.Strip(w.A, w.B, out); o.Kind != furnish.Mat && plan.SharedArea(at, before) > trifleMM2 {
			say("%s stands before the way into the shower", o.Kind)
		}
	}
	for i, w := range windows {
		wall := &l.Walls[w.Wall]
		pane := plan.Strip(wall.At(w.OffsetMM), wall.At(w.OffsetMM+w.WidthMM), wall.Outward.Mul(-60))
		if o.FromMM < w.SillMM+w.HeightMM && o.ToMM > w.SillMM && plan.SharedArea(at, pane) > trifleMM2 {
			say("%s hangs before window %d", o.Kind, i)
		}
	}
}

func TestFurnitureKeepsClear(t *testing.T) {
	packs := demotest.Packs(t)
	furnished, all := 0, 0
	for _, r := range demotest.Results(t) {
		room := furnish.Of(&r)
		for _, w := range inspect(&r, room) {
			t.Errorf("%s: %s", r.Settled.Name, w)
		}
		kinds := map[furnish.Kind]int{}
		for _, o := range room.Objects {
			kinds[o.Kind]++
		}
		t.Log(r.Settled.Name, kinds, len(room.Windows), len(room.Lamps))
		all++
		if kinds[furnish.Vanity]+kinds[furnish.Basin] > 0 && kinds[furnish.Mirror] > 0 {
			furnished++
		}
	}
	if furnished < all-1 {
		t.Errorf("only %d of %d demos have a basin with a mirror", furnished, all)
	}
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		j = demotest.Moved(j, float64(rapid.IntRange(0, 359).Draw(t, "turned")), plan.Point{120, -340})
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			return
		}
		room := furnish.Of(&r)
		for _, w := range inspect(&r, room) {
			t.Errorf("%s: %s", j.Name, w)
		}
		if !reflect.DeepEqual(room, furnish.Of(&r)) {
			t.Errorf("%s: furnished twice, the rooms differ", j.Name)
		}
	})
}

// roomOf evaluates a demo changed.
func roomOf(t *testing.T, change func(*job.Job)) (geometry.Result, furnish.Room) {
	t.Helper()
	j := demotest.Rooms(t)[5].Job.Clone() // 4200 by 2000, the shower in its corner
	change(&j)
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	return r, furnish.Of(&r)
}

func find(room furnish.Room, k furnish.Kind) (o furnish.Object, n int) {
	for _, p := range room.Objects {
		if p.Kind == k {
			o = p
			n++
		}
	}
	return o, n
}

// A large empty room takes one of everything; a basin that is stated stands where it is stated, and no second one.
func TestWhatARoomIsGiven(t *testing.T) {
	_, room := roomOf(t, func(j *job.Job) { j.Room.Fixtures = nil })
	for _, k := range []furnish.Kind{furnish.Vanity, furnish.Mirror, furnish.Towels, furnish.Stool, furnish.Mat, furnish.Plant, furnish.Vase, furnish.Niche} {
		if _, n := find(room, k); n != 1 {
			t.Errorf("%d of %s", n, k)
		}
	}
	if len(room.Windows) != 1 || room.Windows[0].WidthMM < 450 {
		t.Errorf("windows: %+v", room.Windows)
	}
	r, room := roomOf(t, func(j *job.Job) {
		j.Room.Fixtures = []job.Fixture{{Kind: job.FixtureBasin, Wall: 1, OffsetMM: 300, WidthMM: 500, DepthMM: 400, HeightMM: 150, UnderMM: 700}}
	})
	o, n := find(room, furnish.Basin)
	if n != 1 || !o.Stated || o.WidthMM != 500 || math.Abs(o.ToMM-o.FromMM-150) > 1e-9 || o.Middle().Sub(plan.FromRing(r.Layout.Fixtures[0]).Centroid()).Len() > 1e-6 {
		t.Errorf("the stated basin is %+v, one of %d", o, n)
	}
	if _, n := find(room, furnish.Vanity); n != 0 {
		t.Error("a second basin")
	}
	if m, n := find(room, furnish.Mirror); n != 1 || m.At.Sub(o.At).Len() > 1e-6 {
		t.Errorf("the mirror hangs at %v, the basin at %v", m.At, o.At)
	}
}

// A warm floor needs no radiator; the job's own windows stay as they are.
func TestStatedThingsStay(t *testing.T) {
	own := job.Window{Wall: 2, OffsetMM: 2500, WidthMM: 700, SillMM: 1000, HeightMM: 800}
	_, room := roomOf(t, func(j *job.Job) { j.Room.Windows = []job.Window{own} })
	if len(room.Windows) != 1 || room.Windows[0] != own {
		t.Errorf("windows: %+v", room.Windows)
	}
}

// Under a ceiling of two metres all still fits; with doors and fixtures along every wall there is no window.
func TestLowCeilings(t *testing.T) {
	r, room := roomOf(t, func(j *job.Job) {
		j.Room.HeightMM = 2000
		for i := range j.Shower.Screens {
			j.Shower.Screens[i].HeightMM = math.Min(j.Shower.Screens[i].HeightMM, 1800)
		}
	})
	for _, w := range inspect(&r, room) {
		t.Error(w)
	}
	if _, n := find(room, furnish.Pendant); n != 0 {
		t.Error("a lamp hangs into one's head")
	}
	for _, w := range room.Windows {
		if w.SillMM+w.HeightMM > 2000 {
			t.Errorf("a window up to %v", w.SillMM+w.HeightMM)
		}
	}
}

// A stack 100 from one wall and 120 from another, 110 thick: its casing fills the corner, 60 clear of the pipe:
// 100 + 55 + 60 and 120 + 55 + 60.
func TestCasingOfAStack(t *testing.T) {
	_, room := roomOf(t, func(j *job.Job) {
		j.Room.Fixtures, j.Room.Windows = nil, nil
		j.Room.Stacks = []job.Stack{{At: plan.Point{4200 - 100, 120}, NominalMM: 110, OutsideMM: 110}}
	})
	o, n := find(room, furnish.Casing)
	if n != 1 {
		t.Fatal(n, "casings")
	}
	low, high, _ := region(o).Bounds()
	if math.Abs(high.X()-4200) > 1e-6 || math.Abs(low.Y()) > 1e-6 || math.Abs(4200-low.X()-215) > 1e-6 || math.Abs(high.Y()-235) > 1e-6 {
		t.Errorf("from %v to %v", low, high)
	}
}

// The rooms of the demos get the same furniture however the room lies.
func TestTurnedRoomsAreFurnishedAlike(t *testing.T) {
	packs := demotest.Packs(t)
	for _, d := range demotest.Rooms(t) {
		a := geometry.Evaluate(d.Job, packs[d.Job.Region])
		b := geometry.Evaluate(demotest.Moved(d.Job, 90, plan.Point{1000, -700}), packs[d.Job.Region])
		x, y := furnish.Of(&a), furnish.Of(&b)
		if len(x.Objects) != len(y.Objects) {
			t.Errorf("%s: %d things, turned %d", d.File, len(x.Objects), len(y.Objects))
			continue
		}
		for i := range x.Objects {
			p, q := x.Objects[i], y.Objects[i]
			want := plan.Left(p.At).Add(plan.Point{1000, -700})
			if p.Kind != q.Kind || q.At.Sub(want).Len() > 1 {
				t.Errorf("%s: %s at %v, turned %s at %v", d.File, p.Kind, want, q.Kind, q.At)
			}
		}
	}
}

func BenchmarkFurnish(b *testing.B) {
	for _, r := range demotest.Results(b) {
		b.Run(r.Settled.Name, func(b *testing.B) {
			for b.Loop() {
				furnish.Of(&r)
			}
		})
	}
}

// A wall of 100 takes a niche 80 deep, one of 60 only a shelf: 20 are left behind a niche, and less than 65 holds no bottle.
// A niche is cleared, or swapped for a shelf, as anything else is.
func TestNiches(t *testing.T) {
	thick := func(mm float64) func(j *job.Job) {
		return func(j *job.Job) {
			for i := range j.Room.Walls {
				j.Room.Walls[i].ThicknessMM = mm
			}
		}
	}
	for _, c := range []struct {
		wallMM, deepMM float64
		shelf          bool
	}{{100, 80, false}, {300, 90, false}, {60, 110, true}} {
		r, room := roomOf(t, thick(c.wallMM))
		o, n := find(room, furnish.Niche)
		if !c.shelf {
			c.deepMM += r.Settled.Layers.Wall.ThicknessMM()
		}
		if n != 1 || o.Other != c.shelf || math.Abs(o.DepthMM-c.deepMM) > 1e-9 {
			t.Errorf("in a wall of %v: %d, %+v", c.wallMM, n, o)
		}
	}
	had := func(thing job.Thing) (furnish.Object, int) {
		_, room := roomOf(t, func(j *job.Job) {
			p := j.Shown().With(thing)
			j.Picture = &p
		})
		return find(room, furnish.Niche)
	}
	if _, n := had(job.Thing{Kind: job.ThingNiche, Cleared: true}); n != 0 {
		t.Error("a niche that was cleared")
	}
	if o, n := had(job.Thing{Kind: job.ThingNiche, Other: true}); n != 1 || !o.Other {
		t.Errorf("swapped: %d, %+v", n, o)
	}
	left, _ := had(job.Thing{Kind: job.ThingNiche})
	if o, n := had(job.Thing{Kind: job.ThingNiche, AlongMM: 100}); n != 1 || o.MovedMM <= 0 || o.At.Sub(left.At).Len() < 20 {
		t.Errorf("moved: %d, %+v", n, o)
	}
}
