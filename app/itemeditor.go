package app

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// listEditor edits a list of things one by one: which, its entries, and buttons to add
// one and to take it away.
func (in *inputs) listEditor(i job.Input) row {
	l, at := *i.Things, in.picker()
	g := &groupRow{list: l.Key, at: at}
	sel, sync := in.itemPicker(itemsOf(l), at, func() { g.refresh(in.now) })
	some := func(j job.Job) bool { return *at < l.Count(&j) }
	for _, e := range l.Entries() {
		uses := func(j job.Job) bool { return some(j) && e.Uses(&j, *at) }
		g.rows = append(g.rows, in.itemRow(l, e, at, uses))
	}
	add := widget.NewButton("", func() {
		j := in.desk.Job()
		*at = l.Count(&j)
		in.desk.Do(edit.AddItem(l))
	})
	if !l.Fixed {
		add.SetText(theme.Word(l.AddLabel()))
	}
	remove := widget.NewButton(theme.Word("app.remove-item"), func() { in.desk.Do(edit.RemoveItem(l, *at)) })
	heading := widget.NewLabelWithStyle(theme.Word(l.Name(), message.No("n", 1)), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	var lead *widget.Button
	if l.Key == job.PipeEndsKey {
		lead = widget.NewButton(theme.Word("app.lead-here"), func() { in.desk.Do(edit.LeadTo(*at)) })
	}
	g.pre = func(j job.Job) {
		n := l.Count(&j)
		*at = max(0, min(*at, n-1))
		sync(j)
		visible(heading, n > 0 && l.Most == 1)
		visible(sel, n > 0 && l.Most > 1)
		visible(remove, n > 0 && !l.Fixed)
		visible(add, !l.Full(&j) && !l.Fixed)
		visible(g.box, i.Uses(&j))
		if lead != nil {
			visible(lead, n > 0)
		}
	}
	g.box = container.NewVBox(heading, sel)
	g.addRows()
	if lead != nil {
		g.box.Add(lead)
	}
	g.box.Add(remove)
	g.box.Add(add)
	return g
}

// visible shows a widget or hides it.
func visible(w interface {
	Show()
	Hide()
}, on bool) {
	if on {
		w.Show()
	} else {
		w.Hide()
	}
}

// itemRow edits one entry of the thing that is picked.
func (in *inputs) itemRow(l job.List, e job.Entry, at *int, uses func(job.Job) bool) row {
	label := l.Label(e)
	switch {
	case e.Choice != nil:
		var options []option
		for i, v := range e.Choice.Values {
			options = append(options, option{v, message.Of(e.Choice.Words[i])})
		}
		return newChoiceRow(choice{label: label, options: always(options), uses: uses,
			get: func(j job.Job) string { return e.Choice.At(&j, *at) },
			set: func(v string) edit.Edit { return edit.ItemChoice(l, *at, e, v) }}, in.desk)
	case e.Wall != nil:
		return in.wallChoice(label, func(j job.Job) int { return *e.Wall(&j, *at) },
			func(wall int) edit.Edit { return edit.ItemWall(l, *at, e, wall) }, uses)
	case e.Flag != nil:
		r := newCheckRow(label, in.desk, func(j job.Job) bool { return *e.Flag(&j, *at) },
			func(on bool) edit.Edit { return edit.ItemFlag(l, *at, e, on) }, uses)
		r.path = func() string { return l.Path(*at, e) }
		return r
	}
	n := number{key: l.Key + " " + e.Key, path: func() string { return l.Path(*at, e) }, label: label, uses: uses,
		kind: e.Number.Kind, step: e.Number.Step, least: e.Number.Least, greatest: e.Number.Greatest,
		get: func(j job.Job) float64 {
			if !uses(j) {
				return math.NaN()
			}
			if mm := e.Number.At(&j, *at); mm != nil {
				return *mm
			}
			return math.NaN()
		},
		set: func(v float64) edit.Edit { return edit.ItemNumber(l, *at, e, &v) }}
	if e.Number.Optional {
		n.clear = func() edit.Edit { return edit.ItemNumber(l, *at, e, nil) }
	}
	return newNumberRow(n, in.desk, in.keys)
}
