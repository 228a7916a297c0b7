package store_test

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"underfall/app/store"
)

func listed(path string, minute int) store.Listed {
	return store.Listed{Path: path, Name: filepath.Base(path), At: time.Date(2026, 1, 2, 3, minute, 0, 0, time.UTC)}
}

// jobsIn are the paths on the list of a folder.
func jobsIn(t *testing.T, folder string) string {
	t.Helper()
	all, err := store.Jobs(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := ""
	for _, l := range all {
		out += l.Path + " "
	}
	return out
}

// Each job is on the list once, the latest first; one taken off is gone, its file is not.
func TestTheListOfJobs(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "not", "there")
	if got := jobsIn(t, folder); got != "" {
		t.Errorf("at first there are %q", got)
	}
	for i, path := range []string{"/a.json", "/b.json", "/c.json", "/a.json"} {
		if err := store.List(folder, listed(path, i)); err != nil {
			t.Fatal(err)
		}
	}
	if got := jobsIn(t, folder); got != "/a.json /c.json /b.json " {
		t.Errorf("listed: %q", got)
	}
	if err := store.Unlist(folder, "/c.json"); err != nil {
		t.Fatal(err)
	}
	if err := store.Relist(folder, "/b.json", listed("/moved/b.json", 9)); err != nil {
		t.Fatal(err)
	}
	if got := jobsIn(t, folder); got != "/moved/b.json /a.json " {
		t.Errorf("then: %q", got)
	}
}

// Windows that list jobs at once lose none of each other's.
func TestTwoWindowsList(t *testing.T) {
	folder := t.TempDir()
	var all sync.WaitGroup
	for window := range 4 {
		all.Go(func() {
			for i := range 10 {
				if err := store.List(folder, listed(fmt.Sprintf("/%d-%d.json", window, i), i)); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	if jobs, err := store.Jobs(folder); err != nil || len(jobs) != 40 {
		t.Errorf("%d jobs, %v", len(jobs), err)
	}
}

// A list that cannot be read is told, kept aside and begun anew; what it says of relative paths, or
// of one path twice, is not taken over.
func TestABrokenList(t *testing.T) {
	for name, text := range map[string]string{"cut short": `{"underfallJobs":1,"jobs":[{"pa`, "later": `{"underfallJobs":2}`, "empty": "", "other": "[]"} {
		folder := t.TempDir()
		file := filepath.Join(folder, "jobs.json")
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if jobs, err := store.Jobs(folder); err == nil || len(jobs) > 0 {
			t.Errorf("%s: %v, %v", name, jobs, err)
		}
		if err := store.List(folder, listed("/a.json", 1)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if got := jobsIn(t, folder); got != "/a.json " {
			t.Errorf("%s: then %q", name, got)
		}
		if kept, err := os.ReadFile(filepath.Join(folder, "jobs-unreadable.json")); err != nil || string(kept) != text {
			t.Errorf("%s: kept %q, %v", name, kept, err)
		}
	}
	folder := t.TempDir()
	text := `{"underfallJobs":1,"jobs":[{"path":"a.json"},{"path":""},{"path":"/b.json","name":"old"},{"path":"/b.json","at":"2026-01-02T03:04:05Z"}]}`
	if err := os.WriteFile(filepath.Join(folder, "jobs.json"), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := jobsIn(t, folder); got != "/b.json " {
		t.Errorf("of others' text: %q", got)
	}
}

// A list that cannot be written is told.
func TestAListThatCannotBeWritten(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(folder, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := store.List(folder, listed("/a.json", 1)); err == nil {
		t.Error("listed in a folder that is a file")
	}
}
