package app

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// sixteenthMM is a sixteenth of an inch: what an arrow key steps by in inches.
const sixteenthMM = 25.4 / 16

// number describes a field for one number of the job.
type number struct {
	key   string // its mark in the history of edits
	label message.ID
	// path is that in the job's file where the job may have another name for it; empty for none.
	path func() string
	kind unit.Kind
	step float64
	// What makes sense at all; where two readings of what is typed would do, the
	// one that makes sense is meant.
	least, greatest float64
	get             func(job.Job) float64
	set             func(float64) edit.Edit
	// uses tells whether the field is there for a job; nil for always.
	uses func(job.Job) bool
	// clear empties an optional field, whose get then gives NaN; nil for one
	// that must have a value.
	clear func() edit.Edit
	// own says that the job's number is the user's own; nothing of one that its part
	// has so. Nil where no part can fill it.
	own func(job.Job) message.Message
	// nought says what a 0 that is no measure stands for; nothing of any other number. Nil
	// where 0 is one.
	nought func(job.Job) message.Message
}

// numberOf is the field of one of the job's parameters.
func numberOf(p job.Parameter) number {
	return number{key: p.Key, path: func() string { return p.Key }, label: p.Label(), kind: p.Kind, step: p.Step, least: p.Least, greatest: p.Greatest,
		get: p.Get, uses: p.Uses, nought: p.Nought, set: func(v float64) edit.Edit { return edit.Number(p, v) }}
}

// row is one line of the inputs.
type row interface {
	object() fyne.CanvasObject
	refresh(job.Job)
}

// numberRow is a label, a field that knows its unit, and a message under it.
// What is typed is shown in the views at once and becomes the job's on Enter,
// Tab or leaving; refused, the value before comes back.
type numberRow struct {
	number
	desk    *desk.Desk
	box     *fyne.Container
	label   *widget.Label
	entry   *control.Entry
	ownLine *ownLine
	zero    *widget.Label // what 0 stands for
	message *widget.Label
	choices *fyne.Container // of what was meant
	now     job.Job
	shown   string // what the field shows of the job
	setting bool
}

func newNumberRow(n number, d *desk.Desk, keys *control.Keys) *numberRow {
	r := &numberRow{number: n, desk: d, now: d.Job(),
		label: widget.NewLabel(theme.Word(n.label)), entry: control.NewEntry(keys), message: widget.NewLabel(""), choices: container.NewHBox()}
	r.label.Truncation = fyne.TextTruncateEllipsis
	r.message.Importance = widget.DangerImportance
	r.message.Wrapping = fyne.TextWrapWord
	r.message.Hide()
	r.choices.Hide()
	r.entry.OnChanged = r.typed
	r.entry.OnStep = r.stepBy
	r.entry.OnLeave = r.take
	r.entry.OnEscape = r.giveUp
	r.entry.Changed = func() bool { return r.entry.Text != r.shown }
	fixed := container.New(layout.NewGridWrapLayout(fyne.NewSize(112, 34)), r.entry)
	r.ownLine = newOwnLine(r.takeAsSold)
	r.zero = widget.NewLabel("")
	r.zero.SizeName, r.zero.Importance, r.zero.Truncation = fynetheme.SizeNameCaptionText, widget.LowImportance, fyne.TextTruncateEllipsis
	r.zero.Alignment = fyne.TextAlignTrailing
	r.zero.Hide()
	line := container.NewBorder(nil, nil, nil, container.NewHBox(fixed), r.label)
	r.box = container.NewVBox(line, r.ownLine.box, r.zero, r.message, r.choices)
	return r
}

// called is what the field is called in a job.
func (r *numberRow) called(j job.Job) string {
	if r.path != nil {
		if name, ok := j.Named(r.path()); ok {
			return theme.Say(name, j.Units)
		}
	}
	return theme.Word(r.number.label)
}

// takeAsSold makes what the part has the job's number again.
func (r *numberRow) takeAsSold() {
	err := refusal(r.desk.Do(edit.AsSold(r.key)), r.key)
	r.show(r.desk.Job())
	r.complain(err)
}

func (r *numberRow) object() fyne.CanvasObject { return r.box }

// read gives the edit that what is typed asks for.
func (r *numberRow) read() (edit.Edit, error) {
	if r.entry.Text == "" && r.clear != nil {
		return r.clear(), nil
	}
	v, err := unit.ParseWithin(r.entry.Text, r.kind, r.now.Units, r.least, r.greatest)
	if err != nil {
		return edit.Edit{}, err
	}
	return r.set(v), nil
}

