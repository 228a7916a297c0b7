//go:build unix

package desk_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"underfall/app/desk"
	"underfall/app/store"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

var noon = time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC)

// keepIn makes a desk keep unsaved work in a folder, and lets go of it as a
// crash would when the test is over.
func keepIn(d *desk.Desk, folder string) { d.KeepIn(folder, func() time.Time { return noon }) }

// crash leaves behind in a folder what a desk kept that died with a depth.
func crash(t *testing.T, folder string, depthMM float64, file string) {
	t.Helper()
	j := job.New()
	j.Shower.DepthMM, j.Edition = depthMM, "2026-11"
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	w := store.Work{Name: j.Name, File: file, At: noon, Job: data}
	if file != "" {
		if _, w.Stamp, err = store.Read(file, store.LargestJob); err != nil {
			t.Fatal(err)
		}
	}
	leave(t, folder, w)
}

// leave writes a kept file that nobody holds.
func leave(t *testing.T, folder string, w store.Work) {
	t.Helper()
	data, err := json.Marshal(map[string]any{"underfallKept": 1, "name": w.Name, "file": w.File, "stamp": w.Stamp, "at": w.At, "job": w.Job})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	f, err := os.CreateTemp(folder, "left-*.json")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// leftBehind lists what a desk finds, and wants nothing unreadable.
func leftBehind(t *testing.T, d *desk.Desk) []*store.Found {
	t.Helper()
	found, unreadable, err := d.LeftBehind()
	if err != nil || len(unreadable) > 0 {
		t.Fatalf("unreadable %v, %v", unreadable, err)
	}
	return found
}

// list is all there is in a folder.
func list(t *testing.T, folder string) string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func TestSaveOpen(t *testing.T) {
	d, next := open(t)
	d.Do(setDepth(1000))
	next()
	path := filepath.Join(t.TempDir(), "a.json")
	must(t, d.Save(path))
	if c := next(); c.Unsaved || c.File != path || d.Unsaved() || d.File() != path {
		t.Errorf("after saving: unsaved %v, file %q", c.Unsaved, c.File)
	}
	want := d.Job()
	d.Do(setDepth(800))
	next()
	if !d.Unsaved() {
		t.Error("an edit counts as saved")
	}
	must(t, d.Open(path))
	next()
	if diff := cmp.Diff(want, d.Job()); diff != "" {
		t.Errorf("reopened:\n%s", diff)
	}
}

// A file that cannot be opened is not changed, nor is the job on the desk; a
// pipe does not stop the program.
func TestOpenRefuses(t *testing.T) {
	d, _ := open(t)
	before := d.Job()
	folder := t.TempDir()
	for name, text := range map[string]string{"empty": "", "truncated": `{"version":1,"name":"x`, "newer": `{"version":99}`, "wrong": `{"version":1,"name":5}`} {
		path := filepath.Join(folder, name)
		must(t, os.WriteFile(path, []byte(text), 0o644))
		err := d.Open(path)
		if err == nil || !strings.Contains(message.OfError(err).String(), "desk.opening{file: \""+name+"\", why: ") {
			t.Errorf("%s: error %v does not name the file", name, err)
		}
		if kept, _ := os.ReadFile(path); string(kept) != text {
			t.Errorf("%s was changed", name)
		}
	}
	must(t, syscall.Mkfifo(filepath.Join(folder, "pipe"), 0o644))
	for name, says := range map[string]string{"none": "why: store.no-such-file}", "pipe": "why: store.not-plain}", ".": "why: store.folder}"} {
		if err := d.Open(filepath.Join(folder, name)); err == nil || !strings.Contains(message.OfError(err).String(), says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if diff := cmp.Diff(before, d.Job()); diff != "" {
		t.Errorf("the job changed:\n%s", diff)
	}
}

// Saving where it cannot be done says so, and the work stays unsaved and kept.
func TestSaveRefuses(t *testing.T) {
	d, next := open(t)
	kept := filepath.Join(t.TempDir(), "kept")
	keepIn(d, kept)
	d.Do(setDepth(1000))
	next()
	readOnly := filepath.Join(t.TempDir(), "a.json")
	must(t, os.WriteFile(readOnly, []byte("old"), 0o444))
	for path, says := range map[string]string{filepath.Join(t.TempDir(), "no", "such.json"): "store.no-folder", readOnly: "store.read-only"} {
		if err := d.Save(path); err == nil || message.OfError(err).String() != fmt.Sprintf("desk.saving{file: %q, why: %s}", filepath.Base(path), says) {
			t.Errorf("%s: %v", path, err)
		}
	}
	if data, err := os.ReadFile(readOnly); err != nil || string(data) != "old" {
		t.Errorf("the read-only file holds %q, %v", data, err)
	}
	must(t, d.Keep())
	if !d.Unsaved() || d.File() != "" || !strings.Contains(list(t, kept), ".json") {
		t.Errorf("unsaved %v, file %q, kept %s", d.Unsaved(), d.File(), list(t, kept))
	}
}

// A file that another program changed meanwhile is not overwritten unasked; one
// that was only touched, or is gone, is written.
func TestSaveSeesOtherPrograms(t *testing.T) {
	d, next := open(t)
	path := filepath.Join(t.TempDir(), "a.json")
	must(t, d.Save(path))
	next()
	edit := func(depthMM float64) { d.Do(setDepth(depthMM)); next() }
	edit(1000)
	must(t, os.Chtimes(path, noon, noon))
	must(t, d.Save(path))
	next()
	must(t, os.WriteFile(path, []byte("theirs"), 0o644))
	edit(1010)
	if err := d.Save(path); !errors.Is(err, desk.ErrChanged) || !d.Unsaved() {
		t.Errorf("changed by another: %v, unsaved %v", err, d.Unsaved())
	}
	if data, _ := os.ReadFile(path); string(data) != "theirs" {
		t.Errorf("it holds %.20q", data)
	}
	must(t, d.SaveOver(path))
	next()
	edit(1020)
	must(t, os.Remove(path))
	must(t, d.Save(path))
	next()
	// The same after opening.
	must(t, d.Open(path))
	next()
	must(t, os.WriteFile(path, []byte("theirs"), 0o644))
	if err := d.Save(path); !errors.Is(err, desk.ErrChanged) {
		t.Errorf("changed since it was opened: %v", err)
	}
}

// Work is kept with its file and comes back to it, unsaved however often it is
// undone, and with the check for other programs.
func TestBringBack(t *testing.T) {
	folder, kept := t.TempDir(), filepath.Join(t.TempDir(), "kept")
	path := filepath.Join(folder, "a.json")
	first, next := open(t)
	must(t, first.Save(path))
	next()
	must(t, first.Release())
	crash(t, kept, 1000, path)

	d, next := open(t)
	keepIn(d, kept)
	found := leftBehind(t, d)
	if len(found) != 1 || found[0].File != path || !found[0].At.Equal(noon) {
		t.Fatalf("found %+v", found)
	}
	if c := found[0].Compare(); c.State != store.Same || !slices.Equal(c.Differing, []string{"shower.depthMM"}) {
		t.Errorf("against its file: %+v", c)
	}
	must(t, d.BringBack(found[0]))
	if c := next(); c.Result.Settled.Shower.DepthMM != 1000 || c.File != path || !c.Unsaved {
		t.Errorf("brought back: depth %v, file %q, unsaved %v", c.Result.Settled.Shower.DepthMM, c.File, c.Unsaved)
	}
	if n := strings.Count(list(t, kept), ".json"); n != 1 {
		t.Errorf("%d are kept: %s", n, list(t, kept))
	}
	d.Do(setDepth(1010))
	next()
	d.Undo()
	next()
	d.Undo()
	if !d.Unsaved() {
		t.Error("undone it counts as saved")
	}
	must(t, d.Keep())
	if n := strings.Count(list(t, kept), ".json"); n != 1 {
		t.Errorf("undone, %d are kept", n)
	}
	must(t, os.WriteFile(path, []byte("theirs"), 0o644))
	if err := d.Save(path); !errors.Is(err, desk.ErrChanged) {
		t.Errorf("saving over what another program wrote: %v", err)
	}
	must(t, d.SaveOver(path))
	must(t, d.Release())
	if d.Unsaved() || list(t, kept) != "" {
		t.Errorf("saved and closed: unsaved %v, left %s", d.Unsaved(), list(t, kept))
	}
}

// Work that was set aside can be opened like a file; it still belongs to its own
// and is never saved where it was set aside, from where the oldest goes.
func TestOpenWhatWasSetAside(t *testing.T) {
	kept, path := filepath.Join(t.TempDir(), "kept"), filepath.Join(t.TempDir(), "a.json")
	d, next := open(t)
	must(t, d.Save(path))
	next()
	crash(t, kept, 1000, path)
	keepIn(d, kept)
	aside, err := leftBehind(t, d)[0].SetAside(noon)
	must(t, err)
	must(t, d.Open(aside))
	if c := next(); c.Result.Settled.Shower.DepthMM != 1000 || c.File != path || !c.Unsaved {
		t.Errorf("depth %v, file %q, unsaved %v", c.Result.Settled.Shower.DepthMM, c.File, c.Unsaved)
	}
	// So does the bare job that earlier versions kept.
	data, err := job.New().Marshal()
	must(t, err)
	must(t, os.WriteFile(filepath.Join(filepath.Dir(kept), "unsaved.underfall.json"), data, 0o600))
	aside, err = leftBehind(t, d)[0].SetAside(noon)
	must(t, err)
	must(t, d.Open(aside))
	if c := next(); c.Result.Settled.Shower.DepthMM != 900 || c.File != "" || !c.Unsaved {
		t.Errorf("depth %v, file %q, unsaved %v", c.Result.Settled.Shower.DepthMM, c.File, c.Unsaved)
	}
}

// What is kept follows the work of its own window: other windows neither see nor
// remove it, and it goes when the work is saved or given up.
func TestKeepFollowsTheWork(t *testing.T) {
	kept := filepath.Join(t.TempDir(), "kept")
	d, next := open(t)
	must(t, d.Keep()) // without a folder it does nothing
	keepIn(d, kept)
	must(t, d.Keep())
	if list(t, kept) != "" {
		t.Errorf("nothing unsaved, kept %s", list(t, kept))
	}
	d.Do(setDepth(1000))
	next()
	must(t, d.Keep())
	if !strings.Contains(list(t, kept), ".json") {
		t.Error("unsaved work is not kept")
	}
	other, _ := open(t)
	keepIn(other, kept)
	if found := leftBehind(t, other); len(found) > 0 {
		t.Error("another window is offered living work")
	}
	must(t, other.Keep())
	must(t, other.Release())
	if !strings.Contains(list(t, kept), ".json") {
		t.Error("another window removed living work")
	}
	must(t, d.Save(filepath.Join(t.TempDir(), "a.json")))
	if strings.Contains(list(t, kept), ".json") {
		t.Error("saved work is still kept")
	}
	d.Do(setDepth(1010))
	must(t, d.Keep())
	d.Replace(job.New())
	must(t, d.Keep())
	if strings.Contains(list(t, kept), ".json") {
		t.Error("work given up is still kept")
	}
	must(t, d.Release())
	if list(t, kept) != "" {
		t.Errorf("left %s", list(t, kept))
	}
}

// Kept work that is no job is set aside and named; that of a later version
// waits, and is not lost by trying.
func TestLeftBehindThatIsNoJob(t *testing.T) {
	kept := filepath.Join(t.TempDir(), "kept")
	leave(t, kept, store.Work{Name: "odd", At: noon, Job: json.RawMessage(`{"version":2,"name":5}`)})
	leave(t, kept, store.Work{Name: "later", At: noon, Job: json.RawMessage(`{"version":99}`)})
	d, _ := open(t)
	keepIn(d, kept)
	found, unreadable, err := d.LeftBehind()
	if err != nil || len(found) != 1 || found[0].Name != "later" || len(unreadable) != 1 {
		t.Fatalf("found %v, unreadable %v, %v", found, unreadable, err)
	}
	if err := d.BringBack(found[0]); !errors.Is(err, job.ErrNewer) || d.Unsaved() {
		t.Errorf("%v, unsaved %v", err, d.Unsaved())
	}
	must(t, found[0].Later())
	if again := leftBehind(t, d); len(again) != 1 {
		t.Errorf("next time %v is found", again)
	}
}

// Every state that is saved has a number of its own, in the file and on the desk, wherever undo leads: the first is 1, what is saved again
// as it was keeps its number, and one that could not be written is not counted.
func TestSavedStatesAreCounted(t *testing.T) {
	d, _ := open(t)
	path := filepath.Join(t.TempDir(), "job.json")
	saved := func(want int) {
		t.Helper()
		if err := d.Save(path); err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.Parse(data)
		if err != nil || j.State != want || d.Job().State != want {
			t.Errorf("state %d in the file, %d on the desk, want %d: %v", j.State, d.Job().State, want, err)
		}
	}
	saved(1)
	saved(1)
	d.Do(setDepth(1010))
	saved(2)
	d.Undo()
	if err := d.Save(filepath.Join(path, "under a file", "job.json")); err == nil {
		t.Error("it is saved where nothing can be")
	}
	saved(3)
	d.Redo()
	saved(4)
}

// A job is saved with the edition of the rules it was held against, unless it has one
// already; then it keeps that until it is told otherwise.
func TestSavedWithItsEdition(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.json")
	d, next := open(t)
	saved := func() string {
		t.Helper()
		must(t, d.Save(path))
		next()
		data, err := os.ReadFile(path)
		must(t, err)
		j, err := job.Parse(data)
		must(t, err)
		return j.Edition
	}
	now := d.Regions()["UK"].Edition
	if got := saved(); got != now || now == "" || d.Job().Edition != now || d.Unsaved() {
		t.Errorf("saved with %q, now it is %q", got, now)
	}
	d.Do(edit.Edition("2025-01"))
	if r := next().Result; saved() != "2025-01" || !slices.ContainsFunc(r.Answer(nil).Lines(), func(m message.Message) bool {
		return m.ID == "answer.edition" && strings.Contains(m.String(), "2025-01") && strings.Contains(m.String(), now)
	}) {
		t.Error("another edition is not kept, or not told")
	}
	d.Do(edit.Edition(now))
	if r := next().Result; slices.ContainsFunc(r.Answer(nil).Lines(), func(m message.Message) bool { return m.ID == "answer.edition" }) {
		t.Error("the edition of now is told as another")
	}
}
