package edit

import (
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Rows sets all rows of a table.
func Rows(in job.Input, rows [][]float64) Edit {
	if l, _, ok := in.Table.List(0); ok {
		return withWorkedOut(l, rowsEdit(in, Of(in.Message(), func(j *job.Job) { in.Table.Set(j, rows) }), in.Key))
	}
	return rowsEdit(in, Of(in.Message(), func(j *job.Job) { setRows(in, j, rows) }), in.Key)
}

// setRows gives a job the rows of a table; the room its corners with what hangs on them.
func setRows(in job.Input, j *job.Job, rows [][]float64) {
	if in.Key != job.OutlineKey {
		in.Table.Set(j, rows)
		return
	}
	var ring []plan.Point
	for _, v := range rows {
		ring = append(ring, plan.Point{v[0], v[1]})
	}
	Outline(ring).apply(j)
}

// rowsEdit is an edit of a table that states what paths lead to. Corners bring their walls along.
func rowsEdit(in job.Input, e Edit, states ...string) Edit {
	e = States(e, states...)
	if in.Key == job.OutlineKey {
		return e.About(job.OutlineKey, job.WallsKey)
	}
	return e.About(in.Key)
}

// Cell changes a number of a row of a table; nothing where there is no such row.
func Cell(in job.Input, row, column int, value float64) Edit {
	t := *in.Table
	if l, e, ok := t.List(column); ok {
		return ItemNumber(l, row, e, &value)
	}
	e := rowsEdit(in, Of(in.Message(), func(j *job.Job) {
		if rows := t.Rows(j); row >= 0 && row < len(rows) {
			rows[row][column] = value
			setRows(in, j, rows)
		}
	}), t.Path(row, column))
	of := func(j job.Job) (float64, bool) {
		v := t.At(&j, row, column)
		return v, v == v
	}
	return e.stated(Figure{in.Key, value, t.Columns[column].Kind, of, func(v float64) Edit { return Cell(in, row, column, v) }}).
		called(func(j *job.Job) message.Message { return t.Message(j, row, column) })
}

// AddRow puts a usual thing at the end of a table; a turn into the middle of the longest straight of the
// run as it is laid. Nothing where the table is full. A level that nobody has read is assumed.
func AddRow(in job.Input) Edit {
	t := *in.Table
	if l, _, ok := t.List(0); ok {
		return AddItem(l)
	}
	return rowsEdit(in, Of(message.Of(t.AddLabel()), func(j *job.Job) {
		rows := t.Rows(j)
		switch row := t.Added(j); {
		case len(rows) >= t.Most:
		case in.Key == job.TurnsKey:
			addTurn(j)
		case row != nil:
			setRows(in, j, append(rows, row))
		}
		if in.Key == job.SpotLevelsKey && len(t.Rows(j)) > len(rows) {
			j.SetStanding(t.Path(len(rows), levelColumn), job.Assumed)
		}
	}), in.Key)
}

// levelColumn is the column of the level among the readings.
const levelColumn = 2

// addTurn puts a turn into the middle of the longest straight of the run.
func addTurn(j *job.Job) {
	l, ok := laidOut(*j)
	if !ok {
		return
	}
	run := waste.Lay(*j, l)
	atMM, longestMM, fromMM := 0.0, 0.0, 0.0
	for i := 1; i < len(run.Corners); i++ {
		mm := run.Corners[i].Sub(run.Corners[i-1]).Len()
		if mm > longestMM {
			longestMM, atMM = mm, fromMM+mm/2
		}
		fromMM += mm
	}
	AddTurn(atMM).apply(j)
}

// RemoveRow takes a thing of a table away; nothing where there is no such thing, nor where there would be
// too few.
func RemoveRow(in job.Input, row int) Edit {
	t := *in.Table
	if l, _, ok := t.List(0); ok {
		return RemoveItem(l, row)
	}
	return rowsEdit(in, Of(message.Of(t.RemoveLabel()), func(j *job.Job) {
		rows := t.Rows(j)
		if row < 0 || row >= len(rows) || len(rows) <= t.Fewest {
			return
		}
		setRows(in, j, slices.Delete(rows, row, row+1))
		j.WithoutItem(in.Key, row)
		j.KeepStandings()
	}), in.Key)
}
