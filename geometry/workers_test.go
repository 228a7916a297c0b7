package geometry

import (
	"context"
	"strings"
	"sync/atomic"
	"testing"

	"underfall/assets"
)

// A panic in a worker reaches whoever asked for the work, with the place it
// came from, once the others are through; it used to end the program.
func TestWorkersPanicOnTheCaller(t *testing.T) {
	var calls atomic.Int64
	fault := func() (reason any) {
		defer func() { reason = recover() }()
		together(func() {
			calls.Add(1)
			panic("a worker broke")
		})
		return nil
	}()
	err, ok := fault.(error)
	if !ok || !strings.Contains(err.Error(), "a worker broke") || !strings.Contains(err.Error(), "TestWorkersPanicOnTheCaller") {
		t.Errorf("the caller hears of %v", fault)
	}
	if calls.Load() == 0 {
		t.Error("nothing was run")
	}
}

// A search that breaks in its progress can be recovered from.
func TestSearchPanicsOnTheCaller(t *testing.T) {
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	j := demos[0].Job
	defer func() {
		if recover() == nil {
			t.Error("the caller hears nothing")
		}
	}()
	FindRuns(context.Background(), j, packs[j.Region], UsualExits(j, 1000)[:1], UsualGrid(), func(float64) { panic("progress broke") })
}
