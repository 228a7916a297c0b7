package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"

	"github.com/gofrs/flock"
	"underfall/geometry/message"
)

// Work is unsaved work as it is kept.
type Work struct {
	Name  string `json:"name"`           // the job's
	File  string `json:"file,omitempty"` // it belongs to; empty when it was never saved
	Stamp Stamp  `json:"stamp"`          // of that file as the work began from it
	// Saving is the file being written while this was kept: a crash may have come
	// before or after it was there.
	Saving string          `json:"saving,omitempty"`
	At     time.Time       `json:"at"`
	Job    json.RawMessage `json:"job"`
}

// record is the kept file: work with the version of its form.
type record struct {
	Kept int `json:"underfallKept"`
	Work
}

const recordVersion = 1

const (
	workEnding = ".json"
	lockEnding = ".lock"
	// mostRecord leaves room for what a record adds to a job.
	mostRecord = 2 * LargestJob
	// earlierKept is the one file that earlier versions kept for all windows,
	// beside the folder used now.
	earlierKept = "unsaved.underfall.json"
)

// Keeper keeps one window's unsaved work in a folder shared by all windows, in a
// file of its own that is locked while the window lives. Its methods may be
// called from any goroutine.
type Keeper struct {
	folder string
	mu     sync.Mutex
	id     string       // its name in the folder; empty while it has none
	lock   *flock.Flock // of that name
	last   *Work        // as written; nil when nothing is kept
}

// NewKeeper makes a keeper that has written nothing yet.
func NewKeeper(folder string) *Keeper { return &Keeper{folder: folder} }

// Keep writes work down unless it is the same as last time.
func (k *Keeper) Keep(w Work) error {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.last != nil && sameWork(*k.last, w) && stillThere(k.lock) && isThere(k.path()) {
		return nil
	}
	if err := k.hold(); err != nil {
		return message.Wrap(inWords(err, "store.no-folder"), "store.keeping", message.Name("folder", Plain(k.folder)))
	}
	data, err := json.Marshal(record{recordVersion, w})
	if err != nil {
		return message.Wrap(err, "store.keeping", message.Name("folder", Plain(k.folder)))
	}
	if _, err := Write(k.path(), data); err != nil {
		return message.Wrap(err, "store.keeping", message.Name("folder", Plain(k.folder)))
	}
	w.Job = bytes.Clone(w.Job)
	k.last = &w
	return nil
}

func sameWork(a, b Work) bool {
	return a.Name == b.Name && a.File == b.File && a.Stamp == b.Stamp && a.Saving == b.Saving && bytes.Equal(a.Job, b.Job)
}

func (k *Keeper) path() string { return filepath.Join(k.folder, k.id+workEnding) }

// hold takes a name in the folder and its lock, unless it has them still.
func (k *Keeper) hold() error {
	if k.lock != nil && stillThere(k.lock) {
		return nil
	}
	if k.lock != nil {
		_ = k.lock.Close()
	}
	k.lock, k.last = nil, nil
	if err := os.MkdirAll(k.folder, 0o700); err != nil {
		return err
	}
	const tries = 10
	for range tries {
		k.id = random()
		l, free, err := lockName(k.folder, k.id)
		if err != nil {
			return err
		}
		if free {
			k.lock = l
			return nil
		}
	}
	return message.Fail("store.no-lock")
}

// lockName locks a name in the folder of kept work; free is false when a living
// window holds it.
func lockName(folder, id string) (l *flock.Flock, free bool, err error) {
	l = flock.New(filepath.Join(folder, id+lockEnding))
	got, err := l.TryLock()
	if err != nil || !got {
		return nil, false, err
	}
	if !stillThere(l) {
		return nil, false, l.Close()
	}
	return l, true, nil
}

// Clear removes what is kept, once it is saved or given up.
func (k *Keeper) Clear() error {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.clear()
}

func (k *Keeper) clear() error {
	if k.last == nil {
		return nil
	}
	if err := os.Remove(k.path()); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return message.Wrap(inWords(err, ""), "store.removing", message.Name("folder", Plain(k.folder)))
	}
	k.last = nil
	return nil
}

// Close removes what is kept and lets the name go.
func (k *Keeper) Close() error {
	k.mu.Lock()
	defer k.mu.Unlock()
	err := k.clear()
	if k.lock != nil {
		err = errors.Join(err, dropLock(k.lock))
		k.lock = nil
	}
	return err
}

// dropLock removes a lock's file while it is held, then lets go; where an open file cannot be removed, the
// other way round, and one that somebody took meanwhile stays.
func dropLock(l *flock.Flock) error {
	if runtime.GOOS == "windows" {
		err := l.Close()
		_ = os.Remove(l.Path())
		return err
	}
	var err error
	if stillThere(l) {
		if err = os.Remove(l.Path()); errors.Is(err, fs.ErrNotExist) {
			err = nil
		}
	}
	return errors.Join(err, l.Close())
}

