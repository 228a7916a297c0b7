package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/viewer"
)

// pictureHead is what stands over the picture: the way back from a place, the two ways to look that are
// wanted most, and what opens the others.
type pictureHead struct {
	object                   *fyne.Container
	back                     *control.Press
	fromAbove, atCut, toPlan *control.Press
}

// newPictureHead makes it.
func (w *mainWindow) newPictureHead() *pictureHead {
	press := func(text, hint message.ID, f func()) *control.Press {
		b := control.NewPress(w.keys, theme.Word(text), w.guard.Wrap(partWindow, f))
		b.Small, b.Hint = true, func() string { return theme.Word(hint) }
		return b
	}
	h := &pictureHead{
		back:      press("app.back", "app.back.hint", func() { w.goBack() }),
		fromAbove: press("view.plan", "view.plan.hint", w.fromAbove),
		atCut:     press("view.at-cut", "view.at-cut.hint", w.atCut),
		toPlan:    w.leadsTo("app.plan", "app.to-plan.hint", regionPlan),
	}
	h.toPlan.Small = true
	h.back.Key, h.back.Hidden = "0", w.before == nil
	more := press("", "tool.options.hint", nil).WithIcon(theme.IconMore)
	more.OnPressed = w.guard.Wrap(partWindow, func() { w.openViewOptions(more) })
	title := control.NewText(theme.Word("app.to-picture")).Styled(theme.TextBody, true, theme.Ink)
	// In little room the two ways to look stand among the others.
	inset := layout.NewCustomPaddedLayout(0, 0, theme.Space2, 0) // as what is chosen over the other drawings
	h.object = container.New(control.Head{Gap: theme.BetweenTwo, Yield: 3}, container.New(inset, title), h.fromAbove, h.atCut, h.back, h.toPlan, more)
	control.GroupOf(h.object)
	return h
}

// show shows whether there is a way back, and which of the two ways it is looked now.
func (h *pictureHead) show(s *sight.State, back bool) {
	if h.back.Hidden == back {
		h.back.Hidden = !back
		h.object.Refresh()
	}
	choose := func(b *control.Press, on bool) {
		if b.Chosen != on {
			b.Chosen = on
			b.Refresh()
		}
	}
	choose(h.fromAbove, s.View == viewer.ViewPlan)
	choose(h.atCut, s.View == viewer.ViewCut && s.CutOn)
}

// showHead brings what stands over the picture to what is looked at.
func (w *mainWindow) showHead() { w.pictureHead.show(&w.sight.State, w.before != nil) }

// fromAbove looks at all of the room from above.
func (w *mainWindow) fromAbove() {
	w.sight.Change(func(s *sight.State) { s.CutOn = false })
	w.lookFrom(viewer.ViewPlan)
}

// atCut looks at what is cut.
func (w *mainWindow) atCut() {
	w.sight.Change(func(s *sight.State) { s.CutOn = true })
	w.lookFrom(viewer.ViewCut)
}

// stageBar goes through the stages of the work.
func (w *mainWindow) stageBar() fyne.CanvasObject {
	names := make([]string, buildup.Stages)
	for i := range names {
		names[i] = theme.Book().Say(buildup.Stage(i).Message())
	}
	w.stage = control.NewSteps(w.keys, theme.Word("app.build-stage"), names, func(at int) {
		w.view.Arrive(buildup.Stage(at))
		w.log("stage %s", w.sight.Stage)
	})
	return w.stage
}
