// Package desk holds the one job being worked on: its history, its latest
// result, its file. Views subscribe to it; nothing else holds state about the
// design.
package desk

import (
	"maps"
	"reflect"
	"slices"
	"sync"
	"time"

	"underfall/app/guard"
	"underfall/app/store"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/settle"
)

// mostUndo bounds the history.
const mostUndo = 500

// Desk is the job being worked on. Its methods may be called from any
// goroutine; subscribers are called from the one given to New.
type Desk struct {
	packs map[string]rule.Pack
	// post runs a function where the views live.
	post  func(func())
	guard *guard.Guard
	// named is what a job is called after a change; nil where it keeps its name.
	named func(before, after job.Job) string

	mu      sync.Mutex
	history []entry
	at      int
	savedAt int // index in history of what is in the file; -1 when lost
	file    string
	opened  int // counts the jobs that have been put on the desk
	edits   int // counts the changes of the job on it
	kept    int // counts those that can be taken back one by one
	// preview is shown in the place of the job while something is being typed.
	preview  *job.Job
	problems job.Problems
	// moved is what moved along with the last edit, or with what is being typed; refused is the last
	// edit that was refused, as long as it would be.
	moved      []settle.Moved
	refused    *settle.Refusal
	looking    *Looking // nil while the job is worked on
	subscriber []func(Change)
	evaluating bool
	evaluated  chan struct{} // closed when what is being worked out is; nil before anything was
	again      bool
	stale      bool // working out broke: the result is of a job before
	result     geometry.Result
	resultOf   int // which of the jobs that have been put on the desk the result is of
	// told and untold count what the views have been and are to be told of: one
	// that breaks on being told leaves the next to come.
	told, untold int
	disk         onDisk
}

type entry struct {
	job   job.Job
	made  message.Message // the edit that made it
	moved []settle.Moved  // what moved along with that
	// live marks an edit that goes on, such as a drag: the next edit with the
	// same mark replaces it instead of adding to the history.
	live string
}

// Change is the state of the desk as subscribers are told it: the newest there
// is when they are.
type Change struct {
	Result geometry.Result
	// Preview tells that the result is of something being typed, not yet of the
	// job.
	Preview bool
	// Stale tells that a fault kept the last change from being worked out: the
	// result is from before it.
	Stale bool
	// Awaited tells that the result is of a job that was on the desk before the one there is, which is being worked out.
	Awaited bool
	// Problems are the reasons the last edit or preview was refused; the result
	// is then of the last sound job.
	Problems job.Problems
	// Moved is what moved along with the last edit, undone with it, or with what is being typed;
	// nothing after an undo.
	Moved []settle.Moved
	// Refused is the edit last refused, why, and what would cure it; nil when none is, when it was
	// cured or dismissed, or when another change has made it void.
	Refused *settle.Refusal
	File    string
	Unsaved bool
	// Looking says why the job is only looked at; nil while it is worked on.
	Looking *Looking
	// Unsure is why it cannot be told whether another window has the file; nil where that can.
	Unsure error
	// Undo and Redo name the edits that can be taken back and made again; nothing
	// for none, and of a job that is only looked at.
	Undo, Redo message.Message
	// Opened counts the jobs put on the desk, Edits the changes made to the one
	// there is.
	Opened, Edits int
	// Kept counts the steps that were put into the history: an edit that goes on is one.
	Kept int
}

// New makes a desk with a job on it. Post must run functions in order where
// the views live; evaluation happens elsewhere, under the guard. The error is a
// job that means nothing or is of a region without rules.
func New(j job.Job, packs map[string]rule.Pack, post func(func()), g *guard.Guard) (*Desk, error) {
	d := &Desk{packs: packs, post: post, guard: g, history: []entry{{job: j}}}
	if p := d.check(j); len(p) > 0 {
		return nil, message.Wrap(p, "desk.refused", message.Name("job", j.Name))
	}
	d.result = geometry.Evaluate(j, d.packs[j.Region])
	return d, nil
}

// check lists what keeps a job off the desk.
func (d *Desk) check(j job.Job) job.Problems {
	p := j.Validate()
	if _, ok := d.packs[j.Region]; !ok || j.Region == rule.CommonRegion {
		p = append(p, NoRules(j.Region, d.packs))
	}
	return p
}

// date gives the jobs of the history the edition of the rules that they are held against,
// where none was kept; the lock must be held.
func (d *Desk) date() {
	for i := range d.history {
		if j := &d.history[i].job; j.Edition == "" {
			j.Edition = d.packs[j.Region].Edition
		}
	}
}

