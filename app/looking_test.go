//go:build unix

package app

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// jobFile writes the starting job to a file, changed as a text.
func jobFile(t *testing.T, change func(map[string]any)) string {
	t.Helper()
	data, err := job.New().Marshal()
	var file map[string]any
	if err == nil {
		err = json.Unmarshal(data, &file)
	}
	if err != nil {
		t.Fatal(err)
	}
	change(file)
	if data, err = json.Marshal(file); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "bath.json")
	writeFile(t, path, string(data), 0o644)
	return path
}

func tryDepth(w *mainWindow, depthMM float64) job.Problems {
	return w.desk.Do(edit.Of(message.Of("edit.test-depth"), func(j *job.Job) { j.Shower.DepthMM = depthMM }))
}

// The second window on a file only looks: the top bar says so, an edit changes nothing and says so, Save
// asks for another name. Taken over, it works on the file, and the first looks, with its work kept.
func TestTheFileIsOpenInAnotherWindow(t *testing.T) {
	path := jobFile(t, func(map[string]any) {})
	first, _ := openWindow(t, Options{File: path})
	deepen(t, first, 1010)
	second, _ := openWindow(t, Options{File: path})
	until(t, "looking", func() bool { return second.change.Looking != nil && second.looking.box.Visible() })
	if got := second.looking.says.Text; got != "Only looked at: it is open in another window" || second.looking.press.Text != "Take over here" {
		t.Errorf("the top bar says %q [%s]", got, second.looking.press.Text)
	}
	if second.undo.Visible() || second.jobLine.saved.Visible() || first.looking.box.Visible() || !first.undo.Visible() {
		t.Error("what serves no purpose shows, or the first window looks as well")
	}
	before := readFile(t, path)
	if len(tryDepth(second, 1020)) == 0 {
		t.Error("an edit is made")
	}
	until(t, "the sentence", func() bool {
		return strings.HasPrefix(second.teller.Text(), "Nothing was changed, as this job is only looked at: it is open in another window.")
	})
	second.save()
	if second.saving == nil || readFile(t, path) != before {
		t.Error("Save asks for no other name")
	}
	second.saving.hide()
	second.saveTo(path, func() {})
	if got := shown(second); !strings.Contains(got, "Saving bath.json: it is open in another window; save under another name") || !strings.Contains(got, "[Save under another name]") {
		t.Errorf("saved over, it says %q", got)
	}
	tap(t, second, "Cancel")

	second.looking.press.OnPressed()
	until(t, "taking over", func() bool { return second.change.Looking == nil && !second.looking.box.Visible() })
	until(t, "the first's notice", func() bool { return first.looking.box.Visible() })
	if got := first.looking.says.Text; got != "Only looked at: taken over in another window; unsaved work is kept here" || first.shownDepth() != 1010 || !first.desk.Unsaved() {
		t.Errorf("the first says %q, unsaved %v", got, first.desk.Unsaved())
	}
	deepen(t, second, 1030)
	second.saveTo(path, func() {})
	if !strings.Contains(readFile(t, path), "1030") {
		t.Error("taken over it is not saved")
	}
	// Closing the first offers to save its work: under another name.
	first.close()
	tap(t, first, "Save")
	if first.saving == nil {
		t.Error("its work has no place to go")
	}
	first.saving.hide()
}

// A window that does not answer keeps its file, and a sentence says so.
func TestTakingOverFails(t *testing.T) {
	path := jobFile(t, func(map[string]any) {})
	first, _ := openWindow(t, Options{File: path})
	first.end() // it hands nothing over any more, but is not gone
	second, _ := openWindow(t, Options{File: path})
	until(t, "looking", func() bool { return second.looking.box.Visible() })
	second.looking.press.OnPressed()
	if !second.looking.press.Off {
		t.Error("it can be asked twice at once")
	}
	until(t, "the sentence", func() bool { return strings.Contains(shown(second), "the other window does not let go of it") })
	tap(t, second, "Close")
	until(t, "the button", func() bool { return !second.looking.press.Off })
	if second.change.Looking == nil {
		t.Error("it is worked on in both")
	}
	if err := first.desk.Release(); err != nil {
		t.Fatal(err)
	}
}

// A job that a newer version wrote is looked at: the bar says so, and what is not understood is told on a
// press; Save asks for another name.
func TestLookingAtANewerFile(t *testing.T) {
	path := jobFile(t, func(f map[string]any) {
		f["version"] = job.Version + 1
		f["towelRail"] = 900
		f["room"].(map[string]any)["edge"] = "hump"
	})
	before := readFile(t, path)
	w, _ := openWindow(t, Options{File: path})
	until(t, "looking", func() bool { return w.looking.box.Visible() })
	if got := w.looking.says.Text; got != "Only looked at: a newer version of Underfall wrote it" || w.looking.press.Text != "Not understood: 2" {
		t.Errorf("the top bar says %q [%s]", got, w.looking.press.Text)
	}
	w.looking.press.OnPressed()
	if got := shown(w); !strings.Contains(got, "“towelRail” (The job)") || !strings.Contains(got, "“hump” (Open edge), drawn with what is usual") {
		t.Errorf("not understood: %s", got)
	}
	tap(t, w, "Close")
	w.save()
	if w.saving == nil {
		t.Fatal("Save asks for no other name")
	}
	w.saving.hide()
	copied := filepath.Join(t.TempDir(), "copy.json")
	w.saveTo(copied, func() {})
	until(t, "working on the copy", func() bool { return !w.looking.box.Visible() && w.change.File == copied })
	w.saveTo(path, func() {})
	if !strings.Contains(shown(w), "a newer version of Underfall wrote what is there") || readFile(t, path) != before {
		t.Errorf("saved over: %s", shown(w))
	}
	tap(t, w, "Cancel")
}

// Where nothing tells whether the file is open elsewhere, the bar says that, and the job is worked on.
func TestUnsureOfOthers(t *testing.T) {
	path := jobFile(t, func(map[string]any) {})
	w, _ := openWindow(t, Options{File: path})
	locks, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".underfall-open-*"))
	if err := w.desk.Replace(job.New()); err != nil || len(locks) != 1 {
		t.Fatal(err, locks)
	}
	if err := os.Mkdir(locks[0], 0o700); err != nil { // what cannot be opened cannot be locked
		t.Fatal(err)
	}
	w.openFile(path)
	until(t, "the doubt", func() bool { return w.looking.box.Visible() })
	if w.looking.says.Text != "On this disk it cannot be told whether another window has the file." || w.looking.press.Visible() || !w.undo.Visible() {
		t.Errorf("the top bar says %q", w.looking.says.Text)
	}
	deepen(t, w, 1000)
}
