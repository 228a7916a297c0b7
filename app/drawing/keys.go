package drawing

import (
	"fmt"

	"fyne.io/fyne/v2"
	"underfall/app/still"
	"underfall/geometry/edit"
	"underfall/geometry/plan"
)

// pick makes a handle the one the arrow keys move.
func (v *View) pick(g grasp) { v.picked = g }

// FocusGained shows that keys go to the drawing.
func (v *View) FocusGained() { v.Focused(true) }

// FocusLost lets go of the handle.
func (v *View) FocusLost() {
	v.Focused(false)
	v.picked = grasp{}
	v.placeOverlay()
}

// nudge is how far an arrow key moves what is held: in plan the least step of a rule, in other drawings a coarser one, with Shift ten of them.
func (v *View) nudge() float64 {
	step := edit.Fine.StepMM(v.result.Settled.Units)
	if v.kind != still.Plan {
		step = edit.Coarse.StepMM(v.result.Settled.Units)
	}
	if v.keys.Shifted() {
		return 10 * step
	}
	return step
}

// TypedKey moves the picked handle, or hands the key on.
func (v *View) TypedKey(e *fyne.KeyEvent) {
	defer v.sight.Guard.Catch(Part)
	by, isArrow := map[fyne.KeyName]plan.Point{fyne.KeyLeft: {-1, 0}, fyne.KeyRight: {1, 0}, fyne.KeyUp: {0, 1}, fyne.KeyDown: {0, -1}}[e.Name]
	if isArrow && v.kind == still.Level && by.Y() != 0 {
		v.sight.MoveLevel(v.result, by.Y())
		return
	}
	if !isArrow || v.picked == (grasp{}) {
		if v.chooseKey(e.Name) {
			return
		}
		if (v.Key == nil || !v.Key(e.Name)) && v.keys.Plain != nil {
			v.keys.Plain(e)
		}
		return
	}
	if v.picked.end != noEnd {
		const stepDeg = 1
		_ = v.sight.Turn(v.result, v.cutPlace(), v.sight.Cutting.TurnedDeg+stepDeg*(by.Y()-by.X()))
		return
	}
	by = v.view.Turned.Back().Turned(by) // as it is seen
	if v.picked.cut {
		n := v.sight.Plane(v.result, v.picked.plane).Normal
		v.sight.Drag(v.result, v.picked.plane, by.Dot(plan.Point{n.X(), n.Y()}))
		return
	}
	if at, ok := v.handleAt(v.picked.handle); ok {
		v.desk.DoLive(fmt.Sprintf("nudge %v", v.picked.handle), v.moveFinely(v.picked.handle, at.Add(by.Mul(v.nudge()))))
	}
}
