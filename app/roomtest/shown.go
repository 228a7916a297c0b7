package roomtest

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// EachShown visits what shows of an object and all that it is drawn with, each before what is in it.
func EachShown(o fyne.CanvasObject, visit func(fyne.CanvasObject)) {
	EachShownInto(o, func(o fyne.CanvasObject) bool {
		visit(o)
		return true
	})
}

// EachShownInto visits the same, but for what is in an object where the visit tells not to look into it.
func EachShownInto(o fyne.CanvasObject, visit func(fyne.CanvasObject) (into bool)) {
	if !o.Visible() || !visit(o) {
		return
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			EachShownInto(inner, visit)
		}
	case *container.Scroll:
		EachShownInto(o.Content, visit)
	case *widget.PopUp:
		EachShownInto(o.Content, visit)
	case fyne.Widget:
		for _, inner := range test.WidgetRenderer(o).Objects() {
			EachShownInto(inner, visit)
		}
	}
}
