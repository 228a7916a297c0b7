package app

import (
	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/drawing"
	"underfall/app/paint"
	"underfall/app/tag"
	"underfall/app/tray"
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// figure is a field in the place of a figure of a drawing, or of what is pressed beside one, until it is left.
type figure struct {
	w     *mainWindow
	layer *tag.Layer
	keys  *control.Keys
	field *control.Field // nil while none is open
	// row is the field's, of a number of the job; nil for one that is none.
	row *tray.NumberRow
	// back has the keys once the field is left.
	back fyne.Focusable
}

// newFigure makes one over drawings, closed, on a layer of its own or on that of a tag.
func newFigure(w *mainWindow, layer *tag.Layer) *figure {
	f := &figure{w: w, layer: layer}
	f.keys = w.keysOver(f.key, f.leave)
	if layer == nil {
		f.layer = tag.NewLayer(f.keys)
	}
	return f
}

// keysOver are the window's keys for what lies over the drawings: key is asked first and tells whether it had a use
// for one, leave is told that what was typed is given up.
func (w *mainWindow) keysOver(key func(fyne.KeyName) bool, leave func()) *control.Keys {
	keys := *w.keys
	keys.GaveUp, keys.Plain = leave, func(k *fyne.KeyEvent) {
		if !key(k.Name) {
			w.keys.Plain(k)
		}
	}
	return &keys
}

// isOpen tells whether a field is open.
func (f *figure) isOpen() bool { return f.field != nil }

// number opens the field of a number of the job; at is where in an object, which has the keys afterwards.
func (f *figure) number(n tray.Number, on fyne.Focusable, at fyne.Position) {
	asks := f.w.asks()
	do, endPreview := asks.Do, asks.EndPreview
	asks.Do = func(e edit.Edit) job.Problems {
		defer f.leftSoon()
		return do(e)
	}
	asks.EndPreview = func() {
		defer f.leftSoon()
		endPreview()
	}
	row := tray.NewNumberRow(n, asks, f.keys, f.leave)
	row.Refresh(f.w.desk.Job())
	f.open(row.Field, row.Object(), on, at)
	f.row = row
	f.w.log("figure %s", n.Key)
}

// open shows a field, and what belongs to it, at a place in an object.
func (f *figure) open(field *control.Field, all fyne.CanvasObject, on fyne.Focusable, at fyne.Position) {
	d := fyne.CurrentApp().Driver()
	at = at.Add(d.AbsolutePositionForObject(on.(fyne.CanvasObject)).Subtract(d.AbsolutePositionForObject(f.layer)))
	f.field, f.row, f.back = field, nil, on
	f.layer.Open(tag.Content{Fields: []fyne.CanvasObject{all}}, tag.Thing{Low: at, High: at, At: at, On: true})
	f.w.window.Canvas().Focus(firstFocusable(field))
}

// leftSoon closes the field once the keys go elsewhere, and has room for what it says until then. What it did not
// take is said where that stays.
func (f *figure) leftSoon() {
	field := f.field
	f.w.sight.Do(func() {
		if field == nil || f.field != field {
			return
		}
		if f.typing() {
			f.layer.Refresh()
			return
		}
		refused := field.Refused()
		f.close()
		if refused != "" {
			f.w.refuse(refused)
		}
	})
}

// typing tells whether the keys go to the layer.
func (f *figure) typing() bool {
	o, is := f.w.window.Canvas().Focused().(fyne.CanvasObject)
	return is && holds(f.layer, o)
}

// leave closes the field and gives the keys back.
func (f *figure) leave() {
	back := f.back
	f.close()
	if back != nil {
		control.FocusOn(back)
	}
}

// close takes the field away. How it understood what was typed is told where that stays.
func (f *figure) close() {
	if f.isOpen() {
		if told := f.field.Told(); told != "" {
			f.w.understood = &understood{f.w.desk.Opened(), f.w.desk.Edits(), told, f.field.Offered()}
		}
		f.field, f.row, f.back = nil, nil, nil
		f.layer.Close()
	}
}

// refresh has the field show a job.
func (f *figure) refresh(j job.Job) {
	if f.row != nil {
		f.row.Refresh(j)
		f.layer.Refresh()
	}
}

// key closes the field on Escape; it tells whether there was one.
func (f *figure) key(k fyne.KeyName) bool {
	if k != fyne.KeyEscape || !f.isOpen() {
		return false
	}
	f.leave()
	return true
}

// figureOver is the field that opens over a drawing; what else is open there closes.
func (w *mainWindow) figureOver(v *drawing.View) *figure {
	if v == w.section || v == w.long {
		return w.cuts.figure
	}
	w.tag.close()
	return w.tag.figure
}

// typeOn opens a field on a dimension of a drawing, or tells what it hangs on where it cannot be typed.
func (w *mainWindow) typeOn(v *drawing.View, on paint.Placed) {
	if v == w.plan && len(on.HangsOn) > 0 {
		w.tag.tellHanging(on)
		return
	}
	if n, ok := w.fieldOn(on); ok {
		n.Beside = true // its name stands at its figure
		w.figureOver(v).number(n, v, v.Figure(on))
	}
}
