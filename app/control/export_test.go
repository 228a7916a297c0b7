package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
)

// TextsIn are the texts that are drawn in an object.
func TextsIn(o fyne.CanvasObject) (out []string) {
	if !o.Visible() {
		return nil
	}
	switch o := o.(type) {
	case *canvas.Text:
		out = append(out, o.Text)
	case *fyne.Container:
		for _, c := range o.Objects {
			out = append(out, TextsIn(c)...)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			out = append(out, TextsIn(c)...)
		}
	}
	return out
}

// Entry of a field, which has its focus.
func (f *Field) Entry() *fieldEntry { return f.entry }

// Grip of a field that is held.
func (f *Field) Grip() fyne.Tappable { return test.WidgetRenderer(f).(*fieldRenderer).grip }

// Picks are the readings of what was typed, as buttons.
func (f *Field) Picks() []*Press { return test.WidgetRenderer(f).(*fieldRenderer).picks }

// Drawn are the texts of an object, as they are drawn.
func Drawn(o fyne.CanvasObject) (out []*canvas.Text) {
	switch o := o.(type) {
	case *canvas.Text:
		out = append(out, o)
	case *fyne.Container:
		for _, c := range o.Objects {
			out = append(out, Drawn(c)...)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			out = append(out, Drawn(c)...)
		}
	}
	return out
}
