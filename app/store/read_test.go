//go:build unix

package store

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"underfall/geometry/message"
)

// put writes a file for a test.
func put(t *testing.T, path, content string, mode os.FileMode) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
	return path
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// names are all there is in a folder, hidden or not.
func names(t *testing.T, folder string) string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return strings.Join(all, " ")
}

func pipe(t *testing.T, path string) string {
	t.Helper()
	if err := syscall.Mkfifo(path, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func link(t *testing.T, to, path string) string {
	t.Helper()
	if err := os.Symlink(to, path); err != nil {
		t.Fatal(err)
	}
	return path
}

// Whatever is no plain file of a sensible size is refused in words, before
// anything of it is read: a pipe without a writer would block, /dev/zero never
// ends.
func TestReadRefuses(t *testing.T) {
	folder := t.TempDir()
	sparse := put(t, filepath.Join(folder, "sparse"), "", 0o644)
	if err := os.Truncate(sparse, 100<<20); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		path  string
		cause error
		says  string
	}{
		{folder, ErrFolder, "store.folder"},
		{pipe(t, filepath.Join(folder, "pipe")), ErrNotPlain, "store.not-plain"},
		{"/dev/zero", ErrNotPlain, "store.not-plain"},
		{sparse, ErrTooLarge, "store.larger-than{megabytes: 4}"},
		{filepath.Join(folder, "none"), os.ErrNotExist, "store.no-such-file"},
		{filepath.Join(sparse, "below"), syscall.ENOTDIR, "store.no-such-file"},
		{link(t, "nowhere", filepath.Join(folder, "dangling")), os.ErrNotExist, "store.no-such-file"},
		{link(t, "round", filepath.Join(folder, "round")), syscall.ELOOP, "store.link-loop"},
		{link(t, "pipe", filepath.Join(folder, "to-pipe")), ErrNotPlain, "store.not-plain"},
		{filepath.Join(folder, strings.Repeat("n", 300)), syscall.ENAMETOOLONG, "store.long-name"},
	} {
		data, stamp, err := Read(c.path, LargestJob)
		if !errors.Is(err, c.cause) || !strings.Contains(message.OfError(err).String(), c.says) || len(data) > 0 || !stamp.IsZero() {
			t.Errorf("%.80s: %v, %d bytes", c.path, err, len(data))
		}
	}
}

// A file whose size says nothing, as those the system makes up, is still read
// only so far.
func TestReadStopsAtTheLimit(t *testing.T) {
	if _, _, err := Read("/proc/self/status", 100); !errors.Is(err, ErrTooLarge) {
		t.Errorf("a made-up file of more than 100 bytes: %v", err)
	}
	zero, err := os.Open("/dev/zero")
	if err != nil {
		t.Fatal(err)
	}
	defer zero.Close()
	if _, err := ReadAll(zero, 1000); !errors.Is(err, ErrTooLarge) {
		t.Errorf("an endless stream: %v", err)
	}
	if data, err := ReadAll(strings.NewReader("just"), 4); err != nil || string(data) != "just" {
		t.Errorf("exactly the limit: %q, %v", data, err)
	}
}

func TestReadFollowsLinks(t *testing.T) {
	folder := t.TempDir()
	put(t, filepath.Join(folder, "real"), "job", 0o600)
	data, stamp, err := Read(link(t, "real", filepath.Join(folder, "link")), LargestJob)
	if err != nil || string(data) != "job" || stamp.Bytes != 3 || stamp.Modified.IsZero() {
		t.Errorf("%q, %+v, %v", data, stamp, err)
	}
}

// A file counts as changed when its content is another, not when it was only
// touched; size and time alone would miss a change of the same length.
func TestAgainst(t *testing.T) {
	path := put(t, filepath.Join(t.TempDir(), "a"), "one", 0o644)
	_, stamp, err := Read(path, LargestJob)
	if err != nil {
		t.Fatal(err)
	}
	if s := stamp.Against(""); s != NoFile {
		t.Errorf("no file: %v", s)
	}
	put(t, path, "one", 0o644)
	if s := stamp.Against(path); s != Same {
		t.Errorf("touched: %v", s)
	}
	put(t, path, "two", 0o644)
	if err := os.Chtimes(path, stamp.Modified, stamp.Modified); err != nil {
		t.Fatal(err)
	}
	if s := stamp.Against(path); s != Changed {
		t.Errorf("changed to the same length and time: %v", s)
	}
	if err := os.Truncate(path, LargestJob+1); err != nil {
		t.Fatal(err)
	}
	if s := stamp.Against(path); s != Changed {
		t.Errorf("changed to more than is read: %v", s)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if s := stamp.Against(path); s != Gone {
		t.Errorf("removed: %v", s)
	}
}
