package app

import (
	"strings"

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
	if w.shared.mark == nil {
		return
	}
	for _, f := range r.Findings {
		if f.Key() == w.shared.marked {
			w.shared.mark = w.markOf(f)
			return
		}
	}
	w.shared.marked, w.shared.mark = "", nil
}

func (w *mainWindow) markOf(f rule.Finding) *mark {
	m := &mark{f.Measurement.At, theme.Say(f.Rule.Heading(), w.change.Result.Settled.Units)}
	if f.Rule.Compare != rule.Present {
		m.label = theme.Say(message.Of("finding.mark", message.In("heading", f.Rule.Heading()), f.Figure("value")), w.change.Result.Settled.Units)
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
	label := message.Of("finding.mark", message.In("heading", c.Measurement.Subject.Message()), c.Figure("value"))
	w.goTo(c.Finding, &mark{c.Measurement.At, theme.Say(label, w.change.Result.Settled.Units)}, "")
}

// goTo marks a place and shows it; the mark follows the finding of that key.
func (w *mainWindow) goTo(f rule.Finding, m *mark, key string) {
	w.shared.marked, w.shared.mark = key, m
	mode := cutDrain
	switch family, _, _ := strings.Cut(f.Measurement.Quantity, "."); family {
	case "pipe", "run", "exit", "reducer", "joist", "beyond", "core", "vent", "gully", "stack", "pump":
		mode = cutRun
	}
	w.cutTo(mode, f.Measurement.At)
	w.view.flyTo(f.Measurement.At)
}

func (w *mainWindow) goToLevel(row buildup.Row) {
	w.cutTo(cutDrain, row.At)
}

func (w *mainWindow) cutTo(mode cutMode, at [3]float64) {
	was := w.shared.cutOn
	w.shared.cutThrough(w.change.Result, mode, at)
	if !was {
		w.view.view(viewer.ViewCut)
	}
	w.section.fit()
}

// tellChosen says what the chosen part is and where it comes from.
func (w *mainWindow) tellChosen() {
	for _, p := range w.change.Result.Assembly.Parts {
		if p.ID != w.shared.chosen {
			continue
		}
		b := p.Bounds()
		w.status.SetText(theme.Say(message.Of("readout.chosen", message.In("part", p.Name), message.In("material", p.Material.Message()),
			message.At("low", b.Low[2]), message.At("high", b.High[2]), message.In("from", w.change.Result.Settled.PlaceOf(p.From))), w.change.Result.Settled.Units))
	}
}
