package app

import (
	"strings"

	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/viewer"
)

// followMark keeps the mark on its finding while values change, and drops it
// when the finding is gone.
func (w *mainWindow) followMark(r geometry.Result) {
	if w.sight.Mark == nil {
		return
	}
	for _, f := range r.Findings {
		if f.Key() == w.sight.Marked {
			w.sight.Mark = w.markOf(f)
			return
		}
	}
	w.sight.Marked, w.sight.Mark = "", nil
}

func (w *mainWindow) markOf(f rule.Finding) *sight.Mark {
	m := &sight.Mark{At: f.Measurement.At, Label: theme.Say(f.Rule.Heading(), w.change.Result.Settled.Units)}
	if f.Rule.Compare != rule.Present && !f.IsBelow() {
		m.Label = theme.Say(message.Of("finding.mark", message.In("heading", f.Rule.Heading()), f.Figure("value")), w.change.Result.Settled.Units)
	}
	return m
}

// goToFinding moves cut and camera to a finding's place, and opens the field that it is of where it
// is of one.
func (w *mainWindow) goToFinding(f rule.Finding) {
	w.log("finding %s", f.Key())
	w.goTo(f, w.markOf(f), f.Key())
	if field := f.Measurement.Field(); field != "" {
		w.toField(field)
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
	w.goTo(c.Finding, &sight.Mark{At: c.Measurement.At, Label: theme.Say(label, w.change.Result.Settled.Units)}, "")
}

// goTo marks a place and shows it; the mark follows the finding of that key.
func (w *mainWindow) goTo(f rule.Finding, m *sight.Mark, key string) {
	w.sight.Marked, w.sight.Mark = key, m
	if _, _, is := w.change.Result.StepPlace(f.Measurement.Subject); is && strings.HasPrefix(f.Measurement.Quantity, "step.") {
		w.cutAcross(f.Measurement.Subject)
		w.view.LookAt(f.Measurement.At)
		return
	}
	mode := sight.CutDrain
	switch family, _, _ := strings.Cut(f.Measurement.Quantity, "."); family {
	case "pipe", "run", "exit", "reducer", "joist", "beyond", "core", "vent", "gully", "stack", "pump":
		mode = sight.CutRun
	}
	w.cutTo(mode, f.Measurement.At)
	w.view.LookAt(f.Measurement.At)
}

// goToFigure shows where one of the plate's figures is to be seen.
func (w *mainWindow) goToFigure(f geometry.Figure) {
	switch {
	case f.Across != rule.Subject{}:
		w.cutAcross(f.Across)
	case f.AlongRun:
		w.cutTo(sight.CutRun, f.At)
	default:
		w.cutTo(sight.CutDrain, f.At)
	}
	w.view.LookAt(f.At)
}

func (w *mainWindow) goToLevel(row buildup.Row) {
	w.cutTo(sight.CutDrain, row.At)
}

func (w *mainWindow) cutTo(mode sight.Mode, at [3]float64) {
	w.cut(func() { w.sight.CutThrough(w.change.Result, mode, at) })
}

// cutAcross cuts across a step.
func (w *mainWindow) cutAcross(step rule.Subject) {
	w.cut(func() { w.sight.CutAcross(step) })
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
