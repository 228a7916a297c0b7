package parallel_test

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"underfall/geometry/parallel"
)

// onProcessors runs a test on so many processors.
func onProcessors(t *testing.T, n int) {
	before := runtime.GOMAXPROCS(n)
	t.Cleanup(func() { runtime.GOMAXPROCS(before) })
}

// As many tasks run beside each other as there are processors: three wait for each
// other, which two at once never would, and none finds more than two others there.
func TestAsManyTasksAsProcessors(t *testing.T) {
	const processors = 3
	onProcessors(t, processors)
	var running, most atomic.Int64
	var met sync.WaitGroup
	met.Add(processors)
	err := parallel.Each(t.Context(), 8*processors, func(i int) error {
		now := running.Add(1)
		defer running.Add(-1)
		for before := most.Load(); now > before && !most.CompareAndSwap(before, now); before = most.Load() {
		}
		if i < processors {
			met.Done()
			all := make(chan struct{})
			go func() { met.Wait(); close(all) }()
			select {
			case <-all:
			case <-time.After(time.Minute):
				return errors.New("the others did not come")
			}
		}
		time.Sleep(time.Millisecond) // so that more than there may be would be seen
		return nil
	})
	if err != nil || most.Load() != processors {
		t.Errorf("%d tasks at once, want %d: %v", most.Load(), processors, err)
	}
	if n := runtime.GOMAXPROCS(0); n != processors {
		t.Errorf("the program is left with %d processors", n)
	}
}

// Fewer tasks than processors take no more than their number, and none takes
// nothing.
func TestFewTasks(t *testing.T) {
	onProcessors(t, 4)
	for _, n := range []int{0, 1, 2} {
		var calls atomic.Int64
		if err := parallel.Each(t.Context(), n, func(int) error { calls.Add(1); return nil }); err != nil || int(calls.Load()) != n {
			t.Errorf("of %d tasks %d were run: %v", n, calls.Load(), err)
		}
	}
}

// Once a task has failed none is begun: on one processor the tasks come one after
// another, so those after the fourth, which fails, never run.
func TestFailureEndsTheRest(t *testing.T) {
	onProcessors(t, 1)
	failure := errors.New("the fourth failed")
	var calls atomic.Int64
	err := parallel.Each(t.Context(), 100, func(i int) error {
		calls.Add(1)
		if i == 3 {
			return failure
		}
		return nil
	})
	if err != failure || calls.Load() != 4 {
		t.Errorf("%d tasks were run, the error is %v; want 4 and %v", calls.Load(), err, failure)
	}
}

// Of several errors the one of the first task is given, whichever came first.
func TestTheFirstTasksErrorIsGiven(t *testing.T) {
	onProcessors(t, 2)
	var met sync.WaitGroup
	met.Add(2)
	secondFailed := make(chan struct{})
	err := parallel.Each(t.Context(), 2, func(i int) error {
		met.Done()
		met.Wait()
		if i == 1 {
			defer close(secondFailed)
		} else {
			<-secondFailed
		}
		return fmt.Errorf("task %d", i)
	})
	if err == nil || err.Error() != "task 0" {
		t.Errorf("the error is %v, want that of task 0", err)
	}
}

// A context that is cancelled before begins nothing; on one processor one that is
// cancelled in the third task lets no fourth begin.
func TestCancelledBetweenTasks(t *testing.T) {
	onProcessors(t, 1)
	for _, last := range []int64{0, 3} {
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		if last == 0 {
			cancel()
		}
		var calls atomic.Int64
		err := parallel.Each(ctx, 10, func(int) error {
			if calls.Add(1) == last {
				cancel()
			}
			return nil
		})
		if err != nil || calls.Load() != last {
			t.Errorf("%d tasks were run, want %d: %v", calls.Load(), last, err)
		}
	}
}

// A task's own error comes back as it is; a fault says what was being done, what
// broke, and that the job is not to blame.
func TestGuard(t *testing.T) {
	own := errors.New("of the task")
	if err := parallel.Guard("looking", func() error { return own }); err != own {
		t.Errorf("%v, want %v", err, own)
	}
	if err := parallel.Guard("looking", func() error { return nil }); err != nil {
		t.Errorf("a task without an error gives %v", err)
	}
	err := parallel.Guard("looking", func() error { panic("it broke") })
	if err == nil || err.Error() != "looking: a fault in Underfall (it broke)" {
		t.Errorf("a fault reads %v", err)
	}
}
