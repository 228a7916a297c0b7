package drawing

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"underfall/app/still"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// TappedSecondary offers what can be done to the waste run at a place of the
// plan or the long section.
func (v *View) TappedSecondary(e *fyne.PointEvent) {
	run := v.result.Heights.Run
	if v.kind == still.Section || len(run.Pieces) == 0 {
		return
	}
	at, near := v.onRun(v.toDrawing(e.Position), 14*v.scale/v.view.PixelsPerMM)
	if !near {
		return
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(v)
	if c == nil {
		return
	}
	menu := fyne.NewMenu("", v.runItems(at)...)
	widget.ShowPopUpMenuAtPosition(menu, c, e.AbsolutePosition)
}

// onRun is the distance along the run nearest to a point of the drawing.
func (v *View) onRun(p plan.Point, reachMM float64) (atMM float64, near bool) {
	run := v.result.Heights.Run
	if v.kind == still.Bed || v.kind == still.Boards || v.kind == still.Level {
		return 0, false // it is not drawn
	}
	if v.kind == still.Long {
		if p.X() < 0 || p.X() > run.ExitAtMM {
			return 0, false
		}
		z := p.Y() / math.Max(1, v.drawing.Rise)
		low, high := run.InvertAt(p.X())-10, run.InvertAt(p.X())+run.PipeAt(p.X()).BoreMM+10
		return p.X(), z > low && z < high
	}
	atMM = math.Min(run.Nearest(p), run.ExitAtMM)
	return atMM, run.PointAt(atMM).Sub(p).Len() < math.Max(reachMM, run.PipeAt(atMM).OutsideDiameterMM/2)
}

// runItems are the changes offered at a distance along the run.
func (v *View) runItems(at float64) []*fyne.MenuItem {
	run := v.result.Heights.Run
	item := func(label message.Message, e edit.Edit) *fyne.MenuItem {
		return fyne.NewMenuItem(theme.Say(label, v.result.Settled.Units), func() { v.desk.Do(e) })
	}
	items := []*fyne.MenuItem{item(message.Of("run.add-turn"), edit.AddTurn(at))}
	if i, ok := edit.TurnNear(v.result.Settled, run, at); ok {
		items = append(items, item(message.Of("run.remove-turn"), edit.RemoveTurn(i)))
	}
	for _, p := range run.Pieces {
		if p.InLine() && at >= p.FromMM-20 && at <= p.ToMM+20 {
			return append(items,
				item(message.Of("run.turn-fitting"), edit.TurnFitting(p.FromMM)),
				item(message.Of("run.remove-fitting"), edit.RemoveFitting(p.FromMM)))
		}
	}
	start := math.Round(at/5) * 5
	if reducer, ok := v.result.Settled.ReducerAt(start); ok && run.PipeAt(at).NominalMM < reducer.NominalMM {
		items = append(items, item(message.Of("run.add-reducer", message.Nominal("size", reducer.NominalMM)), edit.AddFitting(reducer)))
	}
	return append(items,
		item(message.Of("run.add-falling-piece"), edit.AddFitting(job.UsualFallingPiece(start))),
		item(message.Of("run.simplest"), edit.SimplestRun()))
}
