package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Runs are found and one is put into the job by one step.
func TestFindRuns(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.runs.toggle()
	until(t, "the search", func() bool { return w.runs.cancel == nil })
	if len(w.runs.list.Objects) == 0 {
		t.Fatal("nothing is listed: " + w.runs.note.Text)
	}
	before := w.desk.Job()
	button, picture := findButton(w.runs.list.Objects[len(w.runs.list.Objects)-1]), false
	each(w.runs.list, func(o fyne.CanvasObject) { _, is := o.(*canvas.Image); picture = picture || is })
	if button == nil || !picture {
		t.Fatal("a run has no button or no picture")
	}
	button.OnTapped()
	until(t, "the run", func() bool { return len(w.change.Problems) == 0 && !w.change.Undo.IsZero() })
	if w.change.Result.Stops() {
		t.Error("a found run is stopped")
	}
	w.desk.Undo()
	until(t, "undo", func() bool { return w.change.Undo.IsZero() })
	if after := w.desk.Job(); after.Waste.Exit != before.Waste.Exit || after.Drain.OutletTurnDeg != before.Drain.OutletTurnDeg {
		t.Error("undo does not bring the run back")
	}
}

// To a stack in the room, beside the shower, no run goes: that is said first, with what stops
// most of those tried, then what comes nearest with what stops it, then what would let one
// through; the runs elsewhere stand under their own heading. Laid, the nearest is stopped;
// boxed in, the waste goes to the stack.
func TestNoRunToTheStack(t *testing.T) {
	w, _ := openWindow(t, Options{})
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{115, 863}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	w.desk.Do(edit.Of(message.Of("edit.test"), func(to *job.Job) { *to = j }))
	w.runs.toggle()
	until(t, "the search", func() bool { return w.runs.cancel == nil && len(w.runs.list.Objects) > 0 })
	if note := w.runs.note.Text; !strings.HasPrefix(note, "Into stack 1: no run can be built there.") {
		t.Errorf("the note says %q", note)
	}
	var told []string
	each(w.runs.list, func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		switch o := o.(type) {
		case *widget.Label:
			told = append(told, o.Text)
		case *widget.RichText:
			told = append(told, o.String())
		}
	})
	all, from := strings.Join(told, "\n"), 0
	for _, want := range []string{
		"To the exit as stated", "plain runs were tried, and none can be built. What stops most of them: Pipe not covered by the base (",
		"What comes nearest", "What stops it:", "Pipe not covered by the base – Waste run: ",
		"What would let one through", "The pipe boxed in along the room", "With another exit", "Out through wall B",
	} {
		i := strings.Index(all[from:], want)
		if i < 0 {
			t.Fatalf("%q is not said, or not in its place:\n%s", want, all)
		}
		from += i
	}
	if all := w.runs.uses; all[0].button.Text != "Lay it all the same" || all[1].button.Text != "Use" {
		t.Errorf("the buttons say %q and %q", all[0].button.Text, all[1].button.Text)
	}
	for i, stopped := range []bool{true, false} {
		w.runs.uses[i].button.OnTapped()
		until(t, "the run", func() bool { return w.change.Result.Stops() == stopped && w.change.Undo.ID == "edit.run" })
	}
	if j := w.desk.Job(); j.Waste.Boxing == nil || j.Waste.Exit.Kind != job.ExitStack {
		t.Errorf("boxed in %v, to %v", j.Waste.Boxing, j.Waste.Exit)
	}
}

// Found runs are of the job they were found for: another job clears the list
// and stops a search that goes on; an edit marks the list as old, and a run then
// used changes the job as it now is, not back to what it was.
func TestFoundRunsAreOfTheirJob(t *testing.T) {
	w, _ := openWindow(t, Options{})
	search := func() {
		w.runs.toggle()
		until(t, "the search", func() bool { return w.runs.cancel == nil && len(w.runs.list.Objects) > 0 })
	}
	search()
	if w.runs.old.Visible() {
		t.Error("a fresh list is marked as old")
	}
	w.desk.Do(edit.Of(message.Of("edit.test-name-of-the-job"), func(j *job.Job) { j.Name = "Customer B" }))
	until(t, "the mark", func() bool { return w.runs.old.Visible() })
	use := findButton(w.runs.list.Objects[len(w.runs.list.Objects)-1])
	use.OnTapped()
	until(t, "the run", func() bool { return w.change.Undo.ID == "edit.run" })
	if got := w.desk.Job().Name; got != "Customer B" {
		t.Errorf("using a run brought back the job of %q", got)
	}
	if err := w.desk.Replace(w.demos[1].Job, ""); err != nil {
		t.Fatal(err)
	}
	until(t, "an empty list", func() bool { return len(w.runs.list.Objects) == 0 && !w.runs.old.Visible() })

	// While a search goes on, another job is opened: its runs never come.
	w.runs.toggle()
	going := w.runs.cancel
	if going == nil {
		t.Fatal("no search")
	}
	if err := w.desk.Replace(w.demos[2].Job, ""); err != nil {
		t.Fatal(err)
	}
	until(t, "the search to be stopped", func() bool { return w.runs.cancel == nil })
	search()
	for _, o := range w.runs.list.Objects {
		if b := findButton(o); b != nil {
			b.OnTapped()
			break
		}
	}
	until(t, "the run", func() bool { return !w.change.Undo.IsZero() })
	if got := w.desk.Job().Name; got != w.demos[2].Job.Name {
		t.Errorf("a run of another job was used: %q", got)
	}
}
