package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/part"
)

// numberField finds the entry of a parameter by its key.
func numberField(t *testing.T, w *mainWindow, key string) *numberRow {
	t.Helper()
	for _, r := range w.inputs.rows {
		if n, ok := r.(*numberRow); ok && n.key == key {
			return n
		}
	}
	t.Fatalf("no field for %s", key)
	return nil
}

// enter types into a field as a person does: into it, over what is there, and
// Enter.
func enter(w *mainWindow, e *control.Entry, s string) {
	w.inputs.accordion.OpenAll() // a field that does not show takes no focus
	w.window.Canvas().Focus(e)
	e.SetText(s)
	if e.MultiLine {
		w.window.Canvas().Unfocus()
		return
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// What is typed is shown at once; it is the job's on Enter or on leaving the
// field, as one step, however many keys that took; Escape gives it up.
func TestTypingChangesTheJob(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	w.window.Canvas().Focus(f.entry)
	for _, s := range []string{"", "1", "10", "100", "1000"} {
		f.entry.SetText(s)
	}
	until(t, "the depth being typed", func() bool { return w.shownDepth() == 1000 })
	if got := w.desk.Job().Shower.DepthMM; got != 900 || !w.change.Undo.IsZero() {
		t.Errorf("while typing, the job has a depth of %v, undo %q", got, w.change.Undo)
	}
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	until(t, "the new depth", func() bool {
		return w.desk.Job().Shower.DepthMM == 1000 && theme.Say(w.change.Undo, "metric") == "Shower: Depth" && !w.change.Preview
	})
	f.entry.SetText(`3' 6"`)
	w.window.Canvas().Unfocus()
	until(t, "the depth in feet and inches", func() bool { return w.desk.Job().Shower.DepthMM == 1066.8 })
	w.window.Canvas().Focus(f.entry)
	f.entry.SetText("777")
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	until(t, "the depth before", func() bool { return w.shownDepth() == 1066.8 && f.entry.Text == "1066.8" })
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
	w.window.Canvas().Focus(f.entry)
	for _, s := range []string{"9", "99", "999", "9999", "99999999"} {
		f.entry.SetText(s)
		settle(t)
	}
	w.window.Canvas().Unfocus()
	until(t, "the depth before", func() bool { return w.shownDepth() == 900 && !w.change.Preview })
	if got := w.desk.Job().Shower.DepthMM; got != 900 || f.entry.Text != "900" {
		t.Errorf("the depth is %v, shown as %q", got, f.entry.Text)
	}
	if !f.message.Visible() || !strings.Contains(f.message.Text, "99999999") {
		t.Errorf("the message is %q", f.message.Text)
	}
}

// Half-typed and senseless numbers mark the field and leave the last good job.
func TestHalfTypedNumbers(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	for _, s := range []string{"", "-", "12 f", "1e9", "-900", "NaN", "5000"} {
		f.entry.SetText(s)
		if !f.message.Visible() || f.message.Text == "" {
			t.Errorf("%q is not marked", s)
		}
		if got := w.desk.Job().Shower.DepthMM; got != 900 {
			t.Errorf("%q changed the depth to %v", s, got)
		}
	}
	enter(w, f.entry, "950")
	if f.message.Visible() {
		t.Error("a good number is still marked")
	}
}

func TestArrowKeysStep(t *testing.T) {
	w, _ := openWindow(t, Options{})
	f := numberField(t, w, "shower.depthMM")
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := w.desk.Job().Shower.DepthMM; got != 910 {
		t.Errorf("arrow up gives %v, want 910", got)
	}
	f.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	if got := w.desk.Job().Shower.DepthMM; got != 810 {
		t.Errorf("page down gives %v, want 810", got)
	}
}

// Every parameter has a field, shown exactly when the job uses it.
func TestEveryParameterHasAField(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for i := range w.demos {
		j := w.demos[i].Job
		w.inputs.show(j)
		for _, p := range job.Parameters() {
			if f := numberField(t, w, p.Key); f.box.Visible() != p.Uses(j) {
				t.Errorf("%s: %s shown %v, used %v", w.demos[i].File, p.Key, f.box.Visible(), p.Uses(j))
			}
		}
	}
}

// listField finds the list whose label begins so.
func listField(t *testing.T, w *mainWindow, label string) *textRow {
	t.Helper()
	for _, r := range w.inputs.rows {
		if l, ok := r.(*textRow); ok && strings.HasPrefix(l.box.Objects[0].(*widget.Label).Text, label) {
			return l
		}
	}
	t.Fatalf("no list %s", label)
	return nil
}

func TestListFields(t *testing.T) {
	w, _ := openWindow(t, Options{})
	list := func(label string) *textRow { return listField(t, w, label) }
	enter(w, list("Spot levels").entry, "300, 400, 2.5, 1\n900, 400, 3")
	if s := w.desk.Job().SpotLevels; len(s) != 2 || s[0].LevelMM != 2.5 || s[1].ToleranceMM != job.UsualReadingMM {
		t.Errorf("spot levels %+v", s)
	}
	enter(w, list("Spot levels").entry, "300, 400")
	if l := list("Spot levels"); !l.message.Visible() || len(w.desk.Job().SpotLevels) != 2 {
		t.Error("a line with two numbers is not refused")
	}
	if got := list("Spot levels").entry.Text; got != "300, 400" {
		t.Errorf("what was typed and refused is gone: %q", got)
	}
	list("Spot levels").entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if got := list("Spot levels").entry.Text; !strings.HasPrefix(got, "300, 400, 2.5") {
		t.Errorf("given up, the list shows %q", got)
	}
	enter(w, list("In-line").entry, "reducer at 200 to 43/39 (reversed)\nfalling piece at 300 long 120 fall 3°")
	f := w.desk.Job().Waste.Fittings
	if len(f) != 2 || !f[0].Reversed || f[0].BoreMM != 39 || f[1].AtMM != 300 || f[1].LengthMM != 120 {
		t.Errorf("fittings %+v", f)
	}
	enter(w, list("Flows").entry, "12, 9 l/min")
	if v := w.desk.Job().Water.TotalLPS(); v < 0.349 || v > 0.351 {
		t.Errorf("flows add up to %v, want 0.35", v)
	}
	enter(w, list("Corners").entry, "0,0\n2400,0\n2400,1900\n1000,1900\n1000,2500\n0,2500")
	if n := len(w.desk.Job().Room.Walls); len(w.desk.Job().Room.Outline) == 6 && n != 6 {
		t.Errorf("six corners, %d walls", n)
	}
}

// Fittings read back what is written of them.
func TestFittingWords(t *testing.T) {
	for _, f := range []job.Fitting{
		{Kind: job.FittingReducer, AtMM: 250, LengthMM: 60, Reversed: true,
			Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39}.WithUsualFittings()},
		{Kind: job.FittingFallingPiece, AtMM: 100, LengthMM: 140, Slope: 0.05},
	} {
		got, err := readFitting(writeFitting(f, "metric", british(t)), "metric", british(t))
		if err != nil || got != f {
			t.Errorf("%q reads back as %+v, %v", writeFitting(f, "metric", british(t)), got, err)
		}
	}
	for _, s := range []string{"", "valve at 3", "reducer to 43/39", "reducer at 100 to 43", "falling piece at x"} {
		if _, err := readFitting(s, "metric", british(t)); err == nil {
			t.Errorf("%q is taken", s)
		}
	}
}
