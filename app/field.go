package app

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// number describes a field for one number of the job.
type number struct {
	key      string // its name in the history of edits
	label    string
	help     string
	quantity unit.Quantity
	step     float64
	get      func(job.Job) float64
	with     func(job.Job, float64) job.Job
	// check refuses a value that means nothing; nil leaves it to the job.
	check func(float64, unit.System) error
	// uses tells whether the field is there for a job; nil for always.
	uses func(job.Job) bool
	// optional fields may be empty: get then gives NaN and clear removes it.
	clear func(job.Job) job.Job
}

// row is one line of the inputs.
type row interface {
	object() fyne.CanvasObject
	refresh(job.Job)
}

// numberEntry is a text field that knows its unit. A half-typed number is
// marked and leaves the job alone; arrow keys step.
type numberEntry struct {
	widget.Entry
	onStep func(steps float64)
	onRest func()
	// onUndo and onRedo take the job's steps, not the field's.
	onUndo, onRedo func()
}

// TypedShortcut leaves undo and redo to the job.
func (e *numberEntry) TypedShortcut(s fyne.Shortcut) {
	switch s.(type) {
	case *fyne.ShortcutUndo:
		e.onUndo()
	case *fyne.ShortcutRedo:
		e.onRedo()
	default:
		e.Entry.TypedShortcut(s)
	}
}

// TypedKey steps with the arrow keys.
func (e *numberEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyUp:
		e.onStep(1)
	case fyne.KeyDown:
		e.onStep(-1)
	case fyne.KeyPageUp:
		e.onStep(10)
	case fyne.KeyPageDown:
		e.onStep(-10)
	default:
		e.Entry.TypedKey(k)
	}
}

// FocusLost writes the number out properly.
func (e *numberEntry) FocusLost() {
	e.Entry.FocusLost()
	e.onRest()
}

// numberRow is a label, a numberEntry and a message under it.
type numberRow struct {
	number
	box     *fyne.Container
	label   *widget.Label
	entry   *numberEntry
	message *widget.Label
	edit    func(live string, change func(job.Job) job.Job) job.Problems
	now     job.Job
	setting bool
}

func newNumberRow(n number, d *desk.Desk) *numberRow {
	r := &numberRow{number: n, edit: d.EditLive, label: widget.NewLabel(text(n.label)), entry: &numberEntry{}, message: widget.NewLabel("")}
	r.label.Truncation = fyne.TextTruncateEllipsis
	r.message.Importance = widget.DangerImportance
	r.message.Wrapping = fyne.TextWrapWord
	r.message.Hide()
	r.entry.ExtendBaseWidget(r.entry)
	r.entry.OnChanged = r.typed
	r.entry.onStep = r.step
	// What is shown follows the job again once a step was taken in its history.
	r.entry.onUndo = func() { d.Undo(); r.show(d.Job()) }
	r.entry.onRedo = func() { d.Redo(); r.show(d.Job()) }
	r.entry.onRest = func() { r.show(r.now) }
	r.entry.OnSubmitted = func(string) { r.show(r.now) }
	fixed := container.New(layout.NewGridWrapLayout(fyne.NewSize(112, 34)), r.entry)
	r.box = container.NewVBox(container.NewBorder(nil, nil, nil, container.NewHBox(fixed), r.label), r.message)
	return r
}

func (r *numberRow) object() fyne.CanvasObject { return r.box }

func (r *numberRow) step(steps float64) {
	s := r.number.step * steps
	if r.now.Units == unit.Imperial && r.quantity == unit.Length {
		s = 25.4 / 16 * steps
	}
	v := r.get(r.now)
	if v != v {
		v = 0
	}
	r.apply(v + s)
	r.show(r.now)
}

// apply puts a value into the job, or says why not.
func (r *numberRow) apply(v float64) {
	if r.check != nil {
		if err := r.check(v, r.now.Units); err != nil {
			r.complain(err)
			return
		}
	}
	if p := r.edit(r.key, func(j job.Job) job.Job { return r.with(j, v) }); len(p) > 0 {
		r.complain(errors.New(p[0].Reason))
		return
	}
	r.now = r.with(r.now, v)
	r.complain(nil)
}

func (r *numberRow) complain(err error) {
	r.entry.SetValidationError(err)
	if err == nil {
		r.message.Hide()
		return
	}
	r.message.SetText(text(err.Error()))
	r.message.Show()
}

// typed follows every keystroke.
func (r *numberRow) typed(s string) {
	if r.setting {
		return
	}
	if s == "" && r.clear != nil {
		if p := r.edit(r.key, r.clear); len(p) == 0 {
			r.now = r.clear(r.now)
			r.complain(nil)
			return
		}
	}
	v, err := unit.Parse(s, r.quantity, r.now.Units)
	if err != nil {
		r.complain(err)
		return
	}
	r.apply(v)
}

// show writes the job's value into the field.
func (r *numberRow) show(j job.Job) {
	r.setting = true
	defer func() { r.setting = false }()
	v := r.get(j)
	s := ""
	if v == v {
		s = unit.Editable(v, r.quantity, j.Units)
	}
	if r.entry.Text != s {
		r.entry.SetText(s)
	}
	r.complain(nil)
}

