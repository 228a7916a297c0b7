//go:build unix

package store

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry/job"
)

var noon = time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC)

func work(n int) Work {
	return Work{Name: "Loft", At: noon, Job: json.RawMessage(fmt.Sprintf(`{"version":2,"name":"Loft","n":%d}`, n))}
}

// keep keeps work in a folder and then dies, as a crash would have it.
func keep(t *testing.T, folder string, w Work) {
	t.Helper()
	k := NewKeeper(folder)
	if err := k.Keep(w); err != nil {
		t.Fatal(err)
	}
	if err := k.lock.Close(); err != nil {
		t.Fatal(err)
	}
}

func leftBehind(t *testing.T, folder string) []*Found {
	t.Helper()
	found, unreadable, err := LeftBehind(folder, noon)
	if err != nil || len(unreadable) > 0 {
		t.Fatalf("unreadable %v, %v", unreadable, err)
	}
	return found
}

// Each window has a file of its own. What a living one keeps is never offered;
// what dead ones kept is, all of it.
func TestEachWindowKeepsItsOwn(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	keep(t, folder, work(1))
	keep(t, folder, work(2))
	living := NewKeeper(folder)
	if err := living.Keep(work(3)); err != nil {
		t.Fatal(err)
	}
	found := leftBehind(t, folder)
	seen := map[string]bool{}
	for _, f := range found {
		seen[string(f.Job)] = true
	}
	if len(found) != 2 || !seen[string(work(1).Job)] || !seen[string(work(2).Job)] {
		t.Fatalf("found %v", seen)
	}
	if again := leftBehind(t, folder); len(again) != 0 {
		t.Errorf("another window is offered the same: %v", again)
	}
	if err := found[0].Later(); err != nil {
		t.Fatal(err)
	}
	again := leftBehind(t, folder)
	if len(again) != 1 || again[0].id != found[0].id {
		t.Errorf("work left for later is offered as %v", again)
	}
	if err := found[1].Remove(); err != nil {
		t.Fatal(err)
	}
	if err := again[0].Remove(); err != nil {
		t.Fatal(err)
	}
	if got := content(t, living.path()); !strings.Contains(got, `"n":3`) {
		t.Errorf("the living window's work is %s", got)
	}
	if err := living.Close(); err != nil {
		t.Fatal(err)
	}
	if n := names(t, folder); n != "" {
		t.Errorf("left for ever: %s", n)
	}
}

// Work comes back as it was kept.
func TestWorkReadsBack(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	want := work(1)
	want.File, want.Saving = "/jobs/a.json", "/jobs/b.json"
	want.Stamp = Stamp{Bytes: 3, Modified: noon, Sum: "abc"}
	keep(t, folder, want)
	found := leftBehind(t, folder)
	if len(found) != 1 {
		t.Fatalf("found %v", found)
	}
	if diff := cmp.Diff(want, found[0].Work); diff != "" {
		t.Error(diff)
	}
}

// The same work is written once; other work, another file or a copy that
// somebody removed is written again.
func TestUnchangedWorkIsNotWrittenAgain(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	k := NewKeeper(folder)
	write := func(w Work) os.FileInfo {
		t.Helper()
		if err := k.Keep(w); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(k.path())
		if err != nil {
			t.Fatal(err)
		}
		return info
	}
	first, later := work(1), work(1)
	later.At = noon.Add(time.Minute)
	a, b := write(first), write(later)
	if !os.SameFile(a, b) {
		t.Error("unchanged work was written again")
	}
	elsewhere := later
	elsewhere.File = "/jobs/a.json"
	if c := write(elsewhere); os.SameFile(b, c) {
		t.Error("that the work has a file was not written")
	}
	if err := os.Remove(k.path()); err != nil {
		t.Fatal(err)
	}
	write(elsewhere)
	// Not even the folder's removal makes a living window's work look dead.
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	write(elsewhere)
	if found := leftBehind(t, folder); len(found) != 0 {
		t.Errorf("living work is offered: %v", found)
	}
	if err := k.Close(); err != nil || names(t, folder) != "" {
		t.Errorf("%v, left %s", err, names(t, folder))
	}
}

