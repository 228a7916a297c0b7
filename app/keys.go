package app

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/viewer"
)

// shortcuts are the keys; Ctrl with a letter, and plain keys when no field has
// the focus.
func (w *mainWindow) shortcuts() {
	c := w.window.Canvas()
	add := func(s fyne.Shortcut, f func()) {
		f = w.guard.Wrap(partWindow, f)
		onDesk := func() {
			if !w.start.typed(s) {
				f()
			}
		}
		w.keys.Shortcuts[s.ShortcutName()] = f
		c.AddShortcut(s, func(fyne.Shortcut) { onDesk() })
	}
	ctrl := func(key fyne.KeyName, f func()) { add(withCtrl(key), f) }
	ctrl(fyne.KeyN, w.start.newJob)
	ctrl(fyne.KeyO, w.open)
	ctrl(fyne.KeyS, w.save)
	ctrl(fyne.KeyP, w.putOnPaper)
	ctrl(fyne.KeyQ, w.close)
	shifted := func(key fyne.KeyName) fyne.Shortcut {
		return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}
	}
	// The driver has its own names for these two on most systems.
	add(&fyne.ShortcutUndo{}, w.undoLast)
	ctrl(fyne.KeyZ, w.undoLast)
	add(&fyne.ShortcutRedo{}, w.redoLast)
	ctrl(fyne.KeyY, w.redoLast)
	add(shifted(fyne.KeyZ), w.redoLast)
	ctrl(fyne.KeyM, func() { w.togglePressing(sight.PressingMeasure) })
	ctrl(fyne.KeyT, w.toggleTheme)
	add(shifted(fyne.KeyS), w.saveAs)
	for i, key := range []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7} {
		add(&desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierAlt}, func() { w.openStation(i) })
	}
	w.keys.Plain = w.plainKey
	c.SetOnTypedKey(w.keys.Plain)
	w.holdKeys(c)
}

// withCtrl is a letter with Ctrl.
func withCtrl(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
}

// ctrlName is what the driver calls such a shortcut.
func ctrlName(key fyne.KeyName) string { return withCtrl(key).ShortcutName() }

// plainKey does what a key without Ctrl stands for.
func (w *mainWindow) plainKey(e *fyne.KeyEvent) {
	defer w.guard.Catch(partWindow)
	const stepMM = 10
	if w.about != nil {
		w.about.key(e)
		return
	}
	if w.answerKey(e.Name) || e.Name == fyne.KeyEscape && w.closePopUp() {
		return
	}
	if w.papers != nil {
		w.papers.room.Key(e.Name)
		return
	}
	if w.start.key(e.Name) || w.trialKey(e.Name) {
		return
	}
	if w.figureKey(e.Name) {
		return
	}
	if w.cameraKey(e.Name) || w.pictureKey(e.Name) {
		w.frame.bring(regionPicture)
		return
	}
	switch e.Name {
	case fyne.KeyF1:
		w.openAbout()
	case fyne.KeyLeftBracket:
		w.sight.Nudge(w.change.Result, -stepMM)
	case fyne.KeyRightBracket:
		w.sight.Nudge(w.change.Result, stepMM)
	case fyne.Key0:
		if !w.goBack() {
			w.centreCut()
		}
	case fyne.KeyF6:
		w.nextRegion()
	case fyne.KeyF11:
		w.openShowroom()
	case fyne.KeyP:
		w.drawings.next()
	case fyne.KeyF:
		w.fitAll()
	case fyne.KeyEscape:
		if w.tag.key(e.Name) || w.cuts.figure.key(e.Name) {
			return
		}
		if w.showroom == nil {
			w.sides.close()
		}
		w.closeShowroom()
		w.unlight()
		w.setPressing(sight.PressingNothing)
	}
}

// oneFigure is how soon after another a digit belongs to the same figure: who types one takes a fifth of a second from
// digit to digit, common practice, no source.
const oneFigure = 400 * time.Millisecond

// figureKey tells whether a key was for a figure and has been seen to. With something chosen in the plan, and the keys
// there, its field opens, into which the figure is then typed. Else a digit by itself turns the view, where the keys go to
// the picture or to nothing; what is one of several, or typed into something else, means nothing, and it is said what there
// is to press. What is only lit because its place was gone to is not chosen, and nought leads back from there.
func (w *mainWindow) figureKey(k fyne.KeyName) bool {
	focused, _ := w.window.Canvas().Focused().(fyne.CanvasObject)
	at := w.frame.regionOf(focused)
	gone := w.before != nil && (k == fyne.Key0 || w.sight.Chosen == w.lit)
	if focused != nil && at == regionPlan && !gone && w.showroom == nil && w.frame.clips[regionPlan].Visible() && w.plan.TypeFigure(k) {
		return true
	}
	if k < fyne.Key0 || k > fyne.Key9 || len(k) != 1 {
		return false
	}
	now := w.now()
	goesOn := now.Sub(w.digitAt) < oneFigure
	w.digitAt = now
	measures := at == regionPlan || at == regionSection || at == regionRods || at == regionTray
	if w.showroom != nil || !goesOn && (k == fyne.Key0 || !measures) {
		return false
	}
	w.status.SetText(theme.Word("tag.figure-of-what"))
	return true
}

// cameraKey gives a key to the camera; it tells whether the key is one of its own.
func (w *mainWindow) cameraKey(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyHome, fyne.Key1:
		w.lookFrom(viewer.ViewCorner)
	case fyne.Key2:
		w.lookFrom(viewer.ViewCut)
	case fyne.Key3:
		w.lookFrom(viewer.ViewPlan)
	case fyne.Key4:
		w.lookFrom(viewer.ViewStanding)
	case fyne.Key5:
		w.lookFrom(viewer.ViewDoorway)
	case fyne.KeyLeft:
		w.view.Turn(0.1, 0)
	case fyne.KeyRight:
		w.view.Turn(-0.1, 0)
	case fyne.KeyUp:
		w.view.Turn(0, 0.08)
	case fyne.KeyDown:
		w.view.Turn(0, -0.08)
	case fyne.KeyPlus, fyne.KeyEqual:
		w.view.Nearer(0.9)
	case fyne.KeyMinus:
		w.view.Nearer(1.1)
	default:
		return false
	}
	return true
}

// pictureKey changes what the picture shows; it tells whether the key is one for that.
func (w *mainWindow) pictureKey(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyPageUp:
		w.stage.GoTo(w.stage.At() + 1)
	case fyne.KeyPageDown:
		w.stage.GoTo(w.stage.At() - 1)
	case fyne.KeyX:
		w.sight.Change(func(s *sight.State) { s.Apart = 1 - math.Round(s.Apart) })
	case fyne.KeyC:
		w.cutCheck.SetChecked(!w.cutCheck.Checked)
	default:
		return false
	}
	return true
}

// undoLast takes the last edit back and says which.
func (w *mainWindow) undoLast() {
	if undone := w.desk.Undo(); !undone.IsZero() {
		w.status.SetText(theme.Word("desk.taken-back", message.In("edit", undone)))
	}
}

// redoLast makes the edit last taken back again and says which.
func (w *mainWindow) redoLast() {
	if redone := w.desk.Redo(); !redone.IsZero() {
		w.status.SetText(theme.Word("desk.made-again", message.In("edit", redone)))
	}
}
