//go:build unix

package app

import (
	"errors"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"
	"underfall/app/roomtest"
	"underfall/app/still"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// shown is the text of all that stands over the window, nearest last.
func shown(w *mainWindow) string {
	var texts []string
	for _, o := range w.window.Canvas().Overlays().List() {
		roomtest.EachShown(o, func(o fyne.CanvasObject) {
			switch o := o.(type) {
			case *widget.Label:
				texts = append(texts, o.Text)
			case *widget.Button:
				texts = append(texts, "["+o.Text+"]")
			}
		})
	}
	return strings.Join(texts, "\n")
}

// tap presses a button that stands over the window.
func tap(t *testing.T, w *mainWindow, label string) {
	t.Helper()
	list := w.window.Canvas().Overlays().List()
	for i := len(list) - 1; i >= 0; i-- {
		var button *widget.Button
		roomtest.EachShown(list[i], func(o fyne.CanvasObject) {
			if b, ok := o.(*widget.Button); ok && b.Text == label && button == nil {
				button = b
			}
		})
		if button != nil {
			button.OnTapped()
			settle(t)
			return
		}
	}
	t.Fatalf("no button %q over the window:\n%s", label, shown(w))
}

// edited opens a window with an edit that is not saved.
func edited(t *testing.T, o Options) *mainWindow {
	t.Helper()
	w, _ := openWindow(t, o)
	deepen(t, w, 1000)
	return w
}

func deepen(t *testing.T, w *mainWindow, depthMM float64) {
	t.Helper()
	w.desk.Do(edit.Of(message.Of("edit.test-depth"), func(j *job.Job) { j.Shower.DepthMM = depthMM }))
	until(t, "the edit", func() bool { return w.shownDepth() == depthMM })
}

func writeFile(t *testing.T, path, content string, mode os.FileMode) {
	t.Helper()
	if err := os.WriteFile(path, []byte(content), mode); err != nil {
		t.Fatal(err)
	}
}

func readFile(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// folderNames are the files of a folder, but for what says that one of them is open.
func folderNames(t *testing.T, folder string) string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".underfall-open-") {
			names = append(names, e.Name())
		}
	}
	return strings.Join(names, " ")
}

// Saving under a name touches no file before the person has said so: the ending
// is added first, and what is there already is asked about.
func TestSaveAsAsksFirst(t *testing.T) {
	w := edited(t, Options{})
	folder := t.TempDir()
	w.rememberFolder(filepath.Join(folder, "x"))
	path := filepath.Join(folder, "bath.json")
	writeFile(t, path, "another job", 0o644)
	w.save() // the job has no file yet
	if w.saving == nil || w.saving.name.Text != w.desk.Job().Name+".json" || w.saving.folder != folder {
		t.Fatalf("nothing is asked, or another name or folder suggested: %+v", w.saving)
	}
	w.saving.name.SetText("bath")
	tap(t, w, "Save")
	if !strings.Contains(shown(w), "“bath.json” is already in this folder. Replace it?") {
		t.Fatalf("it is not asked:\n%s", shown(w))
	}
	if readFile(t, path) != "another job" || folderNames(t, folder) != "bath.json" {
		t.Fatalf("touched before the answer: %s", folderNames(t, folder))
	}
	tap(t, w, "Cancel")
	if w.saving == nil || !w.desk.Unsaved() {
		t.Fatal("after no, the dialog is gone or the work counts as saved")
	}
	w.saving.name.SetText("bath 2")
	tap(t, w, "Save")
	if readFile(t, path) != "another job" || w.saving != nil {
		t.Error("another name replaces the first file, or the dialog stays")
	}
	until(t, "the title", func() bool { return strings.HasPrefix(w.window.Title(), "bath 2.json – ") })
	until(t, "the message", func() bool { return w.teller.Text() == "Saved bath 2.json" })
	w.saveAs()
	if w.saving.name.Text != "bath 2.json" {
		t.Errorf("the file's own name is not suggested but %q", w.saving.name.Text)
	}
	w.saving.name.SetText("bath.JSON")
	tap(t, w, "Save")
	w.saveAs()
	w.saving.name.SetText("bath.json")
	w.saving.press()
	tap(t, w, "Replace")
	if readFile(t, path) == "another job" || w.desk.File() != path || folderNames(t, folder) != "bath 2.json bath.JSON bath.json" {
		t.Errorf("replaced: file %q, folder holds %s", w.desk.File(), folderNames(t, folder))
	}
}

