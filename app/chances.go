package app

import (
	"context"
	"time"

	"underfall/app/guard"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// chances works out what may go wrong once the job is built, while nothing
// changes.
type chances struct {
	do     func(func())
	guard  *guard.Guard
	show   func(chance.Chances)
	wait   *time.Timer
	cancel context.CancelFunc
	serial int
}

const (
	chanceSamples = 10000
	// chanceAfter is how long a job must rest before its chances are counted.
	chanceAfter = 600 * time.Millisecond
)

// partChances is how a fault in the counting is told.
const partChances message.ID = "fault.chances"

// follow counts anew for another result; what was being counted is dropped.
func (c *chances) follow(r geometry.Result) {
	c.stop()
	serial := c.serial
	if len(r.Problems) > 0 {
		return
	}
	c.wait = c.guard.After(chanceAfter, partChances, func() {
		c.do(func() {
			if c.serial == serial {
				c.count(r)
			}
		})
	})
}

// count starts counting.
func (c *chances) count(r geometry.Result) {
	ctx, cancel := context.WithCancel(context.Background())
	c.cancel = cancel
	serial := c.serial
	c.guard.Go(partChances, func() {
		defer cancel()
		counted, err := chance.Count(ctx, r.Levelled, r.Findings, chanceSamples, chance.Seed)
		guard.Raise(err)
		if err == nil {
			c.do(func() {
				if c.serial == serial {
					c.show(counted)
				}
			})
		}
	})
}

// stop drops what is being counted, or waits to be.
func (c *chances) stop() {
	c.serial++
	if c.wait != nil {
		c.wait.Stop()
	}
	if c.cancel != nil {
		c.cancel()
		c.cancel = nil
	}
}

// riskText says how likely a rule is to be broken, and why.
func riskText(r chance.Risk) string {
	s := theme.Say(message.Of("chance.once-built", message.In("chance", r.Chance())), unit.Metric)
	if from := r.From(); !from.IsZero() {
		s += " " + theme.Say(from, unit.Metric)
	}
	return s
}
