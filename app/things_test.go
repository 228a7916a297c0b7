package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/geometry/buildup"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/viewer"
)

// The tag of a thing swaps it, moves it from where it stands, clears it away and brings it back; each is undone by itself.
func TestTheTagOfAThing(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	// Two things of the room; the first can be moved.
	var things []furnish.Object
	for _, o := range furnish.Of(&w.change.Result).Objects {
		if k, ok := o.Thing(); ok && k.Movable() {
			things = append(things, o)
		}
	}
	if len(things) < 2 {
		t.Fatalf("%d things in the room", len(things))
	}
	kind, _ := things[0].Thing()
	press := func(label string) {
		t.Helper()
		for _, o := range test.LaidOutObjects(w.window.Canvas().Overlays().Top()) {
			if b, ok := o.(*control.Press); ok && strings.HasPrefix(b.Text, label) {
				b.OnPressed()
				return
			}
		}
		t.Fatalf("no button %q", label)
	}
	had := func() job.Picture { return w.desk.Job().Shown() }
	at := fyne.NewPos(40, 40)
	w.openThing(things[0], at)
	press("Swap")
	if !had().Had(kind).Other {
		t.Error("it is not swapped")
	}
	w.openThing(things[0], at)
	press("Move left")
	if mm := had().Had(kind).AlongMM; mm != -100 {
		t.Errorf("it is moved by %v", mm)
	}
	press("Clear away")
	until(t, "a room without it", func() bool { return w.change.Result.Settled.Shown().Had(kind).Cleared })
	w.openThing(things[1], at)
	press("Bring back")
	if v := had().Had(kind); v.Cleared || !v.Other || v.AlongMM != -100 {
		t.Errorf("brought back it is had as %+v", v)
	}
	for range 4 {
		w.desk.Undo()
	}
	if w.desk.Job().Picture != nil {
		t.Errorf("undone: %+v", w.desk.Job().Picture)
	}
}

// The tag of a niche tells how the tiles of its wall are cut beside it, and moves it so that a side lies on a joint.
func TestANicheGoesToAJoint(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	niche := func() (o furnish.Object, s furnish.Slips) {
		o, _ = w.thing(job.ThingNiche)
		s, _ = furnish.SlipsOf(&w.change.Result, o)
		return o, s
	}
	o, s := niche()
	if s.LeftMM == 0 || s.RightMM == 0 {
		t.Fatalf("the niche lies at a joint already: %+v", s)
	}
	w.openThing(o, fyne.NewPos(40, 40))
	for _, part := range test.LaidOutObjects(w.window.Canvas().Overlays().Top()) {
		if b, ok := part.(*control.Press); ok && b.Text == "Move it to a joint" {
			b.OnPressed()
		}
	}
	if _, s := niche(); s.LeftMM != 0 && s.RightMM != 0 {
		t.Errorf("moved it lies beside strips of %v and %v", s.LeftMM, s.RightMM)
	}
}

// The tag of a thing at the edge of the window is all in the window; Escape closes the tag alone, and the showroom only where no
// tag is open.
func TestTheTagOfAThingAtTheEdge(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	w.openShowroom()
	all := w.window.Canvas().Size()
	for _, o := range furnish.Of(&w.change.Result).Objects {
		if _, ok := o.Thing(); !ok {
			continue
		}
		w.openThing(o, fyne.NewPos(all.Width-10, all.Height-10))
		for _, part := range test.LaidOutObjects(w.window.Canvas().Overlays().Top()) {
			if b, ok := part.(*control.Press); ok {
				at := fyne.CurrentApp().Driver().AbsolutePositionForObject(b)
				if at.X < 0 || at.Y < 0 || at.X+b.Size().Width > all.Width || at.Y+b.Size().Height > all.Height {
					t.Errorf("%q stands at %v of %v", b.Text, at, all)
				}
			}
		}
		w.plainKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if w.window.Canvas().Overlays().Top() != nil || w.showroom == nil {
			t.Fatal("Escape does not close the tag alone")
		}
	}
	w.plainKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.showroom != nil {
		t.Error("Escape does not close the showroom")
	}
}

