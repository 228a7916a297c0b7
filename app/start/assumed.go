package start

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/job"
)

// assumedList is what practice stands in for, one by one.
type assumedList struct{ object fyne.CanvasObject }

// goThrough shows in the place of the questions what is assumed, or the questions again.
func (s *Sheet) goThrough() {
	if s.list != nil {
		s.list = nil
		s.left.Objects[0] = s.asked
		s.left.Refresh()
		s.scroll.ScrollToTop()
		return
	}
	s.asked = s.left.Objects[0]
	s.list = &assumedList{s.assumptions()}
	s.left.Objects[0] = s.list.object
	s.left.Refresh()
	s.scroll.ScrollToTop()
}

// assumptions lists them with what stands in.
func (s *Sheet) assumptions() fyne.CanvasObject {
	all := container.NewVBox(bold(theme.Word("start.assumed-heading"), theme.TextHeading, theme.Ink),
		paragraph(theme.Word("start.assumed-about"), theme.TextSecond, theme.Ink))
	for _, key := range s.first.Assumed {
		all.Add(thin())
		all.Add(container.NewBorder(nil, nil, nil, line(s.valueAt(key), theme.TextSecond, theme.Ink),
			paragraph(theme.Say(s.first.Job.PlaceOf(key), s.at.Units), theme.TextSecond, theme.Ink)))
	}
	all.Add(thin())
	all.Add(container.NewHBox(control.NewPress(s.o.Keys, theme.Word("start.back-to-questions"), s.goThrough)))
	return all
}

// valueAt is what stands in for an input, where that is a number.
func (s *Sheet) valueAt(key string) string {
	for p := range job.EachParameter {
		if p.Key == key {
			return theme.Say(lengthMessage(p.Get(s.first.Job)), s.at.Units)
		}
	}
	return ""
}