// count has the job, as it stands and wherever undo leads, told to be saved once more; it gives what takes that back. One that is
// saved again as it was keeps its number. The lock must be held.
func (d *Desk) count() (back func()) {
	was := d.history[d.at].job.State
	set := func(state int) {
		for i := range d.history {
			d.history[i].job.State = state
		}
	}
	if d.unsaved() || was == 0 {
		set(was + 1)
	}
	return func() { set(was) }
}

// NoRules says that there are no rules for a country, and for which there are.
func NoRules(country string, packs map[string]rule.Pack) job.Problem {
	known := message.List{Or: true}
	for _, code := range slices.Sorted(maps.Keys(packs)) {
		if code != rule.CommonRegion {
			known.Items = append(known.Items, message.Text(code))
		}
	}
	what := message.Of("problem.unknown-country", message.Name("value", country), message.Arg{Name: "known", Value: known})
	return job.Problem{Key: "region", What: what}
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

// Job is the job as it stands, without what is only being typed.
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
	c := Change{Result: d.result, Preview: d.preview != nil, Stale: d.stale, Awaited: d.resultOf != d.opened,
		Problems: d.problems, Moved: d.moved, Refused: d.refused,
		File: d.file, Unsaved: d.unsaved(), Looking: d.looking, Unsure: d.disk.unsure, Opened: d.opened, Edits: d.edits, Kept: d.kept}
	if d.looking != nil {
		return c
	}
	if d.at > 0 {
		c.Undo = d.history[d.at].made
	}
	if d.at+1 < len(d.history) {
		c.Redo = d.history[d.at+1].made
	}
	return c
}

// Opened counts the jobs that have been put on the desk, up to the one there now.
func (d *Desk) Opened() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.opened
}

// Edits counts the changes made to the job that is on the desk.
func (d *Desk) Edits() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.edits
}

// Do makes an edit and settles what hangs on it. One that cannot be settled is refused with the
// reasons, and the job stays as it was; so is any edit of a job that is only looked at. An edit that
// changes nothing is no step of the history.
func (d *Desk) Do(e edit.Edit) job.Problems { return d.DoLive("", e) }

// DoLive makes an edit that goes on: all edits with the same mark, up to the
// next other edit or Settle, are undone as one. Each is made of the job that the first was made
// of, so that what one has moved along is back where the next leaves it room.
func (d *Desk) DoLive(live string, e edit.Edit) job.Problems {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.preview, d.moved = nil, nil
	if d.looking != nil {
		d.problems = d.looking.refused()
		d.evaluate()
		return d.problems
	}
	now := &d.history[d.at]
	goesOn := live != "" && now.live == live && d.at == len(d.history)-1 && d.at > 0 && d.at != d.savedAt
	before := now.job
	if goesOn {
		before = d.history[d.at-1].job
	}
	s := d.settle(before, e)
	if d.problems = nil; s.Refused != nil {
		d.problems, d.refused = toldOf(s.Refused), s.Refused
		d.evaluate() // the preview may have been shown
		return d.problems
	}
	if reflect.DeepEqual(s.Job, now.job) {
		d.reconsider(e)
		d.evaluate()
		return nil
	}
	d.edits++
	if d.moved = s.Moved; goesOn {
		now.job, now.moved = s.Job, s.Moved
	} else {
		d.keep(entry{s.Job, e.Made(before, s.Job), s.Moved, live})
	}
	d.reconsider(e)
	d.evaluate()
	return nil
}

// keep adds an edit to the history; the lock must be held.
func (d *Desk) keep(made entry) {
	if d.savedAt > d.at {
		d.savedAt = -1
	}
	d.kept++
	d.history = append(d.history[:d.at+1], made)
	d.at++
	if len(d.history) > mostUndo {
		d.history = d.history[1:]
		d.at--
		d.savedAt--
	}
}

// Preview shows what an edit would give without making it: the job, its
// history and what is kept of it stay. Anything else that is done ends it. An
// edit that is refused shows the job as it stands.
func (d *Desk) Preview(e edit.Edit) job.Problems {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.preview, d.problems, d.moved = nil, nil, nil
	if d.looking != nil {
		d.problems = d.looking.refused()
		d.evaluate()
		return d.problems
	}
	s := d.settle(d.history[d.at].job, e)
	if s.Refused != nil {
		d.problems = toldOf(s.Refused)
	} else {
		d.preview, d.moved = &s.Job, s.Moved
	}
	d.evaluate()
	return d.problems
}

