package app

import (
	"fyne.io/fyne/v2"
	"underfall/app/show"
	"underfall/app/sight"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/viewer"
)

// showroom is the showroom while it is open, and what is put back when it closes.
type showroom struct {
	*show.Room
	before sight.State // what the window showed
	unread []string    // faults to be told when it closes
}

// openShowroom shows the picture on the whole screen.
func (w *mainWindow) openShowroom() {
	if w.showroom != nil {
		return
	}
	w.trial.PutBackFor("trial.ended-left")
	before := w.sight.State
	w.view.Plain = true
	w.view.Clear()
	w.setView(show.ForCustomers(before))
	w.viewHolder.RemoveAll() // the window's own layout must let the picture go first
	s := show.Open(show.Asks{Job: w.desk.Job, Result: func() geometry.Result { return w.change.Result },
		Do: func(e edit.Edit) { w.desk.Do(e) }, Leave: w.closeShowroom, Save: w.takePicture, Drawn: w.stills}, w.view, w.sight, w.theme)
	w.showroom = &showroom{Room: s, before: before}
	w.window.SetContent(s.Object())
	w.tellPictureSeen()
	w.window.SetFullScreen(true)
	w.view.Look(viewer.ViewPhoto)
	w.log("showroom true")
}

// closeShowroom brings the window back as it was.
func (w *mainWindow) closeShowroom() {
	s := w.showroom
	if s == nil {
		return
	}
	w.showroom = nil
	w.window.SetFullScreen(false)
	w.view.Plain = false
	w.view.Clear()
	w.view.Compare(nil, nil)
	w.viewHolder.Objects = []fyne.CanvasObject{w.view}
	w.window.SetContent(w.main)
	w.viewHolder.Refresh()
	w.told.Refresh() // the showroom had what is drawn in another place
	w.tellPictureSeen()
	followMark(&s.before, w.change.Result, w.change.Preview) // the job may have changed
	w.setView(s.before)
	for _, sentence := range s.unread {
		w.tellFault(sentence, false)
	}
	w.log("showroom false")
}
