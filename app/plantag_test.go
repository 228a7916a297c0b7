package app

import (
	"image"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/google/go-cmp/cmp"
	"underfall/app/paint"
	"underfall/app/roomtest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/section"
	"underfall/geometry/unit"
	"underfall/viewer"
)

// thingOfPlan is a thing of the plan, once it is drawn.
func thingOfPlan(t *testing.T, w *mainWindow, id section.ThingID) (thing section.Thing) {
	t.Helper()
	until(t, "the plan", func() (ok bool) {
		thing, ok = w.plan.Thing(id)
		return ok
	})
	return thing
}

// Three steps place a door: its press, what is typed, Enter. Escape closes the tag and lets go of the door, so that what
// is typed next is not the door's; so does what closes the tag.
func TestDoorByItsTag(t *testing.T) {
	w, _ := openWindow(t, Options{})
	door := thingOfPlan(t, w, section.ThingID{Key: job.DoorwaysKey + "[0]"})
	_, _, at := w.plan.Around(door)
	w.plan.Tapped(&fyne.PointEvent{Position: at})
	if !w.tag.layer.IsOpen() || w.window.Canvas().Focused() != fyne.Focusable(w.plan) {
		t.Fatalf("the tag is open %v, the keys go to %T", w.tag.layer.IsOpen(), w.window.Canvas().Focused())
	}
	for _, r := range "120" {
		w.window.Canvas().Focused().TypedRune(r)
	}
	if got := w.desk.Job().Room.Doorways[0].OffsetMM; got == 120 {
		t.Error("the door is there while it is typed")
	}
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := w.desk.Job().Room.Doorways[0].OffsetMM; got != 120 {
		t.Fatalf("the door is at %v", got)
	}
	w.window.Canvas().Focused().TypedRune('4')
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got := w.desk.Job().Room.Doorways[0].OffsetMM; got != 120 {
		t.Errorf("given up, the door is at %v", got)
	}
	letGo := func(after string) {
		t.Helper()
		if _, chosen := w.plan.Chosen(); w.tag.layer.IsOpen() || chosen {
			t.Errorf("after %s the tag is open %v, something chosen %v", after, w.tag.layer.IsOpen(), chosen)
		}
		typedAs(w, "450")
		w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		if got := w.desk.Job().Room.Doorways[0].OffsetMM; got != 120 {
			t.Errorf("after %s what is typed puts the door at %v", after, got)
		}
	}
	letGo("Escape")
	w.plan.Tapped(&fyne.PointEvent{Position: at})
	w.tag.layer.Closed()
	letGo("the press that closes it")
}

// typedAs types a figure as a keyboard does: every key, and then its character, goes to what has the keys then.
func typedAs(w *mainWindow, figure string) {
	for _, r := range figure {
		key := &fyne.KeyEvent{Name: fyne.KeyName(r)}
		if f := w.window.Canvas().Focused(); f != nil {
			f.TypedKey(key)
		} else {
			w.plainKey(key)
		}
		if f := w.window.Canvas().Focused(); f != nil {
			f.TypedRune(r)
		}
	}
}

// A figure typed with a thing of the plan chosen goes into its field while the keys are there, and into nothing of the plan
// once something else is pressed. With nothing chosen it changes nothing and is told, but for a single digit with the keys at
// nothing, which turns the view.
func TestFigureIsOfWhatIsChosen(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close()
	c := w.window.Canvas()
	door := thingOfPlan(t, w, section.ThingID{Key: job.DoorwaysKey + "[0]"})
	_, _, at := w.plan.Around(door)
	for _, keys := range []struct {
		name string
		at   fyne.Focusable
	}{{"the plan", w.plan}, {"the rods", w.rods.rods}, {"nothing", nil}} {
		w.plan.Tapped(&fyne.PointEvent{Position: at})
		was, goes := w.desk.Job().Room.Doorways[0].OffsetMM, keys.at == fyne.Focusable(w.plan)
		c.Focus(keys.at)
		view, camera := w.sight.View, w.sight.Camera
		typedAs(w, "250")
		if goes {
			c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		}
		got := w.desk.Job().Room.Doorways[0].OffsetMM
		if goes && (got != 250 || w.sight.View != view || w.sight.Camera != camera) || !goes && got != was {
			t.Errorf("with the keys at %s the door is at %v, the view is %v", keys.name, got, w.sight.View)
		}
		if goes {
			w.desk.Undo()
		}
		w.plan.Deselect()
	}
	settle(t)
	stays := func(how string) {
		t.Helper()
		if told := w.status.Text; told == "" || w.tag.layer.IsOpen() {
			t.Errorf("%s: told %q, a tag is open %v", how, told, w.tag.layer.IsOpen())
		}
		w.status.SetText("")
	}
	view := w.sight.View
	c.Focus(w.plan)
	typedAs(w, "2500")
	stays("typed at the plan")
	if w.sight.View != view {
		t.Error("typed at the plan the figure turns the view")
	}
	clock := w.now()
	w.now = func() time.Time { return clock } // however slow the machine, what is typed is typed in one go
	w.digitAt = time.Time{}
	c.Unfocus()
	typedAs(w, "4")
	if w.sight.View != viewer.ViewStanding || w.status.Text != "" {
		t.Errorf("a digit by itself looks from %v and tells %q", w.sight.View, w.status.Text)
	}
	typedAs(w, "500")
	stays("more digits")
	if w.sight.View != viewer.ViewStanding {
		t.Errorf("more digits turn the view to %v", w.sight.View)
	}
	clock = clock.Add(oneFigure)
	typedAs(w, "5")
	if w.sight.View != viewer.ViewDoorway {
		t.Errorf("a digit typed a while later looks from %v", w.sight.View)
	}
}

