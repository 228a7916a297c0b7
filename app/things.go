package app

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
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
	var place func()
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
		move := func(steps float64) func() {
			return func() {
				w.moveThing(kind, steps)
				place()
			}
		}
		two(press(theme.Word("thing.left"), move(-1)), press(theme.Word("thing.right"), move(1)))
	}
	if strips, ok := furnish.SlipsOf(&w.change.Result, pressed); ok {
		w.addStrips(rows, strips, press(theme.Word("thing.to-joint"), func() {
			w.haveThing(kind, func(t *job.Thing) { t.AlongMM = w.thingAlongMM(kind) + strips.ToJointMM })
			popup.Hide()
		}))
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
	leader := canvas.NewLine(w.theme.Role(theme.Press))
	leader.StrokeWidth = theme.FocusWidth
	popup = widget.NewPopUp(container.NewStack(container.NewPadded(rows), container.NewWithoutLayout(leader)), w.window.Canvas())
	place = func() {
		o, there := w.thing(kind)
		low, high, seen := w.view.BoxOf(o)
		if leader.Hidden = !there || !seen; leader.Hidden {
			w.popUp(popup, at)
			return
		}
		corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.view)
		w.popUpBeside(popup, leader, corner.Add(low), corner.Add(high))
	}
	place()
}

// addStrips tells how the tiles of the wall are cut beside a niche, with the way to a joint where no side of it lies on one.
func (w *mainWindow) addStrips(rows *fyne.Container, s furnish.Slips, toJoint *control.Press) {
	says := theme.Say(message.Of("thing.strips", message.Along("left", s.LeftMM), message.Along("right", s.RightMM),
		message.Along("below", s.BelowMM), message.Along("above", s.AboveMM)), w.desk.Job().Units)
	rows.Add(control.NewWrapped(says).Styled(theme.TextCaption, false, theme.Caption))
	if s.LeftMM > 0 && s.RightMM > 0 {
		rows.Add(toJoint)
	}
}

// popUpBeside shows what is put over the window beside a part of it, as far as there is room, with a line that leads there.
func (w *mainWindow) popUpBeside(p *widget.PopUp, leader *canvas.Line, low, high fyne.Position) {
	const gap, ledOver = 24, 0.3 // from the part; of the way to its middle
	size := p.MinSize()
	inPicture := func(size fyne.Size, at fyne.Position) fyne.Position {
		corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.view)
		room := w.view.Size().Subtract(size)
		return corner.Add(fyne.NewPos(max(0, min(at.X-corner.X, room.Width)), max(0, min(at.Y-corner.Y, room.Height))))
	}
	middle := fyne.NewPos((low.X+high.X)/2, (low.Y+high.Y)/2)
	x, y := middle.X-size.Width/2, middle.Y-size.Height/2
	places := []fyne.Position{{X: high.X + gap, Y: y}, {X: low.X - gap - size.Width, Y: y}, {X: x, Y: high.Y + gap},
		{X: x, Y: low.Y - gap - size.Height}}
	at, covers := leastOver(low, high, size, inPicture, places...)
	if covers > 0 {
		at, _ = leastOver(low, high, size, w.inWindow, places...)
	}
	w.popUp(p, at)
	nearest := func(q, low, high fyne.Position) fyne.Position {
		return fyne.NewPos(max(low.X, min(high.X, q.X)), max(low.Y, min(high.Y, q.Y)))
	}
	from := nearest(middle, at, at.Add(size))
	to := nearest(from, low, high)
	to = to.Add(fyne.Delta{DX: (middle.X - to.X) * ledOver, DY: (middle.Y - to.Y) * ledOver})
	origin := at.AddXY(w.theme.Unit(theme.Space1), w.theme.Unit(theme.Space1))
	leader.Position1, leader.Position2 = from.Subtract(origin), to.Subtract(origin)
	leader.Refresh()
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
	o, _ := w.thing(kind)
	return o.MovedMM
}

// thing is a thing as the job has it now; ok is false where there is none.
func (w *mainWindow) thing(kind job.ThingKind) (o furnish.Object, ok bool) {
	r := w.change.Result
	r.Settled.Picture = w.desk.Job().Picture // the result of a change just made may be on its way
	for _, o := range furnish.Of(&r).Objects {
		if k, ok := o.Thing(); ok && k == kind {
			return o, true
		}
	}
	return o, false
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
