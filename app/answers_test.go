package app

import (
	"testing"

	"fyne.io/fyne/v2"
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
		has, _ := w.window.Canvas().Focused().(fyne.CanvasObject)
		if o, _ := w.tray.Reveal(job.BeyondKey); w.sides.at != sideFields || w.tray.Station() != job.StationWayOut || o == nil || !o.Visible() || !holds(o, has) {
			t.Errorf("%s: open %v, it shows %v, the keys go to %T", name, w.tray.Station(), o, has)
		}
	}
}

// assumedBeyond is the starting job with what the waste joins outside assumed.
func assumedBeyond() job.Job {
	j := job.New()
	usual := job.UsualBeyond()
	j.Waste.Beyond = &usual
	j.SetStanding(job.BeyondKey+".joins", job.Assumed)
	return j
}

// The card of what is assumed leads to the field of that, in sight.
func TestCardOpensWhatIsAssumed(t *testing.T) {
	w, _ := openWindow(t, Options{})
	w.showPanels()
	w.begin(assumedBeyond())
	until(t, "the card", func() bool { return w.answer.PressOffer("beyond-assumed", "Open its field") })
	joins := w.tray.Row(job.BeyondKey + " joins").Object()
	has, _ := w.window.Canvas().Focused().(fyne.CanvasObject)
	if has == nil || !holds(joins, has) {
		t.Fatalf("the keys go to %T", has)
	}
	d := w.app.Driver()
	tray := w.frame.in(regionTray)
	above := d.AbsolutePositionForObject(joins).Y - d.AbsolutePositionForObject(tray).Y
	if below := above + joins.Size().Height; above < 0 || below > tray.Size().Height {
		t.Errorf("it stands from %v to %v in a tray of %v", above, below, tray.Size().Height)
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
