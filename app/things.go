package app

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/show"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// openThing opens the small tag of a thing that was pressed in the finished picture: it can be swapped, cleared and moved,
// and what was cleared brought back.
func (w *mainWindow) openThing(pressed furnish.Object, at fyne.Position) {
	kind, ok := pressed.Thing()
	if !ok {
		return
	}
	var popup *widget.PopUp
	press := func(text string, f func()) *control.Press {
		b := control.NewPress(w.keys, text, w.guard.Wrap(partWindow, f))
		b.Small = true
		return b
	}
	// had changes what is had otherwise about a thing; the tag goes, for what it stands at may have gone.
	had := func(kind job.ThingKind, change func(*job.Thing)) func() {
		return func() {
			popup.Hide()
			w.haveThing(kind, change)
		}
	}
	rows := container.New(control.Column{Gap: theme.Space1}, control.NewText(theme.Word(kind.Word())).Styled(theme.TextBody, true, theme.Ink))
	two := func(a, b *control.Press) { rows.Add(container.New(control.Columns{Gap: theme.BetweenTwo}, a, b)) }
	two(press(theme.Word("thing.swap"), had(kind, func(t *job.Thing) { t.Other = !t.Other })),
		press(theme.Word("thing.clear"), had(kind, func(t *job.Thing) { t.Cleared = true })))
	if kind.Movable() {
		two(press(theme.Word("thing.left"), func() { w.moveThing(kind, -1) }), press(theme.Word("thing.right"), func() { w.moveThing(kind, 1) }))
	}
	now := w.desk.Job().Shown()
	for _, t := range now.Things {
		if t.Cleared {
			back := theme.Word("thing.back", message.In("thing", message.Of(t.Kind.Word())))
			rows.Add(press(back, had(t.Kind, func(t *job.Thing) { t.Cleared = false })))
		}
	}
	if now.Had(kind) != (job.Thing{Kind: kind}) {
		rows.Add(press(theme.Word("thing.as-placed"), had(kind, func(t *job.Thing) { *t = job.Thing{Kind: kind} })))
	}
	popup = widget.NewPopUp(container.NewPadded(rows), w.window.Canvas())
	w.popUp(popup, at)
}

// haveThing has something otherwise about a thing.
func (w *mainWindow) haveThing(kind job.ThingKind, change func(*job.Thing)) {
	t := w.desk.Job().Shown().Had(kind)
	change(&t)
	w.desk.Do(edit.Thing(t))
}

// moveThing moves a thing a step to the left, below nought, or to the right of who looks at it: from where it stands, not
// from where it was wanted and had no room.
func (w *mainWindow) moveThing(kind job.ThingKind, steps float64) {
	alongMM := w.thingAlongMM(kind) + steps*show.StepMM(w.desk.Job().Units)
	w.haveThing(kind, func(t *job.Thing) { t.AlongMM = alongMM })
	w.tellNoRoom(kind, alongMM)
}

// thingAlongMM is how far a thing stands from where it is placed by rule, as far as there is room for what the job asks.
func (w *mainWindow) thingAlongMM(kind job.ThingKind) float64 {
	r := w.change.Result
	r.Settled.Picture = w.desk.Job().Picture // the result of a change just made may be on its way
	for _, o := range furnish.Of(&r).Objects {
		if k, ok := o.Thing(); ok && k == kind {
			return o.MovedMM
		}
	}
	return 0
}

// tellNoRoom says that a thing could not be moved as far as it was wanted.
func (w *mainWindow) tellNoRoom(kind job.ThingKind, wantedMM float64) {
	const slackMM = 30 // things are moved back in steps until they stand free
	if math.Abs(w.thingAlongMM(kind)-wantedMM) > slackMM {
		w.refuse(theme.Word("thing.no-room", message.In("thing", message.Of(kind.Word()))))
	}
}

// dragThing moves a thing while it is held.
func (w *mainWindow) dragThing(kind job.ThingKind, alongMM float64) {
	t := w.desk.Job().Shown().Had(kind)
	t.AlongMM = alongMM
	w.desk.DoLive("thing", edit.Thing(t))
}

// letThing ends that: the drag is one step to undo.
func (w *mainWindow) letThing(kind job.ThingKind, alongMM float64) {
	w.desk.Settle()
	w.tellNoRoom(kind, alongMM)
}
