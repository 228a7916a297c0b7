package app

import (
	"context"
	"errors"
	"time"

	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// atRest works something out of a result on a goroutine of its own, once nothing has changed for
// a while; what was being worked out of the result before is dropped.
type atRest[T any] struct {
	do    func(func()) // runs a function on the window's goroutine
	guard *guard.Guard
	part  message.ID    // how a fault in it is told
	after time.Duration // how long a result must rest; 0 for not at all
	// ready tells whether nothing is still being drawn that goes before, for which it waits a while; nil for always.
	ready func() bool
	// applies tells whether there is anything to be worked out of a result.
	applies func(geometry.Result) bool
	// work ends soon once its context is cancelled, with the context's error.
	work func(context.Context, geometry.Result) (T, error)
	show func(T)
	// keeps tells that what was worked out holds for every job that is built the same: it is not worked out anew.
	keeps bool

	wait   *time.Timer
	cancel context.CancelFunc
	serial int      // counts results followed
	of     *job.Job // what was worked out last, or is being, is of; nil for nothing
}

// follower is what follows results until it is stopped.
type follower interface {
	follow(r geometry.Result)
	// hold has nothing worked out of another result as yet.
	hold(r geometry.Result)
	// stop drops what is being worked out, and forgets what was.
	stop()
	// pause drops what is being worked out, or waits to be: the next result it follows has it begin again.
	pause()
	// resting tells whether nothing is being worked out, nor waits to be.
	resting() bool
}

// holds tells whether what was worked out, or is being, holds for another result as well.
func (a *atRest[T]) holds(r geometry.Result) bool {
	return a.keeps && a.of != nil && r.Stated.BuiltAs(*a.of)
}

// follow begins anew with another result.
func (a *atRest[T]) follow(r geometry.Result) {
	applies := len(r.Problems) == 0 && a.applies(r)
	if applies && a.holds(r) {
		return
	}
	a.stop()
	if !applies {
		return
	}
	serial := a.serial
	stated := r.Stated
	a.of = &stated
	if a.after == 0 {
		a.begin(r, serial)
		return
	}
	a.beginIn(a.after, r, serial, time.Now().Add(a.after+readyWithin))
}

// What goes before is looked for again so soon, and waited for no longer than so.
const (
	readyEvery  = 15 * time.Millisecond
	readyWithin = 400 * time.Millisecond
)

// beginIn works it out after a wait, or later, where what goes before is not ready by then.
func (a *atRest[T]) beginIn(wait time.Duration, r geometry.Result, serial int, latest time.Time) {
	a.wait = a.guard.After(wait, a.part, func() {
		a.do(func() {
			switch {
			case a.serial != serial:
			case a.ready != nil && !a.ready() && time.Now().Before(latest):
				a.beginIn(readyEvery, r, serial, latest)
			default:
				a.begin(r, serial)
			}
		})
	})
}

// begin works it out.
func (a *atRest[T]) begin(r geometry.Result, serial int) {
	ctx, cancel := context.WithCancel(context.Background())
	a.wait, a.cancel = nil, cancel
	a.guard.Go(a.part, func() {
		defer cancel()
		out, err := a.work(ctx, r)
		guard.Raise(err)
		switch {
		case errors.Is(err, context.Canceled):
			return
		case err != nil:
			panic(err)
		}
		a.do(func() {
			if a.serial == serial {
				a.cancel = nil
				a.show(out)
			}
		})
	})
}

// hold keeps what was worked out where it holds for the result as well.
func (a *atRest[T]) hold(r geometry.Result) {
	if !a.resting() || !a.holds(r) {
		a.stop()
	}
}

func (a *atRest[T]) pause() {
	if !a.resting() {
		a.stop()
	}
}

// stop drops what is being worked out, or waits to be, and forgets what was.
func (a *atRest[T]) stop() {
	a.serial++
	a.of = nil
	if a.wait != nil {
		a.wait.Stop()
		a.wait = nil
	}
	if a.cancel != nil {
		a.cancel()
		a.cancel = nil
	}
}

func (a *atRest[T]) resting() bool { return a.wait == nil && a.cancel == nil }
