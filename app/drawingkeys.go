package app

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// typeOn opens a field on a dimension.
func (v *drawingView) typeOn(key string, at fyne.Position) {
	p, ok := job.Find(key)
	c := fyne.CurrentApp().Driver().CanvasForObject(v)
	if !ok || c == nil {
		return
	}
	n := numberOf(p)
	n.uses = nil
	if base := v.desk.Job().Base; p.Key == job.BaseHeightKey && base.Height != job.HeightChosen {
		// The height worked out is what there is to change.
		n.get = func(job.Job) float64 { return v.result.Heights.BaseThicknessMM(&v.result.Settled) }
	}
	row := newNumberRow(n, v.desk, v.keys)
	row.show(v.desk.Job())
	row.refresh(v.desk.Job())
	popup := widget.NewPopUp(container.NewGridWrap(fyne.NewSize(300, 108), row.object()), c)
	leave := func() {
		// Clicked away, the field is gone: what is wrong is said below.
		if row.take(); row.message.Visible() && v.readout != nil {
			v.readout(row.message.Text)
		}
	}
	row.entry.onLeave = leave
	row.entry.onEscape = func() { row.giveUp(); popup.Hide() }
	row.entry.OnSubmitted = func(string) {
		if leave(); !row.message.Visible() {
			popup.Hide()
		}
	}
	at.X = min(at.X, c.Size().Width-310)
	at.Y = min(at.Y, c.Size().Height-126)
	popup.ShowAtPosition(at)
	c.Focus(row.entry)
	// What is typed takes the place of what stands there.
	row.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// pick makes a handle the one the arrow keys move.
func (v *drawingView) pick(g grasp) {
	v.picked = g
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil && g != (grasp{}) {
		c.Focus(v)
	}
}

// FocusGained is part of taking keys.
func (v *drawingView) FocusGained() {}

// FocusLost lets go of the handle.
func (v *drawingView) FocusLost() {
	v.picked = grasp{}
	v.placeOverlay()
}

// TypedRune is part of taking keys.
func (v *drawingView) TypedRune(rune) {}

// nudgeMM is how far an arrow key moves a handle: what handles are rounded to.
const nudgeMM = 5

// TypedKey moves the picked handle, or hands the key on.
func (v *drawingView) TypedKey(e *fyne.KeyEvent) {
	defer v.shared.guard.Catch(partDrawing)
	by, isArrow := map[fyne.KeyName]plan.Point{
		fyne.KeyLeft: {-nudgeMM, 0}, fyne.KeyRight: {nudgeMM, 0}, fyne.KeyUp: {0, nudgeMM}, fyne.KeyDown: {0, -nudgeMM},
	}[e.Name]
	if !isArrow || v.picked == (grasp{}) {
		if v.keys.plain != nil {
			v.keys.plain(e)
		}
		return
	}
	if v.picked.cut {
		n := v.shared.plane(v.result, v.picked.plane).Normal
		v.shared.drag(v.result, v.picked.plane, by.Dot(plan.Point{n.X(), n.Y()})/nudgeMM)
		return
	}
	for _, h := range v.drawing.Handles {
		if h.Moves == v.picked.handle {
			v.desk.DoLive(fmt.Sprintf("nudge %v", h.Moves), v.moveTo(h.Moves, h.At.Add(by)))
			return
		}
	}
}
