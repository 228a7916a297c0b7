package tray

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/geometry/job"
)

// Reveal opens the station at which a path of the job's file is stated and gives its field, with
// what gives it the focus; all of the station where the path has no field of its own, and
// nothing where it is stated at none.
func (t *Tray) Reveal(key string) (o fyne.CanvasObject, focus func()) {
	of, ok := job.StationOf(key)
	if !ok {
		return nil, nil
	}
	t.Open(of)
	s := t.open
	if !s.less && s.inLess(key) {
		s.less = true
		s.refresh(t.now)
	}
	o, focus = t.fieldOf(s, key)
	if o == nil {
		return s.box, nil
	}
	s.scroll.Reveal(o)
	return o, focus
}

// Row opens the station of an input, with its less used, and gives its field; nil where there is none
// of that key. Of an entry of a list the key is the list's and the entry's, parted by a space.
func (t *Tray) Row(key string) Row {
	list, _, _ := strings.Cut(key, " ")
	in, ok := job.FindInput(list)
	if !ok {
		return nil
	}
	t.Open(in.Station)
	if s := t.open; !s.less {
		s.less = true
		s.refresh(t.now)
	}
	rows := t.open.rows
	for _, r := range t.open.rows {
		if things, is := r.(*thingsRow); is {
			rows = append(rows, things.rows...)
		}
	}
	for _, r := range rows {
		if r.key() == key {
			return r
		}
	}
	return nil
}

// inLess tells whether a path leads to a less used field of the station, or to a less used entry of a thing.
func (s *station) inLess(key string) bool {
	if in, ok := job.InputOf(key); ok && slices.ContainsFunc(s.shown, func(f field) bool { return f.in.Key == in.Key && len(f.less) > 0 }) {
		return true
	}
	l, _, entry, ok := job.InList(key)
	if !ok {
		return false
	}
	for _, e := range l.Entries() {
		if e.Key == entry {
			return e.Less
		}
	}
	return false
}

// fieldOf is the field of a path that is there, with what gives it the focus; of a thing of
// a list once that is picked. Nothing without one.
func (t *Tray) fieldOf(s *station, key string) (fyne.CanvasObject, func()) {
	rows := s.rows
	for _, r := range s.rows {
		if table, is := r.(*TableRow); is && table.There() {
			if o, focus, in := table.fieldOf(key); in {
				return o, focus
			}
		}
	}
	if l, i, entry, ok := job.InList(key); ok {
		for _, r := range s.rows {
			if things, is := r.(*thingsRow); is && things.list.Key == l.Key {
				if i < l.Count(&t.now) {
					*things.at = i
					things.Refresh(t.now)
				}
				if entry == "" {
					return things.toState(&t.now)
				}
				rows, key = things.rows, l.Key+" "+entry
			}
		}
	}
	for _, r := range rows {
		if r.There() && r.key() == key {
			return focusOf(r)
		}
	}
	return nil, nil
}

// toState is the field of the first that nobody has stated of the thing that is picked, else its first,
// with what gives it the focus; of none the button that adds one.
func (r *thingsRow) toState(j *job.Job) (fyne.CanvasObject, func()) {
	var first Row
	for i, e := range r.list.Entries() {
		row := r.rows[i]
		if !row.There() {
			continue
		}
		if len(j.OpenUnder(r.list.Path(*r.at, e))) > 0 {
			return focusOf(row)
		}
		if first == nil {
			first = row
		}
	}
	switch {
	case first != nil:
		return focusOf(first)
	case r.add.Visible():
		return r.add, func() { control.FocusOn(r.add) }
	}
	return r.box, nil
}

// focusOf is the object of a field with what gives it the focus; nothing of a row that takes none.
func focusOf(r Row) (fyne.CanvasObject, func()) {
	switch r := r.(type) {
	case *NumberRow:
		return r.box, r.Field.Focus
	case *TextRow:
		return r.box, func() { control.FocusOn(r.Entry) }
	case *ChoiceRow:
		return r.box, func() { control.FocusOn(r.by) }
	}
	return nil, nil
}
