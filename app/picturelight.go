package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/show"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// lightTools choose the light of the picture, which the job keeps.
type lightTools struct {
	object *fyne.Container
	kinds  *control.Choice
	hour   *control.Slider
	says   *control.Text
}

// newLightTools makes them.
func (w *mainWindow) newLightTools() *lightTools {
	v := &lightTools{hour: control.NewSlider(w.keys, job.FirstHour, job.LastHour, show.HourStep), says: control.NewWrapped("")}
	v.says.Styled(theme.TextSecond, false, theme.Ink)
	v.kinds = control.NewChoice(w.keys, theme.Word("app.light"), lightOptions(), "", w.lightChosen)
	v.hour.OnChanged = func(hour float64) {
		l := w.desk.Job().Lit()
		l.Hour = hour
		w.desk.DoLive("light", edit.Light(l))
		v.show(w.desk.Job())
	}
	v.hour.OnChangeEnded = func(float64) { w.desk.Settle() }
	v.object = container.New(control.Column{Gap: theme.Space1}, v.kinds, v.says, v.hour)
	return v
}

// lightChosen lights the picture in a way.
func (w *mainWindow) lightChosen(kind string) {
	l := w.desk.Job().Lit()
	l.Kind = job.LightKind(kind)
	w.desk.Do(edit.Light(l))
	w.settings.light.show(w.desk.Job())
}

// lightOptions are the kinds of light, in words.
func lightOptions() (out []control.Option) {
	for _, c := range job.LightKinds().Choices {
		out = append(out, control.Option{ID: string(c.Value), Text: theme.Word(c.Word())})
	}
	return out
}

// show brings the tools to a job: the hour counts by day alone.
func (v *lightTools) show(j job.Job) {
	l := j.Lit()
	v.kinds.Set(lightOptions(), string(l.Kind))
	showValue(&v.hour.Slider, l.Hour)
	v.says.Text = theme.Say(show.HourOf(j), j.Units)
	v.says.Refresh()
	v.says.Hidden = l.Kind != job.LightDay
	v.hour.Hidden = v.says.Hidden
	v.object.Refresh()
}
