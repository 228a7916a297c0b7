package app

import (
	"context"
	"time"

	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
	"underfall/geometry/unknown"
)

const (
	chanceSamples = 10000
	// chanceAfter is how long a job must rest before its chances are counted in full, which keeps
	// all processors busy for a moment: longer than between two steps of a drag.
	chanceAfter = 300 * time.Millisecond
	// exploreAfter is how long a job must rest before it is explored: less than a person takes to look.
	exploreAfter = 120 * time.Millisecond
)

// How a fault in what is worked out at rest is told.
const (
	partChances   message.ID = "fault.chances"
	partExploring message.ID = "fault.exploring"
)

// followers work out, beside the window, what a result does not hold: what may go wrong once it
// is built, first from few builds so that the headline says so at once, then from many; and what
// a job that is not all known may come to.
func (w *mainWindow) newFollowers() []follower {
	always := func(geometry.Result) bool { return true }
	unsettled := func(r geometry.Result) bool {
		return len(r.Stated.Standing(job.NotKnown))+len(r.Stated.Standing(job.Assumed)) > 0
	}
	return []follower{
		&atRest[chance.Chances]{do: w.sight.Do, guard: w.guard, part: partChances, applies: always, show: w.showChances,
			work: func(ctx context.Context, r geometry.Result) (chance.Chances, error) {
				return chance.First(ctx, r.Levelled, r.Findings, chance.Seed)
			}},
		&atRest[chance.Chances]{do: w.sight.Do, guard: w.guard, part: partChances, after: chanceAfter, applies: always, show: w.showChances,
			work: func(ctx context.Context, r geometry.Result) (chance.Chances, error) {
				return chance.Count(ctx, r.Levelled, r.Findings, chanceSamples, chance.Seed)
			}},
		&atRest[unknown.Exploration]{do: w.sight.Do, guard: w.guard, part: partExploring, after: exploreAfter, applies: unsettled,
			work: unknown.Explore, show: func(x unknown.Exploration) { w.findings.showPossible(&x) }},
	}
}

// showChances shows them where they have been counted.
func (w *mainWindow) showChances(c chance.Chances) {
	w.findings.showRisks(c)
	w.levels.ShowAnswer(w.findings.answer)
	w.log("answer %s, %d in 100, counted %v", w.findings.answer.Standing, w.findings.answer.InHundred(), w.findings.answer.Counted)
}

// riskText says how likely a rule is to be broken, and why.
func riskText(r chance.Risk) string {
	s := theme.Say(message.Of("chance.once-built", message.In("chance", r.Chance())), unit.Metric)
	if from := r.From(); !from.IsZero() {
		s += " " + theme.Say(from, unit.Metric)
	}
	return s
}
