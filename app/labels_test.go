package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/words"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// In the narrowest tray every field shows its whole label and its whole value, in both languages.
func TestLabelsFit(t *testing.T) {
	for _, tag := range []string{words.British, words.American} {
		w, _ := openWindow(t, Options{})
		w.speak(tag)
		w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) {
			j.Floor.Kind, j.Base.Height, j.Base.BoardsMM, j.Room.Edge = job.FloorTimber, job.HeightChosen, []float64{20}, job.EdgeRamp
			j.Waste.Exit.Level = job.NotBelow(0)
			for _, l := range job.Lists() {
				l.Add(j)
			}
		}))
		w.showPanels()
		for _, at := range append(job.Stations(), job.HowExact) {
			w.tray.Row(job.At(at)[0].Key) // with its less used
			w.sides.openFields()
			panel := w.frame.in(regionTray)
			if need, has := panel.MinSize().Width, panel.Size().Width; need > has || has != measuresFor(mediumFrom, false).fields {
				t.Errorf("%s, %s: the panel needs %v and has %v", tag, at, need, has)
			}
			within(t, panel, tag+", "+string(at))
		}
	}
}

// within holds that all that shows in an object stands within its width.
func within(t *testing.T, all fyne.CanvasObject, where string) {
	t.Helper()
	d := fyne.CurrentApp().Driver()
	left, width := d.AbsolutePositionForObject(all).X, all.Size().Width
	var look func(o fyne.CanvasObject)
	look = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		if text, ok := o.(*canvas.Text); ok {
			from := d.AbsolutePositionForObject(o).X - left
			if need := fyne.MeasureText(text.Text, text.TextSize, text.TextStyle).Width; from < 0 || from+need > width {
				t.Errorf("%s: “%s” reaches from %v to %v of %v", where, text.Text, from, from+need, width)
			}
		}
		switch o := o.(type) {
		case *control.Entry: // its text is scrolled
		case *fyne.Container:
			for _, c := range o.Objects {
				look(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				look(c)
			}
		}
	}
	look(all)
}
