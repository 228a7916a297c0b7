//go:build unix

package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/gofrs/flock"
	"pgregory.net/rapid"
	"underfall/geometry/message"
)

func TestWriteNewFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.json")
	mask := syscall.Umask(0o027)
	stamp, err := Write(path, []byte("one"))
	syscall.Umask(mask)
	if err != nil || content(t, path) != "one" || names(t, folder) != "a.json" {
		t.Fatalf("%v, folder holds %s", err, names(t, folder))
	}
	if stamp.Against(path) != Same {
		t.Error("the stamp is not that of the file")
	}
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v, want 0644 less a mask of 027", info.Mode())
	}
}

// An existing file keeps its mode; where we may, its owner too.
func TestWriteKeepsModeAndOwner(t *testing.T) {
	folder := t.TempDir()
	for _, mode := range []fs.FileMode{0o600, 0o640, 0o664, 0o200} {
		path := put(t, filepath.Join(folder, "a.json"), "old", mode)
		root := os.Geteuid() == 0
		if root {
			if err := os.Chown(path, 1234, 4321); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := Write(path, []byte("new")); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil || info.Mode().Perm() != mode {
			t.Errorf("mode %v became %v", mode, info.Mode())
		}
		if user, group, _ := owner(info); root && (user != 1234 || group != 4321) {
			t.Errorf("the owner became %d, %d", user, group)
		}
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
}

// What is written through a link is what the link leads to; the link stays.
func TestWriteThroughLinks(t *testing.T) {
	for name, c := range map[string]struct{ to, real string }{
		"relative":         {"real/a.json", "real/a.json"},
		"to nothing yet":   {"real/new.json", "real/new.json"},
		"one after other":  {"second", "real/a.json"},
		"through a folder": {"linked/../real/a.json", "real/a.json"},
	} {
		folder := t.TempDir()
		if err := os.MkdirAll(filepath.Join(folder, "real", "deep"), 0o755); err != nil {
			t.Fatal(err)
		}
		put(t, filepath.Join(folder, "real", "a.json"), "old", 0o640)
		link(t, "real/a.json", filepath.Join(folder, "second"))
		link(t, "real", filepath.Join(folder, "linked"))
		path := link(t, c.to, filepath.Join(folder, "first"))
		if _, err := Write(path, []byte("new")); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if to, err := os.Readlink(path); err != nil || to != c.to {
			t.Errorf("%s: the link became %q, %v", name, to, err)
		}
		if got := content(t, filepath.Join(folder, c.real)); got != "new" {
			t.Errorf("%s: %s holds %q", name, c.real, got)
		}
		if n := names(t, filepath.Join(folder, "real")); strings.Contains(n, temporaryPrefix) {
			t.Errorf("%s: left over %s", name, n)
		}
	}
}

// What must not be replaced is refused in words, and nothing is left beside it.
func TestWriteRefuses(t *testing.T) {
	folder := t.TempDir()
	sub := filepath.Join(folder, "folder")
	if err := os.Mkdir(sub, 0o755); err != nil {
		t.Fatal(err)
	}
	readOnly := put(t, filepath.Join(folder, "readonly"), "old", 0o444)
	for _, c := range []struct {
		path  string
		cause error
		says  string
	}{
		{readOnly, ErrReadOnly, "store.read-only"},
		{link(t, "readonly", filepath.Join(folder, "link")), ErrReadOnly, "store.read-only"},
		{sub, ErrFolder, "store.folder"},
		{pipe(t, filepath.Join(folder, "pipe")), ErrNotPlain, "store.not-plain"},
		{"/dev/null", ErrNotPlain, "store.not-plain"},
		{filepath.Join(folder, "none", "a"), fs.ErrNotExist, "store.no-folder"},
		{filepath.Join(readOnly, "a"), syscall.ENOTDIR, "store.no-folder"},
		{link(t, "round", filepath.Join(folder, "round")), nil, "link"},
		{filepath.Join(folder, strings.Repeat("n", 300)), syscall.ENAMETOOLONG, "store.long-name"},
	} {
		before := names(t, folder)
		stamp, err := Write(c.path, []byte("new"))
		if err == nil || c.cause != nil && !errors.Is(err, c.cause) || !strings.Contains(message.OfError(err).String(), c.says) || !stamp.IsZero() {
			t.Errorf("%.80s: %v", c.path, err)
		}
		if after := names(t, folder); after != before {
			t.Errorf("%.80s: the folder held %s, now %s", c.path, before, after)
		}
	}
	if content(t, readOnly) != "old" {
		t.Error("the read-only file was written")
	}
}

// faulty is a disk on which one operation fails.
type faulty struct {
	realDisk
	fails string
	with  error
}

// faultyFile takes half of what is written, or fails to sync, close or chmod.
type faultyFile struct {
	file
	d *faulty
}

func (d *faulty) fault(operation string) error {
	if d.fails == operation {
		return &fs.PathError{Op: operation, Path: "x", Err: d.with}
	}
	return nil
}

func (d *faulty) create(path string, mode fs.FileMode) (file, error) {
	if err := d.fault("create"); err != nil {
		return nil, err
	}
	f, err := d.realDisk.create(path, mode)
	return &faultyFile{f, d}, err
}

func (d *faulty) rename(from, to string) error {
	return errors.Join(d.fault("rename"), func() error {
		if d.fails == "rename" {
			return nil
		}
		return d.realDisk.rename(from, to)
	}())
}

func (d *faulty) syncFolder(path string) error {
	return errors.Join(d.fault("syncFolder"), d.realDisk.syncFolder(path))
}

func (f *faultyFile) Write(p []byte) (int, error) {
	if err := f.d.fault("write"); err != nil {
		n, _ := f.file.Write(p[:len(p)/2])
		return n, err
	}
	return f.file.Write(p)
}
func (f *faultyFile) Sync() error { return errors.Join(f.d.fault("sync"), f.file.Sync()) }
func (f *faultyFile) Close() error {
	return errors.Join(f.file.Close(), f.d.fault("close"))
}
func (f *faultyFile) Chmod(mode fs.FileMode) error {
	return errors.Join(f.d.fault("chmod"), f.file.Chmod(mode))
}

// Whatever fails while writing, the old content stays whole, nothing is left
// beside it, and the reason is told in words.
func TestFaultsHarmNothing(t *testing.T) {
	for _, c := range []struct {
		fails string
		with  error
		says  string
	}{
		{"write", syscall.ENOSPC, "store.disk-full"},
		{"write", syscall.EDQUOT, "store.share-used-up"},
		{"write", syscall.EIO, "store.disk-fault"},
		{"create", syscall.EACCES, "store.no-permission"},
		{"create", syscall.EROFS, "store.read-only-disk"},
		{"create", syscall.ENOSPC, "store.disk-full"},
		{"chmod", syscall.EPERM, "store.no-permission"},
		{"sync", syscall.EIO, "store.disk-fault"},
		{"sync", syscall.ENOSPC, "store.disk-full"},
		{"close", syscall.EDQUOT, "store.share-used-up"},
		{"rename", syscall.EACCES, "store.no-permission"},
		{"rename", syscall.EIO, "store.disk-fault"},
	} {
		for _, existing := range []bool{true, false} {
			if c.fails == "chmod" && !existing {
				continue // a new file is made with its mode
			}
			folder := t.TempDir()
			path, want := filepath.Join(folder, "a.json"), ""
			if existing {
				put(t, path, "old content", 0o644)
				want = "a.json"
			}
			stamp, err := write(&faulty{fails: c.fails, with: c.with}, path, []byte("new content, longer"))
			if !errors.Is(err, c.with) || !strings.Contains(message.OfError(err).String(), c.says) || !stamp.IsZero() {
				t.Errorf("%s fails with %v: %v, %+v", c.fails, c.with, err, stamp)
			}
			if got := names(t, folder); got != want {
				t.Errorf("%s fails with %v: the folder holds %q, want %q", c.fails, c.with, got, want)
			}
			if existing && content(t, path) != "old content" {
				t.Errorf("%s fails with %v: the old content is gone", c.fails, c.with)
			}
		}
	}
}

// A disk that does not confirm the file's name: the file is whole, and the
// caller is told both.
func TestUnconfirmedNameIsTold(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.json")
	stamp, err := write(&faulty{fails: "syncFolder", with: syscall.EIO}, path, []byte("new"))
	if !errors.Is(err, syscall.EIO) || !strings.Contains(message.OfError(err).String(), "store.unconfirmed{why: store.disk-fault}") || stamp.Against(path) != Same {
		t.Errorf("%v, %+v", err, stamp)
	}
}

// On a disk that is really full half-way the old file stays whole.
func TestReallyFullDisk(t *testing.T) {
	folder := t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=64k"); err != nil {
		t.Skipf("a small disk cannot be mounted here: %v", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(folder, 0) })
	path := filepath.Join(folder, "a.json")
	old := strings.Repeat("old ", 5000)
	if _, err := Write(path, []byte(old)); err != nil {
		t.Fatal(err)
	}
	_, err := Write(path, []byte(strings.Repeat("new ", 12500)))
	if !errors.Is(err, syscall.ENOSPC) || content(t, path) != old || names(t, folder) != "a.json" {
		t.Errorf("%v, folder holds %s", err, names(t, folder))
	}
}

// What a killed process left is cleaned at the next write; what a living one
// is writing stays, and so does everybody else's.
func TestClean(t *testing.T) {
	folder := t.TempDir()
	left := put(t, filepath.Join(folder, temporaryPrefix+"0123"+temporaryEnding), "half", 0o600)
	live := put(t, filepath.Join(folder, temporaryPrefix+"4567"+temporaryEnding), "half", 0o600)
	others := put(t, filepath.Join(folder, ".other.tmp"), "x", 0o600)
	lock := flock.New(live)
	if got, err := lock.TryLock(); !got || err != nil {
		t.Fatal(got, err)
	}
	if _, err := Write(filepath.Join(folder, "a.json"), []byte("x")); err != nil {
		t.Fatal(err)
	}
	if isThere(left) || !isThere(live) || !isThere(others) {
		t.Errorf("the folder holds %s", names(t, folder))
	}
	if err := lock.Close(); err != nil {
		t.Fatal(err)
	}
	if err := CleanBeside(link(t, filepath.Join(folder, "a.json"), filepath.Join(t.TempDir(), "link"))); err != nil || isThere(live) {
		t.Errorf("beside what a link leads to: %v, %s", err, names(t, folder))
	}
}

// Two that write the same file at once both succeed, and one of them has it.
func TestWritersAtOnce(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.json")
	texts := []string{strings.Repeat("a", 9000), strings.Repeat("b", 8000)}
	done := make(chan error)
	for _, text := range texts {
		go func() {
			var err error
			for range 100 {
				_, e := Write(path, []byte(text))
				err = errors.Join(err, e)
			}
			done <- err
		}()
	}
	for range texts {
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	if got := content(t, path); got != texts[0] && got != texts[1] {
		t.Errorf("a mixture of %d bytes", len(got))
	}
	if n := names(t, folder); n != "a.json" {
		t.Errorf("the folder holds %s", n)
	}
}

// What is written is what is read, whatever it is.
func TestWriteReads(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOf(rapid.Byte()).Draw(t, "content")
		wrote, err := Write(path, want)
		if err != nil {
			t.Fatal(err)
		}
		got, read, err := Read(path, LargestJob)
		if err != nil || string(got) != string(want) || read != wrote {
			t.Fatalf("%q, %v; stamps %v and %v", got, err, wrote, read)
		}
	})
}
