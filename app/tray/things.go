package tray

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// thingsRow edits a list of things one by one: which, its entries, and buttons to add one and
// to take it away.
type thingsRow struct {
	list job.List
	at   *int // which of them is edited
	box  *fyne.Container
	rows []Row
	add  *control.Press
	uses func(job.Job) bool
	pre  func(job.Job)
}

// Object is the editor.
func (r *thingsRow) Object() fyne.CanvasObject { return r.box }

// There tells whether it is there.
func (r *thingsRow) There() bool { return r.box.Visible() }

// Refresh follows the job.
func (r *thingsRow) Refresh(j job.Job) {
	if visible(r.box, r.uses(j)); !r.There() {
		return
	}
	r.pre(j)
	for _, row := range r.rows {
		row.Refresh(j)
	}
}

// things makes the editor of a list. Less tells whether the less used is shown.
func (t *Tray) things(i job.Input, less func() bool) *thingsRow {
	l, at := *i.Things, new(int)
	t.picked = append(t.picked, at)
	r := &thingsRow{list: l, at: at, uses: uses(i)}
	name, title := heading(""), ""
	if id, ok := l.Title(); ok {
		title = theme.Word(id)
		name = labelOver(title)
	} else if l.Most == 1 {
		name.SetText(theme.Word(l.Name(), message.No("n", 1)))
	}
	which, follow := t.picker(title, itemsOf(l), at, func() { r.Refresh(t.now) })
	head := container.New(stacked{}, name, which)
	objects := []fyne.CanvasObject{head}
	for _, e := range l.Entries() {
		there := func(j job.Job) bool {
			return *at < l.Count(&j) && e.Uses(&j, *at) && (!e.Less || less())
		}
		row := t.entry(l, e, at, there)
		r.rows = append(r.rows, row)
		t.helpOf(row, l.Help(e), l.Key+"."+e.Key)
		objects = append(objects, row.Object())
	}
	addLabel, removeLabel := "", ""
	if !l.Fixed {
		addLabel, removeLabel = theme.Word(l.AddLabel()), theme.Word(l.RemoveLabel())
	}
	r.add = control.NewPress(t.keys, addLabel, func() {
		j := t.asks.Job()
		*at = l.Count(&j)
		t.asks.Do(edit.AddItem(l))
	})
	remove := control.NewPress(t.keys, removeLabel, func() { t.asks.Do(edit.RemoveItem(l, *at)) })
	lead := control.NewPress(t.keys, theme.Word("app.lead-here"), func() { t.asks.Do(edit.LeadTo(*at)) })
	told := toldOfAll()
	r.pre = func(j job.Job) {
		n := l.Count(&j)
		*at = max(0, min(*at, n-1))
		follow(j)
		visible(name, n > 0 && name.Text != "")
		visible(which, n > 0 && l.Most > 1)
		visible(head, n > 0)
		visible(remove, n > 0 && !l.Fixed)
		visible(r.add, !l.Full(&j))
		visible(lead, n > 0 && l.Key == job.PipeEndsKey)
		tell(told, l.Said(&j), j.Units)
	}
	r.box = container.New(apart{}, append(objects, told, lead, remove, r.add)...)
	return r
}

// toldOfAll is where it stands what is to be said of all things of a list together.
func toldOfAll() *control.Text {
	return control.NewWrapped("").Styled(theme.TextSecond, false, theme.Ink)
}

// tell shows what there is to say; nothing is hidden.
func tell(told *control.Text, lines []message.Message, u unit.System) {
	if visible(told, len(lines) > 0); len(lines) > 0 {
		told.SetText(theme.Say(message.Lines(lines...), u))
	}
}

// itemsOf are the things of a list, each by its index; walls in the order of their letters.
func itemsOf(l job.List) func(job.Job) []job.Option {
	return func(j job.Job) []job.Option {
		var out []job.Option
		if l.Key == job.WallsKey {
			for _, i := range j.Room.InOrder() {
				if i < len(j.Room.Walls) {
					out = append(out, job.Option{Value: strconv.Itoa(i), Word: j.Room.Called(i)})
				}
			}
			return out
		}
		for i := range l.Count(&j) {
			out = append(out, job.Option{Value: strconv.Itoa(i), Word: l.Item(&j, i)})
		}
		return out
	}
}

