package app

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/waste"
)

// TappedSecondary offers what can be done to the waste run at a place of the
// plan or the long section.
func (v *drawingView) TappedSecondary(e *fyne.PointEvent) {
	run := v.result.Heights.Run
	if v.kind == drawSection || len(run.Pieces) == 0 {
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
func (v *drawingView) onRun(p plan.Point, reachMM float64) (atMM float64, near bool) {
	run := v.result.Heights.Run
	if v.kind == drawLong {
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
func (v *drawingView) runItems(at float64) []*fyne.MenuItem {
	run, l := v.result.Heights.Run, v.result.Layout
	edit := func(change func(job.Job) job.Job) func() { return func() { v.desk.Edit(change) } }
	items := []*fyne.MenuItem{
		fyne.NewMenuItem(text("Add a turn here"), edit(func(j job.Job) job.Job { return section.AddTurn(j, l, run, at) })),
	}
	if i, ok := section.TurnNear(run, at); ok {
		items = append(items, fyne.NewMenuItem(text("Remove this turn"), edit(func(j job.Job) job.Job { return section.RemoveTurn(j, l, i) })))
	}
	for _, p := range run.Pieces {
		if (p.Kind == waste.Reducer || p.Kind == waste.Extender) && at >= p.FromMM-20 && at <= p.ToMM+20 {
			items = append(items,
				fyne.NewMenuItem(text("Turn this fitting round"), edit(func(j job.Job) job.Job { return section.TurnFitting(j, p.FromMM) })),
				fyne.NewMenuItem(text("Remove this fitting"), edit(func(j job.Job) job.Job { return section.RemoveFitting(j, p.FromMM) })))
			return items
		}
	}
	start := math.Round(at/5) * 5
	return append(items,
		fyne.NewMenuItem(text("Put a reducer to 50 mm here"), edit(func(j job.Job) job.Job {
			j.Waste.Fittings = append(j.Waste.Fittings, job.UsualReducer(start))
			return j
		})),
		fyne.NewMenuItem(text("Put an extender here"), edit(func(j job.Job) job.Job {
			j.Waste.Fittings = append(j.Waste.Fittings, job.Fitting{Kind: job.FittingExtender, AtMM: start, LengthMM: 120, Slope: math.Tan(3 * math.Pi / 180)})
			return j
		})),
		fyne.NewMenuItem(text("The simplest run again"), edit(func(j job.Job) job.Job { j.Waste.Waypoints = nil; return j })))
}
