package app

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// Lists are read as people type them, with either decimal mark.
func TestListsAsTyped(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, c := range []struct {
		label, text string
		got         func(job.Job) any
		want        string
	}{
		{"water.showerFlowsLPS", "12,5; 9", func(j job.Job) any { return fmt.Sprintf("%.3f", j.Water.TotalLPS()) }, "0.358"},
		{"floor.joists.supportsMM", "0,2400", func(j job.Job) any { return j.Floor.Joists.SupportsMM }, "[0 2400]"},
	} {
		l := listField(t, w, c.label)
		enterList(w, l, c.text)
		if got := fmt.Sprint(c.got(w.desk.Job())); l.Says() != "" || got != c.want {
			t.Errorf("%s: %q gives %s (%s), want %s", c.label, c.text, got, l.Says(), c.want)
		}
	}
}

// What cannot be read, or in two ways, is refused; the job stays.
func TestListsSayWhatIsWrong(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, c := range []struct{ label, text, says string }{
		{"water.showerFlowsLPS", "12,9", "“12,9” can be “12 l/min; 9 l/min” or “12.9 l/min”"},
		{"floor.joists.supportsMM", "2400", "needs 2 to 200 numbers, has 1"},
	} {
		l := listField(t, w, c.label)
		enterList(w, l, c.text)
		if !strings.Contains(l.Says(), c.says) {
			t.Errorf("%s: %q says %q, want %q", c.label, c.text, l.Says(), c.says)
		}
	}
}

// The range of a list is that of the job, which takes what stands at its ends.
func TestListsReachTheLimits(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for label, text := range map[string]string{
		"water.showerFlowsLPS": "0, 1200",
	} {
		l := listField(t, w, label)
		enterList(w, l, text)
		if l.Says() != "" {
			t.Errorf("%s: %q is refused: %s", label, text, l.Says())
		}
	}
}

// What was typed into a list and refused is named when the job is saved and on
// the heading of its part; once its reason is gone it can be tried again as it
// stands, or put back.
func TestNotTakenIsSaid(t *testing.T) {
	w, _ := openWindow(t, Options{})
	boards, _ := job.FindInput(job.BoardsKey)
	w.desk.Do(edit.Numbers(boards, nil))
	between, _ := job.Find("base.betweenGreatestMM")
	const leastMM = "base.betweenLeastMM"
	w.desk.Do(edit.Number(between, 1)) // less than the least, which only counts between boards
	w.desk.Do(edit.Hold(between.Key))
	w.desk.Do(edit.Hold(leastMM))
	until(t, "the job without boards", func() bool { return w.change.Result.Stated.StandingOf(leastMM) == job.Held })
	w.showPanels()
	l := listField(t, w, job.BoardsKey)
	enterList(w, l, "20; 30")
	w.window.Canvas().Unfocus()
	if l.Says() == "" {
		t.Fatalf("the message is %q", l.Says())
	}
	path := filepath.Join(t.TempDir(), "x.json")
	w.saveTo(path, func() {})
	until(t, "the warning", func() bool {
		return strings.Contains(w.teller.Text(), "Saved x.json") && strings.Contains(w.teller.Text(), "not taken: Boards")
	})
	// Nor does the result of the edit before, worked out late, wipe it away.
	w.follow(w.change)
	if !strings.Contains(w.teller.Text(), "not taken: Boards") {
		t.Errorf("a late result says %q instead", w.teller.Text())
	}
	until(t, "the heading", func() bool { return strings.Contains(w.tray.Title(), "not taken") })
	w.desk.Do(edit.Number(between, 4))
	until(t, "the bed between boards", func() bool { return w.change.Result.Stated.Base.BetweenGreatestMM == 4 })
	if l.Entry.Text != "20; 30" {
		t.Fatalf("what was typed is gone: %q", l.Entry.Text)
	}
	pressesIn(l.Choices, "Try again")[0].OnPressed()
	if got := w.desk.Job().Base.BoardsMM; len(got) != 2 || l.Says() != "" {
		t.Errorf("tried again the boards are %v: %s", got, l.Says())
	}
	until(t, "the plain heading", func() bool { return w.tray.Title() == "4 · Drain and trap" })
	enterList(w, l, "20; x")
	pressesIn(l.Choices, "Put back")[0].OnPressed()
	if l.Says() != "" || !strings.Contains(l.Entry.Text, "30") {
		t.Errorf("put back the list shows %q", l.Entry.Text)
	}
}

// Enter takes the first answer of a question and Escape the last, but nothing is
// replaced by Enter; Escape closes the dialog for a file's name.
func TestKeysAnswerQuestions(t *testing.T) {
	w, _ := openWindow(t, Options{})
	key := func(k fyne.KeyName) { w.keys.Plain(&fyne.KeyEvent{Name: k}) }
	given := ""
	ask := func(first widget.Importance) {
		given = ""
		w.ask("Question", "?", reply{"first", first, func() { given = "first" }},
			reply{"last", widget.MediumImportance, func() { given = "last" }})
	}
	for _, c := range []struct {
		first widget.Importance
		key   fyne.KeyName
		want  string
	}{
		{widget.HighImportance, fyne.KeyReturn, "first"}, {widget.HighImportance, fyne.KeyEscape, "last"},
		{widget.DangerImportance, fyne.KeyReturn, ""}, {widget.DangerImportance, fyne.KeyEscape, "last"},
		{widget.HighImportance, fyne.KeyC, ""},
	} {
		ask(c.first)
		cut := w.sight.CutOn
		key(c.key)
		if given != c.want || (w.question == nil) != (c.want != "") || w.sight.CutOn != cut {
			t.Errorf("%s to a first answer of importance %v gives %q", c.key, c.first, given)
		}
		if w.question != nil {
			key(fyne.KeyEscape)
		}
	}
	w.saveAs()
	key(fyne.KeyEscape)
	if w.saving != nil || w.window.Canvas().Overlays().Top() != nil {
		t.Error("Escape leaves the dialog for a name")
	}
}
