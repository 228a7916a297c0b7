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
func (f *Field) Picks() []*whichOf { return f.picks }

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

// ScrollableAt is what gets the wheel at a place, as the driver finds it: the last of those that
// lie there.
func ScrollableAt(c fyne.Canvas, at fyne.Position) (found fyne.Scrollable) {
	var walk func(o fyne.CanvasObject, from fyne.Position)
	walk = func(o fyne.CanvasObject, from fyne.Position) {
		p := from.Add(o.Position())
		if !o.Visible() || at.X < p.X || at.Y < p.Y || at.X >= p.X+o.Size().Width || at.Y >= p.Y+o.Size().Height {
			return
		}
		if s, ok := o.(fyne.Scrollable); ok {
			found = s
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c, p)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c, p)
			}
		}
	}
	walk(c.Content(), fyne.Position{})
	return found
}

// MiddleOf is where the middle of a rod lies.
func MiddleOf(r *Rods, i int) int {
	p := r.room()
	return int(p.x[i] + r.theme().Unit(rodWide)/2)
}

// PlacedText is a text as it is drawn, and where.
type PlacedText struct {
	Text string
	At   fyne.Position
	Size fyne.Size
}

// Placed are the texts of an object with their places in it.
func Placed(o fyne.CanvasObject) (out []PlacedText) {
	var walk func(o fyne.CanvasObject, at fyne.Position)
	walk = func(o fyne.CanvasObject, at fyne.Position) {
		if !o.Visible() {
			return
		}
		switch o := o.(type) {
		case *canvas.Text:
			out = append(out, PlacedText{o.Text, at, o.MinSize()})
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c, at.Add(c.Position()))
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c, at.Add(c.Position()))
			}
		}
	}
	walk(o, fyne.Position{})
	return out
}