// When saving fails the dialog says why and stays, and the work stays unsaved.
func TestFailedSaveIsTold(t *testing.T) {
	w := edited(t, Options{})
	folder := t.TempDir()
	w.rememberFolder(filepath.Join(folder, "x"))
	path := filepath.Join(folder, "a.json")
	writeFile(t, path, "old", 0o444)
	w.saveAs()
	w.saving.name.SetText("a")
	tap(t, w, "Save")
	tap(t, w, "Replace")
	if !strings.Contains(shown(w), "read-only") || !strings.Contains(shown(w), "a.json") || w.saving == nil {
		t.Errorf("it is not told:\n%s", shown(w))
	}
	if !w.desk.Unsaved() || readFile(t, path) != "old" || w.desk.File() != "" {
		t.Error("the work counts as saved, or the file was written")
	}
	if !strings.HasPrefix(w.window.Title(), "• ") {
		t.Errorf("the title is %q", w.window.Title())
	}
}

func TestFileNames(t *testing.T) {
	for typed, want := range map[string]string{
		"a": "a.json", " a.json ": "a.json", "A.JSON": "A.JSON", "v1.2": "v1.2.json", "Bad für Käthe": "Bad für Käthe.json",
	} {
		if got, problem := fileName(typed, ".json"); got != want || problem != "" {
			t.Errorf("%q becomes %q, %q", typed, got, problem)
		}
	}
	for typed, says := range map[string]string{
		"": "Type a name", " ": "Type a name", ".json": "Type a name",
		"a/b": "slash", "../a": "slash", ".hidden": "hidden", "..": "hidden",
		"a\u202eb": "cannot be seen", "a\x07b": "cannot be seen", strings.Repeat("a", 250): "too long",
	} {
		if got, problem := fileName(typed, ".json"); got != "" || !strings.Contains(problem, says) {
			t.Errorf("%q becomes %q, %q", typed, got, problem)
		}
	}
	w := edited(t, Options{})
	folder := t.TempDir()
	w.rememberFolder(filepath.Join(folder, "x"))
	if err := os.Mkdir(filepath.Join(folder, "b.json"), 0o755); err != nil {
		t.Fatal(err)
	}
	w.saveAs()
	for typed, says := range map[string]string{"a/b": "slash", "b": "is a folder"} {
		w.saving.name.SetText(typed)
		tap(t, w, "Save")
		if !strings.Contains(shown(w), says) {
			t.Errorf("%q: shown\n%s", typed, shown(w))
		}
	}
	tap(t, w, "Cancel")
	if w.saving != nil || folderNames(t, folder) != "b.json" {
		t.Errorf("the folder holds %s", folderNames(t, folder))
	}
}

// A job's name may hold anything; the name suggested is no path.
func TestSuggestedNameIsSafe(t *testing.T) {
	w := edited(t, Options{})
	w.desk.Do(edit.Of(message.Of("edit.test-name"), func(j *job.Job) { j.Name = "../a/b" }))
	if w.desk.Job().Name != "../a/b" {
		t.Skip("no job may be called so")
	}
	w.saveAs()
	if got := w.saving.name.Text; strings.Contains(got, "/") || strings.HasPrefix(got, ".") {
		t.Errorf("suggested is %q", got)
	}
}

