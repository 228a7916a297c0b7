package start

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// lengthField is a field for one of a sheet's lengths. Empty, it shows what stands in.
type lengthField struct {
	e      question.Entry
	field  *control.Field
	object *fyne.Container
}

// lengthIntents are what a field of a sheet asks for: to show what is typed, to take it or say why not.
type lengthIntents struct {
	sheet func() question.Sheet
	typed func(question.Entry, question.Length)
	take  func(question.Entry, question.Length) error
	// entered is what Enter does besides; nil for nothing.
	entered func()
}

// newLength makes a field so wide; says stands behind it.
func newLength(e question.Entry, width float32, says string, keys *control.Keys, to lengthIntents) *lengthField {
	f := &lengthField{e: e}
	least, greatest := e.Bounds()
	number := control.Number{About: theme.Word(e.Name()), Kind: e.Kind(), Units: to.sheet().Units,
		Least: least, Greatest: greatest, Optional: true}
	f.field = control.NewField(keys, number, fieldWords(e.Kind(), to.sheet), control.Intents{
		Preview:    func(mm float64) { to.typed(e, question.Given(mm)) },
		EndPreview: func() { to.typed(e, to.sheet().At(e)) },
		Take:       func(mm float64) error { return to.take(e, question.Given(mm)) },
		Clear:      func() error { return to.take(e, question.Length{}) },
		Entered:    to.entered,
	})
	f.object = container.New(&fieldWidth{width}, f.field)
	if says != "" {
		f.object = container.NewHBox(f.object, container.New(inset{0, 9}, line(says, theme.TextCaption, theme.Caption)))
	}
	return f
}

// show brings the field to a sheet; usual is what stands in.
func (f *lengthField) show(s question.Sheet, usualMM float64) {
	f.field.SetUnits(s.Units)
	shown := control.Shown{Value: math.NaN(), Known: control.NotKnown, Usual: taped(usualMM, s.Units, math.Floor)}
	if l := s.At(f.e); l.Given {
		shown.Value, shown.Known = l.MM, control.Given
	}
	f.field.Set(shown)
}

// fieldWords are what a field says; that it is empty needs no word, as what is usual stands in it.
func fieldWords(kind unit.Kind, sheet func() question.Sheet) control.Words {
	w := control.FieldWords(kind, func() unit.System { return sheet().Units })
	w.Assumed, w.NotKnown = "", ""
	w.States[control.NotKnown] = theme.Word("start.usual")
	return w
}

// fieldWidth gives a field its width; what it says below may be as high as it takes.
type fieldWidth struct{ width float32 }

// of is the width for a field.
func (l *fieldWidth) of(o fyne.CanvasObject) float32 { return wider(l.width, o) }

// wider is a width, or more of it where all that something shows is large.
func wider(width float32, o fyne.CanvasObject) float32 {
	t := theme.Of(o)
	return width * t.High(theme.PressHeight) / t.Unit(theme.PressHeight)
}

// Layout places it.
func (l *fieldWidth) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Resize(fyne.NewSize(l.of(o[0]), s.Height))
}

// MinSize is the width there is.
func (l *fieldWidth) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.of(o[0]), o[0].MinSize().Height)
}
