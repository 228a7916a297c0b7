package control

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
)

// Hints is a layer over a window, to be laid over all else: it says what the thing under the
// pointer is for, after a moment, and what the one with the focus is for on Shift-F1. It takes
// nothing from what lies under it.
type Hints struct {
	widget.BaseWidget
	after func(wait time.Duration, f func()) (stop func())
	stop  func()
	of    fyne.CanvasObject
	text  string
	at    fyne.Position // under this place of the layer, or over it where there is no room
	over  float32       // how high what it belongs to is
}

// NewHints makes the layer; after calls something later, on the window's goroutine, unless it is
// stopped.
func NewHints(after func(wait time.Duration, f func()) (stop func())) *Hints {
	h := &Hints{after: after, stop: func() {}}
	h.ExtendBaseWidget(h)
	return h
}

// Shown is what is said now; nothing where nothing is.
func (h *Hints) Shown() string {
	if h == nil {
		return ""
	}
	return h.text
}

// soon says what an object is for when the pointer has rested on it.
func (h *Hints) soon(of fyne.CanvasObject, hint func() string) {
	if h == nil {
		return
	}
	h.stop()
	h.of = of
	h.stop = h.after(theme.HintTime, func() {
		if h.of == of {
			h.now(of, hint())
		}
	})
}

// now says what an object is for.
func (h *Hints) now(of fyne.CanvasObject, text string) {
	if h == nil {
		return
	}
	h.stop()
	d := fyne.CurrentApp().Driver()
	h.of, h.text, h.over = of, text, of.Size().Height
	h.at = d.AbsolutePositionForObject(of).Subtract(d.AbsolutePositionForObject(h))
	h.Refresh()
}

// hide says no more of an object.
func (h *Hints) hide(of fyne.CanvasObject) {
	if h == nil || h.of != of {
		return
	}
	h.stop()
	h.stop = func() {}
	h.of, h.text = nil, ""
	h.Refresh()
}

// CreateRenderer draws the hint.
func (h *Hints) CreateRenderer() fyne.WidgetRenderer {
	r := &hintRenderer{h: h, plate: canvas.NewRectangle(nil), text: NewText("")}
	r.text.TextSize = theme.TextSecond
	r.text.Wrap = true
	r.Refresh()
	return r
}

type hintRenderer struct {
	h     *Hints
	plate *canvas.Rectangle
	text  *Text
}

func (r *hintRenderer) Destroy() {}

func (r *hintRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *hintRenderer) Objects() []fyne.CanvasObject {
	if r.h.text == "" {
		return nil
	}
	return []fyne.CanvasObject{r.plate, r.text}
}

func (r *hintRenderer) Layout(size fyne.Size) {
	if r.h.text == "" {
		return
	}
	t := theme.Of(r.h)
	const widest = 280
	pad, gap := t.Unit(theme.Space2), t.Unit(theme.Space1)
	inner := r.text.WidestLine()
	inner = min(inner, t.Unit(widest), size.Width-2*pad)
	r.text.Resize(fyne.NewSize(inner, 1))
	high := r.text.MinSize().Height
	r.text.Resize(fyne.NewSize(inner, high))
	box := fyne.NewSize(inner+2*pad, high+2*gap)
	at := fyne.NewPos(max(0, min(r.h.at.X, size.Width-box.Width)), r.h.at.Y+r.h.over+gap)
	if at.Y+box.Height > size.Height {
		at.Y = max(0, r.h.at.Y-box.Height-gap)
	}
	r.plate.Move(at)
	r.plate.Resize(box)
	r.text.Move(at.AddXY(pad, gap))
}

func (r *hintRenderer) Refresh() {
	t := theme.Of(r.h)
	r.plate.FillColor, r.plate.CornerRadius = t.Role(theme.Ink), t.Unit(theme.PlateRadius)
	r.text.Role = theme.Paper
	r.text.SetText(r.h.text)
	r.Layout(r.h.Size())
	canvas.Refresh(r.h)
}
