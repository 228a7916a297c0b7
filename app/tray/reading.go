package tray

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// readRow has readings be pressed onto the plan, and asks about those that disagree.
type readRow struct {
	tray  *Tray
	on    bool
	press *control.Press
	help  *control.Text
	taken *control.Text // how high the line is taken to lie, where no known point gives it
	cards *fyne.Container
	told  string // what the cards say now
	box   *fyne.Container
}

// readings makes it.
func (t *Tray) readings() *readRow {
	r := &readRow{tray: t, help: caption(theme.Word("laser.press-help")), taken: caption(""), cards: container.New(apart{})}
	r.press = control.NewPress(t.keys, "", func() { r.set(!r.on) })
	r.box = container.New(apart{}, r.press, r.help, r.taken, r.cards)
	r.show()
	return r
}

// StopReading has presses on the plan be readings no longer.
func (t *Tray) StopReading() {
	if t.read != nil {
		t.read.set(false)
	}
}

func (r *readRow) set(on bool) {
	if r.on == on {
		return
	}
	r.on = on
	r.show()
	if r.tray.Reading != nil {
		r.tray.Reading(on)
	}
}

// show says what pressing does.
func (r *readRow) show() {
	text := theme.Word("laser.press")
	if r.on {
		text = theme.Word("laser.press-end")
	}
	r.press.Filled = r.on
	r.press.Set(text, false)
	visible(r.help, r.on)
	r.press.Refresh()
}

// Object is all of it.
func (r *readRow) Object() fyne.CanvasObject { return r.box }

// There tells that it is.
func (r *readRow) There() bool { return true }

// key is none: it is of several inputs.
func (r *readRow) key() string { return "" }

// Refresh follows the job.
func (r *readRow) Refresh(j job.Job) {
	lineMM, taken := j.Laser.TakenLineMM()
	if taken {
		r.taken.SetText(theme.Say(message.Of("laser.line-taken", message.MM("line", lineMM)), j.Units))
	}
	visible(r.taken, taken)
	doubts := j.Laser.Doubts()
	if told := fmt.Sprint(doubts, j.Units); told != r.told {
		r.told = told
		r.cards.RemoveAll()
		for _, d := range doubts {
			var presses []*control.Press
			for _, cure := range edit.DoubtCures(d) {
				presses = append(presses, control.NewPress(r.tray.keys, theme.Say(cure.What, j.Units), func() { r.tray.asks.Do(cure) }))
			}
			r.cards.Add(card(j, d.Message(), true, presses...))
		}
		r.cards.Refresh()
	}
}
