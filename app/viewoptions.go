package app

import (
	"math"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/show"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/viewer"
)

// lookFrom flies to a ready-made view.
func (w *mainWindow) lookFrom(v viewer.View) {
	w.stay()
	if v == viewer.ViewPhoto { // of the finished room, whatever it was opened for before
		w.sight.Change(func(s *sight.State) { *s = show.ForCustomers(*s) })
	}
	w.view.Look(v)
	w.log("view %s", v)
}

// viewSettings are the tools for what else can be set about the picture.
type viewSettings struct {
	light           *lightTools
	wet, dimensions *widget.Check
	pins            *widget.Check // marks all that is found
	apart           *widget.Slider
}

// makeViewSettings makes those tools.
func (w *mainWindow) makeViewSettings() {
	check := func(label message.ID, on func(*sight.State) *bool) *widget.Check {
		return widget.NewCheck(theme.Word(label), func(v bool) { w.sight.Change(func(s *sight.State) { *on(s) = v }) })
	}
	v := &w.settings
	v.light = w.newLightTools()
	v.wet = widget.NewCheck(theme.Word("view.wet"), func(wet bool) { w.desk.Do(edit.Wet(wet)) })
	v.dimensions = check("view.dimensions", func(s *sight.State) *bool { return &s.Dimensions })
	v.pins = check("view.all-pins", func(s *sight.State) *bool { return &s.AllPins })
	v.apart = widget.NewSlider(0, 1)
	v.apart.Step = 0.02
	v.apart.OnChanged = func(apart float64) { w.sight.Change(func(s *sight.State) { s.Apart = apart }) }
}

// openViewOptions opens what else can be set about the picture, under what opens it.
func (w *mainWindow) openViewOptions(under fyne.CanvasObject) {
	v := &w.settings
	var popup *widget.PopUp
	press := func(name message.ID, f func()) *control.Press {
		b := control.NewPress(w.keys, theme.Word(name), w.guard.Wrap(partWindow, func() { popup.Hide(); f() }))
		b.Small = true
		return b
	}
	type other struct {
		view viewer.View
		name message.ID
	}
	rows := container.New(control.Column{Gap: theme.Space1})
	left := container.New(control.Columns{Gap: theme.BetweenTwo})
	for _, l := range []struct {
		stands *control.Press
		look   func()
		name   message.ID
	}{{w.pictureHead.fromAbove, w.fromAbove, "view.plan"}, {w.pictureHead.atCut, w.atCut, "view.at-cut"}} {
		if !l.stands.Visible() {
			left.Add(press(l.name, l.look))
		}
	}
	if len(left.Objects) > 0 {
		control.GroupOf(left)
		rows.Add(left)
	}
	for _, row := range [][]other{
		{{viewer.ViewPhoto, "view.photo"}, {viewer.ViewDrain, "view.drain"}, {viewer.ViewDoorway, "view.doorway"}},
		{{viewer.ViewStanding, "view.standing"}, {viewer.ViewCorner, "view.corner"}, {viewer.ViewFront, "view.front"}},
	} {
		views := container.New(control.Columns{Gap: theme.BetweenTwo})
		for _, o := range row {
			views.Add(press(o.name, func() { w.lookFrom(o.view) }))
		}
		control.GroupOf(views)
		rows.Add(views)
	}
	v.light.show(w.desk.Job())
	showChecked(v.wet, w.desk.Job().Shown().Wet)
	apart := control.NewText(theme.Word("app.layers-drawn-apart")).Styled(theme.TextSecond, false, theme.Ink)
	content := container.New(control.Column{Gap: theme.Space2}, rows, w.looks, w.cutCheck, v.dimensions, v.pins, v.wet, v.light.object,
		container.NewBorder(nil, nil, apart, nil, v.apart), press("tool.picture", w.takePicture))
	if len(w.desk.Job().Shown().Things) > 0 {
		content.Add(press("thing.all-back", func() { w.desk.Do(edit.ThingsBack()) }))
	}
	popup = widget.NewPopUp(container.NewPadded(content), w.window.Canvas())
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(under)
	at = at.AddXY(under.Size().Width-popup.MinSize().Width, under.Size().Height+theme.Space1)
	w.popUp(popup, w.clearOf(w.viewHolder, popup.MinSize(), at))
}

// clearOf is a place for what is put over the window, of a size, that covers as little as can be of what is to stay seen: where it
// was to be, to the left of that, to the right or below.
func (w *mainWindow) clearOf(seen fyne.CanvasObject, size fyne.Size, at fyne.Position) fyne.Position {
	low := fyne.CurrentApp().Driver().AbsolutePositionForObject(seen)
	high := low.Add(seen.Size())
	best, _ := leastOver(low, high, size, w.inWindow, at, fyne.NewPos(low.X-size.Width-theme.Space1, at.Y),
		fyne.NewPos(high.X+theme.Space1, at.Y), fyne.NewPos(at.X, high.Y+theme.Space1))
	return best
}

