package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"underfall/geometry/job"
)

// reveal opens the group a key belongs to and gives its field, with what can
// take the focus in it; the group's own heading when the key has no field.
func (in *inputs) reveal(key string) (fyne.CanvasObject, fyne.Focusable) {
	station, _ := job.StationOf(key)
	for _, g := range in.groups {
		if g.of != station {
			continue
		}
		in.accordion.Open(slices.Index(in.accordion.Items, g.item))
		if o, focus := in.fieldOf(key); o != nil {
			return o, focus
		}
		return g.item.Detail, nil
	}
	return nil, nil
}

// fieldOf is the field of a key that is there, with what can take the focus in it; of a thing of a
// list once that is picked. Nothing without one.
func (in *inputs) fieldOf(key string) (fyne.CanvasObject, fyne.Focusable) {
	rows := in.rows
	if l, i, entry, ok := job.InList(key); ok && entry != "" {
		key = l.Key + " " + entry
		rows = nil
		for _, r := range in.rows {
			if g, is := r.(*groupRow); is && g.list == l.Key && i < l.Count(&in.now) {
				*g.at = i
				g.refresh(in.now)
				rows = g.rows
			}
		}
	}
	for _, r := range rows {
		switch r := r.(type) {
		case *numberRow:
			if r.key == key && r.box.Visible() {
				return r.box, r.entry
			}
		case *textRow:
			if r.key == key && r.box.Visible() {
				return r.box, r.entry
			}
		case *groupRow:
			if r.list == key {
				return r.box, nil // where the thing is stated
			}
		}
	}
	return nil, nil
}

// top is how far down the inputs an object stands.
func (in *inputs) top(o fyne.CanvasObject) float32 {
	d := fyne.CurrentApp().Driver()
	return d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(in.accordion).Y
}