// EndPreview shows the job as it stands again.
func (d *Desk) EndPreview() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.preview == nil && len(d.problems) == 0 {
		return
	}
	d.preview, d.problems, d.moved = nil, nil, nil
	d.evaluate()
}

// Settle ends a live edit, and lets the views know.
func (d *Desk) Settle() {
	d.mu.Lock()
	if d.history[d.at].live == "" {
		d.mu.Unlock()
		return
	}
	d.history[d.at].live = ""
	d.unlockAndTell()
}

// Undo takes the last edit back and says which; nothing when there is none, or the job is only looked at.
func (d *Desk) Undo() (undone message.Message) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.at == 0 || d.looking != nil {
		return message.Message{}
	}
	undone = d.history[d.at].made
	d.step(-1)
	return undone
}

// Redo makes the edit last taken back again and says which; nothing when there
// is none, or the job is only looked at.
func (d *Desk) Redo() (redone message.Message) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.at+1 >= len(d.history) || d.looking != nil {
		return message.Message{}
	}
	d.step(1)
	return d.history[d.at].made
}

// step moves in the history; the lock must be held.
func (d *Desk) step(by int) {
	d.at += by
	d.edits++
	if d.preview, d.problems, d.moved = nil, nil, nil; by > 0 {
		d.moved = d.history[d.at].moved
	}
	d.retry()
	d.evaluate()
}

// evaluate starts working out what is to be shown; while one evaluation runs,
// only the latest job waits. The lock must be held.
func (d *Desk) evaluate() {
	if d.evaluating {
		d.again = true
		return
	}
	d.evaluating = true
	evaluated := make(chan struct{})
	d.evaluated = evaluated
	d.guard.Run(PartEvaluation, d.evaluateAll, func(sound bool) {
		defer close(evaluated)
		if !sound {
			// What is shown is of the job before, and must say so.
			d.mu.Lock()
			d.evaluating = false
			d.stale = true
			d.unlockAndTell()
		}
	})
}

// PartEvaluation is how a fault in working out the job is told.
const PartEvaluation message.ID = "fault.working-out"

// ShowWithin tells the views of what is being worked out now, if it is there within a time; else
// they are told as soon as it is, as always. To be called where the views live, by what would rather
// wait a moment than have the window painted twice.
func (d *Desk) ShowWithin(most time.Duration) {
	d.mu.Lock()
	evaluated := d.evaluated
	d.mu.Unlock()
	if evaluated == nil {
		return
	}
	select {
	case <-evaluated:
		d.guard.Do(PartEvaluation, nil, d.show)
	case <-time.After(most):
	}
}

// evaluateAll works out what is to be shown until nothing newer waits.
func (d *Desk) evaluateAll() {
	for more := true; more; {
		d.mu.Lock()
		j := d.history[d.at].job
		if d.preview != nil {
			j = *d.preview
		}
		d.again = false
		before, opened := d.result, d.opened
		d.mu.Unlock()
		r := geometry.EvaluateAfter(before, j, d.packs[j.Region])
		d.mu.Lock()
		d.result, d.resultOf, d.stale = r, opened, false
		d.evaluating = d.again
		more = d.again
		d.unlockAndTell()
	}
}

// unlockAndTell gives the lock back and lets the views know that something has
// changed. They are handed the state as it is when they are called; several
// changes before that are one. Views may call the desk.
func (d *Desk) unlockAndTell() {
	d.untold++
	d.mu.Unlock()
	d.post(d.show)
}

// show hands the views the state of the desk.
func (d *Desk) show() {
	d.mu.Lock()
	if d.told == d.untold {
		d.mu.Unlock()
		return
	}
	d.told = d.untold
	c := d.change()
	subscribers := append([]func(Change){}, d.subscriber...)
	d.mu.Unlock()
	for _, f := range subscribers {
		f(c)
	}
}

// Replace puts another job on the desk, of no file yet, with a history of its own.
func (d *Desk) Replace(j job.Job) error {
	if p := d.check(j); len(p) > 0 {
		return message.Wrap(p, "desk.refused", message.Name("job", j.Name))
	}
	d.disk.turn.Lock()
	defer d.disk.turn.Unlock()
	d.hold(nil)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.replace(j, "")
	return nil
}

// replace puts a job on the desk that was checked; the lock must be held.
func (d *Desk) replace(j job.Job, file string) {
	d.history, d.at, d.savedAt = []entry{{job: j}}, 0, 0
	d.file = file
	d.look(nil)
	d.opened++
	d.edits = 0
	d.disk.stamp, d.disk.unsure = store.Stamp{}, nil
	d.evaluate()
}
