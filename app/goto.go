package app

import (
	"strings"

	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/viewer"
)

// followMark keeps the mark of what is looked at on its finding while values change, and drops it when the finding is
// gone: where that is so only in what is being typed, until that is given up.
func followMark(s *sight.State, r geometry.Result, typed bool) {
	s.Mark = nil
	for _, f := range r.Findings {
		if f.Key() == s.Marked {
			s.Mark = markOf(f)
			return
		}
	}
	if !typed {
		s.Marked = ""
	}
}

func markOf(f rule.Finding) *sight.Mark {
	return &sight.Mark{At: f.Measurement.At, Label: sight.LabelOf(f)}
}

// goToFinding moves cut and camera to a finding's place, and opens the field that it is of where it
// is of one.
func (w *mainWindow) goToFinding(f rule.Finding) {
	w.log("finding %s", f.Key())
	// The field first: that of the room would have the drawings' place for the plan alone.
	if field := f.Measurement.Field(); field != "" {
		w.toField(field)
	}
	w.goTo(f, markOf(f), f.Key())
}

// goToPin goes to what is found where a pin was pressed, by its card.
func (w *mainWindow) goToPin(f rule.Finding) {
	if !w.answer.Open(f) { // of a result that its cards are not shown of yet
		w.goToFinding(f)
	}
}

// goToCheck moves cut and camera to what was held against a limit; one that is
// kept is marked with what was measured.
func (w *mainWindow) goToCheck(c rule.Check) {
	if !c.Kept {
		w.goToFinding(c.Finding)
		return
	}
	label := message.Of("finding.mark", message.In("heading", c.Measurement.Message()), c.Figure("value"))
	w.goTo(c.Finding, &sight.Mark{At: c.Measurement.At, Label: label}, "")
}

// goTo marks a place and shows it; the mark follows the finding of that key.
func (w *mainWindow) goTo(f rule.Finding, m *sight.Mark, key string) {
	of := section.CutDrain
	switch family, _, _ := strings.Cut(f.Measurement.Quantity, "."); family {
	case "pipe", "run", "exit", "reducer", "joist", "beyond", "core", "vent", "gully", "stack", "pump":
		of = section.CutPipe
	}
	to := destination{of: of, at: f.Measurement.At, mark: m, key: key, part: w.change.Result.Timber(f.Measurement.Subject)}
	if _, _, is := w.change.Result.StepPlace(f.Measurement.Subject); is {
		to.across = f.Measurement.Subject
	}
	w.flyTo(to)
}

// goToFigure shows where one of the plate's figures is to be seen.
func (w *mainWindow) goToFigure(f geometry.Figure) {
	to := destination{of: section.CutDrain, at: f.At, across: f.Across, mark: markAs(f.At, f.Of, f.Value)}
	if f.AlongRun {
		to.of = section.CutPipe
	}
	w.flyTo(to)
}

// goToLevel shows where a level of the schedule is.
func (w *mainWindow) goToLevel(row buildup.Row) {
	to := destination{of: section.CutDrain, at: row.At}
	if row.Piece != (message.Numbered{}) {
		to.of = section.CutPipe
	}
	to.mark = markAs(row.At, row.Message(), message.Of("levels.value", message.Arg{Name: "value", Value: row.Said()}))
	w.flyTo(to)
}

// markAs marks a place with what is there and its figure.
func markAs(at [3]float64, of, value message.Message) *sight.Mark {
	return &sight.Mark{At: at, Label: message.Of("finding.mark", message.In("heading", of), message.In("value", value))}
}

// destination is a place in the model that is gone to.
type destination struct {
	of     section.CuttingOf
	at     [3]float64
	across rule.Subject // the step that is cut across; the zero subject for a cut of that kind through the place
	mark   *sight.Mark
	key    string // of the finding that the mark follows; empty for none
	part   string // what is lit; empty for what lies at the place
}

// flyTo takes cut and camera to a place, marks it and lights what lies there; the way back stays open.
// What is not built yet at the stage that is looked at is shown built.
func (w *mainWindow) flyTo(to destination) {
	r := w.change.Result
	if len(r.Layout.Walls) == 0 {
		return
	}
	if w.before == nil {
		before := w.sight.State
		w.before = &before
	}
	w.sight.Change(func(s *sight.State) {
		s.Mark, s.Marked, s.Apart, s.Stage = to.mark, to.key, 0, buildup.StageTile
		if s.Chosen = to.part; s.Chosen == "" {
			s.Chosen = w.view.PartAt(to.at)
		}
	})
	w.lit = w.sight.Chosen
	cut := section.Cutting{Of: to.of}
	if to.across != (rule.Subject{}) {
		cut = section.Across(to.across)
	}
	w.cut(func() { w.sight.CutThrough(r, cut, to.at) })
	w.drawings.SelectIndex(0)
	w.frame.bring(regionPicture)
	w.view.LookAt(to.at)
	w.showHead()
	w.log("place %s %.0f", w.sight.Cutting.Of, to.at)
}

// goBack brings cut and camera back to what they were before a place was gone to; it tells whether
// there was anything to go back to.
func (w *mainWindow) goBack() bool {
	if w.before == nil {
		return false
	}
	before := *w.before
	w.before = nil
	followMark(&before, w.change.Result, w.change.Preview)
	w.sight.BackTo(w.change.Result, before)
	w.section.Fit()
	w.view.LookFrom(before.Camera, before.View)
	w.showHead()
	w.log("back")
	return true
}

// stay gives up the way back: something else was asked to be looked at.
func (w *mainWindow) stay() {
	w.before = nil
	w.unlight()
	w.showHead()
}

// unlight puts out what was lit because its place was gone to.
func (w *mainWindow) unlight() {
	if w.lit != "" && w.sight.Chosen == w.lit {
		w.sight.Change(func(s *sight.State) { s.Chosen = "" })
	}
	w.lit = ""
}

// cut moves the cut, and shows it where none was.
func (w *mainWindow) cut(move func()) {
	was := w.sight.CutOn
	move()
	if !was {
		w.view.Look(viewer.ViewCut)
	}
	w.section.Fit()
}

// tellChosen says what the chosen part is and where it comes from.
func (w *mainWindow) tellChosen() {
	for _, p := range w.change.Result.Assembly.Parts {
		if p.ID != w.sight.Chosen {
			continue
		}
		b := p.Bounds()
		w.status.SetText(theme.Say(message.Of("readout.chosen", message.In("part", p.Name), message.In("material", p.Material.Message()),
			message.At("low", b.Low[2]), message.At("high", b.High[2]), message.In("from", w.change.Result.Settled.PlaceOf(p.From))), w.change.Result.Settled.Units))
	}
}
