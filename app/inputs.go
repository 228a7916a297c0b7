package app

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
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

// inputs is the left panel: everything a job states, in the order a fitter
// surveys and builds.
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

func newInputs(d *desk.Desk, shelf part.Shelf, keys *control.Keys, about fyne.CanvasObject) *inputs {
	in := &inputs{desk: d, shelf: shelf, keys: keys,
		accordion: widget.NewAccordion(widget.NewAccordionItem(theme.Word("app.job"), about))}
	in.accordion.MultiOpen = true
	for _, g := range job.Groups() {
		box, first := container.NewVBox(), len(in.rows)
		add := func(r row) {
			in.rows = append(in.rows, r)
			box.Add(r.object())
		}
		for _, r := range in.choices(g) {
			add(r)
		}
		for _, p := range job.Parameters() {
			if p.Group == g {
				add(newNumberRow(in.partsNumber(p), in.desk, in.keys))
			}
		}
		for _, r := range slices.Concat(in.extras(g), in.listEditors(g)) {
			add(r)
		}
		item := widget.NewAccordionItem(theme.Word(g.ID()), box)
		in.groups = append(in.groups, inputGroup{g, item, in.rows[first:]})
		item.Open = g == job.GroupShower || g == job.GroupBase || g == job.GroupFormer
		in.accordion.Append(item)
	}
	return in
}

