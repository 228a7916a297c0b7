//go:build unix

package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/start"
	"underfall/app/store"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/question"
)

// A program that is started opens on the page of jobs, a new job on the sheet of questions; its first
// answer is worked out, and the job it makes is put on the desk, where the page leads back from.
func TestFromTheStartPageToTheDesk(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	if w.start.front == nil {
		t.Fatal("the start page is not shown")
	}
	sheet := w.start.blank().With(question.RoomLong, question.Given(2600))
	sheet.Floor.Is, sheet.Floor.Said = question.Concrete, true
	w.start.begin(sheet)
	until(t, "the first answer", func() bool { return strings.Contains(logOf(w), "first answer true") })
	// Undo is the sheet's: the job on the desk is not touched from here.
	before := w.desk.Job()
	if !w.start.typed(&fyne.ShortcutUndo{}) {
		t.Error("a page leaves shortcuts to the desk under it")
	}
	j, problems := w.start.practice(sheet.Region).Job(sheet)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	w.start.work(j)
	settle(t)
	if w.start.shown() || w.window.Content() != w.main || w.desk.Job().Room.WallLengthMM(0) != 2600 || before.Room.WallLengthMM(0) == 2600 {
		t.Errorf("on the desk: %q", w.desk.Job().Name)
	}
	now := w.desk.Job()
	if s := now.StandingOf("room.doorways[0].widthMM"); s != job.Assumed {
		t.Errorf("the usual door is %q", s)
	}
}