// A window that never had unsaved work leaves nothing, and makes nothing.
func TestNothingToKeep(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	k := NewKeeper(folder)
	if err := k.Clear(); err != nil {
		t.Error(err)
	}
	if err := k.Close(); err != nil {
		t.Error(err)
	}
	if found := leftBehind(t, folder); len(found) > 0 || isThere(folder) {
		t.Error("a folder was made for nothing")
	}
}

// A kept copy that cannot be read is set aside and named, whatever it is; it is
// neither overwritten nor deleted, and stands in nobody's way.
func TestUnreadableWorkIsSetAside(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	keep(t, folder, work(1))
	for name, text := range map[string]string{"damaged": `{"underfallKept":1,"name":"Lo`, "empty": "", "newer": `{"underfallKept":9,"job":{}}`, "nothing": `{"underfallKept":1}`, "five": "5"} {
		put(t, filepath.Join(folder, name+".json"), text, 0o600)
	}
	pipe(t, filepath.Join(folder, "pipe.json"))
	found, unreadable, err := LeftBehind(folder, noon)
	if err != nil || len(found) != 1 || len(unreadable) != 6 {
		t.Fatalf("found %v, unreadable %v, %v", found, unreadable, err)
	}
	for _, path := range unreadable {
		if strings.Contains(path, "damaged") && content(t, path) != `{"underfallKept":1,"name":"Lo` {
			t.Errorf("%s was changed", path)
		}
		if !isThere(path) {
			t.Errorf("%s is named but not there", path)
		}
	}
	if err := found[0].Later(); err != nil {
		t.Fatal(err)
	}
	if found := leftBehind(t, folder); len(found) != 1 {
		t.Errorf("next time %v is found", found)
	}
}

// Work not wanted back can still be found by hand; only the oldest of very many
// goes, and never what was just set aside, whatever the clock says.
func TestSetAside(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "kept")
	var first string
	for i := range mostAside + 5 {
		keep(t, folder, work(i))
		at := noon.Add(time.Duration(i) * time.Hour)
		if i == mostAside+4 {
			at = noon.Add(-time.Hour)
		}
		path, err := leftBehind(t, folder)[0].SetAside(at)
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = path
		}
		if !strings.Contains(content(t, path), fmt.Sprintf(`"n":%d}`, i)) {
			t.Errorf("%s holds %s", path, content(t, path))
		}
	}
	if isThere(first) {
		t.Error("the oldest is still there")
	}
	entries, err := os.ReadDir(filepath.Join(folder, asideFolder))
	if err != nil || len(entries) < 20 || len(entries) > mostAside+1 {
		t.Errorf("%d are set aside, %v", len(entries), err)
	}
	if n := names(t, folder); n != asideFolder {
		t.Errorf("the folder holds %s", n)
	}
}

// What an earlier version kept in its one file for all windows is taken over.
func TestEarlierKeptFileIsTakenOver(t *testing.T) {
	config := t.TempDir()
	earlier := put(t, filepath.Join(config, earlierKept), `{"version":2,"name":"From before"}`, 0o600)
	if err := os.Chtimes(earlier, noon, noon); err != nil {
		t.Fatal(err)
	}
	found := leftBehind(t, filepath.Join(config, "kept"))
	if len(found) != 1 || found[0].Name != "From before" || !found[0].At.Equal(noon) || string(found[0].Job) != `{"version":2,"name":"From before"}` {
		t.Fatalf("found %+v", found)
	}
	if isThere(earlier) {
		t.Error("the earlier file is still there")
	}
	put(t, earlier, "damaged", 0o600)
	_, unreadable, err := LeftBehind(filepath.Join(config, "kept"), noon)
	if err != nil || len(unreadable) != 1 || content(t, unreadable[0]) != "damaged" {
		t.Errorf("a damaged one is at %v, %v", unreadable, err)
	}
}

