// Package desk holds the one job being worked on: its history, its latest
// result, its file. Views subscribe to it; nothing else holds state about the
// design.
package desk

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"github.com/natefinch/atomic"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// mostUndo bounds the history.
const mostUndo = 500

// Desk is the job being worked on. Its methods may be called from any
// goroutine; subscribers are called from the one given to New.
type Desk struct {
	packs map[string]rule.Pack
	// post runs a function where the views live.
	post func(func())

	edits      sync.Mutex // one edit at a time
	mu         sync.Mutex
	history    []entry
	at         int
	savedAt    int // index in history of what is in the file; -1 when lost
	file       string
	problems   job.Problems
	subscriber []func(Change)
	evaluating bool
	again      bool
	result     geometry.Result
	serial     int  // of changes told
	kept       bool // a copy was written by Keep
}

type entry struct {
	job job.Job
	// live marks an edit that goes on, such as a drag: the next edit with the
	// same mark replaces it instead of adding to the history.
	live string
}

// Change is what subscribers are told.
type Change struct {
	Result geometry.Result
	// Problems are the reasons the last edit was refused; the result is then
	// of the last sound job.
	Problems job.Problems
	File     string
	Unsaved  bool
	CanUndo  bool
	CanRedo  bool
	serial   int
}

// New makes a desk with a job on it. Post must run functions in order where
// the views live; evaluation happens elsewhere.
func New(j job.Job, packs map[string]rule.Pack, post func(func())) *Desk {
	d := &Desk{packs: packs, post: post, history: []entry{{job: j}}}
	d.result = geometry.Evaluate(j, d.pack(j))
	return d
}

func (d *Desk) pack(j job.Job) rule.Pack {
	if p, ok := d.packs[j.Region]; ok {
		return p
	}
	// An unknown region gets the rules that hold everywhere.
	return d.packs[rule.CommonRegion]
}

// Regions are the regions with rules, by code.
func (d *Desk) Regions() map[string]rule.Pack { return d.packs }

// Subscribe adds a view and tells it the present state at once.
func (d *Desk) Subscribe(f func(Change)) {
	d.mu.Lock()
	d.subscriber = append(d.subscriber, f)
	c := d.change()
	d.mu.Unlock()
	f(c)
}

// Job is the job as it stands.
func (d *Desk) Job() job.Job {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.history[d.at].job.Clone()
}

// Result is the latest result.
func (d *Desk) Result() geometry.Result {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.result
}

// change must be called with the lock held.
func (d *Desk) change() Change {
	return Change{Result: d.result, Problems: d.problems, File: d.file, Unsaved: d.at != d.savedAt, CanUndo: d.at > 0, CanRedo: d.at+1 < len(d.history)}
}

// Edit changes the job. A job that means nothing is refused with the reasons,
// and the last sound one stays.
func (d *Desk) Edit(change func(job.Job) job.Job) job.Problems { return d.EditLive("", change) }

// EditLive is an edit that goes on: all edits with the same mark, up to the
// next other edit or Settle, are undone as one.
func (d *Desk) EditLive(live string, change func(job.Job) job.Job) job.Problems {
	// The change may look at the desk, so it runs without the desk's lock.
	d.edits.Lock()
	defer d.edits.Unlock()
	next := change(d.Job())
	d.mu.Lock()
	if p := next.Validate(); len(p) > 0 {
		d.problems = p
		d.unlockAndTell()
		return p
	}
	defer d.mu.Unlock()
	d.problems = nil
	if live != "" && d.history[d.at].live == live && d.at == len(d.history)-1 && d.at > 0 && d.at != d.savedAt {
		d.history[d.at].job = next
	} else {
		if d.savedAt > d.at {
			d.savedAt = -1
		}
		d.history = append(d.history[:d.at+1], entry{next, live})
		d.at++
		if len(d.history) > mostUndo {
			d.history = d.history[1:]
			d.at--
			d.savedAt--
		}
	}
	d.evaluate()
	return nil
}

// Settle ends a live edit.
func (d *Desk) Settle() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.history[d.at].live = ""
}

// Undo steps back.
func (d *Desk) Undo() { d.step(-1) }

