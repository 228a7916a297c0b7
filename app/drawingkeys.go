package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// typeOn opens a field on a dimension.
func (v *drawingView) typeOn(key string, at fyne.Position) {
	p, ok := job.Find(key)
	c := fyne.CurrentApp().Driver().CanvasForObject(v)
	if !ok || c == nil {
		return
	}
	row := newNumberRow(number{key: p.Key, label: p.Label, help: p.Help, quantity: p.Quantity, step: p.Step, get: p.Get, check: p.Check,
		with: func(j job.Job, x float64) job.Job {
			j = p.With(j, x)
			if p.Key == "base.heightMM" {
				// A height that is typed is chosen.
				j.Base.Height = job.HeightChosen
			}
			return j
		}}, v.desk)
	j := v.desk.Job()
	if p.Key == "base.heightMM" && j.Base.Height == job.HeightLowest {
		j.Base.HeightMM = v.result.Heights.BaseThicknessMM(v.result.Job)
	}
	row.refresh(j)
	popup := widget.NewPopUp(container.NewGridWrap(fyne.NewSize(300, 72), row.object()), c)
	row.entry.OnSubmitted = func(string) { popup.Hide() }
	at.X = min(at.X, c.Size().Width-310)
	at.Y = min(at.Y, c.Size().Height-90)
	popup.ShowAtPosition(at)
	c.Focus(row.entry)
}

// pick makes a handle the one the arrow keys move.
func (v *drawingView) pick(handle string) {
	v.picked = handle
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil && handle != "" {
		c.Focus(v)
	}
}

// FocusGained is part of taking keys.
func (v *drawingView) FocusGained() {}

// FocusLost lets go of the handle.
func (v *drawingView) FocusLost() {
	v.picked = ""
	v.placeOverlay()
}

// TypedRune is part of taking keys.
func (v *drawingView) TypedRune(rune) {}

// nudgeMM is how far an arrow key moves a handle: what handles are rounded to.
const nudgeMM = 5

// TypedKey moves the picked handle, or hands the key on.
func (v *drawingView) TypedKey(e *fyne.KeyEvent) {
	defer v.scope.guard.Catch(partDrawing)
	by, isArrow := map[fyne.KeyName]plan.Point{fyne.KeyLeft: {-nudgeMM, 0}, fyne.KeyRight: {nudgeMM, 0}, fyne.KeyUp: {0, nudgeMM}, fyne.KeyDown: {0, -nudgeMM}}[e.Name]
	if !isArrow || v.picked == "" {
		if v.keys != nil {
			v.keys(e)
		}
		return
	}
	if v.picked == "cut" {
		n := v.scope.plane(v.result, v.graspedPlane).Normal
		v.scope.drag(v.result, v.graspedPlane, by.Dot(plan.Point{n.X(), n.Y()})/nudgeMM)
		return
	}
	for _, h := range v.drawing.Handles {
		if h.Key == v.picked {
			l, to := v.result.Layout, h.At.Add(by)
			v.desk.EditLive("nudge "+h.Key, func(j job.Job) job.Job {
				if v.kind == drawLong {
					return section.DragLong(j, v.drawing.Rise, h.Key, to)
				}
				return section.Drag(j, l, h.Key, to)
			})
			return
		}
	}
}
