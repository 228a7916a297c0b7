package desk

import (
	"context"
	"errors"
	"path/filepath"

	"underfall/app/store"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Looking says why the job on the desk is only looked at: nothing of it is changed, and nothing is saved
// over its file. It ends when the file is taken over, when the job is saved as another, and with the job.
type Looking struct {
	// Why is that in one sentence.
	Why message.Message
	// Elsewhere tells that another window has the file; it can be taken over.
	Elsewhere bool
	// Unread is what was not understood of a file that a later version of Underfall wrote.
	Unread []message.Message
}

// OnlyLooked tells whether the job is only looked at. It is up to date where the last Change may not be.
func (d *Desk) OnlyLooked() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.looking != nil
}

// refused says that nothing of a job that is only looked at is changed, and what to do.
func (l *Looking) refused() job.Problems {
	id := message.ID("desk.unchanged-newer")
	if l.Elsewhere {
		id = "desk.unchanged-elsewhere"
	}
	return job.Problems{{What: message.Of(id, message.In("why", l.Why))}}
}

// notOver is the error for saving over the file.
func (l *Looking) notOver(cause error) error {
	return &message.Error{What: message.Of("desk.not-over", message.In("why", l.Why)), Cause: cause}
}

// elsewhere is the looking at a file that another window has.
func elsewhere(err error) *Looking { return &Looking{Why: message.OfError(err), Elsewhere: true} }

// claim claims the file that a path leads to for the desk; the one there is serves where it is of that
// file. looking is set where another window has it, unsure where that cannot be told. The turn must be held.
func (d *Desk) claim(path string) (c *store.Claim, looking *Looking, unsure error) {
	if d.disk.claim.Of(path) {
		return d.disk.claim, nil, nil
	}
	c, err := store.ClaimFile(path)
	if errors.Is(err, store.ErrElsewhere) {
		return nil, elsewhere(err), nil
	}
	return c, nil, err
}

// hold makes a claim, nil for none, the desk's, and gives up the one before; the turn must be held.
func (d *Desk) hold(c *store.Claim) {
	if c == d.disk.claim {
		return
	}
	// A lock that cannot be removed is free all the same once it is closed.
	_ = d.disk.claim.Release()
	d.disk.claim = c
}

// letGo gives up a claim that the desk does not come to hold; the turn must be held.
func (d *Desk) letGo(c *store.Claim) {
	if c != d.disk.claim {
		_ = c.Release() // likewise
	}
}

// HandOver gives the job's file to another window that asks for it. What is unsaved is kept; the desk then
// looks at the job as it stands.
func (d *Desk) HandOver() {
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	if d.disk.claim == nil || !d.disk.claim.Wanted() {
		return
	}
	if d.disk.keeper != nil {
		d.mu.Lock()
		unsaved := d.unsaved()
		w, err := d.work()
		d.mu.Unlock()
		if unsaved && err == nil {
			// Should it fail, the next Keep tries again and tells.
			_ = d.disk.keeper.Keep(w)
		}
	}
	d.hold(nil)
	d.mu.Lock()
	what := message.Of("desk.taken-over")
	if d.unsaved() {
		what = message.Of("desk.taken-over-unsaved")
	}
	d.look(&Looking{Why: what, Elsewhere: true})
	d.unlockAndTell()
}

// look has the job only looked at, nil for no longer; the lock must be held.
func (d *Desk) look(l *Looking) {
	d.looking, d.preview, d.problems, d.moved, d.refused = l, nil, nil, nil, nil
}

// TakeOver takes the job's file from the window that has it. Without unsaved work the job is read again
// as that window left it; with such it stays as it is, and saving asks where the file has changed. On an
// error the job is looked at as before.
func (d *Desk) TakeOver(ctx context.Context) error {
	d.mu.Lock()
	looking, path, unsaved := d.looking, d.file, d.unsaved()
	d.mu.Unlock()
	if looking == nil || !looking.Elsewhere {
		return nil
	}
	name := message.Name("file", store.Plain(filepath.Base(path)))
	c, err := store.TakeOver(ctx, path)
	if errors.Is(err, store.ErrElsewhere) {
		return message.Wrap(err, "desk.taking-over", name)
	}
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	d.mu.Lock()
	same := d.looking == looking
	d.mu.Unlock()
	if !same { // another job came meanwhile
		return c.Release()
	}
	if !unsaved {
		return d.openClaimed(path, c, nil, err)
	}
	d.hold(c)
	d.mu.Lock()
	d.disk.unsure = err
	d.look(nil)
	d.unlockAndTell()
	return nil
}
