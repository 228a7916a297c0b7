package app

import (
	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/paint"
	"underfall/app/tag"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/section"
)

// planTag is the tag over the plan: what it is of, and its fields.
type planTag struct {
	w      *mainWindow
	layer  *tag.Layer
	keys   *control.Keys
	of     section.ThingID
	fields *tray.Loose
	figure *tray.NumberRow // typed in the place of a dimension's; nil while none is
}

// newPlanTag makes the tag of the plan, closed.
func newPlanTag(w *mainWindow) *planTag {
	p := &planTag{w: w}
	p.keys = &control.Keys{Shortcuts: w.keys.Shortcuts, Hints: w.keys.Hints, Shift: w.keys.Shift, Plain: func(k *fyne.KeyEvent) {
		if k.Name == fyne.KeyEscape {
			p.leave()
			return
		}
		w.keys.Plain(k)
	}}
	p.layer = tag.NewLayer(p.keys)
	p.layer.Closed = p.leave
	w.plan.Selected, w.plan.OpenTag, w.plan.Drawn = p.selected, p.open, p.follow
	w.plan.TypeOn = p.typeOn
	return p
}

// selected follows what is chosen in the plan: a tag of anything else closes, and the tray shows where it is
// stated, if it is open.
func (p *planTag) selected(thing section.Thing, ok bool) {
	if p.of != thing.ThingID {
		p.close()
	}
	if !ok {
		return
	}
	j := p.w.desk.Job()
	if paths := j.Tagged(thing.Key); p.w.sides.at == sideFields && len(paths) > 0 {
		p.w.tray.Light(paths[0])
	}
}

// open shows the fields of a thing of the plan beside it; with keys they go to the first, with what has been
// typed already.
func (p *planTag) open(thing section.Thing, keys bool, typed rune) {
	defer p.w.guard.Catch(partWindow)
	if !p.layer.IsOpen() || p.of != thing.ThingID {
		p.show(thing)
	}
	if !keys {
		return
	}
	for _, o := range p.layer.Fields() {
		if f := firstFocusable(o); f != nil {
			p.w.window.Canvas().Focus(f)
			if typed != 0 {
				f.TypedRune(typed)
			}
			return
		}
	}
}

// show makes the tag of a thing.
func (p *planTag) show(thing section.Thing) {
	j := p.w.desk.Job()
	paths := j.Tagged(thing.Key)
	p.of = thing.ThingID
	p.fields = tray.NewLoose(asksOf(p.w.desk, p.w.parts), p.w.parts, p.keys, p.w.theme, paths...)
	c := tag.Content{Title: theme.Say(thing.Name, j.Units)}
	for _, r := range p.fields.Rows() {
		c.Fields = append(c.Fields, r.Object())
	}
	key := thing.Key
	if len(paths) > 0 {
		key = paths[0]
	} else {
		c.Says = theme.Word("tag.measured")
	}
	if l, i, entry, is := job.InList(thing.Key); is && entry == "" && !l.Fixed {
		c.Ways = append(c.Ways, tag.Way{Text: theme.Word("app.remove-item"), Do: p.w.guard.Wrap(partChange, func() { p.remove(edit.RemoveItem(l, i)) })})
	} else if in, row, _, is := j.CellAt(key); is && len(in.Table.Rows(&j)) > in.Table.Fewest {
		c.Ways = append(c.Ways, tag.Way{Text: theme.Word("app.remove-item"), Do: p.w.guard.Wrap(partChange, func() { p.remove(edit.RemoveRow(in, row)) })})
	}
	c.Ways = append(c.Ways, tag.Way{Text: theme.Word("tag.all"), Do: p.w.guard.Wrap(partWindow, func() { p.w.toField(key) })})
	p.layer.Open(c, p.place(thing))
	p.w.log("tag %s %d", thing.Key, thing.Number)
}

// typeOn puts a field in the place of the figure of a dimension, until it is left.
func (p *planTag) typeOn(on paint.Placed, _ fyne.Position) {
	n, ok := p.w.fieldOn(on)
	if !ok {
		return
	}
	p.close()
	asks := asksOf(p.w.desk, p.w.parts)
	do, endPreview := asks.Do, asks.EndPreview
	asks.Do = func(e edit.Edit) job.Problems {
		defer p.leftSoon()
		return do(e)
	}
	asks.EndPreview = func() {
		defer p.leftSoon()
		endPreview()
	}
	n.Beside = true // its name stands at its figure
	p.figure = tray.NewNumberRow(n, asks, p.keys, p.leave)
	p.figure.Refresh(p.w.desk.Job())
	at := p.w.plan.Figure(on)
	p.layer.Open(tag.Content{Fields: []fyne.CanvasObject{p.figure.Object()}}, tag.Thing{Low: at, High: at, At: at, On: true})
	p.w.window.Canvas().Focus(firstFocusable(p.figure.Object()))
	p.w.log("figure %s", n.Key)
}

// leftSoon closes the field of a figure once the keys go elsewhere.
func (p *planTag) leftSoon() {
	p.w.sight.Do(func() {
		if p.figure != nil && !p.typing() {
			p.close()
		}
	})
}

// remove takes away what the tag is of.
func (p *planTag) remove(e edit.Edit) {
	p.close()
	p.w.desk.Do(e)
	control.FocusOn(p.w.plan)
}

// place is where a thing lies in the layer, which lies over the drawing.
func (p *planTag) place(thing section.Thing) tag.Thing {
	low, high, at := p.w.plan.Around(thing)
	return tag.Thing{Low: low, High: high, At: at, Lines: p.w.plan.Lines()}
}

// leave closes the tag and gives the keys back to the drawing.
func (p *planTag) leave() {
	p.close()
	control.FocusOn(p.w.plan)
}

// close takes the tag away.
func (p *planTag) close() {
	p.layer.Close()
	p.of, p.fields, p.figure = section.ThingID{}, nil, nil
}

// follow keeps the tag to its thing as the drawing changes.
func (p *planTag) follow() {
	if !p.layer.IsOpen() || p.figure != nil {
		return
	}
	thing, ok := p.w.plan.Chosen()
	if !ok || thing.ThingID != p.of {
		p.close()
		return
	}
	p.layer.Follow(p.place(thing), p.typing())
}

// typing tells whether the keys go to the tag.
func (p *planTag) typing() bool {
	f, is := p.w.window.Canvas().Focused().(fyne.CanvasObject)
	return is && holds(p.layer, f)
}

// refresh has the fields show a job.
func (p *planTag) refresh(j job.Job) {
	if p.fields != nil {
		p.fields.Show(j)
		p.layer.Refresh()
	}
	if p.figure != nil {
		p.figure.Refresh(j)
		p.layer.Refresh()
	}
}

// key closes the tag on Escape; it tells whether there was one.
func (p *planTag) key(k fyne.KeyName) bool {
	if k != fyne.KeyEscape || !p.layer.IsOpen() {
		return false
	}
	p.leave()
	return true
}
