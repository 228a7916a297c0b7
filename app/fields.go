package app

import (
	"math"
	"slices"
	"time"

	"underfall/app/desk"
	"underfall/app/drawing"
	"underfall/app/tray"
	"underfall/geometry/asbuilt"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/part"
)

// asksOf are what fields ask of a desk.
func asksOf(d *desk.Desk, shelf part.Shelf) tray.Asks {
	preview := func(e edit.Edit) job.Problems {
		p := d.Preview(e)
		d.ShowWithin(numbersWithin)
		return p
	}
	return tray.Asks{Job: d.Job, Outside: func() edit.Outside { return outside(d, shelf) },
		Do: d.Do, Live: d.DoLive, Preview: preview, EndPreview: d.EndPreview,
		Aimed: func(key string) float64 { return aimed(d, key) }}
}

// asks are what fields ask of the window's desk. While something is typed nothing is worked out beside it; what it comes to
// is painted at once, in the panels and the plan.
func (w *mainWindow) asks() tray.Asks {
	a := asksOf(w.desk, w.parts)
	preview := a.Preview
	a.Preview = func(e edit.Edit) job.Problems {
		for _, f := range w.followers {
			f.pause()
		}
		p := preview(e)
		w.awaitPlan()
		return p
	}
	return a
}

// planWithin is how long numbers wait for the plan, so that both are painted at once: less than painting the window takes where no
// graphics card does it.
const planWithin = 12 * time.Millisecond

// awaitPlan has what is drawn from above shown, once it is, if that is soon.
func (w *mainWindow) awaitPlan() {
	for until := time.Now().Add(planWithin); ; time.Sleep(time.Millisecond) {
		w.onWindow.run()
		if !slices.ContainsFunc(w.above(), (*drawing.View).Behind) || time.Now().After(until) {
			return
		}
	}
}

// aimed is the level to build to at an input that takes one as built; NaN where there is none.
func aimed(d *desk.Desk, key string) float64 {
	i := slices.IndexFunc(new(job.AsBuilt).Levels(), func(l job.BuiltLevel) bool { return job.BuiltKey(l.Field) == key })
	if i < 0 { // as of most fields: a result is large
		return math.NaN()
	}
	r := d.Result()
	if len(r.Problems) > 0 {
		return math.NaN()
	}
	return asbuilt.Aimed(&r.Layout, &r.Heights)[i]
}

// numbersWithin is how long what is typed waits for its numbers, so that both are painted at once:
// about as long as painting the window takes where no graphics card does it.
const numbersWithin = 25 * time.Millisecond

// outside is what an edit of an input may need beside the job.
func outside(d *desk.Desk, shelf part.Shelf) edit.Outside {
	o := edit.Outside{Shelf: shelf, BaseMM: d.Job().Base.HeightMM}
	r := d.Result()
	if len(r.Problems) > 0 {
		return o
	}
	o.BaseMM = r.Heights.BaseThicknessMM(&r.Settled)
	if run := r.Heights.Run; len(run.Pieces) > 0 {
		o.ExitMM = run.InvertAt(run.ExitAtMM)
	}
	return o
}