// Redo steps forward.
func (d *Desk) Redo() { d.step(1) }

func (d *Desk) step(by int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if to := d.at + by; to >= 0 && to < len(d.history) {
		d.at = to
		d.problems = nil
		d.evaluate()
	}
}

// evaluate starts working out the job as it stands; while one evaluation runs,
// only the latest job waits. The lock must be held.
func (d *Desk) evaluate() {
	if d.evaluating {
		d.again = true
		return
	}
	d.evaluating = true
	go func() {
		for {
			d.mu.Lock()
			j := d.history[d.at].job
			d.again = false
			d.mu.Unlock()
			r := geometry.Evaluate(j, d.pack(j))
			d.mu.Lock()
			d.result = r
			d.evaluating = d.again
			more := d.again
			d.unlockAndTell()
			if !more {
				return
			}
		}
	}()
}

// unlockAndTell gives the lock back and lets the views know; views may call
// the desk again. A change that comes late, after a newer one, is left out.
func (d *Desk) unlockAndTell() {
	d.serial++
	c := d.change()
	c.serial = d.serial
	subscribers := append([]func(Change){}, d.subscriber...)
	d.mu.Unlock()
	d.post(func() {
		d.mu.Lock()
		late := c.serial < d.serial && len(c.Problems) == 0
		d.mu.Unlock()
		if late {
			return
		}
		for _, f := range subscribers {
			f(c)
		}
	})
}

// Replace puts another job on the desk with a history of its own.
func (d *Desk) Replace(j job.Job, file string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.history, d.at, d.savedAt = []entry{{job: j}}, 0, 0
	d.file, d.problems = file, nil
	d.evaluate()
}

// Open reads a job from a file. The file is not changed; on an error the job
// on the desk stays.
func (d *Desk) Open(path string) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return fmt.Errorf("opening %s: %w", filepath.Base(path), err)
	}
	j, err := job.Parse(data)
	if err != nil {
		return fmt.Errorf("opening %s: %w", filepath.Base(path), err)
	}
	d.Replace(j, path)
	return nil
}

// Save writes the job to a file, all or nothing.
func (d *Desk) Save(path string) error {
	d.mu.Lock()
	if err := write(path, d.history[d.at].job); err != nil {
		d.mu.Unlock()
		return err
	}
	d.file, d.savedAt = path, d.at
	d.history[d.at].live = ""
	d.unlockAndTell()
	return nil
}

func write(path string, j job.Job) error {
	data, err := j.Marshal()
	if err != nil {
		return err
	}
	if err := atomic.WriteFile(path, bytes.NewReader(data)); err != nil {
		return fmt.Errorf("saving %s: %w", filepath.Base(path), err)
	}
	return nil
}

// Keep writes the job as it stands to a folder, so that a crash loses nothing;
// Recover finds it again. Once the job is saved the copy goes.
func (d *Desk) Keep(folder string) error {
	d.mu.Lock()
	j, unsaved := d.history[d.at].job, d.at != d.savedAt
	d.mu.Unlock()
	if !unsaved {
		return d.Release(folder)
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("making the folder for the kept copy: %w", err)
	}
	if err := write(keptFile(folder), j); err != nil {
		return err
	}
	d.mu.Lock()
	d.kept = true
	d.mu.Unlock()
	return nil
}

// Release removes the copy this desk kept. One that a crash left behind stays
// until it is recovered or discarded.
func (d *Desk) Release(folder string) error {
	d.mu.Lock()
	kept := d.kept
	d.kept = false
	d.mu.Unlock()
	if !kept {
		return nil
	}
	return Discard(folder)
}

// Discard removes whatever copy is kept in the folder.
func Discard(folder string) error {
	if err := os.Remove(keptFile(folder)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("removing the kept copy: %w", err)
	}
	return nil
}

// Recover gives the job a crash left behind; ok is false when there is none.
func Recover(folder string) (j job.Job, ok bool) {
	data, err := os.ReadFile(keptFile(folder))
	if err != nil {
		return job.Job{}, false
	}
	j, err = job.Parse(data)
	return j, err == nil
}

func keptFile(folder string) string { return filepath.Join(folder, "unsaved.underfall.json") }