// Found is work that a window left behind which lives no more. It is held, so
// that no other window offers it, until one of its methods is called.
type Found struct {
	Work
	folder, id string
	lock       *flock.Flock
}

// SetAside moves the work out of the way, to be found by hand; it tells where.
func (f *Found) SetAside(now time.Time) (path string, err error) {
	path, err = setAside(f.folder, f.id, now)
	if path == "" {
		return "", err
	}
	return path, errors.Join(err, dropLock(f.lock))
}

// Remove deletes the work, once it is kept elsewhere or saved.
func (f *Found) Remove() error {
	if err := os.Remove(filepath.Join(f.folder, f.id+workEnding)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return message.Wrap(inWords(err, ""), "store.removing", message.Name("folder", Plain(f.folder)))
	}
	return dropLock(f.lock)
}

// Later leaves the work where it is, for the next start.
func (f *Found) Later() error { return f.lock.Close() }

// LeftBehind lists the work in a folder that no living window holds, and takes
// over what earlier versions of Underfall kept beside it. Work that is in its
// file already is dropped; what cannot be read is set aside, and where it went is
// told.
func LeftBehind(folder string, now time.Time) (found []*Found, unreadable []string, err error) {
	if err := takeOver(folder); err != nil {
		return nil, nil, err
	}
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, message.Wrap(inWords(err, ""), "store.looking", message.Name("folder", Plain(folder)))
	}
	err = clean(folder)
	for _, e := range entries {
		id, isWork := strings.CutSuffix(e.Name(), workEnding)
		if !isWork {
			var isLock bool
			if id, isLock = strings.CutSuffix(e.Name(), lockEnding); !isLock || isThere(filepath.Join(folder, id+workEnding)) {
				continue
			}
		}
		l, free, lockErr := lockName(folder, id)
		if lockErr != nil || !free {
			err = errors.Join(err, lockErr)
			continue
		}
		path := filepath.Join(folder, id+workEnding)
		if !isThere(path) {
			err = errors.Join(err, dropLock(l))
			continue
		}
		f := &Found{folder: folder, id: id, lock: l}
		f.Work, lockErr = readWork(path)
		switch {
		case lockErr != nil:
			aside, asideErr := f.SetAside(now)
			unreadable = append(unreadable, aside)
			err = errors.Join(err, asideErr)
		case f.finishSaving():
			err = errors.Join(err, f.Remove())
		default:
			found = append(found, f)
		}
	}
	return found, unreadable, err
}

// finishSaving cleans up after a crash while saving, and tells whether the work
// is in its file.
func (f *Found) finishSaving() bool {
	file := f.File
	if f.Saving != "" {
		file = f.Saving
		// A folder that is gone needs no cleaning.
		_ = CleanBeside(file)
	}
	if file == "" {
		return false
	}
	differing, compared := f.differencesFrom(file)
	return compared && len(differing) == 0
}

// takeOver brings the one kept file of earlier versions under a name of its own.
func takeOver(folder string) error {
	earlier := filepath.Join(filepath.Dir(folder), earlierKept)
	if !isThere(earlier) {
		return nil
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return message.Wrap(inWords(err, ""), "store.keeping", message.Name("folder", Plain(folder)))
	}
	err := os.Rename(earlier, filepath.Join(folder, random()+workEnding))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return message.Wrap(inWords(err, ""), "store.looking", message.Name("folder", Plain(folder)))
	}
	return nil
}

// readWork reads a kept file. A bare job, as earlier versions kept it, becomes
// kept work like any other.
func readWork(path string) (Work, error) {
	data, stamp, err := Read(path, mostRecord)
	if err != nil {
		return Work{}, err
	}
	w, known, err := ParseWork(data)
	if err != nil || known {
		return w, err
	}
	w = Work{Name: w.Name, At: stamp.Modified, Job: data}
	if data, err = json.Marshal(record{recordVersion, w}); err != nil {
		return Work{}, err
	}
	// Should it fail, the bare job is still there.
	_, _ = Write(path, data)
	return w, nil
}

// ParseWork reads the text of a kept file; known is false when it is none. Work
// that was set aside is opened so.
func ParseWork(data []byte) (w Work, known bool, err error) {
	var r record
	if err := json.Unmarshal(data, &r); err != nil {
		return Work{}, false, &message.Error{What: message.Of("store.no-kept-work"), Cause: err}
	}
	if r.Kept != 0 && (r.Kept != recordVersion || len(r.Job) == 0) {
		return Work{}, true, message.Fail("store.no-kept-work")
	}
	return r.Work, r.Kept != 0, nil
}

func isThere(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}
