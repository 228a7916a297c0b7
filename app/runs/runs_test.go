package runs

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// onBench is a search over a desk with the first of the jobs that Underfall comes with.
func onBench(t *testing.T) (*Finder, *roomtest.Bench) {
	t.Helper()
	b := roomtest.New(t, roomtest.First(t))
	p := New(Asks{Job: b.Desk.Job, Opened: b.Desk.Opened, Packs: b.Desk.Regions(),
		Try: func(all []Way, at int) { b.Desk.Do(all[at].Edit) }, OnWindow: b.Do},
		control.NewKeys(), b.Theme, b.Painter(), b.Guard)
	b.Desk.Subscribe(func(c desk.Change) { p.Follow(c.Opened) })
	return p, b
}

// Runs are found and one is put into the job by one step.
func TestFindRuns(t *testing.T) {
	p, b := onBench(t)
	p.Begin()
	p.Begin() // one goes on
	b.Until("the search", func() bool { return p.cancel == nil })
	if len(p.list.Objects) == 0 {
		t.Fatal("nothing is listed: " + p.note.Text)
	}
	if p.Begin(); p.cancel != nil || p.serial != 1 {
		t.Errorf("what is found of the job as it is is looked for again, %d times", p.serial)
	}
	before := b.Desk.Job()
	if !slices.ContainsFunc(test.LaidOutObjects(p.list), func(o fyne.CanvasObject) bool { _, is := o.(*canvas.Image); return is }) {
		t.Fatal("no run has a picture")
	}
	p.uses[len(p.uses)-1].button.OnPressed()
	b.Until("the run", func() bool { return len(b.Change.Problems) == 0 && !b.Change.Undo.IsZero() })
	if b.Change.Result.Stops() {
		t.Error("a found run is stopped")
	}
	b.Desk.Undo()
	b.Until("undo", func() bool { return b.Change.Undo.IsZero() })
	if after := b.Desk.Job(); after.Waste.Exit != before.Waste.Exit || after.Drain.OutletTurnDeg != before.Drain.OutletTurnDeg {
		t.Error("undo does not bring the run back")
	}
}

// To a stack in the room, beside the shower, no run goes: that is said first, then what would let one through, and the
// runs elsewhere under their own heading. What stops most of those tried, and what comes nearest with what stops it,
// stands last, folded away. Laid, the nearest is stopped; boxed in, the waste goes to the stack.
func TestNoRunToTheStack(t *testing.T) {
	p, b := onBench(t)
	shown := p.Object()
	shown.Resize(fyne.NewSize(330, 600))
	j := job.New()
	j.Room.Stacks = []job.Stack{{At: plan.Point{115, 863}, NominalMM: 110, OutsideMM: 110}}
	j.Waste.Exit = job.Exit{Kind: job.ExitStack}
	b.Desk.Do(edit.Of(message.Of("edit.test"), func(to *job.Job) { *to = j }))
	p.toggle()
	b.Until("the search", func() bool { return p.cancel == nil && len(p.list.Objects) > 0 })
	if note := p.note.Text; !strings.HasPrefix(note, "Into stack 1: no run can be built there.") {
		t.Errorf("the note says %q", note)
	}
	can := []string{"What would let one through", "The pipe boxed in along the room", "With another exit", "Out through wall B"}
	all := strings.Join(told(shown), "\n")
	inOrder(t, all, append(can, "Why none goes to the exit as stated")...)
	if strings.Contains(all, "What stops") {
		t.Errorf("what cannot be built is not folded away:\n%s", all)
	}
	p.why.Head.OnTapped()
	inOrder(t, strings.Join(told(shown), "\n"), append(can, "Why none goes to the exit as stated",
		"plain runs were tried, and none can be built. What stops most of them: Pipe lies bare in the room (",
		"What comes nearest", "What stops it:", "Pipe lies bare in the room – Waste run: ")...)
	for _, u := range p.uses {
		if at, size := placeIn(u.button, shown), u.button.Size(); at.X < 0 || at.X+size.Width > shown.Size().Width-theme.Space3 {
			t.Errorf("“%s” stands from %.0f to %.0f, with %.0f of room beside the bar",
				u.button.Text, at.X, at.X+size.Width, shown.Size().Width-theme.Space3)
		}
	}
	if all := p.uses; all[0].button.Text != "Try" || all[len(all)-1].button.Text != "Try" {
		t.Errorf("the buttons say %q and %q", all[0].button.Text, all[len(all)-1].button.Text)
	}
	for _, of := range []struct {
		use     int
		stopped bool
	}{{len(p.uses) - 1, true}, {0, false}} {
		p.uses[of.use].button.OnPressed()
		b.Until("the run", func() bool { return b.Change.Result.Stops() == of.stopped && b.Change.Undo.ID == "edit.run" })
	}
	if j := b.Desk.Job(); j.Waste.Boxing == nil || j.Waste.Exit.Kind != job.ExitStack {
		t.Errorf("boxed in %v, to %v", j.Waste.Boxing, j.Waste.Exit)
	}
}

