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
		{"spotLevels", "300,5; 400; 2,5; 1\n900,400,3", func(j job.Job) any { return j.SpotLevels }, "[{[300.5 400] 2.5 1} {[900 400] 3 1}]"},
		{"spotLevels", "300; 400; 1,200", func(j job.Job) any { return j.SpotLevels }, "[{[300 400] 1.2 1}]"},
		{"spotLevels", "1 200, 2 m 30, =3-0,5", func(j job.Job) any { return j.SpotLevels }, "[{[1200 2300] 2.5 1}]"},
		{"spotLevels", "", func(j job.Job) any { return len(j.SpotLevels) }, "0"},
		{"drain.capacityCurve", "12,5; 24 l/min\n15,30", func(j job.Job) any { return j.Drain.CapacityCurve }, "[{12.5 0.4} {15 0.5}]"},
		{"water.showerFlowsLPS", "12,5; 9", func(j job.Job) any { return fmt.Sprintf("%.3f", j.Water.TotalLPS()) }, "0.358"},
		{"floor.joists.supportsMM", "0,2400", func(j job.Job) any { return j.Floor.Joists.SupportsMM }, "[0 2400]"},
		{"waste.fittings", "reducer at 1 200 to 43,5/39 (reversed)", func(j job.Job) any {
			var out []float64
			for _, f := range j.Waste.Fittings {
				out = append(out, f.AtMM, f.OutsideDiameterMM, f.BoreMM)
			}
			return out
		}, "[1200 43.5 39]"},
	} {
		l := listField(t, w, c.label)
		enterList(w, l, c.text)
		if got := fmt.Sprint(c.got(w.desk.Job())); l.Says() != "" || got != c.want {
			t.Errorf("%s: %q gives %s (%s), want %s", c.label, c.text, got, l.Says(), c.want)
		}
	}
}

// What cannot be read, or in two ways, is refused with its line; the job stays.
func TestListsSayWhatIsWrong(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, c := range []struct{ label, text, says string }{
		{"spotLevels", "300, 400, 2\n300, 400", "line 2: needs 3 to 4 numbers, has 2"},
		{"spotLevels", "300, 400, 600", "line 1: number 3, “600”: this is 600 mm, but must be between -500 mm and 500 mm"},
		{"spotLevels", "300, 400, 2, 101", "line 1: number 4, “101”"},
		{"spotLevels", "1,200; 400; 3", "line 1: “1,200; 400; 3” can be “1200 mm; 400 mm; 3 mm” or “1.2 mm; 400 mm; 3 mm”"},
		{"spotLevels", "300, , 400, 2", "line 1: a number is missing before “400”"},
		{"drain.capacityCurve", "10, 24\n501, 30", "line 2: number 1, “501”"},
		{"water.showerFlowsLPS", "12,9", "“12,9” can be “12 l/min; 9 l/min” or “12.9 l/min”"},
		{"floor.joists.supportsMM", "2400", "needs 2 to 200 numbers, has 1"},
		{"waste.fittings", "reducer at x to 43/39", "line 1: “at x”: “x” is not a number"},
		{"waste.fittings", "falling piece at 100 fall 1:", "line 1: “fall 1:”: a number must follow the “:”"},
		{"waste.fittings", "reducer at 100 to 43", "line 1: say the pipe after it as outside/bore"},
		{"waste.fittings", "reducer at 100 to 43/300", "line 1: “300”: this is 300 mm, but must be between 10 mm and 240 mm"},
	} {
		l := listField(t, w, c.label)
		enterList(w, l, c.text)
		if !strings.Contains(l.Says(), c.says) {
			t.Errorf("%s: %q says %q, want %q", c.label, c.text, l.Says(), c.says)
		}
	}
}

// The ranges of the lists' columns are those of the job, which takes what
// stands at their ends.
func TestListsReachTheLimits(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for label, text := range map[string]string{
		"spotLevels":           "300, 400, 500, 100\n300, 500, -500, 0",
		"drain.capacityCurve":  "500, 1200",
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
	doorways, _ := job.FindList(job.DoorwaysKey)
	w.desk.Do(edit.RemoveItem(doorways, 0))
	head, _ := job.FindList("shower.head")
	w.desk.Do(edit.RemoveItem(head, 0))
	w.desk.Do(edit.Hold("shower.widthMM"))
	l := listField(t, w, "room.outline")
	enterList(w, l, "0; 0\n1300; 0\n1300; 1900\n0; 1900")
	if l.Says() == "" {
		t.Fatalf("the message is %q", l.Says())
	}
	path := filepath.Join(t.TempDir(), "x.json")
	w.saveTo(path, func() {})
	until(t, "the warning", func() bool {
		return strings.Contains(w.teller.Text(), "Saved x.json") && strings.Contains(w.teller.Text(), "not taken: Corners")
	})
	// Nor does the result of the edit before, worked out late, wipe it away.
	w.follow(w.change)
	if !strings.Contains(w.teller.Text(), "not taken: Corners") {
		t.Errorf("a late result says %q instead", w.teller.Text())
	}
	until(t, "the heading", func() bool { return strings.Contains(w.tray.Title(), "not taken") })
	w.desk.Do(edit.LetGo("shower.widthMM")) // it may be narrower then
	until(t, "the shower let go", func() bool { return w.change.Result.Stated.StandingOf("shower.widthMM") == job.Stated })
	if l.Entry.Text != "0; 0\n1300; 0\n1300; 1900\n0; 1900" {
		t.Fatalf("what was typed is gone: %q", l.Entry.Text)
	}
	pressesIn(l.Choices, "Try again")[0].OnPressed()
	if got := w.desk.Job().Room.Outline[1].X(); got != 1300 || l.Says() != "" {
		t.Errorf("tried again the room is %v wide: %s", got, l.Says())
	}
	until(t, "the plain heading", func() bool { return w.tray.Title() == "1 · Room" })
	enterList(w, l, "0; 0\n5; 0")
	pressesIn(l.Choices, "Put back")[0].OnPressed()
	if l.Says() != "" || !strings.Contains(l.Entry.Text, "1300") {
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
