package desk_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// open puts the starting job on a desk whose changes can be waited for.
func open(t *testing.T) (*desk.Desk, func() desk.Change) {
	t.Helper()
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	changes := make(chan desk.Change, 1000)
	var mu sync.Mutex
	d, err := desk.New(job.New(), packs, func(f func()) { mu.Lock(); defer mu.Unlock(); f() }, guarded(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Release() }) // until then it has its file
	d.Subscribe(func(c desk.Change) { changes <- c })
	<-changes
	return d, func() desk.Change {
		t.Helper()
		select {
		case c := <-changes:
			return c
		case <-time.After(time.Minute):
			t.Fatal("no change came")
			return desk.Change{}
		}
	}
}

// guarded is a guard that fails the test on a fault.
func guarded(t *testing.T) *guard.Guard {
	return guard.New(func(f guard.Fault) { t.Errorf("%s: %s", f.Part, f.Reason) }, nil)
}

func setDepth(v float64) edit.Edit {
	return edit.Of(message.Of("edit.test-depth"), func(j *job.Job) { j.Shower.DepthMM = v })
}

func TestEditUndoRedo(t *testing.T) {
	d, next := open(t)
	d.Do(setDepth(1000))
	if c := next(); c.Result.Settled.Shower.DepthMM != 1000 || c.Undo.ID != "edit.test-depth" || !c.Redo.IsZero() || !c.Unsaved {
		t.Fatalf("after an edit: %+v", c.Result.Settled.Shower)
	}
	d.Undo()
	if c := next(); c.Result.Settled.Shower.DepthMM != 900 || !c.Undo.IsZero() || c.Redo.ID != "edit.test-depth" {
		t.Fatalf("after undo: %+v", c.Result.Settled.Shower)
	}
	d.Redo()
	if c := next(); c.Result.Settled.Shower.DepthMM != 1000 || !c.Redo.IsZero() || c.Undo.ID != "edit.test-depth" {
		t.Fatalf("after redo: %+v", c.Result.Settled.Shower)
	}
}

// A drag is undone as one; another drag of the same thing is not part of it.
func TestLiveEditsAreOneStep(t *testing.T) {
	d, next := open(t)
	for _, v := range []float64{905, 910, 950} {
		d.DoLive("drag", setDepth(v))
		next()
	}
	d.Settle()
	d.DoLive("drag", setDepth(980))
	next()
	d.Undo()
	if c := next(); c.Result.Settled.Shower.DepthMM != 950 {
		t.Fatalf("one undo gives %v, want 950", c.Result.Settled.Shower.DepthMM)
	}
	d.Undo()
	if c := next(); c.Result.Settled.Shower.DepthMM != 900 {
		t.Fatalf("two undos give %v, want 900", c.Result.Settled.Shower.DepthMM)
	}
}

// A value that means nothing is refused; the job and its result stay.
func TestBadEditKeepsTheJob(t *testing.T) {
	d, next := open(t)
	for _, v := range []float64{math.NaN(), -5, 1e9} {
		if p := d.Do(setDepth(v)); len(p) == 0 {
			t.Errorf("a depth of %v is taken", v)
		}
		if c := next(); len(c.Problems) == 0 || c.Result.Settled.Shower.DepthMM != 900 || !c.Undo.IsZero() {
			t.Errorf("after a depth of %v: %+v", v, c.Problems)
		}
	}
}

// Edits faster than evaluation: the last one wins.
func TestLatestWins(t *testing.T) {
	d, next := open(t)
	for v := 600.0; v <= 1200; v++ {
		d.DoLive("drag", setDepth(v))
	}
	for {
		if c := next(); c.Result.Settled.Shower.DepthMM == 1200 {
			return
		}
	}
}

// What is being typed is shown and is no part of the job until it is done: it
// is not saved, not in the history, and gone when it is refused or left.
func TestPreview(t *testing.T) {
	d, next := open(t)
	if p := d.Preview(setDepth(1000)); len(p) > 0 {
		t.Fatal(p)
	}
	if c := next(); !c.Preview || c.Result.Stated.Shower.DepthMM != 1000 || !c.Undo.IsZero() || c.Edits != 0 {
		t.Fatalf("previewing: %v, depth %v", c.Preview, c.Result.Stated.Shower.DepthMM)
	}
	if got := d.Job().Shower.DepthMM; got != 900 {
		t.Errorf("the job has a depth of %v while 1000 is being typed", got)
	}
	if p := d.Preview(setDepth(99999999)); len(p) == 0 {
		t.Error("a preview that means nothing is taken")
	}
	if c := next(); c.Preview || len(c.Problems) == 0 || c.Result.Stated.Shower.DepthMM != 900 {
		t.Errorf("a refused preview leaves a depth of %v", c.Result.Stated.Shower.DepthMM)
	}
	d.EndPreview()
	if c := next(); c.Preview || len(c.Problems) > 0 || c.Result.Stated.Shower.DepthMM != 900 {
		t.Errorf("ended: %+v, depth %v", c.Problems, c.Result.Stated.Shower.DepthMM)
	}
	d.Preview(setDepth(800))
	next()
	d.Do(edit.Of(message.Of("edit.test-width"), func(j *job.Job) { j.Shower.WidthMM = 1300 }))
	if c := next(); c.Preview || c.Result.Stated.Shower.DepthMM != 900 || c.Result.Stated.Shower.WidthMM != 1300 {
		t.Errorf("another edit keeps the preview: %+v", c.Result.Stated.Shower)
	}
}

