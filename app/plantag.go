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
	figure *figure // in the place of a dimension's
	// worked is the dimension that it tells of what that hangs on; nil while it does not.
	worked *paint.Placed
}

// newPlanTag makes the tag of the plan, closed.
func newPlanTag(w *mainWindow) *planTag {
	p := &planTag{w: w}
	p.keys = w.keysOver(p.key, p.leave)
	p.layer = tag.NewLayer(p.keys)
	p.layer.Closed = p.leave
	w.plan.Selected, w.plan.OpenTag, w.plan.Drawn = p.selected, p.open, p.follow
	p.figure = newFigure(w, p.layer)
	return p
}

// selected follows what is chosen in the plan: a tag of anything else closes, and the tray tells of its field, if that is of the
// station that is open.
func (p *planTag) selected(thing section.Thing, ok bool) {
	if p.of != thing.ThingID || p.worked != nil {
		p.close()
	}
	if !ok {
		return
	}
	j := p.w.desk.Job()
	if paths := j.TaggedAlong(thing.Key, thing.Along); p.w.sides.at == sideFields && len(paths) > 0 {
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
	paths := j.TaggedAlong(thing.Key, thing.Along)
	p.figure.close()
	p.of = thing.ThingID
	p.fields = tray.NewLoose(p.w.asks(), p.w.parts, p.keys, p.w.theme, paths...)
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
		c.Ways = append(c.Ways, tag.Way{Text: theme.Word(l.RemoveLabel()), Do: p.w.guard.Wrap(partChange, func() { p.remove(edit.RemoveItem(l, i)) })})
	} else if in, row, _, is := j.CellAt(key); is && len(in.Table.Rows(&j)) > in.Table.Fewest {
		c.Ways = append(c.Ways, tag.Way{Text: theme.Word(in.Table.RemoveLabel()), Do: p.w.guard.Wrap(partChange, func() { p.remove(edit.RemoveRow(in, row)) })})
	}
	c.Ways = append(c.Ways, tag.Way{Text: theme.Word("tag.all"), Do: p.w.guard.Wrap(partWindow, func() { p.w.toField(key) })})
	p.layer.Open(c, p.place(thing))
	p.w.log("tag %s %d", thing.Key, thing.Number)
}

// tellHanging tells at a dimension that is worked out what it hangs on, with the way there.
func (p *planTag) tellHanging(on paint.Placed) {
	p.w.plan.Deselect()
	p.close()
	j := p.w.desk.Job()
	c := tag.Content{Title: on.Text, Says: theme.Word("tag.worked-out")}
	for _, path := range on.HangsOn {
		c.Ways = append(c.Ways, tag.Way{Text: theme.Sentence(j.PlaceOf(path), j.Units), Do: p.w.guard.Wrap(partWindow, func() { p.goTo(path) })})
	}
	p.worked = &on
	p.layer.Open(c, p.placeOf(on))
	p.w.log("hangs on %v", on.HangsOn)
}

// placeOf is where the figure of a dimension lies in the layer.
func (p *planTag) placeOf(on paint.Placed) tag.Thing {
	low, high := p.w.plan.BoxOf(on)
	return tag.Thing{Low: low, High: high, At: p.w.plan.Figure(on), Lines: p.w.plan.Lines()}
}

// goTo opens the tag of what a path of the job's file leads to, or its field where the plan has no such thing.
func (p *planTag) goTo(path string) {
	p.close()
	id := section.ThingID{Key: path}
	if _, there := p.w.plan.Thing(id); there {
		p.w.plan.Expect(id)
		return
	}
	p.w.toField(path)
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

// leave closes the tag, lets go of what it is of and gives the keys back to the drawing.
func (p *planTag) leave() {
	p.w.plan.Deselect()
	p.close()
	control.FocusOn(p.w.plan)
}

// close takes the tag away, and a field in the place of a figure.
func (p *planTag) close() {
	p.figure.close()
	p.layer.Close()
	p.of, p.fields, p.worked = section.ThingID{}, nil, nil
}

// follow keeps the tag to its thing as the drawing changes.
func (p *planTag) follow() {
	if !p.layer.IsOpen() || p.figure.isOpen() {
		return
	}
	if p.worked != nil {
		if on, there := p.w.plan.Worked(*p.worked); there {
			p.layer.Follow(p.placeOf(on), p.figure.typing())
		} else {
			p.close()
		}
		return
	}
	thing, ok := p.w.plan.Chosen()
	if !ok || thing.ThingID != p.of {
		p.close()
		return
	}
	p.layer.Follow(p.place(thing), p.figure.typing())
}

// refresh has the fields show a job.
func (p *planTag) refresh(j job.Job) {
	if p.fields != nil {
		p.fields.Show(j)
		p.layer.Refresh()
	}
	p.figure.refresh(j)
}

// key closes the tag on Escape; it tells whether there was one.
func (p *planTag) key(k fyne.KeyName) bool {
	if k != fyne.KeyEscape || !p.layer.IsOpen() {
		return false
	}
	p.leave()
	return true
}