// refresh follows the job, but does not write over what is being typed.
func (r *numberRow) refresh(j job.Job) {
	r.now = j
	if r.uses != nil && !r.uses(j) {
		r.box.Hide()
		return
	}
	r.box.Show()
	u := unit.Symbol(r.quantity, j.Units)
	label := text(r.number.label)
	if u != "" {
		label += " (" + u + ")"
	}
	if r.label.Text != label {
		r.label.SetText(label)
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(r.entry); c != nil && c.Focused() == r.entry {
		return
	}
	r.show(j)
}

// choice is a field with a few values to choose from.
type choice struct {
	label  string
	values []string // as in the job
	words  []string // as shown
	get    func(job.Job) string
	with   func(job.Job, string) job.Job
	uses   func(job.Job) bool
}

type choiceRow struct {
	choice
	box     *fyne.Container
	sel     *widget.Select
	setting bool
}

func newChoiceRow(c choice, edit func(string, func(job.Job) job.Job) job.Problems) *choiceRow {
	r := &choiceRow{choice: c}
	words := make([]string, len(c.words))
	for i, w := range c.words {
		words[i] = text(w)
	}
	r.sel = widget.NewSelect(words, func(string) {
		if i := r.sel.SelectedIndex(); !r.setting && i >= 0 {
			edit("", func(j job.Job) job.Job { return c.with(j, c.values[i]) })
		}
	})
	label := widget.NewLabel(text(c.label))
	label.Truncation = fyne.TextTruncateEllipsis
	fixed := container.New(layout.NewGridWrapLayout(fyne.NewSize(190, 34)), r.sel)
	r.box = container.NewBorder(nil, nil, nil, fixed, label)
	return r
}

func (r *choiceRow) object() fyne.CanvasObject { return r.box }

func (r *choiceRow) refresh(j job.Job) {
	if r.uses != nil && !r.uses(j) {
		r.box.Hide()
		return
	}
	r.box.Show()
	r.setting = true
	defer func() { r.setting = false }()
	v := r.get(j)
	for i, x := range r.values {
		if x == v {
			r.sel.SetSelectedIndex(i)
			return
		}
	}
	r.sel.ClearSelected()
}

// checkRow is a yes-or-no field.
type checkRow struct {
	check   *widget.Check
	get     func(job.Job) bool
	uses    func(job.Job) bool
	setting bool
}

func newCheckRow(label string, get func(job.Job) bool, with func(job.Job, bool) job.Job, uses func(job.Job) bool, edit func(string, func(job.Job) job.Job) job.Problems) *checkRow {
	r := &checkRow{get: get, uses: uses}
	r.check = widget.NewCheck(text(label), func(on bool) {
		if !r.setting {
			edit("", func(j job.Job) job.Job { return with(j, on) })
		}
	})
	return r
}

func (r *checkRow) object() fyne.CanvasObject { return r.check }

func (r *checkRow) refresh(j job.Job) {
	if r.uses != nil && !r.uses(j) {
		r.check.Hide()
		return
	}
	r.check.Show()
	r.setting = true
	defer func() { r.setting = false }()
	r.check.SetChecked(r.get(j))
}

// listRow is a field of several lines, one item a line.
type listRow struct {
	label   string
	box     *fyne.Container
	entry   *widget.Entry
	message *widget.Label
	now     job.Job
	write   func(job.Job) string
	setting bool
}

// newListRow makes a field whose text is read whole; read gives the changed
// job or says what is wrong with which line.
func newListRow(label, hint string, lines int, write func(job.Job) string, read func(job.Job, string) (job.Job, error), edit func(string, func(job.Job) job.Job) job.Problems) *listRow {
	r := &listRow{label: label, entry: widget.NewMultiLineEntry(), message: widget.NewLabel(""), write: write}
	r.entry.SetPlaceHolder(text(hint))
	r.entry.SetMinRowsVisible(lines)
	r.entry.Wrapping = fyne.TextWrapOff
	r.message.Importance = widget.DangerImportance
	r.message.Wrapping = fyne.TextWrapWord
	r.message.Hide()
	complain := func(err error) {
		r.entry.SetValidationError(err)
		if err == nil {
			r.message.Hide()
			return
		}
		r.message.SetText(err.Error())
		r.message.Show()
	}
	r.entry.OnChanged = func(s string) {
		if r.setting {
			return
		}
		j, err := read(r.now.Clone(), s)
		if err != nil {
			complain(err)
			return
		}
		if p := edit("list "+label, func(job.Job) job.Job { return j }); len(p) > 0 {
			complain(errors.New(p[0].Reason))
			return
		}
		complain(nil)
	}
	r.box = container.NewVBox(widget.NewLabel(text(label)), r.entry, r.message)
	return r
}

func (r *listRow) object() fyne.CanvasObject { return r.box }

func (r *listRow) refresh(j job.Job) {
	r.now = j
	if c := fyne.CurrentApp().Driver().CanvasForObject(r.entry); c != nil && c.Focused() == r.entry {
		return
	}
	r.setting = true
	defer func() { r.setting = false }()
	if s := r.write(j); s != r.entry.Text {
		r.entry.SetText(s)
		r.entry.SetValidationError(nil)
		r.message.Hide()
	}
}
