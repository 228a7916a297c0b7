package app

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// inputs is the left panel: everything a job states, station by station of the work.
type inputs struct {
	desk      *desk.Desk
	shelf     part.Shelf
	keys      *control.Keys
	rows      []row
	accordion *widget.Accordion
	groups    []inputGroup
	picked    []*int // which item of each list is being edited
	now       job.Job
	sold      job.Sold // now, held against its parts as they are sold
}

func newInputs(d *desk.Desk, shelf part.Shelf, keys *control.Keys) *inputs {
	in := &inputs{desk: d, shelf: shelf, keys: keys,
		accordion: widget.NewAccordion()}
	in.accordion.MultiOpen = true
	for _, s := range append(job.Stations(), job.HowExact) {
		box, first := container.NewVBox(), len(in.rows)
		for _, i := range job.At(s) {
			for _, r := range in.rowsOf(i) {
				in.rows = append(in.rows, r)
				box.Add(r.object())
			}
		}
		item := widget.NewAccordionItem(theme.Word(s.ID()), box)
		in.groups = append(in.groups, inputGroup{s, item, in.rows[first:]})
		item.Open = s == job.StationShower || s == job.StationDrain
		in.accordion.Append(item)
	}
	return in
}

// rowsOf are the fields of an input.
func (in *inputs) rowsOf(i job.Input) []row {
	switch {
	case i.Number != nil:
		return []row{newNumberRow(in.partsNumber(*i.Number), in.desk, in.keys)}
	case i.Maybe != nil:
		return []row{in.optional(i)}
	case i.Choice != nil:
		return []row{in.choice(i)}
	case i.Flag != nil:
		return []row{newCheckRow(i.Label(), in.desk, func(j job.Job) bool { return *i.Flag(&j) },
			func(on bool) edit.Edit { return edit.Flag(i, on) }, uses(i))}
	case i.Wall != nil:
		return []row{in.wallChoice(i.Label(), func(j job.Job) int { return *i.Wall(&j) },
			func(wall int) edit.Edit { return edit.AtWall(i, wall) }, uses(i))}
	case i.Things != nil:
		return []row{in.listEditor(i)}
	case i.Key == job.OutlineKey:
		corners := in.lines(i)
		return []row{corners, in.shapes(corners)}
	case i.Lines != nil:
		return []row{in.lines(i)}
	}
	return []row{in.fittings(i)}
}

// uses tells whether an input is there for a job.
func uses(i job.Input) func(job.Job) bool { return func(j job.Job) bool { return i.Uses(&j) } }

// openStation opens the parts that belong to a station of the work and closes the others.
func (in *inputs) openStation(s job.Station) {
	for _, g := range in.groups {
		g.item.Open = g.of == s
		g.item.Detail.Refresh()
	}
	in.accordion.Refresh()
}

// inputGroup is one part of the panel with its fields.
type inputGroup struct {
	of   job.Station
	item *widget.AccordionItem
	rows []row
}

// notTaken names the fields of the part that show what was typed and not taken.
func (g inputGroup) notTaken() []string {
	var out []string
	for _, r := range g.rows {
		if n, ok := r.(notTakenRow); ok && n.notTaken() != "" {
			out = append(out, n.notTaken())
		}
	}
	return out
}

// notTaken names the fields of all parts that show what was typed and not taken.
func (in *inputs) notTaken() []string {
	var out []string
	for _, g := range in.groups {
		out = append(out, g.notTaken()...)
	}
	return out
}

// markGroups says on the headings which parts hold what was not taken.
func (in *inputs) markGroups() {
	for _, g := range in.groups {
		title := theme.Word(g.of.ID())
		if len(g.notTaken()) > 0 {
			title = theme.Word("input.group-not-taken", message.Name("group", title))
		}
		g.item.Title = title
	}
}

// partsNumber is the field of a parameter that parts may fill.
func (in *inputs) partsNumber(p job.Parameter) number {
	n := numberOf(p)
	n.own = func(j job.Job) message.Message {
		if asSold, own := in.sold.Own(p); own {
			return p.OwnMessage(j, asSold)
		}
		return message.Message{}
	}
	return n
}

// show follows the job.
func (in *inputs) show(j job.Job) {
	in.now, in.sold = j, j.Sold()
	for _, r := range in.rows {
		r.refresh(j)
	}
	in.markGroups()
	// Fields come and go with the job; the groups must follow.
	for _, item := range in.accordion.Items {
		if item.Open {
			item.Detail.Refresh()
		}
	}
	in.accordion.Refresh()
}

