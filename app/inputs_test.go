package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// What is typed is shown at once; it is the job's on Enter or on leaving the
// field, as one step, however many keys that took; Escape gives it up.
func TestTypingChangesTheJob(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	e := into(w, f)
	for _, s := range []string{"", "1", "10", "100", "1000"} {
		e.SetText(s)
	}
	until(t, "the depth being typed", func() bool { return w.shownDepth() == 1000 })
	if got := w.desk.Job().Shower.DepthMM; got != 900 || !w.change.Undo.IsZero() {
		t.Errorf("while typing, the job has a depth of %v, undo %q", got, w.change.Undo)
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	until(t, "the new depth", func() bool {
		return w.desk.Job().Shower.DepthMM == 1000 && theme.Say(w.change.Undo, "metric") == "Depth (Shower)" && !w.change.Preview
	})
	e.SetText(`3' 6"`)
	w.window.Canvas().Unfocus()
	until(t, "the depth in feet and inches", func() bool { return w.desk.Job().Shower.DepthMM == 1066.8 })
	e = into(w, f)
	e.SetText("777")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	until(t, "the depth before", func() bool { return w.shownDepth() == 1066.8 && f.Field.Text() == "1066.8" })
	w.desk.Undo()
	w.desk.Undo()
	until(t, "undo", func() bool { return w.shownDepth() == 900 })
	if !w.desk.Undo().IsZero() {
		t.Error("typing left more than one step each")
	}
}

// A value that is refused when it is left gives way to the one before, not to
// the last beginning of it that would do, and says so.
func TestRefusedGoesBack(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	e := into(w, f)
	for _, s := range []string{"9", "99", "999", "9999", "99999999"} {
		e.SetText(s)
		settle(t)
	}
	w.window.Canvas().Unfocus()
	until(t, "the depth before", func() bool { return w.shownDepth() == 900 && !w.change.Preview })
	if got := w.desk.Job().Shower.DepthMM; got != 900 || f.Field.Text() != "900" {
		t.Errorf("the depth is %v, shown as %q", got, f.Field.Text())
	}
	if !strings.Contains(f.Says(), "99999999") {
		t.Errorf("the message is %q", f.Says())
	}
}

// Half-typed and senseless numbers are not taken, which the field says, and leave the last good job.
func TestHalfTypedNumbers(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	for _, s := range []string{"", "-", "12 f", "1e9", "-900", "NaN", "5000"} {
		enter(w, f, s)
		if f.Says() == "" {
			t.Errorf("%q is not marked", s)
		}
		if got := w.desk.Job().Shower.DepthMM; got != 900 {
			t.Errorf("%q changed the depth to %v", s, got)
		}
	}
	enter(w, f, "950")
	if f.Says() != "" {
		t.Error("a good number is still marked")
	}
}

func TestArrowKeysStep(t *testing.T) {
	w, _ := openWindow(t, Options{})
	e := into(w, numberField(t, w, "shower.depthMM"))
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := w.desk.Job().Shower.DepthMM; got != 910 {
		t.Errorf("arrow up gives %v, want 910", got)
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	if got := w.desk.Job().Shower.DepthMM; got != 810 {
		t.Errorf("page down gives %v, want 810", got)
	}
}

// Every parameter has a field, shown exactly when the job uses it.
func TestEveryParameterHasAField(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for i := range w.demos {
		j := w.demos[i].Job
		w.tray.Show(j)
		for _, p := range job.Parameters() {
			if f := numberField(t, w, p.Key); f.There() != p.Uses(j) {
				t.Errorf("%s: %s shown %v, used %v", w.demos[i].File, p.Key, f.There(), p.Uses(j))
			}
		}
	}
}

// The buttons for shapes of the room are off where it has that shape already.
func TestShapesThatWouldChangeNothing(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.tray.Open(job.StationRoom)
	buttons := pressesIn(w.tray.Object(), "Make a")
	if len(buttons) != 2 {
		t.Fatalf("%d buttons", len(buttons))
	}
	rectangle, l := buttons[0], buttons[1]
	if !rectangle.Off || l.Off {
		t.Error("a rectangle can be made one")
	}
	ring := []plan.Point{{0, 0}, {4800, 0}, {4800, 1900}, {2400, 1900}, {2400, 3800}, {0, 3800}}
	if p := w.desk.Do(edit.All(message.Of("edit.corners"), edit.Outline(ring), edit.Of(message.Of("edit.corners"), func(j *job.Job) {
		j.Shower.Wall, j.Waste.Exit.Wall = 4, 5
	}))); len(p) > 0 {
		t.Fatal(p)
	}
	until(t, "the room", func() bool { return l.Off })
	if rectangle.Off {
		t.Error("an L-shape cannot be made a rectangle")
	}
}
