package start

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// lengthField is a field for one of a sheet's lengths. What is typed is shown at once and becomes the
// answer when the field is left; what cannot be one is refused in a sentence, and the answer there was
// comes back. Empty, it shows what stands in.
type lengthField struct {
	e      question.Entry
	entry  *control.Entry
	object fyne.CanvasObject
	// sheet is the sheet as it stands; typed shows what it would be, take makes it so, tell says why
	// not, with nothing to take that back.
	sheet func() question.Sheet
	typed func(question.Entry, question.Length)
	take  func(question.Entry, question.Length)
	tell  func(question.Entry, string)
	// escape is what Escape does where nothing was typed, enter what Enter does besides.
	escape, enter func()
	shown         string // what the field shows of the answer
	unit          *canvas.Text
	said          string // what the unit's place says besides: wide, from AB
}

// newLength makes a field so wide; says stands behind the number.
func newLength(e question.Entry, width float32, says string, keys *control.Keys) *lengthField {
	f := &lengthField{e: e, entry: control.NewEntry(keys), escape: func() {}, enter: func() {}, said: says}
	f.unit = line("", theme.TextCaption, theme.Caption)
	f.entry.Changed = func() bool { return f.entry.Text != f.shown }
	f.entry.OnLeave = f.leave
	f.entry.OnSubmitted = func(string) { f.leave(); f.enter() }
	f.entry.OnEscape = func() {
		if f.entry.Text == f.shown {
			f.escape()
			return
		}
		f.putBack()
		f.typed(f.e, f.sheet().At(f.e))
	}
	f.entry.OnChanged = func(string) { f.preview() }
	right := container.NewHBox(container.NewCenter(f.unit), gap(theme.Space1, 1))
	f.object = sized(width, theme.PressHeight, container.NewStack(f.entry, container.NewBorder(nil, nil, nil, right)))
	return f
}

// putBack shows the answer there is.
func (f *lengthField) putBack() {
	f.entry.SetText(f.shown)
	f.tell(f.e, "")
}

// show brings the field to the sheet; usual is what stands in.
func (f *lengthField) show(s question.Sheet, usualMM float64) {
	text := ""
	if l := s.At(f.e); l.Given {
		text = unit.Editable(l.MM, unit.Length, s.Units)
	}
	f.unit.Text = f.said
	if f.said == "" {
		f.unit.Text = unit.Symbol(unit.Length, s.Units)
	}
	f.unit.Color = of(theme.Caption)
	f.unit.Refresh()
	f.entry.SetPlaceHolder(unit.Editable(usualMM, unit.Length, s.Units))
	typing := f.entry.Text != f.shown
	f.shown = text
	if !typing || !control.Focused(f.entry) {
		f.entry.SetText(text)
	}
}

// preview shows what is being typed as far as it is an answer.
func (f *lengthField) preview() {
	if f.entry.Text == f.shown || f.sheet == nil {
		return
	}
	if l, err := f.read(); err == nil {
		f.typed(f.e, l)
	}
}

func (f *lengthField) read() (question.Length, error) {
	if strings.TrimSpace(f.entry.Text) == "" {
		return question.Length{}, nil
	}
	return f.sheet().Read(f.e, f.entry.Text)
}

// leave takes what was typed, or says why it cannot be.
func (f *lengthField) leave() {
	if f.entry.Text == f.shown || f.sheet == nil {
		return
	}
	typed := f.entry.Text
	l, err := f.read()
	if err != nil {
		f.putBack()
		f.typed(f.e, f.sheet().At(f.e))
		f.tell(f.e, refusal(typed, theme.Say(message.OfError(err), f.sheet().Units)))
		return
	}
	f.tell(f.e, "")
	f.take(f.e, l)
}

// refusal says that something typed was not taken, and why.
func refusal(typed, why string) string {
	const most = 24
	if r := []rune(strings.Join(strings.Fields(typed), " ")); len(r) > most {
		typed = string(r[:most]) + "…"
	} else {
		typed = string(r)
	}
	return theme.Word("start.not-taken", message.Name("typed", typed), message.Name("why", why))
}

// refused is where refusals of a question's fields are told; nothing while there is none.
type refused struct {
	object *fyne.Container
	all    map[question.Entry]string
	order  []question.Entry
}

func newRefused(of ...*lengthField) *refused {
	r := &refused{object: container.NewVBox(), all: map[question.Entry]string{}}
	for _, f := range of {
		r.order = append(r.order, f.e)
	}
	r.object.Hide()
	return r
}

// tell says one, or takes it back.
func (r *refused) tell(e question.Entry, s string) {
	if r.all[e] == s {
		return
	}
	r.all[e] = s
	r.object.RemoveAll()
	for _, e := range r.order {
		if s := r.all[e]; s != "" {
			r.object.Add(paragraph(s, fynetheme.ColorNameError))
		}
	}
	r.object.Hidden = len(r.object.Objects) == 0
	r.object.Refresh()
}

// has tells whether the refusals of a field are told here.
func (r *refused) has(e question.Entry) bool {
	for _, o := range r.order {
		if o == e {
			return true
		}
	}
	return false
}
