package app

import (
	"underfall/app/desk"
	"underfall/app/tray"
	"underfall/geometry/edit"
	"underfall/geometry/part"
)

// asksOf are what fields ask of a desk.
func asksOf(d *desk.Desk, shelf part.Shelf) tray.Asks {
	return tray.Asks{Job: d.Job, Outside: func() edit.Outside { return outside(d, shelf) },
		Do: d.Do, Live: d.DoLive, Preview: d.Preview, EndPreview: d.EndPreview}
}

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
