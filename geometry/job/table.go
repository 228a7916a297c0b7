package job

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Numbers are a list of numbers, which stand on one line.
type Numbers struct {
	unit.Column
	// Fewest is how many there are where there are any, Most how many at most.
	Fewest, Most int
	Hint         []float64 // an example
	Get          func(*Job) []float64
	set          func(*Job, []float64)
}

// Set makes numbers the job's.
func (n Numbers) Set(j *Job, v []float64) { n.set(j, v) }

// numbers is an input for a list of numbers on one line.
func numbers(
	key string, column unit.Column, fewest, most int, hint []float64, field func(*Job) *[]float64, tidy func(*Job, []float64) []float64,
) Input {
	return Input{Key: key, Numbers: &Numbers{Column: column, Fewest: fewest, Most: most, Hint: hint,
		Get: func(j *Job) []float64 { return *field(j) },
		set: func(j *Job, v []float64) { *field(j) = tidy(j, slices.Clone(v)) }}}
}

// asTyped are numbers as they are; inOrder in rising order, each once.
func asTyped(_ *Job, v []float64) []float64 { return v }

func inOrder(_ *Job, v []float64) []float64 {
	slices.Sort(v)
	return slices.Compact(v)
}

// Table is a list of things that are told by a few numbers each: a row a thing, a column a number.
type Table struct {
	key     string
	Columns []Column
	// Fewest and Most are how many rows there may be; where there is one and never another, the rows
	// have no number.
	Fewest, Most int
	get          func(*Job) [][]float64
	set          func(*Job, [][]float64)
	// usual is the row that is added; nil where its edit knows better.
	usual func(*Job) []float64
	// of is the list of things that the table shows; nil where it is none of those.
	of *List
}

// List is the list of things that the table shows, and the entry that a column shows; ok is false where it is
// none of those.
func (t Table) List(column int) (l List, e Entry, ok bool) {
	if t.of == nil {
		return l, e, false
	}
	return *t.of, t.of.entries[column], true
}

// inRows is the input for a list of things each told by numbers that are always there, all shown at once.
func inRows(l List) Input {
	t := Table{key: l.Key, Most: l.Most, of: &l}
	for _, e := range l.entries {
		c := column("."+e.Key, e.Number.Kind, e.Number.Least, e.Number.Greatest, e.Number.Step)
		if c.Less = e.Less; c.Less {
			c.Usual = e.Number.Least // of the row that is added
		}
		t.Columns = append(t.Columns, c)
	}
	row := func(j *Job, i int) (out []float64) {
		for _, e := range l.entries {
			out = append(out, *e.Number.At(j, i))
		}
		return out
	}
	t.get = func(j *Job) (out [][]float64) {
		for i := range l.Count(j) {
			out = append(out, row(j, i))
		}
		return out
	}
	t.set = func(j *Job, rows [][]float64) {
		for l.Count(j) > len(rows) {
			l.Remove(j, l.Count(j)-1)
		}
		for l.Count(j) < len(rows) {
			l.add(j)
		}
		for i, v := range rows {
			for c, e := range l.entries {
				e.Number.Set(j, i, &v[c])
			}
		}
	}
	t.usual = func(j *Job) []float64 {
		with := j.Clone()
		l.add(&with)
		return row(&with, l.Count(&with)-1)
	}
	return Input{Key: l.Key, Table: &t}
}

// Column is one of the numbers that tell a thing.
type Column struct {
	// Key leads from the thing to the number in the job's file.
	Key string
	unit.Column
	Step float64
	// Usual is what one that is left out is taken for; NaN where none may be left out.
	Usual float64
	// Less tells that it is less used.
	Less bool
}

// Rows are the numbers of all things.
func (t Table) Rows(j *Job) [][]float64 { return t.get(j) }

// Set makes rows the job's.
func (t Table) Set(j *Job, rows [][]float64) { t.set(j, rows) }

// At is a number of a thing; NaN where there is no such thing.
func (t Table) At(j *Job, row, column int) float64 {
	if rows := t.get(j); row >= 0 && row < len(rows) {
		return rows[row][column]
	}
	return math.NaN()
}

// Added is the row that is added to a job's by itself; nil where that hangs on more than the job states.
func (t Table) Added(j *Job) []float64 {
	if t.usual == nil {
		return nil
	}
	return t.usual(j)
}

// Single tells that there is one row and never another.
func (t Table) Single() bool { return t.Most == 1 }

// Least is how many numbers tell a thing at least, from the first on.
func (t Table) Least() int {
	least := slices.IndexFunc(t.Columns, func(c Column) bool { return c.Usual == c.Usual })
	if least < 0 {
		return len(t.Columns)
	}
	return least
}

// Row is the path of a thing in the job's file, and Path that of one of its numbers.
func (t Table) Row(row int) string {
	if t.Single() {
		return t.key
	}
	return Nth(t.key, row)
}

func (t Table) Path(row, column int) string { return t.Row(row) + t.Columns[column].Key }

// Label is the id of what a column is called.
func (t Table) Label(column int) message.ID {
	return message.ID("item." + t.key + t.Columns[column].Key)
}

// AddLabel is the id of what the button that adds a row says, RemoveLabel of the one that takes it away;
// so are their edits called.
func (t Table) AddLabel() message.ID    { return message.ID("item." + t.key + ".add") }
func (t Table) RemoveLabel() message.ID { return message.ID("item." + t.key + ".remove") }

// Called is what a column is called in a job, for one of its things.
func (t Table) Called(j *Job, row, column int) message.Message {
	if m, ok := j.Named(t.Path(row, column)); ok {
		return m
	}
	return message.Of(t.Label(column))
}

// Message says which number of which thing of a job it is.
func (t Table) Message(j *Job, row, column int) message.Message {
	return message.Of("place.item-entry", message.In("item", j.PlaceOf(t.Row(row))), message.In("entry", t.Called(j, row, column)))
}

// ids are those that follow from the table.
func (t Table) ids() []message.ID {
	var out []message.ID
	for c := range t.Columns {
		out = append(out, t.Label(c))
	}
	if !t.Single() {
		out = append(out, t.AddLabel(), t.RemoveLabel())
	}
	return out
}

// column is one that may not be left out.
func column(key string, kind unit.Kind, least, greatest, step float64) Column {
	return Column{Key: key, Column: unit.Column{Kind: kind, Least: least, Greatest: greatest}, Step: step, Usual: math.NaN()}
}

// or is the column with what it is taken for where it is left out.
func (c Column) or(usual float64) Column {
	c.Usual = usual
	return c
}

// less is the column among the less used.
func (c Column) less() Column {
	c.Less = true
	return c
}

// Said is what is to be said of all rows together; nothing of most.
func (t Table) Said(j *Job) []message.Message {
	if t.of == nil {
		return nil
	}
	return t.of.Said(j)
}
