package app

import (
	"context"
	"errors"
	"time"

	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unknown"
)

// exploring works out what a job that is not all known may come to, while nothing changes.
type exploring struct {
	do     func(func())
	guard  *guard.Guard
	show   func(*unknown.Exploration)
	wait   *time.Timer
	cancel context.CancelFunc
	serial int
}

// exploreAfter is how long a job must rest before it is explored: less than a person takes to look.
const exploreAfter = 120 * time.Millisecond

// partExploring is how a fault in it is told.
const partExploring message.ID = "fault.exploring"

// follow explores another result; what was being explored is dropped. One that is all known is not.
func (e *exploring) follow(r geometry.Result) {
	e.stop()
	if len(r.Problems) > 0 || len(r.Stated.Standing(job.NotKnown))+len(r.Stated.Standing(job.Assumed)) == 0 {
		return
	}
	serial := e.serial
	e.wait = e.guard.After(exploreAfter, partExploring, func() {
		ctx, cancel := context.WithCancel(context.Background())
		e.do(func() {
			if e.serial != serial {
				cancel()
				return
			}
			e.cancel = cancel
			e.guard.Go(partExploring, func() { e.explore(ctx, r, serial) })
		})
	})
}

func (e *exploring) explore(ctx context.Context, r geometry.Result, serial int) {
	x, err := unknown.Explore(ctx, r)
	guard.Raise(err)
	if err != nil && !errors.Is(err, context.Canceled) {
		panic(err)
	}
	if err == nil {
		e.do(func() {
			if e.serial == serial {
				e.show(&x)
			}
		})
	}
}

// stop drops what is being explored, or waits to be.
func (e *exploring) stop() {
	e.serial++
	if e.wait != nil {
		e.wait.Stop()
	}
	if e.cancel != nil {
		e.cancel()
		e.cancel = nil
	}
}
