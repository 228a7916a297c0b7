package tray

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// TextRow is a field whose text is read whole: a name, notes, a list with one
// item a line. What is typed is shown in the views at once and becomes the
// job's when the field is left. What cannot be read stays in the field, marked,
// until it is mended or given up with Escape: ten typed lines are not thrown
// away for one slip.
type TextRow struct {
	Entry   *control.Entry
	message *control.Text   // what is wrong with the text
	Choices *fyne.Container // of what to do with a text that was not taken
	asks    Asks
	box     *fyne.Container
	name    *control.Text // the label, or what the job calls the list
	write   func(job.Job) string
	read    func(job.Job, string) (edit.Edit, error)
	label   message.ID
	Key     string      // path of the list in the job's file, for it to be found by; may be empty
	own     func() bool // tells whether the list is the user's own; nil where no part fills it
	ownLine *ownLine
	hint    func(unit.System) string // what the empty field shows; nil for nothing
	uses    func(job.Job) bool       // tells whether the field is there for a job; nil for always
	shown   string                   // what the field shows of the job
	typedAt string                   // what was typed last that is not far too long
	setting bool
}

func (r *TextRow) notTaken() []string {
	if r.Entry.Changed() && !control.Focused(r.Entry) {
		return []string{theme.Word(r.label)}
	}
	return nil
}

// farTooLong is more than any field takes: laying it out would stop the window.
const farTooLong = 20000

// NewTextRow makes the field over an entry. Read gives the edit that a text
// asks for, or says what is wrong with which line.
func NewTextRow(label message.ID, hint func(unit.System) string, e *control.Entry, a Asks,
	write func(job.Job) string, read func(job.Job, string) (edit.Edit, error)) *TextRow {
	r := &TextRow{asks: a, label: label, hint: hint, Entry: e, message: complaint(), Choices: container.NewHBox(), write: write, read: read}
	r.Choices.Hide()
	e.OnChanged = r.typed
	e.OnLeave = r.take
	e.OnEscape = r.giveUp
	e.Changed = func() bool { return e.Text != r.shown }
	r.name = labelOver(theme.Word(label))
	r.box = container.New(stacked{}, r.name, e, r.message, r.Choices)
	return r
}

// Object is the field.
func (r *TextRow) Object() fyne.CanvasObject { return r.box }

// Says is what is wrong with the text; nothing where nothing is.
func (r *TextRow) Says() string { return said(r.message) }

// There tells whether the field is there.
func (r *TextRow) There() bool { return r.box.Visible() }

// filledByParts marks a list that a part may fill where it is the user's own.
func (r *TextRow) filledByParts(own func() bool) *TextRow {
	r.own = own
	r.ownLine = newOwnLine(nil, func() {
		err := refusal(r.asks.Do(edit.AsSold(r.Key)), "")
		r.show(r.asks.Job())
		r.complain(err)
	})
	r.box.Add(r.ownLine.box)
	return r
}

func (r *TextRow) typed(s string) {
	if r.setting {
		return
	}
	if len(s) > farTooLong {
		r.setting = true
		r.Entry.SetText(r.typedAt)
		r.setting = false
		r.complain(errors.New(theme.Word("app.that-is-far-too-long-for")))
		return
	}
	r.typedAt = s
	e, err := r.read(r.asks.Job(), s)
	if err != nil {
		r.asks.EndPreview()
		r.complain(err)
		return
	}
	r.complain(refusal(r.asks.Preview(e), ""))
}

func (r *TextRow) take() {
	if r.Entry.Text == r.shown {
		r.asks.EndPreview()
		r.complain(nil)
		return
	}
	e, err := r.read(r.asks.Job(), r.Entry.Text)
	if err != nil {
		r.asks.EndPreview()
	} else {
		err = refusal(r.asks.Do(e), "")
	}
	if err == nil {
		r.show(r.asks.Job())
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
func (r *TextRow) offer(label string, tapped func()) {
	r.Choices.Add(control.NewPress(nil, label, tapped))
	r.Choices.Show()
}

// offerReadings asks which of two things a part of the text means; the answer
// takes its place.
func (r *TextRow) offerReadings(meant *unit.Ambiguous) {
	for _, m := range meant.Readings {
		r.offer(m.Text, func() {
			r.Entry.SetText(strings.Replace(r.Entry.Text, meant.Typed, m.Text, 1))
			r.take()
		})
	}
}

func (r *TextRow) giveUp() {
	r.asks.EndPreview()
	r.show(r.asks.Job())
}

func (r *TextRow) complain(err error) {
	r.Choices.RemoveAll()
	r.Choices.Hide()
	r.Entry.SetValidationError(err)
	sayUnder(r.message, err, r.asks.Job().Units)
}

func (r *TextRow) show(j job.Job) {
	r.setting = true
	defer func() { r.setting = false }()
	if r.hint != nil {
		r.Entry.SetPlaceHolder(r.hint(j.Units))
	}
	r.shown = r.write(j)
	r.typedAt = r.shown
	if r.shown != r.Entry.Text {
		r.Entry.SetText(r.shown)
	}
	r.complain(nil)
}

// Refresh follows the job, but does not write over what has been typed and not
// been taken, unless the job itself has changed there.
func (r *TextRow) Refresh(j job.Job) {
	if r.uses != nil && !r.uses(j) {
		r.box.Hide()
		return
	}
	r.box.Show()
	if name, ok := j.Named(r.Key); ok {
		r.name.SetText(theme.Say(name, j.Units))
	}
	if r.own != nil {
		var m message.Message
		if r.own() {
			m = job.OwnListMessage()
		}
		r.ownLine.show(m, j.Units)
	}
	if r.Entry.Changed() && (control.Focused(r.Entry) || r.write(j) == r.shown) {
		return
	}
	r.show(j)
}

// key is the input's.
func (r *TextRow) key() string { return r.Key }

// OwnText is what it says of a value that is the user's own and not its part's; nothing of another.
// TakeAsSold makes what the part has the job's again.
func (r *TextRow) OwnText() string { return r.ownLine.text() }

func (r *TextRow) TakeAsSold() { r.ownLine.back() }
