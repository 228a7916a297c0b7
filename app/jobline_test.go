package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/store"
	"underfall/geometry/job"
)

// The job's name, pressed where it stands, is typed there: Enter takes it, Escape leaves it as it was.
func TestTheNameIsTypedWhereItStands(t *testing.T) {
	w, _ := openWindow(t, Options{})
	l := &w.jobLine
	was := l.name.Text
	typed := func(name string, key fyne.KeyName) {
		l.press.Tapped(nil)
		e := l.row.Entry
		if w.window.Canvas().Focused() != fyne.Focusable(e) || l.press.Visible() || e.Text != l.name.Text {
			t.Fatalf("pressed, the name %q is no field with the keys in it, but %q", l.name.Text, e.Text)
		}
		e.SetText(name)
		e.TypedKey(&fyne.KeyEvent{Name: key})
		settle(t)
		if e.Visible() || !l.press.Visible() {
			t.Errorf("after %s it is a field still", key)
		}
	}
	typed("Mill Lane", fyne.KeyEscape)
	until(t, "the name as it was", func() bool { return l.name.Text == was && w.desk.Job().Name == was })
	typed("Mill Lane", fyne.KeyReturn)
	until(t, "the name", func() bool { return l.name.Text == "Mill Lane" && w.desk.Job().Name == "Mill Lane" })
	if w.desk.Undo(); w.desk.Job().Name != was {
		t.Error("it is no step to take back")
	}
}

// What nobody has named is called by what tells it apart.
func TestNewJobsAreToldApart(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	p := w.start.practice("UK")
	begun := func(change func(*job.Job)) string {
		j, problems := p.Job(p.Begin())
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		change(&j)
		w.start.work(j)
		return w.desk.Job().Name
	}
	same := func(*job.Job) {}
	first := begun(same)
	if err := store.List(w.folder, store.Listed{Path: "/a.json", Name: first}); err != nil {
		t.Fatal(err)
	}
	second, smaller := begun(same), begun(func(j *job.Job) { j.Shower.DepthMM = 800 })
	if first == job.New().Name || first == second || first == smaller || second == smaller {
		t.Errorf("three are called %q, %q, %q", first, second, smaller)
	}
	if named := begun(func(j *job.Job) { j.Name = "Mill Lane" }); named != "Mill Lane" {
		t.Errorf("what has a name is called %q", named)
	}
}