// leastOver is where something of a size covers least of a part of the window, of some places, each moved by within to where all of
// the size may stand; and how much it covers there.
func leastOver(
	low, high fyne.Position, size fyne.Size, within func(fyne.Size, fyne.Position) fyne.Position, places ...fyne.Position,
) (best fyne.Position, least float32) {
	least = math.MaxFloat32
	for _, at := range places {
		at = within(size, at)
		wide := min(at.X+size.Width, high.X) - max(at.X, low.X)
		tall := min(at.Y+size.Height, high.Y) - max(at.Y, low.Y)
		if covers := max(0, wide) * max(0, tall); covers < least {
			best, least = at, covers
		}
	}
	return best, least
}

// inWindow is a place as near to one as all of a size is in the window.
func (w *mainWindow) inWindow(size fyne.Size, at fyne.Position) fyne.Position {
	room := w.window.Canvas().Size().Subtract(size).SubtractWidthHeight(theme.Space2, theme.Space2)
	return fyne.NewPos(max(theme.Space2, min(at.X, room.Width)), max(theme.Space2, min(at.Y, room.Height)))
}

// popUp shows what is put over the window at a place, or as near to it as all of it is in the window.
func (w *mainWindow) popUp(p *widget.PopUp, at fyne.Position) {
	w.popped = p
	p.ShowAtPosition(w.inWindow(p.MinSize(), at))
}

// closePopUp closes what is put over the window for a moment; it tells whether there was any.
func (w *mainWindow) closePopUp() bool {
	open := w.popped != nil && w.popped.Visible()
	if open {
		w.popped.Hide()
	}
	return open
}

// resetView makes ready for another job, which is looked at as usual.
func (w *mainWindow) resetView() {
	w.closeShowroom()
	w.replaced = true
	if w.change.Opened != w.desk.Opened() {
		w.blank()
	}
	w.setView(sight.Usual())
	w.tray.PickFirst()
	w.desk.ShowWithin(openedWithin)
}

// openedWithin is how long a job that is put on the desk is waited for, so that the first that is seen of the window is of it.
// Common practice, no source.
const openedWithin = 3 * time.Second

// setView puts the whole state of the view in place; what moved by itself ends.
func (w *mainWindow) setView(to sight.State) {
	w.view.Stop()
	w.stay()
	w.sight.Change(func(s *sight.State) { *s = to })
}

// centreCut brings the cut back to its own place and shows all drawings whole.
func (w *mainWindow) centreCut() {
	w.sight.BringBack()
	w.fitAll()
}

// fitAll shows all drawings whole.
func (w *mainWindow) fitAll() {
	for _, v := range w.drawn() {
		v.Fit()
	}
}

// showFit has the button that brings back held down while there is anything to bring back.
func (w *mainWindow) showFit() {
	s := &w.sight.State
	away := s.Corner && s.CornerMM != [sight.Planes]float64{} || !s.Corner && s.Cutting != s.Cutting.Home()
	for _, v := range w.drawn() {
		away = away || v.Touched()
	}
	if w.fit.Chosen != away {
		w.fit.Chosen = away
		w.fit.Refresh()
	}
}

// showState brings every tool to the view's state. The tools do not tell of it,
// as nobody used them.
func (w *mainWindow) showState() {
	s, v := &w.sight.State, &w.settings
	showChecked(&w.cutCheck.Check, s.CutOn)
	showChecked(v.dimensions, s.Dimensions)
	showChecked(v.pins, s.AllPins)
	showChecked(&w.water.Run.Check, s.Water)
	w.showCut()
	w.showFit()
	w.looks.Set(looks(), strconv.Itoa(int(s.Look)))
	showValue(v.apart, s.Apart)
	w.stage.Set(int(s.Stage))
	w.showHead()
	w.planHead.show(s.Pressing)
	w.drawings.tellLevel(s.Level.Of)
	w.rods.follow()
	w.levels.Follow()
	w.answer.Follow()
}

func showChecked(c *widget.Check, on bool) {
	if c.Checked != on {
		c.Checked = on
		c.Refresh()
	}
}

func showChosen(s *widget.Select, i int) {
	if chosen := s.Options[i]; s.Selected != chosen {
		s.Selected = chosen
		s.Refresh()
	}
}

func showValue(s *widget.Slider, v float64) {
	if s.Value != v {
		s.Value = v
		s.Refresh()
	}
}

// editPart opens the field a part comes from.
func (w *mainWindow) editPart(id string) {
	for _, p := range w.change.Result.Assembly.Parts {
		if p.ID != id {
			continue
		}
		w.log("edit %s", p.From)
		w.toField(p.From)
	}
}

// toField opens the field of a path in the job's file, or what is about it.
func (w *mainWindow) toField(key string) {
	if _, ok := job.StationOf(key); !ok {
		return
	}
	w.sides.openFields() // what does not show takes no focus
	reveal := func() {
		if _, focus := w.tray.Reveal(key); focus != nil {
			focus()
		}
	}
	reveal()
	// Fields that were never painted are not where they will be, and take no keys: once more when they were.
	at, keys := w.tray.Station(), w.window.Canvas().Focused()
	w.sight.After(focusAfter, partWindow, func() {
		if w.sides.at == sideFields && w.tray.Station() == at && w.window.Canvas().Focused() == keys {
			reveal()
		}
	})
}
