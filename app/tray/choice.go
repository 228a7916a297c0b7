package tray

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Choice is a field with a few values to choose from.
type Choice struct {
	Key     string // for it to be found by; may be empty
	Label   message.ID
	Options func(job.Job) []job.Option // those there are for a job
	Get     func(job.Job) string
	Set     func(value string) edit.Edit
	Uses    func(job.Job) bool // nil for always
	// Path is that in the job's file where the job may have another name for it; nil for none.
	Path func() string
	// Few has all options stand beside each other.
	Few bool
	// Try tries what else could be chosen; nil where nothing is tried.
	Try func()
}

// Always are options that are the same for every job.
func Always(options []job.Option) func(job.Job) []job.Option {
	return func(job.Job) []job.Option { return options }
}

// chooser is what a value is chosen by: a list that opens, or all options beside each other.
type chooser interface {
	fyne.Focusable
	fyne.CanvasObject
	Set(options []control.Option, chosen string)
	Chosen() string
}

// ChoiceRow is a label and a list to choose from.
type ChoiceRow struct {
	Choice
	asks    Asks
	by      chooser
	offered []control.Option
	label   *control.Text
	message *control.Text // why a choice was refused
	try     *control.Press
	now     job.Job
	box     *fyne.Container
}

// NewChoiceRow makes the field; keys are the window's.
func NewChoiceRow(c Choice, a Asks, keys *control.Keys) *ChoiceRow {
	about := theme.Word(c.Label)
	r := &ChoiceRow{Choice: c, asks: a, label: labelOver(about), message: complaint()}
	if c.Few {
		r.by = control.NewChoice(keys, about, nil, "", r.Choose)
	} else {
		r.by = control.NewPick(keys, about, nil, "", r.Choose)
	}
	r.try = control.NewPress(keys, "", c.Try)
	r.try.Small, r.try.Bare = true, true
	r.box = container.New(stacked{}, r.label, r.by, container.NewHBox(r.try), r.message)
	return r
}

// Choose makes a value the job's, or says why not. One that is offered no more comes from a list
// that was opened before.
func (r *ChoiceRow) Choose(value string) {
	if !slices.ContainsFunc(r.offered, func(o control.Option) bool { return o.ID == value }) {
		r.Refresh(r.asks.Job())
		return
	}
	err := refusal(r.asks.Do(r.Choice.Set(value)), "")
	r.Refresh(r.asks.Job())
	sayUnder(r.message, err, r.asks.Job().Units)
}

// Offered are the options there are to choose from.
func (r *ChoiceRow) Offered() []control.Option { return r.offered }

// Chosen is the value that is shown.
func (r *ChoiceRow) Chosen() string { return r.by.Chosen() }

// Object is the field.
func (r *ChoiceRow) Object() fyne.CanvasObject { return r.box }

// There tells whether the field is there.
func (r *ChoiceRow) There() bool { return r.box.Visible() }

// Says is why a choice was refused; nothing where none was.
func (r *ChoiceRow) Says() string { return said(r.message) }

// options are those there are for a job. Of several that are called the same, all but the first
// are numbered.
func (r *ChoiceRow) options(j job.Job) []control.Option {
	var out []control.Option
	called := map[string]int{}
	for _, o := range r.Choice.Options(j) {
		text := theme.Say(o.Word, j.Units)
		if called[text]++; called[text] > 1 {
			text += " (" + strconv.Itoa(called[text]) + ")"
		}
		out = append(out, control.Option{ID: o.Value, Text: text})
	}
	return out
}

// Refresh follows the job.
func (r *ChoiceRow) Refresh(j job.Job) {
	if visible(r.box, r.Uses == nil || r.Uses(j)); !r.There() {
		return
	}
	if r.now.Version == 0 || r.Get(j) != r.Get(r.now) {
		r.message.Hide()
	}
	if r.Path != nil {
		if name, ok := j.Named(r.Path()); ok && r.label.Text != theme.Say(name, j.Units) {
			r.label.SetText(theme.Say(name, j.Units))
		}
	}
	r.now, r.offered = j, r.options(j)
	r.by.Set(r.offered, r.Get(j))
	const other = 2 // with what is chosen and what is none
	if visible(r.try, r.Try != nil && len(r.offered) > other); !r.try.Visible() {
		return
	}
	others := theme.Word("trial.try-others")
	if one := len(r.offered) == other+1 && r.Chosen() != ""; one {
		others = theme.Word("trial.try-other")
	}
	if r.try.Text != others {
		r.try.Text = others
		r.try.Refresh()
	}
}

// complaint is a hidden line for what is wrong with a field.
func complaint() *control.Text {
	m := control.NewWrapped("").Styled(theme.TextCaption, true, theme.Stops)
	m.Hide()
	return m
}

// said is what a complaint says; nothing while it is hidden.
func said(m *control.Text) string {
	if !m.Visible() {
		return ""
	}
	return m.Text
}

// sayUnder shows an error in the line under a field, or hides the line.
func sayUnder(m *control.Text, err error, u unit.System) {
	if err == nil {
		m.Hide()
		return
	}
	m.SetText(theme.Say(message.OfError(err), u))
	m.Show()
}

// The values of a yes-or-no field.
const (
	isSo  = "yes"
	isNot = "no"
)

// newFlagRow makes a yes-or-no field; uses is nil for one that is always there.
func newFlagRow(key string, label message.ID, get func(job.Job) bool, set func(bool) edit.Edit, uses func(job.Job) bool,
	a Asks, keys *control.Keys) *ChoiceRow {
	return NewChoiceRow(Choice{Key: key, Label: label, Few: true, Uses: uses,
		Options: Always([]job.Option{{Value: isSo, Word: message.Of("input.yes")}, {Value: isNot, Word: message.Of("input.no")}}),
		Get: func(j job.Job) string {
			if get(j) {
				return isSo
			}
			return isNot
		},
		Set: func(v string) edit.Edit { return set(v == isSo) }}, a, keys)
}

// key is the input's.
func (r *ChoiceRow) key() string { return r.Key }