// told are the texts that show in an object, from top to bottom.
func told(o fyne.CanvasObject) (out []string) {
	if !o.Visible() {
		return nil
	}
	inside := []fyne.CanvasObject{}
	switch o := o.(type) {
	case *control.Text:
		return []string{o.Text}
	case *control.ToolButton:
		return []string{o.Text}
	case *fyne.Container:
		inside = o.Objects
	case fyne.Widget:
		inside = test.WidgetRenderer(o).Objects()
	}
	for _, i := range inside {
		out = append(out, told(i)...)
	}
	return out
}

// inOrder holds a text to what is said in it, one after the other.
func inOrder(t *testing.T, all string, wanted ...string) {
	t.Helper()
	from := 0
	for _, want := range wanted {
		i := strings.Index(all[from:], want)
		if i < 0 {
			t.Fatalf("%q is not said, or not in its place:\n%s", want, all)
		}
		from += i
	}
}

// placeIn is where an object stands in what it lies in.
func placeIn(o, in fyne.CanvasObject) fyne.Position {
	d := fyne.CurrentApp().Driver()
	return d.AbsolutePositionForObject(o).Subtract(d.AbsolutePositionForObject(in))
}

// Found runs are of the job they were found for: another job clears the list
// and stops a search that goes on; an edit marks the list as void, one of its name does not, and a run then
// used changes the job as it now is, not back to what it was.
func TestFoundRunsAreOfTheirJob(t *testing.T) {
	p, b := onBench(t)
	search := func() {
		p.toggle()
		b.Until("the search", func() bool { return p.cancel == nil && len(p.list.Objects) > 0 })
	}
	search()
	if p.old.Visible() {
		t.Error("a fresh list is marked as old")
	}
	b.Desk.Do(edit.Of(message.Of("edit.test-name-of-the-job"), func(j *job.Job) { j.Name = "Customer B" }))
	b.Until("the name", func() bool { return b.Change.Result.Stated.Name == "Customer B" })
	if p.old.Visible() {
		t.Error("a list is void for a name")
	}
	p.uses[len(p.uses)-1].button.OnPressed()
	b.Until("the run", func() bool { return b.Change.Undo.ID == "edit.run" })
	if got := b.Desk.Job().Name; got != "Customer B" {
		t.Errorf("using a run brought back the job of %q", got)
	}
	b.Desk.Do(edit.Of(message.Of("edit.test-fall"), func(j *job.Job) { j.Former.Slope = 0.021 }))
	b.Until("the mark", func() bool { return p.old.Visible() })
	for _, u := range p.uses {
		if !u.button.Off {
			t.Errorf("“%s” can be pressed in a list that is void", u.button.Text)
		}
	}
	demos := demotest.Shown(t)
	if err := b.Desk.Replace(demos[1].Stated); err != nil {
		t.Fatal(err)
	}
	b.Until("an empty list", func() bool { return len(p.list.Objects) == 0 && !p.old.Visible() })

	// While a search goes on, another job is opened: its runs never come.
	p.toggle()
	going := p.cancel
	if going == nil {
		t.Fatal("no search")
	}
	if err := b.Desk.Replace(demos[2].Stated); err != nil {
		t.Fatal(err)
	}
	b.Until("the search to be stopped", func() bool { return p.cancel == nil })
	search()
	p.uses[0].button.OnPressed()
	b.Until("the run", func() bool { return !b.Change.Undo.IsZero() })
	if got := b.Desk.Job().Name; got != demos[2].Stated.Name {
		t.Errorf("a run of another job was used: %q", got)
	}
}

// The theme changes while runs are searched and pictured; with -race this used
// to be reported.
func TestThemeChangesWhileRunsAreSearched(t *testing.T) {
	p, b := onBench(t)
	p.toggle()
	b.Until("the first runs", func() bool { return p.progress.Value > 0.02 })
	p.toggle() // stopped, what was found is pictured
	b.Until("the end of the search", func() bool { b.Theme.SetDark(!b.Theme.Dark()); return p.cancel == nil })
	if len(p.list.Objects) == 0 {
		t.Error("nothing was found to be pictured")
	}
}