// picker chooses which of several things is edited; about is what they are called together, empty for nothing.
func (t *Tray) picker(about string, items func(job.Job) []job.Option, at *int, changed func()) (which *control.Pick, follow func(job.Job)) {
	which = control.NewPick(t.keys, about, nil, "", func(id string) {
		*at, _ = strconv.Atoi(id) // as it was written for the list
		changed()
	})
	return which, func(j job.Job) {
		var options []control.Option
		for _, o := range items(j) {
			options = append(options, control.Option{ID: o.Value, Text: theme.Say(o.Word, j.Units)})
		}
		which.Set(options, strconv.Itoa(*at))
	}
}

// entry edits one statement about the thing that is picked.
func (t *Tray) entry(l job.List, e job.Entry, at *int, there func(job.Job) bool) Row {
	label, key := l.Label(e), l.Key+" "+e.Key
	switch {
	case e.Choice != nil:
		var options []job.Option
		for i, v := range e.Choice.Values {
			options = append(options, job.Option{Value: v, Word: message.Of(e.Choice.Words[i])})
		}
		return NewChoiceRow(Choice{Key: key, Label: label, Options: Always(options), Uses: there,
			Get: func(j job.Job) string { return e.Choice.At(&j, *at) },
			Set: func(v string) edit.Edit { return edit.ItemChoice(l, *at, e, v) }}, t.asks, t.keys)
	case e.Wall != nil:
		return t.wall(key, label, func(j job.Job) int { return *e.Wall(&j, *at) },
			func(wall int) edit.Edit { return edit.ItemWall(l, *at, e, wall) }, there)
	case e.Corner != nil:
		return NewChoiceRow(Choice{Key: key, Label: label, Uses: there, Options: corners,
			Get: func(j job.Job) string { return strconv.Itoa(*e.Corner(&j, *at)) },
			Set: func(v string) edit.Edit {
				corner, _ := strconv.Atoi(v) // as it was written for the options
				return edit.ItemCorner(l, *at, e, corner)
			}}, t.asks, t.keys)
	case e.Text != nil:
		r := NewTextRow(label, nil, control.NewEntry(t.keys), t.asks,
			func(j job.Job) string {
				if *at >= l.Count(&j) {
					return ""
				}
				return *e.Text.At(&j, *at)
			},
			func(_ job.Job, s string) (edit.Edit, error) { return edit.ItemText(l, *at, e, s), nil })
		r.Key, r.uses = key, there
		return r
	case e.Flag != nil:
		r := newFlagRow(key, label, func(j job.Job) bool { return *e.Flag(&j, *at) },
			func(on bool) edit.Edit { return edit.ItemFlag(l, *at, e, on) }, there, t.asks, t.keys)
		r.Path = func() string { return l.Path(*at, e) }
		return r
	}
	n := Number{Key: key, Label: label, Uses: there,
		Kind: e.Number.Kind, Step: e.Number.Step, Least: e.Number.Least, Greatest: e.Number.Greatest,
		Get: func(j job.Job) float64 {
			if *at >= l.Count(&j) || !e.Uses(&j, *at) {
				return nan()
			}
			if mm := e.Number.At(&j, *at); mm != nil {
				return *mm
			}
			return nan()
		},
		Set:      func(v float64) edit.Edit { return edit.ItemNumber(l, *at, e, &v) },
		Standing: func() string { return l.Path(*at, e) }}
	if e.Number.Optional {
		n.Clear = func() edit.Edit { return edit.ItemNumber(l, *at, e, nil) }
	}
	return NewNumberRow(n, t.asks, t.keys, nil)
}

// groundBehind is the ground outside behind the wall that the waste leaves through, beside the choice of that wall: without
// it a room lies there, and no way out.
func (t *Tray) groundBehind() Row {
	at := new(int)
	walls, e := job.GroundOutside()
	r := t.entry(walls, e, at, func(j job.Job) bool {
		*at = j.Waste.Exit.Wall
		return j.Waste.Exit.Kind == job.ExitWall && *at < walls.Count(&j)
	})
	t.helpOf(r, walls.Help(e), walls.Key+"."+e.Key)
	return r
}

// corners are those of the room, by their two walls.
func corners(j job.Job) (out []job.Option) {
	for _, wall := range j.Room.InOrder() {
		out = append(out, job.Option{Value: strconv.Itoa(wall), Word: message.Of("corner.called", message.AtCorner("corner", j.Room.Corner(wall)))})
	}
	return out
}

// key is the input's.
func (r *thingsRow) key() string { return r.list.Key }
