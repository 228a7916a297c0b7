package app

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/paint"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// numberAt is the field of what a dimension shows; false where that cannot be typed.
func (v *drawingView) numberAt(p paint.Placed) (n number, ok bool) {
	if p.Sets != (edit.FromWall{}) {
		return fromWall(p.Sets), true
	}
	if side, is := edit.SideAt(p.Key); is {
		return sideLength(func() edit.Side { return side }), true
	}
	param, ok := job.Find(p.Key)
	if !ok {
		return n, false
	}
	n = numberOf(param)
	n.uses = nil
	if base := v.desk.Job().Base; param.Key == job.BaseHeightKey && base.Height != job.HeightChosen {
		// The height worked out is what there is to change.
		n.get = func(job.Job) float64 { return v.result.Heights.BaseThicknessMM(&v.result.Settled) }
	}
	return n, true
}

// fromWall is the field of how far something is from a wall.
func fromWall(f edit.FromWall) number {
	const mostMM, stepMM = 50000, 10
	return number{key: fmt.Sprintf("from wall %v", f), label: "field.from-wall", kind: unit.Length, step: stepMM, greatest: mostMM,
		get: func(j job.Job) float64 {
			if mm, ok := f.MM(j); ok {
				return mm
			}
			return math.NaN()
		},
		set: f.Set}
}

// sideLength is the field of how long a wall of the room is.
func sideLength(of func() edit.Side) number {
	const leastMM, mostMM, stepMM = 100, 50000, 10
	return number{key: "wall length", label: "item.room.walls.lengthMM", kind: unit.Length, step: stepMM, least: leastMM, greatest: mostMM,
		get: func(j job.Job) float64 { return j.Room.WallLengthMM(of().Wall) },
		set: func(mm float64) edit.Edit { return of().Set(mm) }}
}

// typeOn opens a field on a dimension.
func (v *drawingView) typeOn(p paint.Placed, at fyne.Position) {
	n, ok := v.numberAt(p)
	c := fyne.CurrentApp().Driver().CanvasForObject(v)
	if !ok || c == nil {
		return
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
	row.entry.OnLeave = leave
	row.entry.OnEscape = func() { row.giveUp(); popup.Hide() }
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
		if v.keys.Plain != nil {
			v.keys.Plain(e)
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
