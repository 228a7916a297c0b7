package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
)

// offerToPutIn lists under its button what can be put into the room.
func (w *mainWindow) offerToPutIn() {
	j := w.desk.Job()
	var items []*fyne.MenuItem
	for _, p := range edit.PutsIn(&j) {
		items = append(items, fyne.NewMenuItem(theme.Word(p.Name), w.guard.Wrap(partChange, func() { w.put(p) })))
	}
	head := w.planHead.several // which begins with it, or with the list that it is in
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(head)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.window.Canvas(), at.AddXY(0, head.Size().Height))
}

// putInRow has what can be put into the room stand over the plan, each by itself, while the room is measured: there is
// room for it there, and that is when it is put in.
func (w *mainWindow) putInRow(on bool) {
	w.planHead.putsIn = nil
	if on {
		j := w.desk.Job()
		for _, p := range edit.PutsIn(&j) {
			text := theme.Word("put-in.one", message.In("thing", message.Of(p.Name)))
			w.planHead.putsIn = append(w.planHead.putsIn, control.Option{ID: string(p.Name), Text: text, Hint: theme.Word("put-in.hint")})
		}
	}
	w.planHead.show(w.sight.Pressing)
}

// putNamed puts in what has a name, where there may be one more of it.
func (w *mainWindow) putNamed(name message.ID) {
	j := w.desk.Job()
	for _, p := range edit.PutsIn(&j) {
		if p.Name == name {
			w.put(p)
			return
		}
	}
}

// put puts something into the room and opens its tag; where it is refused, why is told.
func (w *mainWindow) put(p edit.PutIn) {
	w.drawings.SelectIndex(1)
	if !section.OfRoom(p.Thing) {
		w.frame.roomLeft()
	}
	if problems := w.desk.Do(p.Edit); len(problems) > 0 {
		return
	}
	w.log("put in %s", p.Thing)
	id := section.ThingID{Key: p.Thing}
	if p.Thing == job.JoistsKey {
		id.Number = 1
	}
	if of, ok := job.StationOf(p.Thing); ok {
		w.tray.Open(of) // while the room is measured, there is no more to see than that
	}
	w.plan.Expect(id)
}
