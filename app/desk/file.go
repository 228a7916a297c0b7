package desk

import (
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"time"

	"underfall/app/store"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// ErrChanged is returned when another program changed the file since it was
// opened or saved here: the person has to say what is to be done.
var ErrChanged error = message.Fail("desk.changed")

// ErrLookedAt is the cause of the error for saving a job that is only looked at over its own file,
// ErrNewerFile the error for saving over what a later version of Underfall wrote.
var (
	ErrLookedAt  error = message.Fail("desk.looked-at")
	ErrNewerFile error = message.Fail("desk.newer-file")
)

// onDisk is what the desk knows of the disk besides the name of its file.
type onDisk struct {
	stamp  store.Stamp   // of the file as it was last read or written; zero when never
	claim  *store.Claim  // to the file; nil where there is none, and none can be had
	unsure error         // why none can be had
	turn   sync.Mutex    // saving and keeping take turns; taken before the desk's lock
	keeper *store.Keeper // nil when unsaved work is not kept
	folder string        // of kept work
	now    func() time.Time
}

// Unsaved tells whether the job as it stands is not in its file. It is up to
// date where the last Change may not be.
func (d *Desk) Unsaved() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.unsaved()
}

// unsaved must be called with the lock held.
func (d *Desk) unsaved() bool { return d.at != d.savedAt }

// File is the job's file, empty when it has none.
func (d *Desk) File() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.file
}

// Open reads a job from a file, or kept work that was set aside, which then
// belongs to its own file and is unsaved. A file that another window has, or that a
// later version of Underfall wrote, is opened to be looked at. What is opened is not
// changed; on an error the job on the desk stays.
func (d *Desk) Open(path string) error {
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	// Before it is read, so that nobody changes it between.
	c, looking, unsure := d.claim(path)
	return d.openClaimed(path, c, looking, unsure)
}

// openClaimed is Open with the claim, if any; the turn must be held.
func (d *Desk) openClaimed(path string, c *store.Claim, looking *Looking, unsure error) error {
	opening := func(err error) error {
		d.letGo(c)
		return message.Wrap(err, "desk.opening", message.Name("file", store.Plain(filepath.Base(path))))
	}
	data, stamp, err := store.Read(path, store.LargestJob)
	if err != nil {
		return opening(err)
	}
	// What is no JSON at all is told better by the job's own reader.
	if w, known, err := store.ParseWork(data); known && err == nil {
		d.letGo(c)
		return d.putBack(w)
	}
	j, newer, err := d.read(data)
	if err != nil {
		return opening(err)
	}
	if newer != nil {
		// The file is free for who understands it.
		d.letGo(c)
		c, looking = nil, newer
	}
	// Kept work is brought back from wherever the program is started next.
	if path, err = filepath.Abs(path); err != nil {
		return opening(err)
	}
	// A folder that only allows reading cannot be cleaned.
	_ = store.CleanBeside(path)
	d.hold(c)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.replace(j, path)
	d.look(looking)
	d.disk.stamp, d.disk.unsure = stamp, unsure
	return nil
}

// read reads a job to be opened; newer says what is not understood of one that a later version of
// Underfall wrote, nil for one of this version.
func (d *Desk) read(data []byte) (j job.Job, newer *Looking, err error) {
	if !job.IsNewer(data) {
		j, err = d.parse(data)
		return j, nil, err
	}
	j, unread, err := job.ParseNewer(data)
	if err != nil {
		return job.Job{}, nil, err
	}
	if p := d.check(j); len(p) > 0 {
		return job.Job{}, nil, p
	}
	return j, &Looking{Why: message.Of("desk.newer"), Unread: unread}, nil
}

// parse reads a job that may lie on the desk.
func (d *Desk) parse(data []byte) (job.Job, error) {
	j, err := job.Parse(data)
	if err != nil {
		return job.Job{}, err
	}
	if p := d.check(j); len(p) > 0 {
		return job.Job{}, p
	}
	return j, nil
}

// Save writes the job to a file, all or nothing. When it is the desk's own file
// and another program changed it, nothing is written and the error is
// ErrChanged. Nothing is written either over a file that another window has, that
// a later version of Underfall wrote, or whose job is only looked at. Saved as
// another file, a job that was looked at is worked on from then on.
func (d *Desk) Save(path string) error { return d.save(path, false) }

// SaveOver is Save whatever another program made of the desk's own file.
func (d *Desk) SaveOver(path string) error { return d.save(path, true) }

func (d *Desk) save(path string, over bool) error {
	saving := func(err error) error {
		return message.Wrap(err, "desk.saving", message.Name("file", store.Plain(filepath.Base(path))))
	}
	whole, err := filepath.Abs(path)
	if err != nil {
		return saving(err)
	}
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	d.mu.Lock()
	looking, file := d.looking, d.file
	d.mu.Unlock()
	if looking != nil && whole == file {
		return saving(looking.notOver(ErrLookedAt))
	}
	c, taken, unsure := d.claim(whole)
	if taken != nil {
		if whole == file { // its lock was removed, and another window came
			d.hold(nil)
			d.mu.Lock()
			d.look(taken)
			d.unlockAndTell()
		}
		return saving(taken.notOver(store.ErrElsewhere))
	}
	d.mu.Lock()
	d.date()
	uncount := d.count()
	stamp, err := d.writeJob(whole, over)
	if err == nil || !stamp.IsZero() && whole == d.file {
		d.disk.stamp = stamp
	}
	if err != nil {
		uncount()
		d.mu.Unlock()
		d.letGo(c)
		return saving(err)
	}
	d.hold(c)
	d.file, d.savedAt, d.looking, d.disk.unsure = whole, d.at, nil, unsure
	d.history[d.at].live = ""
	d.unlockAndTell()
	if d.disk.keeper != nil {
		// What could not be removed now is tried, and told, by the next Keep.
		_ = d.disk.keeper.Clear()
	}
	return nil
}

