package tray

import "slices"

// notTakenRow is a row that may hold what was typed and not taken.
type notTakenRow interface {
	// notTaken are the names of the fields that do.
	notTaken() []string
}

// notTakenOf are the names of all fields of some rows that hold what was typed and not taken.
func notTakenOf[R Row](rows []R) (out []string) {
	for _, r := range rows {
		if n, ok := Row(r).(notTakenRow); ok && r.There() {
			out = append(out, n.notTaken()...)
		}
	}
	return out
}

// A number is not taken while it is asked which reading of it is meant.
func (r *NumberRow) notTaken() []string {
	if r.Field.Asks() {
		return []string{r.called(r.now)}
	}
	return nil
}

func (r *thingsRow) notTaken() []string { return notTakenOf(r.rows) }

func (r *TableRow) notTaken() (out []string) {
	for _, l := range r.rows[:min(len(r.rows), r.Count())] {
		out = append(out, notTakenOf(l.cells)...)
	}
	return out
}

func (r *tapeRow) notTaken() (out []string) {
	for _, l := range r.marks {
		out = append(out, notTakenOf([]*NumberRow{l.row})...)
	}
	for _, l := range r.across {
		out = append(out, notTakenOf([]*NumberRow{l.row})...)
	}
	slices.Sort(out)
	return out
}
