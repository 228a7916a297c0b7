//go:build unix

package store

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"underfall/geometry/message"
)

// hidden are the hidden files of a folder.
func hidden(t *testing.T, folder string) (names []string) {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(folder, ".*"))
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// One window has a file, by whatever name it is called; let go, the next has it and nothing is left beside.
func TestClaimOfOneWindow(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.json")
	link := filepath.Join(folder, "link.json")
	if err := os.Symlink("a.json", link); err != nil {
		t.Fatal(err)
	}
	c, err := ClaimFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{path, link, filepath.Join(folder, ".", "a.json")} {
		if _, err := ClaimFile(name); !errors.Is(err, ErrElsewhere) || message.OfError(err).ID != "store.elsewhere" {
			t.Errorf("%s: claimed twice: %v", name, err)
		}
		if !c.Of(name) {
			t.Errorf("%s counts as another file", name)
		}
	}
	other, err := ClaimFile(filepath.Join(folder, "b.json"))
	if err != nil || c.Of(filepath.Join(folder, "b.json")) {
		t.Errorf("another file: %v", err)
	}
	for _, c := range []*Claim{c, other, nil} {
		if err := c.Release(); err != nil {
			t.Error(err)
		}
	}
	if left := hidden(t, folder); len(left) > 0 {
		t.Errorf("left beside: %v", left)
	}
	if c, err = ClaimFile(path); err != nil {
		t.Errorf("let go, it is not free: %v", err)
	}
	// Somebody removed the lock.
	for _, f := range hidden(t, folder) {
		if err := os.Remove(f); err != nil {
			t.Fatal(err)
		}
	}
	if c.Of(path) {
		t.Error("a claim without its lock counts")
	}
}

// A file that another computer has is told with its name, cleaned of what steers a screen.
func TestClaimOfAnotherComputer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.json")
	if _, err := ClaimFile(path); err != nil {
		t.Fatal(err)
	}
	lock, _ := claimNames(path)
	if err := os.WriteFile(lock, []byte("bench\x1b[2J\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := ClaimFile(path)
	if got := message.OfError(err).String(); got != `store.elsewhere-on{computer: "bench[2J"}` {
		t.Errorf("it says %s", got)
	}
}

// A window that lets go when it is asked hands the file over; one that does not answer keeps it, and
// nothing is left that would ask the next.
func TestTakingOver(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.json")
	first, err := ClaimFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if first.Wanted() {
		t.Error("it is wanted before anyone asks")
	}
	short, cancel := context.WithTimeout(context.Background(), 200*time.Millisecond)
	defer cancel()
	if _, err := TakeOver(short, path); !errors.Is(err, ErrElsewhere) || message.OfError(err).ID != "store.not-let-go" || first.Wanted() {
		t.Fatalf("of one that does not answer: %v, still wanted %v", err, first.Wanted())
	}
	go func() {
		for !first.Wanted() {
			time.Sleep(10 * time.Millisecond)
		}
		if err := first.Release(); err != nil {
			t.Error(err)
		}
	}()
	long, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	second, err := TakeOver(long, path)
	if err != nil {
		t.Fatal(err)
	}
	if first.Of(path) || !second.Of(path) || second.Wanted() {
		t.Errorf("the first has it %v, the second %v, wanted %v", first.Of(path), second.Of(path), second.Wanted())
	}
	// Of nobody it is just claimed.
	if err := second.Release(); err != nil {
		t.Fatal(err)
	}
	if third, err := TakeOver(long, path); err != nil || !third.Of(path) || len(hidden(t, folder)) != 1 {
		t.Errorf("of nobody: %v, beside it %v", err, hidden(t, folder))
	}
}

// On a disk without locks it is said that nothing can be told, and that is not taken for a window that
// has the file.
func TestClaimWithoutLocks(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.json")
	lock, _ := claimNames(path)
	if err := os.Mkdir(lock, 0o700); err != nil { // what cannot be opened cannot be locked
		t.Fatal(err)
	}
	for _, at := range []string{path, filepath.Join(folder, "no", "such.json")} {
		if c, err := ClaimFile(at); c != nil || err == nil || errors.Is(err, ErrElsewhere) {
			t.Errorf("%s: %v, %v", at, c, err)
		}
		if c, err := TakeOver(context.Background(), at); c != nil || err == nil || errors.Is(err, ErrElsewhere) {
			t.Errorf("taking over %s: %v, %v", at, c, err)
		}
	}
	if strings.Contains(strings.Join(hidden(t, folder), " "), wantedEnding) {
		t.Error("somebody is asked where nobody can be")
	}
}
