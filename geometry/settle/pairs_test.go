package settle

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// anyEditOfTheRoom draws one of the changes that move most: a door or a wall dragged, a size typed, a level read, joists cut
// out for the trap; typed is the path of the number that it types, and its value, of one that does.
func anyEditOfTheRoom(t *rapid.T, j job.Job) (e edit.Edit, again bool, typed string) {
	to := plan.Point{float64(rapid.IntRange(-500, 4000).Draw(t, "to x")), float64(rapid.IntRange(-500, 4000).Draw(t, "to y"))}
	which := rapid.IntRange(0, 5).Draw(t, "which")
	switch rapid.IntRange(0, 9).Draw(t, "change") {
	case 0:
		return edit.Drag(edit.Handle{Kind: edit.HandleDoorway, Index: which}, to), false, ""
	case 1:
		return edit.Drag(edit.Handle{Kind: edit.HandleSide, Index: which}, to), false, ""
	case 2:
		side := edit.Side{Wall: which % len(j.Room.Outline)}
		return side.Set(near(t, j.Room.WallLengthMM(side.Wall), 100, 6000)), true, ""
	case 3:
		return edit.Read(to, float64(rapid.IntRange(900, 1100).Draw(t, "reading"))), false, ""
	case 4:
		return edit.TrimJoist(), false, ""
	case 5:
		return edit.Drag(edit.Handle{Kind: edit.HandleShower}, to), false, ""
	case 6, 7:
		key := rapid.SampledFrom([]string{"shower.widthMM", "shower.depthMM", "shower.offsetMM", "drain.lengthMM", "drain.offsetMM",
			"waste.exit.offsetMM", "floor.joists.firstOffsetMM", "floor.joists.spacingMM"}).Draw(t, "number")
		p, _ := job.Find(key)
		return edit.Typed(edit.Number(p, near(t, p.Get(j), p.Least, p.Greatest)), key), true, key
	case 8:
		l, _ := job.FindList(job.DoorwaysKey)
		if n := l.Count(&j); n > 1 && which == 0 {
			return edit.RemoveItem(l, which), false, ""
		}
		return edit.AddItem(l), false, ""
	}
	e, again = anyEdit(t, j)
	return e, again, ""
}

// However many changes are made one after the other, of any job in a room of any shape, each settles as one does, nothing that
// was typed becomes another without being typed, and all of it can be worked out.
func TestChangesOneAfterTheOther(t *testing.T) {
	packs := demotest.Packs(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		if rapid.Bool().Draw(t, "L") {
			w, d := float64(rapid.IntRange(20, 40).Draw(t, "long"))*100, float64(rapid.IntRange(20, 40).Draw(t, "deep"))*100
			j = Do(j, edit.Outline([]plan.Point{{0, 0}, {w, 0}, {w, d / 2}, {w / 2, d / 2}, {w / 2, d}, {0, d}})).Job
		}
		typed := map[string]float64{}
		for n := range rapid.IntRange(1, 4).Draw(t, "changes") {
			e, again, key := anyEditOfTheRoom(t, j)
			s := checkChange(t, j, e, again)
			stated, _ := e.Subject()
			for was, mm := range typed {
				now, ok := s.Job.NumberAt(was)
				if !ok || math.Abs(now-mm) > 2*plan.HairMM {
					if in(was, stated) {
						delete(typed, was)
						continue
					}
					if s.Job.StandingOf(was) == job.Held && !keepsFromEnd(&j, &s.Job, was) && ok {
						t.Fatalf("change %d: %s was typed as %v and is %v: %v", n, was, mm, now, e.What)
					}
					delete(typed, was)
				}
			}
			if mm, ok := s.Job.NumberAt(key); ok && s.Refused == nil && key != "" {
				typed[key] = mm
			}
			j = s.Job
			if r := geometry.Evaluate(j, packs[j.Region]); len(r.Problems) > 0 {
				t.Fatalf("change %d, %v: it cannot be worked out: %v", n, e.What, fmt.Sprint(r.Problems))
			}
		}
	})
}

// in tells whether a path leads into one of others.
func in(key string, outer []string) bool {
	for _, o := range outer {
		if within(key, o) {
			return true
		}
	}
	return false
}
