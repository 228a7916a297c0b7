//go:build unix

package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/store"
	"underfall/geometry/job"
)

// leaveWork leaves kept work of a job with a name behind, as a crash does.
func leaveWork(t *testing.T, config, name, file string) {
	t.Helper()
	j := job.New()
	j.Name = name
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(config, "kept")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	const form = `{"underfallKept":1,"name":%q,"file":%q,"at":"2026-05-03T12:00:00Z",` +
		`"stamp":{"bytes":0,"modified":"2026-05-03T12:00:00Z","sum":"x"},"job":%s}`
	writeFile(t, filepath.Join(folder, name+".json"), fmt.Sprintf(form, name, file, data), 0o600)
}

// Work of several windows is offered, each with what one needs to know; it comes
// back with its file, and goes nowhere else than where it is asked to.
func TestUnsavedWorkIsOffered(t *testing.T) {
	config, folder := t.TempDir(), t.TempDir()
	path := filepath.Join(folder, "a.json")
	other := job.New()
	other.Name, other.Shower.DepthMM = "First", 950
	data, err := other.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	writeFile(t, path, string(data), 0o644)
	leaveWork(t, config, "First", path)
	leaveWork(t, config, "Second", filepath.Join(folder, "gone.json"))
	leaveWork(t, config, "Third", "")
	writeFile(t, filepath.Join(config, "kept", "bad.json"), "damaged", 0o600)
	earlier := strings.Replace(string(data), `"First"`, `"Of an earlier version"`, 1)
	writeFile(t, filepath.Join(config, "unsaved.underfall.json"), earlier, 0o600)
	w, _ := openWindow(t, Options{ConfigFolder: config})
	for _, want := range []string{
		"First", "Kept on 2026-05-03", "Its file a.json was changed later", "What differs from the file: Depth (Shower).",
		"Second", "Its file gone.json is gone", "Third", "It was never saved", "Of an earlier version",
		"cannot be read", "set-aside", "[Bring back]", "[Set aside]", "[Later]",
	} {
		if !strings.Contains(shown(w), want) {
			t.Errorf("%q is not shown in\n%s", want, shown(w))
		}
	}
	again, _ := openWindow(t, Options{ConfigFolder: config})
	if again.leftBehind != nil {
		t.Error("a second window is offered the same")
	}
	l := w.leftBehind
	for i, f := range l.found {
		if f.Name == "Second" {
			l.setAside(f, l.rows.Objects[i])
			break
		}
	}
	if !strings.Contains(shown(w), "“Second” was moved to "+filepath.Join(config, "kept", "set-aside")) || len(l.found) != 3 {
		t.Errorf("%d are left, shown\n%s", len(l.found), shown(w))
	}
	for _, f := range l.found {
		if f.Name == "First" {
			l.bringBack(f)
			break
		}
	}
	until(t, "the work", func() bool {
		return w.change.Result.Settled.Name == "First" && w.change.Unsaved && w.change.File == path
	})
	if w.desk.Undo(); !w.desk.Unsaved() || len(w.window.Canvas().Overlays().List()) > 0 {
		t.Error("after undo it counts as saved, or the list stays")
	}
	if err := w.desk.Release(); err != nil {
		t.Fatal(err)
	}
	third, _ := openWindow(t, Options{ConfigFolder: config})
	if third.leftBehind == nil || len(third.leftBehind.found) != 2 || strings.Contains(shown(third), "First") {
		t.Errorf("left for later are\n%s", shown(third))
	}
}

// Where no folder is named for it the window says all the time that nothing is
// kept, and touches nothing in the current folder.
func TestNoFolderToKeepIn(t *testing.T) {
	t.Setenv("HOME", "")
	t.Setenv("XDG_CONFIG_HOME", "")
	if folder := store.ConfigFolder(""); folder != "" {
		t.Errorf("without HOME the folder is %q", folder)
	}
	here := t.TempDir()
	t.Chdir(here)
	writeFile(t, "unsaved.underfall.json", "{}", 0o600)
	if folder := store.ConfigFolder("sub"); folder != filepath.Join(here, "sub") {
		t.Errorf("a folder given becomes %q", folder)
	}
	w, _ := openWindow(t, Options{ConfigFolder: noFolder})
	deepen(t, w, 1000)
	w.keep()
	deepen(t, w, 1010)
	if !w.keepNotice.Visible() || !strings.Contains(w.keepNotice.Text, "not kept") {
		t.Errorf("notice %q, visible %v", w.keepNotice.Text, w.keepNotice.Visible())
	}
	if w.leftBehind != nil || folderNames(t, here) != "unsaved.underfall.json" || readFile(t, "unsaved.underfall.json") != "{}" {
		t.Errorf("the current folder holds %s", folderNames(t, here))
	}
}

// While keeping fails the window says so, whatever else it says; it stops once
// keeping works.
func TestFailingToKeepIsTold(t *testing.T) {
	config := t.TempDir()
	writeFile(t, filepath.Join(config, "kept"), "in the way", 0o644)
	w := edited(t, Options{ConfigFolder: config})
	w.keep()
	deepen(t, w, 1010)
	if !w.keepNotice.Visible() || !strings.Contains(w.keepNotice.Text, "unsaved work is lost") {
		t.Errorf("notice %q", w.keepNotice.Text)
	}
	if err := os.Remove(filepath.Join(config, "kept")); err != nil {
		t.Fatal(err)
	}
	w.keep()
	if w.keepNotice.Visible() {
		t.Error("the notice stays")
	}
}

// Keeping ends with the window, and what is saved or given up is not kept.
func TestKeepingEndsWithTheWindow(t *testing.T) {
	for _, answer := range []string{"Save", "Don't save"} {
		config := t.TempDir()
		w := edited(t, Options{ConfigFolder: config})
		w.saveTo(filepath.Join(t.TempDir(), "a.json"), func() {})
		deepen(t, w, 1010)
		w.keep()
		if folderNames(t, filepath.Join(config, "kept")) == "" {
			t.Fatal("nothing is kept")
		}
		w.keys.Shortcuts[ctrlName(fyne.KeyQ)]()
		tap(t, w, answer)
		<-w.keepEnded
		if n := folderNames(t, filepath.Join(config, "kept")); n != "" {
			t.Errorf("%s: left %s", answer, n)
		}
	}
	// A window that goes without being asked keeps its work for the next start.
	config := t.TempDir()
	w := edited(t, Options{ConfigFolder: config})
	w.keep()
	w.end()
	<-w.keepEnded
	if !strings.Contains(folderNames(t, filepath.Join(config, "kept")), ".json") {
		t.Error("its work is gone")
	}
}
