package app

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// numberAt is the field of what a dimension shows; false where that cannot be typed.
func (w *mainWindow) numberAt(p paint.Placed) (n tray.Number, ok bool) {
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
	if base := w.desk.Job().Base; param.Key == job.BaseHeightKey && base.Height != job.HeightChosen {
		// The height worked out is what there is to change.
		r := w.change.Result
		n.Get = func(job.Job) float64 { return r.Heights.BaseThicknessMM(&r.Settled) }
	}
	if param.Key == "drain.lengthMM" {
		// As long as its side where that is not stated.
		r := w.change.Result
		n.Get = func(job.Job) float64 { return r.Settled.DrainLengthMM() }
	}
	return n, true
}

// fromWall is the field of how far something is from a wall.
func fromWall(f edit.FromWall) tray.Number {
	const mostMM, stepMM = 50000, 10
	return tray.Number{Key: fmt.Sprintf("from wall %v", f), Label: "field.from-wall", Kind: unit.Along, Step: stepMM, Greatest: mostMM,
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
	return tray.Number{Key: "wall length", Label: "item.room.walls.lengthMM", Kind: unit.Along, Step: stepMM, Least: leastMM, Greatest: mostMM,
		Get: func(j job.Job) float64 { return j.Room.WallLengthMM(of().Wall) },
		Set: func(mm float64) edit.Edit { return of().Set(mm) }}
}

// toMark opens the field of a mark on a tape.
func (w *mainWindow) toMark(m edit.Mark) {
	w.tray.Open(job.StationRoom)
	w.sides.openFields() // what does not show takes no focus
	w.tray.FocusMark(m)
}

// fieldOn is the field of what a dimension shows; false where it has its own in the tray, which has the keys then,
// or none.
func (w *mainWindow) fieldOn(p paint.Placed) (n tray.Number, ok bool) {
	if p.Mark != nil {
		w.toMark(*p.Mark)
		return n, false
	}
	if l, _, _, in := job.InList(p.Key); in && l.Key == job.TapeLengthsKey {
		w.toField(p.Key)
		return n, false
	}
	if l, _, _, in := job.InList(p.Key); in && l.Key == job.ReadingsKey || strings.HasPrefix(p.Key, job.SpotLevelsKey) {
		w.toField(p.Key)
		return n, false
	}
	return w.numberAt(p)
}

// readAt asks what is read down from the laser at a place of the plan, and puts the reading there once that is typed. Of a
// place outside the room, which would tilt its floor, it says that it is none.
func (w *mainWindow) readAt(p plan.Point, at fyne.Position) {
	const mostMM, onWallMM = 5000, 1
	if !w.change.Result.Layout.Room.Contains(p, onWallMM) {
		w.tag.close()
		w.refuse(theme.Word("read.outside-room"))
		return
	}
	step := 10.0 // a staff is not set down any closer
	if w.desk.Job().Units == unit.Imperial {
		step = 25.4 / 2
	}
	for k := range p {
		p[k] = math.Round(p[k]/step) * step
	}
	w.figureOver(w.plan).number(tray.Number{Key: "reading", Label: "item.laser.readings.downMM", Kind: unit.Length, Step: 1, Least: -mostMM, Greatest: mostMM,
		Get: func(job.Job) float64 { return math.NaN() },
		Set: func(mm float64) edit.Edit { return edit.Read(p, mm) },
		// Left empty, nothing was read.
		Clear: func() edit.Edit { return edit.Of(message.Of("edit.read-down"), func(*job.Job) {}) }}, w.plan, at)
}