// Every thing of the plan of every demo has a tag that says what it is and has fields; in US units no field is in millimetres.
func TestTagsOfEveryDemo(t *testing.T) {
	onlyLooks(t)
	w, _ := openWindow(t, Options{})
	w.sides.openFields()
	for i := range 2 * len(w.demos) {
		j := w.demos[i/2].Job.Clone()
		j.Units = []unit.System{unit.Metric, unit.Imperial}[i%2]
		if err := w.desk.Replace(j); err != nil {
			t.Fatal(err)
		}
		until(t, "the demo", func() bool {
			shown := w.change.Result.Settled
			return !w.replaced && shown.Name == j.Name && shown.Units == j.Units
		})
		for _, thing := range section.PlanOf(w.change.Result).Things {
			w.tag.selected(thing, true)
			w.tag.open(thing, false, 0)
			shows := 0
			for _, r := range w.tag.fields.Rows() {
				if r.There() {
					shows++
				}
			}
			if measured := w.change.Result.Settled.Room.Measured(); shows == 0 && !measured {
				t.Errorf("%s: the tag of %v has no field", j.Name, thing.ThingID)
			}
			for _, said := range textsOf(w.tag.layer) {
				if j.Units == unit.Imperial && strings.HasSuffix(said, "mm") {
					t.Errorf("%s: the tag of %v says “%s”", j.Name, thing.ThingID, said)
				}
			}
		}
		w.tag.close()
	}
}

// Choosing things in the plan moves nothing that is being read in the tray: whichever station is open stays open, scrolled as it is,
// and the plan keeps its place; what there is to know of a thing of that station is told at its foot.
func TestChoosingMovesNothingInTheTray(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.openFields()
	w.begin(w.demos[0].Job)
	told := 0
	for _, of := range []job.Station{job.StationShower, job.StationDrain, job.StationWayOut, job.StationFinish} {
		w.tray.Open(of)
		roomtest.NewFrames().Settle(w.window.Content())
		until(t, "the plan", func() bool { return w.resting() })
		fields, about := w.tray.Rows(), textsOf(w.tray.Object())
		was := map[fyne.CanvasObject]fyne.Position{}
		for _, r := range fields {
			was[r.Object()] = fyne.CurrentApp().Driver().AbsolutePositionForObject(r.Object())
		}
		at, size := w.frame.clips[regionPlan].Position(), w.frame.clips[regionPlan].Size()
		for _, thing := range section.PlanOf(w.change.Result).Things {
			w.tag.selected(thing, true)
			w.tag.open(thing, false, 0)
			roomtest.NewFrames().Settle(w.window.Content())
			if w.tray.Station() != of || w.frame.clips[regionPlan].Position() != at || w.frame.clips[regionPlan].Size() != size {
				t.Fatalf("%v has %s open, where %s was", thing.ThingID, w.tray.Station(), of)
			}
			for o, p := range was {
				if now := fyne.CurrentApp().Driver().AbsolutePositionForObject(o); o.Visible() && now != p {
					t.Fatalf("%s: with %v chosen a field moves from %v to %v", of, thing.ThingID, p, now)
				}
			}
			if !slices.Equal(about, textsOf(w.tray.Object())) {
				told++
			}
		}
		w.tag.close()
	}
	if told == 0 {
		t.Error("of no thing there is anything told in the tray")
	}
}

