package store

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/gofrs/flock"
	"underfall/geometry/message"
)

// newMode is the mode of a new file, less what the user's mask takes away.
const newMode = 0o644

// Write writes a file whole or not at all: until the new content is safely on
// the disk, the old one stays untouched, and on any error nothing is left
// beside it. A link stays a link, and what it leads to is written; an existing
// file keeps its mode and, where that is allowed, its owner. A read-only file is
// refused.
//
// A stamp that comes with an error means that the file was written but the disk
// would not confirm it.
func Write(path string, data []byte) (Stamp, error) { return write(realDisk{}, path, data) }

func write(d disk, path string, data []byte) (Stamp, error) {
	const missing message.ID = "store.no-folder"
	target, err := follow(path)
	if err != nil {
		return Stamp{}, inWords(err, missing)
	}
	before, err := replaceable(target)
	if err != nil {
		return Stamp{}, inWords(err, missing)
	}
	folder := filepath.Dir(target)
	// What cannot be cleaned does no harm, and saving matters more.
	_ = clean(folder)
	t, err := newTemporary(d, folder, before)
	if err != nil {
		return Stamp{}, inWords(err, missing)
	}
	info, err := t.fill(data, before)
	if err == nil {
		err = d.rename(t.path, target)
	}
	if err != nil {
		_ = d.remove(t.path)
		t.unlock()
		return Stamp{}, inWords(err, missing)
	}
	t.unlock()
	stamp := stampOf(data, info)
	if err := d.syncFolder(folder); err != nil {
		return stamp, message.Wrap(inWords(err, missing), "store.unconfirmed")
	}
	return stamp, nil
}

// follow gives the file that a path leads to in the end, which need not exist.
func follow(path string) (string, error) {
	const mostLinks = 40
	for range mostLinks {
		real, err := filepath.EvalSymlinks(path)
		if !errors.Is(err, fs.ErrNotExist) {
			return real, err
		}
		// Either a new file, or a link to one.
		folder, err := filepath.EvalSymlinks(filepath.Dir(path))
		if err != nil {
			return "", err
		}
		path = filepath.Join(folder, filepath.Base(path))
		to, err := os.Readlink(path)
		if err != nil {
			return path, nil
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(folder, to)
		}
		path = to
	}
	return "", message.Fail("store.many-links")
}

// replaceable gives what is known of the file about to be replaced, nil when
// there is none, and refuses what must not be.
func replaceable(target string) (fs.FileInfo, error) {
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, ErrFolder
	case !info.Mode().IsRegular():
		return nil, ErrNotPlain
	case info.Mode().Perm()&0o222 == 0:
		return nil, ErrReadOnly
	}
	// The folder's permission would let a file be replaced that its own forbids
	// to change.
	f, err := os.OpenFile(target, os.O_WRONLY, 0)
	if errors.Is(err, fs.ErrPermission) {
		return nil, &message.Error{What: message.Of("store.read-only"), Cause: errors.Join(ErrReadOnly, err)}
	}
	if err != nil {
		return nil, err
	}
	return info, f.Close()
}

// Names of temporary files: beside what is written, hidden, and known as ours.
const (
	temporaryPrefix = ".underfall-saving-"
	temporaryEnding = ".tmp"
)

// temporary is a file being written, before it takes its name. It is locked as
// long as its process lives, so that nobody cleans it away.
type temporary struct {
	file file
	path string
	lock *flock.Flock // nil where there are no locks
}

func newTemporary(d disk, folder string, before fs.FileInfo) (*temporary, error) {
	mode := fs.FileMode(newMode)
	if before != nil {
		mode = 0o600 // nobody else reads it before it has the mode of the old one
	}
	const tries = 10
	for range tries {
		t := &temporary{path: filepath.Join(folder, temporaryPrefix+random()+temporaryEnding)}
		var err error
		if t.file, err = d.create(t.path, mode); err != nil {
			return nil, err
		}
		var free bool
		if t.lock, free = lockTemporary(t.path); free {
			return t, nil
		}
		// Just being cleaned by another process.
		_ = t.file.Close()
		_ = d.remove(t.path)
	}
	return nil, message.Fail("store.no-temporary-file")
}

// fill writes the content and makes sure that it is on the disk.
func (t *temporary) fill(data []byte, before fs.FileInfo) (fs.FileInfo, error) {
	_, err := t.file.Write(data)
	if err == nil && before != nil {
		if user, group, known := owner(before); known {
			// Only the system's keeper may give files away; others go on.
			_ = t.file.Chown(user, group)
		}
		err = t.file.Chmod(before.Mode().Perm())
	}
	if err == nil {
		err = t.file.Sync()
	}
	var info fs.FileInfo
	if err == nil {
		info, err = t.file.Stat()
	}
	return info, errors.Join(err, t.file.Close())
}

func (t *temporary) unlock() {
	if t.lock != nil {
		_ = t.lock.Close()
	}
}

// lockTemporary takes the lock of a temporary file; free is false when another
// process has it or has removed the file. Where there are no locks, none is
// needed: on Windows an open file cannot be removed, and disks without locks are
// not cleaned.
func lockTemporary(path string) (l *flock.Flock, free bool) {
	if runtime.GOOS == "windows" {
		return nil, true
	}
	l = flock.New(path, flock.SetFlag(os.O_RDONLY))
	got, err := l.TryLock()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, false
	case err != nil:
		return nil, true
	case !got:
		return nil, false
	}
	if !stillThere(l) {
		_ = l.Close()
		return nil, false
	}
	return l, true
}

// stillThere tells whether the file that was locked is the one of that name.
func stillThere(l *flock.Flock) bool {
	locked, err := l.Stat()
	if err != nil {
		return false
	}
	now, err := os.Lstat(l.Path())
	return err == nil && os.SameFile(locked, now)
}

// clean removes from a folder the temporary files and the claims that a killed process left;
// those of living processes stay.
func clean(folder string) error {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return err
	}
	for _, e := range entries {
		half := strings.HasPrefix(e.Name(), temporaryPrefix) && strings.HasSuffix(e.Name(), temporaryEnding)
		claim := strings.HasPrefix(e.Name(), claimPrefix) && strings.HasSuffix(e.Name(), lockEnding)
		if !e.Type().IsRegular() || !half && !claim {
			continue
		}
		path := filepath.Join(folder, e.Name())
		l, free := lockTemporary(path)
		if !free || l == nil && runtime.GOOS != "windows" {
			continue
		}
		err = errors.Join(err, os.Remove(path))
		if l != nil {
			_ = l.Close()
		}
	}
	return err
}

// CleanBeside is clean for the folder of the file that a path leads to.
func CleanBeside(path string) error {
	target, err := follow(path)
	if err != nil {
		return err
	}
	return clean(filepath.Dir(target))
}

// random is a part of a name that nobody else has.
func random() string {
	var b [8]byte
	_, _ = rand.Read(b[:]) // never fails
	return hex.EncodeToString(b[:])
}
