// Package parallel runs tasks beside each other, and keeps a fault in one from
// ending the program.
package parallel

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// Guard runs a task; a fault of the program in it becomes an error, so that
// it cannot take the user's work with it.
func Guard(doing string, task func() error) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = &Fault{Doing: doing, What: fmt.Sprint(fault), Stack: string(debug.Stack())}
		}
	}()
	return task()
}

// Fault is an error of the program itself, not of the job.
type Fault struct {
	Doing string // what was being done, as in “looking for runs”
	What  string // for those who mend it
	Stack string
}

// Error says what was being done, and that the job is not to blame.
func (f *Fault) Error() string {
	return fmt.Sprintf("%s: a fault in Underfall (%s)", f.Doing, f.What)
}

// Each runs a task for each number below n on all processors, in no
// order, until all are done, the context is cancelled or one fails. The error
// is the first task's that failed.
func Each(ctx context.Context, n int, task func(i int) error) error {
	var next atomic.Int64
	var failed atomic.Bool
	errs := make([]error, n)
	var workers sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= n || ctx.Err() != nil || failed.Load() {
					return
				}
				if errs[i] = Guard("working in parallel", func() error { return task(i) }); errs[i] != nil {
					failed.Store(true)
				}
			}
		})
	}
	workers.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
