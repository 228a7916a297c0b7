package app

import (
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// After a moment's rest the chances are counted, and what can be done about the cards is tried; another
// change begins anew.
func TestChancesAndRemediesAreShown(t *testing.T) {
	w, _ := openWindow(t, Options{})
	until(t, "the count", func() bool { return w.answer.Answer().Counted && len(w.answer.Answer().Later) > 0 })
	until(t, "the remedies", func() bool { return len(w.answer.Offered("core-slab")) > 0 })
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Former.Slope = 1.0 / 45 }))
	until(t, "the next count", func() bool { return !w.answer.Answer().Counted })
}

// A card that is of one field opens that: the fall of the floor, and a doorway's height of the doorway
// that is meant.
func TestCardsOpenTheirField(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	press := func(rule string) string {
		until(t, rule, func() bool { return w.answer.Press(rule) })
		e, ok := w.window.Canvas().Focused().(interface{ SelectedText() string })
		if !ok {
			t.Fatalf("%s opens no field", rule)
		}
		return e.SelectedText() // all of it, so that typing takes its place
	}
	w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) {
		j.Former.Slope = 0.005
		d := j.Room.Doorways[0]
		d.OffsetMM, d.WidthMM, d.HeightMM = 200, 760, 1500
		j.Room.Doorways = append(j.Room.Doorways, d)
	}))
	if got := press("uk-fall-min"); got != "1:200" {
		t.Errorf("the fall of the floor opens “%s”", got)
	}
	if got := press("doorway-height"); got != "1500" {
		t.Errorf("the height of the second doorway opens “%s”", got)
	}
}

// The card of what is not stated opens where it is, by itself and by its button.
func TestCardOpensWhereTheWayOutsideIsStated(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	w.begin(job.New())
	for name, press := range map[string]func() bool{
		"the card":   func() bool { return w.answer.Press("beyond-unknown") },
		"its button": func() bool { return w.answer.PressOffer("beyond-unknown", "Open its field") },
	} {
		w.sides.close()
		until(t, name, press)
		if o, _ := w.tray.Reveal(job.BeyondKey); w.sides.at != sideFields || w.tray.Station() != job.StationWayOut || o == nil || !o.Visible() {
			t.Errorf("%s: open %v, it shows %v", name, w.tray.Station(), o)
		}
	}
}

// The figures of the plate bring the cut to their places: the way out along the run.
func TestFiguresBringTheCut(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	for i, f := range w.change.Result.Figures() {
		w.answer.Plate().PressFigure(i)
		if side := w.sight.Cut(w.change.Result).Side(f.At); side > 1e-6 || side < -1e-6 {
			t.Errorf("%s: the cut passes %v from it", f.Of.ID, side)
		}
	}
}
