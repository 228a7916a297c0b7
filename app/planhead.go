package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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
	// putsIn are what can be put into the room, each by itself; nil for all in one list.
	putsIn []control.Option
}

// What is done over the plan besides pressing points for something.
const (
	headPutIn = "put in"
	headTurn  = "turn"
)

// newPlanHead makes it.
func (w *mainWindow) newPlanHead() *planHead {
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
	h.several = control.NewSeveral(w.keys, theme.Word("cut.more"), func(id string) {
		do := does[id]
		if do == nil {
			do = func() { w.putNamed(message.ID(id)) }
		}
		w.guard.Wrap(partWindow, do)()
	})
	h.toPicture = w.leadsTo("app.to-picture", "app.to-picture.hint", regionPicture)
	h.several.Between(w.drawings.plan.choice, h.toPicture)
	h.show(sight.PressingNothing)
	h.object = container.New(control.Chosen{Gap: theme.Space1}, w.drawings.plan.choice, h.several, container.NewHBox(h.toPicture))
	return h
}

// show has what points are pressed for held down.
func (h *planHead) show(pressing sight.Pressing) {
	options := h.options
	if len(h.putsIn) > 0 {
		options = slices.Concat(h.putsIn, h.options[1:])
	}
	h.several.Set(options, 0, string(pressing))
}

// turnPlan turns what is seen from above by a quarter, clockwise; with Shift the other way.
func (w *mainWindow) turnPlan() {
	by := plan.Quarters(1)
	if w.keys.Shifted() {
		by = by.Back()
	}
	w.sight.Change(func(s *sight.State) { s.Turned = s.Turned.And(by) })
	w.log("plan turned %d", w.sight.Turned)
}