// What is put into the room is chosen and its tag has the keys, so that its first field is typed at once; all of
// that is one step back.
func TestPutIn(t *testing.T) {
	w, _ := openWindow(t, Options{})
	before := w.desk.Job()
	for _, p := range edit.PutsIn(&before) {
		w.put(p)
		until(t, p.Thing+" to be chosen", func() bool {
			thing, ok := w.plan.Chosen()
			return ok && thing.Key == p.Thing && w.tag.layer.IsOpen() && w.tag.figure.typing()
		})
		w.desk.Undo()
		if diff := cmp.Diff(before, w.desk.Job()); diff != "" {
			t.Errorf("%s: one step back leaves\n%s", p.Thing, diff)
		}
		until(t, p.Thing+" to be gone", func() bool { return !w.tag.layer.IsOpen() })
	}
}

// Three steps change a wall's length where it stands: its figure pressed, what is typed, Enter, which closes the field.
// Escape leaves it as it was; so does going elsewhere with nothing typed.
func TestFigureTypedWhereItStands(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.sides.close() // the room's fields would have the plan alone
	thingOfPlan(t, w, section.ThingID{Key: "shower"})
	figure := paint.Placed{Key: edit.Side{Wall: 1}.Key(), Box: image.Rect(300, 200, 340, 214)}
	w.plan.TypeOn(figure)
	for _, r := range "2000" {
		w.window.Canvas().Focused().TypedRune(r)
	}
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := w.desk.Job().Room.WallLengthMM(1); got != 2000 || w.tag.layer.IsOpen() {
		t.Errorf("the wall is %v long, the field open %v", got, w.tag.layer.IsOpen())
	}
	w.plan.TypeOn(figure)
	w.window.Canvas().Focused().TypedRune('9')
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got := w.desk.Job().Room.WallLengthMM(1); got != 2000 || w.tag.layer.IsOpen() {
		t.Errorf("after Escape the wall is %v long, the field open %v", got, w.tag.layer.IsOpen())
	}
	w.plan.TypeOn(figure)
	w.window.Canvas().Focus(w.plan)
	until(t, "the field to close", func() bool { return !w.tag.layer.IsOpen() })
	w.plan.TypeOn(paint.Placed{Key: "no.input"})
	if w.tag.layer.IsOpen() {
		t.Error("a field of nothing")
	}
}

// A distance that is worked out, pressed in the plan, is not mute: its tag has no field, says so and leads to what it
// hangs on, a thing of the plan with its own tag or a field in the tray. Escape closes it in one press.
func TestWorkedOutDistancesTell(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.window.Resize(fyne.NewSize(1920, 1080))
	w.sides.close() // while the room is measured the plan has no more than that
	thingOfPlan(t, w, section.ThingID{Key: "drain"})
	until(t, "the plan at its size", w.plan.AtRest)
	var on paint.Placed
	until(t, "a distance that is worked out", func() (ok bool) {
		r := w.change.Result
		book := w.sight.Styled(w.theme.PaintStyle(1, r.Settled.Units, ""), r).Book
		for _, o := range section.PlanOf(r).SetOuts {
			if on, ok = w.plan.Worked(paint.Placed{Text: book.Say(o.Text), HangsOn: o.HangsOn}); ok && slices.Contains(on.HangsOn, "drain") {
				return true
			}
		}
		return false
	})
	w.plan.TypeOn(on)
	if !w.tag.layer.IsOpen() || len(w.tag.layer.Fields()) != 0 {
		t.Fatalf("the tag is open %v with %d fields", w.tag.layer.IsOpen(), len(w.tag.layer.Fields()))
	}
	said := ""
	for _, text := range shownTexts(w.tag.layer) {
		said += text.Text + " "
	}
	for _, want := range []string{on.Text, "Worked out", "Drain and trap"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.tag.layer.IsOpen() {
		t.Error("Escape leaves it open")
	}
	w.plan.TypeOn(on)
	w.plan.Redraw()
	until(t, "the plan drawn anew", w.plan.AtRest)
	if !w.tag.layer.IsOpen() {
		t.Error("drawn anew, it is closed")
	}
	w.plan.Tapped(&fyne.PointEvent{Position: fyne.NewPos(3, 3)})
	if w.tag.layer.IsOpen() {
		t.Error("a press beside it leaves it open")
	}
	w.plan.TypeOn(on)
	w.tag.goTo("drain")
	until(t, "the tag of the drain", func() bool {
		thing, ok := w.plan.Chosen()
		return ok && thing.Key == "drain" && w.tag.layer.IsOpen() && len(w.tag.layer.Fields()) > 0
	})
	w.plan.TypeOn(on)
	w.tag.goTo("room.rampRunMM")
	until(t, "the station of the field", func() bool {
		at, _ := job.StationOf("room.rampRunMM")
		return w.sides.at == sideFields && w.tray.Station() == at && !w.tag.layer.IsOpen()
	})
}
