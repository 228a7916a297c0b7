package settle

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// anyEdit draws a change of a job; again tells that to make it twice is to make it once.
func anyEdit(t *rapid.T, j job.Job) (e edit.Edit, again bool) {
	switch rapid.IntRange(0, 9).Draw(t, "kind of edit") {
	case 0, 1:
		p := rapid.SampledFrom(job.Parameters()).Draw(t, "parameter")
		return edit.Number(p, near(t, p.Get(j), p.Least, p.Greatest)), true
	case 2, 3, 4:
		return itemEdit(t, j)
	case 5:
		wall := rapid.IntRange(0, len(j.Room.Outline)-1).Draw(t, "wall")
		return edit.Side{Wall: wall}.Set(near(t, j.Room.WallLengthMM(wall), 100, 6000)), true
	case 6:
		w, d := float64(rapid.IntRange(8, 40).Draw(t, "long"))*100, float64(rapid.IntRange(8, 40).Draw(t, "deep"))*100
		return edit.Outline(rapid.SampledFrom([][]plan.Point{
			{{0, 0}, {w, 0}, {w, d}, {0, d}},
			{{0, 0}, {0, d}, {w, d}, {w, 0}},
			{{0, 0}, {w, 0}, {w, d / 2}, {w / 2, d / 2}, {w / 2, d}, {0, d}},
			{{0, 0}, {w, 0}, {0, d}},
		}).Draw(t, "outline")), true
	case 7:
		h := rapid.SampledFrom([]edit.HandleKind{edit.HandleDepth, edit.HandleRight, edit.HandleLeft, edit.HandleShower, edit.HandleDrain,
			edit.HandleExit, edit.HandleCorner, edit.HandleStack, edit.HandlePipeEnd, edit.HandleSide, edit.HandleDoorway, edit.HandleWindow,
			edit.HandleFixture, edit.HandleJoist, edit.HandleLevel, edit.HandleReading}).Draw(t, "handle")
		to := plan.Point{float64(rapid.IntRange(-500, 4000).Draw(t, "x")), float64(rapid.IntRange(-500, 4000).Draw(t, "y"))}
		return edit.Drag(edit.Handle{Kind: h, Index: rapid.IntRange(0, 3).Draw(t, "which")}, to), false
	case 8:
		return rapid.SampledFrom([]edit.Edit{edit.FloorKind(job.FloorSlab), edit.FloorKind(job.FloorTimber), edit.Support(job.BetweenJoists),
			edit.ExitKind(job.ExitWall), edit.ExitKind(job.ExitStack), edit.ExitKind(job.ExitPump), edit.ExitKind(job.ExitPipe),
			edit.Edge(job.EdgeRamp), edit.Region("US", "2026-11", demotest.Shelf())}).Draw(t, "choice"), false
	}
	return edit.Fall(rapid.SampledFrom(job.FallKinds().Choices).Draw(t, "fall").Value), true
}

// near draws a number, mostly a whole one near to another.
func near(t *rapid.T, v, least, greatest float64) float64 {
	if rapid.IntRange(0, 4).Draw(t, "far") == 0 {
		return math.Round(rapid.Float64Range(least, greatest).Draw(t, "value")*1000) / 1000
	}
	return clamp(math.Round(v+float64(rapid.IntRange(-1500, 1500).Draw(t, "by"))), least, greatest)
}

// itemEdit draws a change of a thing of a list.
func itemEdit(t *rapid.T, j job.Job) (e edit.Edit, again bool) {
	l := rapid.SampledFrom(job.Lists()).Draw(t, "list")
	n := l.Count(&j)
	if n == 0 {
		return edit.AddItem(l), false
	}
	i := rapid.IntRange(0, n-1).Draw(t, "thing")
	entry := rapid.SampledFrom(l.Entries()).Draw(t, "entry")
	switch {
	case rapid.IntRange(0, 9).Draw(t, "remove") == 0:
		return edit.RemoveItem(l, i), false
	case entry.Number != nil:
		v := 0.0
		if at := entry.Number.At(&j, i); at != nil {
			v = *at
		}
		v = near(t, v, entry.Number.Least, entry.Number.Greatest)
		return edit.ItemNumber(l, i, entry, &v), true
	case entry.Wall != nil:
		return edit.ItemWall(l, i, entry, rapid.IntRange(0, len(j.Room.Outline)-1).Draw(t, "to wall")), true
	case entry.Corner != nil:
		return edit.ItemCorner(l, i, entry, rapid.IntRange(0, len(j.Room.Outline)-1).Draw(t, "to corner")), true
	case entry.Choice != nil:
		return edit.ItemChoice(l, i, entry, rapid.SampledFrom(entry.Choice.Values).Draw(t, "to")), true
	}
	return edit.AddItem(l), false
}

// holdSome holds some of what things at walls and the shower are placed by.
func holdSome(t *rapid.T, j *job.Job) {
	keys := []string{"shower.offsetMM", "shower.widthMM", "shower.depthMM", "waste.exit.offsetMM", "drain.offsetMM", "drain.lengthMM", "room.outline"}
	for _, l := range job.Lists() {
		for i := range l.Count(j) {
			for _, e := range l.Entries() {
				keys = append(keys, l.Path(i, e))
			}
		}
	}
	for _, key := range keys {
		if rapid.IntRange(0, 3).Draw(t, "held "+key) == 0 {
			j.SetStanding(key, job.Held)
		}
	}
}