// Leaving unsaved work can be answered three ways; saving first also works for a
// job that has no file yet, and goes on only once it is saved.
func TestLeavingUnsavedWork(t *testing.T) {
	w := edited(t, Options{})
	folder := t.TempDir()
	w.rememberFolder(filepath.Join(folder, "x"))
	left := 0
	leave := func() { w.unlessUnsaved(func() { left++ }) }
	leave()
	tap(t, w, "Cancel")
	if left != 0 {
		t.Error("left in spite of Cancel")
	}
	leave()
	tap(t, w, "Save")
	if left != 0 || w.saving == nil {
		t.Fatal("left without saving, or no name is asked for")
	}
	w.saving.name.SetText("a")
	w.saving.press()
	if left != 1 || w.desk.Unsaved() {
		t.Errorf("left %d times, unsaved %v", left, w.desk.Unsaved())
	}
	deepen(t, w, 1010)
	leave()
	tap(t, w, "Save")
	if left != 2 || w.desk.Unsaved() || w.saving != nil {
		t.Error("a job with a file is not saved and left")
	}
	deepen(t, w, 1020)
	leave()
	tap(t, w, "Don't save")
	if left != 3 || !w.desk.Unsaved() {
		t.Error("not left without saving")
	}
	// What is still being typed in a field counts, and is saved.
	w.saveTo(w.desk.File(), func() {})
	settle(t)
	f := numberField(t, w, "shower.depthMM")
	into(w, f).SetText("1025")
	leave()
	if left != 3 {
		t.Error("what was being typed was left unasked")
	}
	tap(t, w, "Save")
	if left != 4 || w.desk.Job().Shower.DepthMM != 1025 || !strings.Contains(readFile(t, w.desk.File()), `"depthMM": 1025`) {
		t.Errorf("left %d times, depth %v", left, w.desk.Job().Shower.DepthMM)
	}
	// An edit that is not worked out yet counts as well.
	w.saveTo(w.desk.File(), func() {})
	settle(t)
	w.desk.Do(edit.Of(message.Of("edit.test-depth"), func(j *job.Job) { j.Shower.DepthMM = 1030 }))
	leave()
	if left != 4 {
		t.Error("an edit not yet worked out was left unasked")
	}
}

// A file that another program changed is asked about before it is replaced.
func TestChangedByAnotherProgram(t *testing.T) {
	w := edited(t, Options{})
	folder := t.TempDir()
	path := filepath.Join(folder, "a.json")
	w.saveTo(path, func() {})
	settle(t)
	writeFile(t, path, "theirs", 0o644)
	deepen(t, w, 1010)
	w.save()
	if !strings.Contains(shown(w), "Another program changed “a.json”") || readFile(t, path) != "theirs" {
		t.Fatalf("it is not asked:\n%s", shown(w))
	}
	tap(t, w, "Cancel")
	w.save()
	tap(t, w, "Save under another name")
	w.saving.name.SetText("b")
	tap(t, w, "Save")
	if readFile(t, path) != "theirs" || filepath.Base(w.desk.File()) != "b.json" {
		t.Errorf("the work is in %s", w.desk.File())
	}
	writeFile(t, w.desk.File(), "theirs", 0o644)
	w.save()
	tap(t, w, "Replace it")
	if readFile(t, w.desk.File()) == "theirs" || w.desk.Unsaved() {
		t.Error("it was not replaced")
	}
}

// A pipe that looks like a job is not offered, and refused without waiting.
func TestPipesDoNotStopTheWindow(t *testing.T) {
	w, _ := openWindow(t, Options{})
	folder := t.TempDir()
	pipe := filepath.Join(folder, "pipe.json")
	if err := syscall.Mkfifo(pipe, 0o644); err != nil {
		t.Fatal(err)
	}
	writeFile(t, filepath.Join(folder, "A.JSON"), "{}", 0o644)
	for name, want := range map[string]bool{"pipe.json": false, "A.JSON": true, "none.json": false} {
		if got := (endings{extension}).Matches(storage.NewFileURI(filepath.Join(folder, name))); got != want {
			t.Errorf("%s is offered: %v", name, got)
		}
	}
	before := w.desk.Job().Name
	w.sight.Chosen = "tile"
	w.openFile(pipe)
	if !strings.Contains(shown(w), "pipe") || w.desk.Job().Name != before || w.sight.Chosen != "tile" {
		t.Errorf("the job or what was chosen is gone, or nothing is told:\n%s", shown(w))
	}
}

