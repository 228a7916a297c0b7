package app

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/runs"
	"underfall/app/theme"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	rules "underfall/geometry/rule"
)

// clash is a job whose trap is in a joist, which can be cut out.
func clash(t *testing.T) job.Job {
	t.Helper()
	j := demotest.Rooms(t)[2].Job.Clone()
	demotest.AcrossJoists(&j, 150)
	return j
}

// marshalled is the job on the desk as its file has it.
func marshalled(t *testing.T, w *mainWindow) []byte {
	t.Helper()
	data, err := w.desk.Job().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// A joist clash is cleared by its button in one step and kept in one more, which is one step to undo. While it is tried
// only the top, the rail and the trial show, the title says so, and the job is what it was; Escape puts it back.
func TestAClashIsTriedAndKept(t *testing.T) {
	const does = "Cut the joist out between trimmers"
	w, _ := openWindow(t, Options{})
	w.showPanels()
	w.begin(clash(t))
	was := marshalled(t, w)
	press := func() {
		until(t, "the button", func() bool { return w.answer.PressOffer("trap-joist", does) })
		until(t, "the trial", w.trial.Running)
	}
	press()
	for r := range regionCount {
		if shows := r == regionTop || r == regionRail || r == regionTrial; w.frame.clips[r].Visible() != shows {
			t.Errorf("region %d shows: %v", r, !shows)
		}
	}
	floor := slices.Index(job.Stations(), job.StationFloor)
	for i := range job.Stations() {
		if w.rail.Trying(i) != (i == floor) {
			t.Errorf("%s says that it is tried: %v", job.Stations()[i], i != floor)
		}
	}
	open, station := w.sides.at, w.tray.Station()
	if w.openStation(floor); w.trial.Running() || w.rail.Trying(floor) || w.sides.at != open || w.tray.Station() != station || !bytes.Equal(marshalled(t, w), was) {
		t.Error("pressed on the rail, what is tried is not put back")
	}
	press()
	if title := w.window.Title(); !strings.Contains(title, "trying") {
		t.Errorf("the title says %q", title)
	}
	if !bytes.Equal(marshalled(t, w), was) {
		t.Error("trying changes the job")
	}
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.trial.Running() || !w.frame.clips[regionAnswer].Visible() || strings.Contains(w.window.Title(), "trying") || w.trialTold.Visible() {
		t.Errorf("put back: %v, “%s”, “%s”", w.trial.Running(), w.window.Title(), w.trialTold.Text())
	}
	if !bytes.Equal(marshalled(t, w), was) || !w.change.Undo.IsZero() {
		t.Error("put back, the job is another")
	}
	press()
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyReturn})
	until(t, "the step", func() bool { return !w.change.Undo.IsZero() })
	if len(w.desk.Job().Floor.Joists.Trims) != 1 || w.undo.Hint() != "Take back: "+does+" (Ctrl-Z)" {
		t.Errorf("kept: %d trims, “%s”", len(w.desk.Job().Floor.Joists.Trims), w.undo.Hint())
	}
	w.undoLast()
	until(t, "undo", func() bool { return w.change.Undo.IsZero() })
	if !bytes.Equal(marshalled(t, w), was) {
		t.Error("undone, the job is another")
	}
}

// Where a hole lies too near a joist's support the crossing is moved along the joist by the card's button: in one step tried, with
// nothing changed, in one more kept, which is one step to undo.
func TestACrossingIsTriedAndKept(t *testing.T) {
	const rule, does = "uk-hole-zone-min", "Move the crossing to 500 from the support"
	j := clash(t)
	j.Floor.Joists.FirstOffsetMM, j.Floor.Joists.DepthMM = 100, 245 // the trap between joists that a hole may be in
	w, _ := openWindow(t, Options{})
	w.showPanels()
	w.begin(j)
	was := marshalled(t, w)
	broken := func() bool {
		return slices.ContainsFunc(w.change.Result.Findings, func(f rules.Finding) bool { return f.Rule.ID == rule })
	}
	until(t, "the button", func() bool { return w.answer.PressOffer(rule, does) })
	until(t, "the trial", w.trial.Running)
	if !bytes.Equal(marshalled(t, w), was) || !broken() {
		t.Error("trying changes the job")
	}
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyReturn})
	until(t, "the step", func() bool { return !w.change.Undo.IsZero() && !broken() })
	if got := w.desk.Job().Waste; len(got.Waypoints) != 1 || got.Exit.OffsetMM != 500 {
		t.Errorf("kept: it turns at %v and leaves at %v", got.Waypoints, got.Exit.OffsetMM)
	}
	w.undoLast()
	until(t, "undo", func() bool { return w.change.Undo.IsZero() })
	if !bytes.Equal(marshalled(t, w), was) {
		t.Error("undone, the job is another")
	}
}

