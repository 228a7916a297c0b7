package tray

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Number describes a field for one number of the job.
type Number struct {
	Key   string // its mark in the history of edits
	Label message.ID
	Kind  unit.Kind
	Step  float64
	// What makes sense at all; where two readings of what is typed would do, the
	// one that makes sense is meant.
	Least, Greatest float64
	Get             func(job.Job) float64
	Set             func(float64) edit.Edit
	// Uses tells whether the field is there for a job; nil for always.
	Uses func(job.Job) bool
	// Clear empties an optional field, whose Get then gives NaN; nil for one
	// that must have a value.
	Clear func() edit.Edit
	// WorkedOut is what an empty field comes to; NaN, or nil, where that is not known.
	WorkedOut func() float64
	// Standing is the path in the job's file that says how far the number is known; nil or
	// empty where none does.
	Standing func() string
	// Own says that the job's number is the user's own; nothing of one that its part
	// has so. Nil where no part can fill it.
	Own func(job.Job) message.Message
	// Beside has the name stand beside the field, not over it.
	Beside bool
	// About is what it is called for who cannot see; nil for as it is called anyway.
	About func(job.Job) message.Message
	// Pasted takes a text of more than one number that is pasted, and tells whether it was one; nil
	// for a field that takes no more than its own.
	Pasted func(text string) bool
	// Nought says what a 0 that is no measure stands for; nothing of any other number. Nil
	// where 0 is one.
	Nought func(job.Job) message.Message
	// Aimed is what it should come to, which stands under the field; NaN, or nil, where nothing says that.
	Aimed func() float64
}

// NumberOf is the field of one of the job's single numbers.
func NumberOf(p job.Parameter) Number {
	return Number{Key: p.Key, Label: p.Label(), Kind: p.Kind, Step: p.Step, Least: p.Least, Greatest: p.Greatest,
		Get: p.Get, Uses: p.Uses, Nought: p.Nought, Set: func(v float64) edit.Edit { return edit.Number(p, v) },
		Standing: func() string { return p.Key }}
}

// NumberRow is a field that knows its unit, with what a part has of it. What is typed is shown in
// the views at once and becomes the job's on Enter, Tab or leaving; refused, the value before comes
// back.
type NumberRow struct {
	Number
	Field   *control.Field
	asks    Asks
	box     *fyne.Container
	ownLine *ownLine
	now     job.Job
}

// NewNumberRow makes the field; keys are the window's. Entered is told that Enter took what was
// typed, or that nothing was; nil for nobody.
func NewNumberRow(n Number, a Asks, keys *control.Keys, entered func()) *NumberRow {
	r := &NumberRow{Number: n, asks: a, now: a.Job()}
	r.Field = control.NewField(keys, control.Number{Kind: n.Kind, Units: r.now.Units,
		Least: n.Least, Greatest: n.Greatest, Step: n.Step, Optional: n.Clear != nil}, r.words(), control.Intents{
		Preview:    func(v float64) { a.Preview(n.Set(v)) },
		EndPreview: a.EndPreview,
		Take:       func(v float64) error { return r.do(r.typed(v)) },
		Step: func(v float64) error {
			err := refusal(a.Live(n.Key, r.typed(v)), n.Key)
			r.Show(a.Job())
			return err
		},
		Clear:   r.clear,
		Confirm: func() { r.stand(edit.Confirm) },
		LetGo:   func() { r.stand(edit.LetGo) },
		Entered: entered,
		Paste:   n.Pasted,
	})
	r.name(r.now)
	r.ownLine = newOwnLine(keys, func() { _ = r.do(edit.AsSold(n.Key)) })
	r.box = container.New(stacked{}, r.Field, r.ownLine.box)
	return r
}

// called is what the field is called in a job.
func (r *NumberRow) called(j job.Job) string {
	if name, ok := j.Named(r.Number.Key); ok {
		return theme.Say(name, j.Units)
	}
	if r.Standing != nil {
		if name, ok := j.Named(r.Standing()); ok {
			return theme.Say(name, j.Units)
		}
	}
	return theme.Word(r.Number.Label)
}

