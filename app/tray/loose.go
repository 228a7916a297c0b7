package tray

import (
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/part"
)

// Loose are fields of a job apart from the tray: the same as stand in it.
type Loose struct {
	tray *Tray
	rows []Row
}

// NewLoose makes the fields of some paths in a job's file, in their order; a path that leads to no field
// has none.
func NewLoose(a Asks, shelf part.Shelf, keys *control.Keys, th *theme.Theme, paths ...string) *Loose {
	t := &Tray{asks: a, shelf: shelf, keys: keys, theme: th, now: a.Job()}
	t.sold = t.now.Sold()
	l := &Loose{tray: t}
	for _, path := range paths {
		l.rows = append(l.rows, t.rowAt(path)...)
	}
	l.Show(t.now)
	return l
}

// rowAt makes the field of a path.
func (t *Tray) rowAt(path string) []Row {
	if l, i, entry, ok := job.InList(path); ok {
		for _, e := range l.Entries() {
			if e.Key == entry {
				return []Row{t.entry(l, e, &i, func(j job.Job) bool { return i < l.Count(&j) && e.Uses(&j, i) })}
			}
		}
		return nil
	}
	if in, row, column, ok := t.now.CellAt(path); ok {
		there := func(j job.Job) bool { return in.Uses(&j) && row < len(in.Table.Rows(&j)) }
		return []Row{t.cell(in, row, column, there, false, nil, nil)}
	}
	in, ok := job.FindInput(path)
	if !ok || in.Things != nil || in.Table != nil {
		return nil
	}
	return t.rowsOf(in, nil)
}

// Rows are the fields.
func (l *Loose) Rows() []Row { return l.rows }

// Show follows the job.
func (l *Loose) Show(j job.Job) {
	l.tray.now, l.tray.sold = j, j.Sold()
	for _, r := range l.rows {
		r.Refresh(j)
	}
}

// Light opens the station of a path in the job's file and shows what there is to know of its field, with
// what it measures lit; it takes no keys.
func (t *Tray) Light(path string) {
	o, _ := t.Reveal(path)
	for _, h := range t.helps {
		if o != nil && h.row.Object() == o && h.row.There() {
			t.ask(h)
		}
	}
}
