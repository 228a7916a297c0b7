package app

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// textRow is a field whose text is read whole: a name, notes, a list with one
// item a line. What is typed is shown in the views at once and becomes the
// job's when the field is left. What cannot be read stays in the field, marked,
// until it is mended or given up with Escape: ten typed lines are not thrown
// away for one slip.
type textRow struct {
	desk    *desk.Desk
	box     *fyne.Container
	entry   *control.Entry
	message *widget.Label
	write   func(job.Job) string
	read    func(job.Job, string) (edit.Edit, error)
	choices *fyne.Container // of what to do with a text that was not taken
	label   message.ID
	key     string      // path of the list in the job's file, for it to be found by; may be empty
	own     func() bool // tells whether the list is the user's own; nil where no part fills it
	ownLine *ownLine
	hint    func(unit.System) string // what the empty field shows; nil for nothing
	uses    func(job.Job) bool       // tells whether the field is there for a job; nil for always
	shown   string                   // what the field shows of the job
	typedAt string                   // what was typed last that is not far too long
	setting bool
}

// notTakenRow is a row that may hold what was typed and not taken.
type notTakenRow interface {
	// notTaken is the field's label while it does; empty otherwise.
	notTaken() string
}

func (r *textRow) notTaken() string {
	if r.entry.Changed() && !control.Focused(r.entry) {
		return theme.Word(r.label)
	}
	return ""
}

// farTooLong is more than any field takes: laying it out would stop the window.
const farTooLong = 20000

// newTextRow makes the field over an entry. Read gives the edit that a text
// asks for, or says what is wrong with which line.
func newTextRow(label message.ID, hint func(unit.System) string, e *control.Entry, d *desk.Desk,
	write func(job.Job) string, read func(job.Job, string) (edit.Edit, error)) *textRow {
	r := &textRow{desk: d, label: label, hint: hint, entry: e, message: newMessage(), choices: container.NewHBox(), write: write, read: read}
	r.choices.Hide()
	e.OnChanged = r.typed
	e.OnLeave = r.take
	e.OnEscape = r.giveUp
	e.Changed = func() bool { return e.Text != r.shown }
	r.box = container.NewVBox(widget.NewLabel(theme.Word(label)), e, r.message, r.choices)
	return r
}

func (r *textRow) object() fyne.CanvasObject { return r.box }

// filledByParts marks a list that a part may fill where it is the user's own.
func (r *textRow) filledByParts(key string, own func() bool) *textRow {
	r.own = own
	r.ownLine = newOwnLine(func() {
		err := refusal(r.desk.Do(edit.AsSold(key)), "")
		r.show(r.desk.Job())
		r.complain(err)
	})
	r.box.Add(r.ownLine.box)
	return r
}

func (r *textRow) typed(s string) {
	if r.setting {
		return
	}
	if len(s) > farTooLong {
		r.setting = true
		r.entry.SetText(r.typedAt)
		r.setting = false
		r.complain(errors.New(theme.Word("app.that-is-far-too-long-for")))
		return
	}
	r.typedAt = s
	e, err := r.read(r.desk.Job(), s)
	if err != nil {
		r.desk.EndPreview()
		r.complain(err)
		return
	}
	r.complain(refusal(r.desk.Preview(e), ""))
}

func (r *textRow) take() {
	if r.entry.Text == r.shown {
		r.desk.EndPreview()
		r.complain(nil)
		return
	}
	e, err := r.read(r.desk.Job(), r.entry.Text)
	if err != nil {
		r.desk.EndPreview()
	} else {
		err = refusal(r.desk.Do(e), "")
	}
	if err == nil {
		r.show(r.desk.Job())
		return
	}
	if meant := new(unit.Ambiguous); errors.As(err, &meant) {
		r.complain(err)
		r.offerReadings(meant)
		return
	}
	r.complain(message.Wrap(err, "input.text-not-taken"))
	r.offer(theme.Word("app.try-again"), r.take)
	r.offer(theme.Word("app.put-back"), r.giveUp)
}

// offer adds a button under a text that was not taken.
func (r *textRow) offer(label string, tapped func()) {
	r.choices.Add(widget.NewButton(label, tapped))
	r.choices.Show()
}

// offerReadings asks which of two things a part of the text means; the answer
// takes its place.
func (r *textRow) offerReadings(meant *unit.Ambiguous) {
	for _, m := range meant.Readings {
		r.offer(m.Text, func() {
			r.entry.SetText(strings.Replace(r.entry.Text, meant.Typed, m.Text, 1))
			r.take()
		})
	}
}

func (r *textRow) giveUp() {
	r.desk.EndPreview()
	r.show(r.desk.Job())
}

func (r *textRow) complain(err error) {
	r.choices.RemoveAll()
	r.choices.Hide()
	r.entry.SetValidationError(err)
	sayUnder(r.message, err, r.desk.Job().Units)
}

func (r *textRow) show(j job.Job) {
	r.setting = true
	defer func() { r.setting = false }()
	if r.hint != nil {
		r.entry.SetPlaceHolder(r.hint(j.Units))
	}
	r.shown = r.write(j)
	r.typedAt = r.shown
	if r.shown != r.entry.Text {
		r.entry.SetText(r.shown)
	}
	r.complain(nil)
}

// refresh follows the job, but does not write over what has been typed and not
// been taken, unless the job itself has changed there.
func (r *textRow) refresh(j job.Job) {
	if r.uses != nil && !r.uses(j) {
		r.box.Hide()
		return
	}
	r.box.Show()
	if r.own != nil {
		var m message.Message
		if r.own() {
			m = job.OwnListMessage()
		}
		r.ownLine.show(m, j.Units)
	}
	if r.entry.Changed() && (control.Focused(r.entry) || r.write(j) == r.shown) {
		return
	}
	r.show(j)
}
