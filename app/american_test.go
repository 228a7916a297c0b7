package app

import (
	"regexp"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/words"
	"underfall/geometry/job"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// A room that is begun in the United States has no metric figure anywhere: not on the start page, on the sheet of questions
// whatever is answered, with what is open gone through, nor on the desk at any station and in any list.
func TestAnAmericanRoomHasNoMetricFigure(t *testing.T) {
	t.Setenv("UNDERFALL_LANGUAGE", words.American)
	w, _ := openWindow(t, Options{StartPage: true})
	metric := regexp.MustCompile(`[0-9][  ]?(mm|cm|m|m²|mm/m|l|l/s|l/min|kg|kN)\b`)
	look := func(where string, all fyne.CanvasObject) {
		t.Helper()
		texts := 0
		roomtest.EachShown(all, func(o fyne.CanvasObject) {
			said := textsOf(o)
			if p, ok := o.(*control.Press); ok {
				said = append(said, p.Text)
			}
			for _, text := range said {
				if texts++; metric.MatchString(text) {
					t.Errorf("%s: %q", where, text)
				}
			}
		})
		if texts < 10 {
			t.Errorf("%s: only %d texts", where, texts)
		}
	}
	look("the start page", w.window.Content())
	sheet := w.start.blank().With(question.RoomLong, question.Given(8*12*25.4)).With(question.RoomWide, question.Given(75*25.4))
	for _, is := range []question.FloorIs{question.FloorNotKnown, question.Concrete, question.Timber} {
		sheet.Floor.Is, sheet.Floor.Said = is, true
		w.start.begin(sheet)
		until(t, "the first answer", func() bool { return len(textsOf(w.window.Content())) > 20 && w.resting() })
		settle(t)
		look("the sheet, "+string(is), w.window.Content())
	}
	j, problems := w.start.practice(sheet.Region).Job(sheet)
	if len(problems) > 0 || j.Units != unit.Imperial {
		t.Fatalf("%v, in %s", problems, j.Units)
	}
	w.start.work(j)
	until(t, "the job", func() bool { return w.answer.Answer().Counted && w.resting() })
	for _, of := range append(job.Stations(), job.HowExact) {
		w.tray.Open(of)
		w.sides.openFields()
		for _, less := range pressesIn(w.frame.in(regionTray), "Less used") {
			less.OnPressed()
		}
		settle(t)
		look("at station "+string(of), w.main)
	}
	for i, s := range w.sides.lists {
		w.sides.SelectIndex(i)
		settle(t)
		look("the list "+string(s.name), w.main)
	}
}