// choice is a field to choose one of a few values.
func (in *inputs) choice(i job.Input) row {
	options := func(j job.Job) []option {
		var out []option
		for _, o := range i.Choice.Options(&j, &in.shelf) {
			out = append(out, option{o.Value, o.Word})
		}
		return out
	}
	return newChoiceRow(choice{label: i.Label(), options: options, get: func(j job.Job) string { return i.Choice.At(&j) },
		set: func(v string) edit.Edit { return edit.Choose(i, v, in.outside()) }, uses: uses(i), wide: i.Choice.Parts != nil}, in.desk)
}

// outside is what an edit may need beside the job.
func (in *inputs) outside() edit.Outside {
	o := edit.Outside{Shelf: in.shelf, BaseMM: in.desk.Job().Base.HeightMM}
	r := in.desk.Result()
	if len(r.Problems) > 0 {
		return o
	}
	o.BaseMM = r.Heights.BaseThicknessMM(&r.Settled)
	if run := r.Heights.Run; len(run.Pieces) > 0 {
		o.ExitMM = run.InvertAt(run.ExitAtMM)
	}
	return o
}

// wallChoice chooses one of the room's walls.
func (in *inputs) wallChoice(label message.ID, get func(job.Job) int, set func(int) edit.Edit, uses func(job.Job) bool) row {
	options := func(j job.Job) []option {
		var out []option
		for _, i := range j.Room.InOrder() {
			out = append(out, option{strconv.Itoa(i), j.Room.Called(i)})
		}
		return out
	}
	return in.indexChoice(label, options, get, set, uses)
}

// indexChoice chooses one of several things, whose options have their indices for values.
func (in *inputs) indexChoice(label message.ID, options func(job.Job) []option, get func(job.Job) int, set func(int) edit.Edit,
	uses func(job.Job) bool) row {
	return newChoiceRow(choice{label: label, options: options, get: func(j job.Job) string { return strconv.Itoa(get(j)) },
		set: func(v string) edit.Edit {
			i, _ := strconv.Atoi(v) // as it was written there
			return set(i)
		}, uses: uses}, in.desk)
}

// optional makes a field for a length that may be absent.
func (in *inputs) optional(i job.Input) row {
	return newNumberRow(number{key: i.Key, label: i.Label(), kind: unit.Length, step: 1, least: i.Maybe.Least, greatest: i.Maybe.Greatest, uses: uses(i),
		get: func(j job.Job) float64 {
			if mm, ok := i.Maybe.At(&j); ok {
				return mm
			}
			return math.NaN()
		},
		set:   func(v float64) edit.Edit { return edit.Perhaps(i, &v) },
		clear: func() edit.Edit { return edit.Perhaps(i, nil) }}, in.desk, in.keys)
}

// lines makes a field for a list of numbers or of things told by a few numbers each.
func (in *inputs) lines(i job.Input) *textRow {
	l := i.Lines
	set := func(j *job.Job, items [][]float64) { *j = edit.Lines(i, items).Apply(*j) }
	var r *textRow
	if l.Line > 0 {
		one := func(items [][]float64) (out []float64) {
			for _, item := range items {
				out = append(out, item...)
			}
			return out
		}
		r = in.numbersRow(i.Label(), one(l.Hint), 1, l.Fewest, slices.Repeat(l.Columns, l.Line),
			func(j job.Job) []float64 { return one(l.Get(&j)) },
			func(j *job.Job, v []float64) {
				var items [][]float64
				for _, x := range v {
					items = append(items, []float64{x})
				}
				set(j, items)
			})
	} else {
		r = in.linesRow(i.Label(), l.Hint, min(4, max(1, len(l.Hint)+1)), l.Least, l.Columns,
			func(j job.Job) [][]float64 { return l.Get(&j) },
			func(j *job.Job, items [][]float64) error {
				if l.One && len(items) != 1 {
					return message.Fail("input.one-point")
				}
				set(j, items)
				return nil
			})
	}
	r.key, r.uses = i.Key, uses(i)
	if job.FilledByParts(i.Key) {
		r.filledByParts(i.Key, func() bool { return in.sold.OwnList(i.Key) })
	}
	return r
}

// joinNumbers writes numbers as unit.ParseColumns reads them.
func joinNumbers(vs []float64, columns []unit.Column, u unit.System) string {
	var parts []string
	for i, v := range vs[:min(len(vs), len(columns))] {
		parts = append(parts, unit.Editable(v, columns[i].Kind, u))
	}
	return strings.Join(parts, ", ")
}