// Whatever is changed of any job, what comes out means something; what is typed keeps its value or is
// refused, nothing that is held differs, all else that differs is told; a cure does; and settling what is
// settled changes nothing.
func TestAnyChangeSettles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		if rapid.Bool().Draw(t, "hold") {
			holdSome(t, &j)
		}
		e, again := anyEdit(t, j)
		checkChange(t, j, e, again)
	})
}

// checkChange makes a change of a job and checks all that must hold of any; again tells that to make it twice is to make it
// once.
func checkChange(t *rapid.T, j job.Job, e edit.Edit, again bool) Settled {
	before := j.Clone()
	s := Do(j, e)
	if !reflect.DeepEqual(before, j) {
		t.Fatal("the job given was changed")
	}
	if p := s.Job.Validate(); len(p) > 0 {
		t.Fatalf("the settled job means nothing: %v", p)
	}
	if s.Refused != nil {
		checkRefusal(t, j, s)
		return s
	}
	applied := e.Apply(j)
	subject, about := e.Subject()
	if !about {
		subject = differing(&j, &applied)
	}
	stated := func(key string) bool {
		return slices.ContainsFunc(subject, func(outer string) bool { return within(key, outer) })
	}
	var told []string
	for _, m := range s.Moved {
		if m.What.IsZero() {
			t.Fatal("nothing is said of something that moved")
		}
		told = append(told, m.Keys...)
	}
	renumbered := len(j.Room.Outline) != len(applied.Room.Outline)
	_, problems := settled(&j, e, heldIn(&j))
	for _, key := range differing(&applied, &s.Job) {
		if len(problems) > 0 {
			break // a drag that has gone part of its way
		}
		if l, i, _, ok := job.InList(key); ok && i == l.Count(&j) && l.Count(&applied) == i+1 {
			continue // what was added, for which a place was found
		}
		if stated(key) {
			t.Fatalf("%s was stated and is another: %v", key, e.What)
		}
		if !slices.Contains(told, key) && !(renumbered && strings.HasSuffix(key, ".wall")) {
			was, _ := at(&j, key)
			is, _ := at(&s.Job, key)
			if !reflect.DeepEqual(was.Interface(), is.Interface()) && !hardlyDiffers(&j, &s.Job, key) {
				t.Fatalf("%s moved, %v to %v, and is not told: %v", key, was, is, e.What)
			}
		}
	}
	for _, key := range differing(&j, &s.Job) {
		if stated(key) || renumbered && strings.HasSuffix(key, ".wall") {
			continue
		}
		if j.StandingOf(key) == job.Held && !keepsFromEnd(&j, &s.Job, key) {
			t.Fatalf("%s is held, and moved: %v", key, e.What)
		}
		if !slices.Contains(told, key) && !hardlyDiffers(&j, &s.Job, key) {
			t.Fatalf("%s differs, and is not told: %v", key, e.What)
		}
	}
	if len(differing(&applied, &s.Job)) == 0 && !reflect.DeepEqual(applied, s.Job) {
		t.Fatal("an edit that needs nothing is not the plain edit")
	}
	same := Do(s.Job, edit.Of(message.Of("edit.test"), func(*job.Job) {}))
	if len(same.Moved) > 0 || same.Refused != nil || !reflect.DeepEqual(same.Job, s.Job) {
		t.Fatal("settling what is settled changes it")
	}
	if !again {
		return s
	}
	if twice := Do(s.Job, e); twice.Refused != nil || len(differing(&s.Job, &twice.Job)) > 0 {
		t.Fatalf("the same again changes %v: %v", differing(&s.Job, &twice.Job), e.What)
	}
	return s
}

// checkRefusal checks that a refusal leaves the job, says why, and has cures that do.
func checkRefusal(t *rapid.T, before job.Job, s Settled) {
	if len(s.Moved) > 0 || !reflect.DeepEqual(before, s.Job) {
		t.Fatal("a change that is refused changes the job")
	}
	if s.Refused.What.IsZero() || len(s.Refused.Problems) == 0 || len(s.Refused.Cures) > mostCures {
		t.Fatalf("refused: %v, %v, %d cures", s.Refused.What, s.Refused.Problems, len(s.Refused.Cures))
	}
	for _, c := range s.Refused.Cures {
		if cured := Do(before, c.Edit); cured.Refused != nil || reflect.DeepEqual(cured.Job, before) {
			t.Fatalf("the cure %v does not do: %+v", c.What, cured.Refused)
		}
	}
}

// hardlyDiffers tells whether a length differs by less than the least step that lengths are shown in, a millimetre
// or a sixteenth of an inch.
func hardlyDiffers(a, b *job.Job, key string) bool {
	was, _ := at(a, key)
	is, _ := at(b, key)
	const sixteenthMM = 25.4 / 16
	return was.CanFloat() && is.CanFloat() && math.Abs(was.Float()-is.Float()) < sixteenthMM
}
