package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// planHead is what stands over the plan: the choice of drawings, what is done there, the worthiest first, and the
// way to the picture where that has the plan's place.
type planHead struct {
	object    *fyne.Container
	several   *control.Several
	options   []control.Option
	toPicture *control.Press
}

// What is done over the plan besides pressing points for something.
const (
	headPutIn = "put in"
	headTurn  = "turn"
)

// newPlanHead makes it; toPicture leads to the picture.
func (w *mainWindow) newPlanHead(toPicture func()) *planHead {
	h := &planHead{}
	does := map[string]func(){headPutIn: w.offerToPutIn, headTurn: w.turnPlan}
	add := func(id string, text, hint message.ID) {
		h.options = append(h.options, control.Option{ID: id, Text: theme.Word(text), Hint: theme.Word(hint)})
	}
	add(headPutIn, "put-in", "put-in.hint")
	for _, p := range []struct {
		to         sight.Pressing
		text, hint message.ID
	}{{sight.PressingMeasure, "tool.measure", "tool.measure.hint"}, {sight.PressingCut, "app.cut", "cut.aim.hint"}, {sight.PressingRod, "rod.stand", "rod.stand.hint"}} {
		add(string(p.to), p.text, p.hint)
		does[string(p.to)] = func() { w.togglePressing(p.to) }
	}
	add(headTurn, "plan.turn", "plan.turn.hint")
	h.several = control.NewSeveral(w.keys, theme.Word("cut.more"), func(id string) { w.guard.Wrap(partWindow, does[id])() })
	h.toPicture = control.NewPress(w.keys, theme.Word("app.to-picture"), w.guard.Wrap(partWindow, toPicture))
	h.toPicture.Hidden = true
	h.toPicture.Hint = func() string { return theme.Word("app.to-picture.hint") }
	h.several.Between(w.drawings.plan.choice, h.toPicture)
	h.show(sight.PressingNothing)
	choice := fitted(128, w.drawings.plan.choice)
	h.object = container.New(layout.NewBorderLayout(nil, nil, choice, h.toPicture), choice, h.several, h.toPicture)
	return h
}

// show has what points are pressed for held down.
func (h *planHead) show(pressing sight.Pressing) { h.several.Set(h.options, 0, string(pressing)) }

// turnPlan turns what is seen from above by a quarter, clockwise; with Shift the other way.
func (w *mainWindow) turnPlan() {
	by := plan.Quarters(1)
	if w.keys.Shifted() {
		by = by.Back()
	}
	w.sight.Change(func(s *sight.State) { s.Turned = s.Turned.And(by) })
	w.log("plan turned %d", w.sight.Turned)
}
