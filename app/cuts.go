package app

import (
	"strconv"

	"fyne.io/fyne/v2"
	"underfall/app/answer"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/viewer"
)

// cutPlaces are the places that the section can be cut through, to press, with what is cut now.
type cutPlaces struct {
	several *control.Several
	says    *control.Text // what the cut goes through, and what one looks at
	places  []section.Cutting
	turn    *control.Press // opens the field of how far the cut is turned
	figure  *figure        // in the place of a figure of the section, or of what turn says
}

// cornerPlace is how a corner that is cut out is told from the places, which have numbers.
const cornerPlace = "corner"

func (w *mainWindow) newCutPlaces() *cutPlaces {
	c := &cutPlaces{says: control.NewWrapped("").Styled(theme.TextCaption, false, theme.Caption)}
	c.several = control.NewSeveral(w.keys, theme.Word("cut.more"), w.guardPlace)
	c.figure = newFigure(w, nil)
	c.turn = control.NewPress(w.keys, theme.Word("cut.turn"), w.guard.Wrap(partWindow, func() {
		size := c.turn.Size()
		w.typeTurn(c.figure, c.turn, fyne.NewPos(size.Width/2, size.Height/2))
	}))
	c.turn.Bare, c.turn.Small = true, true
	c.turn.Hint = func() string { return theme.Word("cut.turn.hint") }
	return c
}

func (w *mainWindow) guardPlace(id string) {
	w.guard.Wrap(partWindow, func() { w.pressPlace(id) })()
}

// pressPlace cuts at a place that was pressed, from its own start.
func (w *mainWindow) pressPlace(id string) {
	if id == cornerPlace {
		w.stay()
		w.drawings.show(w.section)
		w.cut(w.sight.CutCorner)
		w.view.Look(viewer.ViewCut)
		return
	}
	if i, err := strconv.Atoi(id); err == nil && i < len(w.cuts.places) {
		w.cutThere(w.cuts.places[i])
	}
}

// cutThere cuts at a place and looks at it, in the section too where that was away for what lies along the waste.
func (w *mainWindow) cutThere(c section.Cutting) {
	w.stay()
	w.drawings.show(w.section)
	w.cut(func() { w.sight.CutThere(c) })
	w.view.Look(viewer.ViewCut)
}

// showCut shows the places that there are, which one is cut, and what one looks at; while all of the run is shown along the waste,
// that it is.
func (w *mainWindow) showCut() {
	c, r, s := w.cuts, w.change.Result, &w.sight.State
	if len(r.Layout.Walls) == 0 {
		return
	}
	c.places = section.CutPlaces(r)
	if s.Cutting.Of == section.CutPoints {
		c.places = append(c.places, s.Cutting.Home())
	}
	var options []control.Option
	chosen := ""
	for i, place := range c.places {
		id := strconv.Itoa(i)
		options = append(options, control.Option{ID: id, Text: theme.Sentence(place.Goes(r), r.Settled.Units)})
		if !s.Corner && chosen == "" && place.SamePlace(r, s.Cutting) {
			chosen = id
		}
	}
	options = append(options, control.Option{ID: cornerPlace, Text: theme.Word("cut.corner")})
	said := theme.Say(s.Cutting.Says(r), r.Settled.Units)
	if s.Corner {
		chosen, said = cornerPlace, theme.Word("cut.corner")
	}
	if w.drawings.shows(w.views.long) {
		chosen, said = "", theme.Word("app.along-the-waste.says")
	}
	c.several.Set(options, 1, chosen)
	c.says.SetText(said)
	w.showTurn()
}

// placeKey cuts at the place that a key stands for, or turns the plan, while a drawing has the keys; it tells
// whether the key stands for that.
func (w *mainWindow) placeKey(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyW:
		w.cutThere(section.Cutting{Of: section.CutWayIn})
	case fyne.KeyD:
		w.cutThere(w.nextDoor())
	case fyne.KeyP:
		w.cutThere(section.Cutting{Of: section.CutPipe})
	case fyne.KeyR:
		w.turnPlan()
	default:
		return false
	}
	return true
}

// nextDoor is the cut across the doorway after the one that is cut now; across that with the greatest step
// where none is.
func (w *mainWindow) nextDoor() section.Cutting {
	r, now := w.change.Result, w.sight.Cutting
	doors := r.Layout.Doors
	for i := range doors {
		across := section.Across(rule.Subject{Of: rule.Doorway, Number: doors[i].Index + 1})
		if !w.sight.Corner && across.SamePlace(r, now) && now == now.Home() {
			return section.Across(rule.Subject{Of: rule.Doorway, Number: doors[(i+1)%len(doors)].Index + 1})
		}
	}
	return section.Cutting{Of: section.CutDoor}
}

// atLevel has the level cut go through something, or lie at a height that is stated from where it is on.
func (w *mainWindow) atLevel(of section.CuttingOf) {
	to := section.Cutting{Of: of}
	if of == section.CutLevel {
		plane, err := w.sight.Level.Plane(w.change.Result)
		if err != nil {
			return
		}
		to.LevelMM = plane.Origin.Z()
	}
	if w.sight.Level != to {
		w.sight.Change(func(s *sight.State) { s.Level = to })
	}
}

// cutPoints cuts through two points that were pressed, or says in words that stay why that is no cut.
func (w *mainWindow) cutPoints(c section.Cutting) {
	w.setPressing(sight.PressingNothing)
	if _, err := c.Plane(w.change.Result); err != nil {
		w.log("no cut: %v", err)
		again := w.guard.Wrap(partWindow, func() { w.dismiss(); w.setPressing(sight.PressingCut) })
		w.refuse(theme.Say(message.OfError(err), w.change.Result.Settled.Units), answer.Offer{Text: theme.Word("cut.again"), Do: again})
		return
	}
	w.cutThere(c)
}
