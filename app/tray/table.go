package tray

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// TableRow edits things that are told by a few numbers each: a row a thing, a field a number, with a
// button at each to take it away and one below them to add another.
type TableRow struct {
	In      job.Input
	Add     *control.Press
	tray    *Tray
	less    func() bool // tells whether the less used are shown
	name    *control.Text
	heads   *fyne.Container
	lines   *fyne.Container // one for each thing, with what there is to know of it
	rows    []*tableLine
	message *control.Text
	told    *control.Text // what is to be said of all rows together
	ownLine *ownLine      // nil where no part fills it
	box     *fyne.Container
	now     job.Job
}

// tableLine is the line of one thing.
type tableLine struct {
	name   *control.Text
	cells  []*NumberRow
	remove *control.Press
	box    *fyne.Container
}

// table makes the editor of a table. Less tells whether the less used is shown.
func (t *Tray) table(i job.Input, less func() bool) *TableRow {
	r := &TableRow{In: i, tray: t, less: less, name: labelOver(theme.Word(i.Label())), lines: container.New(apart{}), message: complaint(),
		told: toldOfAll(), now: t.now}
	r.Add = control.NewPress(t.keys, "", r.add)
	r.heads = container.New(&cells{}, labelOver(""))
	for c := range i.Table.Columns {
		r.heads.Add(caption(theme.Word(i.Table.Label(c))))
	}
	visible(r.heads, r.headed())
	r.box = container.New(apart{}, container.New(stacked{}, r.name, r.heads, r.lines), r.told, r.Add, r.message)
	if i.Table.Single() {
		r.Add.Hide()
	} else {
		r.Add.Text = theme.Word(i.Table.AddLabel())
	}
	if job.FilledByParts(i.Key) {
		r.ownLine = newOwnLine(t.keys, func() { r.do(edit.AsSold(i.Key)) })
		r.box.Add(r.ownLine.box)
	}
	return r
}

// headed tells whether the columns are named once over all rows; else each field has its name.
func (r *TableRow) headed() bool {
	return len(r.In.Table.Columns) <= cellsAcross && !r.In.Table.Single()
}

// Object is the editor.
func (r *TableRow) Object() fyne.CanvasObject { return r.box }

// There tells whether it is there.
func (r *TableRow) There() bool { return r.box.Visible() }

// key is the input's.
func (r *TableRow) key() string { return r.In.Key }

// Count is how many rows show.
func (r *TableRow) Count() int { return len(r.In.Table.Rows(&r.now)) }

// Cell is the field of a number of a row; nil where it does not show.
func (r *TableRow) Cell(row, column int) *NumberRow {
	if row < 0 || row >= min(r.Count(), len(r.rows)) || column < 0 || column >= len(r.rows[row].cells) {
		return nil
	}
	return r.rows[row].cells[column]
}

// Remove is the button that takes a row away.
func (r *TableRow) Remove(row int) *control.Press { return r.rows[row].remove }

// Says is why something was refused that is of the table as a whole; nothing where nothing was.
func (r *TableRow) Says() string { return said(r.message) }

// Told is what is said of all rows together; nothing where nothing is.
func (r *TableRow) Told() string { return said(r.told) }

// OwnText is what it says of values that are the user's own and not their part's; nothing of others.
// TakeAsSold makes what the part has the job's again.
func (r *TableRow) OwnText() string { return r.ownLine.text() }

func (r *TableRow) TakeAsSold() { r.ownLine.back() }

// fieldOf is the field of a path that leads to the table, or into it, with what gives it the focus: of a
// row its first. ok is false for any other path.
func (r *TableRow) fieldOf(path string) (o fyne.CanvasObject, focus func(), ok bool) {
	if path == r.In.Key {
		return r.box, func() { r.focus(0, 0) }, true
	}
	for i := range r.Count() {
		for c := range r.In.Table.Columns {
			if p := r.In.Table.Path(i, c); p == path || strings.HasPrefix(p, path+"[") || strings.HasPrefix(p, path+".") {
				return r.rows[i].box, func() { r.focus(i, c) }, true
			}
		}
	}
	return nil, nil, false
}