// The tag of a thing stands beside it in the picture, not over it, with a line from one to the other, which follows when it is moved.
func TestTheTagLeavesItsThingFree(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return !w.change.Preview && len(w.change.Result.Layout.Walls) > 0 })
	w.theme.SetStill(true) // what is pressed is there, not on the way
	w.lookFrom(viewer.ViewPhoto)
	objects := furnish.Of(&w.change.Result).Objects
	until(t, "a thing in the picture", func() bool {
		return w.view.Size().Width > 0 && slices.ContainsFunc(objects, func(o furnish.Object) bool {
			_, thing := o.Thing()
			_, _, seen := w.view.BoxOf(o)
			return thing && seen
		})
	})
	corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.view)
	told := 0
	for _, o := range objects {
		kind, ok := o.Thing()
		low, high, seen := w.view.BoxOf(o)
		if !ok || !seen {
			continue
		}
		told++
		low, high = low.Add(corner), high.Add(corner)
		w.openThing(o, fyne.NewPos((low.X+high.X)/2, (low.Y+high.Y)/2))
		var leader *canvas.Line
		var first, last fyne.Position
		for _, part := range test.LaidOutObjects(w.window.Canvas().Overlays().Top()) {
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(part)
			switch part := part.(type) {
			case *canvas.Line:
				leader = part
			case *control.Press:
				if last.X == 0 {
					first = at
				}
				last = at.Add(part.Size())
			}
		}
		if first.X < high.X && last.X > low.X && first.Y < high.Y && last.Y > low.Y {
			t.Errorf("the tag of the %s stands at %v to %v over %v to %v", kind, first, last, low, high)
		}
		holder := fyne.CurrentApp().Driver().AbsolutePositionForObject(leader).Subtract(leader.Position())
		if end := holder.Add(leader.Position2); end.X < low.X-1 || end.X > high.X+1 || end.Y < low.Y-1 || end.Y > high.Y+1 {
			t.Errorf("the line of the %s ends at %v, not in %v to %v", kind, end, low, high)
		}
		w.closePopUp()
	}
	if told == 0 {
		t.Error("no thing is in the picture")
	}
}

// A photograph is of the finished room, whatever the picture showed before.
func TestAPhotographIsOfTheFinishedRoom(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	w.sight.Change(func(s *sight.State) {
		s.CutOn, s.Look, s.Apart, s.Stage = true, viewer.LookHeights, 0.5, buildup.StageBare
	})
	w.lookFrom(viewer.ViewPhoto)
	if s := w.sight.State; s.CutOn || s.Look != viewer.LookFinished || s.Apart != 0 || s.Stage != buildup.StageTile {
		t.Errorf("the photograph shows %+v", s)
	}
}

// A thing that is dragged in the picture follows the pointer along its wall, keeps clear of everything, and the drag is one step to
// undo; dragged further than there is room it stays where there is, which is said.
func TestAThingIsDragged(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the job", func() bool { return len(w.change.Result.Layout.Walls) > 0 })
	towels := func(o furnish.Object) bool { k, ok := o.Thing(); return ok && k == job.ThingTowels }
	if !slices.ContainsFunc(furnish.Of(&w.change.Result).Objects, towels) {
		t.Fatal("no towels in the room")
	}
	had := func() float64 { return w.desk.Job().Shown().Had(job.ThingTowels).AlongMM }
	for _, mm := range []float64{10, 20, 40} {
		w.view.ThingMoved(job.ThingTowels, mm)
		until(t, "the towels moved", func() bool { return w.change.Result.Settled.Shown().Had(job.ThingTowels).AlongMM == mm })
	}
	w.view.ThingLet(job.ThingTowels, 40)
	if had() != 40 || w.refused != nil {
		t.Errorf("dragged by 40 they are moved by %v, refused: %v", had(), w.refused != nil)
	}
	w.desk.Undo()
	if had() != 0 {
		t.Errorf("undone they are moved by %v", had())
	}
	const farMM = 20000
	w.view.ThingMoved(job.ThingTowels, farMM)
	w.view.ThingLet(job.ThingTowels, farMM)
	if w.refused == nil {
		t.Error("nothing is said of a thing that has no room")
	}
	if mm := w.thingAlongMM(job.ThingTowels); mm <= 0 || mm > 3000 {
		t.Errorf("they stand %v from where they were", mm)
	}
}
