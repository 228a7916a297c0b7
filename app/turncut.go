package app

import (
	"math"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// turnField is the field of how far the cut is turned from its own way, in degrees; left is told that the keys
// leave it, entered that Enter took what was typed. The cut is turned about where it goes through, and is shown
// so while that is typed.
func (w *mainWindow) turnField(keys *control.Keys, left, entered func()) *control.Field {
	const mostDeg, stepDeg = 180, 1
	r, before := w.change.Result, w.sight.Cutting
	plane, err := before.Plane(r)
	if err != nil {
		return nil
	}
	about := plan.Point{plane.Origin.X(), plane.Origin.Y()}
	n := control.Number{Label: theme.Word("cut.turn.label"), Kind: unit.Angle, Units: r.Settled.Units, Least: -mostDeg, Greatest: mostDeg, Step: stepDeg}
	var f *control.Field
	shown := func() { f.Set(control.Shown{Value: before.TurnedDeg, Usual: math.NaN()}) }
	take := func(deg float64) error {
		err := w.sight.Turn(w.change.Result, about, deg)
		if err == nil {
			before = w.sight.Cutting
			shown()
		}
		return err
	}
	f = control.NewField(keys, n, control.FieldWords(n.Kind, func() unit.System { return n.Units }), control.Intents{
		Preview: func(deg float64) {
			if w.sight.Turn(w.change.Result, about, deg) != nil {
				w.sight.Recut(before) // said when it is taken
			}
		},
		EndPreview: func() { w.sight.Recut(before); left() },
		Take:       func(deg float64) error { defer left(); return take(deg) },
		Step:       take,
		Entered:    entered,
	})
	shown()
	return f
}

// typeTurn opens the field of how far the cut is turned, at a place in an object, which has the keys afterwards.
func (w *mainWindow) typeTurn(over *figure, on fyne.Focusable, at fyne.Position) {
	if f := w.turnField(over.keys, over.leftSoon, over.leave); f != nil {
		over.open(f, f, on, at)
		w.log("turn of the cut")
	}
}

// turns tells whether there is a cut that can be turned, and the section is not away for what lies along the waste.
func (w *mainWindow) turns() bool {
	_, err := w.sight.Cutting.Plane(w.change.Result)
	return err == nil && !w.sight.Corner && !w.drawings.shows(w.views.long)
}

// showTurn has what is pressed to turn the cut there while it can be.
func (w *mainWindow) showTurn() {
	if p := w.cuts.turn; p.Hidden == w.turns() {
		p.Hidden = !p.Hidden
		p.Refresh()
	}
}
