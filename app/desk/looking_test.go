//go:build unix

package desk_test

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"underfall/app/desk"
	"underfall/app/store"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// aFile is a file of the starting job, changed as a text.
func aFile(t *testing.T, change func(file map[string]any)) string {
	t.Helper()
	data, err := job.New().Marshal()
	must(t, err)
	var file map[string]any
	must(t, json.Unmarshal(data, &file))
	change(file)
	data, err = json.Marshal(file)
	must(t, err)
	path := filepath.Join(t.TempDir(), "a.json")
	must(t, os.WriteFile(path, data, 0o644))
	return path
}

// as waits for a change that is so.
func as(t *testing.T, next func() desk.Change, what string, is func(desk.Change) bool) desk.Change {
	t.Helper()
	for range 50 {
		if c := next(); is(c) {
			return c
		}
	}
	t.Fatalf("%s did not come", what)
	return desk.Change{}
}

func looked(c desk.Change) bool { return c.Looking != nil }
func worked(c desk.Change) bool { return c.Looking == nil }

// handingOver has a desk hand its file over when it is asked, as a window does, until the test is over.
func handingOver(t *testing.T, d *desk.Desk) {
	stop, stopped := make(chan struct{}), make(chan struct{})
	t.Cleanup(func() { close(stop); <-stopped })
	go func() {
		defer close(stopped)
		for {
			select {
			case <-stop:
				return
			case <-time.After(5 * time.Millisecond):
				d.HandOver()
			}
		}
	}()
}

func soon(t *testing.T) context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	t.Cleanup(cancel)
	return ctx
}

// The second desk on a file looks at it: it changes nothing, saves nothing over it, and says why; saved
// under another name it is worked on. Let go by the first, the file is free.
func TestTheSameJobOpenTwice(t *testing.T) {
	path := aFile(t, func(map[string]any) {})
	first, _ := open(t)
	must(t, first.Open(path))
	second, next := open(t)
	must(t, second.Open(path))
	c := as(t, next, "looking", looked)
	if !c.Looking.Elsewhere || c.Looking.Why.ID != "store.elsewhere" || c.File != path || c.Unsaved {
		t.Errorf("it looks as %+v", c.Looking)
	}
	before, _ := os.ReadFile(path)
	for what, p := range map[string]job.Problems{"an edit": second.Do(setDepth(1000)), "a preview": second.Preview(setDepth(1000))} {
		if len(p) != 1 || !strings.HasPrefix(p[0].What.String(), "desk.unchanged-elsewhere{why: store.elsewhere") || p[0].Key != "" {
			t.Errorf("%s: %v", what, p)
		}
	}
	for what, err := range map[string]error{"saved": second.Save(path), "saved over": second.SaveOver(path)} {
		if !errors.Is(err, desk.ErrLookedAt) || !strings.Contains(message.OfError(err).String(), "desk.not-over{why: store.elsewhere}") {
			t.Errorf("%s: %v", what, err)
		}
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) || second.Unsaved() || second.Job().Shower.DepthMM != job.New().Shower.DepthMM {
		t.Error("something was changed")
	}
	// The first is not held up.
	first.Do(setDepth(1010))
	must(t, first.Save(path))
	copied := filepath.Join(t.TempDir(), "copy.json")
	must(t, second.Save(copied))
	as(t, next, "working on the copy", worked)
	if p := second.Do(setDepth(1020)); len(p) > 0 {
		t.Errorf("the copy is not worked on: %v", p)
	}
	must(t, second.Save(copied))
	must(t, second.Release())
	must(t, first.Release())
	if n := list(t, filepath.Dir(path)); n != "a.json" {
		t.Errorf("left beside: %s", n)
	}
	third, next := open(t)
	must(t, third.Open(path))
	as(t, next, "working on it", func(c desk.Change) bool { return c.File == path && c.Looking == nil })
	// Opened again where it is open already, it is not in its own way.
	must(t, third.Open(path))
	if p := third.Do(setDepth(1030)); len(p) > 0 {
		t.Errorf("opened again: %v", p)
	}
	must(t, third.Replace(job.New()))
	if n := list(t, filepath.Dir(path)); n != "a.json" {
		t.Errorf("with another job on the desk, beside lies %s", n)
	}
}