// A picture's name gets its ending before the question, for every picture of a
// turn; nothing is written or left by asking.
func TestPictureAsksFirst(t *testing.T) {
	w := withPicture(t)
	folder := t.TempDir()
	w.rememberFolder(filepath.Join(folder, "x"))
	writeFile(t, filepath.Join(folder, "bath.png"), "old", 0o644)
	writeFile(t, filepath.Join(folder, "turn-02.png"), "old", 0o644)
	w.takePicture()
	tap(t, w, "Choose a file")
	if w.saving == nil || !strings.HasSuffix(w.saving.name.Text, ".png") {
		t.Fatal("no name is asked for")
	}
	w.saving.name.SetText("bath")
	tap(t, w, "Save")
	if !strings.Contains(shown(w), "“bath.png” is already in this folder") {
		t.Errorf("it is not asked:\n%s", shown(w))
	}
	w.saving.files = func(path string) []string { return pictureFiles(path, 36) }
	w.saving.name.SetText("turn")
	w.saving.press()
	if !strings.Contains(shown(w), "1 of these 36 files") {
		t.Errorf("it is not asked:\n%s", shown(w))
	}
	if folderNames(t, folder) != "bath.png turn-02.png" || readFile(t, filepath.Join(folder, "bath.png")) != "old" {
		t.Errorf("the folder holds %s", folderNames(t, folder))
	}
}

// listsOnly holds the list of jobs to the files of jobs.
func listsOnly(t *testing.T, w *mainWindow, want ...string) {
	t.Helper()
	listed, err := store.Jobs(w.folder)
	if err != nil || w.folder == "" {
		t.Fatalf("the list in %q: %v", w.folder, err)
	}
	var got []string
	for _, l := range listed {
		got = append(got, l.Path)
	}
	if !slices.Equal(got, want) {
		t.Errorf("listed as jobs: %q, not %q", got, want)
	}
}

// A picture that is saved is not listed as a job, while it is drawn nor once that is stopped.
func TestPicturesAreNotListed(t *testing.T) {
	w := withPicture(t)
	folder := t.TempDir()
	w.rememberFolder(filepath.Join(t.TempDir(), "x"))
	w.takePicture()
	tap(t, w, "Choose a file")
	w.saving.goTo(folder)
	w.saving.name.SetText("bath")
	tap(t, w, "Save")
	if w.startFolder() != folder {
		t.Fatal("the picture's folder is not remembered")
	}
	listsOnly(t, w)
	stopStill(t, w)
	until(t, "the message", func() bool { return w.teller.Text() == theme.Word("app.the-picture-was-stopped") })
	listsOnly(t, w)
}

// Pictures that cannot be written are told with their file's name, and leave
// nothing running behind.
func TestFailedPicturesLeaveNothing(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 200, 200))
	for i := range img.Pix {
		img.Pix[i] = byte(i * i)
	}
	before := runtime.NumGoroutine()
	for range 20 {
		err := still.WritePNG(filepath.Join(t.TempDir(), "none", "a.png"), img)
		if !errors.Is(err, os.ErrNotExist) || !strings.Contains(err.Error(), "a.png") {
			t.Errorf("%v", err)
		}
	}
	if after := runtime.NumGoroutine(); after > before+5 {
		t.Errorf("%d goroutines became %d", before, after)
	}
	path := filepath.Join(t.TempDir(), "a.png")
	if err := still.WritePNG(path, image.NewRGBA(image.Rectangle{})); err == nil || folderNames(t, filepath.Dir(path)) != "" {
		t.Errorf("an empty picture: %v, left %s", err, folderNames(t, filepath.Dir(path)))
	}
	if err := still.WritePNG(path, img); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := png.Decode(f); err != nil {
		t.Error(err)
	}
}
