package parallel_test

import (
	"context"
	"errors"
	"strings"
	"sync/atomic"
	"testing"

	"underfall/geometry/parallel"
)

// A panic in a worker comes back as a fault with the place it came from, once
// the others are through; it used to end the program.
func TestParallelFault(t *testing.T) {
	var calls atomic.Int64
	err := parallel.Each(context.Background(), 100, func(i int) error {
		calls.Add(1)
		if i == 3 {
			panic("a worker broke")
		}
		return nil
	})
	var fault *parallel.Fault
	if !errors.As(err, &fault) || !strings.Contains(fault.What, "a worker broke") || !strings.Contains(fault.Stack, "TestParallelFault") {
		t.Errorf("the caller hears of %v", err)
	}
	if calls.Load() == 0 {
		t.Error("nothing was run")
	}
}

// Every task is done once, whatever there are of processors, and a cancelled
// context ends it.
func TestParallelDoesAll(t *testing.T) {
	done := make([]atomic.Int64, 1000)
	if err := parallel.Each(context.Background(), len(done), func(i int) error { done[i].Add(1); return nil }); err != nil {
		t.Fatal(err)
	}
	for i := range done {
		if n := done[i].Load(); n != 1 {
			t.Errorf("task %d was done %d times", i, n)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	var after atomic.Int64
	if err := parallel.Each(ctx, 1000, func(i int) error { cancel(); after.Add(1); return nil }); err != nil || after.Load() > 200 {
		t.Errorf("%d tasks were done after it was cancelled, %v", after.Load(), err)
	}
}