// typed shows what the typed value would give.
func (r *numberRow) typed(string) {
	if r.setting {
		return
	}
	e, err := r.read()
	if err != nil {
		r.desk.EndPreview()
		r.complain(err)
		return
	}
	r.complain(refusal(r.desk.Preview(e), r.key))
}

// take makes what was typed the job's, or brings the value before back and says
// why.
func (r *numberRow) take() {
	if r.entry.Text == r.shown {
		r.desk.EndPreview()
		return
	}
	typed := r.entry.Text
	e, err := r.read()
	if err != nil {
		r.desk.EndPreview()
	} else {
		err = refusal(r.desk.Do(e), r.key)
	}
	r.show(r.desk.Job())
	if err != nil {
		r.complain(notTaken(typed, err))
	}
}

// giveUp brings the value back that was there before typing.
func (r *numberRow) giveUp() {
	r.desk.EndPreview()
	r.show(r.desk.Job())
}

// stepBy changes the value at once; what an arrow key does over and over is one
// step of the history.
func (r *numberRow) stepBy(steps float64) {
	r.take()
	s := r.number.step * steps
	if r.now.Units == unit.Imperial && r.kind == unit.Length {
		s = sixteenthMM * steps
	}
	v := r.get(r.now)
	if v != v {
		v = 0
	}
	err := refusal(r.desk.DoLive(r.key, r.set(v+s)), r.key)
	r.show(r.desk.Job())
	r.complain(err)
}

// refusal is the first reason why an edit was refused, or nil. Under the field that
// is concerned it needs no place, nor does one that is a whole sentence.
func refusal(p job.Problems, field string) error {
	switch {
	case len(p) == 0:
		return nil
	case p[0].Key == field || p[0].Key == "":
		return &message.Error{What: p[0].What}
	}
	return p[0]
}

// notTaken says that what was typed was not taken, and why.
func notTaken(typed string, why error) error {
	if meant := new(unit.Ambiguous); errors.As(why, &meant) {
		return why
	}
	return message.Wrap(why, "input.not-taken", message.Name("typed", shortened(typed)))
}

// shortened is a text no longer than a message can show.
func shortened(s string) string {
	const most = 24
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// complain says what is wrong, or nothing. Where two things may be meant it
// asks which.
func (r *numberRow) complain(err error) {
	r.entry.SetValidationError(err)
	r.choices.RemoveAll()
	r.choices.Hide()
	if err == nil {
		r.message.Hide()
		return
	}
	if meant := new(unit.Ambiguous); errors.As(err, &meant) {
		for _, m := range meant.Readings {
			r.choices.Add(widget.NewButton(m.Text, func() { r.takeReading(m.Value) }))
		}
		r.choices.Show()
	}
	r.message.SetText(theme.Say(message.OfError(err), r.now.Units))
	r.message.Show()
}

// takeReading makes a reading of what was typed the job's.
func (r *numberRow) takeReading(v float64) {
	err := refusal(r.desk.Do(r.set(v)), r.key)
	r.show(r.desk.Job())
	r.complain(err)
}

// show writes the job's value into the field.
func (r *numberRow) show(j job.Job) {
	r.now = j
	r.setting = true
	defer func() { r.setting = false }()
	v := r.get(j)
	r.shown = ""
	if v == v {
		r.shown = unit.Editable(v, r.kind, j.Units)
	}
	if r.entry.Text != r.shown {
		r.entry.SetText(r.shown)
	}
	r.complain(nil)
}

// showNought says what a 0 of the job stands for.
func (r *numberRow) showNought() {
	if r.nought == nil {
		return
	}
	what := r.nought(r.now)
	if what.IsZero() {
		r.zero.Hide()
		return
	}
	if s := theme.Say(message.Of("input.nought", message.In("what", what)), r.now.Units); r.zero.Text != s {
		r.zero.SetText(s)
	}
	r.zero.Show()
}

// refresh follows the job, but does not write over what is being typed, nor
// wipe a message while its value stands.
func (r *numberRow) refresh(j job.Job) {
	before := r.get(r.now)
	sameUnits := r.now.Units == j.Units
	r.now = j
	if r.uses != nil && !r.uses(j) {
		r.box.Hide()
		return
	}
	r.box.Show()
	label := r.called(j)
	if u := unit.Symbol(r.kind, j.Units); u != "" {
		label += " (" + u + ")"
	}
	if r.label.Text != label {
		r.label.SetText(label)
	}
	if r.own != nil {
		r.ownLine.show(r.own(j), j.Units)
	}
	r.showNought()
	after := r.get(j)
	if same := before == after || before != before && after != after; same && sameUnits && r.message.Visible() {
		return
	}
	if control.Focused(r.entry) && r.entry.Changed() {
		return
	}
	r.show(j)
}
