package settle

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// dragged is something that is dragged, with what hangs on it: all else stays where it is.
type dragged struct {
	kind edit.HandleKind
	// at are where each of them is.
	at func(j *job.Job, l *layout.Layout) []plan.Point
	// hang are the paths of what hangs on it, and of itself.
	hang []string
}

// allDragged are the things that are dragged by a hand in the plan, a little way.
func allDragged() map[string]dragged {
	one := func(p plan.Point) []plan.Point { return []plan.Point{p} }
	onWall := func(l *layout.Layout, wall int, alongMM float64) plan.Point { return l.Walls[wall].At(alongMM) }
	shower := []string{"shower", "drain", "waste.waypoints", "waste.exit", "floor.joists.trims"}
	return map[string]dragged{
		"the drain": {edit.HandleDrain, func(_ *job.Job, l *layout.Layout) []plan.Point { return one(l.DrainCentre) },
			[]string{"drain", "waste.waypoints", "waste.exit", "floor.joists.trims"}},
		"the hole": {edit.HandleExit, func(j *job.Job, l *layout.Layout) (out []plan.Point) {
			if j.Waste.Exit.Kind == job.ExitWall {
				out = one(onWall(l, j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM))
			}
			return out
		}, []string{"waste.exit", "drain.outletTurnDeg"}},
		"a turn": {edit.HandleTurn, func(j *job.Job, l *layout.Layout) []plan.Point { return edit.Turns(*j, waste.Lay(*j, *l)) },
			[]string{"waste.waypoints"}},
		"a joist": {edit.HandleJoist, func(_ *job.Job, l *layout.Layout) (out []plan.Point) {
			for i := range l.Joists {
				out = append(out, l.Joists[i].Middle())
			}
			return out
		}, []string{"floor.joists"}},
		"a doorway": {edit.HandleDoorway, func(_ *job.Job, l *layout.Layout) (out []plan.Point) {
			for i := range l.Doors {
				out = append(out, l.Doors[i].Middle())
			}
			return out
		}, []string{"room.doorways", "room.windows"}},
		"a wall": {edit.HandleSide, func(_ *job.Job, l *layout.Layout) (out []plan.Point) {
			for i := range l.Walls {
				out = append(out, l.Walls[i].At(l.Walls[i].LengthMM/2).Add(l.Walls[i].Outward.Mul(l.Walls[i].ThicknessMM)))
			}
			return out
		}, []string{"room", "shower", "drain.offsetMM", "drain.lengthMM", "drain.trapOffsetMM", "waste.waypoints", "waste.exit",
			"floor.joists.firstOffsetMM", "floor.joists.supportsMM", "floor.joists.trims", "survey"}},
		"the shower": {edit.HandleShower, func(_ *job.Job, l *layout.Layout) []plan.Point { return one(l.Shower.Centroid()) }, shower},
		"its open edge": {edit.HandleDepth, func(_ *job.Job, l *layout.Layout) []plan.Point {
			return one(l.Corners[2].Add(l.Corners[3]).Mul(0.5))
		}, shower},
		"its right edge": {edit.HandleRight, func(_ *job.Job, l *layout.Layout) []plan.Point {
			return one(l.Corners[1].Add(l.Corners[2]).Mul(0.5))
		}, shower},
	}
}

// What is dragged a little way takes along what hangs on it and nothing else: with a joist goes no hole, no turn and no drain, with
// the drain no door, with the shower's open edge no wall; and of what hangs on it nothing that was typed, and so is held, becomes
// another without the drag being refused. Whatever goes along is told.
func TestADragTakesAlongWhatHangsOnIt(t *testing.T) {
	demos, all := demotest.Rooms(t), allDragged()
	names := make([]string, 0, len(all))
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		d, moved := all[name], 0
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				j := demos[rapid.IntRange(0, len(demos)-1).Draw(t, "demo")].Job.Clone()
				j.WorkOut()
				if rapid.Bool().Draw(t, "hold") {
					holdSome(t, &j)
				}
				l := layout.Of(j, new(plan.Shaper))
				places := d.at(&j, &l)
				if len(places) == 0 {
					return
				}
				i := rapid.IntRange(0, len(places)-1).Draw(t, "which")
				off := plan.Point{float64(rapid.IntRange(-250, 250).Draw(t, "x")), float64(rapid.IntRange(-250, 250).Draw(t, "y"))}
				s := checkChange(t, j, edit.DragAs(edit.Handle{Kind: d.kind, Index: i}, places[i].Add(off), edit.Fine), false)
				for _, key := range differing(&j, &s.Job) {
					if !slices.ContainsFunc(d.hang, func(outer string) bool { return within(key, outer) || strings.HasPrefix(outer, key) }) {
						t.Fatalf("%s, %s %d by %v: %s goes along, which does not hang on it", j.Name, name, i, off, key)
					}
					moved++
				}
			})
			if moved == 0 && !testing.Short() { // short tests draw too few to come by all
				t.Errorf("%s never moved", name)
			}
		})
	}
}

// Where a wall gets a corner every doorway stays where it is in the room, but for one that lay across the corner, which goes aside by
// no more than its width; what is held stays or it is refused.
func TestAWallGetsACorner(t *testing.T) {
	in, ok := job.InputOf("room.outline")
	if !ok {
		t.Fatal("the outline is no input")
	}
	demos := demotest.Rooms(t)
	kept := 0
	rapid.Check(t, func(t *rapid.T) {
		j := demos[rapid.IntRange(0, len(demos)-1).Draw(t, "demo")].Job.Clone()
		j.WorkOut()
		if rapid.Bool().Draw(t, "hold") {
			holdSome(t, &j)
		}
		s := checkChange(t, j, edit.AddRow(in), false)
		if s.Refused != nil || len(s.Job.Room.Outline) == len(j.Room.Outline) {
			return
		}
		corner := newCorner(&j, &s.Job)
		was, is := layout.Of(j, new(plan.Shaper)), layout.Of(s.Job, new(plan.Shaper))
		for i := range was.Doors {
			a, b := &was.Doors[i], &is.Doors[i]
			moved := b.Middle().Sub(a.Middle()).Len()
			if across := plan.DistanceToSegment(corner, a.A, a.B); across > plan.HairMM {
				kept++
				if moved > plan.HairMM {
					t.Fatalf("%s: doorway %d went %v, and the corner is %v off", j.Name, i, moved, across)
				}
			} else if most := s.Job.Room.Doorways[i].WidthMM; moved > most {
				t.Fatalf("%s: doorway %d went %v out of the way of the corner", j.Name, i, moved)
			}
		}
	})
	if kept == 0 {
		t.Error("no doorway was beside a corner")
	}
}

// newCorner is the corner that one job has and another has not.
func newCorner(before, after *job.Job) plan.Point {
	for _, p := range after.Room.Outline {
		if !slices.Contains(before.Room.Outline, p) {
			return p
		}
	}
	return plan.Point{}
}