// Taken over, the first desk looks and keeps what it had not saved; the second has the job as it is in the
// file by then. Taken back, the first goes on with its work, and saving asks about what the second saved.
func TestTakeOver(t *testing.T) {
	path, kept := aFile(t, func(map[string]any) {}), filepath.Join(t.TempDir(), "kept")
	first, firstNext := open(t)
	keepIn(first, kept)
	must(t, first.Open(path))
	handingOver(t, first)
	second, next := open(t)
	must(t, second.Open(path))
	handingOver(t, second)
	as(t, next, "looking", looked)
	first.Do(setDepth(1010))
	must(t, first.Save(path))
	first.Do(setDepth(1020))
	must(t, second.TakeOver(soon(t)))
	c := as(t, next, "the job as saved", func(c desk.Change) bool { return c.Looking == nil && c.Result.Settled.Shower.DepthMM == 1010 })
	if c.Unsaved {
		t.Error("taken over it counts as unsaved")
	}
	c = as(t, firstNext, "the first's looking", looked)
	if c.Looking.Why.ID != "desk.taken-over-unsaved" || !c.Unsaved || !c.Undo.IsZero() || first.Job().Shower.DepthMM != 1020 {
		t.Errorf("the first looks as %+v, unsaved %v", c.Looking, c.Unsaved)
	}
	if !strings.Contains(list(t, kept), ".json") {
		t.Errorf("kept is %q", list(t, kept))
	}
	if what := first.Undo(); !what.IsZero() || first.Job().Shower.DepthMM != 1020 {
		t.Error("undone while it is looked at")
	}
	if err := first.Save(path); !errors.Is(err, desk.ErrLookedAt) {
		t.Errorf("saved over: %v", err)
	}
	second.Do(setDepth(1030))
	must(t, second.Save(path))
	must(t, first.TakeOver(soon(t)))
	as(t, firstNext, "working again", worked)
	as(t, next, "the second's looking", func(c desk.Change) bool { return c.Looking != nil && c.Looking.Why.ID == "desk.taken-over" })
	if first.Job().Shower.DepthMM != 1020 || !first.Unsaved() {
		t.Error("the first has lost its work")
	}
	if err := first.Save(path); !errors.Is(err, desk.ErrChanged) {
		t.Errorf("saved over the other's: %v", err)
	}
	first.Undo()
	if first.Job().Shower.DepthMM != 1010 {
		t.Error("its history is gone")
	}
}

// One that does not let go keeps the file, in a sentence, and the other looks on.
func TestTakeOverOfOneThatDoesNotAnswer(t *testing.T) {
	path := aFile(t, func(map[string]any) {})
	first, _ := open(t)
	must(t, first.Open(path))
	second, next := open(t)
	must(t, second.Open(path))
	as(t, next, "looking", looked)
	ctx, cancel := context.WithTimeout(context.Background(), 100*time.Millisecond)
	defer cancel()
	if err := second.TakeOver(ctx); !errors.Is(err, store.ErrElsewhere) || message.OfError(err).String() != `desk.taking-over{file: "a.json", why: store.not-let-go}` {
		t.Errorf("it says %v", err)
	}
	if p := second.Do(setDepth(1000)); len(p) != 1 {
		t.Error("it is worked on in both")
	}
	if p := first.Do(setDepth(1000)); len(p) > 0 {
		t.Errorf("the first: %v", p)
	}
}

// A file that another window has is not saved over either from a job of another file, nor by work brought
// back; its own window goes on.
func TestSavingOverWhatIsOpenElsewhere(t *testing.T) {
	path := aFile(t, func(map[string]any) {})
	first, _ := open(t)
	must(t, first.Open(path))
	before, _ := os.ReadFile(path)
	own := filepath.Join(t.TempDir(), "own.json")
	second, _ := open(t)
	must(t, second.Save(own))
	second.Do(setDepth(1000))
	for _, err := range []error{second.Save(path), second.SaveOver(path)} {
		if !errors.Is(err, store.ErrElsewhere) || message.OfError(err).String() != `desk.saving{file: "a.json", why: desk.not-over{why: store.elsewhere}}` {
			t.Errorf("it says %v", err)
		}
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) || second.File() != own {
		t.Errorf("saved over; the desk has %s", second.File())
	}
	must(t, second.Save(own)) // which is still its own

	kept := filepath.Join(t.TempDir(), "kept")
	crash(t, kept, 1040, path)
	third, next := open(t)
	keepIn(third, kept)
	must(t, third.BringBack(leftBehind(t, third)[0]))
	if c := as(t, next, "looking at what was brought back", looked); !c.Unsaved || c.File != path {
		t.Errorf("brought back: %+v", c.Looking)
	}
	if err := third.Save(path); !errors.Is(err, desk.ErrLookedAt) {
		t.Errorf("brought back and saved over: %v", err)
	}
}