// name gives the field the name it has in a job; it tells whether that is another than before.
func (r *NumberRow) name(j job.Job) bool {
	label, about := r.called(j), ""
	if r.Number.About != nil {
		about = theme.Say(r.Number.About(j), j.Units)
	}
	if r.Beside {
		label = ""
	}
	other := r.Field.Label != label || r.Field.About != about
	r.Field.Label, r.Field.About = label, about
	return other
}

// words are what the field says.
func (r *NumberRow) words() control.Words {
	return control.FieldWords(r.Kind, func() unit.System { return r.now.Units })
}

// do makes an edit, or says why not.
func (r *NumberRow) do(e edit.Edit) error {
	err := refusal(r.asks.Do(e), r.Key)
	if err == nil {
		r.Show(r.asks.Job())
	}
	return err
}

// typed is the edit of a number that a person typed: it is held.
func (r *NumberRow) typed(v float64) edit.Edit {
	if r.Standing == nil {
		return r.Set(v)
	}
	return edit.Typed(r.Set(v), r.Standing())
}

// clear takes the number away, which nobody then holds.
func (r *NumberRow) clear() error {
	if r.Clear == nil {
		return nil
	}
	e := r.Clear()
	if r.Standing != nil {
		e = edit.All(e.What, e, edit.LetGo(r.Standing()))
	}
	return r.do(e)
}

// stand gives the number another standing.
func (r *NumberRow) stand(e func(key string) edit.Edit) {
	if r.Standing != nil {
		_ = r.do(e(r.Standing()))
	}
}

// Object is the field.
func (r *NumberRow) Object() fyne.CanvasObject { return r.box }

// There tells whether the field is there.
func (r *NumberRow) There() bool { return r.box.Visible() }

// Says is what the field says of what it did not take; nothing where it took it.
func (r *NumberRow) Says() string { return r.Field.Refused() }

// Show writes the job's value into the field.
func (r *NumberRow) Show(j job.Job) {
	r.now = j
	r.Field.SetUnits(j.Units)
	r.Field.Set(r.shown(j))
}

// shown is what the field shows of a job.
func (r *NumberRow) shown(j job.Job) control.Shown {
	s := control.Shown{Value: r.Get(j), Usual: nan()}
	if s.Value != s.Value && r.WorkedOut != nil {
		if v := r.WorkedOut(); v == v {
			s.Value, s.Known = v, control.WorkedOut
		}
	}
	if r.Standing == nil {
		return s
	}
	switch j.StandingOf(r.Standing()) {
	case job.Held:
		s.Known = control.Held
	case job.Assumed:
		s.Known = control.Assumed
	case job.NotKnown:
		s.Known = control.NotKnown
	}
	return s
}

// Refresh follows the job: not over what is being typed, nor over a message while its value stands.
func (r *NumberRow) Refresh(j job.Job) {
	if visible(r.box, r.Uses == nil || r.Uses(j)); !r.There() {
		r.now = j
		return
	}
	if r.name(j) {
		r.Field.Refresh()
	}
	below := ""
	if r.Nought != nil {
		if what := r.Nought(j); !what.IsZero() {
			below = theme.Say(message.Of("input.nought", message.In("what", what)), j.Units)
		}
	}
	if r.Aimed != nil {
		if mm := r.Aimed(); mm == mm {
			below = theme.Say(message.Of("input.aimed", message.At("level", mm)), j.Units)
		}
	}
	if r.Field.Below != below {
		r.Field.Below = below
		r.Field.Refresh()
	}
	if r.Own != nil {
		r.ownLine.show(r.Own(j), j.Units)
	}
	r.Show(j)
}

// key is the input's.
func (r *NumberRow) key() string { return r.Key }

// OwnText is what it says of a value that is the user's own and not its part's; nothing of another.
// TakeAsSold makes what the part has the job's again.
func (r *NumberRow) OwnText() string { return r.ownLine.text() }

func (r *NumberRow) TakeAsSold() { r.ownLine.back() }
