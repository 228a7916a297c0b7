// Package roomtest gives the tests of the window's rooms what the window gives the rooms: a desk
// with a job on it, a goroutine that is the window's, a look and a language.
package roomtest

import (
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// Queue holds what other goroutines want done on the window's, which in tests is the test's own.
type Queue chan func()

// NewQueue makes one that is long enough for any test.
func NewQueue() Queue { return make(Queue, 10000) }

// Do queues a function.
func (q Queue) Do(f func()) { q <- f }

// Settle does what is queued.
func (q Queue) Settle() {
	for {
		select {
		case f := <-q:
			f()
		default:
			return
		}
	}
}

// Until does what is queued until something is so, and fails the test where that takes longer than the slowest machine
// takes while it looks for races.
func (q Queue) Until(t testing.TB, what string, ok func() bool) {
	t.Helper()
	deadline := time.Now().Add(2 * time.Minute)
	for {
		q.Settle()
		if ok() {
			return
		}
		if time.Now().After(deadline) {
			t.Fatalf("%s did not happen", what)
		}
		time.Sleep(5 * time.Millisecond)
	}
}

// Bench is a desk as a room of the window knows it.
type Bench struct {
	Queue
	Desk   *desk.Desk
	Change desk.Change // the latest
	Theme  *theme.Theme
	Guard  *guard.Guard
	tb     testing.TB
}

// New makes a bench with a job on its desk, in British English. A fault of a guarded part fails
// the test.
func New(tb testing.TB, j job.Job) *Bench {
	tb.Helper()
	b := &Bench{Queue: NewQueue(), tb: tb, Theme: British(tb)}
	b.Guard = guard.New(func(f guard.Fault) { tb.Errorf("%s: %s %v", f.Part, f.Reason, f.Stack) }, nil)
	var err error
	if b.Desk, err = desk.New(j, demotest.Packs(tb), b.Do, b.Guard); err != nil {
		tb.Fatal(err)
	}
	b.Desk.Subscribe(func(c desk.Change) { b.Change = c })
	return b
}

// British has a program that speaks British English, and looks light.
func British(tb testing.TB) *theme.Theme {
	tb.Helper()
	shelf, err := words.Load(assets.Words())
	if err != nil {
		tb.Fatal(err)
	}
	t := theme.New(false, shelf.Book(words.British, unit.Metric, nil).Drawn())
	test.NewTempApp(tb).Settings().SetTheme(t)
	Wake()
	return t
}

// First is the first of the jobs that Underfall comes with.
func First(tb testing.TB) job.Job {
	tb.Helper()
	demos, err := assets.Demos()
	if err != nil {
		tb.Fatal(err)
	}
	return demos[0].Job
}

// Until does what is queued until something is so.
func (b *Bench) Until(what string, ok func() bool) {
	b.tb.Helper()
	b.Queue.Until(b.tb, what, ok)
}

// Painter makes one.
func (b *Bench) Painter() *paint.Painter {
	b.tb.Helper()
	p, err := paint.NewPainter(assets.TextFont())
	if err != nil {
		b.tb.Fatal(err)
	}
	return p
}
