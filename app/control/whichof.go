package control

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/unit"
)

// whichOf is one reading of what was typed in a field, to be pressed. Tab passes it over, so that what is typed next goes into
// the next field; in its own field arrows choose among the readings and Enter takes one.
type whichOf struct {
	widget.BaseWidget
	field *Field
	at    int // among the field's readings
	over  bool
}

func newWhichOf(f *Field, at int) *whichOf {
	w := &whichOf{field: f, at: at}
	w.ExtendBaseWidget(w)
	return w
}

// reading is what is meant by it; none where it can be pressed no longer.
func (w *whichOf) reading() (r unit.Reading, is bool) {
	if all := w.field.choices(); w.at < len(all) {
		return all[w.at], true
	}
	return unit.Reading{}, false
}

// text is how the reading is told.
func (w *whichOf) text() string {
	r, _ := w.reading()
	return r.Text
}

// Tapped takes the reading.
func (w *whichOf) Tapped(*fyne.PointEvent) {
	if r, is := w.reading(); is {
		w.field.take(r.Value, w.field.Take)
	}
}

// MouseIn shows that it can be pressed.
func (w *whichOf) MouseIn(*desktop.MouseEvent) { w.over = true; w.Refresh() }

// MouseMoved does nothing.
func (w *whichOf) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends it.
func (w *whichOf) MouseOut() { w.over = false; w.Refresh() }

// AccessibilityLabel is the reading.
func (w *whichOf) AccessibilityLabel() string { return w.text() }

// AccessibilityRole tells that it can be pressed.
func (w *whichOf) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

// CreateRenderer draws it as a small button.
func (w *whichOf) CreateRenderer() fyne.WidgetRenderer {
	r := &whichRenderer{w: w, plate: newPlate(), text: NewText("")}
	r.text.Align = fyne.TextAlignCenter
	r.Refresh()
	return r
}

type whichRenderer struct {
	w     *whichOf
	plate plate
	text  *Text
}

func (r *whichRenderer) Destroy() {}

func (r *whichRenderer) MinSize() fyne.Size {
	t := r.w.field.theme()
	return fyne.NewSize(r.text.MinSize().Width+2*t.Unit(theme.Space2+2), t.High(theme.SmallHeight))
}

func (r *whichRenderer) Layout(size fyne.Size) {
	r.plate.place(fyne.Position{}, size, 0)
	high := r.text.MinSize().Height
	r.text.Move(fyne.NewPos(0, (size.Height-high)/2))
	r.text.Resize(fyne.NewSize(size.Width, high))
}

func (r *whichRenderer) Objects() []fyne.CanvasObject { return append(r.plate.objects(), r.text) }

func (r *whichRenderer) Refresh() {
	w, t := r.w, r.w.field.theme()
	if _, is := w.reading(); !is {
		return
	}
	fill, edge, ink := theme.Sheet, theme.Edge, theme.Ink
	if w.field.Asks() && w.at == w.field.meant {
		fill, edge, ink = theme.Press, theme.Press, theme.OnPress
	}
	ground := t.Role(fill)
	if w.over {
		ground = over(ground, t.Role(ink), hoverStrength)
	}
	r.plate.show(ground, t.Role(edge), theme.EdgeWidth, t.Unit(theme.Radius), color.Transparent, 0)
	r.text.Styled(theme.TextSecond, true, ink).SetText(w.text())
	r.Layout(w.Size())
	canvas.Refresh(w)
}
