package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/answer"
	"underfall/app/runs"
	"underfall/app/theme"
	"underfall/app/trial"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// trialAsks is what a trial asks of the window.
func (w *mainWindow) trialAsks() trial.Asks {
	return trial.Asks{Try: w.desk.Try, Result: w.desk.Result, Keep: func(e edit.Edit) { w.desk.Do(e) }, OnWindow: w.sight.Do,
		Opened: w.trialOpened, Ended: w.trialEnded, Shown: w.showTried,
		Look: func(seen func(edit.Edit)) trial.Look { return answer.NewLook(w.keys, seen) }}
}

// trialOpened shows the trial that has begun.
func (w *mainWindow) trialOpened() {
	w.trialTold.Tell("", false)
	w.frame.openTrial(true)
	w.window.Canvas().Focus(w.trial.First())
	w.setTitle()
	w.log("trial on")
}

// showTried tells the rail what is tried at which stations.
func (w *mainWindow) showTried(r geometry.Result, a geometry.Answer, at []job.Station) {
	w.rail.Try(slices.DeleteFunc(r.StationsOf(a), func(f geometry.StationFacts) bool { return !slices.Contains(at, f.Station) }), r.Settled.Units)
}

// trialEnded shows the job again, and says why the trial ended where nobody put it back or kept it: until that is
// dismissed, or another trial begins.
func (w *mainWindow) trialEnded(why message.Message) {
	w.rail.Try(nil, w.desk.Job().Units)
	if w.frame.arrangement.trial {
		w.window.Canvas().Unfocus()
		w.frame.openTrial(false)
		w.setTitle()
		w.log("trial off")
	}
	if !why.IsZero() {
		w.trialTold.Tell(theme.Bare(why, w.desk.Job().Units), why.ID == "trial.not-worked-out",
			answer.Offer{Text: theme.Word("app.dismiss"), Do: w.guard.Wrap(partChange, func() { w.trialTold.Tell("", false) })})
	}
}

// try tries a way among others, with what is being typed taken first.
func (w *mainWindow) try(ways []trial.Way, at int) {
	w.window.Canvas().Unfocus()
	t := trial.Trial{Ways: ways, At: at}
	if r := w.change.Result; len(r.Layout.Walls) > 0 && w.drawings.shows(w.section) {
		along := w.sight.Cut(r).Along
		t.Along = plan.Point{along.X(), along.Y()}
	}
	w.trial.Open(t)
}

// tryOffer tries what is offered about a card. What builds nothing otherwise, as saying that something is so, is made
// at once: there is nothing to be seen of it.
func (w *mainWindow) tryOffer(all []fit.Offer, at int) {
	was := w.answer.Result()
	if is := &all[at].After; assembly.Same(was.Settled, is.Settled) && was.Heights.Same(&is.Heights) {
		w.desk.Do(all[at].Edit)
		return
	}
	ways := make([]trial.Way, len(all))
	for i, o := range all {
		ways[i] = trial.Way{Does: o.Does, Edit: o.Edit, Cut: trial.CutOf(was, o.For), Ends: o.For}
	}
	w.try(ways, at)
}

// tryRun tries one of the runs that were found.
func (w *mainWindow) tryRun(all []runs.Way, at int) {
	ways := make([]trial.Way, len(all))
	for i, a := range all {
		ways[i] = trial.Way{Does: a.Does, Edit: a.Edit, Cut: section.Cutting{Of: section.CutPipe}}
	}
	w.try(ways, at)
}

// tryParts tries the other parts that there are for an input, the first of them first.
func (w *mainWindow) tryParts(in job.Input) {
	cut := section.Cutting{Of: section.CutWayIn}
	switch in.Key {
	case "parts.pipe":
		cut.Of = section.CutPipe
	case "parts.drain":
		cut.Of = section.CutDrain
	}
	j, beside := w.desk.Job(), outside(w.desk, w.parts)
	var ways []trial.Way
	for _, p := range in.Choice.Parts(&j, &w.parts) {
		if id := p.Of().ID; id != in.Choice.At(&j) {
			does := message.Of("trial.part", message.In("input", message.Of(in.Label())), message.In("part", part.Name(p)))
			ways = append(ways, trial.Way{Does: does, Edit: edit.Choose(in, id, beside), Cut: cut})
		}
	}
	if len(ways) > 0 {
		w.try(ways, 0)
	}
}

// trialKey gives a key to the trial that is shown; it tells whether the key goes no further.
func (w *mainWindow) trialKey(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyF1, fyne.KeyF6, fyne.KeyF11:
		return false
	}
	return w.trial.Key(k) || w.trial.Running()
}

// holdKeys has Space show the job before for as long as it is down, where nothing that has the focus wants it.
func (w *mainWindow) holdKeys(c fyne.Canvas) {
	keys, ok := c.(desktop.Canvas)
	if !ok {
		return
	}
	hold := func(on bool) func(*fyne.KeyEvent) {
		return func(k *fyne.KeyEvent) {
			defer w.guard.Catch(partWindow)
			if k.Name == fyne.KeySpace {
				w.trial.Hold(on)
			}
		}
	}
	keys.SetOnKeyDown(hold(true))
	keys.SetOnKeyUp(hold(false))
}

// setTitle gives the window the title of the job that is worked on, or tried on.
func (w *mainWindow) setTitle() {
	if w.start.shown() {
		return
	}
	s := title(w.change)
	if w.trial.Running() {
		s = theme.Word("trial.window", message.Name("title", s))
	}
	w.window.SetTitle(s)
}