// Views are handed the state as it is when they are called, however many
// changes have come before, and never an older one after a newer.
func TestViewsGetTheNewest(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	queue := make(chan func(), 1000)
	d, err := desk.New(job.New(), packs, func(f func()) { queue <- f }, guarded(t))
	if err != nil {
		t.Fatal(err)
	}
	var seen []float64
	d.Subscribe(func(c desk.Change) { seen = append(seen, c.Result.Stated.Shower.DepthMM) })
	for v := 905.0; v <= 1200; v += 5 {
		d.DoLive("drag", setDepth(v))
	}
	for last := 0.0; last != 1200; {
		select {
		case f := <-queue:
			// What was worked out since is seen, not what was when this was sent.
			now := d.Result().Stated.Shower.DepthMM
			f()
			if last = seen[len(seen)-1]; last < now {
				t.Fatalf("shown %v when %v was there", last, now)
			}
		case <-time.After(time.Minute):
			t.Fatalf("the last depth shown is %v", last)
		}
	}
	if !slices.IsSorted(seen) {
		t.Errorf("an older state was shown after a newer: %v", seen)
	}
}

// An edit that changes nothing is no step to take back, and leaves a saved job
// saved.
func TestEditOfNothing(t *testing.T) {
	d, next := open(t)
	d.Do(setDepth(900))
	if c := next(); !c.Undo.IsZero() || c.Unsaved || c.Edits != 0 {
		t.Errorf("undo %v, unsaved %v, %d edits", c.Undo, c.Unsaved, c.Edits)
	}
	d.Do(setDepth(950))
	d.Do(setDepth(950))
	d.Undo()
	for c := next(); c.Result.Stated.Shower.DepthMM != 900 || !c.Undo.IsZero(); c = next() {
	}
}

// A job of a region without rules is not taken, and the message names those
// there are.
func TestUnknownRegion(t *testing.T) {
	d, _ := open(t)
	known := `[own{text: "AU"}, own{text: "AU-SA"}, own{text: "DE"}, own{text: "IE"}, own{text: "NZ"}, own{text: "UK"}, ` +
		`own{text: "UK-EN"}, own{text: "UK-NI"}, own{text: "UK-SC"}, own{text: "UK-WA"}, own{text: "US"}, own{text: "US-UPC"}]`
	for _, region := range []string{"XX", "uk", "common"} {
		j := job.New()
		j.Region = region
		data, err := j.Marshal()
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "elsewhere.json")
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		told := fmt.Sprintf("problem.unknown-country{value: %q, known: %s}", region, known)
		if err := d.Open(path); err == nil || !strings.Contains(err.Error(), told) {
			t.Errorf("%s: %v", region, err)
		}
		if p := d.Do(edit.Of(message.Of("edit.test-country"), func(j *job.Job) { j.Region = region })); len(p) == 0 {
			t.Errorf("%s is taken", region)
		}
	}
	if d.Job().Region != "UK" {
		t.Errorf("the job is of %s", d.Job().Region)
	}
}

// As long as a job that has been put on the desk is being worked out, the result is told to be of the job before.
func TestResultOfTheJobBeforeIsTold(t *testing.T) {
	hold := make(chan struct{})
	held := false
	var mu sync.Mutex
	probe := func(message.ID) {
		mu.Lock()
		wait := held
		mu.Unlock()
		if wait {
			<-hold
		}
	}
	g := guard.New(func(f guard.Fault) { t.Errorf("%s: %s", f.Part, f.Reason) }, probe)
	var post sync.Mutex
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	d, err := desk.New(job.New(), packs, func(f func()) { post.Lock(); defer post.Unlock(); f() }, g)
	if err != nil {
		t.Fatal(err)
	}
	now := func() (c desk.Change) {
		d.Subscribe(func(is desk.Change) {
			if c.Opened == 0 {
				c = is
			}
		})
		return c
	}
	mu.Lock()
	held = true
	mu.Unlock()
	other := job.New()
	other.Name = "another"
	if err := d.Replace(other); err != nil {
		t.Fatal(err)
	}
	if c := now(); !c.Awaited || c.Opened != 1 || c.Result.Settled.Name == "another" {
		t.Errorf("while it is worked out: %v, %d, %q", c.Awaited, c.Opened, c.Result.Settled.Name)
	}
	mu.Lock()
	held = false
	mu.Unlock()
	close(hold)
	d.ShowWithin(10 * time.Second)
	if c := now(); c.Awaited || c.Result.Settled.Name != "another" {
		t.Errorf("then: %v, %q", c.Awaited, c.Result.Settled.Name)
	}
}