// writeJob writes the job as it stands; the lock must be held.
func (d *Desk) writeJob(path string, over bool) (store.Stamp, error) {
	if path == d.file && !over && d.disk.stamp.Against(path) == store.Changed {
		return store.Stamp{}, ErrChanged
	}
	if there, _, err := store.Read(path, store.LargestJob); err == nil && job.IsNewer(there) {
		return store.Stamp{}, ErrNewerFile
	}
	w, err := d.work()
	if err != nil {
		return store.Stamp{}, err
	}
	if d.disk.keeper != nil {
		// A crash half-way then leaves this very state, and where it was going.
		// Saving goes on without: it matters more.
		w.Saving = path
		_ = d.disk.keeper.Keep(w)
	}
	return store.Write(path, w.Job)
}

// work is the job as it stands, ready to be kept; the lock must be held.
func (d *Desk) work() (store.Work, error) {
	j := d.history[d.at].job
	data, err := j.Marshal()
	if err != nil {
		return store.Work{}, err
	}
	w := store.Work{Name: j.Name, File: d.file, Stamp: d.disk.stamp, Job: data}
	if d.disk.now != nil {
		w.At = d.disk.now()
	}
	return w, nil
}

// KeepIn makes Keep keep unsaved work in a folder, which other desks may share;
// now tells the time.
func (d *Desk) KeepIn(folder string, now func() time.Time) {
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	d.disk.keeper, d.disk.folder, d.disk.now = store.NewKeeper(folder), folder, now
}

// Keep writes the job down if it is unsaved and other than last time, so that a
// crash loses nothing; LeftBehind finds it again. Once the job is saved, what was
// kept goes. Without KeepIn it does nothing.
func (d *Desk) Keep() error {
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	if d.disk.keeper == nil {
		return nil
	}
	d.mu.Lock()
	unsaved := d.unsaved()
	w, err := d.work()
	d.mu.Unlock()
	switch {
	case !unsaved:
		return d.disk.keeper.Clear()
	case err != nil:
		return fmt.Errorf("keeping unsaved work: %w", err)
	}
	return d.disk.keeper.Keep(w)
}

// Release gives the job's file to others, ends the keeping, and removes what is
// kept: the work is saved, or given up.
func (d *Desk) Release() error {
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	err := d.disk.claim.Release()
	d.disk.claim = nil
	if d.disk.keeper == nil {
		return err
	}
	err = errors.Join(err, d.disk.keeper.Close())
	d.disk.keeper = nil
	return err
}

// LeftBehind lists the work that crashes left in the folder of KeepIn, none of
// it of a living desk. Copies that cannot be read were set aside; unreadable
// tells where.
func (d *Desk) LeftBehind() (found []*store.Found, unreadable []string, err error) {
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	if d.disk.keeper == nil {
		return nil, nil, nil
	}
	all, unreadable, err := store.LeftBehind(d.disk.folder, d.disk.now())
	for _, f := range all {
		// A job of a later version only waits for the update.
		if _, parseErr := d.parse(f.Job); parseErr == nil || errors.Is(parseErr, job.ErrNewer) {
			found = append(found, f)
			continue
		}
		path, asideErr := f.SetAside(d.disk.now())
		if path != "" {
			unreadable = append(unreadable, path)
		}
		err = errors.Join(err, asideErr)
	}
	return found, unreadable, err
}

// BringBack puts work that a crash left on the desk. It belongs to its file as
// before, and counts as unsaved until it is saved; where another window has the file
// by now it is looked at. On an error it is still kept where it was.
func (d *Desk) BringBack(f *store.Found) error {
	d.disk.turn.Lock()
	err := d.putBack(f.Work)
	d.disk.turn.Unlock()
	if err != nil {
		return err
	}
	if err := d.Keep(); err != nil {
		return err
	}
	return f.Remove()
}

// putBack puts kept work on the desk; the turn must be held.
func (d *Desk) putBack(w store.Work) error {
	j, err := d.parse(w.Job)
	if err != nil {
		return message.Wrap(err, "desk.bringing-back", message.Name("job", store.Plain(w.Name)))
	}
	var c *store.Claim
	var looking *Looking
	var unsure error
	if w.File != "" {
		c, looking, unsure = d.claim(w.File)
	}
	d.hold(c)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.replace(j, w.File)
	d.look(looking)
	d.disk.stamp, d.disk.unsure = w.Stamp, unsure
	const never = -1
	d.savedAt = never
	return nil
}
