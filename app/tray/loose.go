package tray

import (
	"fyne.io/fyne/v2"
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

// Light shows what there is to know of the field of a path in the job's file, with what it measures lit, where its station is the
// one that is open, and picks the thing that it is of. It takes no keys, and nothing moves that is being read: another station
// stays open, and the field is not scrolled to.
func (t *Tray) Light(path string) {
	s := t.open
	if of, ok := job.StationOf(path); !ok || of != s.of || !s.less && s.inLess(path) {
		return
	}
	var o fyne.CanvasObject
	s.scroll.Keeping(s.rowInSight(), func() { o, _ = t.fieldOf(s, path) })
	for _, h := range t.helps {
		if o != nil && h.row.Object() == o && h.row.There() {
			s.place.tell(h)
		}
	}
}

// rowInSight is the first row that is seen from its top on; nil where none is.
func (s *station) rowInSight() fyne.CanvasObject {
	d := fyne.CurrentApp().Driver()
	top := d.AbsolutePositionForObject(s.scroll).Y
	for _, r := range s.rows {
		if r.There() && d.AbsolutePositionForObject(r.Object()).Y >= top {
			return r.Object()
		}
	}
	return nil
}