// A file that cannot be opened leads to the start page, not to a job that nobody asked for; what was wrong with it is said over that.
func TestADamagedFileLeadsToTheStartPage(t *testing.T) {
	file := filepath.Join(t.TempDir(), "half.json")
	if err := os.WriteFile(file, []byte(`{"version": 11, "name": "half`), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, f := range []string{file, filepath.Join(t.TempDir(), "gone.json")} {
		w, _ := openWindow(t, Options{StartPage: true, File: f})
		if w.start.front == nil || len(pressesIn(w.window.Content(), "Back to it")) != 0 {
			t.Errorf("%s: the window opens on the job %q", filepath.Base(f), w.desk.Job().Name)
		}
		if len(w.window.Canvas().Overlays().List()) != 1 {
			t.Errorf("%s: nothing is said of it", filepath.Base(f))
		}
	}
}

// Where no job has been open Escape leaves the start page alone; from the desk the page leads back to the job with all
// that was changed of it, by a press and by Escape.
func TestThePageLeadsBackToTheOpenJob(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	escape := func() { w.plainKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }
	if escape(); w.start.front == nil || len(pressesIn(w.window.Content(), "Back to it")) != 0 {
		t.Error("there is a way back to a job that nobody has opened")
	}
	w, _ = openWindow(t, Options{StartPage: true, File: "../assets/demos/2-loft-joists-across.json"})
	if w.start.open(); len(pressesIn(w.window.Content(), "Back to it")) != 1 {
		t.Error("there is no way back to a job that the program was begun with")
	}
	w.begin(w.demos[0].Job)
	w.desk.Do(edit.Of(message.Of("edit.name"), func(j *job.Job) { j.Name = "Mill Lane" }))
	for _, unsaved := range []bool{true, false} {
		if !unsaved {
			if err := w.desk.Save(filepath.Join(t.TempDir(), "mill.json")); err != nil {
				t.Fatal(err)
			}
		}
		for _, back := range []func(){escape, func() { test.Tap(pressesIn(w.window.Content(), "Back to it")[0]) }} {
			w.start.open()
			said := strings.Join(textsOf(w.window.Content()), " ")
			if !strings.Contains(said, "“Mill Lane” is open") || strings.Contains(said, "not saved") != unsaved {
				t.Errorf("unsaved %v: the page says %q", unsaved, said)
			}
			back()
			if w.start.shown() || w.window.Content() != w.main || w.desk.Job().Name != "Mill Lane" || w.desk.Unsaved() != unsaved {
				t.Errorf("unsaved %v: back is %q", unsaved, w.desk.Job().Name)
			}
		}
	}
}

// What was left on a sheet is there again when one comes back to it.
func TestAnswersOutliveTheSheet(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	sheet := w.start.blank().With(question.RoomLong, question.Given(3210))
	w.start.begin(sheet)
	w.plainKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.start.front == nil || w.start.begun.At(question.RoomLong).MM != 3210 {
		t.Errorf("after Escape: %+v", w.start.begun)
	}
	w.toggleTheme()
	if w.start.front == nil || w.window.Content() == w.main {
		t.Error("another light leads to the desk")
	}
}

// What was answered on a sheet is kept when the window is closed over it, until a job is made of it.
func TestAnswersOutliveTheWindow(t *testing.T) {
	w, _ := openWindow(t, Options{StartPage: true})
	w.start.newJob()
	for _, r := range "3210" {
		w.window.Canvas().Focused().TypedRune(r)
	}
	w.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := newStartPages(w).answered(); got.At(question.RoomLong).MM != 3210 {
		t.Errorf("kept %+v", got)
	}
	settle(t)
	w.plainKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.start.front == nil {
		t.Error("Escape stays on the sheet")
	}
	w.start.begin(w.start.begun)
	j, problems := w.start.practice("UK").Job(w.start.sheet.Sheet())
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	w.start.work(j)
	if got := newStartPages(w).answered(); got.Region != "" {
		t.Errorf("a job is made of it, but %+v is kept", got)
	}
}

// logOf is what the window has logged so far.
func logOf(w *mainWindow) string { return w.options.Log.(interface{ String() string }).String() }

// The list shows each job as it stands now: one that is gone, one that is no job, one of a later version
// that is not understood and one of a country without rules say so in a sentence; nothing else is lost for
// it. One of a later version that is understood says that it is to be looked at.
func TestTheListShowsWhatThereIs(t *testing.T) {
	folder, files := t.TempDir(), t.TempDir()
	good, err := job.New().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	thisVersion := fmt.Sprintf(`"version": %d`, job.Version)
	later := strings.Replace(string(good), thisVersion, `"version": 99`, 1)
	abroad := strings.Replace(string(good), `"region": "UK"`, `"region": "XX"`, 1)
	if later == string(good) || abroad == string(good) {
		t.Fatalf("the file has changed: %.200s", good)
	}
	for name, text := range map[string]string{"good": string(good), "broken": "{" + thisVersion + `, "ro`, "later": later, "much later": `{"version": 99, "room": 5}`, "abroad": abroad, "empty": "", "folder": "", "gone": ""} {
		path := filepath.Join(files, name+".json")
		switch name {
		case "gone":
		case "folder":
			err = os.Mkdir(path, 0o700)
		default:
			err = os.WriteFile(path, []byte(text), 0o600)
		}
		if err == nil {
			err = store.List(folder, store.Listed{Path: path, Name: name, At: time.Now()})
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	w, _ := openWindow(t, Options{StartPage: true, ConfigFolder: folder})
	row := func(name string) start.Job {
		for _, j := range w.start.jobs {
			if filepath.Base(j.Path) == name+".json" {
				return j
			}
		}
		return start.Job{}
	}
	until(t, "the rows", func() bool { return row("good").Summary != nil && row("gone").Gone })
	if row("good").Name != job.New().Name || row("good").Trouble != "" {
		t.Errorf("the good one: %+v", row("good"))
	}
	if r := row("later"); r.Summary == nil || !r.Newer || r.Trouble != "" {
		t.Errorf("the one of a later version: %+v", r)
	}
	for _, name := range []string{"broken", "much later", "abroad", "empty", "folder"} {
		if r := row(name); r.Summary != nil || r.Trouble == "" || strings.Contains(r.Trouble, "{") || r.Gone {
			t.Errorf("%s: %+v", name, r)
		}
	}
	w.start.openJob(row("much later").Path) // which is refused
	if w.start.front == nil || w.question == nil || !strings.Contains(shown(w), "its format is 99, and this Underfall reads up to") {
		t.Error("a job that is not understood is opened without a word")
	}
	w.give(w.answers[0])
	w.start.openJob(row("good").Path)
	settle(t)
	if w.start.shown() || w.desk.File() != row("good").Path {
		t.Errorf("opened %q", w.desk.File())
	}
}

// A list that cannot be read leaves an empty page; the next job that is saved is on it.
func TestABrokenListOfJobs(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "jobs.json"), []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	w, _ := openWindow(t, Options{StartPage: true, ConfigFolder: folder})
	until(t, "what is wrong", func() bool { return strings.Contains(logOf(w), "jobs") })
	path := filepath.Join(t.TempDir(), "new.json")
	w.saveTo(path, func() {})
	settle(t)
	if all, err := store.Jobs(folder); err != nil || len(all) != 1 || all[0].Path != path {
		t.Errorf("listed: %v, %v", all, err)
	}
}

// Work that a window left unsaved has its band on the page, not a question before it: looked at it stays
// kept, brought back it is on the desk as it was, left it is moved aside.
func TestUnsavedWorkOnThePage(t *testing.T) {
	for _, what := range []string{"bring back", "look at", "leave", "later"} {
		folder := t.TempDir()
		leaveWork(t, folder, "Left behind", "")
		w, _ := openWindow(t, Options{StartPage: true, ConfigFolder: folder})
		if len(w.start.found) != 1 || w.leftBehind != nil || w.start.front == nil {
			t.Fatalf("%s: %d found", what, len(w.start.found))
		}
		switch what {
		case "bring back":
			w.start.bringBack(0)
		case "look at":
			w.start.lookAt(0)
		case "leave":
			w.start.setAside(0)
		}
		settle(t)
		onDesk := w.desk.Job().Name == "Left behind"
		kept, _ := filepath.Glob(filepath.Join(folder, keptFolder, "*.json"))
		aside, _ := filepath.Glob(filepath.Join(folder, keptFolder, "set-aside", "*.json"))
		if onDesk != (what == "bring back" || what == "look at") || w.desk.Unsaved() != (what == "bring back") {
			t.Errorf("%s: on the desk %v, unsaved %v", what, onDesk, w.desk.Unsaved())
		}
		if (len(aside) == 1) != (what == "leave") || (len(kept) == 0) != (what == "leave") {
			t.Errorf("%s: kept %v, aside %v", what, kept, aside)
		}
		w.end()
	}
}

// Where nothing has the keys, the page's own lead to the new job, into the list and to what is looked for.
func TestKeysOfTheStartPage(t *testing.T) {
	folder, path := t.TempDir(), jobFile(t, func(map[string]any) {})
	if err := store.List(folder, store.Listed{Path: path, Name: "Bath", At: time.Now()}); err != nil {
		t.Fatal(err)
	}
	w, _ := openWindow(t, Options{StartPage: true, ConfigFolder: folder})
	until(t, "the row", func() bool { return len(w.start.jobs) == 1 && w.start.jobs[0].Summary != nil })
	c := w.window.Canvas()
	had := map[fyne.Focusable]fyne.KeyName{}
	for _, k := range []fyne.KeyName{fyne.KeyN, fyne.KeyDown, fyne.KeyF} {
		c.Unfocus()
		w.plainKey(&fyne.KeyEvent{Name: k})
		now := c.Focused()
		if before, twice := had[now]; now == nil || twice {
			t.Errorf("%s leads to %T, as %q does", k, now, before)
		}
		had[now] = k
	}
	field := c.Focused()
	c.Unfocus()
	w.plainKey(&fyne.KeyEvent{Name: fyne.KeyN})
	c.Focused().(interface{ TypedShortcut(fyne.Shortcut) }).TypedShortcut(withCtrl(fyne.KeyF))
	if c.Focused() != field {
		t.Error("Ctrl-F in a field does not lead to what is looked for")
	}
	c.Unfocus()
	w.plainKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if !strings.Contains(shown(w), "stays where it is; it is only taken off this list") {
		t.Errorf("Del asks %q", shown(w))
	}
	tap(t, w, "Remove from the list")
	until(t, "the page without jobs", func() bool { return w.start.jobs != nil && len(w.start.jobs) == 0 })
	if _, err := os.Stat(path); err != nil {
		t.Errorf("the file is gone: %v", err)
	}
}
