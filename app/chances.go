package app

import (
	"cmp"
	"context"
	"slices"
	"time"

	"underfall/app/answer"
	"underfall/app/drawing"
	"underfall/app/runs"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/message"
	"underfall/geometry/unknown"
)

const (
	// usualBuilds is how many builds are counted for what may go wrong.
	usualBuilds = 10000
	// firstAfter is how long a job must rest before its chances are first counted, from few builds, which keeps
	// all processors busy as well: longer than numbers and picture of a change take to be shown.
	firstAfter = 90 * time.Millisecond
	// chanceAfter is how long a job must rest before its chances are counted in full, which keeps
	// all processors busy for a moment: longer than between two steps of a drag.
	chanceAfter = 300 * time.Millisecond
	// exploreAfter is how long a job must rest before it is explored: less than a person takes to look.
	exploreAfter = 120 * time.Millisecond
	// remedyAfter is how long a job must rest before what can be done about its cards is tried.
	remedyAfter = 150 * time.Millisecond
	// lowerAfter is how long a job must rest before ways for its pipe are looked for that need a lower base, which keeps all
	// processors busy for most of a second.
	lowerAfter = 500 * time.Millisecond
)

// How a fault in what is worked out at rest is told.
const (
	partChances   message.ID = "fault.chances"
	partExploring message.ID = "fault.exploring"
	partRemedies  message.ID = "fault.remedies"
	partLower     message.ID = "fault.lower"
)

// followers work out, beside the window, what a result does not hold: what may go wrong once it
// is built, first from few builds so that the headline says so at once, then from many; and what
// a job that is not all known may come to.
func (w *mainWindow) newFollowers() []follower {
	first := onceDrawn(w, partChances, firstAfter, func(ctx context.Context, r geometry.Result) (chance.Chances, error) {
		return chance.First(ctx, r.Levelled, r.Findings, chance.Seed)
	}, w.showChances)
	full := onceDrawn(w, partChances, chanceAfter, func(ctx context.Context, r geometry.Result) (chance.Chances, error) {
		return chance.Count(ctx, r.Levelled, r.Findings, cmp.Or(w.options.Builds, usualBuilds), chance.Seed)
	}, w.showChances)
	exploring := onceDrawn(w, partExploring, exploreAfter, unknown.Explore, func(x unknown.Exploration) { w.answer.ShowPossible(&x) })
	exploring.applies = func(r geometry.Result) bool { return unknown.Applies(&r.Stated) }
	remedies := onceDrawn(w, partRemedies, remedyAfter, answer.OffersOf, func(all map[string]answer.Offers) {
		w.answer.ShowOffers(all)
		w.log("offers for %d cards", len(all))
	})
	return []follower{first, full, exploring, remedies, w.lower}
}

// onceDrawn works something out of every result once all that is seen of it is drawn; it holds for every job that is built the same.
func onceDrawn[T any](
	w *mainWindow, part message.ID, after time.Duration, work func(context.Context, geometry.Result) (T, error), show func(T),
) *atRest[T] {
	return &atRest[T]{do: w.sight.Do, guard: w.guard, part: part, after: after, ready: w.drawnAll, keeps: true, work: work, show: show,
		applies: func(geometry.Result) bool { return true }}
}

// drawnAll tells whether all views that are seen are drawn, the picture once at least: what is worked out at rest keeps all
// processors busy.
func (w *mainWindow) drawnAll() bool {
	return !slices.ContainsFunc(w.drawn(), (*drawing.View).Behind) && !w.view.Behind()
}

// newLower looks for ways for the pipe that need a lower base, while the levels, which say so, are open, and do not say it yet.
func (w *mainWindow) newLower() *atRest[runs.Lower] {
	return &atRest[runs.Lower]{do: w.sight.Do, guard: w.guard, part: partLower, after: lowerAfter, work: runs.LowerThan,
		applies: func(geometry.Result) bool { return w.sides.shows(answer.HeightsList) && !w.levels.LowerSaid() },
		show: func(l runs.Lower) {
			var try func()
			if len(l.Ways) > 0 {
				try = func() { w.tryRun(l.Ways, 0) }
			}
			w.levels.ShowLower(l.Said, len(l.Ways)-1, try)
			w.log("%d lower ways", len(l.Ways))
		}}
}

// showChances shows them where they have been counted. Those of few builds may come after those of many, on a busy computer,
// and are of no use then.
func (w *mainWindow) showChances(c chance.Chances) {
	if shown := w.answer.Chances(); c.Rough && shown != nil && !shown.Rough {
		return
	}
	w.answer.ShowRisks(c)
	a := w.answer.Answer()
	w.levels.ShowAnswer(a)
	w.log("answer %s, %d in 100, counted %v", a.Standing, a.InHundred(), a.Counted)
}
