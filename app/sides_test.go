package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// The rows of the checks are as high as what they say, also where that came to be so while the list was closed.
func TestChecksOpenedAreMeasured(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return !w.replaced && len(w.answer.Answer().Cards) > 0 && w.resting() })
	for _, units := range []unit.System{unit.Metric, unit.Imperial} {
		w.sides.close()
		w.desk.Do(edit.Of(message.Of("edit.units"), func(j *job.Job) { j.Units = units }))
		until(t, "it in "+string(units), func() bool { return w.change.Result.Settled.Units == units && w.resting() })
		w.sides.open("app.checks")
		settle(t)
		rows, foot := 0, float32(0)
		roomtest.EachShown(w.frame.in(regionTray), func(o fyne.CanvasObject) {
			said, ok := o.(*control.Text)
			if !ok || said.TextSize == theme.TextTray { // the list's heading
				return
			}
			rows++
			top := fyne.CurrentApp().Driver().AbsolutePositionForObject(said).Y
			if top+0.5 < foot {
				t.Errorf("in %s %q begins at %v, the text before it ends at %v", units, said.Text, top, foot)
			}
			foot = top + said.MinSize().Height
		})
		if rows < 10 {
			t.Errorf("in %s only %d texts show", units, rows)
		}
	}
}

// A list beside the drawings has a heading of the size that a station has.
func TestListsAreHeadedLikeStations(t *testing.T) {
	onlyLooks(t)
	w, _ := openWindow(t, Options{})
	size := func(title string) (size float32) {
		w.showPanels()
		for _, text := range shownTexts(w.frame.in(regionTray)) {
			if text.Text == title && text.TextStyle.Bold {
				size = text.TextSize
			}
		}
		return size
	}
	w.openStation(0)
	station := size(theme.Word("tray.station", message.No("n", 1), message.Name("station", theme.Word(job.StationRoom.ID()))))
	for _, l := range w.sides.lists {
		w.sides.open(l.name)
		if is := size(theme.Word(l.name)); is == 0 || is != station {
			t.Errorf("%q is headed in size %v, a station in %v", theme.Word(l.name), is, station)
		}
	}
}
