package app

import (
	"slices"
	"strconv"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// partChoice is a field to choose a part of one kind.
type partChoice[P part.Part] struct {
	label message.ID
	none  message.ID // the option that no part is chosen
	// of are the parts that go with a job, sold in its country or not.
	of     func(job.Job) []P
	chosen func(job.Job) *P // nil for none
	use    func(P) edit.Edit
	forget func() edit.Edit
	uses   func(job.Job) bool // nil for always
}

// row offers the parts sold in the job's country, and the one that is chosen wherever it
// is sold, by the copy of it that the job has where the shelf has it no more.
func (c partChoice[P]) row(in *inputs) row {
	// offered are the parts to choose from.
	offered := func(j job.Job) []P {
		of, chosen := part.SoldIn(c.of(j), j.Region), c.chosen(j)
		if chosen == nil || slices.ContainsFunc(of, func(p P) bool { return p.Of().ID == (*chosen).Of().ID }) {
			return of
		}
		return append(of, *chosen)
	}
	options := func(j job.Job) []option {
		var out []option
		for _, p := range offered(j) {
			out = append(out, option{p.Of().ID, part.Name(p)})
		}
		return append(out, option{"", message.Of(c.none)})
	}
	get := func(j job.Job) string {
		if chosen := c.chosen(j); chosen != nil {
			return (*chosen).Of().ID
		}
		return ""
	}
	set := func(id string) edit.Edit {
		for _, p := range offered(in.desk.Job()) {
			if p.Of().ID == id {
				return c.use(p)
			}
		}
		return c.forget()
	}
	return newChoiceRow(choice{label: c.label, options: options, get: get, set: set, uses: c.uses, wide: true}, in.desk)
}

// asEntered is the option that the numbers are those entered, of no part.
const asEntered message.ID = "field.as-entered"

func (in *inputs) timberChoice() row {
	return partChoice[part.Timber]{label: "field.strength-class", none: "field.strength-class.not-known", uses: timber,
		of:     func(job.Job) []part.Timber { return in.shelf.Timber },
		chosen: func(j job.Job) *part.Timber { return j.Floor.Joists.Timber },
		use:    func(t part.Timber) edit.Edit { return edit.UseTimber(&t) },
		forget: func() edit.Edit { return edit.UseTimber(nil) },
	}.row(in)
}

func (in *inputs) boardsChoice() row {
	return partChoice[part.Boards]{label: "field.boards", none: asEntered,
		of:     func(job.Job) []part.Boards { return in.shelf.Boards },
		chosen: func(j job.Job) *part.Boards { return j.Parts.Boards },
		use:    edit.UseBoards, forget: edit.ForgetBoards,
	}.row(in)
}

func (in *inputs) formerChoice() row {
	return partChoice[part.Former]{label: "field.former", none: asEntered,
		of:     func(job.Job) []part.Former { return in.shelf.Formers },
		chosen: func(j job.Job) *part.Former { return j.Parts.Former },
		use:    edit.UseFormer, forget: edit.ForgetFormer,
	}.row(in)
}

// drainChoice offers linear drains for falls to a line, point drains for the others.
func (in *inputs) drainChoice() row {
	return partChoice[part.Drain]{label: "field.drain", none: asEntered,
		of:     func(j job.Job) []part.Drain { return in.shelf.DrainsTo(j.Former.Fall.Linear()) },
		chosen: func(j job.Job) *part.Drain { return j.Parts.Drain },
		use:    edit.UseDrain, forget: edit.ForgetDrain,
	}.row(in)
}

func (in *inputs) tileChoice(w job.Where, label message.ID) row {
	return partChoice[part.Tile]{label: label, none: asEntered, uses: tiled(w),
		of:     func(job.Job) []part.Tile { return in.shelf.Tiles },
		chosen: func(j job.Job) *part.Tile { return j.Parts.Of(w).Tile },
		use:    func(t part.Tile) edit.Edit { return edit.UseTile(w, t) },
		forget: func() edit.Edit { return edit.ForgetTile(w) },
	}.row(in)
}

// layerChoice offers what is for a use: tanking or beds.
func (in *inputs) layerChoice(w job.Where, use part.LayerUse, label message.ID) row {
	return partChoice[part.Layer]{label: label, none: asEntered, uses: tiled(w),
		of:     func(job.Job) []part.Layer { return in.shelf.LayersFor(use) },
		chosen: func(j job.Job) *part.Layer { return *j.Parts.Of(w).Layer(use) },
		use:    func(l part.Layer) edit.Edit { return edit.UseLayer(w, l) },
		forget: func() edit.Edit { return edit.ForgetLayer(w, use) },
	}.row(in)
}

// tiled tells whether a place is tiled: its tile's thickness counts then.
func tiled(w job.Where) func(job.Job) bool {
	p, _ := job.Find("layers." + string(w) + ".tile.thicknessMM")
	return p.Uses
}

func (in *inputs) pipeChoice() row {
	return partChoice[part.PipeSystem]{label: "field.pipe-system", none: asEntered,
		of:     func(job.Job) []part.PipeSystem { return in.shelf.Pipes },
		chosen: func(j job.Job) *part.PipeSystem { return j.Parts.Pipe },
		use:    func(s part.PipeSystem) edit.Edit { return edit.UsePart(s) }, forget: edit.ForgetPipe,
	}.row(in)
}

// pipeSizeChoice offers the sizes of the system chosen, as they are called. Of a size that
// it has not, or without a system, the numbers are those entered.
func (in *inputs) pipeSizeChoice() row {
	value := func(nominalMM float64) string { return strconv.FormatFloat(nominalMM, 'g', -1, 64) }
	sizes := func(j job.Job) []part.PipeSize {
		if j.Parts.Pipe == nil {
			return nil
		}
		return j.Parts.Pipe.Sizes
	}
	options := func(j job.Job) []option {
		var out []option
		for _, z := range sizes(j) {
			out = append(out, option{value(z.NominalMM), z.Name()})
		}
		return append(out, option{"", message.Of(asEntered)})
	}
	get := func(j job.Job) string {
		for _, z := range sizes(j) {
			if z.NominalMM == j.Waste.NominalMM {
				return value(z.NominalMM)
			}
		}
		return ""
	}
	set := func(v string) edit.Edit {
		j := in.desk.Job()
		for _, z := range sizes(j) {
			if value(z.NominalMM) == v {
				return edit.UsePipe(*j.Parts.Pipe, z.NominalMM)
			}
		}
		return edit.ForgetPipe()
	}
	return newChoiceRow(choice{label: "field.pipe-size", options: options, get: get, set: set}, in.desk)
}