// Found work tells how it stands against its file.
func TestCompare(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.json")
	stamp, err := Write(path, []byte(`{"version":2,"name":"Loft","n":1,"list":[1,2],"none":[]}`))
	if err != nil {
		t.Fatal(err)
	}
	w := Work{File: path, Stamp: stamp, Job: json.RawMessage(`{"version":2,"name":"Loft","n":2.0,"list":[1,3,4],"none":{}}`)}
	if c := w.Compare(); c.State != Same || !c.Compared || !slices.Equal(c.Differing, []string{"list[1]", "list[2]", "n", "none"}) || !c.FileAt.Equal(stamp.Modified) {
		t.Errorf("n, two of the list and what is empty differ: %+v", c)
	}
	if _, err := Write(path, w.Job); err != nil {
		t.Fatal(err)
	}
	if c := w.Compare(); c.State != Changed || !c.Compared || len(c.Differing) != 0 {
		t.Errorf("changed to the same: %+v", c)
	}
	put(t, path, "no job", 0o644)
	if c := w.Compare(); c.State != Changed || c.Compared {
		t.Errorf("changed to what is no job: %+v", c)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if c := w.Compare(); c.State != Gone || c.Compared {
		t.Errorf("gone: %+v", c)
	}
	w.File = ""
	if c := w.Compare(); c.State != NoFile {
		t.Errorf("never saved: %+v", c)
	}
}

// A file of an earlier version of the format differs from work of today by its
// values, not by its format.
func TestCompareWithAnEarlierFormat(t *testing.T) {
	old, err := os.ReadFile("../../geometry/job/testdata/version-2/1-slab-side-wall.json")
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Parse(old)
	if err != nil {
		t.Fatal(err)
	}
	j.Shower.DepthMM += 10
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "old.json")
	stamp, err := Write(path, old)
	if err != nil {
		t.Fatal(err)
	}
	if c := (Work{File: path, Stamp: stamp, Job: data}).Compare(); !slices.Equal(c.Differing, []string{"shower.depthMM"}) {
		t.Errorf("what differs: %v", c.Differing)
	}
}

// Work that a crash left between its saving and its removal is in its file: it
// is not offered, and what saving left beside the file is cleaned.
func TestSavedWorkIsNotOffered(t *testing.T) {
	for _, saving := range []bool{false, true} {
		config, folder := t.TempDir(), t.TempDir()
		path := put(t, filepath.Join(folder, "a.json"), `{"n":1, "name":"Loft", "version":2}`, 0o644)
		left := put(t, filepath.Join(folder, temporaryPrefix+"0"+temporaryEnding), "half", 0o600)
		w := work(1)
		if w.File = path; saving {
			w.File, w.Saving = "/elsewhere/b.json", path
		}
		keep(t, config, w)
		if found := leftBehind(t, config); len(found) > 0 || names(t, config) != "" {
			t.Errorf("saving %v: found %v, left %s", saving, found, names(t, config))
		}
		if saving == isThere(left) {
			t.Errorf("saving %v: the folder holds %s", saving, names(t, folder))
		}
	}
}

// Whatever a kept file holds, reading and comparing it does not end the program,
// and what is known as kept work has a job in it.
func FuzzParseWork(f *testing.F) {
	for _, text := range []string{"", "5", "{}", `{"underfallKept":1,"job":{"a":[1,{}]},"at":"2026-05-03T12:00:00Z"}`, `{"underfallKept":1,"job":null}`, `{"name":"bare"}`, strings.Repeat("[", 20000)} {
		f.Add([]byte(text))
	}
	path := filepath.Join(f.TempDir(), "a.json")
	f.Fuzz(func(t *testing.T, data []byte) {
		w, known, err := ParseWork(data)
		if known && err == nil && len(w.Job) == 0 {
			t.Errorf("%q is kept work without a job", data)
		}
		put(t, path, string(data), 0o600)
		if n, _ := (Work{Job: data}).differencesFrom(path); len(n) > 0 {
			t.Errorf("%q differs from itself at %v", data, n)
		}
		w.File = path
		_ = w.Compare()
	})
}

// A folder that cannot be written to is named in words.
func TestKeepingCannotBe(t *testing.T) {
	file := put(t, filepath.Join(t.TempDir(), "a"), "", 0o644)
	k := NewKeeper(filepath.Join(file, "kept"))
	if err := k.Keep(work(1)); err == nil || !strings.Contains(err.Error(), file) {
		t.Errorf("%v", err)
	}
	if err := k.Close(); err != nil {
		t.Error(err)
	}
}
