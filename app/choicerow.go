package app

import (
	"image/color"
	"reflect"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// option is one value to choose, with its word.
type option struct {
	value string
	word  message.Message
}

// optionsOf are the values of one of the job's lists.
func optionsOf[T ~string](e job.Enum[T]) []option {
	var out []option
	for _, c := range e.Choices {
		out = append(out, option{string(c.Value), message.Of(c.Word())})
	}
	return out
}

// choice is a field with a few values to choose from.
type choice struct {
	label   message.ID
	options func(job.Job) []option // those there are for a job
	get     func(job.Job) string
	set     func(value string) edit.Edit
	uses    func(job.Job) bool // nil for always
	// wide gives the list a line of its own, for long names.
	wide bool
}

// always are options that are the same for every job.
func always(options []option) func(job.Job) []option {
	return func(job.Job) []option { return options }
}

// choiceRow is a label and a list to choose from.
type choiceRow struct {
	choice
	box     *fyne.Container
	sel     *widget.Select
	message *widget.Label
	// offered are the options in the list, said in these units.
	offered []option
	units   unit.System
	setting bool
}

func newChoiceRow(c choice, d *desk.Desk) *choiceRow {
	r := &choiceRow{choice: c, message: newMessage()}
	r.sel = newSelect(nil, func(string) {
		if r.setting {
			return
		}
		var err error
		// One that is offered no more comes from a list that was opened before.
		if i := r.sel.SelectedIndex(); i >= 0 {
			err = refusal(d.Do(c.set(r.offered[i].value)), "")
		}
		r.refresh(d.Job())
		sayUnder(r.message, err, d.Job().Units)
	})
	r.offer(d.Job())
	label := widget.NewLabel(theme.Word(c.label))
	label.Truncation = fyne.TextTruncateEllipsis
	const height = 34
	if c.wide {
		room := canvas.NewRectangle(color.Transparent)
		room.SetMinSize(fyne.NewSize(0, height))
		r.box = container.NewVBox(label, container.NewStack(room, r.sel), r.message)
		return r
	}
	fixed := container.New(layout.NewGridWrapLayout(fyne.NewSize(190, height)), r.sel)
	r.box = container.NewVBox(container.NewBorder(nil, nil, nil, fixed, label), r.message)
	return r
}

// offer brings the list to the options there are for a job. Of several that are called
// the same, all but the first are numbered: the list goes by its words.
func (r *choiceRow) offer(j job.Job) {
	options := r.options(j)
	if r.units == j.Units && reflect.DeepEqual(options, r.offered) {
		return
	}
	r.offered, r.units = options, j.Units
	labels, called := make([]string, len(options)), map[string]int{}
	for i, o := range options {
		labels[i] = theme.Say(o.word, j.Units)
		if called[labels[i]]++; called[labels[i]] > 1 {
			labels[i] += " (" + strconv.Itoa(called[labels[i]]) + ")"
		}
	}
	r.sel.SetOptions(labels)
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
	r.offer(j)
	v := r.get(j)
	for i, o := range r.offered {
		if o.value == v {
			if r.sel.SelectedIndex() != i {
				r.sel.SetSelectedIndex(i)
				r.message.Hide()
			}
			return
		}
	}
	r.sel.ClearSelected()
}

// newMessage is a hidden line for what is wrong with a field.
func newMessage() *widget.Label {
	m := widget.NewLabel("")
	m.Importance = widget.DangerImportance
	m.Wrapping = fyne.TextWrapWord
	m.Hide()
	return m
}

// sayUnder shows an error in the line under a field, or hides the line.
func sayUnder(m *widget.Label, err error, u unit.System) {
	if err == nil {
		m.Hide()
		return
	}
	m.SetText(theme.Say(message.OfError(err), u))
	m.Show()
}

// checkRow is a yes-or-no field.
type checkRow struct {
	check   *widget.Check
	get     func(job.Job) bool
	uses    func(job.Job) bool
	setting bool
	// path is that in the job's file where the job may have another name for it; nil for none.
	path func() string
}

// newCheckRow makes a yes-or-no field; uses is nil for one that is always
// there.
func newCheckRow(label message.ID, d *desk.Desk, get func(job.Job) bool, set func(bool) edit.Edit, uses func(job.Job) bool) *checkRow {
	r := &checkRow{get: get, uses: uses}
	r.check = widget.NewCheck(theme.Word(label), func(on bool) {
		if !r.setting {
			d.Do(set(on))
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
	if r.path != nil {
		if name, ok := j.Named(r.path()); ok {
			r.check.SetText(theme.Say(name, j.Units))
		}
	}
	r.setting = true
	defer func() { r.setting = false }()
	r.check.SetChecked(r.get(j))
}

// newSelect is a list to choose from, with a word of the catalogue while nothing is
// chosen.
func newSelect(options []string, changed func(string)) *widget.Select {
	s := widget.NewSelect(options, changed)
	s.PlaceHolder = theme.Word("app.choose-one")
	return s
}