// Going elsewhere ends a trial, put back and said: to a station's fields, to the showroom, to the start page, to another
// job; so does undo. What is said stays until it is dismissed.
func TestGoingElsewhereEndsATrial(t *testing.T) {
	for name, leave := range map[string]func(*mainWindow){
		"a station": func(w *mainWindow) { w.openStation(1) },
		"a page":    func(w *mainWindow) { w.start.open() },
		"a job": func(w *mainWindow) {
			if err := w.desk.Replace(demotest.Rooms(t)[1].Job); err != nil {
				t.Fatal(err)
			}
		},
		"undo": func(w *mainWindow) { w.undoLast() },
	} {
		w, _ := openWindow(t, Options{})
		w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = 0.021 }))
		until(t, "the edit", func() bool { return !w.change.Undo.IsZero() })
		w.tryRun([]runs.Way{{Does: message.Of("edit.run"), Edit: edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Waste.Exit.OffsetMM += 50 })}}, 0)
		until(t, name+": the trial", w.trial.Running)
		was := w.desk.Job().Waste.Exit
		leave(w)
		until(t, name, func() bool { return !w.trial.Running() })
		if got := w.trialTold.Text(); !strings.HasPrefix(got, "The trial “") || name != "a job" && w.desk.Job().Waste.Exit != was {
			t.Errorf("%s: “%s”, the exit is %v", name, got, w.desk.Job().Waste.Exit)
		}
		if w.trialTold.Press(theme.Word("app.dismiss")); w.trialTold.Visible() {
			t.Errorf("%s: what is said cannot be dismissed", name)
		}
	}
}

// Saving while a run is tried saves the job as it is; the trial goes on.
func TestSavingDoesNotTouchATrial(t *testing.T) {
	w, _ := openWindow(t, Options{})
	path := t.TempDir() + "/job.json"
	if err := w.desk.Save(path); err != nil {
		t.Fatal(err)
	}
	was := marshalled(t, w)
	w.tryRun([]runs.Way{{Does: message.Of("edit.run"), Edit: edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Waste.Exit.OffsetMM += 50 })}}, 0)
	until(t, "the trial", w.trial.Running)
	if err := w.desk.Save(path); err != nil {
		t.Fatal(err)
	}
	settle(t)
	if !w.trial.Running() || !bytes.Equal(marshalled(t, w), was) {
		t.Errorf("saved: the trial goes on: %v", w.trial.Running())
	}
}

// What says that something is so changes nothing to be seen, and is made at once.
func TestWhatIsConfirmedIsNotTried(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	w.begin(assumedBeyond())
	until(t, "the button", func() bool { return w.answer.PressOffer("beyond-assumed", "It is so: a gully 150 from the wall") })
	until(t, "the step", func() bool { return !w.change.Undo.IsZero() })
	if is := w.desk.Job(); w.trial.Running() || len(is.Standing(job.Assumed)) > 0 {
		t.Errorf("tried: %v, assumed: %v", w.trial.Running(), is.Standing(job.Assumed))
	}
}

// The other parts for a field are tried from its tray, the first first, each with the others beside it.
func TestOtherPartsAreTried(t *testing.T) {
	w, _ := openWindow(t, Options{})
	was := marshalled(t, w)
	for _, key := range []string{"parts.drain", "parts.pipe", "parts.boards", "parts.shower.tile"} {
		in, ok := job.FindInput(key)
		if !ok {
			t.Fatalf("no input %s", key)
		}
		w.tryParts(in)
		until(t, key, func() bool { return w.trial.Running() || w.change.Refused != nil || w.trialTold.Visible() })
		if !w.trial.Running() {
			t.Errorf("%s: %v, “%s”", key, w.change.Problems, w.trialTold.Text())
		}
		w.trial.PutBack()
	}
	if !bytes.Equal(marshalled(t, w), was) {
		t.Error("trying parts changes the job")
	}
}