// do makes an edit of the table, or says why not; it tells whether it was made.
func (r *TableRow) do(e edit.Edit) bool {
	err := refusal(r.tray.asks.Do(e), r.In.Key)
	r.Refresh(r.tray.asks.Job())
	sayUnder(r.message, err, r.now.Units)
	return err == nil
}

// add puts another thing at the end and goes to its first figure.
func (r *TableRow) add() {
	if r.do(edit.AddRow(r.In)) {
		r.focus(r.Count()-1, 0)
	}
}

// remove takes a thing away and goes to the one that takes its place.
func (r *TableRow) remove(row int) {
	if r.do(edit.RemoveRow(r.In, row)) {
		r.focus(min(row, r.Count()-1), 0)
	}
}

// focus has the keys go to a figure, or to the button that adds a row where there is none.
func (r *TableRow) focus(row, column int) {
	if c := r.Cell(row, column); c != nil {
		c.Field.Focus()
		return
	}
	if r.Add.Visible() {
		control.FocusOn(r.Add)
	}
}

// next has the keys go on to the figure after one, in its row or the next; past the last to the button
// that adds a row.
func (r *TableRow) next(row, column int) {
	for column++; ; column++ {
		if column >= len(r.In.Table.Columns) {
			row, column = row+1, 0
		}
		if c := r.Cell(row, column); c == nil || c.There() {
			r.focus(row, column)
			return
		}
	}
}

// Refresh follows the job.
func (r *TableRow) Refresh(j job.Job) {
	r.now = j
	if visible(r.box, r.In.Uses(&j)); !r.There() {
		return
	}
	tell(r.told, r.In.Table.Said(&j), j.Units)
	n := r.Count()
	for len(r.rows) < n {
		r.rows = append(r.rows, r.line(len(r.rows)))
	}
	for i, l := range r.rows {
		visible(l.box, i < n)
		if i >= n {
			continue
		}
		if name := r.called(i); l.name.Text != name {
			l.name.SetText(name)
		}
		for _, c := range l.cells {
			c.Refresh(j)
		}
		visible(l.remove, n > r.In.Table.Fewest)
		l.box.Refresh()
	}
	if r.headed() {
		visible(r.heads, n > 0)
		for c, o := range r.heads.Objects[1:] {
			o.(*control.Text).SetText(theme.Say(r.In.Table.Called(&j, 0, c), j.Units))
		}
	}
	visible(r.Add, !r.In.Table.Single() && n < r.In.Table.Most)
	if r.ownLine != nil {
		var m message.Message
		if r.tray.sold.OwnList(r.In.Key) {
			m = job.OwnListMessage()
		}
		r.ownLine.show(m, j.Units)
	}
}

// called is what stands before a row: a corner's two letters, or its number.
func (r *TableRow) called(row int) string {
	switch {
	case r.In.Table.Single():
		return ""
	case r.In.Key == job.OutlineKey:
		return r.now.Room.Corner(row).String()
	}
	return strconv.Itoa(row + 1)
}

// line makes the line of a thing.
func (r *TableRow) line(row int) *tableLine {
	t, table := r.tray, *r.In.Table
	l := &tableLine{name: labelOver("")}
	l.remove = control.NewPress(t.keys, "", func() { r.remove(row) }).WithIcon(theme.IconClose)
	l.remove.Bare = true
	l.remove.Hint = func() string {
		return theme.Say(message.Of("tray.remove-row", message.In("row", r.now.PlaceOf(table.Row(row)))), r.now.Units)
	}
	objects := []fyne.CanvasObject{l.name}
	for c, column := range table.Columns {
		cell := t.cell(r.In, row, c, func(j job.Job) bool { return row < len(table.Rows(&j)) && (!column.Less || r.less()) }, r.headed(),
			func(text string) bool { return r.pasted(row, c, text) }, func() { r.next(row, c) })
		l.cells = append(l.cells, cell)
		objects = append(objects, cell.Object())
		t.helpOf(cell, r.In.Help(), r.In.Key+column.Key)
	}
	if !table.Single() {
		objects = append(objects, l.remove)
	}
	l.box = container.New(&cells{}, objects...)
	r.lines.Add(l.box)
	return l
}