// inputGroup is one part of the panel with its fields.
type inputGroup struct {
	of   job.Group
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

// choiceOf makes a field for one of the job's lists of values.
func choiceOf[T ~string](in *inputs, label message.ID, e job.Enum[T],
	get func(job.Job) T, set func(T) edit.Edit, uses func(job.Job) bool) row {
	return newChoiceRow(choice{label: label, options: always(optionsOf(e)), get: func(j job.Job) string { return string(get(j)) },
		set: func(v string) edit.Edit { return set(T(v)) }, uses: uses}, in.desk)
}

// wallChoice chooses one of the room's walls.
func (in *inputs) wallChoice(label message.ID, get func(job.Job) int, set func(int) edit.Edit, uses func(job.Job) bool) row {
	return in.oneOf(label, "place.wall", func(j job.Job) int { return len(j.Room.Walls) }, get, set, uses)
}

// stackChoice chooses the stack that the waste goes into.
func (in *inputs) stackChoice() row {
	return in.oneOf("field.exit-stack", "item.room.stacks", func(j job.Job) int { return len(j.Room.Stacks) },
		func(j job.Job) int { return j.Waste.Exit.Stack }, edit.ExitStack,
		func(j job.Job) bool { return j.Waste.Exit.Kind == job.ExitStack })
}

// oneOf chooses one of so many things, by its index; the name of each takes n, its number.
func (in *inputs) oneOf(label, name message.ID, count, get func(job.Job) int, set func(int) edit.Edit, uses func(job.Job) bool) row {
	options := func(j job.Job) []option {
		out := make([]option, count(j))
		for i := range out {
			out[i] = option{strconv.Itoa(i), message.Of(name, message.No("n", i+1))}
		}
		return out
	}
	return newChoiceRow(choice{label: label, options: options, get: func(j job.Job) string { return strconv.Itoa(get(j)) },
		set: func(v string) edit.Edit {
			i, _ := strconv.Atoi(v) // as it was written above
			return set(i)
		}, uses: uses}, in.desk)
}

// choices are the fields with words of a group, above its numbers.
func (in *inputs) choices(g job.Group) []row {
	switch g {
	case job.GroupRoom:
		corners := in.outline()
		return []row{corners, in.shapes(corners), in.wallEditor()}
	case job.GroupFloor:
		return []row{
			choiceOf(in, "field.floor", job.FloorKinds(), func(j job.Job) job.FloorKind { return j.Floor.Kind }, edit.FloorKind, nil),
			in.timberChoice()}
	case job.GroupShower:
		return []row{in.backWall()}
	case job.GroupBase:
		return []row{in.boardsChoice(), in.baseHeight(),
			choiceOf(in, "field.support", job.SupportKinds(), func(j job.Job) job.SupportKind { return j.Base.Support }, edit.Support, timber)}
	case job.GroupFormer:
		return in.formerChoices()
	case job.GroupDrain:
		return []row{in.drainChoice(), in.outletTurn()}
	case job.GroupLayers:
		return in.styleChoices()
	case job.GroupWaste:
		return []row{
			in.pipeChoice(), in.pipeSizeChoice(),
			choiceOf(in, "field.exit", job.ExitKinds(), func(j job.Job) job.ExitKind { return j.Waste.Exit.Kind }, edit.ExitKind, nil),
			in.exitWall(), in.stackChoice(), in.exitLevelKind(), in.exitLevel()}
	}
	return nil
}

// timber tells that the structural floor is of joists.
func timber(j job.Job) bool { return j.Floor.Kind == job.FloorTimber }

// backWall chooses the wall that the shower stands at.
func (in *inputs) backWall() row {
	return in.wallChoice("field.back-wall", func(j job.Job) int { return j.Shower.Wall },
		func(i int) edit.Edit {
			return edit.Of(message.Of("edit.back-wall"), func(j *job.Job) { j.Shower.Wall = i })
		}, nil)
}

// baseHeight chooses what sets the height of the base.
func (in *inputs) baseHeight() row {
	return choiceOf(in, "field.base-height", job.HeightModes(), func(j job.Job) job.HeightMode { return j.Base.Height },
		func(m job.HeightMode) edit.Edit {
			r := in.desk.Result()
			if len(r.Problems) > 0 {
				return edit.Height(m, in.desk.Job().Base.HeightMM)
			}
			return edit.Height(m, r.Heights.BaseThicknessMM(&r.Settled))
		}, nil)
}

// formerChoices choose the former and how it falls and ends.
func (in *inputs) formerChoices() []row {
	return []row{
		choiceOf(in, "field.fall", job.FallKinds(), func(j job.Job) job.FallKind { return j.Former.Fall },
			func(k job.FallKind) edit.Edit { return edit.FallWithDrain(k, in.shelf) }, nil),
		in.formerChoice(),
		choiceOf(in, "field.drain-ends", job.EndsKinds(), func(j job.Job) job.EndsKind { return j.Former.Ends }, edit.Ends,
			func(j job.Job) bool { return j.Former.Fall.Linear() }),
		choiceOf(in, "field.open-edge", job.EdgeKinds(), func(j job.Job) job.EdgeKind { return j.Room.Edge }, edit.Edge,
			func(j job.Job) bool { return j.Former.Fall != job.FallRoom })}
}

// outletTurn chooses which way the outlet points.
func (in *inputs) outletTurn() row {
	turns := []struct {
		deg  float64
		word message.ID
	}{{0, "outlet.right"}, {90, "outlet.to-the-back"}, {180, "outlet.left"}, {270, "outlet.into-the-room"}}
	var options []option
	for _, t := range turns {
		options = append(options, option{strconv.Itoa(int(t.deg)), message.Of(t.word)})
	}
	return newChoiceRow(choice{label: "field.outlet", options: always(options),
		get: func(j job.Job) string { return strconv.Itoa(int(job.AngleDeg(j.Drain.OutletTurnDeg))) },
		set: func(v string) edit.Edit {
			i := max(0, slices.IndexFunc(options, func(o option) bool { return o.value == v }))
			return edit.TurnOutlet(turns[i].deg)
		}}, in.desk)
}

// exitWall chooses the wall that the waste goes out through.
func (in *inputs) exitWall() row {
	return in.wallChoice("field.exit-wall", func(j job.Job) int { return j.Waste.Exit.Wall },
		func(i int) edit.Edit {
			return edit.Of(message.Of("edit.exit-wall"), func(j *job.Job) { j.Waste.Exit.Wall = i })
		},
		func(j job.Job) bool { return j.Waste.Exit.Kind == job.ExitWall })
}

// exitLevelKind chooses what is known of the exit's level.
func (in *inputs) exitLevelKind() row {
	return choiceOf(in, "field.exit-level", job.ExitLevelKinds(), func(j job.Job) job.ExitLevelKind { return j.Waste.Exit.Level.Kind() },
		func(k job.ExitLevelKind) edit.Edit {
			r := in.desk.Result()
			workedOut := 0.0
			if len(r.Problems) == 0 && len(r.Heights.Run.Pieces) > 0 {
				workedOut = r.Heights.Run.InvertAt(r.Heights.Run.ExitAtMM)
			}
			return edit.ExitLevelKind(k, workedOut)
		}, nil)
}

// exitLevel is the level itself, there when it is not free.
func (in *inputs) exitLevel() row {
	return newNumberRow(number{key: "exit level", label: "field.exit-invert", kind: unit.Length, step: 1, least: -20000, greatest: 5000,
		get: func(j job.Job) float64 { mm, _ := j.Waste.Exit.Level.InvertMM(); return mm },
		set: func(v float64) edit.Edit {
			return edit.Of(message.Of("edit.exit-level"), func(j *job.Job) { j.Waste.Exit.Level = j.Waste.Exit.Level.At(v) })
		},
		uses: func(j job.Job) bool { return j.Waste.Exit.Level.Kind() != job.ExitFree }}, in.desk, in.keys)
}

// optional makes a field for a number that may be absent.
func (in *inputs) optional(key string, label message.ID, least, greatest float64,
	field func(*job.Job) **float64, set func(*float64) edit.Edit, uses func(job.Job) bool) row {
	return newNumberRow(number{key: key, label: label, kind: unit.Length, step: 1, least: least, greatest: greatest, uses: uses,
		get: func(j job.Job) float64 {
			if p := *field(&j); p != nil {
				return *p
			}
			return math.NaN()
		},
		set:   func(v float64) edit.Edit { return set(&v) },
		clear: func() edit.Edit { return set(nil) }}, in.desk, in.keys)
}

// flag makes a yes-or-no field.
func (in *inputs) flag(label, what message.ID, field func(*job.Job) *bool, uses func(job.Job) bool) row {
	return newCheckRow(label, in.desk, func(j job.Job) bool { return *field(&j) },
		func(on bool) edit.Edit { return edit.Of(message.Of(what), func(j *job.Job) { *field(j) = on }) }, uses)
}

// extras are the optional numbers and lists of a group, below its numbers.
func (in *inputs) extras(g job.Group) []row {
	switch g {
	case job.GroupFloor:
		return []row{
			in.flag("field.ceiling-below", "edit.ceiling-below", func(j *job.Job) *bool { return &j.Floor.CeilingBelow }, timber),
			in.flag("field.engineered", "edit.engineered", func(j *job.Job) *bool { return &j.Floor.Joists.Engineered }, timber),
			in.flag("field.damp", "edit.damp", func(j *job.Job) *bool { return &j.Floor.Joists.Damp }, timber),
			in.joistSupports(), in.spotLevels()}
	case job.GroupBase:
		cut := func(j *job.Job) **float64 { return &j.Base.CutAtStartMM }
		return []row{
			in.boardsAtHand(),
			in.optional("base.cutAtStartMM", "field.board-trimmed", 0, 5000, cut,
				func(v *float64) edit.Edit { return edit.Optional(message.Of("edit.board-trimmed"), cut, v) },
				func(j job.Job) bool { return j.Base.KeepZoneMM > 0 && !j.Base.Screed })}
	case job.GroupDrain:
		forward := func(j *job.Job) **float64 { return &j.Drain.ForwardMM }
		return []row{
			in.soldLengths(), in.capacityCurve(),
			in.optional("drain.forwardMM", "field.drain-forward", 0, 20000, forward,
				func(v *float64) edit.Edit { return edit.Optional(message.Of("edit.drain-place"), forward, v) },
				func(j job.Job) bool { return !j.Former.Fall.Linear() || j.Former.Fall == job.FallMid })}
	case job.GroupWaste:
		return []row{in.exitPoint(), in.waypoints(), in.fittings()}
	case job.GroupBuilt:
		return in.builtLevels()
	case job.GroupWater:
		return []row{in.showerFlows()}
	}
	return nil
}

// builtLevels are the levels measured as built.
func (in *inputs) builtLevels() []row {
	var rows []row
	for i, m := range new(job.AsBuilt).Levels() {
		rows = append(rows, in.optional("asBuilt."+m.Field, m.Label, -2000, 2000,
			func(j *job.Job) **float64 { return j.AsBuilt.Levels()[i].MM },
			func(v *float64) edit.Edit { return edit.Measured(i, v) }, nil))
	}
	return rows
}

// joinNumbers writes numbers as unit.ParseColumns reads them.
func joinNumbers(vs []float64, columns []unit.Column, u unit.System) string {
	var parts []string
	for i, v := range vs[:min(len(vs), len(columns))] {
		parts = append(parts, unit.Editable(v, columns[i].Kind, u))
	}
	return strings.Join(parts, ", ")
}
