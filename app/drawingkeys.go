package app

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// numberAt is the field of what a dimension shows; false where that cannot be typed.
func (v *drawingView) numberAt(p paint.Placed) (n tray.Number, ok bool) {
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
	n = tray.NumberOf(param)
	n.Uses = nil
	if base := v.desk.Job().Base; param.Key == job.BaseHeightKey && base.Height != job.HeightChosen {
		// The height worked out is what there is to change.
		n.Get = func(job.Job) float64 { return v.result.Heights.BaseThicknessMM(&v.result.Settled) }
	}
	return n, true
}

// fromWall is the field of how far something is from a wall.
func fromWall(f edit.FromWall) tray.Number {
	const mostMM, stepMM = 50000, 10
	return tray.Number{Key: fmt.Sprintf("from wall %v", f), Label: "field.from-wall", Kind: unit.Length, Step: stepMM, Greatest: mostMM,
		Get: func(j job.Job) float64 {
			if mm, ok := f.MM(j); ok {
				return mm
			}
			return math.NaN()
		},
		Set: f.Set}
}

// sideLength is the field of how long a wall of the room is.
func sideLength(of func() edit.Side) tray.Number {
	const leastMM, mostMM, stepMM = 100, 50000, 10
	return tray.Number{Key: "wall length", Label: "item.room.walls.lengthMM", Kind: unit.Length, Step: stepMM, Least: leastMM, Greatest: mostMM,
		Get: func(j job.Job) float64 { return j.Room.WallLengthMM(of().Wall) },
		Set: func(mm float64) edit.Edit { return of().Set(mm) }}
}

// typeOn opens a field on a dimension.
func (v *drawingView) typeOn(p paint.Placed, at fyne.Position) {
	n, ok := v.numberAt(p)
	c := fyne.CurrentApp().Driver().CanvasForObject(v)
	if !ok || c == nil {
		return
	}
	var popup *widget.PopUp
	hide := func() {
		if popup != nil {
			popup.Hide()
		}
	}
	keys := &control.Keys{Shortcuts: v.keys.Shortcuts, Plain: func(k *fyne.KeyEvent) {
		if k.Name == fyne.KeyEscape {
			hide()
		}
	}}
	asks := asksOf(v.desk, part.Shelf{})
	do := asks.Do
	asks.Do = func(e edit.Edit) job.Problems {
		p := do(e)
		// Clicked away, the field is gone: what is wrong is said below.
		if len(p) > 0 && !popup.Visible() && v.readout != nil {
			v.readout(theme.Say(message.OfError(p[0]), v.desk.Job().Units))
		}
		return p
	}
	row := tray.NewNumberRow(n, asks, keys, hide)
	row.Refresh(v.desk.Job())
	popup = widget.NewPopUp(container.NewGridWrap(fyne.NewSize(300, 108), row.Object()), c)
	at.X = min(at.X, c.Size().Width-310)
	at.Y = min(at.Y, c.Size().Height-126)
	popup.ShowAtPosition(at)
	row.Field.Focus()
}

// pick makes a handle the one the arrow keys move.
func (v *drawingView) pick(g grasp) {
	v.picked = g
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil && g != (grasp{}) {
		c.Focus(v)
	}
}

// FocusGained shows that keys go to the drawing.
func (v *drawingView) FocusGained() { v.focused(true) }

// FocusLost lets go of the handle.
func (v *drawingView) FocusLost() {
	v.focused(false)
	v.picked = grasp{}
	v.placeOverlay()
}

// TypedRune is part of taking keys.
func (v *drawingView) TypedRune(rune) {}

// nudgeMM is how far an arrow key moves a handle: what handles are rounded to.
const nudgeMM = 5

// TypedKey moves the picked handle, or hands the key on.
func (v *drawingView) TypedKey(e *fyne.KeyEvent) {
	defer v.sight.Guard.Catch(partDrawing)
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
		n := v.sight.Plane(v.result, v.picked.plane).Normal
		v.sight.Drag(v.result, v.picked.plane, by.Dot(plan.Point{n.X(), n.Y()})/nudgeMM)
		return
	}
	for _, h := range v.drawing.Handles {
		if h.Moves == v.picked.handle {
			v.desk.DoLive(fmt.Sprintf("nudge %v", h.Moves), v.moveTo(h.Moves, h.At.Add(by)))
			return
		}
	}
}