// cell makes the field of a number of a row of a table: its name stands beside it or over it; pasted and
// entered are as in Number and NewNumberRow.
func (t *Tray) cell(in job.Input, row, column int, there func(job.Job) bool, beside bool, pasted func(string) bool, entered func()) *NumberRow {
	table, c := *in.Table, in.Table.Columns[column]
	return NewNumberRow(Number{Key: in.Key, Label: table.Label(column), Kind: c.Kind, Step: c.Step,
		Least: c.Least, Greatest: c.Greatest, Uses: there, Beside: beside, Pasted: pasted,
		Get:      func(j job.Job) float64 { return table.At(&j, row, column) },
		Set:      func(v float64) edit.Edit { return edit.Cell(in, row, column, v) },
		Standing: func() string { return table.Path(row, column) },
		About:    func(j job.Job) message.Message { return table.Message(&j, row, column) },
	}, t.asks, t.keys, entered)
}

// pasted takes a table of several numbers into the rows from a figure on, as one edit; it tells whether
// the text was one. What cannot be read is said, and nothing is changed.
func (r *TableRow) pasted(row, column int, text string) bool {
	lines := tableLines(text)
	if len(lines) == 0 || len(lines) == 1 && !severalNumbers(lines[0].text) {
		return false
	}
	rows, typed, err := r.read(row, column, lines)
	if err != nil {
		sayUnder(r.message, err, r.now.Units)
		return true
	}
	if r.do(edit.Typed(edit.Rows(r.In, rows), typed...)) {
		r.focus(row, column)
	}
	return true
}

// textLine is a line of a text, by its number in it.
type textLine struct {
	number int
	text   string
}

// tableLines are the lines of a text that say something, without a first one of words alone.
func tableLines(text string) []textLine {
	var out []textLine
	for n, l := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		l = strings.TrimRight(strings.ReplaceAll(l, "±", " "), " \r")
		if strings.TrimSpace(l) == "" || len(out) == 0 && !strings.ContainsAny(l, "0123456789") {
			continue
		}
		out = append(out, textLine{n + 1, l})
	}
	return out
}

// severalNumbers tells whether a line has marks that only part numbers from each other. A comma without
// a space after it may belong to a number.
func severalNumbers(line string) bool {
	line = strings.TrimSpace(line)
	return strings.ContainsAny(line, "\t;") || strings.Contains(line, ", ") || strings.Count(line, ",") > 1
}

// read gives the rows of the table with lines of numbers in them, from a figure on: where they are too
// many to stand beside it, from the first of its row on. Typed are the paths of what the lines say.
func (r *TableRow) read(row, column int, lines []textLine) (rows [][]float64, typed []string, err error) {
	rows, typed, err = r.readFrom(row, column, lines)
	if err != nil && column > 0 && severalNumbers(lines[0].text) {
		return r.readFrom(row, 0, lines)
	}
	return rows, typed, err
}

// readFrom is read from one column on. Rows that are there keep what no line says.
func (r *TableRow) readFrom(row, column int, lines []textLine) (rows [][]float64, typed []string, err error) {
	t := *r.In.Table
	rows = t.Rows(&r.now)
	var columns []unit.Column
	for _, c := range t.Columns[column:] {
		columns = append(columns, c.Column)
	}
	for k, l := range lines {
		fresh, least := row+k >= len(rows), 1
		if fresh {
			least = max(1, t.Least()-column)
		}
		v, err := unit.ParseColumns(l.text, columns, least, r.now.Units)
		switch {
		case err == nil && fresh && column > 0:
			err = message.Fail("input.row-from-first")
		case err == nil && fresh && len(rows) == t.Most:
			err = message.Fail("input.most-rows", message.N("most", t.Most))
		}
		if err != nil {
			return nil, nil, message.Wrap(err, "input.line", message.No("n", l.number))
		}
		if fresh {
			added := t.Added(&r.now)
			if added == nil { // all its numbers are there
				added = make([]float64, len(t.Columns))
			}
			rows = append(rows, added)
		}
		copy(rows[row+k][column:], v)
		for c := range v {
			typed = append(typed, t.Path(row+k, column+c))
		}
	}
	return rows, typed, nil
}