// Somebody who cleans a folder may remove the lock: it is taken anew with the next saving, or another
// window has come by then.
func TestTheLockIsRemoved(t *testing.T) {
	path := aFile(t, func(map[string]any) {})
	first, next := open(t)
	must(t, first.Open(path))
	unlocked := func() {
		locks, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".underfall-open-*"))
		must(t, err)
		if len(locks) != 1 {
			t.Fatalf("locks %v", locks)
		}
		must(t, os.Remove(locks[0]))
	}
	unlocked()
	first.Do(setDepth(1000))
	must(t, first.Save(path))
	second, _ := open(t)
	must(t, second.Open(path))
	if p := second.Do(setDepth(1000)); len(p) != 1 {
		t.Error("not taken anew")
	}
	must(t, second.Replace(job.New()))
	unlocked()
	must(t, second.Open(path))
	first.Do(setDepth(1010))
	if err := first.Save(path); !errors.Is(err, store.ErrElsewhere) {
		t.Errorf("saved over the other's: %v", err)
	}
	if c := as(t, next, "looking", looked); !c.Unsaved {
		t.Error("the work is lost")
	}
}

// On a disk without locks the job is worked on, and that nothing can be told of others is said.
func TestADiskWithoutLocks(t *testing.T) {
	path := aFile(t, func(map[string]any) {})
	other, _ := open(t)
	must(t, other.Open(path))
	locks, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".underfall-open-*"))
	must(t, other.Release())
	must(t, os.Mkdir(locks[0], 0o700)) // what cannot be opened cannot be locked
	d, next := open(t)
	must(t, d.Open(path))
	c := as(t, next, "the doubt", func(c desk.Change) bool { return c.Unsure != nil })
	if c.Looking != nil {
		t.Error("it is only looked at")
	}
	d.Do(setDepth(1000))
	must(t, d.Save(path))
	must(t, os.Remove(locks[0]))
	must(t, d.Save(path))
	as(t, next, "certainty", func(c desk.Change) bool { return c.Unsure == nil })
}

// A job that a later version wrote is looked at, with what is not understood, and never saved over; under
// another name what is understood of it is. What is not understood at all is refused with the versions.
func TestANewerFile(t *testing.T) {
	path := aFile(t, func(f map[string]any) {
		f["version"] = job.Version + 1
		f["towelRail"] = 900
		f["room"].(map[string]any)["edge"] = "hump"
	})
	before, _ := os.ReadFile(path)
	d, next := open(t)
	must(t, d.Open(path))
	c := as(t, next, "looking", looked)
	if c.Looking.Elsewhere || c.Looking.Why.ID != "desk.newer" || len(c.Looking.Unread) != 2 {
		t.Errorf("it looks as %+v", c.Looking)
	}
	if p := d.Do(setDepth(1000)); len(p) != 1 || !strings.HasPrefix(p[0].What.String(), "desk.unchanged-newer") {
		t.Errorf("edited: %v", p)
	}
	must(t, d.TakeOver(soon(t))) // nothing is to be taken over
	if err := d.Save(path); !errors.Is(err, desk.ErrLookedAt) {
		t.Errorf("saved over: %v", err)
	}
	// Nobody is kept out by who only looks.
	if n := list(t, filepath.Dir(path)); n != "a.json" {
		t.Errorf("beside it lies %s", n)
	}
	copied := filepath.Join(t.TempDir(), "copy.json")
	must(t, d.Save(copied))
	as(t, next, "working on the copy", worked)
	for _, err := range []error{d.Save(path), d.SaveOver(path)} {
		if !errors.Is(err, desk.ErrNewerFile) {
			t.Errorf("saved over from elsewhere: %v", err)
		}
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("the file was changed")
	}
	broken := aFile(t, func(f map[string]any) { f["version"] = job.Version + 1; delete(f, "room") })
	if err := d.Open(broken); !errors.Is(err, job.ErrNewer) || !strings.Contains(message.OfError(err).String(), "open.newer{version: ") || d.File() != copied {
		t.Errorf("what is not understood: %v", err)
	}
}

// What another process has open is looked at; once it is dead, the file is free.
func TestTwoProcessesOnOneFile(t *testing.T) {
	folder := t.TempDir()
	must(t, os.Mkdir(filepath.Dir(fileIn(folder)), 0o755))
	program, line := working(t, folder)
	for did := ""; did != "saved"; {
		did, _ = line()
	}
	d, next := open(t)
	must(t, d.Open(fileIn(folder)))
	as(t, next, "looking", looked)
	if err := d.Save(fileIn(folder)); !errors.Is(err, desk.ErrLookedAt) {
		t.Errorf("saved over: %v", err)
	}
	must(t, program.Process.Kill())
	for did, _ := line(); did != ""; did, _ = line() {
	}
	_ = program.Wait()
	must(t, d.TakeOver(soon(t)))
	as(t, next, "working on it", worked)
	must(t, d.Save(fileIn(folder)))
}
